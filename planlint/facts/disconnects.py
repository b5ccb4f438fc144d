"""What shuts a building off: its disconnects, where they stand, and what their labels say."""

from planlint.facts.buildings import in_open_air, is_dwelling, stands_at
from planlint.facts.engine import Job, fact
from planlint.facts.roles import ServiceGear, role
from planlint.facts.supplies import circuits_in, feeders, opens, plain_switches, service_disconnects, services
from planlint.plan import Building, Circuit, Disconnect, Feeder, Meter, Panel, Service, TransferSwitch
from planlint.plan.elements import Need, NotStated
from planlint.plan.gear import Supply
from planlint.plan.members import Members, all_hold, any_holds, merged

# The words that each kind of emergency disconnect bears. NFPA 70 230.85 (2023: 230.85(E)), 225.41(C).
_WORDS = {
    "service": ("emergency-disconnect", "service-disconnect"),
    "ahead-of-service": ("emergency-disconnect", "not-service-equipment"),
    "downstream": ("emergency-disconnect",),
}


@fact
def dwellings_shut_off(gear: Disconnect | Panel | TransferSwitch, job: Job) -> Members[Building]:
    """The dwellings whose emergency disconnect it can be, whatever its label says: it stands on their way in.

    NFPA 70 230.85; by edition also 225.41, for dwellings that a feeder supplies.
    """

    def is_one(building: Building) -> bool:
        return all_hold(
            lambda: _can_shut_off(gear, building, job),
            lambda: is_dwelling(building, job),
            lambda: gear_on_the_way_in(building, job).some(lambda one: one is gear),
            lambda: (
                not all_hold(
                    lambda: not job.setting("is-emergency-disconnect.where-feeder-arrives"),
                    lambda: not services(building, job).some(lambda run: True),
                )
            ),
        )

    found = job.graph.all(Building).where(is_one)
    return Members(found.known, merged(found.gaps, _beyond(gear, job)))


def _beyond(gear: ServiceGear, job: Job) -> tuple[Need, ...]:
    """What leaves open whether gear that may count goes on to a dwelling that isn't shown."""
    onward = job.graph.feeds_from(gear).gaps
    try:
        counts = all_hold(lambda: in_open_air(gear.at, job), lambda: opens(gear), lambda: _is_of_a_kind(gear, job))
    except NotStated:
        return onward
    return onward if counts and (not gear.states("readily-accessible") or gear.readily_accessible) else ()


