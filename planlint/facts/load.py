"""What services, feeders, panels and buildings carry, in volt-amperes and amperes, with what runs long and with what may come."""

import math
from collections.abc import Callable, Iterator

from planlint.book.tables import OutOfTable
from planlint.facts.building_load import connected_load, general_lighting, load_at, own_load
from planlint.facts.buildings import is_dwelling, loads
from planlint.facts.circuit_load import current_of_circuit, is_continuous, loads_on, outlet_load
from planlint.facts.circuit_needs import current_needed_by_circuit, runs_long
from planlint.facts.demand import amperes, plain_demand, plate_current, total, total_current
from planlint.facts.engine import Job, fact
from planlint.facts.parts_served import by_building, line_volts, others_served, parts_served, source, source_of, supply_of
from planlint.facts.standard_load import standard_of
from planlint.facts.supplies import service_disconnects, supply_runs
from planlint.facts.wires import breaker_or_fuses
from planlint.plan.elements import does_not_arise, not_stated
from planlint.plan.gear import Disconnect, Meter, Panel, Supply, TransferSwitch
from planlint.plan.members import Members
from planlint.plan.outlets import Load
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.plan.site import Building
from planlint.quantities import TOLERANCE, Current, Percent, Power


@fact
def load_served(gear: Meter | Disconnect | Panel | TransferSwitch, job: Job) -> Power:
    """Calculated load of what it carries. NFPA 70 220.40."""
    return _load_of(parts_served(gear, job).whole(), job)


@fact
def calculated_load(building: Building, job: Job) -> Power:
    """Load of the building and of the outbuildings that are fed from it: a dwelling's by the method that the plan names.

    An outbuilding is no part of the dwelling and counts whole. NFPA 70 220.40, 220 Part III, 220.82.
    """
    return _load_of(_with_others(building, job), job)


def _with_others(building: Building, job: Job) -> tuple[Building | Circuit, ...]:
    others: Members[Building | Circuit] = Members(())
    for run in supply_runs(building, job).whole():
        if not isinstance(run, Circuit):
            others = others.joined(others_served(run.to, job))
    return (building, *others.whole())


@fact
def least_load(building: Building, job: Job) -> Power:
    """Calculated load by the lawful methods that give the least, where a dwelling names none. NFPA 70 220.40, 220.82, 220.83."""
    return _load_of(_with_others(building, job), job, lambda part: load_at(min, part, job))


@fact
def most_load(building: Building, job: Job) -> Power:
    """Calculated load by the lawful methods that give the most, where a dwelling names none. NFPA 70 220.40, 220 Part III."""
    return _load_of(_with_others(building, job), job, lambda part: load_at(max, part, job))


def _load_of(parts: tuple[Building | Circuit, ...], job: Job, of: Callable[[Building], Power] | None = None) -> Power:
    """Buildings by their own load; single circuits of a dwelling by the standard method, for no other one is for parts."""
    counted = [(part.name, of(part) if of else own_load(part, job)) for part in parts if isinstance(part, Building)]
    for home, circuits in by_building(parts, job):
        appliances = [load for circuit in circuits for load in loads_on(circuit, job).whole()]
        if is_dwelling(home, job):
            lighting = total(outlet_load(circuit, job) for circuit in circuits)
            counted.append(("single circuits", standard_of(lighting, appliances, job)))
        else:
            counted.append(("single circuits", connected_load(appliances, circuits, job)))
    load = total(power for _, power in counted)
    job.step(" + ".join(f"{name} {power}" for name, power in counted), load, "NFPA 70 220.40")
    return load


@fact
def load_current(owner: Service | Feeder | Circuit | Load, job: Job) -> Current:
    """What it carries, nothing added for what runs long.

    A service or feeder: the calculated load behind it over the line voltage; one that starts at a generator or another source of
    the house's own: what that gives. A circuit: its design load; without one the plates
    of what it feeds, where that is appliances only. A load: its plate. Not stated otherwise; a breaker's rating is no load.
    NFPA 70 220.
    """
    if isinstance(owner, Load):
        return plate_current(owner, job)
    if isinstance(owner, Circuit):
        return current_of_circuit(owner, job)
    return _current_of_run(owner, job)


def _current_of_run(run: Service | Feeder, job: Job) -> Current:
    head = source_of(run, job)
    if head.type != "utility":
        return _most_of(head)
    load, volts = load_served(run.to, job), line_volts(source(run.to, job))
    job.step(f"{load} / {volts}", amperes(load, volts, run))
    return amperes(load, volts, run)


@fact
def current_needed(run: Service | Feeder | Circuit, job: Job) -> Current:
    """What its wires and breaker must be good for: the load, with its continuous part at 125 %.

    Of a service or feeder: what runs long outside a dwelling. A dwelling's load comes from Part III or 220.82, which have it in
    their percentages; electric heat counts at 100 % there and in other buildings, and so does what a breaker that is listed for
    its whole rating feeds. NFPA 70 210.19(A), 210.20(A), 215.2(A), 215.3, 220.51, 230.42(A).
    """
    if isinstance(run, Circuit):
        return current_needed_by_circuit(run, job)
    if source_of(run, job).type != "utility":
        return load_current(run, job)
    long = total(plain_demand(load, job) for load in _running_long(run, job))
    volts = line_volts(source(run.to, job))
    plain = load_current(run, job)
    share: Percent = job.setting("current-needed.for-continuous")
    extra, part = Percent.of(share.within("%") - 100, "%"), amperes(long, volts, run)
    if part.amount:
        job.step(f"{plain} + {extra} x {part} that run long", plain + part * extra, "NFPA 70 215.2(A), 230.42(A)")
    return plain + part * extra


