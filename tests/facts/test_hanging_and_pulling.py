"""What straps, expansion and pulls say where a plan contradicts itself, leaves something open, or the question doesn't arise."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from planlint.desk import worksheet
from planlint.facts.engine import Job
from planlint.facts.expansion import length_change, longest_straight
from planlint.facts.pull_limits import drag_here, most_tension_by_wires, weight_correction_here
from planlint.facts.pulling import pull_faults, pull_tension, ways_to_ease
from planlint.facts.supports import most_first_here, most_spacing_here, support_gaps, supports_in_words
from planlint.plan.elements import Need, NotStated

JobFor = Callable[..., Job]


def of(job: Job, fact: Callable[[Any, Job], Any], name: str = "pipe") -> Any:
    return fact(job.graph.one(name), job)


def need(job: Job, fact: Callable[[Any, Job], Any], name: str = "pipe") -> Need:
    with pytest.raises(NotStated) as gap:
        of(job, fact, name)
    return gap.value.needs[0]


BENT = "complete raceways\nraceway pipe\n  type PVC-40; size 2 in; route above-grade; bends 90 deg; continues none; {}\n"


@pytest.mark.parametrize(
    ("said", "longest"),
    [
        ("length 23 ft; sections 10 ft, 10 ft; bend-radius 24 in", 10),  # and 2 ft x 1.571 of bend: 23.1 ft
        ("length 20 ft; sections 10 ft, 10 ft", 10),
        ("sections 10 ft, 10 ft", 10),
        ("length 100 ft; sections 10 ft, 10 ft", None),
        ("length 10 ft; sections 10 ft, 10 ft", None),
        ("length 30 ft; sections 10 ft, 10 ft; bend-radius 24 in", None),
    ],
)
def test_straight_parts_add_up_to_the_length(job_for: JobFor, said: str, longest: int | None) -> None:
    """A short sketch of a long pipe would let it pass, both for what it grows and for how hard it pulls."""
    job = job_for(BENT.format(said))
    if longest is None:
        assert need(job, longest_straight).attribute == "sections"
    else:
        assert of(job, longest_straight).within("ft") == longest


@pytest.mark.parametrize(
    ("pipe", "arises"),
    [
        ("type PVC-40; route above-grade", True),
        ("type PVC-40; route inside", False),
        ("type EMT; route above-grade", False),
        ("route above-grade", True),
    ],
)
def test_growth_is_asked_of_plastic_in_the_weather(job_for: JobFor, pipe: str, arises: bool) -> None:
    job = job_for(f"complete raceways\nraceway pipe\n  {pipe}; size 1 in; length 20 ft; bends none; continues none\n")
    assert need(job, length_change).arises is arises


def test_straps_and_staples_are_asked_where_there_may_be_any(job_for: JobFor) -> None:
    text = "raceway pipe\n  type PVC-40; size 1 in; route below-slab\n"
    text += "feeder loose\n  hot 2 x 2 AWG copper THWN-2; raceway pipe\ncircuit cable\n  cable 12/2 copper NM-B\n"
    job = job_for(text)
    for fact in (most_spacing_here, most_first_here):
        assert need(job, fact).arises is need(job, fact, "loose").arises is False
    assert of(job, most_spacing_here, "cable").within("ft") == 4.5
    assert need(job, most_first_here, "cable").attribute == "first-support"


@pytest.mark.parametrize(
    ("said", "gaps"),
    [
        ("support-spacing 5 ft", "5 ft between two staples, where 4.5 ft is the most"),
        ("first-support 13 in; unfastened no", "13 in from a box or end to the first staple, where 1 ft is the most"),
        ("support-spacing 4-1/2 ft; first-support 8 in", "nothing"),
    ],
)
def test_gaps_are_said_whatever_else_is_open(job_for: JobFor, said: str, gaps: str) -> None:
    assert of(job_for(f"circuit cable\n  cable 14/2 copper NM-B; {said}\n"), support_gaps, "cable") == gaps


STRAIGHT = """complete raceways, service, feeders, circuits
raceway pipe
  type PVC-40; size 2 in; length 400 ft; bends none; slopes 0 deg; continues none; holds {holds}; {said}
