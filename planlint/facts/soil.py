"""What electrodes have against the soil: estimates for the worksheet, never an answer to a rule (those want a measurement).

Formulas of H. B. Dwight, 1936, as IEEE 142 has them (from memory but for those of rods), for soil that is alike all round; real
soil has layers, seasons and stones, so that an estimate may be off by half.
"""

import math
from collections.abc import Callable

from planlint.facts.buildings import electrodes
from planlint.facts.engine import Job, fact
from planlint.facts.parts_served import supply_of
from planlint.plan import Building, Electrode, does_not_arise, not_stated
from planlint.quantities import Current, Resistance, Resistivity, Voltage

DWIGHT = "Dwight 1936, IEEE 142"
ONLY_MEASURED = ("water-pipe", "metal-in-ground")


@fact
def rod_resistance(electrode: Electrode, job: Job) -> Resistance:
    """Resistance of driven rods, from the soil's resistivity, their length, thickness, number and spacing, in a straight line.

    One: rho / (2 pi L) (ln(4 L / a) - 1), with a its radius. Several: that over their number, and what each does to the soil of
    the others, for which Dwight's two series, for rods nearer and farther apart than their length, are put back into the one term
    that they come from. All are taken to carry the same, which makes it a little too high; many in a ring or square have up to a
    sixth more. H. B. Dwight 1936, IEEE 142.
    """
    if electrode.type not in ("rod", "pipe"):
        does_not_arise(electrode, f"{electrode.name}: a rod or pipe")
    if electrode.states("depth"):
        does_not_arise(electrode, f"{electrode.name}: a driven rod; one that states a depth lies flat")
    soil, length, radius = _soil(electrode), _above_zero(electrode, "length"), _above_zero(electrode, "diameter") / 2
    one = soil / (2 * math.pi * length) * (math.log(4 * length / radius) - 1)
    job.step(
        f"one rod: {soil:g} ohm-m / (2 pi x {length:.4g} m) x (ln(4 x {length:.4g} / {radius:.4g}) - 1)", ohms(one), "Dwight 1936"
    )
    if electrode.count == 1:
        return ohms(one)
    return _in_a_line(electrode, one, lambda apart: _between_rods(soil, length, apart), job)


@fact
def estimated_resistance(electrode: Electrode, job: Job) -> Resistance:
    """Resistance of an electrode against the soil, by formula: rods, a ring, plates, a bar or wire in a footing.

    A rod that states a depth lies flat. Of a water pipe and other metal in the ground only a measurement tells.
    H. B. Dwight 1936, IEEE 142; a footing's concrete as IEEE 80 has it for rods.
    """
    if electrode.type in ("rod", "pipe"):
        return _flat_rod(electrode, job) if electrode.states("depth") else rod_resistance(electrode, job)
    if electrode.type == "ring":
        return _ring(electrode, job)
    if electrode.type == "plate":
        return _plates(electrode, job)
    if electrode.type == "concrete-encased":
        return _footing(electrode, job)
    does_not_arise(electrode, f"{electrode.name}: an electrode whose resistance a formula tells")


@fact
def resistance_together(building: Building, job: Job) -> Resistance:
    """Resistance of all electrodes of a building in parallel: measured where that is stated, otherwise estimated.

    As if they stood far apart: nearer ones share the soil and have more. IEEE 142.
    """
    found = [(one.name, resistance_of(one, job)) for one in electrodes(building, job).whole()]
    if not found or any(not each.amount for _, each in found):
        not_stated(building, "electrodes", f"{building.name}: electrodes with a resistance above 0")
    together = ohms(1 / sum(1 / each.within("ohm") for _, each in found))
    job.step("1 / (" + " + ".join(f"1 / {each} ({name})" for name, each in found) + ")", together)
    return together


@fact
def current_into_earth(building: Building, job: Job) -> Current:
    """What flows from a hot wire through the electrodes into the earth: too little to open a breaker. NFPA 70 250.4(A)(5)."""
    supply, earth = supply_of(building, job), resistance_together(building, job)
    volts: Voltage = supply.volts.to_neutral or supply.volts.line
    current = Current.of(volts.within("V") / earth.within("ohm"), "A")
    job.step(f"{volts} / {earth}", current, "NFPA 70 250.4(A)(5)")
    return current


def resistance_of(electrode: Electrode, job: Job) -> Resistance:
    """As measured, where that is stated; otherwise estimated."""
    measured = electrode.states("resistance") or "resistance" in electrode.unknown or electrode.type in ONLY_MEASURED
    return electrode.resistance if measured else estimated_resistance(electrode, job)


def ohms(number: float) -> Resistance:
    """So many ohms, as a worked value."""
    return Resistance.of(number, "ohm")


def _between_rods(soil: float, length: float, apart: float) -> float:
    """What a rod's current does to another one, for each ampere."""
    ratio = apart / (2 * length)
    return soil / (2 * math.pi * length) * (math.log((1 + math.hypot(1, ratio)) / ratio) - math.hypot(1, ratio) + ratio)


def _in_a_line(electrode: Electrode, one: float, between: Callable[[float], float], job: Job) -> Resistance:
    """Several alike at their spacing: 1 / n of one, and 2 (n - k) / n^2 of what those k places apart do to each other."""
    count, spacing = electrode.count, _above_zero(electrode, "spacing")
    added = one / count
    job.step(f"{ohms(one)} / {count}", ohms(added))
    for places in range(1, count):
        share = 2 * (count - places) / count**2
        each = between(places * spacing)
        added += share * each
        job.step(
            f"{places * spacing:.4g} m apart, {ohms(each)} on each other: 2 x {count - places} / {count}^2 x {ohms(each)}",
            ohms(share * each),
            DWIGHT,
        )
    job.step(f"{count} in a line", ohms(added), DWIGHT)
    return ohms(added)


