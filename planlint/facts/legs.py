"""How the load of a panel divides between its two hot legs, by the spaces of its breakers."""

from typing import Literal

from planlint.facts.circuit_load import loads_on, outlet_load
from planlint.facts.demand import amperes, plate_current, total_current
from planlint.facts.engine import Job, fact
from planlint.facts.load import load_current
from planlint.facts.parts_served import line_volts, source
from planlint.facts.standard_load import stands_on_its_circuit
from planlint.plan.elements import not_stated
from planlint.plan.gear import Panel
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Current

Leg = Literal["a", "b", "both"]


@fact
def leg(circuit: Circuit, job: Job) -> Leg:
    """The hot leg that its breaker taps: both for two poles; of one pole by its space.

    Common practice, no source: spaces are numbered across in rows of two, odd ones on the left, and the legs take turns by row.
    """
    if circuit.poles == 2:
        return "both"
    if circuit.poles != 1 or len(circuit.space) != 1:
        not_stated(circuit, "space", f"{circuit.name}: space, the one that its breaker of one pole takes")
    row = (circuit.space[0] + 1) // 2
    return "a" if row % 2 else "b"


@fact
def connected_current(circuit: Circuit, job: Job) -> Current:
    """What all that it feeds takes at once: plates, receptacles at 180 VA each, lights by their power.

    No demand factor is applied, and what it is expected to carry for voltage drop is no part of it. NFPA 70 220.14.
    """
    plugged = [load for load in loads_on(circuit, job).whole() if not stands_on_its_circuit(load, job)]
    plates = total_current(plate_current(load, job) for load in plugged)
    supply, outlets = source(circuit.panel, job), outlet_load(circuit, job)
    volts = line_volts(supply) if circuit.poles == 2 or supply.volts.to_neutral is None else supply.volts.to_neutral
    together = plates + amperes(outlets, volts, circuit)
    job.step(f"{circuit.name}: plates {plates} + receptacles and lights {outlets} / {volts}", together, "NFPA 70 220.14")
    return together


@fact
def leg_a_load(panel: Panel, job: Job) -> Current:
    """Connected load of the leg with spaces 1 and 2: its circuits of one pole, and all of two; no demand factor is applied."""
    return _on_leg("a", panel, job)


@fact
def leg_b_load(panel: Panel, job: Job) -> Current:
    """Connected load of the leg with spaces 3 and 4: its circuits of one pole, and all of two; no demand factor is applied."""
    return _on_leg("b", panel, job)


@fact
def leg_imbalance(panel: Panel, job: Job) -> Current:
    """By how much one leg is connected for more than the other: what its neutral would carry with everything on."""
    first, second = leg_a_load(panel, job), leg_b_load(panel, job)
    apart = max(first, second) - min(first, second)
    job.step(f"{max(first, second).show(5)} - {min(first, second).show(5)}", apart)
    return apart


def _on_leg(wanted: Leg, panel: Panel, job: Job) -> Current:
    """A panel that it feeds counts as if its legs were joined to the same ones; other gear on both legs."""
    circuits = job.graph.those(Circuit, "panel", panel).whole()
    breakers = [circuit for circuit in circuits if leg(circuit, job) in (wanted, "both")] + list(
        job.graph.feeds_from(panel).whole()
    )
    counted = [(run.name, current_on_leg(run, wanted, job)) for run in breakers]
    together = total_current(current for _, current in counted)
    if counted:
        job.step(f"leg {wanted.upper()}: " + " + ".join(f"{name} {current}" for name, current in counted), together)
    return together


def current_on_leg(run: Circuit | Service | Feeder, wanted: Leg, job: Job) -> Current:
    """What one breaker of a panel puts on leg `a` or `b`, with everything on. Raises NotStated."""
    if isinstance(run, Circuit):
        return connected_current(run, job) if leg(run, job) in (wanted, "both") else total_current(())
    return _on_leg(wanted, run.to, job) if isinstance(run.to, Panel) else load_current(run, job)
