"""Verdicts: yes, no, unknown. The tables of and, or and not are those of S. C. Kleene's strong three-valued logic.

Source: Kleene, Introduction to Metamathematics (1952), section 64.
"""

from collections.abc import Callable
from typing import Any, Final

import pytest

from planlint.expressions import Verdict, WireSizes
from planlint.plan import Element, Need
from planlint.plan.members import Members
from planlint.quantities import Current, Length, Percent, Power, Temperature
from planlint.trade import NO_WIRE, WireSize

Judge = Callable[..., Verdict]
T: Final = "yes"
F: Final = "no"
U: Final = "unknown"
WAYS = {T: True, F: False}


def stated(first: str, second: str) -> dict[tuple[str, str], bool]:
    given = {"is-outdoors": first, "is-wet": second}
    return {("house-panel", name): WAYS[answer] for name, answer in given.items() if answer != U}


@pytest.mark.parametrize(
    ("first", "second", "both", "either"),
    [
        (T, T, T, T), (T, F, F, T), (T, U, U, T),
        (F, T, F, T), (F, F, F, F), (F, U, F, U),
        (U, T, U, T), (U, F, F, U), (U, U, U, U),
    ],
)  # fmt: skip
def test_and_and_or(judge: Judge, first: str, second: str, both: str, either: str) -> None:
    job = stated(first, second)
    assert judge("is-outdoors and is-wet", job=job).answer == both
    assert judge("is-outdoors or is-wet", job=job).answer == either
    # and by De Morgan's laws, which hold in that logic too
    assert judge("not (not is-outdoors or not is-wet)", job=job).answer == both
    assert judge("not (not is-outdoors and not is-wet)", job=job).answer == either


@pytest.mark.parametrize(("answer", "opposite"), [(T, F), (F, T), (U, U)])
def test_not(judge: Judge, answer: str, opposite: str) -> None:
    assert judge("not is-wet", job=stated(U, answer)).answer == opposite
    assert judge("not not is-wet", job=stated(U, answer)).answer == answer


def needed(verdict: Verdict) -> list[str]:
    return [str(need) for need in verdict.needs]


def test_unknown_carries_the_needs_of_both_sides_each_once(judge: Judge) -> None:
    verdict = judge("handle-height <= 6 ft and handle-height >= load-amps / load-near * 1 ft and readily-accessible or is-wet")
    assert verdict.answer == U
    assert needed(verdict) == [
        "house-panel: handle-height",
        "house-panel: load-amps",
        "house-panel: load-near",
        "house-panel: readily-accessible",
        "house-panel: is-wet",
    ]


def test_a_decided_side_leaves_the_other_alone(judge: Judge) -> None:
    assert judge("is-wet and is-outdoors", job=stated(U, F)) == Verdict(F)
    assert judge("bus >= 400 A and handle-height <= 6 ft").answer == F
    assert judge("bus >= 100 A or handle-height <= 6 ft") == Verdict(T)


def test_an_or_whose_one_side_is_broken_says_so(judge: Judge) -> None:
    assert judge("bus >= 400 A or is-wet").half_broken
    assert judge("is-wet or bus >= 400 A").half_broken
    assert not judge("is-wet or is-outdoors").half_broken
    assert judge("lit and (bus >= 400 A or is-wet)").half_broken
    assert judge("not (bus < 400 A and not is-wet)").half_broken
    assert not judge("bus >= 400 A or is-wet", job=stated(U, F)).half_broken


def test_a_comparison_that_comes_out_no_keeps_its_two_values(judge: Judge) -> None:
    assert judge("bus >= 400 A").broken == ((Current.of(200, "A"), Current.of(400, "A")),)
    assert judge("not bus < 400 A").broken == ((Current.of(200, "A"), Current.of(400, "A")),)
    assert len(judge("bus >= 400 A or interrupting >= 22 kA").broken) == 2
    assert judge("not (bus >= 400 A or interrupting >= 22 kA)").broken == ()
    assert judge("neutral is bonded").broken == ()


