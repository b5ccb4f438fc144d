"""Gathers what the layered profiles say about each rule and setting, and everything that is wrong with what they say."""

from collections import defaultdict
from functools import cache
from typing import TypeVar

from planlint.book.in_force import Layer
from planlint.book.layouts import LAYOUTS
from planlint.book.opening import Book
from planlint.book.opinions import Opinion, Opinions
from planlint.book.reader import Reader
from planlint.book.records import PRACTICE, ProfileRecord, RuleChange, SettingChange, SettingRecord, Severity, Value
from planlint.book.source import Items, Sourced
from planlint.book.stack import Stack
from planlint.book.values import read_value, same_sort, show_value, sort_of
from planlint.faults import Fault
from planlint.nearest import proposal
from planlint.plan import KINDS
from planlint.trade import CABLE_TYPES

T = TypeVar("T")


@cache
def _words_of_plans() -> tuple[str, ...]:
    """Every word that some attribute of a plan takes, kinds of statements and types of cable with them."""
    words = (word for kind in KINDS.values() for stated in kind.attributes.values() for word in stated.type.words)
    return tuple(dict.fromkeys((*words, *KINDS, *CABLE_TYPES)))


class Gathering:
    """What is said, by rule and by setting.

    `layers` are the changes of each rule itself, `clauses` all layers that give a local clause for it, settings included, both
    with the most general profile first. `notes` name what works under a former name.
    """

    def __init__(self, stack: Stack, book: Book) -> None:
        self.stack = stack
        self.book = book
        self.in_force: dict[str, Opinions[bool]] = {}
        self.severities: dict[str, Opinions[Severity]] = {}
        self.inspections: dict[str, Opinions[str]] = {}
        self.settings: dict[str, Opinions[Value]] = {}
        self.layers: dict[str, list[Layer]] = defaultdict(list)
        self.clauses: dict[str, list[Layer]] = defaultdict(list)
        self.notes: list[Fault] = list(stack.notes)
        self.faults: list[Fault] = []
        for profile in stack.profiles:
            self._read(profile)
        cells = self._cells()
        for each in (self.in_force, self.severities, self.inspections, self.settings, cells):
            for opinions in each.values():
                self.faults.extend(opinions.faults(stack.ancestors))

    def _cells(self) -> dict[str, Opinions[str]]:
        """What profiles put into the cells of tables; the rows themselves are laid on one another by the tables."""
        cells: dict[str, Opinions[str]] = {}
        for row in self.book.table_rows:
            key = LAYOUTS[row.table.text].key
            for column, cell in row.cells.items():
                where = f"{row.table}, {', '.join(row.texts.get(part, '') for part in key)}: {column}"
                if column != "status" and column not in key:
                    layer = Layer(row.profile, cell.text, cell.span)
                    self._keep(cells, where, f"the table {where}", layer, cell.text)
        return cells

    def is_in_force(self, rule: str) -> bool:
        """Whether the rule is in force under the whole stack."""
        said = self.in_force.get(rule)
        winner = said.winner(self.stack.ancestors) if said else None
        return winner.value if winner else self._by_edition(rule)

    def _by_edition(self, rule: str) -> bool:
        return rule not in self.book.added_by and self.stack.edition in self.book.rules[rule].clause

    def _is_in_force_under(self, rule: str, profile: ProfileRecord) -> bool:
        """Whether the rule is in force for a profile: by what it says itself and by what it is based on."""
        heard = {profile.name, *self.stack.ancestors[profile.name]}
        said = [one for one in self.in_force[rule].said if one.layer.profile in heard] if rule in self.in_force else []
        return said[-1].value if said else self._by_edition(rule)

    def _read(self, profile: ProfileRecord) -> None:
        for name, by in self.book.added_by.items():
            if by == profile.name:
                self._keep(self.in_force, name, f"the rule '{name}'", Layer(by, "added", self.book.rules[name].span), True)
        taken_up = {name for name in (self._take_up(profile, *pair) for pair in profile.takes_up) if name}
        for named, reason in profile.leaves_out:
            self._leave_out(profile, named, reason, taken_up)
        for change in profile.changes:
            self._change(profile, change)
        for setting in profile.settings:
            self._set(profile, setting)
        for case in profile.cases:
            for expected in case.expect:
                self._rule(expected)

    def _keep(self, where: dict[str, Opinions[T]], key: str, what: str, layer: Layer, value: T) -> None:
        where.setdefault(key, Opinions(what)).said.append(Opinion(layer, value))

    def _touch(self, rule: str, layer: Layer) -> None:
        self.layers[rule].append(layer)
        if layer.because:
            self.clauses[rule].append(layer)

    def _rule(self, named: Sourced) -> str | None:
        """The rule that is named, by its present or a former name."""
        name = self.book.renamed.get(named.text, named.text)
        if name not in self.book.rules:
            known = (*self.book.rules, *self.book.renamed)
            self.faults.append(Fault(named.span, f"there is no rule '{named}'.{proposal(named.text, known)}"))
            return None
        if name != named.text:
            self.notes.append(Fault(named.span, f"the rule '{named}' is called '{name}' now"))
        return name

    def _take_up(self, profile: ProfileRecord, named: Sourced, reason: str) -> str | None:
        name = self._rule(named)
        if name:
            layer = Layer(profile.name, "taken up", named.span, reason)
            self._keep(self.in_force, name, f"the rule '{name}'", layer, True)
            self._touch(name, layer)
        return name

    def _leave_out(self, profile: ProfileRecord, named: Sourced, reason: str, taken_up: set[str]) -> None:
        name = self._rule(named)
        if name is None:
            return
        if name in taken_up:
            self.faults.append(Fault(named.span, f"'{name}' is both taken up and left out"))
            return
        self._must_be_in_force(name, named, profile, "it can't be left out")
        layer = Layer(profile.name, "left out", named.span, reason)
        self._keep(self.in_force, name, f"the rule '{name}'", layer, False)
        self._touch(name, layer)

    def _must_be_in_force(self, rule: str, named: Sourced, profile: ProfileRecord, so: str) -> None:
        # What cuts across localities can't know the edition it meets.
        if not self.stack.is_across(profile) and not self._is_in_force_under(rule, profile):
            left = [one for one, _ in profile.leaves_out if one is not named]
            own = rule in (self.book.renamed.get(one.text, one.text) for one in left)
            why = "is left out by this profile itself" if own else f"isn't in force under the {self.stack.edition} edition here"
            self.faults.append(Fault(named.span, f"'{rule}' {why}: {so}"))

    def _change(self, profile: ProfileRecord, change: RuleChange) -> None:
        name = self._rule(change.rule)
        if name is None:
            return
        self._must_be_in_force(name, change.rule, profile, "nothing of it can be changed")
        clauses = self.book.rules[name].clause.values()
        if change.severity == "correction" and PRACTICE in clauses and not change.because:
            message = f"behind '{name}' stands no clause; say in 'because' which local one makes it a correction"
            self.faults.append(Fault(change.rule.span, message))

        def layer(text: str) -> Layer:
            return Layer(profile.name, text, change.rule.span, change.because)

        if change.severity:
            severity = layer(f"severity {change.severity}")
            self._keep(self.severities, name, f"the severity of '{name}'", severity, change.severity)
            self._touch(name, severity)
        if change.inspection:
            inspection = layer(f"inspection {change.inspection}")
            self._keep(self.inspections, name, f"the inspection of '{name}'", inspection, change.inspection)
            self._touch(name, inspection)
        if not change.severity and not change.inspection:
            self._touch(name, layer("local clause"))

    def _set(self, profile: ProfileRecord, change: SettingChange) -> None:
        owner, _, short = change.name.text.partition(".")
        name = f"{self.book.renamed.get(owner, owner)}.{short}"
        record = self.book.settings.get(name)
        if record is None:
            message = f"there is no setting '{change.name}'.{proposal(change.name.text, self.book.settings)}"
            self.faults.append(Fault(change.name.span, message))
            return
        rule = name.partition(".")[0]
        if rule in self.book.rules:
            if rule != owner:
                self.notes.append(Fault(change.name.span, f"the rule '{owner}' is called '{rule}' now"))
            self._must_be_in_force(rule, change.name, profile, "nobody reads its settings")
        value = self._value(change, record)
        if value is None:
            return
        layer = Layer(profile.name, show_value(value), change.name.span, change.because)
        self._keep(self.settings, name, f"the setting '{name}'", layer, value)
        if change.because:
            self.clauses[rule].append(layer)

    def _value(self, change: SettingChange, record: SettingRecord) -> Value | None:
        """The value, if it can be read and is of the setting's type."""
        reader = Reader()
        value, type_ = read_value(change.value, reader, record.type.dimension)
        if not reader.faults and not same_sort(type_, record.type):
            reader.fault(change.value.span, f"'{record.name}' is {sort_of(record.type)}, and this is {sort_of(type_)}")
        if not reader.faults:
            self._check_words(change, record, value, reader)
        self.faults.extend(reader.faults)
        return None if reader.faults else value

    def _check_words(self, change: SettingChange, record: SettingRecord, value: Value, reader: Reader) -> None:
        """Each word of a fact's setting is one that a plan may say, or that the setting itself has in some edition.

        Of a rule's setting its expression tells.
        """
        if record.name.partition(".")[0] in self.book.rules:
            return
        own = (record.type.of or record.type).words
        known = own if isinstance(value, str) else (*own, *_words_of_plans())
        places = change.value.members if isinstance(change.value, Items) else (change.value,)
        words = value if isinstance(value, tuple) else (value,)
        for word, place in zip(words, places, strict=True):
            if isinstance(word, str) and word not in known:
                near = proposal(word, known) or f" It has {', '.join(own)}."
                reader.fault(place.span, f"'{word}' is no word for '{record.name}'.{near}")
