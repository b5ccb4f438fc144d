"""The methods for a dwelling's load beside each other: existing dwellings, two dwellings, and plans that name no method."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.building_load import dwellings, existing_load, optional_load, own_load, standard_load
from planlint.facts.demand import demand
from planlint.facts.dwelling_supply import carries_whole_dwelling
from planlint.facts.engine import Job
from planlint.facts.load import least_load, load_amps, load_current, load_served, most_load, next_rating
from planlint.plan.elements import NotStated
from planlint.quantities import Current, Power

JobFor = Callable[..., Job]
HOUSE = """complete service, feeders, circuits, receptacles, lights, loads
building house
  use one-family; construction existing; floor-area 2000 sq ft; load-method existing
place hall
  building house
supply utility
  type utility; volts 120/240 V
panel main-panel
  at hall; main 100 A
service drop
  from utility; to main-panel; owner customer
load range
  at hall; planned yes; type range; rating 12 kW
load dryer
  at hall; planned yes; type dryer; rating 4 kW
"""
BASE = 6000 + 4500 + 12_000 + 4000  # 3 VA a square foot, three circuits, range and dryer at their plates


def house_load(job_for: JobFor, more: str, **changes: Any) -> float:
    job = job_for(HOUSE + more, **changes)
    return own_load(job.graph.one("house"), job).within("VA")


def load(name: str, words: str) -> str:
    return f"load {name}\n  at hall; {words}\n"


def not_stated(job: Job, fact: Any, name: str) -> str:
    with pytest.raises(NotStated) as gap:
        fact(job.graph.one(name), job)
    return str(gap.value)


OLD_HEAT = load("old-heat", "type furnace; rating 10 kW; existing yes")
OLD_COOLING = load("old-cooling", "type air-conditioner; rating 4 kW; existing yes")


@pytest.mark.parametrize(
    ("more", "counted"),
    [
        ("", 8000 + 0.4 * (BASE - 8000)),  # (A): nothing that heats or cools
        (OLD_HEAT + OLD_COOLING, 8000 + 0.4 * (BASE + 14_000 - 8000)),  # (A): both are appliances
        (load("charger", "type car-charger; rating 9.6 kW; planned yes"), 8000 + 0.4 * (BASE + 9600 - 8000)),
        # (B): the larger of the two whole
        (OLD_HEAT + load("new", "type air-conditioner; rating 4 kW; existing no"), 8000 + 0.4 * (BASE - 8000) + 10_000),
        (OLD_HEAT + load("new", "type air-conditioner; rating 12 kW; planned yes"), 8000 + 0.4 * (BASE - 8000) + 12_000),
        # (B): three separate heaters whole, four among the rest
        (load("new", "type baseboard-heat; rating 9 kW; units 3; existing no"), 8000 + 0.4 * (BASE - 8000) + 9000),
        (load("new", "type baseboard-heat; rating 9 kW; units 4; existing no"), 8000 + 0.4 * (BASE + 9000 - 8000)),
        # (B): a heat pump with its extra heat
        (
            load("new", "type heat-pump; rating 5 kW; existing no") + load("strips", "type supplementary-heat; rating 10 kW"),
            8000 + 0.4 * (BASE - 8000) + 15_000,
        ),
        # a furnace that burns gas is an appliance, whoever puts it in
        (load("furnace", "type furnace; rating 600 W; existing no"), 8000 + 0.4 * (BASE + 600 - 8000)),
    ],
)
def test_an_existing_dwelling(job_for: JobFor, more: str, counted: float) -> None:
    """NFPA 70 220.83(A) and (B), by hand."""
    assert house_load(job_for, more) == pytest.approx(counted)


def test_whether_heating_is_new_is_asked_for(job_for: JobFor) -> None:
    job = job_for(HOUSE + OLD_HEAT.replace("; existing yes", ""))
    assert not_stated(job, own_load, "house") == "old-heat: existing"
    job = job_for(HOUSE + OLD_HEAT.replace("; existing yes", "") + load("new", "type air-conditioner; rating 4 kW; planned yes"))
    assert own_load(job.graph.one("house"), job).within("VA") == pytest.approx(8000 + 0.4 * (BASE - 8000) + 10_000)


def test_the_small_existing_dwelling_counts_whole(job_for: JobFor) -> None:
    text = HOUSE.replace("2000 sq ft", "500 sq ft")
    text = text[: text.index("load range")]
    assert own_load(job_for(text).graph.one("house"), job_for(text)) == Power.of(6000, "VA")


def test_a_range_counts_its_plate_in_an_existing_dwelling(job_for: JobFor) -> None:
    job = job_for(HOUSE)
    assert demand(job.graph.one("range"), job) == Power.of(12_000, "VA")


@pytest.mark.parametrize("edition", [2017, 2020, 2023])
def test_without_a_method_all_are_shown_and_none_is_chosen(job_for: JobFor, edition: int) -> None:
    job = job_for(HOUSE.replace("; load-method existing", "") + OLD_HEAT, edition=edition)
    house = job.graph.one("house")
    assert not_stated(job, own_load, "house") == "house: load-method"
    with job.observing(house) as root, pytest.raises(NotStated):
        own_load(house, job)
    last = root.uses[0].steps[-1]
    assert last.text.endswith("the lowest is permitted, existing")
    for method in (standard_load, optional_load, existing_load):
        assert method(house, job).shown_in("VA").show() in last.text
    assert last.value == str(existing_load(house, job))
    assert existing_load(house, job) < optional_load(house, job) < standard_load(house, job)


def test_without_a_method_where_one_is_open_too(job_for: JobFor) -> None:
    """Heaters whose number isn't stated matter to one of two methods only: the method is asked for."""
    job = job_for(HOUSE.replace("; load-method existing", "") + load("heat", "type baseboard-heat; rating 9 kW"))
    assert not_stated(job, own_load, "house") == "house: load-method"
    job = job_for(HOUSE.replace("; load-method existing", "").replace("; floor-area 2000 sq ft", ""))
    assert not_stated(job, own_load, "house") == "house: load-method, house: floor-area"


