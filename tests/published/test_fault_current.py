"""Available fault current against published examples and against Ohm's law."""

import math
from collections.abc import Callable

import pytest

from planlint.facts.engine import Job
from planlint.facts.fault import available_fault, available_fault_to_neutral, bears_neutral_fault, most_fault
from planlint.plan.elements import NotStated

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


POLE = "supply pole\n  type utility; volts 120/240 V; transformer 50 kVA; transformer-impedance 2 %\n"
UTILITYS = """complete service, feeders
disconnect main
  interrupting {} A
service drop
  from pole; to main; owner utility
"""
CUSTOMERS = """panel main
  main 200 A
service drop
  from pole; to main; owner customer; cable SER; hot 2 x 4/0 aluminum; length {} ft
"""


def test_from_half_a_winding_half_as_much_again(job_for: JobFor) -> None:
    """scribd.com/document/388329023, a sheet of the point-to-point method: from a hot wire to the neutral 1.5 times what flows
    between the hots, at the terminals of a single-phase transformer with a tap in the middle."""
    job = job_for(POLE)
    between, neutral = (fact(job.graph.one("pole"), job) for fact in (available_fault, available_fault_to_neutral))
    assert between.within("A") == pytest.approx(50_000 / 240 / 0.02)
    assert neutral == between * 1.5
    assert most_fault(job.graph.one("pole"), job) == neutral


def test_the_bounds_of_that_figure(job_for: JobFor) -> None:
    """The same sheet: it varies from 1.33 to 1.67, so that a breaker has to bear 1.67 times to be safe for certain."""
    most = 50_000 / 240 / 0.02 * 1.67
    job = job_for(UTILITYS.format(math.ceil(most)) + POLE)
    assert bears_neutral_fault(job.graph.one("main"), job) is True
    job = job_for(UTILITYS.format(math.floor(most)) + POLE)
    with pytest.raises(NotStated, match="may flow to the neutral"):
        bears_neutral_fault(job.graph.one("main"), job)


def test_soon_it_is_the_smaller_one(job_for: JobFor) -> None:
    """The same sheet: at some distance, by the wire's size, less flows to the neutral than between the hots."""
    for feet, larger in ((1, available_fault_to_neutral), (100, available_fault)):
        job = job_for(POLE + CUSTOMERS.format(feet))
        main = job.graph.one("main")
        assert most_fault(main, job) == larger(main, job)
        assert available_fault(main, job) != available_fault_to_neutral(main, job)
