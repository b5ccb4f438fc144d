"""Pages from 60 to 200 columns: they keep to their width in cells, and say the same words at every width.

Cells are counted again by rich, a general-purpose library for terminals that knows nothing of ours.
"""

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from itertools import product
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from planlint.desk import Desk
from planlint.output.check.page import report_page
from planlint.output.checklist.page import checklist_page
from planlint.output.layout import WIDEST, Page, cells, wrapped
from planlint.output.profiles_text import show_page
from planlint.output.schedule.page import schedules_page
from planlint.output.takeoff.page import takeoff_page
from planlint.output.worksheet.page import worksheet_page
from planlint.papers.checklist import make_checklist
from planlint.papers.material.takeoff import take_off
from planlint.papers.schedule import panel_schedules

FIXTURES = Path(__file__).parents[2] / "fixtures"
WIDTHS = (60, 72, 80, 100, 132, 160, 200)
TITLES = {
    "plain": "Plover Lane cottage",
    "long": "Plover " * 43,
    "one word": "x" * 300,
    "right to left": "\u05d1\u05d9\u05ea \u05e7\u05d8\u05df " * 12,
    "wide": "\u5343\u9ce5\u901a\u308a\u306e\u5c0f\u5c4b" * 12,
    "combining": "Plo\u0301ver La\u0308ne " * 12,
}
PLAN = """
  edition 2020
raceway studio-conduit
  type PVC-40; size 2 in; bends 90 deg, 90 deg
  trench studio-trench; holds 3 x 1 AWG aluminum XHHW-2, 1 x 6 AWG aluminum XHHW-2
trench studio-trench
  under yard; cover 14 in
"""


def _pages(path: Path) -> dict[str, Callable[[int], Page]]:
    """Every page that a plan has on a terminal, each to be made at a width."""
    desk = Desk()
    report, sheet, docket = desk.check_file(path), desk.worksheet_file(path), desk.docket_file(path)
    return {
        "check": partial(report_page, report, working=True),
        "check --questions": partial(report_page, report, all_questions=True),
        "worksheet": partial(worksheet_page, sheet),
        "schedule": partial(schedules_page, panel_schedules(docket)),
        "takeoff": partial(takeoff_page, take_off(docket), None),
        "checklist": partial(checklist_page, make_checklist(docket)),
    }


def _keeps_to_its_width(page: Page, width: int) -> None:
    assert [line for line in page.plain().splitlines() if cell_len(line) > min(width, WIDEST)] == []


def _said(page: Page) -> str:
    """What is said, wherever its lines end and its columns begin."""
    return "".join(page.plain().replace("\u00b7", "").split())


@pytest.mark.parametrize("title", TITLES)
def test_hostile_titles_keep_to_the_width_in_cells(title: str, tmp_path: Path) -> None:
    plan = tmp_path / "first.plan"
    plan.write_text(f'plan "{TITLES[title].strip()}"{PLAN}', encoding="utf-8")
    for width, make in product(WIDTHS, _pages(plan).values()):
        _keeps_to_its_width(make(width), width)


def test_the_faulty_cottage_keeps_to_the_width_and_to_its_said() -> None:
    for name, make in _pages(FIXTURES / "cottage-faults.plan").items():
        said = _said(make(WIDEST))
        for width in WIDTHS:
            page = make(width)
            _keeps_to_its_width(page, width)
            assert name == "schedule" or _said(page) == said, (name, width)


def test_a_profile_keeps_to_the_width_and_to_its_said() -> None:
    code = Desk(("tern-county",)).code()
    for width in WIDTHS:
        page = show_page(code, width)
        _keeps_to_its_width(page, width)
        assert _said(page) == _said(show_page(code, WIDEST))


def test_whom_to_confirm_with_is_said_once_for_all_findings() -> None:
    report = Desk().check_file(FIXTURES / "cottage-faults.plan")
    told = report_page(report, 100).plain()
    assert told.count("Confirm with") == 1
    report.findings[0] = replace(report.findings[0], confirm="The utility's planning desk.")
    told = report_page(report, 100).plain()
    assert told.count("Confirm with") == 2
    assert "    Confirm with: The utility's planning desk." in told


PRINTABLE = st.text(st.characters(exclude_categories=["C", "Z"], include_characters=" ")).filter(lambda text: text.strip())


@given(PRINTABLE, st.integers(4, 60), st.integers(0, 2))
def test_wrapping_loses_nothing_and_keeps_to_its_room(text: str, room: int, hang: int) -> None:
    lines = wrapped(text, room, hang)
    assert "".join("".join(lines).split(" ")) == "".join(text.split(" "))
    assert all(cells(line) <= room - (hang if number else 0) for number, line in enumerate(lines))


@given(st.text(st.characters(min_codepoint=0x20, max_codepoint=0x7E)), st.sampled_from("\u5343\uff21\uac00\u05d1\u00e9"))
def test_cells_are_counted_as_a_terminal_library_counts_them(text: str, other: str) -> None:
    assert cells(text + other + text) == cell_len(text + other + text)


def test_a_number_stays_with_its_unit_and_a_line_number_with_its_word() -> None:
    assert wrapped("it has 18 in of it", 9) == ["it has", "18 in of", "it"]
    assert wrapped("see cottage.plan, line 347", 22) == ["see cottage.plan,", "line 347"]
    assert wrapped("a box of 18 cu in or more", 15) == ["a box of", "18 cu in or", "more"]


def test_no_last_line_is_a_lone_word() -> None:
    assert wrapped("three points for the checklist", 25) == ["three points for", "the checklist"]


def test_a_lead_that_the_indent_does_not_hold_has_its_own_line() -> None:
    page = Page.of(60)
    page.text("It is no kind.", 8, lead=("    line 12345", ""))
    assert page.plain().splitlines() == ["    line 12345", "        It is no kind."]


def test_columns_are_as_wide_as_what_stands_in_them_or_follow_each_other() -> None:
    rows = [("studio-panel", "10 A"), ("\u5343\u9ce5", "8 A")]
    page = Page.of(60)
    for row in rows:
        page.columns(row, page.starts(rows, 2))
    assert page.plain().splitlines() == ["  studio-panel  10 A", "  \u5343\u9ce5          8 A"]
    assert page.starts([("x" * 50, "y" * 50)], 2) == [2]
