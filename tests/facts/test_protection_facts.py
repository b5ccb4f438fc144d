"""Facts of protection and outlets: what they say where a plan is silent, their words, and a locality's own places."""

from collections.abc import Callable
from pathlib import Path

import pytest

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.facts.arc_faults import afci_needed, afci_rooms
from planlint.facts.buildings import in_open_air
from planlint.facts.engine import Job
from planlint.facts.ground_fault_places import gfci_reason
from planlint.facts.ground_faults import gfci_in_reach, gfci_needed
from planlint.facts.outlet_volts import receptacle_volts
from planlint.facts.receptacle_types import cover_suits, weather_fault
from planlint.facts.temporary import feeds_permanent_panel, is_temporary, temporary_supply_fault, work_receptacle_fault
from planlint.language import read_text
from planlint.plan.elements import NotStated
from planlint.plan.graph import Graph

JobFor = Callable[..., Job]


def needs(asked: Callable[[], object]) -> set[str]:
    """What a fact waits for, as `element: attribute` or its note."""
    with pytest.raises(NotStated) as gap:
        asked()
    return {str(need) for need in gap.value.needs}


def test_a_receptacle_on_two_poles_has_to_say_its_voltage(job_for: JobFor) -> None:
    job = job_for("circuit one\n  poles 1\ncircuit two\n  poles 2\nreceptacles a\n  circuit one\nreceptacles b\n  circuit two\n")
    assert receptacle_volts(job.graph.one("a"), job).within("V") == 120
    assert needs(lambda: receptacle_volts(job.graph.one("b"), job)) == {"b: volts, because its circuit has 2 poles"}


def test_what_a_room_leaves_open_is_asked(job_for: JobFor) -> None:
    text = """place den
  use den
circuit run
  poles 1
receptacles it
  at den; circuit run; rating 15 A; serves general
"""
    job = job_for(text, 2020)
    asked = needs(lambda: gfci_needed(job.graph.one("it"), job))
    assert asked == {"den: building", "den: sink", "den: tub", "den: moisture"}


DEN = """complete rooms
place den
  use den; outdoors no; building house; moisture dry{}
building house
  use one-family
circuit run
  poles 1
receptacles one
  at den; circuit run; rating 15 A; serves general{}
receptacles two
  at den; circuit run; rating 15 A; serves general
"""


@pytest.mark.parametrize("edition", [2017, 2020, 2023])
def test_a_room_without_sink_and_tub_answers_for_its_receptacles(job_for: JobFor, edition: int) -> None:
    """210.8(A): 6 ft from a sink or tub. Where there is none, no receptacle is asked; where there is one, each is."""
    job = job_for(DEN.format("; sink no; tub no", ""), edition)
    assert not any(gfci_needed(job.graph.one(name), job) for name in ("one", "two"))
    job = job_for(DEN.format("; sink yes; tub no", "; distance-to-sink 6.1 ft; behind-door no"), edition)
    assert not gfci_needed(job.graph.one("one"), job)
    assert "two: distance-to-sink" in needs(lambda: gfci_needed(job.graph.one("two"), job))
    job = job_for(DEN.format("; sink yes; tub no", "; distance-to-sink 6 ft; behind-door no"), edition)
    assert gfci_needed(job.graph.one("one"), job)
    job = job_for(DEN.format("; sink no", ""), edition)
    assert needs(lambda: gfci_needed(job.graph.one("two"), job)) == {"den: tub"}


def test_a_receptacle_nearer_to_a_sink_than_its_room_says_is_asked(job_for: JobFor) -> None:
    job = job_for(DEN.format("; sink no; tub no", "; distance-to-sink 4 ft"))
    asked = needs(lambda: gfci_needed(job.graph.one("one"), job))
    assert asked == {"one: distance-to-sink, because it is 4 ft from one, and den says sink no"}
    job = job_for(DEN.format("; sink no; tub no", "; distance-to-sink 20 ft"))
    assert not gfci_needed(job.graph.one("one"), job)
    bar = "counter bar\n  at den; sink yes\n"
    job = job_for(DEN.format("; sink no; tub no", "") + bar, 2023)
    assert needs(lambda: gfci_needed(job.graph.one("one"), job)) == {"den: sink, because bar in it has one"}


