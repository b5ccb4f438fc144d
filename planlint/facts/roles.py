"""The role of each piece of gear: ahead of the service disconnect, the disconnect itself, past it, head of another source."""

from typing import Literal

from planlint.facts.engine import Job, fact
from planlint.plan.gear import Disconnect, Meter, Panel, Supply, TransferSwitch
from planlint.plan.runs import Service

Role = Literal["ahead-of-service", "service", "downstream", "derived-source", "part-of-panel"]
ServiceGear = Disconnect | Panel | TransferSwitch


@fact
def role(gear: Disconnect | Panel | TransferSwitch | Meter, job: Job) -> Role:
    """What it is on the way from the utility.

    The first overcurrent device that isn't marked not-service-equipment is the service disconnect; where marking is left out,
    gear at which a service ends and from which one starts is ahead of it, and gear at which one ends and none starts is the
    disconnect. What is fed by gear of the service or past it is downstream. The first gear of a source with a bonded neutral of
    its own heads that source. An interlock is a plate on its panel's breakers and has no place of its own; a plain switch at
    which no service or feeder ends stands in a branch circuit. NFPA 70 230.70, 250.24, 250.30.
    """
    if isinstance(gear, TransferSwitch) and gear.states("type") and gear.type == "interlock":
        return "part-of-panel"
    if _is_in_a_circuit(gear, job):
        return "downstream"
    run = job.graph.feed(gear)
    start = run.from_
    if isinstance(start, Supply):
        if start.type != "utility":
            return "derived-source" if start.neutral == "bonded" else "downstream"
    elif role(start, job) != "ahead-of-service":
        return "downstream"
    if isinstance(gear, Meter):
        return "ahead-of-service"
    if gear.states("marking") and "not-service-equipment" in gear.marking:
        return "ahead-of-service"
    return "service" if _has_breaker(gear) or not _goes_on(gear, job) else "ahead-of-service"


def _is_in_a_circuit(gear: ServiceGear | Meter, job: Job) -> bool:
    """Whether it is a switch without breaker or fuses to which the plan, with all its services and feeders shown, brings none.

    Raises NotStated while the plan shows none and may show more.
    """
    if not isinstance(gear, Disconnect) or not gear.states("switch-rating") or _has_breaker(gear):
        return False
    ends = job.graph.feeds_into(gear)
    return not ends.known and not ends.whole()


def _has_breaker(gear: ServiceGear) -> bool:
    """Whether it states a breaker or fuses of its own. (A service that goes on from such gear is a fault of the plan.)"""
    if isinstance(gear, Disconnect):
        return gear.states("breaker") or gear.states("fuses")
    return isinstance(gear, Panel) and gear.states("main") and gear.main != "lugs"


def _goes_on(gear: ServiceGear, job: Job) -> bool:
    return job.graph.those(Service, "from", gear).some(lambda run: True)
