"""YAML read into nodes that remember their file, line and column, and keep every scalar as the text that was written."""

from collections.abc import Callable
from dataclasses import dataclass, field

from planlint.positions import Span


@dataclass(frozen=True, slots=True)
class Sourced:
    """A text out of a file, its place, and the place of any stretch of it: `locate(start, end)`, counted from 0."""

    text: str
    span: Span
    locate: Callable[[int, int], Span] = field(compare=False, repr=False)

    def __str__(self) -> str:
        return self.text
