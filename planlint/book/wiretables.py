"""Look-ups about wires: what they carry, what protects and grounds them, what they are made of."""

from dataclasses import dataclass
from typing import Literal

from planlint.book.csvfile import LookUps, Row
from planlint.quantities import Area, Current, Length, Percent, Temperature, alike
from planlint.trade import METALS, WireSize


@dataclass(frozen=True, slots=True)
class Insulation:
    """What an insulation bears: its temperature in dry and damp places, and in wet ones (None: not for wet places).

    `area_row` names its rows in Chapter 9 Table 5. A bare wire has no rating of its own; it stands here with the highest.
    """

    dry: Temperature
    wet: Temperature | None
    area_row: str

    @property
    def wet_rated(self) -> bool:
        """Whether it may lie in a wet place."""
        return self.wet is not None


def _degrees(column: Temperature) -> str:
    return f"{column.within('C'):g}"


class WireTables(LookUps):
    """The tables of Articles 240, 250 and 310 and the conductor tables of Chapter 9."""

    def ampacity(self, size: WireSize, column: Temperature) -> Current:
        """What a wire may carry in the column of that temperature (60, 75 or 90 C), before any correction.

        NFPA 70 Table 310.16 (2017: 310.15(B)(16)). Raises OutOfTable.
        """
        asked = f"{size} at {column}"
        key = (size.size, size.metal, _degrees(column))
        return Current.of(float(self._cell("ampacity", key, "amperes", asked)), "A")

    def sizes_up(self, metal: str) -> tuple[WireSize, ...]:
        """All sizes of a metal that the table of ampacities has, the smallest first. Raises OutOfTable for another metal."""
        names = {row["size"] for row in self._table("ampacity").rows if row["metal"] == metal}
        if not names:
            raise self._outside("ampacity", f"wires of {metal or 'a metal that is not said'}")
        return tuple(sorted(WireSize(name, metal) for name in names))

    def ambient_factor(self, ambient: Temperature, column: Temperature) -> Percent:
        """What is left of the ampacity of that column where it is so warm; between two rows the warmer one.

        NFPA 70 Table 310.15(B)(1) (2017: 310.15(B)(2)(a)). Raises OutOfTable where the column ends, and above 85 C.
        """
        asked = f"factor for a {column} wire at {ambient}"
        name = f"column-{_degrees(column)}"
        cell = self._band("ambient-correction", "to", ambient.within("C"), asked).get(name)
        if not cell:
            raise self._outside("ambient-correction", asked)
        return Percent.of(float(cell) * 100, "%")

    def count_factor(self, count: int) -> Percent:
        """What is left of the ampacity where so many current-carrying wires lie together.

        NFPA 70 Table 310.15(C)(1) (2017: 310.15(B)(3)(a)); 100 % up to three. Raises OutOfTable for fewer than one.
        """
        if count < 1:
            raise self._outside("conductor-count", f"row for {count} wires")
        row = self._band("conductor-count", "to", count, f"row for {count} wires")
        return Percent.of(float(row["percent"]), "%")

    def dwelling_size(self, rating: Current, metal: str) -> WireSize:
        """The smallest wire of a service or feeder of that rating that carries the whole load of one dwelling.

        NFPA 70 Table 310.12 (2017: 310.15(B)(7)). A rating between two rows takes the larger wire. Raises OutOfTable
        outside 100 to 400 A.
        """
        asked = f"{rating} in {metal}"
        least = self._table("dwelling-service").rows[0]["rating"]
        if rating < Current.of(float(least), "A"):
            raise self._outside("dwelling-service", asked)
        return self._size("dwelling-service", self._band("dwelling-service", "rating", rating.within("A"), asked), metal, asked)

    def equipment_ground(self, rating: Current, metal: str) -> WireSize:
        """The smallest equipment grounding conductor for a breaker or fuses of that rating.

        NFPA 70 Table 250.122. Raises OutOfTable above 6000 A.
        """
        asked = f"{metal} ground for {rating}"
        return self._size("equipment-ground", self._band("equipment-ground", "rating", rating.within("A"), asked), metal, asked)

    def electrode_conductor(self, circular_mils: float, service_metal: str, metal: str) -> WireSize:
        """The smallest grounding electrode conductor of `metal` for service wires of so many circular mils, parallel sets summed.

        NFPA 70 Table 250.66, without the caps of 250.66(A) to (C). Between two rows the larger one holds. Raises OutOfTable.
        """
        asked = f"{metal} electrode conductor for {service_metal} wires of {circular_mils:.0f} circular mils"
        row = self._service_row("electrode-conductor", circular_mils, service_metal, asked)
        return self._size("electrode-conductor", row, metal, asked)

    def bonding_jumper(self, circular_mils: float, service_metal: str, metal: str) -> WireSize:
        """The smallest neutral, main or supply-side bonding jumper of `metal` for supply wires of so many circular mils.

        NFPA 70 Table 250.102(C)(1). Its last row is a share of the circular mils, for which the next size up is given; that
        holds within one metal only, so two metals there raise OutOfTable. The cap at the size of the wires is not applied.
        """
        asked = f"{metal} jumper for {service_metal} wires of {circular_mils:.0f} circular mils"
        row = self._service_row("bonding-jumper", circular_mils, service_metal, asked)
        cell = row.get(metal, "") if metal in METALS else ""
        if not cell.endswith("%"):
            return self._size("bonding-jumper", row, metal, asked)
        if metal != service_metal:
            raise self._outside("bonding-jumper", asked)
        needed = circular_mils * Percent.read(cell).amount
        for size in self.sizes_up(metal):
            area = self.circular_mils(size)
            if area > needed or alike(area, needed):
                return size
        raise self._outside("bonding-jumper", asked)

    def _service_row(self, name: str, circular_mils: float, service_metal: str, asked: str) -> Row:
        if service_metal not in METALS or circular_mils <= 0:
            raise self._outside(name, asked)
        for row in self._table(name).rows:
            end = row[f"{service_metal}-to"]
            if end == "larger" or circular_mils <= self._end(end) * (1 + 1e-9):
                return row
        raise self._outside(name, asked)

    def _end(self, size: str) -> float:
        """Circular mils of a row's end; 1100 and 1750 kcmil are no sizes of Table 8."""
        row = self._table("conductor-properties").find(size, "stranded")
        return float(row["circular-mils"]) if row else 1000 * float(size)

    def _size(self, name: str, row: Row, metal: str, asked: str) -> WireSize:
        if metal not in METALS:
            raise self._outside(name, asked)
        return WireSize(row[metal], metal)

    def standard_ratings(self, edition: int, device: Literal["breaker", "fuse"] = "breaker") -> tuple[Current, ...]:
        """The standard ratings of breakers or fuses in that edition, the smallest first. NFPA 70 Table 240.6(A)."""
        ratings = {
            float(row["rating"])
            for row in self._table("standard-ratings").rows
            if device in row["device"] and int(row["from-edition"]) <= edition
        }
        return tuple(Current.of(rating, "A") for rating in sorted(ratings))

    def small_conductor_limit(self, size: WireSize, edition: int) -> Current:
        """The largest breaker or fuse on a small wire, whatever its ampacity. NFPA 70 240.4(D).

        Raises OutOfTable for a size that has no such limit (8 AWG and larger) in that edition.
        """
        asked = f"limit for {size}"
        key = (size.size, size.metal)
        if int(self._cell("small-conductors", key, "from-edition", asked)) > edition:
            raise self._outside("small-conductors", asked)
        return Current.of(float(self._cell("small-conductors", key, "amperes", asked)), "A")

    def circular_mils(self, size: WireSize) -> float:
        """The cross-section in circular mils. NFPA 70 Chapter 9 Table 8. Raises OutOfTable."""
        return float(self._cell("conductor-properties", (size.size, "stranded"), "circular-mils", f"circular mils of {size}"))

    def dc_resistance(self, size: WireSize, stranded: bool = True) -> float:
        """Ohms per 1000 ft to direct current at 75 C, uncoated.

        NFPA 70 Chapter 9 Table 8. Raises OutOfTable where the metal isn't said, and for solid wires above 8 AWG.
        """
        made = "stranded" if stranded else "solid"
        asked = f"{made} {size}"
        if size.metal not in METALS:
            raise self._outside("conductor-properties", asked)
        return float(self._cell("conductor-properties", (size.size, made), size.metal, asked))

    def impedance(self, size: WireSize, conduit: Literal["pvc", "aluminum", "steel"]) -> tuple[float, float, float | None]:
        """Resistance, reactance, and effective impedance at a power factor of 0.85: ohms to neutral per 1000 ft of one wire.

        NFPA 70 Chapter 9 Table 9. Raises OutOfTable.
        """
        key, asked = (size.size, size.metal, conduit), f"{size} in {conduit} conduit"
        resistance = float(self._cell("impedance", key, "resistance", asked))
        row = self._table("impedance").find(*key) or {}
        effective = row["impedance"]
        return resistance, float(row["reactance"]), float(effective) if effective else None

    def fault_constant(self, size: WireSize, magnetic: bool) -> float:
        """The constant C of the point-to-point method for a wire in steel (magnetic) or other conduit, 1 / ohm per foot.

        Common practice; see the head of the file. Raises OutOfTable where the constant isn't known.
        """
        conduit = "steel" if magnetic else "nonmagnetic"
        return float(self._cell("fault-constants", (size.size, size.metal), conduit, f"{size} in {conduit} conduit"))

    def insulation(self, name: str) -> Insulation:
        """What an insulation bears. NFPA 70 Table 310.4(A) (2017: 310.104(A)). Raises OutOfTable."""
        asked = f"'{name}'"
        dry = Temperature.of(float(self._cell("insulations", (name,), "dry", asked)), "C")
        row = self._table("insulations").find(name) or {}
        wet = Temperature.of(float(row["wet"]), "C") if row["wet"] else None
        return Insulation(dry, wet, row["area-row"])

    def conductor_area(self, size: WireSize, insulation: str) -> Area:
        """The room a wire takes in a raceway, with its insulation; a bare one as stranded.

        NFPA 70 Chapter 9 Table 5, bare wires Table 8. Compact wires (Table 5A) are not told apart. Raises OutOfTable.
        """
        return Area.of(self._dimension(size, insulation, "area"), "sq in")

    def conductor_diameter(self, size: WireSize, insulation: str) -> Length:
        """The outside diameter of a wire. NFPA 70 Chapter 9 Table 5, bare wires Table 8. Raises OutOfTable."""
        return Length.of(self._dimension(size, insulation, "diameter"), "in")

    def _dimension(self, size: WireSize, insulation: str, column: str) -> float:
        if insulation == "bare":
            return float(self._cell("conductor-properties", (size.size, "stranded"), column, f"bare {size}"))
        rows = self.insulation(insulation).area_row
        return float(self._cell("conductor-area", (rows, size.size), column, f"{size} {insulation}"))

    def cable_ground(self, type: str, size: WireSize) -> WireSize:
        """The copper ground wire in a cable of that type (NM-B, UF-B) and size. UL 719, UL 493. Raises OutOfTable."""
        asked = f"{size} in {type}"
        if size.metal != "copper":
            raise self._outside("cable-grounds", asked)
        return WireSize(self._cell("cable-grounds", (type, size.size), "ground", asked), "copper")
