"""Whether the circuits are there that a dwelling's kitchens, laundry, bathrooms and garages must have."""

from collections.abc import Callable

from planlint.facts.building_load import circuits, dwellings, laundry_circuits, small_appliance_circuits
from planlint.facts.buildings import building_at, is_dwelling, outlets_on
from planlint.facts.engine import Job, fact
from planlint.facts.own_circuits import (
    feeds_bathrooms_only,
    feeds_garages_only,
    feeds_kitchen_only,
    feeds_laundry_only,
    has_its_rating,
    is_at_basin,
    is_new_work,
    of_usual_voltage,
)
from planlint.facts.supplies import has_power
from planlint.facts.wall_spaces import is_in_dwelling
from planlint.plan.elements import Need, NotStated, not_stated
from planlint.plan.members import Members, all_hold, any_holds, merged
from planlint.plan.outlets import Load, Receptacles
from planlint.plan.runs import Circuit
from planlint.plan.site import Building, Place


@fact
def kitchen_receptacles(building: Building, job: Job) -> Members[Receptacles]:
    """The receptacles of its kitchens, pantries and dining rooms for walls, counters and refrigerators. NFPA 70 210.52(B)(1)."""
    rooms = job.graph.those(Place, "building", building).where(lambda place: place.use in job.setting("feeds-kitchen-only.rooms"))
    found: Members[Receptacles] = Members((), rooms.gaps)
    found = found.joined(*(job.graph.those(Receptacles, "at", place) for place in rooms))
    return of_usual_voltage(found, job, *job.setting("feeds-kitchen-only.serving"))


@fact
def counter_circuits(place: Place, job: Job) -> Members[Circuit]:
    """The circuits that feed the receptacles of its counters. NFPA 70 210.52(B)(3)."""
    serving = of_usual_voltage(job.graph.those(Receptacles, "at", place), job, "counter")
    found = {id(one.circuit): one.circuit for one in serving if one.states("circuit")}
    open_ones = [Need(one, "circuit") for one in serving if not one.states("circuit")]
    return Members(tuple(found.values()), merged(serving.gaps, open_ones))


@fact
def wants_kitchen_circuits(building: Building, job: Job) -> bool:
    """Whether small-appliance circuits are asked for: in a new dwelling, or where one is new. NFPA 70 210.11(C)(1)."""
    return _is_new_dwelling(building, small_appliance_circuits(building, job), job)


@fact
def wants_laundry_circuit(building: Building, job: Job) -> bool:
    """Whether a laundry circuit is asked for: in a new dwelling, or where one is new. NFPA 70 210.11(C)(2)."""
    return _is_new_dwelling(building, laundry_circuits(building, job), job)


def _is_new_dwelling(building: Building, found: Members[Circuit], job: Job) -> bool:
    return all_hold(
        lambda: is_dwelling(building, job),
        lambda: any_holds(lambda: building.construction == "new", lambda: found.some(lambda circuit: not circuit.existing)),
    )


@fact
def kitchen_circuits_suit(building: Building, job: Job) -> bool:
    """Whether it has the small-appliance circuits that it must have, of 20 A, and they feed what they must and nothing else.

    Each kitchen's counters are fed by at least two, none of which feeds another kitchen. NFPA 70 210.11(C)(1), 210.52(B).
    """
    return all_hold(*(test for _, test in _kitchen_tests(building, job)))


@fact
def kitchen_circuit_faults(building: Building, job: Job) -> str:
    """What is wrong with its small-appliance circuits, in words. NFPA 70 210.11(C)(1), 210.52(B)."""
    return "; ".join(words for words, test in _kitchen_tests(building, job) if _is_known_false(test)) or "nothing"


def _kitchen_tests(building: Building, job: Job) -> list[tuple[str, Callable[[], bool]]]:
    least: int = job.setting("kitchen-circuits-suit.least")
    small = small_appliance_circuits(building, job)
    kitchens = job.graph.those(Place, "building", building).where(lambda place: place.use == "kitchen")
    return [
        (
            f"there are fewer than {least} small-appliance circuits for each dwelling",
            lambda: _are_enough(small, least * dwellings(building, job)),
        ),
        ("one is not of 20 A", lambda: small.every(lambda circuit: has_its_rating(circuit, job))),
        ("one feeds something that it may not", lambda: small.every(lambda circuit: feeds_kitchen_only(circuit, job))),
        (
            "a wall, counter or refrigerator receptacle of kitchen or dining room is on another circuit",
            lambda: kitchen_receptacles(building, job).every(lambda one: _is_fed_right(one, job)),
        ),
        (
            f"a kitchen's counters are not fed by {least} of them",
            lambda: kitchens.every(lambda kitchen: _counters_are_fed(kitchen, least, job)),
        ),
        (
            "one feeds the counters of two kitchens",
            lambda: small.every(lambda circuit: not _feeds_two_kitchens(circuit, kitchens, job)),
        ),
    ]


def _are_enough(found: Members[Circuit] | Members[Place], least: int) -> bool:
    return len(found.known) >= least or len(found.whole()) >= least


def _counters_are_fed(kitchen: Place, least: int, job: Job) -> bool:
    """Counters without any receptacle are another rule's."""
    found = counter_circuits(kitchen, job)
    return (not found.known and not found.gaps) or _are_enough(found, least)


def _feeds_two_kitchens(circuit: Circuit, kitchens: Members[Place], job: Job) -> bool:
    fed = kitchens.where(lambda place: counter_circuits(place, job).some(lambda one: one is circuit))
    return _are_enough(fed, 2)


