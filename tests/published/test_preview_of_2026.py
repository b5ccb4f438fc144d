"""The preview of the 2026 edition: which of its changes it holds, that nothing else differs, and that every output says so.

Sources: electricallicenserenewal.com, summaries of the changes of 2026: sections 1878 (230.85 deleted; the service
disconnect of a one- or two-family dwelling outdoors, readily accessible, on it or within its sight, by 230.70(A)(1)), 1868
(exception to 225.41), 1852 (210.8(F) up to 60 A), 1841 (Article 220 is Article 120). dailyreporter.com, 22 June 2026, on
120.61. That a disconnect ahead of an indoor service disconnect is not enough any more is read out of the first of them and
marked "ask" in the rule's remedy.
"""

import json
import re
from pathlib import Path

import pytest

from planlint.book import resolve
from planlint.cli import main
from planlint.desk import Desk
from planlint.localities import differences, shifts

PREVIEW = "model-2026-preview"
COTTAGE = Path(__file__).parents[2] / "fixtures" / "cottage.plan"
CHANGED = {
    "service-disconnect-not-outdoors": "230.70(A)(1)",
    "outdoor-emergency-disconnect-missing": "",
    "service-wires-long-inside": "230.70(A)(1)",
    "service-wires-inside-ask": "230.70(A)(1)",
    "emergency-disconnect-missing-at-feeder-fed-house": "225.41",
    "emergency-disconnect-label-missing": "230.70",
    "gfci-outdoor-equipment": "210.8(F)",
    "load-calculation-missing-or-area-wrong": "Article 120",
    "load-exceeds-service": "Article 120",
    "load-form-exceeds-service": "Article 120",
    "heating-and-cooling-counted-wrong": "Article 120",
    "car-charger-load-omitted": "Article 120",
    "cooking-or-dryer-load-wrong": "120.54, 120.55",
    "large-appliance-circuit-wrong": "120.55",
    "neutral-load-wrong": "120.61",
}


def found(profile: str, plan: str) -> set[tuple[str, str]]:
    report = Desk([profile]).check_text(plan)
    assert not report.not_checked
    return {(finding.rule, finding.subject.name) for finding in report.findings}


def test_it_differs_from_2023_in_these_and_nothing_else() -> None:
    model, preview = resolve(("model-2023",)), resolve((PREVIEW,))
    different = {(one.sort, one.name) for one in differences(model, preview)}
    assert different == {("rule", name) for name in CHANGED} | {("setting", "gfci-needed-outdoors.most-breaker")}
    for name, clause in CHANGED.items():
        if clause:
            assert clause in "; ".join(preview.rules[name].clause_lines[:2])


def test_whatever_cites_article_220_says_its_new_number() -> None:
    for name, rule in resolve((PREVIEW,)).rules.items():
        if re.search(r"\b220\.", rule.record.clause.get(2023, "")):
            assert "120" in CHANGED[name], name


def test_a_clause_of_2023_is_never_passed_off_as_one_of_2026() -> None:
    for name, rule in resolve((PREVIEW,)).rules.items():
        for line in rule.clause_lines:
            if "2026" in line:
                assert name in CHANGED
                assert line.startswith("2026")
            else:
                assert line.startswith("2023: "), (name, line)
    shallow = (
        "trench ditch\n  under yard; cover 14 in\nraceway pipe\n  type PVC-40; trench ditch; holds 3 x 1 AWG aluminum XHHW-2\n"
    )
    report = Desk([PREVIEW]).check_text(f'plan "Trench"\n  profile {PREVIEW}\n{shallow}')
    finding = next(finding for finding in report.findings if finding.rule == "trench-too-shallow")
    assert [line for line in finding.clause if not line.startswith("2023: ")] == []


