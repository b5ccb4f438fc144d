"""All rules and settings there are for a stack of profiles: planlint's own, and what profiles add."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from planlint import __version__
from planlint.book.csvfile import Table, WrongCell
from planlint.book.layouts import LAYOUTS
from planlint.book.profiles import near_file
from planlint.book.records import ProfileRecord, RuleRecord, SettingRecord, TableRow
from planlint.book.rules import instead_of_faults, load_rules, read_rule, same_name
from planlint.book.settings import load_settings
from planlint.book.shelves import Shelf
from planlint.book.source import Sourced
from planlint.data import data_folder
from planlint.faults import Fault, Faults
from planlint.nearest import proposal

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable


@dataclass(frozen=True, slots=True)
class Volume:
    """The rules and settings of one folder laid out like `rules/`."""

    folder: "Path | Traversable"
    shown: str
    rules: Mapping[str, RuleRecord]
    fact_settings: Mapping[str, SettingRecord]

    @property
    def called(self) -> str:
        """How the report's list of files calls it."""
        return f"planlint {__version__}: rules" if self.shown == "rules" else self.shown

    @property
    def profiles(self) -> Shelf:
        """Its folder of profiles."""
        return Shelf(self.folder / "profiles", f"{self.shown}/profiles")


@dataclass(frozen=True, slots=True)
class Book:
    """Every rule and setting there is. `added_by` leads from a rule that a profile adds to that profile."""

    rules: Mapping[str, RuleRecord]
    settings: Mapping[str, SettingRecord]
    renamed: Mapping[str, str]
    added_by: Mapping[str, str]
    table_rows: tuple[TableRow, ...]
    files: tuple[str, ...]


def open_volume(folder: "Path | Traversable", shown: str = "rules") -> Volume:
    """Read a folder laid out like `rules/`. Raises Faults with all that is wrong in any of its rule files and settings."""
    faults: list[Fault] = []
    rules: Mapping[str, RuleRecord] = {}
    settings: Mapping[str, SettingRecord] = {}
    try:
        rules = load_rules(folder, shown)
    except Faults as found:
        faults.extend(found.faults)
    try:
        if (folder / "settings.yaml").is_file():
            settings = load_settings(folder / "settings.yaml", f"{shown}/settings.yaml")
    except Faults as found:
        faults.extend(found.faults)
    if faults:
        raise Faults(faults)
    return Volume(folder, shown, rules, settings)


@cache
def own_volume() -> Volume:
    """What travels with planlint. Raises Faults."""
    return open_volume(data_folder("rules"))


def open_book(volume: Volume, profiles: Sequence[ProfileRecord]) -> Book:
    """The volume with what these profiles add. Raises Faults."""
    opening = _Opening(volume)
    for profile in profiles:
        opening.add(profile)
    opening.faults.extend(instead_of_faults(opening.rules))
    renamed = dict(opening.former_names())
    settings = dict(opening.settings())
    if opening.faults:
        raise Faults(opening.faults)
    return Book(opening.rules, settings, renamed, opening.added_by, tuple(opening.table_rows), tuple(opening.files))


def _row_fault(row: TableRow) -> Fault | None:
    """What doesn't fit about a row: its table, a column, a cell."""
    if row.table.text not in LAYOUTS:
        near = proposal(row.table.text, LAYOUTS) or f" There are: {', '.join(LAYOUTS)}."
        return Fault(row.table.span, f"there is no table '{row.table}'.{near}")
    try:
        Table(row.table.text, [row.texts])
    except WrongCell as fault:
        wrong = (row.columns if fault.by_name else row.cells).get(fault.column)
        return Fault(wrong.span if wrong else row.span, str(fault))
    return None


class _Opening:
    def __init__(self, volume: Volume) -> None:
        self.volume = volume
        self.rules = dict(volume.rules)
        self.added_by: dict[str, str] = {}
        self.table_rows: list[TableRow] = []
        self.files: list[str] = []
        self.faults: list[Fault] = []

    def add(self, profile: ProfileRecord) -> None:
        """Take in the rules and the table rows of one profile."""
        self.files.append(profile.file)
        for added in profile.adds:
            path = self._file(profile, added)
            if path is not None:
                self._add_rule(profile, path, self._shown(profile, added))
        for row in profile.tables:
            fault = _row_fault(row)
            if fault:
                self.faults.append(fault)
            else:
                self.table_rows.append(row)

    def _add_rule(self, profile: ProfileRecord, path: "Path | Traversable", shown: str) -> None:
        try:
            record = read_rule(path, shown, profile.name)
        except Faults as found:
            self.faults.extend(found.faults)
            return
        if record.name in self.rules:
            self.faults.append(same_name(record, self.rules[record.name]))
        self.rules[record.name] = record
        self.added_by[record.name] = profile.name
        self.files.append(shown)

    @staticmethod
    def _shown(profile: ProfileRecord, relative: Sourced) -> str:
        folder, slash, _ = profile.file.rpartition("/")
        return f"{folder}{slash}{relative}"

    def _file(self, profile: ProfileRecord, relative: Sourced) -> "Path | Traversable | None":
        """The file that a profile names, if it is there and really lies in the profile's folder."""
        path = profile.folder.joinpath(*relative.text.split("/"))
        if not path.is_file():
            near = near_file(profile, relative.text)
            self.faults.append(Fault(relative.span, f"there is no file '{relative}' in the profile's folder.{near}"))
            return None
        folder = profile.folder
        if isinstance(path, Path) and isinstance(folder, Path) and not path.resolve().is_relative_to(folder.resolve()):
            self.faults.append(Fault(relative.span, f"'{relative}' leads out of the profile's folder"))
            return None
        return path

    def former_names(self) -> Iterator[tuple[str, str]]:
        """Former names of rules with the present ones."""
        met: dict[str, str] = {}
        for record in self.rules.values():
            for old in record.renamed:
                if old in self.rules or old in met:
                    taken = old if old in self.rules else met[old]
                    self.faults.append(Fault(record.span, f"'{old}' can't be a former name of '{record.name}': '{taken}' has it"))
                met[old] = record.name
                yield old, record.name

    def settings(self) -> Iterator[tuple[str, SettingRecord]]:
        """Every setting by its full name, of facts and of rules."""
        facts = self.volume.fact_settings
        yield from facts.items()
        for record in self.rules.values():
            for setting in record.settings.values():
                if setting.name in facts:
                    other = facts[setting.name].span
                    self.faults.append(Fault(setting.span, f"a setting '{setting.name}' is there already: {other}"))
                yield setting.name, setting
