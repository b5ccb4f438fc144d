"""Reads the parts of a rule file or profile from its nodes, and collects everything that is wrong with them.

Each method gives something of the right type even where it has found a fault, so that one fault hides no other. Whoever reads
a file calls `close` at the end, which raises if there were any, so that no record with a stopgap in it gets out.
"""

import datetime
import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import TypeVar, cast

from planlint.book.source import Entry, Fields, Items, Node, Scalar, Sourced
from planlint.faults import Fault, Faults
from planlint.nearest import proposal
from planlint.positions import Span

W = TypeVar("W", bound=str)
NAME = r"(?!(?:yes|no|on|off|true|false|null)(?![a-z0-9-]))[a-z][a-z0-9]*(?:-[a-z0-9]+)*"
_MISSING = "missing"
_READ_AS = {"number": "a number", "yes-no": "yes or no"}


class Reader:
    """The faults of one file, and the ways to read a part of it."""

    def __init__(self, faults: Iterable[Fault] = ()) -> None:
        self.faults = list(faults)

    def fault(self, span: Span, message: str) -> None:
        """Keep one fault."""
        self.faults.append(Fault(span, message))

    def close(self) -> None:
        """Raise Faults if anything was wrong."""
        if self.faults:
            raise Faults(self.faults)

    def fields(self, node: Node, whole: str, needed: Sequence[str], others: Collection[str] = ()) -> Mapping[str, Node]:
        """What the keys of a mapping lead to; `whole` says of what. A needed key that is missing leads to a stopgap."""
        known = (*needed, *others)
        found: dict[str, Node] = {}
        for entry in self.entries(node, whole):
            if entry.key.text in known:
                found[entry.key.text] = entry.value
            else:
                near = proposal(entry.key.text, known) or f" Its keys are {', '.join(known)}."
                self.fault(entry.key.span, f"'{entry.key.text}' is no key of {whole}.{near}")
        start = Span.of(node.span.file, node.span.line, node.span.column, 1)
        stopgap = Scalar("", _MISSING, start, "", ())
        if isinstance(node, Fields):
            missing = [key for key in needed if key not in found]
            if missing:
                self.fault(start, f"{whole} lacks {', '.join(missing)}")
        return {**dict.fromkeys(needed, stopgap), **found}

    def entries(self, node: Node, what: str) -> Iterator[Entry]:
        """The pairs of a mapping, in order."""
        if isinstance(node, Fields):
            yield from node.entries.values()
        elif not _is_missing(node):
            self.fault(node.span, f"{what} is keys and values, like 'key: value'")

    def members(self, node: Node, what: str) -> tuple[Node, ...]:
        """The members of a list."""
        if isinstance(node, Items):
            return node.members
        if not _is_missing(node):
            self.fault(node.span, f"{what} is a list, like [one, two]")
        return ()

    def text(self, node: Node, what: str) -> Sourced:
        """A text that isn't empty, without the end of its last line. What YAML takes for a date is the text it was."""
        if not isinstance(node, Scalar):
            self.fault(node.span, f"{what} is one text")
            return Scalar("", _MISSING, node.span, "", ()).sourced
        if node.tag == "nothing" or (node.tag == "text" and not node.text.strip()):
            self.fault(node.span, f"{what} says nothing")
        elif node.tag not in ("text", "date", _MISSING):
            taken = _READ_AS.get(node.tag, f"'{node.tag}'")
            self.fault(node.span, f'{what} is a text, and YAML takes {node.text} for {taken}; put it in quotes: "{node.text}"')
        return Sourced(node.text.rstrip(), node.span, node.locate)

    def name(self, node: Node, what: str) -> Sourced:
        """A name: lower case letters, digits and hyphens, a letter first, and no word that YAML takes for yes or no."""
        text = self.text(node, what)
        if text.text and not re.fullmatch(NAME, text.text):
            self.fault(text.span, f"'{text}' is not a name: lower case letters, digits and hyphens, a letter first")
        return text

    def word(self, node: Node, what: str, known: Sequence[W]) -> W:
        """One of the known words."""
        text = self.text(node, what)
        if text.text and text.text not in known:
            message = f"{what} is one of {', '.join(known)}, not '{text}'.{proposal(text.text, known)}"
            self.fault(text.span, message)
        return cast(W, text.text)

    def names(self, node: Node, what: str) -> tuple[Sourced, ...]:
        """A list of names, each once."""
        found: dict[str, Sourced] = {}
        for member in self.members(node, what):
            name = self.name(member, what)
            if name.text in found:
                self.fault(name.span, f"'{name}' is named twice")
            found[name.text] = name
        return tuple(found.values())

    def date(self, node: Node, what: str) -> datetime.date | None:
        """A date like 2026-03-14, in quotes or not."""
        written = isinstance(node, Scalar) and node.tag in ("text", "date")
        if isinstance(node, Scalar) and written and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", node.text):
            try:
                return datetime.date.fromisoformat(node.text)
            except ValueError:
                pass
        if not _is_missing(node):
            self.fault(node.span, f"{what} is a date, which is written like 2026-03-14")
        return None

    def edition(self, node: Node, known: Sequence[int]) -> int:
        """The year of a model edition, as a key or a value."""
        if isinstance(node, Scalar) and node.tag in ("text", "number") and node.text in map(str, known):
            return int(node.text)
        if not _is_missing(node):
            said = f", not '{node.text}'" if isinstance(node, Scalar) else ""
            self.fault(node.span, f"an edition is one of {', '.join(map(str, known))}{said}")
        return known[-1]


def _is_missing(node: Node) -> bool:
    return isinstance(node, Scalar) and node.tag == _MISSING
