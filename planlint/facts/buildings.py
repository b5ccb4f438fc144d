"""What stands in and serves which building: gear, runs, loads, electrodes."""

from planlint.facts.engine import Job, fact
from planlint.plan import Bond, Building, Electrode, Lights, Load, Piping, Place, Raceway, Receptacles, not_stated
from planlint.plan.gear import AnyGear, Disconnect, Meter, Panel, Supply, TransferSwitch
from planlint.plan.members import Members, all_hold
from planlint.plan.runs import Circuit, Feeder, Service

Outlet = Receptacles | Lights | Load
OUTSIDE = ("porch", "deck", "balcony", "yard", "driveway")


@fact
def is_dwelling(building: Building, job: Job) -> bool:
    """Whether one or two families live in it. NFPA 70 article 100."""
    return building.use in ("one-family", "two-family")


def building_at(spot: Place | Building) -> Building | None:
    """The building that a spot is in; None in the open air. Raises NotStated where a place says neither."""
    if isinstance(spot, Building):
        return spot
    if spot.states("building"):
        return spot.building
    if not says_outdoors(spot):
        not_stated(spot, "building")
    return None


@fact
def in_open_air(place: Place, job: Job) -> bool:
    """Whether a place is outdoors. One that names a building and doesn't say so is inside; one that says neither is open.

    So is a porch or yard that names the building it belongs to and doesn't say whether it is outdoors.
    """
    if place.states("outdoors") or "outdoors" in place.unknown:
        return place.outdoors
    if not place.states("building"):
        return says_outdoors(place)
    if _is_outside_by_use(place):
        not_stated(place, "outdoors", f"{place.name}: outdoors, for a {place.use} is seldom in a building")
    return False


def says_outdoors(place: Place) -> bool:
    """What a place that names no building says of it. One that doesn't speak of it is asked for its building, a porch or yard
    whether it is outdoors: either answer settles it."""
    if not place.states("outdoors") and not _is_outside_by_use(place):
        not_stated(place, "building")
    return place.outdoors


def _is_outside_by_use(place: Place) -> bool:
    return place.states("use") and place.use in OUTSIDE


@fact
def stands_outdoors(load: Load, job: Job) -> bool:
    """Whether it stands in the open air. NFPA 70 210.8(F), 680.42, 680.43 (hot tubs outdoors, hot tubs indoors).

    What usually does has to name its place, for a building may mean its outside.
    """
    if not isinstance(load.at, Building):
        return in_open_air(load.at, job)
    if load.type in job.setting("stands-outdoors.usually"):
        not_stated(load, "at", f"{load.name}: at, the place that it stands in, indoors or outdoors")
    return False


def stands_at(gear: AnyGear, job: Job) -> Building | None:
    """The building in which it stands or on whose wall it is; None for a post of its own, which is a structure too.

    Raises NotStated for gear outdoors of which nothing says what it is mounted on.
    """
    if isinstance(gear, TransferSwitch) and gear.states("type") and gear.type == "interlock":
        return stands_at(gear.panel, job)
    if gear.states("mounted-on") and gear.mounted_on is not None:
        return gear.mounted_on
    home = building_at(gear.at)
    if home is None and not gear.states("mounted-on"):
        not_stated(gear, "mounted-on")
    return home


@fact
def building_served(served: Service | Feeder | Circuit | Disconnect | Panel | TransferSwitch | Meter, job: Job) -> Building:
    """The building at its load end.

    Gear in a building or on its wall serves that building; a meter, and gear on a post, the one in which all that it feeds ends.
    A circuit serves the building of its outlets, and where they are all outdoors, that of its panel.
    """
    if isinstance(served, Circuit):
        return _end_of_circuit(served, job) or building_served(served.panel, job)
    if isinstance(served, Service | Feeder):
        return building_served(served.to, job)
    home = None if isinstance(served, Meter) else stands_at(served, job)
    return home or _only_end(served, job)


def _only_end(gear: AnyGear, job: Job) -> Building:
    ends = {id(end): end for run in job.graph.feeds_from(gear).whole() for end in (building_served(run.to, job),)}
    circuits = job.graph.those(Circuit, "panel", gear).whole() if isinstance(gear, Panel | Disconnect) else ()
    ends |= {id(end): end for circuit in circuits if (end := _end_of_circuit(circuit, job)) is not None}
    if len(ends) != 1:
        what = "which one building it serves, for what it feeds ends in several" if ends else "the building that it feeds"
        not_stated(gear, "feeds", f"{gear.name}: {what}")
    return next(iter(ends.values()))


