"""The words of a checklist that its text and its page share."""

from collections.abc import Iterator

from planlint.book.points import SitePoint
from planlint.output.kinds import plural
from planlint.papers.checklist import InspectionList, Point, Row

TITLES = {
    "footing": "Footing",
    "underground": "Underground",
    "service": "Service",
    "rough-in": "Rough-in",
    "final": "Final",
}
SETTLED = "The plan settles"
EYES = "Only eyes can settle"
OFFICE = "Ask the office"
ON_SITE = "Have there"
_MANY = 5


def title_words(one: InspectionList) -> str:
    """`Rough-in: before the walls are closed`."""
    return f"{TITLES[one.inspection]}: {_BEFORE[one.inspection]}"


_BEFORE = {
    "footing": "before the footing is poured",
    "underground": "before the trench is filled",
    "service": "before the power is turned on",
    "rough-in": "before the walls are closed",
    "final": "before anyone moves in",
}


def passed_words(one: InspectionList) -> str:
    """The one line that a passed inspection is folded to."""
    return f"{title_words(one)}. Passed; {len(one.settled)} rules settled by the plan, {len(one.eyes)} looked at."


def row_words(row: Row) -> str:
    """What is right, and for which elements: all of a kind by their number, where that is shorter than their names."""
    names = ", ".join(_names(row))
    if not names:
        return row.text
    return f"{names}: {row.text}" if row.text else names


def _names(row: Row) -> Iterator[str]:
    by_kind: dict[str, list[str]] = {}
    for subject in row.subjects:
        by_kind.setdefault(subject.kind, []).append(subject.name)
    for kind, names in by_kind.items():
        if kind in row.whole and len(names) >= _MANY:
            yield f"all {len(names)} {plural(kind)}"
        elif kind != "plan":
            yield from names


def clause_words(point: Point | SitePoint) -> str:
    """Where it stands."""
    return point.clause if isinstance(point, SitePoint) else "; ".join(point.clause)


def before_it_words(one: InspectionList) -> list[str]:
    """What has to be put right, or be found out, before anyone comes to look."""
    words = [
        f"Correct first: number {number} of the check, {finding.rule} of {finding.subject.name}."
        for number, finding in one.corrections
        if finding.severity == "correction"
    ]
    others = [number for number, finding in one.corrections if finding.severity != "correction"]
    if others:
        words.append(f"Think about: {', '.join(f'number {number}' for number in dict.fromkeys(others))} of the check.")
    if one.waiting:
        checks = "1 check waits" if len(one.waiting) == 1 else f"{len(one.waiting)} checks wait"
        words.append(f"Not settled: {checks} for what the plan leaves out; planlint check names it.")
    return words
