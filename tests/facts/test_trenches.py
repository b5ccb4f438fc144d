"""Ditches as a whole, reckoned by hand, and their laws: more cover, more pipe, more layers, never a shallower ditch."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.book.tables import Tables
from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.facts.trenches import least_depth, pipes_side_by_side, separation_needed, trench_depth, trench_width
from planlint.plan.elements import NotStated
from planlint.rulebook import compile_rule
from planlint.trade import TradeSize

JobFor = Callable[..., Job]
COTTAGE = Path(__file__).parents[2] / "fixtures" / "cottage.plan"
SIZES = tuple(size.name for size in Tables().raceway_sizes("PVC-40") if size.inches >= 0.5)


def worked(job: Job, fact: Callable[[Any, Job], Any], name: str = "ditch") -> Any:
    return fact(job.graph.one(name), job)


def inches(job: Job, fact: Callable[[Any, Job], Any]) -> float:
    return float(worked(job, fact).within("in"))


def ditch(said: str, *pipes: str) -> str:
    lines = "".join(f"raceway p{number}\n  trench ditch; holds none; {pipe}\n" for number, pipe in enumerate(pipes))
    return f"trench ditch\n  under yard; {said}\n{lines}"


TWO = "type PVC-40; size 2 in"
THREE = "type PVC-40; size 3 in"
ONE = "type PVC-40; size 1 in"


@pytest.mark.parametrize(
    ("said", "pipes", "depth", "width"),
    [
        # Outside diameters 2.375, 3.5 and 1.315 in; 2 in at each wall.
        ("cover 24 in", (TWO,), 26.375, 6.375),
        ("cover 24 in; spacing 2 in", (TWO, THREE), 27.5, 11.875),
        ("cover 24 in; spacing 3 in", (TWO, ONE, THREE), 27.5, 17.19),
        ("cover 24 in; bedding-depth 4 in", (TWO,), 30.375, 6.375),
        ("cover 24 in; bedding none", (TWO,), 26.375, 6.375),
        ("cover 24 in; spacing 2 in; layers 2", (TWO, TWO), 24 + 2.375 + 2 + 2.375, 6.375),
        ("cover 24 in; spacing 2 in; layers 2; bedding-depth 3 in", (TWO, TWO, THREE), 24 + 3.5 + 2 + 2.375 + 3, 11.875),
        ("cover 18 in; spacing 1-1/2 in; layers 2", (THREE, THREE, THREE, THREE), 18 + 3.5 + 1.5 + 3.5, 3.5 + 1.5 + 3.5 + 4),
    ],
)
def test_depth_and_width_by_hand(job_for: JobFor, said: str, pipes: tuple[str, ...], depth: float, width: float) -> None:
    """By hand, from the outside diameters of iron pipe sizes (ASME B36.10M)."""
    job = job_for(ditch(said, *pipes))
    assert inches(job, trench_depth) == pytest.approx(depth)
    assert inches(job, trench_width) == pytest.approx(width)


def test_pieces_of_one_pull_are_one_line(job_for: JobFor) -> None:
    chain = (f"{TWO}; continues p1", f"{TWO}; continues p2", TWO, ONE)
    job = job_for(ditch("cover 24 in; spacing 2 in", *chain))
    assert worked(job, pipes_side_by_side) == 2
    assert inches(job, trench_width) == pytest.approx(4 + 2.375 + 2 + 1.315)
    assert worked(job_for(ditch("cover 24 in")), pipes_side_by_side) == 0


@pytest.mark.parametrize(
    ("said", "pipes", "fact", "missing"),
    [
        ("cover 24 in", (TWO, TWO), trench_width, "ditch: spacing"),
        ("cover 24 in; layers 2", (TWO, TWO), trench_depth, "ditch: spacing"),
        ("cover 24 in; bedding sand", (TWO,), trench_depth, "ditch: bedding-depth"),
        ("cover 24 in; bedding-depth unknown", (TWO,), trench_depth, "ditch: bedding-depth"),
        ("shares-with none", (TWO,), trench_depth, "ditch: cover"),
        ("cover 24 in", (), trench_width, "what lies in ditch"),
        ("cover 24 in", (), separation_needed, "ditch: shares-with"),
    ],
)
def test_what_may_be_open(job_for: JobFor, said: str, pipes: tuple[str, ...], fact: Any, missing: str) -> None:
    with pytest.raises(NotStated) as raised:
        worked(job_for(ditch(said, *pipes)), fact)
    assert str(raised.value) == missing


def test_the_least_depth_takes_the_line_that_needs_most(job_for: JobFor) -> None:
    """Table 300.5: steel 6 in, plastic 18 in, cable 24 in, and 12 in for a small circuit with a GFCI; 2 in more in one county."""
    steel, home = "type RMC; size 2 in", "building house\n  use one-family\n"
    cable = "circuit gate\n  cable 12/2 copper UF-B; cable-width 0.5 in; trench ditch; poles 1; breaker 20 A; protection "
    assert inches(job_for(ditch("cover 30 in", steel)), least_depth) == pytest.approx(6 + 2.375)
    assert inches(job_for(ditch("cover 30 in", steel, TWO)), least_depth) == pytest.approx(18 + 2.375)
    assert inches(job_for(home + cable + "none\n" + ditch("cover 30 in", steel)), least_depth) == pytest.approx(24 + 2.375)
    assert inches(job_for(home + cable + "gfci\n" + ditch("cover 30 in", steel)), least_depth) == pytest.approx(12 + 2.375)
    assert inches(job_for(ditch("cover 30 in", TWO), profile="tern-county"), least_depth) == pytest.approx(20 + 2.375)
    assert inches(job_for(ditch("shares-with none", TWO)), least_depth) == pytest.approx(18 + 2.375)


def test_the_most_of_what_shares_it_counts(job_for: JobFor) -> None:
    """laneelectric.com, typical trench; swickandson.com, joint trenching: gas 24, water 12, sewer 24, communications 12 in."""
    for shared, needed in {"none": 0, "water": 12, "communications": 12, "gas": 24, "sewer": 24, "water, gas": 24}.items():
        assert inches(job_for(ditch(f"shares-with {shared}")), separation_needed) == needed


@pytest.mark.parametrize(
    ("name", "depth", "least", "width"),
    [
        ("service-trench", 26 + 2.875, 18 + 2 + 2.875, 2.875 + 3 + 1.315 + 4),
        ("studio-trench", 24 + 2.375, 18 + 2 + 2.375, 2.375 + 4),
        ("well-trench", 28 + 0.6, 24 + 2 + 0.6, 0.6 + 4),
    ],
)
def test_the_cottages_ditches(job_for: JobFor, name: str, depth: float, least: float, width: float) -> None:
    """By hand: cover and the outside of the pipes 2-1/2, 2 and 1 in, or the width of the cable; the county's 2 in on top."""
    job = job_for(COTTAGE.read_text(encoding="utf-8"), profile="tern-county")
    assert worked(job, trench_depth, name).within("in") == pytest.approx(depth)
    assert worked(job, least_depth, name).within("in") == pytest.approx(least)
    assert worked(job, trench_width, name).within("in") == pytest.approx(width)


