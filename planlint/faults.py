"""What is wrong with a text that a person wrote: a plan, a rule file, a profile."""

from collections.abc import Iterable
from dataclasses import dataclass

from planlint.positions import Span

MOST_SHOWN = 50
"""So many faults are shown to a person at once; a program gets them all."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that can't be read as it stands, at its place, with what belongs there.

    What no file says, such as a name given on the command line, has a span without a file.
    """

    span: Span
    message: str

    def __str__(self) -> str:
        return f"{self.span}: {self.message}" if self.span.file else self.message


class Faults(Exception):
    """All faults of one reading, in the order of the text. Nothing else is said of a text that has any."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(sorted(faults, key=lambda fault: (fault.span, fault.message)))
        more = len(self.faults) - MOST_SHOWN
        super().__init__("\n".join([*map(str, self.faults[:MOST_SHOWN]), *([f"And {more} more."] if more > 0 else [])]))
