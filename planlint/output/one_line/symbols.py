"""The symbols of a one-line diagram, after IEEE 315 and IEC 60617 (their forms from memory).

Circuit breaker (IEEE 315 11.2, low voltage: an arc over open contacts), fuse (9.1, IEC form: a box on the line), switch (4.2, a
blade), watthour meter (17.1, a circle with WH), motor and generator (13.1, a circle with M or G), two-winding transformer (IEC
60617-06, two circles), earth (IEEE 315 3.9.1, three bars), equipotential bonding (IEC 60617-02, a triangle), heating element
(IEC 60617-04, a box with bars), battery (IEEE 315 2.13, long and short bars), photovoltaic source (IEC 60617-06, a cell that two
arrows fall on).

A symbol stands on a line that comes down to its point (x, y) and goes on from its foot, `height` lower. One unit `u` is a
seventh of the label's size.
"""

from collections.abc import Callable
from dataclasses import dataclass

from planlint.output.one_line.figures import Arc, Figure, Line, Pen, Point, Ring, Words
from planlint.output.one_line.typeface import width
from planlint.papers.one_line.records import Device, Symbol

DEVICE = 14.0
"""Length of a breaker, fuse or switch along its line, in units."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A symbol's figures, and how far down it reaches."""

    figures: list[Figure]
    height: float


def letters(text: str, x: float, y: float, size: float, owner: str) -> Words:
    """Letters in the middle of a symbol."""
    room = width(text, size)
    return Words(x - room / 2, y + size * 0.36, text, size, room, owner=owner, in_symbol=True)


def device(kind: Device, x: float, y: float, u: float, owner: str, *, across: bool, pen: Pen = "power") -> list[Figure]:
    """A breaker, fuse or switch from (x, y) on, downward or across; a plain line where there is none.

    What the plan doesn't say stands as an empty box with a question mark.
    """

    def at(along: float, aside: float) -> Point:
        return (x + along * u, y - aside * u) if across else (x + aside * u, y + along * u)

    def line(*points: tuple[float, float]) -> Line:
        return Line(tuple(at(*point) for point in points), pen, owner)

    if kind == "":
        return [line((0, 0), (DEVICE, 0))]
    ends: list[Figure] = [line((0, 0), (3, 0)), line((11, 0), (DEVICE, 0))]
    if kind == "breaker":
        return [*ends, _dot(at(3, 0), u, owner), _dot(at(11, 0), u, owner),
                Arc(at(2.5, 1.8), at(11.5, 1.8), 5.2 * u, pen, owner, clockwise=True)]  # fmt: skip
    if kind == "fuse":
        return [line((0, 0), (2, 0), (12, 0), (DEVICE, 0)), line((2, 2.2), (12, 2.2), (12, -2.2), (2, -2.2), (2, 2.2))]
    if kind == "switch":
        return [*ends, _dot(at(3, 0), u, owner), _dot(at(11, 0), u, owner), line((11, 0), (3.6, 4.6))]
    middle = at(7, 0)
    box = line((3, 3.4), (11, 3.4), (11, -3.4), (3, -3.4), (3, 3.4))
    return [*ends, box, letters("?", middle[0], middle[1], 6 * u, owner)]


def _dot(point: Point, u: float, owner: str) -> Ring:
    return Ring(point[0], point[1], 0.9 * u, "power", owner, filled=True)


def gear(kind: Symbol, inside: Device, x: float, y: float, u: float, owner: str) -> Drawn:
    """A supply or a piece of gear; what encloses it is drawn elsewhere."""
    if kind in ("disconnect", "panel"):
        return Drawn(device(inside, x, y, u, owner, across=False), DEVICE * u)
    if kind == "transfer":
        return _transfer(x, y, u, owner)
    if kind == "transformer":
        return _transformer(x, y, u, owner)
    if kind == "battery":
        return _battery(x, y, u, owner)
    if kind == "solar":
        return _solar(x, y, u, owner)
    return _circled(kind, x, y, u, owner)


TRANSFER_GAP = 7.0
"""How far right of its first terminal a transfer switch has the second one, in units."""


def _transfer(x: float, y: float, u: float, owner: str) -> Drawn:
    """Two contacts above, one below, the blade on the first: it stands on the utility's side."""
    aside = x + TRANSFER_GAP * u
    return Drawn(
        [
            Line(((x, y), (x, y + 4 * u)), "power", owner),
            Line(((aside, y), (aside, y + 4 * u)), "power", owner),
            Ring(x, y + 5 * u, 1.0 * u, "power", owner),
            Ring(aside, y + 5 * u, 1.0 * u, "power", owner),
            Line(((x + 0.9 * u, y + 6 * u), (x + 3.5 * u, y + 13 * u)), "power", owner),
            Ring(x + 3.5 * u, y + 13.9 * u, 0.9 * u, "power", owner, filled=True),
            Line(((x + 3.5 * u, y + 14 * u), (x + 3.5 * u, y + 16 * u), (x, y + 16 * u), (x, y + 18 * u)), "power", owner),
        ],
        18 * u,
    )


def _transformer(x: float, y: float, u: float, owner: str) -> Drawn:
    source = _circled("utility", x, y, u, owner)
    top = y + source.height
    return Drawn(
        [
            *source.figures,
            Line(((x, top), (x, top + 4 * u)), "power", owner),
            Ring(x, top + 9 * u, 5 * u, "power", owner),
            Ring(x, top + 15.5 * u, 5 * u, "power", owner),
        ],
        source.height + 20.5 * u,
    )


def _battery(x: float, y: float, u: float, owner: str) -> Drawn:
    bars = [(4.0, 5.0), (6.5, 2.5), (9.0, 5.0), (11.5, 2.5)]
    figures: list[Figure] = [
        Line(((x - half * u, y + down * u), (x + half * u, y + down * u)), "power", owner) for down, half in bars
    ]
    return Drawn([_box(x, y, u, owner), *figures], 16 * u)


