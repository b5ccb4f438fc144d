"""Load, voltage drop and fault current of the made-up cottage, against figures reckoned by hand with a pencil.

The hand used NFPA 70 220.82, Chapter 9 Table 8 (direct current, 75 C, stranded) and, for fault current, the point-to-point
method with its constants 11,174 (4/0 aluminum) and 4,678 (1 AWG aluminum), both in plastic pipe.
"""

from pathlib import Path
from typing import Any

import pytest

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.facts.building_load import optional_load, own_load
from planlint.facts.drop import drop, drop_ahead, drop_at_full_breaker
from planlint.facts.engine import Job
from planlint.facts.fault import available_fault
from planlint.facts.legs import leg_a_load, leg_b_load, leg_imbalance
from planlint.facts.load import (
    calculated_load,
    current_needed,
    has_continuous_load,
    load_amps,
    load_current,
    next_rating,
    service_rating,
)
from planlint.facts.neutral import neutral_load, own_neutral_load
from planlint.facts.starting import starting_drop
from planlint.language import read_plan
from planlint.plan.elements import NotStated
from planlint.plan.graph import Graph
from planlint.quantities import Current, Power

ROOT = Path(__file__).parents[2]


def job_of(name: str) -> Job:
    return Job(Graph(read_plan(ROOT / "fixtures" / name).elements), resolve(("model-2020",)), Tables())


@pytest.fixture(scope="module")
def cottage() -> Job:
    return job_of("cottage.plan")


def worked(job: Job, fact: Any, name: str) -> Any:
    return fact(job.graph.one(name), job)


def test_loads(cottage: Job) -> None:
    assert worked(cottage, own_load, "house") == Power.of(25_838, "VA")
    assert worked(cottage, own_load, "studio") == Power.of(12_720, "VA")
    assert worked(cottage, calculated_load, "house") == Power.of(38_558, "VA")
    assert worked(cottage, calculated_load, "studio") == Power.of(12_720, "VA")
    assert round(worked(cottage, load_amps, "house").within("A"), 1) == 160.7
    assert round(worked(cottage, load_amps, "studio-panel").within("A"), 1) == 53.0
    assert worked(cottage, service_rating, "house") == Current.of(200, "A")
    assert worked(cottage, next_rating, "house") == Current.of(175, "A")


def test_the_steps_of_the_optional_method(cottage: Job) -> None:
    with cottage.observing(cottage.graph.one("house")) as root:
        worked(cottage, optional_load, "house")
    values = [step.value for step in root.uses[0].steps]
    assert [value for value in values if value in ("34870 VA", "19948 VA", "5890 VA", "25838 VA")] == [
        "34870 VA", "19948 VA", "5890 VA", "5890 VA", "25838 VA",
    ]  # fmt: skip


def test_neutrals_and_legs(cottage: Job) -> None:
    """Neutral: 5,257.5 + 5,600 + 3,500 + 1,200 + 1,200 VA. Legs, with nothing taken off: 43 and 26.3 A of one pole, 102.75 A of
    two, and of the studio 57 and 49 A.
    """
    assert worked(cottage, own_neutral_load, "house").within("VA") == pytest.approx(15_557.5)
    for run in ("meter-to-disconnect", "house-feeder"):
        assert round(worked(cottage, neutral_load, run).within("A"), 1) == 69.8
    assert worked(cottage, leg_a_load, "studio-panel") == Current.of(57, "A")
    assert worked(cottage, leg_b_load, "studio-panel") == Current.of(49, "A")
    assert worked(cottage, leg_a_load, "house-panel").within("A") == pytest.approx(43 + 102.75 + 57)
    assert worked(cottage, leg_b_load, "house-panel").within("A") == pytest.approx(26.3 + 102.75 + 49)
    assert worked(cottage, leg_imbalance, "house-panel").within("A") == pytest.approx(24.7)


@pytest.mark.parametrize(
    ("run", "carries", "needs"),
    [
        ("meter-to-disconnect", 160.7, 172.7),
        ("house-feeder", 160.7, 172.7),
        ("studio-feeder", 53.0, 65.0),
        ("kiln-circuit", 48, 60),
        ("air-handler-circuit", 22.9, 28.6),
        ("well-circuit", 8, 10),
        ("heat-pump-circuit", 11, 15),  # the plate's minimum circuit ampacity
        ("range-circuit", 40, 33.3),  # 8 kW of 9.6 kW by note 4 of Table 220.55
        ("kitchen-a", 12, 12),
    ],
)
def test_currents(cottage: Job, run: str, carries: float, needs: float) -> None:
    assert worked(cottage, load_current, run).within("A") == pytest.approx(carries, abs=0.05)
    assert worked(cottage, current_needed, run).within("A") == pytest.approx(needs, abs=0.05)


def test_what_runs_long(cottage: Job) -> None:
    continuous = {"house-feeder": True, "studio-feeder": True, "air-handler-circuit": True, "range-circuit": False}
    assert {run: worked(cottage, has_continuous_load, run) for run in continuous} == continuous
    with pytest.raises(NotStated, match="heat-pump: continuous"):
        worked(cottage, has_continuous_load, "heat-pump-circuit")


def test_drop_of_service_and_feeders(cottage: Job) -> None:
    percents = {"meter-to-disconnect": 0.51, "house-feeder": 0.83, "studio-feeder": 1.56}
    assert {run: round(worked(cottage, drop, run).within("%"), 2) for run in percents} == percents
    assert round(worked(cottage, drop_ahead, "house-panel").within("%"), 2) == 1.34
    assert round(worked(cottage, drop_ahead, "studio-panel").within("%"), 2) == 2.90


