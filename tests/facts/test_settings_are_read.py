"""Every setting of `rules/settings.yaml` is read by a fact, and every setting that a fact reads is there.

Found in the source: `job.setting("...")` with a plain name, and names put together like `f"{rule}.most-drop"`, which count
for every setting that they fit; and settings named in a table of the module, as plain strings.
"""

import ast
import re
from pathlib import Path

import pytest

import planlint.facts
from planlint.book import resolve
from planlint.data import data_folder

FACTS = sorted(Path(planlint.facts.__file__).parent.glob("*.py"))
DECLARED = re.findall(r"^([a-z0-9-]+\.[a-z0-9-]+):", (data_folder("rules") / "settings.yaml").read_text("utf-8"), re.MULTILINE)
FULL_NAME = re.compile(r"[a-z][a-z0-9-]*\.[a-z][a-z0-9-]*")


def patterns() -> list[tuple[str, re.Pattern[str]]]:
    """What is read, as patterns of full names, each with its module."""
    found = []
    for path in FACTS:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and FULL_NAME.fullmatch(node.value):
                found.append((path.name, re.compile(re.escape(node.value))))
            elif isinstance(node, ast.JoinedStr):
                parts = [re.escape(p.value) if isinstance(p, ast.Constant) else "[a-z0-9-]+" for p in node.values]
                if re.fullmatch(r"(\[a-z0-9-\]\+|[a-z0-9\\-])+\\\.(\[a-z0-9-\]\+|[a-z0-9\\-])+", "".join(parts)):
                    found.append((path.name, re.compile("".join(parts))))
    return found


def test_there_are_settings() -> None:
    assert len(DECLARED) > 40
    assert len(set(DECLARED)) == len(DECLARED)


@pytest.mark.parametrize("name", DECLARED)
def test_a_fact_reads_it(name: str) -> None:
    assert any(pattern.fullmatch(name) for _, pattern in patterns()), f"no fact reads {name}"


@pytest.mark.parametrize("edition", [2017, 2020, 2023])
def test_what_a_fact_reads_is_declared(edition: int) -> None:
    settings = resolve((f"model-{edition}",)).settings
    asked = [
        (path.name, node.args[0].value)
        for path in FACTS
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and ast.unparse(node.func) == "job.setting" and isinstance(node.args[0], ast.Constant)
    ]
    assert [one for one in asked if one[1] not in settings] == []
