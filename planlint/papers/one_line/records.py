"""What stands on a one-line diagram: records of gear, runs, loads and grounding, nothing of how they look.

The power's way is a forest: each piece of gear once, with what leaves its bus and what comes to it from another source. A run
that would close a ring is not followed: it is named at both of its ends.
"""

from dataclasses import dataclass
from typing import Literal

from planlint.report import ProfileHead, Severity

Symbol = Literal[
    "utility", "transformer", "generator", "solar", "battery", "source", "meter", "disconnect", "panel", "transfer",
    "motor", "heater", "load", "circuits", "electrode", "bond",
]  # fmt: skip
Device = Literal["breaker", "fuse", "switch", "open", ""]
"""What stands in the way of the current: `open` where the plan doesn't say, "" where there is none."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A finding at an element, by its number in the check."""

    number: int
    severity: Severity


@dataclass(frozen=True, slots=True)
class Part:
    """One element and what is written beside it: its name, and phrases that may be broken between lines.

    `name` is what is shown; `element` the statement's name in the plan, "" for a line that stands for several.
    """

    element: str
    kind: str
    name: str
    phrases: tuple[str, ...] = ()
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True)
class Area:
    """Where gear stands: a building, the open air, or not stated."""

    key: str
    title: str
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True)
class Ground:
    """A conductor of the grounding side and what it reaches; from an electrode it may go on to the next.

    `wire` is None for the join of neutral and ground, `end` for a conductor whose end is not stated or drawn elsewhere.
    """

    wire: Part | None
    end: Part | None
    symbol: Literal["electrode", "bond", "join"]
    further: "tuple[Ground, ...]" = ()


@dataclass(frozen=True, slots=True)
class Load:
    """The end of a circuit: what it feeds, larger things by name, in one line what else there is."""

    parts: tuple[Part, ...]
    symbol: Symbol


@dataclass(frozen=True, slots=True)
class Branch:
    """One way from a piece of gear: its device there, the run, and what is at the other end.

    `inward`: the power comes from that end. `beyond` says where it goes if nothing is drawn there (`end` is None). `full` is no
    where the run is drawn at its other end and here only named.
    """

    run: Part
    device: Device
    end: "Gear | Load | None"
    inward: bool = False
    beyond: str = ""
    planned: bool = False
    full: bool = True


@dataclass(frozen=True, slots=True)
class Gear:
    """One piece of gear, or a supply: what hangs from it, and in `sources` what else feeds it, above it.

    `has_bus`: what leaves it starts from a bus. `also`: what has no place of its own in the path, such as an interlock.
    """

    part: Part
    symbol: Symbol
    area: Area
    device: Device = ""
    has_bus: bool = False
    also: tuple[Part, ...] = ()
    grounds: tuple[Ground, ...] = ()
    sources: tuple[Branch, ...] = ()
    branches: tuple[Branch, ...] = ()


@dataclass(frozen=True, slots=True)
class Loose:
    """Something that the plan joins to nothing on the diagram."""

    part: Part
    symbol: Symbol
    planned: bool = False


@dataclass(frozen=True, slots=True)
class Drawing:
    """The whole diagram of one plan.

    `profile`: the code it is held against. `notes`: what else stands in the title block. `words`: the path in sentences.
    `aside`: the findings at nothing that is drawn.
    """

    plan: str
    profile: ProfileHead
    notes: tuple[str, ...]
    words: str
    roots: tuple[Gear, ...]
    loose: tuple[Loose, ...]
    marks: tuple[Mark, ...]
    aside: tuple[Mark, ...]
