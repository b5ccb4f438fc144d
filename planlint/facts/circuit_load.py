"""What a branch circuit carries: the appliances that name it, its receptacles and its lights."""

from planlint.facts.demand import plate_current, total, total_current
from planlint.facts.engine import Job, fact
from planlint.plan.elements import not_stated
from planlint.plan.members import Members
from planlint.plan.outlets import Lights, Load, Receptacles
from planlint.plan.runs import Circuit
from planlint.quantities import Current, Power


@fact
def loads_on(circuit: Circuit, job: Job) -> Members[Load]:
    """Appliances and motors that name it."""
    return job.graph.those(Load, "circuit", circuit)


@fact
def is_continuous(load: Load, job: Job) -> bool:
    """Whether it may run three hours or more on end.

    The code says so of electric space heat and its fans and of car chargers (NFPA 70 424.4(B), 625.42; 2017: 424.3(B), 625.41).
    Of what never does, by common practice, it need not be stated.
    """
    if load.type in job.setting("is-continuous.by-code"):
        return True
    said = load.states("continuous") or "continuous" in load.unknown
    return load.continuous if said or load.type not in job.setting("is-continuous.by-nature-not") else False


@fact
def feeds_only_loads(circuit: Circuit, job: Job) -> bool:
    """Whether all that it feeds is stated as appliances: no lights, and receptacles only for appliances that are stated."""
    if job.graph.those(Lights, "circuit", circuit).whole() or _general_receptacles(circuit, job):
        return False
    return bool(loads_on(circuit, job).whole()) and not _receptacles_without_load(circuit, job)


@fact
def outlet_load(circuit: Circuit, job: Job) -> Power:
    """Load of its receptacles and lights beside the appliances that are stated: 180 VA a receptacle, the lights by their power.

    A small-appliance or laundry circuit counts 1500 VA whatever is on it. NFPA 70 220.14(I), 220.52.
    """
    each: Power
    if circuit.use in ("small-appliance", "laundry"):
        each = job.setting("lighting-and-circuits.each-circuit")
        job.step(f"{circuit.name}", each, "NFPA 70 220.52")
        return each
    if _receptacles_without_load(circuit, job):
        not_stated(circuit, "load", f"{circuit.name}: the load that its appliance receptacle is there for")
    receptacles = _general_receptacles(circuit, job)
    each = job.setting("outlet-load.each-receptacle")
    lights = total(light.rating * light.count for light in job.graph.those(Lights, "circuit", circuit).whole())
    load = each * receptacles + lights
    if load.amount:
        job.step(f"{circuit.name}: {receptacles} receptacles x {each} + lights {lights}", load, "NFPA 70 220.14(I)")
    return load


def current_of_circuit(circuit: Circuit, job: Job) -> Current:
    """What it carries: its design load; without one the plates of what it feeds, where that is appliances only.

    Not stated otherwise, for what is plugged into a receptacle is not in the plan, and the breaker's rating is no load.
    """
    if circuit.states("design-load") or not feeds_only_loads(circuit, job):
        return circuit.design_load
    each = [(load.name, plate_current(load, job)) for load in loads_on(circuit, job).whole()]
    carried = total_current(current for _, current in each)
    job.step(" + ".join(f"{name} {current}" for name, current in each), carried)
    return carried


def _general_receptacles(circuit: Circuit, job: Job) -> int:
    return sum(one.count for one in _receptacles(circuit, job) if not _is_for_appliance(one, job))


def _receptacles_without_load(circuit: Circuit, job: Job) -> bool:
    """Whether a receptacle is there for an appliance that is not stated."""
    number = sum(one.count for one in _receptacles(circuit, job) if _is_for_appliance(one, job))
    return number > 0 and number > sum(load.count for load in loads_on(circuit, job).whole() if load.connection == "cord")


def _receptacles(circuit: Circuit, job: Job) -> tuple[Receptacles, ...]:
    return job.graph.those(Receptacles, "circuit", circuit).whole()


def _is_for_appliance(receptacles: Receptacles, job: Job) -> bool:
    return all(word in job.setting("outlet-load.appliance-receptacles") for word in receptacles.serves)
