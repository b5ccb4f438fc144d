"""A law: stating more of a plan never turns yes into no nor no into yes. Only what was unknown gets an answer."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.expressions import compile_condition
from planlint.plan import Element, Need
from planlint.plan.members import Members
from planlint.quantities import Current, Length
from planlint.trade import WireSize

AMPERES = st.sampled_from([Current.of(n, "A") for n in (15, 20, 25)])
VALUES: dict[str, st.SearchStrategy[Any]] = {
    "is-wet": st.booleans(),
    "is-outdoors": st.booleans(),
    "load-amps": AMPERES,
    "load-near": AMPERES,
    "cover": st.sampled_from([Length.of(n, "in") for n in (17.9, 18, 24)]),
    "room": st.sampled_from(["kitchen", "bathroom", "garage"]),
    "ground-path": st.sampled_from(["wire", "metal-raceway", "none"]),
    "ground-size": st.sampled_from([WireSize("6", "copper"), WireSize("4", "aluminum"), WireSize("")]),
    "ratings-allowed": st.sampled_from([(), (Current.of(15, "A"),), (Current.of(20, "A"), Current.of(25, "A"))]),
}
ASKED = st.sampled_from(
    [
        "is-wet", "is-outdoors", "load-amps <= load-near", "load-amps = load-near", "125 % * load-amps > load-near",
        "load-amps / load-near >= 80 %", "cover >= least-cover", "room in banned-places", "room is kitchen",
        "ground-path is not none",
        "ground-size >= least-bond", "ground-size >= copper-only", "ground-size is none", "load-amps in ratings-allowed",
        "count(runs) > 1", "count(runs) <= 1", "count(runs) = 2", "count(runs) + count(bonds) < 3", "count(ratings-allowed) > 1",
        "some runs has (is-wet)", "every runs has (is-wet or load-amps > 15 A)", "no runs has (cover < least-cover)",
        "some runs has (count(bonds) > 0)", "yes", "no",
    ]
)  # fmt: skip
CONDITIONS = st.recursive(
    ASKED,
    lambda inner: st.one_of(
        inner.map("not ({})".format),
        st.tuples(inner, st.sampled_from([" and ", " or "]), inner).map(lambda parts: f"({parts[0]}){parts[1]}({parts[2]})"),
    ),
    max_leaves=5,
)
MEMBERS = {"runs": ("house-feeder", "range-circuit", "den-circuit"), "bonds": ("main-bond", "gas-bond")}
WHERE = ("house-panel", *MEMBERS["runs"])


@st.composite
def twice(draw: st.DrawFn, elements: dict[str, Element]) -> tuple[dict[tuple[str, str], Any], dict[tuple[str, str], Any]]:
    """A job, and one of which more is known: facts that weren't stated, members that weren't shown, lists that are closed."""
    less: dict[tuple[str, str], Any] = {}
    more: dict[tuple[str, str], Any] = {}
    for name in WHERE:
        for fact, values in VALUES.items():
            known = draw(st.sampled_from(["never", "later", "from the start"]))
            if known != "never":
                more[name, fact] = draw(values)
            if known == "from the start":
                less[name, fact] = more[name, fact]
        for fact, all_ in MEMBERS.items():
            shown = draw(st.integers(0, len(all_)))
            first = draw(st.integers(0, shown))
            gap = (Need(elements["example"], "complete", complete="grounding"),)
            closed = draw(st.booleans())
            closed_first = closed and first == shown and draw(st.booleans())
            if draw(st.booleans()):
                less[name, fact] = Members(tuple(elements[each] for each in all_[:first]), () if closed_first else gap)
            more[name, fact] = Members(tuple(elements[each] for each in all_[:shown]), () if closed else gap)
    return less, more


@settings(max_examples=200, deadline=None)
@given(st.data())
def test_more_said_never_turns_an_answer(names: Any, elements: dict[str, Element], data: st.DataObject) -> None:
    text = data.draw(CONDITIONS)
    condition = compile_condition(text, ("panel",), names)
    less, more = data.draw(twice(elements))
    before, after = (condition.judge(elements["house-panel"], job) for job in (less, more))
    if before.answer != "unknown":
        assert after.answer == before.answer, text
    assert bool(before.needs) == (before.answer == "unknown")


@settings(max_examples=100, deadline=None)
@given(st.data())
def test_not_turns_every_answer_round(names: Any, elements: dict[str, Element], data: st.DataObject) -> None:
    """But for sizes of two metals, which are broken whichever way they are asked."""
    text = data.draw(CONDITIONS.filter(lambda text: "ground-size >=" not in text))
    _, job = data.draw(twice(elements))
    answers = [compile_condition(each, ("panel",), names).judge(elements["house-panel"], job) for each in (text, f"not ({text})")]
    turned = {"yes": "no", "no": "yes", "unknown": "unknown"}
    assert answers[1].answer == turned[answers[0].answer], text
    assert answers[1].needs == answers[0].needs


def test_the_law_can_be_broken(names: Any, elements: dict[str, Element]) -> None:
    """What the property test leaves out, because it asks whether something is said: the test would notice it."""
    condition = compile_condition("ground is stated", ("circuit",), names)
    assert condition.judge(elements["den-circuit"], {}).answer == "no"
    assert condition.judge(elements["range-circuit"], {}).answer == "yes"


@pytest.mark.parametrize("word", ["some", "every", "no"])
def test_a_member_more_closes_nothing_by_itself(names: Any, elements: dict[str, Element], word: str) -> None:
    gap = (Need(elements["example"], "complete", complete="grounding"),)
    job: dict[tuple[str, str], Any] = {("house-panel", "bonds"): Members((), gap)}
    assert (
        compile_condition(f"{word} bonds has (type is main)", ("panel",), names).judge(elements["house-panel"], job).answer
        == "unknown"
    )
