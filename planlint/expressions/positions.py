"""The path of a rule's `at`: from the element that is judged to the attribute whose place is reported."""

from dataclasses import dataclass
from typing import Any

from planlint.expressions.names import Names
from planlint.expressions.verdict import Verdict
from planlint.plan.elements import Element


@dataclass(frozen=True, slots=True)
class PositionPath:
    """A compiled `at`."""

    text: str

    def locate(self, element: Element, job: Any, verdict: Verdict | None = None) -> tuple[Element, str]:
        """The element and the attribute's name. Where the plan leaves out a link on the way, that link.

        Through a list it takes the member whose value decided the verdict, otherwise the first.
        """
        raise NotImplementedError


def compile_path(text: str, kinds: tuple[str, ...], names: Names) -> PositionPath:
    """Parse and check a path on elements of these kinds. Raises ExpressionFault."""
    raise NotImplementedError
