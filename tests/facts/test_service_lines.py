"""Service lines, what they pass, overhead spans with something left out, and what shuts machines off: laws and corners."""

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.facts.engine import Job
from planlint.facts.open_cables import passes_attic_or_joists
from planlint.facts.sealed_holes import is_crowded
from planlint.facts.service_lines import has_no_gas_near, passes_another_building, service_lines
from planlint.facts.sight import disconnect_in_view, lock_is_enough
from planlint.facts.spans import hangs_high_enough, low_places, worst_shortfall
from planlint.facts.wood import harm_of_holes, wood_is_left
from planlint.plan.elements import NotStated

JobFor = Callable[..., Job]

TWO = """complete service, feeders, circuits, raceways
building house
  use one-family
place wall
  outdoors yes
trench ditch
  under yard
raceway pipe-1
  trench ditch
raceway pipe-2
  trench ditch
supply utility
  type utility; volts 120/240 V
supply other
  type utility; volts {other}
disconnect left
  at wall; mounted-on house; breaker 200 A
disconnect right
  at wall; mounted-on house; breaker 200 A
service first
  from utility; to left; raceway pipe-1; hot 2 x {size}
service second
  from {start}; to right; raceway pipe-2; hot 2 x {size}
"""


def worked(job: Job, fact: Callable[..., object], name: str) -> object:
    return fact(job.graph.one(name), job)


@pytest.mark.parametrize(
    ("size", "start", "other", "lines"),
    [
        ("1/0 AWG copper XHHW-2", "utility", "120/240 V", 1),  # 230.2: large sets underground that start together
        ("1 AWG copper XHHW-2", "utility", "120/240 V", 2),
        ("1/0 AWG aluminum XHHW-2", "other", "120/240 V", 2),  # from two transformers
        ("1/0 AWG copper XHHW-2", "other", "120/208 V", 1),  # 230.2(D): another voltage
    ],
)
def test_how_many_lines_count(job_for: JobFor, size: str, start: str, other: str, lines: int) -> None:
    job = job_for(TWO.format(size=size, start=start, other=other))
    assert len(service_lines(job.graph.one("house"), job).whole()) == lines


@pytest.mark.parametrize("gone", ["; volts 120/240 V", "; hot 2 x 1/0 AWG copper XHHW-2", "at wall; "])
def test_what_would_make_two_lines_one_is_asked(job_for: JobFor, gone: str) -> None:
    """Law: sizes, places and voltages that are left out open the count."""
    start = "other" if "volts" in gone else "utility"
    text = TWO.format(size="1/0 AWG copper XHHW-2", start=start, other="120/240 V")
    job = job_for(text.replace(gone, "", 1))
    with pytest.raises(NotStated):
        service_lines(job.graph.one("house"), job).whole()


def test_a_way_through_ones_own_house_or_the_yard(job_for: JobFor) -> None:
    """230.3 is of other buildings; a service that passes nothing but open air needs not say whom it serves."""
    text = (
        "building house\n  use one-family\nplace hall\n  building house\nplace yard\n  outdoors yes\n"
        "service open\n  cable SEU; passes yard\nservice own\n  cable SEU; passes hall\n"
    )
    job = job_for(text)
    assert worked(job, passes_another_building, "open") is False
    with pytest.raises(NotStated):
        worked(job, passes_another_building, "own")


BELOW = """building house
  use one-family
building garage
  use garage
place hall
  building house
place stall
  building garage
place yard
  outdoors yes
disconnect main
  at hall
trench ditch
  {ditch}
raceway pipe
  type RMC; {pipe}
service line
  to main; passes yard; {way}
"""
IN_PIPE, IN_DITCH = "hot 2 x 4/0 aluminum XHHW-2; raceway pipe", "cable USE-2; trench ditch"


