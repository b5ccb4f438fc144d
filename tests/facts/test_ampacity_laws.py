"""Laws of ampacity: thicker never carries less, hotter or more crowded never carries more; and what an open value may do.

These are physics (heat that a wire gets rid of), not the code's figures.
"""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.facts import load_facts
from planlint.facts.ampacity import ampacity, ampacity_of_cable, neutral_ampacity, sure_ampacity, terminal_temperature
from planlint.facts.engine import Job
from planlint.facts.surroundings import ambient_factor, count_factor, current_carrying, hottest_place, insulation_temperature
from planlint.language import read_text
from planlint.plan.elements import NotStated
from planlint.plan.graph import Graph
from planlint.quantities import Current, Percent, Temperature

JobFor = Callable[..., Job]
CODE, TABLES = resolve(("model-2020",)), Tables()
SIZES = {metal: TABLES.sizes_up(metal) for metal in ("copper", "aluminum")}
load_facts()


def job_of(text: str) -> Job:
    return Job(Graph(read_text(text, example=True).elements), CODE, TABLES)


def worked(job: Job, fact: Callable[[Any, Job], Any], name: str = "run") -> Any:
    return fact(job.graph.one(name), job)


@st.composite
def runs(draw: st.DrawFn) -> dict[str, Any]:
    """A run of loose wires in pipe; what may be left out is sometimes left out."""
    metal = draw(st.sampled_from(("copper", "aluminum")))
    return {
        "metal": metal,
        "size": draw(st.integers(0, len(SIZES[metal]) - 2)),
        "insulation": draw(st.sampled_from(("THHN", "THWN", "THWN-2", "XHHW-2", "THW", "TW", ""))),
        "terminals": draw(st.sampled_from(("60 C", "75 C", "75 C, 60 C", "90 C", ""))),
        "ambient": draw(st.sampled_from((60, 86, 95, 104, 122, 131, None))),
        "wires": draw(st.integers(1, 12)),
        "breaker": draw(st.sampled_from((20, 60, 100, 200))),
        "sets": draw(st.sampled_from((1, 2))),
    }


def text_of(run: dict[str, Any]) -> str:
    wire = f"{SIZES[run['metal']][run['size']]} {run['insulation']}".rstrip()
    terminals = f"; terminals {run['terminals']}" if run["terminals"] else ""
    ambient = f"; ambient {run['ambient']} F" if run["ambient"] is not None else ""
    return f"""circuit run
  breaker {run["breaker"]} A; hot {run["wires"]} x {wire}; neutral none; raceway pipe; sets {run["sets"]}; kept-together yes
  label "a run"{terminals}{ambient}
raceway pipe
  type EMT; route inside; length 10 ft
"""


def least(run: dict[str, Any]) -> float:
    amperes: float = worked(job_of(text_of(run)), sure_ampacity).within("A")
    return amperes


@settings(max_examples=60, deadline=None)
@given(run=runs())
def test_a_larger_wire_never_carries_less(run: dict[str, Any]) -> None:
    assert least(run) <= least(run | {"size": run["size"] + 1})


@settings(max_examples=60, deadline=None)
@given(run=runs(), hotter=st.sampled_from((95, 122, 131)))
def test_a_hotter_place_never_carries_more(run: dict[str, Any], hotter: int) -> None:
    try:
        cool = least(run)
        warm = least(run | {"ambient": max(hotter, run["ambient"] or 131)})
    except NotStated as outside:
        assert "no factor" in str(outside)
        return
    assert warm <= cool + 1e-9


@settings(max_examples=60, deadline=None)
@given(run=runs())
def test_another_wire_in_the_pipe_never_lets_it_carry_more(run: dict[str, Any]) -> None:
    try:
        assert least(run | {"wires": run["wires"] + 1}) <= least(run) + 1e-9
    except NotStated as outside:
        assert "no factor" in str(outside)


