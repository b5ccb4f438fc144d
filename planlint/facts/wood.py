"""What holes may take from studs and joists before they weaken the house: figures of the residential building code."""

from contextlib import suppress

from planlint.facts.engine import Job, fact
from planlint.facts.framing import edge_left
from planlint.plan.elements import NotStated, does_not_arise, not_stated
from planlint.plan.members import all_hold
from planlint.plan.routes import Holes
from planlint.quantities import Length, Percent

BY_MAKER = ("i-joist", "rim-board")


def _share(name: str, job: Job) -> Percent:
    share: Percent = job.setting(f"diameter-allowed.{name}")
    return share


@fact
def diameter_allowed(holes: Holes, job: Job) -> Length:
    """The largest hole that the wood bears: a third of a joist's depth, of a stud's 40 %, or 60 % where it carries no weight.

    I-joists and rim boards by the maker's chart; trusses none. International Residential Code R502.8.1, R502.8.2, R602.6.
    """
    through = holes.through
    if through in ("metal-stud", "plate"):
        does_not_arise(holes, f"{holes.name}: holes in a joist, a stud or a truss")
    if through == "truss":
        job.step("a truss", Length.of(0, "in"), "IRC R502.11.3")
        return Length.of(0, "in")
    if through in BY_MAKER:
        job.step("by the maker's chart", holes.largest_by_maker, "IRC R502.8.2")
        return holes.largest_by_maker
    if through == "joist":
        parts: float = job.setting("diameter-allowed.joist-parts")
        most = holes.member_depth * (1 / parts)
        job.step(f"{holes.member_depth} / {parts:g}", most, "IRC R502.8.1")
        return most
    share = _share("bearing-stud" if holes.bearing else "other-stud", job)
    job.step(f"{share} x {holes.member_depth}", holes.member_depth * share, "IRC R602.6")
    return holes.member_depth * share


@fact
def wood_to_edge(holes: Holes, job: Job) -> Length:
    """How much wood the building code leaves between a hole and the edge of a joist or stud. IRC R502.8.1, R602.6."""
    if holes.through not in ("joist", "stud"):
        does_not_arise(holes, f"{holes.name}: holes in a joist or a stud")
    least: Length = job.setting(f"wood-to-edge.{holes.through}")
    return least


@fact
def wood_is_left(holes: Holes, job: Job) -> bool:
    """Whether the holes are small enough and far enough from the edge for the wood to bear its load.

    Known too where a stud's load makes no difference. Metal studs come with their holes; of plates it isn't stated whether a
    strap ties what a hole of more than half their width cuts (IRC R602.6.1).
    """
    if holes.through == "metal-stud":
        return True
    if holes.through == "plate":
        return _plate_holds(holes, job)
    if holes.through == "truss":
        return False
    if holes.through not in ("joist", "stud"):
        return holes.diameter <= diameter_allowed(holes, job)
    return all_hold(lambda: _is_small_enough(holes, job), lambda: edge_left(holes, job) >= wood_to_edge(holes, job))


def _is_small_enough(holes: Holes, job: Job) -> bool:
    if holes.through == "stud":
        if holes.diameter <= holes.member_depth * _share("bearing-stud", job):
            return True
        if holes.diameter > holes.member_depth * _share("other-stud", job):
            return False
    return holes.diameter <= diameter_allowed(holes, job)


def _most_across(holes: Holes, job: Job) -> Length:
    """The largest hole; of a stud of which it isn't said whether it carries weight, as if it didn't."""
    if holes.through == "stud" and not holes.states("bearing"):
        return holes.member_depth * _share("other-stud", job)
    return diameter_allowed(holes, job)


def _plate_holds(holes: Holes, job: Job) -> bool:
    if holes.diameter <= holes.member_depth * _share("plate", job) or not holes.bearing:
        return True
    not_stated(holes, "strap", f"{holes.name}: whether a steel strap ties the plate where more than half of it is cut")


@fact
def harm_of_holes(holes: Holes, job: Job) -> str:
    """What is wrong with the holes for fire and structure, in words."""
    found: list[str] = []
    if holes.states("fire-rated") and holes.fire_rated and holes.states("fire-stopped") and not holes.fire_stopped:
        found.append("they go through a fire-rated wall or floor and are not filled with listed material")
    with suppress(NotStated):
        if not wood_is_left(holes, job):
            found.append(_harm_to_wood(holes, job))
    return "; ".join(found) or "nothing"


def _harm_to_wood(holes: Holes, job: Job) -> str:
    if holes.through == "truss":
        return "a truss is never bored unless its engineer says so"
    found: list[str] = []
    with suppress(NotStated):  # what is open is no harm that could be spoken of
        most = _most_across(holes, job)
        if holes.diameter > most:
            found.append(f"{holes.diameter} across in a {holes.through}, where {most.show(3)} is the most")
    if holes.through in ("joist", "stud") and holes.states("edge-distance") and holes.edge_distance < wood_to_edge(holes, job):
        found.append(f"{holes.edge_distance} to the edge of a {holes.through}, where {wood_to_edge(holes, job)} is the least")
    return "; ".join(found)
