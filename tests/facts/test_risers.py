"""Risers: where they begin, how high they go; what is open; and that nothing left out makes one pass."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.checking import run_rule
from planlint.facts.burial import wants_riser
from planlint.facts.engine import Job
from planlint.facts.risers import begins_low_enough, least_below, riser_fault, top_high_enough
from planlint.plan.elements import NotStated
from planlint.quantities import Length
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
HOME = "building house\n  use one-family\nload pump\n  type well-pump\n"
WELL = "circuit run\n  cable 10/2 copper UF-B; poles 2; breaker 20 A; protection none; raceway up; trench ditch\n"
GATE = "circuit run\n  cable 12/2 copper UF-B; poles 1; breaker 20 A; protection gfci; raceway up; trench ditch\n"
LOOSE = "feeder run\n  hot 2 x 6 AWG copper {}; raceway up\n"
GOOD = "begins-below 18 in; ends-above 8 ft; ends-in none; subject-to-damage yes"


def riser(run: str, said: str, type: str = "PVC-80", ditch: str = "under yard; cover 24 in") -> str:
    return f"{HOME}{run}raceway up\n  type {type}; route riser; {said}\ntrench ditch\n  {ditch}\n"


def worked(job: Job, fact: Callable[[Any, Job], Any]) -> Any:
    return fact(job.graph.one("up"), job)


def needs(job: Job, fact: Callable[[Any, Job], Any]) -> str:
    with pytest.raises(NotStated) as raised:
        worked(job, fact)
    return str(raised.value)


def answer(job: Job) -> str:
    return run_rule(compile_rule(job.code.rules["riser-unprotected"], job.code), job.graph.one("up"), job).answer


@pytest.mark.parametrize(
    ("run", "ditch", "least"),
    [
        (WELL, "under yard", 18),  # 24 in of cover, held to 18 in
        (GATE, "under yard", 12),
        (GATE, "under driveway", 12),
        (GATE, "under street", 18),
        (GATE.replace("gfci", "none"), "under patio-slab", 18),
        (LOOSE.format("THWN-2"), "under yard", 0),
        (LOOSE.format("USE-2").replace("up\n", "up; trench ditch\n"), "under yard", 18),
    ],
)
def test_least_depth_of_its_lower_end(job_for: JobFor, run: str, ditch: str, least: float) -> None:
    """NFPA 70 300.5(D)(1): the least cover by Table 300.5, but 18 in suffice."""
    assert worked(job_for(riser(run, GOOD, ditch=ditch)), least_below) == Length.of(least, "in")


def test_each_end_from_both_sides(job_for: JobFor) -> None:
    for begins, low in [("18 in", True), ("17.9 in", False)]:
        assert worked(job_for(riser(WELL, f"begins-below {begins}")), begins_low_enough) is low
    for said, high in [
        ("ends-above 8 ft", True),
        ("ends-above 7.9 ft; ends-in none", False),
        ("ends-in pump", True),
        ("ends-above 1 ft; ends-in pump", True),
    ]:
        assert worked(job_for(riser(WELL, said)), top_high_enough) is high


def test_what_may_be_open(job_for: JobFor) -> None:
    assert needs(job_for(riser(WELL, "size 1 in")), begins_low_enough) == "up: begins-below"
    assert needs(job_for(riser(WELL, "size 1 in")), top_high_enough) == "up: ends-above, up: ends-in"
    assert needs(job_for(riser(WELL, "ends-above 7 ft")), top_high_enough) == "up: ends-in"
    assert (
        needs(job_for(riser(GATE.replace("; protection gfci", ""), "begins-below 12 in")), begins_low_enough) == "run: protection"
    )
    unplaced = WELL.replace("; trench ditch", "")
    assert "the ditch in which it goes on" in needs(job_for(riser(unplaced, "begins-below 12 in")), begins_low_enough)
    assert worked(job_for(riser(unplaced, "begins-below 18 in")), begins_low_enough) is True
    assert needs(job_for(riser("", "begins-below 12 in")), begins_low_enough) == "up: holds"
    assert (
        needs(job_for(riser(LOOSE.format(""), "begins-below 1 in")), begins_low_enough) == "run: hot, the insulation of its wires"
    )


def test_low_voltage_cable_of_the_yard_comes_up_as_it_likes(job_for: JobFor) -> None:
    """300.5(D)(1) speaks of columns 1 and 4 of the table (ecmweb.com, code quiz); column 5 is not among them."""
    lights = "circuit run\n  cable 12/2 copper UF-B; volts {} V; use lighting; raceway up; trench ditch\n"
    said = "begins-below 3 in; ends-above 1 ft; ends-in none; subject-to-damage no"
    assert answer(job_for(riser(lights.format(12), said))) == "met"
    assert answer(job_for(riser(lights.format(31), said))) == "broken"
    for volts, wants in [(30, False), (31, True)]:
        job = job_for(riser(lights.format(volts), said))
        assert wants_riser(job.graph.one("run"), job) is wants


def test_cable_in_a_deep_ditch_does_not_make_the_riser_deeper(job_for: JobFor) -> None:
    """The limit is the table's cover for that circuit, not the cover that the cable happens to have."""
    assert (
        answer(job_for(riser(GATE, "begins-below 12 in; ends-in pump; subject-to-damage no", ditch="under yard; cover 36 in")))
        == "met"
    )


