"""The conductors to electrodes: which electrodes one serves, how large it must be, where it lands, how it is clamped.

A conductor may be drawn either way round between two electrodes; what counts is on which side of it the equipment lies.
"""

from dataclasses import dataclass
from typing import Literal

from planlint.facts.bonding import fed_by_existing_three_wire, main_jumpers, sizing_area, sizing_runs
from planlint.facts.buildings import goes_to_another_building
from planlint.facts.electrodes import conductors_from_it, conductors_to_it, is_wire
from planlint.facts.engine import Job, fact
from planlint.facts.generators import grounds_its_own_source
from planlint.facts.roles import role
from planlint.plan import Disconnect, Electrode, ElectrodeConductor, Meter, Panel, TransferSwitch, not_stated
from planlint.plan.gear import AnyGear
from planlint.plan.runs import Feeder
from planlint.trade import WireSize, WireSizes

Landing = Literal[
    "service-neutral-bar",
    "service-ground-bar",
    "screw-bonded-ground-bar",
    "outbuilding-ground-bar",
    "outbuilding-neutral-bar",
    "derived-source",
    "meter",
    "downstream",
]


@dataclass(frozen=True, slots=True)
class Reach:
    """What a walk over electrode conductors comes to: electrodes, and the gear at which it ends."""

    electrodes: tuple[Electrode, ...]
    gear: tuple[AnyGear, ...]


def _reach(start: Electrode, without: ElectrodeConductor, job: Job) -> Reach:
    """What is joined to an electrode when one conductor is taken out. Raises NotStated while more may be joined."""
    electrodes: dict[int, Electrode] = {id(start): start}
    gear: dict[int, AnyGear] = {}
    todo = [start]
    while todo:
        here = todo.pop()
        ends: list[Electrode | AnyGear] = [wire.from_ for wire in conductors_to_it(here, job).whole() if wire is not without]
        ends += [wire.to for wire in conductors_from_it(here, job).whole() if wire is not without]
        for other in ends:
            if not isinstance(other, Electrode):
                gear[id(other)] = other
            elif id(other) not in electrodes:
                electrodes[id(other)] = other
                todo.append(other)
    return Reach(tuple(electrodes.values()), tuple(gear.values()))


def leads_to_equipment(start: Electrode, without: ElectrodeConductor, job: Job) -> bool:
    """Whether an electrode is joined to gear when one conductor is taken out. Raises NotStated while more may be joined."""
    return bool(_reach(start, without, job).gear)


@fact
def starts_at_equipment(wire: ElectrodeConductor, job: Job) -> bool:
    """Whether it starts at equipment, not at another electrode."""
    return not isinstance(wire.from_, Electrode)


@fact
def far_end(wire: ElectrodeConductor, job: Job) -> Electrode:
    """The electrode at its end away from the equipment, whichever way round it is drawn; `to` where both ends are joined."""
    start = wire.from_
    if isinstance(start, Electrode) and not _reach(start, wire, job).gear and _reach(wire.to, wire, job).gear:
        return start
    return wire.to


def _behind(wire: ElectrodeConductor, job: Job) -> tuple[Electrode, ...]:
    """The electrodes that it serves. Of a ring of wires that is joined to equipment at both sides, only those at its own ends."""
    start, end = wire.from_, far_end(wire, job)
    beyond = _reach(end, wire, job)
    if not beyond.gear:
        return beyond.electrodes
    return (start, end) if isinstance(start, Electrode) else (end,)


@fact
def goes_on(wire: ElectrodeConductor, job: Job) -> bool:
    """Whether it serves more electrodes than the one at its far end."""
    return len(_behind(wire, job)) > 1


@fact
def size_needed(wire: ElectrodeConductor, job: Job) -> WireSize:
    """Smallest size to the electrode at its far end, in its own metal: by the hot wires, never above the electrode's cap.

    NFPA 70 Table 250.66 and 250.66(A) to (C).
    """
    return _needed_at(far_end(wire, job), wire, job)


@fact
def size_needed_beyond(wire: ElectrodeConductor, job: Job) -> WireSize:
    """The largest need of all electrodes that it serves: a cap holds only while no other kind lies behind.

    NFPA 70 250.66(A) to (C), 250.53(C).
    """
    sizes = [(_needed_at(electrode, wire, job), electrode) for electrode in _behind(wire, job)]
    size, electrode = max(sizes, key=lambda pair: pair[0].area)
    job.step(f"the largest need behind {wire.name} is {electrode.name}'s", size)
    return size