@pytest.mark.parametrize(
    ("way", "pipe", "ditch", "passes"),
    [
        # NFPA 70 230.6: 2 in of concrete, or 18 in of earth over a pipe, and what lies below a building counts as outside it.
        (IN_PIPE, "route below-slab; at stall; concrete-cover 0 in", "under yard", True),
        (IN_PIPE, "route below-slab; at stall; concrete-cover 2 in", "under yard", False),
        (IN_PIPE, "route below-slab; at stall", "under yard", "pipe: concrete-cover"),
        (IN_PIPE, "route below-slab; at hall", "under yard", False),
        (IN_PIPE, "route in-concrete; at yard", "under yard", False),
        (IN_PIPE, "trench ditch; at stall; concrete-cover 0 in", "under building; cover 17 in", True),
        (IN_PIPE, "trench ditch; at stall", "under building; cover 18 in", False),
        (IN_PIPE, "trench ditch; concrete-cover 0 in", "under building; cover 17 in", "pipe: at"),
        (IN_PIPE, "trench ditch; at stall; concrete-cover 0 in", "cover 17 in", "ditch: under"),
        (IN_DITCH, "route riser", "under building; cover 30 in; concrete-over 2 in", False),
        (IN_DITCH, "route riser", "under building; cover 30 in", "line: the pipe that takes it out past the walls"),
        (f"{IN_DITCH}; raceway pipe", "trench ditch; at stall; concrete-cover 0 in", "under building; cover 17 in", True),
    ],
)
def test_below_a_building_that_it_does_not_supply(job_for: JobFor, way: str, pipe: str, ditch: str, passes: object) -> None:
    job = job_for(BELOW.format(way=way, pipe=pipe, ditch=ditch))
    if isinstance(passes, bool):
        assert worked(job, passes_another_building, "line") is passes
        return
    with pytest.raises(NotStated) as gap:
        worked(job, passes_another_building, "line")
    assert any(str(passes) in str(need) for need in gap.value.needs)


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("passes-over roof; attachment 12 ft; above-roof 9 ft", True),
        ("passes-over roof; attachment 12 ft; above-roof 12 in", False),
        ("passes-over roof; attachment 12 ft; above-roof 4 ft; roof-slope 5 in 12", True),
        ("passes-over roof; attachment 12 ft; above-roof 2 ft; over-overhang-only no", False),
        ("passes-over roof; attachment 12 ft; above-roof 4 ft; over-overhang-only no", None),
        ("passes-over roof; attachment 12 ft; above-roof 4 ft; roof-slope 2 in 12", None),
        ("passes-over walkway; attachment 9 ft", False),
        ("attachment 12 ft", None),
        ("attachment 9 ft", False),
        ("passes-over water; attachment 12 ft", None),
        ("passes-over water, driveway; attachment 12 ft; above-driveway 11 ft", False),
    ],
)
def test_what_is_left_out_of_a_span(job_for: JobFor, said: str, expected: bool | None) -> None:
    """Law: open where it could turn the answer, known where it can't."""
    job = job_for(f"span drop\n  {said}\n")
    if expected is None:
        with pytest.raises(NotStated):
            worked(job, hangs_high_enough, "drop")
    else:
        assert worked(job, hangs_high_enough, "drop") is expected
        assert (worked(job, low_places, "drop") == "nowhere") is expected


@settings(max_examples=40, deadline=None)
@given(st.integers(100, 300), st.integers(12, 130), st.integers(0, 12), st.booleans())
def test_shortfall_and_answer_agree(job_for: JobFor, ground: int, roof: int, rise: int, overhang: bool) -> None:
    """Law: it hangs high enough just where nothing is short; and an inch more never does harm."""

    def drop(more: int) -> tuple[bool, float]:
        text = f"passes-over roof, driveway; attachment {ground + more} in; above-driveway {ground + more} in"
        job = job_for(
            f"span drop\n  {text}; above-roof {roof + more} in; roof-slope {rise} in 12\n"
            f"  over-overhang-only {'yes' if overhang else 'no'}\n"
        )
        found = job.graph.one("drop")
        return hangs_high_enough(found, job), worst_shortfall(found, job).within("in")

    enough, short = drop(0)
    assert enough is (short <= 1e-9)
    if enough:
        assert drop(1)[0] is True


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("complete piping\nmeter socket\n  height 5 ft\n", True),
        ("meter socket\n  height 5 ft\n", False),
        ("complete piping\nmeter socket\n  height 5 ft\npiping gas-line\n  type gas\n", False),
        ("complete piping\nmeter socket\n  gas-distance 1 ft\n", False),
    ],
)
def test_no_gas_is_said_by_all_piping(job_for: JobFor, text: str, expected: bool) -> None:
    """Law: only a plan that shows all piping and no gas needs no distance."""
    assert worked(job_for(text), has_no_gas_near, "socket") is expected


