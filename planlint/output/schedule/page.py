"""Panel schedules on a terminal: the face of each panel, left and right as it hangs, then its figures."""

from planlint.output import CAUTION
from planlint.output.layout import Page, literal, padded, wrapped
from planlint.output.schedule.words import (
    LEFT_OUT,
    LEGS,
    balance_words,
    breaker_words,
    free_words,
    head_words,
    leg_words,
    protection_words,
    said,
    spaces_words,
)
from planlint.papers.schedule import Breaker, PanelSchedule, Schedules

_NUMBERS = 9  # " 1    2 " between the two halves
_LEAST_HALF = 32


def schedules_page(schedules: Schedules, width: int) -> Page:
    """Every panel's schedule and the directory for its door."""
    page = Page.of(width)
    page.text(f"{schedules.plan}: panel schedules", style="title")
    if not schedules.panels:
        page.text("The plan shows no panel.")
    for panel in schedules.panels:
        _panel(page, panel)
        _directory(page, panel)
    page.blank()
    page.text(LEGS, style="quiet")
    page.blank()
    page.text(CAUTION, style="quiet")
    return page


def _panel(page: Page, panel: PanelSchedule) -> None:
    page.blank()
    page.text(f"PANEL {panel.subject.name}", style="heading")
    told = [(word.lower(), value) for word, value in head_words(panel)]
    page.text("; ".join(f"{word}: {value}" for word, value in told if value != LEFT_OUT), 2)
    if left_out := [word for word, value in told if value == LEFT_OUT]:
        page.text(f"Not stated: {', '.join(left_out)}.", 2)
    page.blank()
    half = (page.width - _NUMBERS) // 2
    if half >= _LEAST_HALF:
        _face(page, panel, half)
    else:
        for one in panel.breakers:
            page.text("; ".join((one.serves, *_details(one))), 9, lead=(spaces_words(one), ""))
    if panel.unplaced:
        page.text("No space stated yet:", 2)
        for one in panel.unplaced:
            page.text("; ".join((one.serves, *_details(one))), 4)
    page.blank()
    page.text(f"{balance_words(panel)} {free_words(panel)}", 2)
    for note in panel.notes:
        page.text(f"Look again: {note}", 2, "caution")


def _details(one: Breaker) -> list[str]:
    breaker = ", ".join(part for part in (breaker_words(one), protection_words(one)) if part)
    return [breaker, said(one.wires), leg_words(one)]


def _face(page: Page, panel: PanelSchedule, half: int) -> None:
    """Row by row: the odd space on the left, the even one on the right, their numbers between them.

    A row whose two spaces are free is left out: all free spaces are named below.
    """
    shown: set[str] = set()
    for row in range(panel.rows):
        left, right = (_cell(panel, space, half, shown) for space in (2 * row + 1, 2 * row + 2))
        if not left and not right:
            continue
        left, right = left or [("free", "")], right or [("free", "")]
        for number in range(max(len(left), len(right))):
            numbers = f"{2 * row + 1:>3}   {2 * row + 2:<3}" if number == 0 else " " * _NUMBERS
            (one, style), other = (side[number] if number < len(side) else ("", "") for side in (left, right))
            page.line((padded(one, half, right=True), style), numbers, other)


def _cell(panel: PanelSchedule, space: int, width: int, shown: set[str]) -> list[tuple[str, str]]:
    """What one space shows: its breaker's words and figures where it begins, a word that it goes on below."""
    lines: list[tuple[str, str]] = []
    for one in panel.in_space(space):
        if one.subject.name in shown:
            first, *more = wrapped(f"({literal(one.serves)})", width - len(" ...)"))
            lines.append((f"{first} ...)" if more else first, ""))
            continue
        shown.add(one.subject.name)
        for part, style in ((one.serves, ""), *((detail, "quiet") for detail in _details(one))):
            lines += [(line, style) for line in wrapped(literal(part), width)]
    return lines


def _directory(page: Page, panel: PanelSchedule) -> None:
    """What sticks in the door. NFPA 70 408.4(A)."""
    page.blank()
    page.text(f"For the door of {panel.subject.name}", style="heading")
    for one in panel.breakers:
        words = one.serves + ("" if one.worded else "   (not the plan's words: say them with 'label')")
        page.text(words, 14, lead=(f"  {spaces_words(one)}", ""))