def _running_long(run: Service | Feeder, job: Job) -> Iterator[Load]:
    heat, in_full = job.setting("current-needed.heat"), isinstance(run, Feeder) and run.full_rating
    never_in_full = job.setting("breaker-needed.never-in-full")
    for part in parts_served(run.to, job).whole():
        if isinstance(part, Building) and is_dwelling(part, job):
            continue
        appliances = loads(part, job) if isinstance(part, Building) else loads_on(part, job)
        counted = [load for load in appliances.whole() if load.type in never_in_full or not in_full]
        yield from (load for load in counted if load.type not in heat and is_continuous(load, job))


@fact
def has_continuous_load(run: Feeder | Circuit, job: Job) -> bool:
    """Whether something that it feeds runs three hours or more on end; on a circuit a water heater's tank counts so too.

    NFPA 70 article 100, 422.13.
    """
    if isinstance(run, Circuit):
        return loads_on(run, job).some(lambda load: runs_long(load, job))
    served = parts_served(run.to, job)
    appliances: Members[Load] = Members((), served.gaps)
    for part in served:
        appliances = appliances.joined(loads(part, job) if isinstance(part, Building) else loads_on(part, job))
    return appliances.some(lambda load: is_continuous(load, job))


@fact
def load_amps(owner: Building | Panel, job: Job) -> Current:
    """Calculated load over the line voltage; of a panel, that of what it feeds. NFPA 70 220.40."""
    if isinstance(owner, Panel):
        load, volts = load_served(owner, job), line_volts(source(owner, job))
    else:
        load, volts = calculated_load(owner, job), line_volts(supply_of(owner, job))
    job.step(f"{load} / {volts}", amperes(load, volts, owner))
    return amperes(load, volts, owner)


@fact
def lighting_circuits_needed(building: Building, job: Job) -> int:
    """How many circuits its general lighting asks for at the least. NFPA 70 210.11(A)."""
    supply = supply_of(building, job)
    volts = supply.volts.to_neutral or supply.volts.line
    breaker: Current = job.setting("lighting-circuits-needed.breaker")
    current = amperes(general_lighting(building, job), volts, supply)
    number = math.ceil(current.over(breaker) - TOLERANCE)
    job.step(f"{general_lighting(building, job)} / {volts} = {current}, / {breaker}, rounded up", number, "NFPA 70 210.11(A)")
    larger: Current = job.setting("lighting-circuits-needed.larger-breaker")
    job.step(f"or of {larger}: {current} / {larger}, rounded up", math.ceil(current.over(larger) - TOLERANCE))
    return number


@fact
def service_rating(building: Building, job: Job) -> Current:
    """Rating of its service: the breakers or fuses of its service disconnects, added. NFPA 70 230.79, 230.80."""
    ratings = [main_rating(gear, job) for gear in service_disconnects(building, job).whole()]
    if not ratings:
        if any(not isinstance(run, Service) for run in supply_runs(building, job).whole()):
            does_not_arise(building, f"{building.name}: a building that a service ends at, not a feeder or a circuit")
        not_stated(building, "service-disconnects", f"which breaker or fuses are the service disconnect of {building.name}")
    job.step(" + ".join(map(str, ratings)), total_current(ratings), "NFPA 70 230.79, 230.80")
    return total_current(ratings)


@fact
def next_rating(building: Building, job: Job) -> Current:
    """The smallest standard rating that covers the calculated load, at its least where no method is named.

    NFPA 70 240.6(A). Not stated past the table's end.
    """
    needed = amperes(least_load(building, job), line_volts(supply_of(building, job)), building)
    fitting = [rating for rating in job.tables.standard_ratings(job.edition) if rating >= needed]
    if not fitting:
        raise OutOfTable("Table 240.6(A)", f"rating for {needed}")
    job.step(f"the next standard rating above {needed}", fitting[0], job.from_table("standard-ratings"))
    return fitting[0]


def main_rating(gear: Disconnect | Panel | TransferSwitch, job: Job) -> Current:
    """Its breaker or fuses. Raises NotStated for lugs, through which several mains may lead."""
    if isinstance(gear, Panel):
        if isinstance(gear.main, Current):
            return gear.main
        not_stated(gear, "main", f"{gear.name}: main, because lugs have no rating that holds a load down")
    if isinstance(gear, Disconnect):
        return breaker_or_fuses(gear)
    return gear.rating


def _most_of(supply: Supply) -> Current:
    """The most that a generator, solar or battery supply gives."""
    return supply.rating if isinstance(supply.rating, Current) else amperes(supply.rating, line_volts(supply), supply)
