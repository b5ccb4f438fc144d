"""What the owner's own load form says, against what is worked out here."""

from collections.abc import Sequence

from planlint.facts.buildings import building_of, is_dwelling, loads
from planlint.facts.demand import COOKING, amperes, cooking_demand, demand, dryer_demand, nameplate, plain_demand, total
from planlint.facts.engine import Job, fact
from planlint.facts.load import least_load, load_amps, most_load
from planlint.facts.optional_load import climate_of
from planlint.facts.parts_served import line_volts, source, supply_of
from planlint.facts.standard_load import in_season, of_a_season
from planlint.facts.supplies import services
from planlint.plan.elements import Need, NotStated, does_not_arise, not_stated
from planlint.plan.members import Members, all_hold
from planlint.plan.outlets import Load
from planlint.plan.site import Building
from planlint.quantities import Current, Power


@fact
def service_load(building: Building, job: Job) -> Current:
    """What its service carries: its calculated load, with that of what is fed from it, over the line voltage.

    Not stated where services come from several supplies, each with a part of it. NFPA 70 220.40, 230.42.
    """
    _from_one_supply(building, job)
    return load_amps(building, job)


@fact
def least_service_load(building: Building, job: Job) -> Current:
    """The least that its service carries by the methods that a dwelling may take, where it names none. NFPA 70 220.40."""
    return _amps_of(least_load(building, job), building, job)


@fact
def most_service_load(building: Building, job: Job) -> Current:
    """The most that its service carries by the methods that a dwelling may take, where it names none. NFPA 70 220.40."""
    return _amps_of(most_load(building, job), building, job)


def _amps_of(load: Power, building: Building, job: Job) -> Current:
    _from_one_supply(building, job)
    volts = line_volts(supply_of(building, job))
    job.step(f"{load} / {volts}", amperes(load, volts, building))
    return amperes(load, volts, building)


def _from_one_supply(building: Building, job: Job) -> None:
    own = services(building, job)
    if not own.known and not own.gaps:
        does_not_arise(building, f"{building.name}: a service of its own")
    supplies = {id(head): head for run in own.whole() for head in (source(run.to, job),)}
    if len(supplies) > 1:
        names = ", ".join(head.name for head in supplies.values())
        not_stated(building, "services", f"{building.name}: what each of its supplies carries, {names}")


@fact
def form_amps(building: Building, job: Job) -> Current:
    """The total of the load form that is handed in, over the line voltage. NFPA 70 220.40."""
    if not building.states("load-handed-in") and "load-handed-in" not in building.unknown:
        does_not_arise(building, f"{building.name}: a load form that is handed in")
    volts = line_volts(supply_of(building, job))
    current = amperes(building.load_handed_in, volts, building)
    job.step(f"load form: {building.load_handed_in} / {volts}", current)
    return current


@fact
def form_total_suffices(building: Building, job: Job) -> bool:
    """Whether the total of the load form is what is worked out here, or more; a fraction under half an ampere may be missing.

    Yes where the plan says no total. NFPA 70 220.5(B), 220.40.
    """
    if not building.states("load-handed-in"):
        return True
    dropped: Current = job.setting("form-total-suffices.fraction-dropped")
    return form_amps(building, job) + dropped > load_amps(building, job)


@fact
def heats_or_cools(load: Load, job: Job) -> bool:
    """Whether it is heating or cooling in the load; a furnace or boiler that burns fuel has but a fan. NFPA 70 220.51, 220.60."""
    return of_a_season(load, job)


@fact
def climate_load(building: Building, job: Job) -> Power:
    """What heating or cooling adds to the load of a one-family dwelling by the method that the plan names.

    The larger of the two, heat pump and extra heat together; in the optional method each kind by its percentage. What a motor of
    theirs adds in the standard method is not in it. NFPA 70 220.51, 220.60, 220.82(C).
    """
    if not is_dwelling(building, job):
        does_not_arise(building, f"{building.name}: a dwelling")
    if building.use != "one-family" or building.load_method == "existing":
        not_stated(building, "load-method", f"{building.name}: how much of its load is heating or cooling")
    climate = [load for load in loads(building, job).whole() if of_a_season(load, job)]
    if building.load_method == "optional":
        return climate_of(climate, job)
    return total(plain_demand(load, job) for load in in_season(climate, job))


