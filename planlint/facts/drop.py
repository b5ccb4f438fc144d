"""Voltage drop along services, feeders and circuits, what is lost ahead of them, and what would mend it.

Resistance to direct current at 75 C of stranded wire, there and back: 2 x length x current x ohms. Reactance and power factor
are left out; up to 4/0 that hardly matters, and above it the drop comes out somewhat low.
"""

import math

from planlint.book.tables import OutOfTable
from planlint.facts.engine import Job, fact
from planlint.facts.load import line_volts, load_current, source
from planlint.facts.wires import hot_size
from planlint.plan.elements import not_stated
from planlint.plan.gear import Disconnect, Meter, Panel, Supply, TransferSwitch
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import TOLERANCE, Current, Length, Percent, Voltage
from planlint.trade import WireSize

Wired = Service | Feeder | Circuit


@fact
def run_volts(run: Service | Feeder | Circuit, job: Job) -> Voltage:
    """Voltage at which it works: between the hot wires of a service, feeder or two-pole circuit, to neutral of one pole."""
    if not isinstance(run, Circuit):
        return line_volts(source(run.to, job))
    if run.states("volts") or "volts" in run.unknown:
        return run.volts
    supply = source(run.panel, job)
    if run.poles == 1:
        return supply.volts.to_neutral or supply.volts.line
    if run.poles == 2:
        return line_volts(supply)
    not_stated(run, "volts", f"{run.name}: volts, because it has {run.poles} poles")


@fact
def drop(run: Service | Feeder | Circuit, job: Job) -> Percent:
    """Voltage lost along it at the current that it carries. NFPA 70 Chapter 9 Table 8; 210.19(A), 215.2(A) notes."""
    return _drop_at(load_current(run, job), run, job)


@fact
def drop_at_full_breaker(circuit: Circuit, job: Job) -> Percent:
    """Voltage that would be lost at the breaker's full rating: the most it can be, whatever is plugged in."""
    return _drop_at(circuit.breaker, circuit, job)


@fact
def drop_ahead(start: Meter | Disconnect | Panel | TransferSwitch | Circuit, job: Job) -> Percent:
    """Voltage lost on the way there, in all of the customer's own services and feeders added up."""
    if isinstance(start, Circuit):
        return drop_ahead(start.panel, job)
    if isinstance(start, TransferSwitch) and start.type == "interlock":
        return drop_ahead(start.panel, job)
    run = job.graph.feed(start)
    lost = Percent.of(0, "%") if _is_the_utilitys(run) else drop(run, job)
    if isinstance(run.from_, Supply):
        return lost
    before = drop_ahead(run.from_, job)
    if before.amount and lost.amount:
        job.step(f"ahead of {run.name} {before} + {run.name} {lost}", before + lost)
    return before + lost


@fact
def longest_for_drop(run: Feeder | Circuit, job: Job) -> Length:
    """The longest that it may be at its size and load, so that it drops no more than its own limit; in whole feet."""
    ohms = job.tables.dc_resistance(hot_size(run, job)) / run.sets
    lost = run_volts(run, job).within("V") * _limit(run, job).amount
    current = load_current(run, job).within("A")
    if not current:
        not_stated(run, "design-load", f"{run.name}: a load above 0 A")
    longest = Length.of(lost * 1000 / (2 * current * ohms), "ft")
    job.step(f"{lost:g} V x 1000 / (2 x {current:g} A x {ohms:g} ohm)", longest, job.from_table("conductor-properties"))
    return Length.of(math.floor(longest.within("ft") + TOLERANCE), "ft")


@fact
def size_for_drop(run: Feeder | Circuit, job: Job) -> WireSize:
    """The smallest wire of its metal, from its own size on, that drops no more than the limit of this run.

    Not stated past the table's end.
    """
    size = _smallest_within(_limit(run, job), run, job)
    if size is None:
        raise OutOfTable("Chapter 9 Table 8", f"wire that loses less than {_limit(run, job)} over {run.length}")
    return size


@fact
def mend_for_total_drop(circuit: Circuit, job: Job) -> str:
    """What would keep the circuit and all ahead of it within their common limit: a larger wire here, or only farther ahead."""
    most: Percent = job.setting("total-voltage-drop.most-drop")
    left = most - drop_ahead(circuit, job)
    size = _smallest_within(left, circuit, job)
    if size is None:
        return "A larger wire in this circuit alone does not mend that; enlarge the service or the feeders ahead of it."
    return f"Take {size} or larger for this circuit (its ground grows with it), or enlarge the runs ahead of it."


def _drop_at(current: Current, run: Wired, job: Job) -> Percent:
    size = hot_size(run, job)
    lost = _lost(current, size, run, job)
    volts = run_volts(run, job)
    each = f" / {run.sets} sets" if run.sets != 1 else ""
    job.step(
        f"2 x {run.length.within('ft'):g} ft x {current} x {job.tables.dc_resistance(size):g} ohm / 1000 ft{each}",
        lost,
        job.from_table("conductor-properties"),
    )
    if not volts.amount:
        not_stated(run, "volts", f"{run.name}: volts, which are not 0")
    share = Percent.of(100 * lost.over(volts), "%")
    job.step(f"{lost} / {volts}", share)
    return share


def _lost(current: Current, size: WireSize, run: Wired, job: Job) -> Voltage:
    ohms = job.tables.dc_resistance(size) / run.sets
    return Voltage.of(2 * run.length.within("ft") * current.within("A") * ohms / 1000, "V")


def _limit(run: Feeder | Circuit, job: Job) -> Percent:
    rule = "branch-voltage-drop" if isinstance(run, Circuit) else "feeder-voltage-drop"
    limit: Percent = job.setting(f"{rule}.most-drop")
    return limit


def _smallest_within(limit: Percent, run: Feeder | Circuit, job: Job) -> WireSize | None:
    present, current, most = hot_size(run, job), load_current(run, job), run_volts(run, job) * limit
    for size in job.tables.sizes_up(present.metal):
        if size >= present and _lost(current, size, run, job) <= most:
            job.step(f"{size} loses {_lost(current, size, run, job)}, and {most} may be lost", size)
            return size
    return None


def _is_the_utilitys(run: Service | Feeder) -> bool:
    return isinstance(run, Service) and run.owner == "utility"
