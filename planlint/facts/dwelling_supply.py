"""Whether a service or feeder is the whole supply of one dwelling, for which smaller wires do."""

from planlint.facts.buildings import building_served, is_dwelling
from planlint.facts.engine import Job, fact
from planlint.facts.surroundings import is_wye
from planlint.facts.wires import breaker_rating
from planlint.plan.elements import not_stated
from planlint.plan.gear import Disconnect, Panel, Supply
from planlint.plan.runs import Circuit, Feeder, Service


@fact
def carries_whole_dwelling(run: Service | Feeder, job: Job) -> bool:
    """Whether every load of the one dwelling is downstream of it: nothing leaves the gear where it starts, or any ahead, but it.

    NFPA 70 310.12(A), (B) (2017: 310.15(B)(7)). A branch circuit or a second feeder taken off on the way ends it, whatever it
    feeds; a setting lets a feeder to an outbuilding pass, which is argued both ways. What carries two dwellings isn't meant.
    """
    home = building_served(run, job)
    if not is_dwelling(home, job):
        return False
    if home.use == "two-family" or home.dwelling_units > 1:
        if is_only_way(run, job):
            return False
        not_stated(run, "to", f"{run.name}: which of the dwellings of {home.name} it serves")
    return is_only_way(run, job)


@fact
def is_only_way(run: Service | Feeder, job: Job) -> bool:
    """Whether nothing but this run leaves the gear where it starts, and so on up; from the supply, nothing to its building."""
    start = run.from_
    beside = job.graph.feeds_from(start).where(lambda other: other is not run)
    if isinstance(start, Supply):
        beside = beside.where(lambda other: building_served(other, job) is building_served(run, job))
    if job.setting("carries-whole-dwelling.outbuilding-beside"):
        beside = beside.where(lambda other: is_dwelling(building_served(other, job), job))
    if beside.some(lambda other: True):
        return False
    if isinstance(start, Panel | Disconnect) and job.graph.those(Circuit, "panel", start).some(lambda circuit: True):
        return False
    return isinstance(start, Supply) or is_only_way(job.graph.feed(start), job)


@fact
def reduction_in_range(run: Service | Feeder, job: Job) -> bool:
    """Whether its breaker and supply are of those for which the reduction holds: 100 to 400 A, single phase.

    NFPA 70 310.12 (2017: 310.15(B)(7)).
    """
    smallest, largest = job.setting("reduction-in-range.from"), job.setting("reduction-in-range.up-to")
    return smallest <= breaker_rating(run, job) <= largest and not is_wye(run, job)
