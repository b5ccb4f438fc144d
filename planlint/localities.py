"""For the people who keep a profile: how two codes differ, and what a profile's own cases say of it."""

import datetime
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from planlint.book import Code, ProfileRecord, RuleInForce
from planlint.book.csvfile import Table
from planlint.book.profiles import near_file
from planlint.book.source import read_source
from planlint.desk import Desk
from planlint.expressions.template import printed
from planlint.faults import Fault, Faults
from planlint.language import Unopened
from planlint.positions import Span
from planlint.report import Report, Subject

STALE_AFTER_YEARS = 2
_YEAR = re.compile(r"(?<=; )[0-9]{4}: ")


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing in which two codes differ: a rule, a setting or a table's row; what each has, empty where it has none."""

    sort: str
    name: str
    one: str
    other: str


@dataclass(frozen=True, slots=True)
class Shift:
    """A finding that a plan has under one code only, or under both with another severity or date."""

    plan: str
    rule: str
    subject: Subject
    one: str
    other: str


def differences(one: Code, other: Code) -> Iterator[Difference]:
    """Rules in force, their severity, inspection and clauses; settings; rows of tables."""
    for name in sorted({*one.known_rules, *other.known_rules}):
        mine, theirs = (_rule_words(code.rules.get(name)) for code in (one, other))
        if _without_years(mine) != _without_years(theirs):
            yield Difference("rule", name, mine, theirs)
    for name in sorted({*one.settings, *other.settings}):
        mine, theirs = (printed(code.settings[name].value) if name in code.settings else "" for code in (one, other))
        if mine != theirs:
            yield Difference("setting", name, mine, theirs)
    for name in sorted({*one.tables_replaced, *other.tables_replaced}):
        mine, theirs = (_rows(code.tables_replaced.get(name, [])) for code in (one, other))
        if mine != theirs:
            yield Difference("table", name, mine, theirs)


def _rule_words(rule: RuleInForce | None) -> str:
    if rule is None:
        return ""
    return f"{rule.severity}, {rule.inspection}; {'; '.join(rule.clause_lines)}"


def _without_years(words: str) -> str:
    """The clauses without the editions before them: the year alone is no difference."""
    return _YEAR.sub("", words)


def _rows(rows: Sequence[Mapping[str, str]]) -> str:
    return "; ".join(", ".join(f"{column} {cell}" for column, cell in row.items() if cell) for row in rows)


def shifts(plans: Sequence[Path], one: Desk, other: Desk) -> Iterator[Shift]:
    """What two codes find differently in plans. Raises as Desk.check_file does."""
    for path in plans:
        reports = [desk.check_file(path) for desk in (one, other)]
        found = [_answers(report) for report in reports]
        for key in sorted({*found[0], *found[1]}, key=lambda key: (key[0], key[1].name)):
            mine, theirs = (answers.get(key, "") for answers in found)
            if mine != theirs:
                yield Shift(reports[0].plan, *key, mine, theirs)


def _answers(report: Report) -> dict[tuple[str, Subject], str]:
    answers = {(check.rule, check.subject): "open question" for check in report.open_checks}
    return answers | {(one.rule, one.subject): f"{one.severity}, {one.inspection}" for one in report.findings}


@dataclass(slots=True)
class Trial:
    """What came out when a profile was tried on its own cases.

    `wrong`: what is no profile yet, and cases that come out otherwise. `warnings`: what works and deserves a look. `cases` is
    how many were tried; `unreached` names the rules in force that no case decides, those first that the profile touches.
    `own` says what the profile finds in its cases that its base doesn't.
    """

    profile: str
    file: str = ""
    wrong: list[Fault] = field(default_factory=list)
    warnings: list[Fault] = field(default_factory=list)
    cases: int = 0
    touched_unreached: list[str] = field(default_factory=list)
    unreached: list[str] = field(default_factory=list)
    own: list[Shift] = field(default_factory=list)


def try_out(name: str, folders: Sequence[Path], today: datetime.date) -> Trial:
    """Resolve a profile, run its cases, and say what in it does nothing. `today` decides whether it was checked of late."""
    trial = Trial(name)
    desk = Desk((name,), folders)
    try:
        code = desk.code()
    except Faults as found:
        trial.wrong.extend(found.faults)
        return trial
    record = next(one for one in code.profiles if one.name in code.names)
    trial.file = record.file
    trial.warnings.extend(code.notes)
    trial.wrong.extend(_against_schema(record))
    base = Desk((record.based_on.text,), folders) if record.based_on else None
    trial.warnings.extend(_dead(record, code, base.code() if base else None))
    trial.warnings.extend(_stale(record, today))
    reached: set[str] = set()
    for case in record.cases:
        trial.cases += 1
        _run_case(case.plan.text, case.plan.span, [code.present(one.text) for one in case.expect], record, desk, trial, reached)
    if base and trial.cases:
        trial.own.extend(_own_findings(record, desk, base))
    touched = {code.present(name) for name in _touched(record)}
    trial.touched_unreached = sorted(name for name in touched if name in code.rules and name not in reached)
    trial.unreached = sorted(name for name in code.rules if name not in reached and name not in touched)
    return trial