@pytest.mark.parametrize(
    ("type", "damage", "expected"),
    [
        ("RMC", "yes", "met"),
        ("IMC", "yes", "met"),
        ("PVC-80", "yes", "met"),
        ("EMT", "yes", "met"),
        ("PVC-40", "yes", "broken"),
        ("HDPE", "yes", "broken"),
        ("LFNC-B", "yes", "broken"),
        ("PVC-40", "no", "met"),
        ("PVC-40", "unknown", "undecided"),
        ("PVC-80", "unknown", "met"),
    ],
)
@pytest.mark.parametrize("edition", [2017, 2020, 2023])
def test_what_may_be_hit(job_for: JobFor, type: str, damage: str, expected: str, edition: int) -> None:
    """300.5(D)(4), 352.10(F); EMT is in that list from 2017 on (electricallicenserenewal.com, code change 273)."""
    for run in (WELL, LOOSE.format("THWN-2")):
        assert answer(job_for(riser(run, GOOD.replace("damage yes", f"damage {damage}"), type), edition)) == expected


@settings(max_examples=60, deadline=None)
@given(
    begins=st.integers(0, 30), deeper=st.integers(0, 12), above=st.integers(0, 12), higher=st.integers(0, 6), small=st.booleans()
)
def test_longer_is_never_worse(job_for: JobFor, begins: int, deeper: int, above: int, higher: int, small: bool) -> None:
    """Law: a riser that begins deeper and ends higher never loses what it had."""
    said = "begins-below {} in; ends-above {} ft; ends-in none; subject-to-damage yes"
    run = GATE if small else WELL
    short = answer(job_for(riser(run, said.format(begins, above))))
    long = answer(job_for(riser(run, said.format(begins + deeper, above + higher))))
    assert short == ("met" if begins >= (12 if small else 18) and above >= 8 else "broken")
    assert (short, long) != ("met", "broken")


@pytest.mark.parametrize(
    ("said", "type", "fault"),
    [
        (
            "begins-below 12 in; ends-above 8 ft; subject-to-damage no",
            "PVC-40",
            "it begins 12 in below the ground, and the cable in it asks for 18 in",
        ),
        (
            "begins-below 18 in; ends-above 7 ft; ends-in none; subject-to-damage no",
            "PVC-40",
            "it ends 7 ft above the ground, in no case, and has to protect the cable up to 8 ft",
        ),
        ("subject-to-damage yes", "ENT", "it can be hit, and ENT is not made for that (RMC, IMC, PVC-80, EMT are)"),
    ],
)
def test_the_finding_names_what_is_wrong_and_nothing_else(job_for: JobFor, said: str, type: str, fault: str) -> None:
    assert worked(job_for(riser(WELL, said, type)), riser_fault) == fault


def test_a_sound_riser_has_no_fault_to_name(job_for: JobFor) -> None:
    with pytest.raises(NotStated) as gap:
        worked(job_for(riser(WELL, GOOD)), riser_fault)
    assert not gap.value.needs[0].arises