def _needed_at(electrode: Electrode, wire: ElectrodeConductor, job: Job) -> WireSize:
    metal = wire.size.size.metal
    if not metal:
        not_stated(wire, "size", f"{wire.name}: size, its metal (copper or aluminum)")
    size = max((_by_table(gear, metal, job) for gear in _equipment(wire, job)), key=lambda size: size.area)
    cap = _cap(electrode, metal, job)
    if cap is None or size <= cap:
        return size
    job.step(f"{electrode.name} is of type {electrode.type}: never more than", cap, "NFPA 70 250.66(A) to (C)")
    return cap


def _by_table(gear: AnyGear, metal: str, job: Job) -> WireSize:
    area, hot_metal = sizing_area(sizing_runs(gear, job), job)
    size = job.tables.electrode_conductor(area, hot_metal, metal)
    job.step(f"electrode conductor for {area:.0f} circular mils of {hot_metal}", size, job.from_table("electrode-conductor"))
    return size


def _equipment(wire: ElectrodeConductor, job: Job) -> tuple[AnyGear, ...]:
    """The gear whose wires size it: where it starts, else whatever gear its electrodes are joined to."""
    start = wire.from_
    if not isinstance(start, Electrode):
        return (start,)
    gear = _reach(start, wire, job).gear + _reach(wire.to, wire, job).gear
    if not gear:
        not_stated(wire, "from", f"how {start.name} is joined to the equipment")
    return gear


def _cap(electrode: Electrode, metal: str, job: Job) -> WireSize | None:
    if electrode.type in ("rod", "pipe", "plate"):
        rods: WireSizes = job.setting("size-needed.most-to-rod")
        return rods.by_metal.get(metal)
    if electrode.type == "concrete-encased":
        footing: WireSizes = job.setting("size-needed.most-to-footing")
        return footing.by_metal.get(metal)
    if electrode.type == "ring" and electrode.wire.size.metal == metal:
        return electrode.wire.size
    return None


@fact
def landing(wire: ElectrodeConductor, job: Job) -> Landing:
    """Where it lands, by the role of the gear and the bar.

    The service's ground bar counts only where a wire or a busbar is the main bonding jumper. A building that is fed from outside
    lands it on the ground bar of the disconnect at which that feeder ends, on the neutral bar where an old feeder of three wires
    does; a source whose neutral stands alone at the first gear of it. NFPA 70 250.24(A), 250.30(A)(5), 250.32(A), (B).
    """
    gear = wire.from_
    if isinstance(gear, Electrode):
        not_stated(wire, "from", f"{wire.name} starts at an electrode, not at equipment")
    place = role(gear, job)
    if isinstance(gear, Meter) or place == "ahead-of-service":
        return "meter"
    if place == "derived-source" or grounds_its_own_source(gear, job):
        return "derived-source"
    if place == "service":
        if wire.lands_on == "neutral-bar":
            return "service-neutral-bar"
        return "service-ground-bar" if main_jumper_is_wire_or_bus(gear, job) else "screw-bonded-ground-bar"
    if wire.lands_on == "neutral-bar":
        return "outbuilding-neutral-bar" if fed_by_existing_three_wire(gear, job) else "downstream"
    run = job.graph.feed(gear)
    if isinstance(run, Feeder) and goes_to_another_building(run, job):
        return "outbuilding-ground-bar"
    return "downstream"


@fact
def main_jumper_is_wire_or_bus(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether its main bonding jumper is a wire or a busbar, not the listed screw or strap.

    NFPA 70 250.24(A)(4), 250.28.
    """
    jumpers = main_jumpers(gear, job)
    if not jumpers.known:
        not_stated(
            gear,
            "neutral",
            f"{gear.name}: its main bonding jumper (a bond of type main), whether it is the screw, a wire or a busbar",
        )
    return jumpers.some(lambda bond: not bond.listed_screw)


_CLAMPS = {
    "concrete-encased": "rebar",
    "rod": "rod",
    "pipe": "pipe",
    "water-pipe": "pipe",
}


@fact
def clamp_suits(wire: ElectrodeConductor, job: Job) -> bool:
    """Whether the clamp is listed for the electrode's kind and, where it lies in the soil, for direct burial. A weld suits all.

    Of a footing bar burial is not asked here (`footing-electrode-no-reachable-end` judges that). NFPA 70 250.70.
    """
    clamp, kind = wire.clamp, wire.to.type
    if "welded" in clamp:
        return True
    listed = kind not in _CLAMPS or _CLAMPS[kind] in clamp
    if kind == "concrete-encased":
        return listed or is_wire(wire.to)
    return listed and (kind == "water-pipe" or "direct-burial" in clamp)
