"""What stands in and serves which building: gear, runs, loads, electrodes."""

from planlint.facts.engine import Job, fact
from planlint.plan import Building, Electrode, Lights, Load, Place, Receptacles, not_stated
from planlint.plan.gear import AnyGear, Disconnect, Meter, Panel, Supply, TransferSwitch
from planlint.plan.members import Members
from planlint.plan.runs import Circuit, Feeder, Service

Outlet = Receptacles | Lights | Load


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
    if not spot.outdoors:
        not_stated(spot, "building")
    return None


def in_open_air(place: Place) -> bool:
    """Whether a place is outdoors. One that names a building and doesn't say so is inside; one that says neither is open."""
    return place.outdoors if place.states("outdoors") or not place.states("building") else False


@fact
def building_served(served: Service | Feeder | Circuit | Disconnect | Panel | TransferSwitch | Meter, job: Job) -> Building:
    """The building at its load end.

    Gear indoors serves the building it is in, gear on a wall that building; other gear outdoors the one that all it feeds ends
    in. A circuit serves the building of its outlets, and where they are all outdoors, that of its panel.
    """
    if isinstance(served, Circuit):
        return _end_of_circuit(served, job) or building_served(served.panel, job)
    if isinstance(served, Service | Feeder):
        return building_served(served.to, job)
    return _building_of_gear(served, job)


def _building_of_gear(gear: AnyGear, job: Job) -> Building:
    inside = _stands_in(gear)
    if inside is not None:
        return inside
    found = [building_served(run.to, job) for run in job.graph.feeds_from(gear).whole()]
    if isinstance(gear, Panel | Disconnect):
        ends = [_end_of_circuit(circuit, job) for circuit in job.graph.those(Circuit, "panel", gear).whole()]
        found += [end for end in ends if end is not None]
    if not found or any(building is not found[0] for building in found):
        not_stated(gear, "mounted-on", f"{gear.name}: mounted-on, the building that it belongs to")
    return found[0]


def _stands_in(gear: AnyGear) -> Building | None:
    """The building whose wall it is on or in which it stands; None for a post or an open spot."""
    if gear.states("mounted-on") and gear.mounted_on is not None:
        return gear.mounted_on
    return building_at(gear.at)


def outlets_on(circuit: Circuit, job: Job) -> Members[Outlet]:
    """The receptacles, lights and loads that a circuit feeds."""
    graph = job.graph
    found: Members[Outlet] = Members(graph.those(Receptacles, "circuit", circuit).known)
    parts = [graph.those(kind, "circuit", circuit) for kind in (Receptacles, Lights, Load)]
    return found.joined(*parts)  # type: ignore[arg-type]


def _end_of_circuit(circuit: Circuit, job: Job) -> Building | None:
    """The building of its outlets, another than the panel's before the panel's own; None where all of them are outdoors."""
    homes = {id(home): home for outlet in outlets_on(circuit, job).whole() if (home := building_at(outlet.at)) is not None}
    if len(homes) > 1:
        own = _stands_in(circuit.panel)
        homes = {key: home for key, home in homes.items() if home is not own}
    if len(homes) > 1:
        not_stated(circuit, "panel", f"{circuit.name}: which building it goes to, as its outlets stand in several")
    return next(iter(homes.values()), None)


@fact
def goes_to_another_building(run: Feeder | Circuit, job: Job) -> bool:
    """Whether its two ends belong to different buildings. NFPA 70 250.32."""
    if isinstance(run, Feeder):
        start = run.from_
        return not isinstance(start, Supply) and building_served(start, job) is not building_served(run, job)
    home = building_served(run.panel, job)
    return outlets_on(run, job).some(lambda outlet: building_at(outlet.at) not in (None, home))


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
def electrodes(building: Building, job: Job) -> Members[Electrode]:
    """The electrodes that serve it. NFPA 70 250.50."""
    return job.graph.those(Electrode, "building", building)
