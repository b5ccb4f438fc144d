"""Series ratings: gear that may see more than its breakers can break alone, because the breaker ahead opens with them."""

from collections.abc import Iterator

from planlint.facts.circuit_load import loads_on
from planlint.facts.demand import plate_current, total_current
from planlint.facts.engine import Job, fact
from planlint.facts.fault import available_fault, bears_to_neutral
from planlint.plan.elements import not_stated
from planlint.plan.gear import AnyGear, Disconnect, Panel, TransferSwitch
from planlint.plan.members import all_hold
from planlint.plan.outlets import Load
from planlint.plan.runs import Circuit, Feeder
from planlint.quantities import Current, Percent


@fact
def series_rating_suits(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether it is series rated with the breaker ahead, for as much as can flow there, and few motors stand between the two.

    The motors of all that it feeds count, at full load. NFPA 70 240.86(A) to (C), 110.22(B), (C).
    """
    if not gear.series_rated:
        return False
    if not _has_breaker_ahead(gear, job):
        not_stated(gear, "series-rated", f"{gear.name}: series-rated, for no breaker is ahead of it")
    return all_hold(
        lambda: available_fault(gear, job) <= gear.series_rating,
        lambda: bears_to_neutral(gear, "series-rating", job),
        lambda: _motors_behind(gear, job) <= _most_of_motors(gear, job),
    )


def _motors_behind(gear: Disconnect | Panel | TransferSwitch, job: Job) -> Current:
    """Full-load currents of all motors that it feeds, added, for what they add to a fault."""
    found = [(load.name, plate_current(load, job)) for load in _motors(gear, job)]
    added = total_current(current for _, current in found)
    job.step(" + ".join(f"{name} {current}" for name, current in found) or "no motors", added, "NFPA 70 240.86(C)")
    return added


def _most_of_motors(gear: Disconnect | Panel | TransferSwitch, job: Job) -> Current:
    share: Percent = job.setting("series-rating-suits.most-motors")
    most = gear.interrupting * share
    job.step(f"{share} of {gear.interrupting} for motors between the two", most, "NFPA 70 240.86(C)")
    return most


def _motors(gear: AnyGear, job: Job) -> Iterator[Load]:
    types: tuple[str, ...] = job.setting("own-load.motors")
    for circuit in job.graph.those(Circuit, "panel", gear).whole():
        yield from (load for load in loads_on(circuit, job).whole() if load.type in types)
    for run in job.graph.feeds_from(gear).whole():
        yield from _motors(run.to, job)


def _has_breaker_ahead(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Its own main, the breaker of its feeder, or one ahead on the service."""
    if isinstance(gear, Panel) and gear.states("main") and isinstance(gear.main, Current):
        return True
    if isinstance(gear, TransferSwitch) and gear.type == "interlock":
        return True
    run = job.graph.feed(gear)
    if isinstance(run, Feeder):
        return True
    return isinstance(run.from_, Disconnect | TransferSwitch)
