"""Electrodes and the conductors to them: what is joined to what, what counts as an electrode, and how large the wires must be.

Two electrodes are neighbors where an electrode conductor runs between them; an electrode is joined where a way over neighbors
ends at equipment. Whether the wire lands at the right place of that equipment is another question (`landing`).
"""

from collections.abc import Iterator
from typing import Literal

from planlint.facts.bonding import main_jumpers
from planlint.facts.buildings import building_served as served
from planlint.facts.buildings import electrodes
from planlint.facts.engine import Job, fact
from planlint.facts.equipment_ground import ground_path
from planlint.facts.roles import role
from planlint.facts.supplies import fed_from_outside, supply_runs
from planlint.facts.wires import hot_wires
from planlint.plan import Building, Disconnect, Electrode, ElectrodeConductor, Meter, NotStated, Panel, TransferSwitch, not_stated
from planlint.plan.elements import Element, Need
from planlint.plan.gear import AnyGear
from planlint.plan.members import Members, merged
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Length
from planlint.trade import WireSize, WireSizes

Landing = Literal[
    "service-neutral-bar", "service-ground-bar", "screw-bonded-ground-bar", "outbuilding-ground-bar", "meter", "downstream"
]


@fact
def conductors_to_it(electrode: Electrode, job: Job) -> Members[ElectrodeConductor]:
    """The electrode conductors that end at it."""
    return job.graph.those(ElectrodeConductor, "to", electrode)


@fact
def conductors_from_it(electrode: Electrode, job: Job) -> Members[ElectrodeConductor]:
    """The wires that go on from it to another electrode."""
    return job.graph.those(ElectrodeConductor, "from", electrode)


@fact
def is_connected(electrode: Electrode, job: Job) -> bool:
    """Whether electrode conductors join it to equipment, straight or by way of other electrodes.

    NFPA 70 250.50, 250.53(C), 250.58.
    """
    seen: dict[int, Electrode] = {id(electrode): electrode}
    todo, needs = [electrode], list[Need]()
    while todo:
        here = todo.pop()
        for wires, end in ((conductors_to_it(here, job), "from"), (conductors_from_it(here, job), "to")):
            needs.extend(wires.gaps)
            for wire in wires.known:
                if not wire.states(end):
                    needs.append(Need(wire, end))
                    continue
                other = wire.value(end)
                if not isinstance(other, Electrode):
                    job.step(f"{wire.name} joins it to {other.name}")
                    return True
                if id(other) not in seen:
                    seen[id(other)] = other
                    todo.append(other)
    if needs:
        raise NotStated(*merged(needs))
    return False


@fact
def fed_by_one_circuit(building: Building, job: Job) -> bool:
    """Whether its whole supply is one branch circuit with an equipment ground. NFPA 70 250.32(A), exception."""
    runs = supply_runs(building, job)
    if len(runs.known) > 1 or any(not isinstance(run, Circuit) for run in runs):
        return False
    only = runs.whole()
    return bool(only) and isinstance(only[0], Circuit) and ground_path(only[0], job) != "none"


@fact
def companions(electrode: Electrode, job: Job) -> Members[Electrode]:
    """The other electrodes of its building that are joined to equipment.

    NFPA 70 250.53(A)(2), 250.53(D)(2).
    """
    others = electrodes(electrode.building, job).where(lambda one: one is not electrode)
    return others.where(lambda one: is_connected(one, job))


@fact
def companions_but_water(electrode: Electrode, job: Job) -> Members[Electrode]:
    """The same without water pipes.

    NFPA 70 250.53(A)(2), 250.53(D)(2).
    """
    return companions(electrode, job).where(lambda one: one.type != "water-pipe")


@fact
def thick_enough(electrode: Electrode, job: Job) -> bool:
    """Concrete-encased: bare bar of 1/2 in or more, or bare copper of 4 AWG or larger.

    NFPA 70 250.52(A)(3).
    """
    if electrode.states("wire") and not electrode.states("bar"):
        return _is_bare_copper(electrode, job.setting("thick-enough.least-wire"))
    return bool(electrode.bar >= job.setting("thick-enough.least-bar")) and not electrode.coated


