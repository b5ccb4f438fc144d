"""Receptacles and lights of rooms: laws of the farthest point and of islands, and what an answer waits for."""

from collections.abc import Callable

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planlint.book import resolve
from planlint.checking import run_rule
from planlint.facts.counters import receptacles_needed, receptacles_serving
from planlint.facts.engine import Job
from planlint.facts.lighting import doors_are_lit, doors_lit, is_lit
from planlint.facts.room_receptacles import (
    front_is_served,
    has_receptacles_needed,
    height_above_ground,
    is_usual_voltage,
    receptacle_count,
)
from planlint.facts.room_receptacles import receptacles_needed as needed_in_room
from planlint.facts.wall_spaces import farthest_point, has_receptacle, is_habitable
from planlint.plan.elements import NotStated
from planlint.quantities import Length
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
LAWS = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
HOUSE = "building house\n  use one-family\n"
KITCHEN = HOUSE + "place kitchen\n  building house; use kitchen\n"


def worked(job: Job, fact: Callable[..., object], name: str) -> object:
    return fact(job.graph.one(name), job)


def needs(job: Job, fact: Callable[..., object], name: str) -> set[tuple[str, str]]:
    with pytest.raises(NotStated) as gap:
        worked(job, fact, name)
    return {(need.element.name, need.complete or need.attribute) for need in gap.value.needs}


def answer(job: Job, rule: str, name: str) -> str:
    code = resolve((f"model-{job.edition}",))
    return run_rule(compile_rule(code.rules[rule], code), job.graph.one(name), job).answer


def wall(job_for: JobFor, length: int, places: list[int]) -> float:
    listed = ", ".join(f"{place} in" for place in places)
    job = job_for(f"wall-space line\n  length {length} in; receptacles-at {listed}\n")
    return farthest_point(job.graph.one("line"), job).within("in")


@LAWS
@given(length=st.integers(1, 400), places=st.lists(st.integers(0, 400), min_size=1, max_size=6))
def test_the_farthest_point_by_walking_the_line(job_for: JobFor, length: int, places: list[int]) -> None:
    """Every half inch of the line is walked, and its distance to the next receptacle measured."""
    places = [min(place, length) for place in places]
    walked = max(min(abs(step / 2 - place) for place in places) for step in range(2 * length + 1))
    assert wall(job_for, length, places) == pytest.approx(walked)


@LAWS
@given(length=st.integers(1, 400), places=st.lists(st.integers(0, 400), min_size=1, max_size=6), more=st.integers(0, 400))
def test_one_more_receptacle_never_makes_it_farther(job_for: JobFor, length: int, places: list[int], more: int) -> None:
    places = [min(place, length) for place in places]
    assert wall(job_for, length, [*places, min(more, length)]) <= wall(job_for, length, places) + 1e-9


@LAWS
@given(length=st.integers(12, 300), depth=st.integers(12, 100), more=st.integers(0, 50))
def test_a_larger_island_never_wants_fewer(job_for: JobFor, length: int, depth: int, more: int) -> None:
    def needed(long: int, deep: int) -> int:
        job = job_for(f"counter top\n  type island; length {long} in; depth {deep} in\n")
        return receptacles_needed(job.graph.one("top"), job)

    assert needed(length, depth) <= needed(length + more, depth)
    assert needed(length, depth) == needed(depth, length)


def test_positions_that_no_line_can_have(job_for: JobFor) -> None:
    beyond = job_for("wall-space line\n  length 10 ft; receptacles-at 4 ft, 11 ft\n")
    assert needs(beyond, farthest_point, "line") == {("line", "receptacles-at")}
    both = job_for("wall-space line\n  length 10 ft; receptacles-at 4 ft; receptacle-within 6 ft\n")
    assert needs(both, farthest_point, "line") == needs(both, has_receptacle, "line") == {("line", "receptacles-at")}


