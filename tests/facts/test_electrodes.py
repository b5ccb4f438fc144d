"""Which electrodes are joined, what counts as one, and the laws of the wires to them; a second way over random graphs."""

from collections.abc import Callable
from itertools import product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.facts.electrode_wires import clamp_suits, far_end, goes_on, landing, size_needed, size_needed_beyond
from planlint.facts.electrodes import big_enough, companions, companions_but_water, is_connected, least_diameter, thick_enough
from planlint.facts.engine import Job
from planlint.plan.elements import NotStated
from planlint.trade import WireSize

JobFor = Callable[..., Job]

# A house with its service disconnect, and a studio with a panel that the house feeds.
BUILDINGS = """building cottage
  use one-family
building studio
  use workshop
place hall
  building cottage
place studio-room
  building studio
supply utility
  type utility
disconnect house-disconnect
  mounted-on cottage; breaker 200 A; neutral bonded
service drop-wires
  from utility; to house-disconnect; owner customer; hot 2 x 4/0 aluminum XHHW-2; raceway drop-pipe
raceway drop-pipe
  type PVC-80
panel studio-panel
  at studio-room; main 100 A
feeder studio-feeder
  from house-disconnect; to studio-panel; hot 2 x 1 AWG aluminum XHHW-2; raceway studio-pipe; breaker 100 A
raceway studio-pipe
  type PVC-40
"""
COMPLETE = "complete service, feeders, circuits, grounding\n" + BUILDINGS
GEAR = ("house-disconnect", "studio-panel")
OPEN = ""  # an end that the plan leaves out


def answer(fact: Callable[[Any, Job], object], name: str, job: Job) -> object:
    try:
        return fact(job.graph.one(name), job)
    except NotStated:
        return "undecided"


def drawn(electrodes: int, wires: list[tuple[str, str]], head: str = COMPLETE, kinds: tuple[str, ...] = ()) -> str:
    """A plan with so many electrodes of the cottage and wires between (start, end); an end that is "" is left out."""
    lines = [head]
    for number in range(electrodes):
        lines.append(f"electrode e{number}\n  type {kinds[number] if kinds else 'rod'}; building cottage\n")
    for number, (start, end) in enumerate(wires):
        ends = [f"from {start}"] * bool(start) + [f"to {end}"] * bool(end)
        lines.append(f"electrode-conductor w{number}\n  {'; '.join([*ends, 'size 6 AWG copper bare'])}\n")
    return "".join(lines)


# ---- The second way: which nodes reach which, by squaring a matrix of neighbors, with no walk and no order.


def reaches(electrodes: int, wires: list[tuple[str, str]], *sources: str) -> set[str]:
    """The electrodes from which a way over wires leads to one of the sources; no way leads through gear."""
    nodes = [f"e{number}" for number in range(electrodes)]
    joined = {(a, b): a == b or (a, b) in wires or (b, a) in wires for a in nodes for b in nodes}
    for _ in nodes:
        joined = {(a, b): any(joined[a, c] and joined[c, b] for c in nodes) for a in nodes for b in nodes}
    at_source = {b for b in nodes for source in sources if (source, b) in wires or source == b}
    return {a for a in nodes if any(joined[a, b] for b in at_source)}


@st.composite
def networks(draw: st.DrawFn, may_be_open: bool) -> tuple[int, list[tuple[str, str]]]:
    count = draw(st.integers(1, 5))
    names = [f"e{number}" for number in range(count)]
    open_end = [OPEN] if may_be_open else []
    pair = st.tuples(st.sampled_from([*names, *GEAR, *open_end]), st.sampled_from([*names, *open_end]))
    return count, draw(st.lists(pair, max_size=3 if may_be_open else 6))


@settings(max_examples=60, deadline=None)
@given(networks(may_be_open=False))
def test_joined_is_what_the_matrix_says(job_for: JobFor, network: tuple[int, list[tuple[str, str]]]) -> None:
    """Where everything is stated; a wire from the studio's panel joins nothing of the cottage to the cottage's equipment."""
    count, wires = network
    job = job_for(drawn(count, wires))
    joined = {f"e{number}" for number in range(count) if answer(is_connected, f"e{number}", job) is True}
    assert joined == reaches(count, wires, "house-disconnect")


