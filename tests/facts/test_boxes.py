"""Laws and edge cases of boxes and of shared neutrals; the published figures are in tests/published/test_boxes.py."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.facts.boxes import box_volume, sure_volume_needed, volume_needed, volume_short_by
from planlint.facts.engine import Job
from planlint.facts.pull_boxes import (
    entry_spacing_needed,
    has_room_to_turn,
    holds_large_wires,
    only_large_wires,
    pull_length_needed,
    pull_width_needed,
    room_lacking,
)
from planlint.facts.shared_neutral import neutral_faults, opens_together, opposite_legs, shares_neutral
from planlint.plan.elements import NotStated

JobFor = Callable[..., Job]
SMALL = ("18", "16", "14", "12", "10", "8", "6")
PIPES = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "3-1/2", "4")


def of(job: Job, fact: Callable[[Any, Job], Any], name: str = "box-a") -> Any:
    return fact(job.graph.one(name), job)


def open_attributes(job: Job, fact: Callable[[Any, Job], Any], name: str = "box-a") -> list[str]:
    with pytest.raises(NotStated) as gap:
        of(job, fact, name)
    return [f"{need.element.name}.{need.attribute}" for need in gap.value.needs]


def box(wires: dict[str, int], grounds: int, devices: int, clamps: bool, supports: int = 0) -> str:
    conductors = ", ".join(f"{count} x {size} AWG" for size, count in wires.items())
    largest = max(wires, key=lambda size: -int(size))
    device = f"{devices} x {largest} AWG" if devices else "none"
    ground = f"{grounds} x {largest} AWG" if grounds else "none"
    fittings = f"clamps {'yes' if clamps else 'no'}; supports {supports}"
    return f"box box-a\n  type junction; conductors {conductors}; devices {device}; grounds {ground}; {fittings}\n"


counts = st.integers(1, 20)
boxes = st.fixed_dictionaries(
    {
        "wires": st.dictionaries(st.sampled_from(SMALL), counts, min_size=1, max_size=4),
        "grounds": st.integers(0, 12),
        "devices": st.integers(0, 4),
        "clamps": st.booleans(),
        "supports": st.integers(0, 2),
    }
)


@settings(max_examples=60, deadline=None)
@given(
    of_box=boxes,
    more=st.sampled_from(("wire", "ground", "device", "clamps", "support", "size")),
    edition=st.sampled_from((2017, 2020, 2023)),
)
def test_more_in_a_box_never_needs_less_room(job_for: JobFor, of_box: dict[str, Any], more: str, edition: int) -> None:
    before = of(job_for(box(**of_box), edition), volume_needed)
    fuller = {**of_box, "wires": dict(of_box["wires"])}
    if more == "wire":
        size = next(iter(fuller["wires"]))
        fuller["wires"][size] += 1
    elif more == "size":
        smallest = max(fuller["wires"], key=int)
        larger = SMALL[min(SMALL.index(smallest) + 1, len(SMALL) - 1)]
        count = fuller["wires"].pop(smallest)
        fuller["wires"][larger] = fuller["wires"].get(larger, 0) + count
    else:
        key = {"ground": "grounds", "device": "devices", "support": "supports", "clamps": "clamps"}[more]
        fuller[key] = True if key == "clamps" else fuller[key] + 1
    assert of(job_for(box(**fuller), edition), volume_needed) >= before


@settings(max_examples=30, deadline=None)
@given(of_box=boxes)
def test_the_editions_differ_only_past_four_grounds(job_for: JobFor, of_box: dict[str, Any]) -> None:
    old, new, newest = (of(job_for(box(**of_box), edition), volume_needed) for edition in (2017, 2020, 2023))
    assert new == newest
    assert (old < new) is (of_box["grounds"] > 4)


@settings(max_examples=30, deadline=None)
@given(of_box=boxes, volume=st.integers(1, 200))
def test_what_is_short_fills_it_up(job_for: JobFor, of_box: dict[str, Any], volume: int) -> None:
    job = job_for(f"{box(**of_box).rstrip()}; volume {volume} cu in\n")
    needed, has, short = (of(job, fact) for fact in (volume_needed, box_volume, volume_short_by))
    assert has + short >= needed
    assert (short.amount > 0) is (has < needed)


@settings(max_examples=60, deadline=None)
@given(of_box=boxes, left_out=st.sets(st.sampled_from(("conductors", "devices", "grounds", "clamps", "supports"))))
def test_what_a_plan_leaves_out_of_a_box_can_only_add(job_for: JobFor, of_box: dict[str, Any], left_out: set[str]) -> None:
    whole = job_for(box(**of_box))
    assert of(whole, sure_volume_needed) == of(whole, volume_needed)
    head, _, rest = box(**of_box).partition("type junction; ")
    kept = [part for part in rest.strip().split("; ") if part.split()[0] not in left_out]
    try:
        sure = of(job_for("; ".join([f"{head}type junction", *kept]) + "\n"), sure_volume_needed)
    except NotStated:
        return
    assert sure <= of(whole, volume_needed)


def pull_box(pull: str, row: list[str], side: list[str]) -> str:
    pipes = {f"r{n}": size for n, size in enumerate(row)} | {f"s{n}": size for n, size in enumerate(side)}
    walls = [", ".join(name for name in pipes if name[0] == wall) or "none" for wall in "rs"]
    text = f"box box-a\n  type pull; pull {pull}; raceways {walls[0]}; side-raceways {walls[1]}; straight-raceways r0\n"
    return text + "".join(f"raceway {name}\n  size {size} in\n" for name, size in pipes.items())


@settings(max_examples=60, deadline=None)
@given(
    pull=st.sampled_from(("straight", "angle", "splice", "both")),
    row=st.lists(st.sampled_from(PIPES), min_size=1, max_size=4),
    side=st.lists(st.sampled_from(PIPES), max_size=3),
    data=st.data(),
)
def test_a_larger_or_further_pipe_never_needs_a_smaller_box(
    job_for: JobFor, pull: str, row: list[str], side: list[str], data: st.DataObject
) -> None:
    place = data.draw(st.integers(0, len(row) - 1))
    larger = [*row]
    larger[place] = PIPES[min(PIPES.index(row[place]) + 1, len(PIPES) - 1)]
    further = [*row, data.draw(st.sampled_from(PIPES))]
    facts = (pull_length_needed, pull_width_needed, entry_spacing_needed)
    before = [inches(job_for(pull_box(pull, row, side)), fact) for fact in facts]
    assert before[0] > 0 and (before[1] > 0) == (pull != "straight" and bool(side))
    for other in (larger, further):
        after = [inches(job_for(pull_box(pull, other, side)), fact) for fact in facts]
        assert all(old <= new for old, new in zip(before, after, strict=True))


def inches(job: Job, fact: Callable[[Any, Job], Any]) -> float:
    """0 where it doesn't arise."""
    try:
        return float(of(job, fact).within("in"))
    except NotStated as gap:
        assert all(not need.arises for need in gap.needs) or gap.needs[0].attribute == "straight-raceways"
        return 0.0