@pytest.mark.parametrize(("use", "asked"), [("use garage", "spot: building"), ("use deck", "spot: outdoors")])
def test_a_place_that_says_neither_is_asked_what_its_use_suggests(job_for: JobFor, use: str, asked: str) -> None:
    job = job_for(f"place spot\n  {use}\n")
    assert needs(lambda: in_open_air(job.graph.one("spot"), job)) == {asked}


BATH = "place bath\n  use bathroom\ncircuit run\n  poles 1\nreceptacles it\n  at bath; circuit run; rating 15 A\n"


def test_one_reason_is_enough_whatever_else_is_open(job_for: JobFor) -> None:
    job = job_for(
        "place bath\n  use bathroom\ncircuit run\n  poles 1\nreceptacles it\n  at bath; circuit run; rating 15 A\n", 2017
    )
    it = job.graph.one("it")
    assert gfci_needed(it, job)
    assert gfci_reason(it, job) == "the use of its room is bathroom"


def test_a_voltage_above_150_asks_for_the_supply(job_for: JobFor) -> None:
    text = "place bay\n  use garage\ncircuit run\n  poles 2\nreceptacles it\n  at bay; circuit run; rating 30 A; volts 240 V\n"
    job = job_for(text, 2020)
    asked = needs(lambda: gfci_needed(job.graph.one("it"), job))
    assert asked == {"run: how far its 240 V are from ground, for which the supply must be shown"}


def test_a_breaker_is_reached_where_its_panel_is(job_for: JobFor) -> None:
    text = """panel open
  readily-accessible yes
panel shut
  readily-accessible no
circuit a
  panel open; protection gfci
circuit b
  panel shut; protection gfci
receptacles by-a
  circuit a
receptacles by-b
  circuit b; gfci no
receptacles both
  circuit b; gfci yes; gfci-reachable yes
receptacles silent
  circuit b
"""
    job = job_for(text)
    assert gfci_in_reach(job.graph.one("by-a"), job)
    assert not gfci_in_reach(job.graph.one("by-b"), job)
    assert gfci_in_reach(job.graph.one("both"), job)
    assert needs(lambda: gfci_in_reach(job.graph.one("silent"), job)) == {"silent: gfci", "silent: gfci-reachable"}


def test_a_load_of_a_house_has_to_name_its_room(job_for: JobFor) -> None:
    text = """complete receptacles, lights, loads
building house
  use one-family
building barn
  use barn
circuit a
  poles 1; breaker 15 A
circuit b
  poles 1; breaker 15 A
load fan
  at house; circuit a
load barn-fan
  at barn; circuit b
"""
    job = job_for(text)
    assert needs(lambda: afci_needed(job.graph.one("a"), job)) == {"fan: at, the room that it is in"}
    assert not afci_needed(job.graph.one("b"), job)


def test_rooms_are_named_once(job_for: JobFor) -> None:
    text = """building house
  use one-family
place den
  building house; use den
place bath
  building house; use bathroom
circuit a
  poles 1; breaker 15 A
lights one
  at den; circuit a
lights two
  at den; circuit a
lights three
  at bath; circuit a
"""
    job = job_for(text)
    assert afci_rooms(job.graph.one("a"), job) == "den"