@settings(max_examples=60, deadline=None)
@given(networks(may_be_open=True), st.booleans())
def test_joined_is_decided_only_where_no_completion_differs(
    job_for: JobFor, network: tuple[int, list[tuple[str, str]]], complete: bool
) -> None:
    """Every way of filling in the ends that are left out is tried; an open plan may always get one more wire."""
    count, wires = network
    job = job_for(drawn(count, wires, COMPLETE if complete else COMPLETE.replace(", grounding", "")))
    names = [f"e{number}" for number in range(count)]
    ends = [([a] if a else [*names, *GEAR], [b] if b else names) for a, b in wires]
    completions = [reaches(count, list(filled), "house-disconnect") for filled in product(*(list(product(*end)) for end in ends))]
    for name in names:
        said = answer(is_connected, name, job)
        if said != "undecided":
            assert {name in joined for joined in completions} == {said}
        if not complete:
            assert said is not False
        if complete and all(a and b for a, b in wires):
            assert said != "undecided"


# ---- What a wire serves, and how large it is


NEED = {
    "rod": "6",
    "concrete-encased": "4",
    "water-pipe": "4",
}  # copper beside 4/0 aluminum: NFPA 70 Table 250.66, 250.66(A), (B)


@st.composite
def trees(draw: st.DrawFn) -> tuple[list[tuple[str, str]], tuple[str, ...]]:
    """A tree of wires that hangs on the disconnect; each wire between electrodes is drawn one way or the other."""
    count = draw(st.integers(1, 5))
    kinds = tuple(draw(st.sampled_from(sorted(NEED))) for _ in range(count))
    wires = []
    for number in range(count):
        above = draw(st.sampled_from(["house-disconnect", *(f"e{other}" for other in range(number))]))
        turned = above in GEAR or draw(st.booleans())
        wires.append((above, f"e{number}") if turned else (f"e{number}", above))
    return wires, kinds


@settings(max_examples=60, deadline=None)
@given(trees())
def test_a_wire_is_as_large_as_the_largest_need_that_loses_its_way_without_it(
    job_for: JobFor, tree: tuple[list[tuple[str, str]], tuple[str, ...]]
) -> None:
    """Second way: take the wire out; the electrodes that are no longer joined are those it serves."""
    wires, kinds = tree
    job = job_for(drawn(len(kinds), wires, kinds=kinds))
    for number in range(len(wires)):
        others = wires[:number] + wires[number + 1 :]
        served = {f"e{n}" for n in range(len(kinds))} - reaches(len(kinds), others, "house-disconnect")
        largest = min(int(NEED[kinds[int(name[1:])]]) for name in served)
        assert answer(size_needed_beyond, f"w{number}", job) == WireSize(str(largest), "copper")
        assert answer(goes_on, f"w{number}", job) == (len(served) > 1)
        assert answer(size_needed, f"w{number}", job) == WireSize(NEED[kinds[number]], "copper")
        assert far_end(job.graph.one(f"w{number}"), job).name == f"e{number}"


def test_a_ring_of_wires_asks_each_by_its_own_ends(job_for: JobFor) -> None:
    wires = [("house-disconnect", "e0"), ("e0", "e1"), ("house-disconnect", "e1")]
    job = job_for(drawn(2, wires, kinds=("rod", "concrete-encased")))
    assert [answer(size_needed_beyond, f"w{n}", job) for n in range(3)] == [WireSize(size, "copper") for size in ("6", "4", "4")]


def test_a_wire_that_no_equipment_is_joined_to_is_an_open_question(job_for: JobFor) -> None:
    job = job_for(drawn(2, [("e0", "e1")]))
    assert answer(size_needed, "w0", job) == "undecided"
    assert answer(is_connected, "e0", job) is False


def sized(job_for: JobFor, hot: str, electrode: str, metal: str = "copper", sets: int = 1) -> WireSize:
    text = COMPLETE.replace("hot 2 x 4/0 aluminum XHHW-2", f"hot 2 x {hot} XHHW-2; sets {sets}")
    wire = f"electrode e\n  {electrode}\nelectrode-conductor w\n  from house-disconnect; to e; size 8 AWG {metal}\n"
    job = job_for(text + wire)
    return size_needed(job.graph.one("w"), job)


