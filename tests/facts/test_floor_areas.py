"""Rooms against the floor area: known too large, known to fit, or open."""

from collections.abc import Callable

import pytest

from planlint.facts.engine import Job
from planlint.facts.floor_areas import holds_its_rooms, rooms, rooms_area, stated_rooms_area
from planlint.plan.elements import NotStated
from planlint.quantities import Area

JobFor = Callable[..., Job]
HOUSE = """complete rooms
building house
  use one-family; floor-area {area}
place kitchen
  building house; use kitchen; floor-area 200 sq ft
place bedroom
  building house; use bedroom; floor-area 150 sq ft
place carport
  building house; use garage; floor-area 400 sq ft
place yard
  outdoors yes; use yard
"""


@pytest.mark.parametrize(("area", "fits"), [("350 sq ft", True), ("349.9 sq ft", False), ("32.6 sq m", True), ("32 sq m", False)])
def test_at_the_limit(job_for: JobFor, area: str, fits: bool) -> None:
    """200 + 150 = 350 sq ft; a garage doesn't count (NFPA 70 220.12)."""
    job = job_for(HOUSE.format(area=area))
    house = job.graph.one("house")
    assert rooms_area(house, job) == stated_rooms_area(house, job) == Area.of(350, "sq ft")
    assert holds_its_rooms(house, job) is fits


@pytest.mark.parametrize(
    ("before", "after", "need"),
    [
        ("complete rooms\n", "", "complete rooms"),
        ("bedroom; floor-area 150 sq ft", "bedroom", "bedroom: floor-area"),
        ("use bedroom; ", "", "bedroom: use"),
        ("use bedroom; ", "use basement; ", "bedroom: finished"),
        ("place bedroom\n  building house; ", "place bedroom\n  ", "bedroom: building"),
    ],
)
def test_less_said_is_never_another_answer(job_for: JobFor, before: str, after: str, need: str) -> None:
    for area in ("400 sq ft", "300 sq ft"):
        job = job_for(HOUSE.format(area=area).replace(before, after))
        with pytest.raises(NotStated) as gap:
            rooms_area(job.graph.one("house"), job)
        assert need in str(gap.value)
    job = job_for(HOUSE.format(area="400 sq ft").replace(before, after))
    with pytest.raises(NotStated) as gap:
        holds_its_rooms(job.graph.one("house"), job)
    assert need in str(gap.value)


def test_what_is_stated_may_be_too_much_already(job_for: JobFor) -> None:
    job = job_for(HOUSE.format(area="340 sq ft").replace("complete rooms\n", ""))
    assert not holds_its_rooms(job.graph.one("house"), job)
    job = job_for(HOUSE.format(area="190 sq ft").replace("; floor-area 150 sq ft", ""))
    assert not holds_its_rooms(job.graph.one("house"), job)


@pytest.mark.parametrize(("finished", "counts"), [("yes", True), ("no", False)])
def test_a_basement_counts_where_it_is_finished(job_for: JobFor, finished: str, counts: bool) -> None:
    job = job_for(HOUSE.format(area="400 sq ft") + f"place below\n  building house; use basement; finished {finished}\n")
    assert ("below" in [room.name for room in rooms(job.graph.one("house"), job)]) is counts
