"""Names that would do harm if anything took them for more than names: through every output that isn't a page.

Pages and drawings in a browser: tests/browser. Escapes: ECMA-48 (control sequences), RFC 4180 (tables), RFC 8259 (JSON).
"""

import csv
import io
import json
import unicodedata
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from planlint.cli import main

NAMES = [
    "<script>alert(1)</script>",
    "</text></svg><a href='javascript:1'>",
    "=HYPERLINK('x')",
    "@SUM(1)",
    "\u05e9\u05dc\u05d5\u05dd \u0645\u0631\u062d\u0628\u0627",
    "W" * 300,
    "\u6c34" * 120,
    "[bold red]x[/] {name} %s \\n {{ 1 }}",
]
PLAN = """plan "{0}"
  edition 2020; address-note "{0}"
building house
  use one-family
supply utility
  type utility; volts 120/240 V
panel house-panel
  bus 100 A; main 100 A; spaces 8
circuit one
  panel house-panel; breaker 20 A; poles 1; space 1; label "{0}"
trench front
  cover 4 in; under yard
raceway pipe
  type PVC-40; trench front; size 1 in; length 20 ft
"""
COMMANDS = [
    ["check"],
    ["check", "--working", "--questions"],
    ["check", "--output", "json"],
    ["worksheet"],
    ["worksheet", "--output", "markdown"],
    ["worksheet", "--output", "json"],
    ["schedule"],
    ["schedule", "--output", "csv"],
    ["takeoff"],
    ["takeoff", "--output", "csv"],
    ["takeoff", "--output", "json"],
    ["checklist"],
    ["one-line"],
]


@pytest.mark.parametrize("name", NAMES, ids=range(len(NAMES)))
@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
def test_a_name_stays_a_name(tmp_path: Path, command: list[str], name: str) -> None:
    plan, to = tmp_path / "hostile.plan", tmp_path / "out"
    plan.write_text(PLAN.format(name), encoding="utf-8")
    assert main([*command, str(plan), "--to", str(to)]) in (0, 1)
    text = to.read_bytes().decode("utf-8")
    assert not [character for character in text if character not in "\r\n" and unicodedata.category(character) in ("Cc", "Cf")]
    if command[-1] == "json":
        assert name in json.dumps(json.loads(text), ensure_ascii=False).encode().decode() or json.dumps(name)[1:-1] in text
    elif command[-1] == "csv":
        cells = [cell for row in csv.reader(io.StringIO(text)) for cell in row]
        assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@"))]
        assert command[0] != "schedule" or name in [cell.removeprefix("'") for cell in cells]
    elif command[0] == "one-line":
        assert not [one.tag for one in ET.fromstring(text).iter() if one.tag.rpartition("}")[2] in ("script", "foreignObject")]
    else:
        assert name[:20] in text.replace("\\", "") or name[:20].replace("\\", "") in text.replace("\\", "")