@pytest.mark.parametrize("metal", ["copper", "aluminum"])
@pytest.mark.parametrize("kind", ["water-pipe", "rod", "concrete-encased", "plate"])
def test_larger_service_wires_never_ask_for_a_smaller_wire(job_for: JobFor, metal: str, kind: str) -> None:
    sizes = ("6", "4", "2", "1", "1/0", "2/0", "4/0", "250", "350", "500", "750", "1000", "2000")
    asked = [sized(job_for, f"{size} {metal}", f"type {kind}").area for size in sizes]
    assert asked == sorted(asked)


def test_a_ring_never_asks_for_more_than_its_own_wire(job_for: JobFor) -> None:
    """NFPA 70 250.66(C)."""
    assert sized(job_for, "1000 kcmil copper", "type ring; wire 2 AWG copper bare") == WireSize("2", "copper")
    assert sized(job_for, "4/0 aluminum", "type ring; wire 2 AWG copper bare") == WireSize("4", "copper")


def test_parallel_sets_count_together(job_for: JobFor) -> None:
    """NFPA 70 Table 250.66 note 1: 2 x 4/0 AWG aluminum is 423 kcmil, in the row of 250 to 500 kcmil: 2 AWG copper."""
    assert sized(job_for, "4/0 aluminum", "type water-pipe", sets=2) == WireSize("2", "copper")


def test_at_the_meter_two_services_count_together(job_for: JobFor) -> None:
    """NFPA 70 250.64(D)(1): the wire to the electrode that serves two mains is sized by the sum of their hot wires."""
    job = job_for(
        """complete service, feeders, grounding
supply utility
  type utility
meter post
  rating 400 A
service lateral
  from utility; to post; owner utility
disconnect main-a
  breaker 200 A
disconnect main-b
  breaker 200 A
service to-a
  from post; to main-a; owner customer; hot 2 x 4/0 aluminum XHHW-2
service to-b
  from post; to main-b; owner customer; hot 2 x 4/0 aluminum XHHW-2
electrode pipe
  type water-pipe
electrode-conductor common
  from post; to pipe; size 4 AWG copper
electrode-conductor tap
  from main-a; to pipe; size 4 AWG copper
"""
    )
    assert answer(size_needed, "common", job) == WireSize("2", "copper")
    assert answer(size_needed, "tap", job) == WireSize("4", "copper")


def test_the_utilitys_own_wires_do_not_size_it(job_for: JobFor) -> None:
    """NFPA 70 Table 250.66 note 2 (from memory): the wires that 200 A would need stand in, 3/0 AWG copper: 4 AWG copper."""
    text = COMPLETE.replace("owner customer; hot 2 x 4/0 aluminum XHHW-2", "owner utility; hot 2 x 2 AWG aluminum XHHW-2")
    job = job_for(
        text + "electrode e\n  type water-pipe\nelectrode-conductor w\n  from house-disconnect; to e; size 8 AWG copper\n"
    )
    assert answer(size_needed, "w", job) == WireSize("4", "copper")


# ---- What counts as an electrode


def of(job_for: JobFor, fact: Callable[[Any, Job], object], attributes: str) -> object:
    value = answer(fact, "e", job_for(f"electrode e\n  {attributes}\n"))
    return str(value) if fact is least_diameter else value


@pytest.mark.parametrize(
    ("fact", "attributes", "expected"),
    [
        (thick_enough, "bar 1/2 in; coated no", True),
        (thick_enough, "bar 1/2 in", "undecided"),
        (thick_enough, "bar 3/8 in", False),
        (thick_enough, "wire 4 AWG copper bare", True),
        (thick_enough, "wire 4 AWG copper", "undecided"),
        (thick_enough, "wire 4 AWG bare", "undecided"),
        (thick_enough, "wire 4 AWG copper THWN-2", False),
        (thick_enough, "wire 2 AWG aluminum bare", False),
        (thick_enough, "wire 4 AWG copper bare; bar 3/8 in", "undecided"),
        (thick_enough, "type concrete-encased", "undecided"),
        (big_enough, "type ring; length 20 ft; wire 2 AWG copper bare", True),
        (big_enough, "type ring; length 20 ft; wire 2 AWG copper", "undecided"),
        (big_enough, "type ring; length 19 ft", False),
        (big_enough, "type plate; area 2 sq ft", True),
        (big_enough, "type plate", "undecided"),
        (least_diameter, "type rod; diameter 5/8 in", "5/8 in"),
        (least_diameter, "type rod; diameter 1/2 in", "undecided"),
        (least_diameter, "type rod; diameter 1/2 in; listed yes", "1/2 in"),
        (least_diameter, "type rod; diameter 1/2 in; listed no", "5/8 in"),
        (least_diameter, "type pipe; diameter 1/2 in", "3/4 in"),
    ],
)
def test_what_counts_as_an_electrode(
    job_for: JobFor, fact: Callable[[Any, Job], object], attributes: str, expected: object
) -> None:
    """NFPA 70 250.52(A)(3), (4), (5), (7)."""
    assert of(job_for, fact, attributes) == expected


