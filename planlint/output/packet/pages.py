"""Templates to pages. Every name of a plan is escaped; nothing on a page is fetched, and none needs a script."""

from functools import cache
from typing import TYPE_CHECKING, Any

from planlint.output import CAUTION
from planlint.output.book_words import book_words
from planlint.report import ProfileHead

if TYPE_CHECKING:
    from jinja2 import Environment


class NoTemplates(ImportError):
    """Pages need jinja2, which an installation for checking alone does without."""

    def __init__(self) -> None:
        super().__init__("pages need jinja2, which is not installed: pip install 'planlint[pages]'")


def page(template: str, title: str, profile: ProfileHead, **content: Any) -> str:
    """A whole page in HTML. Raises NoTemplates."""
    made = _environment().get_template(template)
    css = _style(title, book_words(profile))
    return made.render(title=title, book=book_words(profile), profile=profile, caution=CAUTION, css=css, **content)


def in_page(svg: str) -> Any:
    """A drawing as part of a page. It has links in it, which a picture as a whole may not have for those who can't see it."""
    from markupsafe import Markup

    return Markup(svg.replace(' role="img"', "", 1))


@cache
def _environment() -> "Environment":
    try:
        from jinja2 import Environment, FunctionLoader, StrictUndefined
    except ImportError:
        raise NoTemplates from None
    made = Environment(
        loader=FunctionLoader(_text), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    return made


def _text(name: str) -> str:
    from importlib.resources import files

    return (files("planlint.output.packet") / "templates" / name).read_text("utf-8")


def _style(title: str, book: str) -> Any:
    """The style sheet, with the names that stand at the head of each printed page."""
    from markupsafe import Markup

    heads = f'@page {{ @top-left {{ content: "{_in_css(title)}"; }} @top-right {{ content: "{_in_css(book)}"; }} }}'
    return Markup(f"{_text('page.css')}\n{heads}")


def _in_css(text: str) -> str:
    """A text inside quotes of a style sheet: all but plain letters, digits and spaces by their numbers."""
    return "".join(c if c.isascii() and (c.isalnum() or c == " ") else f"\\{ord(c):x} " for c in text)
