"""Hot tubs: what is open while the plan leaves something out, distances as laws, and what a finding says."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.facts.buildings import stands_outdoors
from planlint.facts.engine import Job
from planlint.facts.hot_tubs import (
    surround_suits,
    tub_disconnect_suits,
    tub_fault,
    tub_gfci_suits,
    tub_ground_suits,
    tub_receptacle_suits,
)
from planlint.plan.elements import NotStated

JobFor = Callable[..., Job]
PLACES = """building house
  use one-family
place deck
  outdoors yes
place cellar
  building house; finished no
place sunroom
  building house; finished yes
place somewhere
  use porch
"""


def settled(job: Job, fact: Callable[[Any, Job], Any], name: str = "unit") -> Any:
    """The value, or what is missing."""
    try:
        return fact(job.graph.one(name), job)
    except NotStated as gap:
        return " ".join(need.note or f"{need.element.name}: {need.attribute or need.complete}" for need in gap.needs)


def tub(job_for: JobFor, more: str, before: str = "") -> Job:
    return job_for(f"{PLACES}{before}load unit\n  type hot-tub; {more}\n")


@pytest.mark.parametrize(
    ("place", "outdoors"),
    [
        ("deck", True),
        ("sunroom", False),
        ("house", "unit: at, the place that it stands in, indoors or outdoors"),
        ("somewhere", "somewhere: outdoors"),
    ],
)
def test_where_it_stands(job_for: JobFor, place: str, outdoors: object) -> None:
    assert settled(tub(job_for, f"at {place}"), stands_outdoors) == outdoors


@settings(max_examples=60, deadline=None)
@given(inches=st.integers(min_value=0, max_value=400), place=st.sampled_from(["deck", "sunroom"]))
def test_receptacles_between_their_limits(job_for: JobFor, inches: int, place: str) -> None:
    """680.22(A), 680.43(A): 72 in to 240 in outdoors, to 120 in indoors."""
    job = tub(job_for, f"at {place}; receptacle-distance {inches} in")
    assert settled(job, tub_receptacle_suits) is (72 <= inches <= (240 if place == "deck" else 120))


@pytest.mark.parametrize(
    ("distance", "suits"), [("5 ft", False), ("8 ft", True), ("15 ft", "somewhere: outdoors"), ("21 ft", False)]
)
def test_receptacle_while_the_place_is_open(job_for: JobFor, distance: str, suits: object) -> None:
    assert settled(tub(job_for, f"at somewhere; receptacle-distance {distance}"), tub_receptacle_suits) == suits


@pytest.mark.parametrize(
    ("more", "suits"),
    [
        ("disconnect-distance 6 ft; disconnect cord", True),
        ("disconnect-distance 6 ft; disconnect switch; disconnect-in-sight no", False),
        ("disconnect-distance 6 ft; disconnect-in-sight yes", True),
        ("disconnect-distance 6 ft; disconnect-in-sight no", "unit: disconnect"),
        ("disconnect-distance 6 ft; disconnect switch", "unit: disconnect-in-sight"),
        ("disconnect-distance 4 ft", False),
        ("disconnect cord", "unit: disconnect-distance"),
    ],
)
def test_disconnects(job_for: JobFor, more: str, suits: object) -> None:
    assert settled(tub(job_for, more), tub_disconnect_suits) == suits


@pytest.mark.parametrize(
    ("more", "suits"),
    [
        ("gfci yes", True),
        ("gfci no; self-contained yes", False),
        ("gfci no; amps 50 A; volts 240 V", False),
        ("gfci no; amps 51 A; volts 240 V", "unit: self-contained"),
        ("self-contained yes", "unit: gfci"),
    ],
)
def test_gfci(job_for: JobFor, more: str, suits: object) -> None:
    job = tub(job_for, f"connection hard-wired; circuit run; {more}", "circuit run\n  protection none\n")
    assert settled(job, tub_gfci_suits) == suits


@pytest.mark.parametrize(
    ("wires", "connection", "suits"),
    [
        ("cable MC; hot 2 x 6 AWG copper THHN; ground 10 AWG copper THHN", "hard-wired", True),
        ("cable MC; hot 2 x 6 AWG copper THHN; ground 10 AWG copper", "hard-wired", "ground, the insulation"),
        ("cable 12/2 copper UF-B", "cord", "ground, the insulation"),
        ("cable 6/3 copper UF-B", "hard-wired", False),
        ("cable 6/3 copper NM-B", "hard-wired", "ground, the insulation"),
    ],
)
def test_grounds_of_cables(job_for: JobFor, wires: str, connection: str, suits: object) -> None:
    job = tub(job_for, f"circuit run; connection {connection}", f"circuit run\n  breaker 50 A; poles 2; {wires}\n")
    found = settled(job, tub_ground_suits)
    assert found is suits if isinstance(suits, bool) else suits in found


def test_a_ground_of_another_run_in_the_pipe(job_for: JobFor) -> None:
    """It is large enough; of what it is made is not asked of another run."""
    before = """raceway pipe
  type PVC-40
