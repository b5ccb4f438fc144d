"""Look-ups about loads: the demand of lighting, cooking and dryers, the current of motors."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from planlint.book.csvfile import LookUps
from planlint.quantities import Current, Percent, Power, Voltage, alike, read_number


@dataclass(frozen=True, slots=True)
class DemandStep:
    """One line of a demand worked out by a table: so much at so many percent, and why. A demand is the sum of its lines."""

    part: Power
    percent: Percent
    why: str

    @property
    def demand(self) -> Power:
        """What the line comes to."""
        return self.part * self.percent


def _total(steps: Sequence[DemandStep]) -> Power:
    return Power.of(sum(step.demand.within("VA") for step in steps), "VA")


class LoadTables(LookUps):
    """The demand tables of Article 220 and the table of single-phase motors."""

    def lighting_demand(self, power: Power) -> Power:
        """The demand of a dwelling's general lighting, with its small-appliance and laundry circuits.

        NFPA 70 Table 220.42 (2023: 220.45).
        """
        return _total(self.lighting_steps(power))

    def lighting_steps(self, power: Power) -> tuple[DemandStep, ...]:
        """The lines of `lighting_demand`."""
        steps = []
        for row in self._table("lighting-demand").rows:
            over = float(row["over"])
            end = float(row["to"]) if row["to"] else math.inf
            part = min(power.within("VA"), end) - over
            if part > 0:
                why = f"the part over {over:.0f} VA" if over else f"the first {end:.0f} VA"
                steps.append(DemandStep(Power.of(part, "VA"), Percent.of(float(row["percent"]), "%"), why))
        return tuple(steps)

    def range_demand(self, ratings: Sequence[Power]) -> Power:
        """The demand of a dwelling's ranges, ovens and cooktops, the least that the table allows.

        NFPA 70 Table 220.55 with notes 1 to 3. Raises OutOfTable for a rating of 1-3/4 kW or less (such an appliance is
        no part of the table) or above 27 kW.
        """
        return _total(self.range_steps(ratings))

    def range_steps(self, ratings: Sequence[Power]) -> tuple[DemandStep, ...]:
        """The lines of `range_demand`.

        Either column C for all, or columns A and B for those up to 8-3/4 kW (note 3) and column C for the others.
        """
        for rating in ratings:
            if rating <= self._limit("range-over") or rating > self._limit("range-to"):
                raise self._outside("range-demand", f"row for an appliance of {rating}")
        small = [rating for rating in ratings if rating <= self._limit("column-b-to")]
        large = [rating for rating in ratings if rating > self._limit("column-b-to")]
        light = [rating for rating in small if rating < self._limit("column-a-below")]
        middle = [rating for rating in small if rating >= self._limit("column-a-below")]
        by_size = (*self._column("a", light), *self._column("b", middle), *self._column_c(large))
        return min(by_size, self._column_c(ratings), key=lambda steps: _total(steps).amount)

    def _limit(self, item: str) -> Power:
        return Power.read(self._cell("demand-limits", (item,), "value", item))

    def _column(self, column: str, ratings: Sequence[Power]) -> tuple[DemandStep, ...]:
        if not ratings:
            return ()
        count = len(ratings)
        row = self._band("range-demand", "to", count, f"row for {count} appliances")
        total = Power.of(sum(rating.within("kW") for rating in ratings), "kW")
        why = f"column {column.upper()}, appliances: {count}"
        return (DemandStep(total, Percent.of(float(row[f"column-{column}"]), "%"), why),)

    def _column_c(self, ratings: Sequence[Power]) -> tuple[DemandStep, ...]:
        """Column C, more by 5 % for each kilowatt, or half of one, by which the average is above 12 kW (notes 1 and 2).

        The notes say "major fraction"; half a kilowatt counts here, which is on the safe side.
        """
        if not ratings:
            return ()
        count, full = len(ratings), self._limit("column-c-to")
        row = self._band("range-demand", "to", count, f"row for {count} appliances")
        base = float(row["column-c"]) + count * float(row["column-c-each"])
        average = sum(max(rating.within("kW"), full.within("kW")) for rating in ratings) / count
        above = math.floor(average - full.within("kW") + 0.5 + 1e-9)
        each = Percent.read(self._cell("demand-limits", ("range-increase",), "value", "increase"))
        why = f"column C, appliances: {count}" + (f", {above} kW above {full}" if above else "")
        return (DemandStep(Power.of(base, "kW"), Percent(1 + above * each.amount, "%"), why),)

    def dryer_demand(self, ratings: Sequence[Power]) -> Power:
        """The demand of a dwelling's clothes dryers, each counted with at least 5 kW. NFPA 70 Table 220.54."""
        return _total(self.dryer_steps(ratings))

    def dryer_steps(self, ratings: Sequence[Power]) -> tuple[DemandStep, ...]:
        """The lines of `dryer_demand`."""
        if not ratings:
            return ()
        count, least = len(ratings), self._limit("dryer-at-least")
        row = self._band("dryer-demand", "to", count, f"row for {count} dryers")
        percent = float(row["percent"]) - (count - int(row["from"])) * float(row["less-each"])
        total = Power.of(sum(max(rating.within("kW"), least.within("kW")) for rating in ratings), "kW")
        return (DemandStep(total, Percent.of(percent, "%"), f"dryers: {count}, at least {least} each"),)

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
