"""Loads in cases that the published examples don't have: parts of a house, outbuildings, other sources, what isn't stated."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.building_load import own_load
from planlint.facts.circuit_load import is_continuous
from planlint.facts.demand import demand, nameplate
from planlint.facts.engine import Job
from planlint.facts.load import (
    calculated_load,
    current_needed,
    has_continuous_load,
    load_amps,
    load_current,
    load_served,
    next_rating,
    service_rating,
)
from planlint.plan.elements import NotStated
from planlint.quantities import Current, Power

JobFor = Callable[..., Job]
ALL = "complete service, feeders, circuits, receptacles, lights, loads\n"
HOUSE = (
    ALL
    + """building house
  use one-family; floor-area 1000 sq ft; load-method optional
place hall
  building house
supply utility
  type utility; volts 120/240 V
panel main-panel
  at hall; main 100 A
service drop
  from utility; to main-panel; owner customer
"""
)


def worked(job: Job, fact: Any, name: str) -> Any:
    return fact(job.graph.one(name), job)


def not_stated(job: Job, fact: Any, name: str) -> str:
    with pytest.raises(NotStated) as gap:
        worked(job, fact, name)
    return str(gap.value)


def house_load(job_for: JobFor, appliance: str, method: str = "optional", **more: Any) -> Power:
    text = HOUSE.replace("load-method optional", f"load-method {method}")
    job = job_for(f"{text}load appliance\n  at hall; planned yes; {appliance}\n", **more)
    return worked(job, own_load, "house")


BASE = {"optional": 7500, "standard": 3000 + 0.35 * 4500}


@pytest.mark.parametrize(
    ("appliance", "optional", "standard"),
    [
        ("type furnace; rating 600 W; connection hard-wired", 600, 600),  # a fan, in every season
        ("type furnace; rating 10 kW", 6500, 10_000),  # electric heat
        ("type baseboard-heat; rating 2 kW; count 4; units 4", 3200, 8000),
        ("type baseboard-heat; rating 2 kW; count 3; units 3", 3900, 6000),
        ("type storage-heat; rating 6 kW", 6000, 6000),
        ("type air-conditioner; amps 20 A; volts 240 V", 4800, 6000),  # a quarter more for its motor
        ("type heat-pump; amps 20 A; volts 240 V", 4800, 6000),
        ("type other; rating 2 kW; connection cord", 2000, 2000),
        ("type dryer; rating 4 kW", 2500 + 0.4 * 1500, 5000),
        ("type cooktop; rating 1.5 kW", 1500, 1500),  # not over 1-3/4 kW: no table
    ],
)
def test_what_an_appliance_adds(job_for: JobFor, appliance: str, optional: float, standard: float) -> None:
    """NFPA 70 220.51 to 220.55, 220.82. Before it there are 7,500 VA of lighting and circuits."""
    assert house_load(job_for, appliance) == Power.of(BASE["optional"] + optional, "VA")
    assert house_load(job_for, appliance, "standard") == Power.of(BASE["standard"] + standard, "VA")


@pytest.mark.parametrize(("edition", "counted"), [(2017, 3300), (2020, 3300), (2023, 7200)])
def test_a_small_car_charger_by_edition(job_for: JobFor, edition: int, counted: float) -> None:
    """NFPA 70 220.57, new in 2023: at least 7200 VA."""
    job = job_for(HOUSE + "load charger\n  at hall; planned yes; type car-charger; rating 3.3 kW\n", edition=edition)
    assert worked(job, demand, "charger") == Power.of(counted, "VA")


@pytest.mark.parametrize(("edition", "counts_three_quarters"), [(2017, True), (2020, False), (2023, False)])
def test_small_fastened_appliances_by_edition(job_for: JobFor, edition: int, counts_three_quarters: bool) -> None:
    """NFPA 70 220.53: since 2020 only appliances of 500 W or more are among the four (the edition from memory)."""
    text = HOUSE.replace("load-method optional", "load-method standard")
    for number in range(4):
        text += f"load hood-{number}\n  at hall; planned yes; type hood; rating 400 W\n"
    job = job_for(text, edition=edition)
    assert worked(job, own_load, "house") == Power.of(BASE["standard"] + (1200 if counts_three_quarters else 1600), "VA")


SMALL = """circuit kitchen-a
  panel main-panel; use small-appliance
circuit washer-circuit
  panel main-panel; use laundry