FULL = "type device; volume 18 cu in; conductors 4 x 12 AWG; devices 12 AWG; grounds 2 x 12 AWG; clamps yes"


@pytest.mark.parametrize("attribute", ["conductors", "devices", "grounds", "clamps"])
def test_what_counts_is_asked(job_for: JobFor, attribute: str) -> None:
    left = "; ".join(part for part in FULL.split("; ") if not part.startswith(attribute))
    assert f"box-a.{attribute}" in open_attributes(job_for(f"box box-a\n  {left}\n"), volume_needed)


def test_all_that_is_left_out_is_asked_at_once(job_for: JobFor) -> None:
    asked = open_attributes(job_for("box box-a\n  type device\n"), volume_needed)
    assert asked == ["box-a.conductors", "box-a.devices", "box-a.clamps", "box-a.grounds"]


@pytest.mark.parametrize("said", ["supports unknown", "loops unknown", "canopy-wires unknown", "isolated-grounds unknown"])
def test_what_few_boxes_have_is_asked_where_it_is_unknown(job_for: JobFor, said: str) -> None:
    job = job_for(f"box box-a\n  {FULL}; {said}\n")
    assert f"box-a.{said.split()[0]}" in open_attributes(job, volume_needed)


@pytest.mark.parametrize(
    ("plan", "asked"),
    [
        ("type device", ["box-a.volume"]),
        ("type device; shape square", ["box-a.size"]),
        ("type device; volume unknown; shape square; size 4 x 1-1/2 in", ["box-a.volume"]),
        ("type device; material plastic; shape square; size 4 x 1-1/2 in", ["box-a.volume"]),
        ("type device; volume 18 cu in; rings unknown", ["box-a.rings"]),
    ],
)
def test_the_volume_is_asked(job_for: JobFor, plan: str, asked: list[str]) -> None:
    """A plastic box has what is marked in it; the table is of metal ones."""
    assert open_attributes(job_for(f"box box-a\n  {plan}\n"), box_volume) == asked


