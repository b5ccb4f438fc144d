"""The loader and the JSON Schemas refuse the same files and accept the same."""

import json
from pathlib import Path
from typing import Any

import pytest
from book_folders import RULE, rule_text
from jsonschema import Draft202012Validator

from planlint.book import EDITIONS, HAZARDS, INSPECTIONS, PREVIEWED, SEVERITIES
from planlint.book.profiles import read_profile
from planlint.book.rules import read_rule
from planlint.book.schemas import schema_faults
from planlint.book.source import read_source
from planlint.data import data_folder
from planlint.faults import Faults
from planlint.plan import KINDS
from planlint.quantities import DIMENSIONS, Quantity
from planlint.trade import SIZES

ROOT = Path(__file__).parents[2]
FULL_RULE = {
    **RULE,
    "when": "under is yard",
    "settings": "{extra: 2 in}",
    "instead-of": "[other]",
    "renamed": "[old]",
    "examples": "{met: a, broken: b, undecided: c}",
}
FULL_PROFILE = {
    "title": "County",
    "based-on": "model-2020",
    "confirm-with": "{office: Desk, note: ask}",
    "preview": "what it holds",
    "checked": "2026-03-14",
    "in-force-from": "2026-01-01",
    "kept-by": "them",
    "adopted-by": "Ordinance 3",
    "renamed": "[shire]",
    "settings": "{deep.extra: 2 in}",
    "changes": "{deep: {severity: advice, inspection: final, because: x}}",
    "takes-up": "{deep: x}",
    "leaves-out": "{wide: x}",
    "adds": "[own/x.yaml]",
    "tables": "{burial-cover: [{location: yard, nonmetallic: 24, because: x}]}",
    "cases": "[{plan: own/x.plan, expect: [deep]}]",
}
ODD = (
    "~", "yes", "3", "230.70", '"230.70"', "[]", "{}", "word", "Two words", "[a, b]", "[a, a]", "[3]", "{a: b}",
    "{a: 3}", "{a: [b]}", '" "', '"no"', "2026-03-14", '"2026-03-14"', "2026-02-30", "2020", "2 in", "[trench, box]",
    "trench", "correction", "0x1F", "1:30", "!odd x", "{2020: x}", "{2020: practice}", "{2020: 3}", "{2016: x}",
    "{no: x}", "{deep.extra: no}", "{deep.extra: [a, 3]}", "{deep.extra: {value: 1, because: x}}", "{office: x}",
    "{deep: {}}", "{met: x}", 
    "{deep: [{a: 3}]}", "{deep: [{a: ~}]}", "{deep: [{a: 0x1F}]}", "{deep: [{because: 3}]}",
    "[{plan: a.plan, expect: []}]", "[../x.yaml]",
)  # fmt: skip


def by_loader_and_schema(kind: str, text: str, folder: Path) -> tuple[bool, bool]:
    """Whether each of them accepts the file."""
    path = folder / "deep.yaml"
    path.write_text(text, encoding="utf-8")
    try:
        if kind == "rule":
            read_rule(path, "deep.yaml", "topic")
        else:
            read_profile(folder, "deep", "deep.yaml")
        loaded = True
    except Faults:
        loaded = False
    node, faults = read_source(path, "deep.yaml")
    assert not faults
    return loaded, not schema_faults(node, "rule" if kind == "rule" else "profile")


def schema_of(kind: str) -> Any:
    return json.loads((data_folder("schema") / f"{kind}.schema.json").read_text("utf-8"))


def profile_text(keys: dict[str, str]) -> str:
    return "profile: deep\n" + "".join(f"{key}: {value}\n" for key, value in keys.items())


def test_the_full_samples_are_accepted(tmp_path: Path) -> None:
    assert by_loader_and_schema("rule", rule_text("deep", **FULL_RULE), tmp_path) == (True, True)
    assert by_loader_and_schema("profile", profile_text(FULL_PROFILE), tmp_path) == (True, True)


