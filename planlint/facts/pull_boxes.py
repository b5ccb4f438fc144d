"""Pull and junction boxes for wires of 4 AWG and larger: how long and how wide by the trade sizes of the pipes in them."""

from collections.abc import Callable, Iterator

from planlint.facts.engine import Job, fact
from planlint.facts.ways import contents
from planlint.facts.wires import hot_wires, neutral_wires
from planlint.plan.elements import Need, NotStated, does_not_arise, not_stated
from planlint.plan.members import all_hold, merged
from planlint.plan.outlets import Box
from planlint.plan.routes import Raceway
from planlint.quantities import Length
from planlint.trade import Conductors, TradeSize, WireSizes

_A1, _A2 = "NFPA 70 314.28(A)(1)", "NFPA 70 314.28(A)(2)"


@fact
def only_large_wires(box: Box, job: Job) -> bool:
    """Whether all its wires are of 4 AWG or larger, for which 314.16(B) has no volumes. NFPA 70 314.16, 314.28.

    Its own conductors, or where it doesn't state them, the hot wires and neutrals in its pipes.
    """
    known, gaps = _wires(box, job)
    if any(not is_large(wires, job) for wires in known):
        return False
    if gaps:
        raise NotStated(*gaps)
    return bool(known)


@fact
def holds_large_wires(box: Box, job: Job) -> bool:
    """Whether a wire of 4 AWG or larger is in it, insulated: then the pipes say how large it has to be. NFPA 70 314.28(A).

    Its own conductors, or where it doesn't state them, the hot wires and neutrals in its pipes.
    """
    known, gaps = _wires(box, job)
    if any(is_large(wires, job) for wires in known):
        return True
    if gaps:
        raise NotStated(*gaps)
    return False


def is_large(wires: Conductors, job: Job) -> bool:
    """Whether they are of a size for which a box goes by its pipes, and no longer by volume. NFPA 70 314.28(A)."""
    least: WireSizes = job.setting("holds-large-wires.from")
    metal = wires.size.metal or "copper"
    return wires.size.area >= least.by_metal[metal].area


def _wires(box: Box, job: Job) -> tuple[tuple[Conductors, ...], tuple[Need, ...]]:
    """The insulated wires of the box, and what leaves them open."""
    if box.states("conductors") or "conductors" in box.unknown or not (box.states("raceways") or "raceways" in box.unknown):
        return (*box.conductors, *(box.loops if says(box, "loops") else ())), ()
    known: list[Conductors] = []
    gaps: list[Need] = []
    for pipe in (*box.raceways, *(box.side_raceways if says(box, "side-raceways") else ())):
        for wires in _in_pipe(pipe, gaps, job):
            known.append(wires)
    return tuple(known), merged(gaps)


def _in_pipe(pipe: Raceway, gaps: list[Need], job: Job) -> Iterator[Conductors]:
    runs = contents(pipe, job)
    gaps.extend(runs.gaps)
    for run in runs:
        for wires in (hot_wires, neutral_wires):
            try:
                found = wires(run, job)
            except NotStated as gap:
                gaps.extend(gap.needs)
            else:
                if found.count:
                    yield found
    yield from pipe.holds


def says(box: Box, attribute: str) -> bool:
    """Whether the plan speaks of it, be it to say that it is unknown: reading it then gives the value or raises NotStated."""
    return box.states(attribute) or attribute in box.unknown


@fact
def pull_length_needed(box: Box, job: Job) -> Length:
    """The least from the wall of its pipes to the one opposite: 8 times the largest pipe where the wires go straight on.

    Where they turn, go back or are spliced, 6 times the largest of the row and the sizes of the others. NFPA 70 314.28(A).
    """
    _arises(box, job)
    if box.pull == "straight":
        return _straight(box.raceways, job)
    turning = _row(box.raceways, job)
    return max(_straight(box.straight_raceways, job), turning) if box.pull == "both" else turning


@fact
def pull_width_needed(box: Box, job: Job) -> Length:
    """The least from the wall of its side-raceways to the one opposite: 6 times the largest and the sizes of the others.

    NFPA 70 314.28(A)(2).
    """
    _arises(box, job)
    if box.states("pull") and box.pull == "straight":
        does_not_arise(box, f"{box.name}: wires that turn or are spliced in it")
    if not box.side_raceways:
        does_not_arise(box, f"{box.name}: pipes in a wall beside the others")
    return _row(box.side_raceways, job)


