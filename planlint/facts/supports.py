"""Straps and staples: how far apart they may be, and how far from a box, for pipes and cables."""

from collections.abc import Callable

from planlint.facts.engine import Job, fact
from planlint.facts.ways import lies
from planlint.facts.wires import Wired, cable_type, hot_size, hot_wires, is_cable, neutral_wires
from planlint.plan.elements import NotStated, does_not_arise
from planlint.plan.members import all_hold
from planlint.plan.routes import Raceway
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Length

IN_THE_OPEN = ("inside", "above-grade", "riser", "roof")
FLEXIBLE = ("FMC", "LFMC", "LFNC-A", "LFNC-B", "ENT")
SHORT_WITHOUT_STRAPS = ("LFNC-A", "LFNC-B")
RIGID_METAL = ("EMT", "IMC", "RMC")
THREADED = ("IMC", "RMC")
SERVICE_ENTRANCE = ("SEU", "SER")
IN_PLASTIC_BOXES = ("NM-B", "UF-B")
ARMORED = ("AC", "MC")


@fact
def needs_supports(line: Raceway | Service | Feeder | Circuit, job: Job) -> bool:
    """Whether it has to be fastened along its way: a pipe in the open, a cable; not what is fished, nor a short whip.

    USE-2 lies in the soil. NFPA 70 320.30(D), 330.30(D), 334.30(B), 342.30 to 362.30.
    """
    if isinstance(line, Raceway):
        return all_hold(
            lambda: lies(line, job) in IN_THE_OPEN,
            lambda: line.unfastened != "fished",
            lambda: line.type not in FLEXIBLE or not _may_hang(line, job),
        )
    return all_hold(lambda: is_cable(line, job), lambda: cable_type(line, job) != "USE-2", lambda: line.unfastened != "fished")


def _may_hang(raceway: Raceway, job: Job) -> bool:
    """Whether flexible pipe is so short that it needs no strap: a whip, or LFNC of any use."""
    if raceway.type in SHORT_WITHOUT_STRAPS and raceway.length <= _setting("needs-supports.short-plastic", job):
        return True
    return raceway.unfastened == "whip" and raceway.length <= _longest_whip(raceway, job)


def _longest_whip(raceway: Raceway, job: Job) -> Length:
    """By its size where it has to bend and move; above a ceiling, to a light or other equipment, any size."""
    if raceway.route == "inside":
        return _setting("needs-supports.whip-inside", job)
    across = Length.of(raceway.size.inches, "in")
    small, medium = (_setting(f"needs-supports.{name}-size", job) for name in ("small", "medium"))
    name = "small" if across <= small else "medium" if across <= medium else "large"
    return _setting(f"needs-supports.whip-{name}", job)


@fact
def most_spacing_here(line: Raceway | Service | Feeder | Circuit, job: Job) -> Length:
    """The most between two of its straps or staples, by type and size.

    NFPA 70 230.51(A) of service cable, otherwise section .30 of its article; cables through holes in the framing count as
    fastened there (334.30(A)). Whether rigid steel is straight and threaded is asked only where its straps are farther apart
    than other pipe's may be.
    """
    _arises(line, job)
    if isinstance(line, Raceway):
        return _between_straps(line, job)
    kind = cable_type(line, job)
    if isinstance(line, Service) and kind in SERVICE_ENTRANCE:
        most = _setting("most-spacing-here.service-cable", job)
        job.step(f"{kind} as service cable", most, "NFPA 70 230.51(A)")
        return most
    most = job.tables.support_spacing(kind)
    job.step(kind, most, job.from_table("supports"))
    return most


@fact
def support_gaps(line: Raceway | Service | Feeder | Circuit, job: Job) -> str:
    """Which of its straps or staples are too far apart, in words, each with the most."""
    word = "strap" if isinstance(line, Raceway) else "staple"
    gaps: list[tuple[str, Callable[[], tuple[Length, Length]]]] = [
        (f"between two {word}s", lambda: (line.support_spacing, most_spacing_here(line, job))),
        (f"from a box or end to the first {word}", lambda: (line.first_support, most_first_here(line, job))),
    ]
    found: list[str] = []
    for where, read in gaps:
        try:
            stated, most = read()
        except NotStated:  # what is open is no gap that could be spoken of
            continue
        if stated > most:
            found.append(f"{stated} {where}, where {most} is the most")
    return "; ".join(found) or "nothing"


