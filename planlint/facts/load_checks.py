"""What the owner's own load form says, against what is worked out here."""

from planlint.facts.buildings import building_of, is_dwelling, loads
from planlint.facts.demand import COOKING, amperes, cooking_demand, demand, dryer_demand, nameplate, total
from planlint.facts.engine import Job, fact
from planlint.facts.load import load_amps
from planlint.facts.parts_served import line_volts, source, supply_of
from planlint.facts.supplies import services
from planlint.plan.elements import Need, NotStated, not_stated
from planlint.plan.members import Members, all_hold
from planlint.plan.outlets import Load
from planlint.plan.site import Building
from planlint.quantities import Current, Power


@fact
def service_load(building: Building, job: Job) -> Current:
    """What its service carries: its calculated load, with that of what is fed from it, over the line voltage.

    Not stated where services come from several supplies, each with a part of it. NFPA 70 220.40, 230.42.
    """
    supplies = {id(head): head for run in services(building, job).whole() for head in (source(run.to, job),)}
    if len(supplies) > 1:
        names = ", ".join(head.name for head in supplies.values())
        not_stated(building, "services", f"{building.name}: what each of its supplies carries, {names}")
    return load_amps(building, job)


@fact
def form_amps(building: Building, job: Job) -> Current:
    """The total of the load form that is handed in, over the line voltage. NFPA 70 220.40."""
    volts = line_volts(supply_of(building, job))
    current = amperes(building.load_handed_in, volts, building)
    job.step(f"load form: {building.load_handed_in} / {volts}", current)
    return current


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
    missing = tuple(Need(one, "counted") for one in group if not one.states("counted"))
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
