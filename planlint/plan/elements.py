"""The base of every element class, and the descriptor by which one line declares one attribute.

A stated value lies in the instance's own dictionary and costs nothing to read. What isn't stated is looked up on the
class, where `Stated.__get__` answers with the default or raises `NotStated`.
"""

from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from typing import Any, ClassVar, Generic, NoReturn, Self, TypeVar, cast, overload

from planlint.plan.types import AttributeType, quantity_type
from planlint.positions import Span

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Need:
    """What a plan would have to state so that a check can be decided.

    `attribute` of `element`; or, with `complete`, that topic in the plan's `complete`. `note` says more where the
    attribute alone doesn't, as when a table has no row for what is stated. Where the question doesn't arise for the
    element at all, as a motor's current for a dryer, `arises` is no: a rule stays undecided, a worksheet passes over it.
    """

    element: "Element"
    attribute: str
    complete: str = ""
    note: str = ""
    arises: bool = True

    @property
    def site(self) -> bool:
        """Only eyes on site can tell."""
        declared = type(self.element).attributes.get(self.attribute)
        return declared is not None and declared.site

    def __str__(self) -> str:
        if self.complete:
            return f"complete {self.complete}"
        return self.note or f"{self.element.name}: {self.attribute}"


class NotStated(Exception):
    """Raised on reading what a plan leaves out. Carries every need that is known of."""

    def __init__(self, *needs: Need) -> None:
        super().__init__(", ".join(map(str, needs)))
        self.needs = needs


def not_stated(element: "Element", attribute: str, note: str = "") -> NoReturn:
    """Raise NotStated for one attribute of one element."""
    raise NotStated(Need(element, attribute, note=note))


def does_not_arise(element: "Element", note: str) -> NoReturn:
    """Raise NotStated where there is nothing to ask of this element; the note says what it would have to be."""
    raise NotStated(Need(element, "", note=note, arises=False))


@dataclass(slots=True)
class Read:
    """What was read of a plan, as (element, attribute): defaults that were taken, and of watched elements what they state."""

    defaults: list[tuple["Element", str]] = field(default_factory=list)
    stated: list[tuple["Element", str]] = field(default_factory=list)


# A finding that rests on a default says so, and a worksheet names its inputs.
_reading: ContextVar[Read | None] = ContextVar("_reading", default=None)


@contextmanager
def watching() -> Iterator[Read]:
    """Note what is read inside."""
    read = Read()
    token = _reading.set(read)
    try:
        yield read
    finally:
        _reading.reset(token)


class Stated(Generic[T]):
    """One attribute of an element class: its type, help, and what leaving it out means.

    `first`: one of those that matter most. `site`: only eyes can tell. `default`: what leaving it out means.
    `none`: the word `none` may be said (an empty list, no wire, no reference). `example`: a value as a plan writes it.
    """

    def __init__(
        self,
        type: "AttributeType[T] | type[T]",
        help: str,
        *,
        first: bool = False,
        site: bool = False,
        default: str | None = None,
        none: bool = False,
        example: str = "",
    ) -> None:
        self.type: AttributeType[T] = type if isinstance(type, AttributeType) else cast(Any, quantity_type)(type)
        self.help = help
        self.first = first
        self.site = site
        self.default = default
        self.none = none
        self._example = example
        self.name = ""
        self.key = ""

    def __set_name__(self, owner: type, name: str) -> None:
        self.key = name
        self.name = attribute_name(name)

    @property
    def example(self) -> str:
        """A value as a plan writes it."""
        return self._example or self.type.example

    @property
    def default_value(self) -> T:
        """The value that leaving it out means. Only for attributes with a default."""
        assert self.default is not None
        return self.type.none_value if self.default == "none" else self.type.read(self.default)

    @overload
    def __get__(self, instance: None, owner: type) -> Self: ...
    @overload
    def __get__(self, instance: "Element", owner: type) -> T: ...
    def __get__(self, instance: "Element | None", owner: type) -> "Self | T":
        if instance is None:
            return self
        if self.default is None or self.name in instance.unknown:
            raise NotStated(Need(instance, self.name))
        read = _reading.get()
        if read is not None:
            read.defaults.append((instance, self.name))
        return self.default_value


def attribute_name(key: str) -> str:
    """The name in a plan of a Python name: `from_` is `from`, `clear_depth` is `clear-depth`."""
    return key.rstrip("_").replace("_", "-")


@dataclass(frozen=True, slots=True)
class Standing:
    """Where an attribute stands: the span of its name and of each of its values."""

    name: Span
    values: tuple[Span, ...]


class Element:
    """One statement of a plan. Frozen: the language makes it, the graph links its references, nobody changes it after."""

    kind: ClassVar[str] = ""
    topic: ClassVar[str] = ""
    attributes: ClassVar[Mapping[str, Stated[Any]]] = {}

    name: str
    line: Span
    standing: Mapping[str, Standing]
    unknown: frozenset[str]
    plan: "Element"

    def __init_subclass__(cls, kind: str = "", topic: str = "", **more: Any) -> None:
        super().__init_subclass__(**more)
        if kind:
            cls.kind, cls.topic = kind, topic
            found: dict[str, Stated[Any]] = {}
            for base in reversed(cls.__mro__):
                found.update((v.name, v) for v in vars(base).values() if isinstance(v, Stated))
            cls.attributes = found

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise AttributeError(f"{self.kind} {self.name} is frozen")

    def states(self, attribute: str) -> bool:
        """Whether the plan states it: yes for `none`, no for `unknown` and for a default."""
        return type(self).attributes[attribute].key in self.__dict__

    def value(self, attribute: str) -> Any:
        """The value of an attribute by its name in plans. Raises NotStated."""
        return getattr(self, type(self).attributes[attribute].key)

    def position(self, attribute: str) -> Span:
        """Where the attribute stands, or the element's own line if the plan leaves it out."""
        found = self.standing.get(attribute)
        return found.name if found else self.line

    def __repr__(self) -> str:
        return f"<{self.kind} {self.name}>"


@dataclass(slots=True)
class Draft:
    """A statement as it was read, before its references are joined: the material of one element."""

    cls: type[Element]
    name: str
    line: Span
    values: dict[str, Any] = field(default_factory=dict)
    standing: dict[str, Standing] = field(default_factory=dict)
    unknown: set[str] = field(default_factory=set)

    def element(self) -> Element:
        """The element, its references still names (the graph joins them)."""
        made = self.cls.__new__(self.cls)
        made.__dict__.update(
            {self.cls.attributes[name].key: value for name, value in self.values.items()},
            name=self.name,
            line=self.line,
            standing=self.standing,
            unknown=frozenset(self.unknown),
        )
        return made


def watch(elements: Iterable[Element]) -> None:
    """Have what these elements state noted whenever it is read, as their defaults are always.

    For worksheets, which name their inputs: reading gets slower by it, so a check does without.
    """
    for element in elements:
        if element.kind not in _WATCHED:
            _WATCHED[element.kind] = _watched(type(element))
        object.__setattr__(element, "__class__", _WATCHED[element.kind])


_WATCHED: dict[str, type[Element]] = {}


def _watched(cls: type[Element]) -> type[Element]:
    names = {stated.key: stated.name for stated in cls.attributes.values()}

    def read_and_note(self: Element, key: str) -> Any:
        value = object.__getattribute__(self, key)
        name = names.get(key)
        if name is not None and key in object.__getattribute__(self, "__dict__"):
            read = _reading.get()
            if read is not None:
                read.stated.append((self, name))
        return value

    return type(cls.__name__, (cls,), {"__getattribute__": read_and_note})
