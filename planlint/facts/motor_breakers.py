"""The largest breaker for a motor, for a group of them, and for a feeder that serves nothing else."""

from collections.abc import Sequence
from dataclasses import dataclass

from planlint.facts.circuit_needs import least_drawn
from planlint.facts.demand import has_horsepower, plate_current, total_current
from planlint.facts.engine import Job, fact
from planlint.facts.motors import by_own_rules, is_cooling_unit, is_driven, motor_current, run_of, served_by_run
from planlint.facts.wires import breaker_rating
from planlint.plan.elements import not_stated
from planlint.plan.gear import Disconnect
from planlint.plan.outlets import Lights, Load, Receptacles
from planlint.plan.runs import Feeder
from planlint.quantities import Current, Percent, Voltage


@dataclass(frozen=True, slots=True)
class _Limit:
    """The largest breaker that is allowed for certain, the least that is too large for certain; None: nothing tells."""

    sure: Current
    at_most: Current | None
    why: str = ""

    @property
    def largest(self) -> Current:
        """The larger of the two."""
        return self.at_most or self.sure


@fact
def largest_motor_breaker(owner: Load | Feeder, job: Job) -> Current:
    """The largest breaker for it: 250 % of its current (dual-element fuses 175 %), the next standard size, or its plate's.

    A feeder's: the largest of those behind it and the current of all others. NFPA 70 430.52(C)(1), Table 430.52 (2023:
    430.52(C)(1)), 430.62(A), 440.22.
    """
    return _limit(owner, job).sure


@fact
def breaker_on_it(owner: Load | Feeder, job: Job) -> Current:
    """The breaker or fuses of its circuit, or of the feeder itself. NFPA 70 article 240."""
    by_own_rules(owner, job)
    return breaker_rating(run_of(owner), job)


@fact
def motor_breaker_carries(owner: Load | Feeder, job: Job) -> bool:
    """Whether its breaker is no smaller than what it is known to carry. NFPA 70 430.52(B)."""
    return breaker_on_it(owner, job) >= least_drawn(served_by_run(owner, job).known, job)


@fact
def motor_breaker_fits(owner: Load | Feeder, job: Job) -> bool:
    """Whether its breaker is no larger than motors may have; one for a group is weighed too.

    Several motors, or a motor beside other loads, on one circuit: by 430.53(A) for small ones, by (B) within the limit of each;
    between that and the limit of the whole group only equipment that is listed for it (430.53(C), (D)), which is open.
    """
    breaker, limit = breaker_on_it(owner, job), _limit(owner, job)
    if breaker <= limit.sure:
        return True
    if limit.at_most is not None and breaker > limit.at_most:
        return False
    if isinstance(owner, Load) and _is_small_group(owner, breaker, job):
        return True
    not_stated(owner, "breaker-limit", f"{owner.name}: {limit.why}")


def _limit(owner: Load | Feeder, job: Job) -> _Limit:
    by_own_rules(owner, job)
    fuses = _has_fuses(owner)
    return _limit_of_feeder(owner, fuses, job) if isinstance(owner, Feeder) else _limit_of_load(owner, fuses, job)


def _limit_of_load(load: Load, fuses: bool, job: Job) -> _Limit:
    """Its own; with others on its circuit up to that of the largest and the current of the rest, if they are listed for it."""
    own, beside = _own_limit(load, fuses, job), _beside(load, job)
    if beside is None:
        return _Limit(own.sure, None, "whether it may share its circuit so, in a group listed for it (NFPA 70 430.53(C), (D))")
    if not beside:
        return own
    driven = [load, *(other for other in beside if other is not load and is_driven(other, job))]
    largest = max(((_own_limit(one, fuses, job), one) for one in driven), key=lambda pair: pair[0].largest.amount)
    every = [load, *(other for other in beside if other is not load)]
    return _Limit(
        own.sure,
        largest[0].largest + _rest(every, largest[1], job),
        "whether its group is listed for one breaker (NFPA 70 430.53(C), (D))",
    )


