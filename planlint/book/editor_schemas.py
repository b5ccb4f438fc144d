"""The schemas that an editor completes a profile with: those of `schema/`, with the names that there are under its base."""

import json
from collections.abc import Iterable
from typing import Any

from planlint.book.csvfile import Table
from planlint.book.in_force import Code
from planlint.book.layouts import LAYOUTS, Layout, number, permit, wire, year
from planlint.data import data_folder
from planlint.trade import SIZES

Schema = dict[str, Any]
_CELLS: dict[Any, Schema] = {
    number: {"type": "number", "minimum": 0},
    year: {"type": "integer", "minimum": 1000, "maximum": 9999},
    wire: {"enum": [*SIZES, *(int(size) for size in SIZES if size.isdigit())]},
    permit: {"enum": ["marked", True, False]},
}


def plain_schema(kind: str) -> Schema:
    """The schema `profile` or `rule` as it is in `schema/`."""
    loaded: Schema = json.loads((data_folder("schema") / f"{kind}.schema.json").read_text("utf-8"))
    return loaded


def profile_schema(code: Code) -> Schema:
    """The schema of profiles with every rule, setting and table by name, for an editor to propose and explain.

    A rule or setting of another name is let through, for a profile may add its own; a table or column of another name is not.
    """
    schema = plain_schema("profile")
    parts = schema["properties"]
    rules = {name: record.why for name, record in code.known_rules.items()}
    change, reason = parts["changes"]["additionalProperties"], schema["$defs"]["reasons"]["additionalProperties"]
    parts["changes"]["properties"] = _explained(rules, change)
    for key in ("takes-up", "leaves-out"):
        parts[key]["properties"] = _explained(rules, reason)
    parts["settings"]["properties"] = _explained(code.setting_helps, parts["settings"]["additionalProperties"])
    parts["tables"]["properties"] = {name: _rows(name, layout) for name, layout in LAYOUTS.items()}
    parts["tables"]["additionalProperties"] = False
    expect = parts["cases"]["items"]["properties"]["expect"]
    parts["cases"]["items"]["properties"]["expect"] = {"anyOf": [{"items": {"enum": sorted(rules)}}, expect]}
    return schema


def _explained(helps: dict[str, str], schema: Schema) -> Schema:
    return {name: {"description": " ".join(text.split())} | schema for name, text in sorted(helps.items())}


def _rows(name: str, layout: Layout) -> Schema:
    rows = Table(name).rows
    columns = {column: _CELLS.get(kind, {}) for column, kind in layout.columns.items()}
    columns |= {column: {"enum": list(_both_ways(dict.fromkeys(row[column] for row in rows)))} for column in layout.key}
    row = {
        "type": "object",
        "required": list(layout.key),
        "properties": columns | {"status": {"type": "string"}, "because": {"type": "string"}},
        "additionalProperties": False,
    }
    return {"description": f"{layout.title}: {layout.sources[-1]}", "type": "array", "items": row}


def _both_ways(cells: Iterable[str]) -> Iterable[str | int]:
    """A cell as text, and as the number that YAML takes it for."""
    for cell in cells:
        yield cell
        if cell.isdigit():
            yield int(cell)
