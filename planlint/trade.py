"""The trade's own values that are no quantities: wire sizes, conductors, cables, trade sizes, boxes, voltages, slopes."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Self

from planlint.nearest import proposal
from planlint.quantities import Length, Unreadable, Voltage, alike, read_number

METALS = ("copper", "aluminum")
INSULATIONS = (
    "THHN", "THWN", "THWN-2", "XHH", "XHHW", "XHHW-2", "RHH", "RHW", "RHW-2", "USE-2", "TW", "THW", "THW-2", "THHW", "bare",
)  # fmt: skip
CABLE_TYPES = ("NM-B", "UF-B", "SEU", "SER", "USE-2", "MC", "AC")
AWG_SIZES = ("18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0")
KCMIL_SIZES = ("250", "300", "350", "400", "500", "600", "700", "750", "800", "900", "1000", "1250", "1500", "1750", "2000")
SIZES = AWG_SIZES + KCMIL_SIZES


def _circular_mils(size: str) -> float:
    """The metal's cross-section in circular mils by the formula of ASTM B258: d = 0.005 in x 92^((36 - n) / 39)."""
    if size in KCMIL_SIZES:
        return 1000.0 * int(size)
    gauge = {"1/0": 0, "2/0": -1, "3/0": -2, "4/0": -3}.get(size)
    number = int(size) if gauge is None else gauge
    return float((5 * 92 ** ((36 - number) / 39)) ** 2)


_ORDER = {size: _circular_mils(size) for size in SIZES}


@dataclass(frozen=True, slots=True, eq=False)
class WireSize:
    """A conductor's size and metal; `size` is "" for no wire at all, `metal` is "" where the plan doesn't say.

    Sizes of one metal are in the order of their circular mils; sizes of two metals can't be held against each other.
    """

    size: str
    metal: str = ""

    @classmethod
    def read(cls, text: str) -> Self:
        """Read `4 AWG copper`, `4/0 aluminum`, `250 kcmil copper`. Raises Unreadable."""
        words = text.split()
        size, used = _read_size(words, text)
        rest = words[used:]
        metal = ""
        if rest and rest[0] in METALS:
            metal, rest = rest[0], rest[1:]
        if rest:
            raise _unknown_word(rest[0], text, METALS, "a metal: copper or aluminum")
        return cls(size, metal)

    @property
    def area(self) -> float:
        """Circular mils by the formula of ASTM B258; for the order of sizes only (sums and ratios take Chapter 9 Table 8)."""
        return _ORDER[self.size] if self.size else 0.0

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, WireSize):
            return NotImplemented
        return self.size == other.size and (self.metal == other.metal or not self.size)

    def __hash__(self) -> int:
        return hash((self.size, self.metal if self.size else ""))

    def _pair(self, other: "WireSize") -> tuple[float, float]:
        if self.size and other.size and self.metal != other.metal:
            raise TypeError(f"{self} can't be held against {other}: two metals")
        return self.area, other.area

    def __lt__(self, other: "WireSize") -> bool:
        a, b = self._pair(other)
        return a < b

    def __le__(self, other: "WireSize") -> bool:
        a, b = self._pair(other)
        return a <= b

    def __gt__(self, other: "WireSize") -> bool:
        return not self <= other

    def __ge__(self, other: "WireSize") -> bool:
        return not self < other

    def __str__(self) -> str:
        if not self.size:
            return "no wire"
        unit = " kcmil" if self.size in KCMIL_SIZES else " AWG"
        return f"{self.size}{unit} {self.metal}".rstrip()


NO_WIRE = WireSize("")


@dataclass(frozen=True, slots=True)
class WireSizes:
    """A size for each metal, as a setting lists them: `6 AWG copper, 4 AWG aluminum`. A wire is held against its own metal's."""

    by_metal: Mapping[str, WireSize]
    written: str = ""

    @classmethod
    def of(cls, *sizes: WireSize, written: str = "") -> Self:
        """These sizes, each with its metal. Raises ValueError where one has no metal or a metal comes twice."""
        by_metal = {size.metal: size for size in sizes}
        if "" in by_metal or len(by_metal) < len(sizes):
            raise ValueError("each size names its metal, and each metal has one size, like 6 AWG copper, 4 AWG aluminum")
        return cls(by_metal, written)

    @classmethod
    def read(cls, text: str) -> Self:
        """Read sizes separated by commas. Raises Unreadable."""
        sizes: list[WireSize] = []
        at = 0
        for part in text.split(","):
            word = part.strip()
            start = at + len(part) - len(part.lstrip())
            try:
                sizes.append(WireSize.read(word))
            except Unreadable as fault:
                raise Unreadable(fault.message, start + fault.start, start + (fault.end or len(word))) from None
            at += len(part) + 1
        try:
            return cls.of(*sizes, written=" ".join(text.split()))
        except ValueError as fault:
            raise Unreadable(str(fault), 0, len(text)) from None

    def __str__(self) -> str:
        return self.written or " or ".join(map(str, self.by_metal.values()))


