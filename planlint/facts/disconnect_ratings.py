"""Ratings of the disconnects of buildings that are fed from outside: what they have, and what they need."""

from collections.abc import Sequence

from planlint.facts.building_load import circuits
from planlint.facts.buildings import building_at, outlets_on
from planlint.facts.circuit_load import loads_on, outlet_load
from planlint.facts.demand import amperes, nameplate, total, total_current
from planlint.facts.disconnects import supply_disconnects, throws_of
from planlint.facts.drop import run_volts
from planlint.facts.engine import Job, fact
from planlint.facts.load import load_current
from planlint.facts.parts_served import others_served
from planlint.facts.roles import ServiceGear
from planlint.facts.supplies import circuit_switches, circuits_in, feeders, supply_runs
from planlint.facts.wires import breaker_or_fuses, breaker_rating, has_neutral
from planlint.plan.elements import does_not_arise, not_stated
from planlint.plan.gear import Disconnect, Panel
from planlint.plan.members import Members
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.plan.site import Building
from planlint.quantities import Current


@fact
def disconnects_of_supply(building: Building, job: Job) -> Members[Disconnect | Panel]:
    """What shuts off its supply from outside: the disconnect in which each feeder ends, or the switches of its branch circuits.

    What follows behind the first one in the same building is not added to it. NFPA 70 225.31, 225.33.
    """
    ends = feeders(building, job)
    own = supply_disconnects(building, job)
    first = Members(own.known, (*own.gaps, *ends.gaps)).where(lambda gear: any(run.to is gear for run in ends))
    return first.joined(circuit_switches(building, job))  # type: ignore[return-value]


@fact
def disconnect_rating(building: Building, job: Job) -> Current:
    """Rating of what shuts off its supply from outside; several are added, and so are the few breakers of a panel on lugs.

    Not stated where nothing does. NFPA 70 225.33, 225.39.
    """
    gear = disconnects_of_supply(building, job).whole()
    if not gear:
        if any(isinstance(run, Service) for run in supply_runs(building, job).whole()):
            does_not_arise(building, f"{building.name}: a building that is fed from outside, not by a service of its own")
        not_stated(building, "disconnect", f"which disconnect shuts off {building.name}")
    thrown = [each for one in gear for each in throws_of(one, job).whole()]
    ratings = [_rating(one, job) for one in thrown]
    if len(ratings) > 1:
        job.step(" + ".join(f"{one.name} {rating}" for one, rating in zip(thrown, ratings, strict=True)), total_current(ratings),
                 "NFPA 70 225.33, 225.39")  # fmt: skip
    return total_current(ratings)


def _rating(gear: ServiceGear | Feeder | Circuit, job: Job) -> Current:
    """Of a panel its main, of a fused switch that of the switch. Raises NotStated where only the fuses are said."""
    if isinstance(gear, Feeder | Circuit):
        return breaker_rating(gear, job)
    if isinstance(gear, Panel):
        if isinstance(gear.main, Current):
            return gear.main
        not_stated(gear, "main", f"{gear.name}: main, because lugs are no disconnect")
    if not isinstance(gear, Disconnect):
        return gear.rating
    if gear.states("fuses") or (gear.states("switch-rating") and not gear.states("breaker")):
        return gear.switch_rating
    return breaker_or_fuses(gear)


@fact
def least_disconnect(building: Building, job: Job) -> Current:
    """The least rating of its disconnect by what it serves, whatever its load.

    One branch circuit that comes from outside; not more than two circuits of two wires; a one-family dwelling; all others.
    NFPA 70 225.39(A) to (D).
    """
    if building.use == "one-family":
        return _least("one-family", "a one-family dwelling", "(C)", job)
    inside = circuits(building, job).whole()
    incoming = feeders(building, job).whole()
    onward = any(others_served(run.to, job).whole() for run in incoming)
    shared = _share_a_neutral(inside)
    if not incoming and (len(inside) == 1 or (shared and job.setting("least-disconnect.shared-neutral-is-one"))):
        return _least("one-circuit", "one branch circuit", "(A)", job)
    few = not onward and 1 <= len(inside) <= 2
    if few and (not incoming if shared else all(_has_two_wires(circuit, job) for circuit in inside)):
        return _least("two-circuits", "not more than two circuits of two wires", "(B)", job)
    return _least("others", f"{len(inside)} circuits" + (" and what goes on from it" if onward else ""), "(D)", job)


def _least(case: str, words: str, part: str, job: Job) -> Current:
    least: Current = job.setting(f"least-disconnect.{case}")
    job.step(words, least, f"NFPA 70 225.39{part}")
    return least


def _share_a_neutral(inside: Sequence[Circuit]) -> bool:
    """Whether they are two circuits on one neutral."""
    if len(inside) != 2:
        return False
    one, other = inside
    return one.shares_neutral_with is other or other.shares_neutral_with is one


def _has_two_wires(circuit: Circuit, job: Job) -> bool:
    return circuit.poles == 1 or not has_neutral(circuit, job)


@fact
def load_from_outside(building: Building, job: Job) -> Current:
    """What it takes from the feeders or branch circuits that come from outside.

    Feeders by the calculated load behind them; branch circuits by their appliances, receptacles and lights, each on a pole of its
    own where one switch opens them all. NFPA 70 225.39, 220 Parts II to IV.
    """
    runs = feeders(building, job).whole()
    if runs:
        return total_current(load_current(run, job) for run in runs)
    carried = [_current_from_outside(circuit, building, job) for circuit in circuits_in(building, job).whole()]
    if len(disconnects_of_supply(building, job).whole()) == 1:
        return max(carried, default=Current.of(0, "A"))
    return total_current(carried)


def _current_from_outside(circuit: Circuit, building: Building, job: Job) -> Current:
    homes = {id(home): home for outlet in outlets_on(circuit, job).whole() if (home := building_at(outlet.at)) is not None}
    if len(homes) > 1:
        not_stated(circuit, "load", f"{circuit.name}: how much of what it carries is taken in {building.name}")
    load = outlet_load(circuit, job) + total(nameplate(each, job) for each in loads_on(circuit, job).whole())
    volts = run_volts(circuit, job)
    job.step(f"{circuit.name}: {load} / {volts}", amperes(load, volts, circuit), "NFPA 70 220 Part II")
    return amperes(load, volts, circuit)
