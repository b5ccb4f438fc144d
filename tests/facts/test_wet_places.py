"""Where a pipe is wet inside, which types may be there, and which wires: no wire that isn't made for water ever passes."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.book.tables import Tables
from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.facts.wet_places import is_wet_inside, type_suits_place, unfit_for_wet, wet_fault, wires_suit_wet
from planlint.plan.elements import NotStated
from planlint.rulebook import compile_rule
from planlint.trade import CABLE_TYPES, INSULATIONS

JobFor = Callable[..., Job]
PLACES = (
    "place yard\n  outdoors yes; moisture wet\nplace porch\n  outdoors yes; moisture damp\n"
    "trench ditch\n  under yard; cover 24 in\n"
)
WIRES = (
    "circuit run\n  hot 1 x 12 AWG copper {hot}; neutral 1 x 12 AWG copper {neutral}; ground 1 x 12 AWG copper bare\n"
    "  raceway pipe\n"
)
WET = {"THWN", "THWN-2", "XHHW", "XHHW-2", "RHW", "RHW-2", "USE-2", "TW", "THW", "THW-2", "THHW", "bare"}
SOIL = "trench ditch"


def worked(job: Job, fact: Callable[[Any, Job], Any], name: str = "pipe") -> Any:
    return fact(job.graph.one(name), job)


def answer(job: Job) -> str:
    rule = compile_rule(job.code.rules["raceway-or-wire-wrong-for-damp-place"], job.code)
    return run_rule(rule, job.graph.one("pipe"), job).answer


def pipe(where: str, type: str = "PVC-40", more: str = "") -> str:
    return f"{PLACES}raceway pipe\n  type {type}; {where}{more}\n"


@pytest.mark.parametrize(
    ("where", "wet"),
    [
        (SOIL, True),
        ("route below-slab", True),
        ("route riser; at porch", True),
        ("route roof", True),
        ("route in-concrete; against-ground yes", True),
        ("route in-concrete; against-ground no", False),
        ("route above-grade; at yard", True),
        ("route above-grade; at porch", False),
        ("route inside; at yard", True),
        ("route sleeve; at porch", False),
    ],
)
def test_where_it_is_wet(job_for: JobFor, where: str, wet: bool) -> None:
    """NFPA 70 300.5(B), 300.9 and article 100 (location, wet)."""
    assert worked(job_for(pipe(where)), is_wet_inside) is wet


@pytest.mark.parametrize(
    ("where", "missing"),
    [
        ("route in-concrete", "pipe: against-ground"),
        ("route above-grade", "pipe: at"),
        ("route inside; at room", "room: moisture"),
        ("size 1 in", "pipe: route"),
    ],
)
def test_where_it_is_wet_may_be_open(job_for: JobFor, where: str, missing: str) -> None:
    with pytest.raises(NotStated) as raised:
        worked(job_for(pipe(where) + "place room\n  outdoors no\n"), is_wet_inside)
    assert str(raised.value) == missing


@pytest.mark.parametrize("insulation", INSULATIONS)
@pytest.mark.parametrize("edition", [2017, 2020, 2023])
def test_each_insulation_in_a_buried_pipe(job_for: JobFor, insulation: str, edition: int) -> None:
    """NFPA 70 310.10(C): the types that may be in a wet place, with the W of their names or USE; THHN, XHH and RHH may not."""
    expected = "met" if insulation in WET else "broken"
    hot = job_for(pipe(SOIL) + WIRES.format(hot=insulation, neutral="THWN-2"), edition)
    neutral = job_for(pipe(SOIL) + WIRES.format(hot="THWN-2", neutral=insulation), edition)
    held = job_for(pipe(SOIL, more=f"; holds 2 x 12 AWG copper {insulation}"), edition)
    assert answer(hot) == answer(neutral) == expected
    assert worked(held, wires_suit_wet) is (expected == "met")
    if expected == "broken":
        assert worked(hot, unfit_for_wet) == f"{insulation} of run"


CABLES = {
    "NM-B": (False, False),
    "AC": (False, False),
    "SEU": (False, True),
    "SER": (False, True),
    "UF-B": (True, True),
    "USE-2": (True, True),
}


@pytest.mark.parametrize("cable", CABLE_TYPES)
def test_each_cable_in_the_soil_and_outdoors(job_for: JobFor, cable: str) -> None:
    """NFPA 70 334.12(B)(4), ecmweb.com Q&A on NM cable (not in a pipe in a slab either); 320.12, 338.12(A)(2), 340.10(3)."""
    for where, number in ((SOIL, 0), ("route above-grade; at yard", 1)):
        job = job_for(pipe(where) + f"circuit run\n  cable {cable}; raceway pipe\n")
        if cable == "MC":
            with pytest.raises(NotStated, match="made and marked for wet places"):
                worked(job, wires_suit_wet)
        else:
            assert worked(job, wires_suit_wet) is CABLES[cable][number]


def test_one_bad_wire_decides_whatever_else_is_open(job_for: JobFor) -> None:
    bad = "circuit bad\n  hot 1 x 12 AWG copper THHN; raceway pipe\n"
    silent = "circuit silent\n  length 9 ft; raceway pipe\n"
    for runs in (bad + silent, silent + bad):
        job = job_for(pipe(SOIL) + runs)
        assert worked(job, wires_suit_wet) is False
        assert worked(job, unfit_for_wet) == "THHN of bad"
    assert answer(job_for(pipe(SOIL) + silent)) == "undecided"
    assert answer(job_for(pipe(SOIL, more="; holds unknown") + WIRES.format(hot="THWN-2", neutral="THWN-2"))) == "undecided"
    assert answer(job_for(pipe(SOIL) + WIRES.replace("copper {hot}", "copper").format(neutral="THWN-2"))) == "undecided"


def test_wires_that_bear_water_settle_it_wherever_the_pipe_is(job_for: JobFor) -> None:
    """What is right in a wet place is right in any: nothing is asked about the place but where the pipe is."""
    wires = WIRES.format(hot="THWN-2", neutral="THWN-2")
    assert answer(job_for(pipe("route above-grade; at yard", "RMC") + wires)) == "met"
    assert answer(job_for(pipe("route in-concrete", "RMC") + wires)) == "met"
    dry = WIRES.format(hot="THHN", neutral="THHN")
    assert answer(job_for(pipe("route in-concrete", "RMC") + dry)) == "undecided"
    assert answer(job_for(pipe("route above-grade; at porch", "RMC") + dry)) == "met"
    dry_room = "place room\n  outdoors no; moisture dry\n"
    assert answer(job_for(pipe("route inside; at room", "RMC") + dry_room + dry)) == "not-applicable"


@pytest.mark.parametrize(
    ("cable", "expected"),
    [("NM-B", "broken"), ("AC", "broken"), ("UF-B", "met"), ("SER", "met"), ("MC", "met"), ("USE-2", "met")],
)
def test_where_it_is_damp(job_for: JobFor, cable: str, expected: str) -> None:
    """NFPA 70 334.12(B)(4) and 320.12: NM and AC cable not in damp places either; a pipe of any type may be there."""
    for type in ("FMC", "EMT"):
        job = job_for(pipe("route above-grade; at porch", type) + f"circuit run\n  cable {cable}; raceway pipe\n")
        assert answer(job) == expected


def test_no_place_outdoors_is_dry(job_for: JobFor) -> None:
    """Article 100: what the weather reaches is wet, and below a roof outdoors damp. A plan that says dry is asked again."""
    job = job_for(
        pipe("route above-grade; at lawn")
        + "place lawn\n  outdoors yes; moisture dry\n"
        + WIRES.format(hot="THHN", neutral="THHN")
    )
    assert answer(job) == "undecided"
    with pytest.raises(NotStated, match="moisture dry or outdoors yes"):
        worked(job, is_wet_inside)


def test_the_utilitys_own_pipe_follows_its_own_rules(job_for: JobFor) -> None:
    assert answer(job_for(pipe(SOIL, "FMC") + "service lateral\n  owner utility; raceway pipe\n")) == "not-applicable"


@pytest.mark.parametrize(
    ("type", "where", "suits"),
    [
        ("FMC", "route above-grade; at yard", False),
        ("FMC", "route in-concrete; against-ground yes", False),
        ("HDPE", SOIL, True),
        ("HDPE", "route riser; at yard", False),
        ("ENT", SOIL, False),
        ("ENT", "trench cast", True),
        ("ENT", "route below-slab", False),
        ("EMT", "route above-grade; at yard", True),
        ("EMT", "trench cast", True),
        ("EMT", SOIL + "; approved-for-place yes", True),
        ("EMT", SOIL + "; approved-for-place no", False),
        ("EMT", SOIL, None),
        ("EMT", "route riser; at yard", None),
        ("LFMC", "route above-grade; at yard", True),
        ("LFMC", SOIL, None),
        ("LFNC-B", "route above-grade; at yard", None),
        ("LFNC-B", "route inside; at yard", True),
    ],
)
def test_which_pipe_may_be_there(job_for: JobFor, type: str, where: str, suits: bool | None) -> None:
    """The sections .10 and .12 of the articles, from the pages in the head of the table raceway-places."""
    job = job_for(pipe(where, type) + "trench cast\n  encased yes\n")
    if suits is None:
        with pytest.raises(NotStated, match="pipe: approved-for-place"):
            worked(job, type_suits_place)
    else:
        assert worked(job, type_suits_place) is suits


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(INSULATIONS), st.sampled_from(INSULATIONS), st.sampled_from(INSULATIONS))
def test_company_never_makes_a_wire_fit(job_for: JobFor, one: str, two: str, three: str) -> None:
    """Law: a pipe suits if each of its wires does; so no wire makes another one pass."""
    held = ", ".join(f"1 x 12 AWG copper {each}" for each in (one, two, three))
    job = job_for(pipe(SOIL, more=f"; holds {held}"))
    assert worked(job, wires_suit_wet) is ({one, two, three} <= WET)
    assert worked(job, wires_suit_wet) is all(Tables().insulation(each).wet_rated for each in (one, two, three))


@pytest.mark.parametrize(
    ("where", "type", "hot", "fault"),
    [
        (SOIL, "ENT", "THWN-2", "ENT may not be in the soil"),
        ("route above-grade; at yard", "FMC", "THHN",
         "FMC may not be out in the weather; in it and not made for that: THHN of run"),
        (SOIL, "PVC-40", "THHN", "in it and not made for that: THHN of run"),
        (SOIL + "; approved-for-place no", "EMT", "THWN-2", "EMT may not be in the soil"),
    ],
)  # fmt: skip
def test_the_finding_names_what_is_wrong_and_nothing_else(job_for: JobFor, where: str, type: str, hot: str, fault: str) -> None:
    job = job_for(pipe(where, type) + WIRES.format(hot=hot, neutral="THWN-2"))
    assert worked(job, wet_fault) == fault


def test_a_sound_pipe_has_no_fault_to_name(job_for: JobFor) -> None:
    with pytest.raises(NotStated) as gap:
        worked(job_for(pipe(SOIL) + WIRES.format(hot="THWN-2", neutral="THWN-2")), wet_fault)
    assert not gap.value.needs[0].arises


def test_what_a_pipe_is_said_to_hold_decides_whatever_else_may_be_in_it(job_for: JobFor) -> None:
    """Another run that doesn't say its pipe leaves open what else is in it, not that the utility owns it."""
    somewhere = "feeder elsewhere\n  hot 2 x 1 AWG aluminum XHHW-2\n"
    for wires, expected in [("THHN", "broken"), ("THWN-2", "undecided")]:
        assert answer(job_for(pipe(SOIL, more=f"; holds 3 x 8 AWG copper {wires}") + somewhere)) == expected
