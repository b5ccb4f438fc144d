"""Voltage drop along services, feeders and circuits, what is lost ahead of them, and what would mend it.

There and back: 2 x length x current x ohms. The ohms are those of direct current at 75 C (Chapter 9 Table 8), or, where the
setting says so, the effective impedance at the power factor of the load (Table 9). Up to 4/0 the two hardly differ; above it
reactance makes the second one larger.
"""

import math

from planlint.book.tables import OutOfTable
from planlint.facts.engine import Job, fact
from planlint.facts.load import load_current
from planlint.facts.parts_served import line_volts, source
from planlint.facts.wire_ohms import Ohms, ohms_by_impedance, ohms_by_resistance
from planlint.facts.wires import Wired, hot_size
from planlint.plan.elements import not_stated
from planlint.plan.gear import Disconnect, Meter, Panel, Supply, TransferSwitch
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import TOLERANCE, Current, Length, Percent, Voltage
from planlint.trade import WireSize


@fact
def run_volts(run: Service | Feeder | Circuit, job: Job) -> Voltage:
    """Voltage at which it works: between the hot wires of a service, feeder or two-pole circuit, to neutral of one pole.

    NFPA 70 220.5(A).
    """
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
    """Voltage lost along it at the current that it carries, by the method that the setting names.

    NFPA 70 Chapter 9 Table 8, or Table 9; 210.19(A), 215.2(A) notes.
    """
    return _drop_at(load_current(run, job), run, ohms_in_use(hot_size(run, job), run, job), job)


@fact
def drop_by_impedance(run: Service | Feeder | Circuit, job: Job) -> Percent:
    """Voltage lost along it at the current that it carries, with reactance and power factor, whatever the setting names.

    NFPA 70 Chapter 9 Table 9, note 2.
    """
    return _drop_at(load_current(run, job), run, ohms_by_impedance(hot_size(run, job), run, job), job)


@fact
def drop_at_full_breaker(circuit: Circuit, job: Job) -> Percent:
    """Voltage that would be lost at the breaker's full rating: the most it can be, whatever is plugged in.

    NFPA 70 Chapter 9 Tables 8 and 9; 210.19(A) note.
    """
    return _drop_at(circuit.breaker, circuit, ohms_in_use(hot_size(circuit, job), circuit, job), job)


@fact
def drop_ahead(start: Meter | Disconnect | Panel | TransferSwitch | Circuit, job: Job) -> Percent:
    """Voltage lost on the way there, in all of the customer's own services and feeders added up. NFPA 70 215.2(A) note."""
    if isinstance(start, Circuit):
        return drop_ahead(start.panel, job)
    if isinstance(start, TransferSwitch) and start.type == "interlock":
        return drop_ahead(start.panel, job)
    run = job.graph.feed(start)
    lost = Percent.of(0, "%") if is_the_utilitys(run) else drop(run, job)
    if isinstance(run.from_, Supply):
        return lost
    before = drop_ahead(run.from_, job)
    if before.amount and lost.amount:
        job.step(f"ahead of {run.name} {before} + {run.name} {lost}", before + lost)
    return before + lost


@fact
def drop_to_last_outlet(circuit: Circuit, job: Job) -> Percent:
    """Voltage lost from the utility's wires to the circuit's last outlet: service, feeders and circuit added up.

    NFPA 70 210.19(A), 215.2(A) notes.
    """
    ahead, here = drop_ahead(circuit, job), drop(circuit, job)
    job.step(f"ahead {ahead} + {circuit.name} {here}", ahead + here, "NFPA 70 215.2(A) note")
    return ahead + here


@fact
def longest_for_drop(run: Feeder | Circuit, job: Job) -> Length:
    """The longest that it may be at its size and load, so that it drops no more than its own limit; in whole feet.

    NFPA 70 Chapter 9 Tables 8 and 9; 210.19(A), 215.2(A) notes.
    """
    ohms = ohms_in_use(hot_size(run, job), run, job)
    most, current = _most_volts(_limit(run, job), run, job), load_current(run, job).within("A")
    if not current:
        not_stated(run, "design-load", f"{run.name}: a load above 0 A")
    longest = Length.of(most.within("V") * 1000 / (2 * current * ohms.number / run.sets), "ft")
    job.step(f"{most} x 1000 / (2 x {current:g} A x {ohms.words} ohm{_in_sets(run)})", longest, ohms.source)
    whole = Length.of(math.floor(longest.within("ft") + TOLERANCE), "ft")
    job.step("in whole feet", whole)
    return whole