def test_a_companion_is_joined_and_of_the_same_building(job_for: JobFor) -> None:
    text = (
        drawn(4, [("house-disconnect", "e1"), ("studio-panel", "e2")], kinds=("rod", "water-pipe", "rod", "rod"))
        + "electrode studio-rod\n  type rod; building studio\n"
        + "electrode-conductor studio-wire\n  from studio-panel; to studio-rod; size 6 AWG copper\n"
    )
    job = job_for(text)
    first = job.graph.one("e0")
    assert [one.name for one in companions(first, job).whole()] == ["e1"]
    assert companions_but_water(first, job).whole() == ()
    assert answer(is_connected, "studio-rod", job) is True


# ---- Where it lands, and its clamp


@pytest.mark.parametrize(
    ("start", "bar", "more", "expected"),
    [
        ("house-disconnect", "neutral-bar", "", "service-neutral-bar"),
        ("house-disconnect", "ground-bar", "", "undecided"),
        (
            "house-disconnect",
            "ground-bar",
            "bond m\n  type main; from house-disconnect; to house-disconnect; listed-screw yes\n",
            "screw-bonded-ground-bar",
        ),
        (
            "house-disconnect",
            "ground-bar",
            "bond m\n  type main; from house-disconnect; to house-disconnect; listed-screw no\n",
            "service-ground-bar",
        ),
        ("studio-panel", "ground-bar", "", "outbuilding-ground-bar"),
        ("studio-panel", "neutral-bar", "", "downstream"),
        ("inner-panel", "ground-bar", "", "downstream"),
        ("house-panel", "ground-bar", "", "downstream"),
    ],
)
def test_where_it_lands(job_for: JobFor, start: str, bar: str, more: str, expected: str) -> None:
    """NFPA 70 250.24(A)(1), (4), 250.32(B): in an outbuilding at the gear where the feeder comes in, not at a panel behind it."""
    text = COMPLETE + (
        "panel house-panel\n  at hall; main lugs\nfeeder a\n  from house-disconnect; to house-panel\n"
        "panel inner-panel\n  at studio-room; main lugs\nfeeder b\n  from studio-panel; to inner-panel\n"
        f"electrode e\n  type rod\nelectrode-conductor w\n  from {start}; to e; lands-on {bar}\n"
    )
    assert answer(landing, "w", job_for(text + more)) == expected


@pytest.mark.parametrize(
    ("electrode", "clamp", "expected"),
    [
        ("type rod", "rod, direct-burial", True),
        ("type rod", "rod", False),
        ("type rod", "pipe, direct-burial", False),
        ("type pipe", "rod, direct-burial", False),
        ("type rod", "welded", True),
        ("type water-pipe", "pipe", True),
        ("type concrete-encased; bar 1/2 in", "rebar", True),
        ("type concrete-encased; bar 1/2 in", "pipe", False),
        ("type concrete-encased; wire 4 AWG copper bare", "direct-burial", True),
        ("type concrete-encased", "pipe", "undecided"),
        ("type ring", "direct-burial", True),
        ("type ring", "pipe", False),
    ],
)
def test_a_clamp_suits_its_electrode_and_the_soil(job_for: JobFor, electrode: str, clamp: str, expected: object) -> None:
    """NFPA 70 250.70."""
    job = job_for(f"electrode e\n  {electrode}\nelectrode-conductor w\n  to e; clamp {clamp}\n")
    assert answer(clamp_suits, "w", job) == expected


def test_only_rods_and_pipes_have_a_least_diameter(job_for: JobFor) -> None:
    job = job_for("electrode bar\n  type concrete-encased; bar 1/2 in\n")
    with pytest.raises(NotStated) as gap:
        least_diameter(job.graph.one("bar"), job)
    assert not gap.value.needs[0].arises
