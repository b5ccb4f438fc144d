"""From a rule's verdict to the report: what a finding says beside its message, and when a rule applies."""

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from planlint.desk import Desk
from planlint.output.check.page import report_page
from planlint.output.check.record import document_json, report_record
from planlint.report import Report

ROOT = Path(__file__).parents[1]
PLAN = """plan "Plover Lane"
  profile {profile}
bond gas-bond
  type gas-pipe; size {size}
"""
OWN_RULE = """rule: bond-of-own
about: bond
when: size >= 6 AWG copper
must: type is water-pipe
at: size
severity: correction
hazard: shock
inspection: final
clause: {2020: 250.104(B)}
finding: "{name} is {type}."
remedy: "Ask."
why: Made up for this test.
examples:
  met: |
    bond b
      type water-pipe; size 6 AWG copper
  broken: |
    bond b
      type gas-pipe; size 6 AWG copper
"""


def checked(folder: Path, size: str = "6 AWG copper", profile: str = "county") -> Report:
    """A plan held against a profile beside it that adds one rule, and has had another name."""
    profiles = folder / "profiles"
    profiles.mkdir()
    (profiles / "county.yaml").write_text(
        "profile: county\ntitle: County\nbased-on: model-2020\nrenamed: [shire]\nadds: [bond-of-own.yaml]\n"
    )
    (profiles / "bond-of-own.yaml").write_text(OWN_RULE)
    plan = folder / "plover.plan"
    plan.write_text(PLAN.format(size=size, profile=profile))
    return Desk().check_file(plan)


def rules_of(results: list[object]) -> list[str]:
    return [result.rule for result in results if result.rule == "bond-of-own"]


@pytest.mark.parametrize(("size", "broken"), [("4 AWG copper", 1), ("8 AWG copper", 0)])
def test_a_rule_applies_where_its_when_holds(tmp_path: Path, size: str, broken: int) -> None:
    report = checked(tmp_path, size)
    assert len(rules_of(report.findings)) == broken
    assert rules_of(report.open_checks) == []
    assert [rule for rule, _ in report.met if rule == "bond-of-own"] == []


def test_two_metals_in_when_leave_open_whether_the_rule_applies(tmp_path: Path) -> None:
    """No clause lets a size of aluminum be held against one of copper: neither "applies" nor "doesn't" may be said silently."""
    report = checked(tmp_path, "4 AWG aluminum")
    (waiting,) = [check for check in report.open_checks if check.rule == "bond-of-own"]
    assert rules_of(report.findings) == []
    assert [need.note for need in waiting.needs] == [
        "4 AWG aluminum and 6 AWG copper are of two metals, so their sizes can't be held against each other."
    ]
    assert "metals," in report_page(report, 100).plain()


def test_a_finding_at_another_element_names_it_as_related() -> None:
    text = (
        'plan "Plover Lane"\n  edition 2020\ntrench t\n  under yard; cover 17 in\n'
        "raceway r\n  type PVC-40; trench t; holds 3 x 6 AWG copper THWN-2\n"
    )
    (finding,) = Desk().check_text(text).findings
    assert finding.subject.name == "r"
    assert [(one.subject.name, one.position.line, one.text) for one in finding.related] == [("t", 4, "cover of t")]


def test_a_finding_names_every_other_element_that_its_working_speaks_of() -> None:
    report = Desk().check_file(ROOT / "fixtures" / "cottage-faults.plan")
    seen = 0
    for finding in report.findings:
        named = [one.subject for one in finding.related]
        assert len(set(named)) == len(named)
        assert finding.subject not in named
        elsewhere = {step.subject for step in finding.working} - {finding.subject}
        assert elsewhere <= set(named)
        seen += len(elsewhere)
    assert seen


def test_a_former_name_works_and_is_told(tmp_path: Path) -> None:
    report = checked(tmp_path, profile="shire")
    (note,) = report.profile.notes
    assert "line 2: the profile 'shire' is called 'county' now." in " ".join(report_page(report, 100).plain().split())
    document = json.loads(document_json("reports", [report_record(report)], []))
    said = document["reports"][0]["profile"]["notes"]
    assert [(one["message"], one["position"]["line"]) for one in said] == [(note.message, 2)]
    schema = json.loads((ROOT / "schema" / "report.schema.json").read_text())
    assert list(Draft202012Validator(schema).iter_errors(document)) == []
