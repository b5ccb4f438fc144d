"""The ends of a pipe: what has to guard the wires there, and where it comes into a building."""

from planlint.facts.buildings import Outlet, building_at, outlets_on
from planlint.facts.engine import Job, fact
from planlint.facts.pulls import next_piece, piece_before
from planlint.facts.ways import contents, is_direct_buried, lies
from planlint.facts.wires import Wired, hot_size, is_cable, neutral_size
from planlint.plan.elements import Element, Need, not_stated
from planlint.plan.gear import AnyGear, Supply
from planlint.plan.members import Members, all_hold, merged
from planlint.plan.outlets import Box
from planlint.plan.routes import Raceway
from planlint.plan.runs import Circuit
from planlint.trade import WireSize, WireSizes

# Where a pipe lies outside every building.
OUTSIDE = ("buried", "below-slab", "riser", "roof")
Neighbor = Raceway | AnyGear | Outlet | Box | Supply


@fact
def needs_bushings(raceway: Raceway, job: Job) -> bool:
    """Whether wires leave it over an edge that has to be smooth.

    Where cable leaves it into the soil; and at an end in a case where its article asks for a bushing, or where its wires are
    large. A piece that goes on as another at both ends has no such edge. NFPA 70 300.4(G), 300.5(H), and section .46 of the
    articles on rigid conduit and plastic pipe.
    """
    return not all_hold(
        lambda: not contents(raceway, job).some(lambda run: _goes_on_in_soil(run, raceway, job)),
        lambda: not all_hold(lambda: _ends_in_a_case(raceway, job), lambda: _asks_for_bushings(raceway, job)),
    )


def _goes_on_in_soil(run: Wired, raceway: Raceway, job: Job) -> bool:
    """Whether it leaves the pipe into the soil. Not stated of cable that names no ditch, in a riser that no pipe meets."""
    if is_direct_buried(run, job):
        return True
    if is_cable(run, job) and lies(raceway, job) == "riser" and not _joined(raceway, job):
        not_stated(run, "trench", f"{run.name}: the ditch in which it goes on below {raceway.name}")
    return False


def _joined(raceway: Raceway, job: Job) -> tuple[Raceway, ...]:
    """The pieces that are stated to continue it, or that it continues."""
    after = raceway.continues if raceway.states("continues") else None
    return (*job.graph.those(Raceway, "continues", raceway).known, *((after,) if after else ()))


def _ends_in_a_case(raceway: Raceway, job: Job) -> bool:
    return not all_hold(lambda: next_piece(raceway, job) is not None, lambda: piece_before(raceway, job) is not None)


def _asks_for_bushings(raceway: Raceway, job: Job) -> bool:
    if raceway.type in job.setting("needs-bushings.types"):
        return True
    sizes: WireSizes = job.setting("needs-bushings.from-size")

    def is_large(size: WireSize) -> bool:
        return bool(size.size) and size >= sizes.by_metal[size.metal]

    def has_large(run: Wired) -> bool:
        return not is_cable(run, job) and (is_large(hot_size(run, job)) or is_large(neutral_size(run, job)))

    held = [wires.size for wires in raceway.holds if wires.insulation != "bare"]
    return any(map(is_large, held)) or contents(raceway, job).some(has_large)


@fact
def enters_building(raceway: Raceway, job: Job) -> bool:
    """Whether it comes into a building from below the ground or from outdoors, by what lies at its two ends.

    Of an empty pipe, and one with cable that may leave it anywhere, only eyes on site can tell. NFPA 70 225.27, 230.8, 300.5(G),
    300.7(A).
    """
    if not _is_inside(raceway, job):
        return _neighbors(raceway, job).some(lambda one: _is_inside(one, job))
    return _neighbors(raceway, job).some(lambda one: not isinstance(one, Raceway) and not _is_inside(one, job))


def _is_inside(thing: Element, job: Job) -> bool:
    """Whether it is in a building. A pipe in the ground, below a slab or on a roof is not; nor is the utility."""
    if isinstance(thing, Supply):
        return False
    if isinstance(thing, Raceway):
        where = lies(thing, job)
        if where in ("inside", *OUTSIDE):
            return where == "inside"
        if where == "in-concrete":
            return not thing.against_ground
    assert isinstance(thing, Neighbor)
    return building_at(thing.at) is not None


def _neighbors(raceway: Raceway, job: Job) -> Members[Element]:
    """What its ends lead to: pieces that continue it, pipes and gear that its wires pass before and after it, its own case."""
    joined: tuple[Element, ...] = _joined(raceway, job)
    if len(joined) > 1:
        return Members(joined)
    case = raceway.ends_in if raceway.states("ends-in") else None
    runs = contents(raceway, job)
    open_end = (Need(raceway, "sealed", note=f"{raceway.name}: sealed, where it comes into a building"),)
    parts = [Members(joined + ((case,) if case else ()), runs.gaps if runs.known else open_end)]
    parts += [_beside(raceway, run, bool(case), job) if not is_cable(run, job) else Members((), open_end) for run in runs.known]
    if case and all(is_cable(run, job) for run in runs.known):
        return Members(parts[0].known)
    return parts[0].joined(*parts[1:])


def _beside(raceway: Raceway, run: Wired, has_case: bool, job: Job) -> Members[Element]:
    """What a run of loose wires passes before and after a pipe; its gear only where the pipe names no case of its own."""
    at, last = run.raceway.index(raceway), len(run.raceway) - 1
    known: list[Element] = [run.raceway[one] for one in (at - 1, at + 1) if 0 <= one <= last]
    gaps: tuple[Need, ...] = ()
    if at == 0 and not has_case:
        known.append(run.panel if isinstance(run, Circuit) else run.from_)
    if at == last and not has_case:
        ends = outlets_on(run, job) if isinstance(run, Circuit) else Members((run.to,))
        known += ends.known
        gaps = merged(ends.gaps)
    return Members(tuple(known), gaps)
