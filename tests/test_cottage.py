"""The main job on real input: the Plover Lane cottage, clean under its county, and with its faults on their lines."""

import re
from pathlib import Path

import pytest

from planlint.book import resolve
from planlint.desk import Desk

FIXTURES = Path(__file__).parents[1] / "fixtures"


def announced(path: Path) -> set[tuple[int, str]]:
    lines = enumerate(path.read_text(encoding="utf-8").splitlines(), start=1)
    return {(number, found[1]) for number, line in lines if (found := re.search(r"# expect: ([a-z0-9-]+)", line))}


def test_the_cottage_is_clean_and_settled_under_its_county() -> None:
    report = Desk().check_file(FIXTURES / "cottage.plan")
    assert report.findings == report.open_checks == report.not_checked == report.unmentioned == []
    assert report.is_clean("advice", settled=True)


@pytest.mark.parametrize("profile", ["plover-township", "model-2017", "model-2020"])
def test_it_is_clean_and_settled_elsewhere_too(profile: str) -> None:
    report = Desk([profile]).check_file(FIXTURES / "cottage.plan")
    assert report.findings == report.open_checks == report.not_checked == []


def test_the_edition_of_2023_asks_for_what_came_with_it() -> None:
    """White on red (230.85(E)), a surge device's rating and place (230.67), and a GFCI for ranges: the plan of 2020 is silent.

    A range wants one for its outlet (210.8(D)), which is its receptacle, as all of a kitchen do (210.8(A)(6)).
    """
    report = Desk(["model-2023"]).check_file(FIXTURES / "cottage.plan")
    assert report.findings == report.not_checked == []
    asked = {(need.subject.name, need.attribute) for check in report.open_checks for need in check.needs}
    assert asked == {
        ("house-disconnect", "label"),
        ("house-disconnect", "surge-protection"),
        ("house-panel", "surge-rating"),
        ("range-receptacle", "gfci"),
    }


def test_the_planted_faults_are_found_on_their_lines_and_nothing_else() -> None:
    path = FIXTURES / "cottage-faults.plan"
    rules = resolve(("tern-county",)).rules
    report = Desk().check_file(path)
    expected = announced(path)
    assert len(expected) == 15
    assert {rule for _, rule in expected} <= set(rules)
    assert {(finding.position.line, finding.rule) for finding in report.findings} == expected
    assert report.open_checks == report.not_checked == []
