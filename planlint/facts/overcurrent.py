"""Breakers and fuses against the wires that they protect, and the smallest wire that would do."""

from collections.abc import Callable

from planlint.book.tables import OutOfTable
from planlint.facts.ampacity import ampacity, carried
from planlint.facts.demand import is_enough
from planlint.facts.dwelling_supply import carries_whole_dwelling, reduction_in_range
from planlint.facts.engine import Job, fact
from planlint.facts.load import current_needed
from planlint.facts.motors import sized_by_motor_rules
from planlint.facts.outlet_volts import is_low_voltage
from planlint.facts.wires import Wired, breaker_rating, hot_size, hot_wires
from planlint.plan.elements import NotStated, does_not_arise
from planlint.plan.gear import Panel, Supply
from planlint.plan.outlets import Receptacles
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Current, Percent
from planlint.trade import WireSize


@fact
def next_size_up_allowed(run: Service | Feeder | Circuit, job: Job) -> bool:
    """Whether the breaker may be the next standard size above the ampacity: up to 800 A, and not for several receptacles.

    NFPA 70 240.4(B). A duplex receptacle is two; what is wired in or has a single receptacle is not meant.
    """
    if breaker_rating(run, job) > job.setting("next-size-up-allowed.up-to"):
        return False
    if not isinstance(run, Circuit):
        return True
    receptacles = job.graph.those(Receptacles, "circuit", run)
    return not (len(receptacles.known) > 1 or receptacles.some(lambda each: each.count > 1 or not each.single))


@fact
def largest_breaker(run: Service | Feeder | Circuit, job: Job) -> Current:
    """The largest breaker for its ampacity: that standard rating, or the next above where that is allowed.

    NFPA 70 240.4(B), 240.6(A).
    """
    carries = ampacity(run, job)
    below, above = _standard_beside(carries, job)
    if below == carries or not next_size_up_allowed(run, job):
        job.step(f"largest standard rating not above {carries}", below, job.from_table("standard-ratings"))
        return below
    job.step(f"next standard rating above {carries}", above, f"NFPA 70 240.4(B), {job.from_table('standard-ratings')}")
    return above


@fact
def breaker_allowed(run: Service | Feeder | Circuit, job: Job) -> str:
    """The largest breaker for its ampacity, in words: none where the smallest standard rating is too large. NFPA 70 240.6(A)."""
    largest = largest_breaker(run, job)
    return largest.show() if largest.amount else f"none, for the smallest is {job.tables.standard_ratings(job.edition)[0]}"


@fact
def breaker_fits(run: Service | Feeder | Circuit, job: Job) -> bool:
    """Whether its breaker is no larger than its wires may have; known too where the plan leaves that open in part.

    NFPA 70 240.4(B), 240.6(A).
    """
    breaker, carries = breaker_rating(run, job), carried(run, hot_size(run, job), job)
    if breaker <= carries.low:
        return True
    if breaker > _standard_beside(carries.high, job)[1]:
        return False
    return breaker <= largest_breaker(run, job)


def _standard_beside(carries: Current, job: Job) -> tuple[Current, Current]:
    """The standard ratings next to an ampacity, itself if it is one; 0 A where none is below it, itself where none is above."""
    ratings = job.tables.standard_ratings(job.edition)
    below = [rating for rating in ratings if rating <= carries]
    above = [rating for rating in ratings if rating >= carries]
    return below[-1] if below else Current.of(0, "A"), above[0] if above else carries


@fact
def has_small_wire(circuit: Circuit, job: Job) -> bool:
    """Whether its hot wire is one of the small sizes that have a largest breaker of their own; not bell and thermostat wires.

    NFPA 70 240.4(D).
    """
    return not is_low_voltage(circuit, job) and _small_limit(hot_size(circuit, job), job) is not None


@fact
def small_wire_limit(circuit: Circuit, job: Job) -> Current:
    """The largest breaker on its small wire, whatever the table of ampacities says.

    NFPA 70 240.4(D).
    """
    size = hot_size(circuit, job)
    limit = _small_limit(size, job)
    if limit is None:
        does_not_arise(circuit, f"{circuit.name}: one of the small sizes that 240.4(D) limits, not {size}")
    job.step(f"breaker on {size} at most", limit, job.from_table("small-conductors"))
    return limit


def _small_limit(size: WireSize, job: Job) -> Current | None:
    try:
        return job.tables.small_conductor_limit(size, job.edition)
    except OutOfTable:
        return None


@fact
def uses_reduction(run: Service | Feeder | Circuit, job: Job) -> bool:
    """Whether its wires are too small for its breaker but for the reduction that holds for a dwelling's whole supply.

    NFPA 70 310.12 (2017: 310.15(B)(7)). Whether the reduction may be used is another question. The utility's own wires follow
    its own rules.
    """
    if isinstance(run, Circuit) or (isinstance(run, Service) and run.owner == "utility"):
        return False
    breaker = breaker_rating(run, job)
    share: Percent = job.setting("uses-reduction.share")
    if breaker_fits(run, job):
        return False
    job.step(f"{share} x {breaker}", breaker * share, "NFPA 70 310.12 (2017: 310.15(B)(7))")
    return ampacity(run, job) >= breaker * share


