"""The checklist on a terminal or on paper: one list for each inspection, with a box to tick before each point."""

from collections.abc import Iterable

from planlint.book.points import SitePoint
from planlint.output import CAUTION
from planlint.output.checklist.words import (
    EYES,
    OFFICE,
    ON_SITE,
    SETTLED,
    before_it_words,
    clause_words,
    passed_words,
    row_words,
    title_words,
)
from planlint.output.layout import Page
from planlint.papers.checklist import Checklist, InspectionList, Point

_BOX = "      [ ]"
_RULE, _TEXT = 4, 10


def checklist_page(checklist: Checklist, width: int) -> Page:
    """The lists of every inspection; those already passed folded to a line."""
    page = Page.of(width)
    page.text(f"{checklist.plan}: checklist", style="title")
    page.text(f"{checklist.profile.title}. Confirm with: {checklist.profile.confirm}")
    if checklist.profile.preview:
        page.text(checklist.profile.preview)
    for one in checklist.lists:
        page.blank()
        if one.passed:
            page.text(passed_words(one), style="quiet")
        else:
            _list(page, one)
    page.blank()
    page.text("Inspector, date: ______________________________")
    page.blank()
    page.text(CAUTION, style="quiet")
    return page


def _list(page: Page, one: InspectionList) -> None:
    page.text(title_words(one).upper(), style="heading")
    for words in before_it_words(one):
        page.text(words, 2, "caution")
    _points(page, SETTLED, one.settled)
    _points(page, EYES, one.eyes, one.of("eyes"))
    _points(page, OFFICE, (), one.of("office"))
    _points(page, ON_SITE, (), one.of("on-site"))


def _points(page: Page, title: str, points: Iterable[Point], others: Iterable[SitePoint] = ()) -> None:
    points, others = list(points), list(others)
    if not points and not others:
        return
    page.blank()
    page.text(title, 2, "heading")
    for point in points:
        page.text(f"{point.rule}   ({clause_words(point)})", _RULE, "quiet", hang=2)
        for row in point.rows:
            page.text(row_words(row), _TEXT, lead=(_BOX, ""))
    for other in others:
        page.text(f"{other.text}   ({clause_words(other)})", _TEXT, lead=(_BOX, ""))
