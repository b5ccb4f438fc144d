"""What each rule has to say on a checklist: every rule has a point, and it reads well wherever it may be printed.

It is printed for checks that are met and for those that only eyes can settle, whatever the edition or the profile.
"""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from planlint.book import RuleRecord, resolve
from planlint.book.tables import Tables
from planlint.checking import run_rule
from planlint.desk import Desk
from planlint.facts import load_facts
from planlint.facts.engine import Job
from planlint.language import read_text
from planlint.papers.checklist import make_checklist
from planlint.plan.graph import Graph
from planlint.rulebook import compile_rule

ROOT = Path(__file__).parent.parent
COTTAGES = ("cottage.plan", "cottage-faults.plan")
PROFILES = sorted(path.stem for path in (ROOT / "rules" / "profiles").glob("*.yaml"))
FIXTURES = sorted((ROOT / "fixtures" / "rules").glob("*.plan"))

load_facts()
CODES = {edition: resolve((f"model-{edition}",)) for edition in (2017, 2020, 2023)}
CODES |= {2026: resolve(("model-2026-preview",))}
RULES = dict(CODES[2023].known_rules)
MOST_LETTERS = 160


class Printed(NamedTuple):
    """A point as it comes out for one element, and where."""

    rule: str
    text: str
    where: str


def on_the_list(desk: Desk, path: Path) -> Iterator[Printed]:
    checklist = make_checklist(desk.docket_file(path))
    for one in checklist.lists:
        for point in (*one.settled, *one.eyes):
            for row in point.rows:
                yield Printed(point.rule, row.text, f"{path.name}, {checklist.profile.title}, {row.subjects[0].name}")


def in_an_example(record: RuleRecord) -> Iterator[Printed]:
    code = CODES[max(record.clause)]
    rule = compile_rule(code.rules[record.name], code)
    graph = Graph(read_text(record.examples["met"].text, example=True).elements)
    job = Job(graph, code, Tables())
    for element in graph.elements:
        if element.kind in record.about and run_rule(rule, element, job).answer == "met":
            assert rule.point is not None
            yield Printed(record.name, " ".join(rule.point.render(element, job).split()), f"example, {element.name}")


def reads_badly(printed: Printed) -> bool:
    text = printed.text
    a_dump = "not stated" in text or "to be seen" in text or "{" in text
    says_yes_or_no = re.search(r"\byes\b|\bno\b *(?:[,;:)]|$)", text)
    return a_dump or bool(says_yes_or_no) or text.endswith(".") or not 0 < len(text) <= MOST_LETTERS


@pytest.mark.parametrize("name", sorted(RULES))
def test_every_rule_has_a_clause_of_plain_words(name: str) -> None:
    """No name, for elements of which the same holds stand in one row; no clause number, for that stands beside it."""
    point = RULES[name].point
    assert point is not None
    assert "{name}" not in point.text
    assert not re.search(r"\d{3}\.\d", point.text)
    first = point.text.split()[0].strip(",:;")
    assert first.startswith("{") or first == first.lower() or first == first.upper()


@pytest.mark.parametrize("profile", PROFILES)
@pytest.mark.parametrize("name", COTTAGES)
def test_points_read_well_on_the_cottages_lists(name: str, profile: str) -> None:
    printed = list(on_the_list(Desk([profile]), ROOT / "fixtures" / name))
    assert len(printed) > 100
    assert [one for one in printed if reads_badly(one)] == []


@pytest.mark.parametrize("path", FIXTURES, ids=lambda path: path.stem)
def test_points_read_well_for_the_fixture_of_each_rule(path: Path) -> None:
    printed = list(on_the_list(Desk(), path))
    assert path.stem in {one.rule for one in printed}
    assert [one for one in printed if reads_badly(one)] == []


@pytest.mark.parametrize("name", sorted(RULES))
def test_points_read_well_where_the_example_is_met(name: str) -> None:
    printed = list(in_an_example(RULES[name]))
    assert printed
    assert [one for one in printed if reads_badly(one)] == []


@pytest.mark.parametrize(
    "text", ["cover not stated, at least 18 in", "main held down to be seen", "grounded yes", "dead end: no", "A sentence."]
)
def test_what_reads_badly_is_found(text: str) -> None:
    assert reads_badly(Printed("", text, ""))
