"""Electrode conductors, bonding jumpers and the service's neutral against the published tables, row by row, through the rules.

Sources: Table 250.66 as voltagelab.com and buckworks.net (grounding electrodes) print it whole; Table 250.102(C)(1) by the rows
of Table 250.66 (from memory), its rows of 350/500 and of 1100/1750 kcmil as thebuildingcodeforum.com thread 26483 uses them (250
and 750 kcmil copper), its last row, 12.5 %, as ecmweb.com, 2011 code changes, page 6, gives it.
"""

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.checking import Answer, run_rule
from planlint.facts import load_facts
from planlint.facts.bonding import arriving_neutral, least_neutral
from planlint.facts.electrode_wires import size_needed
from planlint.facts.engine import Job
from planlint.language import read_plan
from planlint.plan.graph import Graph
from planlint.rulebook import CompiledRule, compile_rule
from planlint.trade import SIZES, WireSize

JobFor = Callable[..., Job]
ROOT = Path(__file__).parents[2]
METALS = ("copper", "aluminum")

# The first and the last size that is made in each row (copper; aluminum), and what the row asks for (copper, aluminum).
ROWS = [
    (("8", "2"), ("6", "1/0"), ("8", "6")),
    (("1", "1/0"), ("2/0", "3/0"), ("6", "4")),
    (("2/0", "3/0"), ("4/0", "250"), ("4", "2")),
    (("250", "350"), ("300", "500"), ("2", "1/0")),
    (("400", "600"), ("600", "900"), ("1/0", "3/0")),
    (("700", "1000"), ("1000", "1750"), ("2/0", "4/0")),
]
LAST_ROW = (("1250", "2000"), ("2000", "2000"), ("3/0", "250"))

Row = tuple[tuple[str, str], tuple[str, str], tuple[str, str]]


def cases(rows: list[Row]) -> list[tuple[str, str, str, str]]:
    """Hot wire and its metal, what the row asks for and in which metal."""
    return [
        (hot, hot_metal, wanted, metal)
        for copper, aluminum, asked in rows
        for hot_metal, ends in zip(METALS, (copper, aluminum), strict=True)
        for hot in ends
        for metal, wanted in zip(METALS, asked, strict=True)
    ]


ELECTRODE_ROWS = cases([*ROWS, LAST_ROW])
# 12.5 % of 1250 kcmil is 156.25 kcmil: 3/0 AWG (167.8 kcmil); of 1500, 187.5: 4/0 (211.6); of 2000, 250 kcmil, exactly.
JUMPER_ROWS = [
    *cases(ROWS),
    ("1250", "copper", "3/0", "copper"),
    ("1500", "copper", "4/0", "copper"),
    ("2000", "copper", "250", "copper"),
    ("2000", "aluminum", "250", "aluminum"),
]


@cache
def rule(name: str) -> CompiledRule:
    load_facts()
    code = resolve(("model-2020",))
    return compile_rule(code.rules[name], code)


def judged(name: str, element: str, job: Job) -> Answer:
    return run_rule(rule(name), job.graph.one(element), job).answer


def smaller(size: str) -> str:
    return SIZES[SIZES.index(size) - 1]


def wired(size: str, metal: str) -> str:
    return str(WireSize(size, metal))


def service(job_for: JobFor, hot: str, rest: str, wires: str = "") -> Job:
    return job_for(
        f"""complete service, feeders, grounding
supply utility
  type utility
disconnect main-switch
  breaker 200 A; neutral bonded
service drop-wires
  from utility; to main-switch; owner customer; raceway riser; hot 2 x {hot} XHHW-2
  {wires or "length 20 ft"}
raceway riser
  type PVC-80
{rest}"""
    )


def to_electrode(job_for: JobFor, hot: str, size: str, kind: str) -> Answer:
    rest = f"electrode e\n  type {kind}\nelectrode-conductor w\n  from main-switch; to e; size {size}\n"
    return judged("electrode-wire-too-small", "w", service(job_for, hot, rest))


@pytest.mark.parametrize(("hot", "hot_metal", "size", "metal"), ELECTRODE_ROWS)
def test_electrode_conductors_by_row(job_for: JobFor, hot: str, hot_metal: str, size: str, metal: str) -> None:
    """Table 250.66: a water pipe has no cap. The size of the row passes, the next smaller one doesn't."""
    assert to_electrode(job_for, wired(hot, hot_metal), wired(size, metal), "water-pipe") == "met"
    assert to_electrode(job_for, wired(hot, hot_metal), wired(smaller(size), metal), "water-pipe") == "broken"


@pytest.mark.parametrize(("hot", "hot_metal", "size", "metal"), JUMPER_ROWS)
def test_bonding_jumpers_by_row(job_for: JobFor, hot: str, hot_metal: str, size: str, metal: str) -> None:
    """Table 250.102(C)(1)."""
    for given, answer in ((size, "met"), (smaller(size), "broken")):
        bond = f"bond b\n  type main; from main-switch; to main-switch; listed-screw no; size {wired(given, metal)}\n"
        assert judged("bonding-jumper-too-small", "b", service(job_for, wired(hot, hot_metal), bond)) == answer


@pytest.mark.parametrize(("hot", "hot_metal", "size", "metal"), JUMPER_ROWS)
def test_neutrals_of_services_by_row(job_for: JobFor, hot: str, hot_metal: str, size: str, metal: str) -> None:
    """Table 250.102(C)(1) by way of 250.24(C)(1)."""
    for given, answer in ((size, "met"), (smaller(size), "broken")):
        job = service(job_for, wired(hot, hot_metal), "", f"neutral {wired(given, metal)} XHHW-2")
        assert judged("main-bonding-jumper-or-neutral-absent-at-service", "main-switch", job) == answer


