"""How material is bought: pieces that must not be cut, packed into the coils, reels and lengths that a store keeps."""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from planlint.quantities import Length

_HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class Package:
    """So many coils, reels, lengths or feet: `word` is what one is called, `length` how much is in it."""

    count: int
    word: str
    length: Length


def packed(pieces: Sequence[Length], kept: Sequence[tuple[Length, str]], uncut: bool = True) -> tuple[Package, ...] | None:
    """The packages that these pieces can be cut from. None where a piece is longer than the longest package.

    `kept` are the packages of the sort, the smallest first; one of a foot is cut to length. `uncut`: each piece has to come out
    of one package (wire); otherwise the pieces may be put together (pipe). Each size of package is tried as the largest one to
    buy, and what buys least in all is taken.
    """
    largest, word = kept[-1]
    if len(kept) == 1 and largest == Length.of(1, "ft"):
        feet = sum(math.ceil(piece.within("ft") - _HAIR) for piece in pieces)
        return (Package(feet, word, largest),)
    sizes = [held.within("ft") for held, _ in kept]
    lengths = [piece.within("ft") for piece in pieces]
    tried = [_laid(lengths, sizes[: number + 1], uncut) for number in range(len(sizes))]
    fitting = [chosen for chosen in tried if chosen is not None]
    if not fitting:
        return None
    best = min(fitting, key=lambda chosen: (sum(sizes[at] * count for at, count in chosen.items()), chosen.total()))
    return tuple(Package(count, kept[at][1], kept[at][0]) for at, count in sorted(best.items(), reverse=True))


def _laid(lengths: Sequence[float], sizes: Sequence[float], uncut: bool) -> Counter[int] | None:
    """How many of which size hold the pieces: large pieces first, each where it still fits, then the smallest that holds a load.

    None where a piece is longer than the largest.
    """
    largest = sizes[-1]
    pieces = sorted(lengths if uncut else _cut_up(lengths, largest), reverse=True)
    if pieces and pieces[0] > largest + _HAIR:
        return None
    loads: list[float] = []
    for piece in pieces:
        at = next((i for i, load in enumerate(loads) if load + piece <= largest + _HAIR), None)
        if at is None:
            loads.append(piece)
        else:
            loads[at] += piece
    return Counter(next(i for i, held in enumerate(sizes) if load <= held + _HAIR) for load in loads)


def _cut_up(lengths: Sequence[float], largest: float) -> list[float]:
    """All pieces laid end to end, as so many full packages and a rest."""
    whole, rest = divmod(sum(lengths) + _HAIR, largest)
    return [largest] * int(whole) + ([rest] if rest > 1e-6 else [])
