"""`planlint worksheet`: what a pencil needs to follow each number, and what is said where one can't be worked out."""

import json
import re
from pathlib import Path

import pytest

import planlint
from planlint.cli import main
from planlint.output.worksheet.markdown import worksheet_markdown
from planlint.output.worksheet.page import worksheet_page
from planlint.workings import Entry, Worksheet

ROOT = Path(__file__).parents[2]
COTTAGE = ROOT / "fixtures" / "cottage.plan"
CIRCUIT = """plan "Plover Lane"
  edition 2020
circuit bench
  breaker 20 A; volts 120 V; cable 12/2 copper NM-B; terminals 60 C{more}
"""


def run(capsys: pytest.CaptureFixture[str], *arguments: object) -> tuple[int, str]:
    status = main([str(argument) for argument in arguments])
    return status, capsys.readouterr().out


@pytest.fixture(scope="module")
def cottage() -> Worksheet:
    return planlint.worksheet(COTTAGE)


def entry(sheet: Worksheet, fact: str, name: str) -> Entry:
    found = [one for _, part, one in sheet.entries() if one.fact == fact and part.subject.name == name]
    assert len(found) == 1, [one.fact for _, part, one in sheet.entries() if part.subject.name == name]
    return found[0]


def test_a_number_has_formula_inputs_with_lines_and_table(cottage: Worksheet) -> None:
    """The studio feeder's drop by hand: 2 x 140 ft x 53.0 A x 0.253 ohm per 1000 ft, Chapter 9 Table 8, is 3.75 V of 240 V."""
    drop = entry(cottage, "drop", "studio-feeder")
    assert drop.value == "1.564 %"
    assert [(step.text, step.value) for step in drop.steps][:2] == [
        ("2 x 140 ft x 53 A x 0.253 ohm / 1000 ft", "3.755 V"),
        ("3.755 V / 240 V", "1.564 %"),
    ]
    assert "Chapter 9 Table 8" in drop.steps[0].source
    length = next(one for one in drop.inputs if one.attribute == "length")
    assert (length.value, length.taken) == ("140 ft", False)
    assert COTTAGE.read_text().splitlines()[length.position.line - 1].strip().startswith("length 140 ft")
    assert ("load-current", "53 A") in {(rest.fact, rest.value) for rest in drop.rests_on}


def test_a_default_is_an_input_that_was_not_stated(cottage: Worksheet) -> None:
    sets = next(one for one in entry(cottage, "drop", "studio-feeder").inputs if one.attribute == "sets")
    assert (sets.value, sets.taken) == ("1", True)


def test_a_local_figure_names_its_layer(cottage: Worksheet) -> None:
    """Tern County asks for 2 in more of cover than Table 300.5: 18 + 2 for the studio's pipe."""
    figures = [figure for _, _, one in cottage.entries() for figure in one.figures if "tern-county" in figure.source]
    assert {figure.name for figure in figures} <= planlint_settings("tern-county")


def planlint_settings(profile: str) -> set[str]:
    from planlint.book import resolve

    return {name for name, setting in resolve((profile,)).settings.items() if len(setting.layers) > 1}


def test_every_line_that_an_input_names_says_it(cottage: Worksheet) -> None:
    lines = COTTAGE.read_text().splitlines()
    stated = [one for _, _, found in cottage.entries() for one in found.inputs if not one.taken]
    assert len(stated) > 300
    for one in stated:
        assert re.search(rf"\b{one.attribute}\b", lines[one.position.line - 1]), one


def test_every_value_that_a_number_rests_on_is_the_value_where_it_stands(cottage: Worksheet) -> None:
    values = {(found.fact, part.subject): found.value for _, part, found in cottage.entries()}
    checked = 0
    for _, _, found in cottage.entries():
        for rest in found.rests_on:
            if (rest.fact, rest.subject) in values:
                assert rest.value == values[rest.fact, rest.subject]
                checked += 1
    assert checked > 200


