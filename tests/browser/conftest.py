"""A real browser for the tests of pages: Debian's Chromium, driven headless."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from programs import found

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    from playwright.sync_api import sync_playwright

    path = found("chromium")
    with sync_playwright() as play:
        opened = play.chromium.launch(executable_path=path, args=["--no-sandbox", "--disable-gpu"])
        yield opened
        opened.close()


@pytest.fixture(scope="session")
def packets(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The packets of both cottages, made by the command."""
    from planlint.cli import main

    folder = tmp_path_factory.mktemp("packets")
    made = {}
    for name in ("cottage", "cottage-faults"):
        made[name] = folder / f"{name}.html"
        assert main(["packet", str(ROOT / "fixtures" / f"{name}.plan"), "--to", str(made[name])]) == 0
    return made
