"""The code in force: what a model edition and the localities on top of it come to, each part with the layers it came through."""

import datetime
from collections.abc import Mapping
from dataclasses import dataclass

from planlint.book.records import ProfileRecord, RuleRecord, Severity, TableRow, Value
from planlint.faults import Fault
from planlint.nearest import proposal
from planlint.positions import Span
from planlint.valuetypes import ValueType


@dataclass(frozen=True, slots=True)
class Confirm:
    """Whom to confirm a finding with: an office, and what to ask or when."""

    office: str
    note: str = ""

    @property
    def text(self) -> str:
        """In one line; never empty."""
        return f"{self.office}. {self.note}" if self.note else self.office


@dataclass(frozen=True, slots=True)
class Layer:
    """What one profile says about a setting or a rule: `text` is the value or the change, `because` its local clause.

    `base` marks where the value starts; its figure stands in a rule file, so only its profile is named.
    """

    profile: str
    text: str
    span: Span
    because: str = ""
    base: bool = False

    def __str__(self) -> str:
        return f"{self.text} {self.profile}" if self.base else f"{self.text} {self.profile} line {self.span.line}"


@dataclass(frozen=True, slots=True)
class Setting:
    """A setting in force: its value, its type, every layer that gave one, the base first, and what it is.

    >>> print(setting.trail)
    3 % model-2020, 2 % tern-county line 14
    """

    name: str
    value: Value
    type: ValueType
    layers: tuple[Layer, ...]
    help: str

    @property
    def trail(self) -> str:
        """The layers in one line."""
        return ", ".join(map(str, self.layers))


@dataclass(frozen=True, slots=True)
class RuleInForce:
    """A rule as it is in force: `clause_lines` has the local clause first, then the edition's; `layers` what changed the rule.

    `confirm_with` is whom the layer names that changed it last.
    """

    record: RuleRecord
    severity: Severity
    inspection: str
    clause_lines: tuple[str, ...]
    layers: tuple[Layer, ...]
    confirm_with: Confirm

    @property
    def name(self) -> str:
        """The rule's name."""
        return self.record.name

    @property
    def instead_of(self) -> tuple[str, ...]:
        """The rules that this one speaks for where it is broken."""
        return tuple(named.text for named in self.record.instead_of)


@dataclass(frozen=True, slots=True)
class Code:
    """The profile or profiles of one plan, resolved.

    `rules` are those in force, by name; `known_rules` all there are, with what profiles add. `settings` belong to rules and to
    facts alike: `rule-or-fact.setting`. `renamed` leads from former rule names to present ones. `files` lists every file
    and package that took part. `notes` says what works but should be written otherwise. `table_rows`
    take the place of the tables' own, the most general profile first. `preview` says, where one of
    the profiles previews a coming edition, what it holds of it; every output prints it.
    """

    edition: int
    title: str
    names: tuple[str, ...]
    confirm_with: Confirm
    checked: datetime.date | None
    profiles: tuple[ProfileRecord, ...]
    files: tuple[str, ...]
    rules: Mapping[str, RuleInForce]
    known_rules: Mapping[str, RuleRecord]
    settings: Mapping[str, Setting]
    renamed: Mapping[str, str]
    changes_count: int
    table_rows: tuple[TableRow, ...]
    notes: tuple[Fault, ...] = ()
    preview: str = ""

    @property
    def tables_replaced(self) -> dict[str, list[dict[str, str]]]:
        """The rows that take the place of others, by table, as `planlint.book.tables.Tables` wants them."""
        tables: dict[str, list[dict[str, str]]] = {}
        for row in self.table_rows:
            tables.setdefault(row.table.text, []).append(row.texts)
        return tables

    @property
    def setting_helps(self) -> dict[str, str]:
        """What each setting is, by its full name."""
        return {name: one.help for name, one in self.settings.items()}

    def present(self, name: str) -> str:
        """The present name of a rule or setting, of which the given one may be a former name."""
        rule, dot, short = name.partition(".")
        return f"{self.renamed.get(rule, rule)}{dot}{short}"

    def setting(self, name: str) -> Setting:
        """A setting by its full name. Raises LookupError with the nearest one."""
        found = self.settings.get(name)
        if found is None:
            raise LookupError(f"there is no setting '{name}'.{proposal(name, self.settings)}")
        return found
