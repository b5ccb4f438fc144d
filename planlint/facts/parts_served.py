"""What gear carries: the buildings whose whole load passes it, and single circuits of others; and the supply at its head."""

from collections.abc import Iterable, Iterator

from planlint.facts.buildings import building_served
from planlint.facts.engine import Job, fact
from planlint.facts.supplies import supply_runs
from planlint.plan.elements import Need, not_stated
from planlint.plan.gear import AnyGear, Disconnect, Meter, Panel, Supply, TransferSwitch
from planlint.plan.members import Members
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.plan.site import Building
from planlint.quantities import Voltage


@fact
def source(gear: Meter | Disconnect | Panel | TransferSwitch, job: Job) -> Supply:
    """The supply at the head of it, on the utility's side."""
    if isinstance(gear, TransferSwitch) and gear.type == "interlock":
        return source(gear.panel, job)
    start = job.graph.feed(gear).from_
    return start if isinstance(start, Supply) else source(start, job)


@fact
def inside_ways(gear: Supply | Meter | Disconnect | Panel | TransferSwitch, job: Job) -> Members[Service | Feeder | Circuit]:
    """What leaves the gear for the building that the gear itself serves; from a supply nothing does."""
    if isinstance(gear, Supply):
        return Members(())
    home = building_served(gear, job)
    runs = job.graph.feeds_from(gear).where(lambda run: building_served(run, job) is home)
    circuits = job.graph.those(Circuit, "panel", gear).where(lambda circuit: building_served(circuit, job) is home)
    found: Members[Service | Feeder | Circuit] = Members(runs.known, (*runs.gaps, *circuits.gaps))
    return found.joined(Members(tuple(circuits.known)))


@fact
def carries_its_building(gear: Meter | Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether all that its building takes from this supply passes it."""
    home = building_served(gear, job)
    start = job.graph.feed(gear).from_
    if isinstance(start, Supply) or building_served(start, job) is not home:
        ways = supply_runs(home, job).where(lambda run: source_of(run, job) is source(gear, job))
        return all(not isinstance(run, Circuit) and _is_behind(gear, run.to, job) for run in ways.whole())
    return len(inside_ways(start, job).whole()) == 1 and carries_its_building(start, job)


def _is_behind(gear: AnyGear, end: AnyGear, job: Job) -> bool:
    """Whether the way from the supply to `end` passes the gear."""
    here: AnyGear | Supply = end
    while not isinstance(here, Supply):
        if here is gear:
            return True
        here = job.graph.feed(here).from_
    return False


@fact
def parts_served(gear: Meter | Disconnect | Panel | TransferSwitch, job: Job) -> Members[Building | Circuit]:
    """What it carries: the buildings that it carries whole, and single circuits where it carries only a part of one."""
    if carries_its_building(gear, job):
        whole: Members[Building | Circuit] = Members((building_served(gear, job),))
        return whole.joined(others_served(gear, job))
    runs = job.graph.feeds_from(gear)
    below = [parts_served(run.to, job) for run in runs]
    single: Members[Building | Circuit] = Members(job.graph.those(Circuit, "panel", gear).known, _gaps(gear, job))
    return single.joined(*below)


@fact
def others_served(gear: Meter | Disconnect | Panel | TransferSwitch, job: Job) -> Members[Building | Circuit]:
    """What it carries for buildings other than its own: outbuildings, or the one circuit that feeds one."""
    home = building_served(gear, job)
    circuits = job.graph.those(Circuit, "panel", gear).where(lambda circuit: building_served(circuit, job) is not home)
    found: Members[Building | Circuit] = Members(circuits.known, (*circuits.gaps, *_gaps(gear, job)))
    for run in job.graph.feeds_from(gear):
        inside = building_served(run.to, job) is home
        found = found.joined(others_served(run.to, job) if inside else parts_served(run.to, job))
    return found


def by_building(parts: Iterable[Building | Circuit], job: Job) -> Iterator[tuple[Building, list[Circuit]]]:
    """The single circuits among what is served, by the building that they serve.

    Raises NotStated for those of a two-family house: nothing in a plan says which of its dwellings they belong to, and each has a
    floor area and demand factors of its own.
    """
    homes: dict[int, tuple[Building, list[Circuit]]] = {}
    for part in parts:
        if isinstance(part, Circuit):
            home = building_served(part, job)
            homes.setdefault(id(home), (home, []))[1].append(part)
    for home, circuits in homes.values():
        if home.use == "two-family":
            not_stated(home, "use", f"{home.name}: which of its two dwellings {circuits[0].name} and others beside it belong to")
        yield home, circuits


def _gaps(gear: AnyGear, job: Job) -> tuple[Need, ...]:
    return (*job.graph.feeds_from(gear).gaps, *job.graph.those(Circuit, "panel", gear).gaps)


def supply_of(building: Building, job: Job) -> Supply:
    """The supply that its first way of power comes from. Raises NotStated where nothing feeds it."""
    runs = supply_runs(building, job).known
    if not runs:
        not_stated(building, "fed-by", f"which service, feeder or circuit feeds {building.name}")
    return source_of(runs[0], job)


def source_of(run: Service | Feeder | Circuit, job: Job) -> Supply:
    """The supply at the head of a run."""
    start = run.panel if isinstance(run, Circuit) else run.from_
    return start if isinstance(start, Supply) else source(start, job)


def line_volts(supply: Supply) -> Voltage:
    """Between its hot wires. Raises NotStated for three phases, for which no load, drop or current is worked out here."""
    if supply.phase != "single-phase":
        not_stated(supply, "phase", f"{supply.name}: loads and drops are worked out for one phase only")
    return supply.volts.line


@fact
def comes_from_utility(run: Service | Feeder, job: Job) -> bool:
    """Whether the utility stands at its head, not a generator, solar panels or a battery of the house's own."""
    return source_of(run, job).type == "utility"
