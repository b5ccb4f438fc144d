"""The README's kitchen: ten receptacles in a few lines, with all that is asked of them decided, and each limit from both sides.

Figures: NFPA 70 210.52(C)(1) (no point of a counter's wall line more than 24 in from a receptacle), 210.52(A)(1) (6 ft along a
wall), 210.52(C)(3) (20 in above the top).
"""

import re
from pathlib import Path

import pytest

from planlint import check
from planlint.report import Report

README = (Path(__file__).parents[2] / "README.md").read_text("utf-8")
KITCHEN = next(block for block in README.split("```") if block.strip().startswith("place kitchen")).strip() + "\n"
AROUND = """plan "Plover Lane cottage"
  edition {}
building house
  use one-family; construction new
place hall
  building house; use hallway
panel house-panel
  at hall; readily-accessible yes
circuit kitchen-a
  panel house-panel; breaker 20 A; poles 1; use small-appliance; protection afci, gfci; cable 12/2 copper NM-B; length 42 ft
circuit kitchen-b
  panel house-panel; breaker 20 A; poles 1; use small-appliance; protection afci, gfci; cable 12/2 copper NM-B; length 48 ft
"""
MINE = ("kitchen", "north", "south", "north-counter", "south-counter", "walls-and-refrigerator")


def report_of(kitchen: str, edition: int = 2020) -> Report:
    return check(AROUND.format(edition) + kitchen)


def asked(report: Report) -> set[tuple[str, tuple[int, ...]]]:
    """What is asked of the kitchen and what is in it, and in which lines of it."""
    needs = [need for waiting in report.open_checks for need in waiting.needs if need.subject.name in MINE and not need.complete]
    above = len(AROUND.splitlines())
    return {
        (one.attribute, tuple(sorted({need.position.line - above for need in needs if need.question == one.question})))
        for one in needs
    }


@pytest.mark.parametrize("edition", [2017, 2020, 2023])
def test_ten_receptacles_are_a_few_lines_and_nothing_is_asked_of_them(edition: int) -> None:
    report = report_of(KITCHEN, edition)
    assert len(KITCHEN.splitlines()) <= 12
    assert sum(map(int, re.findall(r"count ([0-9]+)", KITCHEN))) == 10
    assert report.findings == [] and asked(report) == set()
    met = {(rule, subject.name) for rule, subject in report.met}
    assert {("counter-receptacle-gap", "north"), ("counter-receptacle-gap", "south"), ("room-receptacle-gap", "kitchen")} <= met
    for name in MINE[3:]:
        assert {("gfci-receptacle-location", name), ("receptacle-not-tamper-resistant", name)} <= met


@pytest.mark.parametrize(
    ("said", "instead", "rule", "subject"),
    [
        ("11 ft; receptacle-height", "9 ft 11 in; receptacle-height", "counter-receptacle-gap", "north"),
        ("4 ft 6 in, 8 ft", "5 ft 1 in, 8 ft", "counter-receptacle-gap", "north"),
        ("receptacle-within 22 in", "receptacle-within 25 in", "counter-receptacle-gap", "south"),
        ("22 in; receptacle-height 8 in", "22 in; receptacle-height 21 in", "counter-receptacle-gap", "south"),
        ("receptacle-within 5 ft", "receptacle-within 6 ft 1 in", "room-receptacle-gap", "kitchen"),
    ],
)
def test_each_spacing_is_judged(said: str, instead: str, rule: str, subject: str) -> None:
    assert said in KITCHEN
    found = report_of(KITCHEN.replace(said, instead)).findings
    assert [(finding.rule, finding.subject.name) for finding in found] == [(rule, subject)]


@pytest.mark.parametrize(
    ("said", "instead"),
    [
        ("11 ft; receptacle-height", "10 ft; receptacle-height"),
        ("4 ft 6 in, 8 ft", "5 ft, 8 ft"),
        ("receptacle-within 22 in", "receptacle-within 24 in"),
        ("22 in; receptacle-height 8 in", "22 in; receptacle-height 20 in"),
        ("receptacle-within 5 ft", "receptacle-within 6 ft"),
    ],
)
def test_each_limit_itself_passes(said: str, instead: str) -> None:
    assert said in KITCHEN
    assert report_of(KITCHEN.replace(said, instead)).findings == []


def test_what_is_left_out_is_asked_once_with_the_lines_of_all() -> None:
    assert asked(report_of(KITCHEN.replace("; receptacle-within 5 ft", ""))) == {("receptacle-within", (1,))}
    assert ("tamper-resistant", (7, 9, 11)) in asked(report_of(KITCHEN.replace("; tamper-resistant yes", "")))
    assert asked(report_of(KITCHEN.replace("; receptacle-height 8 in", ""))) == {("receptacle-height", (3, 5))}


def test_a_kitchen_isnt_asked_whether_it_has_a_sink() -> None:
    """Article 100: a kitchen is an area with a sink. What is there for no counter is asked how near it is, in one question."""
    open_ = AROUND.replace("afci, gfci", "afci") + KITCHEN
    needs = [need for waiting in check(open_.format(2020)).open_checks for need in waiting.needs if need.subject.name in MINE]
    assert "sink" not in {need.attribute for need in needs if need.subject.name == "kitchen"}
    assert "distance-to-sink" in {need.attribute for need in needs if need.subject.name == "walls-and-refrigerator"}
