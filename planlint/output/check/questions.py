"""The open questions of a report, put together for whoever has to find out: what decides most comes first, the same asked of
several things at one place is one question, and a long list is cut, with a count of the rest."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from planlint.output.kinds import plural
from planlint.output.layout import Page
from planlint.plan import KINDS
from planlint.report import Needed, OpenCheck, Report, Subject

MOST_LINES, MOST_ASKED = 8, 6
_LINE, _ASKED = 4, 8


@dataclass(slots=True)
class Question:
    """One thing asked of one element, or of several alike at one place: who is asked, and the checks that wait for it, by id.

    `first`: those of the checks that don't hang on something else first, which may show that their rule doesn't apply.
    """

    asked: dict[Subject, Needed] = field(default_factory=dict)
    checks: dict[int, OpenCheck] = field(default_factory=dict)
    first: dict[int, OpenCheck] = field(default_factory=dict)

    @property
    def needs(self) -> list[Needed]:
        """What is asked of each, in the order of the plan."""
        return sorted(self.asked.values(), key=lambda need: need.position)

    @property
    def weight(self) -> tuple[object, ...]:
        """For sorting: first where one half of a rule is broken already, then by how many corrections wait, then by the plan."""
        return (
            not any(check.half_broken for check in self.first.values()),
            -_corrections(self.first),
            -_corrections(self.checks),
            -len(self.checks),
            self.needs[0].position,
        )


@dataclass(slots=True)
class Line(Question):
    """All questions that are asked of the same elements, what decides most first."""

    questions: list[Question] = field(default_factory=list)


def _corrections(checks: dict[int, OpenCheck]) -> int:
    return sum(check.severity == "correction" for check in checks.values())


def question_lines(checks: Iterable[OpenCheck]) -> list[Line]:
    """What these checks wait for, what decides most first. That all of a topic is shown isn't among it: see `topics`."""
    found: dict[tuple[str, ...], Question] = {}
    for check in checks:
        for need in check.needs:
            if not need.complete:
                _add(found.setdefault(need.question, Question()), need, check)
    lines: dict[tuple[Subject, ...], Line] = {}
    for question in sorted(found.values(), key=lambda question: question.weight):
        line = lines.setdefault(tuple(need.subject for need in question.needs), Line(question.asked))
        line.questions.append(question)
        line.checks |= question.checks
        line.first |= question.first
    return sorted(lines.values(), key=lambda line: line.weight)


def _add(question: Question, need: Needed, check: OpenCheck) -> None:
    question.asked.setdefault(need.subject, need)
    question.checks[id(check)] = check
    if not check.whether or need in check.whether:
        question.first[id(check)] = check


def topics(checks: Iterable[OpenCheck]) -> Counter[str]:
    """The topics of which these checks want all shown, each with how many of them do."""
    return Counter(name for check in checks for name in {need.complete for need in check.needs if need.complete})


def open_questions(page: Page, report: Report, whole: bool = False) -> None:
    """What the plan leaves out, what matters first; `whole`: all of it, each with what it means and how it is written."""
    waiting = [check for check in report.open_checks if check.inspection not in report.passed]
    if not report.open_checks:
        return
    page.heading(f"OPEN QUESTIONS: {_waits(len(waiting))} for these")
    lines = question_lines(waiting)
    several_files = len({need.position.file for line in lines for need in line.needs}) > 1
    for line in lines if whole else lines[:MOST_LINES]:
        page.text(f"{_who(line.needs, several_files)}: {_waits(len(line.checks))}", _LINE)
        for text in _explained(line) if whole else _listed(line):
            page.text(text, _ASKED, hang=2)
    _topics(page, waiting)
    if lines and not whole:
        _rest(page, lines)
    if late := len(report.open_checks) - len(waiting):
        page.text(f"{late} more {'check' if late == 1 else 'checks'} of inspections already passed can't be decided.", _LINE)


def _topics(page: Page, waiting: list[OpenCheck]) -> None:
    counted = topics(waiting)
    if not counted:
        return
    names = ", ".join(sorted(counted, key=lambda name: (-counted[name], name)))
    checks = [check for check in waiting if any(need.complete for need in check.needs)]
    alone = sum(all(need.complete for need in check.needs) for check in checks)
    text = f"Once the plan shows all that there will be of these, say so under plan: complete {names}."
    only = f", {alone} of them for nothing else" if alone else ""
    page.text(f"{text} {_waits(len(checks))} for that{only}.", _LINE)


def _rest(page: Page, lines: list[Line]) -> None:
    """How many questions were left out, and how to see them."""
    asked = [len(line.questions) for line in lines]
    rest = sum(asked) - sum(min(number, MOST_ASKED) for number in asked[:MOST_LINES])
    more = f"{rest} more {'question comes' if rest == 1 else 'questions come'} after these. " if rest else ""
    page.text(f"{more}All of them, with what each means and how it is written: --questions.", _LINE, "quiet")


def _waits(number: int) -> str:
    return "1 check waits" if number == 1 else f"{number} checks wait"


def _who(needs: list[Needed], several_files: bool) -> str:
    """Who is asked and where it stands: `bed-1, line 5`; `6 receptacles at bed-1, lines 11, 13, 15`."""
    first = needs[0]
    kind, file = first.subject.kind, f"{first.position.file}, " if several_files else ""
    if len(needs) == 1:
        return f"{'the plan' if kind == 'plan' else first.subject.name}, {file}line {first.position.line}"
    place = f" at {first.at}" if first.at else ""
    return f"{len(needs)} {plural(kind)}{place}, {file}lines {', '.join(str(need.position.line) for need in needs)}"


def who_words(line: Line) -> str:
    """Who a line's questions are asked of, and where it stands."""
    return _who(line.needs, False)


def asked_words(line: Line) -> list[str]:
    """What is asked, each with what it means."""
    return list(_explained(line))


def _listed(line: Line) -> Iterator[str]:
    """What matters first: the attributes in one line, what has none in lines of their own; and a count of the rest."""
    needs = [question.needs[0] for question in line.questions[:MOST_ASKED]]
    sentences = [need.note for need in needs if need.note]
    attributes = ", ".join(need.attribute for need in needs if not need.note)
    sentences = [attributes, *sentences] if attributes else sentences
    if len(line.questions) > MOST_ASKED:
        sentences[-1] += f"; and {len(line.questions) - MOST_ASKED} more"
    yield from sentences


def _explained(line: Line) -> Iterator[str]:
    """Each question with what it means, how the answer is written, and where there are several, how many checks wait for it."""
    for question in line.questions:
        need = question.needs[0]
        declared = KINDS[need.subject.kind].attributes.get(need.attribute)
        meaning = "" if need.note or declared is None else f": {declared.help} ({declared.type.expected_like(declared.example)})"
        alone = f" {_waits(len(question.checks))}." if len(line.questions) > 1 else ""
        yield f"{need.note or need.attribute}{meaning}.{alone}"
