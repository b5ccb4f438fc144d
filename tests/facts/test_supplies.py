"""The ways by which power comes into a building, posts among them: edge cases, and random plans by a second way."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.facts.buildings import bonds, building_at, goes_to_another_building
from planlint.facts.engine import Job
from planlint.facts.roles import role
from planlint.facts.supplies import (
    circuits_in,
    fed_from_outside,
    feeders,
    has_power,
    other_sources,
    outside_supplies,
    service_disconnects,
    services,
)
from planlint.plan import NotStated
from planlint.plan.members import Members

JobFor = Callable[..., Job]

COMPLETE = "complete service, feeders, circuits, receptacles, lights, loads\n"
SITE = """building house
  use one-family
building studio
  use workshop
place hall
  building house
place studio-room
  building studio
place yard
  outdoors yes
place field
  outdoors yes
supply utility
  type utility
"""
POST = """disconnect post
  at yard; mounted-on none; breaker 200 A
service drop
  from utility; to post
panel house-panel
  at hall; main 200 A
feeder house-feeder
  from post; to house-panel
"""
STUDIO = """panel studio-panel
  at studio-room; main 60 A
feeder studio-feeder
  from post; to studio-panel
"""


def names(members: Members[Any]) -> list[str]:
    return [member.name for member in members.whole()]


def test_a_post_is_a_structure_from_which_a_feeder_comes(job_for: JobFor) -> None:
    """NFPA 70 250.32 speaks of buildings and structures: four wires from the post, and electrodes at the house."""
    job = job_for(COMPLETE + SITE + POST)
    house = job.graph.one("house")
    assert names(services(house, job)) == ["drop"] and names(feeders(house, job)) == ["house-feeder"]
    assert fed_from_outside(house, job)
    assert goes_to_another_building(job.graph.one("house-feeder"), job)


def test_a_post_serves_all_buildings_that_it_feeds(job_for: JobFor) -> None:
    job = job_for(COMPLETE + SITE + POST + STUDIO)
    for building in ("house", "studio"):
        assert names(services(job.graph.one(building), job)) == ["drop"]
        assert names(service_disconnects(job.graph.one(building), job)) == ["post"]
    assert names(outside_supplies(job.graph.one("studio"), job)) == ["studio-feeder"]


@pytest.mark.parametrize(("place", "expected"), [("yard", False), ("field", True)])
def test_two_cases_at_one_place_are_on_one_post(job_for: JobFor, place: str, expected: bool) -> None:
    second = f"disconnect second\n  at {place}; mounted-on none\nfeeder between\n  from post; to second\n"
    job = job_for(COMPLETE + SITE + POST + second)
    assert goes_to_another_building(job.graph.one("between"), job) is expected


def test_what_outdoor_gear_is_mounted_on_is_asked_for(job_for: JobFor) -> None:
    """A wall of the house, or a post: the one makes the feeder a house feeder, the other one that comes from outside."""
    job = job_for(COMPLETE + SITE + POST.replace("; mounted-on none", ""))
    for fact, name in ((goes_to_another_building, "house-feeder"), (fed_from_outside, "house")):
        with pytest.raises(NotStated, match="post: mounted-on"):
            fact(job.graph.one(name), job)


def test_a_slide_plate_stands_where_its_panel_does(job_for: JobFor) -> None:
    plate = "transfer-switch plate\n  type interlock; panel house-panel\nsupply portable\n  type generator\n"
    inlet = "feeder inlet\n  from portable; to plate\n"
    job = job_for(COMPLETE + SITE + POST + plate + inlet)
    assert names(other_sources(job.graph.one("house"), job)) == ["portable"]
    assert names(other_sources(job.graph.one("studio"), job)) == []


def test_a_generator_for_cords_is_joined_to_nothing(job_for: JobFor) -> None:
    """The list stays open while feeders may be missing, but not for a generator that says so."""
    text = SITE + POST + "supply portable\n  type generator{cords}\n"
    found = [
        other_sources((job := job_for(text.format(cords=said))).graph.one("house"), job)
        for said in ("", "; connection cords-only")
    ]
    assert "complete feeders" in [str(gap) for gap in found[0].gaps]
    assert [str(gap) for gap in found[1].gaps] == ["complete service"]


@pytest.mark.parametrize(
    ("there", "expected"),
    [
        ("receptacles some\n  at field\n", True),
        ("lights some\n  at field\n", True),
        ("load pump\n  at field\n", True),
        ("load pump\n  at field; planned yes\n", False),
        ("meter socket\n  at field\n", True),
        ("panel pole-panel\n  at field; mounted-on none\n", True),
        ("", False),
    ],
)
def test_a_place_has_power_where_something_is_on_it(job_for: JobFor, there: str, expected: bool) -> None:
    job = job_for(COMPLETE + SITE + there)
    assert has_power(job.graph.one("field"), job) is expected


def test_a_place_may_have_power_that_is_not_shown(job_for: JobFor) -> None:
    job = job_for(SITE)
    with pytest.raises(NotStated, match="complete receptacles"):
        has_power(job.graph.one("field"), job)


def test_bonds_of_a_building(job_for: JobFor) -> None:
    job = job_for(
        "complete grounding, service, feeders, circuits, piping\n"
        + SITE
        + POST
        + """piping gas-line
  type gas; building house
