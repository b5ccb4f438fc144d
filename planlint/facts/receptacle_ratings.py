"""Receptacles against the breaker of their circuit."""

from planlint.book.tables import OutOfTable
from planlint.facts.demand import amperes, cooking_demand, plate_current
from planlint.facts.engine import Job, fact
from planlint.plan.elements import NotStated, not_stated
from planlint.plan.members import all_hold
from planlint.plan.outlets import Lights, Load, Receptacles
from planlint.quantities import Current


@fact
def is_only_outlet(receptacles: Receptacles, job: Job) -> bool:
    """Whether it is one single receptacle, and nothing else is on its circuit. A duplex is two.

    NFPA 70 article 100 (individual branch circuit, receptacle), 210.21(B)(1). What is plugged in is no other outlet.
    """
    circuit, graph = receptacles.circuit, job.graph
    return all_hold(
        lambda: receptacles.count == 1,
        lambda: receptacles.single,
        lambda: graph.those(Receptacles, "circuit", circuit).every(lambda other: other is receptacles),
        lambda: graph.those(Lights, "circuit", circuit).every(lambda lights: False),
        lambda: graph.those(Load, "circuit", circuit).every(lambda load: load.connection == "cord"),
    )


@fact
def ratings_allowed(receptacles: Receptacles, job: Job) -> tuple[Current, ...]:
    """What may be stamped on it: the least and, where there is one, the most.

    A single receptacle alone on its circuit, and any on a circuit of more than 50 A, has at least the breaker's rating; others go
    by Table 210.21(B)(3), of which from 2023 on only the least counts. NFPA 70 210.21(B)(1), (3).
    """
    breaker = receptacles.circuit.breaker
    if is_only_outlet(receptacles, job):
        job.step(f"one single receptacle alone on a circuit of {breaker}: at least", breaker, "NFPA 70 210.21(B)(1)")
        return (breaker,)
    least, most = _of_several(breaker, job)
    if most is None:
        job.step(f"several outlets on a circuit of {breaker}: at least", least, "NFPA 70 210.21(B)(3)")
        return (least,)
    job.step(f"several outlets on a circuit of {breaker}: from {least} to", most, job.from_table("receptacle-ratings"))
    return (least,) if least == most else (least, most)


@fact
def rating_suits(receptacles: Receptacles, job: Job) -> bool:
    """Whether what is stamped on it suits its circuit; known too where it is open how many outlets the circuit has.

    The receptacle of arc welders or of one range goes by what they draw, and its breaker may be larger. NFPA 70 210.21(B)(1)
    and (3) with exceptions, (4).
    """
    breaker, rating = receptacles.circuit.breaker, receptacles.rating
    alone = rating >= breaker
    try:
        least, most = _of_several(breaker, job)
        several = rating >= least and (most is None or rating <= most)
    except OutOfTable:  # no circuit of that rating has several outlets (210.18)
        if not is_only_outlet(receptacles, job):
            raise
        several = alone
    suits = alone if alone == several or is_only_outlet(receptacles, job) else several
    return suits or _goes_by_its_load(receptacles, job)


@fact
def ratings_in_words(receptacles: Receptacles, job: Job) -> str:
    """What may be stamped on it, in words; both answers while it is open whether it is alone there. NFPA 70 210.21(B)."""
    breaker = receptacles.circuit.breaker
    alone = f"{breaker} or more"
    try:
        least, most = _of_several(breaker, job)
        several = f"{least} or more" if most is None else f"{least}" if least == most else f"{least} to {most}"
    except OutOfTable:
        return alone
    try:
        return alone if is_only_outlet(receptacles, job) else several
    except NotStated:
        return several if several == alone else f"{alone} for a single one alone on its circuit, otherwise {several}"


def _of_several(breaker: Current, job: Job) -> tuple[Current, Current | None]:
    """The least and the most on a circuit with several outlets. Raises OutOfTable."""
    above: Current = job.setting("ratings-allowed.table-up-to")
    if breaker > above:
        return breaker, None
    least, most = job.tables.receptacle_ratings(breaker)
    return least, None if job.setting("ratings-allowed.larger-too") else most


def _goes_by_its_load(receptacles: Receptacles, job: Job) -> bool:
    """Whether it is there for arc welders or one range only, and bears what they draw.

    Of a welder at least the plate's current counts here; a short duty cycle may let it be less (630.11), which the plan doesn't
    say. Of a range it is the demand of Table 220.55. NFPA 70 210.21(B)(1) exception 2, (3) exception 1, (4).
    """
    loads = job.graph.those(Load, "circuit", receptacles.circuit)
    if not loads.some(lambda load: load.type in ("welder", "range")):
        return False
    if loads.every(lambda load: load.type == "welder"):
        if loads.every(lambda load: receptacles.rating >= plate_current(load, job)):
            return True
        note = f"{receptacles.name}: rating of what the welder draws, or its duty cycle, by which it may be less (630.11)"
        not_stated(receptacles, "rating", note)
    if len(loads.known) != 1 or receptacles.rating > receptacles.circuit.breaker:
        return False
    return loads.every(lambda load: load.type == "range" and load.count == 1 and _bears_range(receptacles, load, job))


def _bears_range(receptacles: Receptacles, range_: Load, job: Job) -> bool:
    return receptacles.rating >= amperes(cooking_demand([range_], job), range_.volts, range_)
