"""A circuit to itself, wires of ranges and dryers, GFCI of receptacles, water heaters; solar panels and batteries on a bus."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.book import resolve
from planlint.checking import run_rule
from planlint.facts.appliances import gfci_protected, has_own_circuit, wires_suit
from planlint.facts.circuit_needs import circuit_large_enough, circuit_needed
from planlint.facts.engine import Job
from planlint.facts.other_sources import backfeeds, breakers_on_bus, bus_takes_sources, source_current
from planlint.plan.elements import NotStated
from planlint.quantities import Current
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
ALL = "complete loads, receptacles, lights\n"


def settled(job: Job, fact: Callable[[Any, Job], Any], name: str = "unit") -> Any:
    """The value, or what is missing."""
    try:
        return fact(job.graph.one(name), job)
    except NotStated as gap:
        return " ".join(need.note or f"{need.element.name}: {need.attribute or need.complete}" for need in gap.needs)


def answer(job: Job, rule: str, name: str = "unit") -> str:
    code = resolve((f"model-{job.edition}",))
    return run_rule(compile_rule(code.rules[rule], code), job.graph.one(name), job).answer


CAR = """circuit run
  breaker 50 A; protection none
load unit
  type car-charger; circuit run; amps 40 A; volts 240 V; connection cord
"""


@pytest.mark.parametrize(
    ("more", "own"),
    [
        ("", True),
        ("receptacles one\n  circuit run; serves car\n", True),
        ("receptacles one\n  circuit run; serves general\n", False),
        ("receptacles one\n  circuit run\n", "one: serves"),
        ("receptacles one\n  circuit run; count 2\n", False),
        ("receptacles one\n  circuit run\nreceptacles two\n  circuit run\n", False),
        ("lights lamp\n  circuit run\n", False),
        ("load heater\n  type space-heat; circuit run\n", False),
        ("load heater\n  type space-heat; circuit run; planned yes\n", True),
    ],
)
def test_a_circuit_to_itself(job_for: JobFor, more: str, own: bool) -> None:
    """NFPA 70 625.40, 422.12."""
    assert settled(job_for(ALL + CAR + more), has_own_circuit) == own


def test_a_circuit_to_itself_is_open_while_lists_are(job_for: JobFor) -> None:
    assert "complete" in settled(job_for(CAR), has_own_circuit) or "plan" in settled(job_for(CAR), has_own_circuit)
    assert settled(job_for(CAR + "lights lamp\n  circuit run\n"), has_own_circuit) is False


@pytest.mark.parametrize(
    ("more", "protected"),
    [
        ("", "unit: gfci-built-in"),
        ("receptacles one\n  circuit run; gfci yes\n", True),
        ("receptacles one\n  circuit run; gfci no\n", False),
        ("receptacles one\n  circuit run\n", "one: gfci"),
    ],
)
def test_a_gfci_in_the_charger_does_not_count(job_for: JobFor, more: str, protected: object) -> None:
    """NFPA 70 625.54 is about the receptacle."""
    assert settled(job_for(ALL + CAR.replace("cord", "cord; gfci yes") + more), gfci_protected) == protected
    by_breaker = CAR.replace("protection none", "protection gfci")
    assert settled(job_for(ALL + by_breaker + more), gfci_protected) is True


def test_protection_that_is_not_stated_leaves_a_receptacle_open(job_for: JobFor) -> None:
    text = "circuit run\n  breaker 20 A\nreceptacles unit\n  circuit run; gfci no\n"
    assert settled(job_for(text), gfci_protected) == "run: protection"
    assert settled(job_for(text.replace("gfci no", "gfci yes")), gfci_protected) is True


DRYER = "load unit\n  type dryer; circuit run; rating 5 kW; volts 240 V; connection cord\n"


@pytest.mark.parametrize(
    ("wires", "suit"),
    [
        ("cable 10/3 copper NM-B", True),
        ("cable 10/2 copper NM-B", False),
        ("cable SEU; hot 2 x 10 AWG copper; neutral 10 AWG copper; ground none", False),
        ("cable SEU; hot 2 x 10 AWG copper; neutral 10 AWG copper; ground none; existing yes", True),
        ("cable SEU; hot 2 x 10 AWG copper; neutral 12 AWG copper; ground none; existing yes", False),
        ("cable SEU; hot 2 x 8 AWG aluminum; neutral 8 AWG aluminum; ground none; existing yes", True),
        ("cable SEU; hot 2 x 10 AWG aluminum; neutral 10 AWG aluminum; ground none; existing yes", False),
        ("cable SEU; hot 2 x 10 AWG copper; neutral 10 AWG copper bare; ground none; existing yes", "run: panel"),
        ("cable SEU; hot 2 x 10 AWG copper; neutral none; ground 10 AWG copper; existing yes", False),
        ("hot 2 x 10 AWG copper THWN; raceway pipe", "run: neutral run: ground"),
    ],
)
def test_wires_of_a_dryer(job_for: JobFor, wires: str, suit: object) -> None:
    """NFPA 70 250.140 and its exception: two hots, neutral and ground; an old circuit keeps three with a large enough neutral."""
    pipe = "raceway pipe\n  type EMT; route inside\n"
    assert settled(job_for(f"{ALL}circuit run\n  breaker 30 A; poles 2; {wires}\n{DRYER}{pipe}"), wires_suit) == suit


@pytest.mark.parametrize(
    ("said", "breaker", "enough"),
    [
        ("tankless no", 20, False),
        ("tankless yes", 20, True),
        ("", 25, True),  # enough whatever it is
        ("", 20, "unit: tankless"),
        ("", 15, False),  # too little whatever it is
        ("tankless yes; continuous yes", 20, False),
    ],
)
def test_water_heaters(job_for: JobFor, said: str, breaker: int, enough: object) -> None:
    """NFPA 70 422.13: 18.75 A, with a tank at 125 %, 23.4 A."""
    load = f"load unit\n  type water-heater; circuit run; rating 4.5 kW; volts 240 V; {said}".rstrip("; ")
    job = job_for(f"{ALL}circuit run\n  breaker {breaker} A; poles 2\n{load}\n")
    assert settled(job, circuit_large_enough) == enough


def test_the_company_on_its_circuit_counts(job_for: JobFor) -> None:
    """Two heaters of 10 A want 25 A; one of them alone is too much for 12 A, whatever else is on the circuit."""
    heater = "load {}\n  type space-heat; circuit run; amps 10 A; volts 240 V; connection hard-wired\n"
    text = "circuit run\n  breaker 20 A; poles 2\n" + heater.format("unit") + heater.format("other")
    assert settled(job_for(ALL + text), circuit_needed) == Current.of(25, "A")
    assert settled(job_for(ALL + text), circuit_large_enough) is False
    one = "circuit run\n  breaker 9 A; poles 2\n" + heater.format("unit")
    assert settled(job_for(one), circuit_large_enough) is False
    assert settled(job_for(one.replace("9 A", "15 A")), circuit_large_enough) not in (True, False)


HOUSE = """complete service, feeders, circuits
supply utility
  type utility; volts 120/240 V