@fact
def size_for_drop(run: Feeder | Circuit, job: Job) -> WireSize:
    """The smallest wire of its metal, from its own size on, that drops no more than the limit of this run.

    Not stated past the table's end. NFPA 70 Chapter 9 Tables 8 and 9; 210.19(A), 215.2(A) notes.
    """
    size = _smallest_within(_limit(run, job), run, job)
    if size is None:
        raise OutOfTable("Chapter 9 Table 8", f"wire that loses less than {_limit(run, job)} over {run.length}")
    return size


@fact
def mend_for_total_drop(circuit: Circuit, job: Job) -> str:
    """What would keep the circuit and all ahead of it within their common limit: a larger wire here, or only farther ahead.

    NFPA 70 215.2(A) note.
    """
    most: Percent = job.setting("total-voltage-drop.most-drop")
    left = most - drop_ahead(circuit, job)
    job.step(f"{most} - {drop_ahead(circuit, job)} ahead", left)
    size = _smallest_within(left, circuit, job)
    if size is None:
        return "A larger wire in this circuit alone does not mend that; enlarge the service or the feeders ahead of it."
    return f"Take {size} or larger for this circuit (its ground grows with it), or enlarge the runs ahead of it."


def ohms_in_use(size: WireSize, run: Wired, job: Job) -> Ohms:
    """What a wire of that size has against the current by the method in force. Raises OutOfTable."""
    if job.setting("drop.by-impedance"):
        return ohms_by_impedance(size, run, job)
    return ohms_by_resistance(size, job)


def _drop_at(current: Current, run: Wired, ohms: Ohms, job: Job) -> Percent:
    lost, volts = _lost(current, ohms, run), run_volts(run, job)
    job.step(
        f"2 x {run.length.within('ft'):g} ft x {current} x {ohms.words} ohm / 1000 ft{_in_sets(run)}",
        lost,
        ohms.source,
    )
    if not volts.amount:
        not_stated(run, "volts", f"{run.name}: volts, which are not 0")
    share = Percent.of(100 * lost.over(volts), "%")
    job.step(f"{lost} / {volts}", share)
    return share


def _lost(current: Current, ohms: Ohms, run: Wired) -> Voltage:
    return Voltage.of(2 * run.length.within("ft") * current.within("A") * ohms.number / run.sets / 1000, "V")


def _in_sets(run: Wired) -> str:
    return f" / {run.sets} sets" if run.sets != 1 else ""


def _limit(run: Feeder | Circuit, job: Job) -> Percent:
    rule = "branch-voltage-drop" if isinstance(run, Circuit) else "feeder-voltage-drop"
    limit: Percent = job.setting(f"{rule}.most-drop")
    return limit


def _most_volts(limit: Percent, run: Feeder | Circuit, job: Job) -> Voltage:
    most = run_volts(run, job) * limit
    job.step(f"{limit} of {run_volts(run, job)}", most)
    return most


def _smallest_within(limit: Percent, run: Feeder | Circuit, job: Job) -> WireSize | None:
    """The first size from its own on that loses no more, of those that the table has; None where there is none."""
    present, current, most = hot_size(run, job), load_current(run, job), _most_volts(limit, run, job)
    tried: list[tuple[str, str, str]] = []
    for size in job.tables.sizes_up(present.metal):
        if size < present:
            continue
        try:
            ohms = ohms_in_use(size, run, job)
        except OutOfTable:
            continue
        lost = _lost(current, ohms, run)
        text = f"{size}: 2 x {run.length.within('ft'):g} ft x {current} x {ohms.words} ohm / 1000 ft{_in_sets(run)} = {lost}"
        tried.append((text, "enough" if lost <= most else "too much", ohms.source))
        if lost <= most:
            _show_tried(tried, job)
            return size
    _show_tried(tried, job)
    return None


def _show_tried(tried: list[tuple[str, str, str]], job: Job) -> None:
    """The present size, the last one that loses too much, and the one that is enough."""
    for text, verdict, where in dict.fromkeys((*tried[:1], *tried[-2:])):
        job.step(text, verdict, where)


def is_the_utilitys(run: Service | Feeder) -> bool:
    """Whether it is the utility's own service, of which nothing counts as the customer's drop."""
    return isinstance(run, Service) and run.owner == "utility"
