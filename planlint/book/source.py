"""YAML read into nodes that remember their file, line and column, and keep every scalar as the text that was written."""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from planlint.book.stretches import Letter, letters
from planlint.faults import Fault, Faults
from planlint.positions import Span

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable
    from pathlib import Path

MOST_BYTES = 1_000_000
# YAML ends a line at U+0085, U+2028 and U+2029 too, and no editor does; a mark in the middle of a text shifts columns.
_UNSEEN = re.compile(r"[^\t\n\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
_TAGS = {"str": "text", "int": "number", "float": "number", "bool": "yes-no", "null": "nothing", "timestamp": "date"}


@dataclass(frozen=True, slots=True)
class Sourced:
    """A text out of a file, its place, and the place of any stretch of it: `locate(start, end)`, counted from 0."""

    text: str
    span: Span
    locate: Callable[[int, int], Span] = field(compare=False, repr=False)

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True, slots=True, eq=False)
class Scalar:
    """One value as it is written. `tag` says what YAML takes it for: text, number, yes-no, date, nothing or more."""

    text: str
    tag: str
    span: Span
    style: str
    lines: tuple[str, ...] = field(repr=False)

    def locate(self, start: int, end: int) -> Span:
        """Where the characters from `start` up to `end` of the text stand, both counted from 0."""
        places = self._places()
        if not places:
            return self.span
        last = len(places) - 1
        first, final = places[min(max(start, 0), last)], places[min(max(end - 1, start, 0), last)]
        return Span(self.span.file, first.line, first.column, final.line, final.column + final.width)

    def _places(self) -> list[Letter]:
        return letters(self.lines, self.span, self.style, self.text)

    @property
    def sourced(self) -> Sourced:
        """The text with its places."""
        return Sourced(self.text, self.span, self.locate)


@dataclass(frozen=True, slots=True, eq=False)
class Entry:
    """One key of a mapping and what it leads to."""

    key: Scalar
    value: "Node"


@dataclass(frozen=True, slots=True, eq=False)
class Fields:
    """A mapping, by the text of its keys, in the order written."""

    entries: Mapping[str, Entry]
    span: Span


@dataclass(frozen=True, slots=True, eq=False)
class Items:
    """A list."""

    members: tuple["Node", ...]
    span: Span


Node = Scalar | Fields | Items


def read_source(path: "Path | Traversable", file: str) -> tuple[Node, list[Fault]]:
    """Read one file into nodes, with what is wrong with it but doesn't hide the rest (a key that is given twice).

    `file` is the path as it is shown. Raises Faults where the text can't be read at all.
    """
    return read_text(_text(path, file), file)


def read_text(text: str, file: str) -> tuple[Node, list[Fault]]:
    """The same for a text that is there already."""
    lines = tuple(text.replace("\r\n", "\n").split("\n"))
    for number, line in enumerate(lines, 1):
        unseen = _UNSEEN.search(line)
        if unseen:
            at = Span.of(file, number, unseen.start() + 1, 1)
            raise Faults([Fault(at, f"the character U+{ord(unseen[0]):04X} can't be seen; take it out")])
    root = _compose("\n".join(lines), file)
    if root is None:
        raise Faults([Fault(_whole(file), "there is nothing in this file")])
    composing = _Composing(file, lines)
    return composing.node(root), composing.faults


def _text(path: "Path | Traversable", file: str) -> str:
    try:
        content = path.read_bytes()
    except OSError as fault:
        raise Faults([Fault(_whole(file), f"this file can't be opened: {fault.strerror or fault}")]) from None
    if len(content) > MOST_BYTES:
        raise Faults([Fault(_whole(file), f"this file is larger than {MOST_BYTES:,} bytes")])
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        before = content[: fault.start].decode("utf-8-sig", "replace")
        line = before.count("\n") + 1
        at = Span.of(file, line, len(before) - before.rfind("\n"), 1)
        raise Faults([Fault(at, "this isn't text in UTF-8")]) from None


def _whole(file: str) -> Span:
    return Span.of(file, 1, 1, 0)


def _compose(text: str, file: str) -> Any:
    import yaml  # slow to import, so only what reads rule files pays for it

    loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # seven times faster, and not in every build
    try:
        return yaml.compose(text, Loader=loader)
    except yaml.MarkedYAMLError as fault:
        mark = fault.problem_mark or fault.context_mark
        at = Span.of(file, mark.line + 1, mark.column + 1, 1) if mark else _whole(file)
        context = f" {fault.context}" if fault.context else ""
        raise Faults([Fault(at, f"this isn't YAML: {fault.problem}{context}")]) from None
    except yaml.YAMLError as fault:
        raise Faults([Fault(_whole(file), f"this isn't YAML: {fault}")]) from None
    except RecursionError:
        raise Faults([Fault(_whole(file), "this isn't a rule file or a profile: lists lie in lists without end")]) from None


class _Composing:
    """Turns YAML's nodes into ours and collects what is wrong with their form."""

    def __init__(self, file: str, lines: tuple[str, ...]) -> None:
        self.file = file
        self.lines = lines
        self.faults: list[Fault] = []
        self._met: set[int] = set()

    def node(self, node: Any) -> Node:
        """One node and all below it."""
        span = self._span(node)
        if id(node) in self._met:
            self.faults.append(Fault(span, "'&' and '*' repeat this in another place; write it out there"))
            return Scalar("", "nothing", span, "", self.lines)
        self._met.add(id(node))
        if hasattr(node.value, "startswith"):
            return self._scalar(node, span)
        if node.tag.endswith(":map"):
            return Fields(dict(self._entries(node)), span)
        return Items(tuple(self.node(member) for member in node.value), span)

    def _scalar(self, node: Any, span: Span) -> Scalar:
        name = node.tag.rpartition(":")[2]
        return Scalar(node.value, _TAGS.get(name, name), span, node.style or "", self.lines)

    def _entries(self, mapping: Any) -> Iterator[tuple[str, Entry]]:
        first: dict[str, Scalar] = {}
        for key_node, value in mapping.value:
            key = self.node(key_node)
            if not isinstance(key, Scalar):
                self.faults.append(Fault(key.span, "a key is one word"))
                continue
            if key.text in first:
                line = first[key.text].span.line
                self.faults.append(Fault(key.span, f"'{key.text}' is given twice; the first is in line {line}"))
                continue
            first[key.text] = key
            yield key.text, Entry(key, self.node(value))

    def _span(self, node: Any) -> Span:
        start, end = node.start_mark, node.end_mark
        return Span(self.file, start.line + 1, start.column + 1, end.line + 1, end.column + 1)