def _is_bare_copper(electrode: Electrode, least: WireSizes) -> bool:
    """Whether its wire is bare copper of that size. Raises NotStated where metal or covering is left out."""
    wire = electrode.wire
    if not wire.size.metal or not wire.insulation:
        not_stated(electrode, "wire", f"{electrode.name}: wire, its metal and whether it is bare")
    return wire.size.metal == "copper" and wire.insulation == "bare" and wire.size >= least.by_metal["copper"]


@fact
def least_diameter(electrode: Electrode, job: Job) -> Length:
    """Least diameter of a rod (5/8 in, listed ones 1/2 in) or trade size of a pipe (3/4 in).

    NFPA 70 250.52(A)(5).
    """
    if electrode.type == "pipe":
        return _length(job, "least-diameter.pipe")
    rod = _length(job, "least-diameter.rod")
    return rod if electrode.diameter >= rod or not electrode.listed else _length(job, "least-diameter.listed-rod")


def _length(job: Job, name: str) -> Length:
    value = job.setting(name)
    assert isinstance(value, Length)
    return value


@fact
def big_enough(electrode: Electrode, job: Job) -> bool:
    """A ring: 20 ft of bare copper of 2 AWG or larger. A plate: 2 sq ft against the soil.

    NFPA 70 250.52(A)(4), (A)(7).
    """
    if electrode.type == "ring":
        long_enough = electrode.length >= _length(job, "big-enough.ring-length")
        return long_enough and _is_bare_copper(electrode, job.setting("big-enough.ring-wire"))
    return bool(electrode.area >= job.setting("big-enough.plate-area"))


@fact
def starts_at_equipment(wire: ElectrodeConductor, job: Job) -> bool:
    """Whether it starts at equipment, not at another electrode."""
    return not isinstance(wire.from_, Electrode)


@fact
def goes_on(wire: ElectrodeConductor, job: Job) -> bool:
    """Whether another electrode conductor starts where it ends."""
    return conductors_from_it(wire.to, job).some(lambda onward: onward is not wire)


@fact
def size_needed(wire: ElectrodeConductor, job: Job) -> WireSize:
    """Smallest size to the electrode where it ends, in its own metal: by the largest hot wires, never above the electrode's cap.

    NFPA 70 Table 250.66 and 250.66(A) to (C).
    """
    return _needed_at(wire.to, wire, job)


@fact
def size_needed_beyond(wire: ElectrodeConductor, job: Job) -> WireSize:
    """The largest need of every electrode that is reached through it: a cap holds only while no other kind lies behind.

    NFPA 70 250.66(A) to (C), 250.53(C).
    """
    sizes = [(_needed_at(electrode, wire, job), electrode) for electrode in _reached(wire.to, wire, job)]
    size, electrode = max(sizes, key=lambda pair: pair[0].area)
    job.step(f"the largest need behind {wire.to.name} is {electrode.name}'s", size)
    return size


def _reached(start: Electrode, by: ElectrodeConductor, job: Job) -> Iterator[Electrode]:
    """The electrode and those behind it, each once."""
    seen, todo = {id(start)}, [start]
    while todo:
        here = todo.pop()
        yield here
        for wire in conductors_from_it(here, job).whole():
            if wire is not by and id(wire.to) not in seen:
                seen.add(id(wire.to))
                todo.append(wire.to)


def _needed_at(electrode: Electrode, wire: ElectrodeConductor, job: Job) -> WireSize:
    metal = wire.size.size.metal
    if not metal:
        not_stated(wire, "size", f"{wire.name}: size, its metal (copper or aluminum)")
    run = _largest_feed(_equipment(wire, job), job)
    hot = hot_wires(run, job)
    area = job.tables.circular_mils(hot.size) * run.sets
    size = job.tables.electrode_conductor(area, hot.size.metal, metal)
    job.step(f"{run.name} has {run.sets} x {hot.size}, {area:.0f} circular mils", size, job.from_table("electrode-conductor"))
    cap = _cap(electrode, metal, job)
    if cap is None or size <= cap:
        return size
    job.step(f"{electrode.name} is of type {electrode.type}: never more than", cap, "NFPA 70 250.66(A) to (C)")
    return cap


