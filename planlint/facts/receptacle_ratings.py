"""Receptacles against the breaker of their circuit."""

from planlint.book.tables import OutOfTable
from planlint.facts.engine import Job, fact
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

    The receptacle of an arc welder goes by the welder, whose breaker may be larger. NFPA 70 210.21(B)(1) and (3) with exceptions.
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
    return suits or _is_of_welder(receptacles, job)


def _of_several(breaker: Current, job: Job) -> tuple[Current, Current | None]:
    """The least and the most on a circuit with several outlets. Raises OutOfTable."""
    above: Current = job.setting("ratings-allowed.table-up-to")
    if breaker > above:
        return breaker, None
    least, most = job.tables.receptacle_ratings(breaker)
    return least, None if job.setting("ratings-allowed.larger-too") else most


def _is_of_welder(receptacles: Receptacles, job: Job) -> bool:
    loads = job.graph.those(Load, "circuit", receptacles.circuit)
    return loads.some(lambda load: load.type == "welder")
