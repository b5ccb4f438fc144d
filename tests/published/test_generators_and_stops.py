"""Generators, solar panels, batteries, stables: what is asked by edition, held against the trade press, forums and Annex D.

Each check names where its clause or figure was seen. Inputs that the source leaves out are made up and don't bear on the answer.
"""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.book import resolve
from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.facts.generators import has_enough_power, load_taken_over, neutral_wanted
from planlint.quantities import Current
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
EDITIONS = (2017, 2020, 2023)

PLACES = """building house
  use one-family
building shop
  use workshop
place yard
  outdoors yes
place sunroom
  building house; finished yes
"""


def answer(job: Job, rule: str, name: str = "unit") -> str:
    code = resolve((f"model-{job.edition}",))
    return run_rule(compile_rule(code.rules[rule], code), job.graph.one(name), job).answer


def worked(job: Job, fact: Callable[[Any, Job], Any], name: str = "unit") -> Any:
    return fact(job.graph.one(name), job)


STANDBY = """complete service, feeders
supply utility
  type utility
supply unit
  type generator; connection {connection}; neutral {neutral}
transfer-switch switch
  type manual; switches-neutral {switched}
service drop
  from utility; to switch; owner utility
feeder run
  from unit; to switch; cable 10/3 copper UF-B
"""


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("connection", ["inlet", "hard-wired"])
@pytest.mark.parametrize(
    ("switched", "neutral", "expected"),
    [
        # forums.mikeholt.com, thread 6073: (A) a switched neutral and a bonded generator, or (B) neither;
        ("yes", "bonded", "met"),
        ("no", "floating", "met"),
        # a bonded generator on a switch of the hot wires only is a violation. Puzzle solution of a wholesaler (rexelusa.com,
        # vol. 3 no. 3): with three-pole switches a bond at the generator would be one,
        ("no", "bonded", "broken"),
        # and with four-pole switches "this generator is missing that neutral-ground bond".
        ("yes", "floating", "broken"),
    ],
)
def test_neutrals_of_generators(
    job_for: JobFor, edition: int, connection: str, switched: str, neutral: str, expected: str
) -> None:
    job = job_for(STANDBY.format(connection=connection, neutral=neutral, switched=switched), edition)
    assert answer(job, "generator-neutral-mismatch") == expected
    assert worked(job, neutral_wanted) == ("bonded" if switched == "yes" else "floating")


WHOLE_HOUSE = """complete service, feeders, circuits, receptacles, lights, loads
building house
  use one-family; floor-area 1500 sq ft; load-method standard
place kitchen
  building house; use kitchen
supply utility
  type utility; volts 120/240 V
supply unit
  type generator; volts 120/240 V; connection hard-wired; rating {rating}
transfer-switch switch
  at kitchen; type {switch}
panel main-panel
  at kitchen
service drop
  from utility; to switch; owner customer
feeder standby
  from unit; to switch
feeder onward
  from switch; to main-panel
circuit kitchen-a
  panel main-panel; use small-appliance
circuit kitchen-b
  panel main-panel; use small-appliance
circuit washer
  panel main-panel; use laundry
circuit range-circuit
  panel main-panel; use appliance
load range
  at kitchen; circuit range-circuit; type range; rating 12 kW
circuit dryer-circuit
  panel main-panel; use appliance
load dryer
  at kitchen; circuit dryer-circuit; type dryer; rating 5.5 kW
"""


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("switch", "rating", "expected"),
    [
        ("automatic; sheds-load no", "18.6 kW", "met"),
        ("automatic; sheds-load no", "77.5 A", "met"),
        ("automatic; sheds-load no", "18.5 kW", "broken"),
        ("automatic; sheds-load no", "77 A", "broken"),
        ("automatic; sheds-load yes", "8 kW", "met"),
        ("manual", "8 kW", "met"),
    ],
)
def test_power_behind_an_automatic_switch(job_for: JobFor, edition: int, switch: str, rating: str, expected: str) -> None:
    """Load: Annex D, example D1(a), 18,600 VA, 77.5 A. 702.4(B)(2) as electrical-contractor.net (post 191312) quotes it.

    (a) the source carries the full load that the automatic equipment transfers, or (b) a system holds down what is connected. By
    hand the user selects what it carries (702.4(B)(1)).
    """
    job = job_for(WHOLE_HOUSE.format(switch=switch, rating=rating), edition)
    assert answer(job, "generator-without-transfer") == expected
    if "sheds-load no" in switch:
        assert worked(job, load_taken_over) == Current.of(77.5, "A")
        assert worked(job, has_enough_power) is (expected == "met")