@pytest.mark.parametrize("hot", ["500 kcmil copper", "600 kcmil copper", "900 kcmil aluminum"])
def test_to_a_rod_from_400_amperes(job_for: JobFor, hot: str) -> None:
    """iecyear4.passetra.com, "A 400 A service": 6 AWG copper to a rod, by 250.66(A). Any wire for 400 A is far past the cap."""
    assert to_electrode(job_for, hot, "6 AWG copper", "rod") == "met"
    assert to_electrode(job_for, hot, "8 AWG copper", "rod") == "broken"


def test_where_two_pages_disagree_about_the_first_row(job_for: JobFor) -> None:
    """Beside a 1/0 aluminum service: 8 AWG copper by buckworks.net; cooper-electric.com ends the row at 1 AWG."""
    assert to_electrode(job_for, "1/0 aluminum", "8 AWG copper", "water-pipe") == "met"
    assert to_electrode(job_for, "2/0 aluminum", "8 AWG copper", "water-pipe") == "broken"


@pytest.mark.parametrize(
    ("kind", "least"),
    [("rod", "6 AWG copper"), ("pipe", "6 AWG copper"), ("plate", "4 AWG aluminum"), ("concrete-encased", "4 AWG copper")],
)
def test_the_caps_for_one_kind_of_electrode(job_for: JobFor, kind: str, least: str) -> None:
    """250.66(A): 6 AWG copper or 4 AWG aluminum to rods, pipes, plates; (B): 4 AWG copper to a footing. From memory."""
    size, _, metal = least.partition(" AWG ")
    assert to_electrode(job_for, "1000 kcmil copper", least, kind) == "met"
    assert to_electrode(job_for, "1000 kcmil copper", wired(smaller(size), metal), kind) == "broken"


# ---- The made-up cottage: figures by hand, from Tables 250.66, 250.102(C)(1) and 250.122


@pytest.fixture(scope="module")
def cottage() -> Job:
    load_facts()
    return Job(Graph(read_plan(ROOT / "fixtures" / "cottage.plan").elements), resolve(("model-2020",)), Tables())


def test_the_cottages_electrode_conductors(cottage: Job) -> None:
    """4/0 aluminum asks for 4 AWG copper, the footing's cap is 4 AWG copper; the studio's 1 AWG aluminum: 8 AWG copper."""
    footing, rods = cottage.graph.one("footing-wire"), cottage.graph.one("rod-wire")
    assert size_needed(footing, cottage) == footing.value("size").size == WireSize("4", "copper")
    assert size_needed(rods, cottage) == WireSize("8", "copper")
    assert rods.value("size").size == WireSize("6", "copper")


@pytest.mark.parametrize(
    ("place", "least", "there"),
    [("house-disconnect", "2", "2/0"), ("house-panel", "4", "2/0"), ("studio-panel", "6", "1")],
)
def test_the_cottages_neutrals(cottage: Job, place: str, least: str, there: str) -> None:
    """Service 4/0 aluminum: 2 AWG aluminum. Feeders by Table 250.122, 215.2(A): 200 A 4 AWG, 100 A 6 AWG aluminum."""
    gear = cottage.graph.one(place)
    assert least_neutral(gear, cottage) == WireSize(least, "aluminum")
    assert arriving_neutral(gear, cottage) == WireSize(there, "aluminum")


@pytest.mark.parametrize(
    ("name", "element", "answer"),
    [
        ("footing-electrode-too-short-or-thin", "footing-bar", "met"),
        ("footing-electrode-no-reachable-end", "footing-bar", "met"),
        ("footing-electrode-not-used", "house", "met"),
        ("footing-electrode-not-used", "studio", "not-applicable"),
        ("ground-rod-size-and-spacing", "studio-rods", "met"),
        ("lone-ground-rod", "studio-rods", "met"),
        ("electrode-not-joined", "footing-bar", "met"),
        ("electrode-not-joined", "studio-rods", "met"),
        ("electrode-wire-wrong-landing", "footing-wire", "met"),
        ("electrode-wire-wrong-landing", "rod-wire", "met"),
        ("service-without-electrode", "house", "met"),
        ("service-without-electrode", "studio", "not-applicable"),
        ("outbuilding-electrode-missing", "studio", "met"),
        ("outbuilding-electrode-missing", "house", "not-applicable"),
        ("main-bonding-jumper-or-neutral-absent-at-service", "house-disconnect", "met"),
        ("neutral-bonded-away-from-service", "house-panel", "met"),
        ("neutral-bonded-away-from-service", "studio-panel", "met"),
        ("grounds-share-the-neutral-bar", "studio-panel", "met"),
        ("outbuilding-three-wire-feed", "studio-feeder", "met"),
        ("outbuilding-three-wire-feed", "house-feeder", "not-applicable"),
        ("outbuilding-two-supplies", "studio", "met"),
    ],
)
def test_the_cottages_grounding_stands(cottage: Job, name: str, element: str, answer: Answer) -> None:
    """Bar 24 ft of 1/2 in in 3 in of concrete (20 ft, 1/2 in, 2 in); rods of 8 ft and 5/8 in, 8 ft apart (8 ft, 5/8 in, 6 ft)."""
    assert judged(name, element, cottage) == answer
