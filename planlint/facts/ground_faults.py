"""Which outlets want a GFCI, and whether its button can be reached."""

import datetime

from planlint.facts.buildings import stands_outdoors
from planlint.facts.demand import plate_current
from planlint.facts.engine import Job, fact
from planlint.facts.ground_fault_places import receptacle_needs_gfci
from planlint.facts.outlet_volts import ONE_POLE, is_low_to_ground
from planlint.plan.elements import not_stated
from planlint.plan.members import all_hold, any_holds
from planlint.plan.outlets import Lights, Load, Receptacles
from planlint.quantities import Current, Voltage


@fact
def gfci_needed(outlet: Receptacles | Lights | Load, job: Job) -> bool:
    """Whether it wants a GFCI: receptacles by place, voltage and rating, loads by what they are, lights in crawl spaces.

    NFPA 70 210.8(A), (C), (D), (E) (2017: (A), (D), (E)), 422.5(A).
    """
    if isinstance(outlet, Receptacles):
        return receptacle_needs_gfci(outlet, job)
    return _light_needs_it(outlet, job) if isinstance(outlet, Lights) else _load_needs_it(outlet, job)


def _light_needs_it(lights: Lights, job: Job) -> bool:
    most: Voltage = job.setting("gfci-needed.most-light-volts")
    return all_hold(
        lambda: lights.at.use in job.setting("gfci-needed.light-rooms"),
        lambda: _light_volts_are_low(lights, most),
    )


def _light_volts_are_low(lights: Lights, most: Voltage) -> bool:
    circuit = lights.circuit
    if circuit.states("volts") or "volts" in circuit.unknown:
        return circuit.volts <= most
    if circuit.poles != ONE_POLE:
        not_stated(circuit, "volts", f"{circuit.name}: volts, because it has {circuit.poles} poles")
    return True


def _load_needs_it(load: Load, job: Job) -> bool:
    return all_hold(
        lambda: load.type in job.setting("gfci-needed.appliances"),
        lambda: not load.planned,
        lambda: _is_small(load, job),
        lambda: is_low_to_ground(load.volts, load.circuit, job.setting("gfci-needed.most-to-ground"), job),
    )


def _is_small(load: Load, job: Job) -> bool:
    """No more than 60 A on its plate, which a breaker of no more than that tells too."""
    most: Current = job.setting("gfci-needed.most-appliance")
    return any_holds(lambda: load.circuit.breaker <= most, lambda: plate_current(load, job) <= most)


@fact
def gfci_needed_outdoors(load: Load, job: Job) -> bool:
    """Whether it stands outdoors on a circuit that wants a GFCI, whatever it is and however it is joined.

    NFPA 70 210.8(F), from 2020 on. What has a cord and whose receptacle the plan shows is judged by that.
    """
    most: Current = job.setting("gfci-needed-outdoors.most-breaker")
    to_ground: Voltage = job.setting("gfci-needed-outdoors.most-to-ground")
    return all_hold(
        lambda: stands_outdoors(load, job),
        lambda: load.circuit.breaker <= most,
        lambda: is_low_to_ground(load.volts, load.circuit, to_ground, job),
        lambda: not _waits_for_its_date(load, job),
        lambda: not _goes_by_its_receptacle(load, job),
    )


def _waits_for_its_date(load: Load, job: Job) -> bool:
    """Cooling units and heat pumps that the edition exempts up to a day: some only those with a drive, some all."""
    return all_hold(
        lambda: load.type in job.setting("gfci-needed-outdoors.delayed"),
        lambda: job.graph.plan.date < _day(job.setting("gfci-needed-outdoors.delayed-until")),
        lambda: not job.setting("gfci-needed-outdoors.delayed-with-drive-only") or load.variable_speed,
    )


def _day(figures: int) -> datetime.date:
    """A day from its figures: 20230101 is the first of January 2023."""
    return datetime.date(figures // 10000, figures // 100 % 100, figures % 100)


def _goes_by_its_receptacle(load: Load, job: Job) -> bool:
    return all_hold(
        lambda: load.connection == "cord",
        lambda: job.graph.those(Receptacles, "circuit", load.circuit).some(lambda one: one.at is load.at),
    )


@fact
def gfci_in_reach(receptacles: Receptacles, job: Job) -> bool:
    """Whether the GFCI that protects it can be reached without a ladder and without moving anything.

    A breaker by its panel, another by what the plan says of its button. NFPA 70 210.8, article 100 (readily accessible).
    """
    return any_holds(
        lambda: all_hold(
            lambda: "gfci" in receptacles.circuit.protection,
            lambda: receptacles.circuit.panel.readily_accessible,
        ),
        lambda: all_hold(lambda: receptacles.gfci, lambda: receptacles.gfci_reachable),
    )