"""


def test_a_straight_pull_speaks_of_no_bend(job_for: JobFor) -> None:
    """400 ft x 1 lb/ft x 0.5: 200 lb; 100 lb are 200 ft of it."""
    said = "cable-weight 1 lb/ft; weight-correction 1; most-tension 100 lb"
    job = job_for(STRAIGHT.format(holds="3 x 2/0 copper THWN-2", said=said))
    assert of(job, pull_faults) == "takes 200 lb where the rope comes out, where 100 lb is allowed"
    assert of(job, ways_to_ease).split("; ")[1:] == [
        "put a pull box or a handhole between, for one straight, level pull may be 200 ft long"
    ]


@pytest.mark.parametrize(("said", "drag"), [("", 0.35), ("; friction 0.6", 0.6), ("; friction unknown", None)])
def test_friction_is_the_plans_or_the_rule_books(tmp_path: Path, said: str, drag: float | None) -> None:
    """A profile that goes by lubricated pulls, 0.35; what the plan states wins, and `unknown` is an open question."""
    (tmp_path / "oily.yaml").write_text(
        "profile: oily\ntitle: Oily\nbased-on: model-2020\nsettings:\n  drag-here.friction: 0.35\n"
    )
    pull = STRAIGHT.format(holds="3 x 2/0 copper THWN-2", said=f"cable-weight 1 lb/ft; weight-correction 1{said}")
    complete, _, rest = pull.partition("\n")
    sheet = worksheet(f'plan "Pull"\n  profile oily; {complete}\n{rest}', profiles=[tmp_path])
    found = {entry.fact: entry for _, _, entry in sheet.entries()}
    tension = found["pull-tension"]
    assert tension.value == (f"{400 * drag:g} lb" if drag else "")
    if drag is None:
        assert [need.attribute for need in tension.missing] == ["friction"]


def test_a_spare_pipe_has_no_pull(job_for: JobFor) -> None:
    job = job_for(STRAIGHT.format(holds="none", said="friction 0.4"))
    for fact in (weight_correction_here, drag_here, most_tension_by_wires, pull_tension):
        assert not need(job, fact).arises


def test_a_pull_that_nobody_weighs_is_not_worked_out(job_for: JobFor) -> None:
    job = job_for(STRAIGHT.format(holds="3 x 2/0 copper THWN-2", said="friction 0.4"))
    assert not need(job, pull_tension).arises
    unknown = job_for(STRAIGHT.format(holds="3 x 2/0 copper THWN-2", said="friction 0.4; cable-weight unknown"))
    assert need(unknown, pull_tension).attribute == "cable-weight"


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("circuit line\n  cable 14/2 copper NM-B", "staples at most 4.5 ft apart, the first within 1 ft of its box (8 in of"),
        ("circuit line\n  cable 14/2 copper NM-B; unfastened whip", "staples at most 4.5 ft apart, the first within 4-1/2 ft of"),
        ("service line\n  cable SEU; hot 2 x 2/0 aluminum", "staples at most 30 in apart, the first within 1 ft of its box"),
        ("circuit line\n  cable MC", "staples at most 6 ft apart, the first within 1 ft of its box (6 ft for large cable)"),
        (
            "raceway line\n  type PVC-80; size 2 in; route riser",
            "straps at most 5 ft apart, the first within 3 ft of its box or end",
        ),
        (
            "raceway line\n  type RMC; size 2 in; route riser",
            "straps at most 10 ft apart (straight and threaded 16 ft), the first",
        ),
        (
            "raceway line\n  type IMC; size 1/2 in; route riser",
            "straps at most 10 ft apart, the first within 3 ft of its box or end (5 ft",
        ),
        (
            "raceway line\n  type EMT; size 1/2 in; route inside",
            "straps at most 10 ft apart, the first within 3 ft of its box or end (5",
        ),
    ],
)
def test_straps_are_told_before_the_first_is_in_place(job_for: JobFor, line: str, words: str) -> None:
    """NFPA 70 230.51(A), 330.30(B), 334.30, 344.30, 352.30, 358.30: the figures of tests/published/test_supports.py."""
    assert of(job_for(line + "\n"), supports_in_words, "line").startswith(words)
