"""Receptacles that bathrooms, halls, foyers, garages, basements, outbuildings and the outdoors want, and those that are there."""

from planlint.facts.buildings import building_at, building_served, is_dwelling
from planlint.facts.engine import Job, fact
from planlint.facts.ground_fault_places import is_within_of
from planlint.facts.outlet_volts import receptacle_volts
from planlint.facts.space import is_outdoors
from planlint.facts.supplies import has_power
from planlint.facts.wall_spaces import has_receptacle, is_in_dwelling
from planlint.plan.elements import NotStated, not_stated
from planlint.plan.members import Members, all_hold
from planlint.plan.outlets import Receptacles
from planlint.plan.site import Building, Place
from planlint.plan.spaces import WallSpace
from planlint.quantities import Length, Voltage


@fact
def is_usual_voltage(receptacles: Receptacles, job: Job) -> bool:
    """Whether they are the usual 125-volt receptacles: as stated, or because a breaker of one pole feeds them. NFPA 70 210.52."""
    most: Voltage = job.setting("is-usual-voltage.most")
    return receptacle_volts(receptacles, job) <= most


@fact
def receptacles_here(place: Place, job: Job) -> Members[Receptacles]:
    """The receptacles at it."""
    return job.graph.those(Receptacles, "at", place)


@fact
def counts_for_room(receptacles: Receptacles, job: Job) -> bool:
    """Whether they count as those that a room wants: the usual voltage, within reach, and not there for one appliance.

    NFPA 70 210.52(4) (not above 5-1/2 ft), 210.52(G) (in addition to those for specific equipment; 2023: nor for an alarm).
    """
    return all_hold(
        lambda: receptacles.height <= job.setting("counts-for-room.most-height"),
        lambda: any(purpose in job.setting("counts-for-room.serving") for purpose in receptacles.serves),
        lambda: is_usual_voltage(receptacles, job),
    )


@fact
def receptacles_needed(spot: Place | Building, job: Job) -> int:
    """How many receptacles it wants: one for each vehicle bay, each unfinished basement, each long hallway and outbuilding with
    power; in a large foyer one for each wall that is long enough. None elsewhere.

    NFPA 70 210.52(G), (H), (I).
    """
    if isinstance(spot, Building):
        return _for_outbuilding(spot, job)
    if spot.use == "garage":
        return _for_garage(spot, job)
    wanting = {"basement": _for_basement, "hallway": _for_hallway, "foyer": _for_foyer}
    if spot.use not in wanting or not is_in_dwelling(spot, job):
        return 0
    return wanting[spot.use](spot, job)


@fact
def wants_receptacles(spot: Place | Building, job: Job) -> bool:
    """Whether it wants any of these; of a foyer known with one wall that is long enough. NFPA 70 210.52(G), (H), (I)."""
    if not isinstance(spot, Place) or spot.use != "foyer":
        return receptacles_needed(spot, job) > 0
    return all_hold(
        lambda: is_in_dwelling(spot, job),
        lambda: spot.floor_area > job.setting("receptacles-needed.largest-foyer"),
        lambda: foyer_walls(spot, job).some(lambda wall: True),
    )


def _for_outbuilding(building: Building, job: Job) -> int:
    if is_dwelling(building, job) or not has_power(building, job):
        return 0
    # A detached garage is asked for its bays where it is named as a room.
    if building.use == "garage" and job.graph.those(Place, "building", building).some(lambda place: place.use == "garage"):
        return 0
    return 1


def _for_garage(place: Place, job: Job) -> int:
    home = building_at(place)
    if home is None or not (is_dwelling(home, job) or has_power(home, job)):
        return 0
    return place.vehicle_bays


def _for_basement(place: Place, job: Job) -> int:
    return 0 if place.finished else 1


def _for_hallway(place: Place, job: Job) -> int:
    return 1 if place.length >= job.setting("receptacles-needed.least-hallway") else 0


def _for_foyer(place: Place, job: Job) -> int:
    return len(foyer_walls(place, job).whole()) if place.floor_area > job.setting("receptacles-needed.largest-foyer") else 0


def foyer_walls(place: Place, job: Job) -> Members[WallSpace]:
    """The stretches of its wall that are long enough to want a receptacle of their own. NFPA 70 210.52(I)."""
    least: Length = job.setting("receptacles-needed.least-foyer-wall")
    return job.graph.those(WallSpace, "at", place).where(lambda wall: wall.length >= least)


