"""The calculated load of a building: a dwelling by the standard method or an optional one, others by what they feed."""

from collections.abc import Callable, Iterable, Sequence
from typing import Literal

from planlint.facts.ampacity import at_terminals, carried
from planlint.facts.buildings import building_served, is_dwelling, loads
from planlint.facts.circuit_load import outlet_load
from planlint.facts.demand import plain_demands, total
from planlint.facts.engine import Job, fact
from planlint.facts.optional_load import existing_of, optional_of, two_dwellings_of
from planlint.facts.standard_load import in_season, largest_motor, of_a_season, standard_of
from planlint.facts.supplies import supply_runs
from planlint.facts.wires import breaker_rating, hot_size
from planlint.plan.elements import Need, NotStated, does_not_arise, not_stated
from planlint.plan.members import Members
from planlint.plan.outlets import Load
from planlint.plan.runs import Circuit, Feeder
from planlint.plan.site import Building
from planlint.quantities import Current, Power


@fact
def circuits(building: Building, job: Job) -> Members[Circuit]:
    """Branch circuits that serve it."""
    return job.graph.all(Circuit).where(lambda circuit: building_served(circuit, job) is building)


@fact
def small_appliance_circuits(building: Building, job: Job) -> Members[Circuit]:
    """Its circuits for the receptacles of kitchen, pantry and dining room. NFPA 70 210.11(C)(1)."""
    return circuits(building, job).where(lambda circuit: circuit.use == "small-appliance")


@fact
def laundry_circuits(building: Building, job: Job) -> Members[Circuit]:
    """Its circuits for the laundry. NFPA 70 210.11(C)(2)."""
    return circuits(building, job).where(lambda circuit: circuit.use == "laundry")


@fact
def own_load(building: Building, job: Job) -> Power:
    """Load of the building itself, without other buildings that it feeds.

    A dwelling by the method that the plan names; where it names none, all that may be are worked out, and the load is known only
    if they come to the same. Any other building by its appliances at their plates, 180 VA for each receptacle and the power of
    its lights. NFPA 70 220 Parts II to IV.
    """
    if not is_dwelling(building, job):
        return connected_load(loads(building, job).whole(), circuits(building, job).whole(), job)
    if not building.states("load-method"):
        return _by_any_method(building, job)
    return _by(building.load_method, building, job)


Method = Literal["standard", "optional", "existing"]


def _by(method: str, building: Building, job: Job) -> Power:
    """The load by a method that the plan names; by the standard one where it names the optional one and may not take it."""
    if method == "existing":
        return existing_load(building, job)
    if method == "standard" or not _may_be_optional(building, job):
        return standard_load(building, job)
    return optional_load(building, job)


def _may_be_optional(building: Building, job: Job) -> bool:
    """Not behind a feeder of less than 100 A. A service of that size is judged by itself. NFPA 70 220.82(A)."""
    least: Current = job.setting("own-load.least-for-optional")
    for run in supply_runs(building, job):
        if isinstance(run, Feeder) and breaker_rating(run, job) < least and not _carries(run, least, job):
            words = f"{run.name} is for less than {least}: the standard method holds, not the optional one"
            job.step(words, standard_load(building, job), "NFPA 70 220.82(A)")
            return False
    return True


def _carries(run: Feeder, least: Current, job: Job) -> bool:
    if at_terminals(run, hot_size(run, job), job).high < least:
        return False
    limit = carried(run, hot_size(run, job), job)
    return limit.low >= least or (limit.high >= least and limit.exact >= least)


def _by_any_method(building: Building, job: Job) -> Power:
    """Raises NotStated while the methods differ, with what each comes to in the steps."""
    found = _lawful(building, job, min)
    if any(power != found[0] for power in found):
        raise NotStated(Need(building, "load-method"))
    return found[0]


def load_at(end: Callable[[Iterable[Power]], Power], building: Building, job: Job) -> Power:
    """The least (`min`) or the most (`max`) that the building itself may come to, where a dwelling names no method."""
    if not is_dwelling(building, job) or building.states("load-method"):
        return own_load(building, job)
    return end(_lawful(building, job, end))


def _lawful(building: Building, job: Job, end: Callable[[Iterable[Power]], Power]) -> list[Power]:
    """What each method comes to that a dwelling may take which names none, with a step that names the least or the most.

    Raises NotStated while one is not known.
    """
    found: list[tuple[str, Power]] = []
    needs: list[tuple[Need, ...]] = []
    for name in _methods(building, job):
        try:
            found.append((name, _by_any(name, building, job)))
        except NotStated as gap:
            needs.append(gap.needs)
    if found:
        load = end(power for _, power in found)
        best = next(name for name, power in found if power == load)
        words = ", ".join(f"{method} method {power.shown_in('VA')}" for method, power in found)
        which = "the lowest is permitted" if end is min else "the highest of them"
        job.step(f"{words}: {which}, {best}", load, "NFPA 70 220.40, 220.82(A), 220.83, 220.85")
    if needs:
        common = [need for need in (needs[0] if not found else ()) if all(need in part for part in needs)]
        raise NotStated(Need(building, "load-method"), *common)
    return [power for _, power in found]


