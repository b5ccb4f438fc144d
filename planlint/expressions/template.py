"""Templates: the sentences of a rule, with values of the element in braces."""

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from planlint.expressions.faults import ExpressionFault
from planlint.expressions.grammar import parse
from planlint.expressions.names import Names
from planlint.expressions.paths import Scope
from planlint.expressions.values import compile_value
from planlint.plan.elements import Element, NotStated
from planlint.plan.members import Members
from planlint.quantities import Percent, Quantity, alike, figured

Pairs = Sequence[tuple[object, object]]
_FIGURES = 3
_MOST_FIGURES = 12


@dataclass(frozen=True, slots=True)
class Template:
    """A compiled template: text and readers in turn."""

    text: str
    _parts: tuple[str | Callable[[Element, Any], Any], ...]

    def render(self, element: Element, job: Any, apart: Pairs = ()) -> str:
        """The sentence for one element. A value that the plan leaves out prints "not stated".

        Worked values print to three figures, and to more until the two values of a pair in `apart` print unlike.
        """
        return "".join(part if isinstance(part, str) else _rendered(part, element, job, apart) for part in self._parts)


def _rendered(read: Callable[[Element, Any], Any], element: Element, job: Any, apart: Pairs) -> str:
    try:
        return printed(read(element, job), apart)
    except NotStated:
        return "not stated"


def printed(value: Any, apart: Pairs = ()) -> str:
    """A value as a sentence has it: as written, worked numbers to as many figures as tell them from their limits."""
    if value is None:
        return "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Element):
        return value.name
    if isinstance(value, tuple | Members):
        return ", ".join(printed(member, apart) for member in value) or "none"
    if isinstance(value, Quantity):
        return value.show(_figures(value, apart))
    if isinstance(value, float):
        return figured(value, _figures(value, apart))
    return str(value)


def _figures(value: Quantity | float, apart: Pairs) -> int:
    figures = _FIGURES
    mine = _amount_beside(value, value)
    for pair in apart:
        one, other = (_amount_beside(side, value) for side in pair)
        if one is None or other is None or mine not in (one, other) or alike(one, other):
            continue
        while figures < _MOST_FIGURES and figured(one, figures) == figured(other, figures):
            figures += 1
    return figures


def _amount_beside(side: object, value: Quantity | float) -> float | None:
    """The number of one side of a comparison in the unit that a value is printed in; None where they have no common unit."""
    if isinstance(side, Quantity) and isinstance(value, Quantity) and side.dimension == value.dimension:
        return side.within(value.unit or next(iter(value.units)))
    if isinstance(value, Percent) and isinstance(side, int | float):
        return side * 100.0
    if isinstance(value, int | float) and isinstance(side, Percent):
        return side.amount
    return side if isinstance(value, int | float) and isinstance(side, int | float) else None


_PIECE = re.compile(r"\{\{|\}\}|\{[^{}]*\}|[{}]")


def compile_template(text: str, kinds: tuple[str, ...], names: Names) -> Template:
    """Parse and check a template about elements of these kinds. Raises ExpressionFault, at its place in the whole text."""
    return Template(text, tuple(_parts(text, kinds, names)))


def _parts(text: str, kinds: tuple[str, ...], names: Names) -> Iterator[str | Callable[[Element, Any], Any]]:
    at = 0
    for piece in _PIECE.finditer(text):
        yield text[at : piece.start()]
        at = piece.end()
        if piece[0] in ("{{", "}}"):
            yield piece[0][0]
        elif len(piece[0]) == 1:
            raise ExpressionFault(_unbalanced(piece[0]), piece.start(), piece.end())
        else:
            yield _hole(piece[0][1:-1], piece.start() + 1, kinds, names)
    yield text[at:]


def _unbalanced(brace: str) -> str:
    if brace == "{":
        return "this brace is not closed; a value stands in braces like {cover}, and a brace itself is written {{"
    return "nothing opens the brace that closes here; a brace itself is written }}"


def _hole(text: str, start: int, kinds: tuple[str, ...], names: Names) -> Callable[[Element, Any], Any]:
    if not text.strip():
        raise ExpressionFault("these braces name nothing; a value stands in them like {cover}", start - 1, start + len(text) + 1)
    try:
        return compile_value(parse(text, "value"), Scope(text, kinds, names)).read
    except ExpressionFault as fault:
        raise ExpressionFault(fault.message, start + fault.start, start + fault.end) from None
