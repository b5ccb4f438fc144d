"""Cables that lie open in attics, crawl spaces, basements and garages, where they are stepped on, hung from or hit."""

from planlint.facts.engine import Job, fact
from planlint.facts.wires import cable_type, hot_wires, neutral_wires
from planlint.plan import Circuit, Feeder, Place
from planlint.plan.elements import Need, NotStated
from planlint.plan.members import Members, all_hold


def _passes(run: Feeder | Circuit, uses: tuple[str, ...], eyes: str, job: Job) -> bool:
    """Whether it passes a room of one of these uses that isn't finished.

    A run needs not say what it passes where the plan shows all rooms and none of them is of such a use, nor where it says by the
    attribute for `eyes` that it is guarded or protected wherever it has to be: that is what the inspector looks for then.
    """
    if run.states("passes"):
        rooms = tuple(spot for spot in run.passes if isinstance(spot, Place))
        whole = len(rooms) == len(run.passes)
        note = f"{run.name}: the rooms that it passes"
        return Members(rooms, () if whole else (Need(run, "passes", note=note),)).some(lambda room: _is_open(room, uses, job))
    there = job.graph.all(Place).where(lambda room: _is_open(room, uses, job))
    if not there.known and not there.gaps and "passes" not in run.unknown:
        return False
    if not run.states(eyes):
        raise NotStated(Need(run, eyes))
    if not run.value(eyes):
        raise NotStated(Need(run, "passes"))
    return True


def _is_open(room: Place, uses: tuple[str, ...], job: Job) -> bool:
    """A crawl space is never finished."""
    return all_hold(lambda: room.use in uses, lambda: room.use == "crawl-space" or not room.finished)


@fact
def passes_attic_or_joists(run: Feeder | Circuit, job: Job) -> bool:
    """Whether its cable passes an attic where strips must guard it, or below the joists of a basement or crawl space.

    There it lies in bored holes or on running boards, or has two 6 AWG or three 8 AWG conductors and may be stapled.
    NFPA 70 334.23, 320.23, 330.23 of attics; 334.15(C) of joists.
    """
    return not all_hold(lambda: not _lies_in_attic(run, job), lambda: not _lies_at_joists(run, job))


def _lies_in_attic(run: Feeder | Circuit, job: Job) -> bool:
    return all_hold(
        lambda: cable_type(run, job) in job.setting("passes-attic-or-joists.in-attic"),
        lambda: _passes(run, ("attic",), "guarded", job),
    )


def _lies_at_joists(run: Feeder | Circuit, job: Job) -> bool:
    return all_hold(
        lambda: cable_type(run, job) in job.setting("passes-attic-or-joists.at-joists"),
        lambda: _passes(run, ("crawl-space", "basement"), "guarded", job),
        lambda: not _may_hang_from_joists(run, job),
    )


def _may_hang_from_joists(run: Feeder | Circuit, job: Job) -> bool:
    """Whether its conductors are so large that staples below the joists do. NFPA 70 334.15(C)."""
    hot = hot_wires(run, job)
    two, three = (job.setting(f"passes-attic-or-joists.{count}-of").by_metal.get(hot.size.metal) for count in ("two", "three"))
    if two is not None and hot.size >= two:
        return True
    return three is not None and hot.size >= three and hot.count + neutral_wires(run, job).count > 2


@fact
def passes_unfinished(run: Feeder | Circuit, job: Job) -> bool:
    """Whether its nonmetallic cable passes a room of those where things are moved, whose walls are not finished.

    NFPA 70 334.15(B).
    """
    return all_hold(
        lambda: cable_type(run, job) in job.setting("passes-unfinished.cables"),
        lambda: _passes(run, job.setting("passes-unfinished.rooms"), "protected", job),
    )
