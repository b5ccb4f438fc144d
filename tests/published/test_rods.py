"""What rods have against the soil, against a military handbook and the limits of physics. Sources stand beside each check."""

from collections.abc import Callable

import pytest

from planlint.facts.engine import Job
from planlint.facts.soil import rod_resistance
from planlint.plan import NotStated

PLAN = """building soil
  use other; soil-resistivity {soil}
electrode mil-rods
  type rod; building soil; length {length}; diameter 3/4 in; count {count}; spacing {spacing}
"""


def ohms(
    job_for: Callable[..., Job], soil: str = "100 ohm-m", length: str = "10 ft", count: int = 1, spacing: str = "20 ft"
) -> float:
    job = job_for(PLAN.format(soil=soil, length=length, count=count, spacing=spacing))
    return rod_resistance(job.graph.one("mil-rods"), job).within("ohm")


def test_one_rod_of_the_handbook(job_for: Callable[..., Job]) -> None:
    """Source: MIL-HDBK-419A volume II, 1.2.2.2: 10 ft of 3/4 in in 10,000 ohm-cm reads 32 ohm from its nomograph."""
    assert round(ohms(job_for)) == 32
    assert ohms(job_for) == pytest.approx(32.14, abs=0.005)
    assert ohms(job_for, soil="10000 ohm-cm") == pytest.approx(ohms(job_for))


def test_the_handbooks_group_of_26(job_for: Callable[..., Job]) -> None:
    """Source: the same page: 26 rods at 20 ft have 5.5 % of one, 1.76 ohm. Groups are not estimated: a measurement is asked."""
    assert round(ohms(job_for)) * 0.055 == pytest.approx(1.76)
    with pytest.raises(NotStated, match="as measured"):
        ohms(job_for, count=26)


def test_two_rods_far_apart_have_half_of_one(job_for: Callable[..., Job]) -> None:
    """Physics: resistances in parallel that don't know of each other. (A page that prints 2 pi in both terms fails this.)"""
    assert ohms(job_for, count=2, spacing="100000 ft") == pytest.approx(ohms(job_for) / 2, rel=1e-3)
    near, far = ohms(job_for, count=2, spacing="11 ft"), ohms(job_for, count=2, spacing="40 ft")
    assert ohms(job_for) / 2 < far < near < ohms(job_for)


def test_longer_rods_and_wetter_soil_have_less(job_for: Callable[..., Job]) -> None:
    """Physics: resistance goes with the soil's resistivity, and falls with the length in it."""
    assert ohms(job_for, soil="200 ohm-m") == pytest.approx(2 * ohms(job_for))
    assert ohms(job_for, length="20 ft") < ohms(job_for, length="10 ft") < ohms(job_for, length="8 ft")
