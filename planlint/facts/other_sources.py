"""Solar panels and batteries that feed into panels beside the utility, and what the bus bars may take."""

from typing import NoReturn

from planlint.facts.demand import amperes, total_current
from planlint.facts.engine import Job, fact
from planlint.facts.overcurrent import breaker_ahead
from planlint.facts.parts_served import line_volts
from planlint.facts.wires import breaker_rating
from planlint.plan.elements import does_not_arise, not_stated
from planlint.plan.gear import AnyGear, Panel, Supply, TransferSwitch
from planlint.plan.members import Members, all_hold, merged
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Current, Percent


@fact
def backfeeds(panel: Panel, job: Job) -> Members[Feeder]:
    """Feeders by which solar panels or a battery send power onto its bus beside the utility.

    Those that come in from such a source, and those that go out to gear where one joins: it flows back through them.
    NFPA 70 705.12(B).
    """
    coming = job.graph.those(Feeder, "to", panel).where(lambda run: _comes_from_source(run, job))
    return coming.joined(job.graph.those(Feeder, "from", panel).where(lambda run: _leads_to_source(run, job)))


def _runs_beside_utility(supply: Supply, job: Job) -> bool:
    types: tuple[str, ...] = job.setting("backfeeds.types")
    return supply.type in types


def _comes_from_source(run: Feeder | Service, job: Job) -> bool:
    """Whether all that lies ahead of it is such sources. Through a transfer switch that is not told."""
    if isinstance(run, Service):
        return False
    start = run.from_
    if isinstance(start, Supply):
        return _runs_beside_utility(start, job)
    ahead = job.graph.feeds_into(start)
    if isinstance(start, TransferSwitch):
        if ahead.some(lambda one: _comes_from_source(one, job)):
            _not_told(start)
        return False
    if not ahead.known:
        not_stated(start, "fed-by", f"which service or feeder ends at {start.name}")
    return ahead.every(lambda one: _comes_from_source(one, job))


def _leads_to_source(run: Feeder, job: Job) -> bool:
    """Whether such a source joins somewhere behind it."""
    end = run.to
    joins = job.graph.those(Feeder, "to", end).where(lambda one: one is not run)
    if isinstance(end, TransferSwitch) and joins.some(lambda one: _comes_from_source(one, job)):
        _not_told(end)
    return not all_hold(
        lambda: not joins.some(lambda one: _comes_from_source(one, job)),
        lambda: not _goes_on(end, job).some(lambda one: _leads_to_source(one, job)),
    )


def _goes_on(end: AnyGear, job: Job) -> Members[Feeder]:
    return job.graph.those(Feeder, "from", end)


def _not_told(switch: TransferSwitch) -> NoReturn:
    not_stated(switch, "side-by-side", f"{switch.name}: whether it lets the utility and the other source run side by side")


@fact
def source_current(run: Feeder, job: Job) -> Current:
    """The most that solar panels and batteries send through it: the ratings of those ahead of it, or of those behind.

    NFPA 70 705.12(B), 705.60.
    """
    comes = _comes_from_source(run, job)
    if not comes and not _leads_to_source(run, job):
        does_not_arise(run, f"{run.name}: a source beside the utility, ahead of it or behind it")
    sources = _sources_ahead(run, job) if comes else _sources_behind(run, job)
    for source in sources.whole():
        job.step(f"{source.name} gives at the most", _most_of(source))
    return total_current(_most_of(source) for source in sources.whole())


def _sources_ahead(run: Feeder | Service, job: Job) -> Members[Supply]:
    start = run.from_
    if isinstance(start, Supply):
        return Members((start,))
    ahead = job.graph.feeds_into(start)
    found: Members[Supply] = Members((), ahead.gaps)
    return found.joined(*(_sources_ahead(one, job) for one in ahead))


