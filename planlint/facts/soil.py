"""What rods have against the soil: an estimate for the worksheet, never an answer to a rule (those want a measurement)."""

import math

from planlint.facts.engine import Job, fact
from planlint.plan import Electrode, not_stated
from planlint.quantities import Resistance

MOST_RODS = 2


@fact
def rod_resistance(electrode: Electrode, job: Job) -> Resistance:
    """Resistance of one driven rod, or of two at their spacing, from the soil's resistivity.

    One rod: rho / (2 pi L) (ln(4 L / a) - 1), with a its radius. Two: half of that, and rho / (4 pi s) (1 - L^2 / (3 s^2) +
    2 L^4 / (5 s^4)) for what each does to the other's soil; for spacings above the length. H. B. Dwight 1936, IEEE 142 (the
    two-rod term from memory).
    """
    if electrode.type not in ("rod", "pipe"):
        not_stated(electrode, "type", f"{electrode.name}: a rod or pipe, of which a resistance can be estimated")
    if electrode.count > MOST_RODS:
        not_stated(electrode, "resistance", f"{electrode.name}: its resistance as measured, for more than two are not estimated")
    soil = electrode.building.soil_resistivity.within("ohm-m")
    length, radius = electrode.length.within("m"), electrode.diameter.within("m") / 2
    one = soil / (2 * math.pi * length) * (math.log(4 * length / radius) - 1)
    single = Resistance.of(one, "ohm")
    job.step(
        f"one rod: {soil:g} ohm-m / (2 pi x {length:.3g} m) x (ln(4 x {length:.3g} / {radius:.3g}) - 1)", single, "Dwight 1936"
    )
    if electrode.count == 1:
        return single
    spacing = electrode.spacing.within("m")
    if spacing <= length:
        not_stated(electrode, "spacing", f"{electrode.name}: a spacing above the rods' length, for which the estimate holds")
    ratio = (length / spacing) ** 2
    mutual = soil / (4 * math.pi * spacing) * (1 - ratio / 3 + 2 * ratio**2 / 5)
    both = Resistance.of(one / 2 + mutual, "ohm")
    job.step(f"two: half of {single}, and {mutual:.3g} ohm for what each does to the other's soil", both, "Dwight 1936, IEEE 142")
    return both
