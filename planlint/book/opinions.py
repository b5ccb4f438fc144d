"""What each profile says about one and the same thing, and whose word holds."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from planlint.book.in_force import Layer
from planlint.faults import Fault

T = TypeVar("T")
Ancestors = Mapping[str, Collection[str]]


@dataclass(frozen=True, slots=True)
class Opinion(Generic[T]):
    """The value that one profile gives."""

    layer: Layer
    value: T


@dataclass(slots=True)
class Opinions(Generic[T]):
    """All that is said about one thing (`what`, for messages), the most general profile first."""

    what: str
    said: list[Opinion[T]] = field(default_factory=list)

    def winner(self, ancestors: Ancestors) -> Opinion[T] | None:
        """The one that holds: the most local; among several without a base relation, the last. Presence counts, not the value."""
        standing = self._standing(ancestors)
        return standing[-1] if standing else None

    def faults(self, ancestors: Ancestors) -> Iterator[Fault]:
        """Two profiles that contradict each other, and neither is based on the other."""
        standing = self._standing(ancestors)
        for other in standing[1:]:
            first = standing[0]
            if other.value != first.value:
                yield Fault(
                    other.layer.span,
                    f"'{first.layer.profile}' and '{other.layer.profile}' don't agree on {self.what}, and neither is based on "
                    f"the other: {first.layer.text} and {other.layer.text}",
                )

    def _standing(self, ancestors: Ancestors) -> list[Opinion[T]]:
        """The opinions that no profile based on theirs has replaced."""
        return [
            one
            for one in self.said
            if not any(one is not other and one.layer.profile in ancestors[other.layer.profile] for other in self.said)
        ]