@fact
def supports_in_words(line: Raceway | Service | Feeder | Circuit, job: Job) -> str:
    """How its straps or staples have to be, in words: known before the first one is in place.

    As `most-spacing-here` and `most-first-here`, with what lets straps be farther away or wants a staple nearer.
    """
    _arises(line, job)
    if isinstance(line, Raceway):
        most, first = job.tables.support_spacing(line.type, line.size), job.tables.first_support(line.type)
        farther = job.tables.support_spacing(line.type, line.size, threaded=True) if line.type in THREADED else most
        threaded = f" (straight and threaded {farther})" if farther > most else ""
        alone = f" ({_setting('most-first-here.unbroken', job)} in one length without framing)"
        unbroken = alone if line.type in RIGID_METAL else ""
        return f"straps at most {most} apart{threaded}, the first within {first} of its box or end{unbroken}"
    first = _first_staple(line, job)
    return f"staples at most {most_spacing_here(line, job)} apart, the first within {first} of its box{_other_first(line, job)}"


def _other_first(run: Wired, job: Job) -> str:
    """What wants the first staple elsewhere, by what only eyes or a list of wires can tell."""
    kind = cable_type(run, job)
    if kind in IN_PLASTIC_BOXES:
        return f" ({_setting('most-first-here.without-clamps', job)} of a plastic box without clamps)"
    return f" ({job.tables.support_spacing(kind)} for large cable)" if kind == "MC" else ""


def _arises(line: Raceway | Wired, job: Job) -> None:
    """Straps are for pipe in the open, staples for cable."""
    if isinstance(line, Raceway):
        if lies(line, job) not in IN_THE_OPEN:
            does_not_arise(line, f"{line.name}: a pipe in the open")
    elif cable_type(line, job) == "none":
        does_not_arise(line, f"{line.name}: a cable")


def _between_straps(raceway: Raceway, job: Job) -> Length:
    most = job.tables.support_spacing(raceway.type, raceway.size)
    if raceway.type in THREADED and raceway.support_spacing > most and raceway.threaded:
        most = job.tables.support_spacing(raceway.type, raceway.size, threaded=True)
        job.step(f"{raceway.type} of {raceway.size}, straight, with threaded couplings", most, job.from_table("supports"))
        return most
    job.step(f"{raceway.type} of {raceway.size}", most, job.from_table("supports"))
    return most


@fact
def most_first_here(line: Raceway | Service | Feeder | Circuit, job: Job) -> Length:
    """The most from a box or end of it to the first strap or staple.

    NFPA 70 230.51(A) of service cable, 314.17(C) (from 2020 on (B)) of cable in plastic boxes that don't clamp it, otherwise
    section .30 of its article. What lets the first strap be farther away is asked only where it is.
    """
    _arises(line, job)
    if isinstance(line, Raceway):
        return _to_first_strap(line, job)
    most = _to_first_staple(line, job)
    job.step(f"{cable_type(line, job)}, from its box", most, job.from_table("supports"))
    return most


def _to_first_strap(raceway: Raceway, job: Job) -> Length:
    most = job.tables.first_support(raceway.type)
    if raceway.type in RIGID_METAL and raceway.first_support > most and raceway.unbroken_to_framing:
        most = _setting("most-first-here.unbroken", job)
        job.step(f"{raceway.type} in one length, without framing nearer", most, "NFPA 70 342.30(A), 344.30(A), 358.30(A)")
        return most
    job.step(raceway.type, most, job.from_table("supports"))
    return most


def _to_first_staple(run: Wired, job: Job) -> Length:
    kind = cable_type(run, job)
    most = job.tables.first_support(kind)
    if kind in IN_PLASTIC_BOXES:
        closer = _setting("most-first-here.without-clamps", job)
        if closer < run.first_support <= most and run.boxes_without_clamps:
            return closer
    if run.first_support <= most:
        return most
    return job.tables.support_spacing(kind) if kind == "MC" and _is_large(run, job) else _first_staple(run, job)


def _first_staple(run: Wired, job: Job) -> Length:
    """From a box that clamps it, or from the light to which it is a whip."""
    kind = cable_type(run, job)
    if run.unfastened == "whip" and not (isinstance(run, Service) and kind in SERVICE_ENTRANCE):
        return _setting(f"most-first-here.whip-of-{'armored' if kind in ARMORED else 'sheathed'}", job)
    return job.tables.first_support(kind)


def _is_large(run: Wired, job: Job) -> bool:
    """Whether MC cable has more than four wires, or thicker ones: then no staple is asked next to its boxes."""
    size = hot_size(run, job)
    if size > job.setting("most-first-here.small-mc").by_metal[size.metal]:
        return True
    return hot_wires(run, job).count + neutral_wires(run, job).count > int(job.setting("most-first-here.small-mc-wires"))


def _setting(name: str, job: Job) -> Length:
    value: Length = job.setting(name)
    return value
