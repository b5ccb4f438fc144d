"""Other values for an attribute of a plan: what a slip of the pen or a wrong delivery would make of it.

By its type: yes and no turned, every other word of a choice, numbers and quantities up and down a ladder, other wires, cables and
trade sizes, other statements of the kinds that may stand there, lists shortened, altered and lengthened. All of them can be read;
what they do to the house is for the rules to say.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from planlint.plan import Element
from planlint.plan.elements import Stated
from planlint.quantities import Quantity, figured
from planlint.trade import (
    CABLE_TYPES,
    INSULATIONS,
    METALS,
    SIZES,
    TRADE_SIZES,
    Cable,
    Conductors,
    Dimensions,
    TradeSize,
    VoltageSystem,
)

LADDER = (0.8, 1.25, 0.5, 2.0, 1 / 3, 3.0, 0.1, 10.0, 0.0, 100.0)
SYSTEMS = ("120/208 V", "277/480 V", "240 V", "120 V", "24 V")
MOST_NAMES = 6
MANY = 5


@dataclass(frozen=True, slots=True)
class Slot:
    """Where a value stands: the attribute as it is declared, and the statements of the plan that it may name."""

    declared: "Stated[Any]"
    names: tuple[str, ...]

    def of_list(self, values: tuple[Any, ...], written: list[str]) -> Iterator[str]:
        """One member less, one other, another one alone, one more, many more of the last."""
        if not values:
            yield from self._to_begin_with()
            return
        for at in range(len(values)):
            yield ", ".join(written[:at] + written[at + 1 :])
        for at, value in enumerate(values):
            for other in self.of_one(value, written[at]):
                yield ", ".join([*written[:at], other, *written[at + 1 :]])
        for other in self.of_one(values[0], written[0]):
            yield other
            yield ", ".join([*written, other])
        yield ", ".join([*written, *[written[-1]] * MANY])

    def _to_begin_with(self) -> Iterator[str]:
        """Members for a list of none."""
        for one in self.names or self.declared.type.words or (self.declared.example,):
            yield one
            yield ", ".join([one] * MANY)

    def of_one(self, value: Any, written: str) -> Iterator[str]:
        """Other values for a single one."""
        yield from (word for word in (*self.names[:MOST_NAMES], *self.declared.type.words) if word != written)
        if written in self.declared.type.words and self.declared.type.value_type.base == "either":
            yield self.declared.example
        for form, make in _BY_FORM:
            if isinstance(value, form):
                yield from make(value)
                return


def other_values(element: Element, attribute: str, written: str, kind_of: Mapping[str, str]) -> list[str]:
    """What may stand in place of the attribute's value, the likeliest fault first; each once, and never what is written there.

    `written` is "" where the plan says nothing of it: then the example of the vocabulary stands in for what it might say.
    `kind_of` are the names of the plan's statements, each with its kind. A list never names one statement or word twice.
    """
    declared = type(element).attributes[attribute]
    slot = Slot(declared, _fitting(declared.type.kinds, kind_of, but=element.name, first=kind_of.get(written.split(", ")[0], "")))
    found = [] if written else list(slot.names or [declared.type.example])
    if written or not slot.names:
        text = written or declared.type.example
        value = element.value(attribute) if written else declared.type.read(text)
        found += slot.of_list(value, text.split(", ")) if declared.type.is_list else slot.of_one(value, text)
    altered = dict.fromkeys([*found, *(["none"] if declared.none else [])])
    same = ("", written or declared.default)
    return [text for text in altered if text not in same and not (_named(declared) and _repeats(text))]


def _fitting(kinds: Sequence[str], kind_of: Mapping[str, str], but: str, first: str) -> tuple[str, ...]:
    """The statements that may be named there, those of the kind that is named now first."""
    fitting = [name for name, kind in kind_of.items() if name != but and (kind in kinds or "any" in kinds)]
    return tuple(sorted(fitting, key=lambda name: kind_of[name] != first))


def _named(declared: "Stated[Any]") -> bool:
    return bool(declared.type.kinds or declared.type.words)


def _repeats(text: str) -> bool:
    members = text.split(", ")
    return len(set(members)) < len(members)


def _numbers(value: float) -> Iterator[str]:
    if isinstance(value, int):
        yield from (str(number) for number in (value - 1, value + 1) if number >= 0)
    for by in LADDER:
        yield str(round(value * by)) if isinstance(value, int) else figured(value * by, 4)


def _quantities(value: Quantity) -> Iterator[str]:
    for by in LADDER:
        yield f"{figured(value.within(value.unit) * by, 4)} {value.unit}"


def _sizes(size: str, allowed: Sequence[str] = SIZES) -> Iterator[str]:
    """Other sizes: one, two and four steps down and up, the smallest and the largest."""
    at = allowed.index(size)
    for step in (-1, 1, -2, 2, -4, 4):
        if 0 <= at + step < len(allowed):
            yield allowed[at + step]
    yield from (allowed[0], allowed[-1])


def _conductors(value: Conductors) -> Iterator[str]:
    if not value.count:
        yield from ("12 AWG copper THWN-2", "4/0 aluminum XHHW-2")
        return
    plain = replace(value, written="")
    for size in _sizes(value.size.size):
        yield str(replace(plain, size=replace(value.size, size=size)))
    for metal in METALS:
        yield str(replace(plain, size=replace(value.size, metal=metal)))
    for count in (value.count - 1, value.count + 1, value.count * MANY):
        yield str(replace(plain, count=count))
    for insulation in INSULATIONS if value.insulation else ():
        yield str(replace(plain, insulation=insulation))


def _cables(value: Cable) -> Iterator[str]:
    if not value.wires:
        yield from CABLE_TYPES
        yield "12/2 copper NM-B"
        return
    size, metal = value.size.size, value.size.metal
    for other in _sizes(size):
        yield f"{other}/{value.wires} {metal} {value.type}"
    for wires in (2, 3, 4):
        yield f"{size}/{wires} {metal} {value.type}"
    for other in METALS:
        yield f"{size}/{value.wires} {other} {value.type}"
    for other in CABLE_TYPES:
        yield f"{size}/{value.wires} {metal} {other}"


def _trade_sizes(value: TradeSize) -> Iterator[str]:
    yield from (f"{size} in" for size in _sizes(value.name, TRADE_SIZES))


def _box_sizes(value: Dimensions) -> Iterator[str]:
    for by in LADDER:
        yield " x ".join(figured(inches * by, 4) for inches in value.inches) + " in"


_BY_FORM: tuple[tuple[type, Callable[[Any], Iterator[str]]], ...] = (
    (bool, lambda value: iter(["no" if value else "yes"])),
    (Quantity, _quantities),
    (int, _numbers),
    (float, _numbers),
    (Conductors, _conductors),
    (Cable, _cables),
    (TradeSize, _trade_sizes),
    (Dimensions, _box_sizes),
    (VoltageSystem, lambda value: iter(SYSTEMS)),
)
