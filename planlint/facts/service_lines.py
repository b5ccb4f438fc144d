"""The lines by which the utility's power reaches a building, what they pass through, and what the gear on them is made for."""

from planlint.facts.buildings import building_at, building_served
from planlint.facts.engine import Job, fact
from planlint.facts.entrance import counts_as_outside, is_below, ways_of
from planlint.facts.supplies import services
from planlint.facts.ways import is_underground, pipes_of
from planlint.facts.wires import hot_size
from planlint.plan import Building, Piping, Service
from planlint.plan.elements import Need, NotStated, not_stated
from planlint.plan.gear import Disconnect, Meter, Panel, Supply, TransferSwitch
from planlint.plan.members import Members, all_hold, any_holds, merged
from planlint.plan.routes import Raceway, Trench


@fact
def service_lines(building: Building, job: Job) -> Members[Service]:
    """The lines from the utility's terminals by which its services come, as they count towards the one that is allowed.

    Several sets of wires behind one line are one service (NFPA 70 230.40, exceptions 1 to 3), and so are large sets underground
    that start together and end in one place (230.2). Of lines with different voltages or phases only the kind that is there most
    counts (230.2(D)).
    """
    own = services(building, job)
    known: list[Service] = []
    gaps: list[tuple[Need, ...]] = [own.gaps]
    for run in own:
        try:
            first = _first_run(run, job)
            if not any(first is other or _are_one(first, other, job) for other in known):
                known.append(first)
        except NotStated as gap:
            gaps.append(gap.needs)
    return Members(_most_alike(known), merged(*gaps))


def _first_run(run: Service, job: Job) -> Service:
    """The run at the utility's terminals that leads to this one."""
    while not isinstance(run.from_, Supply):
        before = job.graph.feed(run.from_)
        if not isinstance(before, Service):
            not_stated(run, "from", f"{run.name}: the service that leads to it, for it starts at {run.from_.name}")
        run = before
    return run


def _are_one(line: Service, other: Service, job: Job) -> bool:
    """Whether two lines are sets of one service underground. NFPA 70 230.2."""
    return all_hold(
        lambda: line.from_ is other.from_,
        lambda: line.to.at is other.to.at,
        lambda: is_underground(line, job) and is_underground(other, job),
        lambda: _is_large(line, job) and _is_large(other, job),
    )


def _is_large(line: Service, job: Job) -> bool:
    size = hot_size(line, job)
    least = job.setting("service-lines.as-one-from").by_metal.get(size.metal)
    return least is not None and size >= least


def _most_alike(lines: list[Service]) -> tuple[Service, ...]:
    """The largest number of lines of one voltage and phase."""
    if len({id(line.from_) for line in lines}) < 2:
        return tuple(lines)
    kinds: dict[object, list[Service]] = {}
    for line in lines:
        source = line.from_
        assert isinstance(source, Supply)
        kinds.setdefault((str(source.volts.line), str(source.volts.to_neutral), source.phase), []).append(line)
    most = max(kinds.values(), key=len)
    return tuple(most)


@fact
def passes_another_building(service: Service, job: Job) -> bool:
    """Whether a room that it passes, or that a pipe of it runs through inside, belongs to a building that it doesn't supply.

    So does a way below such a building, unless it counts as outside. NFPA 70 230.3, 230.6.
    """

    def is_own(spot: Building | None) -> bool:
        return spot is None or spot is building_served(service, job)

    inside = Members(pipes_of(service, job)).where(lambda pipe: not pipe.states("trench") and pipe.route == "inside")
    below = Members(ways_of(service, job))
    return not all_hold(
        lambda: Members(service.passes).every(lambda spot: is_own(building_at(spot))),
        lambda: inside.every(lambda pipe: is_own(building_at(pipe.at))),
        lambda: below.every(
            lambda way: any_holds(
                lambda: not is_below(way),
                lambda: counts_as_outside(way, job),
                lambda: is_own(_building_above(way, service, job)),
            )
        ),
    )


def _building_above(way: Raceway | Trench, service: Service, job: Job) -> Building | None:
    """The building under which a pipe of it lies, or a ditch: there it has to lie in pipe, and the pipe says where it is."""
    if isinstance(way, Raceway):
        return building_at(way.at) or not_stated(way, "at", f"{way.name}: at, a place in the building under which it lies")
    if not any(pipe.states("trench") and pipe.trench is way for pipe in pipes_of(service, job)):
        not_stated(service, "raceway", f"{service.name}: the pipe that takes it out past the walls, for it lies below a building")
    return None


@fact
def barrier_needed(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether the live service terminals in it must be covered as long as it is service equipment, by edition.

    2017: of panels, but not of one that holds several service disconnects (NFPA 70 408.3(A)(2)); from 2020 on of all service
    equipment (230.62(C)).
    """
    kinds: tuple[str, ...] = job.setting("barrier-needed.of")
    if gear.kind not in kinds:
        return False
    if not isinstance(gear, Panel) or not job.setting("barrier-needed.not-of-several-mains"):
        return True
    return gear.main != "lugs"


@fact
def service_gear_lacks(gear: Disconnect | Panel | TransferSwitch, job: Job) -> str:
    """What it lacks as service equipment, in words. NFPA 70 230.66, 230.62(C)."""
    found: list[str] = []
    if gear.states("service-rated") and not gear.service_rated:
        found.append("it is not marked as suitable for service equipment")
    if gear.states("line-barrier") and not gear.line_barrier and barrier_needed(gear, job):
        found.append("nothing covers its live service terminals")
    return "; ".join(found) or "nothing"


@fact
def has_no_gas_near(meter: Meter, job: Job) -> bool:
    """Whether no distance to gas need be stated for it: the plan says none, and shows all piping and no gas among it.

    Common practice of utilities, no clause.
    """
    if meter.states("gas-distance") or "gas-distance" in meter.unknown:
        return False
    gas = job.graph.all(Piping).where(lambda pipe: pipe.type == "gas")
    return not gas.known and not gas.gaps
