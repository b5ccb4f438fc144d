"""`fixtures/rules/*.plan`: a comment on a line says what must be found there; whatever else fires fails, and so does silence."""

import re
from pathlib import Path

import pytest

from planlint.book import resolve
from planlint.desk import Desk

ROOT = Path(__file__).parent.parent
FIXTURES = sorted((ROOT / "fixtures" / "rules").glob("*.plan"))


def announced(path: Path) -> set[tuple[int, str]]:
    found = set()
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1):
        expected = re.search(r"# expect: ([a-z0-9, -]+)", line)
        if expected:
            found |= {(number, name.strip()) for name in expected[1].split(",")}
    return found


@pytest.mark.parametrize("path", FIXTURES, ids=lambda path: path.stem)
def test_what_is_announced_is_found_and_nothing_else(path: Path) -> None:
    report = Desk().check_file(path)
    assert not report.not_checked
    assert {(finding.position.line, finding.rule) for finding in report.findings} == announced(path)


@pytest.mark.parametrize("path", FIXTURES, ids=lambda path: path.stem)
def test_a_fixture_proves_its_rule_from_both_sides(path: Path) -> None:
    report = Desk().check_file(path)
    assert path.stem in {finding.rule for finding in report.findings}
    assert path.stem in {rule for rule, _ in report.met}


def test_every_rule_has_its_fixture() -> None:
    rules = set(resolve(("model-2023",)).known_rules)
    assert rules - {path.stem for path in FIXTURES} == set()
