"""Panel schedules: what sits in which space of each panel, what it feeds, and what it puts on each leg.

Spaces are numbered across in rows of two, odd ones on the left, and the legs take turns by row (common practice, no source).
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from planlint.checking import subject_of
from planlint.facts.breaker_spaces import space_fault
from planlint.facts.fault import most_fault
from planlint.facts.legs import current_on_leg, leg_a_load, leg_b_load
from planlint.facts.overcurrent import breaker_ahead
from planlint.facts.parts_served import line_volts, source
from planlint.facts.wires import breaker_rating, ground_wires, hot_wires, neutral_wires
from planlint.papers.docket import Docket, Unknown
from planlint.papers.serving import words_served
from planlint.plan.gear import Panel
from planlint.plan.runs import Circuit, Feeder
from planlint.positions import Span
from planlint.quantities import Current, Power, Voltage
from planlint.report import Subject


@dataclass(frozen=True, slots=True)
class Breaker:
    """One breaker as it sits in a panel. `serves`: words for the door; `worded`: the plan itself says them.

    `misfit`: why it can't sit in its spaces.

    `leg_a` and `leg_b`: connected load with everything on, in volt-amperes, no demand factor applied.
    """

    subject: Subject
    position: Span
    spaces: tuple[int, ...] | Unknown
    rating: Current | Unknown
    poles: int | Unknown
    wires: str | Unknown
    protection: tuple[str, ...] | Unknown
    leg_a: Power | Unknown
    leg_b: Power | Unknown
    serves: str
    worded: bool
    misfit: str | Unknown


@dataclass(frozen=True, slots=True)
class Total:
    """A leg's connected load. `at_least`: some breaker's share isn't known, so it is the sum of the others."""

    power: Power
    at_least: bool


