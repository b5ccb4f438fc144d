"""Where each character of a YAML scalar stands in its file: through quotes, escapes, and lines that are folded into one."""

from collections.abc import Sequence
from typing import NamedTuple

from planlint.positions import Span

_BLANK = " \t\n"
_ESCAPE_WIDTHS = {"x": 4, "u": 6, "U": 10}


class Letter(NamedTuple):
    """One character: its line and column, from 1, and how many columns it takes (`\\n` in double quotes takes two)."""

    text: str
    line: int
    column: int
    width: int = 1


def letters(lines: Sequence[str], span: Span, style: str, text: str) -> list[Letter]:
    """The place of each character of a scalar's `text`, which stands at `span` of `lines` in YAML's `style`.

    Exact for every character that isn't blank; a blank that stands for the end of a line has the place of that end.
    """
    written = _block(lines, span) if style in "|>" and style else _flow(lines, span, style)
    found: list[Letter] = []
    at = 0
    for character in text:
        at = _skip(written, at, character, style)
        if at >= len(written):
            found.append(written[-1] if written else Letter("", span.line, span.column, 0))
            continue
        letter, at = _one(written, at, character, style)
        found.append(letter)
    return found


def _flow(lines: Sequence[str], span: Span, style: str) -> list[Letter]:
    """What is written between the quotes, or all of it where there are none."""
    written: list[Letter] = []
    for number in range(span.line, span.end_line + 1):
        line = lines[number - 1]
        first = span.column if number == span.line else 1
        last = span.end_column - 1 if number == span.end_line else len(line)
        written.extend(Letter(line[column - 1], number, column) for column in range(first, last + 1))
        if number < span.end_line:
            written.append(Letter("\n", number, len(line) + 1))
    return written[1:-1] if style else written


def _block(lines: Sequence[str], span: Span) -> list[Letter]:
    """What is written below a `|` or `>`, without the indent."""
    body = [(number, lines[number - 1]) for number in range(span.line + 1, min(span.end_line, len(lines)) + 1)]
    filled = [line for _, line in body if line.strip(" ")]
    indent = len(filled[0]) - len(filled[0].lstrip(" ")) if filled else 0
    written: list[Letter] = []
    for number, line in body:
        margin = min(indent, len(line) - len(line.lstrip(" ")))
        written.extend(Letter(line[column - 1], number, column) for column in range(margin + 1, len(line) + 1))
        written.append(Letter("\n", number, len(line) + 1))
    return written


def _skip(written: list[Letter], at: int, character: str, style: str) -> int:
    """Pass over what the text leaves out: an escaped end of line, and blanks round a fold."""
    while style == '"' and [letter.text for letter in written[at : at + 2]] == ["\\", "\n"]:
        at = _past_blanks(written, at + 2)
    return at if character in _BLANK else _past_blanks(written, at)


def _past_blanks(written: list[Letter], at: int) -> int:
    while at < len(written) and written[at].text in _BLANK:
        at += 1
    return at


def _one(written: list[Letter], at: int, character: str, style: str) -> tuple[Letter, int]:
    letter = written[at]
    if style == '"' and letter.text == "\\":
        width = _ESCAPE_WIDTHS.get(written[at + 1].text, 2)
        return letter._replace(text=character, width=width), at + width
    if style == "'" and letter.text == "'":
        return letter._replace(width=2), at + 2
    if character not in _BLANK:
        return letter, at + 1
    if letter.text not in _BLANK:  # one of several blank lines: the first of them took the whole gap
        return letter._replace(text=character, width=0), at
    return letter, _after_gap(written, at, style)


def _after_gap(written: list[Letter], at: int, style: str) -> int:
    """Behind one blank, or behind all of them where lines are folded there."""
    end = _past_blanks(written, at)
    folds = style not in ("|", ">") and any(letter.text == "\n" for letter in written[at:end])
    return end if folds else at + 1