@fact
def climate_counted(building: Building, job: Job) -> Power:
    """What the load form counts for heating and cooling. Not stated while one of them leaves it out."""
    return _counted(building, loads(building, job).where(lambda load: of_a_season(load, job)).whole(), job)


@fact
def climate_counted_suffices(building: Building, job: Job) -> bool:
    """Whether the load form counts enough for heating and cooling, as far as the plan says what it counts.

    Yes where it says nothing of that; and where what it says of some of them is enough for all. NFPA 70 220.60, 220.82(C).
    """
    climate = loads(building, job).where(lambda load: of_a_season(load, job))
    stated = [load.counted for load in climate if load.states("counted")]
    if not stated:
        climate.whole()
        return True
    return total(stated) >= climate_load(building, job) or climate_counted(building, job) >= climate_load(building, job)


@fact
def sharing_demand(load: Load, job: Job) -> Members[Load]:
    """The appliances of its dwelling whose demand is worked out together with its own, itself among them.

    Cooking appliances over 1-3/4 kW, or dryers, in the standard method; otherwise itself alone. NFPA 70 220.54, 220.55.
    """
    home = building_of(load, job)
    alone: Members[Load] = Members((load,))
    if load.type not in (*COOKING, "dryer") or not is_dwelling(home, job) or home.load_method != "standard":
        return alone
    if load.type == "dryer":
        return alone.joined(loads(home, job).where(lambda one: one.type == "dryer"))
    if not _is_of_the_table(load, job):
        return alone
    return alone.joined(loads(home, job).where(lambda one: one.type in COOKING and _is_of_the_table(one, job)))


def _is_of_the_table(load: Load, job: Job) -> bool:
    return nameplate(load, job) > job.tables.demand_limit("range-over") * load.count


@fact
def demand_together(load: Load, job: Job) -> Power:
    """What it counts together with those that share its demand; alone, its own demand. NFPA 70 220.54, 220.55."""
    group = sharing_demand(load, job).whole()
    if len(group) == 1:
        return demand(load, job).shown_in("kW")
    together = dryer_demand(group, job) if load.type == "dryer" else cooking_demand(group, job)
    return together.shown_in("kW")


@fact
def counted_together(load: Load, job: Job) -> Power:
    """What the owner's load form counts for it and those that share its demand. Not stated while one of them leaves it out."""
    group = sharing_demand(load, job).whole()
    return _counted(load, group, job)


def _counted(owner: Building | Load, group: Sequence[Load], job: Job) -> Power:
    missing = tuple(Need(one, "counted") for one in group if not one.states("counted"))
    if len(missing) == len(group) and not any("counted" in one.unknown for one in group):
        does_not_arise(owner, f"{owner.name}: what a load form counts for it")
    if missing:
        raise NotStated(*missing)
    together = total(one.counted for one in group).shown_in("kW")
    if len(group) > 1:
        job.step("on the load form: " + " + ".join(f"{one.name} {one.counted}" for one in group), together)
    return together


@fact
def may_burn_gas(load: Load, job: Job) -> bool:
    """No where its plate is too much for the motor and lights of a dryer that burns gas; not stated otherwise.

    The table of dryers is for electric ones; a gas dryer counts its plate. NFPA 70 220.54.
    """
    if load.type == "dryer" and nameplate(load, job) <= job.setting("may-burn-gas.up-to") * load.count:
        not_stated(
            load, "type", f"{load.name}: whether it heats by gas, in which case it counts its plate; state that as type other"
        )
    return False


@fact
def charger_counted(building: Building, job: Job) -> bool:
    """Whether a car charger is among its loads, and each is counted in full on the load form as far as that says what it counts.

    NFPA 70 220.57 (2017, 2020: 220.14(A)).
    """
    chargers = loads(building, job).where(lambda load: load.type == "car-charger")
    return all_hold(
        lambda: chargers.some(lambda load: demand(load, job).amount > 0),
        lambda: not Members(chargers.known).some(lambda load: load.states("counted") and load.counted < demand(load, job)),
    )
