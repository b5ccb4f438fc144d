"""How deep to dig, and the outside of pipes: against published walls, diameters and trenches."""

from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import pytest

from planlint.book import resolve
from planlint.book.tables import OutOfTable, Tables
from planlint.checking import run_rule
from planlint.facts.burial import cover, cover_needed
from planlint.facts.engine import Job
from planlint.facts.trenches import trench_depth
from planlint.language import read_text
from planlint.plan.elements import NotStated
from planlint.plan.graph import Graph
from planlint.quantities import Length, read_number
from planlint.rulebook import compile_rule
from planlint.trade import TradeSize

JobFor = Callable[..., Job]
TABLES = Tables()


def size(name: str) -> TradeSize:
    return TradeSize(read_number(name))


def inches(text: str) -> Length:
    return Length.read(text)


@pytest.mark.parametrize(("name", "wall"), [("1/2", 0.042), ("3/4", 0.049), ("1", 0.057)])
def test_the_outside_of_tubing_is_its_inside_and_two_walls(name: str, wall: float) -> None:
    """htrsd.org, nominal walls of EMT, and the inside diameters of Chapter 9 Table 4."""
    both = TABLES.inside_diameter("EMT", size(name)).within("in") + 2 * wall
    assert TABLES.outside_diameter("EMT", size(name)).within("in") == pytest.approx(both, abs=0.0011)


EMT = {"1/2": 0.706, "3/4": 0.922, "1": 1.163, "1-1/4": 1.51, "1-1/2": 1.74, "2-1/2": 2.875, "3": 3.5, "3-1/2": 4.0, "4": 4.5}
PIPE = {
    "1/2": 0.84,
    "3/4": 1.05,
    "1": 1.315,
    "1-1/4": 1.66,
    "1-1/2": 1.9,
    "2": 2.375,
    "2-1/2": 2.875,
    "3": 3.5,
    "5": 5.563,
    "6": 6.625,
}


@pytest.mark.parametrize(("type", "printed"), [("EMT", EMT), ("RMC", PIPE), ("PVC-40", PIPE), ("PVC-80", PIPE), ("HDPE", PIPE)])
def test_outside_diameters_as_printed(type: str, printed: dict[str, float]) -> None:
    """shakuhachi.net, ponderingem.com, htrsd.org, rescuingprovidence.com, angolatransparency.blog: charts."""
    for name, diameter in printed.items():
        assert TABLES.outside_diameter(type, size(name)).within("in") == pytest.approx(diameter), name


@pytest.mark.parametrize("type", ["EMT", "IMC", "RMC", "PVC-40", "PVC-80", "HDPE"])
def test_a_pipe_is_wider_outside_than_inside(type: str) -> None:
    """No source needed for the order; walls lie between those of 1/2 in EMT, 0.042 in, and of 6 in schedule 80."""
    for each in TABLES.raceway_sizes(type):
        wall = (TABLES.outside_diameter(type, each) - TABLES.inside_diameter(type, each)).within("in") / 2
        assert 0.04 < wall < 0.5, each
    widths = [TABLES.outside_diameter(type, each) for each in TABLES.raceway_sizes(type)]
    assert all(small < large for small, large in pairwise(widths))


PLAN = "trench ditch\n  cover {cover}; under yard\n{rest}"
PIPE_IN_IT = "raceway pipe\n  type PVC-40; size 2 in; trench ditch\n"
CABLE_IN_IT = "circuit well\n  cable 10/2 copper UF-B; cable-width 0.6 in; trench ditch\n"


@pytest.mark.parametrize(
    ("rest", "depth"),
    [(PIPE_IN_IT, 26.375), (CABLE_IN_IT, 24.6), (PIPE_IN_IT + CABLE_IN_IT, 26.375)],
)
def test_cover_and_the_thickest_line(job_for: JobFor, rest: str, depth: float) -> None:
    """Cover ends at the top of the line (300.5, note 1 to the table); 2.375 in is the outside of 2 in pipe. By hand."""
    job = job_for(PLAN.format(cover="24 in", rest=rest))
    assert trench_depth(job.graph.one("ditch"), job).within("in") == pytest.approx(depth)


def test_a_utilitys_typical_trench(job_for: JobFor) -> None:
    """laneelectric.com, typical trench: 36 in deep for 3 in conduit. So 32-1/2 in of cover, more than any row asks."""
    text = "trench ditch\n  cover 32-1/2 in; under street\nraceway pipe\n  type PVC-40; size 3 in; trench ditch; holds none\n"
    job = job_for(text)
    assert trench_depth(job.graph.one("ditch"), job) == inches("36 in")
    pipe = job.graph.one("pipe")
    assert cover(pipe, job) > cover_needed(pipe, job)