TWIN = HOUSE.replace("one-family; construction existing", "two-family").replace("load-method existing", "load-method optional")
TWO = TWIN.replace("rating 12 kW", "rating 12 kW; count 2").replace("rating 4 kW", "rating 4 kW; count 2")
GAS = TWO[: TWO.index("load range")] + TWO[TWO.index("load dryer") :]  # 8 kW for each range that is not there
HEAT = load("heat", "type baseboard-heat; rating 6 kW; count 2; units 4")
# Of two: 3 VA a square foot, six circuits. Standard: the table of lighting, ranges 11 kW, dryers 5 kW each.
STANDARD = 3000 + 0.35 * (6000 + 9000 - 3000) + 11_000 + 10_000
CONNECTED = 6000 + 9000 + 24_000 + 8000


@pytest.mark.parametrize(
    ("text", "counted"),
    [
        (TWO + HEAT, min(STANDARD + 12_000, 0.45 * 1.5 * (CONNECTED + 12_000))),  # three alike are less
        (TWO, STANDARD),  # no electric heat: the standard method
        (TWIN + HEAT, 3000 + 0.35 * 12_000 + 8000 + 5000 + 12_000),  # one range in two dwellings: not alike
        (GAS + HEAT, min(3000 + 0.35 * 12_000 + 10_000 + 12_000, 0.45 * 1.5 * (CONNECTED - 24_000 + 16_000 + 12_000))),
    ],
)
def test_two_dwellings(job_for: JobFor, text: str, counted: float) -> None:
    """NFPA 70 220.85 and 220.84, by hand."""
    job = job_for(text)
    assert dwellings(job.graph.one("house"), job) == 2
    assert own_load(job.graph.one("house"), job).within("VA") == pytest.approx(counted)


def test_a_part_of_two_dwellings_is_open(job_for: JobFor) -> None:
    wing = "panel wing\n  at hall; main lugs\nfeeder to-wing\n  from main-panel; to wing\ncircuit a\n  panel wing; use general\n"
    other = "circuit b\n  panel main-panel; use general\n"
    job = job_for(TWO + wing + other)
    assert "which of its two dwellings" in not_stated(job, load_served, "wing")
    assert load_served(job.graph.one("main-panel"), job) == own_load(job.graph.one("house"), job)


