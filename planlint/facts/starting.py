"""What a motor takes as it starts, and what that costs of the voltage on its way from the utility's wires.

The wires count with their resistance to direct current: with a locked rotor the power factor is low, and up to 4/0 the effective
impedance is then less. What else runs at the time is not counted.
"""

from collections.abc import Iterator

from planlint.facts.drop import is_the_utilitys, run_volts
from planlint.facts.engine import Job, fact
from planlint.facts.parts_served import line_volts, source
from planlint.facts.wire_ohms import ohms_by_resistance
from planlint.facts.wires import hot_size, neutral_size
from planlint.plan.elements import does_not_arise, not_stated
from planlint.plan.gear import AnyGear, Supply, TransferSwitch
from planlint.plan.outlets import Load
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Current, Percent, Resistance, Voltage
from planlint.trade import WireSize


@fact
def is_motor(load: Load, job: Job) -> bool:
    """Whether it is a motor, a pump or a compressor, by its type. NFPA 70 430.1, 440.1."""
    types: tuple[str, ...] = job.setting("is-motor.types")
    return load.type in types


@fact
def starting_current(load: Load, job: Job) -> Current:
    """The most that it draws as it starts: the locked-rotor current of its plate, or what its code letter may come to.

    Several of one sort may start together, as after an outage. NFPA 70 430.7(B), 440.4(A). Not stated without either: the code
    tells no starting current from horsepower alone that a wire could be judged by.
    """
    return _starting(load, job)[1]


@fact
def starting_drop(load: Load, job: Job) -> Percent:
    """Voltage lost at the motor as it starts, in its circuit and all of the customer's wires ahead.

    Where count or code letter leave it open within bounds: the bound that settles it, if one does. NFPA 70 Chapter 9 Table 8.
    """
    low, high = _starting(load, job)
    volts, ohms = _volts(load.circuit, job), _ohms_to(load.circuit, job)
    least, most = _share(low, ohms, volts), _share(high, ohms, volts)
    if least == most:
        _show(most, high, ohms, volts, job)
        return most
    limit: Percent = job.setting("motor-starting-voltage-drop.most-drop")
    if least <= limit < most and load.count > 1:
        both = f"{least} if one does and {most} if all do"
        not_stated(load, "count", f"{load.name}: whether its {load.count} start together, for the drop is {both}")
    if least <= limit < most:
        not_stated(load, "locked-rotor", f"{load.name}: locked-rotor, for the drop may be {least} or {most}")
    bound, current = (most, high) if most <= limit else (least, low)
    _show(bound, current, ohms, volts, job)
    job.step("no more than that" if bound is most else "no less than that", bound)
    return bound


@fact
def mend_for_start(load: Load, job: Job) -> str:
    """What would keep the voltage up as the motor starts: the smallest wire of the circuit that does, or only more than that.

    NFPA 70 Chapter 9 Table 8.
    """
    limit: Percent = job.setting("motor-starting-voltage-drop.most-drop")
    _, current = _starting(load, job)
    circuit = load.circuit
    present, ahead, volts = hot_size(circuit, job), _ohms_ahead(circuit, job), _volts(circuit, job)
    for size in job.tables.sizes_up(present.metal):
        if size < present:
            continue
        ohms = ahead + _ohms_of(circuit, size, size, job)
        lost = _share(current, ohms, volts)
        if lost <= limit:
            job.step(f"{_words(circuit, size, size, job)} + {ahead} ahead", ohms, job.from_table("conductor-properties"))
            job.step(f"{current} x {ohms} / {volts}", lost)
            if size == present:
                return f"The wire of {circuit.name} does as it is."
            return f"Take {size} or larger for {circuit.name} (its ground grows with it), or a motor that starts more gently."
    return "A larger wire in its circuit alone does not mend that; ask for a motor that starts more gently."


def _starting(load: Load, job: Job) -> tuple[Current, Current]:
    """The least and the most that it may draw: one of them alone, and all of its `count` together."""
    if not (is_motor(load, job) or load.states("locked-rotor")):
        does_not_arise(load, f"{load.name}: a motor, a pump or a compressor")
    if load.states("locked-rotor") or not load.states("code-letter"):
        least = most = load.locked_rotor
    else:
        least, most = _by_letter(load, job)
    if load.count != 1:
        job.step(f"one alone {least}; {load.count} together, {load.count} x {most}", most * load.count)
    return least, most * load.count


