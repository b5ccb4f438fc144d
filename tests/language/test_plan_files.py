"""Opening files and taking in others: what can't be opened, what is no text, what lies outside the plan's folder."""

import os
from pathlib import Path

import pytest

from planlint.faults import Faults
from planlint.language import Unopened, is_part, parts_included_by, read_plan

PLAN = 'plan "T"\nbuilding house\n'


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    inner = tmp_path / "work" / "plans"
    (inner / "studio").mkdir(parents=True)
    monkeypatch.chdir(tmp_path / "work")
    return inner


def write(name: str, content: str | bytes) -> Path:
    path = Path(name)
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def told(path: str | Path) -> list[str]:
    with pytest.raises(Faults) as caught:
        read_plan(path)
    return [str(fault) for fault in caught.value.faults]


# ---- opening


@pytest.mark.parametrize(
    ("name", "content", "message"),
    [
        ("plans/none.plan", None, "it can't be opened: there is no such file"),
        ("plans/studio", None, "it can't be opened: it is a folder"),
        ("plans/nul.plan", b'plan "T"\0', "it isn't text: it has NUL bytes in it"),
        ("plans/wide.plan", 'plan "T"'.encode("utf-16"), "it can't be read: it is text in UTF-16; save it as UTF-8"),
        ("plans/large.plan", b"#" * 5_000_001, "it is over the size limit of 5 MB"),
    ],
)
def test_what_is_no_text_file_is_said_in_one_line(name: str, content: bytes | None, message: str) -> None:
    if content is not None:
        write(name, content)
    with pytest.raises(Unopened) as caught:
        read_plan(name)
    assert (caught.value.path, caught.value.message) == (name, message)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")
def test_a_pipe_is_not_waited_for() -> None:
    os.mkfifo("plans/pipe.plan")
    with pytest.raises(Unopened, match="no ordinary file"):
        read_plan("plans/pipe.plan")


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="the superuser may read everything")
def test_a_file_that_may_not_be_read() -> None:
    write("plans/a.plan", PLAN).chmod(0)
    with pytest.raises(Unopened, match="reading it is not allowed"):
        read_plan("plans/a.plan")


def test_a_path_with_nul_is_no_crash() -> None:
    with pytest.raises(Unopened):
        read_plan("plans/\0.plan")


def test_bytes_that_are_no_utf8_are_a_fault_at_the_first_of_them() -> None:
    write("plans/a.plan", PLAN.encode() + "# größer ".encode() + b"\xe9\xe9\nplace k\xfcche\nplace k\n  us x\n")
    assert told("plans/a.plan") == [
        "plans/a.plan, line 3, column 10: The byte 0xE9 is no UTF-8; save the file as UTF-8.",
        "plans/a.plan, line 6, column 3: 'us' is no attribute of a place. Did you mean 'use'?",
    ]


def test_a_line_and_a_file_have_a_longest_length() -> None:
    write("plans/a.plan", PLAN + "# " + "x" * 1999 + "\nplace a\n  building hose\n")
    assert told("plans/a.plan") == ["plans/a.plan, line 3, column 2001: A line has at most 2000 characters."]
    write("plans/b.plan", PLAN + "\n" * 100_000)
    assert told("plans/b.plan") == ["plans/b.plan, line 100001, column 1: A plan's file has at most 100000 lines."]


