"""Overhead spans: how high they hang over what they pass, and how high they must."""

from collections.abc import Callable

from planlint.facts.engine import Job, fact
from planlint.plan.elements import NotStated, not_stated
from planlint.plan.members import all_hold
from planlint.plan.routes import OverheadSpan
from planlint.quantities import Length

CLAUSE = "NFPA 70 230.24(B), 230.26, 230.9(A)"
# What a span passes over, the attribute that says how far off it is, and how a finding names it.
_PASSED = {
    "walkway": ("above-walkway", "over ground where people walk"),
    "driveway": ("above-driveway", "over a driveway"),
    "street": ("above-street", "over a street"),
    "roof": ("above-roof", "over a roof"),
    "windows": ("from-windows", "from a window that opens"),
}


def _setting(name: str, job: Job) -> Length:
    value: Length = job.setting(f"hangs-high-enough.{name}")
    return value


def _is_steep(span: OverheadSpan, job: Job) -> bool:
    slope = span.roof_slope
    steep: float = job.setting("roof-clearance.steep-from")
    return slope.rise / slope.run * 12 >= steep


def _reliefs(span: OverheadSpan, job: Job) -> list[tuple[Length, Callable[[], bool], str]]:
    """The lesser heights over a roof, when each may be used, and how a step says so. NFPA 70 230.24(A), exceptions 3 and 2."""
    return [
        (job.setting("roof-clearance.overhang"), lambda: span.over_overhang_only, "over the overhang only, to a mast"),
        (job.setting("roof-clearance.steep"), lambda: _is_steep(span, job), f"over a slope of {_slope(span)}"),
    ]


def _slope(span: OverheadSpan) -> str:
    return str(span.roof_slope) if span.states("roof-slope") else "not stated"


@fact
def roof_clearance(span: OverheadSpan, job: Job) -> Length:
    """The least height over the roof: less over a steep roof, and least over an overhang alone. NFPA 70 230.24(A).

    Where the span hangs high enough for the full height, slope and overhang need not be known.
    """
    full: Length = job.setting("roof-clearance.full")
    if span.above_roof >= full:
        job.step("over a roof", full, "NFPA 70 230.24(A)")
        return full
    found = [(least, words) for least, may, words in _reliefs(span, job) if may()]
    least, words = min(found, key=lambda each: each[0].amount, default=(full, "over a roof"))
    job.step(words, least, "NFPA 70 230.24(A)")
    return least


def _clears_roof(span: OverheadSpan, job: Job) -> bool:
    """Known too where only what makes no difference is left out."""
    full: Length = job.setting("roof-clearance.full")
    low_enough = [may for least, may, _ in _reliefs(span, job) if span.above_roof >= least]
    return span.above_roof >= full or not all_hold(*(_denied(may) for may in low_enough))


def _denied(may: Callable[[], bool]) -> Callable[[], bool]:
    return lambda: not may()


def _least(passed: str, span: OverheadSpan, job: Job) -> Length:
    return roof_clearance(span, job) if passed == "roof" else _setting(passed, job)


def _clears(passed: str, span: OverheadSpan, job: Job) -> bool:
    if passed == "roof":
        return _clears_roof(span, job)
    return _distance(passed, span) >= _setting(passed, job)


def _distance(passed: str, span: OverheadSpan) -> Length:
    if passed == "attachment":
        return span.attachment
    if passed not in _PASSED:
        not_stated(span, "above-water", f"{span.name}: its height over {passed}, which NFPA 70 680.9 and the utility rule")
    distance: Length = span.value(_PASSED[passed][0])
    return distance


@fact
def hangs_high_enough(span: OverheadSpan, job: Job) -> bool:
    """Whether its fastening and all that it passes over or beside are as far off as they must be, for 120/240 V and the like.

    NFPA 70 230.24, 230.26, 230.9 (feeders and circuits 225.16, 225.18, 225.19). No with one place too low.
    """
    return all_hold(
        lambda: _clears("attachment", span, job),
        lambda: all_hold(*(_test(passed, span, job) for passed in span.passes_over)),
    )


def _test(passed: str, span: OverheadSpan, job: Job) -> Callable[[], bool]:
    return lambda: _clears(passed, span, job)


@fact
def worst_shortfall(span: OverheadSpan, job: Job) -> Length:
    """The most by which it is too low or too near: over all that it passes, the least distance less the stated one.

    NFPA 70 230.24, 230.26, 230.9. Below 0 where it hangs high enough everywhere.
    """
    found: list[Length] = []
    for passed in ("attachment", *span.passes_over):
        distance = _distance(passed, span)
        least = _least(passed, span, job)
        found.append(least - distance)
        job.step(f"{passed}: {least} - {distance}", found[-1], CLAUSE if passed != "roof" else "NFPA 70 230.24(A)")
    return max(found)


@fact
def low_places(span: OverheadSpan, job: Job) -> str:
    """Where it is too low or too near, in words, each with the least."""
    found: list[str] = []
    for passed in ("attachment", *(span.passes_over if span.states("passes-over") else ())):
        try:
            if not _clears(passed, span, job):
                found.append(_words(passed, span, job))
        except NotStated:  # what is open is no low place that could be spoken of
            continue
    return "; ".join(found) or "nowhere"


def _words(passed: str, span: OverheadSpan, job: Job) -> str:
    where = "at its fastening" if passed == "attachment" else _PASSED[passed][1]
    try:
        return f"{_distance(passed, span)} {where}, where {_least(passed, span, job)} is the least"
    except NotStated:
        return f"{_distance(passed, span)} {where}, less than any roof allows"
