"""Labels in lines: the name in bold with the numbers of its findings, then what is said of it."""

from collections.abc import Sequence
from dataclasses import dataclass

from planlint.output.layout import literal
from planlint.output.one_line.figures import Figure, Number, Words
from planlint.output.one_line.typeface import ELLIPSIS, shortened, width, wrapped
from planlint.papers.one_line.records import Mark, Part

MOST_LINES = 9
_WIRES = ("circuit", "electrode-conductor", "bond")


@dataclass(frozen=True, slots=True)
class Style:
    """The size of the labels in points, and what follows from it."""

    text: float

    @property
    def unit(self) -> float:
        """The unit of symbols and spaces: a seventh of the label's size."""
        return self.text / 7

    @property
    def name(self) -> float:
        """Size of names."""
        return self.text * 1.07

    @property
    def line(self) -> float:
        """From one line of text to the next."""
        return self.text * 1.2

    @property
    def mark(self) -> float:
        """Radius of a finding's number."""
        return self.text * 0.7


@dataclass(frozen=True, slots=True)
class Laid:
    """A label's figures from its own upper left corner, and how much room it takes."""

    figures: list[Figure]
    height: float


def lay(parts: Sequence[Part], room: float, style: Style, owner: str) -> Laid:
    """One part with its name on a line of its own, above what is said of it. A part without an element belongs to `owner`."""
    figures: list[Figure] = []
    y = 0.0
    for part in parts:
        y = _lay_part(part, room, style, part.element or owner, y, figures)
    return Laid(figures, y)


def lay_close(parts: Sequence[Part], room: float, style: Style, owner: str) -> Laid:
    """Several parts below each other, each name followed by what is said of it; names of wires in plain letters."""
    figures: list[Figure] = []
    y = 0.0
    for place, part in enumerate(parts):
        bold = place == 0 or part.kind not in _WIRES
        y = _lay_close_part(part, room, style, part.element or owner, y, figures, bold)
    return Laid(figures, y)


def lay_name(part: Part, name: str, room: float, style: Style) -> Laid:
    """Only a name, as where a run is drawn in full at its other end."""
    text = shortened(literal(name), room, style.text)
    figure = Words(
        0, style.text, text, style.text, width(text, style.text), owner=part.element, whole=_whole(literal(name), text)
    )
    return Laid([figure], style.line)


def _lay_part(part: Part, room: float, style: Style, owner: str, y: float, figures: list[Figure]) -> float:
    y, _, below = _lead(part, room, style, owner, y, figures, bold=True)
    lines = wrapped([literal(phrase) for phrase in part.phrases], room, style.text, MOST_LINES)
    return _lines(lines, part, style, owner, 0, below, figures)


def _lay_close_part(part: Part, room: float, style: Style, owner: str, y: float, figures: list[Figure], bold: bool) -> float:
    y, used, below = _lead(part, room, style, owner, y, figures, bold=bold)
    start = used + 0.45 * style.text
    phrases = [literal(phrase) for phrase in part.phrases]
    first, *rest = wrapped(phrases, room, style.text, MOST_LINES, room - start)
    _lines([first], part, style, owner, start, y, figures)
    return _lines(rest, part, style, owner, 0, below, figures)


def _lines(lines: Sequence[str], part: Part, style: Style, owner: str, x: float, y: float, figures: list[Figure]) -> float:
    """Lines of text from there on; where the last one had to be shortened, all of it is kept beside it."""
    said = "; ".join(literal(phrase) for phrase in part.phrases)
    for number, line in enumerate(lines):
        whole = said if number == len(lines) - 1 and ELLIPSIS in line else ""
        if line:
            figures.append(Words(x, y + style.text, line, style.text, width(line, style.text), owner=owner, whole=whole))
        y += style.line
    return y


def _lead(
    part: Part, room: float, style: Style, owner: str, y: float, figures: list[Figure], *, bold: bool
) -> tuple[float, float, float]:
    """The name with the numbers of its findings.

    Returns the top of its line, how far the line is filled, and the top of the next one. Numbers want more room than letters.
    """
    name = literal(part.name)
    numbers = _marks_width(part.marks, style)
    beside = numbers <= room * 0.5
    size = style.name if bold else style.text
    colon = "" if bold or not part.phrases else ":"
    text = shortened(name, room - (numbers if beside else 0) - width(colon, size), size, bold) + colon
    own = width(text, size, bold)
    more = _row_of_numbers(style) - style.line if part.marks and beside else 0.0
    top, below = y + more / 2, y + style.line + more
    whole = _whole(name, text.removesuffix(colon))
    figures.append(Words(0, top + style.text, text, size, own, bold, owner, whole=whole, names=bool(part.element)))
    if beside:
        figures += _numbers(part.marks, own, top + style.text * 0.66, style, owner)
        return top, own + numbers, below
    return top, room, _rows_of_numbers(part.marks, room, style, owner, below, figures)


def _whole(text: str, shown: str) -> str:
    return text if shown != text else ""


def _step(style: Style) -> float:
    return 2.4 * style.mark


def _marks_width(marks: Sequence[Mark], style: Style) -> float:
    return len(marks) * _step(style) + style.mark if marks else 0.0


def _numbers(marks: Sequence[Mark], x: float, y: float, style: Style, owner: str) -> list[Figure]:
    start = x + 2 * style.mark
    return [Number(start + place * _step(style), y, style.mark, m.number, m.severity, owner) for place, m in enumerate(marks)]


def _row_of_numbers(style: Style) -> float:
    return 2.3 * style.mark


def _rows_of_numbers(marks: Sequence[Mark], room: float, style: Style, owner: str, y: float, figures: list[Figure]) -> float:
    each = max(1, int((room - style.mark) / _step(style)))
    for first in range(0, len(marks), each):
        middle = y + _row_of_numbers(style) / 2
        figures += _numbers(marks[first : first + each], -style.mark, middle, style, owner)
        y += _row_of_numbers(style)
    return y
