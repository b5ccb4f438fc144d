"""What has to be written on gear, so that whoever comes to shut it off knows what it is and what else feeds the place."""

from typing import Literal

from planlint.facts.buildings import stands_at
from planlint.facts.engine import Job, fact
from planlint.facts.roles import ServiceGear, role
from planlint.facts.supplies import feeders, service_disconnects
from planlint.plan.elements import not_stated
from planlint.plan.gear import Disconnect, Meter, Panel, Supply, TransferSwitch
from planlint.plan.members import Members
from planlint.plan.runs import Feeder
from planlint.plan.site import Building


@fact
def label_needed(gear: Disconnect | Panel | TransferSwitch, job: Job) -> Literal["service-disconnect", "fed-from", "none"]:
    """What its label must say: that it is the service disconnect; on a feeder's panel, but not in a dwelling, what feeds it.

    NFPA 70 230.70(B), 408.4(B).
    """
    part = role(gear, job)
    if part == "service":
        return "service-disconnect"
    if part != "downstream" or not isinstance(gear, Panel) or not isinstance(job.graph.feed(gear), Feeder):
        return "none"
    home = stands_at(gear, job)
    return "fed-from" if home is not None and home.use in job.setting("label-needed.fed-from-in") else "none"


@fact
def label_tells(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether its label says what it must. NFPA 70 230.70(B), 408.4(B)."""
    needed = label_needed(gear, job)
    return needed == "none" or needed in gear.marking


@fact
def sources_are_listed(building: Building, job: Job) -> bool:
    """Whether at every place with service disconnects that its power passes a plaque lists the other sources.

    Of several disconnects side by side one plaque is enough. NFPA 70 705.10, 702.7(A).
    """
    switches = _service_switches(building, job)
    if not switches.known and not switches.gaps:
        not_stated(building, "fed-by", f"{building.name}: the service disconnect that its power passes")
    return switches.every(lambda switch: switches.where(lambda one: one.at is switch.at).some(lambda one: one.source_plaque))


def _service_switches(building: Building, job: Job) -> Members[ServiceGear]:
    own: Members[ServiceGear] = service_disconnects(building, job)
    if own.known:
        return own
    incoming = feeders(building, job)
    ahead = {id(switch): switch for run in incoming for switch in (_service_switch_ahead(run, job),)}
    return Members(tuple(ahead.values()), incoming.gaps or own.gaps)


def _service_switch_ahead(run: Feeder, job: Job) -> ServiceGear:
    """The service disconnect that the power of a feeder has passed. Raises NotStated where there is none."""
    start = run.from_
    if isinstance(start, Supply | Meter):
        not_stated(run, "from", f"{run.name}: the service disconnect ahead of it")
    if role(start, job) == "service":
        return start
    before = job.graph.feed(start)
    if not isinstance(before, Feeder):
        not_stated(run, "from", f"{run.name}: the service disconnect ahead of it")
    return _service_switch_ahead(before, job)