@pytest.mark.parametrize(
    ("text", "of", "answer"),
    [
        ("neutral is isolated", "house-panel", T),
        ("neutral is not isolated", "house-panel", F),
        ("not neutral is isolated", "house-panel", F),
        ("not neutral is not isolated", "house-panel", T),
        ("neutral in [bonded, isolated]", "house-panel", T),
        ("not neutral in [bonded]", "house-panel", T),
        ("main is lugs", "house-panel", T),
        ("main is lugs", "sub-panel", F),
        ("main is not lugs", "sub-panel", T),
        ("ground-bar is none", "sub-panel", T),
        ("ground-bar is not none", "sub-panel", F),
        ("ground-bar is none", "house-panel", U),
        ("marking includes service-disconnect", "house-disconnect", T),
        ("marking includes not-service-equipment", "house-disconnect", T),
        ("marking includes fed-from", "house-disconnect", F),
        ("not marking includes fed-from", "house-disconnect", T),
        ("marking includes fed-from", "house-panel", U),
        ("temporary", "house-panel", F),
        ("not temporary", "house-panel", T),
        ("type is wanted-type", "rods", T),
        ("type is not wanted-type", "rods", F),
        ("spaces = 40", "house-panel", T),
        ("spaces in [20, 40]", "house-panel", T),
        ("bus in [100 A, 0.2 kA]", "house-panel", T),
        ("bus in [100 A, 150 A]", "house-panel", F),
        ("at.outdoors", "house-disconnect", T),
        ("at.outdoors", "house-panel", U),
        ("at.outdoors", "sub-panel", U),
        ("plan.lines-located", "house-panel", U),
        ("size is 2 in", "first-pipe", T),
        ("size >= 1-1/4 in and size < 2.5 in", "first-pipe", T),
        ("size > 2 in", "first-pipe", F),
        ("count >= 2", "rods", T),
        ("yes", "rods", T),
        ("no or not no", "rods", T),
        ("wire-always", "rods", F),
    ],
)
def test_words_and_values(judge: Judge, text: str, of: str, answer: str) -> None:
    assert judge(text, of).answer == answer


@pytest.mark.parametrize(
    ("text", "of", "answer"),
    [
        ("ground is none", "house-feeder", T),
        ("ground is not none", "house-feeder", F),
        ("ground is none", "range-circuit", F),
        ("ground is none", "den-circuit", U),
        ("bends is none", "first-pipe", T),
        ("bends is none", "riser", F),
        ("protection is none", "range-circuit", T),
        ("shares-with is not none", "deep", F),
        ("shares-with is not none", "shallow", T),
        ("shares-with is not none", "unmeasured", U),
        ("shares-neutral-with is none", "range-circuit", T),  # its default
        ("shares-neutral-with is none", "den-circuit", F),
        # what is none is zero, and empty
        ("ground >= 14 AWG copper", "house-feeder", F),
        ("count(bends) = 0", "first-pipe", T),
        ("count(bends) = 2", "riser", T),
        ("protection includes afci", "range-circuit", F),
        # stated: yes for none, no for what is left out or a default
        ("ground is stated", "house-feeder", T),
        ("ground is stated", "den-circuit", F),
        ("ground is not stated", "den-circuit", T),
        ("shares-neutral-with is stated", "range-circuit", F),
        ("panel.interrupting is stated", "range-circuit", T),
        ("panel.handle-height is stated", "range-circuit", F),
        ("panel.handle-height is stated", "bare-circuit", U),
    ],
)
def test_none_and_stated(judge: Judge, text: str, of: str, answer: str) -> None:
    assert judge(text, of).answer == answer


def test_what_is_none_leads_nowhere(judge: Judge) -> None:
    """Asked of what isn't there, a condition stays open and says why; the guard before it decides."""
    verdict = judge("shares-neutral-with.breaker >= 20 A", "range-circuit")
    assert verdict.answer == U
    assert needed(verdict) == ["range-circuit has no shares-neutral-with, so there is no breaker of it"]
    assert judge("shares-neutral-with is none or shares-neutral-with.breaker >= 20 A", "range-circuit").answer == T
    assert judge("shares-neutral-with is none or shares-neutral-with.breaker >= 20 A", "den-circuit").answer == T


