"""Which element of the diagram carries which finding.

A finding about something that isn't drawn stands at what it belongs to: one about a pipe at the runs in it, one about a
receptacle at its circuit, one about a room at its building.
"""

from collections import defaultdict
from collections.abc import Iterator

from planlint.papers.docket import Docket
from planlint.papers.one_line.records import Mark
from planlint.plan import (
    Bond,
    Circuit,
    Element,
    Feeder,
    Holes,
    OverheadSpan,
    Piping,
    Raceway,
    Service,
    Trench,
)
from planlint.plan.graph import Graph

_RUNS = (Service, Feeder, Circuit)
_UPWARD = ("circuit", "panel", "at", "building")
"""By what an outlet, a room or a small circuit names, the way to what it belongs to."""


class Marks:
    """The findings of a check, at the elements that are drawn. `drawn` maps an element's name to the key of its place."""

    def __init__(self, docket: Docket, drawn: dict[str, str]) -> None:
        self._graph = docket.graph
        self._drawn = drawn
        self._at: dict[str, dict[int, Mark]] = defaultdict(dict)
        self._seen: set[int] = set()
        self._all: list[Mark] = []
        for number, group in enumerate(docket.report.numbered(), start=1):
            mark = Mark(number, group[0].severity)
            self._all.append(mark)
            for finding in group:
                self._put(mark, finding.subject.kind, finding.subject.name)

    def __call__(self, key: str) -> tuple[Mark, ...]:
        """The findings at one place, by number."""
        return tuple(mark for _, mark in sorted(self._at[key].items()))

    def aside(self) -> tuple[Mark, ...]:
        """The findings at nothing that is drawn."""
        return tuple(mark for mark in self._all if mark.number not in self._seen)

    def _put(self, mark: Mark, kind: str, name: str) -> None:
        keys = {"plan"} if kind == "plan" else set(self._keys(self._graph.one(name), set()))
        for key in keys:
            self._at[key][mark.number] = mark
            self._seen.add(mark.number)

    def _keys(self, element: Element, passed: set[int]) -> Iterator[str]:
        if element.name in self._drawn:
            yield self._drawn[element.name]
            return
        if id(element) in passed:
            return
        passed.add(id(element))
        for other in _belongs_to(element, self._graph):
            yield from self._keys(other, passed)


def _belongs_to(element: Element, graph: Graph) -> Iterator[Element]:
    """What the element is a part of, as far as the plan says it."""
    if isinstance(element, Trench | OverheadSpan | Holes | Raceway):
        for run in _RUNS:
            yield from graph.those(run, element.kind, element)
        if isinstance(element, Trench):
            yield from graph.those(Raceway, "trench", element)
        return
    if isinstance(element, Piping):
        yield from graph.those(Bond, "to", element)
    for attribute in _UPWARD:
        if attribute in type(element).attributes and element.states(attribute):
            target = element.value(attribute)
            if isinstance(target, Element):
                yield target
                return
