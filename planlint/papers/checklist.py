"""The checklist: for each inspection what the plan settles, with its figures, and what is left to eyes, office and site."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from planlint.book.points import SitePoint, Who, site_points
from planlint.expressions.template import printed
from planlint.papers.docket import Docket
from planlint.plan import KINDS, Element, NotStated
from planlint.report import INSPECTIONS, Finding, OpenCheck, ProfileHead, Subject
from planlint.rulebook import CompiledRule, element_name


@dataclass(frozen=True, slots=True)
class Row:
    """One thing to look at, the same for all these elements: what is right there, in a few words with figures.

    `whole`: kinds of which these are all that the plan has.
    """

    text: str
    subjects: tuple[Subject, ...]
    whole: frozenset[str]


@dataclass(frozen=True, slots=True)
class Point:
    """One rule's rows, its clauses as a finding prints them."""

    rule: str
    topic: str
    clause: tuple[str, ...]
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class InspectionList:
    """All that one inspection is about. `corrections` have the numbers of the check; `waiting` checks can't be decided yet.

    `settled` the plan answers; `eyes` only somebody on site can; `points` stand in no plan: eyes, office and on-site ones.
    """

    inspection: str
    passed: bool
    corrections: tuple[tuple[int, Finding], ...]
    waiting: tuple[OpenCheck, ...]
    settled: tuple[Point, ...]
    eyes: tuple[Point, ...]
    points: tuple[SitePoint, ...]

    def of(self, who: Who) -> list[SitePoint]:
        """The points that stand in no plan and are this one's to settle."""
        return [point for point in self.points if point.who == who]


@dataclass(frozen=True, slots=True)
class Checklist:
    """The lists of one plan, in the order of the inspections."""

    plan: str
    profile: ProfileHead
    lists: tuple[InspectionList, ...]


def make_checklist(docket: Docket) -> Checklist:
    """A list for each inspection."""
    kinds = _kinds_there(docket)
    points = [point for point in site_points() if not point.about or kinds & set(point.about)]
    lists = tuple(_list(inspection, points, docket) for inspection in INSPECTIONS)
    return Checklist(docket.report.plan, docket.head, lists)


def _kinds_there(docket: Docket) -> set[str]:
    """The kinds that the plan has, or may have as long as it doesn't say that their topic is complete."""
    return {
        kind
        for kind, cls in KINDS.items()
        if any(element.kind == kind for element in docket.graph.elements) or (cls.topic and docket.graph.gap(cls.topic))
    }


def _list(inspection: str, points: Iterable[SitePoint], docket: Docket) -> InspectionList:
    report = docket.report
    met = [(rule, subject) for rule, subject in report.met if _due(rule, docket) == inspection]
    eyes = [(check.rule, check.subject) for check in report.checklist if check.inspection == inspection]
    return InspectionList(
        inspection=inspection,
        passed=inspection in report.passed,
        corrections=tuple(
            (number, finding)
            for number, group in enumerate(report.numbered(), 1)
            for finding in group
            if finding.inspection == inspection
        ),
        waiting=tuple(check for check in report.open_checks if check.inspection == inspection),
        settled=_points(met, docket),
        eyes=_points(eyes, docket),
        points=tuple(point for point in points if point.inspection == inspection),
    )


def _due(rule: str, docket: Docket) -> str:
    return docket.rules[rule].rule.inspection if rule in docket.rules else ""


def _points(checks: Iterable[tuple[str, Subject]], docket: Docket) -> tuple[Point, ...]:
    """By topic and rule; elements of which the same is to be said stand together."""
    by_rule: dict[str, dict[str, list[Subject]]] = {}
    for name, subject in checks:
        text = _words(docket.rules[name], docket.element(subject), docket)
        by_rule.setdefault(name, {}).setdefault(text, []).append(subject)
    in_plan = Counter(element.kind for element in docket.graph.elements)
    made = []
    for name, rows in by_rule.items():
        rule = docket.rules[name].rule
        lines = tuple(_row(text, subjects, in_plan) for text, subjects in rows.items())
        made.append(Point(name, rule.record.topic, rule.clause_lines, lines))
    return tuple(sorted(made, key=lambda point: (point.topic, point.rule)))


def _row(text: str, subjects: Iterable[Subject], in_plan: Mapping[str, int]) -> Row:
    subjects = tuple(subjects)
    here = Counter(subject.kind for subject in subjects)
    return Row(text, subjects, frozenset(kind for kind, number in here.items() if number == in_plan[kind]))


def _words(rule: CompiledRule, element: Element, docket: Docket) -> str:
    """The rule's own words for a checklist; where it has none, the values that it compares."""
    if rule.point is not None:
        return " ".join(rule.point.render(element, docket.job).split())
    return "; ".join(_values(rule, element, docket))


def _values(rule: CompiledRule, element: Element, docket: Docket) -> Iterable[str]:
    for name in sorted(rule.must.names_read, key=rule.must.text.find):
        if name in rule.rule.record.settings:
            yield f"{name} {printed(docket.job.code.setting(f'{rule.name}.{name}').value)}"
        elif (found := element_name((element.kind,), name)) is not None:
            try:
                yield f"{name} {printed(found.read(element, docket.job))}"
            except NotStated:
                yield f"{name} to be seen"
