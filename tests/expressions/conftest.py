"""What tests of the rule language share: a plan, a small table of names over it, and the verdict of an expression on an element.

The names are the vocabulary's attributes and the facts and settings below. What a fact gives stands in the job, a mapping from
(element's name, fact) to its value; what isn't there is not stated.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

import pytest

from planlint import valuetypes as vt
from planlint.expressions import ExpressionFault, Name, Template, Verdict, WireSizes, compile_condition, compile_template
from planlint.language import read_text
from planlint.plan import KINDS, Element, Need, NotStated
from planlint.quantities import Length, Percent
from planlint.trade import WireSize

FACTS: dict[str, vt.ValueType] = {
    "services": vt.list_of(vt.element("service")),
    "bonds": vt.list_of(vt.element("bond")),
    "distribution": vt.list_of(vt.element("disconnect", "panel")),
    "runs": vt.list_of(vt.element("feeder", "circuit")),
    "rooms-near": vt.list_of(vt.element("place")),
    "ratings-allowed": vt.list_of(vt.quantity("current")),
    "load-amps": vt.quantity("current"),
    "load-near": vt.quantity("current"),
    "load-far": vt.quantity("current"),
    "load-va": vt.quantity("power"),
    "drop": vt.quantity("percent"),
    "cover": vt.quantity("length"),
    "cover-needed": vt.quantity("length"),
    "jam-ratio": vt.NUMBER,
    "hottest": vt.quantity("temperature"),
    "ground-size": vt.WIRE_SIZE,
    "ground-needed": vt.WIRE_SIZE,
    "neutral-wanted": vt.choice("bonded", "floating"),
    "ground-path": vt.choice("wire", "metal-raceway", "none"),
    "room": vt.choice("kitchen", "bathroom", "garage"),
    "service-disconnect": vt.element("disconnect"),
    "is-dwelling": vt.YES_NO,
    "is-outdoors": vt.YES_NO,
    "is-wet": vt.YES_NO,
}
SETTINGS: dict[str, tuple[vt.ValueType, Any]] = {
    "least-cover": (vt.quantity("length"), Length.read("18 in")),
    "most-drop": (vt.quantity("percent"), Percent.read("3 %")),
    "most-services": (vt.NUMBER, 1),
    "least-bond": (vt.WIRE_SIZE, WireSizes.of(WireSize("6", "copper"), WireSize("4", "aluminum"))),
    "copper-only": (vt.WIRE_SIZE, WireSizes.of(WireSize("6", "copper"))),
    "banned-places": (vt.list_of(vt.choice("bathroom", "garage")), ("bathroom", "garage")),
    "wanted-type": (vt.choice("rod"), "rod"),
    "wire-always": (vt.YES_NO, False),
}

PLAN = """
supply poco
  type utility; volts 120/240 V
disconnect house-disconnect
  at yard; breaker 200 A; interrupting 22 kA; neutral bonded; marking service-disconnect, not-service-equipment
panel house-panel
  at hall; bus 200 A; main lugs; interrupting 10 kA; neutral isolated; spaces 40
panel sub-panel
  bus 100 A; main 60 A; ground-bar none
place yard
  outdoors yes
place hall
  use hallway
place bath
  use bathroom
building house
  use one-family
feeder house-feeder
  from house-disconnect; to house-panel; breaker 200 A
  hot 2 x 4/0 aluminum XHHW-2; ground none; raceway first-pipe
circuit range-circuit
  panel house-panel; breaker 50 A; hot 2 x 6 copper THHN; ground 10 copper THHN; protection none
circuit den-circuit
  panel house-panel; hot 1 x 12 THHN; protection afci, gfci; shares-neutral-with range-circuit; trench deep, shallow
circuit bare-circuit
  breaker 20 A
raceway first-pipe
  type PVC-40; size 2 in; bends none; trench deep
raceway riser
  type RMC; route riser; bends 90 deg, 45 deg
trench deep
  cover 26 in; shares-with none
trench shallow
  cover 14 in; shares-with gas, water
trench unmeasured
  under yard
electrode rods
  type rod; count 2; length 8 ft
bond main-bond
  type main; size 4 AWG copper
bond gas-bond
  type gas-pipe; size 6 AWG aluminum
"""
Job = Mapping[tuple[str, str], Any]


class FakeNames:
    """The vocabulary's attributes, the facts on any kind, and the settings."""

    def lookup(self, kinds: tuple[str, ...], name: str) -> Name | None:
        if name in SETTINGS:
            type_, value = SETTINGS[name]
            return Name(type_, lambda element, job: value)
        found = [self._one(kind, name) for kind in kinds]
        first = found[0]
        if first is None or any(other is None or other.type != first.type for other in found):
            return None
        return first

    def _one(self, kind: str, name: str) -> Name | None:
        if name == "name":
            return Name(vt.TEXT, lambda element, job: element.name)
        if name == "plan":
            return Name(vt.element("plan"), lambda element, job: element.plan)
        declared = KINDS[kind].attributes.get(name)
        if declared is not None:
            return Name(declared.type.value_type, lambda element, job: element.value(name), name)
        return Name(FACTS[name], lambda element, job: _fact(element, job, name)) if name in FACTS else None

    def known(self, kinds: tuple[str, ...]) -> Iterable[str]:
        return {"name", "plan", *SETTINGS, *FACTS, *set.intersection(*(set(KINDS[kind].attributes) for kind in kinds))}


def _fact(element: Element, job: Job, name: str) -> Any:
    try:
        return job[element.name, name]
    except KeyError:
        raise NotStated(Need(element, name)) from None


@pytest.fixture(scope="session")
def names() -> FakeNames:
    return FakeNames()


@pytest.fixture(scope="session")
def elements() -> dict[str, Element]:
    """The plan's elements by name."""
    return {element.name: element for element in read_text(PLAN, example=True).elements}


@pytest.fixture(scope="session")
def judge(names: FakeNames, elements: dict[str, Element]) -> Callable[..., Verdict]:
    """The verdict of a condition on the element of that name."""

    def held(text: str, of: str = "house-panel", job: Job | None = None) -> Verdict:
        element = elements[of]
        return compile_condition(text, (element.kind,), names).judge(element, job or {})

    return held


@pytest.fixture(scope="session")
def template(names: FakeNames) -> Callable[..., Template]:
    """A compiled template about elements of a kind."""

    def compiled(text: str, kind: str = "panel") -> Template:
        return compile_template(text, (kind,), names)

    return compiled


@pytest.fixture(scope="session")
def fault_of(names: FakeNames) -> Callable[..., tuple[str, str]]:
    """What is wrong with a condition: the part at fault, and the message."""

    def told(text: str, *kinds: str) -> tuple[str, str]:
        with pytest.raises(ExpressionFault) as caught:
            compile_condition(text, kinds or ("panel",), names)
        return text[caught.value.start : caught.value.end], caught.value.message

    return told
