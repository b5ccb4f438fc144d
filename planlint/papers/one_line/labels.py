"""What is written beside each element of a one-line diagram: what the plan states of it and what was worked out.

Nothing is guessed: what the plan leaves out stands together at the end, as "not stated: length, drop".
"""

from collections.abc import Callable, Sequence
from itertools import groupby

from planlint.facts.drop import drop, is_the_utilitys
from planlint.facts.fault import fault_at_end, most_fault
from planlint.facts.roles import role
from planlint.papers.docket import Docket, Unknown
from planlint.papers.one_line.records import Mark, Part
from planlint.plan import (
    Bond,
    Circuit,
    Disconnect,
    Electrode,
    ElectrodeConductor,
    Element,
    Feeder,
    Load,
    Meter,
    Panel,
    Raceway,
    Service,
    Supply,
    TransferSwitch,
)
from planlint.quantities import Current, Quantity

Marks = Callable[[str], tuple[Mark, ...]]
_MOST_RACEWAYS = 6


class Label:
    """The phrases beside one element, as they are gathered."""

    def __init__(self, docket: Docket, element: Element) -> None:
        self._docket = docket
        self._element = element
        self._phrases: list[str] = []
        self._open: list[str] = []

    def add(self, phrase: str) -> None:
        """Words that need no value."""
        self._phrases.append(phrase)

    def state(self, attribute: str, form: str = "{}", word: str = "") -> None:
        """An attribute in these words; where the plan leaves it out, its word among what is not stated."""
        self.say(self._docket.stated(self._element, attribute), form, word or attribute)

    def state_if_said(self, attribute: str, form: str = "{}") -> None:
        """An attribute in these words; nothing where the plan leaves it out, as nobody needs it."""
        if self._element.states(attribute):
            self.state(attribute, form)

    def work(self, question: Callable[[], object], form: str, word: str) -> None:
        """A worked value in these words; where it can't be told yet, its word among what is not stated."""
        self.say(self._docket.ask(self._element, question), form, word)

    def say(self, value: object, form: str, word: str) -> None:
        """A value in these words, or its word among what is not stated."""
        if not isinstance(value, Unknown):
            self._phrases.append(form.format(shown(value)))
        elif value.arises:
            self._open.append(word)

    def part(self, marks: Marks, name: str = "") -> Part:
        """The finished label."""
        open_words = (f"not stated: {', '.join(self._open)}",) if self._open else ()
        element = self._element
        return Part(element.name, element.kind, name or element.name, (*self._phrases, *open_words), marks(element.name))


def shown(value: object) -> str:
    """A value as a drawing shows it: as written, or to three figures."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value.show() if isinstance(value, Quantity) else str(value)


def supply_part(supply: Supply, docket: Docket, marks: Marks) -> Part:
    """A supply: what it is, its voltage, and what it can deliver."""
    label = Label(docket, supply)
    label.state("type")
    label.state("volts")
    if supply.states("phase"):
        label.state("phase")
    if supply.states("type") and supply.type != "utility":
        label.state("rating")
        if supply.states("neutral") and supply.neutral != "bonded":
            label.state("neutral", "neutral {}")
    else:
        label.state_if_said("transformer", "transformer {}")
        label.state_if_said("transformer-impedance", "impedance {}")
    label.work(lambda: most_fault(supply, docket.job), "{} available fault current", "fault current")
    return label.part(marks)


def gear_part(gear: Element, docket: Docket, marks: Marks) -> Part:
    """A meter, disconnect, panel or transfer switch: ratings, what it can break beside what can flow, its neutral."""
    label = Label(docket, gear)
    if isinstance(gear, Meter):
        label.add("meter")
        label.state("rating")
        label.state_if_said("bonding", "can bonded by: {}")
        return label.part(marks)
    if isinstance(gear, Disconnect):
        _disconnect(gear, label, docket)
    elif isinstance(gear, Panel):
        label.state("bus", "bus {}")
        label.state("main", "main {}")
    elif isinstance(gear, TransferSwitch):
        label.state("type", "{} transfer switch")
        label.state("rating")
        label.state("switches-neutral", "switches the neutral: {}", "whether it switches the neutral")
    _faults(gear, label, docket)
    neutral = docket.stated(gear, "neutral")
    if neutral != "bonded":
        label.say(neutral, "neutral {}", "neutral")
    return label.part(marks)


def _disconnect(gear: Disconnect, label: Label, docket: Docket) -> None:
    if docket.ask(gear, lambda: role(gear, docket.job)) == "service":
        label.add("service disconnect")
    if gear.states("fuses"):
        label.state("fuses", "fuses {}")
    elif gear.states("breaker") or not gear.states("switch-rating"):
        label.state("breaker", "breaker {}")
    else:
        label.state("switch-rating", "switch {}")


def _faults(gear: Element, label: Label, docket: Docket) -> None:
    assert isinstance(gear, Disconnect | Panel | TransferSwitch)
    label.state("interrupting", "interrupting {}", "interrupting rating")
    label.state_if_said("series-rating", "series rated {}")
    label.work(lambda: most_fault(gear, docket.job), "{} available", "fault current")


def interlock_part(interlock: TransferSwitch, docket: Docket, marks: Marks) -> Part:
    """A plate between two breakers of a panel."""
    label = Label(docket, interlock)
    label.add("interlock between main and back-fed breaker")
    return label.part(marks)


def run_part(run: Service | Feeder, docket: Docket, marks: Marks, name_device: bool) -> Part:
    """A service or feeder: wires, raceways, length, drop at its load, fault current at its far end."""
    label = Label(docket, run)
    if isinstance(run, Service) and docket.ask(run, lambda: is_the_utilitys(run)) is True:
        label.add("the utility's wires")
        return label.part(marks)
    if isinstance(run, Feeder) and name_device:
        label.state(*(("fuses", "fuses {}") if run.states("fuses") else ("breaker", "breaker {}")))
    _way(run, label, docket)
    return label.part(marks)


def circuit_part(circuit: Circuit, docket: Docket, marks: Marks) -> Part:
    """A branch circuit that is drawn by itself."""
    label = Label(docket, circuit)
    label.state("breaker", "breaker {}")
    label.state_if_said("poles", "{}-pole")
    _way(circuit, label, docket)
    return label.part(marks)


def _way(run: Service | Feeder | Circuit, label: Label, docket: Docket) -> None:
    _wires(run, label)
    if run.states("raceway"):
        for phrase in _raceways(run.raceway, docket):
            label.add(phrase)
    elif not docket.graph.has_none(run, "raceway"):
        label.state("raceway")
    for attribute, words in (("trench", "buried"), ("span", "overhead")):
        if run.states(attribute):
            label.add(words)
    label.state("length")
    label.work(lambda: drop(run, docket.job), "drop {}", "drop")
    label.work(lambda: _fault_at_end(run, docket), "{} at its end", "fault current")


def _fault_at_end(run: Service | Feeder | Circuit, docket: Docket) -> Current:
    """The figure that stands at the gear where it ends, which is the larger of the two there."""
    return fault_at_end(run, docket.job) if isinstance(run, Circuit) else most_fault(run.to, docket.job)


def _wires(run: Service | Feeder | Circuit, label: Label) -> None:
    """The wires as the plan says them: a cable by its name, its wires where the name doesn't tell them."""
    if run.states("sets") and run.sets > 1:
        label.add(f"{run.sets} sets")
    if run.states("cable"):
        label.add(f"{run.cable}" if run.cable.wires else f"{run.cable} cable")
        if run.cable.wires and not any(run.states(one) for one in ("hot", "neutral", "ground")):
            return
    if run.states("cable") and run.cable.wires:
        for attribute in ("hot", "neutral", "ground"):
            label.state_if_said(attribute, f"{attribute} {{}}")
        return
    if not any(run.states(one) for one in ("hot", "neutral", "ground")):
        label.state("hot", "{}", "wires")
        return
    label.state("hot", "{}", "hot wires")
    label.state("neutral", "neutral {}")
    label.state("ground", "ground {}")


