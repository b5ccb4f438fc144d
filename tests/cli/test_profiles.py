"""`planlint profiles` as the keeper of a local rule book meets it: list, show, compare, test, new."""

import datetime
from pathlib import Path

import pytest

from planlint.cli import main
from planlint.desk import Desk
from planlint.localities import try_out

ROOT = Path(__file__).parents[2]
YARD = """plan "Yard"
  profile marsh-county
trench t
  under yard; cover 20 in
raceway r
  type PVC-40; trench t; holds 3 x 6 AWG copper THWN-2
"""
MARSH = """profile: marsh-county
title: Marsh County
based-on: model-2020
confirm-with: Building office
checked: 2026-03-01
settings:
  trench-too-shallow.extra-cover: {value: 4 in, because: "Ordinance, section 5"}
adds:
  - rules/trench-photographed.yaml
cases:
  - {plan: cases/yard.plan, expect: [trench-too-shallow]}
"""
PHOTOGRAPHED = """rule: trench-photographed
about: trench
must: cover >= 12 in
at: cover
severity: caution
hazard: cost-of-rework
inspection: underground
clause: {2020: "Ordinance, section 6"}
finding: "{name} has {cover} of cover."
remedy: Take a picture of it with a rule laid beside it before it is filled.
why: What is buried can't be seen.
"""


