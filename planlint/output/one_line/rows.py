"""From the records of a diagram to blocks of rows: gear on an upright line, what leaves it beside it, labels to the right."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from planlint.output.one_line import symbols
from planlint.output.one_line.blocks import Anchor, Block, Exit, Frame, Upright
from planlint.output.one_line.figures import Figure, Line, Pen
from planlint.output.one_line.labels import Laid, Style, lay, lay_close, lay_name
from planlint.papers.one_line.records import Area, Branch, Gear, Ground, Load, Loose, Part

_LEFT, _HALF, _BUS_RIGHT, _INDENT = 17.0, 11.0, 25.0, 36.0
_GAP, _PAD, _INSET, _EDGE, _FLAG = 5.0, 5.0, 4.0, 5.0, 44.0
_LEAST_ROOM = 95.0
"""In units: the first line from the left edge, half a case, the case's right wall where it has a bus, from gear to what hangs
from it in the same block; and the spaces between things. Gear whose label has less room than the last stands in a block of its
own."""

_SUPPLIES = ("utility", "transformer", "generator", "solar", "battery", "source")
_LOOSE = Area("", "Not connected in the plan")


@dataclass(frozen=True, slots=True)
class Manner:
    """How blocks are made: label size, width, and whether panels of one area stand in one block."""

    style: Style
    width: float
    nested: bool
    upward: bool = True


def root_block(gear: Gear, manner: Manner) -> Block:
    """The block of gear that begins a tree, with the blocks that hang from it."""
    builder = _Builder(gear.area, manner)
    x = _LEFT * manner.style.unit
    if gear.symbol in _SUPPLIES:
        builder.gear(gear, x, None, "")
    else:
        builder.unfed(gear, x)
    return builder.block


def loose_block(loose: Sequence[Loose], manner: Manner) -> Block:
    """A block of what the plan joins to nothing."""
    builder = _Builder(_LOOSE, manner)
    for one in loose:
        builder.loose(one)
    return builder.block


def _hanging_block(branch: Branch, gear: Gear, manner: Manner) -> Block:
    """The block of gear that hangs from another block: its run comes in at the left."""
    builder = _Builder(gear.area, manner)
    x = _LEFT * manner.style.unit
    if branch.inward and manner.upward and (chain := _chain(branch)):
        foot = builder.chain(chain, x)
        builder.turn_left(foot, x, branch)
    else:
        builder.enter(branch, gear, x)
    return builder.block


def _chain(branch: Branch) -> list[Branch]:
    """The runs up to a source, nearest first, where nothing else hangs from the gear between and all stands in one area."""
    found: list[Branch] = []
    here: Branch | None = branch
    while here is not None:
        gear = here.end
        if not isinstance(gear, Gear) or gear.has_bus or (found and gear.area != found[0].end.area):  # type: ignore[union-attr]
            return []
        found.append(here)
        ways = [*gear.sources, *gear.branches]
        if len(ways) > 1 or any(not way.inward or not isinstance(way.end, Gear) for way in ways):
            return []
        here = ways[0] if ways else None
    return found


class _Builder:
    """Fills one block from the top down."""

    def __init__(self, area: Area, manner: Manner) -> None:
        self.manner = manner
        self.style = manner.style
        self.u = manner.style.unit
        self.block = Block(area, manner.width, manner.style)

    # -- beginnings

    def unfed(self, gear: Gear, x: float) -> None:
        """Gear that nothing in the plan feeds: a short broken line above it."""
        words = "fed by: not stated" if not gear.sources else "other feed: not stated"
        label = lay_name(Part("", "note", words), words, self._room(x + 6 * self.u), self.style)
        row = self.block.add(label.height + _PAD * self.u)
        self.block.put(row, label.figures, x + 6 * self.u)
        self.block.uprights.append(Upright(x, (row, 0), (row, label.height), "planned", gear.part.element))
        self.gear(gear, x, (row, label.height), gear.part.element, "planned")

    def enter(self, branch: Branch, gear: Gear, x: float) -> None:
        """A run that comes in at the left edge and turns down."""
        level = self.style.text * 0.66
        row, foot = self._run_row(branch, x, (0, level))
        self.block.put(row, [Line(((0, level), (x, level)), "power", branch.run.element)])
        self.block.entries.append((row, level))
        self.gear(gear, x, foot, branch.run.element)

    def turn_left(self, top: Anchor, x: float, branch: Branch) -> None:
        """A run that comes down and leaves at the left edge."""
        row, foot = self._run_row(replace(branch, inward=False), x, top)
        level = self.block.rows[row].height - 2 * self.u
        self._upright(x, foot, (row, level), branch)
        self.block.put(row, [Line(((0, level), (x, level)), "power", branch.run.element)])
        self.block.entries.append((row, level))

    def loose(self, one: Loose) -> None:
        """A row of the block of what hangs from nothing."""
        pen: Pen = "planned" if one.planned else "power"
        level, x = self.style.text * 0.66, 8 * self.u
        label = lay([one.part], self._room(x + 30 * self.u), self.style, one.part.element)
        row = self.block.add(max(label.height, 16 * self.u) + _PAD * self.u)
        at = max(level, 6.5 * self.u)
        self.block.put(row, [Line(((x, at), (x + 10 * self.u, at)), pen, one.part.element)])
        self.block.put(row, symbols.end(one.symbol, x + 10 * self.u, at, self.u, one.part.element, pen))
        self.block.put(row, label.figures, x + 30 * self.u, at - level)

    # -- gear

    def gear(self, gear: Gear, x: float, top: Anchor | None, owner: str, pen: Pen = "power") -> None:
        """Gear on an upright line that comes from `top`, and all that hangs from it."""
        joined = [self._source(branch, gear, x) for branch in gear.sources]
        foot, right, case = self._body(gear, x, top, owner, pen, joined)
        if gear.has_bus and gear.branches:
            self._bus(gear, x, foot, right, case)
            return
        self._close(gear, x, right, case)
        for branch in gear.branches:
            self._onward(branch, x, foot)

    def _body(
        self, gear: Gear, x: float, top: Anchor | None, owner: str, pen: Pen, joined: Sequence[Anchor]
    ) -> tuple[Anchor, float, tuple[Anchor, Anchor] | None]:
        """Its symbol, label and grounding side. Returns the foot of its symbol, its right wall, and its case's top and foot."""
        u, name = self.u, gear.part.element
        cased = gear.symbol not in _SUPPLIES or bool(gear.grounds)
        inset = _INSET * u if cased else 0.0
        right = x + (_BUS_RIGHT if gear.has_bus and gear.branches else _HALF) * u
        label = lay([gear.part], self._room(right + _GAP * u), self.style, name)
        symbol = symbols.gear(gear.symbol, gear.device, x, inset, u, name)
        body = symbol.height + 2 * inset
        row = self.block.add(max(body, label.height) + _PAD * u)
        self.block.put(row, symbol.figures)
        self.block.put(row, label.figures, right + _GAP * u)
        self._come_in(x, top, (row, inset), owner, pen, joined, gear)
        end: Anchor = (row, body)
        for part in gear.also:
            end = self._also(part, right)
        end = self._grounds(gear.grounds, right, name) or end
        return (row, inset + symbol.height), right, ((row, 0.0), end) if cased else None

    def _come_in(
        self, x: float, top: Anchor | None, to: Anchor, owner: str, pen: Pen, joined: Sequence[Anchor], gear: Gear
    ) -> None:
        """The line down to a symbol; what other sources bring joins it, or comes to the second terminal of a transfer switch."""
        aside, name = x + self._aside(gear), gear.part.element
        if joined:
            self.block.uprights.append(Upright(aside, joined[0], to, "power", name))
        if top is not None:
            end = joined[0] if joined and aside == x else to
            self.block.uprights.append(Upright(x, top, end, pen, owner))

    def _aside(self, gear: Gear) -> float:
        return symbols.TRANSFER_GAP * self.u if gear.symbol == "transfer" else 0.0

    def _also(self, part: Part, right: float) -> Anchor:
        label = lay([part], self._room(right + _GAP * self.u), self.style, part.element)
        row = self.block.add(label.height + _PAD * self.u)
        self.block.put(row, label.figures, right + _GAP * self.u)
        return row, label.height

    def _close(self, gear: Gear, x: float, right: float, case: tuple[Anchor, Anchor] | None) -> None:
        if case:
            self.block.frames.append(Frame(x - _HALF * self.u, right, *case, gear.part.element))

    def _room(self, x: float) -> float:
        return self.manner.width - x - _EDGE * self.u

    # -- grounding

    def _grounds(self, grounds: Sequence[Ground], right: float, owner: str) -> Anchor | None:
        """A row for each conductor; those that go on from an electrode hang below it on a line of their own."""
        last: Anchor | None = None
        for ground in grounds:
            last = self._ground(ground, right, right, owner)
            if ground.further:
                last = self._further(ground, right, last)
        return last

    def _further(self, ground: Ground, right: float, start: Anchor) -> Anchor:
        node = right + 5 * self.u
        level = self._ground_level()
        todo, end = list(ground.further), start
        while todo:
            one = todo.pop(0)
            self._ground(one, node, right, ground.wire.element if ground.wire else "")
            end = (len(self.block.rows) - 1, level)
            todo = [*one.further, *todo]
        top = (start[0], level)
        self.block.uprights.append(Upright(node, top, end, "ground", ground.wire.element if ground.wire else ""))
        return end[0], self.block.rows[end[0]].height - _PAD * self.u

    def _ground_level(self) -> float:
        return max(self.style.text * 0.66, 4.5 * self.u)

    def _ground(self, ground: Ground, x: float, right: float, owner: str) -> Anchor:
        u = self.u
        parts = [part for part in (ground.end, ground.wire) if part is not None]
        label_x = right + (9 + symbols.END_WIDTH) * u + _GAP * u
        mine = ground.wire.element if ground.wire else owner
        label = lay_close(parts, self._room(label_x), self.style, mine)
        level = self._ground_level()
        row = self.block.add(max(label.height, level + 9 * u) + _PAD * u * 0.8)
        if ground.symbol == "join":
            self.block.put(row, symbols.join(right, level, u, owner))
        else:
            start = right + 9 * u
            self.block.put(row, [Line(((x, level), (start, level)), "ground", mine)])
            whose = ground.end.element if ground.end and ground.end.element else mine
            self.block.put(row, symbols.end(ground.symbol, start, level, u, whose, "ground"))
        self.block.put(row, label.figures, label_x, level - self.style.text * 0.66)
        return row, max(label.height, level + 9 * u)

    # -- what leaves gear

    def _bus(self, gear: Gear, x: float, top: Anchor, right: float, case: tuple[Anchor, Anchor] | None) -> None:
        name = gear.part.element
        last = top
        for branch in gear.branches:
            end = branch.end
            if isinstance(end, Load):
                last = self._load(branch, end, x)
            elif isinstance(end, Gear) and self._stays(end, x):
                last = self._nested(branch, end, x)
            else:
                last = self._exit(branch, x, right + _GAP * self.u, on_bus=True)
        self.block.uprights.append(Upright(x, top, (last[0], last[1] + 4 * self.u), "bus", name))
        self._close(gear, x, right, (case[0], (last[0], last[1] + 8 * self.u)) if case else None)

    def _stays(self, end: Gear, x: float) -> bool:
        """Whether gear on a bus may stand in the same block."""
        inside = self.manner.width - x - (_INDENT + _BUS_RIGHT) * self.u
        return self.manner.nested and end.area == self.block.area and inside >= _LEAST_ROOM * self.u

    def _nested(self, branch: Branch, end: Gear, x: float) -> Anchor:
        below = x + _INDENT * self.u
        level = self._line_level()
        row, foot = self._run_row(replace(branch, device=""), below, (len(self.block.rows), level))
        self.block.put(row, self._from_bus(branch, x, below, level))
        self.gear(end, below, foot, branch.run.element)
        return row, level

    def _line_level(self) -> float:
        return max(self.style.text * 0.66, 5 * self.u)

    def _from_bus(self, branch: Branch, x: float, to: float, level: float) -> list[Figure]:
        """From the bus through the device to a place on the right."""
        u, owner = self.u, branch.run.element
        pen: Pen = "planned" if branch.planned else "power"
        start, through = x + 4 * u, x + (4 + symbols.DEVICE) * u
        figures: list[Figure] = [Line(((x, level), (start, level)), pen, owner)]
        figures += symbols.device(branch.device, start, level, u, owner, across=True, pen=pen)
        figures.append(Line(((through, level), (to, level)), pen, owner))
        return [*figures, *([symbols.arrowhead((through + 1 * u, level), "left", u, owner)] if branch.inward else [])]

    def _load(self, branch: Branch, load: Load, x: float) -> Anchor:
        u = self.u
        pen: Pen = "planned" if branch.planned else "power"
        label_x = x + (33 + symbols.END_WIDTH) * u + _GAP * u
        label = lay_close([*load.parts, branch.run], self._room(label_x), self.style, branch.run.element)
        level = max(self.style.text * 0.66, 6.5 * u)
        row = self.block.add(max(label.height + level - self.style.text * 0.66, level + 9 * u) + _PAD * u)
        self.block.put(row, self._from_bus(branch, x, x + 33 * u, level))
        owner = load.parts[0].element if load.parts and load.parts[0].element else branch.run.element
        self.block.put(row, symbols.end(load.symbol, x + 33 * u, level, u, owner, pen))
        self.block.put(row, label.figures, label_x, level - self.style.text * 0.66)
        return row, level

    def _onward(self, branch: Branch, x: float, foot: Anchor) -> None:
        """The one run that goes on from gear without a bus."""
        end = branch.end
        if isinstance(end, Gear) and end.area == self.block.area:
            _, below = self._run_row(branch, x, foot)
            self.gear(end, x, below, branch.run.element)
        else:
            out = self._exit(branch, x, x + (_GAP + 2) * self.u, on_bus=False)
            self._upright(x, foot, out, branch)

    def _run_row(self, branch: Branch, x: float, top: Anchor) -> tuple[int, Anchor]:
        """A row beside an upright line from `top`: device, and the run's label. Returns the row and where the line goes on."""
        u = self.u
        label_x = x + (_GAP + (4 if branch.device else 0) + 1) * u
        label = lay([branch.run], self._room(label_x), self.style, branch.run.element)
        tall = (symbols.DEVICE + 6) * u if branch.device else 16 * u
        row = self.block.add(max(label.height, tall) + _PAD * u)
        self.block.put(row, label.figures, label_x)
        if branch.inward:
            self.block.put(row, [symbols.arrowhead((x, 9 * u), "up", u, branch.run.element)])
        if not branch.device:
            return row, top
        at = max(3 * u, top[1] + 2 * u if top[0] == row else 0)
        self._upright(x, top, (row, at), branch)
        self.block.put(row, symbols.device(branch.device, x, at, u, branch.run.element, across=False))
        return row, (row, at + symbols.DEVICE * u)

    def _upright(self, x: float, top: Anchor, foot: Anchor, branch: Branch) -> None:
        self.block.uprights.append(Upright(x, top, foot, "power", branch.run.element))

    def _exit(self, branch: Branch, x: float, label_x: float, *, on_bus: bool) -> Anchor:
        """A row whose line leaves at the right edge, its words above it; returns where it starts on the left."""
        u, width = self.u, self.manner.width
        label = self._exit_label(branch, width - label_x - _FLAG * u)
        level = label.height + 5 * u
        row = self.block.add(level + 9 * u)
        self.block.put(row, label.figures, label_x)
        gone = width if isinstance(branch.end, Gear) else width - 12 * u
        if on_bus:
            self.block.put(row, self._from_bus(branch, x, gone, level))
        else:
            self.block.put(row, [Line(((x, level), (gone, level)), "power", branch.run.element)])
            if branch.inward:
                self.block.put(row, [symbols.arrowhead((x + 10 * u, level), "left", u, branch.run.element)])
        if isinstance(branch.end, Gear):
            to = _hanging_block(replace(branch, device=""), branch.end, self.manner)
            self.block.exits.append(Exit((row, level), "power", branch.run.element, to))
        elif not branch.inward:
            self.block.put(row, [symbols.arrowhead((gone + 6 * u, level), "right", u, branch.run.element)])
        return row, level

    def _exit_label(self, branch: Branch, room: float) -> Laid:
        run = branch.run
        if isinstance(branch.end, Gear):
            return lay_name(run, f"{run.name} {'from' if branch.inward else 'to'} {branch.end.part.name}", room, self.style)
        if branch.full:
            return lay([replace(run, phrases=(branch.beyond, *run.phrases))], room, self.style, run.element)
        return lay_name(run, f"{run.name} {branch.beyond}", room, self.style)

    # -- other sources

    def _source(self, branch: Branch, gear: Gear, x: float) -> Anchor:
        """What else feeds gear without a bus, above it: drawn here down to it, or a line from the right edge."""
        to = x + self._aside(gear)
        here = isinstance(branch.end, Gear) and branch.end.area == self.block.area
        room = self.manner.width - x - (2 * _INDENT) * self.u
        if here and room >= _LEAST_ROOM * self.u and (chain := _chain(branch)):
            beside = x + _INDENT * self.u
            foot = self.chain(chain, beside)
            row, top = self._run_row(replace(branch, inward=False), beside, foot)
            level = self.block.rows[row].height - 2 * self.u
            self._upright(beside, top, (row, level), branch)
            self.block.put(row, [Line(((to, level), (beside, level)), "power", branch.run.element)])
            return row, level
        return self._exit(branch, to, to + (_GAP + 2) * self.u, on_bus=False)

    def chain(self, chain: Sequence[Branch], x: float) -> Anchor:
        """Gear from a source down to the last run, which is left to the caller; returns the foot of the last gear."""
        top: Anchor | None = None
        owner = ""
        for branch in reversed(chain):
            assert isinstance(branch.end, Gear)
            foot, right, case = self._body(branch.end, x, top, owner, "power", ())
            self._close(branch.end, x, right, case)
            top = foot
            if branch is not chain[0]:
                _, top = self._run_row(replace(branch, inward=False), x, foot)
                owner = branch.run.element
        assert top is not None
        return top
