"""Two circuits on one neutral: on which legs their breakers sit, and whether they open together."""

from collections.abc import Callable

from planlint.facts.engine import Job, fact
from planlint.plan.elements import NotStated, not_stated
from planlint.plan.gear import Supply
from planlint.plan.members import Members
from planlint.plan.runs import Circuit

LEGS = 2  # of a single-phase panel: its rows of spaces go to the two legs in turn


@fact
def shares_neutral(circuit: Circuit, job: Job) -> bool:
    """Whether it names another circuit on the same neutral; of two that name each other, the first in the plan.

    So that one shared neutral is judged once. NFPA 70 article 100 (branch circuit, multiwire), 210.4.
    """
    other = circuit.shares_neutral_with
    if other is None:
        return False
    order = {id(element): place for place, element in enumerate(job.graph.elements)}
    return other.shares_neutral_with is not circuit or order[id(circuit)] < order[id(other)]


@fact
def opposite_legs(circuit: Circuit, job: Job) -> bool:
    """Whether no two of the circuits on its neutral sit on the same leg of the panel; yes for both poles of one breaker.

    By their spaces: odd numbers left, even right, and each row on the other leg than the row above, as panels are numbered by
    custom (common practice, no source). All of them have to start at the same panel. NFPA 70 210.4(A), article 100.
    """
    group = _on_its_neutral(circuit, job)
    if any(_same_leg(one, other, job) for one in group for other in group if other is not one):
        return False
    group.whole()
    return True


@fact
def opens_together(circuit: Circuit, job: Job) -> bool:
    """Whether one handle opens all hot wires on its neutral: one breaker of two poles, or a listed tie. NFPA 70 210.4(B).

    Not stated where a tie is named for breakers that don't lie one below the other, for it couldn't reach.
    """
    other = circuit.shares_neutral_with or circuit
    said = {one.handle_tie for one in (circuit, other) if one.states("handle-tie")}
    if said == {True}:
        _lie_together(circuit, other)
        return True
    if circuit.poles >= LEGS and other.poles >= LEGS and _on_one_breaker(circuit, other):
        return True
    if len(said) != 1:
        not_stated(circuit, "handle-tie")
    return False


def _lie_together(one: Circuit, other: Circuit) -> None:
    """Raises NotStated if both say their spaces and none of the one is that of the other, or next to it in its column."""
    if not (one.states("space") and other.states("space")):
        return
    if not any(abs(space - beside) in (0, 2) for space in one.space for beside in other.space):
        spaces = " and ".join(", ".join(map(str, each.space)) for each in (one, other))
        not_stated(one, "space", f"{one.name}: space or handle-tie, for no tie reaches from one to the other of {spaces}")


def _on_one_breaker(one: Circuit, other: Circuit) -> bool:
    """Whether two circuits of two poles are on one breaker: they sit in the same spaces of one panel."""
    return one.panel is other.panel and set(one.space) == set(other.space)


@fact
def neutral_faults(circuit: Circuit, job: Job) -> str:
    """What is wrong with the neutral that it shares, in words. NFPA 70 210.4."""
    faults = []
    if _is_known_false(lambda: opposite_legs(circuit, job)):
        panels = {id(one.panel) for one in _on_its_neutral(circuit, job)}
        same, apart = "two of the hot wires on it come from the same leg", "the hot wires on it start at different panels"
        faults.append(same if len(panels) == 1 else apart)
    if _is_known_false(lambda: opens_together(circuit, job)):
        faults.append("their breakers are not tied")
    return ", and ".join(faults) or "nothing"


def _is_known_false(holds: Callable[[], bool]) -> bool:
    """Whether it is known not to hold; no while it is open, for then nothing can be said of it."""
    try:
        return not holds()
    except NotStated:
        return False


def _on_its_neutral(circuit: Circuit, job: Job) -> Members[Circuit]:
    """It, the one that it names, those that name either, and so on; open while there may be more."""
    found: Members[Circuit] = Members((circuit,))
    seen = 0
    while seen < len(found.known):
        one = found.known[seen]
        seen += 1
        other = one.shares_neutral_with
        found = found.joined(Members((other,) if other else ()), job.graph.those(Circuit, "shares-neutral-with", one))
    return found


def _same_leg(one: Circuit, other: Circuit, job: Job) -> bool:
    """Whether two circuits on one neutral load it with their sum, or start at different panels."""
    if one.panel is not other.panel:
        return True
    if one.poles >= LEGS and other.poles >= LEGS and _on_one_breaker(one, other):
        return False
    legs, others = _legs(one, job), _legs(other, job)
    return bool(legs & others)


def _legs(circuit: Circuit, job: Job) -> set[int]:
    """The legs on which its breaker sits, 0 and 1 by turns down the panel; of two poles both."""
    for supply in job.graph.all(Supply).known:
        if supply.states("phase") and supply.phase != "single-phase":
            not_stated(circuit, "space", f"{circuit.name}: on which of three legs it sits")
    if circuit.poles >= LEGS:
        job.step(f"{circuit.name}: {circuit.poles} poles", "leg A and B")
        return set(range(LEGS))
    legs = {(space + 1) // 2 % LEGS for space in circuit.space}
    words = ", ".join(f"space {space}, row {(space + 1) // 2}" for space in circuit.space)
    job.step(f"{circuit.name}: {words}", f"leg {' and '.join('AB'[1 - leg] for leg in sorted(legs, reverse=True))}")
    return legs
