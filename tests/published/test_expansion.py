"""How PVC pipe grows, against Table 352.44, a maker's worked examples and the law of thermal expansion.

Sources: solar365.com, NEC 2008 352.44, page 3 (coefficient and rows); Carlon, Expansion Joints for PVC Rigid Nonmetallic Conduit,
page 4 (example 1, and "10 ft changes about 3/8 in with 100 F"), and the same maker's table of how far its fittings slide.
"""

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.book.csvfile import Row, read_rows
from planlint.facts.engine import Job
from planlint.facts.expansion import (
    expansion_fittings_needed,
    has_expansion_fitting,
    length_change,
    longest_straight,
    most_length_change,
)
from planlint.plan.elements import NotStated

JobFor = Callable[..., Job]
ROWS = read_rows((Path(__file__).parent / "data" / "pvc-expansion.csv").read_text("utf-8"), "pvc-expansion.csv")


def wall_pipe(length: str, swing: str, size: str = "1 in", type: str = "PVC-40", more: str = "bends none") -> str:
    return (
        f"complete raceways\nraceway pipe\n  type {type}; size {size}; length {length}; route above-grade; continues none\n"
        f"  temperature-swing {swing}; holds 3 x 10 AWG copper THWN-2; {more}\n"
    )


def grown(job: Job, name: str = "pipe") -> float:
    """Inches."""
    return float(length_change(job.graph.one(name), job).within("in"))


@pytest.mark.parametrize("row", [pytest.param(row, id=row["fahrenheit"]) for row in ROWS])
@pytest.mark.parametrize("type", ["PVC-40", "PVC-80"])
def test_every_row_of_the_table(job_for: JobFor, row: Row, type: str) -> None:
    """Table 352.44: inches in 100 ft, to the two places that it prints."""
    job = job_for(wall_pipe("100 ft", f"{row['fahrenheit']} F", type=type))
    assert grown(job) == pytest.approx(float(row["inches"]), abs=0.00501)


def test_a_run_of_ninety_feet(job_for: JobFor) -> None:
    """Carlon, example 1: from -10 F to 110 F, 90 ft: 3.38e-5 x 120 x 1080 in = 4.38 in; two fittings of 4 in, or one of 8 in."""
    for size, fittings in (("1-1/2 in", 2), ("2 in", 1)):
        job = job_for(wall_pipe("90 ft", "120 F", size))
        with job.observing(job.graph.one("pipe")) as root:
            assert round(grown(job), 2) == 4.38
        step = root.uses[0].steps[0]
        assert step.text == "0.0000338 x 1080 in x 120 F"
        assert step.source == "NFPA 70 Table 352.44(A)"
        assert expansion_fittings_needed(job.graph.one("pipe"), job) == fittings


def test_rules_of_thumb_of_a_maker(job_for: JobFor) -> None:
    """Carlon: 10 ft change by about 3/8 in with 100 F, 100 ft by more than 4 in."""
    assert grown(job_for(wall_pipe("10 ft", "100 F"))) == pytest.approx(3 / 8, abs=1 / 16)
    assert 4 < grown(job_for(wall_pipe("100 ft", "100 F"))) < 4.25


def test_a_run_in_the_sun(job_for: JobFor) -> None:
    """A maker's handbook (T&B, page E-517): 380 ft from 0 F to 140 F; by the row of 140 F, 5.68 in for 100 ft: 21.58 in."""
    job = job_for(wall_pipe("380 ft", "140 F"))
    assert grown(job) == pytest.approx(5.68 * 3.8, rel=0.001)
    assert expansion_fittings_needed(job.graph.one("pipe"), job) == 6


@pytest.mark.parametrize(
    ("type", "per_kelvin"), [("PVC-40", 6.084e-5), ("PVC-80", 6.084e-5), ("EMT", 11.7e-6), ("IMC", 11.7e-6), ("RMC", 11.7e-6)]
)
def test_the_law_in_metric_units(job_for: JobFor, type: str, per_kelvin: float) -> None:
    """Physics: length x coefficient x kelvins. 6.084e-5 is printed beside 3.38e-5, 1.170e-5 beside steel (note to 300.7(B))."""
    job = job_for(wall_pipe("30 m", "50 C", type=type))
    assert grown(job) * 25.4 == pytest.approx(30_000 * 50 * per_kelvin, rel=0.001)


