"""Settings: the numbers and words that a profile may change, as rule files and `rules/settings.yaml` declare them."""

import re
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from planlint import valuetypes
from planlint.book.reader import NAME, Reader
from planlint.book.records import EDITIONS, SettingRecord, Value
from planlint.book.source import Entry, Fields, Node, Scalar, read_source
from planlint.book.values import KINDS_OF_VALUE, read_value, same_sort
from planlint.quantities import DIMENSIONS
from planlint.valuetypes import ValueType

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable
    from pathlib import Path

FULL_NAME = re.compile(rf"{NAME}\.{NAME}")


def load_settings(path: "Path | Traversable", file: str) -> dict[str, SettingRecord]:
    """The settings of facts, by their full names `fact.setting`. Raises Faults."""
    node, faults = read_source(path, file)
    reader = Reader(faults)
    found: dict[str, SettingRecord] = {}
    for entry in reader.entries(node, "the file of settings"):
        name = entry.key.text
        if not FULL_NAME.fullmatch(name):
            reader.fault(entry.key.span, f"'{name}' is not the name of a setting, which is written like fact.setting")
        parts = reader.fields(entry.value, "a setting", ("value", "clause", "help"), ("dimension",))
        found[name] = _long_setting(name, entry.key, parts, reader)
    reader.close()
    return found


def read_setting(rule: str, entry: Entry, reader: Reader) -> SettingRecord:
    """One setting of a rule file: its value, a value for each edition, or `value` beside `help`, `clause` and `dimension`."""
    short = reader.name(entry.key, "the name of a setting")
    name = f"{rule}.{short}"
    if isinstance(entry.value, Fields) and "value" in entry.value.entries:
        parts = reader.fields(entry.value, "a setting", ("value",), ("help", "clause", "dimension"))
        return _long_setting(name, entry.key, parts, reader)
    values, type_ = _values(entry.value, reader, "")
    return SettingRecord(name, values, type_, "", "", entry.key.span)


def _long_setting(name: str, key: Scalar, parts: Mapping[str, Node], reader: Reader) -> SettingRecord:
    dimension = reader.word(parts["dimension"], "dimension", tuple(DIMENSIONS)) if "dimension" in parts else ""
    values, type_ = _values(parts["value"], reader, dimension)
    if dimension and type_.base != "quantity":
        reader.fault(parts["dimension"].span, "only a quantity has a dimension")
    help_text, clause = (reader.text(parts[part], part).text if part in parts else "" for part in ("help", "clause"))
    return SettingRecord(name, values, type_, help_text, clause, key.span)


def _values(node: Node, reader: Reader, dimension: str) -> tuple[Mapping[int | None, Value], ValueType]:
    """A value for all editions, under None, or one for each, all of one type."""
    if not isinstance(node, Fields):
        value, type_ = read_value(node, reader, dimension)
        return {None: value}, type_
    found: dict[int | None, Value] = {}
    types: list[ValueType] = []
    for entry in reader.entries(node, "the value of a setting"):
        edition = reader.edition(entry.key, EDITIONS)
        found[edition], type_ = read_value(entry.value, reader, dimension)
        types.append(type_)
        if not same_sort(type_, types[0]):
            reader.fault(entry.value.span, f"a setting is of one type: {types[0]} is before it, and this is {type_}")
    if not found:
        reader.fault(node.span, f"the value of a setting is {KINDS_OF_VALUE}, or one for each edition")
        return {}, valuetypes.NUMBER
    return found, _with_words_of(types)


def _with_words_of(types: Sequence[ValueType]) -> ValueType:
    """The type of all: of a word or a list of words, every word that some edition has."""
    words = [word for type_ in types for word in (type_.of or type_).words]
    if not words:
        return types[0]
    every = valuetypes.choice(*dict.fromkeys(words))
    return valuetypes.list_of(every) if types[0].base == "list" else every