def test_a_short_wall_without_a_receptacle_isnt_in_reach_of_one(job_for: JobFor) -> None:
    job = job_for(KITCHEN + "wall-space line\n  at kitchen; length 4 ft; receptacles-at none\n")
    assert worked(job, has_receptacle, "line") is False
    assert answer(job, "wall-receptacle-gap", "line") == "broken"


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("place room\n  use living\n", {("room", "building")}),
        ("place room\n  building house\nbuilding house\n  use one-family\n", {("room", "use")}),
        ("place room\n  building house; use living\nbuilding house\n  construction new\n", {("house", "use")}),
        (HOUSE + "place room\n  building house; use basement\n", {("room", "finished")}),
        (HOUSE + "place room\n  building house; use basement; finished yes\n", {("room", "use")}),
    ],
)
def test_what_a_habitable_room_waits_for(job_for: JobFor, text: str, asked: set[tuple[str, str]]) -> None:
    assert needs(job_for(text), is_habitable, "room") == asked


def test_a_room_asks_once_and_a_room_with_walls_not_at_all(job_for: JobFor) -> None:
    text = HOUSE + "place room\n  building house; use living\n"
    line = "wall-space line\n  at room; length 12 ft; receptacles-at 6 ft\n"
    assert answer(job_for("complete rooms\n" + text), "room-receptacle-gap", "room") == "undecided"
    assert answer(job_for("complete rooms\n" + text + line), "room-receptacle-gap", "room") == "met"
    said_both = text.replace("use living", "use living; receptacle-within 8 ft") + line
    assert answer(job_for(said_both), "room-receptacle-gap", "room") == "undecided"


def test_receptacles_both_above_and_below_are_asked_about(job_for: JobFor) -> None:
    top = "counter top\n  at kitchen; type island; length 5 ft; depth 3 ft; receptacles-at 1 ft, 4 ft; below-top 6 in\n"
    job = job_for(KITCHEN + top + "  overhang 2 in; receptacle-height 8 in\n")
    assert needs(job, receptacles_serving, "top") == {("top", "below-top")}
    assert needs(job_for(KITCHEN + top), receptacles_serving, "top") == {("top", "overhang")}


@pytest.mark.parametrize(
    ("volts", "poles", "expected"),
    [
        ("volts 120 V", "poles 2", True),
        ("volts 240 V", "poles 1", False),
        ("volts 125 V", "poles 2", True),
        ("", "poles 1", True),
    ],
)
def test_the_usual_voltage(job_for: JobFor, volts: str, poles: str, expected: bool) -> None:
    job = job_for(f"circuit c\n  {poles}\nreceptacles r\n  circuit c\n  {volts}\n")
    assert worked(job, is_usual_voltage, "r") is expected


def test_two_poles_without_volts_are_a_question(job_for: JobFor) -> None:
    job = job_for("circuit c\n  poles 2\nreceptacles r\n  circuit c\n")
    assert needs(job, is_usual_voltage, "r") == {("r", "volts")}


def test_bays_and_other_receptacles_of_a_garage(job_for: JobFor) -> None:
    """Two by the bench don't say that each bay has one; nor does one for the door's opener."""
    garage = (
        "complete receptacles\n" + HOUSE + "place garage\n  building house; use garage; vehicle-bays 2\ncircuit c\n  poles 1\n"
    )
    bench = "receptacles bench\n  at garage; circuit c; serves general; height 4 ft; count 2\n"
    bay = "receptacles bay\n  at garage; circuit c; serves vehicle-bay; height 4 ft; count {}\n"
    assert needs(job_for(garage + bench), has_receptacles_needed, "garage") == {("garage", "use")}
    assert worked(job_for(garage + bench + bay.format(2)), has_receptacles_needed, "garage") is True
    assert worked(job_for(garage + bay.format(1)), has_receptacles_needed, "garage") is False
    open_list = (garage + bay.format(2)).replace("complete receptacles\n", "")
    assert worked(job_for(open_list), has_receptacles_needed, "garage") is True
    assert needs(job_for(open_list), receptacle_count, "garage") == {("example", "receptacles")}


def test_outbuildings_with_and_without_power(job_for: JobFor) -> None:
    everything = "complete receptacles, lights, loads, circuits, feeders, service, rooms\n"
    shed = HOUSE + "place hall\n  building house\npanel p\n  at hall\ncircuit c\n  panel p; poles 1\nbuilding shed\n  use shed\n"
    lit = "place shed-room\n  building shed; use storage\nlights l\n  at shed-room; circuit c\n"
    assert worked(job_for(everything + shed), needed_in_room, "shed") == 0
    assert worked(job_for(everything + shed + lit), needed_in_room, "shed") == 1
    assert worked(job_for(everything + shed + lit), has_receptacles_needed, "shed") is False
    assert worked(job_for(everything + shed), needed_in_room, "house") == 0