def test_the_supply_of_two_dwellings_has_no_reduction(job_for: JobFor) -> None:
    """NFPA 70 310.12 is for one dwelling."""
    job = job_for(TWO)
    assert carries_whole_dwelling(job.graph.one("drop"), job) is False
    job = job_for(HOUSE)
    assert carries_whole_dwelling(job.graph.one("drop"), job) is True


def test_the_next_rating(job_for: JobFor) -> None:
    """NFPA 70 240.6(A): 15,400 VA are 64.2 A, and 70 A is the next standard rating."""
    job = job_for(HOUSE)
    assert load_amps(job.graph.one("house"), job).within("A") == pytest.approx((8000 + 0.4 * (BASE - 8000)) / 240)
    assert next_rating(job.graph.one("house"), job) == Current.of(70, "A")


FLAT = """complete service, feeders, circuits, receptacles, lights, loads
building house
  use one-family; floor-area 1000 sq ft; load-method standard
building flat
  use one-family; floor-area 500 sq ft; load-method optional
place hall
  building house
place flat-room
  building flat
supply utility
  type utility; volts 120/240 V
panel main-panel
  at hall; main 200 A
service drop
  from utility; to main-panel; owner customer
feeder flat-feeder
  from main-panel; to flat-panel; breaker 60 A; hot 2 x 6 AWG copper THWN-2; neutral 6 AWG copper THWN-2; terminals 75 C
panel flat-panel
  at flat-room; main 100 A
load flat-range
  at flat-room; planned yes; type range; rating 12 kW; volts 240 V
load flat-heat
  at flat-room; planned yes; type baseboard-heat; rating 5 kW; volts 240 V; units 4
"""


def test_the_optional_method_is_for_a_hundred_amperes_or_more(job_for: JobFor) -> None:
    """220.82(A): wires of 100 A or more. Behind 60 A the standard method: 1500 + 4500 VA, 3000 + 35 % x 3000, 8 kW, 5 kW."""
    small = job_for(FLAT)
    assert own_load(small.graph.one("flat"), small).within("VA") == pytest.approx(4050 + 8000 + 5000)
    large = job_for(FLAT.replace("breaker 60 A", "breaker 100 A"))
    assert own_load(large.graph.one("flat"), large).within("VA") == pytest.approx(10_000 + 0.4 * 8000 + 0.4 * 5000)
    thick = job_for(FLAT.replace("6 AWG", "1/0 AWG").replace("terminals 75 C", "terminals 75 C; ambient 86 F; cable SER"))
    assert own_load(thick.graph.one("flat"), thick).within("VA") == pytest.approx(10_000 + 0.4 * 8000 + 0.4 * 5000)
    assert "breaker" in not_stated(job_for(FLAT.replace("breaker 60 A; ", "")), own_load, "flat")


def test_a_feeder_of_sixty_amperes_is_not_cleared_by_the_optional_method(job_for: JobFor) -> None:
    """With 7 kW of heat, 19,050 VA and 79 A, not 16,000 VA and 67 A."""
    job = job_for(FLAT.replace("rating 5 kW", "rating 7 kW"))
    assert load_current(job.graph.one("flat-feeder"), job).within("A") == pytest.approx(19_050 / 240)


@pytest.mark.parametrize(
    ("heat", "least", "most"),
    [("20 kW", 27_400, 33_200), ("5 kW", 13_200 + 4450, 18_200), ("14 kW", 23_500, 27_200)],
)
def test_without_a_method_the_load_lies_between_those_of_the_methods(job_for: JobFor, heat: str, least: int, most: int) -> None:
    """1500 sq ft, a 12 kW range and one heater: 220.42 to 220.55, 220.82 and 220.83(B), worked by hand."""
    house = HOUSE.replace("construction existing; ", "").replace("2000", "1500").replace("; load-method existing", "")
    plan = house[: house.index("load dryer")] + load("heat", f"type baseboard-heat; rating {heat}; planned yes; units 1")
    job = job_for(plan)
    home = job.graph.one("house")
    assert least_load(home, job).within("VA") == pytest.approx(least)
    assert most_load(home, job).within("VA") == pytest.approx(most)
    new = job_for(plan.replace("use one-family", "use one-family; construction new"))
    assert most_load(new.graph.one("house"), new).within("VA") == pytest.approx(most - 100)  # the standard one
