"""What one rule file, one setting and one profile say: frozen records, each part with its place in its file."""

import datetime
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from planlint.book.source import Node, Sourced
from planlint.positions import Span
from planlint.quantities import Quantity
from planlint.trade import WireSizes
from planlint.valuetypes import ValueType

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable
    from pathlib import Path

Severity = Literal["correction", "caution", "advice"]
SEVERITIES: tuple[Severity, ...] = ("correction", "caution", "advice")
INSPECTIONS = ("footing", "underground", "service", "rough-in", "final")
HAZARDS = ("fire", "shock", "arc-flash", "rescue", "equipment", "cost-of-rework")
EDITIONS = (2017, 2020, 2023)
# Editions of which only some clauses are known: no plan is held against one, but a profile may preview it.
PREVIEWED = (2026,)
PRACTICE = "practice"

Value = Quantity | int | float | bool | str | WireSizes | tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SettingRecord:
    """A number or word that a profile may change, as a rule file or `rules/settings.yaml` declares it.

    `name` is the full one, `rule-or-fact.setting`. `values` has one entry under None where all editions share it.
    """

    name: str
    values: Mapping[int | None, Value]
    type: ValueType
    help: str
    clause: str
    span: Span

    def for_edition(self, edition: int) -> Value:
        """The value under an edition: its own, else that of the nearest later one, else of the nearest earlier one."""
        if None in self.values:
            return self.values[None]
        given = sorted(year for year in self.values if year is not None)
        later = [year for year in given if year >= edition]
        return self.values[later[0] if later else given[-1]]


@dataclass(frozen=True, slots=True)
class RuleRecord:
    """One rule file. Expressions and templates are kept as text with their places; `planlint.rulebook` compiles them.

    `topic` is the folder it lies in, `point` says what is right in the words of a checklist, `clause` leads from an edition to
    its clause (an edition without one is left out), and `settings` are keyed by their short names. `instead_of` and `renamed`
    name other rules and former names of this one.
    """

    name: str
    topic: str
    about: tuple[str, ...]
    when: Sourced | None
    must: Sourced
    at: Sourced
    severity: Severity
    hazard: str
    inspection: str
    clause: Mapping[int, str]
    finding: Sourced
    remedy: Sourced
    why: str
    point: Sourced | None
    examples: Mapping[str, Sourced]
    settings: Mapping[str, SettingRecord]
    instead_of: tuple[Sourced, ...]
    renamed: tuple[str, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class RuleChange:
    """What a profile's `changes` says about one rule; None where it says nothing."""

    rule: Sourced
    severity: Severity | None
    inspection: str | None
    because: str


@dataclass(frozen=True, slots=True)
class SettingChange:
    """A value that a profile gives to a setting, as a node until the setting's type is known, with its local clause if any."""

    name: Sourced
    value: Node
    because: str


@dataclass(frozen=True, slots=True)
class TableRow:
    """Cells that a profile puts in the place of a table's own, by their columns, with its local clause if any."""

    table: Sourced
    profile: str
    columns: Mapping[str, Sourced]
    cells: Mapping[str, Sourced]
    because: str
    span: Span

    @property
    def texts(self) -> dict[str, str]:
        """The cells as they are written."""
        return {column: cell.text for column, cell in self.cells.items()}

    def __str__(self) -> str:
        return f"{self.table}: {', '.join(f'{column} {cell}' for column, cell in self.texts.items())}"


@dataclass(frozen=True, slots=True)
class Case:
    """A plan that a profile is tried on, and the rules that must come out broken there."""

    plan: Sourced
    expect: tuple[Sourced, ...]


@dataclass(frozen=True, slots=True)
class ProfileRecord:
    """One profile file. `edition` belongs to a model, `based_on` to a locality; a profile with neither cuts across localities.

    `preview` says of a profile that stands for a coming edition what it holds of it, in words for every report.

    `takes_up` and `leaves_out` pair a rule's name with the local clause and reason. `tables` are the rows that replace some of
    the book's, `adopted_by` is the ordinance or law behind it all. The paths of `adds` and `cases` start at `folder`.
    """

    name: str
    title: str
    file: str
    folder: "Path | Traversable"
    edition: int | None
    based_on: Sourced | None
    office: str
    note: str
    checked: datetime.date | None
    preview: str
    in_force_from: datetime.date | None
    kept_by: str
    adopted_by: str
    takes_up: tuple[tuple[Sourced, str], ...]
    leaves_out: tuple[tuple[Sourced, str], ...]
    changes: tuple[RuleChange, ...]
    settings: tuple[SettingChange, ...]
    adds: tuple[Sourced, ...]
    tables: tuple[TableRow, ...]
    cases: tuple[Case, ...]
    renamed: tuple[str, ...]
    span: Span