def test_a_marking_that_is_not_that_of_its_size_is_asked(job_for: JobFor) -> None:
    """Otherwise leaving out the marking would turn a box that is large enough into one that isn't."""
    text = "box box-a\n  volume 22.5 cu in; shape square; size 4 x 1-1/2 in\n"
    assert open_attributes(job_for(text), box_volume) == ["box-a.volume"]
    for other in ("volume 21 cu in; shape square; size 4 x 1-1/2 in", "volume 21 cu in; shape square; size 5 x 1-1/2 in"):
        assert of(job_for(f"box box-a\n  {other}\n"), box_volume).within("cu in") == 21
    assert of(job_for(f"{text}  material plastic\n"), box_volume).within("cu in") == 22.5


def test_a_device_box_with_large_wires_is_an_open_question(job_for: JobFor) -> None:
    """A range's outlet on 4 AWG: no volume in the table, and 314.28 is not of device boxes; nothing may pass it over."""
    job = job_for("box box-a\n  type device; volume 30 cu in; conductors 3 x 4 AWG; devices none; grounds none; clamps no\n")
    assert open_attributes(job, volume_needed) == ["box-a.conductors"]
    with pytest.raises(NotStated) as gap:
        of(job, pull_length_needed)
    assert not gap.value.needs[0].arises


def test_large_wires_alone_ask_for_no_volume(job_for: JobFor) -> None:
    for kind, arises in (("pull", False), ("junction", False), ("device", True)):
        job = job_for(f"box box-a\n  type {kind}; conductors 3 x 2/0\n")
        with pytest.raises(NotStated) as gap:
            of(job, volume_needed)
        assert gap.value.needs[0].arises is arises


def test_what_is_short_is_a_step(job_for: JobFor) -> None:
    job = job_for(f"box box-a\n  {FULL.replace('volume 18', 'volume 17')}\n")
    with job.observing(job.graph.one("box-a")) as root:
        of(job, volume_short_by)
    assert [(step.text, step.value) for step in root.uses[0].steps] == [("18 - 17", "1 cu in")]


def test_small_wires_ask_for_no_pull_box(job_for: JobFor) -> None:
    job = job_for("box box-a\n  type junction; conductors 9 x 12 AWG\n")
    for fact in (pull_length_needed, pull_width_needed, entry_spacing_needed):
        with pytest.raises(NotStated) as gap:
            of(job, fact)
        assert not gap.value.needs[0].arises


MIXED = "conductors 3 x 2 AWG, 4 x 12 AWG; devices none; grounds none; clamps no"


def test_large_wires_go_by_the_pipes_in_a_junction_box_and_are_asked_in_an_outlet_box(job_for: JobFor) -> None:
    junction = job_for(f"box box-a\n  type junction; {MIXED}\n")
    assert of(junction, volume_needed).within("cu in") == 9
    assert (of(junction, only_large_wires), of(junction, holds_large_wires)) == (False, True)
    outlet = job_for(f"box box-a\n  type outlet; {MIXED}\n")
    assert open_attributes(outlet, volume_needed) == ["box-a.conductors"]


