"""How hard a pull is: the tension at the rope and the pressure in the bends, against what its maker allows."""

from typing import Literal

from planlint.facts.engine import Job, fact
from planlint.facts.pull_limits import HANDBOOK, most_tension_by_wires, of_pull, weight_correction_here
from planlint.facts.pull_path import Part, hardest_parts, parts_of_pull, pieces_of_pull
from planlint.facts.pull_steps import past
from planlint.plan.elements import NotStated, not_stated
from planlint.plan.members import Members
from planlint.plan.routes import Raceway
from planlint.quantities import Force, ForcePerLength, Length, figured


@fact
def pull_tension(raceway: Raceway, job: Job) -> Force:
    """The tension at the end of its pull, where the rope comes out, if the wires are fed in at the first piece.

    Handbooks on cable pulling: a straight part adds weight x length x (sin slope + drag x cos slope), a bend multiplies by about
    e^(drag x angle); drag is the friction times the weight correction. The steps are in pounds, feet and radians.
    """
    return _last(_along(parts_of_pull(raceway, job), raceway, job))


@fact
def pull_tension_back(raceway: Raceway, job: Job) -> Force:
    """The tension where the rope comes out, if the wires are fed in at the last piece and pulled toward the first."""
    back = tuple(part.back() for part in reversed(parts_of_pull(raceway, job)))
    return _last(_along(back, raceway, job))


@fact
def most_pull_tension(raceway: Raceway, job: Job) -> Force:
    """The tension is never more, however the parts lie of which slopes or sections aren't stated."""
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
    return _pressure(parts_of_pull(raceway, job), raceway, job)


@fact
def most_sidewall_pressure(raceway: Raceway, job: Job) -> ForcePerLength:
    """The pressure in a bend is never more, however the parts lie of which slopes or sections aren't stated."""
    return _pressure(hardest_parts(raceway, job), raceway, job)


def _along(parts: tuple[Part, ...], raceway: Raceway, job: Job) -> list[tuple[Part, float]]:
    """Each part with the tension past it, in pounds."""
    weight = of_pull(raceway, "cable-weight", job).within("lb/ft")
    tension = job.setting("pull-tension.at-the-reel").within("lb")
    passed = []
    for part in parts:
        if not part.angle and not part.length:
            continue
        drag = part.piece.friction * weight_correction_here(part.piece, job)
        if drag <= 0:
            not_stated(part.piece, "friction", f"{part.piece.name}: friction, a number above zero")
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
            job.step(f"{figured(tension, 4)} lb / {figured(inner, 4)} ft", f"{figured(tension / inner, 4)} lb/ft", HANDBOOK)
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
    limit: ForcePerLength = of_pull(raceway, "most-sidewall", job)
    return limit


@fact
def longest_pull(raceway: Raceway, job: Job) -> Length:
    """The longest straight, level pull of what goes into it that keeps within the tension allowed: T / (w x drag)."""
    most, weight = most_tension_here(raceway, job), of_pull(raceway, "cable-weight", job)
    drag = raceway.friction * weight_correction_here(raceway, job)
    if drag <= 0 or not weight.amount:
        not_stated(raceway, "cable-weight" if drag > 0 else "friction", f"{raceway.name}: friction and cable-weight above zero")
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