HOUSE = """plan "House"
  edition 2023; complete service, feeders
building house
  use one-family; construction new
place hall
  building house
place wall
  outdoors yes; use yard
supply utility
  type utility; volts 120/240 V
"""
OUTDOORS = ("outdoor-emergency-disconnect-missing", "house")
ITSELF = ("service-disconnect-not-outdoors", "house")
MAIN_INDOORS = "panel house-panel\n  at hall; main 200 A\n"
MAINS = {
    "indoors, nothing outdoors but the meter": (
        MAIN_INDOORS + "service drop\n  from utility; to house-panel; owner customer\n",
        {OUTDOORS},
        {ITSELF},
    ),
    "indoors, behind a disconnect outdoors": (
        MAIN_INDOORS
        + "disconnect switch\n  at wall; mounted-on house; switch-rating 200 A; service-rated yes; readily-accessible yes\n"
        "  marking emergency-disconnect, not-service-equipment; label white-on-red\n"
        "service drop\n  from utility; to switch; owner customer\n"
        "service entrance\n  from switch; to house-panel; owner customer\n",
        set(),
        {ITSELF},
    ),
    "outdoors": (
        "disconnect switch\n  at wall; mounted-on house; breaker 200 A; service-rated yes; readily-accessible yes\n"
        "service drop\n  from utility; to switch; owner customer\n",
        set(),
        set(),
    ),
    "outdoors on a post out of sight": (
        "disconnect switch\n  at wall; mounted-on none; within-sight-of none; breaker 200 A; service-rated yes\n"
        "  readily-accessible yes\nservice drop\n  from utility; to switch; owner customer\n"
        "panel house-panel\n  at hall; main lugs\nfeeder in\n  from switch; to house-panel\n",
        {OUTDOORS},
        {ITSELF},
    ),
    "outdoors out of reach": (
        "disconnect switch\n  at wall; mounted-on house; breaker 200 A; service-rated yes; readily-accessible no\n"
        "service drop\n  from utility; to switch; owner customer\n",
        {OUTDOORS},
        {ITSELF},
    ),
}


@pytest.mark.parametrize("name", MAINS)
def test_where_the_service_disconnect_of_a_new_house_stands(name: str) -> None:
    """What 2023 and 2026 say of it. Section 1878."""
    gear, by_2023, by_2026 = MAINS[name]
    spoken = {OUTDOORS, ITSELF}
    assert found("model-2023", HOUSE + gear) & spoken == by_2023
    assert found(PREVIEW, HOUSE + gear) & spoken == by_2026


@pytest.mark.parametrize(("seen", "answer"), [("house", "met"), ("none", "broken")])
def test_a_service_disconnect_on_a_post_must_be_seen_from_the_house(seen: str, answer: str) -> None:
    """Section 1878: on the dwelling itself or within sight of it."""
    plan = HOUSE.replace("edition 2023", f"profile {PREVIEW}").replace("feeders", "feeders, circuits") + (
        f"disconnect post\n  at wall; mounted-on none; within-sight-of {seen}; breaker 200 A; readily-accessible yes\n"
        "service drop\n  from utility; to post; owner customer\n"
        "panel house-panel\n  at hall; main lugs\nfeeder in\n  from post; to house-panel\n"
    )
    report = Desk().check_text(plan)
    answers = [("broken", finding.rule) for finding in report.findings] + [("met", rule) for rule, _ in report.met]
    assert [found for found, rule in answers if rule == ITSELF[0]] == [answer]


@pytest.mark.parametrize(("breaker", "by_2023", "by_2026"), [(50, True, True), (60, False, True), (70, False, False)])
def test_equipment_outdoors_up_to_sixty_amperes(breaker: int, by_2023: bool, by_2026: bool) -> None:
    """Section 1852: from 50 A to 60 A."""
    circuit = f"circuit pump-circuit\n  breaker {breaker} A; poles 2; protection none\n"
    pump = "load pump\n  at wall; type well-pump; circuit pump-circuit; volts 240 V; connection hard-wired; gfci no\n"
    for profile, is_found in (("model-2023", by_2023), (PREVIEW, by_2026)):
        assert (("gfci-outdoor-equipment", "pump") in found(profile, HOUSE + circuit + pump)) == is_found


