"""A plan written out again: one attribute a line, in the order in which they were stated."""

import datetime
from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from planlint.plan.elements import Element
from planlint.plan.site import Plan
from planlint.plan.types import TEXT


def write(elements: Iterable[Element]) -> str:
    """The text of these elements, which reads back as the same plan. What was included stands in its place."""
    return "\n".join(_statement(element) for element in elements)


def _statement(element: Element) -> str:
    name = f'"{element.name}"' if isinstance(element, Plan) else element.name
    lines = [f"{element.kind} {name}\n"]
    lines += [f"  {attribute} {_value(element, attribute)}\n" for attribute in element.standing]
    return "".join(lines)


def _value(element: Element, attribute: str) -> str:
    if attribute in element.unknown:
        return "unknown"
    value = element.value(attribute)
    if isinstance(value, tuple):
        return ", ".join(map(_one, value)) or "none"
    return f'"{value}"' if type(element).attributes[attribute].type is TEXT and value is not None else _one(value)


def _number(value: float) -> str:
    """A decimal if a plan's twelve digits hold it, otherwise a fraction; never with an exponent, which a plan has no form for."""
    decimal = f"{value:.12f}".rstrip("0").rstrip(".")
    if len(decimal) > 13:
        decimal = decimal.removeprefix("0")
    if float(decimal) == value and len(decimal) <= 13:
        return decimal
    whole, part = divmod(Fraction(abs(value)), 1)
    part = part.limit_denominator(999_999)
    sign = "-" if value < 0 else ""
    return sign + (f"{whole}-" if whole else "") + f"{part.numerator}/{part.denominator}"


def _one(value: Any) -> str:
    match value:
        case None:
            return "none"
        case bool():
            return "yes" if value else "no"
        case float():
            return _number(value)
        case datetime.date():
            return value.isoformat()
        case Element():
            return value.name
        case _:
            return str(value)