def _is_fed_right(one: Receptacles, job: Job) -> bool:
    """By a small-appliance circuit; a refrigerator's by one of its own; one for lamps that a switch turns on, by any.

    NFPA 70 210.52(B)(1), exceptions.
    """
    return any_holds(
        lambda: one.circuit.use == "small-appliance",
        lambda: "refrigerator" in one.serves and _is_alone(one, job),
        lambda: _is_for_lamps(one),
    )


def _is_for_lamps(one: Receptacles) -> bool:
    """Outside the kitchen; of several the plan doesn't say which ones the switch turns on."""
    if one.at.use == "kitchen" or "general" not in one.serves or not one.switched:
        return False
    if one.count > 1:
        not_stated(one, "circuit", f"{one.name}: a small-appliance circuit for those that no wall switch turns on")
    return True


def _is_alone(one: Receptacles, job: Job) -> bool:
    def belongs(outlet: object) -> bool:
        return outlet is one or (isinstance(outlet, Load) and outlet.type == "refrigerator")

    return one.count == 1 and outlets_on(one.circuit, job).every(belongs)


@fact
def own_laundry_circuits(building: Building, job: Job) -> Members[Circuit]:
    """Its circuits of 20 A that feed a laundry receptacle, and the laundry only. NFPA 70 210.11(C)(2)."""

    def is_one(circuit: Circuit) -> bool:
        fed = of_usual_voltage(job.graph.those(Receptacles, "circuit", circuit), job, "laundry")
        return all_hold(
            lambda: fed.some(lambda one: True),
            lambda: has_its_rating(circuit, job),
            lambda: feeds_laundry_only(circuit, job),
        )

    return circuits(building, job).where(is_one)


@fact
def laundry_circuits_suit(building: Building, job: Job) -> bool:
    """Whether each dwelling in it has a circuit for its laundry. Of two dwellings one may have none: the plan must show both.

    NFPA 70 210.11(C)(2), 210.52(F) and its exceptions.
    """
    found, needed = own_laundry_circuits(building, job), dwellings(building, job)
    if _are_enough(found, needed):
        return True
    if needed > 1:
        not_stated(building, "use", f"{building.name}: whether each of its dwellings has a place for laundry equipment")
    return False


@fact
def basin_receptacles(place: Place, job: Job) -> Members[Receptacles]:
    """The receptacles at it for basins and counters, by what they serve or where they are. NFPA 70 210.52(D), 210.11(C)(3)."""
    return job.graph.those(Receptacles, "at", place).where(lambda one: is_at_basin(one, job))


@fact
def bay_receptacles(place: Place, job: Job) -> Members[Receptacles]:
    """The receptacles at it for vehicle bays or whatever comes. NFPA 70 210.52(G)(1)."""
    return of_usual_voltage(job.graph.those(Receptacles, "at", place), job, *job.setting("bay-receptacles.serving"))


@fact
def wants_bathroom_circuit(place: Place, job: Job) -> bool:
    """Whether it is a dwelling's bathroom with receptacles that want a bathroom circuit, in new work. NFPA 70 210.11(C)(3)."""
    return all_hold(
        lambda: place.use == "bathroom",
        lambda: is_in_dwelling(place, job),
        lambda: basin_receptacles(place, job).some(lambda one: True),
        lambda: is_new_work(place, basin_receptacles(place, job), job),
    )


@fact
def on_bathroom_circuit(receptacles: Receptacles, job: Job) -> bool:
    """Whether their circuit is one of 20 A for bathroom receptacles, or for one bathroom. NFPA 70 210.11(C)(3)."""
    circuit = receptacles.circuit
    return all_hold(lambda: has_its_rating(circuit, job), lambda: feeds_bathrooms_only(circuit, job))


@fact
def wants_garage_circuit(place: Place, job: Job) -> bool:
    """Whether it is a dwelling's garage, or a detached one with power, with receptacles, in new work. NFPA 70 210.11(C)(4)."""
    return all_hold(
        lambda: place.use == "garage",
        lambda: _is_attached_or_powered(place, job),
        lambda: bay_receptacles(place, job).some(lambda one: True),
        lambda: is_new_work(place, bay_receptacles(place, job), job),
    )


def _is_attached_or_powered(place: Place, job: Job) -> bool:
    home = building_at(place)
    return home is not None and any_holds(lambda: is_dwelling(home, job), lambda: has_power(home, job))


@fact
def on_garage_circuit(receptacles: Receptacles, job: Job) -> bool:
    """Whether their circuit is one of 20 A for the garage's receptacles. NFPA 70 210.11(C)(4)."""
    circuit = receptacles.circuit
    return all_hold(lambda: has_its_rating(circuit, job), lambda: feeds_garages_only(circuit, job))


@fact
def garage_circuit_suits(place: Place, job: Job) -> bool:
    """Whether a garage circuit feeds a receptacle for each of its vehicle bays. NFPA 70 210.11(C)(4), 210.52(G)(1)."""
    on_it = bay_receptacles(place, job).where(lambda one: on_garage_circuit(one, job))
    if not on_it.known:
        return bool(on_it.whole())
    bays = [one for one in on_it if "vehicle-bay" in one.serves]
    if place.vehicle_bays == 1 or sum(one.count for one in bays) >= place.vehicle_bays:
        return True
    if sum(one.count for one in on_it.whole()) < place.vehicle_bays:
        return False
    not_stated(place, "use", f"{place.name}: which receptacles are in its vehicle bays (serves vehicle-bay)")


def _is_known_false(holds: Callable[[], bool]) -> bool:
    """Whether it is known not to hold; no while it is open, for then nothing can be said of it."""
    try:
        return not holds()
    except NotStated:
        return False