def test_the_sheet_and_the_check_come_to_the_same(cottage: Worksheet) -> None:
    """What a finding's working shows of a fact, the worksheet shows of it."""
    path = ROOT / "fixtures" / "cottage-faults.plan"
    sheet = planlint.worksheet(path)
    shown = {(step.fact, step.subject, step.text, step.value) for _, _, one in sheet.entries() for step in one.steps}
    steps = [step for finding in planlint.check(path).findings for step in finding.working if step.fact != "check"]
    assert steps
    assert [step for step in steps if (step.fact, step.subject, step.text, step.value) not in shown] == []


def test_watching_changes_no_value() -> None:
    """A plan read for its worksheet gives the same facts as one read for a check."""
    from planlint.desk import Desk

    path = ROOT / "fixtures" / "cottage.plan"
    before = Desk().check_file(path).counts()
    planlint.worksheet(path)
    assert Desk().check_file(path).counts() == before


def test_what_is_not_stated_is_named_and_the_rest_is_worked_out() -> None:
    sheet = planlint.worksheet(CIRCUIT.format(more=""))
    assert entry(sheet, "ampacity-at-terminals", "bench").value == "20 A"
    drop = entry(sheet, "drop-at-full-breaker", "bench")
    assert drop.value == ""
    assert [(need.subject.name, need.attribute) for need in drop.missing] == [("bench", "length")]
    waiting = {(subject.name, need.attribute): facts for subject, needs in sheet.waiting().items() for need, facts in needs}
    assert "drop-at-full-breaker of bench" in waiting["bench", "length"]
    said = worksheet_page(sheet, 100).plain()
    assert "NOT STATED YET" in said
    assert re.search(r"Not yet: [^:]*drop-at-full-breaker[^:]*\n +Waits for: length of bench", said)


def test_a_line_left_out_never_changes_a_number_but_takes_it_away() -> None:
    """Of each number of the half-stated plan: the same in the whole one."""
    half = planlint.worksheet(CIRCUIT.format(more=""))
    whole = planlint.worksheet(CIRCUIT.format(more="; length 42 ft"))
    numbers = {(one.fact, part.subject): one.value for _, part, one in whole.entries()}
    kept = [(one.fact, part.subject, one.value) for _, part, one in half.entries() if one.value]
    assert kept
    assert all(numbers[fact, subject] == value for fact, subject, value in kept)
    assert numbers["drop-at-full-breaker", entry_subject(whole, "bench")] == "2.772 %"  # 2 x 42 x 20 x 1.98 / 1000 of 120 V


def entry_subject(sheet: Worksheet, name: str) -> object:
    return next(part.subject for _, part, _ in sheet.entries() if part.subject.name == name)


def test_of_one_element_only(capsys: pytest.CaptureFixture[str]) -> None:
    status, said = run(capsys, "worksheet", COTTAGE, "--of", "studio-pipe", "--output", "json")
    assert status == 0
    sections = json.loads(said)["worksheets"][0]["sections"]
    assert {element["subject"]["name"] for section in sections for element in section["elements"]} == {"studio-pipe"}


def test_a_name_that_is_not_there_proposes_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    status, said = run(capsys, "worksheet", COTTAGE, "--of", "studio-pip")
    assert status == 2
    assert "studio-pipe" in " ".join(said.split())


def test_on_one_topic_only(capsys: pytest.CaptureFixture[str]) -> None:
    status, said = run(capsys, "worksheet", COTTAGE, "--topic", "voltage-drop", "--output", "json")
    assert status == 0
    assert [section["topic"] for section in json.loads(said)["worksheets"][0]["sections"]] == ["Voltage drop"]


