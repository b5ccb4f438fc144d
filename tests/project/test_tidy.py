"""What is committed stands by itself: sources are named, no trace of a machine, and the two lines of the README can be pasted."""

import re
import shlex
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PUBLISHED = sorted((ROOT / "tests" / "published").glob("*.py"))
SOURCE = re.compile(r"NFPA|ASTM|\bsource|common practice|from memory|\b[a-z0-9-]+\.(com|org|net|gov|edu)\b", re.IGNORECASE)
PERSONAL = re.compile(
    r"/(home|root|work|tmp|Users|mnt|srv)/[\w.]"  # a folder of one machine
    r"|\b[A-Z]:\\\w"
    r"|\b(localhost|127\.0\.0\.1|index-url|extra-index)\b"
    r"|\bssh://|\bhttps?://\S+@",
    re.IGNORECASE,
)


def committed() -> list[Path]:
    """The files that git keeps; of an unpacked archive, those of the folders that belong to it."""
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True)
    paths = [ROOT / name for name in listed.stdout.split("\0") if name]
    folders = ("planlint", "rules", "schema", "fixtures", "tests")
    paths = paths or [path for folder in folders for path in (ROOT / folder).rglob("*") if "__pycache__" not in path.parts]
    return [path for path in paths if path.is_file() and path != Path(__file__)]


@pytest.mark.parametrize("path", PUBLISHED, ids=lambda path: path.stem)
def test_a_check_against_the_outside_names_its_source(path: Path) -> None:
    assert SOURCE.search(path.read_text(encoding="utf-8")), f"{path.name} names no source"


def test_nothing_committed_tells_of_one_machine() -> None:
    told = [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()[:100]}"
        for path in committed()
        for number, line in enumerate(path.read_text(encoding="utf-8", errors="replace").splitlines(), start=1)
        if PERSONAL.search(line)
    ]
    assert told == []


@pytest.mark.parametrize(
    "line",
    ["see /home/someone/plans", "C:\\plans", "pip --index-url x", "https://name@host/"],
)
def test_such_words_would_be_found(line: str) -> None:
    assert PERSONAL.search(line)


@pytest.mark.parametrize(("name", "ends_with"), [("check", "planlint check fixtures/cottage.plan"), ("tests", "-m pytest -n 2")])
def test_the_readme_has_one_line_to_paste_for(name: str, ends_with: str) -> None:
    found = re.findall(rf"<!-- {name} -->\n```sh\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)
    assert len(found) == 1
    (line,) = found[0].splitlines()
    assert line.endswith(ends_with)
    assert shlex.split(line)[:3] == ["python3", "-m", "venv"]
    for word in shlex.split(line):
        if word.startswith("fixtures/"):
            assert (ROOT / word).is_file()


def test_no_two_test_files_have_one_name() -> None:
    """pytest imports them by their names alone."""
    names = [path.name for path in (ROOT / "tests").rglob("test_*.py")]
    assert sorted(names) == sorted(set(names))
