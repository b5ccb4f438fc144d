"""The way that a pull takes: its straight parts and bends in order, how each lies, and the same way back."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from planlint.facts.engine import Job
from planlint.facts.expansion import straight_parts
from planlint.facts.pulls import next_piece, piece_before
from planlint.plan.elements import not_stated
from planlint.plan.routes import Raceway

# Two slopes are alike, and a bend turns in an upright plane, within so much (radians; a tenth of a degree).
ALIKE = math.radians(0.1)


@dataclass(frozen=True, slots=True)
class Part:
    """One straight part or bend. Feet and radians; a slope is None where nothing is known of it, `angle` is 0 in a straight."""

    piece: Raceway
    length: float = 0.0
    angle: float = 0.0
    radius: float = 0.0
    enters: float | None = 0.0
    leaves: float | None = 0.0

    @property
    def is_level(self) -> bool:
        """Whether it lies level."""
        return self.enters is not None and self.leaves is not None and max(abs(self.enters), abs(self.leaves)) < ALIKE

    @property
    def is_upright(self) -> bool:
        """Whether a bend turns up or down and nowhere else: the slopes beside it differ by its angle."""
        if self.enters is None or self.leaves is None:
            return False
        return abs(abs(self.leaves - self.enters) - self.angle) < ALIKE

    def back(self) -> "Part":
        """The same part, gone through from its other end."""
        ends = [None if slope is None else -slope for slope in (self.leaves, self.enters)]
        return replace(self, enters=ends[0], leaves=ends[1])


def pieces_of_pull(raceway: Raceway, job: Job) -> tuple[Raceway, ...]:
    """All pieces of the pull that it belongs to, in order. Raises NotStated where the plan doesn't say how they follow."""
    pieces = [raceway]
    while (before := piece_before(pieces[0], job)) is not None:
        pieces.insert(0, before)
    while (following := next_piece(pieces[-1], job)) is not None:
        pieces.append(following)
    return tuple(pieces)


def parts_of_pull(raceway: Raceway, job: Job) -> tuple[Part, ...]:
    """Its parts as the plan states them. Raises NotStated, also where slopes and bends don't fit together."""
    parts = tuple(part for piece in pieces_of_pull(raceway, job) for part in _stated_parts(piece))
    for before, after in pairwise(parts):
        if abs((before.leaves or 0.0) - (after.enters or 0.0)) > ALIKE:
            note = f"{after.piece.name}: slopes, for it goes on from {before.piece.name} with a bend that isn't stated"
            not_stated(after.piece, "slopes", note)
    return parts


def _stated_parts(piece: Raceway, hardest: bool = False) -> Iterator[Part]:
    lengths = straight_parts(piece)
    slopes = [math.radians(slope.within("deg")) for slope in piece.slopes]
    if len(slopes) != len(lengths):
        not_stated(piece, "slopes", f"{piece.name}: slopes, one for each of its {len(lengths)} straight parts")
    for at, (length, slope) in enumerate(zip(lengths, slopes, strict=True)):
        yield Part(piece, length=length.within("ft"), enters=slope, leaves=slope)
        if at < len(piece.bends):
            angle = math.radians(piece.bends[at].within("deg"))
            bend = Part(piece, angle=angle, radius=piece.bend_radius.within("ft"), enters=slope, leaves=slopes[at + 1])
            if hardest and not (bend.is_level or bend.is_upright):
                bend = replace(bend, enters=None, leaves=None)
            elif not (bend.is_level or bend.is_upright):
                not_stated(
                    piece, "slopes", f"{piece.name}: slopes beside its bend {at + 1}, which lies level or turns up or down"
                )
            yield bend


def hardest_parts(raceway: Raceway, job: Job) -> tuple[Part, ...]:
    """Its parts in the hardest way they may lie, as far as the plan leaves open how.

    Of a piece without sections the whole length is taken before its first bend: what hangs on before a bend is multiplied.
    """
    return tuple(part for piece in pieces_of_pull(raceway, job) for part in _hardest_of(piece))


def _hardest_of(piece: Raceway) -> Iterator[Part]:
    if piece.states("slopes") and (piece.states("sections") or (piece.states("bends") and not piece.bends)):
        yield from _stated_parts(piece, hardest=True)
        return
    bends = list(piece.bends)
    if piece.states("sections"):
        lengths = [length.within("ft") for length in straight_parts(piece)]
    else:
        lengths = [piece.length.within("ft")] + [0.0] * len(bends)
    for at, length in enumerate(lengths):
        yield Part(piece, length=length, enters=None, leaves=None)
        if at < len(bends):
            angle = math.radians(bends[at].within("deg"))
            yield Part(piece, angle=angle, radius=piece.bend_radius.within("ft"), enters=None, leaves=None)