panel house-panel
  bus 200 A; main 200 A
service drop
  from utility; to house-panel; owner utility
"""
SUN = "supply sun\n  type solar; volts 120/240 V; rating 40 A\n"
JUDGE = "solar-or-battery-panel-overload"


def test_it_flows_back_through_a_subpanel(job_for: JobFor) -> None:
    """NFPA 70 705.12(B): every bus that carries it counts, so the house panel's too."""
    job = job_for(
        HOUSE
        + SUN
        + "panel unit\n  bus 125 A; main lugs\nfeeder down\n  from house-panel; to unit; breaker 100 A; bus-position other\n"
        "feeder sun-feeder\n  from sun; to unit; breaker 50 A; bus-position opposite-end\n"
    )
    assert [run.name for run in backfeeds(job.graph.one("house-panel"), job).whole()] == ["down"]
    assert [run.name for run in backfeeds(job.graph.one("unit"), job).whole()] == ["sun-feeder"]
    assert settled(job, source_current, "down") == settled(job, source_current, "sun-feeder") == Current.of(40, "A")
    assert settled(job, bus_takes_sources, "house-panel") is False  # 200 + 50 A at another place
    assert settled(job, bus_takes_sources) is True  # 100 + 50 A on 125 A, 150 A at the opposite end


def test_it_comes_through_a_switch(job_for: JobFor) -> None:
    text = "disconnect sun-switch\n  switch-rating 60 A\nfeeder a\n  from sun; to sun-switch\n"
    text += "feeder b\n  from sun-switch; to house-panel\n"
    job = job_for(HOUSE + SUN + text)
    assert [run.name for run in backfeeds(job.graph.one("house-panel"), job).whole()] == ["b"]
    assert settled(job, source_current, "b") == Current.of(40, "A")


