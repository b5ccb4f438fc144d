"""The power's way as a forest: from each supply outward, each piece of gear once.

Gear is taken from the utility's side first; what else comes to it, a generator or solar panels, hangs from it and is drawn the
other way round. A run that would close a ring belongs to no tree.
"""

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, field

from planlint.plan import Disconnect, Element, Feeder, Meter, Panel, Service, Supply, TransferSwitch
from planlint.plan.graph import Graph

GEAR = (Supply, Meter, Disconnect, Panel, TransferSwitch)
FeedRun = Service | Feeder


@dataclass(slots=True)
class Forest:
    """The trees of a plan: the gear in order, parents before what hangs from them.

    `children`: by gear's name its runs and whether their power comes inward. `cut`: runs that close a ring. `dangling`: runs of
    which the plan doesn't say one end, by the name of the end that it says. `adrift`: runs with neither.
    """

    order: list[Element] = field(default_factory=list)
    roots: list[Element] = field(default_factory=list)
    children: dict[str, list[tuple[FeedRun, bool]]] = field(default_factory=dict)
    cut: list[FeedRun] = field(default_factory=list)
    dangling: dict[str, list[FeedRun]] = field(default_factory=dict)
    adrift: list[FeedRun] = field(default_factory=list)


def part_of_panel(gear: Element) -> bool:
    """Whether it is an interlock, which is a plate on its panel and no gear of its own."""
    return isinstance(gear, TransferSwitch) and gear.states("panel") and (gear.states("type") and gear.type == "interlock")


def forest(graph: Graph) -> Forest:
    """Every service and feeder of the plan in its tree."""
    runs = [*graph.all(Service), *graph.all(Feeder)]
    whole = [run for run in runs if run.states("from") and run.states("to")]
    grown = Forest()
    for run in runs:
        if run not in whole:
            _hang(run, grown)
    joined = {run.from_.name for run in whole} | {run.to.name for run in whole} | set(grown.dangling)
    gear: list[Element] = [
        one for one in graph.elements if isinstance(one, GEAR) and not (part_of_panel(one) and one.name not in joined)
    ]
    _Grower(whole, grown).grow(gear, {run.to.name for run in whole})
    return grown


def _hang(run: FeedRun, grown: Forest) -> None:
    end = run.from_ if run.states("from") else run.to if run.states("to") else None
    if end is None:
        grown.adrift.append(run)
    else:
        grown.dangling.setdefault(end.name, []).append(run)


class _Grower:
    """Grows the trees one after another until all gear is taken."""

    def __init__(self, runs: list[FeedRun], grown: Forest) -> None:
        self._grown = grown
        self._out: dict[str, list[FeedRun]] = {}
        self._into: dict[str, list[FeedRun]] = {}
        for run in runs:
            self._out.setdefault(run.from_.name, []).append(run)
            self._into.setdefault(run.to.name, []).append(run)
        self._runs = runs
        self._taken: set[str] = set()
        self._used: set[str] = set()

    def grow(self, gear: list[Element], fed: set[str]) -> None:
        """Utilities first and together, as they reach most; then other supplies, gear that nothing feeds, and the rest."""
        utilities = [one for one in gear if isinstance(one, Supply) and one.states("type") and one.type == "utility"]
        self._from(utilities)
        others = [one for one in gear if isinstance(one, Supply)]
        for start in [*others, *(one for one in gear if one.name not in fed), *gear]:
            if start.name not in self._taken:
                self._from([start])
        self._grown.cut = [run for run in self._runs if run.name not in self._used]

    def _from(self, starts: Sequence[Element]) -> None:
        first = len(self._grown.order)
        for start in starts:
            self._take(start)
            self._grown.roots.append(start)
        self._spread(first, inward=False)
        self._spread(first, inward=True)

    def _take(self, gear: Element) -> None:
        self._taken.add(gear.name)
        self._grown.order.append(gear)

    def _spread(self, first: int, inward: bool) -> None:
        """Onward from all gear taken since `first`; with `inward` also against the power's way."""
        todo = deque(self._grown.order[first:])
        while todo:
            here = todo.popleft()
            ways: list[tuple[FeedRun, Element, bool]] = [(run, run.to, False) for run in self._out.get(here.name, ())]
            if inward:
                ways += [(run, run.from_, True) for run in self._into.get(here.name, ())]
            for run, there, against in ways:
                if there.name not in self._taken:
                    self._take(there)
                    self._used.add(run.name)
                    self._grown.children.setdefault(here.name, []).append((run, against))
                    todo.append(there)
