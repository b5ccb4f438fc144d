"""Runs each rule in force on each element it is about, and gathers what came out into a report."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any, Literal

from planlint.book import Code, TableRow
from planlint.expressions import Verdict
from planlint.facts.engine import Job, Working
from planlint.permissions import apply_permissions
from planlint.plan import KINDS, Element, Need
from planlint.plan.graph import Graph
from planlint.report import (
    INSPECTIONS,
    SEVERITIES,
    Covered,
    Finding,
    Needed,
    NotChecked,
    OpenCheck,
    ProfileHead,
    Related,
    Report,
    Subject,
    WorkingStep,
)
from planlint.rulebook import CompiledRule

_MOST_ROWS = 3
Answer = Literal["met", "broken", "undecided", "not-applicable", "not-checked"]


@dataclass(slots=True)
class Result:
    """What one rule came to on one element. `finding` where broken, `waiting` where undecided, `fault` where not checked."""

    rule: CompiledRule
    element: Element
    answer: Answer
    finding: Finding | None = None
    waiting: OpenCheck | None = None
    fault: NotChecked | None = None
    covered_by: str = ""


def check_plan(graph: Graph, code: Code, rules: list[CompiledRule], tables: Any, head: ProfileHead, path: str = "") -> Report:
    """Hold one plan against compiled rules. Pure: the same plan and code give the same report.

    Raises planlint.faults.Faults where a permission of the plan names what there is not.
    """
    job = Job(graph, code, tables)
    results = list(run_rules(job, rules))
    report = Report(graph.plan.name, path, head, passed=_passed(graph))
    granted = apply_permissions(graph, code, results, report)
    _cover(results, granted)
    for result in results:
        _file(result, granted, report)
    report.findings.sort(key=lambda finding: _finding_order(finding, report.passed))
    report.open_checks.sort(key=_open_order)
    report.checklist.sort(key=_open_order)
    report.unmentioned = _unmentioned(graph, rules)
    return report


def run_rules(job: Job, rules: Iterable[CompiledRule]) -> Iterator[Result]:
    """Every rule on every element it is about, in the order of the rules and of the plan."""
    by_kind: dict[str, list[Element]] = {}
    for element in job.graph.elements:
        by_kind.setdefault(element.kind, []).append(element)
    for rule in rules:
        for kind in rule.rule.record.about:
            for element in by_kind.get(kind, ()):
                yield run_rule(rule, element, job)


def run_rule(rule: CompiledRule, element: Element, job: Job) -> Result:
    """One rule on one element. A failure inside is a result of its own, "not checked"; nothing else stops."""
    try:
        with job.observing(element) as working:
            answer, verdict = _judge(rule, element, job)
        result = Result(rule, element, answer)
        if answer == "broken":
            result.finding = _finding(rule, element, job, verdict, working)
        elif answer == "undecided":
            result.waiting = _waiting(rule, element, job, verdict)
        return result
    except Exception as fault:  # a fault of ours in one rule must not hide the others; it can't pass for a result either
        message = f"{type(fault).__name__}: {fault}"
        failed = NotChecked(rule.name, subject_of(element), element.line, message)
        return Result(rule, element, "not-checked", fault=failed)


def _judge(rule: CompiledRule, element: Element, job: Job) -> tuple[Answer, Verdict]:
    applies = _applies(rule, element, job)
    if applies and applies.answer == "no":
        return "not-applicable", applies
    verdict = rule.must.judge(element, job)
    if verdict.answer == "yes":
        return "met", verdict
    if applies and applies.answer == "unknown":
        needs = tuple(dict.fromkeys((*applies.needs, *verdict.needs)))
        half_broken = verdict.answer == "no" or verdict.half_broken
        return "undecided", replace(verdict, answer="unknown", needs=needs, half_broken=half_broken, whether=applies.needs)
    return ("broken" if verdict.answer == "no" else "undecided"), verdict


def _applies(rule: CompiledRule, element: Element, job: Job) -> Verdict | None:
    """What `when` comes to. Values that nothing can compare, sizes of two metals, leave open whether the rule applies."""
    applies = rule.when.judge(element, job) if rule.when else None
    if applies and applies.answer == "no" and applies.notes:
        return Verdict("unknown", tuple(Need(element, "", note=note) for note in applies.notes))
    return applies


def subject_of(element: Element) -> Subject:
    """The element as a report names it."""
    return Subject(element.kind, element.name)


def _finding(rule: CompiledRule, element: Element, job: Job, verdict: Verdict, working: Working) -> Finding:
    where, attribute = rule.at.locate(element, job, verdict)
    message = rule.finding.render(element, job, verdict.broken)
    if verdict.notes:
        message = " ".join((message, *verdict.notes))
    in_force = rule.rule
    return Finding(
        rule=rule.name,
        severity=in_force.severity,
        subject=subject_of(element),
        position=where.position(attribute),
        attribute=attribute,
        message=message,
        remedy=rule.remedy.render(element, job, verdict.broken),
        clause=in_force.clause_lines,
        inspection=in_force.inspection,
        hazard=in_force.record.hazard,
        confirm=in_force.confirm_with.text,
        working=tuple(_steps(working)),
        related=tuple(_related(element, where, attribute, working)),
        layers=tuple(_layers(rule, job.code, working)),
        assumed=tuple(_assumed(working)),
    )


def _all_workings(root: Working) -> Iterator[Working]:
    seen: set[int] = set()

    def walk(working: Working) -> Iterator[Working]:
        for used in working.uses:
            if id(used) not in seen:
                seen.add(id(used))
                yield from walk(used)
                yield used

    yield from walk(root)
    yield root


def _steps(root: Working) -> Iterator[WorkingStep]:
    for working in _all_workings(root):
        for step in working.steps:
            yield WorkingStep(working.spec.name, subject_of(working.element), step.text, step.value, step.source)


def _related(element: Element, where: Element, attribute: str, root: Working) -> Iterator[Related]:
    """The other elements that the finding rests on: the one it stands at, and each whose facts have steps in its working."""
    facts: dict[int, list[str]] = {}
    met: dict[int, Element] = {}
    for working in _all_workings(root):
        other = working.element
        if working.steps and other is not element and other is not where:
            met[id(other)] = other
            facts.setdefault(id(other), []).append(working.spec.name)
    if where is not element:
        yield Related(subject_of(where), where.position(attribute), f"{attribute} of {where.name}")
    for key, other in met.items():
        yield Related(subject_of(other), other.line, f"{', '.join(facts[key])} of {other.name}")


def _assumed(root: Working) -> Iterator[str]:
    taken = {(id(element), name): (element, name) for working in _all_workings(root) for element, name in working.read.defaults}
    for element, name in taken.values():
        default = type(element).attributes[name].default
        yield f"{name} of {element.name}, {default}"


def _layers(rule: CompiledRule, code: Code, root: Working) -> Iterator[str]:
    """Where figures and severity come from more than one layer: settings of the rule and of its facts, and rows of tables."""
    read = [name for working in _all_workings(root) for name in working.settings]
    for name in dict.fromkeys((*rule.settings, *read)):
        setting = code.setting(name)
        if len(setting.layers) > 1:
            yield f"{name.partition('.')[2]}: {setting.trail}"
    yield from _table_layers(code, {name for working in _all_workings(root) for name in working.tables})
    for layer in rule.rule.layers:
        yield str(layer)


def _table_layers(code: Code, tables: set[str]) -> Iterator[str]:
    """The rows that profiles put into these tables; of many the number and the first line only."""
    groups: dict[tuple[str, str], list[TableRow]] = {}
    for row in code.table_rows:
        if row.table.text in tables:
            groups.setdefault((row.table.text, row.profile), []).append(row)
    for (table, profile), rows in groups.items():
        if len(rows) > _MOST_ROWS:
            yield f"{table}: {len(rows)} rows {profile} from line {rows[0].span.line} on"
            continue
        for row in rows:
            yield f"{row} {profile} line {row.span.line}" + (f" ({row.because})" if row.because else "")


def _waiting(rule: CompiledRule, element: Element, job: Job, verdict: Verdict) -> OpenCheck:
    needs = [need for need in verdict.needs if not need.site] or list(verdict.needs)
    where, attribute = rule.at.locate(element, job, verdict)
    return OpenCheck(
        rule.name,
        rule.rule.severity,
        subject_of(element),
        where.position(attribute),
        rule.rule.inspection,
        tuple(needed(need) for need in needs),
        verdict.half_broken,
        rule.rule.confirm_with.text,
        tuple(needed(need) for need in needs if need in verdict.whether),
    )


def needed(need: Need) -> Needed:
    """A need as a report names it."""
    element = need.element
    at = next((element.value(name).name for name in ("at", "panel") if name in element.attributes and element.states(name)), "")
    return Needed(subject_of(element), need.attribute, element.position(need.attribute), need.complete, need.note, at)


def _is_site(result: Result) -> bool:
    assert result.waiting is not None
    for need in result.waiting.needs:
        declared = KINDS[need.subject.kind].attributes.get(need.attribute)
        if declared is None or not declared.site:
            return False
    return bool(result.waiting.needs)


def _cover(results: list[Result], granted: Collection[int]) -> None:
    """Silence what another finding on the same element speaks for, so that one fault gives one finding."""
    by_place = {(result.rule.name, id(result.element)): result for result in results}
    for result in results:
        if result.answer != "broken" or id(result) in granted:
            continue
        for name in result.rule.rule.instead_of:
            other = by_place.get((name, id(result.element)))
            if other is not None and other.answer in ("broken", "undecided") and not other.covered_by:
                other.covered_by = result.rule.name


def _file(result: Result, granted: Collection[int], report: Report) -> None:
    if id(result) in granted:
        return
    if result.covered_by:
        report.covered.append(Covered(result.rule.name, subject_of(result.element), result.covered_by))
    elif result.finding:
        report.findings.append(result.finding)
    elif result.waiting:
        (report.checklist if _is_site(result) else report.open_checks).append(result.waiting)
    elif result.fault:
        report.not_checked.append(result.fault)
    elif result.answer == "met":
        report.met.append((result.rule.name, subject_of(result.element)))
    else:
        report.not_applicable += 1


def _finding_order(finding: Finding, passed: tuple[str, ...]) -> tuple[Any, ...]:
    due = INSPECTIONS.index(finding.inspection)
    return (finding.inspection not in passed, due, SEVERITIES.index(finding.severity), finding.position, finding.rule)


def _open_order(check: OpenCheck) -> tuple[Any, ...]:
    return (not check.half_broken, SEVERITIES.index(check.severity), check.position, check.rule)


def _passed(graph: Graph) -> tuple[str, ...]:
    return graph.plan.passed if graph.plan.states("passed") else ()


def _unmentioned(graph: Graph, rules: Iterable[CompiledRule]) -> list[str]:
    """Kinds that a rule in force is about, of which the plan has none and whose topic isn't complete."""
    asked = {kind for rule in rules for kind in rule.rule.record.about}
    there = {element.kind for element in graph.elements}
    return [kind for kind, cls in KINDS.items() if kind in asked - there and not graph.is_complete(cls.topic)]
