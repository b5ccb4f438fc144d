"""How facts are declared, worked out once each, and kept with their steps.

A fact is a typed function of one element and the job. It is written as if everything were known: reading what a plan leaves
out raises NotStated, which the job remembers and raises afresh for whoever asks again.
"""

import types
import typing
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any, TypeVar

from planlint import valuetypes
from planlint.book import Code
from planlint.book.tables import OutOfTable, Tables
from planlint.plan import Element, Need, NotStated
from planlint.plan.elements import Read, watching
from planlint.plan.graph import Graph
from planlint.plan.members import Members
from planlint.quantities import Quantity
from planlint.trade import TradeSize, WireSize
from planlint.valuetypes import ValueType

E = TypeVar("E", bound=Element)
R = TypeVar("R")


@dataclass(frozen=True, slots=True)
class FactSpec:
    """One fact as it is declared: its name in rules, the kinds of element that have it, its type and its function."""

    name: str
    kinds: tuple[str, ...]
    type: ValueType
    function: Callable[[Any, "Job"], Any]

    @property
    def help(self) -> str:
        """What it is, in one line, and where it comes from."""
        return (self.function.__doc__ or "").strip()


@dataclass(frozen=True, slots=True)
class Step:
    """One line of a working: what is reckoned, what comes out, and the table or clause it rests on."""

    text: str
    value: str = ""
    source: str = ""


@dataclass(slots=True)
class Working:
    """How one fact of one element was worked out: steps, facts it rests on, what it read of the plan, settings and tables."""

    spec: FactSpec
    element: Element
    value: Any = None
    gap: tuple[Need, ...] | None = None
    steps: list[Step] = field(default_factory=list)
    uses: list["Working"] = field(default_factory=list)
    read: Read = field(default_factory=Read)
    settings: list[str] = field(default_factory=list)
    tables: list[str] = field(default_factory=list)


class CircularFact(RuntimeError):
    """Facts that rest on each other in a circle: a fault of planlint, with the circle's names."""


FACTS: dict[tuple[str, str], FactSpec] = {}


def fact(function: Callable[[E, "Job"], R]) -> Callable[[E, "Job"], R]:
    """Declare a fact. Its first parameter's type says which elements have it, its return type what it gives."""
    name = function.__name__.rstrip("_").replace("_", "-")
    hints = dict(function.__annotations__)
    gives = value_type(hints.pop("return"))
    kinds = _kinds_of(next(iter(hints.values())))
    spec = FactSpec(name, kinds, gives, function)
    for kind in kinds:
        if (kind, name) in FACTS:
            places = f"{FACTS[kind, name].function.__module__} and {function.__module__}"
            raise ValueError(f"the fact {name} of a {kind} is declared twice, in {places}")
        FACTS[kind, name] = spec

    def worked(element: E, job: "Job") -> R:
        return typing.cast(R, job.work(spec, element).value)

    worked.__name__, worked.__doc__ = function.__name__, function.__doc__
    return worked


def value_type(annotation: Any) -> ValueType:
    """The rule language's type of a Python annotation. Raises TypeError for one it has no word for."""
    origin, arguments = typing.get_origin(annotation), typing.get_args(annotation)
    if annotation is bool:
        return valuetypes.YES_NO
    if annotation in (int, float):
        return valuetypes.NUMBER
    if annotation is str:
        return valuetypes.TEXT
    if annotation is WireSize:
        return valuetypes.WIRE_SIZE
    if annotation is TradeSize:
        return valuetypes.TRADE_SIZE
    if origin is typing.Literal:
        return valuetypes.choice(*arguments)
    if origin in (Members, tuple):
        return valuetypes.list_of(value_type(arguments[0]))
    if isinstance(annotation, type) and issubclass(annotation, Quantity):
        return valuetypes.quantity(annotation.dimension)
    return valuetypes.element(*_kinds_of(annotation))


def _kinds_of(annotation: Any) -> tuple[str, ...]:
    parts = typing.get_args(annotation) if isinstance(annotation, types.UnionType) else (annotation,)
    if not all(isinstance(part, type) and issubclass(part, Element) and part.kind for part in parts):
        raise TypeError(f"{annotation} is no kind of element and no value a rule can speak of")
    return tuple(part.kind for part in parts)


_CHECK = FactSpec("check", (), valuetypes.YES_NO, lambda element, job: True)


class Job:
    """One plan under one code: what facts ask for tables, settings and other elements, and where what they found is kept."""

    def __init__(self, graph: Graph, code: Code, tables: Tables) -> None:
        self.graph = graph
        self.code = code
        self.tables = tables
        self._done: dict[tuple[str, int], Working] = {}
        self._open: list[Working] = []

    @property
    def edition(self) -> int:
        """The model edition in force."""
        return self.code.edition

    def work(self, spec: FactSpec, element: Element) -> Working:
        """The fact's working, from memory or worked out now. Raises NotStated, and CircularFact for a fault of ours."""
        key = (spec.name, id(element))
        working = self._done.get(key)
        if working is None:
            working = self._work_out(spec, element)
            self._done[key] = working
        if self._open:
            self._open[-1].uses.append(working)
        if working.gap is not None:
            raise NotStated(*working.gap)
        return working

    def _work_out(self, spec: FactSpec, element: Element) -> Working:
        if any(other.spec is spec and other.element is element for other in self._open):
            circle = " -> ".join(f"{other.spec.name} of {other.element.name}" for other in self._open)
            raise CircularFact(f"{circle} -> {spec.name} of {element.name}")
        working = Working(spec, element)
        self._open.append(working)
        try:
            with watching() as working.read:
                working.value = spec.function(element, self)
        except NotStated as gap:
            working.gap = gap.needs
        except OutOfTable as outside:
            working.gap = (Need(element, spec.name, note=str(outside)),)
        finally:
            self._open.pop()
        return working

    @contextmanager
    def observing(self, element: Element) -> Iterator[Working]:
        """Collect what is used inside (a rule's check on an element), as if it were one more fact."""
        root = Working(_CHECK, element)
        self._open.append(root)
        try:
            with watching() as root.read:
                yield root
        finally:
            self._open.pop()

    def step(self, text: str, value: object = "", source: str = "") -> None:
        """Keep one line of the working of the fact that is being worked out."""
        if self._open:
            self._open[-1].steps.append(Step(text, str(value), source))

    def from_table(self, name: str) -> str:
        """How a working cites a table under the edition in force, and the profiles that put rows of theirs into it."""
        if self._open:
            self._open[-1].tables.append(name)
        source = self.tables.source(name, self.edition)
        own = dict.fromkeys(row.profile for row in self.code.table_rows if row.table.text == name)
        return f"{source}, with rows of {', '.join(own)}" if own else source

    def setting(self, name: str) -> Any:
        """The value of a setting in force, `fact.setting`."""
        if self._open:
            self._open[-1].settings.append(name)
        return self.code.setting(name).value
