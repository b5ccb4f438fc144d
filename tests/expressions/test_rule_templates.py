"""Templates: what their holes print, how figures are told apart, and what is refused."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.expressions import ExpressionFault, Template, Verdict, compile_condition, compile_template
from planlint.plan import Element, Need
from planlint.plan.members import Members
from planlint.quantities import Current, Length, Percent

Compiled = Callable[..., Template]


@pytest.mark.parametrize(
    ("text", "of", "said"),
    [
        ("{name} is {neutral}.", "house-panel", "house-panel is isolated."),
        ("{bus}, {main} and {spaces} spaces", "house-panel", "200 A, lugs and 40 spaces"),
        ("{main}", "sub-panel", "60 A"),
        ("in {at}, {at.use}", "house-panel", "in hall, hallway"),
        ("{at.outdoors} {neutral}", "house-disconnect", "yes bonded"),
        ("{marking}", "house-disconnect", "service-disconnect, not-service-equipment"),
        ("{hot}; {ground}", "house-feeder", "2 x 4/0 aluminum XHHW-2; none"),
        ("{from} to {to} through {raceway}", "house-feeder", "house-disconnect to house-panel through first-pipe"),
        ("{bends}", "first-pipe", "none"),
        ("{bends}", "riser", "90 deg, 45 deg"),
        ("{shares-neutral-with}", "range-circuit", "none"),
        ("{size}", "first-pipe", "2 in"),
        ("{count(raceway)} pipe", "house-feeder", "1 pipe"),
        ("{{braces}} and {name}", "riser", "{braces} and riser"),
        ("{{{name}}}", "riser", "{riser}"),
        ("no hole", "riser", "no hole"),
        ("", "riser", ""),
        ("{ name }", "riser", "riser"),
        ("{least-cover} or {least-bond}", "riser", "18 in or 6 AWG copper or 4 AWG aluminum"),
        # what the plan leaves out
        ("{handle-height} high", "house-panel", "not stated high"),
        ("{at.use}", "sub-panel", "not stated"),
        ("{bus - load-amps} spare", "house-panel", "not stated spare"),
    ],
)  # fmt: skip
def test_holes(names: Any, elements: dict[str, Element], text: str, of: str, said: str) -> None:
    element = elements[of]
    assert compile_template(text, (element.kind,), names).render(element, {}) == said


def test_worked_values_print_to_three_figures(template: Compiled, elements: dict[str, Element]) -> None:
    job = {
        ("house-panel", "load-amps"): Current.of(160.657, "A"),
        ("house-panel", "drop"): Percent.of(2.98765, "%"),
        ("house-panel", "jam-ratio"): 2.98765,
        ("house-panel", "is-wet"): True,
    }

    def said(text: str) -> str:
        return template(text).render(elements["house-panel"], job)

    assert said("{load-amps} of {bus}, {bus - load-amps} spare") == "161 A of 200 A, 39.3 A spare"
    assert said("{125 % * load-amps} {load-amps / bus} {load-amps / 3}") == "201 A 0.803 53.6 A"
    assert said("{drop} {jam-ratio} {is-wet} {spaces * 2}") == "2.99 % 2.99 yes 80"


def test_an_open_list_is_counted_from_below(template: Compiled, elements: dict[str, Element]) -> None:
    gap = (Need(elements["example"], "complete", complete="grounding"),)
    job = {("house-panel", "bonds"): Members((elements["main-bond"],), gap)}
    assert template("{count(bonds)}: {bonds}").render(elements["house-panel"], job) == "at least 1: main-bond"


Pair = tuple[object, object]


@pytest.mark.parametrize(
    ("value", "apart", "said"),
    [
        (Length.of(17.96, "in"), (Length.of(17.96, "in"), Length.read("18 in")), "17.96 in"),
        (Length.of(17.9996, "in"), (Length.of(17.9996, "in"), Length.read("18 in")), "17.9996 in"),
        (Length.of(17.4, "in"), (Length.of(17.4, "in"), Length.read("18 in")), "17.4 in"),
        # in one unit, so that 1.4996 ft isn't printed as 1.5 ft beside 18 in
        (Length.of(1.4996, "ft"), (Length.of(1.4996, "ft"), Length.read("18 in")), "1.4996 ft"),
        (Percent.of(3.0004, "%"), (Percent.of(3.0004, "%"), Percent.read("3 %")), "3.0004 %"),
        (0.80004, (0.80004, Percent.read("80 %")), "0.80004"),
        (Percent.of(80.004, "%"), (0.8, Percent.of(80.004, "%")), "80.004 %"),
        # another pair's figures are no reason, nor are values that are alike
        (Length.of(17.96, "in"), (Length.of(3.0004, "in"), Length.read("3 in")), "18 in"),
        (Length.of(17.96, "in"), (Current.of(17.96, "A"), Current.of(18, "A")), "18 in"),
        (Length.of(17.96, "in"), (Length.of(17.96, "in"), Length.of(17.96, "in")), "18 in"),
        # what was written stays as it was written
        (Length.read("17.9996 in"), (Length.read("17.9996 in"), Length.read("18 in")), "17.9996 in"),
    ],
)  # fmt: skip
def test_figures_until_a_value_differs_from_its_limit(value: object, apart: Pair, said: str) -> None:
    from planlint.expressions.template import printed

    assert printed(value, (apart,)) == said


def test_a_finding_never_prints_a_value_like_the_limit_it_breaks(names: Any, elements: dict[str, Element]) -> None:
    job = {("house-panel", "load-amps"): Current.of(199.9996, "A"), ("house-panel", "load-near"): Current.of(200.0004, "A")}
    verdict: Verdict = compile_condition("load-near <= load-amps", ("panel",), names).judge(elements["house-panel"], job)
    template = compile_template("{load-near} of {load-amps}", ("panel",), names)
    assert template.render(elements["house-panel"], job) == "200 A of 200 A"
    assert template.render(elements["house-panel"], job, verdict.broken) == "200.0004 A of 199.9996 A"


@pytest.mark.parametrize(
    ("text", "at", "message"),
    [
        ("ties {nam} down", "nam", "'nam' is no attribute, fact or setting of a panel. Did you mean 'name'?"),
        ("{name} and {at.rom}", "rom", "'rom' is no attribute, fact or setting of a place. Did you mean 'room'?"),
        ("{}", "{}", "these braces name nothing; a value stands in them like {cover}"),
        ("a { } b", "{ }", "these braces name nothing; a value stands in them like {cover}"),
        ("a {name b", "{", "this brace is not closed; a value stands in braces like {cover}, and a brace itself is written {{"),
        ("a name} b", "}", "nothing opens the brace that closes here; a brace itself is written }}"),
        (
            "{name {bus}}",
            "{",
            "this brace is not closed; a value stands in braces like {cover}, and a brace itself is written {{",
        ),
        ("{bus >= 20 A}", ">=", "A template prints a value, like {cover} or {cover-needed - cover}; it asks nothing"),
        ("{(lit or torqued)}", "lit or torqued", "'lit or torqued' is a condition; a value belongs here"),
        (
            "x {bus + cover}",
            "bus + cover",
            "a current and a length can't be put together with '+'; both sides are of one dimension",
        ),
        ("x {count(bus)}", "bus", "'bus' is a current, not a list; only lists are counted"),
        ("x {bus -}", "-", "A minus has a space on both sides, like bus - load-amps; a hyphen belongs to a name, like load-amps"),
    ],
)
def test_refused_at_its_place_in_the_whole_text(names: Any, text: str, at: str, message: str) -> None:
    with pytest.raises(ExpressionFault) as caught:
        compile_template(text, ("panel",), names)
    assert (text[caught.value.start : caught.value.end], caught.value.message) == (at, message)
