"""A docket's one-line diagram: every supply, piece of gear, service and feeder once, larger loads, grounding, findings."""

from collections.abc import Iterator
from dataclasses import replace

from planlint.papers.docket import Docket
from planlint.papers.one_line.grounds import Grounding
from planlint.papers.one_line.labels import (
    circuit_part,
    gear_part,
    interlock_part,
    load_part,
    run_part,
    supply_part,
)
from planlint.papers.one_line.marks import Marks
from planlint.papers.one_line.paths import GEAR, forest, part_of_panel
from planlint.papers.one_line.records import Area, Device, Drawing, Gear, Loose, Part, Symbol
from planlint.papers.one_line.sizes import has_own_line, is_large
from planlint.papers.one_line.ways import Ways, load_symbol, names_device
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
        self._ways = Ways(docket, self._forest, self._marks, self._large)
        self._backward = {run.from_.name for ways in self._forest.children.values() for run, against in ways if against}
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
            self._docket.head,
            tuple(self._notes()),
            in_words(plan.name, roots, loose),
            roots,
            loose,
            self._marks("plan"),
            self._marks.aside(),
        )

    def _notes(self) -> Iterator[str]:
        plan = self._graph.plan
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
        """One piece of gear, once all that hangs from it is known.

        What was reached against the power's way stands on its head: its feed hangs below it like a load.
        """
        backward = gear.name in self._backward
        has_bus = self._ways.has_bus(gear, backward)
        feeds = self._ways.feeds(gear, has_bus, self._gear)
        inward, onward = [one for one in feeds if one.inward], [one for one in feeds if not one.inward]
        circuits = self._ways.circuits(gear)
        device = self._device(gear)
        if backward and len(inward) == 1 and (onward or circuits):
            inward, device = [replace(inward[0], device=device)], ""  # its main is on the side of its feed
        here = self._place(gear)[0]
        own = [branch for branch in onward if isinstance(branch.end, Gear) and branch.end.area.key == here]
        other = [branch for branch in onward if branch not in own]
        above = not (has_bus or backward)
        return Gear(
            self._part(gear),
            self._symbol(gear),
            self._area(gear),
            device,
            has_bus,
            tuple(self._interlocks(gear)),
            self._grounding.at(gear),
            tuple(inward) if above else (),
            (*(() if above else inward), *other, *circuits, *own),
        )

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
            yield Loose(run_part(run, self._docket, self._marks, names_device(run)), "bond")
        for circuit in self._graph.all(Circuit):
            if not circuit.states("panel") and circuit.name in self._large:
                yield Loose(circuit_part(circuit, self._docket, self._marks), "load")

    def _loose_loads(self) -> Iterator[Loose]:
        for load in self._graph.all(PlanLoad):
            if load.states("circuit"):
                if load.circuit.name in self._large and not load.circuit.states("panel"):
                    yield Loose(load_part(load, self._docket, self._marks), load_symbol(load))
            elif is_large(load):
                planned = load.states("planned") and load.planned
                yield Loose(load_part(load, self._docket, self._marks), load_symbol(load), planned)