@pytest.mark.parametrize(
    ("rest", "missing"),
    [
        ("", "what lies in ditch"),
        ("raceway pipe\n  type PVC-40; trench ditch\n", "pipe: size"),
        ("circuit well\n  cable 10/2 copper UF-B; trench ditch\n", "well: cable-width"),
        ("raceway pipe\n  type LFNC-B; size 1 in; trench ditch\n", "the table of outside diameters has no LFNC-B of 1 in"),
    ],
)
def test_how_deep_to_dig_may_be_open(job_for: JobFor, rest: str, missing: str) -> None:
    job = job_for(PLAN.format(cover="24 in", rest=rest))
    with pytest.raises((NotStated, OutOfTable), match=missing):
        trench_depth(job.graph.one("ditch"), job)


# Lane Electric Cooperative, Oregon (laneelectric.com, typical trench): ditch 36 in deep, conduit of 3 in, elbows of 36 in radius,
# 270 degrees of bends at most, 4 in of sand where it is rocky. IPL (iplpower.com, prepare your property): ditch 36 in deep.
SHEET = """
rule: {name}
about: {about}
must: {must}
at: {at}
severity: correction
hazard: cost-of-rework
inspection: underground
clause: {{2017: the utility's sheet, 2020: the utility's sheet, 2023: the utility's sheet}}
finding: "{{name}} has {{{fact}}}."
remedy: "See the sheet."
why: "Made for a test."
"""
RULES = {
    "ditch-deep": {"about": "trench", "must": "trench-depth >= 36 in", "at": "cover", "fact": "trench-depth"},
    "elbows-wide": {"about": "raceway", "must": "bend-radius >= 36 in", "at": "bend-radius", "fact": "bend-radius"},
}
LANE = """
profile: lane
title: x
based-on: model-2020
confirm-with: the utility
adds: [ditch-deep.yaml, elbows-wide.yaml]
settings:
  raceway-too-many-bends.most-bend: {value: 270 deg, because: typical trench}
"""


@pytest.mark.parametrize(
    ("rule", "name", "plan", "just", "short"),
    [
        (
            "ditch-deep",
            "ditch",
            "trench ditch\n  cover {} in\nraceway pipe\n  type PVC-40; size 3 in; trench ditch\n",
            32.5,
            32.4,
        ),
        (
            "ditch-deep",
            "ditch",
            "trench ditch\n  cover {} in\nraceway pipe\n  type PVC-40; size 2 in; trench ditch\n",
            33.625,
            33.5,
        ),
        (
            "ditch-deep",
            "ditch",
            "trench ditch\n  cover {} in; bedding sand; bedding-depth 4 in\n"
            "raceway pipe\n  type PVC-40; size 3 in; trench ditch\n",
            28.5,
            28.4,
        ),
        ("elbows-wide", "pipe", "raceway pipe\n  type PVC-40; size 3 in; bend-radius {} in\n", 36, 35.9),
        (
            "raceway-too-many-bends",
            "pipe",
            "complete raceways\nraceway pipe\n  type PVC-40; continues none; bends 90 deg, 90 deg, {} deg\n",
            90,
            90.5,
        ),
        ("trench-near-other-utilities", "ditch", "trench ditch\n  shares-with gas; separation {} in\n", 24, 23.9),
        ("trench-near-other-utilities", "ditch", "trench ditch\n  shares-with water; separation {} in\n", 12, 11.9),
        ("trench-near-other-utilities", "ditch", "trench ditch\n  shares-with sewer; separation {} in\n", 24, 23.9),
        ("trench-near-other-utilities", "ditch", "trench ditch\n  shares-with communications; separation {} in\n", 12, 11.9),
    ],
)
def test_two_utilities_sheets(tmp_path: Path, rule: str, name: str, plan: str, just: float, short: float) -> None:
    """Each figure of the two sheets that a plan can say, from both sides, as settings and rules of a profile.

    The sheets' tape, tails and notice are no business of a plan; IPL's 42 in free of obstructions has no attribute.
    """
    for each, parts in RULES.items():
        (tmp_path / f"{each}.yaml").write_text(SHEET.format(name=each, **parts))
    (tmp_path / "lane.yaml").write_text(LANE)
    code = resolve(("lane",), folders=(tmp_path,))
    answers = []
    for figure in (just, short):
        text = 'plan "x"\n  profile lane; lines-located yes\n' + plan.format(f"{figure:g}")
        text = text.replace("complete raceways\n", "").replace("yes\n", "yes; complete raceways\n")
        graph = Graph(read_text(text).elements)
        job = Job(graph, code, Tables())
        answers.append(run_rule(compile_rule(code.rules[rule], code), graph.one(name), job).answer)
    # Bends are the one figure where more is worse.
    assert answers == ["met", "broken"]
