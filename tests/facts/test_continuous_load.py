"""Breakers for what runs three hours or more: which loads count more, what is open, and what another rule says already."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.continuous_load import (
    breaker_carries_long_loads,
    breaker_needed,
    is_from_own_source,
    is_judged_by_its_appliance,
    is_judged_by_its_load,
)
from planlint.facts.engine import Job
from planlint.facts.load import current_needed, has_continuous_load
from planlint.plan.elements import NotStated

JobFor = Callable[..., Job]
COMPLETE = "complete service, feeders, circuits, loads, receptacles, lights\n"


def worked(job: Job, fact: Any, name: str = "bench") -> Any:
    return fact(job.graph.one(name), job)


def not_stated(job: Job, fact: Any, name: str = "bench") -> str:
    with pytest.raises(NotStated) as gap:
        worked(job, fact, name)
    return str(gap.value)


def circuit(more: str, *loads: str, complete: str = COMPLETE) -> str:
    text = f"{complete}circuit bench\n  poles 2; use appliance; {more}\n"
    return text + "".join(f"load thing-{n}\n  circuit bench; volts 240 V; {load}\n" for n, load in enumerate(loads))


KILN = "type kiln; amps 40 A; continuous yes"


@pytest.mark.parametrize(
    ("loads", "needed"),
    [
        ([KILN], 50),
        ([KILN.replace("yes", "no")], 40),
        ([KILN, "type microwave; amps 5 A"], 55),
        ([KILN, "type motor; amps 8 A; continuous no"], 58),  # a motor as it runs: its quarter is the wire's
        ([KILN + "; count 2"], 100),
        ([KILN, "type range; rating 12 kW"], 50 + 8000 / 240),  # cooking by note 4 to its table
        (["type furnace; amps 20 A; continuous no"], 25),  # the code says that electric heat runs long
        (["type water-heater; rating 4.8 kW; tankless no"], 25),
        (["type water-heater; rating 4.8 kW; tankless yes; continuous no"], 20),
    ],
)
def test_what_a_breaker_needs(job_for: JobFor, loads: list[str], needed: float) -> None:
    """NFPA 70 210.20(A), 220.55 note 4, 422.13, 424.4(B)."""
    job = job_for(circuit("breaker 60 A", *loads))
    assert worked(job, breaker_needed).within("A") == pytest.approx(needed)


@pytest.mark.parametrize(("load", "needed"), [(KILN, 40), ("type car-charger; amps 40 A", 50)])
def test_a_breaker_listed_for_its_whole_rating(job_for: JobFor, load: str, needed: float) -> None:
    """NFPA 70 210.20(A) exception; 625.41 has none."""
    job = job_for(circuit("breaker 50 A; full-rating yes", load))
    assert worked(job, breaker_needed).within("A") == pytest.approx(needed)


def test_receptacles_beside_a_kiln_by_the_design_load(job_for: JobFor) -> None:
    """The design load stands for all; the quarter more of what runs long comes on top."""
    outlets = "receptacles tools\n  circuit bench; count 2; serves general\n"
    job = job_for(circuit("breaker 50 A; design-load 45 A", KILN) + outlets)
    assert worked(job, breaker_needed).within("A") == pytest.approx(55)
    job = job_for(circuit("breaker 50 A; design-load 4 A", KILN) + outlets)
    assert worked(job, breaker_needed).within("A") == pytest.approx(50)
    job = job_for(circuit("breaker 50 A", KILN) + outlets)
    assert not_stated(job, breaker_needed) == "bench: design-load"


@pytest.mark.parametrize(
    ("more", "loads", "complete", "answer"),
    [
        ("breaker 50 A", [KILN], COMPLETE, True),
        ("breaker 49 A", [KILN], COMPLETE, False),
        ("breaker 49 A", [KILN], "", False),  # whatever else is on it
        ("breaker 50 A", [KILN], "", "complete"),
        ("breaker 50 A", [KILN.replace("; continuous yes", "")], COMPLETE, True),  # enough even if it does run long
        ("breaker 49 A", [KILN.replace("; continuous yes", "")], COMPLETE, "thing-0: continuous"),
        ("breaker 39 A", [KILN.replace("; continuous yes", "")], COMPLETE, False),  # too small even if it doesn't
        ("breaker 49 A", [KILN, "type kiln; continuous yes"], COMPLETE, False),  # the plate of the other can't mend it
        ("breaker 60 A", [KILN, "type kiln; continuous yes"], COMPLETE, "thing-1: rating"),
        ("poles 2", [KILN], COMPLETE, "bench: breaker"),
    ],
)
def test_a_breaker_that_is_open_in_part(job_for: JobFor, more: str, loads: list[str], complete: str, answer: bool | str) -> None:
    job = job_for(circuit(more, *loads, complete=complete).replace("poles 2; use appliance; poles 2", "poles 2; use appliance"))
    if isinstance(answer, str):
        assert answer in not_stated(job, breaker_carries_long_loads)
    else:
        assert worked(job, breaker_carries_long_loads) is answer


def test_a_circuit_that_its_appliance_speaks_for(job_for: JobFor) -> None:
    heater = "type baseboard-heat; amps 20 A"
    assert worked(job_for(circuit("breaker 20 A", heater)), is_judged_by_its_appliance)
    assert not worked(job_for(circuit("breaker 20 A", KILN)), is_judged_by_its_appliance)
    assert not worked(job_for(circuit("breaker 20 A", heater + "; planned yes")), is_judged_by_its_appliance)
    outlets = "receptacles tools\n  circuit bench; count 2; serves general\n"
    assert not worked(job_for(circuit("breaker 20 A", heater) + outlets), is_judged_by_its_appliance)


STUDIO = (
    COMPLETE
    + """building studio
  use workshop
