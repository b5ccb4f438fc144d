"""Motors and cooling units that are wired in: their articles set wire and breaker, not the ampacity of the wire.

A circuit or feeder that is sized so is held to these facts by `motor-circuit-wrong` and `air-conditioner-nameplate-ignored`,
each of its loads by one of the two.
"""

from planlint.facts.ampacity import Range, carried
from planlint.facts.circuit_load import loads_on
from planlint.facts.circuit_needs import needed_together, suffices
from planlint.facts.engine import Job, fact
from planlint.facts.wires import hot_size
from planlint.plan.elements import does_not_arise, not_stated
from planlint.plan.gear import Disconnect
from planlint.plan.members import Members, all_hold
from planlint.plan.outlets import Lights, Load, Receptacles
from planlint.plan.runs import Circuit, Feeder
from planlint.quantities import Current


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
    if not all_hold(lambda: is_driven(load, job), lambda: load.connection == "hard-wired"):
        return False
    if load.planned:
        not_stated(load, "planned", f"{load.name}: its plate, which can't be judged while it is planned only")
    return True


def is_driven(load: Load, job: Job) -> bool:
    """Whether its type is one of those whose circuits motor rules size."""
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
        lambda: is_driven(owner, job),
        lambda: not is_cooling_unit(owner, job),
        lambda: owner.connection == "hard-wired",
        lambda: not owner.planned,
    )


@fact
def motor_current(load: Load, job: Job) -> Current:
    """Full-load current of one motor for its wire and breaker: the table's for its horsepower, not that of the plate.

    Where its plate gives amperes only (`horsepower none`), those. NFPA 70 430.6(A)(1), Table 430.248.
    """
    if not is_driven(load, job) or (is_cooling_unit(load, job) and not load.states("horsepower")):
        does_not_arise(load, f"{load.name}: a motor or a pump, which goes by its horsepower")
    if load.states("circuit") and load.circuit.states("poles") and load.circuit.poles > 2:
        not_stated(load, "horsepower", f"{load.name}: motors of three phases are not worked out here")
    if not load.horsepower.amount:
        job.step("no horsepower on the plate; its amperes", load.amps, "NFPA 70 430.6(A)(1)")
        return load.amps
    current = job.tables.motor_current(load.horsepower, load.volts)
    job.step(f"{load.horsepower} at {load.volts}", current, job.from_table("motor-current"))
    return current


def run_of(owner: Load | Feeder) -> Feeder | Circuit:
    """The circuit of a load; a feeder itself."""
    return owner if isinstance(owner, Feeder) else owner.circuit


def served_by_run(owner: Load | Feeder, job: Job) -> Members[Load]:
    """All appliances on its circuit, or on the circuits behind the feeder's disconnect."""
    if isinstance(owner, Load):
        return loads_on(owner.circuit, job)
    circuits = job.graph.those(Circuit, "panel", owner.to)
    found: Members[Load] = Members((), circuits.gaps)
    return found.joined(*(loads_on(circuit, job) for circuit in circuits))


def by_own_rules(owner: Load | Feeder, job: Job) -> None:
    """Raise NotStated, as a question that doesn't arise, for what is no motor, no unit with a plate, and no feeder of such."""
    if isinstance(owner, Feeder):
        if not sized_by_motor_rules(owner, job):
            does_not_arise(owner, f"{owner.name}: a feeder for motors or cooling units only")
    elif not (owner.states("nameplate-ampacity") or owner.states("nameplate-breaker") or is_driven(owner, job)):
        does_not_arise(owner, f"{owner.name}: a motor, or a unit whose plate says what its circuit must be")


def _carried(owner: Load | Feeder, job: Job) -> Range:
    by_own_rules(owner, job)
    run = run_of(owner)
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
    by_own_rules(owner, job)
    return needed_together(served_by_run(owner, job).whole(), job)


@fact
def wire_carries_enough(owner: Load | Feeder, job: Job) -> bool:
    """Whether they carry it; known too where the plan leaves that open in part. NFPA 70 430.22, 430.24, 440.4(B)."""
    found = _carried(owner, job)
    return suffices(found.low, found.high, lambda: found.exact, served_by_run(owner, job), job)
