"""Breakers against wires: what may be rounded up, what is sized otherwise, what carries a whole dwelling, and the panel's bus."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.checking import run_rule
from planlint.facts.dwelling_supply import carries_whole_dwelling, reduction_in_range
from planlint.facts.engine import Job
from planlint.facts.motors import sized_by_motor_rules
from planlint.facts.outlet_volts import is_low_voltage
from planlint.facts.overcurrent import (
    breaker_ahead,
    breaker_allowed,
    breaker_fits,
    breaker_may_stand,
    has_small_wire,
    largest_breaker,
    next_size_up_allowed,
    poles_used,
    size_to_pull,
    smallest_hot,
    uses_reduction,
)
from planlint.plan.elements import NotStated
from planlint.quantities import Current
from planlint.rulebook import compile_rule
from planlint.trade import WireSize

JobFor = Callable[..., Job]


def worked(job: Job, fact: Callable[[Any, Job], Any], name: str = "run") -> Any:
    return fact(job.graph.one(name), job)


def settled(job: Job, fact: Callable[[Any, Job], Any], name: str = "run") -> Any:
    """The value, or "open"."""
    try:
        return worked(job, fact, name)
    except NotStated:
        return "open"


@pytest.mark.parametrize(
    ("outlets", "allowed"),
    [
        ("", True),
        ("receptacles one\n  circuit run; single yes\n", True),
        ("receptacles one\n  circuit run; single no\n", False),
        ("receptacles one\n  circuit run\n", "open"),
        ("receptacles one\n  circuit run; count 2; single yes\n", False),
        ("receptacles one\n  circuit run; single yes\nreceptacles two\n  circuit run; single yes\n", False),
    ],
    ids=["none", "a single one", "a duplex", "not said", "two", "two of one"],
)
def test_rounding_up_is_not_for_several_receptacles(job_for: JobFor, outlets: str, allowed: object) -> None:
    """NFPA 70 240.4(B)(1): more than one receptacle for cord-and-plug loads; a duplex receptacle has two."""
    job = job_for(f"complete receptacles\ncircuit run\n  breaker 60 A; cable 6/3 copper NM-B\n{outlets}")
    assert settled(job, next_size_up_allowed) == allowed
    expected = {True: Current.of(60, "A"), False: Current.of(50, "A"), "open": "open"}[allowed]
    assert settled(job, largest_breaker) == expected


@pytest.mark.parametrize(("breaker", "allowed"), [("800 A", True), ("1000 A", False)])
def test_rounding_up_ends_at_800_amperes(job_for: JobFor, breaker: str, allowed: bool) -> None:
    """NFPA 70 240.4(B)(3)."""
    assert worked(job_for(f"feeder run\n  breaker {breaker}\n"), next_size_up_allowed) is allowed


@pytest.mark.parametrize(("breaker", "fits"), [(50, True), (60, "open"), (70, False)])
def test_a_breaker_far_off_needs_no_more_questions(job_for: JobFor, breaker: int, fits: object) -> None:
    """6/3 cable carries 55 A: 50 A is under it, 70 A above the next size up; only 60 A hangs on the receptacles."""
    assert settled(job_for(f"circuit run\n  breaker {breaker} A; cable 6/3 copper NM-B\n"), breaker_fits) == fits


def test_ampacity_below_every_breaker(job_for: JobFor) -> None:
    """25 A x 50 % = 12.5 A: NFPA 70 240.6(A) begins at 15 A for breakers in 2020, so only rounding up gives one."""
    text = """complete receptacles
holes crowded
  together 5; sealed yes
circuit run
  breaker 15 A; cable NM-B; hot 14 AWG copper; neutral 14 AWG copper; holes crowded; ambient 86 F
