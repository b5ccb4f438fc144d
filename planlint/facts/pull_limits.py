"""What a pull rests on beside its way: how hard wires press on the wall, what is stated for the whole pull, what wires bear."""

import math
from typing import Any

from planlint.facts.engine import Job, fact
from planlint.facts.fill import inside
from planlint.facts.pull_path import pieces_of_pull
from planlint.facts.ways import contents
from planlint.facts.wires import hot_wires, neutral_wires
from planlint.plan.elements import does_not_arise, not_stated
from planlint.plan.routes import Raceway
from planlint.quantities import Force, Percent, figured
from planlint.trade import Conductors

HANDBOOK = "common practice: handbooks on cable pulling"


def of_pull(raceway: Raceway, attribute: str, job: Job) -> Any:
    """What is stated for the whole pull, on whichever of its pieces. Raises NotStated if on none, or if two differ."""
    stating = [piece for piece in pieces_of_pull(raceway, job) if piece.states(attribute) or attribute in piece.unknown]
    if not stating:
        not_stated(raceway, attribute)
    values = [piece.value(attribute) for piece in stating]
    if any(value != values[0] for value in values):
        not_stated(
            stating[-1], attribute, f"{stating[-1].name}: {attribute}, for {stating[0].name} of the same pull says another"
        )
    return values[0]


@fact
def weight_correction_here(raceway: Raceway, job: Job) -> float:
    """How much harder the wires in it press on its wall than they weigh, because they wedge each other apart.

    1 for one wire or cable. Otherwise by x = d / (D - d), d the widest wire and D the inside: two 1 / sqrt(1 - x^2); three the
    same where the pipe is so narrow that they lie as a triangle, else 1 + 4/3 x^2 (side by side, the harder); four 1 + 2 x^2.
    Common practice, from the statics of round wires in a pipe.
    """
    if raceway.states("weight-correction") or "weight-correction" in raceway.unknown:
        return raceway.weight_correction
    parts = inside(raceway, job)
    count = sum(part.count for part in parts)
    if not count:
        does_not_arise(raceway, f"{raceway.name}: wires that are pulled into it, or weight-correction")
    if count == 1:
        job.step("one wire or cable", 1, HANDBOOK)
        return 1.0
    width = max(part.diameter.within("in") for part in parts)
    across = job.tables.inside_diameter(raceway.type, raceway.size).within("in")
    if across <= 2 * width:
        not_stated(raceway, "size", f"{raceway.name}: a size into which its {count} wires go")
    x = width / (across - width)
    job.step(f"x: {width:g} / ({across:g} - {width:g})", figured(x, 4), HANDBOOK)
    factor, form = _factor(count, x, across / width, job)
    job.step(f"{count} wires: {form}", figured(factor, 4), HANDBOOK)
    return factor


@fact
def drag_here(raceway: Raceway, job: Job) -> float:
    """What drags at its wires for each pound that they weigh: friction times the weight correction. Common practice.

    The friction is the plan's; without one, that of the rule book.
    """
    correction = weight_correction_here(raceway, job)
    stated = raceway.states("friction") or "friction" in raceway.unknown
    friction: float = raceway.friction if stated else job.setting("drag-here.friction")
    drag = friction * correction
    if drag <= 0:
        not_stated(raceway, "friction", f"{raceway.name}: friction, a number above zero")
    job.step(f"{friction:g} x {figured(correction, 4)}", figured(drag, 4), HANDBOOK)
    return drag


def _factor(count: int, x: float, ratio: float, job: Job) -> tuple[float, str]:
    if count == 2 or (count == 3 and ratio < job.setting("weight-correction-here.side-by-side-from")):
        return 1 / math.sqrt(1 - x**2), f"1 / sqrt(1 - {figured(x, 4)}^2)"
    if count == 3:
        return 1 + 4 / 3 * x**2, f"1 + 4 / 3 x {figured(x, 4)}^2"
    four = f"1 + 2 x {figured(x, 4)}^2"
    if count == 4:
        return 1 + 2 * x**2, four
    least: float = job.setting("weight-correction-here.many")
    return max(least, 1 + 2 * x**2), f"{four}, at least {least:g}"


@fact
def most_tension_by_wires(raceway: Raceway, job: Job) -> Force:
    """What the metal of its hot wires and neutrals bears, by a pulling eye; by a basket grip no more than the grip holds.

    Common practice (an ICEA-sponsored study, in makers' guides): so much for each circular mil, less for many wires. Grounds
    aren't counted on. How it is pulled is asked only where the grip would hold less.
    """
    wires = [wire for wire in _pulled(raceway, job) if wire.count]
    if not wires:
        does_not_arise(raceway, f"{raceway.name}: wires that are pulled into it")
    if any(not wire.size.metal for wire in wires):
        not_stated(raceway, "holds", f"{raceway.name}: the metal of its wires (copper or aluminum)")
    stress = min(float(job.setting(f"most-tension-by-wires.{wire.size.metal}")) for wire in wires)
    mils = sum(wire.count * job.tables.circular_mils(wire.size) for wire in wires)
    count = sum(wire.count for wire in wires)
    few = count <= job.setting("most-tension-by-wires.few")
    share: Percent = Percent.of(100, "%") if few else job.setting("most-tension-by-wires.many")
    bears = Force.of(mils * stress, "lb") * share
    if count > 1:
        each = " + ".join(f"{wire.count} x {job.tables.circular_mils(wire.size):g}" for wire in wires)
        job.step(each, f"{mils:g} circular mils", "NFPA 70 Chapter 9 Table 8")
    job.step(f"{mils:g} circular mils of {count} wires x {stress:g} lb x {share}", bears, HANDBOOK)
    grip: Force = job.setting("most-tension-by-wires.grip")
    if bears <= grip or raceway.pulled_by == "eye":
        return bears
    job.step("a basket grip", grip, HANDBOOK)
    return grip


def _pulled(raceway: Raceway, job: Job) -> list[Conductors]:
    found = [each(run, job) for run in contents(raceway, job).whole() for each in (hot_wires, neutral_wires)]
    return found + [wires for wires in raceway.holds if wires.insulation != "bare"]
