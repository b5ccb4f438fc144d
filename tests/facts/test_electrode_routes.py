"""The ways of wires to electrodes, and bars over which wires lead on: edge cases and what is left open."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.electrode_routes import (
    aluminum_near_soil,
    in_steel,
    protection_needed,
    steel_bonded,
    wires_past_it,
)
from planlint.facts.engine import Job
from planlint.plan.elements import NotStated

JobFor = Callable[..., Job]


def answer(fact: Callable[[Any, Job], object], name: str, job: Job) -> object:
    try:
        return fact(job.graph.one(name), job)
    except NotStated as gap:
        return sorted({need.attribute for need in gap.needs})


@pytest.mark.parametrize(
    ("said", "needed"),
    [
        ("size 8 AWG copper", True),
        ("size 8 AWG copper; subject-to-damage no", True),
        ("size 6 AWG copper; subject-to-damage no", False),
        ("size 6 AWG aluminum; subject-to-damage no", False),
        ("size 8 AWG aluminum; subject-to-damage no", True),
        ("size 3/0 AWG copper; subject-to-damage yes", True),
        ("size 6 AWG copper", ["subject-to-damage"]),
        ("size 6 AWG; subject-to-damage no", ["size"]),
    ],
)
def test_where_a_wire_wants_protection(job_for: JobFor, said: str, needed: object) -> None:
    assert answer(protection_needed, "w", job_for(f"electrode-conductor w\n  {said}\n")) == needed


@pytest.mark.parametrize(
    ("said", "near"),
    [
        ("size 4 AWG copper", False),
        ("size 4 AWG aluminum; soil-distance 18 in", False),
        ("size 4 AWG aluminum; soil-distance 17 in", True),
        ("size 4 AWG aluminum", ["soil-distance"]),
        ("size 4 AWG", ["size"]),
    ],
)
def test_aluminum_near_the_soil(job_for: JobFor, said: str, near: object) -> None:
    assert answer(aluminum_near_soil, "w", job_for(f"electrode-conductor w\n  {said}\n")) == near


@pytest.mark.parametrize(
    ("said", "steel", "bonded"),
    [
        ("raceway sleeve", True, ["ends-bonded"]),
        ("raceway plastic", False, ["ends-bonded"]),
        ("raceway none; protected no", False, ["armor-bonded"]),
        ("raceway none; protected yes; armor-bonded no", True, False),
        ("raceway none; armor-bonded yes", ["protected"], True),
        ("protected no", False, ["raceway"]),
        ("protected no; raceway unknown", ["raceway"], ["raceway"]),
        ("protected no; raceway sleeve", ["protected"], ["ends-bonded"]),
        ("protected yes", ["raceway"], ["raceway"]),
    ],
)
def test_steel_round_a_wire(job_for: JobFor, said: str, steel: object, bonded: object) -> None:
    job = job_for(f"raceway sleeve\n  type RMC\nraceway plastic\n  type PVC-80\nelectrode-conductor w\n  {said}\n")
    assert answer(in_steel, "w", job) == steel
    assert answer(steel_bonded, "w", job) == bonded


def past_the_bar(job_for: JobFor, *wires: str, whole: bool = True) -> object:
    """The wires that lead on from the electrode bar, of wires written start-end; gear is the disconnect."""
    text = "complete grounding\n" if whole else ""
    text += "disconnect gear\n  breaker 200 A\n" + "".join(f"electrode {name}\n  type rod\n" for name in ("bar", "a", "b"))
    for wire in wires:
        start, end = wire.split("-")
        text += f"electrode-conductor {start}-to-{end}\n  from {start}; to {end}\n"
    found = answer(wires_past_it, "bar", job := job_for(text))
    return (
        found if isinstance(found, list) else ([wire.name for wire in wires_past_it(job.graph.one("bar"), job)], bool(found.gaps))
    )  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("wires", "past"),
    [
        (["gear-bar"], []),
        (["gear-bar", "bar-a"], ["bar-to-a"]),
        (["gear-bar", "a-bar"], ["a-to-bar"]),
        (["gear-bar", "bar-a", "b-bar"], ["b-to-bar", "bar-to-a"]),
        # The bar is the end of a chain, or its middle.
        (["gear-a", "a-bar"], []),
        (["gear-a", "bar-a"], []),
        (["gear-a", "a-bar", "bar-b"], ["bar-to-b"]),
        # Each has its own wire to the gear: the bar links nothing.
        (["gear-a", "gear-bar", "a-bar"], []),
        (["gear-a", "a-b", "gear-bar"], []),
    ],
)
def test_wires_that_lead_on_over_a_bar(job_for: JobFor, wires: list[str], past: list[str]) -> None:
    assert past_the_bar(job_for, *wires) == (past, False)
    known, open_ = past_the_bar(job_for, *wires, whole=False)  # type: ignore[misc]
    assert open_
    assert set(known) <= set(past)
