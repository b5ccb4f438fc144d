"""The owner's load form against what is worked out: what shares one demand, what the form leaves out, what it may drop."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.demand import demand
from planlint.facts.engine import Job
from planlint.facts.load import service_rating
from planlint.facts.load_checks import (
    charger_counted,
    climate_counted,
    climate_counted_suffices,
    climate_load,
    counted_together,
    demand_together,
    form_amps,
    form_total_suffices,
    may_burn_gas,
    service_load,
    sharing_demand,
)
from planlint.plan.elements import NotStated
from planlint.quantities import Power

JobFor = Callable[..., Job]
KITCHEN = """complete loads
building house
  use one-family; load-method standard
place kitchen
  building house
building shop
  use workshop
place shop-room
  building shop
"""


def worked(job: Job, fact: Any, name: str) -> Any:
    return fact(job.graph.one(name), job)


def not_stated(job: Job, fact: Any, name: str) -> str:
    with pytest.raises(NotStated) as gap:
        worked(job, fact, name)
    return str(gap.value)


def load(name: str, more: str, at: str = "kitchen") -> str:
    return f"load {name}\n  at {at}; {more}\n"


def sharing(job: Job, name: str) -> set[str]:
    return {one.name for one in worked(job, sharing_demand, name).whole()}


def test_what_shares_a_demand(job_for: JobFor) -> None:
    """Cooking with cooking, dryers with dryers; not what counts by its plate, nor what stands in a workshop."""
    text = KITCHEN
    text += load("range", "type range; rating 12 kW") + load("oven", "type oven; rating 4 kW")
    text += load("hotplate", "type cooktop; rating 1.75 kW") + load("twins", "type oven; rating 1.5 kW; count 2")
    text += load("dryer", "type dryer; rating 5 kW") + load("second", "type dryer; rating 4 kW")
    text += load("shop-oven", "type oven; rating 4 kW", "shop-room")
    job = job_for(text)
    assert sharing(job, "range") == sharing(job, "oven") == {"range", "oven"}
    assert sharing(job, "dryer") == {"dryer", "second"}
    for alone in ("hotplate", "twins", "shop-oven"):
        assert sharing(job, alone) == {alone}
    assert worked(job, demand_together, "dryer") == Power.of(10, "kW")
    optional = job_for(text.replace("load-method standard", "load-method optional"))
    assert sharing(optional, "range") == {"range"}
    assert worked(optional, demand_together, "dryer") == Power.of(5, "kW")


def test_shares_come_to_what_counts_together(job_for: JobFor) -> None:
    text = (
        KITCHEN + load("range", "type range; rating 12 kW; counted 6 kW") + load("oven", "type oven; rating 4 kW; counted 5 kW")
    )
    job = job_for(text)
    together = worked(job, demand_together, "range")
    assert together == worked(job, demand, "range") + worked(job, demand, "oven")
    assert worked(job, counted_together, "range") == worked(job, counted_together, "oven") == Power.of(11, "kW")


def test_what_the_form_leaves_out_of_those_that_share(job_for: JobFor) -> None:
    text = KITCHEN + load("range", "type range; rating 12 kW; counted 6 kW") + load("oven", "type oven; rating 4 kW")
    assert not_stated(job_for(text), counted_together, "range") == "oven: counted"
    assert "complete loads" in not_stated(job_for(text.replace("complete loads\n", "")), counted_together, "range")


@pytest.mark.parametrize(("plate", "open_"), [("1.5 kW", True), ("1.51 kW", False), ("1.5 kW; count 2", True)])
def test_a_dryer_that_may_burn_gas(job_for: JobFor, plate: str, open_: bool) -> None:
    job = job_for(KITCHEN + load("dryer", f"type dryer; rating {plate}"))
    if open_:
        assert "whether it heats by gas" in not_stated(job, may_burn_gas, "dryer")
    else:
        assert not worked(job, may_burn_gas, "dryer")


def test_only_a_dryer_may_burn_gas(job_for: JobFor) -> None:
    assert not worked(job_for(KITCHEN + load("oven", "type oven; rating 0.1 kW")), may_burn_gas, "oven")


@pytest.mark.parametrize(
    ("chargers", "edition", "answer"),
    [
        ([], 2023, False),
        (["rating 7.2 kW"], 2023, True),
        (["rating 3.3 kW; counted 3.3 kW"], 2023, False),
        (["rating 3.3 kW; counted 3.3 kW"], 2020, True),
        (["rating 7.2 kW; counted 7.2 kW", "rating 9.6 kW; counted 7.2 kW"], 2020, False),
        (["rating 7.2 kW; count 0"], 2020, False),
    ],
)
def test_chargers_among_the_loads(job_for: JobFor, chargers: list[str], edition: int, answer: bool) -> None:
    """NFPA 70 220.57, new in 2023: 7200 VA at the least; before that the plate."""
    text = KITCHEN + "".join(load(f"charger-{n}", f"type car-charger; {plate}") for n, plate in enumerate(chargers))
    assert worked(job_for(text, edition=edition), charger_counted, "house") is answer


def test_chargers_that_may_be_missing(job_for: JobFor) -> None:
    text = KITCHEN.replace("complete loads\n", "")
    assert "complete loads" in not_stated(job_for(text), charger_counted, "house")
    assert not_stated(job_for(KITCHEN + load("charger", "type car-charger")), charger_counted, "house") == "charger: rating"
    short = load("charger", "type car-charger; rating 9.6 kW; counted 7 kW")
    assert not worked(job_for(text + short), charger_counted, "house")


HOUSE = """complete service, feeders, circuits, receptacles, lights, loads
building house
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


