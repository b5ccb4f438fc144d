"""Metal piping of other trades: what ties it to the service, and how large that has to be."""

from collections.abc import Sequence

from planlint.facts.bonding import sizing_area
from planlint.facts.buildings import serves, stands_at
from planlint.facts.electrodes import conductors_to_it, is_connected
from planlint.facts.engine import Job, fact
from planlint.facts.equipment_ground import FLEXIBLE_METAL, RIGID_METAL
from planlint.facts.roles import role
from planlint.facts.supplies import feeders, services, supply_runs
from planlint.facts.wires import breaker_rating, hot_size
from planlint.plan import Bond, Electrode, ElectrodeConductor, Piping, does_not_arise, not_stated
from planlint.plan.gear import Supply
from planlint.plan.members import Members, all_hold
from planlint.plan.routes import Raceway
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.plan.site import Building
from planlint.quantities import Length
from planlint.trade import NO_WIRE, WireSize, WireSizes


@fact
def is_metal(pipe: Raceway | Piping, job: Job) -> bool:
    """Whether it is made of metal."""
    if isinstance(pipe, Raceway):
        return pipe.type in (*RIGID_METAL, *FLEXIBLE_METAL)
    return pipe.material != "plastic"


@fact
def is_electrode(piping: Piping, job: Job) -> bool:
    """Whether it is used as an electrode: an electrode of type water-pipe that is joined to equipment names it.

    NFPA 70 250.50, 250.52(A)(1).
    """
    named = job.graph.all(Electrode).where(
        lambda one: all_hold(lambda: one.type == "water-pipe", lambda: one.pipe is piping),
    )
    return named.some(lambda one: is_connected(one, job))


@fact
def counts_as_electrode(piping: Piping, job: Job) -> bool:
    """Whether it is metal water pipe with so much of it in the soil that it is an electrode; gas pipe is never one.

    NFPA 70 250.52(A)(1), (B)(1).
    """
    least: Length = job.setting("counts-as-electrode.least-buried")
    return all_hold(
        lambda: piping.type == "water",
        lambda: is_metal(piping, job),
        lambda: piping.buried_length >= least,
    )


@fact
def bonds_at_it(piping: Piping, job: Job) -> Members[Bond]:
    """The bonding jumpers to it that start where they may. NFPA 70 250.104(A), (B)."""

    def counts(bond: Bond) -> bool:
        return all_hold(
            lambda: bond.type in ("water-pipe", "gas-pipe"),
            lambda: bond.to is piping,
            lambda: starts_where_it_may(bond, job),
        )

    return job.graph.all(Bond).where(counts)


@fact
def starts_where_it_may(bond: Bond, job: Job) -> bool:
    """Whether a bond to piping, or to a building for its communications lines, starts where it may.

    That is the service, the meter, an electrode that is joined, or the gear at which the feeder of its building ends; for rigid
    gas pipe any gear of the building, whose ground leads there. NFPA 70 250.94, 250.104(A), (B).
    """
    start, end = bond.from_, bond.to
    if isinstance(start, Supply):
        return False
    if not isinstance(end, Piping | Building):
        does_not_arise(bond, f"{bond.name}: a bond to piping or to a building")
    building = end if isinstance(end, Building) else end.building
    if isinstance(start, Electrode):
        return all_hold(lambda: start.building is building, lambda: is_connected(start, job))
    if not serves(start, building, job):
        return False
    if isinstance(end, Piping) and end.type == "gas" and end.material != "csst":
        return True
    if role(start, job) in ("service", "ahead-of-service"):
        return True
    incoming = feeders(building, job)
    by_circuits_alone = not incoming.some(lambda run: True) and not services(building, job).some(lambda run: True)
    if by_circuits_alone or incoming.some(lambda run: run.to is start):
        return True
    if isinstance(end, Piping) and building.dwelling_units > 1:
        # NFPA 70 250.104(A)(2).
        not_stated(end, "building", f"{end.name}: whether it serves one dwelling only and is apart from the others' pipes")
    return False


@fact
def may_become_live(piping: Piping, job: Job) -> bool:
    """Whether gas pipe is tied to an appliance that a circuit feeds; corrugated tubing counts as live by lightning alone.

    NFPA 70 250.104(B).
    """
    return piping.material == "csst" or piping.circuit is not None


