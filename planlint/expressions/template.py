"""Templates: the sentences of a rule, with values of the element in braces."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from planlint.expressions.names import Names
from planlint.plan.elements import Element

Pairs = Sequence[tuple[object, object]]


@dataclass(frozen=True, slots=True)
class Template:
    """A compiled template: text and readers in turn."""

    text: str
    _parts: tuple[str | Callable[[Element, Any], Any], ...]

    def render(self, element: Element, job: Any, apart: Pairs = ()) -> str:
        """The sentence for one element. A value that the plan leaves out prints "not stated".

        Worked values print to three figures, and to more until the two values of a pair in `apart` print unlike.
        """
        raise NotImplementedError


def compile_template(text: str, kinds: tuple[str, ...], names: Names) -> Template:
    """Parse and check a template about elements of these kinds. Raises ExpressionFault."""
    raise NotImplementedError
