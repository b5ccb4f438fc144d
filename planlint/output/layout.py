"""Lines of styled words, wrapped to a width. What comes from a plan is shown literally: no markup, no control characters."""

import textwrap
from dataclasses import dataclass
from typing import TextIO

NARROWEST, WIDEST, PLAIN_WIDTH = 60, 110, 100
_LEAST_COLUMN = 16
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


@dataclass(slots=True)
class Page:
    """A growing list of lines of one width."""

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

    def text(self, text: str, indent: int = 0, style: str = "", lead: tuple[str, str] | None = None) -> None:
        """A paragraph wrapped at `indent`; `lead` stands before its first line, in the indent."""
        room = max(20, self.width - indent)
        wrapped = textwrap.wrap(literal(text), room, break_on_hyphens=False) or [""]
        for number, part in enumerate(wrapped):
            before = lead if lead and number == 0 else ("", "")
            gap = " " * (indent - len(before[0]))
            self.lines.append([before, (gap, ""), (part, style)])

    def columns(self, cells: list[str], starts: list[int], style: str = "") -> None:
        """Cells beside each other from these columns, each wrapped in its own; on a narrow page one after the other."""
        if self.width - starts[-1] < _LEAST_COLUMN:
            self.text(" · ".join(cell for cell in cells if cell), starts[0], style)
            return
        ends = [*(start - 2 for start in starts[1:]), self.width]
        parts = [
            textwrap.wrap(literal(cell), end - start, break_on_hyphens=False) or [""]
            for cell, start, end in zip(cells, starts, ends, strict=True)
        ]
        for row in range(max(map(len, parts))):
            line = ""
            for part, start in zip(parts, starts, strict=True):
                line = line.ljust(start) + (part[row] if row < len(part) else "")
            self.lines.append([(line, style)])

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
