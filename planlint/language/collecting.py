"""What a reading gathers on its way: the faults, and the names that statements give."""

from dataclasses import dataclass, field

from planlint.faults import Fault
from planlint.positions import Span

MOST_FAULTS = 200


class Enough(Exception):
    """So many faults that reading on would help nobody."""


class Collector:
    """The faults of one reading. While `quiet` it takes none: the line has a fault already, and more would rest on it."""

    def __init__(self) -> None:
        self.faults: list[Fault] = []
        self.quiet = False

    def add(self, span: Span, message: str) -> None:
        """Take a fault, its message made a sentence. Raises Enough after MOST_FAULTS."""
        if self.quiet:
            return
        self.faults.append(Fault(span, _sentence(message)))
        if len(self.faults) == MOST_FAULTS:
            after = Span.of(span.file, span.end_line, span.end_column, 0)
            self.faults.append(Fault(after, f"Reading stops here, after {MOST_FAULTS} faults; there may be more."))
            raise Enough


def _sentence(message: str) -> str:
    """With a capital letter and a full stop, whoever wrote the message."""
    return message[:1].upper() + message[1:] + ("" if message.endswith((".", "?")) else ".")


@dataclass(frozen=True, slots=True)
class Known:
    """A name that a statement gives: of what kind ("" if that can't be read), where, and a remark on a doubtful statement.

    It is a `guess` where the statement's line is at fault.
    """

    kind: str
    span: Span
    remark: str = ""
    guess: bool = False


@dataclass(slots=True)
class Names:
    """The names of all statements, faulty ones too, so that no reference to them is called wrong.

    `lost` has the kinds of statements whose names can't be read; `any` among them stands for every kind.
    """

    known: dict[str, Known] = field(default_factory=dict)
    lost: set[str] = field(default_factory=set)
    plan: Span | None = None
    unclear: bool = False

    def give(self, name: str, known: Known) -> Known | None:
        """Enter a name; the statement that has it already, if there is one and neither is a guess."""
        first = self.known.setdefault(name, known)
        if first.guess:
            self.known[name] = known
        return None if first is known or first.guess or known.guess else first