place room
  building studio
supply utility
  type utility; volts 120/240 V
disconnect main
  at room; breaker 200 A
service drop
  from utility; to main; owner customer
panel studio-panel
  at room; main lugs
feeder studio-feeder
  from main; to studio-panel; breaker 60 A{}
circuit kiln-circuit
  panel studio-panel; use appliance; poles 2; breaker 60 A
load kiln
  at room; circuit kiln-circuit; volts 240 V; {}
"""
)


@pytest.mark.parametrize(
    ("feeder", "load", "needed"),
    [
        ("", "type kiln; amps 48 A; continuous yes", 60),
        ("; full-rating yes", "type kiln; amps 48 A; continuous yes", 48),
        ("; full-rating yes", "type car-charger; amps 48 A", 60),
        ("", "type kiln; amps 48 A; continuous no", 48),
    ],
)
def test_feeders(job_for: JobFor, feeder: str, load: str, needed: float) -> None:
    """NFPA 70 215.2(A), 215.3 and its exception, 625.41."""
    job = job_for(STUDIO.format(feeder, load))
    assert worked(job, breaker_needed, "studio-feeder").within("A") == pytest.approx(needed)
    assert worked(job, current_needed, "studio-feeder").within("A") == pytest.approx(needed)
    assert worked(job, breaker_carries_long_loads, "studio-feeder")
    assert not worked(job, is_from_own_source, "studio-feeder")


def test_a_generators_feeder_goes_by_the_generator(job_for: JobFor) -> None:
    text = STUDIO.format("", "type kiln; amps 48 A; continuous yes").replace("type utility;", "type generator; rating 60 A;")
    job = job_for(text.replace("service drop\n  from utility; to main; owner customer", "feeder drop\n  from utility; to main"))
    assert worked(job, is_from_own_source, "studio-feeder")


def test_a_tank_of_hot_water_runs_long_in_its_circuit_only(job_for: JobFor) -> None:
    """NFPA 70 422.13 is about the branch circuit."""
    tank = "type water-heater; amps 20 A; tankless no; continuous no"
    assert worked(job_for(circuit("breaker 25 A", tank)), has_continuous_load)
    assert not worked(job_for(circuit("breaker 25 A", tank.replace("tankless no", "tankless yes"))), has_continuous_load)
    assert not worked(job_for(STUDIO.format("", tank)), has_continuous_load, "studio-feeder")


@pytest.mark.parametrize(
    ("load", "said_elsewhere"),
    [
        ("type kiln; amps 48 A; continuous yes", False),
        ("type kiln; amps 55 A; continuous yes", False),  # 68.75 A on 60 A: too small for the increase only
        ("type kiln; amps 60.4 A; continuous yes", False),  # a fraction under half an ampere may be dropped
        ("type kiln; amps 61 A; continuous yes", True),  # too small as it is
        ("type kiln; amps 48 A; continuous no", True),  # nothing is increased
        ("type space-heat; amps 48 A", True),  # 220.51: heat counts as it is
    ],
)
def test_a_feeder_of_which_its_load_says_all(job_for: JobFor, load: str, said_elsewhere: bool) -> None:
    """Its fault is one of feeder-smaller-than-load, not of an increase that was forgotten. NFPA 70 215.3."""
    assert worked(job_for(STUDIO.format("", load)), is_judged_by_its_load, "studio-feeder") is said_elsewhere


def test_a_dwellings_feeder_is_never_one_for_the_increase(job_for: JobFor) -> None:
    text = STUDIO.format("", "type car-charger; amps 48 A").replace("use workshop", "use one-family; load-method standard")
    job = job_for(text.replace("load-method standard", "load-method standard; floor-area 500 sq ft"))
    assert worked(job, is_judged_by_its_load, "studio-feeder")