def test_a_garage_of_its_own_is_asked_for_its_bays_or_for_one(job_for: JobFor) -> None:
    everything = "complete receptacles, lights, loads, circuits, feeders, service, rooms\n"
    text = (
        HOUSE + "place hall\n  building house\npanel p\n  at hall\ncircuit c\n  panel p; poles 1\nbuilding barn\n  use garage\n"
    )
    room = "place inside\n  building barn; use {}; vehicle-bays 2\nlights l\n  at inside; circuit c\n"
    assert worked(job_for(everything + text + room.format("storage")), needed_in_room, "barn") == 1
    job = job_for(everything + text + room.format("garage"))
    assert worked(job, needed_in_room, "barn") == 0
    assert worked(job, needed_in_room, "inside") == 2


def test_a_decks_floor_adds_to_the_height(job_for: JobFor) -> None:
    job = job_for("place deck\n  use deck; above-ground 30 in\nreceptacles r\n  at deck; height 18 in\n")
    assert worked(job, height_above_ground, "r") == Length.of(4, "ft")
    low = job_for("place yard\n  use yard\nreceptacles r\n  at yard; height 18 in\n")
    assert worked(low, height_above_ground, "r") == Length.of(18, "in")


def test_two_homes_share_no_receptacle(job_for: JobFor) -> None:
    """One at the front serves one of two dwellings; whether the other is at the ground, the plan doesn't say."""
    text = (
        "complete receptacles, lights, loads, circuits\nbuilding house\n  use two-family\nplace hall\n  building house\n"
        "panel p\n  at hall\ncircuit c\n  panel p; poles 1\nplace yard\n  outdoors yes; use yard; side front\n"
        "receptacles r\n  at yard; circuit c; height 2 ft; count {}\n"
    )
    assert needs(job_for(text.format(1)), front_is_served, "house") == {("house", "use")}
    assert worked(job_for(text.format(2)), front_is_served, "house") is True


@pytest.mark.parametrize(
    ("use", "said", "expected"),
    [
        ("hallway", "lights l\n  at room; switched-from 0; automatic yes\n", True),
        ("kitchen", "lights l\n  at room; switched-from 0; automatic yes\n", False),
        ("bedroom", "receptacles r\n  at room; switched yes\n", True),
        ("kitchen", "receptacles r\n  at room; switched yes\n", False),
        ("bedroom", "receptacles r\n  at room; switched no\n", False),
    ],
)
def test_what_does_for_a_switched_light(job_for: JobFor, use: str, said: str, expected: bool) -> None:
    job = job_for("complete lights, receptacles\n" + HOUSE + f"place room\n  building house; use {use}\n" + said)
    assert worked(job, is_lit, "room") is expected


def test_a_room_with_a_light_isnt_asked_for_its_receptacles(job_for: JobFor) -> None:
    job = job_for(
        HOUSE + "place room\n  building house; use bedroom\nlights l\n  at room; switched-from 1\nreceptacles r\n  at room\n"
    )
    assert worked(job, is_lit, "room") is True


def test_doors_lit_by_what_is_known(job_for: JobFor) -> None:
    """Enough for certain is enough; the number itself waits for every light."""
    text = (
        "complete lights, receptacles, loads, circuits\nbuilding house\n  use one-family; outside-doors {}\nplace hall\n"
        "  building house\npanel p\n  at hall\ncircuit c\n  panel p\nplace yard\n  outdoors yes; use yard\n"
        "lights a\n  at yard; circuit c; switched-from 1; outside-doors 2\nlights b\n  at yard; circuit c; switched-from 1\n"
    )
    assert worked(job_for(text.format(2)), doors_are_lit, "house") is True
    assert needs(job_for(text.format(3)), doors_are_lit, "house") == {("b", "outside-doors")}
    assert needs(job_for(text.format(2)), doors_lit, "house") == {("b", "outside-doors")}
