"""`planlint one-line` as its user meets it: a file for each sheet, exit statuses, the same bytes for the same input."""

from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from planlint.cli import main

ROOT = Path(__file__).parents[2]
COTTAGE = ROOT / "fixtures" / "cottage.plan"
SVG = "{http://www.w3.org/2000/svg}"


def run(capsys: pytest.CaptureFixture[str], *arguments: object) -> tuple[int, str, str]:
    status = main(["one-line", *map(str, arguments)])
    said = capsys.readouterr()
    return status, said.out, said.err


def test_the_cottage_goes_on_one_letter_sheet(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "cottage.svg"
    assert run(capsys, COTTAGE, "--to", file) == (0, "", "")
    root = ET.parse(file).getroot()
    assert (root.tag, root.get("width"), root.get("height"), root.get("role")) == (f"{SVG}svg", "11in", "8.5in", "img")
    assert list(tmp_path.iterdir()) == [file]


def test_a4_is_asked_for(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    run(capsys, COTTAGE, "--paper", "a4", "--to", tmp_path / "cottage.svg")
    root = ET.parse(tmp_path / "cottage.svg").getroot()
    assert [round(float((root.get(side) or "").removesuffix("in")) * 25.4) for side in ("width", "height")] == [297, 210]


def crowded(tmp_path: Path) -> Path:
    panels = "".join(f"panel panel-{n}\nfeeder feeder-{n}\n  from main; to panel-{n}; breaker 60 A\n" for n in range(30))
    path = tmp_path / "crowded.plan"
    path.write_text(f'plan "Thirty panels"\n  edition 2020\ndisconnect main\n{panels}')
    return path


def test_further_sheets_are_files_beside_the_first_one(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(capsys, crowded(tmp_path), "--to", tmp_path / "all.svg")[0] == 0
    files = sorted(path.name for path in tmp_path.glob("*.svg"))
    assert files[0] == "all-2.svg" and files[-1] == "all.svg"
    for number, name in enumerate(["all.svg", *files[:-1]], start=1):
        assert f"Sheet {number} of {len(files)}" in (tmp_path / name).read_text()


def test_several_sheets_want_a_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, out, err = run(capsys, crowded(tmp_path))
    assert (status, out) == (2, "")
    assert "--to" in err


def test_a_plan_that_cannot_be_read_leaves_no_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "wrong.plan").write_text('plan "Wrong"\n  edition 2020\npanle x\n')
    status, out, err = run(capsys, tmp_path / "wrong.plan", "--to", tmp_path / "wrong.svg")
    assert (status, out) == (2, "")
    assert "panle" in err
    assert not (tmp_path / "wrong.svg").exists()


def test_the_same_bytes_for_the_same_input(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(capsys, COTTAGE) == run(capsys, COTTAGE)
