"""Bonding jumpers and the service's neutral: edge cases and laws."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.bonding import arriving_neutral, fed_by_existing_three_wire, least_neutral, size_needed
from planlint.facts.engine import Job
from planlint.plan.elements import NotStated
from planlint.trade import NO_WIRE, WireSize

JobFor = Callable[..., Job]


def answer(fact: Callable[[Any, Job], object], name: str, job: Job) -> object:
    try:
        return fact(job.graph.one(name), job)
    except NotStated:
        return "undecided"


def service(
    job_for: JobFor,
    wires: str,
    bond: str = "type main; from main-switch; listed-screw no; size 8 AWG copper",
    owner: str = "customer",
) -> Job:
    return job_for(
        f"""complete service, feeders, grounding
supply utility
  type utility
disconnect main-switch
  breaker 200 A; neutral bonded
service drop-wires
  from utility; to main-switch; owner {owner}; raceway pipe-a, pipe-b; {wires}
raceway pipe-a
  type PVC-80
raceway pipe-b
  type PVC-80
bond jumper
  {bond}
"""
    )


def copper(size: str) -> WireSize:
    return WireSize(size, "copper")


def test_a_main_jumper_is_sized_by_all_parallel_sets(job_for: JobFor) -> None:
    """NFPA 70 Table 250.102(C)(1): 2 x 4/0 AWG aluminum is 423 kcmil, in the row of 250 to 500 kcmil: 2 AWG copper."""
    assert answer(size_needed, "jumper", service(job_for, "hot 2 x 4/0 aluminum XHHW-2")) == copper("4")
    assert answer(size_needed, "jumper", service(job_for, "hot 2 x 4/0 aluminum XHHW-2; sets 2")) == copper("2")


def test_a_supply_side_jumper_of_one_pipe_is_sized_by_the_set_in_it(job_for: JobFor) -> None:
    """NFPA 70 250.102(C)(2); a single jumper for all pipes counts them together. Without its other end it is open which it is."""
    wires = "hot 2 x 4/0 aluminum XHHW-2; sets 2"
    start = "type supply-side; from main-switch; size 8 AWG copper"
    assert answer(size_needed, "jumper", service(job_for, wires, f"{start}; to pipe-a")) == copper("4")
    assert answer(size_needed, "jumper", service(job_for, wires, f"{start}; to main-switch")) == copper("2")
    assert answer(size_needed, "jumper", service(job_for, wires, start)) == "undecided"
    assert answer(size_needed, "jumper", service(job_for, "hot 2 x 4/0 aluminum XHHW-2", start)) == copper("4")


def test_the_metal_of_a_jumper_is_never_guessed(job_for: JobFor) -> None:
    job = service(job_for, "hot 2 x 4/0 aluminum XHHW-2", "type main; from main-switch; size 4 AWG")
    assert answer(size_needed, "jumper", job) == "undecided"


def test_past_the_table_two_metals_are_an_open_question(job_for: JobFor) -> None:
    """NFPA 70 Table 250.102(C)(1) takes 12.5 % of the hot wires' area, which says nothing across metals."""
    job = service(job_for, "hot 2 x 2000 kcmil aluminum XHHW-2", "type main; from main-switch; size 4 AWG copper")
    assert answer(size_needed, "jumper", job) == "undecided"


@pytest.mark.parametrize(
    ("wires", "arriving", "least"),
    [
        ("hot 2 x 4/0 aluminum XHHW-2; neutral none", NO_WIRE, copper("4")),
        ("hot 2 x 4/0 aluminum XHHW-2", "undecided", "undecided"),
        ("neutral 2 AWG aluminum XHHW-2", WireSize("2", "aluminum"), "undecided"),
        # A neutral is never larger than the hot wires (250.24(C)(1)); the table's first row would ask for 8 AWG.
        ("hot 2 x 10 AWG copper THWN-2; neutral 10 AWG copper THWN-2", copper("10"), copper("10")),
        # In parallel sets never below 1/0 AWG (250.24(C)(2), from memory); the table asks for 4 AWG copper only.
        ("hot 2 x 4/0 aluminum XHHW-2; neutral 1/0 copper XHHW-2; sets 2", copper("1/0"), copper("1/0")),
    ],
)
def test_the_neutral_of_a_service(job_for: JobFor, wires: str, arriving: object, least: object) -> None:
    job = service(job_for, wires)
    assert answer(arriving_neutral, "main-switch", job) == arriving
    assert answer(least_neutral, "main-switch", job) == least
    assert answer(least_neutral, "drop-wires", job) == least