def serves(gear: AnyGear, building: Building, job: Job) -> bool:
    """Whether gear serves a building: the one at which it stands; a meter or a post all in which something that it feeds ends."""
    home = None if isinstance(gear, Meter) else stands_at(gear, job)
    if home is not None:
        return home is building
    return not all_hold(
        lambda: not job.graph.feeds_from(gear).some(lambda run: serves(run.to, building, job)),
        lambda: not job.graph.those(Circuit, "panel", gear).some(lambda circuit: has_outlet_in(circuit, building, job)),
    )


def outlets_on(circuit: Circuit, job: Job) -> Members[Outlet]:
    """The receptacles, lights and loads that a circuit feeds."""
    graph = job.graph
    found: Members[Outlet] = Members(graph.those(Receptacles, "circuit", circuit).known)
    parts = [graph.those(kind, "circuit", circuit) for kind in (Receptacles, Lights, Load)]
    return found.joined(*parts)  # type: ignore[arg-type]


def has_outlet_in(circuit: Circuit, building: Building, job: Job) -> bool:
    """Whether an outlet of the circuit stands in the building."""
    return outlets_on(circuit, job).some(lambda outlet: building_at(outlet.at) is building)


def _end_of_circuit(circuit: Circuit, job: Job) -> Building | None:
    """The building of its outlets, another than the panel's before the panel's own; None where all of them are outdoors."""
    homes = {id(home): home for outlet in outlets_on(circuit, job).whole() if (home := building_at(outlet.at)) is not None}
    if len(homes) > 1:
        own = stands_at(circuit.panel, job)
        homes = {key: home for key, home in homes.items() if home is not own}
    if len(homes) > 1:
        not_stated(circuit, "panel", f"{circuit.name}: which building it goes to, as its outlets stand in several")
    return next(iter(homes.values()), None)


@fact
def goes_to_another_building(run: Feeder | Circuit, job: Job) -> bool:
    """Whether it goes from one building, or from a post, to another. NFPA 70 250.32.

    Gear on posts at one place counts as on one post.
    """
    if isinstance(run, Circuit):
        home = stands_at(run.panel, job)
        return outlets_on(run, job).some(lambda outlet: building_at(outlet.at) not in (None, home))
    start, end = run.from_, run.to
    if isinstance(start, Supply):
        return False
    here, there = stands_at(start, job), stands_at(end, job)
    return start.at is not end.at if here is None and there is None else here is not there


def building_of(load: Load, job: Job) -> Building:
    """The building that a load counts to: where it stands; outdoors, the one its circuit serves.

    A planned load outdoors that has no circuit yet counts to the one dwelling of the plan.
    """
    home = building_at(load.at)
    if home is not None:
        return home
    if load.states("circuit") or not load.planned:
        return building_served(load.circuit, job)
    dwellings = job.graph.all(Building).where(lambda building: is_dwelling(building, job)).whole()
    if len(dwellings) != 1:
        not_stated(load, "circuit", f"{load.name}: which building it will be fed from")
    return dwellings[0]


@fact
def loads(building: Building, job: Job) -> Members[Load]:
    """Loads that stand in it or are fed from it, planned ones too."""
    return job.graph.all(Load).where(lambda load: building_of(load, job) is building)


@fact
def bonds(building: Building, job: Job) -> Members[Bond]:
    """The bonding jumpers that end at it, its piping, its electrodes, or gear that serves it. NFPA 70 250.94, 250.104."""

    def ends_here(bond: Bond) -> bool:
        end = bond.to
        if isinstance(end, Piping | Electrode):
            end = end.building
        if isinstance(end, Building | Raceway):
            return end is building
        return serves(end, building, job)

    return job.graph.all(Bond).where(ends_here)


@fact
def electrodes(building: Building, job: Job) -> Members[Electrode]:
    """The electrodes that serve it. NFPA 70 250.50."""
    return job.graph.those(Electrode, "building", building)
