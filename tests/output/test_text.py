"""The report on paper: it keeps to its width, shows what a plan says literally, and looks like nobody else's."""

import io
import re
from pathlib import Path

import pytest

from planlint.desk import Desk
from planlint.output.check.page import report_page
from planlint.output.layout import Page, literal, print_page

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def faulty() -> object:
    return Desk().check_file(ROOT / "fixtures" / "cottage-faults.plan")


def test_the_layout_is_our_own(faulty: object) -> None:
    """No gutter, caret, arrow, box drawing, emoji, check mark, letter-number code or bracketed code at a line's end."""
    text = report_page(faulty, 100, working=True).plain()
    assert not re.search(r"^\s*[\^~]+\s*$|-->|\u2192|\u21d2", text, re.MULTILINE)
    assert not re.search("[\u2500-\u257f\u2190-\u21ff\u2600-\u27bf\U0001f300-\U0001faff]", text)
    assert not re.search(r"\b[A-Z]{1,4}[0-9]{3,4}\b", text.replace("XHHW-2", ""))
    assert not re.search(r"\[[a-z-]+\]$", text, re.MULTILINE)
    assert not re.search(r"^\s*[0-9]+ \|", text, re.MULTILINE)


def test_color_never_carries_the_meaning(faulty: object) -> None:
    page = report_page(faulty, 100)
    colored = io.StringIO()
    print_page(page, colored, color=True)
    bare = re.sub(r"\x1b\[[0-9;]*m", "", colored.getvalue())
    assert [line.rstrip() for line in bare.splitlines()] == page.plain().splitlines()


def test_what_a_plan_says_is_no_markup_and_no_control() -> None:
    assert literal("a\x1b[31mb\u202ec\td") == "a\\u001b[31mb\\u202ec\\u0009d"
    page = Page.of(80)
    page.text("[bold]not bold[/bold] :smile:")
    colored = io.StringIO()
    print_page(page, colored, color=True)
    assert "[bold]not bold[/bold] :smile:" in colored.getvalue()
