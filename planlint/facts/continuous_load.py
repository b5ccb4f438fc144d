"""Whether breakers are large enough for what runs three hours or more on end."""

from collections.abc import Callable, Sequence

from planlint.book.tables import OutOfTable
from planlint.facts.circuit_load import feeds_only_loads, loads_on
from planlint.facts.circuit_needs import cooking_current, runs_long
from planlint.facts.demand import COOKING, is_enough, plate_current, total_current
from planlint.facts.engine import Job, fact
from planlint.facts.load import current_needed, load_current
from planlint.facts.parts_served import source_of
from planlint.facts.wires import breaker_rating
from planlint.plan.elements import NotStated
from planlint.plan.outlets import Load
from planlint.plan.runs import Circuit, Feeder
from planlint.quantities import Current, Percent


@fact
def is_judged_by_its_appliance(run: Feeder | Circuit, job: Job) -> bool:
    """Whether it feeds only appliances, and one of them has a rule of its own that judges the breaker of its whole circuit.

    Then the fault is said once, at the appliance.
    """
    if isinstance(run, Feeder):
        return False
    types: tuple[str, ...] = job.setting("is-judged-by-its-appliance.types")
    return loads_on(run, job).some(lambda load: load.type in types and not load.planned) and feeds_only_loads(run, job)


@fact
def is_from_own_source(run: Feeder | Circuit, job: Job) -> bool:
    """Whether it brings in what a generator, solar panels or a battery give: its breaker goes by the source. NFPA 70 445, 705."""
    return isinstance(run, Feeder) and source_of(run, job).type != "utility"


@fact
def is_judged_by_its_load(run: Feeder | Circuit, job: Job) -> bool:
    """Whether the load as it is says all about a feeder's breaker: it is too much for it already, or nothing of it counts more.

    Heat counts as it is, and so does all of a dwelling. Then `feeder-smaller-than-load` speaks. NFPA 70 215.3, 220.51.
    """
    if not isinstance(run, Feeder):
        return False
    plain = load_current(run, job)
    return not is_enough(breaker_rating(run, job), plain, job) or current_needed(run, job) == plain


@fact
def breaker_needed(run: Feeder | Circuit, job: Job) -> Current:
    """The least rating of its breaker: what it carries, with what runs long at 125 %.

    In full where breaker and enclosure are listed for their whole rating, but for car chargers. Motors count as they run. On a
    circuit with receptacles or lights the design load stands for all of it. NFPA 70 210.20(A), 215.3, 422.13, 424.4(B), 625.41.
    """
    if isinstance(run, Feeder):
        return current_needed(run, job)
    appliances = loads_on(run, job).whole()
    more: Percent = job.setting("current-needed.for-continuous")
    for load in appliances:
        if load.type not in COOKING and _counts_more(run, load, runs_long(load, job), job):
            job.step(f"{load.name}: {plate_current(load, job)} x {more}", plate_current(load, job) * more, "NFPA 70 210.20(A)")
    parts = _parts(run, appliances, lambda load: runs_long(load, job), job)
    needed = total_current(parts)
    if len(parts) > 1:
        job.step(" + ".join(map(str, parts)), needed, "NFPA 70 210.20(A)")
    if feeds_only_loads(run, job):
        return needed
    reserve = needed - total_current(_parts(run, appliances, lambda load: False, job))
    by_design = run.design_load + reserve
    job.step(f"design load {run.design_load} + {reserve} for what runs long", by_design, "NFPA 70 210.20(A)")
    job.step(f"the larger of {needed} and {by_design}", max(needed, by_design))
    return max(needed, by_design)


@fact
def breaker_carries_long_loads(run: Feeder | Circuit, job: Job) -> bool:
    """Whether its breaker is no smaller than what is needed for what runs long; known too where that is open in part.

    NFPA 70 210.20(A), 215.3.
    """
    breaker = breaker_rating(run, job)
    if isinstance(run, Circuit):
        appliances = loads_on(run, job)
        known = [load for load in appliances if load.type not in COOKING and _says_what_it_draws(load, job)]
        if not is_enough(breaker, _together(run, known, lambda load: _runs_long(load, job, otherwise=False), job), job):
            return False
        if feeds_only_loads(run, job):
            most = _together(run, appliances.whole(), lambda load: _runs_long(load, job, otherwise=True), job)
            if is_enough(breaker, most, job):
                return True
    return is_enough(breaker, breaker_needed(run, job), job)


def _says_what_it_draws(load: Load, job: Job) -> bool:
    try:
        plate_current(load, job)
    except (NotStated, OutOfTable):
        return False
    return True


def _runs_long(load: Load, job: Job, otherwise: bool) -> bool:
    """Whether it counts at 125 %; `otherwise` where the plan leaves that open."""
    try:
        return runs_long(load, job)
    except NotStated:
        return otherwise


def _together(circuit: Circuit, appliances: Sequence[Load], long: Callable[[Load], bool], job: Job) -> Current:
    return total_current(_parts(circuit, appliances, long, job))


def _parts(circuit: Circuit, appliances: Sequence[Load], long: Callable[[Load], bool], job: Job) -> list[Current]:
    """What each appliance asks of the breaker, and first what those for cooking ask together."""
    more: Percent = job.setting("current-needed.for-continuous")
    cooking = [load for load in appliances if load.type in COOKING]
    parts = [cooking_current(cooking, job)] if cooking else []
    for load in appliances:
        if load not in cooking:
            current = plate_current(load, job)
            parts.append(current * more if _counts_more(circuit, load, long(load), job) else current)
    return parts


def _counts_more(circuit: Circuit, load: Load, runs: bool, job: Job) -> bool:
    """Whether what runs long counts at 125 % here: not behind a breaker that is listed for its whole rating."""
    return runs and (load.type in job.setting("breaker-needed.never-in-full") or not circuit.full_rating)
