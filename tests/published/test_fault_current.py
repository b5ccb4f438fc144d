"""Available fault current against published examples and against Ohm's law."""

import math
from collections.abc import Callable

import pytest

from planlint.facts.engine import Job
from planlint.facts.fault import available_fault

JobFor = Callable[..., Job]


def at_terminals(job_for: JobFor, impedance: str) -> float:
    job = job_for(
        f"supply plant\n  type utility; volts 208 V; phase three-phase; transformer 300 kVA; transformer-impedance {impedance}\n"
    )
    return available_fault(job.graph.one("plant"), job).within("A")


@pytest.mark.parametrize(("impedance", "amperes"), [("4.8 %", 17_348), ("4.5 %", 18_505)])
def test_a_transformers_terminals(job_for: JobFor, impedance: str, amperes: int) -> None:
    """industrialmonitordirect.com, short-circuit calculation for permit submissions: 300 kVA at 208 V, three phases."""
    assert round(at_terminals(job_for, impedance)) == amperes


def test_a_published_figure_that_does_not_follow(job_for: JobFor) -> None:
    """The same page prints 83,357 A for 1.11 %; that is 75,020 A divided by 0.9, a tolerance which it doesn't mention."""
    assert round(at_terminals(job_for, "1.11 %")) == 75_020


def far_end(job_for: JobFor, length: float, kiloamperes: float, sets: int = 1) -> float:
    job = job_for(
        f"""complete service, feeders
supply utility
  type utility; volts 120/240 V; fault-current {kiloamperes} kA
panel main-panel
  main 200 A
service drop
  from utility; to main-panel; owner customer; hot 2 x 4/0 aluminum XHHW-2; raceway pipe; sets {sets}; length {length:.3f} ft
raceway pipe
  type PVC-40
"""
    )
    return available_fault(job.graph.one("main-panel"), job).within("A")


@pytest.mark.parametrize("length", [10, 38, 150])
def test_point_to_point_is_ohms_law(job_for: JobFor, length: float) -> None:
    """Physics: the volts over the source's impedance and that of two wires, 1/C a foot each, added as plain numbers."""
    source = 240 / 10_000
    assert far_end(job_for, length, 10) == pytest.approx(240 / (source + 2 * length / 11_174))


def test_parallel_sets_halve_the_length(job_for: JobFor) -> None:
    """Physics: two sets have half the impedance."""
    assert far_end(job_for, 100, 10, sets=2) == pytest.approx(far_end(job_for, 50, 10))


def test_the_wire_bounds_the_current(job_for: JobFor) -> None:
    """Physics: however stiff the source, no more flows than the volts over the wires' own impedance."""
    assert far_end(job_for, 100, 10_000) < 240 * 11_174 / 200
    assert math.isclose(far_end(job_for, 100, 10_000), 240 * 11_174 / 200, rel_tol=0.02)
