"""Wires and pipes in wet places, against published answers. Each check names its source.

The rule raceway-or-wire-wrong-for-damp-place is run on small plans, so that table, facts and the rule file are checked together.
"""

from collections.abc import Callable

import pytest

from planlint.book.tables import Tables
from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
PLACES = (
    "place outside\n  outdoors yes; moisture wet\nplace shelter\n  outdoors yes; moisture damp\ntrench ditch\n  cover 30 in\n"
)
SLAB = "route in-concrete; against-ground yes"
GROUND = "ground 1 x 12 AWG copper bare"


def answer(job_for: JobFor, pipe: str, run: str, edition: int = 2020) -> str:
    job = job_for(f"{PLACES}raceway pipe\n  {pipe}\ncircuit run\n  {run}; raceway pipe\n", edition)
    rule = compile_rule(job.code.rules["raceway-or-wire-wrong-for-damp-place"], job.code)
    return run_rule(rule, job.graph.one("pipe"), job).answer


def loose(insulation: str) -> str:
    return f"hot 1 x 12 AWG copper {insulation}; neutral 1 x 12 AWG copper {insulation}; {GROUND}"


@pytest.mark.parametrize("edition", [2017, 2020, 2023])
@pytest.mark.parametrize("where", [SLAB, "route below-slab", "trench ditch", "route above-grade; at outside"])
def test_indoor_cable_in_pipe_in_a_slab_or_the_ground(job_for: JobFor, where: str, edition: int) -> None:
    """ecmweb.com, code Q&A on NM cable rules: not in PVC in a ground floor slab, for the inside of it is wet."""
    assert answer(job_for, f"type PVC-40; {where}", "cable 12/2 copper NM-B", edition) == "broken"


def test_indoor_cable_where_it_is_damp(job_for: JobFor) -> None:
    """The same answer: Type NM must not be used in wet or damp locations, 334.12(B)(4)."""
    assert answer(job_for, "type PVC-40; route above-grade; at shelter", "cable 12/2 copper NM-B") == "broken"


@pytest.mark.parametrize(("insulation", "wet"), [("THHN", False), ("THWN", True), ("THWN-2", True), ("XHHW-2", True)])
def test_the_w_of_wet(job_for: JobFor, insulation: str, wet: bool) -> None:
    """forums.mikeholt.com threads 111616 and 146183; the definition of wet locations in thread "conduit in wet location",
    electriciantalk.com: below ground, in slabs against the earth, in the open."""
    for where in (SLAB, "trench ditch", "route above-grade; at outside"):
        assert answer(job_for, f"type PVC-40; {where}", loose(insulation)) == ("met" if wet else "broken")


# Type, where, and what the page says: yes, no, or marked (only where it is listed and marked, or protected).
PRINTED = [
    # ecmweb.com, code Q&A on flexible metal conduit: not in wet locations, not underground, not in poured concrete (348.12).
    ("FMC", "route above-grade; at outside", "no"),
    ("FMC", "trench ditch", "no"),
    ("FMC", SLAB, "no"),
    # forums.mikeholt.com thread 64919, posts 1584802 and 2318571: buried, in concrete; not exposed, not within a building (353).
    ("HDPE", "trench ditch", "yes"),
    ("HDPE", SLAB, "yes"),
    ("HDPE", "route above-grade; at outside", "no"),
    ("HDPE", "route riser; at outside", "no"),
    # thenecwiki.com, article 356: outdoors, buried and in concrete where listed and marked for it (356.10(3), (4), (7)).
    ("LFNC-B", "route above-grade; at outside", "marked"),
    ("LFNC-B", "trench ditch", "marked"),
    ("LFNC-B", SLAB, "marked"),
    # ecmweb.com, what's wrong here 168: direct burial where listed and marked; its jacket bears sunlight (350.10, 350.2).
    ("LFMC", "trench ditch", "marked"),
    ("LFMC", "route above-grade; at outside", "yes"),
    # ecmweb.com, code Q&A 75, and steeltubeinstitute.org: in soil generally more protection, in concrete none.
    ("EMT", "trench ditch", "marked"),
    ("EMT", SLAB, "yes"),
    # steeltubeinstitute.org, corrosion protection: in soil generally nothing more.
    ("RMC", "trench ditch", "yes"),
    ("IMC", "trench ditch", "yes"),
    # ecmweb.com, what's wrong here, "not so buried PVC conduit": direct burial, in concrete (352.10(G)).
    ("PVC-40", "trench ditch", "yes"),
    ("PVC-40", SLAB, "yes"),
    # electrical-contractor.net thread 2461: in a slab on grade, wet locations indoors (362.10(6), (7)); not buried.
    ("ENT", SLAB, "yes"),
    ("ENT", "route inside; at outside", "yes"),
    ("ENT", "trench ditch", "no"),
]


@pytest.mark.parametrize(("type", "where", "printed"), PRINTED)
def test_pipes_as_the_pages_have_them(job_for: JobFor, type: str, where: str, printed: str) -> None:
    """Each row of PRINTED names its page."""
    plain, marked, unmarked = (
        f"type {type}; {where}{more}" for more in ("", "; approved-for-place yes", "; approved-for-place no")
    )
    expected = {"yes": ("met", "met", "met"), "no": ("broken",) * 3, "marked": ("undecided", "met", "broken")}[printed]
    assert tuple(answer(job_for, pipe, loose("THWN-2")) for pipe in (plain, marked, unmarked)) == expected


def test_the_table_has_every_type_of_pipe() -> None:
    """So that none falls through: those of Chapter 9 Table 4 that a plan may name, and HDPE."""
    for type in ("EMT", "IMC", "RMC", "PVC-40", "PVC-80", "HDPE", "ENT", "FMC", "LFMC", "LFNC-A", "LFNC-B"):
        for spot in ("soil", "concrete", "weather", "indoors"):
            assert Tables().raceway_place(type, spot) in ("yes", "no", "marked")
