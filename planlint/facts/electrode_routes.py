"""The way of a wire to an electrode: where it wants protection, steel round it, aluminum near the soil, a bar used as a wire."""

from planlint.facts.electrode_wires import leads_to_equipment
from planlint.facts.electrodes import conductors_from_it, conductors_to_it, is_wire
from planlint.facts.engine import Job, fact
from planlint.facts.equipment_ground import FLEXIBLE_METAL, RIGID_METAL
from planlint.plan import Electrode, ElectrodeConductor, not_stated
from planlint.plan.members import Members
from planlint.plan.routes import Raceway
from planlint.trade import WireSizes


@fact
def protection_needed(wire: ElectrodeConductor, job: Job) -> bool:
    """Whether it has to run in pipe or armor: smaller than 6 AWG always, larger where it can be hit.

    NFPA 70 250.64(B)(1) to (3).
    """
    metal = _metal(wire)
    least: WireSizes = job.setting("protection-needed.least-bare")
    return wire.size.size < least.by_metal[metal] or wire.subject_to_damage


@fact
def well_protected(wire: ElectrodeConductor, job: Job) -> bool:
    """Whether it lies in armor, or in pipe that bears a blow; where nothing can hit it, by edition, in lighter plastic pipe too.

    NFPA 70 250.64(B)(2), (3).
    """
    if not wire.states("raceway") and not wire.protected:
        return False
    pipe = wire.raceway
    if pipe is None:
        return wire.protected
    _not_bare_in(pipe, wire)
    strong: tuple[str, ...] = job.setting("well-protected.pipes")
    unhit: tuple[str, ...] = job.setting("well-protected.pipes-unhit")
    return pipe.type in strong or (pipe.type in unhit and not wire.subject_to_damage)


@fact
def aluminum_near_soil(wire: ElectrodeConductor, job: Job) -> bool:
    """Whether it is aluminum with an end less than 18 in from the soil. NFPA 70 250.64(A)."""
    return _metal(wire) == "aluminum" and bool(wire.soil_distance < job.setting("aluminum-near-soil.least-distance"))


def _metal(wire: ElectrodeConductor) -> str:
    if not wire.size.size.metal:
        not_stated(wire, "size", f"{wire.name}: size, its metal (copper or aluminum)")
    return wire.size.size.metal


@fact
def in_steel(wire: ElectrodeConductor, job: Job) -> bool:
    """Whether metal pipe or armor lies round it, which is taken for steel. One that is not protected lies in neither.

    NFPA 70 250.64(E).
    """
    bare = wire.states("protected") and not wire.protected
    if bare and not wire.states("raceway") and "raceway" not in wire.unknown:
        return False
    pipe = wire.raceway
    if pipe is None:
        return wire.protected
    _not_bare_in(pipe, wire)
    return pipe.type in (*RIGID_METAL, *FLEXIBLE_METAL)


def _not_bare_in(pipe: Raceway, wire: ElectrodeConductor) -> None:
    """Raises NotStated for a wire that names a pipe and says that it is in none."""
    if wire.states("protected") and not wire.protected:
        not_stated(wire, "protected", f"{wire.name}: raceway {pipe.name} or protected no, for it can't be both")


@fact
def steel_bonded(wire: ElectrodeConductor, job: Job) -> bool:
    """Whether its pipe, or its armor, is bonded to it at both ends. NFPA 70 250.64(E)."""
    pipe = wire.raceway
    return wire.armor_bonded if pipe is None else pipe.ends_bonded


@fact
def is_bar(electrode: Electrode, job: Job) -> bool:
    """Whether a concrete-encased electrode is reinforcing bar, not wire. NFPA 70 250.52(A)(3)."""
    return not is_wire(electrode)


@fact
def wires_past_it(electrode: Electrode, job: Job) -> Members[ElectrodeConductor]:
    """The wires by which it leads on to other electrodes, away from the equipment, whichever way round they are drawn.

    NFPA 70 250.68(C)(3).
    """
    wires = conductors_to_it(electrode, job).joined(conductors_from_it(electrode, job))

    def leads_on(wire: ElectrodeConductor) -> bool:
        other = wire.from_ if wire.to is electrode else wire.to
        return isinstance(other, Electrode) and not leads_to_equipment(other, wire, job)

    return wires.where(leads_on)
