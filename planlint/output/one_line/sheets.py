"""Sheets: blocks in columns from left to right, the power's way between them in the channels, what doesn't fit on further sheets.

A block's children stand in the next column, in the band of height that the block's tree has to itself, in the order in which
their lines leave it. So lines between two columns never have to cross: of those that go down, the upper ones turn farther right,
of those that go up, farther left.
"""

from dataclasses import dataclass, field

from planlint.output.one_line.blocks import Block, Exit

GAP = 7.0
"""Between blocks one above the other, in points."""


@dataclass(frozen=True, slots=True)
class Field:
    """The part of a sheet that the blocks have, in points, and the columns it is divided into."""

    left: float
    top: float
    width: float
    height: float
    columns: int
    channel: float

    @property
    def column(self) -> float:
        """Width of a column."""
        return (self.width - (self.columns - 1) * self.channel) / self.columns

    def x(self, column: int) -> float:
        """Left edge of a column."""
        return self.left + column * (self.column + self.channel)


@dataclass(slots=True)
class Tree:
    """A block and those of its children that fit beside it; `height` is that of the band it needs."""

    block: Block
    column: int
    height: float
    children: "list[Tree]"


@dataclass(frozen=True, slots=True)
class Placed:
    """A block on its sheet: sheet from 0, upper left corner in points."""

    block: Block
    sheet: int
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Link:
    """A line between two blocks of one sheet: its corners."""

    exit: Exit
    points: tuple[tuple[float, float], ...]


@dataclass(slots=True)
class Arranged:
    """All blocks on their sheets, and the lines between them. `overfull`: how many blocks are taller than a sheet."""

    placed: dict[int, Placed] = field(default_factory=dict)
    links: list[tuple[int, Link]] = field(default_factory=list)
    sheets: int = 0
    overfull: int = 0

    def of(self, block: Block) -> Placed:
        """Where a block stands."""
        return self.placed[id(block)]


def arrange(roots: list[Block], room: Field) -> Arranged:
    """Every block on a sheet."""
    arranged = Arranged()
    todo = list(roots)
    while todo:
        before = len(arranged.placed)
        later = _fill_sheet(todo, room, arranged)
        todo = later if len(arranged.placed) > before else _force(todo, room, arranged)
        arranged.sheets += 1
    return arranged


def _force(todo: list[Block], room: Field, arranged: Arranged) -> list[Block]:
    """The first block on a sheet of its own though it is too tall for it: with smaller labels it won't be."""
    first, *later = todo
    arranged.overfull += 1
    _settle(Tree(first, 0, first.height, []), 0.0, arranged, room, [-GAP] * room.columns)
    return [*later, *first.children()]


def _fill_sheet(todo: list[Block], room: Field, arranged: Arranged) -> list[Block]:
    """Put as many trees on a new sheet as fit; returns what is left for the next ones."""
    later: list[Block] = []
    floor = [-GAP] * room.columns
    for root in todo:
        if not root.exits and _stands_alone(root, floor, arranged, room):
            continue
        top = max(floor) + GAP
        left_out: list[Block] = []
        tree = _fit(root, 0, room.height - top, room.columns, left_out)
        if tree is None or (left_out and top):  # rather whole on a sheet of its own
            later.append(root)
            continue
        _settle(tree, top, arranged, room, floor)
        later += left_out
    return later


def _stands_alone(block: Block, floor: list[float], arranged: Arranged, room: Field) -> bool:
    """Put a block without exits below the column that has most room left; no if it isn't enough."""
    column = min(range(room.columns), key=lambda one: floor[one])
    y = floor[column] + GAP
    if y + block.height > room.height:
        return False
    arranged.placed[id(block)] = Placed(block, arranged.sheets, room.x(column), room.top + y)
    floor[column] = y + block.height
    return True


def _fit(block: Block, column: int, height: float, columns: int, left_out: list[Block]) -> Tree | None:
    """The block with as many of its children as fit into that height; what doesn't goes to `left_out`."""
    if column >= columns or block.height > height:
        return None
    used, children = 0.0, []
    for child in block.children():
        inner: list[Block] = []
        tree = _fit(child, column + 1, height - used, columns, inner)
        if tree is None:
            left_out.append(child)
            continue
        left_out += inner
        children.append(tree)
        used += tree.height + GAP
    return Tree(block, column, max(block.height, used - GAP), children)


def _settle(tree: Tree, top: float, arranged: Arranged, room: Field, floor: list[float]) -> None:
    """Give the tree's blocks their places in its band from `top` on, each child as level with its exit as it can be."""
    block, limit = tree.block, top + tree.height
    arranged.placed[id(block)] = Placed(block, arranged.sheets, room.x(tree.column), room.top + top)
    floor[tree.column] = max(floor[tree.column], top + block.height)
    last = [limit] * len(tree.children)
    for place in range(len(tree.children) - 1, -1, -1):
        below = last[place + 1] - GAP if place + 1 < len(tree.children) else limit
        last[place] = below - tree.children[place].height
    cursor = top
    for child, latest in zip(tree.children, last, strict=True):
        exit = next(one for one in block.exits if one.to is child.block)
        wanted = top + block.level(exit.at) - child.block.level(child.block.entries[0])
        y = min(max(wanted, cursor), latest)
        _settle(child, y, arranged, room, floor)
        cursor = y + child.height + GAP
    _route(tree, arranged, room)


def _route(tree: Tree, arranged: Arranged, room: Field) -> None:
    """The lines from a block to its children, in the channel right of it."""
    start = arranged.of(tree.block)
    here = {id(child.block) for child in tree.children}
    lines: list[tuple[Exit, float, float]] = []
    taken: dict[int, int] = {}
    for exit in tree.block.exits:
        entry = taken.get(id(exit.to), 0)
        taken[id(exit.to)] = entry + 1
        if id(exit.to) in here:
            end = arranged.of(exit.to)
            lines.append((exit, start.y + tree.block.level(exit.at), end.y + exit.to.level(exit.to.entries[entry])))
    left, right = start.x + room.column, start.x + room.column + room.channel
    step = room.channel / (len(lines) + 1)
    for place, (exit, y, to) in enumerate(lines):
        track = left + step * (place + 1 if to < y else len(lines) - place)
        points = ((left, y), (right, y)) if abs(to - y) < 0.01 else ((left, y), (track, y), (track, to), (right, to))
        arranged.links.append((arranged.sheets, Link(exit, points)))
