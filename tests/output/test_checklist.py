"""Checklists: nothing of a check is lost on them, nothing stands twice, passed inspections are folded.

What real lists ask is held in rules/coverage.yaml, where the source of each is named; here its points must arrive.
"""

from collections import Counter
from pathlib import Path

import pytest

from planlint.book.points import site_points
from planlint.desk import Desk
from planlint.output.checklist.page import checklist_page
from planlint.output.checklist.words import row_words
from planlint.papers.checklist import Checklist, make_checklist
from planlint.papers.docket import Docket
from planlint.report import INSPECTIONS

ROOT = Path(__file__).parents[2]
COTTAGES = ["cottage.plan", "cottage-faults.plan"]


def docket(name: str) -> Docket:
    return Desk().docket_file(ROOT / "fixtures" / name)


def text(checklist: Checklist, width: int = 100) -> str:
    return checklist_page(checklist, width).plain()


@pytest.fixture(scope="module", params=COTTAGES)
def made(request: pytest.FixtureRequest) -> tuple[Docket, Checklist]:
    own = docket(request.param)
    return own, make_checklist(own)


def test_every_check_stands_on_the_list_of_its_inspection_once(made: tuple[Docket, Checklist]) -> None:
    own, checklist = made
    report = own.report

    def on_lists(part: str) -> Counter[tuple[str, str, str]]:
        return Counter(
            (one.inspection, point.rule, subject.name)
            for one in checklist.lists
            for point in getattr(one, part)
            for row in point.rows
            for subject in row.subjects
        )

    met = Counter((own.rules[rule].rule.inspection, rule, subject.name) for rule, subject in report.met)
    eyes = Counter((check.inspection, check.rule, check.subject.name) for check in report.checklist)
    assert on_lists("settled") == met
    assert on_lists("eyes") == eyes
    assert sum(len(one.corrections) for one in checklist.lists) == len(report.findings)
    assert sum(len(one.waiting) for one in checklist.lists) == len(report.open_checks)


def test_findings_keep_the_numbers_of_the_check() -> None:
    own = docket("cottage-faults.plan")
    words = text(make_checklist(own))
    for number, group in enumerate(own.report.numbered(), 1):
        if group[0].severity == "correction":
            assert f"Correct first: number {number} of the check, {group[0].rule}" in " ".join(words.split())


def test_every_point_that_no_plan_holds_arrives(made: tuple[Docket, Checklist]) -> None:
    words = " ".join(text(made[1]).split())
    for point in site_points():
        assert " ".join(point.text.split()) in words, point.name


def test_a_point_without_meaning_for_the_plan_stays_away() -> None:
    bare = 'plan "Trial"\n  edition 2020; complete raceways, piping, service\n'
    checklist = make_checklist(Desk().docket_text(bare))
    names = {point.name for one in checklist.lists for point in one.points}
    assert "ditch-open" not in names
    assert "bonds-tight" not in names
    assert "smoke-alarms" in names
    open_still = make_checklist(Desk().docket_text('plan "Trial"\n  edition 2020\n'))
    assert "ditch-open" in {point.name for one in open_still.lists for point in one.points}


def test_passed_inspections_are_folded() -> None:
    cottage = (ROOT / "fixtures" / "cottage.plan").read_text("utf-8")
    passed = cottage.replace("lines-located yes", "lines-located yes; passed footing, underground", 1)
    assert passed != cottage
    whole, folded = (make_checklist(Desk().docket_text(one)) for one in (cottage, passed))
    assert [one.passed for one in folded.lists] == [True, True, False, False, False]
    assert "trench-too-shallow" in text(whole)
    assert "trench-too-shallow" not in text(folded)
    assert "Underground: before the trench is filled. Passed" in text(folded)
    assert [one.inspection for one in folded.lists] == list(INSPECTIONS)


def test_figures_are_shown(made: tuple[Docket, Checklist]) -> None:
    """From ../cottage's own lines: the bar's 24 ft; the clause's 20 ft (NFPA 70 250.52(A)(3))."""
    rows = [
        row.text
        for one in made[1].lists
        for point in one.settled
        for row in point.rows
        if point.rule == "footing-electrode-too-short-or-thin"
    ]
    assert all("24 ft" in row and "20 ft" in row for row in rows)


def test_many_of_a_kind_are_named_by_their_number_only_where_none_is_left_out() -> None:
    cottage = (ROOT / "fixtures" / "cottage.plan").read_text("utf-8")
    without_length = cottage.replace("raceway kiln-pipe; length 25 ft", "raceway kiln-pipe", 1)
    assert without_length != cottage
    whole, short = (make_checklist(Desk().docket_text(one)) for one in (cottage, without_length))

    def named(checklist: Checklist) -> str:
        (row,) = (
            row for one in checklist.lists for point in one.settled if point.rule == "branch-voltage-drop" for row in point.rows
        )
        return row_words(row).partition(": ")[0]

    circuits = [element.name for element in docket("cottage.plan").graph.elements if element.kind == "circuit"]
    assert named(whole) == f"all {len(circuits)} circuits"
    assert named(short) == ", ".join(name for name in circuits if name != "kiln-circuit")


@pytest.mark.parametrize("width", [60, 80, 100, 200])
def test_no_line_is_wider_than_the_page(made: tuple[Docket, Checklist], width: int) -> None:
    assert all(len(line) <= min(width, 110) for line in text(made[1], width).splitlines())
