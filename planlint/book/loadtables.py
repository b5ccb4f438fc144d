"""Look-ups about loads: the demand of lighting, cooking and dryers, the current of motors, the ratings of receptacles."""

import math
from typing import Literal, overload

from planlint.book.csvfile import LookUps, Row
from planlint.quantities import Current, Percent, Power, Voltage, alike, read_number

PowerLimit = Literal["range-over", "column-a-below", "column-b-to", "column-c-to", "range-to", "dryer-at-least"]


class LoadTables(LookUps):
    """The demand tables of Article 220 and the tables of motors."""

    def lighting_demand(self, power: Power) -> Power:
        """The demand of a dwelling's general lighting, with its small-appliance and laundry circuits.

        NFPA 70 Table 220.42 (2023: 220.45).
        """
        return Power.of(sum((part * percent).within("VA") for part, percent in self.lighting_steps(power)), "VA")

    def lighting_steps(self, power: Power) -> tuple[tuple[Power, Percent], ...]:
        """The lines of `lighting_demand`: each part of the power and the share it counts with."""
        steps = []
        for row in self._table("lighting-demand").rows:
            end = float(row["to"]) if row["to"] else math.inf
            part = min(power.within("VA"), end) - float(row["over"])
            if part > 0:
                steps.append((Power.of(part, "VA"), Percent.of(float(row["percent"]), "%")))
        return tuple(steps)

    @overload
    def demand_limit(self, item: Literal["range-increase"]) -> Percent: ...
    @overload
    def demand_limit(self, item: PowerLimit) -> Power: ...
    def demand_limit(self, item: str) -> Power | Percent:
        """A limit out of the headings and notes of NFPA 70 220.54 and 220.55, by its name in the file. Raises OutOfTable."""
        cell = self._cell("demand-limits", (item,), "value", item)
        return Percent.read(cell) if cell.endswith("%") else Power.read(cell)

    def range_share(self, count: int, column: str) -> Percent:
        """The share of their nameplates that so many small cooking appliances count with, column `a` or `b`.

        NFPA 70 Table 220.55. Raises OutOfTable for another column and for fewer than one.
        """
        if column not in ("a", "b"):
            raise self._outside("range-demand", f"share in column {column}")
        return Percent.of(float(self._row_for("range-demand", count)[f"column-{column}"]), "%")

    def range_demand(self, count: int) -> Power:
        """What so many ranges of 12 kW or less count together, column C. NFPA 70 Table 220.55.

        Raises OutOfTable for fewer than one.
        """
        row = self._row_for("range-demand", count)
        return Power.of(float(row["column-c"]) + count * float(row["column-c-each"]), "kW")

    def dryer_share(self, count: int) -> Percent:
        """The share that so many clothes dryers count with. NFPA 70 Table 220.54. Raises OutOfTable for fewer than one."""
        row = self._row_for("dryer-demand", count)
        return Percent.of(float(row["percent"]) - (count - int(row["from"])) * float(row["less-each"]), "%")

    def receptacle_ratings(self, circuit: Current) -> tuple[Current, Current]:
        """The least and the most that may be stamped on the receptacles of a circuit with several outlets.

        NFPA 70 Table 210.21(B)(3). Raises OutOfTable for a circuit of another rating.
        """
        key, asked = (f"{circuit.within('A'):g}",), f"row for a circuit of {circuit}"
        least, most = (float(self._cell("receptacle-ratings", key, column, asked)) for column in ("least", "most"))
        return Current.of(least, "A"), Current.of(most, "A")

    def _row_for(self, name: str, count: int) -> Row:
        asked = f"row for {count} appliances"
        if count < 1:
            raise self._outside(name, asked)
        return self._band(name, "to", count, asked)

    def motor_current(self, horsepower: Power, volts: Voltage) -> Current:
        """The full-load current by which the wires and the breaker of a single-phase motor are chosen, not that of its plate.

        NFPA 70 Table 430.248; 110 to 120 V take the 115 V column, 220 to 240 V that of 230 V. Raises OutOfTable for another
        voltage and for a horsepower between two rows, where neither would be safe for wire and breaker alike.
        """
        for row in self._table("motor-current").rows:
            low, high = (Voltage.of(float(row[column]), "V") for column in ("volts-from", "volts-to"))
            if alike(read_number(row["horsepower"]), horsepower.within("hp")) and low <= volts <= high:
                return Current.of(float(row["amperes"]), "A")
        raise self._outside("motor-current", f"motor of {horsepower.shown_in('hp')} at {volts}")

    def locked_rotor(self, letter: str) -> tuple[Power, Power | None]:
        """The least and the most that a motor of that code letter takes for each horsepower with its rotor locked; None: no end.

        NFPA 70 Table 430.7(B). Raises OutOfTable.
        """
        least = self._cell("code-letters", (letter,), "from", f"code letter {letter}")
        most = (self._table("code-letters").find(letter) or {})["to"]
        return Power.of(float(least), "kVA"), Power.of(float(most), "kVA") if most else None
