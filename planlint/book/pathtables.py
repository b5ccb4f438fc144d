"""Look-ups about what wires pass through and end in: ditches, raceways, boxes, the space before a panel."""

import math
from typing import Literal, cast

from planlint.book.csvfile import LookUps
from planlint.quantities import Area, Length, Percent, Volume, alike, read_number
from planlint.trade import Dimensions, TradeSize, WireSize

Method = Literal["direct-burial", "rigid-metal", "nonmetallic", "gfci-branch", "low-voltage"]
Spot = Literal["soil", "concrete", "weather", "indoors"]
Permit = Literal["yes", "no", "marked"]
Location = Literal["yard", "driveway", "street", "patio-slab", "building", "concrete-in-trench"]

# The column of the table of outside diameters: most rigid kinds are as wide outside as iron pipe.
_OUTSIDE = {"RMC": "pipe", "PVC-40": "pipe", "PVC-80": "pipe", "HDPE": "pipe", "EMT": "emt", "IMC": "imc"}


class PathTables(LookUps):
    """The tables of Articles 110, 300, 314, those of the raceways, and the raceway tables of Chapter 9."""

    def cover(self, method: Method, location: Location) -> Length:
        """The least cover of a wiring method below that kind of ground. NFPA 70 Table 300.5 (2023: 300.5(A)).

        `yard` is every place without a row of its own, `driveway` that of a one- or two-family dwelling, `street` all other
        traffic, `concrete-in-trench` below 2 in of concrete in the ditch. What fits two methods may take the lesser cover.
        Raises OutOfTable.
        """
        asked = f"{method} in the row of {location}"
        return Length.of(float(self._cell("burial-cover", (location,), method, asked)), "in")

    def concrete(self, location: Literal["concrete-in-trench", "patio-slab", "rock"]) -> Length:
        """The least thickness of concrete that a row of the cover table rests on; `rock` is the note on solid rock.

        NFPA 70 Table 300.5 (2023: 300.5(A)). Raises OutOfTable.
        """
        return Length.of(float(self._cell("burial-cover", (location,), "concrete", f"concrete in the row of {location}")), "in")

    def fill_limit(self, count: int) -> Percent:
        """The share of a raceway's inside that so many wires or cables may take. NFPA 70 Chapter 9 Table 1.

        Raises OutOfTable for fewer than one.
        """
        asked = f"row for {count} wires"
        if count < 1:
            raise self._outside("raceway-fill", asked)
        wires = str(count) if count < 3 else "more"
        return Percent.of(float(self._cell("raceway-fill", (wires,), "percent", asked)), "%")

    def nipple_fill(self) -> Percent:
        """The share that wires may take in a nipple up to 24 in long. NFPA 70 Chapter 9, note 4 to the tables."""
        return Percent.of(float(self._cell("raceway-fill", ("nipple",), "percent", "row for nipples")), "%")

    def inside_diameter(self, type: str, size: TradeSize) -> Length:
        """The inside diameter of a raceway. NFPA 70 Chapter 9 Table 4. Raises OutOfTable."""
        asked = f"{type} of {size.name} in"
        return Length.of(float(self._cell("raceway-inside", (type, size.name), "inside-diameter", asked)), "in")

    def inside_area(self, type: str, size: TradeSize) -> Area:
        """The inside area of a raceway, worked from its diameter and not rounded.

        NFPA 70 Chapter 9 Table 4, whose rounded areas would miss some counts of Annex C. Raises OutOfTable.
        """
        return Area.of(math.pi / 4 * self.inside_diameter(type, size).within("in") ** 2, "sq in")

    def outside_diameter(self, type: str, size: TradeSize) -> Length:
        """The nominal outside diameter of rigid pipe, tubing or HDPE of iron pipe sizes.

        ASME B36.10M; EMT UL 797, IMC UL 1242. Raises OutOfTable, for flexible kinds too.
        """
        asked = f"{type} of {size.name} in"
        column = _OUTSIDE.get(type, "")
        if not column:
            raise self._outside("raceway-outside", asked)
        return Length.of(float(self._cell("raceway-outside", (size.name,), column, asked)), "in")

    def raceway_sizes(self, type: str) -> tuple[TradeSize, ...]:
        """The trade sizes in which a raceway is made, the smallest first. NFPA 70 Chapter 9 Table 4. Raises OutOfTable."""
        names = [row["size"] for row in self._table("raceway-inside").rows if row["type"] == type]
        if not names:
            raise self._outside("raceway-inside", type)
        return tuple(sorted(TradeSize(read_number(name)) for name in names))

    def raceway_place(self, type: str, spot: Spot) -> Permit:
        """Whether a raceway may be in the soil, in concrete, out in the weather, or in a wet place indoors.

        `marked`: only where it is marked or protected for it. NFPA 70, sections .10 and .12 of its article. Raises OutOfTable.
        """
        return cast(Permit, self._cell("raceway-places", (type,), spot, f"{type} in {spot}"))

    def bend_radius(self, size: TradeSize, one_shot: bool) -> Length:
        """The least radius of a field bend, to the center line; one-shot and full-shoe benders may bend tighter.

        NFPA 70 Chapter 9 Table 2. Raises OutOfTable.
        """
        column = "one-shot" if one_shot else "other"
        return Length.of(float(self._cell("bend-radius", (size.name,), column, f"bend in {size.name} in")), "in")

    def support_spacing(self, type: str, size: TradeSize | None = None, threaded: bool = False) -> Length:
        """The most between supports of a raceway or cable; `threaded`: straight, with threaded couplings (RMC, IMC).

        NFPA 70, section .30 of its article. A raceway whose spacing goes by its size needs the size. Raises OutOfTable.
        """
        return self._support(type, size, "threaded" if threaded else "spacing")

    def first_support(self, type: str) -> Length:
        """The most from a box or end to the first support of a raceway or cable. NFPA 70, section .30 of its article.

        Raises OutOfTable.
        """
        return self._support(type, None, "first")

    def packages(self, thing: str) -> tuple[tuple[Length, str], ...]:
        """In which packages a sort of material is sold, the smallest first, with the word for each. Common practice, no source.

        Raises OutOfTable.
        """
        rows = [row for row in self._table("sold-as").rows if row["thing"] == thing]
        if not rows:
            raise self._outside("sold-as", thing)
        return tuple(sorted((Length.of(read_number(row["package"]), "ft"), row["word"]) for row in rows))

    def _support(self, type: str, size: TradeSize | None, column: str) -> Length:
        asked = f"{type} of {size.name} in" if size else type
        rows = [row for row in self._table("supports").rows if row["type"] == type]
        fitting = [row for row in rows if size is None or not row["size-to"] or size.inches <= read_number(row["size-to"])]
        values = {row[column] for row in (fitting if size is None else fitting[:1])}
        if len(values) != 1 or "" in values:
            raise self._outside("supports", asked)
        return Length.of(float(values.pop()), "ft")

    def expansion_coefficient(self, type: str) -> float:
        """How much a raceway grows, per inch of length and degree Fahrenheit. NFPA 70 Table 352.44. Raises OutOfTable."""
        return float(self._cell("expansion", (type,), "coefficient", type))

    def working_depth(self, volts_to_ground: float, condition: int) -> Length:
        """The least depth of the space before live parts, by volts to ground and condition 1, 2 or 3.

        NFPA 70 Table 110.26(A)(1): 1 nothing live or grounded across, 2 grounded parts, 3 live parts. Raises OutOfTable.
        """
        asked = f"depth for {volts_to_ground:g} V to ground in condition {condition}"
        row = self._band("working-space", "volts-to", volts_to_ground, asked)
        return Length.read(self._cell("working-space", ("depth", row["volts-to"], str(condition)), "value", asked))

    def working_width(self) -> Length:
        """The least width of that space, or the equipment's own if that is more. NFPA 70 110.26(A)(2)."""
        return Length.read(self._cell("working-space", ("width", "", ""), "value", "width"))

    def working_height(self) -> Length:
        """The least height of that space, or the equipment's own if that is more. NFPA 70 110.26(A)(3)."""
        return Length.read(self._cell("working-space", ("height", "", ""), "value", "height"))

    def box_volume(self, shape: str, dimensions: Dimensions) -> Volume:
        """The room in a metal box without a marking. NFPA 70 Table 314.16(A), which has utility boxes among the device boxes.

        Raises OutOfTable.
        """
        wanted = "device" if shape == "utility" else shape
        for row in self._table("box-volume").rows:
            inches = Dimensions.read(f"{row['size']} in").inches
            if row["shape"] == wanted and len(inches) == len(dimensions.inches) and all(map(alike, inches, dimensions.inches)):
                return Volume.of(float(row["volume"]), "cu in")
        raise self._outside("box-volume", f"{shape} box of {dimensions}")

    def box_allowance(self, size: WireSize) -> Volume:
        """The room that one wire of that size is counted with in a box.

        NFPA 70 Table 314.16(B) (2020 on: 314.16(B)(1)). Raises OutOfTable above 6 AWG, where boxes go by 314.28.
        """
        return Volume.of(float(self._cell("box-allowance", (size.size,), "volume", str(size))), "cu in")
