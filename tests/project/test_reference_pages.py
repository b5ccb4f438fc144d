"""The generated pages in `rules/` are those that the declarations give."""

from pathlib import Path

import pytest

from planlint.book import INSPECTIONS, resolve
from planlint.book.points import load_coverage
from planlint.cli.reference import RENEW, pages
from planlint.plan import KINDS

RULES = Path(__file__).parents[2] / "rules"


@pytest.mark.parametrize("name", sorted(pages()))
def test_a_page_is_up_to_date(name: str) -> None:
    written = (RULES / name).read_text(encoding="utf-8") if (RULES / name).exists() else ""
    assert written == pages()[name], f"rules/{name} is out of date; renew it with: {RENEW}"


def test_every_item_of_the_inspectors_lists_is_answered_or_says_why_not() -> None:
    """At least 95 of 100 by a rule that there is, or a point of the checklist that stands in the file."""
    coverage, rules = load_coverage(), resolve(("model-2023",)).known_rules
    items, points = coverage["items"], coverage["points"]
    for item in items:
        assert set(item.get("rules", ())) <= rules.keys(), item
        assert set(item.get("points", ())) <= points.keys(), item
        assert item.get("rules") or item.get("points") or item.get("why-not"), item
    answered = sum(bool(item.get("rules") or item.get("points")) for item in items)
    assert answered >= 0.95 * len(items) > 40
    assert {point["inspection"] for point in points.values()} <= set(INSPECTIONS)
    assert {point["kind"] for point in points.values()} <= {"eyes", "office", "on-site"}
    used = {name for item in items for name in item.get("points", ())}
    for name in points.keys() - used:
        assert points[name]["clause"] == "practice", f"no list asks for {name}, and it names a clause"
    assert {kind for point in points.values() for kind in point.get("about", ())} <= KINDS.keys()