def _raceways(pipes: Sequence[Raceway], docket: Docket) -> list[str]:
    """The pipes in order, those of one size and kind in a row once."""
    said = [" ".join(_sized(pipe, docket)) for pipe in pipes]
    once = [words for words, _ in groupby(said)]
    more = [f"and {len(once) - _MOST_RACEWAYS} more pipes"] if len(once) > _MOST_RACEWAYS else []
    return [f"in {once[0]}", *once[1:_MOST_RACEWAYS], *more]


def _sized(pipe: Raceway, docket: Docket) -> list[str]:
    size, kind = docket.stated(pipe, "size"), docket.stated(pipe, "type")
    if isinstance(size, Unknown) and isinstance(kind, Unknown):
        return [f"pipe {pipe.name}"]
    words = [word for word in (size, kind) if not isinstance(word, Unknown)]
    lack = "size" if isinstance(size, Unknown) else "type" if isinstance(kind, Unknown) else ""
    return [*map(shown, words), *([f"({lack} not stated)"] if lack else [])]


def load_part(load: Load, docket: Docket, marks: Marks) -> Part:
    """An appliance or motor, by its plate."""
    label = Label(docket, load)
    if load.states("count") and load.count > 1:
        label.add(f"{load.count} of them")
    plate = [one for one in ("horsepower", "rating", "amps") if load.states(one)]
    for attribute in plate:
        if attribute != "horsepower" or load.horsepower.amount:
            label.state(attribute)
    if not plate:
        label.state("rating")
    label.state("volts")
    if load.states("planned") and load.planned:
        label.add("planned")
    return label.part(marks)


def electrode_part(electrode: Electrode, docket: Docket, marks: Marks) -> Part:
    """What meets the earth: its kind and its size."""
    label = Label(docket, electrode)
    kind = electrode.type if electrode.states("type") else ""
    count = electrode.count if electrode.states("count") else 1
    label.say(docket.stated(electrode, "type"), f"{count} x {{}}" if count > 1 else "{}", "type")
    label.state_if_said("bar", "bar {}")
    label.state_if_said("wire")
    label.state_if_said("diameter")
    if kind in ("concrete-encased", "rod", "pipe", "ring"):
        label.state("length", "{} long")
    label.state_if_said("area")
    label.state_if_said("spacing", "{} apart")
    label.state_if_said("resistance")
    return label.part(marks)


def ground_wire_part(wire: ElectrodeConductor | Bond, docket: Docket, marks: Marks) -> Part:
    """An electrode conductor or bonding jumper: its wire, and where it lands."""
    label = Label(docket, wire)
    label.state("size")
    if isinstance(wire, Bond):
        label.state("type", "{} bond")
        if wire.states("to"):
            label.add(f"to {wire.to.kind} {wire.to.name}")
    else:
        label.state("lands-on", "on the {}", "where it lands")
    return label.part(marks)
