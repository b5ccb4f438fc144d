"""Laws and edge cases of fill, jam and pulls; the published figures are in tests/published/test_conduit_fill.py."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.engine import Job
from planlint.facts.fill import contents_area, fill, fill_limit, has_three_alike, jam_ratio, most_alike, smallest_size
from planlint.facts.pulls import bend_radius_needed, known_bend, most_bent, pull_begins, total_bend
from planlint.plan.elements import NotStated

JobFor = Callable[..., Job]
# Chapter 9: 12 AWG THWN-2 takes 0.0133 sq in, bare 12 AWG 0.006 (Tables 5 and 8).
TWELVE = 0.0133
RUN = "circuit bench\n  hot 2 x 12 AWG copper THWN-2; neutral none; raceway pipe; ground"
PIPE = "raceway pipe\n  type EMT; size 1/2 in; route inside"


def of(job: Job, fact: Callable[[Any, Job], Any], name: str = "pipe") -> Any:
    return fact(job.graph.one(name), job)


def area(job: Job) -> float:
    return float(of(job, contents_area).within("sq in"))


def open_attribute(job: Job, fact: Callable[[Any, Job], Any], name: str = "pipe") -> list[str]:
    with pytest.raises(NotStated) as gap:
        of(job, fact, name)
    return [f"{need.element.name}.{need.attribute}" for need in gap.value.needs]


@pytest.mark.parametrize(
    ("ground", "room"), [("none", 2 * TWELVE), ("12 AWG copper THWN-2", 3 * TWELVE), ("12 AWG copper bare", 2 * TWELVE + 0.006)]
)
def test_grounds_take_room(job_for: JobFor, ground: str, room: float) -> None:
    """Chapter 9 notes 3 and 8: equipment grounds count, bare ones by Table 8."""
    assert area(job_for(f"{RUN} {ground}\n{PIPE}\n")) == pytest.approx(room)


def test_what_it_holds_counts_beside_its_runs(job_for: JobFor) -> None:
    job = job_for(f"{RUN} none\n{PIPE}; holds 3 x 12 AWG copper THWN-2\n")
    assert area(job) == pytest.approx(5 * TWELVE)


def test_all_runs_of_a_pipe_count(job_for: JobFor) -> None:
    other = RUN.replace("circuit bench", "circuit wheel")
    assert area(job_for(f"{RUN} none\n{other} none\n{PIPE}\n")) == pytest.approx(4 * TWELVE)


@pytest.mark.parametrize(("together", "sets"), [("yes", 2), ("no", 1)])
def test_parallel_sets(job_for: JobFor, together: str, sets: int) -> None:
    """Two sets in one pipe if they are kept together; otherwise one in each."""
    job = job_for(f"{RUN} none; sets 2; kept-together {together}\n{PIPE}\n")
    assert area(job) == pytest.approx(2 * sets * TWELVE)


def test_a_cable_is_one_round_wire(job_for: JobFor) -> None:
    """Chapter 9 note 9: a flat cable is taken as a circle of its wide side; one cable may take 53 %."""
    job = job_for(f"circuit pump\n  cable 12/2 copper UF-B; cable-width 0.4 in; raceway pipe\n{PIPE}\n")
    assert area(job) == pytest.approx(3.14159265 / 4 * 0.16)
    assert of(job, fill_limit).within("%") == pytest.approx(53)


@pytest.mark.parametrize(
    ("plan", "asked"),
    [
        (f"{RUN} none; sets 2\n{PIPE}\n", ["bench.kept-together"]),
        (RUN.replace(" THWN-2", "") + f" none\n{PIPE}\n", ["bench.hot"]),
        (f"{RUN} 12 AWG copper\n{PIPE}\n", ["bench.ground"]),
        (RUN.replace("; ground", f"\n{PIPE}\n"), ["bench.ground"]),
        (f"{RUN} none\n{PIPE}; holds unknown\n", ["pipe.holds"]),
        (f"circuit pump\n  cable 12/2 copper UF-B; raceway pipe\n{PIPE}\n", ["pump.cable-width"]),
        (f"{PIPE}\n", ["pipe.holds"]),
        (f"circuit stray\n  hot 2 x 12 AWG copper THWN-2\n{RUN} none\n{PIPE}\n", ["stray.raceway"]),
    ],
)
def test_what_is_left_out_leaves_the_fill_open(job_for: JobFor, plan: str, asked: list[str]) -> None:
    assert open_attribute(job_for(plan), fill) == asked


def test_an_empty_pipe(job_for: JobFor) -> None:
    job = job_for(f"{PIPE}; holds none\n")
    assert area(job) == 0
    assert of(job, has_three_alike) is False
    assert open_attribute(job, jam_ratio) == ["pipe."]  # the question does not arise


def test_more_wires_never_take_less_and_never_need_a_smaller_pipe(job_for: JobFor) -> None:
    counts = range(1, 40)
    text = "".join(
        PIPE.replace("pipe", f"p{count}", 1) + f"; length 10 ft; holds {count} x 12 AWG copper THWN-2\n" for count in counts
    )
    job = job_for(text)
    shares = [of(job, fill, f"p{count}").within("%") for count in counts]
    sizes = [of(job, smallest_size, f"p{count}").inches for count in counts]
    assert shares == sorted(shares)
    assert sizes == sorted(sizes)


NIPPLES = """
circuit bench
  hot 10 x 12 AWG copper THWN-2; neutral none; ground none; raceway first, second