def _sources_behind(run: Feeder, job: Job) -> Members[Supply]:
    joins = job.graph.those(Feeder, "to", run.to).where(lambda one: one is not run and _comes_from_source(one, job))
    onward = _goes_on(run.to, job)
    found: Members[Supply] = Members((), merged(joins.gaps, onward.gaps))
    return found.joined(*(_sources_ahead(one, job) for one in joins), *(_sources_behind(one, job) for one in onward))


def _most_of(supply: Supply) -> Current:
    if isinstance(supply.rating, Current):
        return supply.rating
    return amperes(supply.rating, line_volts(supply), supply)


def _with_sources(panel: Panel, job: Job) -> None:
    found = backfeeds(panel, job)
    if not found.known and not found.gaps:
        does_not_arise(panel, f"{panel.name}: a source beside the utility that feeds back into it")


@fact
def source_load_on_bus(panel: Panel, job: Job) -> Current:
    """What may come onto its bus: the breaker that protects it and 125 % of what the sources give.

    NFPA 70 705.12(B)(2)(3) (2020, 2023: 705.12(B)(3), (B)).
    """
    _with_sources(panel, job)
    share: Percent = job.setting("source-load-on-bus.of-sources")
    given = total_current(source_current(run, job) for run in backfeeds(panel, job).whole())
    main = breaker_ahead(panel, job)
    job.step(f"{main} + {share} x {given}", main + given * share, "NFPA 70 705.12(B)")
    return main + given * share


@fact
def bus_allowance(panel: Panel, job: Job) -> Current:
    """What its bus may take so: 120 % of its rating where every source joins at the end opposite the main; otherwise 100 %.

    In a center-fed panel of a dwelling either end counts as opposite. NFPA 70 705.12(B)(2)(3) (2020, 2023: 705.12(B)(3), (B)).
    """
    _with_sources(panel, job)
    most: Percent = job.setting("bus-allowance.opposite-end")
    if not backfeeds(panel, job).every(lambda run: run.bus_position == "opposite-end"):
        job.step(f"100 % x {panel.bus}", panel.bus, "NFPA 70 705.12(B)")
        return panel.bus
    job.step(f"{most} x {panel.bus}, sources at the opposite end", panel.bus * most, "NFPA 70 705.12(B)")
    return panel.bus * most


@fact
def bus_takes_sources(panel: Panel, job: Job) -> bool:
    """Whether what may come onto its bus is no more than it may take; known too where only the place on the bus is open."""
    load, most = source_load_on_bus(panel, job), panel.bus * job.setting("bus-allowance.opposite-end")
    if load <= panel.bus:
        return True
    return load <= most and load <= bus_allowance(panel, job)


@fact
def breakers_on_bus(panel: Panel, job: Job) -> Current:
    """All its breakers added, for loads and for sources, each once; not its main. NFPA 70 705.12(B), the sum of the breakers."""
    circuits = job.graph.those(Circuit, "panel", panel).whole()
    feeders = [*job.graph.those(Feeder, "from", panel).whole(), *_incoming(panel, job)]
    ratings = [breaker_rating(circuit, job) for circuit in circuits] + [breaker_rating(run, job) for run in feeders]
    added = total_current(ratings)
    job.step(f"{len(circuits)} breakers of circuits and {len(feeders)} of feeders", added, "NFPA 70 705.12(B)")
    return added


def _incoming(panel: Panel, job: Job) -> list[Feeder]:
    return [run for run in backfeeds(panel, job).whole() if run.to is panel]


@fact
def source_room(panel: Panel, job: Job) -> Current:
    """How much current sources at the end opposite its main may give at the most, besides what the main brings."""
    _with_sources(panel, job)
    most, share = job.setting("bus-allowance.opposite-end"), job.setting("source-load-on-bus.of-sources")
    main = breaker_ahead(panel, job)
    room: Current = max(panel.bus * most - main, Current.of(0, "A")) * (1 / share.amount)
    job.step(f"({most} x {panel.bus} - {main}) / {share}", room, "NFPA 70 705.12(B)")
    return room