@pytest.mark.parametrize(
    ("size", "large"), [("6 AWG", False), ("4 AWG", True), ("4 AWG aluminum", True), ("2/0 copper", True), ("250 kcmil", True)]
)
def test_where_large_wires_begin(job_for: JobFor, size: str, large: bool) -> None:
    """314.28(A): 4 AWG and larger, of either metal."""
    job = job_for(f"box box-a\n  conductors 3 x {size}\n")
    assert (of(job, holds_large_wires), of(job, only_large_wires)) == (large, large)


FED = """complete raceways, feeders, circuits, service
box box-a
  type pull; raceways pipe
raceway pipe
  size 2 in
feeder studio-feeder
  hot 2 x {hot}; neutral {neutral}; ground 4 AWG copper bare; raceway pipe
"""


@pytest.mark.parametrize(
    ("hot", "neutral", "holds", "only"),
    [
        ("2/0 aluminum", "1 AWG aluminum", True, True),
        ("4 AWG copper", "6 AWG copper", True, False),
        ("6 AWG copper", "6 AWG copper", False, False),
        ("6 AWG copper", "none", False, False),
    ],
)
def test_a_box_without_conductors_has_those_of_its_pipes(
    job_for: JobFor, hot: str, neutral: str, holds: bool, only: bool
) -> None:
    """A ground doesn't count: only wires that have to be insulated do (314.28(A))."""
    job = job_for(FED.format(hot=hot, neutral=neutral))
    assert (of(job, holds_large_wires), of(job, only_large_wires)) == (holds, only)


def test_wires_that_are_not_stated_leave_both_open(job_for: JobFor) -> None:
    job = job_for(FED.format(hot="6 AWG copper", neutral="unknown"))
    assert open_attributes(job, holds_large_wires) == ["studio-feeder.neutral"]
    assert of(job, only_large_wires) is False
    large = job_for(FED.format(hot="2/0 copper", neutral="unknown"))
    assert of(large, holds_large_wires) is True
    assert open_attributes(large, only_large_wires) == ["studio-feeder.neutral"]


TURN = """box box-a
  type pull; conductors 3 x 2/0; pull angle; raceways one; side-raceways other; length {length} in; width {width} in{spacing}
raceway one
  size 2 in
raceway other
  size 3 in
"""


@pytest.mark.parametrize(
    ("length", "width", "spacing", "room"),
    [
        (12, 18, "; entry-spacing 18 in", "nothing"),
        (12, 17, "; entry-spacing 18 in", "17 in the other way, where 18 in is the least"),
        (12, 18, "; entry-spacing 17 in", "17 in between pipes of the same wires, where 18 in is the least"),
        (11, 18, "; entry-spacing 18 in", "11 in from the wall of its pipes to the one opposite, where 12 in is the least"),
    ],
)
def test_what_a_pull_box_lacks(job_for: JobFor, length: int, width: int, spacing: str, room: str) -> None:
    assert of(job_for(TURN.format(length=length, width=width, spacing=spacing)), room_lacking) == room


BOTH = """box box-a
  type pull; conductors 6 x 2/0; pull both; raceways three, two; straight-raceways three; side-raceways other
  length 24 in; width 12 in; entry-spacing {spacing} in
raceway three
  size 3 in
raceway two
  size 2 in
raceway other
  size 2 in
"""


def test_only_pipes_whose_wires_turn_lie_apart(job_for: JobFor) -> None:
    """314.28(A)(2) is of the pipes of the same wires: those that go straight on through 3 in don't part the 2 in that turn."""
    assert of(job_for(BOTH.format(spacing=12)), entry_spacing_needed).within("in") == 12
    assert of(job_for(BOTH.format(spacing=12)), room_lacking) == "nothing"
    assert of(job_for(BOTH.format(spacing=11)), room_lacking) == "11 in between pipes of the same wires, where 12 in is the least"
    unsaid = BOTH.format(spacing=12).replace(" straight-raceways three;", "")
    assert open_attributes(job_for(unsaid), entry_spacing_needed) == ["box-a.straight-raceways"]


