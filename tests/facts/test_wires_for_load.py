"""Wires against the load behind them, with what is left open and with the reduction for a dwelling's whole supply."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.engine import Job
from planlint.facts.wires_for_load import judged_by_reduction, wires_hold_load
from planlint.plan.elements import NotStated

JobFor = Callable[..., Job]
PLAN = """complete service, feeders, circuits, receptacles, lights, loads, raceways
building house
  use {use}; floor-area 1500 sq ft; load-method standard
place hall
  building house
supply utility
  type utility; volts 120/240 V
panel main-panel
  at hall; main {main}
service drop
  from utility; to main-panel; owner customer; cable SEU; touches-insulation no; {wires}
circuit heat-circuit
  panel main-panel; use appliance; poles 2; breaker 200 A
load heat
  at hall; type {type}; circuit heat-circuit; rating {watts} W; volts 240 V; continuous {long}
"""
GOOD = "ambient 86 F; terminals 75 C"


def answer(job_for: JobFor, fact: Any = wires_hold_load, **said: str) -> bool | None:
    words = {"use": "workshop", "main": "200 A", "type": "kiln", "long": "no", **said}
    job = job_for(PLAN.format(**words))
    try:
        return bool(fact(job.graph.one("drop"), job))
    except NotStated:
        return None


@pytest.mark.parametrize(
    ("wires", "watts", "long", "holds"),
    [
        # 2 AWG copper: 115 A at 75 C, 95 A at 60 C; by XHHW-2 130 A. 27.6 kW are 115 A, 22.08 kW at 125 %. Half: 120 VA.
        (f"hot 2 x 2 AWG copper XHHW-2; {GOOD}", "27600", "no", True),
        (f"hot 2 x 2 AWG copper XHHW-2; {GOOD}", "27720", "no", False),
        (f"hot 2 x 2 AWG copper XHHW-2; {GOOD}", "22080", "yes", True),
        (f"hot 2 x 2 AWG copper XHHW-2; {GOOD}", "22176", "yes", False),
        ("hot 2 x 2 AWG copper XHHW-2; ambient 86 F; terminals 60 C", "22920", "no", False),
        # Warm: 130 x 0.82 (122 F) = 106.6 A against the load without the 125 %
        ("hot 2 x 2 AWG copper XHHW-2; ambient 122 F; terminals 75 C", "22080", "yes", True),
        ("hot 2 x 2 AWG copper XHHW-2; ambient 122 F; terminals 75 C", "25710", "no", False),
        # Open, but one way or the other all the same
        ("hot 2 x 2 AWG copper XHHW-2; ambient 86 F; main unknown", "22800", "no", True),
        ("hot 2 x 2 AWG copper XHHW-2", "10000", "no", True),
        ("hot 2 x 2 AWG copper XHHW-2", "27600", "no", None),
        ("hot 2 x 2 AWG copper XHHW-2", "27720", "no", False),
        ("hot 2 x 1 AWG copper; terminals 75 C; ambient 86 F", "31000", "no", None),  # 130 A, or 110 A for a 60 C insulation
    ],
)
def test_against_the_load(job_for: JobFor, wires: str, watts: str, long: str, holds: bool | None) -> None:
    """NFPA 70 215.2(A), 230.42(A), Table 310.16."""
    assert answer(job_for, wires=wires.replace("; main unknown", ""), watts=watts, long=long) is holds


FOUR_OUGHT = f"hot 2 x 4/0 aluminum XHHW-2; {GOOD}"  # 180 A


@pytest.mark.parametrize(
    ("use", "wires", "main", "holds"),
    [
        ("one-family", FOUR_OUGHT, "200 A", True),
        ("one-family", FOUR_OUGHT.replace("4/0", "3/0"), "200 A", False),  # 155 A: less than 166 A
        ("workshop", FOUR_OUGHT, "200 A", True),  # 169 A: its wires carry it as they are
        ("two-family", FOUR_OUGHT, "200 A", False),
        ("one-family", FOUR_OUGHT, "225 A", False),  # 83 % of it are 187 A
    ],
)
def test_the_whole_supply_of_a_dwelling(job_for: JobFor, use: str, wires: str, main: str, holds: bool) -> None:
    """NFPA 70 310.12 (2017: 310.15(B)(7)): 83 % of 200 A are 166 A, whatever the load."""
    said = {
        "use": use,
        "wires": wires,
        "main": main,
        "type": "furnace",
        "watts": "40500",
    }  # 190 A in a dwelling, 169 A in a workshop
    assert answer(job_for, **said) is holds
    assert answer(job_for, judged_by_reduction, **said) is (holds and use == "one-family")


def test_a_workshop_has_no_reduction(job_for: JobFor) -> None:
    said = {"wires": FOUR_OUGHT, "watts": "48000"}
    assert answer(job_for, judged_by_reduction, **said) is False
    assert answer(job_for, judged_by_reduction, use="one-family", **said) is True
