"""How wide words are, and how they are broken into lines.

The widths are those of Helvetica and Helvetica-Bold, in thousandths of the size, from the metrics that Adobe published for its
core fonts (Helvetica.afm, Helvetica-Bold.afm, 1997; from memory, held against an installed font of the same metrics by the
tests). Arial and Liberation Sans have the same widths. Any other character counts as wide as an M of a wide script.
"""

from collections.abc import Sequence
from functools import lru_cache

_PLAIN = (
    "278 278 355 556 556 889 667 191 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 278 278 584 584 "
    "584 556 1015 667 667 722 722 667 611 778 722 278 500 667 556 833 722 778 667 778 722 667 611 722 667 944 667 667 611 278 "
    "278 278 469 556 333 556 556 500 556 556 278 556 556 222 222 500 222 833 556 556 556 556 333 500 278 556 500 722 500 500 "
    "500 334 260 334 584"
)
_BOLD = (
    "278 333 474 556 556 889 722 238 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 333 333 584 584 "
    "584 611 975 722 722 722 722 667 611 778 722 278 556 722 611 833 722 778 667 778 722 667 611 722 667 944 667 667 611 333 "
    "278 333 584 556 333 556 611 556 611 556 333 611 611 278 278 556 278 889 611 611 611 611 389 556 333 611 556 778 556 556 "
    "500 389 280 389 584"
)
_WIDE = 1100
_LOW, _LONG = 0.35, 0.75
"""A line less full than the one share is filled up with the first words of the next phrase, if that is longer than the other."""
ELLIPSIS = "…"
_TABLES = {
    bold: {chr(32 + place): int(width) for place, width in enumerate(table.split())} | {ELLIPSIS: 1000}
    for bold, table in ((False, _PLAIN), (True, _BOLD))
}
MARGIN = 1.01
"""What is kept free beside words, as a share of their width: not all fonts of these metrics round alike."""


def width(text: str, size: float, bold: bool = False) -> float:
    """Width of a line of text, in the unit of its size."""
    return MARGIN * size * _thousandths(text, bold) / 1000


@lru_cache(maxsize=20_000)
def _thousandths(text: str, bold: bool) -> int:
    table = _TABLES[bold]
    return sum(table.get(character, _WIDE) for character in text)


def shortened(text: str, room: float, size: float, bold: bool = False) -> str:
    """The text, or as much of its beginning and end as the room holds, with an ellipsis between."""
    if width(text, size, bold) <= room:
        return text
    low, high = 0, len(text)
    while low < high:  # how many characters can stay
        middle = (low + high + 1) // 2
        if width(_cut(text, middle), size, bold) <= room:
            low = middle
        else:
            high = middle - 1
    return _cut(text, low)


def _cut(text: str, kept: int) -> str:
    end = kept // 3
    return text[: kept - end].rstrip() + ELLIPSIS + (text[len(text) - end :].lstrip() if end else "")


def wrapped(phrases: Sequence[str], room: float, size: float, most: int, first: float | None = None) -> list[str]:
    """Phrases in lines of that room, "; " between them, broken between phrases first and between words where one is too long.

    `first`: the room of the first line where it is another; that line stays empty where nothing fits it. At most so many
    lines; the last one then ends in an ellipsis.
    """
    lines: list[str] = [] if first is None else [""]
    for place, phrase in enumerate(phrases):
        text = phrase if place == len(phrases) - 1 else f"{phrase};"
        starts_low = bool(lines) and width(lines[-1], size) < _LOW * room and width(text, size) > _LONG * room
        pieces = text.split() if starts_low or width(text, size) > room else [text]
        for piece in pieces:
            longer = f"{lines[-1]} {piece}".lstrip() if lines else piece
            here = first if first is not None and len(lines) == 1 else room
            if lines and width(longer, size) <= here:
                lines[-1] = longer
            else:
                lines.append(piece)
    if len(lines) > most:
        lines = [*lines[: most - 1], shortened(f"{lines[most - 1]} {ELLIPSIS}{ELLIPSIS}", room, size)]
    return [shortened(line, room, size) for line in lines]