@settings(max_examples=60, deadline=None)
@given(
    cover=st.integers(1, 60),
    more=st.integers(0, 20),
    sizes=st.lists(st.sampled_from(SIZES), min_size=1, max_size=5),
    larger=st.sampled_from(SIZES),
    layers=st.integers(1, 3),
    spacing=st.integers(0, 4),
)
def test_laws(job_for: JobFor, cover: int, more: int, sizes: list[str], larger: str, layers: int, spacing: int) -> None:
    """More cover, a larger pipe, one more pipe, one more layer: never a shallower ditch; nor a narrower, but for layers."""

    def made(deep: int, pipes: list[str], high: int) -> Job:
        said = f"cover {deep} in; spacing {spacing} in; layers {high}"
        return job_for(ditch(said, *(f"type PVC-40; size {size} in" for size in pipes)))

    base = made(cover, sizes, layers)
    swapped = [max(sizes[0], larger, key=lambda size: TradeSize.read(f"{size} in").inches), *sizes[1:]]
    for other in (made(cover + more, sizes, layers), made(cover, swapped, layers), made(cover, [*sizes, larger], layers)):
        assert worked(other, trench_depth) >= worked(base, trench_depth)
        assert worked(other, trench_width) >= worked(base, trench_width)
    taller = made(cover, sizes, layers + 1)
    assert worked(taller, trench_depth) >= worked(base, trench_depth)
    assert worked(taller, trench_width) <= worked(base, trench_width)
    assert inches(made(cover + more, sizes, layers), trench_depth) == pytest.approx(inches(base, trench_depth) + more)


def test_cables_side_by_side_are_no_pipes(job_for: JobFor) -> None:
    cables = "".join(f"circuit c{number}\n  cable 12/2 copper UF-B; trench ditch\n" for number in range(2))
    rule = "pipes-touching-in-trench"
    for text, expected in [(cables, "not-applicable"), (ditch("spacing 0 in", TWO, TWO).split("\n", 2)[2] + cables, "broken")]:
        job = job_for(f"trench ditch\n  under yard; spacing 0 in\n{text}")
        assert run_rule(compile_rule(job.code.rules[rule], job.code), job.graph.one("ditch"), job).answer == expected


def test_the_table_of_pipes_is_no_source_for_a_cable(job_for: JobFor) -> None:
    cable = "circuit c\n  cable 12/2 copper UF-B; trench ditch; cable-width 1/2 in\n"
    for lines, source in [(f"raceway p\n  {TWO}; trench ditch\n", True), (cable, False)]:
        job = job_for(f"trench ditch\n  under yard; cover 24 in\n{lines}")
        with job.observing(job.graph.one("ditch")) as root:
            worked(job, trench_depth)
        assert bool(root.uses[0].steps[-1].source) is source
