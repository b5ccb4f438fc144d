"""Available fault current: what flows through a dead short, from the supply's figure down to each piece of gear.

Point-to-point method, common practice: f = 2 L I / (C n E) for one phase (1.732 for three), and I / (1 + f) at the far end; once
between the hot wires, once from one of them to the neutral. It adds impedances as plain numbers: where those of transformer and
wires differ in their angle, more can flow, a twentieth by a reactance as large as the resistance, a seventh by twice as large a
one. All wires are taken as in plastic pipe, which takes off least, and the utility's own as taking off nothing. Motors add
nothing here.
"""

import math
from dataclasses import dataclass

from planlint.facts.drop import is_the_utilitys, run_volts
from planlint.facts.engine import Job, fact
from planlint.facts.parts_served import source
from planlint.facts.wires import Wired, hot_size
from planlint.plan.elements import not_stated
from planlint.plan.gear import AnyGear, Disconnect, Meter, Panel, Supply, TransferSwitch
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Current, Percent, Voltage

AnyPlace = Supply | AnyGear


@dataclass(frozen=True, slots=True)
class Short:
    """A short to the neutral: the volts that drive it, and the setting with what a single-phase transformer gives at most."""

    volts: Voltage
    at_transformer: str


@fact
def available_fault(gear: Supply | Meter | Disconnect | Panel | TransferSwitch, job: Job) -> Current:
    """Fault current that can flow there between the hot wires. NFPA 70 110.9, 110.24; point to point.

    The utility's own wires take nothing off it: its figure is taken as good for where the customer's wires begin, which is the
    safe side.
    """
    if isinstance(gear, Supply):
        return _at_terminals(gear, job)
    if isinstance(gear, TransferSwitch) and gear.type == "interlock":
        return available_fault(gear.panel, job)
    run = job.graph.feed(gear)
    ahead = available_fault(run.from_, job)
    if is_the_utilitys(run):
        job.step(f"{run.name} is the utility's: nothing taken off", ahead)
        return ahead
    supply = source(gear, job)
    return _after(run, ahead, supply.volts.line, supply, job)


@fact
def available_fault_to_neutral(gear: Supply | Meter | Disconnect | Panel | TransferSwitch, job: Job) -> Current:
    """Fault current that can flow there from one hot wire to the neutral. NFPA 70 110.9, 110.24; point to point.

    At the terminals of a single-phase transformer half as much again as between the hot wires; where the utility gives its own
    figure, that. The neutral counts with the hot wire's size, which takes off least.
    """
    supply = gear if isinstance(gear, Supply) else source(gear, job)
    return _to_neutral(gear, Short(_volts_to_neutral(supply), "available-fault-to-neutral.at-transformer"), job)


@fact
def most_fault(gear: Supply | Meter | Disconnect | Panel | TransferSwitch, job: Job) -> Current:
    """The larger of the two: the fault current between the hot wires, and that to the neutral of a single-phase supply.

    NFPA 70 110.9, 110.24; point to point.
    """
    supply = gear if isinstance(gear, Supply) else source(gear, job)
    between = available_fault(gear, job)
    if supply.phase == "three-phase" or supply.volts.to_neutral is None:
        return between
    to_neutral = available_fault_to_neutral(gear, job)
    job.step(f"the larger of {between} between the hot wires and {to_neutral} to the neutral", max(between, to_neutral))
    return max(between, to_neutral)


@fact
def fault_at_end(run: Service | Feeder | Circuit, job: Job) -> Current:
    """Fault current at its far end: between its two hot wires, or of one pole to the neutral. NFPA 70 110.9; point to point."""
    if not isinstance(run, Circuit):
        return available_fault(run.to, job)
    supply, volts = source(run.panel, job), run_volts(run, job)
    if volts == supply.volts.line:
        return _after(run, available_fault(run.panel, job), volts, supply, job)
    if volts != supply.volts.to_neutral:
        not_stated(run, "volts", f"{run.name}: volts, because {volts} is no voltage of {supply.name}")
    return _after(run, available_fault_to_neutral(run.panel, job), volts, supply, job)


