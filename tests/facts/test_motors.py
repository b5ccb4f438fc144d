"""Motors and cooling units: nothing escapes the small-wire limits without being judged; groups, fuses, plates, what is open."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.book import resolve
from planlint.checking import run_rule
from planlint.facts.circuit_needs import circuit_needed
from planlint.facts.engine import Job
from planlint.facts.motor_breakers import breaker_on_it, largest_motor_breaker, motor_breaker_fits
from planlint.facts.motors import motor_current, sized_by_motor_rules, wire_to_carry
from planlint.facts.overloads import overload_suits
from planlint.plan.elements import NotStated
from planlint.plan.outlets import Load
from planlint.quantities import Current
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
JUDGES = ("motor-circuit-wrong", "air-conditioner-nameplate-ignored")
PANEL = "panel house-panel\n  bus 200 A\ndisconnect fused-switch\n  fuses 60 A\n"


def amperes(number: float) -> Current:
    return Current.of(number, "A")


def settled(job: Job, fact: Callable[[Any, Job], Any], name: str = "unit") -> Any:
    """The value, or what is missing."""
    try:
        return fact(job.graph.one(name), job)
    except NotStated as gap:
        return " ".join(need.note or f"{need.element.name}: {need.attribute}" for need in gap.needs)


def answer(job: Job, rule: str, name: str = "unit") -> str:
    code = resolve((f"model-{job.edition}",))
    return run_rule(compile_rule(code.rules[rule], code), job.graph.one(name), job).answer


def plan_of(*loads: str, breaker: float = 20, panel: str = "house-panel", more: str = "") -> str:
    text = f"complete loads, receptacles, lights\n{PANEL}circuit run\n  panel {panel}; breaker {breaker:g} A; poles 2"
    text += "; use appliance; cable 10/2 copper NM-B; ambient 86 F\n"
    for number, load in enumerate(loads):
        text += f"load {'unit' if not number else f'unit-{number}'}\n  circuit run; {load}\n"
    return text + more


ONE_HP = "type motor; horsepower 1 hp; volts 240 V; amps 8 A; connection hard-wired; overload built-in"
HALF_HP = "type sump-pump; horsepower 1/2 hp; volts 240 V; amps 4.9 A; connection hard-wired; overload built-in"
THREE_HP = "type motor; horsepower 3 hp; volts 240 V; amps 17 A; connection hard-wired; overload built-in"


@pytest.mark.parametrize("type_", Load.attributes["type"].type.words)
@pytest.mark.parametrize("more", ["connection hard-wired", "connection cord", "", "connection hard-wired; planned yes"])
def test_what_escapes_the_small_wire_limits_is_judged_by_its_own_rules(job_for: JobFor, type_: str, more: str) -> None:
    """NFPA 70 240.4(G): a circuit that is excepted there must come under article 430 or 440; a planned one is not yet."""
    job = job_for(plan_of(f"type {type_}; {more}".rstrip("; ")))
    if settled(job, sized_by_motor_rules, "run") is True:
        assert [answer(job, rule) for rule in JUDGES].count("not-applicable") == 1
        assert "planned" not in more
    else:
        assert f"{type_}; {more}" != "well-pump; connection hard-wired"


def test_a_feeder_that_escapes_them_is_judged_too(job_for: JobFor) -> None:
    more = "feeder unit-feeder\n  to fused-switch; breaker 25 A; cable 14/2 copper NM-B; ambient 86 F\n"
    text = plan_of(ONE_HP, panel="fused-switch", more=more).replace("complete loads", "complete circuits, loads")
    job = job_for(text)
    assert settled(job, sized_by_motor_rules, "unit-feeder") is True
    assert answer(job, "motor-feeder-wrong", "unit-feeder") == "broken"  # 250 % of 8 A are 20 A
    assert answer(job_for(text.replace("breaker 25 A", "breaker 20 A")), "motor-feeder-wrong", "unit-feeder") == "met"


def test_what_is_planned_leaves_it_open(job_for: JobFor) -> None:
    """Its plate is not known before it is bought: the breaker over the wire's limit is neither excused nor faulted."""
    job = job_for(plan_of(ONE_HP + "; planned yes", breaker=40))
    assert "can't be judged while it is planned" in settled(job, sized_by_motor_rules, "run")
    assert answer(job, "small-wire-big-breaker", "run") == "undecided"
    assert [answer(job, rule) for rule in JUDGES] == ["not-applicable", "not-applicable"]


