"""Where a dwelling's surge device may stand, and whether it is good enough."""

from planlint.facts.buildings import serves
from planlint.facts.engine import Job, fact
from planlint.facts.roles import role
from planlint.facts.supplies import feeders, service_disconnects, services
from planlint.plan import Building, Circuit, Disconnect, Panel, TransferSwitch
from planlint.plan.gear import AnyGear, Supply
from planlint.plan.members import Members, all_hold, any_holds
from planlint.quantities import Current


@fact
def distribution(building: Building, job: Job) -> Members[Disconnect | Panel]:
    """The gear that holds its branch breakers, without what is fed from other gear of that sort in the same building.

    NFPA 70 230.67(B) exception, 215.18.
    """
    found: Members[Disconnect | Panel] = Members(job.graph.all(Panel).known, job.graph.all(Panel).gaps)
    gear = found.joined(job.graph.all(Disconnect))
    return gear.where(lambda one: _holds_branches(one, building, job)).where(
        lambda one: not _is_behind_another(one, building, job)
    )


@fact
def supply_is_new(building: Building, job: Job) -> bool:
    """Whether what supplies it is new work: all of a new building; in one that was there before, what is replaced.

    NFPA 70 230.67(D), 215.18(D).
    """
    return any_holds(
        lambda: building.construction == "new",
        lambda: services(building, job).some(lambda run: not run.existing),
        lambda: feeders(building, job).some(lambda run: not run.existing),
    )


@fact
def surge_device_suits(building: Building, job: Job) -> bool:
    """Whether a surge device is in its service equipment, or in all gear that comes next and holds its branch breakers.

    From 2023 on a feeder to a dwelling's branch breakers wants one at its end, whatever is ahead of it.
    NFPA 70 230.67(B), 215.18(B).
    """
    at_branches = distribution(building, job)
    at_service = service_disconnects(building, job)
    ends_too = job.setting("surge-device-suits.at-feeders-end")
    return any_holds(
        lambda: all_hold(
            lambda: at_branches.some(lambda gear: True),
            lambda: at_branches.every(lambda gear: has_surge_device(gear, job)),
        ),
        lambda: all_hold(
            lambda: at_service.some(lambda gear: has_surge_device(gear, job)),
            lambda: not ends_too or at_branches.every(lambda gear: role(gear, job) == "service" or has_surge_device(gear, job)),
        ),
    )


def _holds_branches(gear: AnyGear, building: Building, job: Job) -> bool:
    if not isinstance(gear, Panel | Disconnect):
        return False
    if not serves(gear, building, job):
        return False
    return job.graph.those(Circuit, "panel", gear).some(lambda circuit: True)


def _is_behind_another(gear: AnyGear, building: Building, job: Job) -> bool:
    start = job.graph.feed(gear).from_
    if isinstance(start, Supply) or not serves(start, building, job):
        return False
    return _holds_branches(start, building, job) or _is_behind_another(start, building, job)


@fact
def surge_rating_enough(gear: Disconnect | Panel, job: Job) -> bool:
    """Whether the discharge current on its surge device's label is what the edition asks for. NFPA 70 230.67(E)."""
    least: Current = job.setting("surge-rating-enough.least")
    return not least.amount or gear.surge_rating >= least


@fact
def has_surge_device(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether a surge device, type 1 or 2, good enough for the edition, is in it or beside it. NFPA 70 230.67."""
    if isinstance(gear, TransferSwitch):
        return False
    return gear.surge_protection != "none" and surge_rating_enough(gear, job)
