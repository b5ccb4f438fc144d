"""A block: what stands in one area, as rows below each other. What leaves it leaves to the right, what comes to it from the left.

Rows never overlap, and in a row all words stand right of every upright line that passes it, so no block can have a crossing or
an overlap, whatever its rows hold. A block that is too tall is cut between two rows; what goes on there becomes a block of its
own, joined by the lines that were cut.
"""

from dataclasses import dataclass, field
from itertools import accumulate

from planlint.output.one_line.figures import Figure, Line, Pen, moved
from planlint.output.one_line.labels import Style
from planlint.papers.one_line.records import Area

Anchor = tuple[int, float]
"""A height in a block: the row, and how far below the row's top."""


@dataclass(slots=True)
class Row:
    """A strip of a block from its left to its right edge; figures from its upper left corner."""

    height: float
    figures: list[Figure] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Upright:
    """A vertical line through rows."""

    x: float
    top: Anchor
    foot: Anchor
    pen: Pen
    owner: str


@dataclass(frozen=True, slots=True)
class Frame:
    """A case round rows."""

    left: float
    right: float
    top: Anchor
    foot: Anchor
    owner: str


@dataclass(slots=True)
class Exit:
    """Where a line leaves at the right edge, for the block that it leads to."""

    at: Anchor
    pen: Pen
    owner: str
    to: "Block"


@dataclass(slots=True)
class Block:
    """One area's rows and lines. `entries`: where lines come in at the left edge, in the order of their exits elsewhere."""

    area: Area
    width: float
    style: Style
    continued: bool = False
    rows: list[Row] = field(default_factory=list)
    uprights: list[Upright] = field(default_factory=list)
    frames: list[Frame] = field(default_factory=list)
    exits: list[Exit] = field(default_factory=list)
    entries: list[Anchor] = field(default_factory=list)

    @property
    def title_height(self) -> float:
        """Room for the area's name above the rows."""
        return 17 * self.style.unit

    @property
    def height(self) -> float:
        """With title and a little room at the foot."""
        return self.title_height + sum(row.height for row in self.rows) + 4 * self.style.unit

    def add(self, height: float) -> int:
        """A new row at the foot."""
        self.rows.append(Row(height))
        return len(self.rows) - 1

    def put(self, row: int, figures: list[Figure], dx: float = 0, dy: float = 0) -> None:
        """Figures into a row."""
        self.rows[row].figures += moved(figures, dx, dy)

    def level(self, anchor: Anchor) -> float:
        """How far below the block's top an anchor is."""
        row, below = anchor
        return self.tops()[row] + below

    def tops(self) -> list[float]:
        """The tops of its rows below its own, and the foot of the last."""
        return list(accumulate((row.height for row in self.rows), initial=self.title_height))

    def children(self) -> "list[Block]":
        """The blocks that its exits lead to, each once, in order."""
        return list({id(exit.to): exit.to for exit in self.exits}.values())

    def figures(self) -> list[Figure]:
        """All of it from its upper left corner, without its title."""
        found: list[Figure] = []
        tops = self.tops()
        for row, top in zip(self.rows, tops, strict=False):
            found += moved(row.figures, 0, top)
        for upright in self.uprights:
            up, down = (tops[row] + below for row, below in (upright.top, upright.foot))
            found.append(Line(((upright.x, up), (upright.x, down)), upright.pen, upright.owner))
        for frame in self.frames:
            up, down = (tops[row] + below for row, below in (frame.top, frame.foot))
            corners = ((frame.left, up), (frame.right, up), (frame.right, down), (frame.left, down), (frame.left, up))
            found.append(Line(corners, "fine", frame.owner))
        return found


def cut(block: Block, most: float) -> list[Block]:
    """Cut a block that is taller than that, as often as it takes, and the blocks that hang from it.

    Returns the block, and what was cut off without a line or a case that passes the cut.
    """
    found, todo = [block], [block]
    while todo:
        here = todo.pop()
        if here.height > most:
            rest = _cut_once(here, most)
            if all(rest is not child for child in here.children()):
                found.append(rest)
                todo.append(rest)
        todo += here.children()
    return found


def _cut_once(block: Block, most: float) -> Block:
    """Keep as many rows as fit with the turns of the lines that go on; the rest becomes the block that they lead to."""
    turn = block.style.line + 4 * block.style.unit
    tops, kept = block.tops(), len(block.rows) - 1
    while kept > 1 and tops[kept] + 4 * block.style.unit + turn * len(_open_at(block, kept)) > most:
        kept -= 1
    through = sorted(_open_at(block, kept), key=lambda upright: -upright.x)
    rest = Block(block.area, block.width, block.style, True, block.rows[kept:])
    lead = len(through)
    rest.rows = [*(Row(8 * block.style.unit) for _ in through), *rest.rows]
    block.rows = block.rows[:kept]

    def later(anchor: Anchor) -> Anchor:
        return (anchor[0] - kept + lead, anchor[1])

    rest.exits = [Exit(later(exit.at), exit.pen, exit.owner, exit.to) for exit in block.exits if exit.at[0] >= kept]
    block.exits = [exit for exit in block.exits if exit.at[0] < kept]
    _share_frames(block, rest, kept, lead)
    uprights = block.uprights
    block.uprights = [one for one in uprights if one.foot[0] < kept]
    rest.uprights = [Upright(o.x, later(o.top), later(o.foot), o.pen, o.owner) for o in uprights if o.top[0] >= kept]
    for place, upright in enumerate(through):
        _carry_over(block, rest, upright, place, later(upright.foot), turn)
    return rest


def _open_at(block: Block, kept: int) -> list[Upright]:
    """The lines that pass between two rows; where there is none, the right wall of the case that does."""
    lines = [one for one in block.uprights if one.top[0] < kept <= one.foot[0]]
    cases = [one for one in block.frames if one.top[0] < kept <= one.foot[0]]
    return lines or [Upright(case.right, case.top, case.foot, "fine", case.owner) for case in cases[:1]]


def _carry_over(block: Block, rest: Block, upright: Upright, place: int, foot: Anchor, turn: float) -> None:
    """One line that goes on: out at the right edge of the one block, in at the left edge of the other."""
    row, level = block.add(turn), turn - 4 * block.style.unit
    block.put(row, [Line(((upright.x, level), (block.width, level)), upright.pen, upright.owner)])
    block.uprights.append(Upright(upright.x, upright.top, (row, level), upright.pen, upright.owner))
    block.exits.append(Exit((row, level), upright.pen, upright.owner, rest))
    entry = 4 * block.style.unit
    rest.put(place, [Line(((0, entry), (upright.x, entry)), upright.pen, upright.owner)])
    rest.entries.append((place, entry))
    rest.uprights.append(Upright(upright.x, (place, entry), foot, upright.pen, upright.owner))


def _share_frames(block: Block, rest: Block, kept: int, lead: int) -> None:
    frames = block.frames
    end: Anchor = (kept - 1, block.rows[kept - 1].height)
    block.frames = [
        frame if frame.foot[0] < kept else Frame(frame.left, frame.right, frame.top, end, frame.owner)
        for frame in frames
        if frame.top[0] < kept
    ]
    rest.frames = [
        Frame(
            frame.left,
            frame.right,
            (frame.top[0] - kept + lead, frame.top[1]) if frame.top[0] >= kept else (lead, 0.0),
            (frame.foot[0] - kept + lead, frame.foot[1]),
            frame.owner,
        )
        for frame in frames
        if frame.foot[0] >= kept
    ]