def _methods(building: Building, job: Job) -> list[Method]:
    """That for an existing dwelling too, unless the plan says that it is new."""
    methods: list[Method] = ["standard", "optional"] if _may_be_optional(building, job) else ["standard"]
    may_be_old = not building.states("construction") or building.construction == "existing"
    return [*methods, "existing"] if may_be_old and dwellings(building, job) == 1 else methods


def _by_any(method: Method, building: Building, job: Job) -> Power:
    if method == "existing":
        return existing_of(lighting_and_circuits(building, job), loads(building, job).whole(), job)
    return standard_load(building, job) if method == "standard" else optional_load(building, job)


@fact
def dwellings(building: Building, job: Job) -> int:
    """How many dwellings it holds, of one or two for which loads are worked out. Not stated for more."""
    if not is_dwelling(building, job):
        does_not_arise(building, f"{building.name}: a building in which somebody lives")
    named = 2 if building.use == "two-family" else 1
    if (building.states("dwelling-units") or "dwelling-units" in building.unknown) and building.dwelling_units != named:
        words = "two dwellings in a two-family house" if named == 2 else "one dwelling in a one-family house"
        not_stated(building, "dwelling-units", f"{building.name}: its load, which is worked out for {words} only")
    return named


@fact
def standard_load(building: Building, job: Job) -> Power:
    """A dwelling's load by the standard method, of two dwellings together. NFPA 70 220 Part III."""
    lighting = lighting_and_circuits(building, job)
    return standard_of(lighting, loads(building, job).whole(), job)


@fact
def optional_load(building: Building, job: Job) -> Power:
    """A dwelling's load by the optional method; of two dwellings the lesser of the standard one and that of three alike.

    Permitted where one service or feeder of three wires and 100 A or more carries the whole dwelling. NFPA 70 220.82, 220.85.
    """
    lighting = lighting_and_circuits(building, job)
    appliances = loads(building, job).whole()
    if dwellings(building, job) == 2:
        return two_dwellings_of(building, lighting, appliances, standard_load(building, job), job)
    return optional_of(lighting, appliances, job)


@fact
def existing_load(building: Building, job: Job) -> Power:
    """An existing dwelling's load with what this work adds, by the method for such. NFPA 70 220.83."""
    named = building.states("load-method") and building.load_method == "existing"
    if not named and not (building.states("construction") and building.construction == "existing"):
        does_not_arise(building, f"{building.name}: a dwelling that was there before")
    if building.construction != "existing":
        not_stated(building, "load-method", f"{building.name}: load-method, for a new dwelling has not that of an existing one")
    if dwellings(building, job) != 1:
        not_stated(building, "load-method", f"{building.name}: load-method, for 220.83 is for one dwelling only")
    return existing_of(lighting_and_circuits(building, job), loads(building, job).whole(), job)


def connected_load(appliances: Sequence[Load], on: Sequence[Circuit], job: Job) -> Power:
    """Appliances and outlets at their full value, and a quarter more for the largest motor; heating or cooling, not both.

    NFPA 70 220.14, 220.50, 220.60.
    """
    counted = [load for load in appliances if not of_a_season(load, job)] + in_season(appliances, job)
    plates = plain_demands(counted, job)
    outlets = total(outlet_load(circuit, job) for circuit in on)
    job.step(f"appliances {plates} + receptacles and lights {outlets}", plates + outlets, "NFPA 70 220.14")
    return plates + outlets + largest_motor(counted, job)


@fact
def lighting_and_circuits(building: Building, job: Job) -> Power:
    """General lighting by the floor area, and 1500 VA for each small-appliance and laundry circuit, before any demand factor.

    At least the circuits that each dwelling must have are counted. NFPA 70 220.12 (2020: 220.14(J), 2023: 220.41), 220.52.
    """
    light = general_lighting(building, job)
    each: Power = job.setting("lighting-and-circuits.each-circuit")
    least_small: int = job.setting("lighting-and-circuits.least-small-appliance")
    least_laundry: int = job.setting("lighting-and-circuits.least-laundry")
    number = dwellings(building, job)
    small = max(len(small_appliance_circuits(building, job).whole()), least_small * number)
    laundry = max(len(laundry_circuits(building, job).whole()), least_laundry * number)
    job.step(f"small-appliance circuits: {small} x {each}", each * small, "NFPA 70 220.52(A)")
    job.step(f"laundry circuits: {laundry} x {each}", each * laundry, "NFPA 70 220.52(B)")
    job.step(f"{light} + {each * small} + {each * laundry}", light + each * (small + laundry))
    return light + each * (small + laundry)


@fact
def general_lighting(building: Building, job: Job) -> Power:
    """Lighting and general receptacles of a dwelling by its floor area. NFPA 70 220.12 (2020: 220.14(J), 2023: 220.41)."""
    if not is_dwelling(building, job):
        does_not_arise(building, f"{building.name}: a building in which somebody lives")
    unit = job.setting("general-lighting.for-each-square-foot")
    load = Power.of(building.floor_area.within("sq ft") * unit.within("VA"), "VA")
    clause = {2017: "220.12", 2020: "220.14(J)", 2023: "220.41"}[job.edition]
    job.step(f"{building.floor_area} x {unit} for each sq ft", load, f"NFPA 70 {clause}")
    return load
