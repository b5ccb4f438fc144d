"""What is wrong with a text that a person wrote: a plan, a rule file, a profile."""

from collections.abc import Iterable
from dataclasses import dataclass

from planlint.positions import Span


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that can't be read as it stands, at its place, with what belongs there."""

    span: Span
    message: str

    def __str__(self) -> str:
        return f"{self.span}: {self.message}"


class Faults(Exception):
    """All faults of one reading, in the order of the text. Nothing else is said of a text that has any."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(sorted(faults, key=lambda fault: (fault.span, fault.message)))
        super().__init__("\n".join(map(str, self.faults)))
