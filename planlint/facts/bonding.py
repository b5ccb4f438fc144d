"""Bonding jumpers, and the neutral that the service disconnect must have."""

from planlint.facts.engine import Job, fact
from planlint.facts.wires import breaker_rating, ground_wires, hot_wires, neutral_wires
from planlint.plan import Bond, Disconnect, Panel, TransferSwitch, not_stated
from planlint.plan.elements import Element
from planlint.plan.gear import AnyGear, Supply
from planlint.plan.members import Members
from planlint.plan.runs import Feeder, Service
from planlint.trade import NO_WIRE, WireSize


def main_jumpers(gear: Disconnect | Panel | TransferSwitch, job: Job) -> Members[Bond]:
    """The main bonding jumpers of this gear, whichever way they are drawn."""
    here = job.graph.those(Bond, "from", gear).joined(job.graph.those(Bond, "to", gear))
    return here.where(lambda bond: bond.type == "main")


@fact
def arriving_neutral(gear: Disconnect | Panel | TransferSwitch, job: Job) -> WireSize:
    """The neutral of the run that feeds it; no wire if none comes.

    NFPA 70 250.24.
    """
    return neutral_wires(job.graph.feed(gear), job).size


@fact
def least_neutral(gear: Disconnect | Panel | TransferSwitch, job: Job) -> WireSize:
    """Smallest neutral of the run that feeds it, in the metal that comes (copper, if none does).

    NFPA 70 Table 250.102(C)(1) for services; for feeders the equipment ground's table, 215.2(A).
    """
    return _least_neutral(job.graph.feed(gear), job)


def _least_neutral(run: Service | Feeder, job: Job) -> WireSize:
    metal = neutral_wires(run, job).size.metal or "copper"
    if isinstance(run, Feeder):
        rating = breaker_rating(run, job)
        size = job.tables.equipment_ground(rating, metal)
        job.step(f"{run.name} is protected at {rating}", size, job.from_table("equipment-ground"))
        return size
    return _jumper(run, metal, job)


def _jumper(run: Service | Feeder, metal: str, job: Job) -> WireSize:
    """The jumper table's size for one set of a run, never larger than its hot wire of the same metal."""
    hot = hot_wires(run, job)
    area = job.tables.circular_mils(hot.size)
    size = job.tables.bonding_jumper(area, hot.size.metal, metal)
    job.step(f"{run.name} has hot wires of {hot.size}, {area:.0f} circular mils", size, job.from_table("bonding-jumper"))
    return min(size, hot.size) if hot.size.metal == metal else size


@fact
def size_needed(bond: Bond, job: Job) -> WireSize:
    """Smallest size of a main, supply-side or system bonding jumper, in its own metal, by the largest hot wires.

    NFPA 70 Table 250.102(C)(1), 250.28(D), 250.102(C).
    """
    if not bond.size.count:
        return NO_WIRE
    metal = bond.size.size.metal
    if not metal:
        not_stated(bond, "size", f"{bond.name}: size, its metal (copper or aluminum)")
    return max((_jumper(run, metal, job) for run in _runs_at(bond, job)), key=lambda size: size.area)


def _runs_at(bond: Bond, job: Job) -> tuple[Service | Feeder, ...]:
    """The runs whose hot wires size the jumper: those that reach the gear it starts at; of a source, those that leave it."""
    start: Element = bond.from_
    if isinstance(start, Supply):
        runs = job.graph.feeds_from(start).whole()
    elif isinstance(start, AnyGear):
        runs = (job.graph.feed(start),)
    else:
        runs = ()
    if not runs:
        not_stated(bond, "from", f"which service or feeder reaches {start.name}, where {bond.name} starts")
    return runs


@fact
def fed_by_existing_three_wire(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether the feeder that ends here was there before this work and brings no ground.

    NFPA 70 250.32(B)(1), exception.
    """
    run = job.graph.feed(gear)
    if not isinstance(run, Feeder) or not run.existing:
        return False
    return ground_wires(run, job).count == 0
