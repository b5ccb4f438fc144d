"""One part of a pull: the tension past it, and the line of the working that says how it comes out."""

import math

from planlint.facts import pull_forces as forces
from planlint.facts.pull_path import Part
from planlint.quantities import figured


def past(part: Part, tension: float, weight: float, drag: float) -> tuple[float, str]:
    """The tension past a part, in pounds, and the formula with its numbers put in."""
    if not part.angle:
        return _past_straight(part, tension, weight, drag)
    if part.enters is None or part.leaves is None:
        bend = forces.hardest_bend(tension, weight, drag, part.angle, part.radius)
        worst = f"at the worst, P = -{_n(weight)} x {_n(part.radius)} x sqrt(1 + {_n(drag)}^2) / {_n(drag)}"
        return bend.past(drag), _turned(part, bend, drag, _slack(bend, tension) + worst)
    if part.is_level:
        return _past_level(part, tension, weight, drag)
    bend = forces.upright_bend(tension, weight, drag, part.enters, part.leaves, part.radius)
    sign = "-" if part.leaves > part.enters else ""
    scale = f"{_n(weight)} x {_n(part.radius)} / (1 + {_n(drag)}^2)"
    slopes = f"{sign}(1 - {_n(drag)}^2) cos - 2 x {_n(drag)} sin"
    way = f"from {_deg(part.enters)} to {_deg(part.leaves)}, P = {scale} x ({slopes})"
    return bend.past(drag), _turned(part, bend, drag, _slack(bend, tension) + way)


def _slack(bend: forces.Turn, tension: float) -> str:
    """Says that the rope counts with more than its tension, where it is too slack to be lifted off the outer wall."""
    return f"slack, so counted from {_n(bend.start)} lb, " if bend.start > tension else ""


def _past_straight(part: Part, tension: float, weight: float, drag: float) -> tuple[float, str]:
    start = f"{_n(part.length)} ft of {part.piece.name}: {_n(tension)} + {_n(weight)} x {_n(part.length)} x"
    if part.enters is None:
        return forces.hardest_straight(tension, weight, drag, part.length), f"{start} sqrt(1 + {_n(drag)}^2), at the worst"
    after = forces.straight(tension, weight, drag, part.length, part.enters)
    if part.is_level:
        return after, f"{start} {_n(drag)}"
    slope = _deg(part.enters)
    return after, f"{start} (sin {slope} + {_n(drag)} x cos {slope}){'' if after else ', not below 0'}"


def _past_level(part: Part, tension: float, weight: float, drag: float) -> tuple[float, str]:
    turn, heavy = f"({_n(drag)} x {_n(part.angle)})", f"({_n(weight)} x {_n(part.radius)})"
    after = forces.level_bend(tension, weight, drag, part.angle, part.radius)
    text = f"{_n(tension)} x cosh{turn} + sqrt({_n(tension)}^2 + {heavy}^2) x sinh{turn}"
    return after, f"level bend of {_deg(part.angle)} in {part.piece.name}: {text}"


def _turned(part: Part, bend: forces.Turn, drag: float, way: str) -> str:
    formula = f"({_n(bend.start)} - ({_n(bend.entering)})) x e^({_n(drag)} x {_n(bend.angle)}) + ({_n(bend.leaving)})"
    return f"bend of {_deg(part.angle)} in {part.piece.name}, {way}: {formula}"


def _n(number: float) -> str:
    return figured(number, 4)


def _deg(angle: float) -> str:
    return f"{figured(math.degrees(angle))} deg"