@dataclass(frozen=True, slots=True)
class PanelSchedule:
    """One panel with all its breakers, in the order of their spaces; those whose space isn't stated come last.

    `free`: the spaces that no breaker names. `notes`: what can't sit in the panel as it is stated.
    """

    subject: Subject
    position: Span
    place: str | Unknown
    bus: Current | Unknown
    main: str | Unknown
    fed_by: str | Unknown
    ahead: Current | Unknown
    interrupting: Current | Unknown
    fault: Current | Unknown
    spaces: int | Unknown
    volts: str | Unknown
    breakers: tuple[Breaker, ...]
    leg_a: Total
    leg_b: Total
    free: tuple[int, ...] | Unknown
    notes: tuple[str, ...]
    complete: bool

    def in_space(self, space: int) -> list[Breaker]:
        """The breakers that name this space: none, one, or the two halves of a tandem."""
        return [one for one in self.breakers if not isinstance(one.spaces, Unknown) and space in one.spaces]

    @property
    def unplaced(self) -> list[Breaker]:
        """The breakers whose space isn't stated."""
        return [one for one in self.breakers if isinstance(one.spaces, Unknown)]

    @property
    def rows(self) -> int:
        """How many rows of two spaces the panel has; as many as its breakers need where its spaces aren't stated."""
        return max(self.rows_taken, 0 if isinstance(self.spaces, Unknown) else (self.spaces + 1) // 2)

    @property
    def rows_taken(self) -> int:
        """How many rows there are down to the last one with a breaker."""
        named = [space for one in self.breakers if not isinstance(one.spaces, Unknown) for space in one.spaces]
        return (max(named, default=0) + 1) // 2

    @property
    def imbalance(self) -> Power | None:
        """By how much one leg is connected for more than the other; None while either is only a lower bound."""
        if self.leg_a.at_least or self.leg_b.at_least:
            return None
        first, second = self.leg_a.power, self.leg_b.power
        return max(first, second) - min(first, second)


@dataclass(frozen=True, slots=True)
class Schedules:
    """The schedules of every panel of a plan, in its order."""

    plan: str
    panels: tuple[PanelSchedule, ...]


def panel_schedules(docket: Docket) -> Schedules:
    """A schedule for each panel of the plan."""
    panels = docket.graph.all(Panel).known
    return Schedules(docket.report.plan, tuple(_schedule(panel, docket) for panel in panels))


def _schedule(panel: Panel, docket: Docket) -> PanelSchedule:
    job, graph = docket.job, docket.graph
    circuits = graph.those(Circuit, "panel", panel)
    leaving = graph.those(Feeder, "from", panel)
    volts = docket.ask(panel, lambda: _volts_per_leg(panel, docket))
    runs: tuple[Circuit | Feeder, ...] = (*leaving.known, *circuits.known)
    breakers = sorted((_breaker(run, volts, docket) for run in runs), key=_by_space)
    spaces = docket.ask(panel, lambda: panel.spaces)
    return PanelSchedule(
        subject=subject_of(panel),
        position=panel.line,
        place=docket.ask(panel, lambda: panel.at.name),
        bus=docket.ask(panel, lambda: panel.bus),
        main=docket.ask(panel, lambda: f"{panel.main} main" if isinstance(panel.main, Current) else "main lugs only"),
        fed_by=docket.ask(panel, lambda: _feed_words(panel, docket)),
        ahead=docket.ask(panel, lambda: breaker_ahead(panel, job)),
        interrupting=docket.ask(panel, lambda: panel.interrupting),
        fault=docket.ask(panel, lambda: most_fault(panel, job)),
        spaces=spaces,
        volts=docket.ask(panel, lambda: str(source(panel, job).volts)),
        breakers=tuple(breakers),
        leg_a=_total([one.leg_a for one in breakers], docket.ask(panel, lambda: leg_a_load(panel, job)), volts),
        leg_b=_total([one.leg_b for one in breakers], docket.ask(panel, lambda: leg_b_load(panel, job)), volts),
        free=spaces if isinstance(spaces, Unknown) else _free(breakers, spaces),
        notes=tuple(_notes(breakers)),
        complete=not (circuits.gaps or leaving.gaps),
    )


def _feed_words(panel: Panel, docket: Docket) -> str:
    run = docket.graph.feed(panel)
    return f"{run.name}, from {run.from_.name}"


def _volts_per_leg(panel: Panel, docket: Docket) -> Voltage:
    supply = source(panel, docket.job)
    return supply.volts.to_neutral or Voltage.of(line_volts(supply).within("V") / 2, "V")


def _breaker(run: Circuit | Feeder, volts: Voltage | Unknown, docket: Docket) -> Breaker:
    job = docket.job
    serves, worded = words_served(run, docket)
    return Breaker(
        subject=subject_of(run),
        position=run.line,
        spaces=docket.ask(run, lambda: run.space),
        rating=docket.ask(run, lambda: breaker_rating(run, job)),
        poles=docket.ask(run, lambda: run.poles if isinstance(run, Circuit) else hot_wires(run, job).count),
        wires=docket.ask(run, lambda: wire_words(run, docket)),
        protection=docket.ask(run, lambda: run.protection) if isinstance(run, Circuit) else (),
        leg_a=_power(run, "a", volts, docket),
        leg_b=_power(run, "b", volts, docket),
        serves=serves,
        worded=worded,
        misfit=docket.ask(run, lambda: space_fault(run, job)),
    )


def _power(run: Circuit | Feeder, leg: str, volts: Voltage | Unknown, docket: Docket) -> Power | Unknown:
    if isinstance(volts, Unknown):
        return volts
    current = docket.ask(run, lambda: current_on_leg(run, "a" if leg == "a" else "b", docket.job))
    return current if isinstance(current, Unknown) else _volt_amperes(current, volts)


def _volt_amperes(current: Current, volts: Voltage) -> Power:
    return Power.of(current.within("A") * volts.within("V"), "VA")


def wire_words(run: Circuit | Feeder, docket: Docket) -> str:
    """The wires of a run in short: its cable as named, or its wires one by one. Raises NotStated."""
    if run.states("cable") and run.cable.wires:
        return str(run.cable)
    job = docket.job
    parts = [str(hot_wires(run, job))]
    for word, wires in (("neutral", neutral_wires(run, job)), ("ground", ground_wires(run, job))):
        if wires.count:
            parts.append(f"{word} {wires}")
    cable = f"{run.cable}: " if run.states("cable") else ""
    sets = f"{run.sets} sets of " if run.sets > 1 else ""
    return cable + sets + ", ".join(parts)


def _by_space(one: Breaker) -> tuple[bool, tuple[int, ...]]:
    return (True, ()) if isinstance(one.spaces, Unknown) else (False, one.spaces)


def _total(shares: Sequence[Power | Unknown], whole: Current | Unknown, volts: Voltage | Unknown) -> Total:
    """The fact where it comes out; otherwise the shares that are known, which is a lower bound."""
    if not isinstance(whole, Unknown) and not isinstance(volts, Unknown):
        return Total(_volt_amperes(whole, volts), False)
    known = [share.within("VA") for share in shares if not isinstance(share, Unknown)]
    return Total(Power.of(sum(known), "VA"), True)


def _free(breakers: Iterable[Breaker], spaces: int) -> tuple[int, ...]:
    taken = {space for one in breakers if not isinstance(one.spaces, Unknown) for space in one.spaces}
    return tuple(space for space in range(1, spaces + 1) if space not in taken)


def _notes(breakers: Sequence[Breaker]) -> Iterator[str]:
    for one in breakers:
        if not isinstance(one.misfit, Unknown):
            yield f"{one.subject.name}: {one.misfit}."
    placed = [(one, one.spaces) for one in breakers if not isinstance(one.spaces, Unknown)]
    for space, number in sorted(Counter(space for _, own in placed for space in own).items()):
        if number > 1:
            names = " and ".join(one.subject.name for one, own in placed if space in own)
            yield f"Space {space} is named by {names}: only a tandem breaker that the panel's label allows holds two there."
