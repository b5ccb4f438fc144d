"""The material list on a terminal or on paper, by group, each line with what it serves."""

from planlint.output import CAUTION
from planlint.output.layout import Page
from planlint.output.takeoff.words import (
    LEAD,
    amount_words,
    bought_words,
    left_out_words,
    price_words,
    quantity_words,
    serves_words,
)
from planlint.papers.material.prices import Cost
from planlint.papers.material.takeoff import Line, Takeoff

_TEXT = 11


def takeoff_page(takeoff: Takeoff, cost: Cost | None, width: int) -> Page:
    """The whole list; with a price list, what each line costs."""
    page = Page.of(width)
    page.text(f"{takeoff.plan}: material list", style="title")
    page.text(LEAD)
    if not takeoff.lines:
        page.blank()
        page.text("The plan states nothing that is bought.")
    for group, lines in takeoff.groups():
        page.blank()
        page.text(group.upper(), style="heading")
        for line in lines:
            _line(page, line, cost)
    if takeoff.left_out:
        page.blank()
        page.text("NOT ON THE LIST YET, BECAUSE THE PLAN LEAVES IT OPEN", style="heading")
        for left in takeoff.left_out:
            page.text(left_out_words(left), 4)
    if cost is not None:
        _cost(page, cost)
    page.blank()
    for note in takeoff.notes:
        page.text(note, style="quiet", hang=2)
    page.blank()
    page.text(CAUTION, style="quiet")
    return page


def _line(page: Page, line: Line, cost: Cost | None) -> None:
    price = f"   {price_words(cost.by_item[line.item])}" if cost is not None and line.item in cost.by_item else ""
    words = line.item if line.length is None else f"{line.item}: {bought_words(line)} (needed: {amount_words(line)})"
    page.text(words + price, _TEXT, hang=2, lead=(f"{quantity_words(line):>9}", ""))
    page.text(f"for {serves_words(line)}", _TEXT + 2, "quiet")


def _cost(page: Page, cost: Cost) -> None:
    page.blank()
    page.text("COST", style="heading")
    page.text(f"{price_words(cost.total)} for {len(cost.by_item)} lines", 4)
    if cost.without:
        page.text(f"Without a price: {'; '.join(cost.without)}.", 4)
    if cost.unused:
        page.text(f"Prices of nothing on this list: {'; '.join(cost.unused)}.", 4)
