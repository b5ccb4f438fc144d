"""Rule files, one rule each: `rules/<topic>/<rule-name>.yaml`. Checked for form here; `planlint.rulebook` compiles them."""

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from planlint.book.reader import Reader
from planlint.book.records import EDITIONS, HAZARDS, INSPECTIONS, PRACTICE, PREVIEWED, SEVERITIES, RuleRecord, SettingRecord
from planlint.book.settings import read_setting
from planlint.book.source import Fields, Items, Node, Sourced, read_source
from planlint.faults import Fault, Faults
from planlint.nearest import proposal
from planlint.plan import KINDS

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable
    from pathlib import Path

NEEDED = (
    "rule", "about", "must", "at", "severity", "hazard", "inspection", "clause", "finding", "remedy", "why",
)  # fmt: skip
OPTIONAL = ("when", "point", "settings", "instead-of", "renamed", "examples")
ANSWERS = ("met", "broken", "undecided")
_NO_TOPICS = ("tables", "profiles")


def load_rules(folder: "Path | Traversable", shown: str = "rules") -> dict[str, RuleRecord]:
    """Every rule of a folder of topics, by name, in the order of topics and names.

    `shown` is how the folder is called in messages. Raises Faults with all that is wrong in any of the files.
    """
    found: dict[str, RuleRecord] = {}
    faults: list[Fault] = []
    for topic in _in_order(folder):
        if not topic.is_dir() or topic.name in _NO_TOPICS:
            continue
        for path in _in_order(topic):
            if not path.name.endswith(".yaml"):
                continue
            try:
                record = read_rule(path, f"{shown}/{topic.name}/{path.name}", topic.name)
            except Faults as wrong:
                faults.extend(wrong.faults)
                continue
            if record.name in found:
                faults.append(same_name(record, found[record.name]))
            found[record.name] = record
    if faults:
        raise Faults(faults)
    return found


def _in_order(folder: "Path | Traversable") -> "list[Path | Traversable]":
    return sorted(folder.iterdir(), key=lambda path: path.name)


def same_name(record: RuleRecord, other: RuleRecord) -> Fault:
    """The fault of a rule whose name is taken."""
    return Fault(record.span, f"a rule '{record.name}' is there already: {other.span}")


def read_rule(path: "Path | Traversable", file: str, topic: str) -> RuleRecord:
    """One rule file; `file` is its path as it is shown. Raises Faults with everything that is wrong with it."""
    node, faults = read_source(path, file)
    reader = Reader(faults)
    parts = reader.fields(node, "a rule", NEEDED, OPTIONAL)
    name = reader.name(parts["rule"], "rule")
    stem = path.name.removesuffix(".yaml")
    if name.text and name.text != stem:
        reader.fault(name.span, f"the rule is called '{name}' and its file '{stem}'; they have one name")
    record = _record(name, topic, parts, reader)
    reader.close()
    return record


def _record(name: Sourced, topic: str, parts: Mapping[str, Node], reader: Reader) -> RuleRecord:
    severity = reader.word(parts["severity"], "severity", SEVERITIES)
    return RuleRecord(
        name=name.text,
        topic=topic,
        about=tuple(_about(parts["about"], reader)),
        when=reader.text(parts["when"], "when") if "when" in parts else None,
        must=reader.text(parts["must"], "must"),
        at=reader.text(parts["at"], "at"),
        severity=severity,
        hazard=reader.word(parts["hazard"], "hazard", HAZARDS),
        inspection=reader.word(parts["inspection"], "inspection", INSPECTIONS),
        clause=dict(_clause(parts["clause"], severity, reader)),
        finding=reader.text(parts["finding"], "finding"),
        remedy=reader.text(parts["remedy"], "remedy"),
        why=reader.text(parts["why"], "why").text,
        point=reader.text(parts["point"], "point") if "point" in parts else None,
        examples=dict(_examples(parts.get("examples"), reader)),
        settings=dict(_settings(name.text, parts.get("settings"), reader)),
        instead_of=reader.names(parts["instead-of"], "instead-of") if "instead-of" in parts else (),
        renamed=tuple(old.text for old in reader.names(parts["renamed"], "renamed")) if "renamed" in parts else (),
        span=name.span,
    )


def _about(node: Node, reader: Reader) -> Iterator[str]:
    nodes = node.members if isinstance(node, Items) else (node,)
    if not nodes:
        reader.fault(node.span, "about names at least one kind of element")
    met: set[str] = set()
    for one in nodes:
        kind = reader.word(one, "about", tuple(KINDS))
        if kind and kind in met:
            reader.fault(one.span, f"'{kind}' is named twice")
        met.add(kind)
        yield kind


def _clause(node: Node, severity: str, reader: Reader) -> Iterator[tuple[int, str]]:
    if isinstance(node, Fields) and not node.entries:
        reader.fault(node.span, "clause names at least one edition that has the rule")
    for entry in reader.entries(node, "clause"):
        edition = reader.edition(entry.key, (*EDITIONS, *PREVIEWED))
        clause = reader.text(entry.value, f"the clause of {entry.key.text}")
        if clause.text == PRACTICE and severity == "correction":
            reader.fault(clause.span, f"behind '{PRACTICE}' stands no clause, so the rule is a caution or advice, no correction")
        yield edition, clause.text


def _examples(node: Node | None, reader: Reader) -> Iterator[tuple[str, Sourced]]:
    for answer, example in (reader.fields(node, "examples", (), ANSWERS) if node else {}).items():
        yield answer, reader.text(example, f"the example '{answer}'")


def _settings(rule: str, node: Node | None, reader: Reader) -> Iterator[tuple[str, SettingRecord]]:
    for entry in reader.entries(node, "settings") if node else ():
        yield entry.key.text, read_setting(rule, entry, reader)


def instead_of_faults(rules: Mapping[str, RuleRecord]) -> Iterator[Fault]:
    """Rules that `instead-of` names and that aren't there, and rules that speak for each other in a circle."""
    for record in rules.values():
        for named in record.instead_of:
            if named.text not in rules:
                yield Fault(named.span, f"there is no rule '{named}'.{proposal(named.text, rules)}")
            elif record.name in _spoken_for(named.text, rules):
                yield Fault(named.span, f"'{record.name}' and '{named}' stand in for each other; one of them has to speak")


def _spoken_for(name: str, rules: Mapping[str, RuleRecord]) -> set[str]:
    """The rule and all that it speaks for, however far."""
    found: set[str] = set()
    waiting = [name]
    while waiting:
        one = waiting.pop()
        if one not in found and one in rules:
            found.add(one)
            waiting.extend(named.text for named in rules[one].instead_of)
    return found