circuit run
  breaker 50 A; poles 2; hot 2 x 6 AWG copper THWN-2; neutral none; ground none; raceway pipe
circuit other
  breaker 50 A; poles 2; hot 2 x 6 AWG copper THWN-2; neutral none; ground {}; raceway pipe
"""
    more = "circuit run; connection hard-wired"
    assert settled(tub(job_for, more, before.format("14 AWG copper THWN-2")), tub_ground_suits) is False
    assert "insulation" in settled(tub(job_for, more, before.format("10 AWG copper THWN-2")), tub_ground_suits)


@pytest.mark.parametrize(
    ("more", "suits"),
    [
        ("at deck; surround-bonded yes", True),
        ("surround-bonded yes", True),
        ("at deck; self-contained yes; rim-height 28 in", True),
        ("at deck; surround-bonded no; self-contained yes", "unit: rim-height"),
        ("at deck; surround-bonded no; rim-height 30 in", "unit: self-contained"),
        ("at deck; surround-bonded no; rim-height 20 in", False),
        ("at sunroom; surround-bonded no; self-contained yes", True),
        ("at cellar; surround-bonded no; self-contained yes; rim-height 36 in", "unit: whether it stands above a finished floor"),
        ("at house; surround-bonded no; self-contained yes", "unit: at, the place that it stands in, indoors or outdoors"),
    ],
)
def test_floors(job_for: JobFor, more: str, suits: object) -> None:
    assert settled(tub(job_for, more), surround_suits) == suits


def test_words_name_what_is_broken_and_nothing_else(job_for: JobFor) -> None:
    more = "at deck; disconnect switch; disconnect-in-sight no; disconnect-distance 4 ft; receptacle-distance 5 ft; gfci yes"
    words = settled(tub(job_for, more), tub_fault)
    assert words == (
        "its disconnect is 4 ft from the water, and must be 5 ft or more; its disconnect is out of its sight; "
        "its nearest receptacle is 5 ft from the water, and must be 6 ft or more"
    )


@pytest.mark.parametrize(
    ("place", "distance", "words"),
    [
        ("deck", "21 ft", "its nearest receptacle is 21 ft from the water, and must be no more than 20 ft (indoors 10 ft)"),
        ("sunroom", "11 ft", "its nearest receptacle is 11 ft from the water, and must be no more than 10 ft"),
    ],
)
def test_words_for_a_receptacle_too_far_off(job_for: JobFor, place: str, distance: str, words: str) -> None:
    more = f"at {place}; disconnect cord; disconnect-distance 6 ft; receptacle-distance {distance}; gfci yes"
    assert settled(tub(job_for, more), tub_fault) == words


def test_only_tubs_are_asked(job_for: JobFor) -> None:
    job = job_for("load unit\n  type well-pump\n")
    assert settled(job, tub_receptacle_suits) == "unit: a hot tub"
