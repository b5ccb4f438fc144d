"""Receptacles against their circuits, and neutrals that two circuits share: what the trade press and its forums say of 210.21
and 210.4. The source stands at each."""

from collections.abc import Callable

import pytest

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.facts.shared_neutral import opposite_legs
from planlint.quantities import Current
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]


def answer(job: Job, rule: str, name: str) -> str:
    code = resolve((f"model-{job.edition}",))
    return run_rule(compile_rule(code.rules[rule], code), job.graph.one(name), job).answer


def receptacles(job_for: JobFor, breaker: int, rating: int, more: str, edition: int = 2020) -> str:
    text = f"complete circuits, receptacles, lights, loads\ncircuit den\n  breaker {breaker} A\n"
    job = job_for(f"{text}receptacles here\n  circuit den; rating {rating} A; {more}\n", edition)
    return answer(job, "receptacle-rating-mismatch", "here")


@pytest.mark.parametrize(("circuit", "least", "most"), [(15, 15, 15), (20, 15, 20), (30, 30, 30), (40, 40, 50), (50, 50, 50)])
def test_the_table(circuit: int, least: int, most: int) -> None:
    """up.codes, Table 210.24, the summary of branch circuits: 15 at most; 15 or 20; 30; 40 or 50; 50."""
    found = Tables().receptacle_ratings(Current.of(circuit, "A"))
    assert [rating.within("A") for rating in found] == [least, most]


RATINGS = (15, 20, 30, 40, 50, 60)


@pytest.mark.parametrize(("breaker", "allowed"), [(15, {15}), (20, {15, 20}), (30, {30}), (40, {40, 50}), (50, {50}), (60, {60})])
@pytest.mark.parametrize("edition", [2017, 2020])
def test_several_on_one_circuit(job_for: JobFor, breaker: int, allowed: set[int], edition: int) -> None:
    """The same table; above 50 A at least the circuit's rating (examzify.com on 210.21(B)(3))."""
    met = {rating for rating in RATINGS if receptacles(job_for, breaker, rating, "count 3", edition) == "met"}
    assert met == allowed


@pytest.mark.parametrize("breaker", [15, 20, 30, 40, 50, 60])
def test_from_2023_on_only_the_least_counts(job_for: JobFor, breaker: int) -> None:
    """forums.mikeholt.com, a 20 A duplex on a 15 A circuit: in 2023 "not less than" took the place of "conform to"."""
    least = 15 if breaker == 20 else breaker
    met = {rating for rating in RATINGS if receptacles(job_for, breaker, rating, "count 3", 2023) == "met"}
    assert met == {rating for rating in RATINGS if rating >= least}


@pytest.mark.parametrize(
    ("breaker", "rating", "single", "expected"),
    [
        # forums.mikeholt.com, receptacle ratings 15 A and 20 A: a 15 A duplex may be on a 20 A circuit, a 15 A single may not;
        # a 20 A single may be on a 15 A circuit, a 20 A duplex may not.
        (20, 15, "no", "met"),
        (20, 15, "yes", "broken"),
        (15, 20, "yes", "met"),
        (15, 20, "no", "broken"),
        # The same, 20 amp single receptacle: one of 30 or 50 A alone on a 20 A circuit is allowed.
        (20, 20, "yes", "met"),
        (20, 30, "yes", "met"),
        (20, 50, "yes", "met"),
    ],
)
def test_one_alone_on_its_circuit(job_for: JobFor, breaker: int, rating: int, single: str, expected: str) -> None:
    assert receptacles(job_for, breaker, rating, f"single {single}") == expected