@fact
def breaker_may_stand(run: Service, job: Job) -> bool:
    """Whether the breaker at its end may stand on its wires: by their ampacity, by the next standard size, or by the reduction.

    NFPA 70 230.90(A), 240.4(B), 310.12 (2017: 310.15(B)(7)).
    """
    if breaker_fits(run, job):
        return True
    return uses_reduction(run, job) and reduction_in_range(run, job) and carries_whole_dwelling(run, job)


@fact
def smallest_hot(run: Service | Feeder | Circuit, job: Job) -> WireSize:
    """The smallest size of the same metal that could take the place of its hot wires, by ampacity, breaker and load.

    NFPA 70 Table 310.16 (2017: 310.15(B)(16)), 240.4, 310.12.
    """
    return _first_size(run, lambda size: _would_do(run, size, job), job)


@fact
def size_to_pull(run: Service | Feeder | Circuit, job: Job) -> WireSize:
    """The smallest size of the same metal that does for certain; where the load isn't stated, one that carries the breaker.

    NFPA 70 Table 310.16 (2017: 310.15(B)(16)), 240.4, 310.12.
    """

    def does(size: WireSize) -> bool:
        try:
            return _would_do(run, size, job)
        except NotStated:
            return False

    return _first_size(run, does, job)


def _first_size(run: Wired, does: Callable[[WireSize], bool], job: Job) -> WireSize:
    metal = hot_size(run, job).metal
    below: WireSize | None = None
    for size in job.tables.sizes_up(metal):
        if does(size):
            if below is not None:
                job.step(f"{below} would carry {carried(run, below, job).high}, and is too small", "", job.from_table("ampacity"))
            job.step(f"{size} carries {carried(run, size, job).low}, and does", size, job.from_table("ampacity"))
            return size
        below = size
    raise OutOfTable("the table of ampacities", f"{metal} wire large enough for {run.name}")


@fact
def smallest_for_breaker(run: Service | Feeder | Circuit, job: Job) -> WireSize:
    """The smallest size of the same metal that its breaker would ask for if no motor or cooling unit allowed a larger breaker.

    NFPA 70 Table 310.16 (2017: 310.15(B)(16)), 240.4.
    """
    return _first_size(run, lambda size: _is_protected(run, size, job), job)


def _would_do(run: Wired, size: WireSize, job: Job) -> bool:
    if isinstance(run, Circuit) and sized_by_motor_rules(run, job):
        return carried(run, size, job).exact >= current_needed(run, job)
    return _is_protected(run, size, job)


def _is_protected(run: Wired, size: WireSize, job: Job) -> bool:
    found = carried(run, size, job)
    breaker, limit = breaker_rating(run, job), _small_limit(size, job)
    if limit is not None and limit < breaker:
        return False
    if found.low >= breaker:
        return True
    if _standard_beside(found.high, job)[1] >= breaker and next_size_up_allowed(run, job):
        return _standard_beside(found.exact, job)[1] >= breaker and is_enough(found.exact, current_needed(run, job), job)
    reduced = breaker * job.setting("uses-reduction.share")
    if (
        isinstance(run, Circuit)
        or found.high < reduced
        or not (carries_whole_dwelling(run, job) and reduction_in_range(run, job))
    ):
        return False
    return found.exact >= reduced and is_enough(found.exact, current_needed(run, job), job)


@fact
def breaker_ahead(panel: Panel, job: Job) -> Current:
    """The breaker or fuses that protect its bus: its main, or those of the run that feeds it, whichever protect it better.

    NFPA 70 408.36.
    """
    if isinstance(panel.main, Current) and panel.main <= panel.bus:
        return panel.main
    ahead = breaker_rating(job.graph.feed(panel), job)
    return min(panel.main, ahead) if isinstance(panel.main, Current) else ahead


@fact
def poles_used(panel: Panel, job: Job) -> int:
    """Poles of its breakers: circuits, feeders that leave it, and sources that feed back into it; its main doesn't count.

    NFPA 70 408.54.
    """
    circuits = sum(circuit.poles for circuit in job.graph.those(Circuit, "panel", panel).whole())
    leaving = job.graph.those(Feeder, "from", panel).whole()
    back = [feeder for feeder in job.graph.those(Feeder, "to", panel).whole() if _comes_from_another_source(feeder)]
    feeders = sum(hot_wires(feeder, job).count for feeder in (*leaving, *back))
    job.step(f"{circuits} of circuits and {feeders} of feeders", circuits + feeders, "NFPA 70 408.54")
    return circuits + feeders


def _comes_from_another_source(feeder: Feeder) -> bool:
    return isinstance(feeder.from_, Supply) and feeder.from_.type != "utility"
