"""Rooms, what lies in the open air, and the free space before equipment."""

from typing import Literal

from planlint.facts.buildings import building_at, in_open_air, is_dwelling
from planlint.facts.engine import Job, fact
from planlint.facts.roles import role
from planlint.facts.wires import breaker_or_fuses
from planlint.plan.elements import not_stated
from planlint.plan.gear import Disconnect, Meter, Panel, TransferSwitch
from planlint.plan.members import all_hold
from planlint.plan.site import Building, Place
from planlint.quantities import Current, Length

Room = Literal[
    "kitchen", "pantry", "dining", "living", "bedroom", "den", "recreation", "sunroom", "hallway", "foyer", "stairs", "bathroom",
    "laundry", "clothes-closet", "storage", "mechanical", "garage", "basement", "crawl-space", "attic", "workshop", "boathouse",
    "porch", "deck", "balcony", "yard", "driveway", "building",
]  # fmt: skip


@fact
def is_outdoors(spot: Place | Building, job: Job) -> bool:
    """Whether it lies in the open air. A building doesn't, nor does a place in one. NFPA 70 article 100.

    Not stated where a place says both that it is outdoors and that it is in a building.
    """
    if isinstance(spot, Building):
        return False
    outdoors = in_open_air(spot, job)
    if outdoors and spot.states("building"):
        not_stated(spot, "outdoors", f"{spot.name}: outdoors or building, because it says both")
    return outdoors


@fact
def room(spot: Place | Building, job: Job) -> Room:
    """What a place is used for; `building` for a building as a whole, of which no room is named."""
    return "building" if isinstance(spot, Building) else spot.use  # type: ignore[return-value]


@fact
def wants_working_space(gear: Panel | Disconnect | Meter | TransferSwitch, job: Job) -> bool:
    """Whether it needs a working space of its own: all but the slide plate in a panel, which has the panel's.

    NFPA 70 110.26.
    """
    return not isinstance(gear, TransferSwitch) or gear.type != "interlock"


@fact
def clear_width_needed(gear: Panel | Disconnect | Meter | TransferSwitch, job: Job) -> Length:
    """Least width of the space before it: the code's figure, or the width of a panel's case where that is more.

    NFPA 70 110.26(A)(2). Of other gear no width is asked for: its cases are narrower than the figure.
    """
    least: Length = job.setting("clear-width-needed.least-width")
    if not isinstance(gear, Panel):
        return least
    needed = max(least, gear.width)
    job.step(f"the larger of {least} and the case's {gear.width}", needed, "NFPA 70 110.26(A)(2)")
    return needed


@fact
def low_height_allowed(gear: Panel | Disconnect | Meter | TransferSwitch, job: Job) -> bool:
    """Whether the space before it may be lower: a panel or service disconnect up to a limit in a dwelling that was there before.

    Not stated of other disconnects in an attic or crawl space, which may be there for equipment that has to be: the way in
    decides (110.26(A)(4)). In the open air nothing keeps the space low, and neither counts. NFPA 70 110.26(A)(3), exception 1.
    """
    if isinstance(gear, Meter | TransferSwitch) or building_at(gear.at) is None:
        return False
    if _is_spared_in_old_dwelling(gear, job):
        return True
    if isinstance(gear, Disconnect) and gear.at.use in job.setting("low-height-allowed.of-limited-access"):
        not_stated(gear, "clear-height", f"{gear.name}: whether it has to be there, and the way in is as 110.26(A)(4) asks")
    return False


def _is_spared_in_old_dwelling(gear: Panel | Disconnect, job: Job) -> bool:
    home = building_at(gear.at)
    limit: Current = job.setting("low-height-allowed.up-to")
    return all_hold(
        lambda: home is not None and is_dwelling(home, job) and home.construction == "existing",
        lambda: (gear.bus if isinstance(gear, Panel) else breaker_or_fuses(gear)) <= limit,
        lambda: isinstance(gear, Panel) or role(gear, job) == "service",
    )


@fact
def ends_a_run(gear: Panel | Disconnect, job: Job) -> bool:
    """Whether it is a panel, or a disconnect of a service or feeder; one in a branch circuit stands at what it shuts off.

    NFPA 70 240.24(A), exception 4: there breakers and fuses may be out of reach.
    """
    return isinstance(gear, Panel) or job.graph.feeds_into(gear).some(lambda run: True)


@fact
def may_stay_in_room(gear: Panel | Disconnect, job: Job) -> bool:
    """Whether the ban on a room doesn't reach it: up to 2020 in bathrooms of buildings that are no dwellings.

    NFPA 70 240.24(E). Not stated of a switch of which nothing says whether it holds breakers or fuses, which the ban is about.
    """
    home = building_at(gear.at) if room(gear.at, job) == "bathroom" and job.setting("may-stay-in-room.bathroom") else None
    if home is not None and not is_dwelling(home, job):
        return True
    if isinstance(gear, Disconnect):
        breaker_or_fuses(gear)
    return False
