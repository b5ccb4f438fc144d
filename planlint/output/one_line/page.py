"""The page round a one-line diagram: paper, title block, legend, areas; and the choice of the size at which it fits best."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import product
from typing import Literal

from planlint.output import CAUTION
from planlint.output.book_words import book_words
from planlint.output.layout import literal
from planlint.output.one_line import symbols
from planlint.output.one_line.blocks import Block, cut
from planlint.output.one_line.figures import Figure, Line, Number, Words, moved
from planlint.output.one_line.labels import Style
from planlint.output.one_line.rows import Manner, loose_block, root_block
from planlint.output.one_line.sheets import Arranged, Field, Placed, arrange
from planlint.output.one_line.typeface import shortened, width, wrapped
from planlint.papers.one_line.records import Device, Drawing, Mark, Symbol

Paper = Literal["letter", "a4"]
PAPERS: dict[Paper, tuple[float, float]] = {"letter": (792.0, 612.0), "a4": (841.89, 595.28)}
"""Width and height in points, the long side across."""
MARGIN, _STRIP, _CHANNEL = 27.0, 62.0, 18.0
SIZES = (10.0, 9.0, 8.5, 8.0, 7.5, 7.0, 6.5)
"""Sizes of the labels in points, the best to read first."""
_SMALL = 6.5
_DEVICES: tuple[tuple[Device, str], ...] = (("breaker", "breaker"), ("fuse", "fuse"), ("switch", "switch"))
_ENDS: tuple[tuple[Symbol, str], ...] = (
    ("motor", "motor"), ("heater", "heating"), ("load", "other load"), ("electrode", "electrode"), ("bond", "bond"),
)  # fmt: skip


@dataclass(slots=True)
class Sheet:
    """One page: its figures, the boxes of its areas (left, top, right, bottom), and the findings about those."""

    width: float
    height: float
    figures: list[Figure] = field(default_factory=list)
    areas: list[tuple[float, float, float, float]] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)


def lay_out(drawing: Drawing, paper: Paper = "letter") -> list[Sheet]:
    """The sheets of a diagram, in the largest labels that need no more sheets, and cut no more areas, than the smallest ones."""
    ways = list(product((True, False), (2, 3)))
    least = min(_cost(_arranged(drawing, paper, SIZES[-1], *way)) for way in ways)
    tried = (_arranged(drawing, paper, size, *way) for size, way in product(SIZES, ways))
    return _drawn(drawing, paper, *next(found for found in tried if _cost(found) <= least))


def _cost(way: tuple[Arranged, Manner]) -> tuple[int, int, int]:
    arranged, _ = way
    return arranged.overfull, arranged.sheets, sum(placed.block.continued for placed in arranged.placed.values())


def _arranged(drawing: Drawing, paper: Paper, size: float, nested: bool, columns: int) -> tuple[Arranged, Manner]:
    across, down = PAPERS[paper]
    room = Field(MARGIN, MARGIN, across - 2 * MARGIN, down - 2 * MARGIN - _STRIP, columns, _CHANNEL)
    manner = Manner(Style(size), room.column, nested)
    blocks = [root_block(root, manner) for root in drawing.roots]
    if any(block.height > room.height for block in _all(blocks)):
        manner = Manner(manner.style, manner.width, nested, upward=False)  # what is cut goes on downward only
        blocks = [root_block(root, manner) for root in drawing.roots]
    if drawing.loose:
        blocks.append(loose_block(drawing.loose, manner))
    return arrange([part for block in blocks for part in cut(block, room.height)], room), manner


def _all(blocks: list[Block]) -> Iterator[Block]:
    todo = list(blocks)
    while todo:
        block = todo.pop()
        yield block
        todo += block.children()


def _drawn(drawing: Drawing, paper: Paper, arranged: Arranged, manner: Manner) -> list[Sheet]:
    across, down = PAPERS[paper]
    count = max(1, arranged.sheets)
    sheets = [Sheet(across, down) for _ in range(count)]
    for number, link in arranged.links:
        sheets[number].figures.append(Line(link.points, link.exit.pen, link.exit.owner))
    came_from = {id(exit.to): placed for placed in arranged.placed.values() for exit in placed.block.exits}
    for placed in arranged.placed.values():
        _draw_block(placed, came_from.get(id(placed.block)), arranged, sheets[placed.sheet], manner.style)
    if not arranged.sheets:
        words, size = "The plan states no supply, gear, service or feeder.", 10.0
        sheets[0].figures.append(Words(MARGIN, MARGIN + size, words, size, width(words, size)))
    for number, sheet in enumerate(sheets):
        _center(sheet)
        sheet.figures += _title_block(drawing, sheet, number, count)
    return sheets


def _center(sheet: Sheet) -> None:
    """Move what leaves the right side empty to the middle."""
    free = sheet.width - MARGIN - max((right for _, _, right, _ in sheet.areas), default=sheet.width - MARGIN)
    sheet.figures = moved(sheet.figures, free / 2, 0)
    sheet.areas = [(left + free / 2, top, right + free / 2, foot) for left, top, right, foot in sheet.areas]


def _draw_block(placed: Placed, source: Placed | None, arranged: Arranged, sheet: Sheet, style: Style) -> None:
    block, x, y = placed.block, placed.x, placed.y
    u = style.unit
    right, foot = x + block.width, y + block.height
    sheet.areas.append((x, y, right, foot))
    sheet.marks += block.area.marks
    sheet.figures.append(Line(((x, y), (right, y), (right, foot), (x, foot), (x, y)), "area"))
    sheet.figures += moved(block.figures(), x, y)
    again = block.continued or (source is not None and source.block.area == block.area)
    title = literal(block.area.title) + (", continued" if again else "")
    size = style.text * 1.15
    flag = f"from sheet {source.sheet + 1}" if source is not None and source.sheet != placed.sheet else ""
    room = block.width - 10 * u - (width(flag, style.text) + 6 * u if flag else 0)
    step = 2.4 * style.mark
    shown = () if again else _first(block.area.marks, room, step)
    text = shortened(title, room - step * len(shown), size, bold=True)
    own = width(text, size, bold=True)
    base = y + 12 * u
    sheet.figures.append(Words(x + 5 * u, base, text, size, own, bold=True, whole=title if text != title else ""))
    for place, mark in enumerate(shown):
        at = x + 5 * u + own + 2 * style.mark + place * step
        sheet.figures.append(Number(at, base - size * 0.35, style.mark, mark.number, mark.severity))
    if flag:
        own = width(flag, style.text)
        sheet.figures.append(Words(right - 5 * u - own, base, flag, style.text, own))
    for exit in block.exits:
        there = arranged.of(exit.to)
        if there.sheet != placed.sheet:
            words = f"sheet {there.sheet + 1}"
            own = width(words, style.text)
            level = y + block.level(exit.at) - 2.5 * u
            sheet.figures.append(Words(right - 5 * u - own, level, words, style.text, own, owner=exit.owner))


def _first(marks: tuple[Mark, ...], room: float, step: float) -> tuple[Mark, ...]:
    """As many findings as fit beside a title; where there are more, all of them stand in the title block by their numbers."""
    return marks[: max(0, int(room * 0.4 / step))]


def _title_block(drawing: Drawing, sheet: Sheet, number: int, count: int) -> Iterator[Figure]:
    """At the foot of the page: what it is of, under which code, which sheet, and the caution."""
    left, right = MARGIN, sheet.width - MARGIN
    top, foot = sheet.height - MARGIN - _STRIP + 10, sheet.height - MARGIN
    first, second = left + (right - left) * 0.33, right - 92
    yield Line(((left, top), (right, top), (right, foot), (left, foot), (left, top)), "fine")
    for x in (first, second):
        yield Line(((x, top), (x, foot)), "fine")
    notes = [literal(line) for line in (book_words(drawing.profile), *drawing.notes)]
    title = list(_column(left, first, top, literal(drawing.plan), 12.0, notes, drawing.marks))
    yield from title
    drawn = {figure.number for figure in (*sheet.figures, *title) if isinstance(figure, Number)}
    ours = {mark.number for mark in (*drawing.aside, *drawing.marks, *sheet.marks)}
    yield from _legend(sorted(ours - drawn), first, second, top)
    yield from _column(second, right, top, f"Sheet {number + 1} of {count}", 10.0, ["One-line diagram", "Not to scale"], ())


def _column(
    left: float, right: float, top: float, title: str, size: float, lines: list[str], marks: tuple[Mark, ...]
) -> Iterator[Figure]:
    room = right - left - 12
    radius = 5.0
    shown = _first(marks, room, 2.4 * radius)
    text = shortened(title, room - len(shown) * 2.4 * radius, size, bold=True)
    own = width(text, size, bold=True)
    yield Words(left + 6, top + 14, text, size, own, bold=True, whole=title if text != title else "")
    for place, mark in enumerate(shown):
        yield Number(left + 6 + own + 2 * radius + place * 2.4 * radius, top + 10, radius, mark.number, mark.severity)
    for place, line in enumerate(lines):
        text = shortened(line, room, 7.0)
        yield Words(left + 6, top + 24 + place * 8.6, text, 7.0, width(text, 7.0), whole=line if text != line else "")


def _legend(aside: list[int], left: float, right: float, top: float) -> Iterator[Figure]:
    """What the numbers and the thin lines mean, the caution, and the findings that stand nowhere on the sheet."""
    y = top + 11
    for samples in (_samples(), _symbols()):
        x = left + 6
        for figures, words in samples:
            own = width(words, _SMALL)
            yield from moved(figures, x, y - 2.3)
            yield Words(x + 20, y, words, _SMALL, own)
            x += 20 + own + 8
        y += 12
    lines = [(line, "") for line in wrapped([CAUTION], right - left - 12, _SMALL, 2)]
    if aside:
        said = f"Further findings: {', '.join(map(str, aside))}"
        text = shortened(said, right - left - 12, _SMALL)
        lines.append((text, said if text != said else ""))
    for place, (line, whole) in enumerate(lines):
        yield Words(left + 6, y + place * 7.8, line, _SMALL, width(line, _SMALL), whole=whole)


def _samples() -> Iterator[tuple[list[Figure], str]]:
    yield [Number(11, 0, 5, 1, "correction", sample=True)], "correction"
    yield [Number(11, 0, 5, 1, "caution", sample=True)], "caution"
    yield [Number(11, 0, 5, 1, "advice", sample=True)], "advice (numbered as in the check)"
    yield [Line(((0, 0), (16, 0)), "ground")], "grounding"
    yield [Line(((0, 0), (16, 0)), "planned")], "planned"


def _symbols() -> Iterator[tuple[list[Figure], str]]:
    for kind, words in _DEVICES:
        yield symbols.device(kind, 1, 0, 1, "", across=True), words
    for end, words in _ENDS:
        yield symbols.end(end, 2, 0 if end != "electrode" else -4, 1, "", "power"), words
