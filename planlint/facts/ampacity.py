"""How much current a run's wires carry: at their terminals, after heat and company, and as their kind of cable allows.

Where the plan leaves out the temperature of terminals, rooms or insulation, each of the three limits is a range. As long as
both ends of the least come to the same, the ampacity is known all the same. The lower end is a fact too (`sure-ampacity`): a
rule may rest on it where the exact figure isn't stated.
"""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from typing import TypeVar

from planlint.book.tables import OutOfTable
from planlint.facts.engine import Job, fact
from planlint.facts.surroundings import (
    UNCORRECTED,
    ambient_factor,
    count_factor,
    insulation_temperature,
    known_heat,
    under_the_sun,
)
from planlint.facts.wires import Wired, breaker_rating, cable_type, hot_size, neutral_size
from planlint.plan.elements import Need, NotStated
from planlint.plan.members import merged
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Current, Percent, Temperature
from planlint.trade import WireSize

T = TypeVar("T")
NONMETALLIC = ("NM-B", "UF-B")
HELD_DOWN = (*NONMETALLIC, "SEU", "SER", "AC")


@dataclass(frozen=True, slots=True)
class Range:
    """The least and the most that a limit may be as long as something isn't stated; `gap` says what."""

    low: Current
    high: Current
    gap: tuple[Need, ...] = ()

    @property
    def exact(self) -> Current:
        """The limit. Raises NotStated while it may be one value or another."""
        if self.gap and self.low != self.high:
            raise NotStated(*self.gap)
        return self.low


def _between(read: Callable[[], T], low: T, high: T) -> tuple[T, T, tuple[Need, ...]]:
    """What is stated, twice; or the ends between which it lies, and what would settle it."""
    try:
        value = read()
    except NotStated as unknown:
        return low, high, unknown.needs
    return value, value, ()


def coolest(temperatures: tuple[Temperature, ...]) -> Temperature:
    """The lowest of several temperatures."""
    return min(temperatures, key=lambda each: each.amount)


@fact
def terminal_temperature(run: Service | Feeder | Circuit, job: Job) -> Temperature:
    """The lowest temperature marked at its two ends, never above what equipment of a house is tested for.

    NFPA 70 110.14(C): where no marking is stated, 75 C for more than 100 A; for less it is open, and 60 C the least.
    """
    most: Temperature = job.setting("terminal-temperature.most")
    if run.states("terminals"):
        counts = coolest((*run.terminals, most))
        job.step(
            f"terminals marked {', '.join(map(str, run.terminals))}; the lowest, {most} at most", counts, "NFPA 70 110.14(C)"
        )
        return counts
    if "terminals" not in run.unknown and breaker_rating(run, job) > job.setting("terminal-temperature.open-up-to"):
        job.step("no marking stated, more than 100 A", most, "NFPA 70 110.14(C)(1)(b)")
        return most
    return run.terminals[0]


def at_terminals(run: Wired, size: WireSize, job: Job) -> Range:
    """What wires of that size carry in the column of the terminals, or of their insulation if that bears less; all sets."""
    least, most = job.setting("terminal-temperature.least"), job.setting("terminal-temperature.most")
    low, high, gap = _between(lambda: terminal_temperature(run, job), least, most)
    coolest_wire, hottest_wire, wire_gap = _insulation(run, job)
    return Range(
        _table(run, size, coolest((low, coolest_wire)), job),
        _table(run, size, coolest((high, hottest_wire)), job),
        merged(gap, wire_gap),
    )


def corrected(run: Wired, size: WireSize, job: Job) -> Range:
    """What wires of that size carry by their insulation, corrected for heat and for the number of wires; all sets."""
    company = count_factor(run, job)
    coolest_wire, hottest_wire, gap = _insulation(run, job)
    known, place_gap = known_heat(run, job)
    guess: Temperature = job.setting("hottest-place.not-stated")
    hot = under_the_sun(run, max(known, guess, key=lambda each: each.amount) if place_gap else known, job)
    cool = Temperature.of(0, "C") if place_gap else hot
    return Range(
        _table(run, size, coolest_wire, job) * _share(hot, coolest_wire, bool(gap or place_gap), job) * company,
        _table(run, size, hottest_wire, job) * _share(cool, hottest_wire, False, job) * company,
        merged(gap, place_gap),
    )


def allowed_in_cable(run: Wired, size: WireSize, job: Job) -> Range:
    """What wires of that size carry in this kind of cable; loose wires and other cables have no limit but their insulation's."""
    named = cable_type(run, job)
    sixty = _table(run, size, job.setting("ampacity-of-cable.sixty-degrees"), job)
    if named in NONMETALLIC:
        return Range(sixty, sixty)
    if named not in HELD_DOWN:
        bare_limit = _table(run, size, _insulation(run, job)[1], job)
        return Range(bare_limit, bare_limit)
    free = _table(run, size, job.setting("ampacity-of-cable.service-cable"), job)
    largest = job.setting("ampacity-of-cable.sixty-degrees-up-to").by_metal.get(size.metal)
    if named != "AC" and (largest is None or size > largest):
        return Range(free, free)
    worst, best, gap = _between(lambda: run.touches_insulation, True, False)
    return Range(sixty if worst else free, sixty if best else free, gap)


