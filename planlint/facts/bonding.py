"""Bonding jumpers, the neutral that the service disconnect must have, and the hot wires by which both are sized."""

from collections.abc import Sequence

from planlint.facts.buildings import goes_to_another_building
from planlint.facts.engine import Job, fact
from planlint.facts.equipment_ground import ground_path
from planlint.facts.roles import ServiceGear, role
from planlint.facts.wires import breaker_rating, has_neutral, hot_wires, neutral_wires
from planlint.plan import Bond, Disconnect, Panel, TransferSwitch, not_stated
from planlint.plan.elements import Element
from planlint.plan.gear import AnyGear, Meter, Supply
from planlint.plan.members import Members, all_hold
from planlint.plan.routes import Raceway
from planlint.plan.runs import Feeder, Service
from planlint.trade import NO_WIRE, WireSize


def main_jumpers(gear: Disconnect | Panel | TransferSwitch, job: Job) -> Members[Bond]:
    """The main bonding jumpers of this gear, whichever way they are drawn."""
    return _jumpers(gear, job).where(lambda bond: bond.type == "main")


def _jumpers(gear: ServiceGear, job: Job) -> Members[Bond]:
    return job.graph.those(Bond, "from", gear).joined(job.graph.those(Bond, "to", gear))


@fact
def has_supply_side_jumper(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether a supply-side bonding jumper ends at its case. NFPA 70 250.92, 250.102(C)."""
    return _jumpers(gear, job).some(lambda bond: bond.type == "supply-side")


def sizing_runs(start: Element, job: Job) -> tuple[Service | Feeder, ...]:
    """The runs whose hot wires size what starts here: the one that feeds the gear; of a meter or source, those that leave it.

    Raises NotStated where none is known.
    """
    if isinstance(start, AnyGear) and not isinstance(start, Meter):
        return (job.graph.feed(start),)
    runs = job.graph.feeds_from(start).whole() if isinstance(start, Meter | Supply) else ()
    if not runs:
        not_stated(start, "feeds", f"which service or feeder starts at {start.name}")
    return runs


def sizing_area(runs: Sequence[Service | Feeder], job: Job, one_set: bool = False) -> tuple[float, str]:
    """Circular mils of a hot wire and its metal, parallel sets and several runs added up; with `one_set` of one set only.

    Raises NotStated for two metals together.
    """
    found = [_hot_area(run, job) for run in runs]
    metals = {metal for _, _, metal in found}
    if len(metals) > 1:
        not_stated(runs[0], "hot", f"{runs[0].name}: hot, because it is not of one metal with the service beside it")
    area = max(area for area, _, _ in found) if one_set else sum(area * sets for area, sets, _ in found)
    return area, metals.pop()


def _hot_area(run: Service | Feeder, job: Job) -> tuple[float, int, str]:
    """Circular mils of one hot wire, the number of parallel sets, and the metal.

    The utility's own wires don't count; in their place stands a copper wire that carries the rating of the disconnect, the
    safe side of "the size that the load would need". NFPA 70 Table 250.66 note 2, Table 250.102(C)(1) note 3.
    """
    if isinstance(run, Service) and run.owner == "utility":
        rating, column = breaker_rating(run, job), job.setting("size-needed.without-service-wires")
        size = next((size for size in job.tables.sizes_up("copper") if job.tables.ampacity(size, column) >= rating), NO_WIRE)
        if size == NO_WIRE:
            not_stated(run, "hot", f"{run.name}: no single wire carries {rating}")
        area = job.tables.circular_mils(size)
        job.step(f"{run.name} is the utility's; its place takes a wire for {rating}, {area:.0f} circular mils", size)
        return area, 1, "copper"
    hot = hot_wires(run, job)
    area = job.tables.circular_mils(hot.size)
    times = f"{run.sets} x " if run.sets > 1 else ""
    job.step(f"{run.name} has hot wires of {times}{hot.size}, {area:.0f} circular mils each")
    return area, run.sets, hot.size.metal


@fact
def arriving_neutral(gear: Disconnect | Panel | TransferSwitch, job: Job) -> WireSize:
    """The neutral of the run that feeds it; no wire if none comes.

    NFPA 70 250.24.
    """
    return neutral_wires(job.graph.feed(gear), job).size


@fact
def least_neutral(at: Service | Feeder | Disconnect | Panel | TransferSwitch, job: Job) -> WireSize:
    """Smallest neutral of a run, of gear the one that feeds it, in the metal that comes (copper, if none does).

    Up to the service disconnect NFPA 70 Table 250.102(C)(1), in parallel sets by each set and never below 1/0 AWG; past it the
    equipment ground's table, 215.2(A). What the utility brings is its own to size, if it brings one.
    """
    run = at if isinstance(at, Service | Feeder) else job.graph.feed(at)
    neutral = neutral_wires(run, job)
    metal = neutral.size.metal or "copper"
    if isinstance(run, Feeder) and role(run.to, job) != "service":
        rating = breaker_rating(run, job)
        size = job.tables.equipment_ground(rating, metal)
        job.step(f"{run.name} is protected at {rating}", size, job.from_table("equipment-ground"))
        return size
    if isinstance(run, Service) and neutral.count and run.owner == "utility":
        job.step(f"{run.name} is the utility's, and so is the size of its neutral", neutral.size)
        return neutral.size
    area, hot_metal = sizing_area([run], job, one_set=True)
    size = job.tables.bonding_jumper(area, hot_metal, metal)
    job.step(f"neutral beside {area:.0f} circular mils of {hot_metal}", size, job.from_table("bonding-jumper"))
    if hot_metal == metal and job.tables.circular_mils(size) > area:
        size = hot_wires(run, job).size
        job.step("not larger than the hot wires", size, "NFPA 70 250.24(C)(1) (2023 250.24(D)(1))")
    if run.sets > 1:
        least: WireSize = job.setting("least-neutral.in-parallel").by_metal[metal]
        job.step(f"in parallel no smaller than {least}", max(size, least), "NFPA 70 250.24(C)(2)")
        return max(size, least)
    return size


@fact
def size_needed(bond: Bond, job: Job) -> WireSize:
    """Smallest size of a main, supply-side or system bonding jumper, in its own metal, by the largest hot wires.

    Parallel sets count together; only for the jumper of one raceway the set in it. NFPA 70 Table 250.102(C)(1), 250.28(D),
    250.102(C).
    """
    metal = bond.size.size.metal
    if not metal:
        not_stated(bond, "size", f"{bond.name}: size, its metal (copper or aluminum)")
    runs = sizing_runs(bond.from_, job)
    parallel = any(run.sets > 1 for run in runs)
    one_set = parallel and bond.type == "supply-side" and isinstance(bond.to, Raceway)
    area, hot_metal = sizing_area(runs, job, one_set=one_set)
    size = job.tables.bonding_jumper(area, hot_metal, metal)
    job.step(f"jumper beside {area:.0f} circular mils of {hot_metal}", size, job.from_table("bonding-jumper"))
    return size


@fact
def fed_by_existing_three_wire(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether a feeder from another building ends here that was there before this work and has a neutral, but no ground path.

    NFPA 70 250.32(B)(1), exception.
    """
    # A switch in a branch circuit is the end of no run.
    if not job.graph.feeds_into(gear).some(lambda run: True):
        return False
    run = job.graph.feed(gear)
    if not isinstance(run, Feeder) or not run.existing:
        return False
    return all_hold(
        lambda: ground_path(run, job) == "none",
        lambda: goes_to_another_building(run, job),
        lambda: has_neutral(run, job),
    )
