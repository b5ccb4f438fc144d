"""`planlint rules`: the list in force, one rule in full, and through which profiles its figures came."""

import re
from pathlib import Path

import pytest

from planlint.book import resolve
from planlint.cli import main

TERN = (Path(__file__).parents[2] / "rules" / "profiles" / "tern-county.yaml").read_text(encoding="utf-8").splitlines()


def said(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str]:
    """The exit status, and what is printed with its line breaks folded."""
    status = main(["rules", *arguments])
    return status, " ".join(capsys.readouterr().out.split())


def line_of(text: str) -> int:
    return next(number for number, line in enumerate(TERN, start=1) if text in line)


def test_a_local_figure_shows_each_layer_that_it_came_through(capsys: pytest.CaptureFixture[str]) -> None:
    status, text = said(capsys, "trench-too-shallow", "--profile", "tern-county")
    line = line_of("trench-too-shallow.extra-cover")
    assert status == 0
    assert re.search(rf"Setting extra-cover: 0 (in )?model-2020, 2 in tern-county line ({line}|{line + 1})\b", text), text


def test_a_local_severity_says_which_line_changed_it(capsys: pytest.CaptureFixture[str]) -> None:
    _, model = said(capsys, "total-voltage-drop", "--profile", "model-2020")
    _, local = said(capsys, "total-voltage-drop", "--profile", "tern-county")
    line = line_of("total-voltage-drop:")
    assert "Changed:" not in model
    assert re.search(rf"Changed: .*correction.* tern-county line ({line}|{line + 1})\b", local), local


def test_a_rule_of_another_edition_is_shown_as_not_in_force(capsys: pytest.CaptureFixture[str]) -> None:
    name = "outdoor-emergency-disconnect-missing"
    assert "Not in force under" in said(capsys, name, "--profile", "model-2017")[1]
    assert "Local ordinance, section 2" in said(capsys, name, "--profile", "tern-county")[1]


@pytest.mark.parametrize("profile", ["model-2017", "model-2023", "tern-county"])
def test_the_list_has_every_rule_in_force_once(capsys: pytest.CaptureFixture[str], profile: str) -> None:
    status, text = said(capsys, "--profile", profile)
    words = text.split()
    rules = resolve((profile,)).rules
    assert status == 0
    assert f"{len(rules)} rules in force" in text
    assert {name: words.count(name) for name in rules} == dict.fromkeys(rules, 1)


def test_one_rule_shows_its_parts_and_examples(capsys: pytest.CaptureFixture[str]) -> None:
    text = said(capsys, "trench-too-shallow")[1]
    for words in ("Code: 2023", "About: ", "Must: ", "Finding: ", "Remedy: ", "Confirm with: ", "Example, undecided:"):
        assert words in text


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("trench-to-shallow",), "'trench-to-shallow' is no rule. Did you mean 'trench-too-shallow'?"),
        (("--profile", "tern-county-2"), "tern-county"),
    ],
)
def test_a_wrong_name_is_told_with_the_nearest(
    capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...], words: str
) -> None:
    status, text = said(capsys, *arguments)
    assert status == 2
    assert words in text
