"""A docket's one-line diagram: every supply, piece of gear, service and feeder once, larger loads, grounding, findings."""

from collections import Counter
from collections.abc import Iterator

from planlint.papers.docket import Docket
from planlint.papers.one_line.grounds import Grounding
from planlint.papers.one_line.labels import (
    circuit_part,
    gear_part,
    interlock_part,
    load_part,
    run_part,
    shown,
    supply_part,
)
from planlint.papers.one_line.marks import Marks
from planlint.papers.one_line.paths import GEAR, FeedRun, forest, part_of_panel
from planlint.papers.one_line.records import Area, Branch, Device, Drawing, Gear, Load, Loose, Part, Symbol
from planlint.papers.one_line.sizes import HEATERS, MOTORS, has_own_line, is_large
from planlint.papers.one_line.words import in_words
from planlint.plan import (
    Bond,
    Circuit,
    Disconnect,
    Electrode,
    ElectrodeConductor,
    Element,
    Feeder,
    Meter,
    Panel,
    Place,
    Service,
    Supply,
    TransferSwitch,
)
from planlint.plan import Load as PlanLoad

_SUPPLIES: dict[str, Symbol] = {"utility": "utility", "generator": "generator", "solar": "solar", "battery": "battery"}
_DRAWN = (Supply, Meter, Disconnect, Panel, TransferSwitch, Service, Feeder, Electrode, ElectrodeConductor, Bond)
OUTDOORS, NOWHERE = "Outdoors", "Place not stated"


def one_line(docket: Docket) -> Drawing:
    """The diagram of one plan."""
    return _Drafter(docket).draw()


