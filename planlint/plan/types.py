"""The types that attributes have: how each is read from a plan's words, named in a message, and seen by the rule language."""

import datetime
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Any, Generic, TypeVar, cast

from planlint import valuetypes
from planlint.nearest import proposal
from planlint.quantities import Quantity, Unreadable, read_number
from planlint.trade import NO_CONDUCTORS, Cable, Conductors, Dimensions, Slope, TradeSize, VoltageSystem
from planlint.valuetypes import ValueType

T = TypeVar("T")
Q = TypeVar("Q", bound=Quantity)


@dataclass(frozen=True, slots=True)
class AttributeType(Generic[T]):
    """How one attribute's values are read, named and compared.

    `read_one` reads one value from its text and raises Unreadable. A list attribute takes several, separated by commas, and
    its value is a tuple. `kinds` are the element kinds that a reference may name; its text is a name until the graph joins it.
    """

    name: str
    value_type: ValueType
    read_one: Callable[[str], Any]
    example: str
    none_value: Any = None
    is_list: bool = False
    kinds: tuple[str, ...] = ()
    words: tuple[str, ...] = ()

    @property
    def expected(self) -> str:
        """What belongs there, for messages: `a length, like 26 in`."""
        return self.expected_like(self.example)

    def expected_like(self, example: str) -> str:
        """The same, with an example of the attribute's own."""
        if self.kinds:
            return f"the name of {with_article(*self.kinds)}" if self.kinds != ("any",) else "the name of a statement"
        if self.words and self.value_type.base != "either":
            return f"one of {', '.join(self.words)}"
        return self.name if self.value_type is valuetypes.YES_NO else f"{self.name}, like {example}"

    def read(self, text: str) -> T:
        """Read a whole value, list or not. Raises Unreadable."""
        if self.is_list:
            return cast(T, tuple(self.read_one(part.strip()) for part in text.split(",")))
        return cast(T, self.read_one(text))


def with_article(*kinds: str) -> str:
    """Kinds of statements in a sentence: `a panel`, `an electrode`, `lights`, `a place or building`."""
    *others, last = kinds
    first = kinds[0]
    article = "" if first in ("receptacles", "lights", "holes", "piping") else "an " if first[0] in "aeiou" else "a "
    return article + (f"{', '.join(others)} or {last}" if others else last)


def quantity_type(cls: type[Q]) -> AttributeType[Q]:
    """The type of a quantity of that class."""
    return AttributeType(f"{cls.article} {cls.dimension}", valuetypes.quantity(cls.dimension), cls.read, cls.example)


def or_none(zero: Q) -> AttributeType[Q]:
    """The type of a quantity of which a plan may say `none`, which is that much: nothing."""
    return replace(quantity_type(type(zero)), none_value=zero)


def _read_choice(words: tuple[str, ...], instead: Mapping[str, str]) -> Callable[[str], str]:
    def read(text: str) -> str:
        if text in instead:
            raise Unreadable(f"'{text}' can't stand here: {instead[text]}", 0, len(text))
        if text not in words:
            near = proposal(text, words)
            meant = "" if near else f"one of {', '.join(words)} is meant"
            raise Unreadable(f"'{text}' can't stand here{'.' if near else ''}{near}", 0, len(text), meant)
        return text

    return read


def choice(*words: str, instead: Mapping[str, str] = MappingProxyType({})) -> AttributeType[str]:
    """One word out of several. `instead` says of words that are none of them what to write for them."""
    return AttributeType("a word", valuetypes.choice(*words), _read_choice(words, instead), words[0], words=words)


def _read_yes_no(text: str) -> bool:
    if text not in ("yes", "no"):
        raise Unreadable(f"'{text}' is neither yes nor no", 0, len(text))
    return text == "yes"


YES_NO: AttributeType[bool] = AttributeType("yes or no", valuetypes.YES_NO, _read_yes_no, "yes")


def _read_count(text: str) -> int:
    if not re.fullmatch(r"[0-9]{1,6}", text):
        raise Unreadable(f"'{text}' is not a whole number", 0, len(text), "a whole number is written like 2")
    return int(text)


def _read_some(text: str) -> int:
    number = _read_count(text)
    if not number:
        raise Unreadable("0 is too few, 1 is the least", 0, len(text))
    return number


SOME: AttributeType[int] = AttributeType("a whole number", valuetypes.NUMBER, _read_some, "2")
COUNT: AttributeType[int] = AttributeType("a whole number", valuetypes.NUMBER, _read_count, "2")
NUMBER: AttributeType[float] = AttributeType("a number", valuetypes.NUMBER, read_number, "0.5")


