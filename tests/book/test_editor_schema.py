"""The schema that `profiles new` lays beside a profile: names of rules, settings and tables to complete, slips to underline."""

import pytest
import yaml
from jsonschema import Draft202012Validator

from planlint.book import resolve
from planlint.book.csvfile import Table
from planlint.book.editor_schemas import profile_schema
from planlint.book.layouts import LAYOUTS
from planlint.book.schemas import plain
from planlint.book.source import read_text
from planlint.data import data_folder

CODE = resolve(("model-2023",))
SCHEMA = profile_schema(CODE)
VALIDATOR = Draft202012Validator(SCHEMA)
HEAD = "profile: place\ntitle: A place\nbased-on: model-2020\n"


def fits(text: str) -> bool:
    return bool(VALIDATOR.is_valid(plain(read_text(HEAD + text, "place.yaml")[0])))


def test_it_is_a_schema() -> None:
    Draft202012Validator.check_schema(SCHEMA)


def test_every_rule_setting_and_table_is_there_to_be_completed() -> None:
    parts = SCHEMA["properties"]
    for key in ("changes", "takes-up", "leaves-out"):
        assert set(parts[key]["properties"]) == set(CODE.known_rules)
    assert set(parts["settings"]["properties"]) == set(CODE.settings)
    assert set(parts["tables"]["properties"]) == set(LAYOUTS)
    assert parts["settings"]["properties"]["trench-too-shallow.extra-cover"]["description"]


@pytest.mark.parametrize("name", LAYOUTS)
def test_every_row_of_the_book_fits(name: str) -> None:
    """Each row as the table has it, read as a profile would write it."""
    for row in Table(name).rows[:40]:
        cells = {column: yaml.safe_load(cell) for column, cell in row.items() if cell}
        cells |= {column: row[column] for column in LAYOUTS[name].key}
        errors = list(VALIDATOR.iter_errors({"profile": "a", "title": "b", "tables": {name: [cells]}}))
        assert not errors, errors[0].message


@pytest.mark.parametrize(
    ("text", "accepted"),
    [
        ("tables: {burial-cover: [{location: yard, nonmetallic: 24, because: x}]}", True),
        ("tables: {equipment-ground: [{rating: 20, copper: 10}, {rating: 100, copper: 4, aluminum: 2}]}", True),
        ("tables: {burial-covr: [{location: yard, nonmetallic: 24}]}", False),
        ("tables: {burial-cover: [{locaton: yard, nonmetallic: 24}]}", False),
        ("tables: {burial-cover: [{location: yrd, nonmetallic: 24}]}", False),
        ("tables: {burial-cover: [{location: yard, nonmetalic: 24}]}", False),
        ("tables: {burial-cover: [{location: yard, nonmetallic: 24 in}]}", False),
        ("tables: {burial-cover: [{nonmetallic: 24}]}", False),
        ("tables: {equipment-ground: [{rating: 20, copper: 11}]}", False),
        ("tables: {equipment-ground: [{rating: 22, copper: 10}]}", False),
        ("takes-up: {rule-of-our-own: x}", True),
        ("cases: [{plan: a.plan, expect: [rule-of-our-own, trench-too-shallow]}]", True),
        ("settings: {trench-too-shallow.extra-cover: 2 in (50 mm)}", True),
        ("settings: {trench-too-shallow.extra-cover: 2 inch}", False),
    ],
)
def test_what_it_takes_and_what_it_underlines(text: str, accepted: bool) -> None:
    assert fits(text) is accepted


@pytest.mark.parametrize("path", sorted((data_folder("rules") / "profiles").iterdir()), ids=lambda path: path.name)
def test_what_is_shipped_fits(path: object) -> None:
    if str(path).endswith(".yaml"):
        node, _ = read_text(path.read_text("utf-8"), "x")  # type: ignore[attr-defined]
        assert [error.message for error in VALIDATOR.iter_errors(plain(node))] == []
