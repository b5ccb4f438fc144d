"""Cover below ground against published figures, on both sides of each limit; and answers that were published wrong.

Each check names its source.
The rule trench-too-shallow is run on small plans, so that tables, facts and the rule file are checked together.
"""

from collections.abc import Callable
from pathlib import Path

import pytest

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.checking import run_rule
from planlint.facts.burial import cover_needed
from planlint.facts.engine import Job
from planlint.language import read_text
from planlint.plan.graph import Graph
from planlint.quantities import Length
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
HOME = "building house\n  use one-family\n"
CABLE = HOME + "circuit line\n  cable 12/2 copper UF-B; trench ditch; poles 2; breaker 20 A; protection none\n"
PIPE = "feeder studio-feeder\n  raceway line\nraceway line\n  trench ditch; type "
SMALL = HOME + "circuit line\n  cable 12/2 copper UF-B; trench ditch; poles 1; breaker 20 A; protection gfci; volts 120 V\n"
LOW = HOME + "circuit line\n  cable 12/2 copper UF-B; trench ditch; volts 30 V; use lighting; breaker 20 A; protection none\n"
WAYS = {
    "direct": (CABLE,),
    "steel": (PIPE + "RMC\n", PIPE + "IMC\n"),
    "plastic": (PIPE + "PVC-40\n", PIPE + "PVC-80\n", PIPE + "HDPE\n"),
    "gfci": (SMALL,),
    "low": (LOW,),
}
# Table 300.5 (2023: 300.5(A)) as printed by up.codes, underground installations; inches, in the order of WAYS. The row of
# buildings is asked of pipes only: cable lies in one there.
ROWS = {
    "under yard": (24, 6, 18, 12, 6),
    "under yard; concrete-over 2 in": (18, 6, 12, 6, 6),
    "under patio-slab": (18, 4, 4, 6, 6),
    "under street": (24, 24, 24, 24, 24),
    "under driveway": (18, 18, 18, 12, 18),
}
CELLS = [(ditch, line, limit) for ditch, row in ROWS.items() for way, limit in zip(WAYS, row, strict=True) for line in WAYS[way]]


def answer(job: Job, rule: str = "trench-too-shallow", name: str = "line") -> str:
    return run_rule(compile_rule(job.code.rules[rule], job.code), job.graph.one(name), job).answer


def ditch(line: str, where: str, cover: float) -> str:
    return f"{line}trench ditch\n  {where}; cover {cover:g} in\n"


@pytest.mark.parametrize("edition", [2017, 2020, 2023])
@pytest.mark.parametrize(("where", "line", "limit"), CELLS)
def test_each_cell_of_the_table(job_for: JobFor, where: str, line: str, limit: float, edition: int) -> None:
    """NFPA 70 Table 300.5 (2023: 300.5(A)), up.codes; 18 in for plastic pipe also in ecmweb.com, code Q&A 3.

    The columns of small circuits are asked of cable, whose own column is never below theirs.
    """
    just, short = (job_for(ditch(line, where, cover), edition) for cover in (limit, limit - 0.1))
    assert answer(just) == "met"
    assert answer(short) == "broken"
    assert cover_needed(short.graph.one("line"), short) == Length.of(limit, "in")


@pytest.mark.parametrize("line", [*WAYS["steel"], *WAYS["plastic"]])
def test_a_pipe_below_a_building_needs_no_cover(job_for: JobFor, line: str) -> None:
    """The same table, row of buildings: 0 in for raceways."""
    assert answer(job_for(ditch(line, "under building", 0))) == "met"


def test_cable_below_a_building_is_not_passed_by_its_zero(job_for: JobFor) -> None:
    """The same table prints 0 in "in raceway" there; 300.5(C): without pipe cable has no place below a building."""
    job = job_for(ditch(CABLE, "under building", 40))
    assert answer(job) == "undecided"
    assert answer(job, "indoor-cable-or-splice-underground") == "broken"


def test_the_summary_for_dwellings(job_for: JobFor) -> None:
    """Agency handout "depth requirements for residential underground wiring", studylib.net document 18633587: 6, 12, 18, 24 in,
    and 18 in for direct burial below 4 in of concrete."""
    rows = [
        (PIPE + "RMC\n", "under yard", 6),
        (SMALL, "under yard", 12),
        (PIPE + "PVC-40\n", "under yard", 18),
        (CABLE, "under yard", 24),
        (CABLE, "under patio-slab", 18),
    ]
    for line, where, inches in rows:
        job = job_for(ditch(line, where, inches - 1))
        assert cover_needed(job.graph.one("line"), job) == Length.of(inches, "in")


def test_thirty_amperes_get_no_relief(job_for: JobFor) -> None:
    """bartleby.com, "maximum cover requirement for direct burial UF": 18 in for 120 V, 30 A without GFCI. Published wrong:
    column 1 says 24 in, and the relief stops at 20 A."""
    line = HOME + "circuit line\n  cable 10/2 copper UF-B; trench ditch; poles 1; breaker 30 A; protection none\n"
    published, right = (job_for(ditch(line, "under yard", cover)) for cover in (18, 24))
    assert answer(published) == "broken"
    assert answer(right) == "met"
    assert cover_needed(published.graph.one("line"), published) == Length.of(24, "in")


LOCAL_RULE = """
rule: deep
about: raceway
when: {when}
must: cover >= least
at: trench.cover
severity: correction
hazard: shock
inspection: underground
clause: {{2017: local, 2020: local, 2023: local}}
finding: "{{name}} has {{cover}} of cover, {{least}} is asked here."
remedy: "Dig to {{least}}."
why: "Made for a test."
settings:
  least: {{value: {least}, help: asked here}}
"""


@pytest.mark.parametrize(
    ("condition", "least", "line"),
    [
        # Lynnwood, Washington, LMC 16.10.130: 24 in for service conductors, whatever the pipe.
        ("carries-service", 24, "service drop\n  owner customer; raceway line\nraceway line\n  trench ditch; type RMC\n"),
        # IPL (iplpower.com, prepare your property) and Lane Electric Cooperative (laneelectric.com, typical trench): a ditch of
        # 36 in for the utility's own pipe. Asked of the cover here: the pipe's diameter is left on the safe side.
        (
            "is-utility-owned",
            36,
            "service drop\n  owner utility; raceway line\nraceway line\n  trench ditch; type PVC-40; holds none\n",
        ),
    ],
)
def test_what_a_place_asks_for_fits_a_rule_of_its_own(tmp_path: Path, condition: str, least: int, line: str) -> None:
    """Deeper ditches that places and utilities publish are rules without Python, and the table stays the floor."""
    (tmp_path / "deep.yaml").write_text(LOCAL_RULE.format(when=condition, least=f"{least} in"))
    (tmp_path / "county.yaml").write_text(
        "profile: county\ntitle: x\nbased-on: model-2020\nconfirm-with: the inspector\nadds: [deep.yaml]\n"
    )
    code = resolve(("county",), folders=(tmp_path,))
    answers = []
    for cover in (least, least - 0.1):
        graph = Graph(read_text(ditch(line, "under yard", cover), example=True).elements)
        answers.append(answer(Job(graph, code, Tables()), "deep"))
    assert answers == ["met", "broken"]