@fact
def receptacle_count(spot: Place | Building, job: Job) -> int:
    """How many of its receptacles count for that; in a foyer, how many of its longer walls have one.

    NFPA 70 210.52(G), (H), (I).
    """
    if isinstance(spot, Place) and spot.use == "foyer":
        return len(foyer_walls(spot, job).where(lambda wall: has_receptacle(wall, job)).whole())
    found = _inside(spot, job).where(lambda one: counts_for_room(one, job)).whole()
    total = sum(one.count for one in found)
    if isinstance(spot, Building) or spot.use != "garage" or spot.vehicle_bays < 2:
        return total
    in_bays = sum(one.count for one in found if "vehicle-bay" in one.serves)
    if in_bays < spot.vehicle_bays <= total:
        not_stated(spot, "use", f"{spot.name}: which receptacles are in its vehicle bays (serves vehicle-bay)")
    return in_bays


@fact
def has_receptacles_needed(spot: Place | Building, job: Job) -> bool:
    """Whether it has as many receptacles as it wants; known too where others may be missing. NFPA 70 210.52(G), (H), (I)."""
    if isinstance(spot, Place) and spot.use == "foyer":
        return foyer_walls(spot, job).every(lambda wall: has_receptacle(wall, job))
    needed = receptacles_needed(spot, job)
    try:
        return receptacle_count(spot, job) >= needed
    except NotStated:
        bays = isinstance(spot, Place) and spot.use == "garage" and spot.vehicle_bays > 1
        sure = _inside(spot, job).where(lambda one: counts_for_room(one, job))
        if sum(one.count for one in sure if not bays or "vehicle-bay" in one.serves) >= needed:
            return True
        raise


def _inside(spot: Place | Building, job: Job) -> Members[Receptacles]:
    if isinstance(spot, Place):
        return receptacles_here(spot, job)
    return job.graph.all(Receptacles).where(lambda one: building_at(one.at) is spot)


@fact
def basins_are_served(place: Place, job: Job) -> bool:
    """Whether a receptacle is near enough to each washbasin of a bathroom, and not too high. NFPA 70 210.52(4), (D)."""
    most: Length = job.setting("basins-are-served.most-distance")
    several = place.basins > 1
    return place.basins == 0 or all_hold(
        lambda: not several or place.basin_receptacle <= most,
        lambda: receptacles_here(place, job).some(
            lambda one: all_hold(
                lambda: several or one.distance_to_basin <= most,
                lambda: is_usual_voltage(one, job),
                lambda: one.height <= job.setting("counts-for-room.most-height"),
            )
        ),
    )


@fact
def is_clear_of_tub(receptacles: Receptacles, job: Job) -> bool:
    """Whether they keep clear of bathtub and shower: not within or above them; from 2020 on not within 3 ft of them either.

    NFPA 70 406.9(C), with its exceptions for small rooms and others, if the plan says that one of them holds.
    """
    least: Length = job.setting("is-clear-of-tub.least-distance")
    if not is_within_of(receptacles, "tub", least):
        return True
    away = receptacles.distance_to_tub
    return away.amount > 0 and (away >= least or receptacles.opposite_tub)


@fact
def outdoor_receptacles(building: Building, job: Job) -> Members[Receptacles]:
    """Receptacles in the open air on its circuits. NFPA 70 210.52(E)."""

    def is_one(one: Receptacles) -> bool:
        return all_hold(lambda: is_outdoors(one.at, job), lambda: building_served(one.circuit, job) is building)

    return job.graph.all(Receptacles).where(is_one)


@fact
def height_above_ground(receptacles: Receptacles, job: Job) -> Length:
    """How high they are above the ground; on a porch, deck or balcony its floor's height added. NFPA 70 210.52(E)(1)."""
    if receptacles.at.use not in job.setting("height-above-ground.raised"):
        return receptacles.height
    height = receptacles.at.above_ground + receptacles.height
    job.step(f"floor {receptacles.at.above_ground} above the ground + {receptacles.height}", height, "NFPA 70 210.52(E)(1)")
    return height


@fact
def front_is_served(building: Building, job: Job) -> bool:
    """Whether a receptacle that one reaches from the ground is at its front; at a two-family house one for each of its dwellings.

    NFPA 70 210.52(E)(1).
    """
    return _side_is_served(building, "front", job)


@fact
def back_is_served(building: Building, job: Job) -> bool:
    """Whether a receptacle that one reaches from the ground is at its back; at a two-family house one for each of its dwellings.

    NFPA 70 210.52(E)(1).
    """
    return _side_is_served(building, "back", job)


def _side_is_served(building: Building, side: str, job: Job) -> bool:
    most: Length = job.setting("height-above-ground.most")

    def counts(one: Receptacles) -> bool:
        return all_hold(
            lambda: one.at.side == side,
            lambda: height_above_ground(one, job) <= most,
            lambda: is_usual_voltage(one, job),
        )

    found = outdoor_receptacles(building, job).where(counts)
    there = sum(one.count for one in found)
    if building.use == "two-family":
        if 0 < there < 2:
            not_stated(building, "use", f"{building.name}: whether both dwellings need one at the {side}")
        return there >= 2 or bool(found.whole())
    return there >= 1 or bool(found.whole())
