"""How hard a pull is: the tension at the rope and the pressure in the bends, against what its maker allows."""

from typing import Literal

from planlint.facts.engine import Job, fact
from planlint.facts.pull_limits import HANDBOOK, drag_here, most_tension_by_wires, of_pull
from planlint.facts.pull_path import Part, hardest_parts, parts_of_pull, pieces_of_pull
from planlint.facts.pull_steps import past
from planlint.plan.elements import NotStated, does_not_arise, not_stated
from planlint.plan.members import Members
from planlint.plan.routes import Raceway
from planlint.quantities import Force, ForcePerLength, Length, figured


@fact
def pull_tension(raceway: Raceway, job: Job) -> Force:
    """The tension at the end of its pull, where the rope comes out, if the wires are fed in at the first piece.

    Handbooks on cable pulling: a straight part adds weight x length x (sin slope + drag x cos slope), a bend multiplies by about
    e^(drag x angle); drag is the friction times the weight correction. The steps are in pounds, feet and radians.
    """
    _arises(raceway, job)
    return _last(_along(parts_of_pull(raceway, job), raceway, job))


@fact
def pull_tension_back(raceway: Raceway, job: Job) -> Force:
    """The tension where the rope comes out, if the wires are fed in at the last piece and pulled toward the first."""
    _arises(raceway, job)
    back = tuple(part.back() for part in reversed(parts_of_pull(raceway, job)))
    return _last(_along(back, raceway, job))


@fact
def most_pull_tension(raceway: Raceway, job: Job) -> Force:
    """The tension is never more, however the parts lie of which slopes or sections aren't stated."""
    _arises(raceway, job)
    return _last(_along(hardest_parts(raceway, job), raceway, job))


@fact
def better_end(raceway: Raceway, job: Job) -> Literal["last", "first", "either"]:
    """The end from which its wires come in with less tension: the rope is pulled out of the last piece, or of the first."""
    there, back = pull_tension(raceway, job), pull_tension_back(raceway, job)
    end: Literal["last", "first", "either"] = "either" if there == back else "last" if there < back else "first"
    job.step(f"{there} out of the last piece, {back} out of the first", end, HANDBOOK)
    return end


@fact
def sidewall(raceway: Raceway, job: Job) -> ForcePerLength:
    """The most pressure in a bend: the tension past it over the radius of its inner wall, against which the wires are drawn.

    Handbooks on cable pulling. That is the pressure of all wires together, of which no single one bears more. 0 without bends.
    """
    _arises(raceway, job)
    return _pressure(parts_of_pull(raceway, job), raceway, job)


@fact
def most_sidewall_pressure(raceway: Raceway, job: Job) -> ForcePerLength:
    """The pressure in a bend is never more, however the parts lie of which slopes or sections aren't stated."""
    _arises(raceway, job)
    return _pressure(hardest_parts(raceway, job), raceway, job)


@fact
def pull_faults(raceway: Raceway, job: Job) -> str:
    """What of its pull is more than allowed, in words: tension, pressure in a bend. Common practice."""
    found: list[str] = []
    try:
        if (tension := judged_tension(raceway, job)) > (most := most_tension_here(raceway, job)):
            found.append(f"takes {tension} where the rope comes out, where {most} is allowed")
    except NotStated:  # what is open is no fault that could be spoken of
        pass
    try:
        if (pressure := judged_pressure(raceway, job)) > (limit := most_sidewall_here(raceway, job)):
            found.append(f"presses with {pressure} in its hardest bend, where {limit} is allowed")
    except NotStated:
        pass
    return ", and ".join(found) or "takes nothing too much"


@fact
def ways_to_ease(raceway: Raceway, job: Job) -> str:
    """What makes its pull easier, with the figures that can be told. Common practice."""
    ways = ["use plenty of the right lubricant"]
    for way in (_from_the_first, _in_wider_bends, _in_shorter_pulls):
        try:
            ways.append(way(raceway, job))
        except NotStated:  # what can't be told is not proposed
            continue
    return "; ".join(filter(None, ways))


def _from_the_first(raceway: Raceway, job: Job) -> str:
    back = pull_tension_back(raceway, job)
    return f"pull it out of the first piece ({back})" if better_end(raceway, job) == "first" else ""


def _in_wider_bends(raceway: Raceway, job: Job) -> str:
    if judged_pressure(raceway, job) <= most_sidewall_here(raceway, job):
        return ""
    return f"bend with a radius of {bend_radius_for_pull(raceway, job)} or more"


def _in_shorter_pulls(raceway: Raceway, job: Job) -> str:
    return f"put a pull box or a handhole between, for one straight, level pull may be {longest_pull(raceway, job)} long"


def _arises(raceway: Raceway, job: Job) -> None:
    """A pull is worked out where somebody says what is pulled weighs; most short ones aren't."""
    try:
        pieces = pieces_of_pull(raceway, job)
    except NotStated:
        pieces = (raceway,)
    if not any(piece.states("cable-weight") or "cable-weight" in piece.unknown for piece in pieces):
        does_not_arise(raceway, f"{raceway.name}: a pull that is worked out, with its cable-weight")


