"""Figures of a rule book in inches and metric: `20 ft (6 m)`. The metric one counts against what a plan states in metric.

The model code prints both and rounds the second (NFPA 70 90.9(D), hard and soft conversion; from memory), so that 6 m, which are
19 ft 8 in, do for 20 ft.
"""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as some

from planlint.desk import Desk
from planlint.faults import Faults
from planlint.quantities import Length, Unreadable

PROFILE = """profile: place
title: A made-up place
based-on: model-2020
settings:
  footing-electrode-too-short-or-thin.least-length: {figure}
"""
PLAN = """plan "House"
  profile place
electrode bar
  type concrete-encased; bar 1/2 in; coated no; encasement 3 in; length {length}
"""


def found(tmp_path: Path, figure: str, length: str) -> set[str]:
    folder = tmp_path / "profiles"
    folder.mkdir(exist_ok=True)
    (folder / "place.yaml").write_text(PROFILE.format(figure=figure))
    plan = tmp_path / "house.plan"
    plan.write_text(PLAN.format(length=length))
    report = Desk([], [folder]).check_file(plan)
    assert report.not_checked == []
    return {finding.message for finding in report.findings if finding.rule == "footing-electrode-too-short-or-thin"}


@pytest.mark.parametrize(
    ("figure", "length", "broken"),
    [
        ("20 ft (6 m)", "6 m", False),
        ("20 ft (6 m)", "5.99 m", True),
        ("20 ft (6 m)", "20 ft", False),
        ("20 ft (6 m)", "19 ft 11 in", True),  # 6.07 m, but said in feet
        ("20 ft", "6 m", True),
        ("20 ft", "6.1 m", False),
    ],
)
def test_the_metric_figure_counts_where_the_plan_is_metric(tmp_path: Path, figure: str, length: str, broken: bool) -> None:
    said = found(tmp_path, figure, length)
    assert bool(said) is broken
    assert all(figure in message for message in said)


def test_sums_of_pairs_add_part_by_part() -> None:
    pair = Length.read_pair("18 in (450 mm)") + Length.read_pair("2 in (50 mm)")
    assert str(pair) == "20 in (500 mm)"
    assert Length.read("500 mm") >= pair
    assert not Length.read("499 mm") >= pair
    assert not Length.read("19.9 in") >= pair
    assert str(pair - Length.read("2 in")) == "18 in (449.2 mm)"
    assert str(pair * 2) == "40 in (1000 mm)"


def test_what_was_worked_out_is_held_against_the_inch_figure() -> None:
    pair = Length.read_pair("20 ft (6 m)")
    assert not Length.of(6, "m") >= pair
    assert Length.read("6 m") >= pair


@pytest.mark.parametrize(
    ("figure", "words"),
    [
        ("20 ft (6 m", "no closing bracket"),
        ("20 ft (20 ft)", "the inch figure comes first"),
        ("6 m (20 ft)", "the inch figure comes first"),
        ("20 ft (6 A)", "6 A"),
        ("20 ft (6)", "6"),
    ],
)
def test_what_is_no_pair_is_told_at_its_place(tmp_path: Path, figure: str, words: str) -> None:
    with pytest.raises(Faults) as wrong:
        found(tmp_path, figure, "6 m")
    assert words in wrong.value.faults[0].message
    assert wrong.value.faults[0].span.line == 5


def test_a_plan_states_one_figure() -> None:
    with pytest.raises(Unreadable):
        Length.read("20 ft (6 m)")


@given(some.floats(0.1, 500), some.floats(0.1, 500), some.floats(1, 20000))
def test_inches_never_see_the_metric_figure(inches: float, more: float, metric: float) -> None:
    """A law: against what is said in inches a pair is its inch figure."""
    pair = Length.read_pair(f"{inches:.3f} in ({metric:.1f} mm)")
    stated = Length.read(f"{more:.3f} in")
    plain = Length.read(f"{inches:.3f} in")
    assert (stated >= pair) == (stated >= plain)
    assert (pair <= stated) == (plain <= stated)
    assert (pair == stated) == (plain == stated)