def _box(x: float, y: float, u: float, owner: str) -> Line:
    corners = ((-8, 0), (8, 0), (8, 16), (-8, 16), (-8, 0))
    return Line(tuple((x + along * u, y + down * u) for along, down in corners), "power", owner)


def _solar(x: float, y: float, u: float, owner: str) -> Drawn:
    def line(*points: tuple[float, float]) -> Line:
        return Line(tuple((x + along * u, y + down * u) for along, down in points), "power", owner)

    cell = [line((-5, 9.5), (5, 9.5)), line((-2.5, 12), (2.5, 12))]
    arrows: list[Figure] = []
    for start in (-4.5, 0.5):
        arrows.append(line((start, 2), (start + 3, 6)))
        arrows.append(Line(tuple((x + a * u, y + d * u) for a, d in _head(start + 3.4, 6.6)), "power", owner, filled=True))
    return Drawn([_box(x, y, u, owner), *cell, *arrows], 16 * u)


def _head(x: float, y: float) -> tuple[Point, ...]:
    """A small arrowhead whose point is (x, y), down to the right."""
    return ((x, y), (x - 2.4, y - 1.0), (x - 0.8, y - 2.3), (x, y))


def _circled(kind: Symbol, x: float, y: float, u: float, owner: str) -> Drawn:
    middle = y + 8 * u
    ring = Ring(x, middle, 8 * u, "power", owner)
    if kind == "utility":
        wave: list[Figure] = [
            Arc((x - 5 * u, middle), (x, middle), 2.7 * u, "power", owner, clockwise=True),
            Arc((x, middle), (x + 5 * u, middle), 2.7 * u, "power", owner, clockwise=False),
        ]
        return Drawn([ring, *wave], 16 * u)
    text = {"meter": "WH", "generator": "G"}.get(kind, "?")
    return Drawn([ring, letters(text, x, middle, 7.5 * u, owner)], 16 * u)


END_WIDTH = 14.0
"""How much room the symbol of a load, electrode or bond takes from the left, in units."""


def end(kind: Symbol, x: float, y: float, u: float, owner: str, pen: Pen) -> list[Figure]:
    """What a line from the left ends in at (x, y): a load, an electrode, a bond."""
    if kind == "motor":
        return [Ring(x + 6.5 * u, y, 6.5 * u, pen, owner), letters("M", x + 6.5 * u, y, 7 * u, owner)]
    if kind == "heater":
        return _heater(x, y, u, owner, pen)
    if kind == "electrode":
        return _earth(x, y, u, owner)
    if kind == "bond":
        corners = ((0, -2.5), (11, -2.5), (5.5, 4.5), (0, -2.5))
        return [Line(tuple((x + along * u, y + down * u) for along, down in corners), "earth", owner)]
    if kind == "circuits":
        return [*_arrow(x, y, u, owner, pen), *_arrow(x + 5 * u, y, u, owner, pen)]
    if kind == "load":
        return [Line(((x, y), (x + 5 * u, y)), pen, owner), *_arrow(x + 5 * u, y, u, owner, pen)]
    return [Ring(x + 6.5 * u, y, 6.5 * u, pen, owner), letters("?", x + 6.5 * u, y, 7 * u, owner)]


def _heater(x: float, y: float, u: float, owner: str, pen: Pen) -> list[Figure]:
    def line(*points: tuple[float, float]) -> Line:
        return Line(tuple((x + along * u, y + down * u) for along, down in points), pen, owner)

    bars = [line((along, -3), (along, 3)) for along in (3.25, 6.5, 9.75)]
    return [line((0, -3), (13, -3), (13, 3), (0, 3), (0, -3)), *bars]


def _earth(x: float, y: float, u: float, owner: str) -> list[Figure]:
    middle = x + 6 * u
    bars: list[Figure] = [
        Line(((middle - half * u, y + down * u), (middle + half * u, y + down * u)), "earth", owner)
        for down, half in ((4.0, 6.0), (6.3, 3.8), (8.6, 1.6))
    ]
    return [Line(((x, y), (middle, y), (middle, y + 4 * u)), "earth", owner), *bars]


def _arrow(x: float, y: float, u: float, owner: str, pen: Pen) -> list[Figure]:
    return [Line(((x, y - 2.6 * u), (x + 6 * u, y), (x, y + 2.6 * u), (x, y - 2.6 * u)), pen, owner, filled=True)]


def arrowhead(point: Point, towards: str, u: float, owner: str) -> Line:
    """A filled arrowhead on a line whose tip is at this point; `towards` is left, right or up."""
    x, y = point
    turn: dict[str, Callable[[float, float], Point]] = {
        "right": lambda a, b: (x - a * u, y + b * u),
        "left": lambda a, b: (x + a * u, y + b * u),
        "up": lambda a, b: (x + b * u, y + a * u),
    }
    return Line(tuple(turn[towards](a, b) for a, b in ((0, 0), (6, 2.4), (6, -2.4), (0, 0))), "power", owner, filled=True)


def join(x: float, y: float, u: float, owner: str) -> list[Figure]:
    """The join of neutral and ground at an enclosure: a dot on its wall, and a line to the neutral."""
    box = ((6, -4), (14, -4), (14, 4), (6, 4), (6, -4))
    return [
        Ring(x, y, 1.6 * u, "earth", owner, filled=True),
        Line(((x, y), (x + 6 * u, y)), "earth", owner),
        Line(tuple((x + along * u, y + down * u) for along, down in box), "earth", owner),
        letters("N", x + 10 * u, y, 6.5 * u, owner),
    ]