@fact
def is_bonded(piping: Piping, job: Job) -> bool:
    """Whether a bonding jumper ties it to the service. NFPA 70 250.104."""
    return bonds_at_it(piping, job).some(lambda bond: True)


@fact
def bond_size(piping: Piping, job: Job) -> WireSize:
    """The size of the bonding jumper to it, of several the largest; no wire if there is none. NFPA 70 250.104."""
    sizes = [bond.size.size for bond in bonds_at_it(piping, job).whole()]
    return max(sizes, key=lambda size: size.area, default=NO_WIRE)


@fact
def bond_needed(piping: Piping, job: Job) -> WireSize:
    """The least bonding jumper to water pipe, or to gas pipe that is not csst, in the metal of the one it has, else in copper.

    Water pipe: Table 250.102(C)(1) by the hot wires of the service, up to 3/0 AWG copper or 250 kcmil aluminum; in a building
    that a feeder or circuits supply, Table 250.122 by their breaker and never more than their hot wire. Gas pipe: Table 250.122
    by the circuit that may make it live. NFPA 70 250.104(A)(1), (A)(3), (B).
    """
    return _needed_in(bond_size(piping, job).metal or "copper", piping, job)


@fact
def fits_its_pipe(bond: Bond, job: Job) -> bool:
    """Whether it is large enough for the pipe at which it ends, and so is the wire to the electrode at which it may start.

    NFPA 70 250.104(A)(1).
    """
    piping = bond.to
    if not isinstance(piping, Piping):
        does_not_arise(bond, f"{bond.name}: a bond to piping")
    start = bond.from_
    if not _is_enough(bond, piping, job):
        return False
    if not isinstance(start, Electrode) or piping.type == "gas":
        return True
    return conductors_to_it(start, job).some(lambda wire: _is_enough(wire, piping, job))


def _is_enough(wire: Bond | ElectrodeConductor, piping: Piping, job: Job) -> bool:
    size = wire.size.size
    if not size.metal:
        not_stated(wire, "size", f"{wire.name}: size, its metal (copper or aluminum)")
    return size >= _needed_in(size.metal, piping, job)


def _needed_in(metal: str, piping: Piping, job: Job) -> WireSize:
    if not is_metal(piping, job):
        does_not_arise(piping, f"{piping.name}: metal pipe")
    if piping.type == "gas":
        if piping.material == "csst":
            does_not_arise(piping, f"{piping.name}: gas pipe whose bond a circuit sizes; for csst the fuel gas code has its own")
        if piping.circuit is None:
            does_not_arise(piping, f"{piping.name}: gas pipe that a circuit may make live")
        return _by_breaker([piping.circuit], metal, job)
    building = piping.building
    # A service that ends at a post leaves the building to its feeder.
    ahead = services(building, job).where(lambda run: stands_at(run.to, job) is building).whole()
    if ahead:
        return _by_service(ahead, metal, job)
    runs = supply_runs(building, job).whole()
    if not runs:
        not_stated(building, "fed-by", f"which service, feeder or circuit supplies {building.name}")
    return _by_breaker([run for run in runs if not isinstance(run, Service)], metal, job)


def _by_service(runs: Sequence[Service], metal: str, job: Job) -> WireSize:
    area, hot_metal = sizing_area(runs, job)
    size = job.tables.bonding_jumper(area, hot_metal, metal)
    job.step(f"jumper beside {area:.0f} circular mils of {hot_metal}", size, job.from_table("bonding-jumper"))
    most: WireSizes = job.setting("bond-needed.most-to-water-pipe")
    if size <= most.by_metal[metal]:
        return size
    job.step("to water pipe never more than", most.by_metal[metal], "NFPA 70 250.104(A)(1)")
    return most.by_metal[metal]


def _by_breaker(runs: Sequence[Feeder | Circuit], metal: str, job: Job) -> WireSize:
    rating, run = max(((breaker_rating(run, job), run) for run in runs), key=lambda pair: pair[0])
    size = job.tables.equipment_ground(rating, metal)
    job.step(f"{run.name} is protected at {rating}", size, job.from_table("equipment-ground"))
    hot = max((hot_size(run, job) for run in runs), key=lambda each: each.area)
    if hot.metal == metal and size > hot:
        job.step(f"not larger than the hot wires of {run.name}", hot, "NFPA 70 250.104(A)(3), 250.122(A)")
        return hot
    return size
