"""A worksheet as Markdown, for a plan's repository or a page to print. What comes from a plan is shown literally."""

import re
from collections.abc import Iterator

from planlint.output import CAUTION
from planlint.output.layout import literal
from planlint.output.worksheet.words import (
    ROUNDING,
    about,
    book_line,
    not_begun,
    notes,
    nothing_line,
    place,
    taken_line,
    waiting,
    worked,
)
from planlint.workings import Entry, Part, Worksheet

_SPECIAL = re.compile(r"([\\`*_{}\[\]<>#|~$&])")


def worksheet_markdown(sheet: Worksheet) -> str:
    """The whole worksheet of one plan."""
    return "\n".join(_lines(sheet)) + "\n"


def plain(text: str) -> str:
    """Text that Markdown shows as it is, on one line."""
    return _SPECIAL.sub(r"\\\1", literal(text))


def _lines(sheet: Worksheet) -> Iterator[str]:
    yield f"# {plain(sheet.plan)}: worksheet"
    yield from ["", plain(book_line(sheet))]
    if sheet.profile.preview:
        yield from ["", f"**{plain(sheet.profile.preview)}**"]
    yield from ["", ROUNDING]
    if not sheet.sections:
        yield from ["", plain(nothing_line(sheet))]
    for section in sheet.sections:
        yield from ["", f"## {section.topic}"]
        for part in section.parts:
            yield from _part(part, sheet)
    yield from _waiting(sheet)
    if sheet.failed:
        yield from ["", "## Not worked out: a fault of planlint; please report it", ""]
        for failed in sheet.failed:
            yield f"- {plain(f'{failed.rule} of {failed.subject.name} (line {failed.position.line}): {failed.message}')}"
    yield from ["", "---", "", CAUTION]


def _part(part: Part, sheet: Worksheet) -> Iterator[str]:
    yield from ["", f"### {plain(part.subject.name)}", "", f"{part.subject.kind}, {plain(place(part, sheet))}"]
    if part.taken:
        yield from ["", f"As it stands: {plain(taken_line(part))}"]
    for entry in worked(part):
        yield from _entry(entry)
    for needs, facts in not_begun(part):
        yield from ["", f"**Not yet:** {facts}", "", f"- *Waits for:* {plain(needs)}"]


def _entry(entry: Entry) -> Iterator[str]:
    yield from ["", f"**{entry.fact}: {plain(entry.value) or 'not yet'}**: {plain(about(entry))}", ""]
    for step in entry.steps:
        result = f" = {step.value}" if step.value and step.value != step.text else ""
        source = f" ({step.source})" if step.source else ""
        yield f"- {plain(f'{step.text}{result}{source}')}"
    for head, words in notes(entry):
        yield f"- *{head}:* {plain(words)}"


def _waiting(sheet: Worksheet) -> Iterator[str]:
    rows = list(waiting(sheet))
    if not rows:
        return
    yield from ["", "## Not stated yet", "", "| where | what | |", "|---|---|---|"]
    for row in rows:
        yield f"| {' | '.join(map(plain, row))} |"
