"""What each appliance takes by its plate, and what it counts in the load of its building: the tables for cooking and dryers."""

from collections.abc import Iterable, Sequence

from planlint.book.tables import OutOfTable
from planlint.facts.buildings import building_of, is_dwelling, loads
from planlint.facts.engine import Job, fact
from planlint.plan.elements import Element, not_stated
from planlint.plan.outlets import Load
from planlint.quantities import Current, Percent, Power, Voltage

COOKING = ("range", "oven", "cooktop")


def plate_current(load: Load, job: Job) -> Current:
    """Current that it draws by its plate, all of its `count`.

    The plate's amperes, its power over its volts, or for horsepower Table 430.248 (NFPA 70 430.6(A)): the largest of those that
    are stated. A car charger that is set down draws what it is set to.
    """
    each = _current_of_one(load, job)
    if load.count != 1:
        job.step(f"{load.count} x {each}", each * load.count)
    return each * load.count


@fact
def nameplate(load: Load, job: Job) -> Power:
    """Apparent power that it takes by its plate, all of its `count`."""
    each = plate_of_one(load, job)
    if load.count != 1:
        job.step(f"{load.count} x {each}", each * load.count)
    return each * load.count


@fact
def plate_of_one(load: Load, job: Job) -> Power:
    """Apparent power that one of them takes by its plate."""
    if load.states("rating") and not load.states("amps") and not has_horsepower(load) and not _is_set_down(load, job):
        return _apparent_power(load)
    current = _current_of_one(load, job)
    power = Power.of(current.within("A") * load.volts.within("V"), "VA")
    job.step(f"{current} x {load.volts}", power)
    return power


def _current_of_one(load: Load, job: Job) -> Current:
    if _is_set_down(load, job):
        job.step(f"{load.name} is set to", load.set_to, "NFPA 70 625.42")
        return load.set_to
    found: list[Current] = []
    if load.states("amps"):
        found.append(load.amps)
    if has_horsepower(load):
        found.append(job.tables.motor_current(load.horsepower, load.volts))
        job.step(f"{load.horsepower} at {load.volts}", found[-1], job.from_table("motor-current"))
    if load.states("rating") or not found:
        power = _apparent_power(load)
        found.append(amperes(power, load.volts, load))
        job.step(f"{power} / {load.volts}", found[-1])
    return max(found)


def has_horsepower(load: Load) -> bool:
    """Whether it states a horsepower; `horsepower none` is a plate that gives amperes only."""
    return load.states("horsepower") and load.horsepower.amount > 0


def _is_set_down(load: Load, job: Job) -> bool:
    """Whether it is a car charger that counts by what it is set to, and not by its plate. NFPA 70 625.42, from 2020 on."""
    if not load.states("set-to") and "set-to" not in load.unknown:
        return False
    return load.type == "car-charger" and job.setting("plate.may-be-set-down") and load.set_to.amount > 0


def amperes(power: Power, volts: Voltage, element: Element) -> Current:
    """Power over voltage. Raises NotStated for a voltage of zero, which is none."""
    if not volts.amount:
        not_stated(element, "volts", f"{element.name}: volts, which are not 0")
    return Current.of(power.within("VA") / volts.within("V"), "A")


@fact
def demand(load: Load, job: Job) -> Power:
    """What it counts in the load of its building by the method chosen there; heating and cooling are weighed afterwards.

    Cooking and dryers of a dwelling have their tables in the standard method: of several cooking appliances each has its share.
    Elsewhere the plate counts. NFPA 70 220.54, 220.55, 220.57, 220.82(B), 220.83.
    """
    if load.type not in (*COOKING, "dryer"):
        return plain_demand(load, job)
    home = building_of(load, job)
    if not is_dwelling(home, job) or home.load_method != "standard":
        return nameplate(load, job)
    alike = COOKING if load.type in COOKING else ("dryer",)
    group = [one for one in loads(home, job).whole() if one.type in alike]
    if load.type == "dryer":
        return dryer_demand([load], job, among=group)
    if not _is_of_the_table(load, job):
        return nameplate(load, job)
    group = [one for one in group if _is_of_the_table(one, job)]
    together, plates = cooking_demand(group, job), total(nameplate(one, job) for one in group)
    share = together * nameplate(load, job).over(plates)
    if len(group) > 1:
        job.step(f"its share: {together} x {nameplate(load, job)} / {plates}", share)
    return share


def plain_demand(load: Load, job: Job) -> Power:
    """What it counts where no table of demand is about it: its plate, of a car charger at least what the edition asks."""
    if load.type != "car-charger":
        return nameplate(load, job)
    least: Power = job.setting("demand.least-car-charger")
    counted = max(nameplate(load, job), least * load.count)
    if least.amount:
        job.step(f"the larger of {nameplate(load, job)} and {least * load.count}", counted, "NFPA 70 220.57")
    return counted


def plain_demands(appliances: Sequence[Load], job: Job) -> Power:
    """What they count together where no table of demand is about them."""
    counted = [(load.name, plain_demand(load, job)) for load in appliances]
    added = total(power for _, power in counted)
    if len(counted) > 1:
        job.step(" + ".join(f"{name} {power.shown_in('VA')}" for name, power in counted), added)
    return added


