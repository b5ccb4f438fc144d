"""What is bought by the piece: meters, disconnects, panels, breakers, boxes, outlets, electrodes and clamps."""

from functools import partial

from planlint.facts.wires import breaker_or_fuses, breaker_rating, hot_wires
from planlint.papers.material.wanted import Collector
from planlint.plan.gear import Disconnect, Meter, Panel, TransferSwitch
from planlint.plan.grounding import Bond, Electrode, ElectrodeConductor
from planlint.plan.outlets import Box, Lights, Load, Receptacles
from planlint.plan.runs import Circuit, Feeder
from planlint.quantities import Current

GEAR, BOXES, GROUNDING = "Panels and breakers", "Boxes and outlets", "Grounding"


def add_gear(to: Collector) -> None:
    """Cases that stand by themselves, and the breakers that go into panels."""
    graph = to.docket.graph
    for meter in graph.all(Meter).known:
        to.pieces(GEAR, meter, partial(_meter_words, meter))
    for disconnect in graph.all(Disconnect).known:
        to.pieces(GEAR, disconnect, partial(_disconnect_words, disconnect))
    for panel in graph.all(Panel).known:
        to.pieces(GEAR, panel, partial(_panel_words, panel))
        to.pieces(GEAR, panel, "ground bar for a panel", partial(_ground_bars, panel))
    gear: tuple[Disconnect | Panel, ...] = (*graph.all(Disconnect).known, *graph.all(Panel).known)
    for case in gear:
        if case.states("surge-protection") and case.surge_protection != "none":
            to.pieces(GEAR, case, f"surge device, {case.surge_protection}")
    for switch in graph.all(TransferSwitch).known:
        to.pieces(GEAR, switch, partial(_switch_words, switch))
    runs: tuple[Feeder | Circuit, ...] = (*graph.all(Feeder).known, *graph.all(Circuit).known)
    for run in runs:
        _breaker(run, to)


def _meter_words(meter: Meter) -> str:
    return f"meter socket, {meter.rating}"


def _disconnect_words(disconnect: Disconnect) -> str:
    case = f", {disconnect.enclosure} case" if disconnect.states("enclosure") else ""
    if disconnect.states("switch-rating") and not disconnect.states("breaker"):
        return f"disconnect, {disconnect.switch_rating} switch{case}"
    word = "fuses" if disconnect.states("fuses") else "breaker"
    return f"disconnect with {breaker_or_fuses(disconnect)} {word}{case}"


def _panel_words(panel: Panel) -> str:
    main = f"{panel.main} main" if isinstance(panel.main, Current) else "main lugs"
    case = f", {panel.enclosure} case" if panel.states("enclosure") else ""
    return f"panel, {panel.bus} bus, {main}, {panel.spaces} spaces{case}"


def _ground_bars(panel: Panel) -> int:
    return int(panel.ground_bar == "separate")


def _switch_words(switch: TransferSwitch) -> str:
    if switch.type == "interlock":
        return f"interlock plate for {switch.panel.name}"
    return f"{switch.type} transfer switch, {switch.rating}"


def _breaker(run: Feeder | Circuit, to: Collector) -> None:
    """A breaker of a panel; that of a disconnect comes with it, and fuses are named with their disconnect."""
    end = "panel" if isinstance(run, Circuit) else "from"
    start = run.value(end) if run.states(end) else None
    if start is not None and not isinstance(start, Panel):
        return
    to.pieces(GEAR, run, lambda: _breaker_words(run, to))


def _breaker_words(run: Feeder | Circuit, to: Collector) -> str:
    poles = run.poles if isinstance(run, Circuit) else hot_wires(run, to.docket.job).count
    adds = [word.upper() for word in run.protection if word != "afci-outlet"] if isinstance(run, Circuit) else []
    tail = f", {' and '.join(adds)}" if adds else ""
    return f"breaker {breaker_rating(run, to.docket.job)}, {poles} pole{'s' if poles != 1 else ''}{tail}"


