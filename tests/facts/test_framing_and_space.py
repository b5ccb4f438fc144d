"""Holes in the framing, rooms and what lies outdoors: worked figures and laws."""

from collections.abc import Callable

import pytest

from planlint.facts.engine import Job
from planlint.facts.framing import carries_cable, largest_hole, runs
from planlint.facts.space import is_outdoors, room
from planlint.plan.elements import NotStated
from planlint.quantities import Length

JobFor = Callable[..., Job]
PIPED = "holes bored\n  through stud\ncircuit line\n  hot 2 x 12 AWG copper THWN-2; holes bored; raceway {}\n"


def worked(job: Job, fact: Callable[..., object], name: str = "bored") -> object:
    return fact(job.graph.one(name), job)


@pytest.mark.parametrize(("deep", "largest"), [("3-1/2 in", 1), ("5-1/2 in", 3), ("2-1/2 in", 0), ("1-1/2 in", 0)])
def test_the_largest_hole_in_the_middle(job_for: JobFor, deep: str, largest: float) -> None:
    """ecmweb.com, code Q&A 21248578, and arithmetic: a 1 in hole in the middle of 3-1/2 in leaves 1-1/4 in on both sides."""
    job = job_for(f"holes bored\n  member-depth {deep}\n")
    assert worked(job, largest_hole) == Length.of(largest, "in")


@pytest.mark.parametrize(
    ("pipes", "expected"),
    [
        ("hard\nraceway hard\n  type EMT; route inside\n", False),
        ("hard\nraceway hard\n  type PVC-40; route inside\n", False),
        ("soft\nraceway soft\n  type FMC; route inside\n", True),
        ("soft\nraceway soft\n  type ENT; route sleeve\n", True),
        ("hard, whip\nraceway hard\n  type EMT; route inside\nraceway whip\n  type LFNC-B; route above-grade\n", False),
    ],
)
def test_rigid_pipe_and_emt_need_no_distance(job_for: JobFor, pipes: str, expected: bool) -> None:
    """300.4(A)(1), exception 1, as naffainc.com prints it: RMC, IMC, rigid nonmetallic conduit and EMT are let off."""
    assert worked(job_for(PIPED.format(pipes)), carries_cable) is expected


def test_a_cable_among_pipes_decides(job_for: JobFor) -> None:
    """Law: one cable is enough."""
    text = PIPED.format("hard\nraceway hard\n  type EMT; route inside\n")
    job = job_for(text + "circuit other\n  cable 14/2 copper NM-B; holes bored\n")
    assert worked(job, carries_cable) is True
    assert [run.name for run in worked(job, runs)] == ["line", "other"]


@pytest.mark.parametrize(
    "text",
    [
        "holes bored\n  through stud\n",
        PIPED.format("hard, soft\nraceway hard\n  type EMT; route inside\nraceway soft\n  type FMC; route inside\n"),
        PIPED.format("soft\nraceway soft\n  route inside\n"),
        PIPED.format("soft\nraceway soft\n  type FMC\n"),
        "holes bored\ncircuit line\n  holes bored; breaker 20 A\n",
    ],
)
def test_what_goes_through_may_be_open(job_for: JobFor, text: str) -> None:
    """Law: holes that nobody names, and pipes of which it isn't known which passes, are an open question."""
    with pytest.raises(NotStated):
        worked(job_for(text), carries_cable)


@pytest.mark.parametrize(
    ("said", "expected"),
    [("outdoors yes", True), ("outdoors no", False), ("building house", False), ("building house; outdoors no", False)],
)
def test_outdoors(job_for: JobFor, said: str, expected: bool) -> None:
    """A place with a building is not in the open air."""
    job = job_for(f"building house\n  use one-family\nplace spot\n  {said}\n")
    assert worked(job, is_outdoors, "spot") is expected
    assert worked(job, is_outdoors, "house") is False


@pytest.mark.parametrize("said", ["use yard", "building house; outdoors yes", "outdoors unknown"])
def test_outdoors_or_not_is_open(job_for: JobFor, said: str) -> None:
    """Law: neither said, or both."""
    with pytest.raises(NotStated):
        worked(job_for(f"building house\n  use one-family\nplace spot\n  {said}\n"), is_outdoors, "spot")


def test_the_room_is_the_use_of_a_place(job_for: JobFor) -> None:
    """A building has no room of its own; a place that doesn't say its use may be any, outdoors too."""
    job = job_for("building house\n  use one-family\nplace spot\n  use bathroom\nplace other\n  outdoors yes\n")
    assert worked(job, room, "spot") == "bathroom"
    assert worked(job, room, "house") == "building"
    with pytest.raises(NotStated):
        worked(job, room, "other")
