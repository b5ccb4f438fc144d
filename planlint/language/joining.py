"""From drafts to elements: every name that a value gives becomes the element it names."""

from collections.abc import Sequence
from typing import Any

from planlint.language.collecting import Collector, Known, Names
from planlint.language.values import form
from planlint.nearest import proposal
from planlint.plan.elements import Draft, Element, Stated
from planlint.plan.site import Plan
from planlint.plan.types import with_article
from planlint.positions import Span


def check_references(drafts: Sequence[Draft], names: Names, collector: Collector) -> None:
    """Report every reference to nothing, to a statement of a wrong kind, and to the statement it stands in."""
    for draft in drafts:
        for name, value in draft.values.items():
            stated = draft.cls.attributes[name]
            if stated.type.kinds:
                texts = value if isinstance(value, tuple) else () if value is None else (value,)
                for text, span in zip(texts, draft.standing[name].values, strict=False):
                    wrong = _wrong(text, span, draft, stated, names)
                    if wrong:
                        collector.add(span, wrong)


def _wrong(text: str, span: Span, draft: Draft, stated: Stated[Any], names: Names) -> str:
    """What is wrong with one reference; nothing if it is right, or if what it names may be a statement that can't be read."""
    kinds = stated.type.kinds
    known = names.known.get(text)
    if known is None:
        return "" if names.lost & {"any", *kinds} or (names.lost and kinds == ("any",)) else _unknown(text, stated, names)
    if text == draft.name and draft.cls is not Plan:
        return f"'{stated.name}' names the very statement it stands in"
    if known.kind and kinds != ("any",) and known.kind not in kinds:
        file = f"{known.span.file}, " if known.span.file != span.file else ""
        return f"'{text}' is {with_article(known.kind)} ({file}line {known.span.line}); {form(stated)}"
    return ""


def _unknown(text: str, stated: Stated[Any], names: Names) -> str:
    kinds = stated.type.kinds
    if text.startswith('"'):
        return f"A name stands without quotes; {form(stated)}"
    near = proposal(text, [name for name, known in names.known.items() if _fits(known, kinds)])
    return f"Nothing is named '{text}' here." + near if near else f"Nothing is named '{text}' here; {form(stated)}"


def _fits(known: Known, kinds: tuple[str, ...]) -> bool:
    return not known.kind or kinds == ("any",) or known.kind in kinds


def joined(drafts: Sequence[Draft]) -> tuple[Element, ...]:
    """The elements of drafts without faults, their references joined, each told its plan if there is one."""
    elements = tuple(draft.element() for draft in drafts)
    by_name = {element.name: element for element in elements if not isinstance(element, Plan)}
    plan = next((element for element in elements if isinstance(element, Plan)), None)
    for element in elements:
        stated = element.__dict__
        if plan is not None:
            stated["plan"] = plan
        for attribute in type(element).attributes.values():
            if attribute.type.kinds and attribute.key in stated:
                value = stated[attribute.key]
                if isinstance(value, tuple):
                    stated[attribute.key] = tuple(by_name[name] for name in value)
                elif value is not None:
                    stated[attribute.key] = by_name[value]
    return elements
