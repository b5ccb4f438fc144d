"""Everything that can be wrong with what is handed in: each gets its one clear message and its exit status, never a traceback."""

import subprocess
import sys
from pathlib import Path

import pytest

from planlint.cli import main

PLAN = 'plan "Plover Lane"\n  edition 2020\n'


def run(capsys: pytest.CaptureFixture[str], *arguments: object) -> tuple[int, str]:
    try:
        status = main([str(argument) for argument in arguments])
    except SystemExit as stopped:
        status = int(stopped.code or 0)
    out, err = capsys.readouterr()
    assert "Traceback" not in out + err
    return status, out + err


def check(tmp_path: Path, capsys: pytest.CaptureFixture[str], content: str | bytes, *options: object) -> tuple[int, str]:
    path = tmp_path / "first.plan"
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return run(capsys, "check", path, *options)


BROKEN_PLANS = {
    "a misspelt kind": (PLAN + "trensh t\n  cover 18 in\n", 3, 1, "'trench'"),
    "a misspelt attribute": (PLAN + "trench t\n  covr 18 in\n", 4, 3, "'cover'"),
    "a misspelt choice": (PLAN + "trench t\n  under yrad\n", 4, 9, "'yard'"),
    "a misspelt reference": (PLAN + "trench t\nraceway r\n  trench tt\n", 5, 10, "'t'"),
    "a wrong unit": (PLAN + "trench t\n  cover 26 A\n", 4, 9, "26 A is a current"),
    "a spelled-out unit": (PLAN + "trench t\n  cover 26 inch\n", 4, 12, "'in'"),
    "an attribute twice": (PLAN + "trench t\n  cover 18 in; cover 20 in\n", 4, 16, "line 4"),
    "a name twice": (PLAN + "trench t\n  cover 18 in\nraceway t\n", 5, 9, "line 3"),
    "an empty file": ("", 1, 1, "plan"),
    "a tab": (PLAN + "trench t\n\tcover 18 in\n", 4, 1, "tab"),
    "a loop of feeders": (
        PLAN + "panel a\npanel b\nfeeder f\n  from a; to b\nfeeder g\n  from b; to a\n",
        3,
        1,
        "a, b, a",
    ),
    "no edition and no profile": ('plan "Plover Lane"\n', 1, 1, "edition"),
    "a missing profile": ('plan "Plover Lane"\n  profile tern-conty\n', 2, 11, "'tern-county'"),
}


@pytest.mark.parametrize(("content", "line", "column", "words"), BROKEN_PLANS.values(), ids=BROKEN_PLANS)
def test_a_broken_plan_is_told_its_place_and_the_right_word(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], content: str, line: int, column: int, words: str
) -> None:
    status, said = check(tmp_path, capsys, content)
    assert status == 2
    assert f"line {line}, column {column}" in said
    assert words in " ".join(said.split())


GOOD = PLAN + "trench t\n  cover 18 in; under yard\nraceway r\n  type PVC-40; trench t; holds 3 x 6 AWG copper THWN-2\n"


@pytest.mark.parametrize(
    "content",
    [GOOD.replace("\n", "\r\n"), GOOD.rstrip("\n"), "\ufeff" + GOOD],
    ids=["CRLF", "no final newline", "BOM"],
)
def test_what_other_editors_leave_behind_is_read(tmp_path: Path, capsys: pytest.CaptureFixture[str], content: str) -> None:
    status, said = check(tmp_path, capsys, content)
    assert (status, "nothing to correct" in said) == (0, True), said