def test_a_combiner_panel_adds_its_sources(job_for: JobFor) -> None:
    text = SUN + SUN.replace("sun", "battery-2").replace("solar", "battery") + "panel combiner\n  bus 125 A; main lugs\n"
    text += "feeder a\n  from sun; to combiner; breaker 50 A\nfeeder b\n  from battery-2; to combiner; breaker 50 A\n"
    text += "feeder c\n  from combiner; to house-panel; breaker 100 A\n"
    job = job_for(HOUSE + text)
    assert settled(job, source_current, "c") == Current.of(80, "A")
    assert settled(job, breakers_on_bus, "combiner") == Current.of(200, "A")


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("bus-position opposite-end", "met"),  # 200 + 125 % x 32 = 240 A
        ("bus-position other", "broken"),
        ("", "undecided"),
    ],
)
def test_where_it_joins(job_for: JobFor, said: str, expected: str) -> None:
    text = SUN.replace("40 A", "32 A") + f"feeder f\n  from sun; to house-panel; breaker 40 A; {said}".rstrip("; ")
    text += "\ncircuit rest\n  panel house-panel; breaker 200 A\n"
    assert answer(job_for(HOUSE + text), JUDGE, "house-panel") == expected


def test_where_it_joins_need_not_be_told_where_it_changes_nothing(job_for: JobFor) -> None:
    text = "feeder f\n  from sun; to house-panel; breaker 40 A\ncircuit rest\n  panel house-panel; breaker 200 A\n"
    small, large = HOUSE.replace("main 200 A", "main 100 A"), HOUSE
    assert answer(job_for(small + SUN + text), JUDGE, "house-panel") == "met"
    assert answer(job_for(large + SUN + text), JUDGE, "house-panel") == "broken"


def test_a_generator_behind_a_transfer_switch_does_not_count(job_for: JobFor) -> None:
    text = "supply gen\n  type generator; volts 120/240 V; rating 30 A; neutral floating\ntransfer-switch change\n  type manual\n"
    text += "feeder g\n  from gen; to change\nfeeder h\n  from house-panel; to change\npanel backup\n  bus 100 A\n"
    text += "feeder k\n  from change; to backup\n"
    job = job_for(HOUSE + text)
    for panel in ("house-panel", "backup"):
        assert answer(job, JUDGE, panel) == "not-applicable"


def test_a_battery_behind_a_transfer_switch_is_open(job_for: JobFor) -> None:
    text = "supply gen\n  type battery; volts 120/240 V; rating 30 A\ntransfer-switch change\n  type automatic\n"
    text += "feeder g\n  from gen; to change\nfeeder h\n  from house-panel; to change\npanel backup\n  bus 100 A\n"
    text += "feeder k\n  from change; to backup\n"
    assert answer(job_for(HOUSE + text), JUDGE, "house-panel") == "undecided"
    assert answer(job_for(HOUSE + text), JUDGE, "backup") == "undecided"
