"""Generators: which ways are kept apart, what is open, whose neutral is joined; and the emergency stops."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.book import resolve
from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.facts.generators import (
    carries_all_by_itself,
    has_enough_power,
    has_transfer,
    load_taken_over,
    neutral_fault,
    neutral_is_switched,
    neutral_suits,
    neutral_wanted,
    transfer_fault,
    transfer_switches,
)
from planlint.facts.shutdown import belongs_to_dwelling, on_building, rapid_shutdown_suits, stop_is_outside
from planlint.plan.elements import NotStated
from planlint.quantities import Current
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
ALL = "complete service, feeders, circuits, receptacles, lights, loads\n"
HEAD = """supply utility
  type utility; volts 120/240 V
supply unit
  type generator; volts 120/240 V; rating {rating}; neutral {neutral}
"""
START = HEAD.format(rating="10 kW", neutral="floating")


def settled(job: Job, fact: Callable[[Any, Job], Any], name: str = "unit") -> Any:
    """The value, or what is missing."""
    try:
        return fact(job.graph.one(name), job)
    except NotStated as gap:
        return " ".join(need.note or f"{need.element.name}: {need.attribute or need.complete}" for need in gap.needs)


SWITCH = """transfer-switch switch
  type manual; switches-neutral no
service drop
  from utility; to switch; owner utility
feeder run
  from unit; to switch; cable 10/3 copper UF-B
"""
THROUGH_A_DISCONNECT = """disconnect stop
  breaker 50 A; neutral isolated
feeder run
  from unit; to stop; cable 10/3 copper UF-B
feeder onward
  from stop; to {}
"""
PANEL = """panel main-panel
service drop
  from utility; to main-panel; owner utility