def at(job: dict[str, Any]) -> dict[tuple[str, str], Any]:
    return {("house-panel", name): value for name, value in job.items()}


@pytest.mark.parametrize(
    ("text", "job", "answer"),
    [
        # tolerance: 18 in is 45.72 cm and 1.5 ft
        ("cover >= least-cover", {"cover": Length.read("45.72 cm")}, T),
        ("cover >= least-cover", {"cover": Length.read("17.9 in")}, F),
        ("cover > 1 ft 6 in", {"cover": Length.read("18 in")}, F),
        ("cover = 0.4572 m", {"cover": Length.read("18 in")}, T),
        # one horsepower is 746 W; watts and volt-amperes are one dimension
        ("load-va >= 1 hp", {"load-va": Power.read("746 VA")}, T),
        ("load-va >= 1 kW", {"load-va": Power.read("0.9 kVA")}, F),
        # a percent is a plain number in multiplying, and a ratio is held against one
        ("load-near >= 125 % * load-amps", {"load-near": Current.of(25, "A"), "load-amps": Current.of(20, "A")}, T),
        ("load-near > 125 % * load-amps", {"load-near": Current.of(25, "A"), "load-amps": Current.of(20, "A")}, F),
        ("load-amps / load-near <= 80 %", {"load-near": Current.of(25, "A"), "load-amps": Current.of(20, "A")}, T),
        ("load-amps / load-near < 0.8", {"load-near": Current.of(25, "A"), "load-amps": Current.of(20, "A")}, F),
        ("drop + 1 % <= most-drop", {"drop": Percent.read("2 %")}, T),
        ("drop * 2 <= most-drop", {"drop": Percent.read("2 %")}, F),
        ("drop / 1 % = 2", {"drop": Percent.read("2 %")}, T),
        (
            "load-amps + load-near - 5 A <= load-far",
            {"load-amps": Current.of(20, "A"), "load-near": Current.of(15, "A"), "load-far": Current.of(30, "A")},
            T,
        ),
        ("load-amps / 2 <= 10 A", {"load-amps": Current.of(20, "A")}, T),
        ("spaces / 2 * 3 <= 60", {}, T),
        ("spaces * 80 % >= 32", {}, T),
        ("jam-ratio < 2.8 or jam-ratio > 3.2", {"jam-ratio": 3.0}, F),
        ("jam-ratio <= 0.3", {"jam-ratio": 0.1 + 0.2}, T),
        ("jam-ratio < 0.3", {"jam-ratio": 0.1 + 0.2}, F),
        # 40 degrees Celsius are 104 degrees Fahrenheit
        ("hottest <= 104 F", {"hottest": Temperature.read("40 C")}, T),
        ("hottest <= -10 F", {"hottest": Temperature.read("40 C")}, F),
        ("neutral is same as neutral-wanted", {"neutral-wanted": "floating"}, F),
        ("neutral is not same as neutral-wanted", {"neutral-wanted": "floating"}, T),
        ("neutral is same as neutral-wanted", {}, U),
        ("room in banned-places", {"room": "bathroom"}, T),
        ("not room in banned-places", {"room": "kitchen"}, T),
        ("bus in ratings-allowed", {"ratings-allowed": (Current.of(0.2, "kA"),)}, T),
        ("bus in ratings-allowed", {}, U),
        ("service-disconnect is none", {"service-disconnect": None}, T),
        # divided by zero: nothing comes out, and nothing breaks
        ("load-amps / load-near <= 80 %", {"load-near": Current.of(0, "A"), "load-amps": Current.of(20, "A")}, U),
        ("load-amps / 0 <= 80 A", {"load-amps": Current.of(20, "A")}, U),
    ],
)  # fmt: skip
def test_amounts(judge: Judge, text: str, job: dict[str, Any], answer: str) -> None:
    assert judge(text, job=at(job)).answer == answer