raceway first
  type EMT; size 1/2 in; route inside; length 12 in; continues second
raceway second
  type EMT; size 1/2 in; route inside; length {length}{continues}
"""


@pytest.mark.parametrize(("length", "limit"), [("12 in", 60), ("12.1 in", 40)])
@pytest.mark.parametrize("name", ["first", "second"])
def test_a_nipple_is_measured_over_its_whole_pull(job_for: JobFor, length: str, limit: float, name: str) -> None:
    """Chapter 9 note 4: 24 in between enclosures. A piece of 12 in that goes on for 12.1 in more is none."""
    job = job_for(NIPPLES.format(length=length, continues=""))
    assert of(job, fill_limit, name).within("%") == pytest.approx(limit)


@pytest.mark.parametrize(("left_out", "asked"), [("length 12 in; ", "first.length"), ("; continues second", "first.continues")])
def test_an_overfull_pipe_asks_whether_it_is_a_nipple(job_for: JobFor, left_out: str, asked: str) -> None:
    """Filled to 44 %: its length and what continues it decide; a pipe under 40 % doesn't ask."""
    plan = NIPPLES.format(length="12 in", continues="").replace(left_out, "", 1)
    assert open_attribute(job_for(plan), fill_limit, "first") == [asked]
    assert of(job_for(plan.replace("10 x", "9 x")), fill_limit, "first").within("%") == pytest.approx(40)


def test_a_short_riser_is_no_nipple(job_for: JobFor) -> None:
    """Chapter 9 note 4 speaks of nipples between enclosures; a riser ends in the soil."""
    size = "type PVC-80; size 1 in; length 20 in; bends none; continues none; holds 8 x 8 AWG copper THWN-2"
    between = f"complete raceways\nraceway pipe\n  route inside; {size}"
    assert of(job_for(f"{between}\n"), fill_limit).within("%") == 60
    assert of(job_for(f"{between.replace('route inside', 'route riser')}\n"), fill_limit).within("%") < 45


def test_wires_of_two_sizes_are_not_counted_up(job_for: JobFor) -> None:
    """Chapter 9 note 7 speaks of wires all of one size: 8.96 of 14 AWG count as nine in 1/2 in PVC-80; a mixed lot doesn't."""
    alike = "raceway pipe\n  type PVC-80; size 1/2 in; route inside; length 10 ft; holds 9 x 14 AWG copper THWN-2"
    mixed = alike.replace(
        "9 x 14 AWG copper THWN-2", "7 x 14 AWG copper THWN-2, 1 x 12 AWG copper THWN-2, 1 x 16 AWG copper bare"
    )
    assert of(job_for(f"{alike}\n"), fill_limit).within("%") > 40
    assert of(job_for(f"{alike}\n"), most_alike) == 9
    assert of(job_for(f"{mixed}\n"), fill_limit).within("%") == 40
    assert open_attribute(job_for(f"{mixed}\n"), most_alike) == ["pipe."]  # the question does not arise