"""


def test_what_stands_on_its_own_circuits(job_for: JobFor) -> None:
    """NFPA 70 220.52: the 1500 VA stand for a refrigerator and a washer, not for a 5 kW dryer put on the laundry circuit."""
    job = job_for(
        HOUSE
        + SMALL
        + """load refrigerator
  at hall; type refrigerator; rating 700 W; circuit kitchen-a
load washer
  at hall; type washer; rating 1.2 kW; circuit washer-circuit
"""
    )
    assert worked(job, own_load, "house") == Power.of(7500, "VA")
    job = job_for(HOUSE + SMALL + "load dryer\n  at hall; type dryer; rating 5 kW; circuit washer-circuit\n")
    assert worked(job, own_load, "house") == Power.of(10_000 + 0.4 * 2500, "VA")


WING = """panel wing-panel
  at hall; main lugs
feeder wing-feeder
  from main-panel; to wing-panel
circuit range-circuit
  panel wing-panel; use appliance
load range
  at hall; type range; rating 12 kW; volts 240 V; circuit range-circuit
circuit lights-circuit
  panel wing-panel; use lighting
lights ceiling
  at hall; circuit lights-circuit; count 10; rating 20 W
receptacles outlets
  at hall; circuit lights-circuit; count 5; serves general
circuit other
  panel main-panel; use small-appliance
"""


def test_a_panel_for_a_part_of_a_house(job_for: JobFor) -> None:
    """NFPA 70 220 Part III for what it feeds: 8 kW for the range, 180 VA a receptacle, the lights by their power."""
    job = job_for(HOUSE + WING)
    assert worked(job, load_served, "wing-panel") == Power.of(8000 + 5 * 180 + 200, "VA")
    assert worked(job, load_served, "main-panel") == worked(job, own_load, "house")
    assert worked(job, load_current, "wing-feeder") == worked(job, load_amps, "wing-panel")


def test_a_part_of_a_house_waits_for_the_power_of_its_lights(job_for: JobFor) -> None:
    job = job_for(HOUSE + WING.replace("; rating 20 W", ""))
    assert "ceiling: rating" in not_stated(job, load_current, "wing-feeder")


TWO_MAINS = """complete service, feeders, circuits, receptacles, lights, loads
building house
  use one-family; floor-area 1000 sq ft; load-method optional
place hall
  building house
supply utility
  type utility; volts 120/240 V
meter meter-post
  mounted-on house
service lateral
  from utility; to meter-post; owner customer
"""
for number in (1, 2):
    TWO_MAINS += f"""disconnect main-{number}
  mounted-on house; breaker 200 A
service service-{number}
  from meter-post; to main-{number}; owner customer
panel panel-{number}
  at hall; main lugs
feeder feeder-{number}
  from main-{number}; to panel-{number}
circuit kiln-circuit-{number}
  panel panel-{number}; use appliance
load kiln-{number}
  at hall; type kiln; circuit kiln-circuit-{number}; rating 9 kW; volts 240 V
"""


def test_two_mains_carry_their_parts_and_the_meter_the_whole(job_for: JobFor) -> None:
    """Each main its kiln at the plate; the meter the house by the optional method: 10,000 VA and 40 % of 15,500 VA."""
    job = job_for(TWO_MAINS)
    assert worked(job, load_served, "panel-1") == worked(job, load_served, "main-1") == Power.of(9000, "VA")
    assert worked(job, load_served, "meter-post") == worked(job, calculated_load, "house") == Power.of(16_200, "VA")
    assert worked(job, load_current, "lateral") == Current.of(67.5, "A")
    assert worked(job, service_rating, "house") == Current.of(400, "A")


SHED = """building shed
  use shed
place shed-room
  building shed
circuit shed-circuit
  panel main-panel; use general; breaker 20 A; poles 1
receptacles shed-receptacles
  at shed-room; circuit shed-circuit; count 3; serves general
"""


def test_an_outbuilding_on_one_circuit_counts_whole(job_for: JobFor) -> None:
    """NFPA 70 220.82 is for the dwelling; three receptacles at 180 VA in the shed come on top."""
    job = job_for(HOUSE + SHED)
    assert worked(job, own_load, "house") == Power.of(7500, "VA")
    assert worked(job, load_served, "main-panel") == Power.of(8040, "VA")
    assert worked(job, calculated_load, "house") == Power.of(8040, "VA")


def test_a_workshop_heats_or_cools(job_for: JobFor) -> None:
    """NFPA 70 220.60: 5 kW of heat, not the 3 kVA of cooling beside it; with the motor's quarter 4.1 kVA of cooling are more."""
    text = HOUSE + SHED + "load heat\n  at shed-room; planned yes; type space-heat; rating 5 kW; units 1\n"
    cooling = "load cooling\n  at shed-room; planned yes; type air-conditioner; rating {}\n"
    assert worked(job_for(text + cooling.format("3 kVA")), own_load, "shed") == Power.of(540 + 5000, "VA")
    assert worked(job_for(text + cooling.format("4.1 kVA")), own_load, "shed") == Power.of(540 + 4100 + 1025, "VA")


