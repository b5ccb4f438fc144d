"""Conditions: what a rule's `when` and `must` say, compiled to closures that answer yes, no or unknown."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from planlint.expressions.names import Names
from planlint.expressions.verdict import Verdict
from planlint.plan.elements import Element

Judge = Callable[[Element, Any], Verdict]


@dataclass(frozen=True, slots=True)
class Condition:
    """A compiled condition. `names_read`: the first word of every path in it."""

    text: str
    names_read: frozenset[str]
    _judge: Judge

    def judge(self, element: Element, job: Any) -> Verdict:
        """Hold it against one element. Reading what the plan leaves out makes it unknown; nothing is raised for that."""
        return self._judge(element, job)


def compile_condition(text: str, kinds: tuple[str, ...], names: Names) -> Condition:
    """Parse, check and compile a condition about elements of these kinds. Raises ExpressionFault."""
    raise NotImplementedError
