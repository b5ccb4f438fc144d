"""A check's report for people: grouped by the inspection before which things must be right, in plain sentences."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator

from planlint.faults import MOST_SHOWN, Fault
from planlint.output import CAUTION
from planlint.output.book_words import book_words
from planlint.output.check.questions import open_questions
from planlint.output.layout import Page, cells, literal
from planlint.report import INSPECTIONS, Finding, Report

DUE = {
    "footing": "BEFORE THE FOOTING IS POURED",
    "underground": "BEFORE THE TRENCH IS FILLED",
    "service": "BEFORE THE POWER IS TURNED ON",
    "rough-in": "BEFORE THE WALLS ARE CLOSED",
    "final": "BEFORE ANYONE MOVES IN",
}
PASSED = "ALREADY COVERED: ask before you open anything"
_TEXT, _FACT = 17, 4


def report_page(report: Report, width: int, working: bool = False, all_questions: bool = False) -> Page:
    """The whole report of one plan. `working`: with how each figure was worked out; `all_questions`: see `open_questions`."""
    page = Page.of(width)
    _head(page, report)
    _findings(page, report, working)
    _granted(page, report)
    open_questions(page, report, all_questions)
    _not_checked(page, report)
    _rest(page, report)
    page.blank()
    page.text(CAUTION, style="quiet")
    return page


def _head(page: Page, report: Report) -> None:
    profile = report.profile
    page.beside((report.plan, "title"), (book_words(profile), ""), to_the_right=True)
    if profile.preview:
        page.text(profile.preview)
    if profile.chosen_by:
        page.text(profile.chosen_by, style="quiet")
    for note in profile.notes:
        page.text(f"{note.span.file}, line {note.span.line}: {note.message}.", style="quiet")
    page.row(list(sums(report)))


def sums(report: Report) -> Iterator[str]:
    """How many of each there are, in words."""
    counts = report.counts()
    yield _many(counts["corrections"], "correction") if counts["corrections"] else "nothing to correct"
    for key, word in (("cautions", "caution"), ("advice", "piece of advice"), ("open_questions", "open question")):
        if counts[key]:
            yield _many(counts[key], word)
    yield f"{_many(counts['met'], 'check')} met"
    for key, word in (("granted", "granted"), ("not_checked", "not checked")):
        if counts[key]:
            yield f"{counts[key]} {word}"
    if report.passed:
        yield f"{', '.join(report.passed)} already passed"


def _many(number: int, word: str) -> str:
    if number == 1:
        return f"1 {word}"
    return f"{number} {word.replace('piece ', 'pieces ')}" if word.startswith("piece") else f"{number} {word}s"


def _findings(page: Page, report: Report, working: bool) -> None:
    heading, confirm = "", _confirm(report)
    if confirm:
        page.blank()
        page.text(f"Confirm with, unless a finding names another: {confirm}")
    for number, group in enumerate(report.numbered(), start=1):
        first = group[0]
        due = PASSED if first.inspection in report.passed else DUE[first.inspection]
        if due != heading:
            page.heading(due)
            heading = due
        elif number > 1:
            page.blank()
        _finding(page, number, group, working, confirm)


def _confirm(report: Report) -> str:
    """Whom most of the findings are to be confirmed with, if they are several; said once then."""
    (confirm, times), *_ = Counter(finding.confirm for finding in report.findings).most_common(1) or [("", 0)]
    return confirm if times > 1 else ""


def _finding(page: Page, number: int, group: list[Finding], working: bool, confirm: str) -> None:
    """One finding, or several alike; `confirm` is whom to confirm it with where that is said of all already."""
    finding = group[0]
    word = finding.severity.capitalize()
    page.text(finding.message, _TEXT, lead=(f"{number:>2}  {word}", finding.severity))
    for other in group[1:]:
        page.text(f"The same holds for {other.subject.name}: {other.message}", _TEXT)
    place = f"{finding.position.file}, line {finding.position.line}"
    page.row([place, finding.attribute, finding.rule, finding.hazard], _FACT, "quiet")
    page.text(f"Code: {'; '.join(finding.clause)}", _FACT, hang=2)
    for line in finding.layers:
        page.text(f"In force here: {line}", _FACT, hang=2)
    if finding.assumed:
        page.text(f"Not stated, so taken as usual: {'; '.join(finding.assumed)}.", _FACT, "quiet", hang=2)
    page.text(f"Remedy: {finding.remedy}", _FACT, hang=2)
    if finding.confirm != confirm:
        page.text(f"Confirm with: {finding.confirm}", _FACT, hang=2)
    if working:
        _working(page, finding)


def _working(page: Page, finding: Finding) -> None:
    if not finding.working:
        return
    page.text("Working:", _FACT)
    for step in finding.working:
        result = f" = {step.value}" if step.value else ""
        source = f"   ({step.source})" if step.source else ""
        page.text(f"{step.fact} of {step.subject.name}: {step.text}{result}{source}", _FACT + 2, "quiet", hang=2)


def _granted(page: Page, report: Report) -> None:
    if not report.granted:
        return
    page.heading("GRANTED IN WRITING")
    for granted in report.granted:
        finding = granted.finding
        page.text(finding.message, _FACT)
        proof = f"{granted.permission}: {granted.granted_by}, {granted.reference}, until {granted.until}"
        place = f"{finding.position.file}, line {finding.position.line}"
        page.text(f"{finding.rule}; {place}. Permission {proof}.", _FACT, "quiet", hang=2)


def _not_checked(page: Page, report: Report) -> None:
    if not report.not_checked:
        return
    page.heading("NOT CHECKED: a fault of planlint; please report it")
    for failed in report.not_checked:
        page.text(f"{failed.rule} on {failed.subject.name} (line {failed.position.line}): {failed.message}", _FACT, hang=2)


def _rest(page: Page, report: Report) -> None:
    page.blank()
    if report.unmentioned:
        page.text(f"Nothing is said yet about: {', '.join(report.unmentioned)}.")
    points = Counter(check.inspection for check in report.checklist if check.inspection not in report.passed)
    if points:
        by_inspection = ", ".join(f"{inspection} {points[inspection]}" for inspection in INSPECTIONS if points[inspection])
        page.text(f"Settled by eyes on site: {_many(points.total(), 'point')} for the checklist ({by_inspection}).")
    if report.covered:
        page.text(f"{_many(len(report.covered), 'further result')} on the same elements spoken for by the findings above.")


def faults_page(faults: Iterable[Fault], width: int) -> Page:
    """What is wrong with a plan, a rule or a profile: a sentence each, at its place; the first MOST_SHOWN of each file."""
    page = Page.of(width)
    by_file: dict[str, list[Fault]] = defaultdict(list)
    for fault in faults:
        by_file[fault.span.file].append(fault)
    for fault in by_file.pop("", ()):
        page.text(fault.message)
    for file, own in by_file.items():
        told = f"can't be read in full: {_many(len(own), 'place')} to mend"
        if cells(literal(file)) <= page.width:
            page.heading(f"{file} {told}")
        else:  # a path is for copying, so it stays in one piece however wide the page is
            page.blank()
            page.line((literal(file), "heading"))
            page.text(told, style="heading")
        for fault in own[:MOST_SHOWN]:
            page.text(fault.message, _TEXT + 8, lead=(f"    line {fault.span.line}, column {fault.span.column}", "quiet"))
        if len(own) > MOST_SHOWN:
            page.text(f"And {len(own) - MOST_SHOWN} more, which are told once these are mended.", _FACT)
    return page
