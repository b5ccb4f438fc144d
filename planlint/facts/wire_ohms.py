"""What a run's wires have against the current: their resistance, or their effective impedance at a power factor."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from planlint.facts.circuit_load import feeds_only_loads, loads_on
from planlint.facts.demand import nameplate
from planlint.facts.engine import Job, fact
from planlint.facts.ways import pipes_of
from planlint.facts.wires import Wired, cable_type
from planlint.plan.elements import not_stated
from planlint.plan.outlets import Load
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Percent
from planlint.trade import WireSize

Conduit = Literal["pvc", "steel"]
STEEL = ("EMT", "IMC", "RMC", "FMC", "LFMC")
ARMORED = ("MC", "AC")


@dataclass(frozen=True, slots=True)
class Ohms:
    """Ohms per 1000 ft of one wire, the words that say how they come about, and the table they are from."""

    number: float
    words: str
    source: str


def ohms_by_resistance(size: WireSize, job: Job) -> Ohms:
    """Resistance to direct current at 75 C, stranded and uncoated. NFPA 70 Chapter 9 Table 8. Raises OutOfTable."""
    number = job.tables.dc_resistance(size)
    return Ohms(number, f"{number:g}", job.from_table("conductor-properties"))


def ohms_by_impedance(size: WireSize, run: Wired, job: Job) -> Ohms:
    """Effective impedance R cos + X sin at the run's power factor, 75 C. NFPA 70 Chapter 9 Table 9, note 2. Raises OutOfTable.

    Of pipes of several kinds the one that gives most counts.
    """
    cosine = load_power_factor(run, job).amount
    sine = math.sqrt(1 - cosine**2)
    found = []
    for conduit in conduits(run, job):
        resistance, reactance, _ = job.tables.impedance(size, conduit)
        words = f"({resistance:g} x {cosine:.3g} + {reactance:g} x {sine:.3g}, {_named(conduit)})"
        found.append(Ohms(resistance * cosine + reactance * sine, words, job.from_table("impedance")))
    return max(found, key=lambda ohms: ohms.number)


@fact
def load_power_factor(run: Service | Feeder | Circuit, job: Job) -> Percent:
    """Power factor of what it carries, for the drop by impedance.

    Of a circuit without a design load that feeds appliances only: theirs, real and reactive parts added. Of all others that of
    the effective impedances in NFPA 70 Chapter 9 Table 9.
    """
    if not isinstance(run, Circuit) or run.states("design-load") or not feeds_only_loads(run, job):
        usual: Percent = job.setting("load-power-factor.elsewhere")
        return usual
    return _together(loads_on(run, job).whole(), job)


def _together(appliances: Sequence[Load], job: Job) -> Percent:
    parts = [(nameplate(load, job).within("VA"), load.power_factor.amount) for load in appliances]
    if any(not 0 < factor <= 1 for _, factor in parts):
        not_stated(appliances[0], "power-factor", f"{appliances[0].name}: power-factor, above 0 % and up to 100 %")
    real = sum(power * factor for power, factor in parts)
    reactive = sum(power * math.sqrt(1 - factor**2) for power, factor in parts)
    apparent = math.hypot(real, reactive)
    if not apparent:
        not_stated(appliances[0], "rating", f"{appliances[0].name}: a load above 0 VA")
    share = Percent.of(100 * real / apparent, "%")
    job.step(f"{real:.0f} W / sqrt(({real:.0f} W)^2 + ({reactive:.0f} var)^2)", share)
    return share


def conduits(run: Wired, job: Job) -> tuple[Conduit, ...]:
    """The columns of Table 9 that are meant: steel for metal pipes and armor, pvc for all else.

    Aluminum pipe, which the plan can't tell from steel, has less reactance.
    """
    if cable_type(run, job) in ARMORED:
        return ("steel",)
    kinds: set[Conduit] = {"steel" if pipe.type in STEEL else "pvc" for pipe in pipes_of(run, job)}
    return tuple(sorted(kinds)) or ("pvc",)


def _named(conduit: Conduit) -> str:
    return "in steel" if conduit == "steel" else "not in metal"
