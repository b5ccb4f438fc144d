"""Which building gear, runs and loads belong to."""

from collections.abc import Callable

import pytest

from planlint.facts.buildings import building_served, goes_to_another_building, in_open_air, is_dwelling, loads
from planlint.facts.engine import Job
from planlint.facts.space import is_outdoors
from planlint.plan import NotStated

JobFor = Callable[..., Job]

SITE = """complete service, feeders, circuits, receptacles, lights, loads
building house
  use one-family
building studio
  use workshop
place hall
  building house
place studio-room
  building studio
place yard
  outdoors yes
panel house-panel
  at hall
"""


def served(job: Job, name: str) -> str:
    return building_served(job.graph.one(name), job).name


def test_only_houses_are_dwellings(job_for: JobFor) -> None:
    job = job_for(SITE + "building twin\n  use two-family\n")
    assert [is_dwelling(job.graph.one(name), job) for name in ("house", "studio", "twin")] == [True, False, True]


def test_gear_indoors_on_a_wall_and_on_a_post(job_for: JobFor) -> None:
    job = job_for(
        SITE
        + """disconnect on-wall
  at yard; mounted-on house
disconnect on-post
  at yard; mounted-on none
feeder studio-feeder
  from on-post; to studio-panel
panel studio-panel
  at studio-room
panel wall-panel
  at yard; mounted-on studio
"""
    )
    assert [served(job, name) for name in ("house-panel", "on-wall", "on-post", "studio-feeder", "wall-panel")] == [
        "house", "house", "studio", "studio", "studio",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("stated", "need"),
    [
        ("at yard", "post: mounted-on"),
        ("at yard; mounted-on unknown", "post: mounted-on"),
        ("at yard; mounted-on none", "post: which one building it serves"),
    ],
)
def test_a_post_that_feeds_two_buildings_belongs_to_neither(job_for: JobFor, stated: str, need: str) -> None:
    job = job_for(
        SITE
        + f"""disconnect post
  {stated}
feeder house-feeder
  from post; to house-panel
panel studio-panel
  at studio-room
feeder studio-feeder
  from post; to studio-panel
"""
    )
    with pytest.raises(NotStated, match=need):
        building_served(job.graph.one("post"), job)


CIRCUIT = SITE + "circuit lights-circuit\n  panel house-panel\n"


def test_a_circuit_goes_to_the_building_of_its_outlets(job_for: JobFor) -> None:
    there = "lights studio-lights\n  at studio-room; circuit lights-circuit\n"
    here = "lights hall-lights\n  at hall; circuit lights-circuit\n"
    outside = "lights yard-lights\n  at yard; circuit lights-circuit\n"
    for outlets, expected in [
        (outside, "house"),
        (here, "house"),
        (there, "studio"),
        (here + there, "studio"),
        (there + here, "studio"),
    ]:
        job = job_for(CIRCUIT + outlets)
        assert served(job, "lights-circuit") == expected
        assert goes_to_another_building(job.graph.one("lights-circuit"), job) == (expected == "studio")


def test_leaving_out_where_the_panel_is_gives_no_other_building(job_for: JobFor) -> None:
    """With outlets in both buildings, only the panel's own tells which of them is the other."""
    both = (
        "lights hall-lights\n  at hall; circuit lights-circuit\nlights studio-lights\n  at studio-room; circuit lights-circuit\n"
    )
    job = job_for(CIRCUIT.replace("panel house-panel\n  at hall\n", "panel house-panel\n") + both)
    with pytest.raises(NotStated, match="house-panel: at"):
        building_served(job.graph.one("lights-circuit"), job)


def test_outlets_in_two_other_buildings_leave_it_open(job_for: JobFor) -> None:
    job = job_for(
        CIRCUIT
        + """building shed
  use shed
place shed-room
  building shed
lights shed-lights
  at shed-room; circuit lights-circuit
lights studio-lights
  at studio-room; circuit lights-circuit
"""
    )
    with pytest.raises(NotStated, match="its outlets stand in several"):
        building_served(job.graph.one("lights-circuit"), job)


def test_loads_count_where_they_stand_or_are_fed_from(job_for: JobFor) -> None:
    job = job_for(
        CIRCUIT
        + """circuit kiln-circuit
  panel house-panel
load kiln
  at studio-room; circuit kiln-circuit
load pump
  at yard; circuit lights-circuit
load car
  at yard; planned yes
"""
    )
    assert [load.name for load in loads(job.graph.one("house"), job).whole()] == ["pump", "car"]
    assert [load.name for load in loads(job.graph.one("studio"), job).known] == ["kiln"]


def test_a_load_outdoors_without_a_circuit_leaves_the_list_open(job_for: JobFor) -> None:
    house = loads((job := job_for(SITE + "load pump\n  at yard\n")).graph.one("house"), job)
    assert (house.known, [str(gap) for gap in house.gaps]) == ((), ["pump: circuit"])


def test_open_air(job_for: JobFor) -> None:
    job = job_for("building house\nplace yard\n  outdoors yes\nplace hall\n  building house\nplace nowhere\n  use yard\n")
    assert in_open_air(job.graph.one("yard"), job) and not in_open_air(job.graph.one("hall"), job)
    with pytest.raises(NotStated, match="nowhere: outdoors"):
        in_open_air(job.graph.one("nowhere"), job)


@pytest.mark.parametrize("use", ["porch", "deck", "balcony", "yard", "driveway"])
def test_a_deck_that_names_its_building_has_to_say_whether_it_is_outdoors(job_for: JobFor, use: str) -> None:
    spot = f"building house\nplace spot\n  building house; use {use}"
    job = job_for(spot)
    for fact in (in_open_air, is_outdoors):
        with pytest.raises(NotStated, match=f"spot: outdoors, for a {use} is seldom in a building"):
            fact(job.graph.one("spot"), job)
    assert not in_open_air((closed := job_for(f"{spot}; outdoors no")).graph.one("spot"), closed)
    assert in_open_air((open_ := job_for(f"{spot}; outdoors yes")).graph.one("spot"), open_)