@fact
def has_fault_rating(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether a fault current can pass it: anything but an interlock, which is a plate on a panel. NFPA 70 110.9, 110.10."""
    return not isinstance(gear, TransferSwitch) or gear.type != "interlock"


@fact
def bears_neutral_fault(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether it can also break a fault from one hot wire to the neutral, which is more than between the hots near a transformer.

    Yes where the utility gives its own figure. From the plate of a single-phase transformer with a neutral the most is reckoned
    that half a winding can give; where it is too much, the utility's own figure is the open question. NFPA 70 110.9.
    """
    return bears_to_neutral(gear, "interrupting", job)


def bears_to_neutral(gear: Disconnect | Panel | TransferSwitch, attribute: str, job: Job) -> bool:
    """Whether that rating of it does for the most that can flow to the neutral.

    Raises NotStated where the utility has to say it.
    """
    supply = source(gear, job)
    if supply.states("fault-current") or supply.phase == "three-phase" or supply.volts.to_neutral is None:
        return True
    rating: Current = gear.value(attribute)
    most = _to_neutral(gear, Short(_volts_to_neutral(supply), "bears-neutral-fault.at-transformer"), job)
    if rating < most:
        not_stated(supply, "fault-current", f"{supply.name}: fault-current, for {most} may flow to the neutral at {gear.name}")
    return True


def _volts_to_neutral(supply: Supply) -> Voltage:
    if supply.volts.to_neutral is None:
        not_stated(supply, "volts", f"{supply.name}: volts, with those to a neutral")
    return supply.volts.to_neutral


def _to_neutral(gear: AnyPlace, short: Short, job: Job) -> Current:
    """From a hot wire to the neutral: at a transformer more than between the hots, soon less."""
    if isinstance(gear, Supply):
        terminals = _at_terminals(gear, job)
        if gear.states("fault-current") or gear.phase == "three-phase":
            return terminals
        share: Percent = job.setting(short.at_transformer)
        job.step(f"from half a winding {share} x {terminals}", terminals * share, "point-to-point method")
        return terminals * share
    if isinstance(gear, TransferSwitch) and gear.type == "interlock":
        return _to_neutral(gear.panel, short, job)
    run = job.graph.feed(gear)
    ahead = _to_neutral(run.from_, short, job)
    if is_the_utilitys(run):
        return ahead
    return _after(run, ahead, short.volts, source(gear, job), job)


def _at_terminals(supply: Supply, job: Job) -> Current:
    if supply.states("fault-current") or not supply.states("transformer"):
        job.step(f"{supply.name}, by its own figure", supply.fault_current)
        return supply.fault_current
    if supply.phase == "single-phase" and supply.volts.to_neutral and supply.volts.line != supply.volts.to_neutral * 2:
        # Two legs of a bank for three phases: what flows there the plate's size, of one transformer or of all, doesn't tell.
        not_stated(supply, "fault-current")
    volts, share = supply.volts.line.within("V"), supply.transformer_impedance.amount
    if not volts or not share:
        not_stated(supply, "transformer-impedance", f"{supply.name}: volts and impedance above 0")
    root = math.sqrt(3) if supply.phase == "three-phase" else 1.0
    current = Current.of(supply.transformer.within("VA") / (root * volts * share), "A")
    over = "1.732 x " if root > 1 else ""
    job.step(f"{supply.transformer} / ({over}{supply.volts.line} x {supply.transformer_impedance})", current,
             "point-to-point method")  # fmt: skip
    return current


def _after(run: Wired, ahead: Current, between: Voltage, supply: Supply, job: Job) -> Current:
    """What is left of it at the far end of a run."""
    constant = job.tables.fault_constant(hot_size(run, job), magnetic=False)
    volts = between.within("V")
    if not volts:
        not_stated(supply, "volts", f"{supply.name}: volts above 0")
    three = supply.phase == "three-phase" and between == supply.volts.line and not isinstance(run, Circuit)
    factor, word = (math.sqrt(3), "1.732") if three else (2.0, "2")
    length = run.length.within("ft")
    f = factor * length * ahead.within("A") / (constant * run.sets * volts)
    left = Current.of(ahead.within("kA") / (1 + f), "kA")
    job.step(
        f"{run.name}: f = {word} x {length:g} ft x {ahead} / ({constant:g} x {run.sets} x {between})",
        f"{f:.3f}",
        job.from_table("fault-constants"),
    )
    job.step(f"{ahead} / (1 + {f:.3f})", left)
    return left
