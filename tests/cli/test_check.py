"""`planlint check` as its user meets it: exit statuses, options, the same bytes for the same input."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from planlint.cli import main

ROOT = Path(__file__).parents[2]
SHALLOW = """plan "Plover Lane"
  edition 2020{more}
trench t
  under yard; cover 17 in
raceway r
  type PVC-40; trench t; holds 3 x 6 AWG copper THWN-2
"""
PERMISSION = """permission shallow
  rule trench-too-shallow; for r; granted-by "Building department"; reference "letter 14-203"
  date 2026-04-02; until {until}
"""


def run(capsys: pytest.CaptureFixture[str], *arguments: object) -> tuple[int, str]:
    status = main([str(argument) for argument in arguments])
    return status, capsys.readouterr().out


@pytest.fixture
def shallow(tmp_path: Path) -> Path:
    path = tmp_path / "shallow.plan"
    path.write_text(SHALLOW.format(more=""))
    return path


def test_a_correction_is_shown_with_its_place_limit_clause_and_office(shallow: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, said = run(capsys, "check", shallow)
    text = " ".join(said.split())
    assert status == 1
    for words in ("17 in", "18 in", "line 4", "Table 300.5", "Confirm with:", "BEFORE THE TRENCH IS FILLED", "no approval"):
        assert words in text


def test_only_and_before_narrow_what_is_printed(shallow: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, said = run(capsys, "check", shallow, "--before", "footing")
    assert status == 0
    assert "trench-too-shallow" not in said
    status, said = run(capsys, "check", shallow, "--only", "raceway-overfilled")
    assert status == 1
    assert "trench-too-shallow" not in said


def test_only_prints_the_rules_that_are_named(capsys: pytest.CaptureFixture[str]) -> None:
    faulty = ROOT / "fixtures" / "cottage-faults.plan"
    everything = json.loads(run(capsys, "check", faulty, "--output", "json")[1])["reports"][0]["findings"]
    names = sorted({finding["rule"] for finding in everything})[:2]
    asked = [word for name in names for word in ("--only", name)]
    status, said = run(capsys, "check", faulty, "--output", "json", *asked)
    assert status == 1
    assert json.loads(said)["reports"][0]["findings"] == [finding for finding in everything if finding["rule"] in names]


def test_only_a_rule_that_there_is_not_is_told(shallow: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, said = run(capsys, "check", shallow, "--only", "trench-too-shalow")
    assert status == 2
    assert "'trench-too-shalow' is no rule. Did you mean 'trench-too-shallow'?" in " ".join(said.split())


@pytest.mark.parametrize("before", ["footing", "underground", "service", "rough-in", "final"])
def test_before_prints_what_is_due_by_then(before: str, capsys: pytest.CaptureFixture[str]) -> None:
    faulty = ROOT / "fixtures" / "cottage-faults.plan"
    everything = json.loads(run(capsys, "check", faulty, "--output", "json")[1])["reports"][0]
    due = ["footing", "underground", "service", "rough-in", "final"]
    due = due[: due.index(before) + 1]
    status, said = run(capsys, "check", faulty, "--output", "json", "--before", before)
    report = json.loads(said)["reports"][0]
    for part in ("findings", "open_questions", "checklist"):
        assert report[part] == [one for one in everything[part] if one["inspection"] in due]
    assert status == any(finding["severity"] == "correction" for finding in report["findings"])


def test_settled_fails_while_a_correction_is_undecided(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "open.plan"
    path.write_text('plan "Plover Lane"\n  edition 2020\ntrench t\n  under yard\nraceway r\n  type PVC-40; trench t\n')
    assert run(capsys, "check", path)[0] == 0
    assert run(capsys, "check", path, "--settled")[0] == 1


def test_stop_at_counts_cautions_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "jam.plan"
    path.write_text(
        'plan "Plover Lane"\n  edition 2020\n  complete raceways\n'
        "raceway r\n  type PVC-40; size 1-1/2 in; route inside; bends none; continues none; holds 3 x 2/0 aluminum XHHW-2\n"
    )
    assert run(capsys, "check", path)[0] == 0
    assert run(capsys, "check", path, "--stop-at", "caution")[0] == 1


def test_working_shows_how_the_limit_was_found(shallow: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, said = run(capsys, "check", shallow, "--working")
    assert "Working:" in said
    assert "cover-needed of r" in said


def test_a_permission_moves_the_finding_to_the_granted_list(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "granted.plan"
    path.write_text(SHALLOW.format(more="; date 2026-11-25") + PERMISSION.format(until="2027-04-02"))
    status, said = run(capsys, "check", path)
    assert status == 0
    assert "GRANTED IN WRITING" in said
    assert "letter 14-203" in said


def test_a_permission_that_ran_out_leaves_the_finding_and_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "late.plan"
    path.write_text(SHALLOW.format(more="; date 2027-04-03") + PERMISSION.format(until="2027-04-02"))
    status, said = run(capsys, "check", path)
    assert status == 1
    assert "permission-expired" in said
    assert "trench-too-shallow" in said


def test_a_permission_without_the_plans_date_is_an_open_question(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "undated.plan"
    path.write_text(SHALLOW.format(more="") + PERMISSION.format(until="2027-04-02"))
    status, said = run(capsys, "check", path)
    assert status == 0
    assert "OPEN QUESTIONS" in said
    assert "date" in said


def test_a_permission_that_matches_nothing_is_a_caution(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "idle.plan"
    path.write_text(SHALLOW.format(more="; date 2026-11-25").replace("17 in", "18 in") + PERMISSION.format(until="2027-04-02"))
    status, said = run(capsys, "check", path)
    assert status == 0
    assert "permission-without-finding" in said


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        ("rule trench-too-shallow", "rule trench-too-shalow", "'trench-too-shallow'"),
        ("reference", "", "reference"),
        ("for r;", "", "for"),
    ],
)
def test_a_permission_must_name_its_rule_its_element_and_its_proof(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], before: str, after: str, words: str
) -> None:
    text = SHALLOW.format(more="; date 2026-11-25") + PERMISSION.format(until="2027-04-02")
    text = (
        text.replace(' reference "letter 14-203"', "").replace('Building department";', 'Building department"')
        if before == "reference"
        else text.replace(before, after)
    )
    path = tmp_path / "wrong.plan"
    path.write_text(text)
    status, said = run(capsys, "check", path)
    assert status == 2
    assert words in said


def test_an_inspection_that_passed_says_already_covered(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "passed.plan"
    path.write_text(SHALLOW.format(more="; passed underground"))
    status, said = run(capsys, "check", path)
    assert status == 1
    assert "ALREADY COVERED: ask before you open anything" in said
    assert "underground already passed" in said


def test_json_is_valid_against_its_schema(capsys: pytest.CaptureFixture[str]) -> None:
    from jsonschema import Draft202012Validator

    schema = json.loads((ROOT / "schema" / "report.schema.json").read_text())
    Draft202012Validator.check_schema(schema)
    for name in ("cottage.plan", "cottage-faults.plan", "nowhere.plan"):
        _, said = run(capsys, "check", ROOT / "fixtures" / name, "--output", "json")
        assert list(Draft202012Validator(schema).iter_errors(json.loads(said))) == []


def test_json_goes_to_a_file_too(tmp_path: Path, shallow: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, said = run(capsys, "check", shallow, "--output", "json", "--to", tmp_path / "report.json")
    assert (status, said) == (1, "")
    document = json.loads((tmp_path / "report.json").read_text())
    finding = document["reports"][0]["findings"][0]
    assert finding["rule"] == "trench-too-shallow"
    assert finding["position"]["line"] == 4


@pytest.mark.parametrize("output", ["text", "json"])
def test_the_same_bytes_for_the_same_input(output: str) -> None:
    """In two processes whose hashes are seeded apart."""
    said = {
        subprocess.run(
            [sys.executable, "-m", "planlint", "check", "fixtures/cottage-faults.plan", "--output", output],
            cwd=ROOT,
            capture_output=True,
            env={"PYTHONHASHSEED": seed, "PATH": "/usr/bin:/bin"},
        ).stdout
        for seed in ("1", "2")
    }
    assert len(said) == 1


def test_the_order_of_statements_does_not_change_the_findings(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    blocks = (ROOT / "fixtures" / "cottage-faults.plan").read_text().split("\n\n")
    head, rest = blocks[0], blocks[1:]
    found = []
    for order in (rest, rest[::-1]):
        path = tmp_path / "ordered.plan"
        path.write_text("\n\n".join([head, *order]) + "\n")
        document = json.loads(run(capsys, "check", path, "--output", "json")[1])
        found.append(sorted((f["rule"], f["subject"]["name"], f["message"]) for f in document["reports"][0]["findings"]))
    assert found[0] == found[1]


def test_python_gets_the_same_report(shallow: Path) -> None:
    import planlint

    assert [finding.rule for finding in planlint.check(shallow).findings] == ["trench-too-shallow"]
    assert [finding.rule for finding in planlint.check(shallow.read_text(), profile="model-2017").findings] == [
        "trench-too-shallow"
    ]
    with pytest.raises(planlint.Faults):
        planlint.check("plan nothing\n")


def test_the_profile_that_is_asked_for_wins_and_the_head_says_so(shallow: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, said = run(capsys, "check", shallow, "--profile", "tern-county")
    assert status == 1
    assert "Tern County" in said
    assert "as asked" in said
    assert "20 in" in said
