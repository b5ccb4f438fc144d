"""The way a fault current takes back from a circuit or feeder: of what it is made, and how large it has to be."""

from collections.abc import Iterable
from typing import Literal, cast

from planlint.book.tables import OutOfTable
from planlint.facts.buildings import goes_to_another_building
from planlint.facts.engine import Job, fact
from planlint.facts.motors import sized_by_motor_rules
from planlint.facts.overcurrent import smallest_for_breaker, smallest_hot
from planlint.facts.ways import pipes_of
from planlint.facts.wires import breaker_rating, cable_type, ground_wires, has_neutral, hot_size
from planlint.plan.elements import not_stated
from planlint.plan.members import Members, all_hold
from planlint.plan.routes import Raceway
from planlint.plan.runs import Circuit, Feeder
from planlint.quantities import Current, Length, Percent
from planlint.trade import NO_WIRE, WireSize

GroundPath = Literal["wire", "metal-raceway", "cable-armor", "none"]
RIGID_METAL = ("EMT", "IMC", "RMC")
FLEXIBLE_METAL = ("FMC", "LFMC")


@fact
def ground_path(run: Feeder | Circuit, job: Job) -> GroundPath:
    """By what a fault current gets back: a wire, else metal pipe all the way or armor; none only where it says `ground none`.

    A run that has no ground of its own in plastic pipe may use the wire of another run that passes all the same pipes.
    NFPA 70 250.118 (2023: 250.118(A)), 250.122(C).
    """
    if ground_wires(run, job).count:
        return "wire"
    named = cable_type(run, job)
    if named != "none":
        return "cable-armor" if named == "AC" else "none"
    if _is_metal_all_the_way(run, job):
        return "metal-raceway"
    return "wire" if _lenders(run, job) else "none"


def _is_metal_all_the_way(run: Feeder | Circuit, job: Job) -> bool:
    """Flexible metal pipe counts only in short pieces, on small breakers. NFPA 70 250.118(5), (6) (2023: (A)(5), (6))."""
    pipes = pipes_of(run, job)
    if not pipes or not all(pipe.type in (*RIGID_METAL, *FLEXIBLE_METAL) for pipe in pipes):
        return False
    flexible = [pipe for pipe in pipes if pipe.type in FLEXIBLE_METAL]
    if not flexible:
        return True
    together = sum((pipe.length for pipe in flexible), Length.of(0, "ft"))
    job.step(f"{together} of flexible metal pipe in the ground path", "", "NFPA 70 250.118")
    return together <= job.setting("ground-path.flexible-up-to") and all(
        breaker_rating(run, job) <= _flexible_breaker(pipe, job) for pipe in flexible
    )


def _flexible_breaker(pipe: Raceway, job: Job) -> Current:
    """The largest breaker for which a piece of flexible metal pipe may be the ground; none where the pipe is too large."""
    across = Length.of(pipe.size.inches, "in")
    small: Current = job.setting("ground-path.flexible-breaker")
    larger: Current = job.setting("ground-path.liquid-tight-breaker")
    if across > job.setting("ground-path.flexible-size"):
        return Current.of(0, "A")
    is_larger = pipe.type == "LFMC" and across > job.setting("ground-path.liquid-tight-small-size")
    return larger if is_larger else small


def _companions(run: Feeder | Circuit, job: Job) -> Members[Feeder | Circuit]:
    """The other feeders and circuits in a pipe of it."""
    found: Members[Feeder | Circuit] = Members(())
    for pipe in pipes_of(run, job):
        inside = [cast("Members[Feeder | Circuit]", job.graph.those(kind, "raceway", pipe)) for kind in (Feeder, Circuit)]
        found = found.joined(*inside)
    return Members(tuple(other for other in found.known if other is not run), found.gaps)


def _lenders(run: Feeder | Circuit, job: Job) -> tuple[Feeder | Circuit, ...]:
    """The runs whose ground wire it may use: they pass all the pipes that it passes."""
    pipes = pipes_of(run, job)
    others = [other for other in _companions(run, job).whole() if all(pipe in pipes_of(other, job) for pipe in pipes)]
    return tuple(other for other in others if ground_wires(other, job).count)


@fact
def may_return_by_neutral(run: Feeder | Circuit, job: Job) -> bool:
    """Whether it is an old feeder to another building with a neutral, which may bring a fault current back.

    An old branch circuit may do the same only where its neutral is tied to the case at the other building's disconnect, which a
    plan can't say: not stated. NFPA 70 250.32(B)(1), exception.
    """
    old = (lambda: run.existing, lambda: goes_to_another_building(run, job), lambda: has_neutral(run, job))
    if not all_hold(*old):
        return False
    if isinstance(run, Circuit):
        words = "whether the neutral is tied to the case where it ends, as an old one between buildings may have it (ask)"
        not_stated(run, "ground", f"{run.name}: a ground; or {words}")
    return True


