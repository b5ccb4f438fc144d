"""Values with units: a class for each dimension, read from the words of a plan and compared in one unit.

A quantity keeps the words it was written in and prints them again; one that was worked out prints its figures in the
unit it was made in: three in a finding, four in a working. Comparisons have a relative tolerance of 1e-9, so that
1.25 in and 1-1/4 in are alike whatever way they were reached.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar, Self

from planlint.amounts import Unit, read_amount
from planlint.amounts import Unreadable as Unreadable
from planlint.amounts import read_number as read_number

TOLERANCE = 1e-9
WORKING_FIGURES = 4


METRIC = ("mm", "cm", "m", "sq m", "sq mm", "cu cm", "C", "N", "kg/m", "N/m")


@dataclass(frozen=True, slots=True, eq=False)
class Quantity:
    """An amount of one dimension. `amount` is in the dimension's first unit, `unit` the one it is shown in.

    A figure of a rule book may have two: `18 in (450 mm)`. The second, `metric`, counts against a value that a plan states in
    metric; sums of pairs add part by part.
    """

    amount: float
    unit: str = ""
    written: str = ""
    metric: "Quantity | None" = None

    dimension: ClassVar[str] = ""
    article: ClassVar[str] = "a"
    units: ClassVar[Mapping[str, Unit]] = {}
    example: ClassVar[str] = ""
    negative: ClassVar[bool] = False
    compound: ClassVar[tuple[str, ...]] = ()

    @classmethod
    def of(cls, number: float, unit: str) -> Self:
        """So many of that unit, as a worked value.

        >>> Length.of(3, "ft") == Length.of(36, "in")
        True
        """
        scale = cls.units[unit]
        return cls(number * scale.factor + scale.zero, unit)

    @classmethod
    def read(cls, text: str) -> Self:
        """Read what a plan says, like `6 ft 7 in`.

        Raises Unreadable, with the part at fault and the form that belongs there.
        """
        return cls(*read_amount(cls, text, DIMENSIONS))

    @classmethod
    def read_pair(cls, text: str) -> Self:
        """Read a figure of a rule book: one amount, or an inch figure with its metric one in brackets, `18 in (450 mm)`.

        Raises Unreadable, as `read` does, and for brackets that hold no metric amount of the same dimension.
        """
        first, bracket, rest = text.partition(" (")
        if not bracket:
            return cls.read(text)
        start = len(first) + len(bracket)
        if not rest.endswith(")"):
            raise Unreadable(f"'{text}' has no closing bracket; a pair is written 18 in (450 mm)", start, len(text))
        one = cls.read(first)
        try:
            second = cls.read(rest[:-1])
        except Unreadable as fault:
            raise Unreadable(fault.message, start + fault.start, start + (fault.end or len(rest) - 1)) from None
        if second.unit not in METRIC or one.unit in METRIC:
            message = f"'{text}' is no pair: the inch figure comes first and the metric one stands in brackets, 18 in (450 mm)"
            raise Unreadable(message, 0, len(text))
        return cls(one.amount, one.unit, text, second)

    def within(self, unit: str) -> float:
        """The number of that unit."""
        scale = self.units[unit]
        return (self.amount - scale.zero) / scale.factor

    def shown_in(self, unit: str) -> Self:
        """The same amount, shown in another unit."""
        return type(self)(self.amount, unit, metric=self.metric)

    def show(self, figures: int = 3) -> str:
        """As written; if worked out, in its unit to so many figures."""
        if self.written:
            return self.written
        unit = self.unit or next(iter(self.units))
        text = f"{figured(self.within(unit), figures)} {unit}"
        return f"{text} ({self.metric.show(figures)})" if self.metric else text

    def __str__(self) -> str:
        return self.show(WORKING_FIGURES)

    def _pair(self, other: object) -> tuple[float, float]:
        if not isinstance(other, Quantity) or other.dimension != self.dimension:
            raise TypeError(f"{self.dimension} can't be held against {getattr(other, 'dimension', type(other).__name__)}")
        return self._against(other), other._against(self)

    def _against(self, other: "Quantity") -> float:
        """The figure of a pair that counts beside the other: the metric one where a plan states that in metric."""
        return self.metric.amount if self.metric and other.written and other.unit in METRIC else self.amount

    def _paired(self, other: "Quantity", sign: int) -> "Quantity | None":
        """The metric part of a sum or difference; none where neither has one."""
        if not (self.metric or other.metric):
            return None
        one, two = self.metric or self, other.metric or other
        return type(self)(one.amount + sign * two.amount, one.unit if self.metric else two.unit)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Quantity) or other.dimension != self.dimension:
            return NotImplemented
        return alike(*self._pair(other))

    __hash__ = None  # type: ignore[assignment]  # equality has a tolerance, so no hash can agree with it

    def __lt__(self, other: Self) -> bool:
        a, b = self._pair(other)
        return a < b and not alike(a, b)

    def __le__(self, other: Self) -> bool:
        a, b = self._pair(other)
        return a < b or alike(a, b)

    def __gt__(self, other: Self) -> bool:
        return not self <= other

    def __ge__(self, other: Self) -> bool:
        return not self < other

    def __add__(self, other: Self) -> Self:
        self._pair(other)
        return type(self)(self.amount + other.amount, self.unit or other.unit, metric=self._paired(other, 1))

    def __sub__(self, other: Self) -> Self:
        self._pair(other)
        return type(self)(self.amount - other.amount, self.unit or other.unit, metric=self._paired(other, -1))

    def __mul__(self, by: "float | Percent") -> Self:
        return type(self)(self.amount * plain(by), self.unit, metric=self.metric * by if self.metric else None)

    __rmul__ = __mul__

    def over(self, other: Self) -> float:
        """The ratio of two amounts of one dimension."""
        self._pair(other)
        return self.amount / other.amount


def plain(number: "float | Percent") -> float:
    """A percent as the plain number it stands for; a number as it is."""
    return number.amount if isinstance(number, Percent) else number


def alike(a: float, b: float) -> bool:
    """Equal within the tolerance of the last place of a conversion."""
    return a == b or math.isclose(a, b, rel_tol=TOLERANCE, abs_tol=TOLERANCE)


def figured(number: float, figures: int = 3) -> str:
    """A number to so many figures, whole numbers whole, no exponent.

    >>> figured(160.657), figured(0.8417), figured(12720)
    ('161', '0.842', '12720')
    """
    if number == 0 or not math.isfinite(number):
        return "0" if number == 0 else str(number)
    decimals = max(0, figures - 1 - math.floor(math.log10(abs(number))))
    text = f"{number:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


class Length(Quantity):
    """A distance; worked in inches."""

    __slots__ = ()
    dimension = "length"
    units: ClassVar[Mapping[str, Unit]] = {
        "in": Unit(1.0), "ft": Unit(12.0), "mm": Unit(1 / 25.4), "cm": Unit(1 / 2.54), "m": Unit(100 / 2.54),
    }  # fmt: skip
    example = "6 ft 7 in"
    compound = ("ft", "in", "m", "cm", "mm")


class Area(Quantity):
    """A surface; worked in square inches."""

    __slots__ = ()
    dimension = "area"
    article = "an"
    units: ClassVar[Mapping[str, Unit]] = {
        "sq in": Unit(1.0), "sq ft": Unit(144.0), "sq m": Unit((100 / 2.54) ** 2), "sq mm": Unit(1 / 25.4**2),
    }  # fmt: skip
    example = "1650 sq ft"


class Volume(Quantity):
    """The room inside a box; worked in cubic inches."""

    __slots__ = ()
    dimension = "volume"
    units: ClassVar[Mapping[str, Unit]] = {"cu in": Unit(1.0), "cu cm": Unit(1 / 2.54**3)}
    example = "20.3 cu in"


class Current(Quantity):
    """Amperes, of a load, a breaker or a fault."""

    __slots__ = ()
    dimension = "current"
    units: ClassVar[Mapping[str, Unit]] = {"A": Unit(1.0), "kA": Unit(1000.0)}
    example = "20 A"


class Voltage(Quantity):
    """Volts."""

    __slots__ = ()
    dimension = "voltage"
    units: ClassVar[Mapping[str, Unit]] = {"V": Unit(1.0), "kV": Unit(1000.0)}
    example = "240 V"


class Power(Quantity):
    """Power and apparent power, one dimension for comparing; worked in volt-amperes. One horsepower is 746 W."""

    __slots__ = ()
    dimension = "power"
    units: ClassVar[Mapping[str, Unit]] = {
        "VA": Unit(1.0),
        "kVA": Unit(1000.0),
        "W": Unit(1.0),
        "kW": Unit(1000.0),
        "hp": Unit(746.0),
    }
    example = "9.6 kW"


class Temperature(Quantity):
    """How warm it is; worked in degrees Celsius. A difference of temperatures is another dimension."""

    __slots__ = ()
    dimension = "temperature"
    units: ClassVar[Mapping[str, Unit]] = {"C": Unit(1.0), "F": Unit(5 / 9, -160 / 9)}
    example = "86 F"
    negative = True


class TemperatureDifference(Quantity):
    """From coldest to hottest; worked in Fahrenheit degrees, as the expansion table has it."""

    __slots__ = ()
    dimension = "temperature difference"
    units: ClassVar[Mapping[str, Unit]] = {"F": Unit(1.0), "C": Unit(9 / 5)}
    example = "120 F"


class Angle(Quantity):
    """A bend."""

    __slots__ = ()
    dimension = "angle"
    article = "an"
    units: ClassVar[Mapping[str, Unit]] = {"deg": Unit(1.0)}
    example = "90 deg"


class Inclination(Angle):
    """How steeply a straight part of a pipe rises; one that falls is below zero."""

    __slots__ = ()
    example = "90 deg"
    negative = True


class Resistance(Quantity):
    """Ohms, of an electrode or a conductor."""

    __slots__ = ()
    dimension = "resistance"
    units: ClassVar[Mapping[str, Unit]] = {"ohm": Unit(1.0)}
    example = "25 ohm"


class Resistivity(Quantity):
    """Of soil."""

    __slots__ = ()
    dimension = "resistivity"
    units: ClassVar[Mapping[str, Unit]] = {"ohm-m": Unit(1.0), "ohm-cm": Unit(0.01)}
    example = "100 ohm-m"


class Percent(Quantity):
    """A share; worked as the plain number it stands for, so that 3 % is 0.03."""

    __slots__ = ()
    dimension = "percent"
    units: ClassVar[Mapping[str, Unit]] = {"%": Unit(0.01)}
    example = "3 %"


class Force(Quantity):
    """A pull; worked in pounds of force."""

    __slots__ = ()
    dimension = "force"
    units: ClassVar[Mapping[str, Unit]] = {"lb": Unit(1.0), "N": Unit(1 / 4.4482216152605)}
    example = "340 lb"


class WeightPerLength(Quantity):
    """Of cable; worked in pounds per foot."""

    __slots__ = ()
    dimension = "weight per length"
    units: ClassVar[Mapping[str, Unit]] = {"lb/ft": Unit(1.0), "kg/m": Unit(1 / 1.4881639435695)}
    example = "0.144 lb/ft"


class ForcePerLength(Quantity):
    """Against the wall of a bend; worked in pounds per foot of radius."""

    __slots__ = ()
    dimension = "force per length"
    units: ClassVar[Mapping[str, Unit]] = {"lb/ft": Unit(1.0), "N/m": Unit(1 / 14.593902937206)}
    example = "300 lb/ft"


DIMENSIONS: dict[str, type[Quantity]] = {
    cls.dimension: cls
    for cls in (Length, Area, Volume, Current, Voltage, Power, Temperature, TemperatureDifference, Angle, Resistance,
                Resistivity, Percent, Force, WeightPerLength, ForcePerLength)
}  # fmt: skip