_QUOTES = "\"'"


def _read_text(text: str) -> str:
    if not (len(text) >= 2 and text[0] == text[-1] == '"'):
        raise Unreadable(f'words of your own are put in quotes, like "{text.strip(_QUOTES)}"', 0, len(text))
    if '"' in text[1:-1]:
        raise Unreadable("words of your own stand in one pair of quotes", 0, len(text))
    if "\t" in text:
        raise Unreadable("a tab stands inside the quotes; write a space", 0, len(text))
    if not text[1:-1].strip():
        raise Unreadable("nothing stands between the quotes", 0, len(text))
    return text[1:-1]


TEXT: AttributeType[str] = AttributeType("a text in quotes", valuetypes.TEXT, _read_text, '"North wall"')


def _read_word(text: str) -> str:
    if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", text):
        plain = plain_name(text)
        like = f", like {plain}" if plain else ""
        raise Unreadable(f"'{text}' is not a name; a name is lower-case letters, digits and hyphens{like}", 0, len(text))
    return text


def plain_name(text: str) -> str:
    """The name that was most likely meant by words that are none: `House Panel` is house-panel."""
    return "-".join(re.findall(r"[a-z0-9]+", text.lower()))


WORD: AttributeType[str] = AttributeType("a name", valuetypes.TEXT, _read_word, "tern-county")


def _read_date(text: str) -> datetime.date:
    try:
        if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
            return datetime.date.fromisoformat(text)
    except ValueError:
        pass
    raise Unreadable(f"'{text}' is not a date", 0, len(text), "a date is written like 2026-04-02")


DATE: AttributeType[datetime.date] = AttributeType("a date", valuetypes.DATE, _read_date, "2026-04-02")
LAST_DATE: AttributeType[datetime.date | None] = AttributeType("a date", valuetypes.DATE, _read_date, "2026-04-02")
CONDUCTORS: AttributeType[Conductors] = AttributeType(
    "a wire or several", valuetypes.CONDUCTORS, Conductors.read, "2 x 4/0 aluminum XHHW-2", NO_CONDUCTORS
)
CABLE: AttributeType[Cable] = AttributeType("a cable", valuetypes.CABLE, Cable.read, "12/2 copper NM-B")
TRADE_SIZE: AttributeType[TradeSize] = AttributeType("a trade size", valuetypes.TRADE_SIZE, TradeSize.read, "2 in")
DIMENSIONS: AttributeType[Dimensions] = AttributeType("a box size", valuetypes.DIMENSIONS, Dimensions.read, "4 x 1-1/2 in")
VOLTAGE_SYSTEM: AttributeType[VoltageSystem] = AttributeType(
    "a supply's voltage", valuetypes.VOLTAGE_SYSTEM, VoltageSystem.read, "120/240 V"
)
SLOPE: AttributeType[Slope] = AttributeType("a slope", valuetypes.SLOPE, Slope.read, "6 in 12")


def list_of(member: AttributeType[T] | type[Q]) -> AttributeType[tuple[T, ...]]:
    """Several values, separated by commas."""
    one: AttributeType[Any] = member if isinstance(member, AttributeType) else quantity_type(member)
    return AttributeType(
        one.name,
        valuetypes.list_of(one.value_type),
        one.read_one,
        one.example,
        (),
        is_list=True,
        kinds=one.kinds,
        words=one.words,
    )


def reference(*kinds: str) -> AttributeType[Any]:
    """The name of another statement of one of these kinds; the element itself, once the graph has joined it."""
    return AttributeType("a name", valuetypes.element(*kinds), _read_word, "", kinds=kinds)


def either(first: type[Quantity], second: type[Quantity] | AttributeType[str]) -> AttributeType[Any]:
    """One of two types, tried in turn: a current or a power, a current or the word `lugs`."""
    one = quantity_type(first)
    other: AttributeType[Any] = second if isinstance(second, AttributeType) else quantity_type(second)

    def read(text: str) -> Any:
        try:
            return other.read_one(text)
        except Unreadable:
            try:
                return one.read_one(text)
            except Unreadable as fault:
                meant = f"{name} is meant" if fault.meant else ""
                raise Unreadable(fault.met, fault.start, fault.end, meant) from None

    words = other.words
    name = f"{one.name} or the word {' or '.join(words)}" if words else f"{one.name} or {other.name}"
    return AttributeType(name, ValueType("either", words=words), read, one.example, words=words)