"""
    assert worked(job_for(text), largest_breaker) == Current.of(15, "A")
    more = "receptacles bench\n  circuit run; count 2\n"
    assert worked(job_for(text + more), largest_breaker) == Current.of(0, "A")
    assert worked(job_for(text + more), breaker_allowed) == "none, for the smallest is 15 A"
    assert worked(job_for(text + more, edition=2023), largest_breaker) == Current.of(10, "A")


@pytest.mark.parametrize(
    ("wire", "small"),
    [("cable 10/2 copper NM-B", True), ("cable 8/2 copper NM-B", False), ("cable 10/2 aluminum MC", True),
     ("cable MC; hot 16 AWG copper", True), ("cable MC; hot 16 AWG copper; volts 24 V", False)],
)  # fmt: skip
def test_small_wires(job_for: JobFor, wire: str, small: bool) -> None:
    """NFPA 70 240.4(D). Bell and thermostat wires fall under article 725."""
    assert worked(job_for(f"circuit run\n  {wire}\n"), has_small_wire) is small


@pytest.mark.parametrize(
    ("volts", "low"), [("volts 24 V", True), ("volts 240 V", False), ("poles 1", False), ("volts unknown", "open")]
)
def test_bells_and_thermostats(job_for: JobFor, volts: str, low: object) -> None:
    """NFPA 70 article 725. Volts that are left out are the panel's; volts that are unknown are open."""
    assert settled(job_for(f"circuit run\n  {volts}\n"), is_low_voltage) == low


PUMP = "load pump\n  type well-pump; circuit run; connection hard-wired\n"


@pytest.mark.parametrize(
    ("more", "answer"),
    [
        (PUMP, True),
        (PUMP.replace("hard-wired", "cord"), False),
        (PUMP.replace("; connection hard-wired", ""), "open"),
        (PUMP + "lights lamp\n  circuit run\n", False),
        (PUMP + "load heater\n  type space-heat; circuit run; connection hard-wired\n", False),
        ("", False),
    ],
    ids=["a pump", "a pump with a cord", "not said how", "with a light", "with a heater", "nothing"],
)
def test_what_motor_rules_size(job_for: JobFor, more: str, answer: object) -> None:
    """NFPA 70 240.4(G): circuits of motors and cooling units that are wired in, and of nothing else."""
    assert (
        settled(job_for(f"complete loads, lights, receptacles\ncircuit run\n  use appliance\n{more}"), sized_by_motor_rules)
        == answer
    )


def test_a_use_settles_what_motor_rules_do_not_size(job_for: JobFor) -> None:
    assert worked(job_for("circuit run\n  use lighting\n"), sized_by_motor_rules) is False
    assert settled(job_for("circuit run\n  use appliance\n"), sized_by_motor_rules) == "open"


HOUSE = """complete service, feeders{circuits}
building house
  use {use}
building studio
  use workshop
place hall
  building house
place studio-room
  building studio
supply utility
  type utility; volts {volts}
disconnect main-breaker
  mounted-on house; breaker {breaker}
service drop
  from utility; to main-breaker; owner utility
panel house-panel
  at hall
feeder run
  from main-breaker; to house-panel; breaker {breaker}; cable SER; hot 2 x {wire} XHHW-2; terminals 75 C; ambient 86 F
"""


def house(more: str = "", **other: str) -> str:
    said = {"circuits": ", circuits", "use": "one-family", "volts": "120/240 V", "breaker": "200 A", "wire": "4/0 aluminum"}
    return HOUSE.format(**(said | other)) + more


WELL = "circuit well-circuit\n  panel main-breaker\n"
STUDIO = "panel studio-panel\n  at studio-room\nfeeder studio-feeder\n  from main-breaker; to studio-panel\n"


@pytest.mark.parametrize(
    ("text", "whole"),
    [
        (house(), True),
        (house(circuits=""), "open"),
        (house(WELL), False),
        (house(WELL, circuits=""), False),
        (house(STUDIO), False),
        (house(use="workshop"), False),
    ],
    ids=["all through it", "not all circuits shown", "a circuit beside it", "the same", "a feeder beside it", "a workshop"],
)
def test_a_dwellings_whole_supply(job_for: JobFor, text: str, whole: object) -> None:
    """NFPA 70 310.12(B): all loads that are part of or associated with the dwelling unit."""
    assert settled(job_for(text), carries_whole_dwelling) == whole


@pytest.mark.parametrize(
    ("breaker", "volts", "holds"),
    [("90 A", "120/240 V", False), ("100 A", "120/240 V", True), ("400 A", "120/240 V", True), ("450 A", "120/240 V", False),
     ("200 A", "120/208 V", False)],
)  # fmt: skip
def test_where_the_reduction_holds(job_for: JobFor, breaker: str, volts: str, holds: bool) -> None:
    """NFPA 70 310.12: 100 to 400 A, single phase."""
    assert worked(job_for(house(breaker=breaker, volts=volts)), reduction_in_range) is holds