def test_what_is_lacking_is_said_whatever_else_is_open(job_for: JobFor) -> None:
    unsaid = BOTH.format(spacing=11).replace("length 24 in; ", "").replace(" straight-raceways three;", "")
    assert of(job_for(unsaid.replace("width 12 in", "width 11 in")), room_lacking).startswith("11 in the other way")


def test_a_turn_is_too_narrow_whatever_else_is_open(job_for: JobFor) -> None:
    assert of(job_for(TURN.format(length=12, width=17, spacing="")), has_room_to_turn) is False
    assert open_attributes(job_for(TURN.format(length=12, width=18, spacing="")), has_room_to_turn) == ["box-a.entry-spacing"]


SHARED = """{complete}panel p
circuit a
  panel p; poles 1; space 1; shares-neutral-with b
circuit b
  panel p; poles 1; space 3{back}
"""


def test_a_shared_neutral_is_judged_once(job_for: JobFor) -> None:
    job = job_for(SHARED.format(complete="", back="; shares-neutral-with a"))
    assert [of(job, shares_neutral, name) for name in ("a", "b")] == [True, False]
    job = job_for(SHARED.format(complete="", back=""))
    assert [of(job, shares_neutral, name) for name in ("a", "b")] == [True, False]


def test_a_third_circuit_may_share_it_while_not_all_are_shown(job_for: JobFor) -> None:
    assert open_attributes(job_for(SHARED.format(complete="", back="")), opposite_legs, "a")[0].endswith(".complete")
    assert of(job_for(SHARED.format(complete="complete circuits\n", back="")), opposite_legs, "a") is True


def test_legs_of_three_phases_are_open(job_for: JobFor) -> None:
    text = SHARED.format(complete="complete circuits\n", back="") + "supply utility\n  phase three-phase\n"
    assert open_attributes(job_for(text), opposite_legs, "a") == ["a.space"]


PAIR = """complete circuits
panel p
circuit a
  panel p; poles {poles}; space {one}; shares-neutral-with b{tie}
circuit b
  panel p; poles {poles}; space {other}
"""


def test_two_breakers_of_two_poles_load_a_neutral_twice(job_for: JobFor) -> None:
    """Four hot wires on two legs: two of each leg add up on the neutral (article 100, multiwire branch circuit)."""
    one = job_for(PAIR.format(poles=2, one="1, 3", other="1, 3", tie=""))
    assert (of(one, opposite_legs, "a"), of(one, opens_together, "a"), of(one, neutral_faults, "a")) == (True, True, "nothing")
    two = job_for(PAIR.format(poles=2, one="1, 3", other="5, 7", tie="; handle-tie no"))
    assert of(two, opposite_legs, "a") is False
    assert of(two, neutral_faults, "a").endswith("same leg, and their breakers are not tied")
    assert open_attributes(job_for(PAIR.format(poles=2, one="1, 3", other="unknown", tie="")), opposite_legs, "a") == ["b.space"]


@pytest.mark.parametrize(
    ("one", "other", "reaches"), [("2", "4", True), ("4", "2", True), ("9", "12", False), ("11", "17", False)]
)
def test_a_tie_reaches_the_next_breaker_only(job_for: JobFor, one: str, other: str, reaches: bool) -> None:
    """240.15(B): ties join breakers side by side; one that is named for others is asked about."""
    job = job_for(PAIR.format(poles=1, one=one, other=other, tie="; handle-tie yes"))
    if reaches:
        assert of(job, opens_together, "a") is True
    else:
        assert open_attributes(job, opens_together, "a") == ["a.space"]


def test_what_is_wrong_with_a_neutral_is_said_whatever_else_is_open(job_for: JobFor) -> None:
    job = job_for(PAIR.format(poles=1, one="2", other="6", tie=""))
    assert of(job, neutral_faults, "a") == "two of the hot wires on it come from the same leg"