@pytest.fixture
def marsh(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    for place in ("rules", "cases"):
        (tmp_path / "profiles" / place).mkdir(parents=True)
    profile = tmp_path / "profiles" / "marsh-county.yaml"
    profile.write_text(MARSH)
    (tmp_path / "profiles" / "rules" / "trench-photographed.yaml").write_text(PHOTOGRAPHED)
    (tmp_path / "profiles" / "cases" / "yard.plan").write_text(YARD)
    return profile


def run(capsys: pytest.CaptureFixture[str], *arguments: object) -> tuple[int, str]:
    status = main(["profiles", *map(str, arguments)])
    return status, " ".join(capsys.readouterr().out.split())


def change(profile: Path, old: str, new: str) -> None:
    text = profile.read_text()
    assert old in text
    profile.write_text(text.replace(old, new))


def test_the_list_says_where_each_is_found_and_when_it_was_checked(marsh: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, said = run(capsys, "list")
    assert status == 0
    assert "marsh-county based on model-2020 Marsh County profiles/marsh-county.yaml: last checked 2026-03-01" in said
    assert "model-2017 edition 2017" in said


def test_the_list_tells_of_a_profile_that_cannot_be_read(marsh: Path, capsys: pytest.CaptureFixture[str]) -> None:
    change(marsh, "title:", "titel:")
    status, said = run(capsys, "list")
    assert status == 2
    assert "marsh-county.yaml, line 2" in said
    assert "'title'" in said


def test_show_has_each_value_with_the_file_and_line_it_came_from(marsh: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, said = run(capsys, "show", "marsh-county")
    assert status == 0
    assert "trench-too-shallow.extra-cover: 4 in 0 in model-2020, " in said
    assert "4 in marsh-county, profiles/marsh-county.yaml line 7 (Ordinance, section 5)" in said
    assert "trench-photographed · caution, underground · Ordinance, section 6" in said


def test_compare_tells_rules_settings_and_findings_apart(marsh: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, said = run(capsys, "compare", "model-2020", "marsh-county", "--with-plan", "profiles/cases/yard.plan")
    assert status == 0
    assert "trench-photographed model-2020: none marsh-county: caution, underground" in said
    assert "trench-too-shallow.extra-cover model-2020: 0 in marsh-county: 4 in" in said
    assert "Yard: trench-too-shallow on r model-2020: nothing marsh-county: correction, underground" in said


def test_compare_of_one_with_itself(marsh: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(capsys, "compare", "marsh-county", "marsh-county") == (0, "marsh-county and marsh-county They say the same.")


def test_a_sound_profile_passes_its_test(marsh: Path, capsys: pytest.CaptureFixture[str]) -> None:
    trial = try_out("marsh-county", (Path("profiles"),), datetime.date(2026, 6, 1))
    assert (trial.cases, trial.wrong, trial.warnings, trial.touched_unreached) == (1, [], [], [])
    assert [(shift.rule, shift.one, shift.other) for shift in trial.own] == [
        ("trench-too-shallow", "", "correction, underground")
    ]
    assert run(capsys, "test")[0] == 0


@pytest.mark.parametrize(
    ("old", "new", "status", "words"),
    [
        ("extra-cover:", "extra-covr:", 2, "Did you mean 'trench-too-shallow.extra-cover'?"),
        ("expect: [trench-too-shallow]", "expect: [trench-to-shallow]", 2, "trench-too-shallow"),
        ("expect: [trench-too-shallow]", "expect: []", 1, "has a finding that isn't expected, trench-too-shallow"),
        (
            "expect: [trench-too-shallow]",
            "expect: [trench-too-shallow, raceway-overfilled]",
            1,
            "doesn't break raceway-overfilled",
        ),
        ("cases/yard.plan", "cases/yeard.plan", 1, "Did you mean 'cases/yard.plan'?"),
        ("value: 4 in", "value: 0 in", 1, "is 0 in already in model-2020"),
    ],
)
def test_what_is_wrong_is_told(
    marsh: Path, capsys: pytest.CaptureFixture[str], old: str, new: str, status: int, words: str
) -> None:
    change(marsh, old, new)
    found, said = run(capsys, "test", "marsh-county")
    assert words in said
    assert found == status


def test_a_spelling_error_in_an_added_rule_reads_like_a_plans_error(marsh: Path, capsys: pytest.CaptureFixture[str]) -> None:
    change(marsh.parent / "rules" / "trench-photographed.yaml", "must: cover", "must: covr")
    status, said = run(capsys, "test", "marsh-county")
    assert status == 2
    assert "profiles/rules/trench-photographed.yaml, line 3, column 7: 'covr' is no attribute" in said
    assert "Did you mean 'cover'?" in said


def test_a_figure_of_a_rule_that_is_left_out_is_dead(marsh: Path) -> None:
    text = marsh.read_text() + 'leaves-out:\n  trench-too-shallow: "Not adopted, section 9"\n'
    marsh.write_text(text.replace("expect: [trench-too-shallow]", "expect: []"))
    trial = try_out("marsh-county", (Path("profiles"),), datetime.date(2026, 6, 1))
    assert [wrong.message for wrong in trial.wrong] == [
        "'trench-too-shallow' is left out by this profile itself: nobody reads its settings"
    ]


@pytest.mark.parametrize(
    ("day", "stale"), [("2028-02-28", False), ("2028-03-01", False), ("2028-03-02", True), ("2030-01-01", True)]
)
def test_a_profile_that_nobody_checked_for_two_years_is_stale(marsh: Path, day: str, stale: bool) -> None:
    trial = try_out("marsh-county", (Path("profiles"),), datetime.date.fromisoformat(day))
    assert any("last checked" in warning.message for warning in trial.warnings) is stale


def test_showing_says_where_everything_came_from_and_who_answers_for_it(marsh: Path, capsys: pytest.CaptureFixture[str]) -> None:
    more = 'adopted-by: Ordinance 3\nkept-by: them\nleaves-out:\n  surge-device-missing: "Not adopted"\n'
    marsh.write_text(marsh.read_text() + more + "tables:\n  burial-cover:\n    - {location: yard, nonmetallic: 20}\n")
    said = run(capsys, "show", "marsh-county")[1]
    assert "marsh-county: last checked 2026-03-01; adopted by Ordinance 3; kept by them" in said
    assert "surge-device-missing: left out marsh-county, profiles/marsh-county.yaml line 15 (Not adopted)" in said
    assert "burial-cover: location yard, nonmetallic 20 marsh-county, profiles/marsh-county.yaml line 18" in said


def test_a_plan_from_before_the_profile_was_in_force_is_told_so(marsh: Path) -> None:
    marsh.write_text(marsh.read_text() + "in-force-from: 2026-01-01\n")
    plan = marsh.parent / "cases" / "yard.plan"
    for day, told in (("2025-12-31", True), ("2026-01-01", False)):
        text = plan.read_text().replace("profile marsh-county\n", f"profile marsh-county; date {day}\n")
        notes = [note.message for note in Desk((), [marsh.parent]).check_text(text).profile.notes]
        assert any("is in force from 2026-01-01 on only" in note for note in notes) is told


def test_former_names_of_rules_work_in_settings_and_in_what_a_case_expects(marsh: Path) -> None:
    rule = marsh.parent / "rules" / "trench-photographed.yaml"
    change(rule, "about: trench\nmust: cover >= 12 in", "renamed: [trench-in-picture]\nabout: trench\nmust: cover >= 30 in")
    change(marsh, "settings:", "settings:\n  panel-in-forbidden-place.banned-places: [bathroom]")
    change(marsh, "expect: [trench-too-shallow]", "expect: [trench-too-shallow, trench-in-picture]")
    trial = try_out("marsh-county", (Path("profiles"),), datetime.date(2026, 6, 1))
    assert trial.wrong == []
    assert [warning.message.rpartition(" is called ")[2] for warning in trial.warnings] == [
        "'breakers-in-forbidden-place' now",
        "'trench-photographed' now",
    ]
    assert trial.touched_unreached == ["breakers-in-forbidden-place"]


def test_a_rule_that_no_case_decides_is_named(marsh: Path) -> None:
    change(marsh, "settings:", "settings:\n  service-wires-long-inside.most-inside: 5 ft")
    trial = try_out("marsh-county", (Path("profiles"),), datetime.date(2026, 6, 1))
    assert trial.touched_unreached == ["service-wires-long-inside"]


def test_a_new_profile_is_sound_as_it_stands(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run(capsys, "new", "fen-county", "--based-on", "model-2023")[0] == 0
    text = (tmp_path / "profiles" / "fen-county.yaml").read_text()
    assert text.startswith("# yaml-language-server: $schema=.schema/profile.schema.json\n")
    assert (tmp_path / "profiles" / ".schema" / "profile.schema.json").is_file()
    assert run(capsys, "test", "fen-county")[0] == 0
    status, said = run(capsys, "new", "fen-county", "--based-on", "model-2023")
    assert (status, "is there already" in said) == (2, True)


def test_every_example_that_a_new_profile_shows_is_a_right_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """With the comment signs off, all but the files that aren't there."""
    monkeypatch.chdir(tmp_path)
    run(capsys, "new", "fen-county", "--based-on", "model-2020")
    path = tmp_path / "profiles" / "fen-county.yaml"
    lines = path.read_text().splitlines()
    keys = ("settings", "changes", "takes-up", "leaves-out", "tables", "checked", "kept-by", "in-force-from")
    out: list[str] = []
    inside = False
    for line in lines:
        bare = line.removeprefix("# ")
        begins = line.startswith("# ") and bare.partition(":")[0] in keys and not bare.startswith(" ")
        inside = begins or (inside and line.startswith("#   "))
        out.append(bare if inside else line)
    path.write_text("\n".join(out) + "\n")
    trial = try_out("fen-county", (Path("profiles"),), datetime.date(2026, 6, 1))
    assert trial.wrong == []


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("show", "marsh-conty"), "marsh-county"),
        (("new", "Fen County", "--based-on", "model-2023"), "is no name of a profile"),
        (("new", "fen-county", "--based-on", "model-2032"), "model-2023"),
        (("compare", "model-2020", "model-2032"), "model-2023"),
        (("compare", "model-2020", "model-2023", "--with-plan", "nowhere.plan"), "nowhere.plan"),
    ],
)
def test_what_is_not_there_is_told(
    marsh: Path, capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...], words: str
) -> None:
    status, said = run(capsys, *arguments)
    assert status == 2
    assert words in said


def test_the_cottage_under_two_editions(capsys: pytest.CaptureFixture[str]) -> None:
    cottage = ROOT / "fixtures" / "cottage.plan"
    status, said = run(capsys, "compare", "model-2017", "model-2023", "--with-plan", cottage)
    assert status == 0
    assert "outdoor-emergency-disconnect-missing model-2017: none model-2023: correction, service; 2023: 230.85" in said
    assert "riser-missing model-2017" not in said  # the same clause, severity and inspection
    assert "emergency-disconnect-label-missing on house-disconnect model-2017: nothing model-2023: open question" in said