@settings(max_examples=60, deadline=None)
@given(run=runs(), said=st.data())
def test_saying_more_never_lowers_what_is_sure(run: dict[str, Any], said: st.DataObject) -> None:
    """What is sure while something is open holds for every value that it may have, up to the 131 F of a hot attic."""
    full = dict(run)
    full["insulation"] = run["insulation"] or said.draw(st.sampled_from(("TW", "THWN", "THWN-2")))
    full["terminals"] = run["terminals"] or said.draw(st.sampled_from(("60 C", "75 C") if run["breaker"] <= 100 else ("75 C",)))
    full["ambient"] = run["ambient"] or said.draw(st.sampled_from((60, 86, 122, 131)))
    sure = least(run)
    assert sure <= least(full) + 1e-9
    try:
        exact = worked(job_of(text_of(run)), ampacity)
    except NotStated:
        return
    assert exact == worked(job_of(text_of(full)), ampacity)


def test_terminals(job_for: JobFor) -> None:
    """NFPA 70 110.14(C): up to 100 A the marking decides; above it, 75 C. No lug's 90 C counts."""
    text = "circuit run\n  breaker {}{}\n"
    assert worked(job_for(text.format("60 A", "; terminals 75 C, 60 C")), terminal_temperature) == Temperature.of(60, "C")
    assert worked(job_for(text.format("60 A", "; terminals 90 C")), terminal_temperature) == Temperature.of(75, "C")
    assert worked(job_for(text.format("110 A", "")), terminal_temperature) == Temperature.of(75, "C")
    with pytest.raises(NotStated, match="terminals"):
        worked(job_for(text.format("100 A", "")), terminal_temperature)


@pytest.mark.parametrize(
    ("insulation", "moisture", "degrees"),
    [("XHHW", "dry", 90), ("XHHW", "damp", 90), ("XHHW", "wet", 75), ("XHHW", "unknown", None), ("XHHW-2", "unknown", 90),
     ("THW", "unknown", 75)],
)  # fmt: skip
def test_what_an_insulation_bears(job_for: JobFor, insulation: str, moisture: str, degrees: float | None) -> None:
    """NFPA 70 Table 310.4(A), as the posts of forums.mikeholt.com thread 111616 quote it: XHHW 90 C dry and damp, 75 C wet."""
    job = job_for(f"""
place shop
  moisture {moisture}
circuit run
  hot 2 x 10 AWG copper {insulation}; raceway pipe
raceway pipe
  type EMT; at shop
""")
    if degrees is None:
        with pytest.raises(NotStated, match="shop: moisture"):
            worked(job, insulation_temperature)
    else:
        assert worked(job, insulation_temperature) == Temperature.of(degrees, "C")


@pytest.mark.parametrize(("above", "degrees"), [("7/8 in", 95), ("3/4 in", 155)])
def test_a_sunny_roof(job_for: JobFor, above: str, degrees: float) -> None:
    """NFPA 70 310.15(B)(2), from memory: less than 7/8 in above the roof the sun adds 60 F; XHHW-2 is left out."""
    text = f"""
circuit run
  hot 2 x 10 AWG copper {{}}; raceway pipe; ambient 95 F
raceway pipe
  type EMT; route roof; above-roof {above}
"""
    assert worked(job_for(text.format("THWN-2")), hottest_place) == Temperature.of(degrees, "F")
    assert worked(job_for(text.format("XHHW-2")), hottest_place) == Temperature.of(95, "F")


def test_a_hot_place_counts_though_another_is_silent(job_for: JobFor) -> None:
    """The attic's 150 F is known; that the crawl space says nothing can only make it hotter still."""
    job = job_for("""
place attic
  use attic; ambient 150 F
place crawl-space
  use crawl-space
circuit run
  breaker 20 A; cable 12/2 copper NM-B; passes attic, crawl-space
""")
    assert worked(job, sure_ampacity) == Current.of(30 * 0.58, "A")
    with pytest.raises(NotStated, match="crawl-space: ambient"):
        worked(job, hottest_place)


def test_the_warmest_of_rooms_and_pipes(job_for: JobFor) -> None:
    job = job_for("""
place yard
  outdoors yes; ambient 86 F
place shop
  ambient 95 F
panel shop-panel
  at shop
circuit run
  panel shop-panel; hot 2 x 6 AWG copper THWN-2; raceway outside, ditch
raceway outside
  at yard; route riser
raceway ditch
  trench long-ditch
trench long-ditch
  cover 24 in
""")
    assert worked(job, hottest_place) == Temperature.of(95, "F")
    assert worked(job, ambient_factor) == Percent.of(96, "%")


