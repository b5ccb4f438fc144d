"""The path of `at`: which element and attribute a finding is placed at."""

from typing import Any

import pytest

from planlint.expressions import ExpressionFault, PositionPath, Verdict, compile_condition, compile_path
from planlint.plan import Element, Need
from planlint.quantities import Length


def place(path: PositionPath, element: Element, job: Any = None, verdict: Verdict | None = None) -> tuple[str, str]:
    found, attribute = path.locate(element, job or {}, verdict)
    return found.name, attribute


@pytest.mark.parametrize(
    ("text", "of", "at"),
    [
        ("neutral", "house-panel", ("house-panel", "neutral")),
        ("lit", "house-panel", ("house-panel", "lit")),  # left out: the element's own line
        ("at.outdoors", "house-panel", ("hall", "outdoors")),
        ("at.outdoors", "sub-panel", ("sub-panel", "at")),  # a link that is left out
        ("from.neutral", "house-feeder", ("house-disconnect", "neutral")),
        ("raceway.trench.cover", "house-feeder", ("deep", "cover")),
        ("raceway.trench.cover", "range-circuit", ("range-circuit", "raceway")),
        ("trench.cover", "den-circuit", ("deep", "cover")),  # the first of a list
        ("shares-neutral-with.breaker", "range-circuit", ("range-circuit", "shares-neutral-with")),  # none
        ("shares-neutral-with.breaker", "den-circuit", ("range-circuit", "breaker")),
        ("panel.handle-height", "den-circuit", ("house-panel", "handle-height")),
        ("plan.lines-located", "riser", ("example", "lines-located")),
        ("service-disconnect.breaker", "house-panel", ("house-panel", "service-disconnect")),  # a fact that isn't known
    ],
)
def test_places(names: Any, elements: dict[str, Element], text: str, of: str, at: tuple[str, str]) -> None:
    element = elements[of]
    assert place(compile_path(text, (element.kind,), names), element) == at


def test_one_path_on_kinds_where_a_word_is_one_thing_or_a_list(names: Any, elements: dict[str, Element]) -> None:
    """A raceway lies in one trench, a run in several."""
    path = compile_path("trench.cover", ("raceway", "circuit"), names)
    assert place(path, elements["first-pipe"]) == ("deep", "cover")
    assert place(path, elements["den-circuit"]) == ("deep", "cover")


def test_through_a_list_it_is_the_member_whose_value_decided(names: Any, elements: dict[str, Element]) -> None:
    path = compile_path("trench.cover", ("circuit",), names)
    job = {("den-circuit", "cover"): Length.read("14 in")}
    verdict = compile_condition("cover >= least-cover", ("circuit",), names).judge(elements["den-circuit"], job)
    assert place(path, elements["den-circuit"], job, verdict) == ("shallow", "cover")
    open_ = Verdict("unknown", (Need(elements["shallow"], "cover"),))
    assert place(path, elements["den-circuit"], job, open_) == ("shallow", "cover")
    elsewhere = Verdict("no", broken=((Length.read("3 in"), Length.read("4 in")),))
    assert place(path, elements["den-circuit"], job, elsewhere) == ("deep", "cover")


def test_every_kind_on_the_way_has_the_word(names: Any) -> None:
    with pytest.raises(
        ExpressionFault, match="'interrupting' is not known of supply, only of disconnect, panel and transfer-switch"
    ):
        compile_path("from.interrupting", ("feeder",), names)


@pytest.mark.parametrize(
    ("text", "at", "message"),
    [
        ("neutrl", "neutrl", "'neutrl' is no attribute, fact or setting of a panel. Did you mean 'neutral'?"),
        ("at.rom", "rom", "'rom' is no attribute, fact or setting of a place. Did you mean 'room'?"),
        ("bus.name", "bus", "'bus' leads to no other statement, so nothing follows its dot"),
        ("load-amps", "load-amps", "'load-amps' of a panel stands nowhere in a plan; 'at' names an attribute"),
        ("least-cover", "least-cover", "'least-cover' of a panel stands nowhere in a plan; 'at' names an attribute"),
        (
            "bus + 1 A",
            "bus + 1 A",
            "a place in the plan is one attribute, like cover or trench.cover; 'bus + 1 A' is more than that",
        ),
    ],
)
def test_refused(names: Any, text: str, at: str, message: str) -> None:
    with pytest.raises(ExpressionFault) as caught:
        compile_path(text, ("panel",), names)
    assert (text[caught.value.start : caught.value.end], caught.value.message) == (at, message)
