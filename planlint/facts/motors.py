"""Motors and cooling units that are wired in: their articles set wire and breaker, not the ampacity of the wire.

A circuit or feeder that is sized so is held to these facts by `motor-circuit-wrong` and `air-conditioner-nameplate-ignored`,
each of its loads by one of the two.
"""

from dataclasses import dataclass

from planlint.facts.ampacity import Range, carried
from planlint.facts.circuit_load import loads_on
from planlint.facts.circuit_needs import least_drawn, needed_together, suffices
from planlint.facts.demand import has_horsepower, plate_current, total_current
from planlint.facts.engine import Job, fact
from planlint.facts.wires import breaker_rating, hot_size
from planlint.plan.elements import does_not_arise, not_stated
from planlint.plan.gear import Disconnect
from planlint.plan.members import Members, all_hold
from planlint.plan.outlets import Lights, Load, Receptacles
from planlint.plan.runs import Circuit, Feeder
from planlint.quantities import Current, Percent, Voltage


@fact
def sized_by_motor_rules(run: Feeder | Circuit, job: Job) -> bool:
    """Whether it serves only motors or cooling units that are wired in, whose articles set wire and breaker.

    NFPA 70 240.4(G), 430, 440. Of feeders only those to a disconnect can be meant: a panel serves more. Not stated of a load
    that is planned only, for its plate is not known before it is bought.
    """
    if isinstance(run, Feeder):
        if not isinstance(run.to, Disconnect):
            return False
        circuits = job.graph.those(Circuit, "panel", run.to)
        return circuits.every(lambda circuit: sized_by_motor_rules(circuit, job)) and bool(circuits.whole())
    if run.states("use") and run.use != "appliance":
        return False
    loads = job.graph.those(Load, "circuit", run)
    others = [job.graph.those(kind, "circuit", run) for kind in (Receptacles, Lights)]
    if any(other.known for other in others) or not loads.every(lambda load: _is_by_motor_rules(load, job)):
        return False
    for other in others:
        other.whole()
    return bool(loads.known)


def _is_by_motor_rules(load: Load, job: Job) -> bool:
    if not all_hold(lambda: _is_driven(load, job), lambda: load.connection == "hard-wired"):
        return False
    if load.planned:
        not_stated(load, "planned", f"{load.name}: its plate, which can't be judged while it is planned only")
    return True


def _is_driven(load: Load, job: Job) -> bool:
    types: tuple[str, ...] = job.setting("sized-by-motor-rules.types")
    return load.type in types


@fact
def is_cooling_unit(load: Load, job: Job) -> bool:
    """Whether it is a compressor unit, whose plate has a minimum circuit ampacity and a largest breaker. NFPA 70 440.4(B)."""
    types: tuple[str, ...] = job.setting("is-cooling-unit.types")
    return load.type in types


@fact
def judged_as_motor(owner: Load | Feeder, job: Job) -> bool:
    """Whether it is a motor or pump that is wired in, or a feeder for nothing but such and cooling units. NFPA 70 430.1.

    Not planned ones, and not cooling units, which have their plate.
    """
    if isinstance(owner, Feeder):
        return sized_by_motor_rules(owner, job)
    return all_hold(
        lambda: _is_driven(owner, job),
        lambda: not is_cooling_unit(owner, job),
        lambda: owner.connection == "hard-wired",
        lambda: not owner.planned,
    )


@fact
def motor_current(load: Load, job: Job) -> Current:
    """Full-load current of one motor for its wire and breaker: the table's for its horsepower, not that of the plate.

    Where its plate gives amperes only (`horsepower none`), those. NFPA 70 430.6(A)(1), Table 430.248.
    """
    if not _is_driven(load, job):
        does_not_arise(load, f"{load.name}: a motor or a pump")
    if load.states("circuit") and load.circuit.states("poles") and load.circuit.poles > 2:
        not_stated(load, "horsepower", f"{load.name}: motors of three phases are not worked out here")
    if not load.horsepower.amount:
        job.step("no horsepower on the plate; its amperes", load.amps, "NFPA 70 430.6(A)(1)")
        return load.amps
    current = job.tables.motor_current(load.horsepower, load.volts)
    job.step(f"{load.horsepower} at {load.volts}", current, job.from_table("motor-current"))
    return current