def test_a_disconnect_upstream_within_sight_does_for_a_house_fed_by_a_feeder() -> None:
    """Section 1868, the exception; 2023 is read the same way here."""
    plan = HOUSE + (
        "building guest-house\n  use one-family; construction new\nplace guest-hall\n  building guest-house\n"
        "disconnect switch\n  at wall; mounted-on house; within-sight-of {seen}; breaker 200 A; service-rated yes\n"
        "  readily-accessible yes\nservice drop\n  from utility; to switch; owner customer\n"
        "panel house-panel\n  at hall; main lugs\nfeeder in\n  from switch; to house-panel\n"
        "panel guest-panel\n  at guest-hall; main 60 A\nfeeder out\n  from switch; to guest-panel\n"
    )
    rule = ("emergency-disconnect-missing-at-feeder-fed-house", "guest-house")
    for profile in ("model-2023", PREVIEW):
        assert rule not in found(profile, plan.format(seen="guest-house"))
        assert rule in found(profile, plan.format(seen="none"))


def test_the_cottage_is_as_clean_under_it_as_under_2023() -> None:
    assert list(shifts([COTTAGE], Desk(["model-2023"]), Desk([PREVIEW]))) == []


SAID = "not confirmed for 2026"
COMMANDS = {
    "report": ("check", str(COTTAGE), "--profile", PREVIEW),
    "worksheet": ("worksheet", str(COTTAGE), "--profile", PREVIEW, "--topic", "load"),
    "worksheet as a page": ("worksheet", str(COTTAGE), "--profile", PREVIEW, "--topic", "load", "--output", "markdown"),
    "checklist": ("checklist", str(COTTAGE), "--profile", PREVIEW),
    "rules": ("rules", "--profile", PREVIEW),
    "one rule": ("rules", "trench-too-shallow", "--profile", PREVIEW),
    "profiles": ("profiles", "list"),
    "profile": ("profiles", "show", PREVIEW),
    "two profiles": ("profiles", "compare", "model-2020", PREVIEW),
}


@pytest.mark.parametrize("name", COMMANDS)
def test_every_output_says_that_it_is_a_preview(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(COMMANDS[name]) == 0
    said = " ".join(capsys.readouterr().out.replace("\\", "").split())
    assert SAID in said
    for clause in ("230.70(A)(1)", "225.41", "210.8(F)", "Article 120"):
        assert clause in said


@pytest.mark.parametrize(("command", "what"), [("check", "reports"), ("worksheet", "worksheets")])
def test_programs_are_told_too(command: str, what: str, capsys: pytest.CaptureFixture[str]) -> None:
    main((command, str(COTTAGE), "--profile", PREVIEW, "--output", "json"))
    profile = json.loads(capsys.readouterr().out)[what][0]["profile"]
    assert SAID in profile["preview"]
    assert profile["edition"] == 2023
    main((command, str(COTTAGE), "--output", "json"))
    assert json.loads(capsys.readouterr().out)[what][0]["profile"]["preview"] == ""


def test_a_locality_on_top_of_it_says_so_too(tmp_path: Path) -> None:
    (tmp_path / "fen-county.yaml").write_text(f"profile: fen-county\ntitle: Fen County\nbased-on: {PREVIEW}\n")
    assert SAID in Desk(["fen-county"], [tmp_path]).check_file(COTTAGE).profile.preview


@pytest.mark.parametrize("line", ["edition 2026", "profile model-2026"])
def test_a_plan_that_asks_for_the_edition_is_told_of_the_preview(
    line: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    plan = tmp_path / "house.plan"
    plan.write_text(f'plan "House"\n  {line}\n')
    assert main(("check", str(plan))) == 2
    assert PREVIEW in " ".join(capsys.readouterr().out.split()).partition("There are")[0]
