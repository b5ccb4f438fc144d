"""The ways by which power comes into a building: services and their disconnects, feeders, branch circuits."""

from planlint.facts.buildings import building_at, outlets_on, serves, stands_at
from planlint.facts.engine import Job, fact
from planlint.facts.roles import ServiceGear, role
from planlint.plan import Building
from planlint.plan.elements import Element
from planlint.plan.gear import Disconnect, Meter, Panel, Supply, TransferSwitch
from planlint.plan.members import Members, all_hold
from planlint.plan.runs import Circuit, Feeder, Service


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
    """Branch circuits that start outside it and serve something in it. NFPA 70 225.30."""

    def comes_from_outside(circuit: Circuit) -> bool:
        return all_hold(
            lambda: stands_at(circuit.panel, job) is not building,
            lambda: outlets_on(circuit, job).some(lambda outlet: building_at(outlet.at) is building),
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

    Circuits that share a neutral count once, and so do several feeders from one panel to one place where the edition lets them
    in. A circuit for the building work doesn't count. NFPA 70 225.30.
    """
    incoming = feeders(building, job)
    most: float = job.setting("outside-supplies.feeders-as-one")

    def counts(run: Feeder | Circuit) -> bool:
        if isinstance(run, Circuit):
            return not run.temporary
        alike = [other for other in incoming if other.from_ is run.from_]
        if most < 2 or len(alike) < 2:
            return True
        together = [other for other in alike if other.to.at is run.to.at]
        return run is together[0] or len(together) > most

    found: Members[Feeder | Circuit] = Members(incoming.known, incoming.gaps)
    return found.joined(_circuits_once(building, job)).where(counts)


def _joins_an_earlier(circuit: Circuit, circuits: tuple[Circuit, ...]) -> bool:
    earlier = circuits[: circuits.index(circuit)]
    return any(other is circuit.shares_neutral_with or other.shares_neutral_with is circuit for other in earlier)


@fact
def has_power(building: Building, job: Job) -> bool:
    """Whether a service, a feeder or a circuit brings power in."""
    return supply_runs(building, job).some(lambda run: True)


@fact
def fed_from_outside(building: Building, job: Job) -> bool:
    """Whether a feeder or branch circuits from another building, structure or post supply it, whatever its use.

    NFPA 70 225.30, 250.32.
    """
    found: Members[Element] = Members(feeders(building, job).known, feeders(building, job).gaps)
    return found.joined(circuits_in(building, job)).some(lambda run: True)


@fact
def circuit_switches(building: Building, job: Job) -> Members[Disconnect]:
    """Where branch circuits alone bring power in: the switches that stand in or on it and that no service or feeder ends in.

    NFPA 70 225.31, 225.36, exception.
    """
    if services(building, job).some(lambda run: True) or feeders(building, job).some(lambda run: True):
        return Members(())
    apart = job.graph.all(Disconnect).where(lambda switch: not job.graph.feeds_into(switch).some(lambda run: True))
    return apart.where(lambda switch: stands_at(switch, job) is building)
