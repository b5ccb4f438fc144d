"""Kitchen counters and islands: which receptacles serve the top, and how many an island or peninsula wants."""

import math

from planlint.facts.engine import Job, fact
from planlint.facts.wall_spaces import has_receptacle, is_in_dwelling, positions
from planlint.plan.elements import not_stated
from planlint.plan.members import all_hold
from planlint.plan.spaces import Counter
from planlint.quantities import TOLERANCE, Area, Length


@fact
def is_kitchen_counter(counter: Counter, job: Job) -> bool:
    """Whether it stands in a dwelling's kitchen, pantry or dining room. NFPA 70 210.52(C)."""
    return all_hold(lambda: counter.at.use in job.setting("is-kitchen-counter.rooms"), lambda: is_in_dwelling(counter.at, job))


@fact
def serves_top(counter: Counter, job: Job) -> bool:
    """Whether its receptacles are where they count for the top: not too high above it; below it only as the edition allows.

    NFPA 70 210.52(C)(3) (2017: 210.52(C)(5) and its exception); the edition of 2023 counts none below the top.
    """
    if not counter.states("below-top"):
        highest: Length = job.setting("serves-top.most-above")
        return counter.receptacle_height <= highest
    if counter.states("receptacle-height"):
        not_stated(counter, "below-top", f"{counter.name}: receptacle-height or below-top, because it says both")
    allowed = job.setting("serves-top.below-the-top")
    if allowed == "never":
        return False
    return all_hold(
        lambda: counter.below_top <= job.setting("serves-top.most-below"),
        lambda: counter.overhang <= job.setting("serves-top.most-overhang"),
        lambda: allowed == "always" or counter.no_place_above,
    )


@fact
def has_serving_receptacle(counter: Counter, job: Job) -> bool:
    """Whether at least one receptacle serves its top. NFPA 70 210.52(C)(1), (C)(3) (2017: (C)(5))."""
    return all_hold(lambda: has_receptacle(counter, job), lambda: serves_top(counter, job))


@fact
def receptacles_serving(counter: Counter, job: Job) -> int:
    """How many of its receptacles serve the top: all, or none if they are where they don't count. NFPA 70 210.52(C)(2), (3)."""
    found = len(positions(counter))
    return found if found and serves_top(counter, job) else 0


@fact
def receptacles_needed(counter: Counter, job: Job) -> int:
    """How many receptacles an island or peninsula wants to serve its top; none where it is too small.

    In 2017 one, from 24 in by 12 in up. In 2020 one for the first 9 sq ft and one for each 18 sq ft more or part of that. In 2023
    one, or a way to add it later. NFPA 70 210.52(C), (C)(2) (2017: (C)(2), (C)(3)).
    """
    long, short = sorted((counter.length, counter.depth), key=lambda side: -side.amount)
    if short < job.setting("receptacles-needed.least-short-side") or long < job.setting("receptacles-needed.least-long-side"):
        job.step(f"{long} by {short} is too small to be asked for one", 0, "NFPA 70 210.52(C)")
        return 0
    if not job.setting("receptacles-needed.by-area"):
        return 1
    first: Area = job.setting("receptacles-needed.first-area")
    further: Area = job.setting("receptacles-needed.further-area")
    area = Area.of(long.within("ft") * short.within("ft"), "sq ft")
    job.step(f"{long.shown_in('ft')} x {short.shown_in('ft')}", area)
    more = max(0, math.ceil((area - first).over(further) - TOLERANCE))
    job.step(f"1 for the first {first}, and 1 for each {further} or part of the rest: 1 + {more}", 1 + more,
             "NFPA 70 210.52(C)(2)(a)")  # fmt: skip
    return 1 + more


@fact
def end_is_served(counter: Counter, job: Job) -> bool:
    """Whether a receptacle is near enough to the outer end of a peninsula, where the edition asks for it.

    NFPA 70 210.52(C)(2)(b) of 2020.
    """
    if not job.setting("end-is-served.asked") or counter.type != "peninsula":
        return True
    most: Length = job.setting("end-is-served.most-distance")
    places = positions(counter)
    if not places:
        return False
    left = counter.length - places[-1]
    job.step(f"from the last one to the outer end: {counter.length} - {places[-1]}, at most {most}", left)
    return left <= most
