"""The second way to judge how a wiring is joined: copper and cases, laid out piece by piece and walked exhaustively.

From the drawn records alone, never from planlint's graph or facts. Each piece of gear has a neutral bus and a case; each neutral,
each ground path and each tie is an edge between two of these. Transfer switches and slide plates are tried in every position.
What the physics asks is then a walk: does the neutral meet ground more than once, does a fault come home, do two powers meet.

Sources: NFPA 70 250.4(A)(5), 250.118(5), (6), 250.142 (from memory).
"""

import itertools
from collections.abc import Iterator

from drawn_wiring import Gear, Outlet, Pipe, Run, Source, Wiring

RIGID, FLEXIBLE = ("EMT", "IMC", "RMC"), ("FMC", "LFMC")
Node = tuple[str, object, str]
Edge = tuple[Node, Node]


def joined(edges: list[Edge], start: Node) -> set[Node]:
    """Every node that edges join to a start."""
    found, grew = {start}, True
    while grew:
        grew = False
        for one, other in edges:
            if (one in found) != (other in found):
                found |= {one, other}
                grew = True
    return found


class Copper:
    """The nodes and edges of one wiring."""

    def __init__(self, made: Wiring) -> None:
        self.made = made
        self.utility = made.sources[0]
        self.generators = [source for source in made.sources if not source.utility]
        self.behind_utility: set[object] = {self.utility}
        for _ in made.runs:
            self.behind_utility |= {run.end for run in made.runs if run.end and run.start in self.behind_utility}
        self.choosers = [gear for gear in made.gear if gear.kind == "transfer-switch" or gear.plate]
        self.neutrals = [edge for run in made.runs if run.neutral and run.end for edge in [self._edge("neutral", run)]]
        self.hots = [self._edge("hot", run) for run in made.runs if run.end]
        self.rods: list[Edge] = [(("case", wire.start, ""), ("case", wire.end, "")) for wire in made.rod_wires]
        self.grounds = [edge for run in made.runs if run.kind != "service" and self.returns(run) for edge in self._cases(run)]

    # What one piece is.

    def returns(self, run: Run) -> bool:
        """Whether a fault current comes back beside it: by a wire, all the way by metal, or by a wire in the same pipes."""
        if run.ground:
            return True
        if run.cable:
            return run.cable == "AC"
        soft = [pipe for pipe in run.pipes if pipe.type in FLEXIBLE]
        if all(pipe.type in RIGID or pipe.type in FLEXIBLE for pipe in run.pipes) and (
            not soft or (sum(pipe.feet for pipe in soft) <= 6 and all(run.breaker <= self._soft_limit(pipe) for pipe in soft))
        ):
            return True
        return any(other.ground and set(run.pipes) <= set(other.pipes) for other in self.made.runs if other is not run)

    @staticmethod
    def _soft_limit(pipe: Pipe) -> int:
        """The largest breaker in amperes for which flexible metal pipe is a ground. NFPA 70 250.118(5), (6)."""
        if pipe.size == "1-1/2 in":
            return 0
        return 60 if pipe.type == "LFMC" and pipe.size == "1 in" else 20

    def _side(self, run: Run) -> str:
        return "u" if run.start in self.behind_utility else "g"

    def _edge(self, kind: str, run: Run) -> Edge:
        end = run.end
        assert end is not None
        parted = end.switches_neutral and end.kind == "transfer-switch" if kind == "neutral" else end in self.choosers
        return (kind, run.start, ""), (kind, end, self._side(run) if parted else "")

    def _cases(self, run: Run) -> Iterator[Edge]:
        for end in [run.end] if run.end else run.outlets:
            yield ("case", run.start, ""), ("case", end, "")

    def tie_at(self, thing: Gear | Source) -> Edge:
        """The edge that a screw or strap makes in gear, or at a source's frame."""
        side = "u" if isinstance(thing, Gear) and thing.kind == "transfer-switch" and thing.switches_neutral else ""
        return ("neutral", thing, side), ("case", thing, "")

    def ties(self) -> list[Gear | Source]:
        """Where neutral and ground are tied past the service's line side: by a screw, or on one bar."""
        gear = [one for one in self.made.gear if one.part not in ("meter", "ahead", "switch") and (one.bonded or one.shared_bar)]
        return [*gear, *(source for source in self.generators if source.bonded and not source.cords)]

    def positions(self) -> Iterator[tuple[list[Edge], list[Edge]]]:
        """For every position of switches and plates: the edges that they close between hots, and between neutrals.

        A switch to which no second source comes stays where it is.
        """
        second = {run.end for run in self.made.runs if self._side(run) == "g"}
        for sides in itertools.product(*("ug" if gear in second else "u" for gear in self.choosers)):
            chosen = list(zip(self.choosers, sides, strict=True))
            yield (
                [(("hot", gear, ""), ("hot", gear, side)) for gear, side in chosen],
                [(("neutral", gear, ""), ("neutral", gear, side)) for gear, side in chosen if gear.switches_neutral],
            )

    # What the physics asks.

    def powers_meet(self, generator: Source) -> bool:
        start = ("hot", generator, "")
        return any(("hot", self.utility, "") in joined(self.hots + hots, start) for hots, _ in self.positions())

    def neutral_is_joined(self, generator: Source) -> set[bool]:
        """Whether its neutral meets the utility's, that of a service disconnect, by neutral wires; one answer or both."""
        service = {edge[0] for gear in self.made.gear if gear.part == "service" for edge in [self.tie_at(gear)]}
        start = ("neutral", generator, "")
        return {bool(service & joined(self.neutrals + more, start)) for _, more in self.positions()}

    def stray_ties(self) -> set[Gear | Source]:
        """Ties on a loop: the neutral's current goes home by neutral and by ground at once."""
        found: set[Gear | Source] = set()
        ties = self.ties()
        for _, more in self.positions():
            metal = self.neutrals + more + self.grounds + self.rods
            for tie in ties:
                others = [self.tie_at(other) for other in ties if other is not tie]
                one, other = self.tie_at(tie)
                if other in joined(metal + others, one):
                    found.add(tie)
        return found

    def cases_without_return(self) -> set[Gear | Outlet]:
        """Cases that a source makes live in some position and from which no metal leads back to its neutral.

        A generator whose power meets the utility's is left out: it may make anything live, which is a fault of its own.
        """
        found: set[Gear | Outlet] = set()
        sources = [self.utility, *(source for source in self.generators if not self.powers_meet(source))]
        always = self.neutrals + self.grounds + [self.tie_at(tie) for tie in self.ties()] + list(self._line_side())
        for hots, more in self.positions():
            for source in sources:
                live = joined(self.hots + hots, ("hot", source, ""))
                home = joined(always + more, ("neutral", source, ""))
                for case in self._live_cases(live):
                    if ("case", case, "") not in home:
                        found.add(case)
        return found

    def _live_cases(self, live: set[Node]) -> Iterator[Gear | Outlet]:
        for gear in self.made.gear:
            if any(("hot", gear, side) in live for side in ("", "u", "g")):
                yield gear
        for run in self.made.runs:
            if ("hot", run.start, "") in live:
                yield from run.outlets

    def ahead(self, case: Gear | Outlet) -> set[str]:
        """The names of a case and of all runs, gear and sources from which it gets its power.

        What a generator feeds first may lean on the service's tie, by whatever lies between: there all are named.
        """
        own = isinstance(case, Gear) and case not in self.behind_utility
        found: set[object] = {case, *([*self.made.runs, *self.made.gear] if own else [])}
        for _ in self.made.runs:
            found |= {
                thing for run in self.made.runs if run.end in found or found & set(run.outlets) for thing in (run, run.start)
            }
        return {thing.name for thing in found}  # type: ignore[attr-defined]

    def _line_side(self) -> Iterator[Edge]:
        """Ahead of the service disconnect the neutral grounds the cases. NFPA 70 250.142(A)."""
        for gear in self.made.gear:
            if (gear.part == "meter" and gear.can != "none") or (gear.part == "ahead" and gear.bonded):
                yield self.tie_at(gear)