def _ring(electrode: Electrode, job: Job) -> Resistance:
    """Ring of wire: rho / (2 pi^2 D) (ln(8 D / d) + ln(4 D / s)), with s twice its depth."""
    soil, across = _soil(electrode), _above_zero(electrode, "length") / math.pi
    wire = job.tables.conductor_diameter(electrode.wire.size, "bare").within("m")
    twice = 2 * _above_zero(electrode, "depth")
    found = soil / (2 * math.pi**2 * across) * (math.log(8 * across / wire) + math.log(4 * across / twice))
    job.step(
        f"a ring of {electrode.length} is {across:.4g} m across; its wire {wire:.4g} m",
        "",
        job.from_table("conductor-properties"),
    )
    job.step(
        f"{soil:g} ohm-m / (2 pi^2 x {across:.4g} m) x (ln(8 x {across:.4g} / {wire:.4g}) + ln(4 x {across:.4g} / {twice:.4g}))",
        ohms(found),
        DWIGHT,
    )
    return ohms(found)


def _plates(electrode: Electrode, job: Job) -> Resistance:
    """Round plate of the same area on edge: rho / (8 a) + rho / (4 pi s) (1 + 7 a^2 / (24 s^2) + 99 a^4 / (320 s^4))."""
    soil, twice = _soil(electrode), 2 * _above_zero(electrode, "depth")
    radius = math.sqrt(electrode.area.within("sq m") / 2 / math.pi)
    if not radius:
        not_stated(electrode, "area", f"{electrode.name}: area, which is not 0")
    ratio = (radius / twice) ** 2
    factor = 1 + 7 * ratio / 24 + 99 * ratio**2 / 320
    found = soil / (8 * radius) + soil / (4 * math.pi * twice) * factor
    job.step(
        f"one face of {electrode.area} as a round plate: radius {radius:.4g} m; q = ({radius:.4g} / {twice:.4g})^2",
        f"{ratio:.4g}",
    )
    job.step("on edge 1 + 7 q / 24 + 99 q^2 / 320", f"{factor:.4g}", DWIGHT)
    job.step(f"{soil:g} / (8 x {radius:.4g}) + {soil:g} / (4 pi x {twice:.4g}) x {factor:.4g}", ohms(found), DWIGHT)
    if electrode.count == 1:
        return ohms(found)
    return _in_a_line(electrode, found, lambda apart: soil / (4 * math.pi) * (1 / apart + 1 / math.hypot(apart, twice)), job)


def _footing(electrode: Electrode, job: Job) -> Resistance:
    """The concrete round it as a wire that lies in the soil, and the concrete itself between metal and soil."""
    length = _above_zero(electrode, "length")
    is_bar = electrode.states("bar") or not electrode.states("wire")
    metal = _above_zero(electrode, "bar") if is_bar else job.tables.conductor_diameter(electrode.wire.size, "bare").within("m")
    across = metal + 2 * electrode.encasement.within("m")
    outside = _lying(electrode, length, across / 2, job)
    concrete: Resistivity = job.setting("estimated-resistance.concrete")
    inside = concrete.within("ohm-m") / (2 * math.pi * length) * math.log(across / metal)
    job.step(
        f"concrete: {concrete} / (2 pi x {length:.4g} m) x ln({across:.4g} / {metal:.4g})", ohms(inside), "IEEE 80, from memory"
    )
    job.step(f"{ohms(outside)} + {ohms(inside)}", ohms(outside + inside))
    return ohms(outside + inside)


def _flat_rod(electrode: Electrode, job: Job) -> Resistance:
    if electrode.count > 1:
        not_stated(
            electrode, "resistance", f"{electrode.name}: its resistance as measured, for several flat rods are not estimated"
        )
    length, radius = _above_zero(electrode, "length"), _above_zero(electrode, "diameter") / 2
    return ohms(_lying(electrode, length, radius, job))


def _lying(electrode: Electrode, length: float, radius: float, job: Job) -> float:
    """A wire that lies in the soil: rho / (2 pi L) (ln(2 L / a) + ln(L / h) - 2 + 2 h / L - h^2 / L^2 + h^4 / (2 L^4))."""
    soil, depth = _soil(electrode), _above_zero(electrode, "depth")
    flat = depth / length
    if flat > 1:
        not_stated(electrode, "depth", f"{electrode.name}: a depth below its length, for which the estimate holds")
    series = math.log(2 * length / radius) + math.log(length / depth) - 2 + 2 * flat - flat**2 + flat**4 / 2
    found = soil / (2 * math.pi * length) * series
    job.step(
        f"with q {flat:.4g}, depth over length: ln(2 x {length:.4g} / {radius:.4g}) + ln(1 / q) - 2 + 2 q - q^2 + q^4 / 2",
        f"{series:.4g}",
        DWIGHT,
    )
    job.step(f"{soil:g} ohm-m / (2 pi x {length:.4g} m) x {series:.4g}", ohms(found), DWIGHT)
    return found


def _soil(electrode: Electrode) -> float:
    """Its building's soil, in ohm-meters."""
    return electrode.building.soil_resistivity.within("ohm-m")


def _above_zero(electrode: Electrode, attribute: str) -> float:
    """A length of it, in meters. Raises NotStated for none at all."""
    meters: float = electrode.value(attribute).within("m")
    if not meters:
        not_stated(electrode, attribute, f"{electrode.name}: {attribute}, which is not 0")
    return meters
