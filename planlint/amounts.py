"""Reading amounts from a plan's words: numbers, units, and what to say of those that can't be read."""

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from planlint.quantities import Quantity

_NUMBER = re.compile(r"(-?)(?:([0-9]+)-([0-9]+)/([0-9]+)|([0-9]+)/([0-9]+)|([0-9]+(?:\.[0-9]+)?|\.[0-9]+))")
_MOST_DIGITS = 12


class Unreadable(ValueError):
    """A value that can't be read. `start` and `end` say which part of the text given is at fault.

    `met` says what is wrong; `meant`, if there is one, what belongs there. Who knows the attribute or setting replaces
    `meant` by a word of its own; `message` is both.
    """

    def __init__(self, met: str, start: int = 0, end: int | None = None, meant: str = "") -> None:
        self.met = met
        self.meant = meant
        self.message = f"{met}; {meant}" if meant else met
        super().__init__(self.message)
        self.start = start
        self.end = end


def read_number(text: str) -> float:
    """A number as plans write it: `12`, `12.5`, `1/2`, `1-1/2`, with a leading `-` where the type allows one.

    Raises Unreadable for anything else, for a zero below the stroke, and for more digits than a plan can mean.
    """
    found = _NUMBER.fullmatch(text)
    if found is None:
        raise Unreadable(f"'{text}' is not a number", 0, len(text), "a number is written like 12, 12.5 or 1-1/2")
    if sum(c in "0123456789" for c in text) > _MOST_DIGITS:
        raise Unreadable(f"a number has at most {_MOST_DIGITS} digits", 0, len(text))
    sign, whole, upper, lower, upper_only, lower_only, plain = found.groups()
    if plain is not None:
        number = float(plain)
    else:
        divisor = int(lower or lower_only)
        if divisor == 0:
            raise Unreadable(f"'{text}' divides by zero", 0, len(text))
        number = int(whole or 0) + int(upper or upper_only) / divisor
    return -number if sign else number


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: how many of the dimension's first unit it is, and (temperatures) where its zero lies."""

    factor: float
    zero: float = 0.0


def read_amount(cls: "type[Quantity]", text: str, dimensions: "Mapping[str, type[Quantity]]") -> tuple[float, str, str]:
    """What a plan says of one dimension: the amount in its first unit, the unit to show it in, and the words.

    `dimensions` are all there are, to say of which one a wrong unit is. Raises Unreadable.
    """
    written = " ".join(text.split())
    words = written.split(" ") if written else []
    if not words:
        raise Unreadable(f"{cls.article} {cls.dimension} is missing", 0, 0, _form(cls))
    used: list[str] = []
    total, at, shown = 0.0, 0, ""
    while at < len(words):
        number = _read_number(cls, words, at, written)
        if number < 0 and not cls.negative:
            raise Unreadable(f"{cls.article} {cls.dimension} is never below zero", 0, len(words[at]))
        unit, at = _read_unit(cls, words, at + 1, written, dimensions)
        if used and not _follows(cls, unit, used[-1]):
            raise Unreadable(_no_sum(cls, written), 0, len(written))
        used.append(unit)
        shown = shown or unit
        scale = cls.units[unit]
        total += number * scale.factor + scale.zero
    return total, shown, written


def _form(cls: "type[Quantity]") -> str:
    return f"{cls.article} {cls.dimension} is written like {cls.example}"


def _follows(cls: "type[Quantity]", unit: str, before: str) -> bool:
    """Whether the two may stand in one quantity, in this order: feet, then inches."""
    both = unit in cls.compound and before in cls.compound
    return both and cls.compound.index(unit) > cls.compound.index(before) and _system(unit) == _system(before)


def _system(unit: str) -> str:
    return "inch" if unit in ("ft", "in") else "metric"


def _no_sum(cls: "type[Quantity]", written: str) -> str:
    if cls.compound:
        return f"'{written}' is not one {cls.dimension}; each unit stands once, the larger first, like {cls.example}"
    return f"'{written}' is more than one {cls.dimension}"


def _read_number(cls: "type[Quantity]", words: list[str], at: int, whole: str) -> float:
    word = words[at]
    try:
        return read_number(word)
    except Unreadable as fault:
        marked = re.fullmatch(r"(?:([0-9./-]+)')?(?:([0-9./-]+)\")?", word)
        if marked and word:
            right = " ".join(f"{n} {unit}" for n, unit in ((marked[1], "ft"), (marked[2], "in")) if n)
            raise Unreadable(f"write {right}, not {word}", 0, len(whole)) from None
        glued = re.fullmatch(r"(-?[0-9][0-9./-]*)([A-Za-z%].*)", word)
        if glued:
            unit = _SPELLED_OUT.get(glued[2].lower(), glued[2])
            raise Unreadable(f"leave a space between number and unit: {glued[1]} {unit}", 0, len(whole)) from None
        if not fault.meant:  # a number, but one that can't be
            raise Unreadable(fault.met, 0, len(whole)) from None
        raise Unreadable(f"'{whole}' can't be read", 0, len(whole), _form(cls)) from None


def _read_unit(
    cls: "type[Quantity]", words: list[str], at: int, whole: str, dimensions: "Mapping[str, type[Quantity]]"
) -> tuple[str, int]:
    two = " ".join(words[at : at + 2])
    if two in cls.units:
        return two, at + 2
    one = words[at] if at < len(words) else ""
    if one in cls.units:
        return one, at + 1
    number = words[at - 1]
    if not one:
        raise Unreadable(f"'{number}' has no unit", whole.rindex(number), len(whole), _form(cls))
    for other in dimensions.values():
        if one in other.units or two in other.units:
            unit = two if two in other.units else one
            raise Unreadable(f"{number} {unit} is {other.article} {other.dimension}", 0, len(whole), _form(cls))
    start = len(" ".join(words[:at])) + 1
    if re.fullmatch(r"[0-9]+", number) and re.fullmatch(r"[0-9]+/[0-9]+", one):
        raise Unreadable(f"write {number}-{one}, with a hyphen, not {number} {one}", 0, start + len(one))
    for spelled in (two, one):
        meant = _SPELLED_OUT.get(spelled.lower())
        if meant in cls.units:
            raise Unreadable(f"'{spelled}' is written '{meant}' here", start, start + len(spelled))
    names = ", ".join(cls.units)
    raise Unreadable(f"'{one}' is no unit of {cls.dimension}; they are {names}", start, start + len(one))


_SPELLED_OUT = {
    "inch": "in", "inches": "in", '"': "in", "foot": "ft", "feet": "ft", "'": "ft", "sqft": "sq ft", "meter": "m",
    "meters": "m", "metre": "m", "metres": "m", "lbs": "lb", "a": "A", "amp": "A", "amps": "A", "ampere": "A", "amperes": "A",
    "ka": "kA", "v": "V", "volt": "V", "volts": "V", "w": "W", "watt": "W", "watts": "W", "kw": "kW", "va": "VA",
    "kva": "kVA", "degree": "deg", "degrees": "deg", "ohms": "ohm", "percent": "%", "f": "F", "c": "C", "pounds": "lb",
    "square feet": "sq ft", "square foot": "sq ft", "sf": "sq ft", "sq. ft.": "sq ft", "square inches": "sq in",
    "cubic inches": "cu in", "cu. in.": "cu in",
}  # fmt: skip
