"""Disconnects of outbuildings: what counts as their rating, what they serve, and what they carry."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.disconnect_ratings import disconnect_rating, least_disconnect, load_from_outside
from planlint.facts.engine import Job
from planlint.facts.load import service_rating
from planlint.facts.load_checks import climate_load
from planlint.plan.elements import NotStated
from planlint.quantities import Current

JobFor = Callable[..., Job]
HOUSE = """complete service, feeders, circuits, receptacles, lights, loads
building cottage
  use one-family
building shed
  use shed
place hall
  building cottage
place shed-room
  building shed
supply utility
  type utility; volts 120/240 V
panel house-panel
  at hall; main 200 A
service drop
  from utility; to house-panel; owner customer
"""
FEEDER = """feeder shed-feeder
  from house-panel; to shed-gear
"""


def worked(job: Job, fact: Any) -> float:
    value = fact(job.graph.one("shed"), job)
    assert isinstance(value, Current)
    return value.within("A")


def not_stated(job: Job, fact: Any) -> str:
    with pytest.raises(NotStated) as gap:
        fact(job.graph.one("shed"), job)
    return str(gap.value)


@pytest.mark.parametrize(
    ("gear", "rating"),
    [
        ("panel shed-gear\n  at shed-room; main 60 A\n", 60),
        ("disconnect shed-gear\n  at shed-room; breaker 30 A\n", 30),
        ("disconnect shed-gear\n  at shed-room; switch-rating 60 A\n", 60),
        ("disconnect shed-gear\n  at shed-room; switch-rating 60 A; fuses 40 A\n", 60),  # the switch, not its fuses
        ("transfer-switch shed-gear\n  at shed-room; type manual; rating 100 A\n", 100),
    ],
)
def test_what_counts_as_the_rating(job_for: JobFor, gear: str, rating: float) -> None:
    assert worked(job_for(HOUSE + gear + FEEDER), disconnect_rating) == rating


@pytest.mark.parametrize(
    ("gear", "need"),
    [
        ("disconnect shed-gear\n  at shed-room; fuses 40 A\n", "shed-gear: switch-rating"),
        ("disconnect shed-gear\n  at shed-room\n", "shed-gear: breaker"),
        ("panel shed-gear\n  at shed-room; main lugs\n", "which disconnect shuts off shed"),
    ],
)
def test_a_rating_that_is_not_stated(job_for: JobFor, gear: str, need: str) -> None:
    assert need in not_stated(job_for(HOUSE + gear + FEEDER), disconnect_rating)


def test_what_stands_behind_the_first_disconnect_is_not_added(job_for: JobFor) -> None:
    behind = "panel inner\n  at shed-room; main 60 A\nfeeder inner-feeder\n  from shed-gear; to inner\n"
    job = job_for(HOUSE + "disconnect shed-gear\n  at shed-room; breaker 40 A\n" + FEEDER + behind)
    assert worked(job, disconnect_rating) == 40


def test_several_side_by_side_are_added(job_for: JobFor) -> None:
    """NFPA 70 225.39: the ratings of several switches or breakers may be combined."""
    second = "panel second\n  at shed-room; main 40 A\nfeeder second-feeder\n  from house-panel; to second\n"
    job = job_for(HOUSE + "panel shed-gear\n  at shed-room; main 60 A\n" + FEEDER + second)
    assert worked(job, disconnect_rating) == 100


def test_an_open_list_of_feeders_is_not_added_up(job_for: JobFor) -> None:
    job = job_for(HOUSE.replace("feeders, ", "") + "panel shed-gear\n  at shed-room; main 60 A\n" + FEEDER)
    assert "complete feeders" in not_stated(job, disconnect_rating)


def circuit(name: str, panel: str, more: str) -> str:
    lights = f"lights {name}-lights\n  at shed-room; circuit {name}; rating 60 W\n"
    return f"circuit {name}\n  panel {panel}; use general; {more}\n{lights}"


PANEL = "panel shed-gear\n  at shed-room; main 60 A\n" + FEEDER
SWITCH = "disconnect shed-switch\n  at shed-room; switch-rating 20 A\n"


@pytest.mark.parametrize(
    ("text", "least"),
    [
        (SWITCH + circuit("a", "house-panel", "poles 1"), 15),
        (SWITCH + circuit("a", "house-panel", "poles 2; neutral 12 AWG copper"), 15),  # one circuit, whatever its wires
        (SWITCH + circuit("a", "house-panel", "poles 1; shares-neutral-with b") + circuit("b", "house-panel", "poles 1"), 15),
        (SWITCH + circuit("a", "house-panel", "poles 1") + circuit("b", "house-panel", "poles 1"), 30),
        (PANEL + circuit("a", "shed-gear", "poles 1"), 30),  # a feeder: 225.39(A) is for a branch circuit
        (PANEL + circuit("a", "shed-gear", "poles 1") + circuit("b", "shed-gear", "poles 2; neutral none"), 30),
        (PANEL + circuit("a", "shed-gear", "poles 2; neutral 12 AWG copper"), 60),  # three wires
        (PANEL + circuit("a", "shed-gear", "poles 1; shares-neutral-with b") + circuit("b", "shed-gear", "poles 1"), 60),
        (PANEL + "".join(circuit(name, "shed-gear", "poles 1") for name in "abc"), 60),
        (PANEL, 60),
    ],
)
def test_the_least_by_what_it_serves(job_for: JobFor, text: str, least: float) -> None:
    assert worked(job_for(HOUSE + text), least_disconnect) == least


def test_what_goes_on_to_another_building_takes_it_out_of_the_small_cases(job_for: JobFor) -> None:
    text = HOUSE + PANEL + circuit("a", "shed-gear", "poles 1")
    sty = "building sty\n  use barn\nplace sty-room\n  building sty\npanel sty-panel\n  at sty-room; main lugs\n"
    on = "feeder sty-feeder\n  from shed-gear; to sty-panel\n" + circuit("b", "sty-panel", "poles 1").replace(
        "shed-room", "sty-room"
    )
    assert worked(job_for(text), least_disconnect) == 30
    assert worked(job_for(text + sty + on), least_disconnect) == 60


def test_a_dwelling_at_the_end_of_a_feeder(job_for: JobFor) -> None:
    assert worked(job_for(HOUSE.replace("use shed", "use one-family") + PANEL), least_disconnect) == 100


def test_the_wires_of_two_circuits_are_asked_for(job_for: JobFor) -> None:
    job = job_for(HOUSE + PANEL + circuit("a", "shed-gear", "poles 2"))
    assert "a: neutral" in not_stated(job, least_disconnect)


HEATER = "load {0}-heater\n  at shed-room; circuit {0}; type space-heat; rating 1.2 kW; volts 120 V\n"


def test_a_branch_circuit_carries_its_plates_at_its_own_voltage(job_for: JobFor) -> None:
    """1260 VA at 120 V are 10.5 A, not the 5.25 A that they would be at 240 V."""
    text = HOUSE + SWITCH + circuit("a", "house-panel", "poles 1") + HEATER.format("a")
    assert worked(job_for(text), load_from_outside) == pytest.approx(10.5)


def test_one_switch_has_a_pole_for_each_circuit_and_two_switches_add_up(job_for: JobFor) -> None:
    two = "".join(circuit(name, "house-panel", "poles 1") + HEATER.format(name) for name in "ab")
    assert worked(job_for(HOUSE + SWITCH + two), load_from_outside) == pytest.approx(10.5)
    second = SWITCH.replace("shed-switch", "second-switch")
    assert worked(job_for(HOUSE + SWITCH + second + two), load_from_outside) == pytest.approx(21)


def test_a_circuit_that_feeds_the_house_too_is_an_open_question(job_for: JobFor) -> None:
    text = HOUSE + SWITCH + circuit("a", "house-panel", "poles 1") + HEATER.format("a")
    job = job_for(text + "receptacles hall-receptacle\n  at hall; circuit a; serves general\n")
    assert "how much of what it carries is taken in shed" in not_stated(job, load_from_outside)


def test_a_feeder_carries_the_load_behind_it(job_for: JobFor) -> None:
    job = job_for(HOUSE + PANEL + circuit("a", "shed-gear", "poles 1") + HEATER.format("a"))
    assert worked(job, load_from_outside) == pytest.approx(1260 / 240)


def test_each_rating_is_asked_of_what_has_one(job_for: JobFor) -> None:
    """A building that a service ends at has no disconnect for a feeder; one that a feeder ends at has no service."""
    job = job_for(f"{HOUSE}panel shed-gear\n  at shed-room; main lugs\n{FEEDER}")
    for fact, name in ((disconnect_rating, "cottage"), (service_rating, "shed"), (climate_load, "shed")):
        with pytest.raises(NotStated) as gap:
            fact(job.graph.one(name), job)
        assert not any(need.arises for need in gap.value.needs)
