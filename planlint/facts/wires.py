"""The wires of a run: from its own attributes, or from the cable whose name says them; and the breaker that protects it.

An attribute that is stated goes before what the cable's name says. Where hot wires and cable differ, it is open which is meant.
"""

from typing import Literal, cast

from planlint.facts.engine import Job, fact
from planlint.plan.elements import not_stated
from planlint.plan.gear import Disconnect, Meter, Panel, TransferSwitch
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Current
from planlint.trade import NO_CONDUCTORS, Conductors, WireSize

CableType = Literal["NM-B", "UF-B", "SEU", "SER", "USE-2", "MC", "AC", "none"]
Wired = Service | Feeder | Circuit


@fact
def is_cable(run: Service | Feeder | Circuit, job: Job) -> bool:
    """Whether a cable is named. Loose wires are hot wires that are stated for a pipe, an overhead span or (USE-2) the soil.

    NFPA 70 300.3(A), 338.10(B).
    """
    if run.states("cable"):
        return True
    if "cable" in run.unknown or not run.states("hot"):
        not_stated(run, "hot" if run.states("raceway") else "cable")
    if run.states("raceway") or run.states("span") or (run.states("trench") and run.hot.insulation == "USE-2"):
        return False
    not_stated(run, "cable", f"{run.name}: cable, or the raceway that its wires lie in")


@fact
def cable_type(run: Service | Feeder | Circuit, job: Job) -> CableType:
    """The type of its cable; none for loose wires. NFPA 70 articles 320, 330, 334, 338, 340."""
    return cast(CableType, run.cable.type) if is_cable(run, job) else "none"


def hot_wires(run: Wired, job: Job) -> Conductors:
    """The hot wires of one set, with the insulation where it is said.

    Raises NotStated where nothing says them, where their metal is left out, and where `hot` contradicts the cable's name.
    """
    size = hot_size(run, job)
    return run.hot if run.states("hot") else Conductors(_hots_of_cable(run), size)


def neutral_wires(run: Wired, job: Job) -> Conductors:
    """The neutral of one set; no wires where there is none. Raises NotStated where neither the plan nor the cable tells."""
    named = _named_by_cable(run)
    if run.states("neutral") or "neutral" in run.unknown or named is None:
        return _with_metal(run, "neutral", run.neutral)
    return Conductors(1, named) if run.cable.wires > _hots_of_cable(run) else NO_CONDUCTORS


def ground_wires(run: Wired, job: Job) -> Conductors:
    """The equipment ground of one set; no wires where there is none.

    NM-B and UF-B of copper have the one of their standard (UL 719, UL 493); of other cables the plan has to say it.
    """
    named = _named_by_cable(run)
    if run.states("ground") or "ground" in run.unknown or named is None:
        return _with_metal(run, "ground", run.ground)
    if run.cable.type not in ("NM-B", "UF-B") or named.metal != "copper":
        not_stated(run, "ground")
    return Conductors(1, job.tables.cable_ground(run.cable.type, named), "bare")


@fact
def hot_size(run: Service | Feeder | Circuit, job: Job) -> WireSize:
    """Size and metal of one hot wire, from the hot wires or from the cable's name. NFPA 70 310.8 (what is marked on them)."""
    named = _named_by_cable(run)
    if not run.states("hot") and "hot" not in run.unknown and named is not None:
        return named
    size = _with_metal(run, "hot", run.hot).size
    if named is not None and size != named:
        not_stated(run, "hot", f"{run.name}: hot, because it is not the size that {run.cable} has")
    return size


@fact
def neutral_size(run: Service | Feeder | Circuit, job: Job) -> WireSize:
    """Size and metal of the neutral; no wire where there is none. NFPA 70 310.8 (what is marked on them)."""
    return neutral_wires(run, job).size


@fact
def ground_size(run: Service | Feeder | Circuit, job: Job) -> WireSize:
    """Size and metal of the equipment ground; no wire where there is none. UL 719 and UL 493 for cable that has one."""
    return ground_wires(run, job).size


@fact
def has_neutral(run: Service | Feeder | Circuit, job: Job) -> bool:
    """Whether a neutral (grounded conductor) comes with it. NFPA 70 article 100."""
    return neutral_wires(run, job).count > 0


@fact
def breaker_rating(run: Service | Feeder | Circuit, job: Job) -> Current:
    """Rating of the breaker or fuses that protect it; of a service, those at its far end, where its load is held down.

    NFPA 70 article 240; services 230.90, 230.91.
    """
    if isinstance(run, Circuit):
        return run.breaker
    if isinstance(run, Feeder):
        return breaker_or_fuses(run)
    return _rating_at(run.to, run, job)


def _rating_at(gear: Meter | Disconnect | Panel | TransferSwitch, run: Service, job: Job) -> Current:
    """The overcurrent device of the gear at which a service ends, or of what follows where it has none."""
    if isinstance(gear, Panel):
        if isinstance(gear.main, Current):
            return gear.main
        not_stated(gear, "main", f"{gear.name}: main, because no single breaker stands where {run.name} ends")
    if isinstance(gear, Disconnect) and (gear.states("breaker") or gear.states("fuses") or not gear.states("switch-rating")):
        return breaker_or_fuses(gear)
    following = job.graph.feeds_from(gear).whole()
    if len(following) != 1:
        not_stated(gear, "rating", f"{gear.name}: the one breaker that holds down what {run.name} carries")
    return breaker_rating(following[0], job)


def breaker_or_fuses(element: Feeder | Disconnect) -> Current:
    """Whichever is stated. Raises NotStated for neither, and for both where they differ."""
    if not element.states("fuses"):
        return element.breaker
    if element.states("breaker") and element.breaker != element.fuses:
        not_stated(element, "breaker", f"{element.name}: breaker or fuses, because the two differ")
    return element.fuses


def _named_by_cable(run: Wired) -> WireSize | None:
    """Size and metal of a cable whose name says them; None for loose wires and for a bare cable type."""
    if not run.states("cable") or not run.cable.wires:
        return None
    if not run.cable.size.metal:
        not_stated(run, "cable", f"{run.name}: cable, its metal (copper or aluminum)")
    return run.cable.size


def _hots_of_cable(run: Wired) -> int:
    """How many wires of a cable of known size are hot: all but one of three or four; of two by the poles."""
    if run.cable.wires > 2:
        return run.cable.wires - 1
    if isinstance(run, Circuit):
        return run.poles
    return 2 - min(run.neutral.count, 1)


def _with_metal(run: Wired, attribute: str, wires: Conductors) -> Conductors:
    if wires.count and not wires.size.metal:
        not_stated(run, attribute, f"{run.name}: {attribute}, its metal (copper or aluminum)")
    return wires
