"""The circuits that a dwelling's kitchen, laundry, bathrooms and garages have to themselves, and what these may feed."""

from planlint.facts.buildings import Outlet, building_at, outlets_on
from planlint.facts.circuit_load import loads_on
from planlint.facts.demand import COOKING, plate_current, total_current
from planlint.facts.engine import Job, fact
from planlint.facts.outlet_volts import receptacle_volts
from planlint.facts.space import is_outdoors, room
from planlint.plan.elements import does_not_arise, not_stated
from planlint.plan.members import Members, all_hold, any_holds
from planlint.plan.outlets import Lights, Load, Receptacles
from planlint.plan.runs import Circuit
from planlint.plan.site import Place
from planlint.quantities import Current, Percent


@fact
def serves_other_rooms(circuit: Circuit, job: Job) -> bool:
    """Whether it feeds anything that its use (small-appliance, laundry, bathroom or garage) doesn't allow.

    NFPA 70 210.11(C), 210.52(B)(2), and their exceptions.
    """
    tests = {
        "small-appliance": feeds_kitchen_only,
        "laundry": feeds_laundry_only,
        "bathroom": feeds_bathrooms_only,
        "garage": feeds_garages_only,
    }
    if circuit.use not in tests:
        does_not_arise(circuit, f"{circuit.name}: the use of a small-appliance, laundry, bathroom or garage circuit")
    return not tests[circuit.use](circuit, job)


@fact
def feeds_kitchen_only(circuit: Circuit, job: Job) -> bool:
    """Whether it feeds receptacles of kitchen, pantry and dining room only, for their walls, counters and refrigerators.

    A clock's receptacle and that of a gas range may be on it too. NFPA 70 210.52(B)(1), (B)(2) and its exceptions.
    """
    return outlets_on(circuit, job).every(lambda outlet: _suits_kitchen(outlet, job))


def _suits_kitchen(outlet: Outlet, job: Job) -> bool:
    if isinstance(outlet, Lights) or room_of(outlet, job) not in job.setting("feeds-kitchen-only.rooms"):
        return False
    if isinstance(outlet, Load):
        return all_hold(lambda: outlet.type in job.setting("feeds-kitchen-only.appliances"), lambda: outlet.connection == "cord")
    others = [purpose for purpose in outlet.serves if purpose not in job.setting("feeds-kitchen-only.serving")]
    return not others or (others == ["appliance"] and _is_for_gas_cooking(outlet, job))


def _is_for_gas_cooking(outlet: Receptacles, job: Job) -> bool:
    """Of what is on such a circuit with a range, the range is a gas one, whose lights and ignition it feeds."""
    if not any(load.type in COOKING for load in loads_on(outlet.circuit, job) if load.states("type")):
        not_stated(
            outlet, "serves", f"{outlet.name}: whether its appliance is a clock or a gas range, which its circuit may feed"
        )
    return True


@fact
def feeds_laundry_only(circuit: Circuit, job: Job) -> bool:
    """Whether it feeds the receptacles of the laundry only: washer, gas dryer, iron. NFPA 70 210.11(C)(2)."""
    return outlets_on(circuit, job).every(lambda outlet: _suits_laundry(outlet, job))


def _suits_laundry(outlet: Outlet, job: Job) -> bool:
    if isinstance(outlet, Lights):
        return False
    if isinstance(outlet, Load):
        return all_hold(lambda: outlet.type in job.setting("feeds-laundry-only.appliances"), lambda: outlet.connection == "cord")
    if "laundry" in outlet.serves:
        return True
    suits = all(purpose in job.setting("feeds-laundry-only.serving") for purpose in outlet.serves)
    return suits and room_of(outlet, job) == "laundry"


@fact
def feeds_bathrooms_only(circuit: Circuit, job: Job) -> bool:
    """Whether it feeds receptacles of bathrooms only, or what there is in one bathroom alone.

    From 2020 on those of several bathrooms are at basins and counters. What is fastened in the one may take half of the circuit.
    NFPA 70 210.11(C)(3) and its exception, 210.23(A)(2) (2023: 210.23(B)(2)).
    """
    outlets = outlets_on(circuit, job)
    return any_holds(
        lambda: outlets.every(lambda one: _suits_bathrooms(one, job)),
        lambda: _is_for_one_room(circuit, outlets, "bathroom", job),
    )


def _suits_bathrooms(one: Outlet, job: Job) -> bool:
    if room_of(one, job) != "bathroom" or not isinstance(one, Receptacles):
        return _is_plugged_in(one, "bathroom", job)
    return not job.setting("feeds-bathrooms-only.basins-only") or is_at_basin(one, job)