def _run_of(owner: Load | Feeder) -> Feeder | Circuit:
    return owner if isinstance(owner, Feeder) else owner.circuit


def served_by_run(owner: Load | Feeder, job: Job) -> Members[Load]:
    """All appliances on its circuit, or on the circuits behind the feeder's disconnect."""
    if isinstance(owner, Load):
        return loads_on(owner.circuit, job)
    circuits = job.graph.those(Circuit, "panel", owner.to)
    found: Members[Load] = Members((), circuits.gaps)
    return found.joined(*(loads_on(circuit, job) for circuit in circuits))


def _carried(owner: Load | Feeder, job: Job) -> Range:
    run = _run_of(owner)
    return carried(run, hot_size(run, job), job)


@fact
def wire_carries(owner: Load | Feeder, job: Job) -> Current:
    """What the wires of its circuit, or of the feeder itself, carry. NFPA 70 310.14 (2017: 310.15(A))."""
    return _carried(owner, job).exact


@fact
def wire_to_carry(owner: Load | Feeder, job: Job) -> Current:
    """What those wires must carry: 125 % of the largest motor and the others' whole current, or what their plates ask.

    NFPA 70 430.22, 430.24, 440.33, 440.4(B).
    """
    return needed_together(served_by_run(owner, job).whole(), job)


@fact
def wire_carries_enough(owner: Load | Feeder, job: Job) -> bool:
    """Whether they carry it; known too where the plan leaves that open in part. NFPA 70 430.22, 430.24, 440.4(B)."""
    found = _carried(owner, job)
    return suffices(found.low, found.high, lambda: found.exact, served_by_run(owner, job), job)


@dataclass(frozen=True, slots=True)
class _Limit:
    """The largest breaker that is allowed for certain, the least that is too large for certain; None: nothing tells."""

    sure: Current
    at_most: Current | None
    why: str = ""


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
    return breaker_rating(_run_of(owner), job)


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
    fuses = _has_fuses(owner)
    if isinstance(owner, Load):
        own = _own_limit(owner, fuses, job)
        beside = _beside(owner, job)
        if beside is None:
            why = "whether it may share its circuit so, as a group that is listed for it (NFPA 70 430.53(C), (D))"
            return _Limit(own.sure, None, why)
        if not beside:
            return own
        others = [_own_limit(load, fuses, job) for load in beside if _is_driven(load, job)]
        highest = max([own, *others], key=lambda limit: (limit.at_most or limit.sure).amount)
        rest = total_current(plate_current(load, job) for load in (owner, *beside))
        why = "whether its group is listed for one breaker (NFPA 70 430.53(C), (D))"
        return _Limit(own.sure, (highest.at_most or highest.sure) + rest, why)
    served = served_by_run(owner, job).whole()
    limits = [_own_limit(load, fuses, job) for load in served]
    largest = max(range(len(served)), key=lambda index: limits[index].sure.amount)
    rest = total_current(plate_current(load, job) for index, load in enumerate(served) if index != largest)
    sure, most = limits[largest].sure + rest, (limits[largest].at_most or limits[largest].sure) + rest
    if len(served) > 1:
        job.step(f"{limits[largest].sure} for {served[largest].name} + {rest} of the others", sure, "NFPA 70 430.62(A)")
    return _Limit(sure, most, limits[largest].why)


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
    motors = [one for one in job.graph.those(Load, "circuit", load.circuit) if _is_driven(one, job)]
    return all(has_horsepower(one) and one.horsepower <= most and motor_current(one, job) <= current for one in motors)