@fact
def ground_in_use(run: Feeder | Circuit, job: Job) -> WireSize:
    """The ground wire that it relies on: its own, or the largest of those that it may use; no wire where it has none.

    NFPA 70 250.122(C).
    """
    own = ground_wires(run, job)
    if own.count:
        return own.size
    lenders = _lenders(run, job)
    found = max((ground_wires(other, job).size for other in lenders), key=lambda size: size.area, default=NO_WIRE)
    if lenders:
        job.step(f"no ground of its own; the largest in the same pipes, of {_names(lenders)}", found, "NFPA 70 250.122(C)")
    return found


def _users(run: Feeder | Circuit, job: Job) -> list[Feeder | Circuit]:
    """The runs that rely on the same ground wire: itself, and those in its pipes that have none of their own."""
    wired = ground_path(run, job) == "wire"
    others = [other for other in _companions(run, job).whole() if not ground_wires(other, job).count] if wired else []
    return [run, *(other for other in others if ground_path(other, job) == "wire")]


@fact
def ground_needed(run: Feeder | Circuit, job: Job) -> WireSize:
    """The least ground wire by the largest breaker of the runs that rely on it, never larger than their hot wires.

    NFPA 70 Table 250.122, 250.122(A), (C).
    """
    users = _users(run, job)
    rating = max(breaker_rating(user, job) for user in users)
    asked = job.tables.equipment_ground(rating, _metal(run, job))
    job.step(f"ground for {rating}", asked, job.from_table("equipment-ground"))
    return _capped(asked, (hot_size(user, job) for user in users), job)


@fact
def is_enlarged(run: Feeder | Circuit, job: Job) -> bool:
    """Whether its hot wires are larger than heat, number, breaker and load ask for, as where they fight voltage drop.

    The wires of a motor or cooling unit may be smaller than its breaker; those as large as the breaker usually asks for are not
    enlarged: its ground is made for them. NFPA 70 250.122(B).
    """
    hot, smallest = hot_size(run, job), smallest_hot(run, job)
    job.step(f"{hot} is there, {smallest} would do", "", "NFPA 70 250.122(B)")
    if hot > smallest and isinstance(run, Circuit) and sized_by_motor_rules(run, job):
        usual = smallest_for_breaker(run, job)
        job.step(f"{usual} is usual behind {breaker_rating(run, job)}", "", "NFPA 70 240.4, Table 250.122")
        return hot > usual
    return hot > smallest


@fact
def ground_needed_enlarged(run: Feeder | Circuit, job: Job) -> WireSize:
    """The least ground wire of a run whose hot wires are larger than needed: its area grows as theirs, by the exact ratio.

    NFPA 70 250.122(B); circular mils of Chapter 9 Table 8, which are rounded, so that a size may be short by their last place.
    The next size up; never larger than the hot wires.
    """
    hot, smallest, metal = hot_size(run, job), smallest_hot(run, job), _metal(run, job)
    areas = job.tables.circular_mils(hot), job.tables.circular_mils(smallest)
    base = _capped(job.tables.equipment_ground(breaker_rating(run, job), metal), [smallest], job)
    needed = job.tables.circular_mils(base) * areas[0] / areas[1]
    source = f"NFPA 70 250.122(B), {job.from_table('conductor-properties')}"
    job.step(f"{job.tables.circular_mils(base):.0f} ({base}) x {areas[0]:.0f} / {areas[1]:.0f}", f"{needed:.1f} cmil", source)
    rounding: Percent = job.setting("ground-needed-enlarged.rounding")
    for size in job.tables.sizes_up(metal):
        area = job.tables.circular_mils(size)
        if area > needed or Percent.of(100 * (needed - area) / needed, "%") <= rounding:
            words = f"{area - needed:.1f} cmil to spare" if area >= needed else f"short by no more than {rounding} of rounding"
            job.step(f"the next size up, {words}", size, source)
            return _capped(size, [hot], job)
    raise OutOfTable("Chapter 9 Table 8", f"{metal} wire of {needed:.0f} circular mils")


def _metal(run: Feeder | Circuit, job: Job) -> str:
    """The metal in which a size is asked: that of the ground in use; where there is none, that of the hot wires."""
    return ground_in_use(run, job).metal or hot_size(run, job).metal


def _capped(asked: WireSize, hots: Iterable[WireSize], job: Job) -> WireSize:
    """No larger than the largest hot wire, unless the ground is aluminum and that is copper. NFPA 70 250.122(A)."""
    largest = max(hots, key=lambda size: size.area)
    if asked.area <= largest.area or (asked.metal == "aluminum" and largest.metal == "copper"):
        return asked
    cap = WireSize(largest.size, asked.metal)
    job.step(f"not larger than the hot wires, {largest}", cap, "NFPA 70 250.122(A)")
    return cap


def _names(runs: Iterable[Feeder | Circuit]) -> str:
    return ", ".join(run.name for run in runs)
