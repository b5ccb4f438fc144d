"""Names and paths found in the table of names: what `at.room` is on elements of these kinds, and how it is read."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from planlint.expressions import tree
from planlint.expressions.faults import ExpressionFault
from planlint.expressions.names import Name, Names
from planlint.nearest import proposal
from planlint.plan import KINDS
from planlint.plan.elements import Element, Need, NotStated
from planlint.plan.types import with_article
from planlint.valuetypes import ValueType

Reader = Callable[[Element, Any], Any]


@dataclass(frozen=True, slots=True)
class Scope:
    """Where an expression stands: its text, the kinds its names belong to, and the first words read so far."""

    text: str
    kinds: tuple[str, ...]
    names: Names
    read: set[str] = field(default_factory=set)

    def inside(self, kinds: tuple[str, ...]) -> "Scope":
        """The inside of `has ( )`, where names belong to the members of a list."""
        return Scope(self.text, kinds, self.names, self.read)

    def words(self, node: tree.Node) -> str:
        """The part of the text that a node was read from."""
        return self.text[node.start : node.end]


def fault(node: tree.Node, message: str) -> ExpressionFault:
    """A fault of one part of an expression."""
    return ExpressionFault(message, node.start, node.end)


@dataclass(frozen=True, slots=True)
class Resolved:
    """A path that was found: `owner` leads from the element that is judged to the one whose `name` it is, of those `kinds`."""

    owner: Reader
    kinds: tuple[str, ...]
    word: str
    name: Name

    @property
    def type(self) -> ValueType:
        """The type of what it gives."""
        return self.name.type

    @property
    def read(self) -> Reader:
        """Reads the value. Raises NotStated."""
        return _read_through(self.owner, self.name.read)

    @property
    def allows_none(self) -> bool:
        """Whether it may be none: an attribute of which a plan may say so, or what a fact gives of a sort that can be none."""
        declared = [KINDS[kind].attributes.get(self.name.attribute) for kind in self.kinds if kind in KINDS]
        if any(declared):
            return any(attribute is not None and attribute.none for attribute in declared)
        return self.type.base in ("list", "element", "conductors", "wire-size")


def resolve(path: tree.Path, scope: Scope) -> Resolved:
    """Find a path's names, one after the other. Raises ExpressionFault where one doesn't exist on every kind it may be of."""
    scope.read.add(path.words[0])
    owner: Reader = _itself
    kinds, at = scope.kinds, path.start
    *links, last = path.words
    for word, following in zip(links, path.words[1:], strict=True):
        name = _find(scope.names, kinds, word, at)
        if name.type.base != "element":
            raise ExpressionFault(_no_link(name.type, word, following), at, at + len(word))
        owner, kinds = _follow(owner, name, word, following), name.type.kinds
        at += len(word) + 1
    return Resolved(owner, kinds, last, _find(scope.names, kinds, last, at))


def _find(names: Names, kinds: tuple[str, ...], word: str, at: int) -> Name:
    name = names.lookup(kinds, word)
    if name is None:
        raise ExpressionFault(unknown_name(names, kinds, word), at, at + len(word))
    return name


def _itself(element: Element, job: Any) -> Element:
    return element


def _read_through(owner: Reader, read: Reader) -> Reader:
    if owner is _itself:
        return read
    return lambda element, job: read(owner(element, job), job)


def _follow(owner: Reader, name: Name, word: str, following: str) -> Reader:
    def follow(element: Element, job: Any) -> Element:
        before = owner(element, job)
        target: Element | None = name.read(before, job)
        if target is None:
            missing = f"{before.name} has no {word}, so there is no {following} of it"
            raise NotStated(Need(before, name.attribute or word, note=missing))
        return target

    return follow


def _no_link(type_: ValueType, word: str, following: str) -> str:
    if type_.base == "list":
        return f"'{word}' is a list; write some, every or no {word} has ({following} ...), or name a fact"
    return f"'{word}' leads to no other statement, so nothing follows its dot"


def unknown_name(names: Names, kinds: tuple[str, ...], word: str) -> str:
    """Why a word is no name on elements of these kinds, with the nearest that is or with what to do instead."""
    having = [kind for kind in kinds if names.lookup((kind,), word) is not None]
    if len(having) == len(kinds):
        return f"'{word}' is of different types on {_listed(kinds)}; name a fact that is of one type on all of them"
    if having:
        lacking = [kind for kind in kinds if kind not in having]
        return f"'{word}' is not known of {_listed(lacking)}, only of {_listed(having)}; name a fact that all of them have"
    for at in (at for at, letter in enumerate(word) if letter == "-"):
        if all(names.lookup(kinds, part) or part.isdigit() for part in (word[:at], word[at + 1 :])):
            return f"'{word}' is one name; a minus has a space on both sides, like {word[:at]} - {word[at + 1 :]}"
    return f"'{word}' is no attribute, fact or setting of {with_article(*kinds)}.{proposal(word, names.known(kinds))}"


def _listed(kinds: tuple[str, ...] | list[str]) -> str:
    *others, last = kinds
    return f"{', '.join(others)} and {last}" if others else last
