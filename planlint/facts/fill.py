"""How full a pipe is, how full it may be, and whether its wires can wedge in it."""

import math
from dataclasses import dataclass

from planlint.facts.engine import Job, fact
from planlint.facts.pulls import is_nipple
from planlint.facts.ways import contents, is_direct_buried, lies, sets_inside
from planlint.facts.wires import Wired, ground_wires, hot_wires, is_cable, neutral_wires
from planlint.plan.elements import Element, does_not_arise, not_stated
from planlint.plan.members import all_hold
from planlint.plan.routes import Raceway
from planlint.quantities import TOLERANCE, Area, Length, Percent
from planlint.trade import Conductors, TradeSize

# Where a pipe ends in the soil: a nipple is a pipe between two enclosures (Chapter 9, note 4).
OPEN_BELOW = ("riser", "buried", "below-slab")


@dataclass(frozen=True, slots=True)
class Alike:
    """So many wires, or cables, of one size in a pipe. `area` and `diameter` are those of one."""

    count: int
    area: Area
    diameter: Length


def inside(raceway: Raceway, job: Job) -> tuple[Alike, ...]:
    """All that takes room in it: every wire of loose runs, grounds too; a cable as one; and what it holds beside its runs.

    NFPA 70 Chapter 9, notes 3, 5, 8 and 9 to the tables.
    """
    found = [part for run in contents(raceway, job).whole() for part in _parts(run, job)]
    found += [_wires(wires, 1, raceway, "holds", job) for wires in raceway.holds]
    return tuple(found)


def _parts(run: Wired, job: Job) -> list[Alike]:
    times = sets_inside(run)
    if is_cable(run, job):
        width = run.cable_width
        return [Alike(times, Area.of(math.pi / 4 * width.within("in") ** 2, "sq in"), width)]
    wires = {"hot": hot_wires(run, job), "neutral": neutral_wires(run, job), "ground": ground_wires(run, job)}
    return [_wires(each, times, run, attribute, job) for attribute, each in wires.items() if each.count]


def _wires(wires: Conductors, times: int, element: Element, attribute: str, job: Job) -> Alike:
    if not wires.insulation:
        not_stated(element, attribute, f"{element.name}: {attribute}, the insulation of its wires (or bare)")
    area = job.tables.conductor_area(wires.size, wires.insulation)
    return Alike(wires.count * times, area, job.tables.conductor_diameter(wires.size, wires.insulation))


def _taken(parts: tuple[Alike, ...]) -> Area:
    return Area.of(sum(part.area.within("sq in") * part.count for part in parts), "sq in")


@fact
def contents_area(raceway: Raceway, job: Job) -> Area:
    """The room that all wires and cables in it take, a flat cable by its wide side. NFPA 70 Chapter 9, Tables 5 and 8."""
    parts = inside(raceway, job)
    total = _taken(parts)
    job.step(" + ".join(f"{part.count} x {part.area}" for part in parts) or "empty", total, job.from_table("conductor-area"))
    return total


@fact
def inside_area(raceway: Raceway, job: Job) -> Area:
    """The whole area inside it. NFPA 70 Chapter 9, Table 4."""
    area = job.tables.inside_area(raceway.type, raceway.size)
    job.step(f"{raceway.type} of {raceway.size}", area, job.from_table("raceway-inside"))
    return area


@fact
def fill(raceway: Raceway, job: Job) -> Percent:
    """The share of its inside that wires and cables take. NFPA 70 Chapter 9, Tables 1, 4 and 5."""
    taken, whole = contents_area(raceway, job), inside_area(raceway, job)
    share = Percent.of(100 * taken.over(whole), "%")
    job.step(f"{taken} / {whole}", share)
    return share


@fact
def only_guards_cable(raceway: Raceway, job: Job) -> bool:
    """Whether it is no pipe from end to end, but a piece that guards cable: a sleeve, or a riser whose cables go on in the soil.

    NFPA 70 Chapter 9, note 2 to the tables: the limits of fill are not about such pieces.
    """
    where = lies(raceway, job)
    return where == "sleeve" or all_hold(
        lambda: where == "riser",
        lambda: not raceway.holds,
        lambda: bool(contents(raceway, job).known),
        lambda: contents(raceway, job).every(lambda run: is_cable(run, job) and is_direct_buried(run, job)),
    )


@fact
def fill_limit(raceway: Raceway, job: Job) -> Percent:
    """The share that wires and cables may take, by their number; more in a nipple, and for the last wire of some sizes.

    A pipe's length is asked only where it is fuller than other pipes may be. NFPA 70 Chapter 9 Table 1, notes 4 and 7.
    """
    return _limit(raceway, inside(raceway, job), inside_area(raceway, job), job)