def _along(parts: tuple[Part, ...], raceway: Raceway, job: Job) -> list[tuple[Part, float]]:
    """Each part with the tension past it, in pounds."""
    weight: float = of_pull(raceway, "cable-weight", job).within("lb/ft")
    tension = job.setting("pull-tension.at-the-reel").within("lb")
    passed = []
    for part in parts:
        if not part.angle and not part.length:
            continue
        drag = drag_here(part.piece, job)
        tension, text = past(part, tension, weight, drag)
        job.step(text, f"{figured(tension, 4)} lb", HANDBOOK)
        passed.append((part, tension))
    return passed


def _last(passed: list[tuple[Part, float]]) -> Force:
    return Force.of(passed[-1][1] if passed else 0.0, "lb")


def _pressure(parts: tuple[Part, ...], raceway: Raceway, job: Job) -> ForcePerLength:
    most = 0.0
    for part, tension in _along(parts, raceway, job):
        if part.angle:
            inner = part.radius - _half_inside(part, job)
            if inner <= 0:
                not_stated(part.piece, "bend-radius", f"{part.piece.name}: a bend-radius of more than half its width")
            half = figured(_half_inside(part, job), 4)
            wall = f"inner wall of {part.piece.name}, half of its inside ({half} ft) nearer than its middle"
            text = f"{wall}: {figured(tension, 4)} lb / ({figured(part.radius, 4)} ft - {half} ft)"
            job.step(text, f"{figured(tension / inner, 4)} lb/ft", HANDBOOK)
            most = max(most, tension / inner)
    return ForcePerLength.of(most, "lb/ft")


def _half_inside(part: Part, job: Job) -> float:
    """Feet from the middle of the pipe to its wall."""
    return job.tables.inside_diameter(part.piece.type, part.piece.size).within("ft") / 2


@fact
def judged_tension(raceway: Raceway, job: Job) -> Force:
    """The tension that is held against what is allowed: the most that it can be if that passes, otherwise the tension itself.

    Common practice. So slopes and sections are asked only where the pull might be too hard.
    """
    most = most_pull_tension(raceway, job)
    return most if most <= most_tension_here(raceway, job) else pull_tension(raceway, job)


@fact
def judged_pressure(raceway: Raceway, job: Job) -> ForcePerLength:
    """The pressure in a bend that is held against what is allowed: the most if that passes, otherwise the pressure itself.

    Common practice.
    """
    most = most_sidewall_pressure(raceway, job)
    return most if not most.amount or most <= most_sidewall_here(raceway, job) else sidewall(raceway, job)


@fact
def pull_is_straight(raceway: Raceway, job: Job) -> bool:
    """Whether no piece of its pull has a bend."""
    return Members(pieces_of_pull(raceway, job)).every(lambda piece: not piece.bends)


@fact
def most_tension_here(raceway: Raceway, job: Job) -> Force:
    """The tension that is stated as allowed, on whichever piece of its pull. Common practice: its maker says it.

    Where nothing is stated, the question names what the metal of the wires bears, for that may be what is meant.
    """
    _arises(raceway, job)
    if not any(piece.states("most-tension") or "most-tension" in piece.unknown for piece in pieces_of_pull(raceway, job)):
        try:
            bears = most_tension_by_wires(raceway, job)
            note = f"{raceway.name}: most-tension, from the maker (the metal of its wires bears {bears})"
        except NotStated:
            note = ""
        not_stated(raceway, "most-tension", note)
    limit: Force = of_pull(raceway, "most-tension", job)
    return limit


@fact
def most_sidewall_here(raceway: Raceway, job: Job) -> ForcePerLength:
    """The pressure in a bend that is stated as allowed, on whichever piece of its pull. Common practice: its maker says it."""
    _arises(raceway, job)
    limit: ForcePerLength = of_pull(raceway, "most-sidewall", job)
    return limit


@fact
def longest_pull(raceway: Raceway, job: Job) -> Length:
    """The longest straight, level pull of what goes into it that keeps within the tension allowed: T / (w x drag)."""
    most, weight = most_tension_here(raceway, job), of_pull(raceway, "cable-weight", job)
    drag = drag_here(raceway, job)
    if not weight.amount:
        not_stated(raceway, "cable-weight", f"{raceway.name}: cable-weight above zero")
    longest = Length.of(most.within("lb") / (weight.within("lb/ft") * drag), "ft")
    job.step(f"{most} / ({weight} x {figured(drag, 4)})", longest, HANDBOOK)
    return longest


@fact
def bend_radius_for_pull(raceway: Raceway, job: Job) -> Length:
    """The radius, to the middle of the pipe, with which every bend of its pull keeps within the pressure allowed: T / p.

    With the tension as it is with the bends that are stated; the pipe's own least radius (Chapter 9 Table 2) holds beside it.
    """
    most = most_sidewall_here(raceway, job)
    bends = [(part, tension) for part, tension in _along(parts_of_pull(raceway, job), raceway, job) if part.angle]
    if not bends or not most.amount:
        not_stated(raceway, "most-sidewall" if bends else "bends", f"{raceway.name}: a bend, and most-sidewall above zero")
    needed = 0.0
    for part, tension in bends:
        inner, half = tension / most.within("lb/ft"), _half_inside(part, job)
        text = f"{figured(tension, 4)} lb / {most} + half of the inside, {figured(half)} ft"
        job.step(text, f"{figured(inner + half, 4)} ft", HANDBOOK)
        needed = max(needed, inner + half)
    return Length.of(needed, "ft")
