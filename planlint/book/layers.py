"""Resolves profiles into the code in force: model edition, state, county, and what cuts across them, laid on one another.

Layers are merged by presence: a value that a profile gives counts, whatever it is, and `no`, `0` and absent are three things.
"""

from collections.abc import Iterator, Sequence
from pathlib import Path

from planlint.book.gathering import Gathering
from planlint.book.in_force import Code, Confirm, Layer, RuleInForce, Setting
from planlint.book.layouts import LAYOUTS
from planlint.book.opening import Book, Volume, open_book, open_volume, own_volume
from planlint.book.records import PRACTICE, SEVERITIES, ProfileRecord, RuleRecord, SettingRecord
from planlint.book.shelves import shelves, shown_path
from planlint.book.stack import Stack, stack_profiles
from planlint.book.values import show_value, type_of_words
from planlint.faults import Fault, Faults


def resolve(
    names: Sequence[str],
    *,
    beside: Path | None = None,
    folders: Sequence[Path] = (),
    own: Path | None = None,
) -> Code:
    """The code in force under these profiles.

    `beside` is the folder `profiles` beside the plan, `folders` are more that are searched, and `own` stands in for planlint's
    own `rules/`. Raises Faults with everything that is wrong in profiles, settings or rule files. A name that was handed in and
    can't be found has no place of its own: its fault's span is `planlint.book.NOWHERE`.
    """
    volume = own_volume() if own is None else open_volume(own, shown_path(own))
    stack = stack_profiles(names, shelves(volume.profiles, beside, folders))
    book = open_book(volume, stack.profiles)
    resolving = _Resolving(stack, book)
    code = resolving.code(volume)
    if resolving.faults:
        raise Faults(resolving.faults)
    return code


class _Resolving:
    """Makes the code out of what was gathered."""

    def __init__(self, stack: Stack, book: Book) -> None:
        self.stack = stack
        self.book = book
        self.gathered = Gathering(stack, book)
        self.faults = self.gathered.faults

    def code(self, volume: Volume) -> Code:
        """The code in force; it holds only if there are no faults."""
        named = self.stack.named
        rules = {name: self._rule(record) for name, record in self.book.rules.items() if self.gathered.is_in_force(name)}
        self.faults.extend(_harder_than_their_speaker(rules))
        settings = {name: self._setting(record) for name, record in self.book.settings.items()}
        checked = [one.checked for one in named if one.checked]
        return Code(
            edition=self.stack.edition,
            title=" and ".join(one.title for one in named),
            names=tuple(one.name for one in named),
            confirm_with=next(filter(None, map(self._confirm, named)), Confirm("")),
            checked=min(checked, default=None),
            profiles=self.stack.profiles,
            files=(volume.called, *self.book.files),
            rules=rules,
            known_rules=self.book.rules,
            settings=settings,
            renamed=self.book.renamed,
            changes_count=self._changes(settings, rules),
            table_rows=self.book.table_rows,
            notes=tuple(self.gathered.notes),
            preview=" ".join(one.preview for one in self.stack.profiles if one.preview),
        )

    def _setting(self, record: SettingRecord) -> Setting:
        ancestors = self.stack.ancestors
        rule = record.name.partition(".")[0]
        value = record.for_edition(self.stack.edition)
        base = Layer(self.book.added_by.get(rule, self._model.name), show_value(value), record.span, record.clause, base=True)
        said = self.gathered.settings.get(record.name)
        winner = said.winner(ancestors) if said else None
        if said is None or winner is None:
            return Setting(record.name, value, type_of_words(value, record.type), (base,), record.help)
        layers = (base, *(one.layer for one in said.said))
        return Setting(record.name, winner.value, type_of_words(winner.value, record.type), layers, record.help)

    @property
    def _model(self) -> ProfileRecord:
        return next(one for one in self.stack.profiles if one.edition)

    def _rule(self, record: RuleRecord) -> RuleInForce:
        ancestors, gathered = self.stack.ancestors, self.gathered
        severity = gathered.severities[record.name].winner(ancestors) if record.name in gathered.severities else None
        inspection = gathered.inspections[record.name].winner(ancestors) if record.name in gathered.inspections else None
        layers = gathered.layers.get(record.name, [])
        return RuleInForce(
            record,
            severity.value if severity else record.severity,
            inspection.value if inspection else record.inspection,
            tuple(self._clause_lines(record)),
            tuple(layers),
            self._confirm_of(record, layers),
        )

    def _clause_lines(self, record: RuleRecord) -> Iterator[str]:
        local = self.gathered.clauses.get(record.name)
        if local:
            yield f"{local[-1].because} ({local[-1].profile})"
        edition = self.stack.edition
        newest = edition if edition in record.clause else max(record.clause)
        clause = "common practice, no clause" if record.clause[newest] == PRACTICE else record.clause[newest]
        if record.name in self.book.added_by:
            yield f"{clause} ({self.book.added_by[record.name]})"
        else:
            yield f"{newest}: {clause}" + ("" if newest == edition else f" (not in the {edition} edition)")

    def _confirm_of(self, record: RuleRecord, layers: Sequence[Layer]) -> Confirm:
        """The office of whoever added the rule, changed it or gave it a figure last, else of the first that the plan names."""
        said = [self.gathered.settings[one.name].said for one in record.settings.values() if one.name in self.gathered.settings]
        touched = {layer.profile for layer in layers} | {one.layer.profile for opinions in said for one in opinions}
        touched.add(self.book.added_by.get(record.name, ""))
        last = [one for one in self.stack.profiles if one.name in touched][-1:]
        return next(filter(None, map(self._confirm, (*last, *self.stack.named))), Confirm(""))

    def _confirm(self, profile: ProfileRecord) -> Confirm | None:
        """The office of the profile, or of the nearest one that it is based on; what cuts across localities may have none."""
        for one in reversed(self.stack.chain(profile)):
            if one.office:
                return Confirm(one.office, one.note)
        return None

    def _changes(self, settings: dict[str, Setting], rules: dict[str, RuleInForce]) -> int:
        """How many rules, settings and tables aren't as the model edition has them."""
        edition, records = self.stack.edition, self.book.rules
        shifted = [record.name for record in records.values() if (record.name in rules) != self._is_in_model(record)]
        altered = [name for name, rule in rules.items() if rule.severity != records[name].severity]
        moved = [name for name, rule in rules.items() if rule.inspection != records[name].inspection]
        reset = [name for name, one in settings.items() if one.value != self.book.settings[name].for_edition(edition)]
        rows = {
            (row.table.text, *(row.texts.get(part, "") for part in LAYOUTS[row.table.text].key)) for row in self.book.table_rows
        }
        return len(shifted) + len(altered) + len(moved) + len(reset) + len(rows)

    def _is_in_model(self, record: RuleRecord) -> bool:
        return record.name not in self.book.added_by and self.stack.edition in record.clause


def _harder_than_their_speaker(rules: dict[str, RuleInForce]) -> Iterator[Fault]:
    """Rules that another stands in for, though they are more severe than it under this code."""
    for rule in rules.values():
        for named in rule.record.instead_of:
            other = rules.get(named.text)
            if other and SEVERITIES.index(other.severity) < SEVERITIES.index(rule.severity):
                message = f"'{named}' is a {other.severity} here, and '{rule.name}', which speaks for it, a {rule.severity}"
                yield Fault(named.span, message)