def test_covers_wait_for_the_place_only_where_it_counts(job_for: JobFor) -> None:
    text = """place spot
  outdoors yes
circuit run
  poles 1
receptacles hood
  at spot; circuit run; rating 20 A; cover in-use
receptacles open
  at spot; circuit run; rating 20 A; cover none; weather-resistant no
receptacles flap
  at spot; circuit run; rating 20 A; cover weatherproof
"""
    job = job_for(text)
    assert cover_suits(job.graph.one("hood"), job)
    assert not cover_suits(job.graph.one("open"), job)
    assert weather_fault(job.graph.one("open"), job) == "it has no weatherproof cover and it isn't marked WR"
    assert needs(lambda: cover_suits(job.graph.one("flap"), job)) == {"spot: moisture"}


def test_building_work(job_for: JobFor) -> None:
    text = """complete feeders, grounding, lights
supply utility
  type utility
panel pole
  temporary yes; mounted-on none; braced no
panel house-panel
  bus 200 A
span line
  attachment 14 ft
service way
  from utility; to pole; span line
feeder early
  from pole; to house-panel
circuit a
  panel pole; poles 1; protection none
circuit b
  panel house-panel; poles 1
circuit c
  temporary no
receptacles it
  circuit a; rating 20 A; gfci no
lights site
  circuit a
"""
    job = job_for(text)
    assert is_temporary(job.graph.one("a"), job)
    assert not is_temporary(job.graph.one("b"), job)
    assert needs(lambda: is_temporary(job.graph.one("c"), job)) == {"c: panel"}
    assert feeds_permanent_panel(job.graph.one("pole"), job)
    assert work_receptacle_fault(job.graph.one("it"), job) == "no GFCI protects it and lights are on its circuit"
    assert temporary_supply_fault(job.graph.one("pole"), job) == (
        "nothing braces it against the pull of the line and no ground rod is joined to it "
        "and it feeds a panel of the finished wiring"
    )


LOCAL = """profile: heron-county
title: Heron County, made up
based-on: model-2020
confirm-with: the county
settings:
  gfci-needed.most-volts: {value: 125 V, because: section 1}
  gfci-needed.rooms: {value: [bathroom, garage, crawl-space, boathouse, laundry], because: section 1}
  gfci-needed.unfinished-rooms: {value: [basement], because: section 1}
  gfci-needed.single-spared: {value: [appliance], because: section 2}
  afci-needed.rooms: {value: [bedroom, living], because: section 3}
"""


def test_a_locality_changes_places_and_voltages_without_python(tmp_path: Path) -> None:
    """Kinds of change that real places make: 250 V taken out, basements only while unfinished, kitchens without AFCI."""
    (tmp_path / "profiles").mkdir()
    (tmp_path / "profiles" / "heron-county.yaml").write_text(LOCAL, encoding="utf-8")
    text = """supply utility
  type utility; volts 120/240 V
building house
  use one-family
place cellar
  building house; use basement; finished yes; moisture dry
place bay
  building house; use garage; moisture dry
place kitchen
  building house; use kitchen; moisture dry
circuit run
  poles 1; breaker 20 A
circuit two
  poles 2; breaker 30 A
receptacles low
  at cellar; circuit run; rating 15 A; serves general; distance-to-sink 20 ft; distance-to-tub 20 ft
receptacles large
  at bay; circuit two; rating 30 A; volts 240 V; serves general
receptacles opener
  at bay; circuit run; rating 15 A; serves appliance; single yes
lights kitchen-lights
  at kitchen; circuit run
"""
    graph = Graph(read_text(text, example=True).elements)
    found = {}
    for name in ("model-2020", "heron-county"):
        job = Job(graph, resolve((name,), folders=(tmp_path / "profiles",)), Tables())
        wanted = {each: gfci_needed(graph.one(each), job) for each in ("low", "large", "opener")}
        kitchen = any(room == "kitchen" for room in afci_rooms(graph.one("run"), job).split(", "))
        found[name] = {**wanted, "kitchen": kitchen}
    everything = ("low", "large", "opener", "kitchen")
    assert found == {"model-2020": dict.fromkeys(everything, True), "heron-county": dict.fromkeys(everything, False)}
