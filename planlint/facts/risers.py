"""Pipes in which wires come up out of the ground: where they have to begin, how high they have to go."""

from planlint.facts.burial import is_yard_circuit, least_cover
from planlint.facts.engine import Job, fact
from planlint.facts.pulls import next_piece, piece_before
from planlint.facts.ways import contents, is_direct_buried, lies
from planlint.facts.wires import Wired, cable_type
from planlint.plan.elements import NotStated, does_not_arise, not_stated
from planlint.plan.members import Members, all_hold, broken_words
from planlint.plan.routes import Raceway
from planlint.quantities import Length

OPEN = ("above-grade", "riser")


@fact
def begins_low_enough(raceway: Raceway, job: Job) -> bool:
    """Whether a riser protects cable from its least cover upward, or from where no more is asked for.

    Wires that come to it in pipe need nothing more. The least cover is asked for only where it begins above that depth.
    NFPA 70 300.5(D)(1).
    """
    most: Length = job.setting("begins-low-enough.most-below")

    def enough(run: Wired) -> bool:
        return not _comes_out_of_soil(run, job) or raceway.begins_below >= most or raceway.begins_below >= _least_below(run, job)

    return contents(raceway, job).every(enough)


@fact
def least_below(raceway: Raceway, job: Job) -> Length:
    """How far below the ground a riser has to begin: at the least cover of the cable in it, and never deeper than the limit.

    0 in where all its wires come to it in pipe. NFPA 70 300.5(D)(1).
    """
    runs = [run for run in contents(raceway, job).whole() if _comes_out_of_soil(run, job)]
    return max([_least_below(run, job) for run in runs], default=Length.of(0, "in"))


@fact
def top_high_enough(raceway: Raceway, job: Job) -> bool:
    """Whether a riser protects cable up to the least height above the ground, or into its case. NFPA 70 300.5(D)(1)."""
    least: Length = job.setting("top-high-enough.least-above")

    def enough(run: Wired) -> bool:
        if not _comes_out_of_soil(run, job):
            return True
        return not all_hold(lambda: raceway.ends_above < least, lambda: raceway.ends_in is None)

    return contents(raceway, job).every(enough)


@fact
def riser_fault(raceway: Raceway, job: Job) -> str:
    """What is wrong where it brings wires out of the ground, in words: only the parts that are broken for certain.

    NFPA 70 300.5(D)(1), (4).
    """
    proof: tuple[str, ...] = job.setting("riser-unprotected.hit-proof")
    top: Length = job.setting("top-high-enough.least-above")
    found = broken_words(
        (
            lambda: begins_low_enough(raceway, job),
            lambda: (
                f"it begins {raceway.begins_below} below the ground, and the cable in it asks for {_depth_words(raceway, job)}"
            ),
        ),
        (
            lambda: top_high_enough(raceway, job),
            lambda: f"it ends {raceway.ends_above} above the ground, in no case, and has to protect the cable up to {top}",
        ),
        (
            lambda: raceway.type in proof or not raceway.subject_to_damage,
            lambda: f"it can be hit, and {raceway.type} is not made for that ({', '.join(proof)} are)",
        ),
    )
    if not found:
        does_not_arise(raceway, f"{raceway.name}: something that is wrong with it as a riser")
    return "; ".join(found)


def _depth_words(raceway: Raceway, job: Job) -> str:
    """How deep it has to begin, by the cable of which that is known to be more than it does."""
    known = contents(raceway, job).where(lambda run: _comes_out_of_soil(run, job)).known
    asked = []
    for run in known:
        try:
            asked.append(_least_below(run, job))
        except NotStated:
            continue
    return str(max(asked))


@fact
def fitting_beside(raceway: Raceway, job: Job) -> bool:
    """Whether a piece of pipe in the open that goes on from a riser, with no box between, has an expansion fitting.

    NFPA 70 300.5(J).
    """
    pieces = [piece for piece in (piece_before(raceway, job), next_piece(raceway, job)) if piece is not None]
    return Members(tuple(pieces)).some(lambda piece: all_hold(lambda: lies(piece, job) in OPEN, lambda: piece.expansion_fitting))


def _comes_out_of_soil(run: Wired, job: Job) -> bool:
    """Whether it may lie in the soil without pipe and wants protection there.

    Cable, wires made for the soil, and whatever names a ditch itself; no low-voltage circuits of the yard.
    """
    if is_yard_circuit(run, job):
        return False
    if is_direct_buried(run, job) or cable_type(run, job) != "none":
        return True
    if not run.hot.insulation:
        not_stated(run, "hot", f"{run.name}: hot, the insulation of its wires")
    return run.hot.insulation == "USE-2"


def _least_below(run: Wired, job: Job) -> Length:
    """The most of its least covers, in its ditches and those of its pipes, but no more than the limit."""
    most: Length = job.setting("begins-low-enough.most-below")
    own = [(run, ditch) for ditch in (run.trench if is_direct_buried(run, job) else ())]
    piped = [(pipe, pipe.trench) for pipe in (run.raceway if not own else ()) if pipe.states("trench")]
    covers = [least_cover(line, ditch, job) for line, ditch in (*own, *piped)]
    if not covers:
        not_stated(run, "trench", f"{run.name}: the ditch in which it goes on below its riser")
    least = min(max(covers), most)
    job.step(f"the least cover of {run.name}, {max(covers)}, but no more than {most}", least, "NFPA 70 300.5(D)(1)")
    return least
