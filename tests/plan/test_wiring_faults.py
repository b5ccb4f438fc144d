"""What no wiring can be: each fault with its names and its line, and what comes near it and is none."""

from collections.abc import Callable

import pytest

from planlint.language import Reading
from planlint.plan.graph import Graph
from planlint.plan.wiring_faults import LONGEST_CHAIN, wiring_faults

Plan = Callable[..., Reading]

SERVICE = """supply utility
  type utility
disconnect main
  breaker 200 A
service drop
  from utility; to main
panel house-panel
feeder house-feeder
  from main; to house-panel
"""


def told(plan: Plan, text: str) -> list[tuple[int, str]]:
    return [(fault.span.line, fault.message) for fault in wiring_faults(Graph(plan(text, example=True).elements))]


def test_a_sound_plan_has_none(plan: Plan) -> None:
    assert told(plan, SERVICE) == []


def test_a_loop_is_told_once_with_its_names(plan: Plan) -> None:
    text = SERVICE + "panel b\nfeeder there\n  from house-panel; to b\nfeeder back\n  from b; to main\n"
    ((line, message),) = told(plan, text)
    assert line == 3
    assert "main, house-panel, b, main feed each other in a circle" in message


def test_pipes_that_continue_each_other(plan: Plan) -> None:
    text = "raceway a\n  continues b\nraceway b\n  continues a\n"
    ((line, message),) = told(plan, text)
    assert (line, "a, b, a feed each other" in message) == (1, True)


@pytest.mark.parametrize(("pieces", "faults"), [(LONGEST_CHAIN - 1, 0), (LONGEST_CHAIN, 1)])
def test_the_longest_chain(plan: Plan, pieces: int, faults: int) -> None:
    """The panels and the supply at their head count as pieces."""
    panels = "".join(f"panel p-{k}\nfeeder f-{k}\n  from {f'p-{k - 1}' if k else 'source'}; to p-{k}\n" for k in range(pieces))
    assert len(told(plan, "supply source\n  type utility\n" + panels)) == faults


SECOND = "supply second\n  type {type}\nfeeder second-feeder\n  from second; to house-panel\n"


@pytest.mark.parametrize(
    ("more", "faults"),
    [
        (SECOND.format(type="utility"), ["house-panel has two feeds"]),
        (SECOND.format(type="generator"), []),
        (SECOND.format(type="utility") + "transfer-switch plate\n  type interlock; panel house-panel\n", []),
        ("feeder twin\n  from main; to house-panel\n", ["house-panel has two feeds"]),
    ],
)
def test_two_feeds_of_one_panel(plan: Plan, more: str, faults: list[str]) -> None:
    found = told(plan, SERVICE + more)
    assert len(found) == len(faults)
    assert all(begin in message for begin, (_, message) in zip(faults, found, strict=True))


ONWARD = """supply utility
  type utility
disconnect switch
  {switch}
service drop
  from utility; to switch
panel house-panel
{run} entrance
  from switch; to house-panel
"""


@pytest.mark.parametrize(
    ("switch", "run", "line", "says"),
    [
        ("breaker 200 A", "service", 3, "make entrance a feeder"),
        ("breaker 200 A; marking not-service-equipment", "feeder", 8, "make entrance one, or take the marking off switch"),
        ("switch-rating 200 A; marking not-service-equipment", "feeder", 8, "the service drop ends"),
        ("breaker 200 A; marking not-service-equipment", "service", 0, ""),
        ("switch-rating 200 A", "service", 0, ""),
        ("breaker 200 A", "feeder", 0, ""),
    ],
)
def test_roles_that_contradict_each_other(plan: Plan, switch: str, run: str, line: int, says: str) -> None:
    found = told(plan, ONWARD.format(switch=switch, run=run))
    assert [at for at, _ in found] == [line] * bool(line)
    assert all(says in message for _, message in found)


def test_a_circuit_ahead_of_the_service_disconnect(plan: Plan) -> None:
    text = ONWARD.format(switch="breaker 200 A; marking not-service-equipment", run="service")
    ((line, message),) = told(plan, text + "circuit lights\n  panel switch\n")
    assert line == 10
    assert "the circuit lights starts at switch" in message


def test_a_disconnect_past_the_service_may_bear_the_marking(plan: Plan) -> None:
    sub = "disconnect sub\n  breaker 60 A; marking not-service-equipment\nfeeder to-sub\n  from house-panel; to sub\n"
    assert told(plan, SERVICE + sub + "panel far\nfeeder to-far\n  from sub; to far\n") == []
