"""Voltage drop against published examples."""

from collections.abc import Callable

import pytest

from planlint.book.tables import Tables
from planlint.facts.drop import drop, longest_for_drop, size_for_drop
from planlint.facts.engine import Job
from planlint.trade import WireSize

JobFor = Callable[..., Job]


def heater(cable: str) -> str:
    return f"circuit heater\n  volts 120 V; cable {cable}/2 copper NM-B; length 140 ft; design-load 10 A\n"


def lost(job: Job, name: str) -> float:
    """Volts, from the step that has them."""
    with job.observing(job.graph.one(name)) as root:
        drop(job.graph.one(name), job)
    return float(root.uses[0].steps[0].value.removesuffix(" V"))


def test_a_small_wire_by_table_8(job_for: JobFor) -> None:
    """electrician2.com, page on Table 8: 16 AWG copper, 100 ft, 4 A: 0.998 ohm, 4.0 V (3.992), which of 24 V is 16.63 %.

    The page prints 16.7 %, from the volts that it has rounded before; that isn't reproduced.
    """
    job = job_for("circuit bell\n  volts 24 V; hot 2 x 16 AWG copper; length 100 ft; design-load 4 A\n")
    share = drop(job.graph.one("bell"), job).within("%")
    assert round(lost(job, "bell"), 1) == 4.0
    assert round(lost(job, "bell") / 4, 3) == 0.998
    assert share == pytest.approx(100 * 3.992 / 24)
    assert round(share, 1) != 16.7


@pytest.mark.parametrize(("size", "volts"), [("14", 8.79), ("12", 5.53), ("10", 3.48), ("8", 2.19)])
def test_a_heater_at_140_feet(job_for: JobFor, size: str, volts: float) -> None:
    """Electrical Wiring Residential, 19th edition, problem 36R of chapter 4 (bartleby's solution): K = 12.9 ohm per mil foot.

    Table 8 gives each size its own resistance, so the volts agree to 1 %. 2.19 V for 8 AWG is printed; the others follow from K.
    """
    job = job_for(heater(size))
    assert lost(job, "heater") == pytest.approx(volts, rel=0.01)


@pytest.mark.parametrize("size", ["14", "12", "10"])
def test_the_smallest_wire_for_the_heater(job_for: JobFor, size: str) -> None:
    """The same problem: 10 AWG is the smallest that keeps within 3 %."""
    job = job_for(heater(size))
    assert size_for_drop(job.graph.one("heater"), job) == WireSize("10", "copper")


def test_the_longest_run_is_the_one_that_loses_the_limit(job_for: JobFor) -> None:
    """Physics: at the longest length, in whole feet, no more than 3 % is lost, and a foot more loses more."""
    job = job_for(heater("12"))
    longest = longest_for_drop(job.graph.one("heater"), job).within("ft")
    for feet, within in ((longest, True), (longest + 1, False)):
        again = job_for(heater("12").replace("140 ft", f"{feet:g} ft"))
        assert (drop(again.graph.one("heater"), again).within("%") <= 3) is within


@pytest.mark.parametrize(("metal", "circular_mils", "size"), [("copper", 104_167, "1/0"), ("aluminum", 166_667, "3/0")])
def test_sizes_by_the_circular_mils_that_are_needed(metal: str, circular_mils: float, size: str) -> None:
    """Source: EPB energy library, voltage drop formulas, example 1 (the load behind the 104,167 is a picture there)."""
    tables = Tables()
    fitting = next(one for one in tables.sizes_up(metal) if tables.circular_mils(one) >= circular_mils)
    assert fitting.size == size