def _against_schema(record: ProfileRecord) -> list[Fault]:
    """The second look, by the JSON Schema that editors use: the loader took the file, so what the schema refuses is our fault."""
    from planlint.book.schemas import schema_faults

    node, _ = read_source(record.folder / f"{record.name}.yaml", record.file)
    said = "planlint reads this, but its schema for editors doesn't take it: a fault of planlint's, please report it"
    return [Fault(fault.span, said) for fault in schema_faults(node, "profile")]


def _touched(record: ProfileRecord) -> set[str]:
    """The rules that a profile takes up, changes, adds or gives a figure to."""
    names = {rule.text for rule, _ in record.takes_up} | {change.rule.text for change in record.changes}
    added = {path.text.rpartition("/")[2].removesuffix(".yaml") for path in record.adds}
    return names | added | {setting.name.text.partition(".")[0] for setting in record.settings}


def _dead(record: ProfileRecord, code: Code, base: Code | None) -> Iterator[Fault]:
    """What changes nothing, for the base has it already. (What is said of a rule that isn't in force is no profile at all.)"""
    for change in record.settings:
        layers = code.setting(code.present(change.name.text)).layers
        mine = next((number for number, layer in enumerate(layers) if layer.profile == record.name and not layer.base), None)
        if mine and layers[mine].text == layers[mine - 1].text:
            yield Fault(change.name.span, f"{change.name} is {layers[mine].text} already in {layers[mine - 1].profile}")

    for row in record.tables:
        own = Table(row.table.text, base.tables_replaced.get(row.table.text, ()) if base else ())
        there = own.find(*(row.texts.get(column, "") for column in own.layout.key)) or {}
        for column, cell in row.cells.items():
            if column not in own.layout.key and cell.text == there.get(column):
                yield Fault(cell.span, f"{column} of {row.table} is {cell} there already")
    for rule in record.changes:
        before = base.rules.get(base.present(rule.rule.text)) if base else None
        for new, old in ((rule.severity, before.severity), (rule.inspection, before.inspection)) if before else ():
            if new and new == old:
                yield Fault(rule.rule.span, f"{rule.rule} is {new} already in {record.based_on}")


def _stale(record: ProfileRecord, today: datetime.date) -> Iterator[Fault]:
    if record.checked is None:
        yield Fault(record.span, "it doesn't say when it was last held against the local code: checked: YYYY-MM-DD")
    elif (today.year - record.checked.year, (today.month, today.day)) > (
        STALE_AFTER_YEARS,
        (record.checked.month, record.checked.day),
    ):
        yield Fault(record.span, f"it was last checked on {record.checked}, more than {STALE_AFTER_YEARS} years ago")
    if record.in_force_from and record.in_force_from > today:
        yield Fault(record.span, f"it is in force from {record.in_force_from} on only")


def _run_case(plan: str, at: Span, expect: list[str], record: ProfileRecord, desk: Desk, trial: Trial, reached: set[str]) -> None:
    try:
        report = desk.check_file(_place(record, plan))
    except Faults as found:
        trial.wrong.append(Fault(at, f"the case {plan} can't be read in full: {found.faults[0].message}"))
        trial.wrong.extend(found.faults)
        return
    except Unopened as fault:
        trial.wrong.append(Fault(at, f"the case {plan}: {fault.message}.{near_file(record, plan)}"))
        return
    broken = {finding.rule for finding in report.findings}
    reached |= broken | {rule for rule, _ in report.met}
    for rule in sorted(broken - set(expect)):
        finding = next(one for one in report.findings if one.rule == rule)
        trial.wrong.append(Fault(at, f"the case {plan} has a finding that isn't expected, {rule}: {finding.message}"))
    for rule in sorted(set(expect) - broken):
        trial.wrong.append(Fault(at, f"the case {plan} doesn't break {rule}, which is expected"))
    for failed in report.not_checked:
        trial.wrong.append(Fault(at, f"the case {plan}: {failed.rule} failed by a fault of planlint: {failed.message}"))


def _place(record: ProfileRecord, plan: str) -> Path:
    return Path(str(record.folder)) / plan


def _own_findings(record: ProfileRecord, desk: Desk, base: Desk) -> Iterator[Shift]:
    for case in record.cases:
        try:
            yield from shifts([_place(record, case.plan.text)], base, desk)
        except (Faults, Unopened):
            continue  # told as a wrong case already