def test_services_of_two_supplies_are_an_open_question(job_for: JobFor) -> None:
    second = """supply other
  type utility; volts 120/240 V
panel second-panel
  at hall; main 100 A
service second-drop
  from other; to second-panel; owner customer
"""
    assert worked(job_for(HOUSE), service_load, "house").within("A") == pytest.approx(7500 / 240)
    assert "utility, other" in not_stated(job_for(HOUSE + second), service_load, "house")


def test_two_mains_of_one_supply_carry_the_house_together(job_for: JobFor) -> None:
    second = "panel second-panel\n  at hall; main 100 A\nservice second-drop\n  from utility; to second-panel; owner customer\n"
    assert worked(job_for(HOUSE + second), service_load, "house").within("A") == pytest.approx(7500 / 240)


HEATED = HOUSE + load("pump", "type heat-pump; planned yes; rating 2 kVA{}", "hall")
HEATED += load("strips", "type supplementary-heat; planned yes; rating 5 kW{}", "hall")
HEATED += load("cooling", "type air-conditioner; planned yes; rating 3 kVA{}", "hall")
HEATED += load("fan", "type furnace; planned yes; rating 600 W", "hall")


@pytest.mark.parametrize(
    ("counted", "answer"),
    [
        (("", "", ""), True),  # the plan says nothing of the form
        (("2 kVA", "3.25 kW", "0 VA"), True),
        (("2 kVA", "3.25 kW", ""), True),  # enough, whatever the rest is
        (("2 kVA", "3 kW", "0 VA"), False),
        (("2 kVA", "", "3 kVA"), None),
    ],
)
def test_what_the_form_counts_for_heating_and_cooling(job_for: JobFor, counted: tuple[str, ...], answer: bool | None) -> None:
    """Optional method, NFPA 70 220.82(C): 2,000 VA and 65 % of 5 kW, 5,250 VA; the cooling with the heat pump is 5,000 VA."""
    job = job_for(HEATED.format(*(f"; counted {each}" if each else "" for each in counted)))
    assert worked(job, climate_load, "house") == Power.of(5250, "VA")
    if answer is None:
        assert not_stated(job, climate_counted_suffices, "house") == "strips: counted"
    else:
        assert worked(job, climate_counted_suffices, "house") is answer


def test_heating_and_cooling_in_the_standard_method(job_for: JobFor) -> None:
    """NFPA 70 220.51, 220.60: heat pump and strips at their plates."""
    text = HEATED.format("", "", "").replace("load-method optional", "load-method standard")
    assert worked(job_for(text), climate_load, "house") == Power.of(7000, "VA")
    existing = text.replace("load-method standard", "load-method existing; construction existing")
    assert "how much of its load is heating or cooling" in not_stated(job_for(existing), climate_load, "house")


@pytest.mark.parametrize(("handed_in", "answer"), [("", True), ("7.5 kVA", True), ("7381 VA", True), ("7380 VA", False)])
def test_the_total_of_the_form(job_for: JobFor, handed_in: str, answer: bool) -> None:
    """NFPA 70 220.5(B): 7,500 VA at 240 V; half an ampere is 120 VA."""
    said = f"; load-handed-in {handed_in}" if handed_in else ""
    job = job_for(HOUSE.replace("load-method optional", "load-method optional" + said))
    assert worked(job, form_total_suffices, "house") is answer


def test_sources_beside_the_utility_take_nothing_off_the_load(job_for: JobFor) -> None:
    """NFPA 70 220.40: solar panels and a generator behind an interlock change neither the load nor the rating of the service."""
    others = """supply roof
  type solar; rating 7.6 kW; volts 120/240 V
feeder roof-feeder
  from roof; to main-panel; breaker 40 A
supply generator
  type generator; rating 7.2 kW; volts 120/240 V
transfer-switch interlock
  at hall; type interlock; panel main-panel
feeder inlet-feeder
  from generator; to interlock; breaker 30 A
"""
    job = job_for(HOUSE + others)
    assert worked(job, service_load, "house").within("A") == pytest.approx(7500 / 240)
    assert worked(job, service_rating, "house").within("A") == 100


def test_what_no_form_says_is_no_open_question(job_for: JobFor) -> None:
    """Without a form that is handed in there is nothing to wait for; with `unknown` there is."""
    job = job_for(HOUSE)
    assert "load form" in not_stated(job, form_amps, "house")
    assert "load form" in not_stated(job, climate_counted, "house")
    asked = job_for(HOUSE.replace("use one-family;", "use one-family; load-handed-in unknown;"))
    assert not_stated(asked, form_amps, "house") == "house: load-handed-in"
