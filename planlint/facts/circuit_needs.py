"""What a circuit's wire and breaker must be good for: all that it feeds, with what runs long and the largest motor at 125 %."""

from collections.abc import Callable, Iterable, Sequence

from planlint.book.tables import OutOfTable
from planlint.facts.circuit_load import feeds_only_loads, is_continuous, loads_on
from planlint.facts.demand import (
    COOKING,
    cooking_of_ratings,
    is_enough,
    nameplate,
    plate_current,
    plate_of_one,
    total,
    total_current,
)
from planlint.facts.engine import Job, fact
from planlint.plan.elements import NotStated
from planlint.plan.members import Members, all_hold
from planlint.plan.outlets import Load
from planlint.plan.runs import Circuit
from planlint.quantities import Current, Percent, Power

RunsLong = Callable[[Load], bool]
CLAUSES = {
    "water-heater": "NFPA 70 422.13",
    "car-charger": "NFPA 70 625.41, 625.42",
    "space-heat": "NFPA 70 424.4(B) (2017: 424.3(B))",
}


def current_needed_by_circuit(circuit: Circuit, job: Job) -> Current:
    """What its wire and breaker must be good for: the load with its continuous part at 125 %, and so its largest motor.

    Household cooking by the note to its table, equipment with a marked minimum circuit ampacity by that mark.
    NFPA 70 210.19(A), 210.20(A), 220.55 note 4, 422.13, 424.4(B) (2017: 424.3(B)), 430.22, 430.24, 440.33, 625.41.
    """
    appliances = loads_on(circuit, job).whole()
    needed = needed_together(appliances, job)
    if feeds_only_loads(circuit, job):
        return needed
    plain = total_current(plate_current(load, job) for load in appliances)
    by_design = circuit.design_load + max(needed - plain, Current.of(0, "A"))
    job.step(f"the larger of {needed} and, by the design load, {by_design}", max(needed, by_design))
    return max(needed, by_design)


@fact
def circuit_needed(load: Load, job: Job) -> Current:
    """What the breaker of its circuit must be good for: all appliances stated on it, with what runs long at 125 %.

    A range of 8-3/4 kW or more asks for 40 A at the least. NFPA 70 210.19(A)(3) (2023: 210.19(C)), 210.20(A), 220.55 note 4,
    422.13, 424.4(B) (2017: 424.3(B)), 625.41.
    """
    needed = needed_together(loads_on(load.circuit, job).whole(), job)
    if _is_large_range(load, job):
        least: Current = job.setting("circuit-needed.least-for-range")
        job.step(f"the larger of {needed} and {least} for a range of {nameplate(load, job)}", max(needed, least),
                 "NFPA 70 210.19(A)(3) (2023: 210.19(C))")  # fmt: skip
        return max(needed, least)
    return needed


@fact
def circuit_large_enough(load: Load, job: Job) -> bool:
    """Whether its breaker is no smaller than what is needed; known too where the plan leaves that open in part."""
    breaker = load.circuit.breaker
    return all_hold(
        lambda: not _is_large_range(load, job) or breaker >= job.setting("circuit-needed.least-for-range"),
        lambda: suffices(breaker, breaker, lambda: breaker, loads_on(load.circuit, job), job, by_load=True),
    )


def _is_large_range(load: Load, job: Job) -> bool:
    return load.type == "range" and nameplate(load, job) >= job.setting("circuit-needed.range-from")


def suffices(
    low: Current, high: Current, exact: Callable[[], Current], appliances: Members[Load], job: Job, by_load: bool = False
) -> bool:
    """Whether what a wire or breaker carries, between low and high, is enough for appliances that may not be known in full.

    `by_load`: it goes by the calculated load, of which a fraction of an ampere may be dropped (NFPA 70 220.5(B)); motor rules
    and plates have no such thing.

    No as soon as those that are known ask for more than `high`, whatever may come; yes where `low` is enough whatever runs long.
    """
    least = least_needed(appliances.known, job)
    if high < least and not (by_load and is_enough(high, least, job)):
        return False
    if low >= total_current([cooking_current(appliances.whole(), job), *_each(appliances.whole(), job, _or(True, job))]):
        return True
    needed = needed_together(appliances.whole(), job)
    return exact() >= needed or (by_load and not appliances.some(_is_marked(job)) and is_enough(exact(), needed, job))


def _is_marked(job: Job) -> RunsLong:
    """Whether its plate says what its wires must carry, of which no fraction may be dropped."""
    return lambda load: load.type in job.setting("current-needed.marked") or load.states("nameplate-ampacity")


def least_drawn(appliances: Sequence[Load], job: Job) -> Current:
    """What they take at the least, as far as it is stated: their plates. Of cooking the table may come to less."""
    added = Current.of(0, "A")
    for load in appliances:
        try:
            if load.type not in COOKING:
                added = added + plate_current(load, job)
        except (NotStated, OutOfTable):
            continue
    return added


