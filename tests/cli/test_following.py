"""How far a check of many plans is: shown on a terminal only, and gone when it is done."""

import os
import pty
import re
import select
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PLAN = 'plan "Trial {}"\n  edition 2020\ntrench t\n  cover 18 in\n'


def on_terminal(folder: Path, *more: str, **environment: str) -> tuple[str, str]:
    """What a check of a folder writes to a terminal on its standard error, and to a pipe on its standard output."""
    leader, follower = pty.openpty()
    command = [sys.executable, "-m", "planlint", "check", str(folder), *more]
    run = subprocess.Popen(
        command, cwd=ROOT, stdout=subprocess.PIPE, stderr=follower, env={**os.environ, "TERM": "xterm", **environment}
    )
    os.close(follower)
    assert run.stdout is not None
    said = run.stdout.read().decode()
    run.wait()
    seen = b""
    while select.select([leader], [], [], 0.2)[0]:
        try:
            part = os.read(leader, 65536)
        except OSError:
            break
        if not part:
            break
        seen += part
    os.close(leader)
    return seen.decode(), said


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for number in range(6):
        (tmp_path / f"p{number}.plan").write_text(PLAN.format(number))
    return tmp_path


def test_many_plans_are_followed_on_a_terminal(folder: Path) -> None:
    seen, said = on_terminal(folder)
    assert "p0.plan" in seen
    assert re.search(r"[0-5] +of 6|[0-5]/6|[0-5] of 6", seen)
    assert said.count("Trial") == 6
    assert "\x1b" not in said


def test_the_line_is_taken_away(folder: Path) -> None:
    """It ends with the terminal's own words for an empty line (ECMA-48: CSI 2 K) and the cursor shown again."""
    seen, _ = on_terminal(folder)
    assert seen.rstrip().endswith("\x1b[2K") or seen.rstrip().endswith("\x1b[?25h")


def test_a_few_plans_are_not_followed(folder: Path) -> None:
    seen, said = on_terminal(folder / "p0.plan", str(folder / "p1.plan"))
    assert seen == ""
    assert said.count("Trial") == 2


def test_a_plain_terminal_is_left_alone(folder: Path) -> None:
    assert on_terminal(folder, TERM="dumb")[0] == ""


def test_json_stays_one_document(folder: Path) -> None:
    import json

    _, said = on_terminal(folder, "--output", "json")
    assert len(json.loads(said)["reports"]) == 6
