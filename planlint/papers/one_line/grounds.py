"""The grounding side of a one-line diagram: the join with the neutral, electrodes and their conductors, bonding jumpers."""

from dataclasses import dataclass, field

from planlint.papers.docket import Docket
from planlint.papers.one_line.labels import Marks, electrode_part, ground_wire_part
from planlint.papers.one_line.records import Ground, Loose, Part
from planlint.plan import Bond, Electrode, ElectrodeConductor, Element, Supply


@dataclass(slots=True)
class Grounding:
    """Hangs electrodes and bonds from gear, each once."""

    docket: Docket
    marks: Marks
    _drawn: set[str] = field(default_factory=set)

    def at(self, gear: Element) -> tuple[Ground, ...]:
        """What starts at this gear: its join first, then its electrodes, then its bonds."""
        found = [*self._join(gear)]
        found += [self._wire(wire) for wire in self.docket.graph.those(ElectrodeConductor, "from", gear)]
        found += [self._bond(bond) for bond in self.docket.graph.those(Bond, "from", gear) if bond.name not in self._drawn]
        return tuple(found)

    def rest(self) -> list[Loose]:
        """What starts at nothing that the plan says."""
        graph = self.docket.graph
        left: list[Loose] = []
        for electrode in graph.all(Electrode):
            if electrode.name not in self._drawn:
                left.append(Loose(electrode_part(electrode, self.docket, self.marks), "electrode"))
        for wire in (*graph.all(ElectrodeConductor), *graph.all(Bond)):
            if wire.name not in self._drawn:
                left.append(Loose(ground_wire_part(wire, self.docket, self.marks), "bond"))
        return left

    def _join(self, gear: Element) -> list[Ground]:
        """The neutral's join with the case, and the jumper that makes it."""
        jumpers = [bond for bond in self.docket.graph.those(Bond, "from", gear) if bond.states("type") and bond.type == "main"]
        self._drawn.update(bond.name for bond in jumpers)
        parts = [ground_wire_part(bond, self.docket, self.marks) for bond in jumpers]
        if "neutral" not in type(gear).attributes or self.docket.stated(gear, "neutral") != "bonded":
            return [Ground(part, None, "bond") for part in parts]
        words = "neutral tied to its frame" if isinstance(gear, Supply) else "neutral bonded here"
        return [
            Ground(parts[0] if parts else None, Part("", "join", words), "join"),
            *(Ground(p, None, "bond") for p in parts[1:]),
        ]

    def _wire(self, wire: ElectrodeConductor) -> Ground:
        self._drawn.add(wire.name)
        part = ground_wire_part(wire, self.docket, self.marks)
        if not wire.states("to"):
            return Ground(part, Part("", "open", "to: not stated"), "bond")
        return self._to_electrode(part, wire.to)

    def _to_electrode(self, wire: Part, electrode: Electrode) -> Ground:
        if electrode.name in self._drawn:
            return Ground(wire, Part("", "elsewhere", f"to {electrode.name}, drawn elsewhere"), "bond")
        self._drawn.add(electrode.name)
        graph = self.docket.graph
        further = [
            self._wire(wire) for wire in graph.those(ElectrodeConductor, "from", electrode) if wire.name not in self._drawn
        ]
        further += [self._bond(bond) for bond in graph.those(Bond, "from", electrode) if bond.name not in self._drawn]
        return Ground(wire, electrode_part(electrode, self.docket, self.marks), "electrode", tuple(further))

    def _bond(self, bond: Bond) -> Ground:
        self._drawn.add(bond.name)
        part = ground_wire_part(bond, self.docket, self.marks)
        if bond.states("to") and isinstance(bond.to, Electrode):
            return self._to_electrode(part, bond.to)
        return Ground(part, None, "bond")