def _limit(raceway: Raceway, parts: tuple[Alike, ...], whole: Area, job: Job) -> Percent:
    """The limit that would hold if its inside were so large."""
    limit = _allowed(parts, whole, _by_count(parts, job), job)
    if not parts or _taken(parts) <= whole * limit:
        return limit
    if not is_nipple(raceway, job.setting("fill-limit.nipple-length"), job) or lies(raceway, job) in OPEN_BELOW:
        return limit
    job.step("a pipe this short", job.tables.nipple_fill(), "NFPA 70 Chapter 9, note 4")
    return _allowed(parts, whole, job.tables.nipple_fill(), job)


def _by_count(parts: tuple[Alike, ...], job: Job) -> Percent:
    count = sum(part.count for part in parts)
    share = job.tables.fill_limit(max(count, 1))
    job.step("one wire or cable" if count == 1 else f"{count} wires or cables", share, job.from_table("raceway-fill"))
    return share


def _allowed(parts: tuple[Alike, ...], whole: Area, share: Percent, job: Job) -> Percent:
    """The share itself; or of wires that are all alike, what so many take as note 7 lets in."""
    if not parts or any(part.area != parts[0].area for part in parts):
        return share
    count, each = sum(part.count for part in parts), parts[0].area
    most = _whole_number(whole, share, each, job)
    reached = Percent.of(100 * min(most, count) * each.over(whole), "%")
    if reached <= share:
        return share
    job.step(f"{share} of {whole} / {each}, a fraction of {_counting_up(job):g} or more counting as one more", f"{most} wires")
    return reached


def _whole_number(whole: Area, share: Percent, each: Area, job: Job) -> int:
    """How many wires of one size fit: a large enough fraction counts as one more. NFPA 70 Chapter 9, note 7."""
    exact = (whole * share).over(each)
    return math.floor(exact + 1 - _counting_up(job) + TOLERANCE)


def _counting_up(job: Job) -> float:
    fraction: float = job.setting("fill-limit.counting-up-from")
    return fraction


@fact
def most_alike(raceway: Raceway, job: Job) -> int:
    """The most wires of the size that is in it, where all are alike. NFPA 70 Informative Annex C; Chapter 9, note 7."""
    parts = inside(raceway, job)
    if not parts or any(part.area != parts[0].area for part in parts):
        does_not_arise(raceway, f"{raceway.name}: wires of one size and kind, of which the most can be told")
    whole, each = inside_area(raceway, job), parts[0].area
    for count in (3, 2, 1):
        share = job.tables.fill_limit(count)
        most = _whole_number(whole, share, each, job)
        if most >= count:
            words = f"{share} of {whole} / {each}, a fraction of {_counting_up(job):g} or more counting as one more"
            job.step(words, most, job.from_table("raceway-fill"))
            return most if count > 2 else count
    return 0


@fact
def smallest_size(raceway: Raceway, job: Job) -> TradeSize:
    """The smallest trade size of its type that takes what is in it. Not stated where none is large enough.

    NFPA 70 Chapter 9, Tables 1, 4 and 5.
    """
    parts = inside(raceway, job)
    for size in job.tables.raceway_sizes(raceway.type):
        whole = job.tables.inside_area(raceway.type, size)
        limit = _limit(raceway, parts, whole, job)
        if _taken(parts) <= whole * limit:
            job.step(f"{_taken(parts)} in {size} of {whole}, where {limit} may be taken", size, "NFPA 70 Chapter 9 Table 4")
            return size
    not_stated(raceway, "size", f"{raceway.name}: a pipe of {raceway.type} large enough, for the table has none")


@fact
def has_three_alike(raceway: Raceway, job: Job) -> bool:
    """Whether the largest wires or cables in it are exactly three. NFPA 70 Chapter 9 Table 1, informational note."""
    return _largest(inside(raceway, job)).count == 3


@fact
def jam_ratio(raceway: Raceway, job: Job) -> float:
    """Its inside diameter over the diameter of the largest wire. NFPA 70 Chapter 9 Table 1, informational note."""
    largest = _largest(inside(raceway, job))
    if not largest.count:
        does_not_arise(raceway, f"{raceway.name}: wires or cables, of which it holds none")
    across = job.tables.inside_diameter(raceway.type, raceway.size)
    ratio = across.over(largest.diameter)
    job.step(f"{across} / {largest.diameter}", f"{ratio:.2f}", "NFPA 70 Chapter 9, Tables 4 and 5")
    return ratio


def _largest(parts: tuple[Alike, ...]) -> Alike:
    """The widest wires or cables in it, all of that width together; none of an empty pipe."""
    width = max((part.diameter for part in parts), default=Length.of(0, "in"))
    widest = [part for part in parts if part.diameter == width]
    return Alike(sum(part.count for part in widest), widest[0].area if widest else Area.of(0, "sq in"), width)
