"""A pull: pieces of pipe that follow one another with no box or conduit body between, and how much it turns."""

from planlint.facts.engine import Job, fact
from planlint.facts.ways import contents, pipes_of
from planlint.plan.elements import Element, NotStated, not_stated
from planlint.plan.routes import Raceway
from planlint.quantities import Angle, Length

# EMT is bent in one-shot and full-shoe benders (358.24). Flexible kinds take the column of Chapter 9 Table 2 for other bends
# (348.24, 350.24, 356.24, 362.24). Rigid steel and PVC may be bent either way, or turn with elbows from the factory.
BENT_IN_ONE_SHOT = ("EMT",)
BENT_BY_HAND = ("ENT", "FMC", "LFMC", "LFNC-A", "LFNC-B")


def next_piece(raceway: Raceway, job: Job) -> Raceway | None:
    """The piece that continues it; None at the end of the pull.

    Where the plan leaves it out, nothing follows a piece that every run through it names last. Raises NotStated of others.
    """
    if raceway.states("continues"):
        return raceway.continues
    runs = contents(raceway, job)
    if "continues" in raceway.unknown or not runs.known or any(run.raceway[-1] is not raceway for run in runs):
        not_stated(raceway, "continues")
    return None


def piece_before(raceway: Raceway, job: Job) -> Raceway | None:
    """The piece that it continues; None where its pull begins.

    Raises NotStated while a piece that a run through it names before it doesn't say what follows; and of a pipe that no run
    names, while another such pipe doesn't say it, or some may not be shown.
    """
    before = job.graph.those(Raceway, "continues", raceway)
    if before.known:
        return before.known[0]
    runs = contents(raceway, job).known
    open_ends = [need for need in before.gaps if not runs and _may_lead_anywhere(need.element, raceway, job)]
    if open_ends:
        raise NotStated(*open_ends)
    for run in runs:
        for other in run.raceway[: run.raceway.index(raceway)]:
            next_piece(other, job)
    return None


def _may_lead_anywhere(other: Element, raceway: Raceway, job: Job) -> bool:
    """Whether it may lead to a pipe that no run names: a pipe in which runs lie leads to the pipes that they name."""
    return other is not raceway and not (isinstance(other, Raceway) and contents(other, job).known)


def is_nipple(raceway: Raceway, limit: Length, job: Job) -> bool:
    """Whether the whole pull that it belongs to is no longer than the limit."""
    if raceway.length > limit:
        return False
    total, piece = raceway.length, raceway
    while (before := piece_before(piece, job)) is not None:
        total, piece = total + before.length, before
    piece = raceway
    while (following := next_piece(piece, job)) is not None:
        total, piece = total + following.length, following
    return total <= limit


@fact
def pull_begins(raceway: Raceway, job: Job) -> bool:
    """Whether no other raceway continues into it: a pull is judged at its first piece. NFPA 70 352.26."""
    return piece_before(raceway, job) is None


@fact
def known_bend(raceway: Raceway, job: Job) -> Angle:
    """Its bends and those of the pieces that are stated to continue it, added: a pull never turns less than that."""
    own = _sum(raceway)
    following = raceway.continues if raceway.states("continues") else None
    if following is None:
        job.step(f"bends of {raceway.name}", own)
        return own
    total = own + known_bend(following, job)
    job.step(f"{own} of {raceway.name} + {known_bend(following, job)} of {following.name} and what continues it", total)
    return total


@fact
def total_bend(raceway: Raceway, job: Job) -> Angle:
    """All bends from this piece to the end of the pull, added. NFPA 70 342.26 to 362.26."""
    end: Raceway | None = raceway
    while end is not None:
        end = next_piece(end, job)
    return known_bend(raceway, job)


@fact
def bend_of_runs(raceway: Raceway, job: Job) -> Angle:
    """All bends of all pipes of the runs through it, added: a pull never turns more, wherever its boxes are.

    Of a pipe that no run names, the bends of its pull.
    """
    runs = contents(raceway, job).known
    if not runs:
        return total_bend(raceway, job)
    pieces = {id(piece): piece for run in runs for piece in pipes_of(run, job)}
    total = Angle.of(sum(_sum(piece).within("deg") for piece in pieces.values()), "deg")
    job.step(f"bends of {', '.join(piece.name for piece in pieces.values())}", total)
    return total


@fact
def most_bent(raceway: Raceway, job: Job) -> Raceway:
    """The piece with most bends, among this one and those that are stated to continue it: a finding points there."""
    following = raceway.continues if raceway.states("continues") else None
    if following is None:
        return raceway
    other = most_bent(following, job)
    return other if _sum(other) > _sum(raceway) else raceway


def _sum(raceway: Raceway) -> Angle:
    return Angle.of(sum(bend.within("deg") for bend in raceway.bends), "deg")


@fact
def bend_radius_needed(raceway: Raceway, job: Job) -> Length:
    """The least radius of its bends, to the middle of the pipe. NFPA 70 Chapter 9 Table 2.

    Of rigid steel and PVC not stated for a radius between the table's columns, which a factory elbow or a one-shot or full-shoe
    bender may have and other bends may not. Not stated of HDPE, whose bends have a table of their own (354.24).
    """
    if raceway.type == "HDPE":
        not_stated(raceway, "type", f"{raceway.name}: the radius that its maker allows, for Chapter 9 Table 2 leaves out HDPE")
    in_one_shot, by_hand = (job.tables.bend_radius(raceway.size, one_shot=shot) for shot in (True, False))
    if raceway.type in BENT_IN_ONE_SHOT:
        least = in_one_shot
    elif raceway.type in BENT_BY_HAND or raceway.bend_radius >= by_hand:
        least = by_hand
    elif raceway.bend_radius < in_one_shot:
        least = in_one_shot
    else:
        bent = f"{raceway.name}: bend-radius of {by_hand} or more, or whether its bends of {raceway.bend_radius}"
        not_stated(raceway, "bend-radius", f"{bent} are factory elbows or made in a one-shot or full-shoe bender")
    job.step(f"{raceway.type} of {raceway.size}", least, job.from_table("bend-radius"))
    return least