def _is_plugged_in(one: Outlet, use: str, job: Job) -> bool:
    """Whether it is an appliance with a cord in such a room: its receptacle is the outlet, and judged by itself."""
    return isinstance(one, Load) and all_hold(lambda: one.connection == "cord", lambda: room_of(one, job) == use)


@fact
def is_at_basin(one: Receptacles, job: Job) -> bool:
    """Whether one of the usual voltage is there for a basin or counter, or a general one is within reach of a basin.

    NFPA 70 210.52(D).
    """
    return all_hold(
        lambda: any_holds(
            lambda: any(purpose in job.setting("basin-receptacles.serving") for purpose in one.serves),
            lambda: "general" in one.serves and one.distance_to_basin <= job.setting("basins-are-served.most-distance"),
        ),
        lambda: receptacle_volts(one, job) <= job.setting("serves-other-rooms.most-volts"),
    )


@fact
def feeds_garages_only(circuit: Circuit, job: Job) -> bool:
    """Whether it feeds receptacles of garages only, and outdoors those within reach (2023: any).

    From 2023 on it may also feed all that there is in a garage for one car. NFPA 70 210.11(C)(4) and its exceptions.
    """
    outlets = outlets_on(circuit, job)
    return any_holds(
        lambda: outlets.every(
            lambda one: _suits_garage(one, job) if isinstance(one, Receptacles) else _is_plugged_in(one, "garage", job)
        ),
        lambda: job.setting("feeds-garages-only.single-bay") and _is_for_one_room(circuit, outlets, "garage", job),
    )


def _suits_garage(one: Receptacles, job: Job) -> bool:
    if not is_outdoors(one.at, job):
        return room_of(one, job) == "garage"
    highest = job.setting("feeds-garages-only.outdoors-up-to")
    return not job.setting("feeds-garages-only.outdoors-in-reach") or one.height <= highest


def _is_for_one_room(circuit: Circuit, outlets: Members[Outlet], use: str, job: Job) -> bool:
    """Whether all that it feeds stands in one room of that use, and what is fastened there takes no more than it may."""
    if not outlets.known:
        return not outlets.whole()
    spot = outlets.known[0].at
    if room_of(outlets.known[0], job) != use or not isinstance(spot, Place):
        return False
    return all_hold(
        lambda: use != "garage" or spot.vehicle_bays == 1,
        lambda: outlets.every(lambda one: one.at is spot),
        lambda: _fastened_share_is_small(circuit, job),
    )


def _fastened_share_is_small(circuit: Circuit, job: Job) -> bool:
    """Whether appliances that are fastened there take no more than half of a circuit that also feeds receptacles."""
    fastened = loads_on(circuit, job).where(lambda load: load.connection == "hard-wired").whole()
    if not fastened:
        return True
    share: Percent = job.setting("serves-other-rooms.fastened-most")
    drawn = total_current(plate_current(load, job) for load in fastened)
    job.step(f"fastened appliances {drawn}, at most {share} x {circuit.breaker}", circuit.breaker * share, "NFPA 70 210.23(A)(2)")
    return drawn <= circuit.breaker * share


def room_of(outlet: Outlet, job: Job) -> str:
    """The use of the room that it is in. Not stated for a load of which only the building is named."""
    if not isinstance(outlet.at, Place):
        not_stated(outlet, "at", f"{outlet.name}: at, the room that it stands in")
    return room(outlet.at, job)


def has_its_rating(circuit: Circuit, job: Job) -> bool:
    """Whether its breaker is of 20 A, as all of these circuits must be. NFPA 70 210.11(C)."""
    rating: Current = job.setting("serves-other-rooms.rating")
    return circuit.breaker == rating


def is_new_work(spot: Place, feeding: Members[Receptacles], job: Job) -> bool:
    """Whether the code in force counts for them: in a new building, and for a circuit that was not there before."""
    home = building_at(spot)
    return any_holds(
        lambda: home is not None and home.construction == "new",
        lambda: feeding.some(lambda one: not one.circuit.existing),
    )


def of_usual_voltage(found: Members[Receptacles], job: Job, *purposes: str) -> Members[Receptacles]:
    """Those of the usual voltage that serve one of these purposes."""
    return found.where(
        lambda one: all_hold(
            lambda: any(purpose in purposes for purpose in one.serves),
            lambda: receptacle_volts(one, job) <= job.setting("serves-other-rooms.most-volts"),
        )
    )