@pytest.mark.parametrize(
    ("load", "current"),
    [
        ("type motor; horsepower 1 hp; amps 9.8 A; volts 240 V", amperes(8)),  # the table, not the plate: 430.6(A)(1)
        ("type motor; horsepower none; amps 9.8 A; volts 240 V", amperes(9.8)),
        ("type motor; amps 9.8 A; volts 240 V", "unit: horsepower"),
        ("type motor; horsepower 1 hp", "unit: volts"),
        ("type motor; horsepower 2.5 hp; volts 240 V", "Table 430.248 has no motor of 2.5 hp at 240 V"),
        ("type dryer; rating 5 kW; volts 240 V", "unit: a motor or a pump, which goes by its horsepower"),
    ],
)
def test_the_current_of_a_motor(job_for: JobFor, load: str, current: object) -> None:
    assert settled(job_for(plan_of(load)), motor_current) == current


def test_three_phases_are_not_worked_out(job_for: JobFor) -> None:
    job = job_for(plan_of(ONE_HP).replace("poles 2", "poles 3"))
    assert settled(job, motor_current) == "unit: motors of three phases are not worked out here"


@pytest.mark.parametrize(("breaker", "fits"), [(20, True), (25, "open"), (50, "open"), (60, False)])
def test_two_motors_on_one_breaker(job_for: JobFor, breaker: float, fits: object) -> None:
    """NFPA 70 430.53: within the limit of the smaller one, 250 % of 8 A = 20 A, for certain.

    Above that only equipment listed for it, up to the larger one's limit and the other's current: 45 + 8 A = 53 A.
    """
    loads = (ONE_HP, THREE_HP)
    job = job_for(plan_of(*loads, breaker=breaker).replace("10/2", "6/2"))
    found = settled(job, motor_breaker_fits)
    assert found is fits if fits != "open" else "listed for one breaker" in found


@pytest.mark.parametrize(
    ("load", "breaker", "volts", "fits"),
    [
        ("horsepower 1/4 hp; amps 5.8 A", 20, 120, True),
        ("horsepower 1/4 hp; amps 5.8 A", 25, 120, "open"),
        ("horsepower 1/3 hp; amps 7.2 A", 20, 120, True),  # 250 % of 7.2 A are 18 A, the next size 20 A, without the group
        ("horsepower 1/2 hp; amps 4.9 A", 15, 240, True),
        ("horsepower 1/6 hp; amps 2.2 A", 20, 240, "open"),
    ],
)
def test_small_motors_beside_lights(job_for: JobFor, load: str, breaker: float, volts: int, fits: object) -> None:
    """NFPA 70 430.53(A): up to 1 hp and 6 A, on 20 A at 120 V or 15 A above."""
    text = plan_of(f"type motor; {load}; volts {volts} V; connection hard-wired; overload built-in", breaker=breaker)
    job = job_for(text.replace("poles 2; use appliance", "poles 1") + "lights lamp\n  circuit run\n")
    found = settled(job, motor_breaker_fits)
    assert found is fits if fits != "open" else "430.53(C)" in found


@pytest.mark.parametrize(("breaker", "fits"), [(15, True), (25, "open"), (30, False)])
def test_fuses(job_for: JobFor, breaker: float, fits: object) -> None:
    """NFPA 70 Table 430.52: 8 A, dual-element fuses 175 % (15 A), without delay 300 % (25 A)."""
    found = settled(job_for(plan_of(ONE_HP, breaker=breaker, panel="fused-switch")), motor_breaker_fits)
    assert found is fits if fits != "open" else found == "unit: whether its fuses have a time delay"


def test_the_plate_goes_before_the_percentage(job_for: JobFor) -> None:
    """NFPA 70 110.3(B), 440.4(B)."""
    job = job_for(plan_of(ONE_HP + "; nameplate-ampacity 12 A; nameplate-breaker 15 A", breaker=15))
    assert settled(job, largest_motor_breaker) == amperes(15)
    assert settled(job, wire_to_carry) == amperes(12)
    assert [answer(job, rule) for rule in JUDGES] == ["met", "met"]


@pytest.mark.parametrize(
    ("said", "suits"),
    [
        ("overload built-in", True),
        ("overload 9.2 A", True),
        ("overload 9.3 A", "unit: service-factor unit: temperature-rise"),
        ("overload 9.3 A; service-factor 1.15", True),
        ("overload 9.3 A; service-factor 1", "unit: temperature-rise"),
        ("overload 10.1 A", False),
        ("", "unit: overload"),
        ("overload none", "unit: overload, or that it is started by hand within sight (NFPA 70 430.32(D))"),
        ("overload none; horsepower 2 hp", False),
    ],
)
def test_overload_protection(job_for: JobFor, said: str, suits: object) -> None:
    """NFPA 70 430.32(A)(1): 115 % of 8 A are 9.2 A, 125 % 10 A."""
    horse = "" if "horsepower" in said else "; horsepower 1 hp"
    load = f"type motor{horse}; volts 240 V; amps 8 A; connection hard-wired; {said}".rstrip("; ")
    assert settled(job_for(plan_of(load)), overload_suits) == suits


