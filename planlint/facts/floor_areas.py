"""The rooms of a building against the floor area that its load is worked out from."""

from collections.abc import Iterator

from planlint.facts.engine import Job, fact
from planlint.plan.elements import Need, NotStated
from planlint.plan.members import Members
from planlint.plan.site import Building, Place
from planlint.quantities import Area

NO_AREA = Area.of(0, "sq ft")


@fact
def rooms(building: Building, job: Job) -> Members[Place]:
    """Its rooms, as far as they count to the floor area that a dwelling's load is worked out from.

    Not open porches, garages, and spaces that aren't finished. NFPA 70 220.12 (2020: 220.11, 2023: 220.5(C)).
    """
    return job.graph.those(Place, "building", building).where(lambda room: counts_as_floor(room, job))


def counts_as_floor(room: Place, job: Job) -> bool:
    """Whether its area is part of the floor area; of basements and attics, if they are finished. Raises NotStated."""
    if room.use in job.setting("rooms.finished-only"):
        return room.finished
    return room.use not in job.setting("rooms.not-counted")


@fact
def rooms_area(building: Building, job: Job) -> Area:
    """Floor areas of its rooms, added; not stated while a room may be missing or leaves out its area."""
    found = rooms(building, job).whole()
    together = _added(room.floor_area for room in found)
    job.step(" + ".join(f"{room.name} {room.floor_area}" for room in found), together)
    return together


@fact
def stated_rooms_area(building: Building, job: Job) -> Area:
    """Floor areas of those of its rooms that state one, added: the least that it has."""
    return _added(room.floor_area for room in rooms(building, job) if room.states("floor-area"))


@fact
def holds_its_rooms(building: Building, job: Job) -> bool:
    """Whether its floor area is at least that of its rooms together.

    No as soon as those that state an area are more; yes only where every room is shown with its area.
    NFPA 70 220.12 (2020: 220.11, 2023: 220.5(C)).
    """
    least = stated_rooms_area(building, job)
    job.step(f"floor area {building.floor_area}, rooms as far as stated {least}")
    if building.floor_area < least:
        return False
    found = rooms(building, job)
    gaps = (*(Need(room, "floor-area") for room in found if not room.states("floor-area")), *found.gaps)
    if gaps:
        raise NotStated(*gaps)
    return True


def _added(areas: Iterator[Area]) -> Area:
    together = NO_AREA
    for area in areas:
        together = together + area
    return together
