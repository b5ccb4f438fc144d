"""How far it is along walls and counters to the next receptacle."""

from itertools import pairwise

from planlint.facts.buildings import building_at, is_dwelling
from planlint.facts.engine import Job, fact
from planlint.plan.elements import not_stated
from planlint.plan.members import all_hold
from planlint.plan.site import Place
from planlint.plan.spaces import Counter, WallSpace
from planlint.quantities import Length

CLAUSES = {"wall-space": "NFPA 70 210.52(A)(1)", "counter": "NFPA 70 210.52(C)(1)"}


@fact
def is_in_dwelling(place: Place, job: Job) -> bool:
    """Whether it is a room of a building in which one or two families live. NFPA 70 article 100."""
    home = building_at(place)
    return home is not None and is_dwelling(home, job)


@fact
def is_habitable(place: Place, job: Job) -> bool:
    """Whether people live in it: kitchen, dining, living, bedroom, den, recreation, sunroom, in a dwelling. NFPA 70 210.52(A).

    A finished basement or attic is one or the other of these: the plan must say which.
    """
    return all_hold(lambda: room_lived_in(place, job) in job.setting("is-habitable.rooms"), lambda: is_in_dwelling(place, job))


def room_lived_in(place: Place, job: Job) -> str:
    """The use of a room. Of a dwelling's finished basement or attic the plan has to say what it is lived in for."""
    if place.use in ("basement", "attic") and is_in_dwelling(place, job) and place.finished:
        not_stated(place, "use", f"{place.name}: use, what the finished room is lived in for (recreation, bedroom, den)")
    return place.use


@fact
def walls_are_shown(place: Place, job: Job) -> bool:
    """Whether the plan gives all its stretches of wall one by one, instead of a distance for all of them. NFPA 70 210.52(A)."""
    walls = job.graph.those(WallSpace, "at", place)
    if not place.states("receptacle-within"):
        return bool(walls.whole())
    if walls.known:
        not_stated(place, "receptacle-within", f"{place.name}: receptacle-within or wall-spaces, because the plan says both")
    return False


def positions(line: WallSpace | Counter) -> tuple[Length, ...]:
    """Where the receptacles are along the line, from its left end on. Raises NotStated for what no line can have."""
    if line.states("receptacle-within") and line.states("receptacles-at"):
        not_stated(line, "receptacles-at", f"{line.name}: receptacles-at or receptacle-within, because it says both")
    found = sorted(line.receptacles_at, key=lambda place: place.amount)
    if found and found[-1] > line.length:
        not_stated(line, "receptacles-at", f"{line.name}: receptacles-at, because {found[-1]} lies beyond its length")
    return tuple(found)


@fact
def has_receptacle(line: WallSpace | Counter, job: Job) -> bool:
    """Whether at least one receptacle is in it. NFPA 70 210.52(A), (C)."""
    if line.states("receptacle-within"):
        return not line.states("receptacles-at") or bool(positions(line))
    return bool(line.receptacles_at)


@fact
def farthest_point(line: WallSpace | Counter, job: Job) -> Length:
    """How far the point farthest from its receptacles is from the next one: the ends, and half of every gap between two.

    Where the plan states only within what distance a receptacle is, that. Without any receptacle there is no such distance.
    NFPA 70 210.52(A)(1), (C)(1).
    """
    if line.states("receptacle-within") and not line.states("receptacles-at"):
        job.step("as stated: no point is farther than", line.receptacle_within)
        return line.receptacle_within
    places = positions(line)
    if not places:
        not_stated(line, "receptacles-at", f"{line.name}: a receptacle, because it has none")
    gaps = [(before, after) for before, after in pairwise(places)]
    reaches = [
        (f"left end {places[0]}", places[0]),
        *((f"({after} - {before}) / 2", (after - before) * 0.5) for before, after in gaps),
        (f"right end {line.length} - {places[-1]}", line.length - places[-1]),
    ]
    far = max((reach for _, reach in reaches), key=lambda reach: reach.amount)
    far = far.shown_in("ft") if line.kind == "wall-space" else far.shown_in("in")
    job.step(f"the largest of {', '.join(text for text, _ in reaches)}", far, CLAUSES[line.kind])
    return far


@fact
def reach_in_words(line: WallSpace | Counter, job: Job) -> str:
    """What is found along it, in words for a finding."""
    if not has_receptacle(line, job):
        return "has no receptacle"
    return f"has a point that is {farthest_point(line, job).show()} from the next receptacle"
