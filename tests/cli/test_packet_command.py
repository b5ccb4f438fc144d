"""The packet's command: one page or a folder, prices, and what is said where it can't be made."""

import builtins
from pathlib import Path
from typing import Any

import pytest

from planlint.cli import main
from planlint.output.packet import pages

COTTAGE = str(Path(__file__).parents[2] / "fixtures" / "cottage.plan")


def test_a_price_list_puts_costs_on_the_page(tmp_path: Path) -> None:
    prices, to = tmp_path / "p.csv", tmp_path / "packet.html"
    prices.write_text("item,price\nlight fixture,2\n", encoding="utf-8")
    assert main(["packet", COTTAGE, "--prices", str(prices), "--to", str(to)]) == 0
    text = to.read_text("utf-8")
    assert "Together 62.00 for 1 lines" in text
    assert '<td class="number">62.00</td>' in text


def test_a_folder_gets_a_file_for_each_paper(tmp_path: Path) -> None:
    assert main(["packet", COTTAGE, "--folder", str(tmp_path / "deep" / "papers")]) == 0
    names = {path.name for path in (tmp_path / "deep" / "papers").iterdir()}
    assert names >= {"index.html", "findings.html", "one-line.svg", "schedules.html", "takeoff.csv", "worksheet.html"}


def test_the_same_plan_gives_the_same_bytes(tmp_path: Path) -> None:
    for name in ("a.html", "b.html"):
        assert main(["packet", COTTAGE, "--to", str(tmp_path / name)]) == 0
    assert (tmp_path / "a.html").read_bytes() == (tmp_path / "b.html").read_bytes()


def test_a_plan_that_can_not_be_read_leaves_no_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = tmp_path / "bad.plan"
    plan.write_text('plan "T"\n  edition 2020\ntrench t\n  covr 4 in\n')
    assert main(["packet", str(plan), "--to", str(tmp_path / "packet.html")]) == 2
    assert "covr" in capsys.readouterr().err
    assert not (tmp_path / "packet.html").exists()


def test_a_folder_that_can_not_be_made_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "file").write_text("")
    assert main(["packet", COTTAGE, "--folder", str(tmp_path / "file" / "papers")]) == 2
    assert "can't be made" in capsys.readouterr().err


def test_a_folder_with_several_plans_is_no_one_plan(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for name in ("a", "b"):
        (tmp_path / f"{name}.plan").write_text('plan "T"\n  edition 2020\n')
    assert main(["packet", str(tmp_path)]) == 2
    assert "2 plans; name the file of one" in capsys.readouterr().err


def test_without_the_library_it_says_which(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    there = builtins.__import__

    def lacking(name: str, *more: Any) -> Any:
        if name.partition(".")[0] == "jinja2":
            raise ImportError(name)
        return there(name, *more)

    pages._environment.cache_clear()
    monkeypatch.setattr(builtins, "__import__", lacking)
    try:
        assert main(["packet", COTTAGE]) == 2
    finally:
        monkeypatch.undo()
        pages._environment.cache_clear()
    assert "pip install 'planlint[pages]'" in capsys.readouterr().err
