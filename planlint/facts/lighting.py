"""Lights that rooms, stairs and outside doors want, and what turns them on."""

from planlint.facts.buildings import building_at, building_served, is_dwelling
from planlint.facts.engine import Job, fact
from planlint.facts.space import is_outdoors
from planlint.facts.supplies import has_power
from planlint.facts.wall_spaces import is_in_dwelling, room_lived_in
from planlint.plan.elements import Need, NotStated
from planlint.plan.members import Members, all_hold, merged
from planlint.plan.outlets import Lights, Receptacles
from planlint.plan.site import Building, Place


@fact
def lights_here(place: Place, job: Job) -> Members[Lights]:
    """The lights at it."""
    return job.graph.those(Lights, "at", place)


@fact
def switches_needed(place: Place, job: Job) -> int:
    """From how many places a light there must be switched: none where no light is asked for, one in rooms, two at long stairs.

    Asked for in a dwelling's habitable rooms, bathrooms, halls, stairs and garages, in laundries from 2023 on, in utility rooms,
    and in attics, basements and crawl spaces that hold equipment or things stored. NFPA 70 210.70(A), (C) (2017: 210.70(A)).
    """
    if place.use == "garage":
        home = building_at(place)
        return 1 if home is not None and (is_dwelling(home, job) or has_power(home, job)) else 0
    if not _is_asked_for(place, job):
        return 0
    if place.use == "stairs":
        return 2 if place.stair_risers >= job.setting("switches-needed.least-risers") else 1
    return 1


def _is_asked_for(place: Place, job: Job) -> bool:
    if place.use in job.setting("switches-needed.rooms"):
        return is_in_dwelling(place, job)
    if place.use not in job.setting("switches-needed.if-used"):
        return False
    # Lived in or used: either is enough.
    return is_in_dwelling(place, job) and not all_hold(lambda: not place.holds_equipment, lambda: not place.finished)


@fact
def most_switched_from(place: Place, job: Job) -> int:
    """The most places from which one of its lights is switched. NFPA 70 210.70(A)."""
    return max((lights.switched_from for lights in lights_here(place, job).whole()), default=0)


@fact
def is_lit(place: Place, job: Job) -> bool:
    """Whether a light there is switched from as many places as it must be, or something else takes its place.

    In halls and at stairs lights that are turned on by a sensor or a clock; in rooms other than kitchens, bathrooms and
    laundries a receptacle that a wall switch turns on. NFPA 70 210.70(A)(1) exceptions, (A)(2) exception.
    """
    needed = switches_needed(place, job)
    may_be_automatic = place.use in job.setting("is-lit.may-be-automatic")

    def is_enough(lights: Lights) -> bool:
        return (may_be_automatic and lights.automatic) or lights.switched_from >= needed

    return not all_hold(
        lambda: not lights_here(place, job).some(is_enough),
        lambda: (
            not all_hold(
                lambda: job.graph.those(Receptacles, "at", place).some(lambda one: one.switched),
                lambda: room_lived_in(place, job) in job.setting("is-lit.may-be-lamps"),
            )
        ),
    )


def _door_lights(building: Building, job: Job) -> Members[Lights]:
    """Lights in the open air on its circuits that are turned on by a wall switch or by themselves."""

    def is_one(lights: Lights) -> bool:
        return all_hold(
            lambda: is_outdoors(lights.at, job),
            lambda: building_served(lights.circuit, job) is building,
            lambda: lights.automatic or lights.switched_from >= 1,
        )

    return job.graph.all(Lights).where(is_one)


def _named_doors(building: Building, job: Job) -> tuple[int, tuple[Need, ...]]:
    """How many outside doors its lights name, as far as the plan says, and what may add to them."""
    found = _door_lights(building, job)
    silent = [Need(lights, "outside-doors") for lights in found if not lights.states("outside-doors")]
    named = sum(lights.outside_doors for lights in found if lights.states("outside-doors"))
    return named, merged(found.gaps, silent)


@fact
def doors_lit(building: Building, job: Job) -> int:
    """How many outside doors the lights in the open air name. NFPA 70 210.70(A)(2)(2)."""
    named, needs = _named_doors(building, job)
    if needs:
        raise NotStated(*needs)
    return named


@fact
def doors_are_lit(building: Building, job: Job) -> bool:
    """Whether its lights in the open air name as many outside doors as it has. NFPA 70 210.70(A)(2)(2)."""
    return _named_doors(building, job)[0] >= building.outside_doors or doors_lit(building, job) >= building.outside_doors


@fact
def wants_lit_doors(building: Building, job: Job) -> bool:
    """Whether its outside doors must be lit: those of dwellings, and of detached garages with power. NFPA 70 210.70(A)(2)(2)."""
    return is_dwelling(building, job) or (building.use == "garage" and has_power(building, job))
