"""Electrodes: which of them are joined to the equipment of their building, and what counts as an electrode.

Two electrodes are neighbors where an electrode conductor runs between them; an electrode is joined where a way over neighbors
ends at equipment. Whether the wire lands at the right place of that equipment is another question (`landing`).
"""

from collections.abc import Callable

from planlint.facts.buildings import electrodes, serves, stands_at
from planlint.facts.engine import Job, fact
from planlint.facts.equipment_ground import ground_path
from planlint.facts.supplies import supply_runs
from planlint.plan import Building, Electrode, ElectrodeConductor, NotStated, not_stated
from planlint.plan.elements import Need, does_not_arise
from planlint.plan.gear import AnyGear
from planlint.plan.members import Members, all_hold, merged
from planlint.plan.runs import Circuit
from planlint.quantities import Length
from planlint.trade import WireSizes


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
    """Whether electrode conductors join it to equipment of its building, straight or by way of other electrodes.

    NFPA 70 250.50, 250.53(C), 250.58.
    """
    return _leads_to(electrode, lambda gear: serves(gear, electrode.building, job), job)


@fact
def is_connected_at_its_building(electrode: Electrode, job: Job) -> bool:
    """Whether they join it to equipment in its building or on its wall; that at a post which feeds it does not count.

    NFPA 70 250.32(A), (E).
    """
    home = electrode.building
    return _leads_to(electrode, lambda gear: all_hold(lambda: stands_at(gear, job) is home, lambda: serves(gear, home, job)), job)


def _leads_to(electrode: Electrode, counts: Callable[[AnyGear], bool], job: Job) -> bool:
    """Whether a way over electrode conductors ends at equipment that counts. Raises NotStated while one may."""
    seen: dict[int, Electrode] = {id(electrode): electrode}
    todo, needs = [electrode], list[Need]()
    while todo:
        here = todo.pop()
        for wires, end in ((conductors_to_it(here, job), "from"), (conductors_from_it(here, job), "to")):
            needs.extend(wires.gaps)
            for wire in wires.known:
                try:
                    other = wire.value(end)
                    if not isinstance(other, Electrode) and counts(other):
                        job.step(f"{wire.name} joins it to {other.name}")
                        return True
                except NotStated as gap:
                    needs.extend(gap.needs)
                    continue
                if isinstance(other, Electrode) and id(other) not in seen:
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
    if is_wire(electrode):
        return _is_bare_copper(electrode, job.setting("thick-enough.least-wire"))
    return bool(electrode.bar >= job.setting("thick-enough.least-bar")) and not electrode.coated


def is_wire(electrode: Electrode) -> bool:
    """Whether a concrete-encased electrode is wire, not bar. Raises NotStated where the plan says neither or both."""
    if electrode.states("wire") == electrode.states("bar"):
        not_stated(electrode, "bar", f"{electrode.name}: whether it is bar or wire (state one of the two)")
    return electrode.states("wire")


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
    if electrode.type != "rod":
        does_not_arise(electrode, f"{electrode.name}: a rod or pipe")
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
def made_of(electrode: Electrode, job: Job) -> str:
    """The metal that a rod, pipe or plate, or the wire of a ring, is made of."""
    if electrode.type != "ring":
        return electrode.material
    if not electrode.wire.size.metal:
        not_stated(electrode, "wire", f"{electrode.name}: wire, its metal")
    return electrode.wire.size.metal


@fact
def metal_lasts(electrode: Electrode, job: Job) -> bool:
    """Whether it is of a metal that the soil leaves alone: never aluminum, and rods and pipes of steel only with a coat.

    NFPA 70 250.52(A)(5), (B)(2). A plate of bare steel is let in.
    """
    metal = made_of(electrode, job)
    return metal != "aluminum" and not (metal == "steel" and electrode.type in ("rod", "pipe"))


# What is driven or laid in pieces: several of them keep apart.
_IN_PIECES = ("rod", "pipe", "plate")


@fact
def stands_alone(electrode: Electrode, job: Job) -> bool:
    """Whether there is no other rod, pipe or plate at its building from which it has to keep apart. NFPA 70 250.53(A)(3)."""
    if electrode.type not in _IN_PIECES:
        return True
    if electrode.count > 1:
        return False
    others = electrodes(electrode.building, job).where(lambda one: one is not electrode)
    return not others.some(lambda one: one.type in _IN_PIECES)
