"""Emergency stops of generators, solar panels and batteries: where whoever comes to a fire finds them."""

from planlint.facts.buildings import building_at, in_open_air, is_dwelling
from planlint.facts.engine import Job, fact
from planlint.facts.supplies import other_sources
from planlint.plan.elements import does_not_arise, not_stated
from planlint.plan.gear import Supply
from planlint.plan.members import all_hold
from planlint.plan.site import Building


@fact
def belongs_to_dwelling(supply: Supply, job: Job) -> bool:
    """Whether it is one of a place where one or two families live. NFPA 70 445.18(D) (2023: 445.19(C)), 690.12(C), 706.15.

    A plan is of one place: its dwelling makes all sources that are joined those of a dwelling, wherever they stand.
    """
    buildings = job.graph.all(Building)
    if buildings.some(lambda one: is_dwelling(one, job)):
        return True
    if not buildings.some(lambda one: other_sources(one, job).some(lambda other: other is supply)):
        not_stated(supply, "building", f"{supply.name}: which building its power is for")
    return False


@fact
def stop_is_outside(supply: Supply, job: Job) -> bool:
    """Whether its emergency stop is outside the dwelling; not stated of one that is in another building.

    NFPA 70 445.18(D) (2023: 445.19(C)), 690.12(C), 706.15(A) (2023: 706.15(B)).
    """
    place = supply.shutdown_at
    if in_open_air(place, job):
        return True
    home = building_at(place)
    if home is None or is_dwelling(home, job):
        return False
    not_stated(supply, "shutdown-at", f"{supply.name}: whether {home.name} counts as outside the dwelling for its emergency stop")


@fact
def on_building(supply: Supply, job: Job) -> bool:
    """Whether solar panels are on a building, or their direct current enters one. NFPA 70 690.12."""
    if supply.type != "solar":
        does_not_arise(supply, f"{supply.name}: solar panels")
    return supply.building is not None


@fact
def rapid_shutdown_suits(supply: Supply, job: Job) -> bool:
    """Whether solar panels on a building can be shut down rapidly, at a dwelling from outside. NFPA 70 690.12, 690.12(C)."""
    return all_hold(
        lambda: supply.rapid_shutdown,
        lambda: not belongs_to_dwelling(supply, job) or stop_is_outside(supply, job),
    )