class _Drafter:
    """Makes the records of one plan's diagram, from the ends of its trees inward."""

    def __init__(self, docket: Docket) -> None:
        self._docket = docket
        self._graph = docket.graph
        self._forest = forest(docket.graph)
        self._large = {circuit.name for circuit in self._graph.all(Circuit) if has_own_line(circuit, docket)}
        self._marks = Marks(docket, dict(self._drawn_names()))
        self._grounding = Grounding(docket, self._marks)
        self._gear: dict[str, Gear] = {}

    def draw(self) -> Drawing:
        """All of it."""
        for gear in reversed(self._forest.order):
            self._gear[gear.name] = self._gear_record(gear)
        roots = tuple(self._gear[root.name] for root in self._forest.roots)
        loose = (*self._loose_gear(), *self._loose_runs(), *self._loose_loads(), *self._grounding.rest())
        plan = self._graph.plan
        return Drawing(
            plan.name,
            tuple(self._head()),
            in_words(plan.name, roots, loose),
            roots,
            loose,
            self._marks("plan"),
            self._marks.aside(),
        )

    def _head(self) -> Iterator[str]:
        head, plan = self._docket.head, self._graph.plan
        changes = f", {head.changes} local change{'s' if head.changes != 1 else ''}" if head.changes else ""
        yield f"{head.title} ({head.edition} model code{changes})"
        if plan.states("address-note"):
            yield plan.address_note
        yield f"as of {plan.date.isoformat()}" if plan.states("date") else "date not stated"

    # -- where findings may stand

    def _drawn_names(self) -> Iterator[tuple[str, str]]:
        for element in self._graph.elements:
            if isinstance(element, _DRAWN) or element.name in self._large:
                yield element.name, element.name
            elif isinstance(element, Circuit):
                if element.states("panel"):
                    yield element.name, f"rest of {element.panel.name}"
            elif isinstance(element, PlanLoad) and self._is_drawn(element):
                yield element.name, element.name
        for gear in self._forest.order:
            area, home = self._place(gear)
            if home is not None:
                yield home.name, area

    def _is_drawn(self, load: PlanLoad) -> bool:
        return load.circuit.name in self._large if load.states("circuit") else is_large(load)

    # -- areas

    def _place(self, gear: Element) -> tuple[str, Element | None]:
        """The area in which gear stands, and the building or place that it is called after."""
        stated = gear if gear.states("at") else self._neighbor(gear) if isinstance(gear, Supply) else None
        if stated is None or not stated.states("at"):
            return NOWHERE, None
        place: Place = stated.value("at")
        if place.states("building"):
            return place.building.name, place.building
        if place.states("outdoors") and place.outdoors:
            return OUTDOORS, place
        return NOWHERE, None

    def _neighbor(self, supply: Element) -> Element | None:
        """The gear that a supply feeds: where it stands itself is rarely stated, and a utility has no place in the plan."""
        return next((run.to for run in self._graph.feeds_from(supply) if run.states("to")), None)

    def _area(self, gear: Element) -> Area:
        title, home = self._place(gear)
        return Area(title, f"Building: {title}" if home is not None and title != OUTDOORS else title, self._marks(title))

    # -- gear and what hangs from it

    def _gear_record(self, gear: Element) -> Gear:
        ways = self._forest.children.get(gear.name, [])
        outward = [(run, False) for run, against in ways if not against]
        circuits = list(self._circuits(gear))
        circuit_rest = [circuit for circuit in circuits if circuit.name not in self._large]
        has_bus = isinstance(gear, Panel) or len(outward) > 1 or bool(circuits) or len(self._own_ends(gear)) > 1
        feeds = [self._branch(gear, run, against, has_bus) for run, against in ways]
        feeds += self._unfinished(gear, has_bus)
        inward = [branch for branch in feeds if branch.inward]
        onward = [branch for branch in feeds if not branch.inward]
        loads = [self._circuit_branch(circuit) for circuit in circuits if circuit.name in self._large]
        rest = [self._rest_branch(gear, circuit_rest)] if circuit_rest else []
        own, other = _by_area(onward, self._place(gear)[0])
        branches = [*(inward if has_bus else ()), *other, *loads, *rest, *own]
        return Gear(
            self._part(gear),
            self._symbol(gear),
            self._area(gear),
            self._device(gear),
            has_bus,
            tuple(self._interlocks(gear)),
            self._grounding.at(gear),
            () if has_bus else tuple(inward),
            tuple(branches),
        )

    def _own_ends(self, gear: Element) -> list[FeedRun]:
        cut = [run for run in self._forest.cut if run.from_ is gear]
        hung = [run for run in self._forest.dangling.get(gear.name, ()) if run.states("from")]
        out = [run for run, against in self._forest.children.get(gear.name, []) if not against]
        return [*cut, *hung, *out]

    def _part(self, gear: Element) -> Part:
        if isinstance(gear, Supply):
            return supply_part(gear, self._docket, self._marks)
        return gear_part(gear, self._docket, self._marks)

    def _symbol(self, gear: Element) -> Symbol:
        if isinstance(gear, Supply):
            kind = gear.type if gear.states("type") else ""
            return "transformer" if kind == "utility" and gear.states("transformer") else _SUPPLIES.get(kind, "source")
        if isinstance(gear, Meter):
            return "meter"
        if isinstance(gear, TransferSwitch):
            return "transfer"
        return "panel" if isinstance(gear, Panel) else "disconnect"

    def _device(self, gear: Element) -> Device:
        if isinstance(gear, Panel):
            if not gear.states("main"):
                return "open"
            return "" if gear.main == "lugs" else "breaker"
        if isinstance(gear, Disconnect):
            stated = next((one for one in ("fuses", "breaker", "switch-rating") if gear.states(one)), "")
            found: dict[str, Device] = {"fuses": "fuse", "breaker": "breaker", "switch-rating": "switch", "": "open"}
            return found[stated]
        return ""

    def _interlocks(self, gear: Element) -> Iterator[Part]:
        placed = {one.name for one in self._forest.order}
        for one in self._graph.those(TransferSwitch, "panel", gear):
            if part_of_panel(one) and one.name not in placed:
                yield interlock_part(one, self._docket, self._marks)

    # -- branches

    def _branch(self, gear: Element, run: FeedRun, against: bool, has_bus: bool) -> Branch:
        end = run.from_ if against else run.to
        device = self._run_device(gear, run, against, has_bus)
        part = run_part(run, self._docket, self._marks, self._names_device(run))
        return Branch(part, device, self._gear[end.name], against)

    def _run_device(self, gear: Element, run: FeedRun, against: bool, has_bus: bool) -> Device:
        """The run's breaker or fuses at this gear; none where the gear's own is the one that is meant."""
        if not isinstance(run, Feeder) or (against and not has_bus):
            return ""
        stated: Device = "fuse" if run.states("fuses") else "breaker" if run.states("breaker") else ""
        if isinstance(gear, Panel):
            return stated or "open"
        return stated if self._names_device(run) else ""

    def _names_device(self, run: FeedRun) -> bool:
        """Whether a run has a device of its own or should say which; no where that of its disconnect is the one that is meant."""
        stated = next((one for one in ("fuses", "breaker") if isinstance(run, Feeder) and run.states(one)), "")
        start = run.from_ if run.states("from") else None
        if isinstance(start, Disconnect) and stated and start.states(stated):
            return bool(start.value(stated) != run.value(stated))
        return bool(stated) or isinstance(start, Panel)

    def _unfinished(self, gear: Element, has_bus: bool) -> Iterator[Branch]:
        """Runs that would close a ring, named at both ends, and runs whose other end the plan doesn't say."""
        for run in self._forest.cut:
            if gear in (run.from_, run.to):
                against = gear is run.to
                part = run_part(run, self._docket, self._marks, self._names_device(run))
                beyond = f"from {run.from_.name}" if against else f"to {run.to.name}"
                yield Branch(part, self._run_device(gear, run, against, has_bus), None, against, beyond, full=against)
        for run in self._forest.dangling.get(gear.name, ()):
            against = not run.states("from")
            part = run_part(run, self._docket, self._marks, self._names_device(run))
            beyond = f"{'from' if against else 'to'}: not stated"
            yield Branch(part, self._run_device(gear, run, against, has_bus), None, against, beyond)

    def _circuits(self, gear: Element) -> Iterator[Circuit]:
        return iter(self._graph.those(Circuit, "panel", gear))

    def _circuit_branch(self, circuit: Circuit) -> Branch:
        part = circuit_part(circuit, self._docket, self._marks)
        loads = list(self._graph.those(PlanLoad, "circuit", circuit))
        parts = [load_part(load, self._docket, self._marks) for load in loads]
        if not parts:
            parts = [Part("", "label", circuit.label if circuit.states("label") else "load not stated")]
        planned = bool(loads) and all(load.states("planned") and load.planned for load in loads)
        device: Device = "breaker" if circuit.states("breaker") else "open"
        return Branch(part, device, Load(tuple(parts), _load_symbol(loads)), planned=planned)

    def _rest_branch(self, gear: Element, circuits: list[Circuit]) -> Branch:
        """The smaller circuits in one line, by their breakers."""
        own = len(circuits) == len(list(self._circuits(gear)))
        name = f"{len(circuits)} {'' if own else 'more '}circuit{'s' if len(circuits) > 1 else ''}"
        ratings = Counter(shown(circuit.breaker) if circuit.states("breaker") else "" for circuit in circuits)
        phrases = [f"{number} of {rating}" if rating else f"{number} not stated" for rating, number in sorted(ratings.items())]
        part = Part("", "circuits", name, tuple(phrases), self._marks(f"rest of {gear.name}"))
        return Branch(part, "breaker", Load((), "circuits"))

    # -- what hangs from nothing

    def _loose_gear(self) -> Iterator[Loose]:
        """Interlocks whose panel is drawn nowhere are gear like any other; so nothing is left but what the forest passed over."""
        placed = {one.name for one in self._forest.order}
        shown_at_panels = {
            one.name
            for panel in self._forest.order
            for one in self._graph.those(TransferSwitch, "panel", panel)
            if part_of_panel(one)
        }
        for one in self._graph.elements:
            if isinstance(one, GEAR) and one.name not in placed | shown_at_panels:
                yield Loose(self._part(one), self._symbol(one))

    def _loose_runs(self) -> Iterator[Loose]:
        for run in self._forest.adrift:
            yield Loose(run_part(run, self._docket, self._marks, self._names_device(run)), "bond")
        for circuit in self._graph.all(Circuit):
            if not circuit.states("panel") and circuit.name in self._large:
                yield Loose(circuit_part(circuit, self._docket, self._marks), "load")

    def _loose_loads(self) -> Iterator[Loose]:
        for load in self._graph.all(PlanLoad):
            if load.states("circuit"):
                if load.circuit.name in self._large and not load.circuit.states("panel"):
                    yield Loose(load_part(load, self._docket, self._marks), _load_symbol([load]))
            elif is_large(load):
                planned = load.states("planned") and load.planned
                yield Loose(load_part(load, self._docket, self._marks), _load_symbol([load]), planned)


def _by_area(branches: list[Branch], here: str) -> tuple[list[Branch], list[Branch]]:
    own = [branch for branch in branches if isinstance(branch.end, Gear) and branch.end.area.key == here]
    return own, [branch for branch in branches if branch not in own]


def _load_symbol(loads: list[PlanLoad]) -> Symbol:
    kinds = [load.type for load in loads if load.states("type")]
    if any(kind in HEATERS for kind in kinds):
        return "heater"
    return "motor" if any(kind in MOTORS for kind in kinds) else "load"