@pytest.mark.parametrize(("breaker", "expected"), [(20, "met"), (16, "broken")])
def test_a_breaker_below_the_load(job_for: JobFor, breaker: float, expected: str) -> None:
    assert answer(job_for(plan_of(THREE_HP, breaker=breaker)), "motor-circuit-wrong") == expected


def test_several_motors_and_a_heater(job_for: JobFor) -> None:
    """NFPA 70 430.24: 17 A x 125 % + 8 + 4.9 A; the heater long, 125 % of its 10 A."""
    heater = "type space-heat; amps 10 A; volts 240 V; connection hard-wired"
    assert settled(job_for(plan_of(THREE_HP, ONE_HP, HALF_HP)), wire_to_carry) == amperes(34.15)
    assert settled(job_for(plan_of(THREE_HP, ONE_HP, HALF_HP, heater)), wire_to_carry) == amperes(46.65)
    assert settled(job_for(plan_of(ONE_HP + "; count 2")), wire_to_carry) == amperes(18)


def test_heat_strips_inside_an_air_handler_come_under_its_plate(job_for: JobFor) -> None:
    """One plate for fan and strips: (20 + 2) A x 125 % = 27.5 A, and the plate says 28 A, not 28 A beside the strips."""
    strips = "type supplementary-heat; amps 20 A; volts 240 V; connection hard-wired"
    fan = "type air-handler; amps 2 A; volts 240 V; connection hard-wired"
    plate = "; nameplate-ampacity 28 A; nameplate-breaker 30 A"
    assert settled(job_for(plan_of(fan, strips)), lambda load, job: wire_to_carry(load, job)) != amperes(28)
    assert settled(job_for(plan_of(fan + plate, strips)), wire_to_carry) == amperes(28)
    assert settled(job_for(plan_of(fan + plate.replace("28", "27"), strips)), wire_to_carry) == amperes(27.5)


def test_what_is_no_motor_is_not_asked(job_for: JobFor) -> None:
    job = job_for(plan_of("type dryer; rating 5 kW; volts 240 V; connection cord"))
    assert "a motor, or a unit whose plate" in settled(job, breaker_on_it)


SIZES = ("1/6", "1/4", "1/3", "1/2", "3/4", "1", "1-1/2", "2", "3", "5", "7-1/2", "10")


@settings(max_examples=60, deadline=None)
@given(st.lists(st.sampled_from(range(len(SIZES))), min_size=1, max_size=4), st.integers(0, 3), st.sampled_from((120, 208, 240)))
def test_a_larger_motor_never_asks_less(job_for: JobFor, those: list[int], which: int, volts: int) -> None:
    def asked(numbers: list[int]) -> tuple[float, float]:
        load = "type motor; horsepower {} hp; volts {} V; connection hard-wired; overload built-in"
        job = job_for(plan_of(*(load.format(SIZES[number], volts) for number in numbers)))
        return settled(job, wire_to_carry).within("A"), settled(job, largest_motor_breaker).within("A")

    here = which % len(those)
    larger = [min(number + (index == here), len(SIZES) - 1) for index, number in enumerate(those)]
    (wire, breaker), (more_wire, more_breaker) = asked(those), asked(larger)
    assert more_wire >= wire - 1e-9
    assert more_breaker >= breaker
    assert asked([*those, 0])[0] >= wire - 1e-9


def test_the_cottage_by_hand(job_for: JobFor) -> None:
    """1 hp at 240 V: 8 A, wires for 10 A, a breaker up to 20 A; the heat pump's plate 15 and 25 A; fan and strips 28.6 A."""
    cottage = Path(__file__).parents[2] / "fixtures" / "cottage.plan"
    job = job_for(cottage.read_text(encoding="utf-8"), profile="tern-county")
    assert settled(job, motor_current, "well-pump") == amperes(8)
    assert settled(job, wire_to_carry, "well-pump") == amperes(10)
    assert settled(job, largest_motor_breaker, "well-pump") == amperes(20)
    assert settled(job, wire_to_carry, "heat-pump") == amperes(15)
    assert settled(job, largest_motor_breaker, "heat-pump") == amperes(25)
    assert settled(job, circuit_needed, "range") == amperes(40)
    assert settled(job, circuit_needed, "heat-strips").within("A") == pytest.approx(28.646, abs=0.001)
