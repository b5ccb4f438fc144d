"""Whether the wires of a service or feeder carry the calculated load behind them."""

from planlint.facts.ampacity import Range, allowed_in_cable, at_terminals, carried, corrected
from planlint.facts.demand import is_enough
from planlint.facts.dwelling_supply import carries_whole_dwelling, reduction_in_range
from planlint.facts.engine import Job, fact
from planlint.facts.load import current_needed, load_current
from planlint.facts.overcurrent import uses_reduction
from planlint.facts.wires import breaker_rating, hot_size
from planlint.plan.members import all_hold
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Current, Percent


@fact
def wires_hold_load(run: Service | Feeder, job: Job) -> bool:
    """Whether its hot wires carry the load: at the terminals with what runs long at 125 %, and after heat and company without.

    The whole supply of one dwelling may have wires for 83 % of its breaker instead. Known too where the plan leaves heat or
    terminals open, as long as that makes no difference. NFPA 70 215.2(A), 230.42(A), 310.12 (2017: 310.15(B)(7)).
    """
    return not all_hold(lambda: not _by_load(run, job), lambda: not _by_reduction(run, job))


@fact
def judged_by_reduction(run: Service | Feeder | Circuit, job: Job) -> bool:
    """Whether the reduction for a dwelling's whole supply is what its wires rest on: for their breaker, or for their load.

    They are too small for the breaker but for it, which is judged where it is misused; or they are that whole supply and reach
    83 % of the breaker, which is all that is asked of them. NFPA 70 310.12 (2017: 310.15(B)(7)).
    """
    return uses_reduction(run, job) or (not isinstance(run, Circuit) and _by_reduction(run, job))


def _by_load(run: Service | Feeder, job: Job) -> bool:
    needed, plain, size = current_needed(run, job), load_current(run, job), hot_size(run, job)
    terminals, heat, cable = at_terminals(run, size, job), corrected(run, size, job), allowed_in_cable(run, size, job)
    job.step(
        f"{size}: {_words(terminals)} at its terminals against {needed} with what runs long at 125 %", "", "NFPA 70 215.2(A)"
    )
    job.step(f"{_words(heat)} after heat and number, {_words(cable)} in its cable, against {plain}", "", "NFPA 70 215.2(A)")
    return all_hold(
        lambda: _is_enough(terminals, needed, job), lambda: _is_enough(heat, plain, job), lambda: _is_enough(cable, plain, job)
    )


def _words(limit: Range) -> str:
    return str(limit.low) if limit.low == limit.high else f"{limit.low} to {limit.high}"


def _is_enough(limit: Range, load: Current, job: Job) -> bool:
    if is_enough(limit.low, load, job) or not is_enough(limit.high, load, job):
        return is_enough(limit.low, load, job)
    return is_enough(limit.exact, load, job)


def _reaches(limit: Range, wanted: Current) -> bool:
    if limit.low >= wanted or limit.high < wanted:
        return limit.low >= wanted
    return limit.exact >= wanted


def _by_reduction(run: Service | Feeder, job: Job) -> bool:
    share: Percent = job.setting("uses-reduction.share")
    return all_hold(
        lambda: reduction_in_range(run, job),
        lambda: _reaches(carried(run, hot_size(run, job), job), breaker_rating(run, job) * share),
        lambda: carries_whole_dwelling(run, job),
    )