"""
PLATE = "transfer-switch plate\n  type interlock; panel main-panel; switches-neutral no\n"


@pytest.mark.parametrize(
    ("text", "apart"),
    [
        (SWITCH, True),
        (SWITCH.replace("type manual; ", ""), True),
        (PANEL + "feeder run\n  from unit; to main-panel\n", False),
        (THROUGH_A_DISCONNECT.format("main-panel") + PANEL, False),
        (THROUGH_A_DISCONNECT.format("main-panel") + PANEL + PLATE, True),
        (THROUGH_A_DISCONNECT.format("main-panel") + PANEL + PLATE.replace("interlock", "manual"), False),
        (THROUGH_A_DISCONNECT.format("switch") + SWITCH[: SWITCH.index("feeder")], True),
        # Its own panel, to which nothing else comes.
        ("panel hut\nfeeder run\n  from unit; to hut; cable 10/3 copper UF-B\n", True),
        # And on from there to where the utility is.
        ("panel hut\nfeeder run\n  from unit; to hut\nfeeder on\n  from hut; to main-panel\n" + PANEL, False),
        # A second way in, straight to the panel.
        (SWITCH + PANEL.replace("drop", "drop-2") + "feeder second\n  from unit; to main-panel\n", False),
        ("", "the feeder that starts at unit"),
    ],
)
def test_what_keeps_them_apart(job_for: JobFor, text: str, apart: object) -> None:
    assert settled(job_for(ALL + START + text), has_transfer) == apart


@pytest.mark.parametrize(
    ("says", "switched"),
    [("", False), ("; switches-neutral no", False), ("; switches-neutral yes", "plate: type interlock or switches-neutral yes")],
)
def test_a_slide_plate_leaves_the_neutral_joined(job_for: JobFor, says: str, switched: object) -> None:
    way = "feeder run\n  from unit; to main-panel; cable 10/3 copper UF-B\n"
    text = f"{PANEL}transfer-switch plate\n  type interlock; panel main-panel{says}\n{way}"
    found = settled(job_for(ALL + START + text), neutral_is_switched)
    assert found == switched or (isinstance(found, str) and found.startswith(str(switched)))


@pytest.mark.parametrize(
    "text",
    [
        THROUGH_A_DISCONNECT.format("main-panel") + PANEL,
        "panel hut\nfeeder run\n  from unit; to hut\n",
    ],
)
def test_it_is_open_while_the_plan_is_not_complete(job_for: JobFor, text: str) -> None:
    assert "complete" in settled(job_for(START + text), has_transfer)


def test_where_the_other_power_comes_from_must_be_said(job_for: JobFor) -> None:
    """A panel that something feeds of which nothing tells the head."""
    text = "panel main-panel\nfeeder run\n  from unit; to main-panel\nfeeder other\n  from post; to main-panel\ndisconnect post\n"
    assert settled(job_for(ALL + START + text), has_transfer) == "which service or feeder ends at post"


@pytest.mark.parametrize(
    ("text", "names"),
    [
        (SWITCH, ["switch"]),
        (THROUGH_A_DISCONNECT.format("main-panel") + PANEL + PLATE, ["plate"]),
        (THROUGH_A_DISCONNECT.format("main-panel") + PANEL, []),
    ],
)
def test_switches_it_comes_to(job_for: JobFor, text: str, names: list[str]) -> None:
    found = settled(job_for(ALL + START + text), transfer_switches)
    assert [switch.name for switch in found.whole()] == names


@pytest.mark.parametrize(
    ("text", "switched"),
    [
        (SWITCH, False),
        (SWITCH.replace("neutral no", "neutral yes"), True),
        (SWITCH.replace("; switches-neutral no", ""), "switch: switches-neutral"),
        (THROUGH_A_DISCONNECT.format("main-panel") + PANEL, False),  # nothing between them: the neutrals are joined
        ("panel hut\nfeeder run\n  from unit; to hut\n", True),  # nothing to be joined to
        # Of two switches one leaves it joined.
        (
            SWITCH.replace("neutral no", "neutral yes")
            + SWITCH.replace("switch\n", "switch-2\n")
            .replace("to switch", "to switch-2")
            .replace("drop", "drop-2")
            .replace("run", "run-2"),
            False,
        ),
    ],
)
def test_whether_its_neutral_is_joined(job_for: JobFor, text: str, switched: object) -> None:
    job = job_for(ALL + START + text)
    assert settled(job, neutral_is_switched) == switched
    if isinstance(switched, bool):
        assert settled(job, neutral_wanted) == ("bonded" if switched else "floating")


OWN = THROUGH_A_DISCONNECT.format("switch") + SWITCH[: SWITCH.index("feeder")].replace("neutral no", "neutral yes")


@pytest.mark.parametrize(
    ("text", "suits"),
    [
        (OWN, False),  # floating, and bonded nowhere
        (OWN.replace("neutral isolated", "neutral bonded"), True),  # 250.30(A)(1): at the first disconnect instead
        (OWN.replace("; neutral isolated", ""), "stop: neutral"),
        (SWITCH.replace("neutral no", "neutral yes"), False),
        (SWITCH, True),
        (SWITCH.replace("; cable 10/3 copper UF-B", ""), "run: neutral"),
        (
            SWITCH.replace("; cable 10/3 copper UF-B", "; neutral none"),
            "run: neutral, without which nothing is said of its bonding",
        ),
    ],
)
def test_where_a_floating_neutral_is_grounded(job_for: JobFor, text: str, suits: object) -> None:
    assert settled(job_for(ALL + START + text), neutral_suits) == suits


BONDED = HEAD.format(rating="10 kW", neutral="bonded")


@pytest.mark.parametrize(
    ("head", "text", "words"),
    [
        (BONDED, OWN, ""),
        (BONDED, OWN.replace("neutral isolated", "neutral bonded"), "it is tied to the frame, and again in stop"),
        (BONDED, OWN.replace("; neutral isolated", ""), "stop: neutral"),
        (
            BONDED,
            SWITCH,
            "it is tied to the frame, and to the utility's neutral as well, which the service grounds; let it float",
        ),
        (START, OWN, "it is tied to ground nowhere, for what it comes to parts it from the utility's neutral; bond it"),
    ],
)
def test_words_for_a_neutral(job_for: JobFor, head: str, text: str, words: str) -> None:
    job = job_for(ALL + head + text)
    suits = settled(job, neutral_suits)
    if words and suits is False:
        assert settled(job, neutral_fault) == words
    else:
        assert suits == (words or True)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (OWN.replace("neutral isolated", "neutral bonded"), "not-applicable"),
        (OWN, "not-applicable"),
        # The switch leaves the neutral joined: the service ties it to ground, and nothing else may.
        (OWN.replace("neutral isolated", "neutral bonded").replace("neutral yes", "neutral no"), "broken"),
        (OWN.replace("neutral isolated", "neutral bonded").replace("; switches-neutral yes", ""), "undecided"),
    ],
)
def test_the_first_disconnect_may_hold_the_one_bond(job_for: JobFor, text: str, expected: str) -> None:
    """250.30(A)(1): the rule on bonds away from the service says nothing against it."""
    code = resolve(("model-2020",))
    rule = compile_rule(code.rules["neutral-bonded-away-from-service"], code)
    job = job_for(ALL + START + text)
    assert run_rule(rule, job.graph.one("stop"), job).answer == expected


SHOP = """building shop
  use workshop