@fact
def entry_spacing_needed(box: Box, job: Job) -> Length:
    """The least between two pipes in which the same wires lie, where these turn or go back: 6 times the larger.

    Pipes whose wires go straight on are left aside. NFPA 70 314.28(A)(2).
    """
    _arises(box, job)
    if box.pull in ("straight", "splice"):
        does_not_arise(box, f"{box.name}: wires that turn or go back in it")
    straight = box.straight_raceways if box.pull == "both" else ()
    turning = tuple(pipe for pipe in (*box.raceways, *box.side_raceways) if not any(pipe is other for other in straight))
    if not turning:
        not_stated(box, "straight-raceways", f"{box.name}: raceways or side-raceways whose wires don't go straight on")
    largest = _largest(turning)
    times: int = job.setting("entry-spacing-needed.times")
    spacing = Length.of(times * largest.inches, "in")
    job.step(f"{times} x {largest}", spacing, _A2)
    return spacing


@fact
def has_room_to_turn(box: Box, job: Job) -> bool:
    """Whether wires that turn or are spliced in it have room from the side wall, and between the pipes of the same wires.

    Yes where all go straight on. Spliced wires are not the same wires any more. NFPA 70 314.28(A)(2).
    """
    if box.pull == "straight":
        return True
    return all_hold(
        lambda: not box.side_raceways or box.width >= pull_width_needed(box, job),
        lambda: box.pull == "splice" or box.entry_spacing >= entry_spacing_needed(box, job),
    )


@fact
def room_lacking(box: Box, job: Job) -> str:
    """What a pull box lacks, in words: each of its distances that is too short, with the least. NFPA 70 314.28(A)."""
    distances: list[tuple[str, Callable[[], tuple[Length, Length]]]] = [
        ("from the wall of its pipes to the one opposite", lambda: (box.length, pull_length_needed(box, job))),
        ("the other way", lambda: (box.width, pull_width_needed(box, job))),
        ("between pipes of the same wires", lambda: (box.entry_spacing, entry_spacing_needed(box, job))),
    ]
    lacks: list[str] = []
    for where, read in distances:
        try:
            has, least = read()
        except NotStated:  # what is open lacks nothing that could be said
            continue
        if has < least:
            lacks.append(f"{has} {where}, where {least} is the least")
    return "; ".join(lacks) or "nothing"


def _arises(box: Box, job: Job) -> None:
    """Only a box with wires of 4 AWG or larger in which no device or light sits goes by its pipes."""
    if box.states("type") and box.type in ("outlet", "device"):
        does_not_arise(box, f"{box.name}: a pull or junction box")
    try:
        large = holds_large_wires(box, job)
    except NotStated:
        return
    if not large:
        does_not_arise(box, f"{box.name}: wires of 4 AWG or larger")


def _straight(pipes: tuple[Raceway, ...], job: Job) -> Length:
    largest = _largest(pipes)
    times: int = job.setting("pull-length-needed.straight")
    length = Length.of(times * largest.inches, "in")
    job.step(f"straight on: {times} x {largest}", length, _A1)
    return length


def _row(pipes: tuple[Raceway, ...], job: Job) -> Length:
    """The room before one row of pipes in which wires turn or are spliced; none without pipes."""
    if not pipes:
        return Length.of(0, "in")
    largest = _largest(pipes)
    others = sorted(pipe.size for pipe in pipes)[:-1]
    times: int = job.setting("pull-length-needed.turning")
    room = Length.of(times * largest.inches + sum(size.inches for size in others), "in")
    job.step(f"turning or spliced: {' + '.join([f'{times} x {largest}', *map(str, reversed(others))])}", room, _A2)
    return room


def _largest(pipes: tuple[Raceway, ...]) -> TradeSize:
    """The largest trade size; raises NotStated with every size that is left out."""
    needs: list[Need] = []
    for pipe in pipes:
        try:
            pipe.size  # noqa: B018
        except NotStated as gap:
            needs.extend(gap.needs)
    if needs:
        raise NotStated(*merged(needs))
    return max(pipe.size for pipe in pipes)
