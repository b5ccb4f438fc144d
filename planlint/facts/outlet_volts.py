"""The voltage at a receptacle or on a circuit, and how far it is from ground."""

from planlint.facts.engine import Job, fact
from planlint.plan.elements import not_stated
from planlint.plan.gear import Supply
from planlint.plan.members import all_hold
from planlint.plan.outlets import Receptacles
from planlint.plan.runs import Circuit, Feeder
from planlint.quantities import Current, Voltage

ONE_POLE = 1


@fact
def receptacle_volts(receptacles: Receptacles, job: Job) -> Voltage:
    """Its voltage: what the plan says, else the 120 V of a circuit with one pole. NFPA 70 220.5(A), article 100."""
    if receptacles.states("volts") or "volts" in receptacles.unknown:
        return receptacles.volts
    usual: Voltage = job.setting("receptacle-volts.usual")
    if not is_usual(receptacles.circuit, usual):
        not_stated(receptacles, "volts", f"{receptacles.name}: volts, because its circuit has {receptacles.circuit.poles} poles")
    return usual


@fact
def is_low_voltage(run: Feeder | Circuit, job: Job) -> bool:
    """Whether it is a circuit of bells, thermostats and the like, with wires and protection of its own.

    NFPA 70 article 725, 250.20(A). A circuit that states no volts has those of its panel.
    """
    if isinstance(run, Feeder) or not (run.states("volts") or "volts" in run.unknown):
        return False
    limit: Voltage = job.setting("is-low-voltage.up-to")
    return run.volts <= limit


def is_usual(circuit: Circuit, usual: Voltage) -> bool:
    """Whether a circuit gives nothing but 120 V: by its own word, or because it has one pole."""
    if circuit.states("volts") or "volts" in circuit.unknown:
        return circuit.volts == usual
    return circuit.poles == ONE_POLE


def is_low_to_ground(volts: Voltage, circuit: Circuit, limit: Voltage, job: Job) -> bool:
    """Whether no more than the limit lies between a hot wire and ground.

    Where the whole voltage is more than that, the supply tells: half of 240 V on 120/240 V.
    """
    if volts <= limit:
        return True
    supplies = [supply for supply in job.graph.all(Supply).known if supply.type == "utility"]
    if not supplies:
        not_stated(circuit, "panel", f"{circuit.name}: how far its {volts} are from ground, for which the supply must be shown")
    return all((supply.volts.to_neutral or supply.volts.line) <= limit for supply in supplies)


def stays_as_it_was(receptacles: Receptacles) -> bool:
    """Whether it was there before this work, on a circuit that was: it may stay. NFPA 70 90.4, 406.4(D)."""
    circuit = receptacles.circuit
    said = circuit.states("existing") or "existing" in circuit.unknown
    return said and circuit.existing and receptacles.existing


def is_within(receptacles: Receptacles, rating: Current, volts: Voltage, job: Job) -> bool:
    """Whether it is of no more amperes and no more volts than these: one of the small ones that a rule means."""
    return all_hold(lambda: receptacles.rating <= rating, lambda: receptacle_volts(receptacles, job) <= volts)