def test_wires_are_held_against_sizes_of_their_own_metal(judge: Judge) -> None:
    assert judge("hot >= 4/0 AWG aluminum", "house-feeder").answer == T
    assert judge("hot > 3/0 AWG aluminum and hot < 250 kcmil aluminum", "house-feeder").answer == T
    assert judge("hot >= 250 kcmil aluminum", "house-feeder").answer == F
    assert judge("size is 4 AWG copper", "main-bond").answer == T
    assert judge("size in [6 AWG copper, 4 AWG copper]", "main-bond").answer == T
    assert judge("size is 4 AWG aluminum", "main-bond") == Verdict(F)
    assert judge("size >= least-bond", "main-bond").answer == T
    assert judge("size >= least-bond", "gas-bond").answer == F  # 6 AWG aluminum, where 4 AWG is the least
    assert judge("least-bond <= size", "main-bond").answer == T


def test_a_metal_without_a_figure_is_broken_whichever_way_it_is_asked(judge: Judge) -> None:
    for text in (
        "size >= copper-only",
        "not size < copper-only",
        "not size >= copper-only",
        "size is copper-only",
        "not size is copper-only",
    ):
        verdict = judge(text, "gas-bond")
        assert verdict.answer == F, text
        assert verdict.notes == ("No size of aluminum is allowed here, only 6 AWG copper.",)


def test_two_metals_are_broken_with_a_sentence(judge: Judge) -> None:
    verdict = judge("size >= 6 AWG copper", "gas-bond")
    assert verdict.answer == F
    assert verdict.notes == (
        "6 AWG aluminum and 6 AWG copper are of two metals, so their sizes can't be held against each other.",
    )
    assert judge("size >= 6 AWG copper or type is gas-pipe", "gas-bond") == Verdict(T)
    assert judge("size >= 6 AWG copper or type is main", "gas-bond").notes == verdict.notes


def test_a_metal_that_the_plan_leaves_out_is_an_open_question(judge: Judge) -> None:
    verdict = judge("hot >= 12 AWG copper", "den-circuit")
    assert verdict.answer == U
    assert [(need.element.name, need.attribute, str(need)) for need in verdict.needs] == [
        ("den-circuit", "hot", "den-circuit: the metal of hot")
    ]


def test_no_wire_is_smaller_than_any(judge: Judge) -> None:
    job = {"ground-size": NO_WIRE, "ground-needed": WireSize("10", "copper")}
    assert judge("ground-size >= ground-needed", job=at(job)).answer == F
    assert judge("ground-size >= least-bond", job=at(job)).answer == F
    assert judge("ground-size is none", job=at(job)).answer == T
    sizes = {
        "ground-size": WireSize("4", "aluminum"),
        "ground-needed": WireSizes.of(WireSize("4", "aluminum"), WireSize("6", "copper")),
    }
    assert judge("ground-size >= ground-needed and ground-size >= least-bond", job=at(sizes)).answer == T


@pytest.fixture
def bonds(elements: dict[str, Element]) -> Callable[..., dict[tuple[str, str], Any]]:
    """A job in which the house panel's bonds are these, whole or open."""

    def made(*names: str, whole: bool = True) -> dict[tuple[str, str], Any]:
        gaps = () if whole else (Need(elements["example"], "complete", complete="grounding"),)
        return {("house-panel", "bonds"): Members(tuple(elements[name] for name in names), gaps)}

    return made


Bonds = Callable[..., dict[tuple[str, str], Any]]


@pytest.mark.parametrize("whole", [True, False])
@pytest.mark.parametrize(
    ("members", "body", "some", "every", "none"),
    [
        ((), "type is main", F, T, T),
        (("main-bond",), "type is main", T, T, F),
        (("gas-bond",), "type is main", F, F, T),
        (("gas-bond", "main-bond"), "type is main", T, F, F),
        (("main-bond",), "listed-screw", U, U, U),
        (("main-bond", "gas-bond"), "type is main and listed-screw", U, F, U),
        (("main-bond", "gas-bond"), "type is gas-pipe or listed-screw", T, U, F),
    ],
)
def test_lists(
    judge: Judge, bonds: Bonds, members: tuple[str, ...], body: str, some: str, every: str, none: str, whole: bool
) -> None:
    """Of a list that may be longer: some is yes with one yes, no is no with one yes, every is no with one no; otherwise open."""
    job = bonds(*members, whole=whole)

    def answer(text: str) -> str:
        return judge(text, job=job).answer

    assert answer(f"some bonds has ({body})") == (some if whole or some == T else U)
    assert answer(f"every bonds has ({body})") == (every if whole or every == F else U)
    assert answer(f"no bonds has ({body})") == (none if whole or none == F else U)
    # and turned round
    assert answer(f"not some bonds has ({body})") == answer(f"no bonds has ({body})")
    assert answer(f"not no bonds has ({body})") == answer(f"some bonds has ({body})")
    assert answer(f"not every bonds has (not ({body}))") == answer(f"some bonds has ({body})")