piping studio-water
  type water; building studio
electrode rods
  building house
raceway sleeve
  type RMC
bond to-gas
  to gas-line
bond to-building
  to house
bond to-rods
  to rods
bond to-panel
  to house-panel
bond to-sleeve
  to sleeve
bond to-water
  to studio-water
"""
    )
    assert names(bonds(job.graph.one("house"), job)) == ["to-gas", "to-building", "to-rods", "to-panel"]
    assert names(bonds(job.graph.one("studio"), job)) == ["to-water"]


# Where a piece of gear may stand, how a plan says so, and the structure that it belongs to.
SPOTS = {
    "hall": ("at hall", "house"),
    "house wall": ("at yard; mounted-on house", "house"),
    "studio-room": ("at studio-room", "studio"),
    "studio wall": ("at field; mounted-on studio", "studio"),
    "yard post": ("at yard; mounted-on none", "yard"),
    "field post": ("at field; mounted-on none", "field"),
}
OUTLETS = {"hall": "house", "studio-room": "studio", "yard": ""}
TREE = st.lists(
    st.tuples(st.integers(0, 4), st.sampled_from(sorted(SPOTS)), st.lists(st.sampled_from(sorted(OUTLETS)), max_size=2)),
    min_size=1,
    max_size=5,
)
Tree = list[tuple[int, str, list[str]]]


def written(tree: Tree) -> list[list[str]]:
    """Statements, each a list of its head and its attributes.

    Piece 0 is the service disconnect; each other piece is fed by an earlier one. Each piece has
    one circuit, with its outlets, if it has outlets at all.
    """
    found = []
    for number, (behind, spot, outlets) in enumerate(tree):
        found.append([f"panel gear-{number}", "main 100 A", *SPOTS[spot][0].split("; ")])
        if number:
            found.append([f"feeder feeder-{number}", f"from gear-{behind % number}", f"to gear-{number}"])
        else:
            found.append(["service drop", "from utility", "to gear-0"])
        if outlets:
            found.append([f"circuit circuit-{number}", f"panel gear-{number}"])
        found += [
            [f"lights lights-{number}-{count}", f"at {place}", f"circuit circuit-{number}"] for count, place in enumerate(outlets)
        ]
    return found


def text_of(statements: list[list[str]]) -> str:
    return (
        SITE.replace("supply utility\n  type utility\n", "")
        + "supply utility\n  type utility\n"
        + "".join(head + "\n" + "".join(f"  {line}\n" for line in lines) for head, *lines in statements)
    )


def answers(job: Job, tree: Tree) -> Iterator[tuple[str, Callable[[], Any]]]:
    """Every question of this file, by name."""
    for number, (_, _, outlets) in enumerate(tree):
        runs = [f"feeder-{number}"] * bool(number) + [f"circuit-{number}"] * bool(outlets)
        for run in runs:
            yield f"{run} goes", lambda run=run: goes_to_another_building(job.graph.one(run), job)
    for name in ("house", "studio"):
        for ask in (feeders, circuits_in, services, service_disconnects, fed_from_outside):
            yield f"{name} {ask.__name__}", lambda ask=ask, name=name: ask(job.graph.one(name), job)


def walked(tree: Tree) -> dict[str, Any]:
    """The second way, from the figures of the tree: structures by name, and for services back from what stands at a building."""
    structure = [SPOTS[spot][1] for _, spot, _ in tree]
    behind = [number and one[0] % number for number, one in enumerate(tree)]
    found: dict[str, Any] = {}
    for number, (_, _, outlets) in enumerate(tree):
        if number:
            found[f"feeder-{number} goes"] = structure[number] != structure[behind[number]]
        if outlets:
            ends = {OUTLETS[place] for place in outlets} - {""}
            found[f"circuit-{number} goes"] = bool(ends - {structure[number]})
    for name in ("house", "studio"):
        coming = [k for k in range(1, len(tree)) if structure[k] == name != structure[behind[k]]]
        circuits = [k for k, one in enumerate(tree) if structure[k] != name and name in {OUTLETS[place] for place in one[2]}]
        found[f"{name} feeders"] = {f"feeder-{k}" for k in coming}
        found[f"{name} circuits_in"] = {f"circuit-{k}" for k in circuits}
        found[f"{name} fed_from_outside"] = bool(coming or circuits)
        reached = {k for k in range(len(tree)) if structure[k] == name}
        reached |= {k for k in circuits if structure[k] in ("yard", "field")}
        for start in [*reached]:
            while start and structure[behind[start]] in ("yard", "field"):
                start = behind[start]
                reached.add(start)
        served = 0 in reached and structure[0] in (name, "yard", "field")
        found[f"{name} services"] = {"drop"} if served else set()
        found[f"{name} service_disconnects"] = {"gear-0"} if served else set()
    return found


def plain(value: Any) -> Any:
    return {member.name for member in value.whole()} if isinstance(value, Members) else value


@settings(max_examples=50, deadline=None)
@given(TREE)
def test_random_buildings_by_a_second_way(job_for: JobFor, tree: Tree) -> None:
    job = job_for(COMPLETE + text_of(written(tree)))
    assert role(job.graph.one("gear-0"), job) == "service"
    assert {name: plain(ask()) for name, ask in answers(job, tree)} == walked(tree)


def lawful(before: Any, ask: Callable[[], Any]) -> bool:
    """The same answer, an open one, or a list that says it is open and has lost members at the most."""
    try:
        after = ask()
    except NotStated:
        return True
    if isinstance(after, Members) and after.gaps:
        return {member.name for member in after.known} <= before
    return plain(after) == before


@settings(max_examples=150, deadline=None)
@given(TREE, st.data())
def test_leaving_out_a_line_opens_questions_and_turns_no_answer(job_for: JobFor, tree: Tree, data: st.DataObject) -> None:
    statements = written(tree)
    before = {name: plain(ask()) for name, ask in answers(job_for(COMPLETE + text_of(statements)), tree)}
    lines = [(i, k) for i, (head, *rest) in enumerate(statements) for k in range(1, len(rest) + 1)]
    word = data.draw(st.sampled_from(sorted({statements[i][k].split()[0] for i, k in lines})))
    i, k = data.draw(st.sampled_from([(i, k) for i, k in lines if statements[i][k].startswith(word)]))
    statements[i] = [line for number, line in enumerate(statements[i]) if number != k]
    job = job_for(COMPLETE + text_of(statements))
    wrong = [name for name, ask in answers(job, tree) if not lawful(before[name], ask)]
    assert wrong == []


def test_a_place_that_says_neither_is_nowhere(job_for: JobFor) -> None:
    job = job_for("place spot\n  use yard\n")
    with pytest.raises(NotStated, match="spot: outdoors"):
        building_at(job.graph.one("spot"))