def test_the_panel_may_say_what_is_in_its_sight(job_for: JobFor) -> None:
    text = "panel box\n  within-sight-of {}\ncircuit line\n  panel box\nload lathe\n  type motor\n"
    text += "load saw\n  type motor; circuit line{}\n"
    assert worked(job_for(text.format("saw", "")), disconnect_in_view, "saw") is True
    assert worked(job_for(text.format("saw", "; disconnect-in-sight no")), disconnect_in_view, "saw") is False
    with pytest.raises(NotStated):
        worked(job_for(text.format("lathe", "")), disconnect_in_view, "saw")


@pytest.mark.parametrize(("type", "expected"), [("heat-pump", False), ("dryer", None), ("motor", None)])
def test_a_switch_may_lock_or_not(job_for: JobFor, type: str, expected: bool | None) -> None:
    """Law: nothing says that a plain switch locks open; for a cooling unit it makes no difference."""
    job = job_for(f"load machine\n  type {type}; disconnect switch\n")
    if expected is None:
        with pytest.raises(NotStated):
            worked(job, lock_is_enough, "machine")
    else:
        assert worked(job, lock_is_enough, "machine") is expected


CABLES = "".join(f"circuit line-{n}\n  cable 14/2 copper NM-B; poles 1; holes foam\n" for n in range(3))


def test_holes_that_several_runs_name(job_for: JobFor) -> None:
    """Law: two share what they like; of three it has to be said how many lie in one hole."""
    assert worked(job_for(f"holes foam\n  sealed yes\n{CABLES[: CABLES.index('circuit line-2')]}"), is_crowded, "foam") is False
    assert worked(job_for(f"holes foam\n  sealed yes; together 2\n{CABLES}"), is_crowded, "foam") is False
    with pytest.raises(NotStated):
        worked(job_for(f"holes foam\n  sealed yes\n{CABLES}"), is_crowded, "foam")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("complete rooms\nplace hall\n  use hallway\n", False),
        ("place hall\n  use hallway\n", None),
        ("complete rooms\nplace attic\n  use attic; finished yes\n", False),
        ("complete rooms\nplace attic\n  use attic\n", None),
        ("complete rooms\nplace crawl\n  use crawl-space\n", None),
        ("complete rooms\nplace spot\n  finished no\n", None),
    ],
)
def test_a_house_without_attic_asks_nothing(job_for: JobFor, text: str, expected: bool | None) -> None:
    """Law: what a cable passes need not be said only where all rooms are shown and none is of that sort."""
    job = job_for(f"{text}circuit line\n  cable 14/2 copper NM-B; poles 1\n")
    if expected is None:
        with pytest.raises(NotStated):
            worked(job, passes_attic_or_joists, "line")
    else:
        assert worked(job, passes_attic_or_joists, "line") is expected


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("through stud; member-depth 5 in; diameter 2 in; edge-distance 1 in", True),
        ("through stud; member-depth 5 in; diameter 2.5 in; edge-distance 1 in", None),
        ("through stud; member-depth 5 in; diameter 3.5 in", False),
        ("through joist; edge-distance 1 in", False),
        ("through plate; member-depth 3-1/2 in; diameter 2 in; bearing no", True),
        ("through plate; member-depth 3-1/2 in; diameter 2 in; bearing yes", None),
        ("through truss", False),
        ("through metal-stud", True),
        ("through i-joist; diameter 1 in", None),
    ],
)
def test_what_is_left_out_of_holes(job_for: JobFor, said: str, expected: bool | None) -> None:
    """Law: open where it could turn the answer, known where it can't."""
    job = job_for(f"holes bored\n  {said}\n")
    if expected is None:
        with pytest.raises(NotStated):
            worked(job, wood_is_left, "bored")
    else:
        assert worked(job, wood_is_left, "bored") is expected
        assert (worked(job, harm_of_holes, "bored") == "nothing") is expected


@pytest.mark.parametrize(
    ("said", "asked"), [("", "guarded"), ("; guarded yes", ""), ("; guarded no", "passes"), ("; passes unknown", "guarded")]
)
def test_eyes_tell_where_the_plan_does_not(job_for: JobFor, said: str, asked: str) -> None:
    """Law: where it isn't said what a cable passes, the inspector looks whether it is guarded; if not, it has to."""
    job = job_for(f"place attic\n  use attic; finished no\ncircuit line\n  cable 14/2 copper NM-B; poles 1{said}\n")
    if not asked:
        assert worked(job, passes_attic_or_joists, "line") is True
        return
    with pytest.raises(NotStated) as gap:
        worked(job, passes_attic_or_joists, "line")
    assert {need.attribute for need in gap.value.needs} == {asked}