def _by_letter(load: Load, job: Job) -> tuple[Current, Current]:
    low, high = job.tables.locked_rotor(load.code_letter)
    horsepower, volts = load.horsepower.within("hp"), load.volts.within("V")
    if not volts:
        not_stated(load, "volts", f"{load.name}: volts, which are not 0")
    if not horsepower:
        not_stated(load, "locked-rotor", f"{load.name}: locked-rotor, because its code letter goes by horsepower")
    if high is None:
        not_stated(load, "locked-rotor", f"{load.name}: locked-rotor, because its code letter has no upper end")
    least, most = (Current.of(power.within("VA") * horsepower / volts, "A") for power in (low, high))
    job.step(f"code letter {load.code_letter}: {low} to {high} x {horsepower:g} hp / {load.volts}", f"{least} to {most}",
             job.from_table("code-letters"))  # fmt: skip
    return least, most


def _volts(circuit: Circuit, job: Job) -> Voltage:
    """What its wires work at: between the supply's hot wires, or from one to neutral. Raises NotStated for anything else."""
    volts, supply = run_volts(circuit, job), source(circuit.panel, job)
    if not volts.amount or volts not in (line_volts(supply), supply.volts.to_neutral):
        not_stated(circuit, "volts", f"{circuit.name}: volts, because {volts} is no voltage of {supply.name}")
    return volts


def _ohms_to(circuit: Circuit, job: Job) -> Resistance:
    size = hot_size(circuit, job)
    here, ahead = _ohms_of(circuit, size, size, job), _ohms_ahead(circuit, job)
    job.step(_words(circuit, size, size, job), here, job.from_table("conductor-properties"))
    if ahead.amount:
        job.step(f"{here} + {ahead} ahead", here + ahead)
    return here + ahead


def _ohms_ahead(circuit: Circuit, job: Job) -> Resistance:
    """Out and back through all of the customer's services and feeders: by the two hot wires, or by one and the neutral."""
    between_hots = run_volts(circuit, job) == line_volts(source(circuit.panel, job))
    parts: list[Resistance] = []
    for run in _runs_ahead(circuit.panel, job):
        if not is_the_utilitys(run):
            hot = hot_size(run, job)
            back = hot if between_hots else neutral_size(run, job)
            ohms = _ohms_of(run, hot, back, job)
            job.step(_words(run, hot, back, job), ohms, job.from_table("conductor-properties"))
            parts.append(ohms)
    added = sum(parts, Resistance.of(0, "ohm"))
    if len(parts) > 1:
        job.step(" + ".join(map(str, parts)), added)
    return added


def _runs_ahead(gear: AnyGear | Supply, job: Job) -> Iterator[Service | Feeder]:
    while not isinstance(gear, Supply):
        if isinstance(gear, TransferSwitch) and gear.type == "interlock":
            gear = gear.panel
        run = job.graph.feed(gear)
        yield run
        gear = run.from_


def _ohms_of(run: Service | Feeder | Circuit, out: WireSize, back: WireSize, job: Job) -> Resistance:
    if not back.size:
        not_stated(run, "neutral", f"{run.name}: neutral, for the motor's current comes back through it")
    both = ohms_by_resistance(out, job).number + ohms_by_resistance(back, job).number
    return Resistance.of(run.length.within("ft") * both / 1000 / run.sets, "ohm")


def _words(run: Service | Feeder | Circuit, out: WireSize, back: WireSize, job: Job) -> str:
    there, home = (ohms_by_resistance(size, job).words for size in (out, back))
    each = f" / {run.sets} sets" if run.sets != 1 else ""
    return f"{run.name}: {run.length.within('ft'):g} ft x ({there} + {home}) ohm / 1000 ft{each}"


def _share(current: Current, ohms: Resistance, volts: Voltage) -> Percent:
    return Percent.of(100 * current.within("A") * ohms.within("ohm") / volts.within("V"), "%")


def _show(share: Percent, current: Current, ohms: Resistance, volts: Voltage, job: Job) -> None:
    lost = Voltage.of(current.within("A") * ohms.within("ohm"), "V")
    job.step(f"{current} x {ohms}", lost)
    job.step(f"{lost} / {volts}", share)