@pytest.mark.parametrize("name", ["cottage.plan", "cottage-faults.plan", "nowhere.plan"])
def test_json_is_valid_against_its_schema(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    from jsonschema import Draft202012Validator

    schema = json.loads((ROOT / "schema" / "worksheet.schema.json").read_text())
    Draft202012Validator.check_schema(schema)
    status, said = run(capsys, "worksheet", ROOT / "fixtures" / name, "--output", "json")
    assert list(Draft202012Validator(schema).iter_errors(json.loads(said))) == []
    assert status == (2 if name == "nowhere.plan" else 0)


@pytest.mark.parametrize("path", sorted((ROOT / "fixtures" / "rules").glob("*.plan")), ids=lambda path: path.stem)
def test_no_fact_fails_on_any_fixture(path: Path) -> None:
    sheet = planlint.worksheet(path)
    assert sheet.failed == []


@pytest.mark.parametrize("width", [60, 80, 100, 200])
def test_no_line_is_wider_than_the_window(cottage: Worksheet, width: int) -> None:
    for line in worksheet_page(cottage, width).plain().splitlines():
        assert len(line) <= max(width, 60) or " " not in line.strip()


def test_every_step_is_on_the_terminal_and_in_markdown(cottage: Worksheet) -> None:
    text = " ".join(worksheet_page(cottage, 100).plain().split())
    page = worksheet_markdown(cottage).replace("\\", "")
    for _, _, one in cottage.entries():
        for step in one.steps:
            assert " ".join(step.text.split()) in text
            assert step.text in page


def test_names_from_a_plan_are_shown_literally_in_markdown() -> None:
    sheet = planlint.worksheet(
        'plan "<b>*x*</b> `y` | [z](javascript:1)"\n  edition 2020\nbuilding house\n  floor-area 10 sq ft\n'
    )
    head = worksheet_markdown(sheet).splitlines()[0]
    assert head == r"# \<b\>\*x\*\</b\> \`y\` \| \[z\](javascript:1): worksheet"


def test_a_fact_that_fails_is_said_and_is_no_pass(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    from dataclasses import replace

    from planlint.facts import load_facts
    from planlint.facts.engine import FACTS

    load_facts()

    def fails(element: object, job: object) -> None:
        raise ZeroDivisionError("planted")

    fails.__module__ = FACTS["feeder", "drop"].function.__module__
    monkeypatch.setitem(FACTS, ("feeder", "drop"), replace(FACTS["feeder", "drop"], function=fails))
    status, said = run(capsys, "worksheet", COTTAGE, "--topic", "voltage-drop")
    assert status == 3
    assert "NOT WORKED OUT" in said
    assert "ZeroDivisionError: planted" in said


def test_where_there_is_no_number_it_says_so_and_where_there_are_some() -> None:
    sheet = planlint.worksheet(COTTAGE, of="house", topic="boxes")
    said = " ".join(worksheet_page(sheet, 100).plain().split())
    assert "There is no number of house on boxes in this plan. There are numbers of house on load, " in said
    assert "There is no number of house on boxes in this plan." in worksheet_markdown(sheet)
    for topic in sheet.elsewhere:
        assert planlint.worksheet(COTTAGE, of="house", topic=topic).sections
    assert not planlint.worksheet(COTTAGE, of="house", topic="load").elsewhere


def test_the_bounds_of_a_load_stand_only_where_the_load_itself_is_open(cottage: Worksheet) -> None:
    names = [one.fact for _, part, one in cottage.entries() if part.subject.name == "house"]
    assert "calculated-load" in names and not {"least-load", "most-load"} & set(names)
    text = COTTAGE.read_text("utf-8").replace("; load-method optional", "").replace("profile tern-county", "edition 2020")
    open_ = planlint.worksheet(text)
    least, most = entry(open_, "least-load", "house"), entry(open_, "most-load", "house")
    assert least.steps[0].text.partition(": ")[0] == most.steps[0].text.partition(": ")[0]
    assert "the lowest is permitted" in least.steps[0].text and "the highest of them" in most.steps[0].text
    assert (least.steps[0].value, most.steps[0].value) != (least.steps[0].value,) * 2
