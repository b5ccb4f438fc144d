"""The ways by which power comes into a building: services and their disconnects, feeders, branch circuits."""

from planlint.facts.buildings import has_outlet_in, serves, stands_at
from planlint.facts.engine import Job, fact
from planlint.facts.outlet_volts import is_low_voltage
from planlint.facts.roles import ServiceGear, role
from planlint.plan import Building, Lights, Load, Place, Receptacles
from planlint.plan.elements import Element
from planlint.plan.gear import Disconnect, Meter, Panel, Supply, TransferSwitch
from planlint.plan.members import Members, all_hold
from planlint.plan.runs import Circuit, Feeder, Service

# Beside loads, what has power wherever it stands.
_POWERED: tuple[type[Element], ...] = (Receptacles, Lights, Meter, Disconnect, Panel, TransferSwitch)


def opens(gear: ServiceGear) -> bool:
    """Whether gear opens its supply: a panel by a main breaker only; an interlock moves two breakers of its panel."""
    if isinstance(gear, Panel):
        return gear.main != "lugs"
    return isinstance(gear, Disconnect) or gear.type != "interlock"


@fact
def services(building: Building, job: Job) -> Members[Service]:
    """The services that end at a service disconnect of the building, whoever owns the wires. NFPA 70 230.2."""
    return job.graph.all(Service).where(
        lambda run: not isinstance(run.to, Meter) and role(run.to, job) == "service" and serves(run.to, building, job)
    )


@fact
def service_disconnects(building: Building, job: Job) -> Members[Disconnect | Panel | TransferSwitch]:
    """Gear of role service that serves it. NFPA 70 230.71."""
    found: Members[ServiceGear] = Members(job.graph.all(Disconnect).known)
    gear = found.joined(job.graph.all(Disconnect), job.graph.all(Panel), job.graph.all(TransferSwitch))

    def is_one(one: ServiceGear) -> bool:
        return role(one, job) == "service" and serves(one, building, job)

    return gear.where(is_one)


@fact
def feeders(building: Building, job: Job) -> Members[Feeder]:
    """Feeders that end in it or on its wall and start elsewhere, be it a post; not those of its own generator, solar or battery.

    NFPA 70 225.30.
    """

    def comes_from_outside(feeder: Feeder) -> bool:
        start = feeder.from_
        if isinstance(start, Supply):
            return False
        return all_hold(lambda: stands_at(feeder.to, job) is building, lambda: stands_at(start, job) is not building)

    return job.graph.all(Feeder).where(comes_from_outside)


@fact
def circuits_in(building: Building, job: Job) -> Members[Circuit]:
    """Branch circuits that start outside it and serve something in it; bell and thermostat wires are none. NFPA 70 225.30."""

    def comes_from_outside(circuit: Circuit) -> bool:
        return all_hold(
            lambda: not is_low_voltage(circuit, job),
            lambda: stands_at(circuit.panel, job) is not building,
            lambda: has_outlet_in(circuit, building, job),
        )

    return job.graph.all(Circuit).where(comes_from_outside)


def _circuits_once(building: Building, job: Job) -> Members[Circuit]:
    """The circuits that come in, of those that share a neutral the first one only."""
    circuits = circuits_in(building, job)
    return Members(tuple(one for one in circuits if not _joins_an_earlier(one, circuits.known)), circuits.gaps)


@fact
def supply_runs(building: Building, job: Job) -> Members[Service | Feeder | Circuit]:
    """Services, feeders and circuits that bring power in; circuits that share a neutral count once. NFPA 70 225.30."""
    found: Members[Service | Feeder | Circuit] = Members(services(building, job).known, services(building, job).gaps)
    return found.joined(feeders(building, job), _circuits_once(building, job))


@fact
def outside_supplies(building: Building, job: Job) -> Members[Feeder | Circuit]:
    """Feeders and branch circuits from outside, as they count towards the one that is allowed; services don't.

    Circuits that share a neutral count once, and so do several feeders from one panel, each to a disconnect of its own in one
    place, where the edition lets them in. A circuit for the building work doesn't count. NFPA 70 225.30.
    """
    incoming = feeders(building, job)
    most: float = job.setting("outside-supplies.feeders-as-one")

    def counts(run: Feeder | Circuit) -> bool:
        if isinstance(run, Circuit):
            return not run.temporary
        alike = [other for other in incoming if other.from_ is run.from_]
        if most < 2 or len(alike) < 2:
            return True
        together = [other for other in alike if other.to.at is run.to.at and opens(other.to)]
        return run not in together[1:] or len(together) > most

    found: Members[Feeder | Circuit] = Members(incoming.known, incoming.gaps)
    return found.joined(_circuits_once(building, job)).where(counts)


def _joins_an_earlier(circuit: Circuit, circuits: tuple[Circuit, ...]) -> bool:
    earlier = circuits[: circuits.index(circuit)]
    return any(other is circuit.shares_neutral_with or other.shares_neutral_with is circuit for other in earlier)


@fact
def has_power(spot: Building | Place, job: Job) -> bool:
    """Whether a service, a feeder or a circuit brings power in; of a place, whether an outlet, a load or gear is there."""
    if isinstance(spot, Building):
        return supply_runs(spot, job).some(lambda run: True)
    graph = job.graph
    there: Members[Element] = graph.those(Load, "at", spot).where(lambda load: not load.planned)
    there = there.joined(*(graph.those(kind, "at", spot) for kind in _POWERED))
    return there.some(lambda one: True)


@fact
def other_sources(building: Building, job: Job) -> Members[Supply]:
    """Generators, solar panels and batteries whose wires end at gear that serves it; not those for cords only. NFPA 70 705.10."""

    def is_joined(supply: Supply) -> bool:
        return all_hold(
            lambda: supply.type != "utility",
            lambda: not (supply.states("connection") and supply.connection == "cords-only"),
            lambda: job.graph.feeds_from(supply).some(lambda run: serves(run.to, building, job)),
        )

    return job.graph.all(Supply).where(is_joined)


@fact
def fed_from_outside(building: Building, job: Job) -> bool:
    """Whether a feeder or branch circuits from another building, structure or post supply it, whatever its use.

    NFPA 70 225.30, 250.32.
    """
    found: Members[Element] = Members(feeders(building, job).known, feeders(building, job).gaps)
    return found.joined(circuits_in(building, job)).some(lambda run: True)


@fact
def circuit_switches(building: Building, job: Job) -> Members[Disconnect]:
    """Where branch circuits alone bring power in, its plain switches.

    NFPA 70 225.31, 225.36, exception.
    """
    if services(building, job).some(lambda run: True) or feeders(building, job).some(lambda run: True):
        return Members(())
    return plain_switches(building, job)


@fact
def plain_switches(building: Building, job: Job) -> Members[Disconnect]:
    """The switches in it or on its wall that stand in branch circuits: no service or feeder ends in them. NFPA 70 225.36."""
    apart = job.graph.all(Disconnect).where(lambda switch: not job.graph.feeds_into(switch).some(lambda run: True))
    return apart.where(lambda switch: stands_at(switch, job) is building)
