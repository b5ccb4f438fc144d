"""What each rule has to say of each element of a drawn wiring, by the code's words and the copper.

Sources: NFPA 70 225.30 to 225.32, 230.2, 230.72, 250.24, 250.30, 250.32, 250.50, 250.92, 250.142, 300.3, Table 250.102(C)(1)
(from memory; the project's tables have checks of their own in tests/published).
"""

from copper_and_cases import FLEXIBLE, RIGID, Copper, Edge, joined
from drawn_wiring import BUILDINGS, Gear, Pipe, Rod, Run, Source, Wiring

# Table 250.102(C)(1): the least neutral of a service with these hot wires; 310.10(G): none below 1/0 in parallel.
LEAST_NEUTRAL = {"2/0 AWG copper": "4 AWG copper", "4/0 AWG aluminum": "2 AWG aluminum"}
SIZES = ("6", "4", "2", "1/0", "2/0")


class Answers:
    """What each rule has to say of each element, by the code's words and the copper."""

    def __init__(self, made: Wiring) -> None:
        self.made, self.copper = made, Copper(made)
        self.found: dict[tuple[str, str], str] = {}
        for gear in made.gear:
            self._of_gear(gear)
        for run in made.runs:
            self._of_run(run)
        for source in made.sources:
            self._of_source(source)
        for building in made.buildings:
            self._of_building(building)
        for pipe in made.pipes:
            self._of_pipe(pipe)
        for rod in made.rods:
            power = self._ways_in(rod.building) + self._services(rod.building)
            joined_to = any(self._serves(gear, rod.building) for gear in self._gear_of_rods([rod]))
            self._put("electrode-not-joined", rod.name, joined_to, power and not self._one_circuit(rod.building))
        for wire in made.rod_wires:
            self._put("electrode-wire-wrong-landing", wire.name, *self._landing(wire.start, wire.bar))

    def _put(self, rule: str, name: str, met: bool | None, applies: object = True) -> None:
        answer = "not-applicable" if not applies else "undecided" if met is None else "met" if met else "broken"
        self.found[rule, name] = answer

    # Gear.

    def _feed(self, gear: Gear) -> Run | None:
        runs = [run for run in self.made.runs if run.end is gear]
        return next((run for run in runs if run.start in self.copper.behind_utility), runs[0] if runs else None)

    def _is_old_three_wire(self, gear: Gear) -> bool:
        """NFPA 70 250.32(B)(1), exception 1."""
        run = self._feed(gear)
        old = run and run.kind == "feeder" and run.existing and run.neutral
        return bool(run and old and goes_elsewhere(run) and not self.copper.returns(run))

    def _bonds_a_source(self, gear: Gear) -> bool | None:
        """Whether it is the first gear of a source whose neutral stands alone: no for a bonded one; None if not the first."""
        run = self._feed(gear)
        if run is None or not isinstance(run.start, Source) or run.start.utility or gear.kind == "transfer-switch":
            return None
        return not run.start.bonded and True not in self.copper.neutral_is_joined(run.start)

    def _of_gear(self, gear: Gear) -> None:
        old, own = self._is_old_three_wire(gear), self._bonds_a_source(gear)
        past = gear.part in ("past", "own", "switch")
        heads_bonded_source = own is not None and self.copper.generators[0].bonded
        past = past and not heads_bonded_source
        if gear.kind == "meter":
            self._put("meter-can-not-bonded", gear.name, gear.can != "none")
            return
        self._put("neutral-bonded-away-from-service", gear.name, not gear.bonded, past and not old and not own)
        self._put("neutral-loose-at-three-wire-outbuilding", gear.name, gear.bonded, past and old)
        run = self._feed(gear)
        arrives = bool(run and (run.utility_owned or self._neutral_is_enough(run)) and run.neutral)
        self._put("ahead-of-service-case-not-bonded", gear.name, gear.bonded, gear.part == "ahead")
        service = gear.part == "service"
        self._put("main-bonding-jumper-or-neutral-absent-at-service", gear.name, gear.bonded and arrives, service)
        if gear.kind == "panel":
            apart = (past or heads_bonded_source) and not old and not own
            self._put("grounds-share-the-neutral-bar", gear.name, not gear.shared_bar, apart)
        if gear.plate:
            for rule in [rule for rule, name in self.found if name == gear.name and rule != "grounds-share-the-neutral-bar"]:
                self._put(rule, f"plate-{gear.name}", None, applies=False)

    @staticmethod
    def _neutral_is_enough(run: Run) -> bool:
        """By the size of the hot wires; each of several in parallel no smaller than 1/0."""
        if not run.neutral or run.hot not in LEAST_NEUTRAL:
            return bool(run.neutral)
        size = SIZES.index(run.neutral.split()[0])
        least = SIZES.index(LEAST_NEUTRAL[run.hot].split()[0])
        return size >= (max(least, SIZES.index("1/0")) if run.sets > 1 else least)

    # Runs and sources.

    def _of_run(self, run: Run) -> None:
        self._put("circuit-split-across-raceways", run.name, self._is_together(run), not run.utility_owned)
        if run.kind == "service":
            ahead = run.end is not None and run.end.part in ("meter", "ahead") and not run.utility_owned
            self._put("neutral-absent-ahead-of-service", run.name, bool(run.neutral), ahead)
            return
        returns, away = self.copper.returns(run), goes_elsewhere(run)
        if run.kind == "circuit" and run.existing and away:  # by neutral, if it is tied there; the plan can't say it
            self._put("equipment-ground-missing", run.name, returns or None)
        else:
            self._put("equipment-ground-missing", run.name, returns, not (run.existing and away and run.neutral))
        self._put("outbuilding-three-wire-feed", run.name, returns, away and not run.existing)
        for outlet in run.outlets:
            if outlet.kind == "load":
                self._put("earth-used-as-return", outlet.name, returns, outlet.own_rod)

    @staticmethod
    def _is_together(run: Run) -> bool | None:
        """Whether what goes out and back lies in one pipe. Open where words contradict the pipes, or plastic may be let in."""
        if run.cable:
            return True
        abreast = max(sum(beside(pipe, other) for other in run.pipes) for pipe in run.pipes)
        if run.sets > 1:
            fits = abreast == 1 if run.kept else abreast >= run.sets
            return True if fits else None
        if abreast == 1:
            return None if run.kept is False else True
        if run.kept:
            return True
        metal = any(pipe.type in RIGID + FLEXIBLE for pipe in run.pipes)
        return False if metal else None

    def _of_source(self, source: Source) -> None:
        applies = not source.utility and not source.cords
        ways = [run for run in self.made.runs if run.start is source]
        meet = applies and self.copper.powers_meet(source)
        self._put("generator-without-transfer", source.name, not meet, applies)
        if not applies:
            self._put("generator-neutral-mismatch", source.name, None, applies)
            return
        if not any(run.neutral for run in ways):
            met = None
        elif len(joined := self.copper.neutral_is_joined(source)) > 1:
            met = False
        elif True in joined:
            met = not source.bonded
        else:
            first = [run.end for run in ways if run.neutral and run.end and run.end.kind != "transfer-switch" and run.end.bonded]
            met = source.bonded + len(first) == 1
        self._put("generator-neutral-mismatch", source.name, met, applies)

    def _of_pipe(self, pipe: Pipe) -> None:
        inside = [run for run in self.made.runs if pipe in run.pipes]
        applies = any(run.kind == "service" for run in inside) and pipe.type in RIGID
        self._put("line-side-metal-not-bonded", pipe.name, line_side_holds(pipe), applies)

    # Buildings.

    def _serves(self, gear: Gear, building: str) -> bool:
        """What stands at a building serves it; a post or a meter, all in which something that it feeds ends."""
        if gear.kind != "meter" and gear.home in BUILDINGS:
            return gear.home == building
        runs = [run for run in self.made.runs if run.start is gear]
        return any(self._serves(run.end, building) if run.end else building in homes(run) for run in runs)

    def _services(self, building: str) -> list[Run]:
        runs = [run for run in self.made.runs if run.kind == "service" and run.end and run.end.part == "service"]
        return [run for run in runs if run.end and self._serves(run.end, building)]

    def _ways_in(self, building: str) -> list[Run]:
        """Feeders and circuits from outside it."""
        runs = [run for run in self.made.runs if isinstance(run.start, Gear) and run.start.home != building]
        return [run for run in runs if (run.kind == "feeder" and run.end and run.end.home == building) or building in homes(run)]

    def _one_circuit(self, building: str) -> bool:
        """NFPA 70 250.32(A), exception."""
        ways = self._ways_in(building)
        return not self._services(building) and len(ways) == 1 and ways[0].kind == "circuit" and self.copper.returns(ways[0])

    def _chain(self, gear: Gear) -> list[Gear]:
        """It and all gear ahead of it."""
        run = self._feed(gear)
        return [gear, *(self._chain(run.start) if run and isinstance(run.start, Gear) else [])]

    def _of_building(self, building: str) -> None:
        ways, services = self._ways_in(building), self._services(building)
        self._put("outbuilding-two-supplies", building, self._supplies(ways) <= 1, ways)
        self._put("outbuilding-disconnect-missing", building, self._shut_off(ways, building), ways)
        rods = [rod for rod in self.made.rods if rod.building == building]
        reached = self._gear_of_rods(rods)
        own_rods = any(gear.home == building and self._serves(gear, building) for gear in reached)
        own_service = any(run.end and run.end.home == building for run in services)
        applies = ways and not own_service and not self._one_circuit(building)
        self._put("outbuilding-electrode-missing", building, own_rods, applies)
        mains = [gear for gear in self.made.gear if gear.part == "service" and self._serves(gear, building)]
        wired = {wire.start for wire in self.made.rod_wires}
        each = all(wired & set(self._chain(gear)) for gear in mains)
        joined_to = any(self._serves(gear, building) for gear in reached)
        self._put("service-without-electrode", building, joined_to and each, services)
        self._put("more-than-one-service-or-through-another-building", building, self._lines(services) <= 1, services)
        self._put("too-many-service-disconnects", building, len({gear.place for gear in mains}) <= 1, services)

    @staticmethod
    def _supplies(ways: list[Run]) -> int:
        """Feeders from one place of equipment, each to a disconnect of its own at one place, are one (225.30(B), from 2020)."""
        groups: dict[tuple[object, str], list[Run]] = {}
        for run in ways:
            if run.end:
                groups.setdefault((run.start, run.end.place), []).append(run)
        grouped = [
            1 if len(runs) <= 6 and all(run.end and run.end.opens for run in runs) else len(runs) for runs in groups.values()
        ]
        return sum(grouped) + sum(run.kind == "circuit" for run in ways)

    def _shut_off(self, ways: list[Run], building: str) -> bool:
        """Whether each way in is opened at the building. One switch may open several circuits. NFPA 70 225.31, 225.32.

        Where a feeder ends on the lugs of a panel, up to six breakers in it do too: 225.33(A).
        """
        for run in ways:
            here = [gear for gear in self.made.gear if gear.part == "switch"] if not run.end else [run.end]
            opened = [gear for gear in here if gear.opens or (run.end and 1 <= self._breakers(gear) <= 6)]
            if not any(gear.home == building and gear.reached for gear in opened):
                return False
        return True

    def _breakers(self, gear: Gear) -> int:
        """How many a panel has: one for each run that starts there."""
        return sum(run.start is gear for run in self.made.runs) if gear.kind == "panel" else 0

    def _lines(self, services: list[Run]) -> int:
        """The lines at the utility's terminals by which services come."""
        heads = [self._chain(run.end)[-1] for run in services if run.end]
        return len({id(head) for head in heads})

    # Electrodes.

    def _gear_of_rods(self, rods: list[Rod]) -> list[Gear]:
        """The gear to which electrode wires join any of these, by way of other rods too."""
        edges: list[Edge] = [(("rod", wire.start, ""), ("rod", wire.end, "")) for wire in self.made.rod_wires]
        nodes = {node for rod in rods for node in joined(edges, ("rod", rod, ""))}
        return [thing for _, thing, _ in nodes if isinstance(thing, Gear)]

    def _landing(self, start: Gear | Rod, bar: str) -> tuple[bool | None, bool]:
        """Whether a wire lands where the bond of its system is, or on the ground bar at which a building's feeder ends."""
        if isinstance(start, Rod):
            return None, False
        if start.part in ("meter", "ahead"):
            return True, True
        if start.part == "service":
            if bar == "neutral-bar":
                return True, True
            return (None if start.screw is None else not start.screw), True
        own = self._bonds_a_source(start)
        if own or (own is not None and self.copper.generators[0].bonded):
            return True, True
        run = self._feed(start)
        assert run is not None
        if bar == "neutral-bar":
            return self._is_old_three_wire(start), True
        return run.kind == "feeder" and goes_elsewhere(run), True


def beside(pipe: Pipe, other: Pipe) -> bool:
    """Whether two pipes share one spot and don't follow each other; a pipe lies beside itself."""
    if pipe.continues is other or other.continues is pipe:
        return False
    return pipe is other or (pipe.ditch, pipe.place) == (other.ditch, other.place)


def homes(run: Run) -> set[str]:
    """The buildings in which outlets of a circuit stand."""
    return {outlet.place.removesuffix("-room") for outlet in run.outlets} & set(BUILDINGS)


def goes_elsewhere(run: Run) -> bool:
    """Whether it goes from one building or post to another."""
    if isinstance(run.start, Source):
        return False
    return run.start.home != run.end.home if run.end else bool(homes(run) - {run.start.home})


def line_side_holds(pipe: Pipe) -> bool:
    """NFPA 70 250.92(B): past rings only a bushing with a jumper; a plain locknut never."""
    return pipe.fitting == "bonding-bushing" or (pipe.fitting in ("threaded-hub", "bonding-locknut") and not pipe.rings)
