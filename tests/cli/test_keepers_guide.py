"""The guide for keepers of a rule book: its files, in a fresh folder, are a sound profile, and each slip in them is told."""

import datetime
import re
from pathlib import Path

import pytest

from planlint.cli import main
from planlint.desk import Desk
from planlint.localities import try_out

GUIDE = Path(__file__).parents[2] / "rules" / "profiles" / "README.md"
TOWN, RULE = "profiles/alder-town.yaml", "profiles/rules/trench-without-sand.yaml"


@pytest.fixture
def town(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the guide's files."""
    monkeypatch.chdir(tmp_path)
    for file, text in re.findall(r"```(?:yaml)?\n# (profiles/\S+)\n(.*?)```", GUIDE.read_text("utf-8"), re.S):
        path = tmp_path / file
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(f"# {file}\n{text}", encoding="utf-8")
    return tmp_path


def test_the_profile_of_the_guide_is_sound(town: Path) -> None:
    trial = try_out("alder-town", (Path("profiles"),), datetime.date(2026, 6, 1))
    assert [fault.message for fault in (*trial.wrong, *trial.warnings)] == []
    assert [(shift.rule, shift.one, shift.other) for shift in trial.own if shift.other != "open question"] == [
        ("trench-too-shallow", "", "correction, footing")
    ]


def test_what_only_eyes_can_tell_is_a_point_of_the_checklist(town: Path) -> None:
    plan = town / "profiles" / "cases" / "yard.plan"
    report = Desk((), [Path("profiles")]).check_file(plan)
    point = next(check for check in report.checklist if check.rule == "trench-without-sand")
    assert (point.inspection, [need.attribute for need in point.needs]) == ("underground", ["bedding"])
    plan.write_text(plan.read_text() + "  bedding screened-soil\n")
    assert "trench-without-sand" in {finding.rule for finding in Desk((), [Path("profiles")]).check_file(plan).findings}


# In which file what is misspelt how; the line it stands in; and what the message proposes.
SLIPS = [
    (TOWN, "title: Alder", "titel: Alder", "'title'"),
    (TOWN, "model-2020", "modle-2020", "'model-2020'"),
    (TOWN, "office:", "ofice:", "'office'"),
    (TOWN, "in-force-from", "in-force-form", "'in-force-from'"),
    (TOWN, "checked: 2026-01-31", "checked: 31.1.2026", "written like 2026-03-14"),
    (TOWN, "trench-too-shallow.extra-cover", "trench-too-shallow.extra-covr", "'trench-too-shallow.extra-cover'"),
    (TOWN, "2 in (50 mm)", "2 in (50 A)", "a length is written like"),
    (TOWN, "2 in (50 mm)", "2 inches", "'inches' is written 'in' here"),
    (TOWN, "clothes-closet, kitchen]", "clothes-closet, kichen]", "'kitchen'"),
    (TOWN, "total-voltage-drop:", "total-voltge-drop:", "'total-voltage-drop'"),
    (TOWN, "severity: correction", "severity: corection", "'correction'"),
    (TOWN, "inspection: footing", "inspection: foting", "'footing'"),
    (TOWN, "service-disconnect-not-outdoors", "service-disconect-not-outdoors", "'service-disconnect-not-outdoors'"),
    (TOWN, "surge-device-missing", "surge-devise-missing", "'surge-device-missing'"),
    (TOWN, "burial-cover:", "burial-covr:", "'burial-cover'"),
    (TOWN, "location: yard", "locaton: yard", "'location'"),
    (TOWN, "location: yard", "location: yrd", "'yard'"),
    (TOWN, "nonmetallic: 24", "nonmetallic: 24 in", "without a unit"),
    (TOWN, "rules/trench-without-sand.yaml", "rules/trench-without-snad.yaml", "'rules/trench-without-sand.yaml'"),
    (TOWN, "cases/yard.plan", "cases/yrad.plan", "'cases/yard.plan'"),
    (TOWN, "expect: [trench-too", "expect: [trench-to", "'trench-too-shallow'"),
    (RULE, "about: trench", "about: trnch", "'trench'"),
    (RULE, "under is yard", "under is yrad", "'yard'"),
    (RULE, "cover <", "covr <", "'cover'"),
    (RULE, "< sand-up-to", "< sand-upto", "'sand-up-to'"),
    (RULE, "bedding is sand", "bedding is snad", "'sand'"),
    (RULE, "hazard: equipment", "hazard: equipmnt", "'equipment'"),
    (RULE, "{cover} deep", "{covr} deep", "'cover'"),
    (RULE, "must:", "mst:", "'must'"),
]


@pytest.mark.parametrize(("file", "right", "wrong", "proposed"), SLIPS, ids=[wrong for _, _, wrong, _ in SLIPS])
def test_a_slip_is_told_at_its_place_with_the_right_word(
    town: Path, capsys: pytest.CaptureFixture[str], file: str, right: str, wrong: str, proposed: str
) -> None:
    path = town / file
    text = path.read_text()
    assert right in text
    path.write_text(text.replace(right, wrong, 1))
    line = text[: text.index(right)].count("\n") + 1
    assert main(("profiles", "test", "alder-town")) in (1, 2)
    said = " ".join(capsys.readouterr().out.split())
    assert f"{file}, line {line}, column " in said
    assert proposed in said