# Circuit, its load in amperes (None: only the breaker's bound), the percent at that load or at the full breaker, at the full
# breaker, and with what is ahead.
TABLE = [
    ("kitchen-a", 12, 1.66, 2.77, 3.00),
    ("kitchen-b", 12, 1.90, 3.17, 3.24),
    ("laundry-circuit", None, 1.58, 1.58, 2.92),
    ("bathroom-circuit", None, 2.51, 2.51, 3.85),
    ("bedroom-circuit", 8, 1.93, 3.61, 3.26),
    ("lights-circuit", 4, 1.26, 4.71, 2.59),
    ("outdoor-circuit", None, 2.38, 2.38, 3.71),
    ("dishwasher-circuit", 10, 1.32, 2.64, 2.66),
    ("range-circuit", 40, 0.65, 0.82, 1.99),
    ("dryer-circuit", 20.8, 0.52, 0.74, 1.85),
    ("heat-pump-circuit", 11, 0.25, 0.57, 1.59),
    ("air-handler-circuit", 22.9, 0.28, 0.37, 1.62),
    ("well-circuit", 8, 1.49, 3.72, 2.83),
    ("kiln-circuit", 48, 0.49, 0.61, 3.39),
    ("studio-bench", 10, 0.99, 1.98, 3.89),
    ("studio-lights-circuit", 3, 0.55, 2.75, 3.45),
]


@pytest.mark.parametrize(("circuit", "carries", "percent", "at_breaker", "with_ahead"), TABLE, ids=[row[0] for row in TABLE])
def test_drop_of_circuits(
    cottage: Job, circuit: str, carries: float | None, percent: float, at_breaker: float, with_ahead: float
) -> None:
    full = worked(cottage, drop_at_full_breaker, circuit)
    assert full.within("%") == pytest.approx(at_breaker, abs=0.006)
    if carries is None:
        with pytest.raises(NotStated, match=f"{circuit}: design-load"):
            worked(cottage, load_current, circuit)
        lost = full
    else:
        assert worked(cottage, load_current, circuit).within("A") == pytest.approx(carries, abs=0.05)
        lost = worked(cottage, drop, circuit)
    assert lost.within("%") == pytest.approx(percent, abs=0.006)
    assert (lost + worked(cottage, drop_ahead, circuit)).within("%") == pytest.approx(with_ahead, abs=0.011)


def test_fault_current(cottage: Job) -> None:
    kiloamperes = {"meter-post": 10.0, "house-disconnect": 7.79, "house-panel": 5.73, "studio-panel": 2.36}
    assert {gear: round(worked(cottage, available_fault, gear).within("kA"), 2) for gear in kiloamperes} == kiloamperes


def test_the_long_kitchen_circuit_of_the_faulty_cottage() -> None:
    job = job_of("cottage-faults.plan")
    assert round(worked(job, drop, "kitchen-a").within("%"), 2) == 3.17
    assert round((worked(job, drop, "kitchen-a") + worked(job, drop_ahead, "kitchen-a")).within("%"), 2) == 4.51


def steps_of(job: Job, fact: Any, name: str) -> list[tuple[str, str]]:
    with job.observing(job.graph.one(name)) as root:
        fact(job.graph.one(name), job)
    return [(step.text, step.value) for step in root.uses[-1].steps]


VOLTS = {
    "meter-to-disconnect": 1.22, "house-feeder": 1.99, "studio-feeder": 3.75, "kitchen-a": 2.00, "kitchen-b": 2.28,
    "bedroom-circuit": 2.31, "lights-circuit": 1.51, "dishwasher-circuit": 1.58, "range-circuit": 1.57, "dryer-circuit": 1.24,
    "heat-pump-circuit": 0.60, "air-handler-circuit": 0.68, "well-circuit": 3.57, "kiln-circuit": 1.18, "studio-bench": 1.19,
    "studio-lights-circuit": 0.66,
}  # fmt: skip


@pytest.mark.parametrize("name", VOLTS)
def test_the_volts_on_the_way_to_the_percents(cottage: Job, name: str) -> None:
    found = [float(value.removesuffix(" V")) for text, value in steps_of(cottage, drop, name) if value.endswith(" V")]
    assert [round(volts, 2) for volts in found] == [VOLTS[name]]


@pytest.mark.parametrize(("gear", "f"), [("house-disconnect", 0.283), ("house-panel", 0.360), ("studio-panel", 1.43)])
def test_the_factors_on_the_way_to_the_fault_currents(cottage: Job, gear: str, f: float) -> None:
    assert next(float(value) for text, value in steps_of(cottage, available_fault, gear) if "f =" in text) == pytest.approx(
        f, abs=0.005 if f > 1 else 0.0005
    )


def test_the_well_pump_starts(cottage: Job) -> None:
    """45 A: 20.1 V on the circuit, 8.4 %, and 0.4 % ahead: 8.7 %."""
    circuit = 2 * 180 * 45 * 1.24 / 1000
    assert round(circuit, 1) == 20.1
    found = worked(cottage, starting_drop, "well-pump").within("%")
    assert round(circuit / 2.4, 1) == 8.4
    assert round(found - circuit / 2.4, 1) == 0.4
    assert round(found, 1) == 8.7