@pytest.mark.parametrize(("feet", "change"), [(4, 0.195), (5, 0.243)])
def test_the_risers_of_the_cottage(job_for: JobFor, feet: int, change: float) -> None:
    """By hand: 4 ft x 12 x 3.38e-5 x 120 F = 0.195 in, 5 ft 0.243 in."""
    assert round(grown(job_for(wall_pipe(f"{feet} ft", "120 F"))), 3) == change


@pytest.mark.parametrize(("riser", "change"), [("meter-riser", 0.195), ("house-riser", 0.195), ("studio-riser", 0.243)])
def test_the_risers_in_the_plan_of_the_cottage(job_for: JobFor, riser: str, change: float) -> None:
    """The same figures from the plan itself; the studio's riser has an elbow, so its whole length bounds its straight part."""
    job = job_for((Path(__file__).parents[2] / "fixtures" / "cottage.plan").read_text("utf-8"), profile="tern-county")
    assert round(most_length_change(job.graph.one(riser), job).within("in"), 3) == change


def test_from_616_foot_degrees_on_a_quarter_inch(job_for: JobFor) -> None:
    """1/4 in / 3.38e-5 / 12 = 616 ft x F (an electricians' forum, thread on 352.44): at 80 to 30 F that is 12.3 ft."""
    assert grown(job_for(wall_pipe("12.3 ft", "50 F"))) < 0.25 < grown(job_for(wall_pipe("12.4 ft", "50 F")))


def test_only_straight_parts_grow_together(job_for: JobFor) -> None:
    """352.44: a straight run between what holds it fast, elbows among that."""
    job = job_for(wall_pipe("20 ft", "100 F", more="bends 90 deg; sections 8 ft, 11 ft"))
    pipe = job.graph.one("pipe")
    assert longest_straight(pipe, job).within("ft") == pytest.approx(11)
    assert most_length_change(pipe, job).within("in") == pytest.approx(3.38e-5 * 240 * 100)
    for more in ("bends 90 deg", "bends 90 deg; sections 8 ft"):
        job = job_for(wall_pipe("20 ft", "100 F", more=more))
        with pytest.raises(NotStated):
            length_change(job.graph.one("pipe"), job)


PIECES = """complete raceways
raceway low
  type PVC-40; size 1 in; length {first} ft; bends {bend}; route riser; continues high; temperature-swing 100 F
  holds 3 x 10 AWG copper THWN-2{sections}
raceway high
  type PVC-40; size 1 in; length {second} ft; bends none; route above-grade; continues none; temperature-swing 100 F
  expansion-fitting yes; holds 3 x 10 AWG copper THWN-2
"""


@pytest.mark.parametrize(
    ("bend", "sections", "low", "high"),
    [("none", "", 9, 9), ("90 deg", "; sections 3 ft, 1 ft", 6, 6), ("90 deg", "; sections 4 ft, 0 ft", 5, 5)],
)
def test_a_coupling_holds_nothing_fast(job_for: JobFor, bend: str, sections: str, low: float, high: float) -> None:
    """352.44: pieces that follow one another without an elbow are one straight run, and one fitting serves both."""
    job = job_for(PIECES.format(first=4, second=5, bend=bend, sections=sections))
    for name, feet in (("low", low), ("high", high)):
        assert longest_straight(job.graph.one(name), job).within("ft") == pytest.approx(feet)
        assert has_expansion_fitting(job.graph.one(name), job) is True


def test_what_is_left_out_stays_open(job_for: JobFor) -> None:
    with pytest.raises(NotStated, match="temperature-swing"):
        grown(job_for(wall_pipe("9 ft", "100 F").replace("temperature-swing 100 F; ", "")))
    with pytest.raises(NotStated, match="continues"):
        grown(job_for(wall_pipe("9 ft", "100 F").replace("; continues none", "")))


@settings(max_examples=25, deadline=None)
@given(feet=st.integers(1, 300), more=st.integers(0, 100), swing=st.integers(1, 150), hotter=st.integers(0, 50))
def test_longer_or_hotter_never_grows_less(job_for: JobFor, feet: int, more: int, swing: int, hotter: int) -> None:
    pipe = job_for(wall_pipe(f"{feet} ft", f"{swing} F"))
    larger = job_for(wall_pipe(f"{feet + more} ft", f"{swing + hotter} F"))
    assert grown(pipe) <= grown(larger) + 1e-9
    assert expansion_fittings_needed(pipe.graph.one("pipe"), pipe) <= expansion_fittings_needed(larger.graph.one("pipe"), larger)