def test_a_path_is_shown_from_the_working_folder(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write("plans/a.plan", PLAN)
    assert read_plan(folder / "a.plan").files == ("plans/a.plan",)
    assert read_plan("./plans/../plans/a.plan").files == ("plans/a.plan",)
    monkeypatch.chdir("plans/studio")
    assert read_plan("../a.plan").files == ("../a.plan",)
    assert read_plan(folder / "a.plan").files == ((folder / "a.plan").as_posix(),)


# ---- include


def test_included_statements_stand_where_the_include_stands() -> None:
    write("plans/main.plan", PLAN + 'include "studio/a.plan"\nplace c\n  building studio\n')
    write("plans/studio/a.plan", 'place a\n  building house\ninclude "../b.plan"\nplace d\n')
    write("plans/b.plan", "building studio\n")
    reading = read_plan("plans/main.plan")
    assert [element.name for element in reading.elements] == ["T", "house", "a", "studio", "d", "c"]
    assert reading.files == ("plans/main.plan", "plans/studio/a.plan", "plans/b.plan")
    place = reading.elements[2]
    assert place.line.file == "plans/studio/a.plan"
    assert place.value("building") is reading.elements[1]
    assert place.plan is reading.elements[0]


OUTSIDE = "lies outside the plan's folder; a plan takes in files of its own folder and those below it."
NO_PATH = 'is no path from this file\'s folder, like "circuits.plan" or "studio/circuits.plan".'


@pytest.mark.parametrize(
    ("include", "message"),
    [
        ("../other.plan", f"'../other.plan' {OUTSIDE}"),
        ("studio/../../other.plan", f"'studio/../../other.plan' {OUTSIDE}"),
        ("link.plan", f"'link.plan' {OUTSIDE}"),
        ("linked/other.plan", f"'linked/other.plan' {OUTSIDE}"),
        ("/other.plan", f"'/other.plan' {NO_PATH}"),
        ("C:/other.plan", f"'C:/other.plan' {NO_PATH}"),
        ("~/other.plan", f"'~/other.plan' {NO_PATH}"),
        ("studio\\a.plan", "Folders in the path of an include are parted by /, not by a backslash."),
        ("studio/a.txt", "'studio/a.txt' is no plan's file, whose name ends in .plan."),
        ("main.plan", "'main.plan' is this very file; a file can't include itself."),
        ("studio/../main.plan", "'studio/../main.plan' is this very file; a file can't include itself."),
        ("prt.plan", "'prt.plan' can't be taken in: it can't be opened: there is no such file. Did you mean 'part.plan'?"),
        ("loop.plan", "'loop.plan' can't be taken in: it can't be opened: Too many levels of symbolic links."),
        ("nul.plan", "'nul.plan' can't be taken in: it isn't text: it has NUL bytes in it."),
    ],
)
def test_what_can_not_be_included(include: str, message: str, folder: Path) -> None:
    """The file outside is there each time, and so is a reference that only it could answer."""
    write("other.plan", "building other\n")
    write("plans/part.plan", "place part\n")
    write("plans/nul.plan", b"place nul\0")
    os.symlink(folder.parent / "other.plan", "plans/link.plan")
    os.symlink(folder.parent, "plans/linked")
    os.symlink("loop.plan", "plans/loop.plan")
    write("plans/main.plan", f'{PLAN}include "{include}"\nplace a\n  building other\n')
    assert told("plans/main.plan") == [f"plans/main.plan, line 3, column 9: {message}"]


def test_a_wider_root_may_be_given() -> None:
    write("other.plan", "building other\n")
    write("plans/main.plan", PLAN + 'include "../other.plan"\n')
    assert read_plan("plans/main.plan", root=Path()).files == ("plans/main.plan", "other.plan")


def test_a_link_to_a_file_of_the_same_tree_may_be_included() -> None:
    write("plans/part.plan", "place part\n")
    os.symlink("part.plan", "plans/link.plan")
    write("plans/main.plan", PLAN + 'include "link.plan"\n')
    assert read_plan("plans/main.plan").files == ("plans/main.plan", "plans/link.plan")


def test_a_file_is_included_once() -> None:
    write("plans/main.plan", PLAN + 'include "a.plan"\ninclude "b.plan"\ninclude "./a.plan"\n')
    write("plans/a.plan", "place a\n")
    write("plans/b.plan", '\ninclude "a.plan"\nplace b\n  building hose\n')
    assert told("plans/main.plan") == [
        "plans/b.plan, line 2, column 9: 'a.plan' is included twice; first in plans/main.plan, line 3.",
        "plans/main.plan, line 5, column 9: './a.plan' is included twice; first in plans/main.plan, line 3.",
    ]


def test_includes_in_a_circle() -> None:
    write("plans/main.plan", PLAN + 'include "a.plan"\n')
    write("plans/a.plan", 'include "b.plan"\n')
    write("plans/b.plan", 'include "a.plan"\ninclude "main.plan"\n')
    assert told("plans/main.plan") == [
        "plans/b.plan, line 1, column 9: 'a.plan' includes this file itself: the includes run in a circle.",
        "plans/b.plan, line 2, column 9: 'main.plan' includes this file itself: the includes run in a circle.",
    ]


def test_an_endless_chain_of_files_has_an_end() -> None:
    for at in range(101):
        write(f"plans/p{at}.plan", f'include "p{at + 1}.plan"\n')
    write("plans/main.plan", PLAN + 'include "p0.plan"\n')
    assert told("plans/main.plan") == ["plans/p98.plan, line 1, column 9: A plan has at most 100 files."]


def test_an_included_file_has_no_plan_statement() -> None:
    write("plans/main.plan", PLAN + 'include "a.plan"\n')
    write("plans/a.plan", 'plan "U"\n')
    assert told("plans/main.plan") == [
        "plans/a.plan, line 1, column 1: An included file has no plan statement: it is a part of the plan that includes it."
    ]


def test_names_are_one_space_over_all_files() -> None:
    write("plans/main.plan", PLAN + 'include "a.plan"\n')
    write("plans/a.plan", "place house\nplace b\n  building hose\nplace c\n  building b\n")
    assert told("plans/main.plan") == [
        "plans/a.plan, line 1, column 7: The name 'house' is used already, as a building in plans/main.plan, line 2.",
        "plans/a.plan, line 3, column 12: Nothing is named 'hose' here. Did you mean 'house'?",
        "plans/a.plan, line 5, column 12: 'b' is a place (line 2); building is the name of a building.",
    ]


def test_the_faults_of_all_files_come_in_one_go() -> None:
    write("plans/main.plan", PLAN + 'include "a.plan"\nplace a\n  use kitchn\n  building b\n')
    write("plans/a.plan", b"place b\n  covr 5 in\n# \xff\n")
    assert told("plans/main.plan") == [
        "plans/a.plan, line 2, column 3: 'covr' is no attribute of a place; those that matter most are building, outdoors, use, "
        "moisture, ambient, finished, side.",
        "plans/a.plan, line 3, column 3: The byte 0xFF is no UTF-8; save the file as UTF-8.",
        "plans/main.plan, line 5, column 7: 'kitchn' can't stand here. Did you mean 'kitchen'?",
        "plans/main.plan, line 6, column 12: 'b' is a place (plans/a.plan, line 1); building is the name of a building.",
    ]


# ---- what a folder search asks


def test_a_part_is_told_from_a_plan() -> None:
    assert not is_part(write("plans/a.plan", b'\xef\xbb\xbfplan "T"\r\n'))
    assert not is_part(write("plans/b.plan", 'place a\nplan "T"\n'))
    assert not is_part("plans/none.plan")
    assert is_part(write("plans/c.plan", 'planner x\n  plan "T"\n'))


def test_the_parts_of_a_plan_are_found_even_if_it_has_faults() -> None:
    write("plans/main.plan", 'include "a.plan"\ninclude "none.plan"\nplan\n')
    write("plans/a.plan", 'include "studio/b.plan"\ntrnch\n')
    write("plans/studio/b.plan", "")
    assert parts_included_by("plans/main.plan") == (Path("plans/a.plan").resolve(), Path("plans/studio/b.plan").resolve())


def test_bytes_may_come_from_elsewhere_than_the_disk() -> None:
    texts = {"plans/main.plan": PLAN + 'include "a.plan"\n', "plans/a.plan": "place a\n"}
    reading = read_plan("plans/main.plan", source=lambda path: texts[path.as_posix()].encode())
    assert [element.name for element in reading.elements] == ["T", "house", "a"]
