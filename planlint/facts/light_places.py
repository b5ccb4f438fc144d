"""What lights ask of their place: a neutral at their switch, and room between them and clothes."""

from planlint.facts.engine import Job, fact
from planlint.facts.wall_spaces import room_lived_in
from planlint.plan.elements import does_not_arise
from planlint.plan.outlets import Lights
from planlint.plan.site import Place
from planlint.quantities import Length


@fact
def wants_switch_neutral(place: Place, job: Job) -> bool:
    """Whether the switches of its lights need a neutral in their box: rooms to live in, bathrooms, halls, stairs.

    Of a finished basement or attic the plan has to say what it is lived in for.

    NFPA 70 404.2(C).
    """
    return room_lived_in(place, job) in job.setting("wants-switch-neutral.rooms")


@fact
def suits_closet(lights: Lights, job: Job) -> bool:
    """Whether a light of its sort may be in a clothes closet at all: no bare or half open lamp, nothing that hangs.

    NFPA 70 410.16(A), (B).
    """
    return lights.type in job.setting("suits-closet.types")


@fact
def storage_distance_needed(lights: Lights, job: Job) -> Length:
    """How far a closet light must be from the space of shelves and clothes. NFPA 70 410.16(C)."""
    if not suits_closet(lights, job):
        does_not_arise(lights, f"{lights.name}: a light that may be in a closet")
    distance: Length = job.setting(f"storage-distance-needed.{lights.type}")
    job.step(f"{lights.type}", distance, "NFPA 70 410.16(C)")
    return distance


@fact
def closet_light_fault(lights: Lights, job: Job) -> str:
    """What is wrong with a light in a clothes closet, in words. NFPA 70 410.16."""
    if not suits_closet(lights, job):
        return f"a {lights.type} light may not be there"
    needed, has = storage_distance_needed(lights, job), lights.distance_to_storage
    return f"it is {has} from the space of shelves and clothes; {needed} is the least"
