"""How much room a box has, and how much the wires, devices and fittings in it need."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from planlint.book.tables import OutOfTable
from planlint.facts.engine import Job, fact
from planlint.facts.pull_boxes import is_large, only_large_wires, says
from planlint.plan.elements import Need, NotStated, does_not_arise, not_stated
from planlint.plan.members import merged
from planlint.plan.outlets import Box
from planlint.quantities import Percent, Volume
from planlint.trade import Conductors, WireSizes


@dataclass(frozen=True, slots=True)
class Part:
    """What one thing in a box is counted with: how many allowances of which wire, in cubic inches."""

    times: float
    each: float

    @property
    def room(self) -> float:
        """Cubic inches."""
        return self.times * self.each


@fact
def box_volume(box: Box, job: Job) -> Volume:
    """The room in it: what is marked in it, or of a metal box without a marking that of its trade size; and its rings.

    NFPA 70 314.16(A), Table 314.16(A). A plastic box has no room but what is marked in it.
    """
    own = _own_volume(box, job)
    rings = [ring.within("cu in") for ring in box.rings]
    if not rings:
        return own
    whole = own.within("cu in") + sum(rings)
    job.step(" + ".join(f"{each:g}" for each in (own.within("cu in"), *rings)), _exact(whole), "NFPA 70 314.16(A)")
    return _exact(whole)


def _own_volume(box: Box, job: Job) -> Volume:
    plastic = box.states("material") and box.material == "plastic"
    if says(box, "volume") or not (says(box, "shape") or says(box, "size")):
        if box.states("volume") and box.states("shape") and box.states("size") and not plastic:
            _has_its_size(box, job)
        job.step("marked in the box", box.volume, "NFPA 70 314.16(A)(2)")
        return box.volume
    if plastic:
        not_stated(box, "volume", f"{box.name}: the volume marked in it, for {job.from_table('box-volume')} is of metal boxes")
    volume = job.tables.box_volume(box.shape, box.size)
    job.step(f"{box.shape} metal box of {box.size}", volume, job.from_table("box-volume"))
    return volume


def _has_its_size(box: Box, job: Job) -> None:
    """Raises NotStated where the marked volume is another than that of the trade size stated beside it: one of them is wrong."""
    try:
        volume = job.tables.box_volume(box.shape, box.size)
    except OutOfTable:
        return
    if volume != box.volume:
        note = f"{box.name}: volume, or shape and size: a {box.shape} box of {box.size} has {volume}, not {box.volume}"
        not_stated(box, "volume", note)


@fact
def volume_needed(box: Box, job: Job) -> Volume:
    """The room that its wires, devices, clamps, supports, grounds and (from 2023 on) terminal blocks are counted with.

    NFPA 70 314.16(B). Wires of 4 AWG and larger have no volume there: a pull or junction box goes by its pipes for them.
    """
    if _goes_by_pipes_alone(box, job):
        does_not_arise(box, f"{box.name}: wires smaller than 4 AWG in it")
    found, needs = _counted(box, job)
    if needs:
        raise NotStated(*needs)
    return _sum(found, job)


@fact
def sure_volume_needed(box: Box, job: Job) -> Volume:
    """The least room that it needs, by what the plan shows in it: what that leaves out can only add. NFPA 70 314.16(B)."""
    if _goes_by_pipes_alone(box, job):
        does_not_arise(box, f"{box.name}: wires smaller than 4 AWG in it")
    found, needs = _counted(box, job)
    if needs and not found:
        raise NotStated(*needs)
    return _sum(found, job)


def _counted(box: Box, job: Job) -> tuple[list[Part], tuple[Need, ...]]:
    """What counts in it as far as the plan shows it, and what would have to be stated for the rest."""
    found: list[Part] = []
    needs: list[Need] = []
    for count in (_conductors, _devices, _clamps, _supports, _grounds, _terminal_blocks):
        try:
            found += count(box, job)
        except NotStated as gap:
            needs.extend(gap.needs)
    return found, merged(needs)


def _sum(found: list[Part], job: Job) -> Volume:
    total = _exact(sum(part.room for part in found))
    if len(found) != 1:
        job.step(" + ".join(f"{part.room:g}" for part in found) or "nothing that counts", total, "NFPA 70 314.16(B)")
    return total


def _goes_by_pipes_alone(box: Box, job: Job) -> bool:
    """Whether it is known for a pull or junction box without a wire that 314.16 has a volume for."""
    if not box.states("type") or box.type in ("outlet", "device"):
        return False
    try:
        return only_large_wires(box, job)
    except NotStated:
        return False


@fact
def volume_short_by(box: Box, job: Job) -> Volume:
    """The room that it lacks, by what the plan shows in it; none where it has enough for all. NFPA 70 314.16."""
    needed, room = sure_volume_needed(box, job).within("cu in"), box_volume(box, job).within("cu in")
    if needed > room:
        job.step(f"{needed:g} - {room:g}", _exact(needed - room), "NFPA 70 314.16(B)")
        return _exact(needed - room)
    needed = volume_needed(box, job).within("cu in")
    job.step(f"{room:g} cu in is enough for {needed:g} cu in", _exact(0), "NFPA 70 314.16(B)")
    return _exact(0)


def _exact(cubic_inches: float) -> Volume:
    """A volume that prints in full: sums of allowances have up to four decimals, and a quarter of one decides a box."""
    return Volume(cubic_inches, "cu in", f"{round(cubic_inches, 4):g} cu in")


def _part(label: str, times: float, size: Conductors, clause: str, job: Job) -> Iterator[Part]:
    """So many allowances of one wire, with its step; none of a large wire, which the table leaves out."""
    each = job.tables.box_allowance(size.size)
    part = Part(times, each.within("cu in"))
    source = f"NFPA 70 {clause}, {job.from_table('box-allowance')}"
    job.step(f"{label}: {part.times:g} x {part.each:g}", _exact(part.room), source)
    yield part


def _conductors(box: Box, job: Job) -> Iterator[Part]:
    """One for each wire, two for each loop; fixture wires from a canopy only those beyond the few that are left out."""
    clause, loops = "314.16(B)(1)", _added(box, "loops")
    for wires in box.conductors:
        if _counts(wires, box, "conductors", job):
            yield from _part(f"{wires.size} wires", wires.count, wires, clause, job)
    twice: int = job.setting("volume-needed.each-loop")
    for wires in loops:
        if _counts(wires, box, "loops", job):
            yield from _part(f"loops ({wires.count}) of {wires.size}", twice * wires.count, wires, clause, job)
    below: WireSizes = job.setting("volume-needed.canopy-wires-below")
    left_out: int = job.setting("volume-needed.canopy-wires-left-out")
    for wires in sorted(_added(box, "canopy_wires"), key=lambda wires: -wires.size.area):
        spared = min(wires.count, left_out) if wires.size.area < below.by_metal["copper"].area else 0
        left_out -= spared
        job.step(f"{wires} from the canopy: {spared} of {wires.count} left out", "", f"NFPA 70 {clause} exception")
        if wires.count > spared:
            yield from _part(f"{wires.size} from the canopy", wires.count - spared, wires, clause, job)


def _counts(wires: Conductors, box: Box, attribute: str, job: Job) -> bool:
    """Whether the table has room for wires of that size; larger ones are left to 314.28 where that holds."""
    if not is_large(wires, job):
        return True
    if box.type in ("outlet", "device"):
        room = f"{box.name}: the room for {wires}, for which {job.from_table('box-allowance')} has none"
        not_stated(box, attribute, f"{room} and 314.28 is of pull and junction boxes; ask")
    job.step(f"{wires}: by the size of the pipes, not by volume", "", "NFPA 70 314.28(A)")
    return False


def _devices(box: Box, job: Job) -> Iterator[Part]:
    """Two for each yoke, of the largest wire on it; a device wider than 2 in stands in the list once for each gang."""
    twice: int = job.setting("volume-needed.each-device")
    for device in box.devices:
        yield from _part(f"devices ({device.count}) on {device.size}", twice * device.count, device, "314.16(B)(4)", job)


def _clamps(box: Box, job: Job) -> Iterator[Part]:
    """One for all clamps inside, of the largest wire in the box."""
    if box.clamps:
        largest = _largest_present(box)
        yield from _part(f"clamps, largest wire {largest.size}", 1, largest, "314.16(B)(2)", job)


def _supports(box: Box, job: Job) -> Iterator[Part]:
    """One for each kind of fixture stud and hickey, of the largest wire in the box."""
    kinds = box.supports if says(box, "supports") else 0
    if kinds:
        largest = _largest_present(box)
        yield from _part(f"supports, largest wire {largest.size}", kinds, largest, "314.16(B)(3)", job)


def _grounds(box: Box, job: Job) -> Iterator[Part]:
    """One of the largest for the first grounds; from 2020 on a quarter for each further one; until 2017 one for a second set."""
    clause, isolated = "314.16(B)(5)", _added(box, "isolated_grounds")
    apart: bool = job.setting("volume-needed.isolated-grounds-apart")
    sets = {"grounds": box.grounds, "isolated grounds": isolated} if apart else {"grounds": (*box.grounds, *isolated)}
    for name, grounds in sets.items():
        if not grounds:
            continue
        count, largest = sum(wires.count for wires in grounds), _largest(grounds)
        together: int = job.setting("volume-needed.grounds-together")
        share: Percent = job.setting("volume-needed.each-further-ground")
        further = max(count - together, 0)
        words = f"{count} count as 1 + {further} x {share}" if further and share.amount else f"{count}"
        yield from _part(f"{name} ({words}), largest {largest.size}", 1 + further * share.amount, largest, clause, job)


def _terminal_blocks(box: Box, job: Job) -> Iterator[Part]:
    """From 2023 on one for each block, of the largest wire on it."""
    once: int = job.setting("volume-needed.each-terminal-block")
    for block in _added(box, "terminal_blocks") if once else ():
        yield from _part(f"terminal blocks ({block.count}) on {block.size}", once * block.count, block, "314.16(B)(6)", job)


def _added(box: Box, key: str) -> tuple[Conductors, ...]:
    """What few boxes have and can only need more room: nothing where the plan doesn't speak of it."""
    if not says(box, key.replace("_", "-")):
        return ()
    wires: tuple[Conductors, ...] = getattr(box, key)
    return wires


def _largest_present(box: Box) -> Conductors:
    """The largest wire that enters the box, grounds among them. Raises NotStated where there is none."""
    reads: tuple[Callable[[], tuple[Conductors, ...]], ...] = (
        lambda: box.conductors,
        lambda: box.grounds,
        lambda: _added(box, "loops"),
        lambda: _added(box, "isolated_grounds"),
        lambda: _added(box, "canopy_wires"),
    )
    found: list[Conductors] = []
    needs: list[Need] = []
    for read in reads:
        try:
            found += read()
        except NotStated as gap:
            needs.extend(gap.needs)
    if not found and not needs:
        not_stated(box, "conductors", f"{box.name}: conductors, because clamps and supports count by the largest wire")
    if needs:
        raise NotStated(*merged(needs))
    return _largest(tuple(found))


def _largest(wires: tuple[Conductors, ...]) -> Conductors:
    return max(wires, key=lambda each: each.size.area)
