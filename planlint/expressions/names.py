"""The table of names that an expression is read against: handed in, so that this package knows no fact and no setting."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any, Protocol

from planlint.plan.elements import Element
from planlint.trade import WireSizes
from planlint.valuetypes import ValueType

__all__ = ["Name", "Names", "WireSizes"]


@dataclass(frozen=True, slots=True)
class Name:
    """What one name means on an element: its type, and how its value is read.

    `read(element, job)` gives the value or raises planlint.plan.NotStated. `attribute` is the plan attribute's name where the
    name is one; a fact or a setting has none, and a setting's `read` ignores the element.
    """

    type: ValueType
    read: Callable[[Element, Any], Any]
    attribute: str = ""


class Names(Protocol):
    """Whoever knows what names there are."""

    def lookup(self, kinds: tuple[str, ...], name: str) -> Name | None:
        """The name, if it exists on every one of these kinds with one type."""

    def known(self, kinds: tuple[str, ...]) -> Iterable[str]:
        """Every name that could be meant on elements of these kinds."""