def test_power_meets_power_at_a_switch_only(job_for: JobFor) -> None:
    """702.5, ecmweb.com, Code Forum (1999), and mikeholt.com on 702.6 of 2005: transfer equipment for fixed and portable sets."""
    text = """complete service, feeders
supply utility
  type utility
supply unit
  type generator; connection inlet
panel main-panel
service drop
  from utility; to main-panel; owner utility
feeder run
  from unit; to main-panel
"""
    assert answer(job_for(text), "generator-without-transfer") == "broken"
    plate = "transfer-switch plate\n  type interlock; panel main-panel\n"
    assert answer(job_for(text + plate), "generator-without-transfer") == "met"
    assert answer(job_for(text.replace("inlet", "cords-only")), "generator-without-transfer") == "not-applicable"


STOP = "supply unit\n  type {}; connection {}; shutdown-at {}\n"


@pytest.mark.parametrize("edition", (2020, 2023))
def test_stops_of_generators(job_for: JobFor, edition: int) -> None:
    """ecmweb.com, Code Q&A on dwelling standby generators: outside the dwelling, other than portable sets with cord and plug."""
    rule = "generator-stop-not-outside"
    assert answer(job_for(PLACES + STOP.format("generator", "hard-wired", "yard"), edition), rule) == "met"
    assert answer(job_for(PLACES + STOP.format("generator", "hard-wired", "sunroom"), edition), rule) == "broken"
    assert answer(job_for(PLACES + STOP.format("generator", "inlet", "sunroom"), edition), rule) == "not-applicable"


def test_stops_came_with_2020(job_for: JobFor) -> None:
    """electricallicenserenewal.com, change summaries: dwellings' generators from 2020 on, 445.18(D); in 2023 moved to 445.19.

    The part, 445.19(C), as an EC&M article on generators has it; batteries at courses.mayfield.energy (706.15(B) of 2023).
    """
    rules = {edition: resolve((f"model-{edition}",)).rules for edition in EDITIONS}
    clauses = {edition: {name: rule.record.clause[edition] for name, rule in rules[edition].items()} for edition in (2020, 2023)}
    assert "generator-stop-not-outside" not in rules[2017]
    assert "battery-emergency-stop-missing" not in rules[2017]
    assert clauses[2020]["generator-stop-not-outside"] == "445.18(D)"
    assert clauses[2023]["generator-stop-not-outside"] == "445.19(C)"
    assert clauses[2023]["battery-emergency-stop-missing"] == "706.15(B)"


@pytest.mark.parametrize("edition", (2020, 2023))
def test_stops_of_batteries(job_for: JobFor, edition: int) -> None:
    """blog.heatspring.com on 706.15: at one- and two-family dwellings outside the house, as a disconnect or as a function."""
    rule = "battery-emergency-stop-missing"
    assert answer(job_for(f"{PLACES}supply unit\n  type battery; shutdown-at yard\n", edition), rule) == "met"
    assert answer(job_for(f"{PLACES}supply unit\n  type battery; shutdown-at sunroom\n", edition), rule) == "broken"


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("more", "expected"),
    [
        # mayfield.energy and nacleanenergy.com on 690.12: circuits on or in buildings; the switch's place (C) from memory.
        ("building house; rapid-shutdown yes; shutdown-at yard", "met"),
        ("building house; rapid-shutdown no; shutdown-at yard", "broken"),
        ("building shop; rapid-shutdown no; shutdown-at yard", "broken"),
        ("building house; rapid-shutdown yes; shutdown-at sunroom", "broken"),
        # the same, and iecrm.org (April 2021): none for what stands by itself and keeps its circuits out of buildings.
        ("building none; rapid-shutdown no", "not-applicable"),
    ],
)
def test_rapid_shutdown(job_for: JobFor, edition: int, more: str, expected: str) -> None:
    job = job_for(f"{PLACES}supply unit\n  type solar; {more}\n", edition)
    assert answer(job, "solar-rapid-shutdown-missing") == expected


@pytest.mark.parametrize("edition", EDITIONS)
def test_stables(job_for: JobFor, edition: int) -> None:
    """thenecwiki.com on 547.1: animals' excrement, washing; electricianexampractice.com: not for machines only."""
    text = """complete service, feeders, circuits, receptacles
building unit
  use barn; animals-or-washdown {}
place inside
  building unit
panel barn-panel
  at inside
building house
  use one-family
place hall
  building house
panel house-panel
  at hall
feeder run
  from house-panel; to barn-panel
"""
    assert answer(job_for(text.format("yes"), edition), "livestock-or-wet-barn-not-flagged") == "broken"
    assert answer(job_for(text.format("no"), edition), "livestock-or-wet-barn-not-flagged") == "met"