def test_the_receptacle_of_a_welder(job_for: JobFor) -> None:
    """210.21(B)(1) exception 2 as quizgecko.com prints it: one for an arc welder only may be smaller than its breaker.

    But not than the least ampacity of the welder's wires: the plate's current, or less with a short duty cycle (630.11(A)).
    """
    text = "complete circuits, receptacles, lights, loads\ncircuit den\n  breaker 70 A\n"
    text += "receptacles here\n  circuit den; rating 50 A; single yes\nload tool\n  type {}; circuit den; connection cord; {}\n"
    for tool, more, expected in (
        ("welder", "amps 50 A", "met"),
        ("welder", "amps 51 A", "undecided"),
        ("welder", "count 1", "undecided"),
        ("kiln", "amps 50 A", "broken"),
    ):
        assert answer(job_for(text.format(tool, more)), "receptacle-rating-mismatch", "here") == expected


@pytest.mark.parametrize(
    ("kilowatts", "rating", "expected"), [(12, 50, "met"), (12, 30, "broken"), (19, 50, "met"), (27, 50, "broken")]
)
def test_the_receptacle_of_a_range(job_for: JobFor, kilowatts: int, rating: int, expected: str) -> None:
    """210.21(B)(4), as passetra.com and examzify.com have it: it may be sized by the demand of one range in Table 220.55.

    8 kW up to 12 kW, 5 % more for each kilowatt beyond: 33.3 A; 19 kW 10.8 kW, 45 A; 27 kW 14 kW, 58.3 A at 240 V.
    """
    text = "complete circuits, receptacles, lights, loads\ncircuit den\n  breaker 60 A\n"
    text += f"receptacles here\n  circuit den; rating {rating} A; single yes\n"
    text += f"load range\n  type range; circuit den; connection cord; rating {kilowatts} kW; volts 240 V\n"
    assert answer(job_for(text), "receptacle-rating-mismatch", "here") == expected


TWO = """complete circuits
panel p
panel q
circuit den-a
  panel p; poles {poles}; space {first}; shares-neutral-with den-b; {tie}
circuit den-b
  panel {panel}; poles {poles}; space {second}
"""


@pytest.mark.parametrize(
    ("first", "second", "same_leg"),
    [
        ("1", "3", False),
        ("2", "4", False),
        ("1", "4", False),
        ("1", "2", True),
        ("1", "5", True),
        ("2", "6", True),
        ("3", "3", True),
    ],
)
def test_spaces_and_legs(job_for: JobFor, first: str, second: str, same_leg: bool) -> None:
    """callout.app on 210.4: adjacent slots of a panel are on different legs, and on one leg the neutral carries the sum.

    That 1 and 2 lie in one row is how panels are numbered by custom: common practice, no source.
    """
    job = job_for(TWO.format(poles=1, first=first, second=second, panel="p", tie="handle-tie yes"))
    assert opposite_legs(job.graph.one("den-a"), job) is not same_leg
    # no tie reaches across the panel, so there the rule has to ask
    expected = "undecided" if (first, second) == ("1", "4") else "met"
    assert answer(job, "shared-neutral-no-common-trip", "den-a") == ("broken" if same_leg else expected)


@pytest.mark.parametrize(
    ("poles", "tie", "expected"),
    [
        (1, "handle-tie yes", "met"),
        (1, "handle-tie no", "broken"),
        (2, "handle-tie unknown", "met"),
        (1, "handle-tie unknown", "undecided"),
    ],
)
def test_all_hot_wires_open_together(job_for: JobFor, poles: int, tie: str, expected: str) -> None:
    """ecmweb.com, disconnects of multiwire circuits: all at once; single-pole breakers with listed handle ties may do it."""
    spaces = ("1", "3") if poles == 1 else ("1, 3", "1, 3")
    job = job_for(TWO.format(poles=poles, first=spaces[0], second=spaces[1], panel="p", tie=tie))
    assert answer(job, "shared-neutral-no-common-trip", "den-a") == expected


def test_from_one_panel(job_for: JobFor) -> None:
    """jade1.com on 210.4(A): all its conductors come from the same panelboard."""
    job = job_for(TWO.format(poles=1, first="1", second="3", panel="q", tie="handle-tie yes"))
    assert answer(job, "shared-neutral-no-common-trip", "den-a") == "broken"