def test_an_open_list_asks_for_the_topic_and_a_member_for_what_it_lacks(judge: Judge, bonds: Bonds) -> None:
    verdict = judge("some bonds has (listed-screw)", job=bonds("main-bond", "gas-bond", whole=False))
    assert needed(verdict) == ["main-bond: listed-screw", "gas-bond: listed-screw", "complete grounding"]
    assert needed(judge("some bonds has (listed-screw)")) == ["house-panel: bonds"]
    assert not judge("some bonds has (listed-screw or type is main)", job=bonds("gas-bond")).broken


@pytest.mark.parametrize(
    ("condition", "whole", "open_"),
    [
        ("count(bonds) >= 2", T, T), ("count(bonds) >= 3", F, U), ("count(bonds) > 1", T, T), ("count(bonds) > 2", F, U),
        ("count(bonds) <= 2", T, U), ("count(bonds) <= 1", F, F), ("count(bonds) < 3", T, U), ("count(bonds) < 2", F, F),
        ("count(bonds) = 2", T, U), ("count(bonds) = 1", F, F), ("count(bonds) = 3", F, U),
        ("2 <= count(bonds)", T, T), ("1 >= count(bonds)", F, F), ("3 <= count(bonds)", F, U), ("1 = count(bonds)", F, F),
        ("not count(bonds) < 2", T, T), ("not count(bonds) >= 3", T, U), ("not count(bonds) = 1", T, T),
        ("count(bonds) + 1 > 2", T, T), ("count(bonds) + count(bonds) <= 3", F, F), ("count(bonds) * 2 >= 4", T, U),
        ("count(bonds) - 1 >= 1", T, U), ("count(bonds) >= count(bonds)", T, U), ("count(bonds) <= most-services", F, F),
    ],
)  # fmt: skip
def test_a_count_of_an_open_list_is_a_lower_bound(judge: Judge, bonds: Bonds, condition: str, whole: str, open_: str) -> None:
    assert judge(condition, job=bonds("main-bond", "gas-bond")).answer == whole
    verdict = judge(condition, job=bonds("main-bond", "gas-bond", whole=False))
    assert verdict.answer == open_
    assert needed(verdict) == (["complete grounding"] if open_ == U else [])


def test_an_element_in_an_open_list(judge: Judge, elements: dict[str, Element]) -> None:
    gap = (Need(elements["example"], "complete", complete="rooms"),)
    near = ("house-panel", "rooms-near")
    assert judge("at in rooms-near", job={near: Members((elements["hall"],), gap)}).answer == T
    assert judge("at in rooms-near", job={near: Members((elements["yard"],), gap)}).answer == U
    assert judge("not at in rooms-near", job={near: Members((elements["yard"],))}).answer == T
    assert judge("rooms-near is none", job={near: Members((), gap)}).answer == U
    assert judge("rooms-near is none", job={near: Members((elements["yard"],), gap)}).answer == F


def test_names_inside_has_belong_to_the_member_and_settings_to_the_rule(judge: Judge, elements: dict[str, Element]) -> None:
    job = {("house-panel", "runs"): Members((elements["house-feeder"], elements["range-circuit"]))}
    assert judge("some runs has (breaker = 50 A)", job=job).answer == T
    assert judge("every runs has (breaker > 50 A or ground is not none)", job=job).answer == T
    assert judge("some runs has (count(raceway) >= most-services)", job=job).answer == T
    assert judge("no runs has (some raceway has (type is RMC))", job=job).answer == U  # the circuit says nothing of its raceway