@pytest.mark.parametrize(
    ("volts", "count", "percent"), [("120/240 V", 6, 80), ("120/208 V", 9, 70)], ids=["single phase", "two legs of three phases"]
)
def test_neutrals_that_carry_the_unbalance_only(job_for: JobFor, volts: str, count: int, percent: float) -> None:
    """NFPA 70 310.15(E)(1), (2): the neutral of a 3-wire circuit counts only where the two hots are legs of a three-phase wye."""
    runs = "".join(
        f"circuit run-{n}\n  hot 2 x 12 AWG copper THWN-2; neutral 12 AWG copper; ground 12 AWG copper; raceway pipe\n"
        for n in "abc"
    )
    job = job_for(f"supply utility\n  type utility; volts {volts}\n{runs}raceway pipe\n  type EMT; length 5 ft\n")
    assert worked(job, current_carrying, "pipe") == count
    assert worked(job, count_factor, "run-a") == Percent.of(percent, "%")


def test_two_circuits_on_one_neutral(job_for: JobFor) -> None:
    """NFPA 70 310.15(E)(1): hot, hot and the neutral they share are two current-carrying wires, not four."""
    job = job_for("""
circuit run-a
  hot 12 AWG copper THWN-2; neutral 12 AWG copper THWN-2; raceway pipe
circuit run-b
  hot 12 AWG copper THWN-2; neutral none; shares-neutral-with run-a; raceway pipe
raceway pipe
  type EMT; length 30 ft
""")
    assert worked(job, current_carrying, "pipe") == 2


@pytest.mark.parametrize(("length", "percent"), [("24 in", 100), ("24.1 in", 80)])
def test_nipples(job_for: JobFor, length: str, percent: float) -> None:
    """NFPA 70 310.15(C)(1)(b): up to 24 in the number of wires takes nothing."""
    job = job_for(f"""
circuit run
  hot 4 x 12 AWG copper THWN-2; neutral none; raceway pipe
raceway pipe
  type EMT; length {length}
""")
    assert worked(job, count_factor) == Percent.of(percent, "%")


@pytest.mark.parametrize(("continues", "percent"), [("none", 100), ("long-pipe", 80)])
def test_a_short_piece_of_a_long_pull_is_no_nipple(job_for: JobFor, continues: str, percent: float) -> None:
    job = job_for(f"""
circuit run
  hot 4 x 12 AWG copper THWN-2; neutral none; raceway elbow
circuit other
  hot 2 x 12 AWG copper THWN-2; neutral none; raceway elbow, long-pipe
raceway elbow
  type PVC-80; length 20 in; continues {continues}
raceway long-pipe
  type PVC-40; length 40 ft; continues none
""")
    assert worked(job, count_factor) == Percent.of(percent, "%")


@pytest.mark.parametrize(
    ("cable", "touches", "amperes"),
    [
        ("cable 10/2 copper NM-B", "", 30),
        ("cable 10/2 copper UF-B", "", 30),
        ("cable SEU; hot 2 x 10 AWG copper", "yes", 30),
        ("cable SEU; hot 2 x 10 AWG copper", "no", 35),
        ("cable SER; hot 2 x 8 AWG copper", "", 50),
        ("cable AC; hot 2 x 8 AWG copper", "yes", 40),
    ],
)
def test_what_a_kind_of_cable_allows(job_for: JobFor, cable: str, touches: str, amperes: float) -> None:
    """NFPA 70 334.80, 340.80, 338.10(B)(4)(a), 320.80(A), with the figures of Table 310.16."""
    insulation = f"; touches-insulation {touches}" if touches else ""
    assert worked(job_for(f"circuit run\n  {cable}{insulation}\n"), ampacity_of_cable) == Current.of(amperes, "A")


def test_parallel_sets_add_up(job_for: JobFor) -> None:
    """Two sets of 4/0 aluminum: 2 x 180 A in the 75 C column of Table 310.16."""
    job = job_for("""
disconnect end
  breaker 400 A
service run
  to end; sets 2; kept-together no; hot 2 x 4/0 aluminum XHHW-2; neutral 2/0 aluminum XHHW-2; raceway one, two; ambient 86 F
raceway one
  route riser
raceway two
  route riser
""")
    assert worked(job, ampacity) == Current.of(360, "A")
    assert worked(job, neutral_ampacity) == Current.of(270, "A")