def _cap(electrode: Electrode, metal: str, job: Job) -> WireSize | None:
    if electrode.type in ("rod", "pipe", "plate"):
        caps: WireSizes = job.setting("size-needed.most-to-rod")
        return caps.by_metal.get(metal)
    if electrode.type == "concrete-encased":
        footing: WireSizes = job.setting("size-needed.most-to-footing")
        return footing.by_metal.get(metal)
    if electrode.type == "ring" and electrode.wire.size.metal == metal:
        return electrode.wire.size
    return None


def _equipment(wire: ElectrodeConductor, job: Job) -> AnyGear:
    """The equipment at which the chain of electrode conductors starts. Raises NotStated while none is reached."""
    seen: set[int] = set()
    todo: list[Element] = [wire.from_]
    needs: list[Need] = []
    while todo:
        here = todo.pop()
        if not isinstance(here, Electrode):
            assert isinstance(here, AnyGear)
            return here
        if id(here) in seen:
            continue
        seen.add(id(here))
        upstream = conductors_to_it(here, job)
        needs.extend(upstream.gaps)
        todo.extend(other.from_ for other in upstream.known)
    raise NotStated(*(merged(needs) or (Need(wire, "from", note=f"how {wire.from_.name} is joined to the equipment"),)))


def _largest_feed(gear: AnyGear, job: Job) -> Service | Feeder:
    """The run whose hot wires size the electrode conductor: the one that feeds the gear; at a meter, the one that leaves it."""
    if not isinstance(gear, Meter):
        return job.graph.feed(gear)
    leaving = job.graph.feeds_from(gear).whole()
    if not leaving:
        not_stated(gear, "feeds", f"which service starts at {gear.name}")
    return max(leaving, key=lambda run: hot_wires(run, job).size.area * run.sets)


@fact
def landing(wire: ElectrodeConductor, job: Job) -> Landing:
    """Where it lands, by the role of the gear and the bar.

    The service's ground bar counts only where a wire or a busbar is the main bonding jumper. A building that is fed from outside
    lands it on the ground bar of its own disconnect. NFPA 70 250.24(A), 250.32(A).
    """
    gear = wire.from_
    if isinstance(gear, Electrode):
        not_stated(wire, "from", f"{wire.name} starts at an electrode, not at equipment")
    if isinstance(gear, Meter) or role(gear, job) == "ahead-of-service":
        return "meter"
    if role(gear, job) == "service":
        if wire.lands_on == "neutral-bar":
            return "service-neutral-bar"
        return "service-ground-bar" if main_jumper_is_wire_or_bus(gear, job) else "screw-bonded-ground-bar"
    if fed_from_outside(served(gear, job), job) and wire.lands_on == "ground-bar":
        return "outbuilding-ground-bar"
    return "downstream"


@fact
def main_jumper_is_wire_or_bus(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether its main bonding jumper is a wire or a busbar, not the listed screw or strap.

    NFPA 70 250.24(A)(4), 250.28.
    """
    return main_jumpers(gear, job).some(lambda bond: not bond.listed_screw)


_CLAMPS = {
    "concrete-encased": ("rebar",),
    "rod": ("rod",),
    "pipe": ("pipe", "rod"),
    "water-pipe": ("pipe",),
    "ring": (),
    "plate": (),
    "metal-in-ground": (),
}


@fact
def clamp_suits(wire: ElectrodeConductor, job: Job) -> bool:
    """Whether the clamp is listed for the electrode's kind and, where it lies in the soil, for direct burial. A weld suits all.

    Of a footing bar burial is not asked here (`footing-electrode-no-reachable-end` judges that). NFPA 70 250.70.
    """
    clamp, kind = wire.clamp, wire.to.type
    if "welded" in clamp:
        return True
    listed = not _CLAMPS[kind] or any(word in clamp for word in _CLAMPS[kind])
    if kind == "concrete-encased":
        return listed or (wire.to.states("wire") and bool(clamp))
    return listed and (kind == "water-pipe" or "direct-burial" in clamp)