@pytest.mark.parametrize(("holds", "three"), [("2 x 2/0", False), ("3 x 2/0", True), ("4 x 2/0", False)])
def test_only_three_of_the_largest_can_wedge(job_for: JobFor, holds: str, three: bool) -> None:
    job = job_for(f"{PIPE}; holds {holds} AWG copper THHN, 3 x 6 AWG copper THHN\n".replace("2/0 AWG", "2/0"))
    assert of(job, has_three_alike) is three


PULL = """
circuit kiln
  hot 2 x 6 AWG copper THWN-2; raceway below, riser
raceway below
  bends 90 deg, 90 deg{below}
raceway riser
  bends 90 deg{riser}
"""


def test_a_pull_is_judged_once(job_for: JobFor) -> None:
    """At its first piece, with all that continues it."""
    job = job_for(PULL.format(below="; continues riser", riser=""))
    assert [of(job, pull_begins, name) for name in ("below", "riser")] == [True, False]
    assert of(job, total_bend, "below").within("deg") == 270
    assert of(job, most_bent, "below").name == "below"


def test_a_box_between_makes_two_pulls(job_for: JobFor) -> None:
    job = job_for(PULL.format(below="; continues none", riser=""))
    assert [of(job, pull_begins, name) for name in ("below", "riser")] == [True, True]
    assert [of(job, total_bend, name).within("deg") for name in ("below", "riser")] == [180, 90]


@pytest.mark.parametrize("said", ["", "; continues unknown"])
def test_whether_the_next_piece_continues_it_is_asked(job_for: JobFor, said: str) -> None:
    """What it turns at the least is known all the same."""
    job = job_for(PULL.format(below=said, riser=""))
    assert open_attribute(job, total_bend, "below") == ["below.continues"]
    assert open_attribute(job, pull_begins, "riser") == ["below.continues"]
    assert of(job, known_bend, "below").within("deg") == 180
    assert of(job, pull_begins, "below") is True


def test_a_spare_pipe_must_say_where_it_ends(job_for: JobFor) -> None:
    """No run tells what follows it; what leads to it can only be another spare, for runs name all their pipes."""
    spares = "raceway spare\n  bends 90 deg; holds none{end}\nraceway other\n  bends none; holds none{other}\n"
    plan = f"complete raceways\n{PULL.format(below='; continues none', riser='').lstrip()}{spares}"
    assert open_attribute(job_for(plan.format(end="", other="")), total_bend, "spare") == ["spare.continues"]
    assert open_attribute(job_for(plan.format(end="", other="")), pull_begins, "spare") == ["other.continues"]
    closed = job_for(plan.format(end="; continues none", other="; continues none"))
    assert of(closed, pull_begins, "spare") is True
    assert of(closed, total_bend, "spare").within("deg") == 90


def test_bends_left_out_are_open(job_for: JobFor) -> None:
    job = job_for(PULL.format(below="; continues riser", riser="").replace("  bends 90 deg\n", "  type EMT\n"))
    assert open_attribute(job, total_bend, "below") == ["riser.bends"]


@pytest.mark.parametrize(
    ("type", "radius", "least"),
    [("EMT", "5 in", 9.5), ("LFNC-B", "5 in", 12), ("PVC-40", "9.4 in", 9.5), ("PVC-40", "12 in", 12), ("RMC", "9.4 in", 9.5)],
)
def test_least_radius_of_a_two_inch_pipe(job_for: JobFor, type: str, radius: str, least: float) -> None:
    """Chapter 9 Table 2: 9-1/2 in with one-shot and full-shoe benders, 12 in otherwise."""
    job = job_for(f"raceway pipe\n  type {type}; size 2 in; bend-radius {radius}\n")
    assert of(job, bend_radius_needed).within("in") == least


@pytest.mark.parametrize(("type", "radius"), [("PVC-80", "9-1/2 in"), ("IMC", "11.9 in"), ("RMC", "10 in")])
def test_a_radius_between_the_columns_is_open(job_for: JobFor, type: str, radius: str) -> None:
    job = job_for(f"raceway pipe\n  type {type}; size 2 in; bend-radius {radius}\n")
    assert open_attribute(job, bend_radius_needed) == ["pipe.bend-radius"]


def test_polyethylene_has_no_row(job_for: JobFor) -> None:
    job = job_for("raceway pipe\n  type HDPE; size 2 in; bend-radius 20 in\n")
    assert open_attribute(job, bend_radius_needed) == ["pipe.type"]