def add_outlets(to: Collector) -> None:
    """Boxes that the plan states, and receptacles and lights by their sort."""
    graph = to.docket.graph
    for box in graph.all(Box).known:
        to.pieces(BOXES, box, partial(_box_words, box))
    for receptacles in graph.all(Receptacles).known:
        to.pieces(BOXES, receptacles, partial(_receptacle_words, receptacles), receptacles.count)
        if receptacles.states("cover") and receptacles.cover != "none":
            to.pieces(BOXES, receptacles, f"{receptacles.cover} receptacle cover", receptacles.count)
    for load in graph.all(Load).known:
        if load.states("disconnect") and load.disconnect in ("switch", "lockable-switch"):
            to.pieces(BOXES, load, partial(_switch_at, load), load.count)
    for circuit in graph.all(Circuit).known:
        if circuit.states("protection") and "afci-outlet" in circuit.protection:
            to.pieces(BOXES, circuit, "AFCI receptacle, at the first outlet")
    for lights in graph.all(Lights).known:
        to.pieces(BOXES, lights, "light fixture", lights.count)


def _box_words(box: Box) -> str:
    size = f"{box.size} " if box.states("size") else ""
    material = f"{box.material} " if box.states("material") else ""
    return f"{material}{size}{box.type} box, {box.volume}" if box.states("volume") else f"{material}{size}{box.type} box"


def _receptacle_words(one: Receptacles) -> str:
    sort = "single" if one.states("single") and one.single else "duplex"
    volts = f" {one.volts}" if one.states("volts") else ""
    marks = [mark for mark in ("tamper-resistant", "weather-resistant") if one.states(mark) and one.value(mark)]
    if one.states("gfci") and one.gfci:
        marks.append("with a GFCI or behind one that has it")
    return ", ".join([f"{sort} receptacle {one.rating}{volts}", *marks])


def _switch_at(load: Load) -> str:
    """The switch beside an appliance, for the current of its circuit."""
    return f"disconnect switch, {load.circuit.breaker}"


def add_grounding(to: Collector) -> None:
    """Electrodes that are bought, and the clamps of their wires."""
    graph = to.docket.graph
    for electrode in graph.all(Electrode).known:
        _electrode(electrode, to)
    for wire in graph.all(ElectrodeConductor).known:
        for clamp in wire.clamp if wire.states("clamp") else ():
            if clamp in ("rebar", "rod", "pipe"):
                buried = ", listed for direct burial" if "direct-burial" in wire.clamp else ""
                to.pieces(GROUNDING, wire, f"{clamp} clamp{buried}", partial(_clamps, wire))
    for bond in graph.all(Bond).known:
        if bond.states("type") and bond.type in ("gas-pipe", "water-pipe"):
            to.pieces(GROUNDING, bond, "clamp for a pipe", 1)
        if bond.states("type") and bond.type == "intersystem":
            to.pieces(GROUNDING, bond, partial(_bar_words, bond))


def _electrode(electrode: Electrode, to: Collector) -> None:
    kind = to.unless_unknown(GROUNDING, electrode, f"electrode {electrode.name}", lambda: electrode.type)
    if kind == "rod":
        to.pieces(GROUNDING, electrode, partial(_rod_words, electrode), electrode.count)
    elif kind == "plate":
        to.pieces(GROUNDING, electrode, lambda: f"ground plate, {electrode.area}", electrode.count)
    elif kind == "ring":
        to.lengths(GROUNDING, electrode, f"{electrode.wire.size} wire, bare", lambda: electrode.length, "large-wire")


def _rod_words(rod: Electrode) -> str:
    return f"ground rod {rod.diameter} x {rod.length}, {rod.material}"


def _bar_words(bond: Bond) -> str:
    return f"intersystem bonding bar, {bond.terminals} terminals"


def _clamps(wire: ElectrodeConductor) -> int:
    """One for each rod that it reaches."""
    return wire.to.count if wire.to.type in ("rod", "plate") else 1
