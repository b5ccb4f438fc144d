"""What leaves a piece of gear and what comes to it: services, feeders and circuits, each with its device there."""

from collections import Counter
from collections.abc import Iterator, Mapping

from planlint.papers.docket import Docket
from planlint.papers.one_line.labels import Marks, circuit_part, load_part, run_part, shown
from planlint.papers.one_line.paths import FeedRun, Forest
from planlint.papers.one_line.records import Branch, Device, Gear, Load, Part, Symbol
from planlint.papers.one_line.sizes import HEATERS, MOTORS
from planlint.plan import Circuit, Disconnect, Element, Feeder, Panel
from planlint.plan import Load as PlanLoad

_MOST_LOADS = 6


class Ways:
    """The branches of one plan's gear. `large`: the circuits that are drawn by themselves."""

    def __init__(self, docket: Docket, forest: Forest, marks: Marks, large: set[str]) -> None:
        self._docket = docket
        self._graph = docket.graph
        self._forest = forest
        self._marks = marks
        self._large = large

    def has_bus(self, gear: Element, backward: bool) -> bool:
        """Whether what leaves it needs a bus: a panel, and whatever feeds more than one thing.

        `backward`: reached against the power's way, so that its own load is above it, and its feeds hang below.
        """
        hanging = [one for one in self._ends(gear) if backward or not one[1]]
        return isinstance(gear, Panel) or bool(self._own_circuits(gear)) or len(hanging) > 1

    def feeds(self, gear: Element, has_bus: bool, drawn: Mapping[str, Gear]) -> list[Branch]:
        """Its services and feeders, but that by which it was reached: with the gear at their ends, or what is said of it."""
        found = []
        for run, against, beyond in self._ends(gear):
            part = run_part(run, self._docket, self._marks, names_device(run))
            device = _run_device(gear, run, against, has_bus)
            if beyond:
                full = against or not (run.states("from") and run.states("to"))
                found.append(Branch(part, device, None, against, beyond, full=full))
            else:
                end = run.from_ if against else run.to
                found.append(Branch(part, device, drawn[end.name], against))
        return found

    def _ends(self, gear: Element) -> list[tuple[FeedRun, bool, str]]:
        """Its runs, whether their power comes inward, and what to say of the far end where nothing is drawn there.

        Runs that would close a ring are named at both ends; so are those of which the plan doesn't say one.
        """
        found = [(run, against, "") for run, against in self._forest.children.get(gear.name, ())]
        for run in self._forest.cut:
            if gear in (run.from_, run.to):
                against = gear is run.to
                found.append((run, against, f"from {run.from_.name}" if against else f"to {run.to.name}"))
        for run in self._forest.dangling.get(gear.name, ()):
            against = not run.states("from")
            found.append((run, against, f"{'from' if against else 'to'}: not stated"))
        return found

    def _own_circuits(self, gear: Element) -> tuple[Circuit, ...]:
        return self._graph.those(Circuit, "panel", gear).known

    def circuits(self, gear: Element) -> list[Branch]:
        """Its circuits: the large ones each, the rest in one line."""
        own = self._own_circuits(gear)
        large = [circuit for circuit in own if circuit.name in self._large]
        rest = [circuit for circuit in own if circuit.name not in self._large]
        return [*map(self._circuit, large), *([self._rest(gear, rest, bool(large))] if rest else [])]

    def _circuit(self, circuit: Circuit) -> Branch:
        part = circuit_part(circuit, self._docket, self._marks)
        loads = self._graph.those(PlanLoad, "circuit", circuit).known
        parts = list(self._load_parts(loads))
        if not parts:
            parts = [Part("", "label", circuit.label if circuit.states("label") else "load not stated")]
        planned = bool(loads) and all(load.states("planned") and load.planned for load in loads)
        device: Device = "breaker" if circuit.states("breaker") else "open"
        return Branch(part, device, Load(tuple(parts), load_symbol(*loads)), planned=planned)

    def _load_parts(self, loads: tuple[PlanLoad, ...]) -> Iterator[Part]:
        yield from (load_part(load, self._docket, self._marks) for load in loads[:_MOST_LOADS])
        more = loads[_MOST_LOADS:]
        if more:
            marks = {mark.number: mark for load in more for mark in self._marks(load.name)}
            yield Part("", "load", f"{len(more)} more", (), tuple(mark for _, mark in sorted(marks.items())))

    def _rest(self, gear: Element, circuits: list[Circuit], beside: bool) -> Branch:
        """The smaller circuits in one line, by their breakers."""
        name = f"{len(circuits)} {'more ' if beside else ''}circuit{'s' if len(circuits) > 1 else ''}"
        ratings = Counter(shown(circuit.breaker) if circuit.states("breaker") else "" for circuit in circuits)
        phrases = [f"{number} of {rating}" if rating else f"{number} not stated" for rating, number in sorted(ratings.items())]
        part = Part("", "circuits", name, tuple(phrases), self._marks(f"rest of {gear.name}"))
        return Branch(part, "breaker", Load((), "circuits"))


def names_device(run: FeedRun) -> bool:
    """Whether a run has a device of its own or should say which; no where that of its disconnect is the one that is meant."""
    stated = next((one for one in ("fuses", "breaker") if isinstance(run, Feeder) and run.states(one)), "")
    start = run.from_ if run.states("from") else None
    if isinstance(start, Disconnect) and stated and start.states(stated):
        return bool(start.value(stated) != run.value(stated))
    return bool(stated) or isinstance(start, Panel)


def _run_device(gear: Element, run: FeedRun, against: bool, has_bus: bool) -> Device:
    """The run's breaker or fuses at this gear; none where the gear's own is the one that is meant."""
    if not isinstance(run, Feeder) or (against and not has_bus):
        return ""
    stated: Device = "fuse" if run.states("fuses") else "breaker" if run.states("breaker") else ""
    if isinstance(gear, Panel):
        return stated or "open"
    return stated if names_device(run) else ""


def load_symbol(*loads: PlanLoad) -> Symbol:
    """The symbol for what hangs on one circuit: heating before motors, as it takes most."""
    kinds = [load.type for load in loads if load.states("type")]
    if any(kind in HEATERS for kind in kinds):
        return "heater"
    return "motor" if any(kind in MOTORS for kind in kinds) else "load"