def _read_size(words: list[str], text: str) -> tuple[str, int]:
    if not words:
        raise Unreadable("a wire size is missing", 0, len(text), "a size is written like 4 AWG copper")
    first = words[0]
    if first.startswith("#"):
        raise Unreadable(f"'#' starts a comment; write the size like {first[1:] or '4'} AWG", 0, len(first))
    if first not in SIZES:
        glued = re.fullmatch(r"(.+?)(AWG|kcmil|MCM)", first, re.IGNORECASE)
        if glued and glued[1] in SIZES:
            unit = "kcmil" if glued[1] in KCMIL_SIZES else "AWG"
            raise Unreadable(f"leave a space between size and unit: {glued[1]} {unit}", 0, len(first))
        if first in METALS + INSULATIONS:
            raise Unreadable(f"the size comes before '{first}', like 4 AWG {first}", 0, len(first))
        raise Unreadable(_no_size(first), 0, len(first))
    unit = words[1] if len(words) > 1 else ""
    right = "kcmil" if first in KCMIL_SIZES else "AWG"
    if unit == right:
        return first, 2
    if unit.lower() in ("awg", "kcmil", "mcm", "ga", "gauge"):
        start = text.find(unit, len(first))
        raise Unreadable(f"{first} is a size in {right}, written '{first} {right}'", start, start + len(unit))
    return first, 1


def _no_size(word: str) -> str:
    return f"'{word}' is no wire size; sizes are {', '.join(AWG_SIZES)} AWG and {KCMIL_SIZES[0]} to {KCMIL_SIZES[-1]} kcmil"


def _unknown_word(word: str, text: str, known: tuple[str, ...], meant: str) -> Unreadable:
    start = text.find(word)
    return Unreadable(f"'{word}' is not {meant}.{proposal(word, known)}", start, start + len(word))


@dataclass(frozen=True, slots=True)
class Conductors:
    """So many wires of one size, metal and insulation. `count` is 0 for `none`; what isn't said is ""."""

    count: int
    size: WireSize
    insulation: str = ""
    written: str = ""

    @classmethod
    def read(cls, text: str) -> Self:
        """Read `2 x 4/0 aluminum XHHW-2`, `4 AWG copper bare`, `9 x 12 AWG`. Raises Unreadable."""
        written = " ".join(text.split())
        glued = re.match(r"([0-9]+)[xX*]([0-9]\S*)", written)
        if glued:
            raise Unreadable(f"leave spaces round the x: {glued[1]} x {glued[2]}", 0, glued.end())
        words = written.split(" ") if written else []
        count = 1
        if len(words) > 1 and words[1] == "x":
            if not re.fullmatch(r"[0-9]{1,3}", words[0]) or int(words[0]) == 0:
                raise Unreadable(f"'{words[0]}' is no number of wires", 0, len(words[0]))
            count, words = int(words[0]), words[2:]
        size, used = _read_size(words, written)
        metal = insulation = ""
        for word in words[used:]:
            if word in METALS and not metal:
                metal = word
            elif word in INSULATIONS and not insulation:
                insulation = word
            else:
                known = METALS + INSULATIONS
                raise _unknown_word(word, written, known, "a metal or an insulation, like copper or XHHW-2")
        return cls(count, WireSize(size, metal), insulation, written)

    def __str__(self) -> str:
        if self.written:
            return self.written
        if not self.count:
            return "none"
        times = f"{self.count} x " if self.count > 1 else ""
        return f"{times}{self.size} {self.insulation}".rstrip()


NO_CONDUCTORS = Conductors(0, NO_WIRE)


@dataclass(frozen=True, slots=True)
class Cable:
    """A cable: its type and, where the name says them, size, metal and number of insulated wires."""

    type: str
    size: WireSize = NO_WIRE
    wires: int = 0
    written: str = ""

    @classmethod
    def read(cls, text: str) -> Self:
        """Read `12/2 copper NM-B` or a bare type like `SER`, whose wires the plan states one by one. Raises Unreadable."""
        written = " ".join(text.split())
        words = written.split(" ") if written else []
        if len(words) == 1:
            if words[0] not in CABLE_TYPES:
                raise _unknown_word(words[0], written, CABLE_TYPES, f"a cable type; those are {', '.join(CABLE_TYPES)}")
            return cls(words[0], written=written)
        sized = re.fullmatch(r"([0-9]{1,3})/([2-4])", words[0]) if words else None
        if sized is None or sized[1] not in SIZES:
            raise Unreadable(f"'{written}' is no cable", 0, len(written), "a cable is written like 12/2 copper NM-B, or SER")
        metal = type_ = ""
        for word in words[1:]:
            if word in METALS and not metal:
                metal = word
            elif word in CABLE_TYPES and not type_:
                type_ = word
            else:
                raise _unknown_word(word, written, METALS + CABLE_TYPES, "a metal or a cable type, like copper or NM-B")
        if not type_:
            raise Unreadable(f"'{written}' names no cable type; those are {', '.join(CABLE_TYPES)}", 0, len(written))
        return cls(type_, WireSize(sized[1], metal), int(sized[2]), written)

    def __str__(self) -> str:
        return self.written or self.type