def test_text_in_another_script_is_told_its_place_in_code_points(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, said = check(tmp_path, capsys, PLAN + "trench \u0441анава\n")
    assert status == 2
    assert "line 3, column 8" in said


def test_a_title_in_another_script_is_shown_as_it_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, said = check(tmp_path, capsys, 'plan "Дом и 小屋 𝒳"\n  edition 2020\n')
    assert status == 0
    assert "Дом и 小屋 𝒳" in said


def test_control_characters_of_a_title_do_not_reach_the_terminal(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, said = check(tmp_path, capsys, 'plan "a[bold]b"\n  edition 2020\n')
    assert "a[bold]b" in said
    status, said = check(tmp_path, capsys, 'plan "a\u202eb"\n  edition 2020\n')
    assert status == 2
    assert "\u202e" not in said


@pytest.mark.parametrize(
    ("content", "words"),
    [(b"\x7fELF\x00\x01\x02", "isn't text"), (PLAN.encode() + b"trench \xff\n", "UTF-8")],
    ids=["binary", "no UTF-8"],
)
def test_what_is_no_text_is_said_to_be_none(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], content: bytes, words: str
) -> None:
    status, said = check(tmp_path, capsys, content)
    assert status == 2
    assert words in said


def test_a_huge_file_is_refused_at_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, said = check(tmp_path, capsys, b"# plan\n" * (50_000_000 // 7))
    assert status == 2
    assert "size limit" in said
    assert len(said.splitlines()) == 1


def test_a_file_that_is_not_there_does_not_stop_the_others(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "good.plan").write_text(GOOD)
    status, said = run(capsys, "check", tmp_path / "nowhere.plan", tmp_path / "good.plan")
    assert status == 2
    assert "there is no such file" in said
    assert "nothing to correct" in said


def test_an_unreadable_file_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "locked.plan"
    path.write_text(GOOD)

    def refuse(self: Path, *arguments: object, **more: object) -> object:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    status, said = run(capsys, "check", path)
    assert status == 2
    assert "not allowed" in said


def test_a_folder_without_plans_is_an_error(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, said = run(capsys, "check", tmp_path)
    assert status == 2
    assert "no *.plan" in said


def test_a_folder_is_searched_and_a_lone_part_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "house").mkdir()
    (tmp_path / "house" / "house.plan").write_text(PLAN + 'include "circuits.plan"\n')
    (tmp_path / "house" / "circuits.plan").write_text("trench t\n  cover 18 in\n")
    (tmp_path / "lone.plan").write_text("trench u\n  cover 18 in\n")
    status, said = run(capsys, "check", tmp_path)
    assert status == 0
    assert "lone.plan" in said
    assert "house/circuits.plan: it has no plan" not in said


def test_a_part_given_by_hand_is_an_error(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, said = check(tmp_path, capsys, "trench t\n  cover 18 in\n")
    assert status == 2
    assert "part" in said


@pytest.mark.parametrize(
    ("written", "words"),
    [('include "../outside.plan"', "outside"), ('include "first.plan"', "itself"), ('include "nowhere.plan"', "no such file")],
)
def test_an_include_that_cannot_be(tmp_path: Path, capsys: pytest.CaptureFixture[str], written: str, words: str) -> None:
    (tmp_path.parent / "outside.plan").write_text("trench t\n")
    status, said = check(tmp_path, capsys, PLAN + written + "\n")
    assert status == 2
    assert words in " ".join(said.split())
    assert "line 3" in said


RULE_FAULTS = {
    "an unknown fact": ("must: covr >= 18 in", "'cover'"),
    "a wrong unit": ("must: cover >= 18 A", "current"),
    "a bad template": ("finding: '{covr} is little'", "'cover'"),
    "an unknown key": ("mustn't: 3", "must"),
}


@pytest.mark.parametrize(("change", "words"), RULE_FAULTS.values(), ids=RULE_FAULTS)
def test_a_faulty_rule_is_told_its_place_in_its_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], change: str, words: str
) -> None:
    lines = {
        "rule": "trench-photographed",
        "about": "trench",
        "must": "cover >= 18 in",
        "at": "cover",
        "severity": "advice",
        "hazard": "cost-of-rework",
        "inspection": "underground",
        "clause": "{2020: practice}",
        "finding": "'{name}: take a photograph'",
        "remedy": "'Take one.'",
        "why": "'Nobody remembers.'",
    }
    key, _, value = change.partition(": ")
    lines[key] = value
    profiles = tmp_path / "profiles"
    (profiles / "rules").mkdir(parents=True)
    (profiles / "rules" / "trench-photographed.yaml").write_text("".join(f"{key}: {value}\n" for key, value in lines.items()))
    (profiles / "ours.yaml").write_text(
        "profile: ours\ntitle: Ours\nbased-on: model-2020\nchecked: 2026-01-01\nadds: [rules/trench-photographed.yaml]\n"
    )
    status, said = check(tmp_path, capsys, 'plan "Plover Lane"\n  profile ours\n')
    assert status == 2
    assert "trench-photographed.yaml" in said
    assert words in " ".join(said.split())


def test_a_profile_that_bases_itself_on_itself(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "profiles").mkdir()
    (tmp_path / "profiles" / "ours.yaml").write_text("profile: ours\ntitle: Ours\nbased-on: ours\nchecked: 2026-01-01\n")
    status, said = check(tmp_path, capsys, 'plan "Plover Lane"\n  profile ours\n')
    assert status == 2
    assert "ours" in said
    assert "ours.yaml" in said


def test_a_closed_pipe_says_nothing() -> None:
    command = f"{sys.executable} -m planlint check fixtures/cottage.plan | true"
    done = subprocess.run(["bash", "-c", command], cwd=Path(__file__).parents[2], capture_output=True, text=True)
    assert done.stderr == ""


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["chek", "x.plan"], "'check'"),
        (["check"], "PLAN"),
        (["check", "x.plan", "--before", "lunch"], "footing"),
        (["rules", "trench-too-shalow"], "'trench-too-shallow'"),
        (["check", "x.plan", "--only", "trench-too-shalow"], "'trench-too-shallow'"),
    ],
)
def test_wrong_words_on_the_command_line(capsys: pytest.CaptureFixture[str], arguments: list[str], words: str) -> None:
    status, said = run(capsys, *arguments)
    assert status == 2
    assert words in said


def test_a_fact_that_fails_is_not_checked_and_cannot_pass(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    from planlint.book.tables import Tables

    def fail(self: Tables, *arguments: object) -> object:
        raise ZeroDivisionError("as a test")

    monkeypatch.setattr(Tables, "cover", fail)
    status, said = check(tmp_path, capsys, GOOD)
    assert status == 3
    assert "NOT CHECKED" in said
    assert "trench-too-shallow" in said


def test_a_fault_of_the_program_asks_for_a_report(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    import planlint.cli.check

    def fail(*arguments: object) -> object:
        raise ZeroDivisionError("as a test")

    monkeypatch.setattr(planlint.cli.check, "find_plans", fail)
    status, said = run(capsys, "check", "x.plan")
    assert status == 3
    assert "report it" in said


def test_a_file_that_cannot_be_written_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "good.plan").write_text(GOOD)
    status, said = run(capsys, "check", tmp_path / "good.plan", "--to", tmp_path / "nowhere" / "report.txt")
    assert status == 2
    assert "can't be written" in said


def test_being_stopped_says_nothing(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    import planlint.cli.check

    def stop(*arguments: object) -> object:
        raise KeyboardInterrupt

    monkeypatch.setattr(planlint.cli.check, "find_plans", stop)
    status, said = run(capsys, "check", "x.plan")
    assert (status, said) == (130, "")