def carried(run: Wired, size: WireSize, job: Job) -> Range:
    """What wires of that size would carry in place of its own: the least of the three limits."""
    limits = at_terminals(run, size, job), corrected(run, size, job), allowed_in_cable(run, size, job)
    high = min((limit.high for limit in limits), key=lambda each: each.amount)
    low = min((limit.low for limit in limits), key=lambda each: each.amount)
    return Range(low, high, merged(*(limit.gap for limit in limits if limit.low < high)))


def _insulation(run: Wired, job: Job) -> tuple[Temperature, Temperature, tuple[Need, ...]]:
    least, most = job.setting("insulation-temperature.least"), job.setting("insulation-temperature.most")
    return _between(lambda: insulation_temperature(run, job), least, most)


def _table(run: Wired, size: WireSize, column: Temperature, job: Job) -> Current:
    return job.tables.ampacity(size, column) * run.sets


def _share(warm: Temperature, column: Temperature, guessed: bool, job: Job) -> Percent:
    """The factor for heat; nothing is left where the table ends, if the heat or the insulation is only a guess."""
    try:
        return job.tables.ambient_factor(warm, column)
    except OutOfTable:
        if not guessed:
            raise
        return Percent.of(0, "%")


@fact
def ampacity_at_terminals(run: Service | Feeder | Circuit, job: Job) -> Current:
    """What its hot wires carry in the column of its terminals, all sets together.

    NFPA 70 110.14(C), Table 310.16 (2017: 310.15(B)(16)).
    """
    size = hot_size(run, job)
    limit = at_terminals(run, size, job).exact
    job.step(f"{_times(run)}{size} at its terminals", limit, f"NFPA 70 110.14(C), {job.from_table('ampacity')}")
    return limit


@fact
def sure_ampacity_at_terminals(run: Service | Feeder | Circuit, job: Job) -> Current:
    """What its hot wires carry at the terminals whatever is marked there; the ampacity at terminals where that is stated."""
    return at_terminals(run, hot_size(run, job), job).low


@fact
def ampacity_adjusted(run: Service | Feeder | Circuit, job: Job) -> Current:
    """What its hot wires carry by their insulation, less what heat and other wires take, all sets together.

    NFPA 70 310.15(B), (C), 310.14(A) (2017: 310.15(B)).
    """
    size = hot_size(run, job)
    limit = corrected(run, size, job).exact
    column = insulation_temperature(run, job)
    factors = f"{ambient_factor(run, job)} for heat x {count_factor(run, job)} for number"
    job.step(f"{_table(run, size, column, job)} ({_times(run)}{size}, {column}) x {factors}", limit, job.from_table("ampacity"))
    return limit


@fact
def sure_ampacity_adjusted(run: Service | Feeder | Circuit, job: Job) -> Current:
    """What its hot wires carry after adjustment however warm it gets where the plan doesn't say, up to a hot attic."""
    return corrected(run, hot_size(run, job), job).low


@fact
def ampacity_of_cable(run: Service | Feeder | Circuit, job: Job) -> Current:
    """What its kind of cable allows: NM-B and UF-B the 60 C column; SE cable that too where it is small and lies in insulation.

    Loose wires and other cables have no limit of this kind: here stands that of their insulation.
    NFPA 70 334.80, 340.80, 338.10(B)(4)(a), 320.80(A).
    """
    size = hot_size(run, job)
    limit = allowed_in_cable(run, size, job).exact
    cable = cable_type(run, job)
    job.step(
        f"{size} as loose wires" if cable == "none" else f"{size} in {cable}",
        limit,
        "NFPA 70 334.80, 340.80, 338.10(B)(4)(a), 320.80(A)",
    )
    return limit


@fact
def ampacity(run: Service | Feeder | Circuit, job: Job) -> Current:
    """What its hot wires carry: the least that terminals, heat, number of wires and kind of cable allow.

    NFPA 70 310.14 (2017: 310.15(A)).
    """
    size = hot_size(run, job)
    least = carried(run, size, job).exact
    limits = [(ampacity_at_terminals, "at its terminals"), (ampacity_adjusted, "after heat and number")]
    if cable_type(run, job) in HELD_DOWN:
        limits.append((ampacity_of_cable, "in its cable"))
    known = []
    for limit, words in limits:
        with suppress(NotStated):  # what stays open among them is known not to be the least
            known.append(f"{limit(run, job)} {words}")
    job.step(f"the least of {', '.join(known)}", least, "NFPA 70 310.14 (2017: 310.15(A))")
    return least


@fact
def sure_ampacity(run: Service | Feeder | Circuit, job: Job) -> Current:
    """What its hot wires carry whatever the plan leaves out about heat and terminals, up to a hot attic."""
    return carried(run, hot_size(run, job), job).low


@fact
def neutral_ampacity(run: Service | Feeder, job: Job) -> Current:
    """What its neutral carries, as the hot wires.

    NFPA 70 220.61, 310.14.
    """
    size = neutral_size(run, job)
    least = carried(run, size, job).exact
    job.step(f"{_times(run)}{size}, as its hot wires", least, job.from_table("ampacity"))
    return least


@fact
def is_adjusted(run: Service | Feeder | Circuit, job: Job) -> bool:
    """Whether heat or the number of wires takes something from its ampacity.

    NFPA 70 310.15(B), (C).
    """
    return count_factor(run, job) < UNCORRECTED or ambient_factor(run, job) < UNCORRECTED


def _times(run: Wired) -> str:
    return f"{run.sets} x " if run.sets > 1 else ""
