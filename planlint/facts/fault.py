"""Available fault current: what flows through a dead short, from the supply's figure down to each piece of gear.

Point-to-point method, common practice: f = 2 L I / (C n E) for one phase (1.732 for three), and I / (1 + f) at the far end.
Between the hot wires; close to a transformer it can be more from one of them to neutral, which a fact of its own looks at where
only the transformer's plate is known. Motors add nothing here.
"""

import math

from planlint.facts.engine import Job, fact
from planlint.facts.parts_served import source
from planlint.facts.wires import hot_size
from planlint.plan.elements import not_stated
from planlint.plan.gear import Disconnect, Meter, Panel, Supply, TransferSwitch
from planlint.plan.runs import Feeder, Service
from planlint.quantities import Current, Percent, Voltage


@fact
def available_fault(gear: Supply | Meter | Disconnect | Panel | TransferSwitch, job: Job) -> Current:
    """Fault current that can flow there. NFPA 70 110.9, 110.24; point to point.

    The utility's own wires take nothing off it: its figure is taken as good for where the customer's wires begin, which is the
    safe side.
    """
    if isinstance(gear, Supply):
        return _at_terminals(gear, job)
    if isinstance(gear, TransferSwitch) and gear.type == "interlock":
        return available_fault(gear.panel, job)
    run = job.graph.feed(gear)
    ahead = available_fault(run.from_, job)
    if isinstance(run, Service) and run.owner == "utility":
        job.step(f"{run.name} is the utility's: nothing taken off", ahead)
        return ahead
    return _after(run, ahead, source(run.to, job).volts.line, job)


@fact
def has_fault_rating(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether a fault current can pass it: anything but an interlock, which is a plate on a panel. NFPA 70 110.9, 110.10."""
    return not isinstance(gear, TransferSwitch) or gear.type != "interlock"


@fact
def bears_neutral_fault(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether it can also break a fault from one hot wire to the neutral, which is more than between the hots near a transformer.

    Yes where the utility gives its own figure. From the plate of a single-phase transformer with a neutral it is reckoned point
    to point, the hot wire's size for the neutral too; where it is too much, the utility's own figure is the open question.
    """
    supply = source(gear, job)
    between = supply.volts.to_neutral
    if supply.states("fault-current") or supply.phase == "three-phase" or between is None:
        return True
    most = _to_neutral(gear, between, job)
    if gear.interrupting < most:
        not_stated(supply, "fault-current", f"{supply.name}: fault-current, for {most} may flow to the neutral at {gear.name}")
    return True


def _to_neutral(gear: Supply | Meter | Disconnect | Panel | TransferSwitch, between: Voltage, job: Job) -> Current:
    """The most from a hot wire to the neutral, by the plate: at the transformer more than between the hots, soon less."""
    if isinstance(gear, Supply):
        share: Percent = job.setting("bears-neutral-fault.at-transformer")
        return _at_terminals(gear, job) * share
    if isinstance(gear, TransferSwitch) and gear.type == "interlock":
        return _to_neutral(gear.panel, between, job)
    run = job.graph.feed(gear)
    ahead = _to_neutral(run.from_, between, job)
    if isinstance(run, Service) and run.owner == "utility":
        return ahead
    return _after(run, ahead, between, job)


def _at_terminals(supply: Supply, job: Job) -> Current:
    if supply.states("fault-current") or not supply.states("transformer"):
        job.step(f"{supply.name}, by its own figure", supply.fault_current)
        return supply.fault_current
    volts, share = supply.volts.line.within("V"), supply.transformer_impedance.amount
    if not volts or not share:
        not_stated(supply, "transformer-impedance", f"{supply.name}: volts and impedance above 0")
    root = math.sqrt(3) if supply.phase == "three-phase" else 1.0
    current = Current.of(supply.transformer.within("VA") / (root * volts * share), "A")
    over = "1.732 x " if root > 1 else ""
    job.step(f"{supply.transformer} / ({over}{supply.volts.line} x {supply.transformer_impedance})", current,
             "point-to-point method")  # fmt: skip
    return current


def _after(run: Service | Feeder, ahead: Current, between: Voltage, job: Job) -> Current:
    """What is left of it at the far end of a run; all wires taken as in plastic pipe, which takes off least."""
    supply = source(run.to, job)
    constant = job.tables.fault_constant(hot_size(run, job), magnetic=False)
    volts = between.within("V")
    if not volts:
        not_stated(supply, "volts", f"{supply.name}: volts above 0")
    factor, word = (math.sqrt(3), "1.732") if supply.phase == "three-phase" else (2.0, "2")
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
