"""The force on a rope of wires that is dragged through straight and bent pipe, in pounds, feet and radians.

`drag` is the friction times the weight correction. The equations are those of the handbooks on cable pulling, worked here from
the balance of forces on a short piece of rope: dT/ds = weight x sin(slope) + drag x force against the wall.
"""

import math
from dataclasses import dataclass


def straight(tension: float, weight: float, drag: float, length: float, slope: float = 0.0) -> float:
    """The tension past a straight part. Never below zero: where it would run down by itself, it is held back."""
    return max(0.0, tension + weight * length * (math.sin(slope) + drag * math.cos(slope)))


def capstan(tension: float, drag: float, angle: float) -> float:
    """The tension past a bend where the weight in the bend counts for nothing: the short form of the handbooks."""
    return tension * math.exp(drag * angle)


def level_bend(tension: float, weight: float, drag: float, angle: float, radius: float) -> float:
    """The tension past a bend that lies level: tension presses sideways, weight down, and both rub."""
    turn = drag * angle
    return tension * math.cosh(turn) + math.hypot(tension, weight * radius) * math.sinh(turn)


@dataclass(frozen=True, slots=True)
class Turn:
    """A bend that turns up or down: past it the tension is (start - entering) x e^(drag x angle) + leaving."""

    start: float
    entering: float
    leaving: float
    angle: float

    def past(self, drag: float) -> float:
        """The tension past it; never below zero."""
        return max(0.0, (self.start - self.entering) * math.exp(drag * self.angle) + self.leaving)


def upright_bend(tension: float, weight: float, drag: float, enters: float, leaves: float, radius: float) -> Turn:
    """A bend that turns up or down, from one slope to another (rising is above zero).

    In a bend that turns down, tension and weight press the same way. In one that turns up, the tension lifts the rope off the
    outer wall; a rope too slack for that is taken as if it just were lifted, which is a little too much.
    """
    scale, sign = weight * radius / (1 + drag**2), 1
    if leaves > enters:
        sign = -1
        highest = 1.0 if enters <= 0 <= leaves else max(math.cos(enters), math.cos(leaves))
        tension = max(tension, weight * radius * (2 * highest - math.cos(enters)))
    ends = [scale * (sign * (1 - drag**2) * math.cos(slope) - 2 * drag * math.sin(slope)) for slope in (enters, leaves)]
    return Turn(tension, ends[0], ends[1], abs(leaves - enters))


def hardest_straight(tension: float, weight: float, drag: float, length: float) -> float:
    """No slope makes a straight part harder than this."""
    return tension + weight * length * math.hypot(1, drag)


def hardest_bend(tension: float, weight: float, drag: float, angle: float, radius: float) -> Turn:
    """No way in which a bend may lie makes it harder than this; a slack rope counts as lifted off the wall, as above."""
    share = weight * radius * math.hypot(1, drag) / drag
    return Turn(max(tension, 2 * weight * radius), -share, -share, angle)
