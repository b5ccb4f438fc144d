"""A worksheet on a terminal: topic by topic, element by element, each number with its working."""

from planlint.output import CAUTION
from planlint.output.layout import Page
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

_ENTRY, _STEP = 2, 4


def worksheet_page(sheet: Worksheet, width: int) -> Page:
    """The whole worksheet of one plan."""
    page = Page.of(width)
    page.text(f"{sheet.plan}: worksheet", style="title")
    page.text(book_line(sheet))
    if sheet.profile.preview:
        page.text(sheet.profile.preview)
    page.text(ROUNDING, style="quiet")
    if not sheet.sections:
        page.blank()
        page.text(nothing_line(sheet))
    for section in sheet.sections:
        page.heading(section.topic.upper())
        for part in section.parts:
            _part(page, part, sheet)
    _waiting(page, sheet)
    _failed(page, sheet)
    page.blank()
    page.text(CAUTION, style="quiet")
    return page


def _part(page: Page, part: Part, sheet: Worksheet) -> None:
    page.blank()
    page.beside((part.subject.name, "title"), (f"{part.subject.kind}, {place(part, sheet)}", "quiet"))
    if part.taken:
        page.text(f"As it stands: {taken_line(part)}", _ENTRY, hang=2)
    for entry in worked(part):
        _entry(page, entry)
    for needs, facts in not_begun(part):
        page.text(f"Not yet: {facts}", _ENTRY, hang=2)
        page.text(f"Waits for: {needs}", _STEP, "quiet", hang=2)


def _entry(page: Page, entry: Entry) -> None:
    page.text(f"{entry.fact}: {entry.value or 'not yet'}", _ENTRY, "heading")
    page.text(about(entry), _STEP, "quiet")
    for step in entry.steps:
        result = f" = {step.value}" if step.value and step.value != step.text else ""
        source = f"   ({step.source})" if step.source else ""
        page.text(f"{step.text}{result}{source}", _STEP, hang=2)
    for head, words in notes(entry):
        page.text(f"{head}: {words}", _STEP, "quiet", hang=2)


def _waiting(page: Page, sheet: Worksheet) -> None:
    rows = list(waiting(sheet))
    if not rows:
        return
    page.heading("NOT STATED YET")
    starts = page.starts(rows, _STEP)
    for row in rows:
        page.columns(row, starts)


def _failed(page: Page, sheet: Worksheet) -> None:
    if not sheet.failed:
        return
    page.heading("NOT WORKED OUT: a fault of planlint; please report it")
    for failed in sheet.failed:
        page.text(f"{failed.rule} of {failed.subject.name} (line {failed.position.line}): {failed.message}", _STEP, hang=2)
