"""The marks a drawing is made of: lines, rings, arcs, words, and the numbers of findings; placed in points, y downward."""

from dataclasses import dataclass, replace
from typing import Literal

from planlint.report import Severity

Pen = Literal["power", "bus", "ground", "earth", "fine", "planned", "area"]
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Line:
    """A line through points. `owner`: the plan's name of what it belongs to; `filled`: an arrowhead or a dot."""

    points: tuple[Point, ...]
    pen: Pen
    owner: str = ""
    filled: bool = False

    def moved(self, dx: float, dy: float) -> "Line":
        """The same, farther on."""
        return replace(self, points=tuple((x + dx, y + dy) for x, y in self.points))


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle."""

    x: float
    y: float
    radius: float
    pen: Pen
    owner: str = ""
    filled: bool = False

    def moved(self, dx: float, dy: float) -> "Ring":
        """The same, farther on."""
        return replace(self, x=self.x + dx, y=self.y + dy)


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle from one point to another; `clockwise` as the eye sees it."""

    start: Point
    end: Point
    radius: float
    pen: Pen
    owner: str = ""
    clockwise: bool = True

    def moved(self, dx: float, dy: float) -> "Arc":
        """The same, farther on."""
        (x, y), (z, w) = self.start, self.end
        return replace(self, start=(x + dx, y + dy), end=(z + dx, w + dy))


@dataclass(frozen=True, slots=True)
class Words:
    """One line of text: x is its left end, y its baseline, `width` the room it is given.

    `whole` is the text before it was shortened. `names`: it begins the label of its owner. `in_symbol`: a letter that belongs
    to a symbol.
    """

    x: float
    y: float
    text: str
    size: float
    width: float
    bold: bool = False
    owner: str = ""
    whole: str = ""
    names: bool = False
    in_symbol: bool = False

    def moved(self, dx: float, dy: float) -> "Words":
        """The same, farther on."""
        return replace(self, x=self.x + dx, y=self.y + dy)


@dataclass(frozen=True, slots=True)
class Number:
    """The number of a finding; x and y are its middle."""

    x: float
    y: float
    radius: float
    number: int
    severity: Severity
    owner: str = ""
    sample: bool = False

    def moved(self, dx: float, dy: float) -> "Number":
        """The same, farther on."""
        return replace(self, x=self.x + dx, y=self.y + dy)


Figure = Line | Ring | Arc | Words | Number


def moved(figures: "list[Figure]", dx: float, dy: float) -> "list[Figure]":
    """All of them, farther on."""
    return [figure.moved(dx, dy) for figure in figures]