@pytest.mark.parametrize(
    ("wire", "used"), [("4/0 aluminum", False), ("2/0 copper", True), ("1/0 copper", False)], ids=["180 A", "175 A", "150 A"]
)
def test_what_rests_on_the_reduction(job_for: JobFor, wire: str, used: bool) -> None:
    """Behind 200 A: 180 A takes the next size up, 175 A is a size itself and over 83 %, 150 A is under 83 % (166 A)."""
    assert worked(job_for(house(wire=wire)), uses_reduction) is used


def test_the_utilitys_own_wires_never_use_it(job_for: JobFor) -> None:
    assert worked(job_for(house()), uses_reduction, "drop") is False


def test_remedy_sizes(job_for: JobFor) -> None:
    """Table 310.16 and 240.4: 50 A on NM-B asks for 6 AWG; 100 A at 75 C for 3 AWG copper."""
    assert worked(job_for("circuit run\n  use general; breaker 50 A; cable 8/3 copper NM-B\n"), smallest_hot) == WireSize(
        "6", "copper"
    )
    assert worked(job_for(house(WELL, breaker="100 A", wire="6 AWG copper")), size_to_pull) == WireSize("3", "copper")


def test_a_remedy_without_the_load_carries_the_breaker(job_for: JobFor) -> None:
    """180 A of 4/0 would do behind 200 A if the load were known to be under it; 205 A of 250 kcmil does in any case."""
    job = job_for(house(WELL, wire="1/0 aluminum"))
    assert settled(job, smallest_hot) == "open"
    assert worked(job, size_to_pull) == WireSize("250", "aluminum")


def test_a_service_on_reduced_wires(job_for: JobFor) -> None:
    text = house().replace("owner utility", "owner customer; cable SEU; hot 2 x {} XHHW-2; terminals 75 C; ambient 86 F")
    assert worked(job_for(text.format("2/0 copper")), breaker_may_stand, "drop") is True
    assert worked(job_for(text.format("1/0 copper")), breaker_may_stand, "drop") is False


@pytest.mark.parametrize(
    ("panel", "amperes"),
    [
        ("main 100 A; bus 125 A", 100),
        ("main lugs; bus 125 A", 125),
        ("main 150 A; bus 125 A", 125),
        ("main 200 A; bus 200 A", 200),
    ],
)
def test_what_protects_a_bus(job_for: JobFor, panel: str, amperes: float) -> None:
    """NFPA 70 408.36: within the panel or anywhere ahead of it."""
    job = job_for(f"complete feeders, service\npanel here\n  {panel}\nfeeder run\n  to here; breaker 125 A\n")
    assert worked(job, breaker_ahead, "here") == Current.of(amperes, "A")


def test_poles(job_for: JobFor) -> None:
    """A 2-pole circuit, a 1-pole circuit, a feeder of two hots, and a generator's breaker of two."""
    job = job_for("""complete circuits, feeders
panel here
  main lugs
panel there
  main lugs
supply generator
  type generator
circuit range
  panel here; poles 2
circuit lamp
  panel here; poles 1
feeder run
  from here; to there; cable SER; hot 2 x 2 AWG copper
feeder back
  from generator; to here; cable SER; hot 2 x 6 AWG copper
""")
    assert worked(job, poles_used, "here") == 7
    assert worked(job, poles_used, "there") == 0


def test_heat_that_is_not_stated_is_a_question_and_no_fault(job_for: JobFor) -> None:
    """Four cables of 14 AWG in one sealed hole: 25 A x 70 % is 17.5 A at 86 F; a hot attic would leave less than its 15 A."""
    holes = (
        "complete receptacles, lights, loads\nholes four\n  together 4; sealed yes\nreceptacles outlets\n  circuit run; count 4\n"
    )
    run = "circuit run\n  breaker 15 A; poles 1; use general; cable 14/2 copper NM-B; holes four{}\n"
    for ambient, expected in [("; ambient 86 F", "met"), ("; ambient 131 F", "broken"), ("", "undecided")]:
        job = job_for(holes + run.format(ambient))
        rule = compile_rule(job.code.rules["wire-ampacity-not-adjusted"], job.code)
        assert run_rule(rule, job.graph.one("run"), job).answer == expected