def test_the_utilitys_neutral_is_its_own_to_size_but_has_to_come(job_for: JobFor) -> None:
    job = service(job_for, "hot 2 x 4/0 aluminum XHHW-2; neutral 4 AWG aluminum XHHW-2", owner="utility")
    assert answer(least_neutral, "main-switch", job) == answer(arriving_neutral, "main-switch", job) == WireSize("4", "aluminum")
    without = service(job_for, "hot 2 x 4/0 aluminum XHHW-2; neutral none", owner="utility")
    assert answer(arriving_neutral, "main-switch", without) == NO_WIRE
    assert answer(least_neutral, "main-switch", without) == copper("4")


@pytest.mark.parametrize("metal", ["copper", "aluminum"])
def test_larger_hot_wires_never_ask_for_a_smaller_jumper_or_neutral(job_for: JobFor, metal: str) -> None:
    asked = []
    for size in ("6", "2", "1", "1/0", "2/0", "3/0", "4/0", "250", "350", "500", "600", "900", "1250", "2000"):
        job = service(
            job_for,
            f"hot 2 x {size} {metal} XHHW-2; neutral 2000 kcmil {metal} XHHW-2",
            f"type main; from main-switch; size 8 AWG {metal}",
        )
        jumper, neutral = answer(size_needed, "jumper", job), answer(least_neutral, "main-switch", job)
        assert isinstance(jumper, WireSize) and isinstance(neutral, WireSize)
        asked.append((jumper.area, neutral.area))
    assert asked == sorted(asked)


def barn(job_for: JobFor, feeder: str, more: str = "") -> object:
    job = job_for(
        f"""complete service, feeders, circuits, raceways
building cottage
  use one-family
building barn
  use barn
place hall
  building cottage
place barn-room
  building barn
panel house-panel
  at hall
panel barn-panel
  at barn-room
feeder barn-feeder
  from house-panel; to barn-panel; {feeder}
{more}"""
    )
    return answer(fed_by_existing_three_wire, "barn-panel", job)


def test_only_an_old_feeder_from_another_building_without_any_ground_path_is_let_off(job_for: JobFor) -> None:
    """NFPA 70 250.32(B)(1), exception: there before, no ground wire, and no metal path beside it."""
    old = "cable SEU; existing yes; neutral 6 AWG copper"
    assert barn(job_for, f"{old}; ground none") is True
    assert barn(job_for, "cable SEU; ground none") is False
    assert barn(job_for, f"{old}; ground 8 AWG copper bare") is False
    assert barn(job_for, old) == "undecided"
    assert barn(job_for, "cable SEU; existing yes; ground none") == "undecided"
    assert barn(job_for, "cable SEU; existing yes; neutral none; ground none") is False
    pipe = "raceway barn-pipe\n  type RMC\n"
    in_metal = "hot 2 x 6 AWG copper THWN-2; raceway barn-pipe; ground none; existing yes"
    assert barn(job_for, in_metal, more=pipe) is False


def test_an_old_feeder_within_one_building_is_not_let_off(job_for: JobFor) -> None:
    job = job_for(
        """complete service, feeders, circuits
building cottage
  use one-family
place hall
  building cottage
panel house-panel
  at hall
panel old-panel
  at hall
feeder old-feeder
  from house-panel; to old-panel; cable SEU; existing yes; ground none
"""
    )
    assert answer(fed_by_existing_three_wire, "old-panel", job) is False