@pytest.mark.parametrize("key", ["rule", *FULL_RULE])
def test_any_value_of_a_rules_key_is_judged_alike(key: str, tmp_path: Path) -> None:
    for odd in ("", *ODD):
        loaded, fits = by_loader_and_schema("rule", rule_text("deep", **{**FULL_RULE, key: odd}), tmp_path)
        if (key, odd) not in ONLY_THE_LOADER:
            assert loaded == fits, f"{key}: {odd}"


@pytest.mark.parametrize("key", FULL_PROFILE)
def test_any_value_of_a_profiles_key_is_judged_alike(key: str, tmp_path: Path) -> None:
    for odd in ODD:
        loaded, fits = by_loader_and_schema("profile", profile_text({**FULL_PROFILE, key: odd}), tmp_path)
        assert loaded == fits, f"{key}: {odd}"


BAD_PATHS = ("/a.yaml", "b/../../a.yaml", "a\\b.yaml", "c:a.yaml", "a.yml", ".yaml ")
# The name of the file isn't in it.
ONLY_THE_LOADER = {("rule", "word"), ("rule", "trench"), ("rule", "correction")}


GOOD_VALUES = (
    "3 ft", "18 in (450 mm)", "6 ft 7 in (2 m)", "1650 sq ft (153 sq m)",
    "6 ft 7 in", "1-1/4 in", "3 %", "-10 F", "2 m 10 cm 5 mm", ".5 in", "1650 sq ft", "0", "-3", "2.8", "no",
    "off", '"off"', "True", "attic", "PVC-80", "[]", "[a, PVC-80]", "6 AWG copper", "6 copper", "250 kcmil aluminum",
    '"6 AWG copper, 4 AWG aluminum"', '"4 AWG aluminum,6 copper"', "{2017: no, 2020: yes}", "{value: 3 ft}",
    "{value: {2017: 3 ft}, help: x, clause: y}", "{value: 60 F, dimension: temperature difference}",
)  # fmt: skip
BAD_VALUES = (
    "3 ft 7", "450 mm (18 in)", "18 in (450 mm",
    "7 in 3 ft", "1/0 in", "1-1/0 in", "3ft", "3 feet", "-3 ft", "3 ft 3 ft", "3 ft 1 m", "3 in 12", "007",
    "1e3", ".inf", "1_000", '"3"', '"no"', "80-PVC", "two words", "[a, no]", "6 AWG", "250 AWG aluminum",
    '"6 AWG copper, 4 AWG copper"', "{2017: ~}", "{2014: no}", "{}", "{value: 3 ft, because: x}", "{help: x}",
    "{value: 3 ft, dimension: size}",
)  # fmt: skip


@pytest.mark.parametrize(
    ("value", "accepted"), [*((value, True) for value in GOOD_VALUES), *((value, False) for value in BAD_VALUES)]
)
def test_the_value_of_a_setting(value: str, accepted: bool, tmp_path: Path) -> None:
    text = rule_text("deep", settings=f"\n  most: {value}")
    assert by_loader_and_schema("rule", text, tmp_path) == (accepted, accepted)


@pytest.mark.parametrize(
    ("changes", "accepted"),
    [
        ({"severity": "caution", "clause": "{2020: practice, 2023: 300.5}".replace("300.5", "300.5(A)")}, True),
        ({"severity": "correction", "clause": "{2020: practice, 2023: 300.5(A)}"}, False),
        ({"severity": "advice", "clause": "{'2020': practice}"}, True),
    ],
)
def test_a_practice_is_no_correction(changes: dict[str, str], accepted: bool, tmp_path: Path) -> None:
    assert by_loader_and_schema("rule", rule_text("deep", **changes), tmp_path) == (accepted, accepted)