def cooking_demand(appliances: Iterable[Load], job: Job) -> Power:
    """Demand of household cooking appliances together; those up to 1-3/4 kW count their plates. NFPA 70 220.55."""
    of_table = [load for load in appliances if _is_of_the_table(load, job)]
    small = total(nameplate(load, job) for load in appliances if load not in of_table)
    ratings = [plate_of_one(load, job) for load in of_table for _ in range(load.count)]
    return small + cooking_of_ratings(ratings, job) if ratings else small


def cooking_of_ratings(ratings: Sequence[Power], job: Job) -> Power:
    """The least demand that the table and its notes 1 to 3 allow for cooking appliances of these ratings, each over 1-3/4 kW.

    Column C for all of them, or columns A and B for those up to 8-3/4 kW and column C for the rest. NFPA 70 Table 220.55.
    Raises OutOfTable for one of more than 27 kW.
    """
    limit = job.tables.demand_limit("column-b-to")
    small = [rating for rating in ratings if rating <= limit]
    large = [rating for rating in ratings if rating > limit]
    ways = [_by_columns_a_and_b(small, job) + _by_column_c(large, job)]
    if small and max(ratings) <= job.tables.demand_limit("column-c-to"):
        ways.append(_by_column_c(ratings, job))
        job.step("the lesser of the two", min(ways))
    return min(ways)


def _by_columns_a_and_b(ratings: Sequence[Power], job: Job) -> Power:
    """Note 3: plates by the percentage of their column, each column by its own number of appliances."""
    added = Power.of(0, "kW")
    limit = job.tables.demand_limit("column-a-below")
    for column, group in (("A", [r for r in ratings if r < limit]), ("B", [r for r in ratings if r >= limit])):
        if group:
            share = job.tables.range_share(len(group), column.lower())
            part = total(group) * share
            job.step(f"{len(group)} of column {column}: {total(group)} x {share}", part, job.from_table("range-demand"))
            added = added + part
    return added


def _by_column_c(ratings: Sequence[Power], job: Job) -> Power:
    """Column C, and 5 % more for each kilowatt (or the larger part of one) by which they are over 12 kW on the average."""
    if not ratings:
        return Power.of(0, "kW")
    base, most = job.tables.demand_limit("column-c-to"), job.tables.demand_limit("range-to")
    if max(ratings) > most:
        raise OutOfTable("Table 220.55", f"demand for a cooking appliance of {max(ratings)}; it ends at {most}")
    counted = job.tables.range_demand(len(ratings))
    number = f"{len(ratings)} appliance" if len(ratings) == 1 else f"{len(ratings)} appliances"
    job.step(f"{number} by column C", counted, job.from_table("range-demand"))
    average = total(max(rating, base) for rating in ratings) * (1 / len(ratings))
    over = int((average - base).within("kW") + 0.5 + 1e-9)  # half a kilowatt is the larger part
    if over:
        more = job.tables.demand_limit("range-increase") * over
        job.step(f"{average - base} over {base}: {counted} and {more} of it", counted * (1 + more.amount), "its notes 1 and 2")
        counted = counted * (1 + more.amount)
    return counted


def dryer_demand(dryers: Sequence[Load], job: Job, among: Sequence[Load] = ()) -> Power:
    """Demand of electric clothes dryers, `among` those of one dwelling: each at least 5 kW. NFPA 70 220.54."""
    counted = total(max(nameplate(one, job), job.tables.demand_limit("dryer-at-least") * one.count) for one in dryers)
    number = sum(one.count for one in among or dryers)
    if not number:
        return counted
    share: Percent = job.tables.dryer_share(number)
    job.step(f"dryers, each at least {job.tables.demand_limit('dryer-at-least')}: {counted} x {share}", counted * share,
             job.from_table("dryer-demand"))  # fmt: skip
    return counted * share


def _is_of_the_table(load: Load, job: Job) -> bool:
    return plate_of_one(load, job) > job.tables.demand_limit("range-over")


def _apparent_power(load: Load) -> Power:
    """The plate's power, watts over the power factor where one is stated."""
    if load.rating.unit == "hp":
        not_stated(load, "horsepower", f"{load.name}: horsepower, because what a motor gives is not what it takes")
    if load.rating.unit in ("W", "kW") and (load.states("power-factor") or "power-factor" in load.unknown):
        if not load.power_factor.amount:
            not_stated(load, "power-factor", f"{load.name}: power-factor, which is not 0")
        return load.rating * (1 / load.power_factor.amount)
    return load.rating


def is_enough(limit: Current, load: Current, job: Job) -> bool:
    """Whether a calculated load is within a limit; a fraction of less than half an ampere may be dropped. NFPA 70 220.5(B)."""
    dropped: Current = job.setting("is-enough.fraction-dropped")
    return limit + dropped > load


def total(powers: Iterable[Power]) -> Power:
    """The sum; nothing is 0 VA."""
    added = Power.of(0, "VA")
    for power in powers:
        added = added + power
    return added


def total_current(currents: Iterable[Current]) -> Current:
    """The sum; nothing is 0 A."""
    added = Current.of(0, "A")
    for current in currents:
        added = added + current
    return added
