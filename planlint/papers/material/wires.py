"""Wire and cable to buy: of each run by type, size and color, with staples and marking tape."""

from collections.abc import Iterator
from functools import partial

from planlint.facts.material import length_to_buy, straps_needed
from planlint.facts.wires import ground_wires, hot_wires, is_cable, neutral_wires
from planlint.papers.material.wanted import Collector
from planlint.plan.grounding import Bond, ElectrodeConductor
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Length
from planlint.trade import Conductors, WireSize

WIRES, GROUNDING = "Wire and cable", "Grounding"
HOT_COLORS = ("black", "red", "blue")
SMALL = WireSize("10", "copper")
SHEATHED = ("NM-B", "UF-B", "MC", "AC")
Run = Service | Feeder | Circuit


def add_wires(to: Collector) -> None:
    """Of every run that isn't the utility's, and of every grounding and bonding wire."""
    graph = to.docket.graph
    runs: tuple[Run, ...] = (*graph.all(Service).known, *graph.all(Feeder).known, *graph.all(Circuit).known)
    for run in runs:
        if not (isinstance(run, Service) and run.states("owner") and run.owner == "utility"):
            _run(run, to)
    wires: tuple[ElectrodeConductor | Bond, ...] = (*graph.all(ElectrodeConductor).known, *graph.all(Bond).known)
    for wire in wires:
        _grounding_wire(wire, to)


def _run(run: Run, to: Collector) -> None:
    job = to.docket.job
    cable = to.unless_unknown(WIRES, run, f"wire or cable of {run.name}", lambda: is_cable(run, job))
    if cable is None:
        return
    if cable:
        words = to.unless_unknown(WIRES, run, f"cable of {run.name}", lambda: _cable_words(run, to))
        if words is not None:
            thing = "sheathed-cable" if run.cable.type in SHEATHED and _is_small(hot_wires(run, job)) else "large-cable"
            to.lengths(WIRES, run, str(words), lambda: length_to_buy(run, job), thing, run.sets)
            to.pieces(WIRES, run, f"staples or straps for {run.cable.type}", lambda: straps_needed(run, job) * run.sets)
        return
    for role, question in (("hot", hot_wires), ("neutral", neutral_wires), ("ground", ground_wires)):
        wires = to.unless_unknown(WIRES, run, f"{role} of {run.name}", partial(question, run, job))
        if isinstance(wires, Conductors):
            for words, count in _by_color(role, wires):
                to.lengths(WIRES, run, words, lambda: length_to_buy(run, job), _thing(wires), count * run.sets)


def _cable_words(run: Run, to: Collector) -> str:
    """`12/2 copper NM-B`; of a cable that is named by type only, all its wires."""
    if run.cable.wires:
        return f"{run.cable} cable"
    job = to.docket.job
    parts = [
        _words(hot_wires(run, job)),
        f"neutral {_words(neutral_wires(run, job))}",
        f"ground {_words(ground_wires(run, job))}",
    ]
    return f"{run.cable.type} cable: " + ", ".join(part for part in parts if "none" not in part)


def _words(wires: Conductors) -> str:
    if not wires.count:
        return "none"
    return f"{wires.count} x {wires.size}" if wires.count > 1 else str(wires.size)


def _by_color(role: str, wires: Conductors) -> Iterator[tuple[str, int]]:
    """Hot wires black, red and blue in turn (common practice), neutrals white and grounds green (NFPA 70 200.6, 250.119)."""
    if not wires.count:
        return
    sort = f"{wires.size} {wires.insulation}".rstrip()
    if role == "hot":
        for index in range(min(wires.count, len(HOT_COLORS))):
            count = len(range(index, wires.count, len(HOT_COLORS)))
            yield f"{sort} wire, {HOT_COLORS[index]}", count
    elif role == "neutral":
        yield f"{sort} wire, white", wires.count
    else:
        yield (f"{wires.size} wire, bare" if wires.insulation == "bare" else f"{sort} wire, green"), wires.count


def _is_small(wires: Conductors) -> bool:
    return wires.size.area <= SMALL.area


def _thing(wires: Conductors) -> str:
    return "small-wire" if _is_small(wires) else "large-wire"


def _grounding_wire(wire: ElectrodeConductor | Bond, to: Collector) -> None:
    if isinstance(wire, Bond) and wire.states("listed-screw") and wire.listed_screw:
        return
    size = to.unless_unknown(GROUNDING, wire, f"wire of {wire.name}", lambda: wire.size)
    if not isinstance(size, Conductors):
        return
    for words, count in _by_color("ground", size):
        to.lengths(GROUNDING, wire, words, partial(_length, wire), _thing(size), count)


def _length(wire: ElectrodeConductor | Bond) -> Length:
    return wire.length
