"""The generated pages in `rules/` are those that the declarations give."""

from pathlib import Path

import pytest

from planlint.cli.reference import RENEW, pages

RULES = Path(__file__).parents[2] / "rules"


@pytest.mark.parametrize("name", ["vocabulary.md", "facts.md", "README.md"])
def test_a_page_is_up_to_date(name: str) -> None:
    written = (RULES / name).read_text(encoding="utf-8") if (RULES / name).exists() else ""
    assert written == pages()[name], f"rules/{name} is out of date; renew it with: {RENEW}"