def least_needed(appliances: Sequence[Load], job: Job) -> Current:
    """What a wire must carry for them at the least, as far as it is stated; further loads can only add to it.

    What runs long for certain counts at 125 %, and so does the largest motor of those that are known. Of cooking the table may
    come to less.
    """
    found: list[Load] = []
    for load in appliances:
        try:
            if load.type not in COOKING and _each([load], job, _or(False, job)) and plate_of_one(load, job):
                found.append(load)
        except (NotStated, OutOfTable):
            continue
    return max(total_current(_each(found, job, _or(False, job))), least_drawn(appliances, job))


def _or(answer: bool, job: Job) -> RunsLong:
    """Whether a load runs long; the answer given where that is open."""

    def long(load: Load) -> bool:
        try:
            return runs_long(load, job)
        except NotStated:
            return answer

    return long


def needed_together(appliances: Sequence[Load], job: Job) -> Current:
    """What a wire must carry for all of them: its working line by line. Raises NotStated."""
    parts = [cooking_current(appliances, job), *_each(appliances, job, lambda load: runs_long(load, job))]
    needed = total_current(parts)
    if len(appliances) > 1:
        job.step(" + ".join(str(part) for part in parts if part.amount), needed, "NFPA 70 210.19(A), 210.20(A), 430.24")
    return needed


def runs_long(load: Load, job: Job) -> bool:
    """Whether it counts at 125 % in its branch circuit.

    A water heater with a tank does, however long it heats (NFPA 70 422.13); one without a tank only where the plan says that it
    runs three hours on end. Everything else as it is continuous or not.
    """
    if load.type == "water-heater":
        said = load.states("continuous") or "continuous" in load.unknown
        return not load.tankless or (said and load.continuous)
    return is_continuous(load, job)


def _each(appliances: Iterable[Load], job: Job, long: RunsLong) -> list[Current]:
    """What each asks for that isn't for cooking."""
    others = [load for load in appliances if load.type not in COOKING]
    marked = [load for load in others if load.type in job.setting("current-needed.marked")]
    driven = [load for load in others if load not in marked and load.type in job.setting("own-load.motors")]
    largest = driven[0] if len(driven) == 1 else max(driven, key=lambda load: plate_of_one(load, job).amount, default=None)
    needed = {id(load): _plain_need(load, load is largest or (load not in driven and long(load)), job)
              for load in others if load not in marked}  # fmt: skip
    heat = total_current(needed[id(load)] for load in others if load.type in job.setting("current-needed.part-of-a-unit"))
    for load in others:
        if load in marked or load.states("nameplate-ampacity"):
            mark = load.nameplate_ampacity * load.count
            job.step(f"{load.name}: minimum circuit ampacity on its plate", mark, "NFPA 70 440.4(B)")
            inside = heat if load not in marked and load.type in job.setting("current-needed.units") else Current.of(0, "A")
            needed[id(load)] = max(needed.get(id(load), mark), mark - inside)
    return [needed[id(load)] for load in others]


def _plain_need(load: Load, more: bool, job: Job) -> Current:
    current = plate_current(load, job)
    if not more:
        return current
    share: Percent = job.setting("current-needed.for-continuous")
    if load.type in job.setting("own-load.motors"):
        each = current * (1 / load.count)
        others = f" + {load.count - 1} more of them" if load.count > 1 else ""
        job.step(f"{load.name}: {share} x {each}{others}", current - each + each * share, "NFPA 70 430.22, 430.24")
        return current - each + each * share
    kind = "space-heat" if load.type in job.setting("current-needed.heat") else load.type
    job.step(
        f"{load.name}: {share} x {current}",
        current * share,
        CLAUSES.get(kind, "NFPA 70 210.19(A), 210.20(A)"),
    )
    return current * share


def cooking_current(appliances: Iterable[Load], job: Job) -> Current:
    """One range by the table; an oven or a cooktop by its plate; a cooktop with one or two ovens as one range of their sum."""
    cooking = [load for load in appliances if load.type in COOKING]
    plain = total_current(plate_current(load, job) for load in cooking)
    if not cooking:
        return plain
    tops, ovens = (sum(load.count for load in cooking if load.type == type_) for type_ in ("cooktop", "oven"))
    ranges = sum(load.count for load in cooking if load.type == "range")
    plates: Power = total(nameplate(load, job) for load in cooking)
    as_one_range = (ranges == 1 and not tops + ovens) or (not ranges and tops == 1 and 1 <= ovens <= 2)
    if not as_one_range or plates <= job.tables.demand_limit("range-over"):
        return plain
    counted = cooking_of_ratings([plates], job)
    job.step(f"cooking counts {counted} of {plates}", plain * counted.over(plates), "NFPA 70 220.55 note 4")
    return plain * counted.over(plates)
