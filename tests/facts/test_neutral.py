"""The load of neutrals in cases that the published examples don't have, and what a plan leaves out."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.engine import Job
from planlint.facts.neutral import neutral_carries_load, neutral_load, own_neutral_load
from planlint.plan.elements import NotStated
from planlint.quantities import Current, Power

JobFor = Callable[..., Job]
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
LIGHTING = 3000 + 0.35 * 4500  # 3 VA a square foot and three circuits, by their table
SHOP = HOUSE.replace("one-family", "workshop")


def worked(job: Job, fact: Any, name: str) -> Any:
    return fact(job.graph.one(name), job)


def not_stated(job: Job, fact: Any, name: str) -> str:
    with pytest.raises(NotStated) as gap:
        worked(job, fact, name)
    return str(gap.value)


def load(name: str, words: str) -> str:
    circuit = f"circuit {name}-circuit\n  panel main-panel; use appliance; poles 2\n"
    return f"{circuit}load {name}\n  at hall; circuit {name}-circuit; {words}\n"


HEAT = load("heat", "type space-heat; rating 1.5 kW; volts 120 V")
FOUR = "".join(load(f"disposal-{number}", "type disposal; rating 800 W; volts 120 V") for number in range(4))


@pytest.mark.parametrize(
    ("loads", "more"),
    [
        ("", 0),
        (load("heater", "type water-heater; rating 4.5 kW; volts 240 V"), 0),
        (load("washer", "type dishwasher; rating 1.2 kW; volts 120 V"), 1200),
        (load("range", "type range; rating 12 kW"), 0.7 * 8000),  # 70 % of the table's demand
        (load("dryer", "type dryer; rating 4 kW"), 0.7 * 5000),  # 5 kW at the least
        (load("disposal", "type disposal; rating 800 W; volts 120 V"), 1.25 * 800),  # the largest motor
        (FOUR, 0.75 * 3200 + 0.25 * 800),  # four fastened appliances count 75 %
        (load("furnace", "type furnace; rating 600 W; volts 120 V; connection hard-wired"), 600),
        # heating and cooling never at once; the plate's 115 V are 120 V
        (load("cooler", "type air-conditioner; amps 10 A; volts 115 V") + HEAT, 1500),
        (load("cooler", "type air-conditioner; amps 12 A; volts 115 V") + HEAT, 1.25 * 12 * 115),  # more with its motor's quarter
        (load("tub", "type hot-tub; rating 6 kW; volts 240 V").replace("poles 2", "poles 2; neutral none"), 0),
        (load("tub", "type hot-tub; rating 6 kW; volts 240 V").replace("poles 2", "poles 2; cable 6/3 copper NM-B"), 6000),
    ],
)  # fmt: skip
def test_what_an_appliance_puts_on_a_dwellings_neutral(job_for: JobFor, loads: str, more: float) -> None:
    """NFPA 70 220.61, by hand."""
    job = job_for(HOUSE + loads)
    assert worked(job, own_neutral_load, "house").within("VA") == pytest.approx(LIGHTING + more)
    assert worked(job, neutral_load, "drop").within("A") == pytest.approx((LIGHTING + more) / 240)


def test_a_workshop(job_for: JobFor) -> None:
    """Receptacles at 180 VA, lights by their power, plates from hot to neutral; a kiln from hot to hot puts nothing on it."""
    text = (
        SHOP + load("kiln", "type kiln; rating 11.52 kW; volts 240 V") + load("saw", "type motor; horsepower 1 hp; volts 120 V")
    )
    text += (
        "circuit bench\n  panel main-panel; use general\nreceptacles outlets\n  at hall; circuit bench; count 6; serves general\n"
    )
    text += "lights lamps\n  at hall; circuit bench; count 8; rating 15 W\n"
    job = job_for(text)
    assert worked(job, own_neutral_load, "house") == Power.of(16 * 120 * 1.25 + 6 * 180 + 8 * 15, "VA")


@pytest.mark.parametrize(("power", "amperes"), [("48 kW", 200), ("72 kW", 200 + 0.7 * 100)])
def test_beyond_200_amperes(job_for: JobFor, power: str, amperes: float) -> None:
    """NFPA 70 220.61(B)(2)."""
    job = job_for(SHOP + load("lamps", f"type other; rating {power}; volts 120 V"))
    assert worked(job, neutral_load, "drop").within("A") == pytest.approx(amperes)


@pytest.mark.parametrize(
    ("text", "need"),
    [
        (HOUSE + load("thing", "type dishwasher; rating 1 kW"), "thing: volts"),
        (HOUSE + load("thing", "type hot-tub; rating 1 kW; volts 240 V"), "thing-circuit: neutral"),
        (HOUSE.replace("120/240 V", "120/208 V"), "120/240 V only"),
        (HOUSE.replace("120/240 V", "240 V"), "120/240 V only"),
        (HOUSE.replace("type utility", "type generator; rating 10 kW; neutral floating"), "utility's power only"),
        (HOUSE.replace("use one-family; ", ""), "house: use"),
    ],
)
def test_what_is_not_worked_out(job_for: JobFor, text: str, need: str) -> None:
    job = job_for(text)
    assert need in not_stated(job, neutral_load, "drop")


def test_the_neutral_of_a_part_of_a_house(job_for: JobFor) -> None:
    text = HOUSE + "panel wing\n  at hall; main lugs\nfeeder wing-feeder\n  from main-panel; to wing\n"
    text += load("range", "type range; rating 12 kW").replace("main-panel", "wing")
    text += "circuit other\n  panel main-panel; use small-appliance\n"
    job = job_for(text)
    assert worked(job, neutral_load, "wing-feeder") == Current.of(5600 / 240, "A")


@pytest.mark.parametrize(
    ("neutral", "terminals", "carries"),
    [
        ("8 AWG copper XHHW-2", "75 C", True),  # 50 A
        ("8 AWG copper XHHW-2", "60 C", False),  # 40 A
        ("8 AWG copper XHHW-2", "", None),
        ("6 AWG copper XHHW-2", "", True),  # 55 A whatever the terminals
        ("10 AWG copper XHHW-2", "", False),  # 35 A at the most
        ("6 AWG aluminum XHHW-2", "75 C", True),
        ("8 AWG aluminum XHHW-2", "75 C", False),
    ],
)
def test_ampacity_against_the_load(job_for: JobFor, neutral: str, terminals: str, carries: bool | None) -> None:
    """12 kW from hot to neutral: 50 A. NFPA 70 Table 310.16."""
    text = SHOP + load("lamps", "type other; rating 12 kW; volts 120 V")
    marked = f"; terminals {terminals}" if terminals else ""
    text = text.replace("owner customer", f"owner customer; cable SEU; hot 2 x 2 AWG copper XHHW-2; neutral {neutral}{marked}")
    text = text.replace("cable SEU", "cable SEU; touches-insulation no; ambient 86 F")
    job = job_for(text)
    if carries is None:
        with pytest.raises(NotStated):
            worked(job, neutral_carries_load, "drop")
    else:
        assert worked(job, neutral_carries_load, "drop") is carries
