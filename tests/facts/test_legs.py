"""The two legs of a panel, by the spaces of its breakers."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.engine import Job
from planlint.facts.legs import leg, leg_a_load, leg_b_load, leg_imbalance
from planlint.plan.elements import NotStated
from planlint.quantities import Current

JobFor = Callable[..., Job]
PANEL = """complete service, feeders, circuits, receptacles, lights, loads
building studio
  use workshop
place room
  building studio
supply utility
  type utility; volts 120/240 V
panel main-panel
  at room; main 100 A
service drop
  from utility; to main-panel; owner customer
"""


def worked(job: Job, fact: Any, name: str) -> Any:
    return fact(job.graph.one(name), job)


def circuit(name: str, space: str, watts: int = 0, panel: str = "main-panel") -> str:
    poles = space.count(",") + 1
    text = f"circuit {name}\n  panel {panel}; use appliance; poles {poles}; space {space}\n"
    if watts:
        text += f"load {name}-load\n  at room; type other; circuit {name}; rating {watts} W; volts {120 * poles} V\n"
    return text


@pytest.mark.parametrize(
    ("space", "on"),
    [("1", "a"), ("2", "a"), ("3", "b"), ("4", "b"), ("5", "a"), ("6", "a"), ("39", "b"), ("42", "a"), ("1, 3", "both"),
     ("2, 4", "both")],
)  # fmt: skip
def test_spaces_take_turns_row_by_row(job_for: JobFor, space: str, on: str) -> None:
    job = job_for(PANEL + circuit("one", space))
    assert worked(job, leg, "one") == on


def test_by_hand(job_for: JobFor) -> None:
    """10 A and 5 A on A, 8 A on B, 20 A on both; a bench of four receptacles at 180 VA, 6 A, on B."""
    text = (
        PANEL + circuit("one", "1", 1200) + circuit("two", "6", 600) + circuit("three", "4", 960) + circuit("four", "7, 9", 4800)
    )
    text += "circuit bench\n  panel main-panel; use general; poles 1; space 3\n"
    text += "receptacles outlets\n  at room; circuit bench; count 4; serves general\n"
    job = job_for(text)
    assert worked(job, leg_a_load, "main-panel") == Current.of(35, "A")
    assert worked(job, leg_b_load, "main-panel") == Current.of(34, "A")
    assert worked(job, leg_imbalance, "main-panel") == Current.of(1, "A")


def test_a_panel_behind_it_counts_by_its_own_spaces(job_for: JobFor) -> None:
    text = (
        PANEL + circuit("one", "1", 1200) + "panel wing\n  at room; main lugs\nfeeder wing-feeder\n  from main-panel; to wing\n"
    )
    job = job_for(text + circuit("two", "3", 2400, panel="wing"))
    assert worked(job, leg_a_load, "main-panel") == Current.of(10, "A")
    assert worked(job, leg_b_load, "main-panel") == Current.of(20, "A")
    assert worked(job, leg_imbalance, "main-panel") == Current.of(10, "A")


@pytest.mark.parametrize(
    ("before", "after", "need"),
    [("; space 1\n", "\n", "one: space"), ("space 1\n", "space 1, 3\n", "one: space"), ("poles 1; ", "", "one: poles"),
     ("; volts 120 V", "", "one-load: volts"), (" circuits,", "", "complete circuits")],
)  # fmt: skip
def test_what_is_not_stated(job_for: JobFor, before: str, after: str, need: str) -> None:
    job = job_for((PANEL + circuit("one", "1", 1200)).replace(before, after))
    with pytest.raises(NotStated) as gap:
        worked(job, leg_imbalance, "main-panel")
    assert need in str(gap.value)
