"""What a value may be, said once for attributes, facts, settings and the rule language."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ValueType:
    """The type of a value as the rule language sees it.

    `base` is one of: quantity, number, yes-no, choice, wire-size, conductors, cable, trade-size, dimensions, voltage-system,
    slope, text, date, either, element, list. `dimension` belongs to quantity, `words` to choice, `kinds` to element, `of` to
    list. Either is a quantity or one of the `words` (a panel's main: a current, or lugs).
    """

    base: str
    dimension: str = ""
    words: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    of: "ValueType | None" = None

    def __str__(self) -> str:
        if self.base == "quantity":
            return self.dimension
        if self.base == "choice":
            return "one of " + ", ".join(self.words)
        if self.base == "element":
            return " or ".join(self.kinds)
        if self.base == "list":
            return f"list of {self.of}"
        return self.base


def quantity(dimension: str) -> ValueType:
    """The type of a quantity of that dimension."""
    return ValueType("quantity", dimension)


def choice(*words: str) -> ValueType:
    """The type of one word out of several."""
    return ValueType("choice", words=words)


def element(*kinds: str) -> ValueType:
    """The type of a statement of one of these kinds."""
    return ValueType("element", kinds=kinds)


def list_of(member: ValueType) -> ValueType:
    """The type of several values."""
    return ValueType("list", of=member)


YES_NO = ValueType("yes-no")
NUMBER = ValueType("number")
WIRE_SIZE = ValueType("wire-size")
CONDUCTORS = ValueType("conductors")
CABLE = ValueType("cable")
TRADE_SIZE = ValueType("trade-size")
DIMENSIONS = ValueType("dimensions")
VOLTAGE_SYSTEM = ValueType("voltage-system")
SLOPE = ValueType("slope")
TEXT = ValueType("text")
DATE = ValueType("date")
