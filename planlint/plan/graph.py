"""The graph of a plan: its elements, indexed both ways by the references that join them.

Nothing but this index and the facts walks from element to element. It says when it is incomplete: an index is open while
some element leaves the end out that might lead here, or while its topic is not complete; what feeds a piece of gear is not
stated where nothing does, never "no".
"""

from collections import defaultdict
from collections.abc import Iterable
from typing import TypeVar, cast

from planlint.plan.elements import Element, Need, NotStated
from planlint.plan.gear import Supply, TransferSwitch
from planlint.plan.members import Members, merged
from planlint.plan.outlets import Load
from planlint.plan.routes import Raceway
from planlint.plan.runs import Feeder, Run, Service
from planlint.plan.site import Place, Plan

E = TypeVar("E", bound=Element)

Feed = Service | Feeder
_WAYS = ("raceway", "trench", "span", "holes")


class Graph:
    """A plan's elements by kind and by what refers to what. Built once; facts ask it."""

    def __init__(self, elements: Iterable[Element]) -> None:
        self.elements = tuple(elements)
        self.plan = next(element for element in self.elements if isinstance(element, Plan))
        self._by_kind: dict[str, list[Element]] = defaultdict(list)
        self._naming: dict[tuple[str, str, int], list[Element]] = defaultdict(list)
        self._leaving_out: dict[tuple[str, str], list[Element]] = defaultdict(list)
        self._topics = frozenset(self.plan.complete if self.plan.states("complete") else ())
        self._by_name = {element.name: element for element in self.elements}
        for element in self.elements:
            self._by_kind[element.kind].append(element)
            self._index(element)

    def _index(self, element: Element) -> None:
        for name, declared in type(element).attributes.items():
            if not declared.type.kinds:
                continue
            if element.states(name):
                value = element.value(name)
                for target in value if isinstance(value, tuple) else (value,):
                    if target is not None:
                        self._naming[element.kind, name, id(target)].append(element)
            elif not self.has_none(element, name):
                self._leaving_out[element.kind, name].append(element)

    def has_none(self, element: Element, attribute: str) -> bool:
        """Whether leaving this reference out says that there is none, as nobody would write it then."""
        declared = type(element).attributes.get(attribute)
        if declared is None or not declared.type.kinds or attribute in element.unknown or element.states(attribute):
            return False
        if declared.default is not None:
            return True
        if isinstance(element, Run) and attribute in _WAYS:
            loose = attribute == "raceway" and not element.states("cable") and not _is_the_utilitys(element)
            return not loose or self.is_complete("raceways")
        if isinstance(element, Raceway) and attribute == "trench":
            return element.states("route")
        if isinstance(element, Place) and attribute == "building":
            return element.states("outdoors") and element.outdoors
        if isinstance(element, Load) and attribute == "circuit":
            return element.states("planned") and element.planned
        if isinstance(element, TransferSwitch) and attribute == "panel":
            return element.states("type") and element.type != "interlock"
        return False

    def is_complete(self, topic: str) -> bool:
        """Whether the plan says that all of this topic is shown."""
        return topic in self._topics

    def gap(self, topic: str) -> tuple[Need, ...]:
        """The need that stays open while a topic isn't complete; none for what has no topic or is complete."""
        if not topic or topic in self._topics:
            return ()
        return (Need(self.plan, "complete", complete=topic),)

    def all(self, kind: type[E]) -> Members[E]:
        """Every element of a kind; open while its topic isn't complete."""
        return Members(cast("tuple[E, ...]", tuple(self._by_kind[kind.kind])), self.gap(kind.topic))

    def those(self, kind: type[E], attribute: str, target: Element) -> Members[E]:
        """The elements of a kind whose attribute names the target.

        Open while one of that kind leaves the attribute out, and while the topic isn't complete. What is in a raceway, a ditch
        or a hole is what names it: there the topic doesn't count.
        """
        known = cast("tuple[E, ...]", tuple(self._naming[kind.kind, attribute, id(target)]))
        gaps = tuple(Need(element, attribute) for element in self._leaving_out[kind.kind, attribute])
        if attribute not in _WAYS:
            gaps = merged(gaps, self.gap(kind.topic))
        return Members(known, gaps)

    def one(self, name: str) -> Element:
        """The element of that name. Raises KeyError."""
        return self._by_name[name]

    def feeds_into(self, gear: Element) -> Members[Feed]:
        """The services and feeders that end at this gear."""
        services: Members[Feed] = self.those(Service, "to", gear)
        return services.joined(self.those(Feeder, "to", gear))

    def feeds_from(self, gear: Element) -> Members[Feed]:
        """The services and feeders that start at this gear or supply."""
        services: Members[Feed] = self.those(Service, "from", gear)
        return services.joined(self.those(Feeder, "from", gear))

    def feed(self, gear: Element) -> Feed:
        """The one run that feeds this gear from the utility's side: never "none", for nothing is fed by nothing.

        A run that comes from a generator, solar panels or a battery counts only where the plan shows all runs and no other
        ends here. Raises NotStated where nothing feeds it, and where it is open which of several does, be it because a supply
        doesn't say what it is.
        """
        runs = self.feeds_into(gear)
        if not runs.known:
            # Something feeds it, so what helps is to show that run: to say that all runs are shown would not.
            open_ends = (gap for gap in runs.gaps if not gap.complete)
            raise NotStated(Need(gear, "fed-by", note=f"which service or feeder ends at {gear.name}"), *open_ends)
        ours = [run for run in runs.known if not self._comes_from_other_source(run)] or list(runs.whole())
        if len(ours) == 1 < len(runs.known) and (typeless := self._typeless_ahead(ours[0])):
            raise NotStated(*typeless)
        if len(ours) > 1:
            names = " or ".join(run.name for run in ours)
            raise NotStated(Need(gear, "fed-by", note=f"which run brings the utility's power to {gear.name}: {names}"))
        return ours[0]

    def _comes_from_other_source(self, run: Feed) -> bool:
        """Whether all that is known of what lies ahead of it begins at a generator, solar panels or a battery."""
        if not run.states("from"):
            return False
        if isinstance(run.from_, Supply):
            return _is_other_source(run.from_)
        ahead = self.feeds_into(run.from_).known
        return bool(ahead) and all(self._comes_from_other_source(one) for one in ahead)

    def _typeless_ahead(self, run: Feed) -> tuple[Need, ...]:
        """The supplies at the head of a run that don't say what they are."""
        if not run.states("from"):
            return ()
        start = run.from_
        if isinstance(start, Supply):
            return () if start.states("type") else (Need(start, "type"),)
        return merged(*(self._typeless_ahead(one) for one in self.feeds_into(start).known))


def _is_the_utilitys(run: Run) -> bool:
    """The utility's own wires never share a pipe with the customer's."""
    return isinstance(run, Service) and run.states("owner") and run.owner == "utility"


def _is_other_source(start: Element) -> bool:
    return isinstance(start, Supply) and start.states("type") and start.type != "utility"
