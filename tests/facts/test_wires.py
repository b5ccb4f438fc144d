"""Where the wires of a run and its breaker are read from, and what stays open."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.engine import Job
from planlint.facts.surroundings import current_carrying
from planlint.facts.wires import (
    breaker_rating,
    cable_type,
    ground_size,
    has_neutral,
    hot_size,
    hot_wires,
    is_cable,
    neutral_size,
)
from planlint.plan.elements import NotStated
from planlint.quantities import Current
from planlint.trade import NO_WIRE, WireSize

JobFor = Callable[..., Job]


def worked(job: Job, fact: Callable[[Any, Job], Any], name: str = "run") -> Any:
    return fact(job.graph.one(name), job)


def open_needs(job: Job, fact: Callable[[Any, Job], Any], name: str = "run") -> list[str]:
    with pytest.raises(NotStated) as gap:
        worked(job, fact, name)
    return [str(need) for need in gap.value.needs]


def test_a_cable_says_all_its_wires(job_for: JobFor) -> None:
    """UL 719: a 6/3 NM-B cable has three insulated wires of 6 AWG and a ground of 10 AWG."""
    job = job_for("circuit run\n  cable 6/3 copper NM-B\n")
    assert worked(job, is_cable)
    assert worked(job, cable_type) == "NM-B"
    assert worked(job, hot_size) == worked(job, neutral_size) == WireSize("6", "copper")
    assert worked(job, hot_wires).count == 2
    assert worked(job, ground_size) == WireSize("10", "copper")


@pytest.mark.parametrize(("poles", "hots", "neutral"), [(1, 1, True), (2, 2, False)])
def test_the_poles_say_what_a_cable_of_two_wires_has(job_for: JobFor, poles: int, hots: int, neutral: bool) -> None:
    job = job_for(f"circuit run\n  cable 12/2 copper NM-B; poles {poles}\n")
    assert worked(job, hot_wires).count == hots
    assert worked(job, has_neutral) is neutral
    assert worked(job, current_carrying) == 2


def test_without_the_poles_a_cable_of_two_wires_is_open(job_for: JobFor) -> None:
    job = job_for("circuit run\n  cable 12/2 copper NM-B\n")
    assert open_needs(job, has_neutral) == ["run: poles"]


@pytest.mark.parametrize(
    ("text", "fact", "need"),
    [
        ("cable 12/2 NM-B", hot_size, "run: cable, its metal (copper or aluminum)"),
        ("cable SER; hot 2 x 2 AWG", hot_size, "run: hot, its metal (copper or aluminum)"),
        ("cable 12/2 copper NM-B; hot 10 AWG copper", hot_size, "run: hot, because it is not the size that 12/2 copper NM-B has"),
        ("cable SER", hot_size, "run: hot"),
        ("cable 4/3 aluminum SER", ground_size, "run: ground"),
        ("cable 12/2 copper NM-B; ground unknown", ground_size, "run: ground"),
        ("hot 2 x 6 AWG copper THWN-2", cable_type, "run: cable, or the raceway that its wires lie in"),
        ("length 20 ft", cable_type, "run: cable"),
    ],
)
def test_what_is_left_out_stays_open(job_for: JobFor, text: str, fact: Any, need: str) -> None:
    assert open_needs(job_for(f"circuit run\n  {text}\n"), fact) == [need]


def test_loose_wires_are_named_by_what_they_lie_in(job_for: JobFor) -> None:
    job = job_for("circuit run\n  hot 2 x 6 AWG copper THWN-2; raceway pipe\nraceway pipe\n  type EMT\n")
    assert worked(job, cable_type) == "none"


def test_a_stated_ground_goes_before_the_cables_own(job_for: JobFor) -> None:
    assert worked(job_for("circuit run\n  cable 12/2 copper NM-B; ground none\n"), ground_size) == NO_WIRE


@pytest.mark.parametrize(
    ("gear", "rating"),
    [("disconnect end\n  breaker 150 A", 150), ("disconnect end\n  fuses 100 A", 100), ("panel end\n  main 125 A", 125)],
)
def test_a_service_is_held_down_at_its_end(job_for: JobFor, gear: str, rating: float) -> None:
    assert worked(job_for(f"{gear}\nservice run\n  to end\n"), breaker_rating) == Current.of(rating, "A")


def test_ahead_of_a_meter_the_main_behind_it_counts(job_for: JobFor) -> None:
    job = job_for("""complete service, feeders
meter post
  rating 200 A
disconnect end
  breaker 150 A
supply utility
  type utility
service run
  from utility; to post
service rest
  from post; to end
""")
    assert worked(job, breaker_rating) == Current.of(150, "A")


def test_two_mains_behind_a_meter_give_no_single_rating(job_for: JobFor) -> None:
    job = job_for("""complete service, feeders
meter post
  rating 320 A
disconnect one
  breaker 150 A
disconnect two
  breaker 150 A
supply utility
  type utility
service run
  from utility; to post
service rest
  from post; to one
service other
  from post; to two
""")
    assert open_needs(job, breaker_rating) == ["post: the one breaker that holds down what run carries"]


def test_breaker_and_fuses_that_differ_leave_it_open(job_for: JobFor) -> None:
    job = job_for("feeder run\n  breaker 60 A; fuses 50 A\n")
    assert open_needs(job, breaker_rating) == ["run: breaker or fuses, because the two differ"]
    assert worked(job_for("feeder run\n  breaker 60 A; fuses 60 A\n"), breaker_rating) == Current.of(60, "A")
