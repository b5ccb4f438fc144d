"""The rules in force, compiled: the facts' and the vocabulary's names and types are handed to the rule language here."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from planlint import valuetypes
from planlint.book import Code, RuleInForce, RuleRecord, Sourced
from planlint.expressions import (
    Condition,
    ExpressionFault,
    Name,
    PositionPath,
    Template,
    compile_condition,
    compile_path,
    compile_template,
)
from planlint.facts import load_facts
from planlint.facts.engine import FACTS
from planlint.faults import Fault, Faults
from planlint.nearest import proposal
from planlint.plan import KINDS, Element
from planlint.positions import Span
from planlint.valuetypes import ValueType

_OWN = {
    "name": Name(valuetypes.TEXT, lambda element, job: element.name),
    "kind": Name(valuetypes.TEXT, lambda element, job: element.kind),
    "plan": Name(valuetypes.element("plan"), lambda element, job: element.plan),
}


@dataclass(frozen=True, slots=True)
class CompiledRule:
    """One rule in force, ready to be held against elements."""

    rule: RuleInForce
    when: Condition | None
    must: Condition
    at: PositionPath
    finding: Template
    remedy: Template
    point: Template | None
    settings: tuple[str, ...]

    @property
    def name(self) -> str:
        """The rule's name."""
        return self.rule.record.name


class RuleNames:
    """What one rule's expressions may name: attributes and facts of its elements, and its own settings."""

    def __init__(self, record: RuleRecord, code: Code) -> None:
        self._record = record
        self._settings = {name: code.setting(f"{record.name}.{name}") for name in record.settings}

    def lookup(self, kinds: tuple[str, ...], name: str) -> Name | None:
        """The name on elements of all these kinds, if it has one type there."""
        if name in self._settings:
            setting = self._settings[name]
            return Name(setting.type, lambda element, job: setting.value)
        return element_name(kinds, name)

    def known(self, kinds: tuple[str, ...]) -> Iterable[str]:
        """Every name that could be meant."""
        return {*self._settings, *element_names(kinds)}


def element_names(kinds: tuple[str, ...]) -> set[str]:
    """The attributes and facts that elements of all these kinds have."""
    sets = []
    for kind in kinds or tuple(KINDS):
        facts = {name for of_kind, name in FACTS if of_kind == kind}
        sets.append({*KINDS[kind].attributes, *facts, *_OWN} if kind in KINDS else set(_OWN))
    return set.intersection(*sets)


def element_name(kinds: tuple[str, ...], name: str) -> Name | None:
    """An attribute or a fact by its name, on elements of all these kinds; None where one lacks it or the types differ."""
    if name in _OWN:
        return _OWN[name]
    found = [one for one in (_name_of_kind(kind, name) for kind in kinds) if one is not None]
    if not found or len(found) < len(kinds):
        return None
    first = found[0]
    if all(one.type == first.type and one.attribute == first.attribute for one in found):
        if first.attribute:
            return first
        return Name(first.type, lambda element, job: _work(element, name, job))
    if all(one.type.base == "element" for one in found):
        kinds_met = tuple(dict.fromkeys(kind for one in found for kind in one.type.kinds))
        return Name(valuetypes.element(*kinds_met), _reader(name, first.attribute), first.attribute)
    return None


def _reader(name: str, attribute: str) -> Callable[[Element, Any], Any]:
    if attribute:
        return lambda element, job: element.value(name)
    return lambda element, job: _work(element, name, job)


def _work(element: Element, name: str, job: Any) -> Any:
    return job.work(FACTS[element.kind, name], element).value


def _name_of_kind(kind: str, name: str) -> Name | None:
    if kind not in KINDS:
        return None
    declared = KINDS[kind].attributes.get(name)
    if declared is not None:
        return Name(_attribute_type(declared.type.value_type), _reader(name, name), name)
    spec = FACTS.get((kind, name))
    return Name(spec.type, _reader(name, "")) if spec else None


def _attribute_type(declared: ValueType) -> ValueType:
    return valuetypes.element(*KINDS) if declared == valuetypes.element("any") else declared


def compile_rules(code: Code) -> list[CompiledRule]:
    """Compile every rule in force, in the order of their names.

    Raises Faults with everything that is wrong with their expressions and templates, each at its place in its file.
    """
    load_facts()
    compiled: list[CompiledRule] = []
    faults: list[Fault] = []
    for rule in code.rules.values():
        try:
            compiled.append(compile_rule(rule, code))
        except Faults as found:
            faults.extend(found.faults)
    if faults:
        raise Faults(faults)
    return sorted(compiled, key=lambda rule: rule.name)


def compile_rule(rule: RuleInForce, code: Code) -> CompiledRule:
    """Compile one rule. Raises Faults."""
    record = rule.record
    names = RuleNames(record, code)
    faults: list[Fault] = []

    def part(text: Sourced | None, compiler: Callable[..., Any]) -> Any:
        if text is None:
            return None
        try:
            return compiler(text.text, record.about, names)
        except ExpressionFault as fault:
            said = _who_said(fault.message, record, code)
            faults.append(Fault(said or text.locate(fault.start, fault.end), fault.message))
            return None

    when, must = part(record.when, compile_condition), part(record.must, compile_condition)
    at = part(record.at, compile_path)
    finding, remedy, point = (part(text, compile_template) for text in (record.finding, record.remedy, record.point))
    faults.extend(_clashing_settings(record))
    if not faults:
        faults.extend(_unread_settings(record, when, must))
    if faults:
        raise Faults(faults)
    return CompiledRule(rule, when, must, at, finding, remedy, point, tuple(f"{record.name}.{name}" for name in record.settings))


def _who_said(message: str, record: RuleRecord, code: Code) -> Span | None:
    """Where a profile gave a setting of the rule the word that a message quotes: there it is wrong, not in the rule."""
    for name in record.settings:
        setting = code.setting(f"{record.name}.{name}")
        words = setting.value if isinstance(setting.value, tuple) else (setting.value,)
        if not setting.layers[-1].base and any(f"'{word}'" in message for word in words if isinstance(word, str)):
            return setting.layers[-1].span
    return None


def _clashing_settings(record: RuleRecord) -> Iterator[Fault]:
    for name, setting in record.settings.items():
        if element_name(record.about, name) is not None:
            yield Fault(
                setting.span,
                f"'{name}' is already an attribute or a fact of {', '.join(record.about)}; give the setting its own name",
            )


def _unread_settings(record: RuleRecord, when: Condition | None, must: Condition) -> Iterator[Fault]:
    read = set(must.names_read) | (set(when.names_read) if when else set())
    for name, setting in record.settings.items():
        if name not in read:
            yield Fault(setting.span, f"no expression of this rule reads the setting '{name}'.{proposal(name, read)}")