def _limit_of_feeder(feeder: Feeder, fuses: bool, job: Job) -> _Limit:
    served = served_by_run(feeder, job).whole()
    limit, largest = max(((_own_limit(one, fuses, job), one) for one in served), key=lambda pair: pair[0].sure.amount)
    rest = _rest(served, largest, job)
    if rest.amount:
        job.step(f"{limit.sure} for {largest.name} + {rest} of the others", limit.sure + rest, "NFPA 70 430.62(A)")
    return _Limit(limit.sure + rest, limit.largest + rest, limit.why)


def _rest(loads: Sequence[Load], largest: Load, job: Job) -> Current:
    """What all but one of the largest draw."""
    if len(loads) == 1 and largest.count == 1:
        return Current.of(0, "A")
    return total_current(plate_current(load, job) for load in loads) - plate_current(largest, job) * (1 / largest.count)


def _own_limit(load: Load, fuses: bool, job: Job) -> _Limit:
    """By its plate where that is stated or must be; otherwise by percentage of its current, to the next standard size."""
    if load.states("nameplate-breaker") or is_cooling_unit(load, job):
        job.step(f"{load.name}: largest breaker on its plate", load.nameplate_breaker, "NFPA 70 440.4(B), 110.3(B)")
        return _Limit(load.nameplate_breaker, load.nameplate_breaker)
    current = motor_current(load, job)
    if not fuses:
        limit = _rounded_up(load, current, job.setting("largest-motor-breaker.inverse-time"), job)
        return _Limit(limit, limit)
    sure = _rounded_up(load, current, job.setting("largest-motor-breaker.dual-element-fuse"), job)
    most = _rounded_up(load, current, job.setting("largest-motor-breaker.plain-fuse"), job)
    return _Limit(sure, most, "whether its fuses have a time delay")


def _rounded_up(load: Load, current: Current, share: Percent, job: Job) -> Current:
    wanted = current * share
    fitting = [rating for rating in job.tables.standard_ratings(job.edition) if rating >= wanted]
    if not fitting:
        not_stated(load, "horsepower", f"{load.name}: a motor for whose {wanted} there is a standard rating")
    job.step(f"{load.name}: {share} x {current} = {wanted}, the next standard rating", fitting[0], "NFPA 70 430.52(C)(1)")
    return fitting[0]


def _has_fuses(owner: Load | Feeder) -> bool:
    if isinstance(owner, Feeder):
        return owner.states("fuses") and not owner.states("breaker")
    panel = owner.circuit.panel
    return isinstance(panel, Disconnect) and panel.states("fuses") and not panel.states("breaker")


def _beside(load: Load, job: Job) -> tuple[Load, ...] | None:
    """The other loads of its circuit, itself again where there are several; None where outlets, or lists not shown, may join."""
    graph, circuit = job.graph, load.circuit
    for others in (graph.those(Receptacles, "circuit", circuit), graph.those(Lights, "circuit", circuit)):
        if others.known or others.gaps:
            return None
    loads = graph.those(Load, "circuit", circuit)
    if loads.gaps:
        return None
    return tuple(other for other in loads if other is not load or other.count > 1)


def _is_small_group(load: Load, breaker: Current, job: Job) -> bool:
    """Motors of 1 hp and 6 A at the most, on a breaker of 20 A at 120 V or 15 A at more. NFPA 70 430.53(A)."""
    limit: Current = job.setting("largest-motor-breaker.small-group-low-volts")
    low_volts: Voltage = job.setting("largest-motor-breaker.small-group-volts")
    if breaker > limit or (load.volts > low_volts and breaker > job.setting("largest-motor-breaker.small-group")):
        return False
    most, current = job.setting("largest-motor-breaker.small-motor"), job.setting("largest-motor-breaker.small-current")
    motors = [one for one in job.graph.those(Load, "circuit", load.circuit) if is_driven(one, job)]
    return all(has_horsepower(one) and one.horsepower <= most and motor_current(one, job) <= current for one in motors)