def test_an_open_list_is_never_added_up(job_for: JobFor) -> None:
    for topic in ("feeders", "circuits", "loads"):
        job = job_for(HOUSE.replace(f" {topic},", "").replace(f", {topic}\n", "\n"))
        assert f"complete {topic}" in not_stated(job, calculated_load, "house")


@pytest.mark.parametrize(
    ("change", "need"),
    [
        (("one-family", "two-family; dwelling-units 3"), "two dwellings in a two-family house only"),
        (("load-method optional", "load-method optional; dwelling-units 2"), "one dwelling in a one-family house only"),
        (("load-method optional", "load-method existing; construction new"), "has not that of an existing one"),
        (("load-method optional", "load-method existing"), "house: construction"),
        (("; load-method optional", ""), "load-method"),
        (("; floor-area 1000 sq ft", ""), "floor-area"),
        (("120/240 V", "120/208 V; phase three-phase"), "one phase only"),
        (("use one-family; ", ""), "house: use"),
    ],
)
def test_a_load_that_is_not_worked_out(job_for: JobFor, change: tuple[str, str], need: str) -> None:
    assert need in not_stated(job_for(HOUSE.replace(*change)), load_amps, "house")


CIRCUIT = """circuit bench
  panel main-panel; use general; breaker 20 A; poles 1
"""


def test_the_breaker_is_no_load(job_for: JobFor) -> None:
    job = job_for(HOUSE + CIRCUIT + "receptacles outlets\n  circuit bench; count 4; serves general\n")
    assert not_stated(job, load_current, "bench") == "bench: design-load"
    assert not_stated(job, current_needed, "bench") == "bench: design-load"
    job = job_for(HOUSE + CIRCUIT)
    assert not_stated(job, load_current, "bench") == "bench: design-load"


def test_a_receptacle_for_an_appliance_that_is_not_stated(job_for: JobFor) -> None:
    job = job_for(HOUSE + CIRCUIT + "receptacles outlet\n  circuit bench; serves refrigerator\n")
    assert not_stated(job, load_current, "bench") == "bench: design-load"


HEATER = "load heater\n  at hall; circuit bench; type {}; rating 1.2 kW; volts 120 V; connection hard-wired\n"


def test_what_runs_long_at_125_percent(job_for: JobFor) -> None:
    """NFPA 70 210.19(A), 424.4(B): 10 A of electric heat want 12.5 A, whatever the plan says of how long it runs."""
    for said in ("", "  continuous no\n"):
        job = job_for(HOUSE + CIRCUIT + HEATER.format("space-heat") + said)
        assert worked(job, load_current, "bench") == Current.of(10, "A")
        assert worked(job, current_needed, "bench") == Current.of(12.5, "A")
        assert worked(job, has_continuous_load, "bench")


def test_what_may_run_long_is_asked_for(job_for: JobFor) -> None:
    job = job_for(HOUSE + CIRCUIT + HEATER.format("kiln"))
    assert worked(job, load_current, "bench") == Current.of(10, "A")
    assert not_stated(job, current_needed, "bench") == "heater: continuous"
    assert not_stated(job, is_continuous, "heater") == "heater: continuous"
    job = job_for(HOUSE + CIRCUIT + HEATER.format("microwave"))
    assert worked(job, current_needed, "bench") == Current.of(10, "A")


def test_a_design_load_does_not_hide_appliances(job_for: JobFor) -> None:
    """It holds for voltage drop; wire and breaker have to be good for the plates as well."""
    text = HOUSE + CIRCUIT + "  design-load 4 A\n" + HEATER.format("microwave")
    job = job_for(text)
    assert worked(job, load_current, "bench") == Current.of(4, "A")
    assert worked(job, current_needed, "bench") == Current.of(10, "A")
    job = job_for(text + "receptacles outlets\n  circuit bench; count 2; serves general\n")
    assert worked(job, current_needed, "bench") == Current.of(10, "A")


