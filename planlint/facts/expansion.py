"""How much a straight pipe grows from winter to summer, and the fittings that take it up."""

import math

from planlint.facts.engine import Job, fact
from planlint.facts.pulls import next_piece, piece_before
from planlint.facts.ways import lies
from planlint.plan.elements import does_not_arise, not_stated
from planlint.plan.members import Members, all_hold
from planlint.plan.routes import Raceway
from planlint.quantities import TOLERANCE, Length, figured

PLASTIC = ("PVC-40", "PVC-80")
EXPOSED = ("above-grade", "riser", "roof")
# Lengths are read off a tape and a sketch: so far may straight parts and bends be from the whole before one of them is wrong.
LEAST_OF_LENGTH, MOST_OF_LENGTH = 0.8, 1.1


@fact
def is_exposed_plastic(raceway: Raceway, job: Job) -> bool:
    """Whether it is PVC out in the weather: on a wall, up a riser, on a roof. NFPA 70 352.44 (2023: 352.44(A))."""
    return all_hold(lambda: raceway.type in PLASTIC, lambda: lies(raceway, job) in EXPOSED)


def joined_pieces(raceway: Raceway, job: Job) -> tuple[Raceway, ...]:
    """The plastic pieces of its pull that follow one another with it, in order, in the weather or inside as it is.

    A coupling fixes nothing. Raises NotStated where the plan doesn't say what follows it or comes before.
    """
    pieces = [raceway]
    while (before := piece_before(pieces[0], job)) is not None and _lies_alike(before, raceway, job):
        pieces.insert(0, before)
    while (following := next_piece(pieces[-1], job)) is not None and _lies_alike(following, raceway, job):
        pieces.append(following)
    return tuple(pieces)


def _lies_alike(piece: Raceway, raceway: Raceway, job: Job) -> bool:
    if lies(raceway, job) == "inside":
        return all_hold(lambda: piece.type in PLASTIC, lambda: lies(piece, job) == "inside")
    return is_exposed_plastic(piece, job)


def straight_parts(raceway: Raceway) -> tuple[Length, ...]:
    """Its straight parts in order; of a pipe without bends its length. Raises NotStated where they can't be told."""
    if not raceway.states("sections") and not raceway.bends:
        return (raceway.length,)
    if len(raceway.sections) != len(raceway.bends) + 1:
        not_stated(raceway, "sections", f"{raceway.name}: sections, one more than its bends")
    if raceway.states("length"):
        _add_up(raceway)
    return raceway.sections


def _add_up(raceway: Raceway) -> None:
    """Raises NotStated where its straight parts and bends are far from its length: one of them is wrong."""
    straight = sum(part.within("ft") for part in raceway.sections)
    radius = raceway.bend_radius.within("ft") if raceway.states("bend-radius") else 0.0
    whole = straight + radius * sum(math.radians(bend.within("deg")) for bend in raceway.bends)
    length = raceway.length.within("ft")
    if straight > MOST_OF_LENGTH * length or whole < LEAST_OF_LENGTH * length:
        said = f"which add up to {figured(straight)} ft beside its bends, where its length is {raceway.length}"
        not_stated(raceway, "sections", f"{raceway.name}: sections, {said}")


def stretches(raceway: Raceway, job: Job) -> list[tuple[Length, list[Raceway]]]:
    """The straight stretches that it is part of, each with the pieces that it goes through."""
    found: list[tuple[Length, list[Raceway]]] = []
    for piece in joined_pieces(raceway, job):
        first, *others = straight_parts(piece)
        if found:
            length, pieces = found.pop()
            found.append((length + first, [*pieces, piece]))
        else:
            found.append((first, [piece]))
        found += [(part, [piece]) for part in others]
    return [one for one in found if any(piece is raceway for piece in one[1])]


@fact
def most_straight(raceway: Raceway, job: Job) -> Length:
    """No straight stretch of it is longer: its whole length, with that of the exposed pieces it is joined to.

    NFPA 70 352.44.
    """
    first, *others = joined_pieces(raceway, job)
    total = first.length
    for piece in others:
        total = total + piece.length
    return total


@fact
def longest_straight(raceway: Raceway, job: Job) -> Length:
    """Its longest straight stretch between what holds it fast: boxes, fittings, elbows; through couplings it goes on.

    NFPA 70 352.44. Not stated of a pipe with bends without its sections.
    """
    return max(length for length, _ in stretches(raceway, job))


@fact
def most_length_change(raceway: Raceway, job: Job) -> Length:
    """It never grows more than that, wherever its bends are. NFPA 70 Table 352.44 (2023: 352.44(A))."""
    _arises(raceway, job)
    return _grown(raceway, most_straight(raceway, job), job)


@fact
def length_change(raceway: Raceway, job: Job) -> Length:
    """How much its longest straight stretch grows from the coldest to the hottest day of the year.

    NFPA 70 Table 352.44 (2023: 352.44(A)): the coefficient times length and temperature swing.
    """
    _arises(raceway, job)
    return _grown(raceway, longest_straight(raceway, job), job)


def _arises(raceway: Raceway, job: Job) -> None:
    """Of other pipe than PVC in the weather it is asked only if somebody says between which temperatures it lies."""
    if not raceway.states("temperature-swing") and not is_exposed_plastic(raceway, job):
        does_not_arise(raceway, f"{raceway.name}: PVC pipe in the weather, or a temperature-swing")


def _grown(raceway: Raceway, straight: Length, job: Job) -> Length:
    coefficient = job.tables.expansion_coefficient(raceway.type)
    inches, swing = straight.within("in"), raceway.temperature_swing.within("F")
    change = Length.of(coefficient * inches * swing, "in")
    job.step(f"{figured(coefficient)} x {figured(inches, 4)} in x {figured(swing, 4)} F", change, job.from_table("expansion"))
    return change


@fact
def has_expansion_fitting(raceway: Raceway, job: Job) -> bool:
    """Whether it has an expansion fitting, or a piece has one that goes straight on from it. NFPA 70 352.44."""
    if raceway.states("expansion-fitting") and raceway.expansion_fitting:
        return True
    pieces = {id(piece): piece for _, shared in stretches(raceway, job) for piece in shared}
    return Members(tuple(pieces.values())).some(lambda piece: piece.expansion_fitting)


@fact
def expansion_fittings_needed(raceway: Raceway, job: Job) -> int:
    """How many expansion fittings take up what its longest straight stretch grows, by how far those of its size slide.

    Common practice, from a maker's handbook: 4 in, and 8 in from trade size 2 on. Each stands between two fixed points.
    """
    change = length_change(raceway, job)
    large = Length.of(raceway.size.inches, "in") >= job.setting("expansion-fittings-needed.large-from")
    travel: Length = job.setting(f"expansion-fittings-needed.travel{'-of-large' if large else ''}")
    count = math.ceil(change.over(travel) - TOLERANCE)
    job.step(f"{change} / {travel}, rounded up", count, "common practice: how far a fitting slides")
    return count