@fact
def is_emergency_disconnect(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether it can serve as the emergency disconnect of a dwelling, whatever its label says. NFPA 70 230.85, 225.41."""
    return dwellings_shut_off(gear, job).some(lambda building: True)


def _can_shut_off(gear: ServiceGear, building: Building, job: Job) -> bool:
    """Whether gear on a building's way in is outdoors, readily accessible, of a kind that counts and, by edition, near enough."""
    return all_hold(
        lambda: in_open_air(gear.at, job),
        lambda: opens(gear),
        lambda: _is_of_a_kind(gear, job),
        lambda: gear.readily_accessible,
        lambda: not job.setting("is-emergency-disconnect.near-the-dwelling") or _is_near(gear, building),
    )


def _is_of_a_kind(gear: ServiceGear, job: Job) -> bool:
    """Whether it is one of the edition's kinds.

    On a service it is made for service equipment, or is a meter disconnect (230.82(3)), by its place ahead of a meter or by its
    label; a feeder's disconnect need not be.
    """
    place = role(gear, job)
    if place not in ("service", "ahead-of-service"):
        return bool(place == "downstream" and job.setting("is-emergency-disconnect.where-feeder-arrives"))
    onward = job.graph.those(Service, "from", gear)
    return not all_hold(
        lambda: not gear.service_rated,
        lambda: not onward.some(lambda run: isinstance(run.to, Meter)),
        lambda: place == "service" or "meter-disconnect" not in gear.marking,
    )


def _is_near(gear: ServiceGear, building: Building) -> bool:
    """Whether it is on the building or in its sight; open while one of the two is left out and the other doesn't say yes."""
    return not all_hold(lambda: gear.mounted_on is not building, lambda: building not in gear.within_sight_of)


@fact
def shuts_off_outdoors(building: Building, job: Job) -> bool:
    """Whether a disconnect that counts as its emergency disconnect stands on each of its ways in.

    On each service that ends in it or on its wall; where none does, on each feeder that comes to it, be it from a post.
    NFPA 70 230.85, 225.41.
    """

    def passes_one(run: Service | Feeder) -> bool:
        return _on_the_way(run, job).some(lambda gear: _can_shut_off(gear, building, job))

    own = own_services(building, job)
    return own.every(passes_one) if own.some(lambda run: True) else feeders(building, job).every(passes_one)


@fact
def has_new_service(building: Building, job: Job) -> bool:
    """Whether a service of it is new work: in a new building, or in place of an old one. NFPA 70 230.85 (2023: 230.85(C))."""
    return any_holds(
        lambda: building.construction == "new",
        lambda: services(building, job).some(lambda run: not run.existing),
    )


@fact
def service_disconnects_outdoors(building: Building, job: Job) -> bool:
    """Whether its service disconnects themselves stand outdoors, readily accessible, on it or in its sight.

    NFPA 70 2026: 230.70(A)(1), as summaries of the change tell it.
    """

    def is_so(gear: ServiceGear) -> bool:
        return all_hold(lambda: in_open_air(gear.at, job), lambda: gear.readily_accessible, lambda: _is_near(gear, building))

    mains = service_disconnects(building, job)
    return all_hold(lambda: mains.some(lambda gear: True), lambda: mains.every(is_so))


@fact
def own_services(building: Building, job: Job) -> Members[Service]:
    """The services that end in it or on its wall, not those that end on a post. NFPA 70 230.70(A), 250.24(A)(1)."""
    return services(building, job).where(lambda run: stands_at(run.to, job) is building)


def _on_the_way(run: Service | Feeder, job: Job) -> Members[ServiceGear]:
    """The gear at a run's end and ahead of it, nearest first, without meters; open where nothing says what comes before."""
    known: list[ServiceGear] = []
    try:
        while True:
            if not isinstance(run.to, Meter):
                known.append(run.to)
            if isinstance(run.from_, Supply):
                return Members(tuple(known))
            run = job.graph.feed(run.from_)
    except NotStated as gap:
        return Members(tuple(known), gap.needs)


@fact
def gear_on_the_way_in(building: Building, job: Job) -> Members[Disconnect | Panel | TransferSwitch]:
    """All gear that power passes on its way into the building, from the supply on, meters left out."""
    own = own_services(building, job)
    runs: Members[Service | Feeder] = Members(own.known, own.gaps)
    runs = runs.joined(feeders(building, job))
    found: Members[ServiceGear] = Members((), runs.gaps)
    return found.joined(*(_on_the_way(run, job) for run in runs))


@fact
def service_disconnect(gear: Disconnect | Panel | TransferSwitch, job: Job) -> Disconnect | Panel | TransferSwitch:
    """The service disconnect ahead of it, or itself. Not stated where none is on its way from the supply. NFPA 70 230.70."""
    found = _on_the_way(job.graph.feed(gear), job).where(lambda one: role(one, job) == "service")
    if not found.known:
        raise NotStated(*found.gaps or (Need(gear, "fed-by", note=f"the service disconnect ahead of {gear.name}"),))
    return found.known[0]


@fact
def supply_disconnects(building: Building, job: Job) -> Members[Disconnect | Panel | TransferSwitch]:
    """What shuts the building off at the building itself: each disconnect, panel with a main, or transfer switch in it or on its
    wall that its services and feeders pass; where a feeder ends on the lugs of a panel, that panel, if its few breakers do.

    NFPA 70 225.31, 225.32, 225.33, 230.70.
    """
    own = gear_on_the_way_in(building, job).where(lambda gear: stands_at(gear, job) is building)
    return own.where(lambda gear: _shuts_off(gear, job))


def _shuts_off(gear: ServiceGear, job: Job) -> bool:
    return any_holds(lambda: opens(gear), lambda: _few_breakers_open(gear, job))


def _few_breakers_open(gear: ServiceGear, job: Job) -> bool:
    """Whether the breakers of a feeder's panel on lugs shut off all that it feeds, and are few enough. NFPA 70 225.33(A)."""
    if not isinstance(gear, Panel) or gear.main != "lugs" or not isinstance(job.graph.feed(gear), Feeder):
        return False
    breakers = throws_of(gear, job)
    most: float = job.setting("supply-disconnects.breakers-on-lugs")
    return len(breakers.known) <= most and 1 <= len(breakers.whole()) <= most


@fact
def feeders_shut_off(building: Building, job: Job) -> bool:
    """Whether each feeder from outside ends in a disconnect, a panel with a main or a transfer switch that is readily accessible.

    A panel on lugs does too, if its few breakers open all that it feeds. NFPA 70 225.31, 225.32, 225.33.
    """
    return feeders(building, job).every(lambda run: all_hold(lambda: _shuts_off(run.to, job), lambda: run.to.readily_accessible))


@fact
def circuits_shut_off(building: Building, job: Job) -> bool:
    """Whether a plain switch at the building that is readily accessible opens its branch circuits from outside, if any come.

    A plan doesn't say which switch opens which circuit; one may open several. NFPA 70 225.31, 225.36.
    """
    return any_holds(
        lambda: not circuits_in(building, job).some(lambda circuit: True),
        lambda: plain_switches(building, job).some(lambda switch: switch.readily_accessible),
    )


@fact
def marking_suits(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether its label has the words of its kind of emergency disconnect and, by edition, white letters on red.

    One ahead of the service disconnect that is not made for service equipment is a meter disconnect, and has to say so.
    NFPA 70 230.85(E), 225.41(C).
    """
    return all_hold(
        lambda: set(_WORDS.get(role(gear, job), ())) <= set(gear.marking),
        lambda: any_holds(
            lambda: role(gear, job) != "ahead-of-service",
            lambda: "meter-disconnect" in gear.marking,
            lambda: gear.service_rated,
        ),
        lambda: not job.setting("marking-suits.white-on-red") or gear.label == "white-on-red",
    )


@fact
def words_needed(gear: Disconnect | Panel | TransferSwitch, job: Job) -> str:
    """The words that belong on it as an emergency disconnect. NFPA 70 230.85(E), 225.41(C)."""
    words = _WORDS.get(role(gear, job), ())
    is_meters = role(gear, job) == "ahead-of-service" and gear.states("service-rated") and not gear.service_rated
    return ", ".join((*words, "meter-disconnect") if is_meters else words)


@fact
def labeled_in_series(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether another emergency disconnect on the same service bears its label, so that this one needs none.

    One ahead of it, or all that its services go on to.
    """

    def bears_it(other: ServiceGear) -> bool:
        return all_hold(lambda: is_emergency_disconnect(other, job), lambda: marking_suits(other, job))

    ahead = _on_the_way(job.graph.feed(gear), job)
    if Members(ahead.known[1:], ahead.gaps).some(bears_it):
        return True
    if role(gear, job) != "ahead-of-service":
        return False
    behind = _next_on_service(gear, job)
    return all_hold(lambda: behind.some(lambda other: True), lambda: behind.every(bears_it))


def _next_on_service(gear: ServiceGear | Meter, job: Job) -> Members[ServiceGear]:
    """The gear that its services go on to, through meters."""
    runs = job.graph.those(Service, "from", gear)
    parts: list[Members[ServiceGear]] = []
    for run in runs:
        try:
            end = run.to
        except NotStated as gap:
            parts.append(Members((), gap.needs))
            continue
        parts.append(_next_on_service(end, job) if isinstance(end, Meter) else Members((end,)))
    found: Members[ServiceGear] = Members((), runs.gaps)
    return found.joined(*parts)


@fact
def service_throws(building: Building, job: Job) -> Members[Disconnect | Panel | TransferSwitch | Feeder | Circuit]:
    """What one has to throw to shut its service off: the service disconnects; where service wires end on the lugs of a panel,
    the breakers in it. NFPA 70 230.71.
    """
    mains = service_disconnects(building, job)
    found: Members[ServiceGear | Feeder | Circuit] = Members((), mains.gaps)
    return found.joined(*(throws_of(gear, job) for gear in mains))


def throws_of(gear: ServiceGear, job: Job) -> Members[ServiceGear | Feeder | Circuit]:
    """What one has to throw to open all that gear feeds: itself; of a panel on lugs the breakers in it."""
    if not isinstance(gear, Panel):
        return Members((gear,))
    if not gear.states("main"):
        return Members((gear,), (Need(gear, "main"),))
    if gear.main != "lugs":
        return Members((gear,))
    inside: Members[ServiceGear | Feeder | Circuit] = Members((), ())
    return inside.joined(job.graph.those(Feeder, "from", gear), job.graph.those(Circuit, "panel", gear))


@fact
def mains_grouped(building: Building, job: Job) -> bool:
    """Whether all its service disconnects are in one place. NFPA 70 230.72."""
    mains = service_disconnects(building, job)
    if len(mains.known) < 2:
        return len(mains.whole()) < 2
    return mains.every(lambda gear: gear.at is mains.known[0].at)


@fact
def mains_apart(building: Building, job: Job) -> bool:
    """Whether no two of its service disconnects share an enclosure. NFPA 70 230.71(B)."""
    mains = service_disconnects(building, job)
    if mains.some(lambda gear: len(throws_of(gear, job).known) > 1):
        return False
    if len(mains.known) < 2:
        return len(mains.whole()) < 2
    return mains.every(lambda gear: not isinstance(gear, Disconnect) or gear.shares_enclosure_with not in mains.known)