@dataclass(frozen=True, slots=True, eq=False)
class TradeSize:
    """The trade size of a raceway: a name in inches, not a length. 1.25 in and 1-1/4 in are the same one."""

    inches: float
    written: str = ""

    @classmethod
    def read(cls, text: str) -> Self:
        """Read `2-1/2 in`. Raises Unreadable for another unit and for what no raceway is named by."""
        written = " ".join(text.split())
        number, _, unit = written.partition(" ")
        if unit != "in":
            Length.read(written)  # says what is wrong with it, if it is no length at all
            raise Unreadable(f"a trade size is in inches, not {written}", 0, len(written), "a size is written like 2-1/2 in")
        size = cls(read_number(number), written)
        if size.name not in TRADE_SIZES:
            raise Unreadable(f"'{written}' is no trade size; those are {', '.join(TRADE_SIZES)} in", 0, len(written))
        return size

    @property
    def name(self) -> str:
        """As the tables name it: `2-1/2`."""
        whole, eighths = divmod(self.inches * 8, 8)
        fraction = _EIGHTHS.get(round(eighths, 6), "?")
        parts = [part for part in (f"{whole:.0f}" if whole else "", fraction) if part]
        return "-".join(parts)

    def __eq__(self, other: object) -> bool:
        return alike(self.inches, other.inches) if isinstance(other, TradeSize) else NotImplemented

    def __hash__(self) -> int:
        return hash(self.name)

    def __lt__(self, other: "TradeSize") -> bool:
        return self.inches < other.inches and self != other

    def __le__(self, other: "TradeSize") -> bool:
        return not other < self

    def __gt__(self, other: "TradeSize") -> bool:
        return other < self

    def __ge__(self, other: "TradeSize") -> bool:
        return not self < other

    def __str__(self) -> str:
        return self.written or f"{self.name} in"


_EIGHTHS = {0.0: "", 1.0: "1/8", 2.0: "1/4", 3.0: "3/8", 4.0: "1/2", 5.0: "5/8", 6.0: "3/4", 7.0: "7/8"}
TRADE_SIZES = ("3/8", "1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "3-1/2", "4", "5", "6")


@dataclass(frozen=True, slots=True)
class Dimensions:
    """The trade dimensions of a metal box: `4 x 1-1/2 in`, inches in the order written."""

    inches: tuple[float, ...]
    written: str = ""

    @classmethod
    def read(cls, text: str) -> Self:
        """Read `4 x 2-1/8 x 1-7/8 in`. Raises Unreadable."""
        written = " ".join(text.split())
        if not re.fullmatch(r"\S+( x \S+){1,2} in", written):
            raise Unreadable(f"'{written}' is no box size", 0, len(written), "a box size is written like 4 x 1-1/2 in")
        return cls(tuple(read_number(part) for part in written[:-3].split(" x ")), written)

    def __str__(self) -> str:
        return self.written


@dataclass(frozen=True, slots=True)
class VoltageSystem:
    """A supply's voltages: to neutral (None for two-wire supplies without one) and between hots."""

    line: Voltage
    to_neutral: Voltage | None
    written: str = ""

    @classmethod
    def read(cls, text: str) -> Self:
        """Read `120/240 V` or `240 V`. Raises Unreadable."""
        written = " ".join(text.split())
        two = re.fullmatch(r"([0-9]{2,3})/([0-9]{2,3}) V", written)
        if two:
            low, high = Voltage.of(int(two[1]), "V"), Voltage.of(int(two[2]), "V")
            if not low < high:
                raise Unreadable(f"'{written}': the lower voltage, to neutral, comes first", 0, len(written))
            return cls(high, low, written)
        if re.fullmatch(r"[0-9/]+V|[0-9]+/[0-9]+", written):
            raise Unreadable(f"write the unit after a space, like 120/240 V, not {written}", 0, len(written))
        return cls(Voltage.read(written), None, written)

    def __str__(self) -> str:
        return self.written


@dataclass(frozen=True, slots=True)
class Slope:
    """A roof's rise in its run: `6 in 12`."""

    rise: float
    run: float
    written: str = ""

    @classmethod
    def read(cls, text: str) -> Self:
        """Read `6 in 12`. Raises Unreadable."""
        words = text.split()
        if len(words) != 3 or words[1] != "in":
            raise Unreadable(f"'{text}' is no slope", 0, len(text), "a slope is written like 6 in 12")
        rise, run = read_number(words[0]), read_number(words[2])
        if run <= 0 or rise < 0:
            raise Unreadable("a slope rises in a run above zero, like 6 in 12", 0, len(text))
        return cls(rise, run, " ".join(words))

    def __str__(self) -> str:
        return self.written