place room
  building shop
transfer-switch switch
  at room; {switch}
panel main-panel
  at room
service drop
  from utility; to switch; owner utility
feeder run
  from unit; to switch
feeder onward
  from switch; to main-panel
circuit heat
  panel main-panel; use appliance
load heater
  at room; type space-heat; circuit heat; rating 9.6 kW; volts 240 V
"""


@settings(max_examples=60, deadline=None)
@given(tenths=st.integers(min_value=1, max_value=1000))
def test_power_is_enough_from_the_load_on(job_for: JobFor, tenths: int) -> None:
    """9.6 kW at 240 V are 40 A."""
    text = ALL + HEAD.format(rating=f"{tenths / 10} A", neutral="floating") + SHOP.format(switch="type automatic; sheds-load no")
    job = job_for(text)
    assert settled(job, load_taken_over) == Current.of(40, "A")
    assert settled(job, has_enough_power) is (tenths >= 400)


@pytest.mark.parametrize(
    ("switch", "all_of_it"),
    [
        ("type automatic; sheds-load no", True),
        ("type automatic; sheds-load yes", False),
        ("type automatic", "switch: sheds-load"),
        ("type manual", False),
        ("sheds-load yes", False),
        ("sheds-load no", "switch: type"),
    ],
)
def test_what_an_automatic_switch_puts_on_it(job_for: JobFor, switch: str, all_of_it: object) -> None:
    assert settled(job_for(ALL + START + SHOP.format(switch=switch)), carries_all_by_itself) == all_of_it


def test_words(job_for: JobFor) -> None:
    small = ALL + HEAD.format(rating="5 kW", neutral="floating") + SHOP.format(switch="type automatic; sheds-load no")
    assert settled(job_for(small), transfer_fault) == "an automatic switch puts 40 A on it, and it gives 20.83 A"
    straight = ALL + START + THROUGH_A_DISCONNECT.format("main-panel") + PANEL
    assert "no transfer switch or interlock" in settled(job_for(straight), transfer_fault)


HOUSE = "building house\n  use one-family\nplace hall\n  building house\n"
SHED = "building shed\n  use shed\nplace shed-room\n  building shed\n"
YARD = "place yard\n  outdoors yes\n"


@pytest.mark.parametrize(
    ("place", "outside"),
    [
        ("yard", True),
        ("hall", False),
        ("shed-room", "unit: whether shed counts as outside the dwelling for its emergency stop"),
        ("corner", "corner: building"),
    ],
)
def test_stops(job_for: JobFor, place: str, outside: object) -> None:
    job = job_for(HOUSE + SHED + YARD + f"place corner\nsupply unit\n  type battery; shutdown-at {place}\n")
    assert settled(job, stop_is_outside) == outside


@pytest.mark.parametrize(
    ("text", "belongs"),
    [
        (HOUSE, True),
        (HOUSE + SHED, True),
        ("", "unit: which building its power is for"),
        (SHED, "unit: which building its power is for"),
        (SHED + "panel shed-panel\n  at shed-room\nfeeder run\n  from unit; to shed-panel\n", False),
    ],
)
def test_whose_they_are(job_for: JobFor, text: str, belongs: object) -> None:
    job = job_for("complete service, feeders, circuits, receptacles\n" + text + "supply unit\n  type battery\n")
    assert settled(job, belongs_to_dwelling) == belongs


@pytest.mark.parametrize(
    ("more", "on", "suits"),
    [
        ("building house; rapid-shutdown yes; shutdown-at yard", True, True),
        ("building house; rapid-shutdown no", True, False),
        ("building house; rapid-shutdown yes", True, "unit: shutdown-at"),
        ("building house; shutdown-at hall", True, False),
        ("building house; shutdown-at yard", True, "unit: rapid-shutdown"),
        ("building none", False, None),
        ("rapid-shutdown yes", "unit: building", None),
    ],
)
def test_solar_panels(job_for: JobFor, more: str, on: object, suits: object) -> None:
    job = job_for(HOUSE + YARD + f"supply unit\n  type solar; {more}\n")
    assert settled(job, on_building) == on
    if suits is not None:
        assert settled(job, rapid_shutdown_suits) == suits