@pytest.mark.parametrize(
    ("keys", "accepted"),
    [
        ({"title": "x"}, True),
        ({}, False),
        ({"title": "x", "edition": "2020", "confirm-with": "y"}, True),
        ({"title": "x", "edition": '"2020"', "confirm-with": "y"}, True),
        ({"title": "x", "edition": "2020"}, False),
        ({"title": "x", "edition": "2021", "confirm-with": "y"}, False),
        ({"title": "x", "edition": "2020", "confirm-with": "y", "based-on": "z"}, False),
        ({"title": "x", "preview": "y"}, False),
        ({"title": "x", "preview": "y", "based-on": "z"}, True),
        ({"title": "x", "adds": "[a.yaml, b/c.yaml]"}, True),
        *(({"title": "x", "adds": f"['{path}']"}, False) for path in BAD_PATHS),
    ],
)
def test_keys_of_a_profile_that_belong_together(keys: dict[str, str], accepted: bool, tmp_path: Path) -> None:
    assert by_loader_and_schema("profile", profile_text(keys), tmp_path) == (accepted, accepted)


def test_what_the_schema_says_has_its_place(tmp_path: Path) -> None:
    path = tmp_path / "deep.yaml"
    path.write_text(rule_text("deep", about="[trench, trenches]", severity="hard"), encoding="utf-8")
    places = {(fault.span.line, fault.span.column) for fault in schema_faults(read_source(path, "deep.yaml")[0], "rule")}
    assert places == {(2, 8), (5, 11)}


@pytest.mark.parametrize("kind", ["rule", "profile"])
def test_the_schemas_are_schemas(kind: str) -> None:
    Draft202012Validator.check_schema(schema_of(kind))


def test_the_words_of_the_schemas_are_those_of_the_program() -> None:
    rule, profile = schema_of("rule"), schema_of("profile")
    assert rule["$defs"]["kind"]["enum"] == list(KINDS)
    assert rule["properties"]["hazard"]["enum"] == list(HAZARDS)
    assert rule["$defs"]["setting"]["anyOf"][1]["properties"]["dimension"]["enum"] == list(DIMENSIONS)
    assert rule["properties"]["clause"]["propertyNames"]["enum"] == [str(edition) for edition in (*EDITIONS, *PREVIEWED)]
    for schema in (rule, profile):
        assert schema["$defs"]["severity"]["enum"] == list(SEVERITIES)
        assert schema["$defs"]["inspection"]["enum"] == list(INSPECTIONS)
    for name in ("quantity", "wire-sizes", "word", "value", "name", "text"):
        assert rule["$defs"][name] == profile["$defs"][name]


@pytest.mark.parametrize("cls", DIMENSIONS.values())
def test_every_unit_of_a_quantity_is_in_the_schema(cls: type[Quantity], tmp_path: Path) -> None:
    for unit in cls.units:
        text = rule_text("deep", settings=f"\n  most: {{value: 3 {unit}, dimension: {cls.dimension}}}")
        assert by_loader_and_schema("rule", text, tmp_path) == (True, True)


def test_every_wire_size_is_in_the_schema(tmp_path: Path) -> None:
    for size in SIZES:
        assert by_loader_and_schema("rule", rule_text("deep", settings=f"\n  least: {size} copper"), tmp_path) == (True, True)


SHIPPED_RULES = sorted(path for path in (ROOT / "rules").glob("*/*.yaml") if path.parent.name != "profiles")
SHIPPED_PROFILES = sorted((ROOT / "rules" / "profiles").glob("*.yaml"))


@pytest.mark.parametrize("path", SHIPPED_RULES, ids=lambda path: path.stem)
def test_what_is_shipped_fits_the_schema_of_rules(path: Path) -> None:
    assert schema_faults(read_source(path, path.name)[0], "rule") == []


@pytest.mark.parametrize("path", SHIPPED_PROFILES, ids=lambda path: path.stem)
def test_what_is_shipped_fits_the_schema_of_profiles(path: Path) -> None:
    assert schema_faults(read_source(path, path.name)[0], "profile") == []
