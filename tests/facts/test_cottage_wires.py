"""Ampacity, breakers and grounds of the made-up cottage, against figures reckoned by hand with a pencil.

The hand used NFPA 70 Tables 310.16, 310.15(B)(1) and 250.122, and 240.4(D).
"""

from pathlib import Path
from typing import Any

import pytest

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.facts.ampacity import ampacity, ampacity_adjusted, neutral_ampacity
from planlint.facts.dwelling_supply import carries_whole_dwelling
from planlint.facts.engine import Job
from planlint.facts.equipment_ground import ground_needed, ground_needed_enlarged, is_enlarged
from planlint.facts.overcurrent import largest_breaker, smallest_hot, uses_reduction
from planlint.facts.wires import ground_size
from planlint.language import read_plan
from planlint.plan.graph import Graph
from planlint.quantities import Current
from planlint.trade import WireSize

ROOT = Path(__file__).parents[2]
TWENTY = (
    "kitchen-a",
    "kitchen-b",
    "laundry-circuit",
    "bathroom-circuit",
    "outdoor-circuit",
    "dishwasher-circuit",
    "studio-bench",
)
FIFTEEN = ("bedroom-circuit", "lights-circuit", "studio-lights-circuit")
CARRIES = {
    "meter-to-disconnect": 180, "house-feeder": 180, "studio-feeder": 100, "kiln-circuit": 65, "heat-pump-circuit": 35,
    "range-circuit": 55, "dryer-circuit": 30, "air-handler-circuit": 30, "well-circuit": 30,
    **dict.fromkeys(TWENTY, 20), **dict.fromkeys(FIFTEEN, 15),
}  # fmt: skip


@pytest.fixture(scope="module")
def cottage() -> Job:
    return Job(Graph(read_plan(ROOT / "fixtures" / "cottage.plan").elements), resolve(("model-2020",)), Tables())


def worked(job: Job, fact: Any, name: str) -> Any:
    return fact(job.graph.one(name), job)


@pytest.mark.parametrize(("run", "amperes"), CARRIES.items())
def test_what_each_run_carries(cottage: Job, run: str, amperes: float) -> None:
    assert worked(cottage, ampacity, run) == Current.of(amperes, "A")


@pytest.mark.parametrize(("run", "amperes"), [("studio-feeder", 110.4), ("kiln-circuit", 72)])
def test_after_the_heat_of_the_studio(cottage: Job, run: str, amperes: float) -> None:
    """95 F leaves 96 %: 115 x 0.96 and 75 x 0.96."""
    assert worked(cottage, ampacity_adjusted, run) == Current.of(amperes, "A")


def test_the_service_needs_no_reduction(cottage: Job) -> None:
    """200 A is the next standard size above 180 A."""
    for run in ("meter-to-disconnect", "house-feeder"):
        assert worked(cottage, largest_breaker, run) == Current.of(200, "A")
        assert worked(cottage, uses_reduction, run) is False
        assert worked(cottage, carries_whole_dwelling, run) is True
    assert worked(cottage, carries_whole_dwelling, "studio-feeder") is False


def test_the_neutral(cottage: Job) -> None:
    assert worked(cottage, neutral_ampacity, "house-feeder") == Current.of(135, "A")


def test_the_studio_feeder_is_not_enlarged(cottage: Job) -> None:
    """2 AWG aluminum (90 A) would not do behind 100 A."""
    assert worked(cottage, smallest_hot, "studio-feeder") == WireSize("1", "aluminum")
    assert worked(cottage, is_enlarged, "studio-feeder") is False


@pytest.mark.parametrize(
    ("run", "needed"),
    [("house-feeder", WireSize("4", "aluminum")), ("studio-feeder", WireSize("6", "aluminum")),
     ("kiln-circuit", WireSize("10", "copper")), ("dryer-circuit", WireSize("10", "copper"))],
)  # fmt: skip
def test_grounds(cottage: Job, run: str, needed: WireSize) -> None:
    assert worked(cottage, ground_needed, run) == needed


def test_the_wells_ground_is_as_large_as_its_hot_wires(cottage: Job) -> None:
    """20 A motor circuit on 10 AWG: enlarging can't ask for more than 10 AWG, which the cable has."""
    assert worked(cottage, ground_needed_enlarged, "well-circuit") == WireSize("10", "copper")
    assert worked(cottage, ground_size, "well-circuit") == WireSize("10", "copper")