@pytest.mark.parametrize(
    ("plates", "counted"),
    [
        ({"range": "12 kW"}, 8000),
        ({"range": "8 kW"}, 6400),
        ({"oven": "5 kW"}, 5000),
        ({"cooktop": "6 kW"}, 6000),
        ({"cooktop": "6 kW", "oven": "5 kW"}, 8000),
        ({"cooktop": "8 kW", "oven": "6 kW"}, 8800),
        ({"range": "8 kW", "oven": "4 kW"}, 12_000),
    ],
)
def test_one_circuit_for_cooking(job_for: JobFor, plates: dict[str, str], counted: float) -> None:
    """NFPA 70 Table 220.55 note 4."""
    text = HOUSE + "circuit cooking\n  panel main-panel; use appliance; poles 2\n"
    for type_, rating in plates.items():
        text += f"load the-{type_}\n  at hall; circuit cooking; type {type_}; rating {rating}; volts 240 V\n"
    assert worked(job_for(text), current_needed, "cooking").within("A") == pytest.approx(counted / 240)


def test_several_cooking_appliances_share_their_demand(job_for: JobFor) -> None:
    """NFPA 70 Table 220.55: 3 kW oven in column A (80 %), 6 kW cooktop in column B (80 %): 7.2 kW, less than column C's 11."""
    text = HOUSE.replace("load-method optional", "load-method standard")
    for type_, rating in (("oven", "3 kW"), ("cooktop", "6 kW")):
        text += f"load {type_}\n  at hall; planned yes; type {type_}; rating {rating}\n"
    job = job_for(text)
    assert worked(job, demand, "oven") + worked(job, demand, "cooktop") == Power.of(7200, "VA")
    assert worked(job, own_load, "house") == Power.of(BASE["standard"] + 7200, "VA")


def test_a_range_past_the_table(job_for: JobFor) -> None:
    text = HOUSE.replace("load-method optional", "load-method standard")
    job = job_for(text + "load range\n  at hall; planned yes; type range; rating 28 kW\n")
    assert "Table 220.55" in not_stated(job, demand, "range")


@pytest.mark.parametrize(
    ("plate", "power"),
    [
        ("rating 2.4 kW", 2400),
        ("amps 10 A; volts 240 V", 2400),
        ("rating 2 kW; amps 10 A; volts 240 V", 2400),  # the larger where both are stated
        ("rating 3 kW; amps 10 A; volts 240 V", 3000),
        ("horsepower 1 hp; volts 240 V", 1920),  # Table 430.248: 8 A
        ("horsepower 1 hp; amps 6 A; volts 240 V", 1920),
        ("rating 2.4 kW; power-factor 80 %", 3000),
        ("rating 2.4 kW; count 3", 7200),
        ("rating 2.4 kW; count 0", 0),
    ],
)
def test_plates(job_for: JobFor, plate: str, power: float) -> None:
    job = job_for(f"{HOUSE}load thing\n  at hall; planned yes; type other; {plate}\n")
    assert worked(job, nameplate, "thing") == Power.of(power, "VA")


@pytest.mark.parametrize(
    ("plate", "need"),
    [
        ("volts 240 V", "thing: rating"),
        ("amps 10 A", "thing: volts"),
        ("rating 1 hp", "horsepower"),
        ("horsepower 1-1/4 hp; volts 240 V", "Table 430.248"),
        ("amps 10 A; rating 1 kW; volts 0 V", "not 0"),
        ("rating 1 kW; power-factor 0 %", "not 0"),
    ],
)
def test_plates_that_say_too_little(job_for: JobFor, plate: str, need: str) -> None:
    job = job_for(f"{HOUSE}load thing\n  at hall; planned yes; type other; {plate}\n")
    assert need in not_stated(job, nameplate, "thing")


def test_a_generators_feeder_carries_what_it_gives(job_for: JobFor) -> None:
    """Not the load of the whole house, which by hand is never put on it."""
    job = job_for(
        HOUSE
        + """supply generator
  type generator; rating 7.2 kW; volts 120/240 V
transfer-switch switch
  at hall; type interlock; panel main-panel
feeder inlet-feeder
  from generator; to switch
"""
    )
    assert worked(job, load_current, "inlet-feeder") == Current.of(30, "A")
    assert worked(job, current_needed, "inlet-feeder") == Current.of(30, "A")


def test_ratings(job_for: JobFor) -> None:
    job = job_for(HOUSE)
    assert worked(job, service_rating, "house") == Current.of(100, "A")
    assert worked(job, next_rating, "house") == Current.of(35, "A")
    assert "main" in not_stated(job_for(HOUSE.replace("; main 100 A", "")), service_rating, "house")
