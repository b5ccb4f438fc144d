"""Lines of styled words, wrapped to a width. What comes from a plan is shown literally: no markup, no control characters.

Widths are counted in the columns of a terminal (cells), not in characters: a wide one takes two, a combining one none.
"""

import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TextIO

NARROWEST, WIDEST, PLAIN_WIDTH = 60, 100, 100
_LEAST_COLUMN, _GAP = 24, 2
_TIE = "\u00a0"  # between words that stay on one line; `literal` leaves none of a plan's own
_TIED = re.compile(
    r"(?<=\d) (?=(?:in|ft|cu|sq|m|mm|cm|A|kA|V|kV|VA|kVA|W|kW|C|F|deg|ohm|%|AWG|kcmil)(?!\w))"
    r"|(?<=\d cu) (?=in\b)|(?<=\d sq) (?=(?:in|ft)\b)|(?<=\b[Ll]ine) (?=\d)|(?<=\b[Tt]able) (?=\d)|(?<=\bsection) (?=\d)"
)
_WORD = re.compile(r"( *)([^ ]+)")
Line = list[tuple[str, str]]
_STYLES = {
    "title": "bold",
    "heading": "bold",
    "correction": "bold red",
    "caution": "bold yellow",
    "advice": "bold cyan",
    "quiet": "dim",
}


def literal(text: str) -> str:
    """Text from a plan or a file name, with every character that isn't printable spelled out."""
    return "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in text)


def cells(text: str) -> int:
    """How many columns of a terminal it takes. Unicode Standard Annex 11: wide and fullwidth two, marks that combine none."""
    return len(text) if text.isascii() else sum(map(_cells, text))


def _cells(character: str) -> int:
    if unicodedata.category(character) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def padded(text: str, width: int, right: bool = False) -> str:
    """Filled up with blanks to so many columns, at its end or, to stand to the right, at its beginning."""
    fill = " " * (width - cells(text))
    return fill + text if right else text + fill


def wrapped(text: str, room: int, hang: int = 0) -> list[str]:
    """Literal text in lines of at most `room` columns, those after the first `hang` less, broken between words; at least one.

    A number stays with its unit, and a last line has two words where it can. Only a word longer than a line is cut.
    """
    lines, line, here = [], "", room
    for gap, word in _words(_TIED.sub(_TIE, text), room - hang):
        if line and cells(line) + len(gap) + cells(word) > here:
            lines.append(line)
            line, here = word, room - hang
        else:
            line += (gap if line else "") + word
    lines.append(line)
    if len(lines) > 1 and " " not in line and lines[-2].count(" ") > 1:
        before, _, last = lines[-2].rpartition(" ")
        if cells(last) + 1 + cells(line) <= here:
            lines[-2:] = [before.rstrip(), f"{last} {line}"]
    return [one.replace(_TIE, " ") for one in lines]


def _words(text: str, room: int) -> Iterator[tuple[str, str]]:
    """Each word with the blanks before it; one that no line holds comes in pieces."""
    for gap, word in _WORD.findall(text):
        if cells(word) <= room:
            yield gap, word
        elif _TIE in word:
            yield from _words(gap + word.replace(_TIE, " "), room)
        else:
            piece = ""
            for character in word:
                if cells(piece + character) > room:
                    yield gap, piece
                    gap = piece = ""
                piece += character
            yield gap, piece


@dataclass(slots=True)
class Page:
    """A growing list of lines of one width, in columns of a terminal."""

    width: int
    lines: list[Line]

    @classmethod
    def of(cls, width: int) -> "Page":
        """An empty page, its width held between what can be read."""
        return cls(max(NARROWEST, min(width, WIDEST)), [])

    def line(self, *parts: tuple[str, str] | str) -> None:
        """One line as it is."""
        self.lines.append([part if isinstance(part, tuple) else (part, "") for part in parts])

    def blank(self) -> None:
        """An empty line, unless there is one already."""
        if self.lines and self.lines[-1]:
            self.lines.append([])

    def heading(self, text: str) -> None:
        """What begins a group, after an empty line."""
        self.blank()
        self.text(text, style="heading")

    def text(self, text: str, indent: int = 0, style: str = "", lead: tuple[str, str] = ("", ""), hang: int = 0) -> None:
        """A paragraph wrapped at `indent`, and after its first line by `hang` more; `lead` stands before it, in the indent.

        A lead that the indent doesn't hold has a line of its own.
        """
        self._paragraph(literal(text), indent, style, lead, hang)

    def _paragraph(self, text: str, indent: int, style: str, lead: tuple[str, str], hang: int) -> None:
        if cells(lead[0]) > indent:
            self.lines.append([lead])
            lead = ("", "")
        for number, part in enumerate(wrapped(text, self.width - indent, hang)):
            before = ("", "") if number else lead
            self.lines.append([before, (" " * (indent - cells(before[0]) + (hang if number else 0)), ""), (part, style)])

    def row(self, parts: Sequence[str], indent: int = 0, style: str = "") -> None:
        """Short words after each other, each kept on one line if it can be."""
        text = " · ".join(literal(part).replace(" ", _TIE) for part in parts if part)
        self._paragraph(text, indent, style, ("", ""), hang=2)

    def beside(self, one: tuple[str, str], other: tuple[str, str], to_the_right: bool = False) -> None:
        """Two on one line, the other one after a gap or at the page's right; on two lines if there is no room."""
        (first, _), (second, _) = pair = (literal(one[0]), one[1]), (literal(other[0]), other[1])
        gap = self.width - cells(first) - cells(second)
        if gap < 3:
            for text, style in pair:
                self.text(text, style=style)
        else:
            self.line(pair[0], " " * (gap if to_the_right else 3), pair[1])

    def starts(self, rows: Sequence[Sequence[str]], indent: int) -> list[int]:
        """Where columns for these rows begin, each as wide as its widest cell; one only where there is no room."""
        if not rows:
            return [indent]
        widths = [max(cells(literal(cell)) for cell in column) for column in zip(*rows, strict=True)]
        starts = [indent]
        for width in widths[:-1]:
            starts.append(starts[-1] + width + _GAP)
        return starts if self.width - starts[-1] >= min(widths[-1], _LEAST_COLUMN) else [indent]

    def columns(self, row: Sequence[str], starts: Sequence[int], style: str = "") -> None:
        """Cells beside each other from these columns, the last one wrapped in its own; with one column, one after the other."""
        if len(starts) == 1:
            self.row(row, starts[0], style)
            return
        line = ""
        for cell, start in zip(row[:-1], starts, strict=False):
            line = padded(line, start) + literal(cell)
        self.text(row[-1], starts[-1], style, lead=(line, style))

    def plain(self) -> str:
        """The page without any style."""
        return "\n".join("".join(text for text, _ in line).rstrip() for line in self.lines) + "\n"


def print_page(page: Page, stream: TextIO, color: bool) -> None:
    """Write a page; with color only where the stream is a terminal that wants it. Meaning never hangs on the color."""
    if not color:
        stream.write(page.plain())
        return
    from rich.console import Console  # slow to import, and only a terminal needs it
    from rich.text import Text

    console = Console(file=stream, width=page.width + 1, highlight=False, emoji=False, markup=False)
    for line in page.lines:
        text = Text(no_wrap=True, overflow="ignore")
        for part, style in line:
            text.append(part, _STYLES.get(style, ""))
        text.rstrip()
        console.print(text, soft_wrap=True)
