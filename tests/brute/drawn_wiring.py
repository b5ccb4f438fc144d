"""Small wirings drawn at random: supplies, gear in several buildings and on posts, runs, pipes, electrodes.

The records are what both ways start from: `plan_of_wiring` writes them as the text that planlint reads, `copper_and_cases` lays
them out as copper. Most draws are sound at each place, some are not, so that a plan has a few faults.
"""

import random
from dataclasses import dataclass, field

BUILDINGS = {"house": "one-family", "studio": "workshop", "barn": "barn"}
POSTS = ("yard", "field")


@dataclass(eq=False)
class Source:
    name: str
    utility: bool = True
    bonded: bool = True
    cords: bool = False


@dataclass(eq=False)
class Gear:
    """A meter, disconnect, panel or transfer switch. `part` is what the draw means it to be."""

    name: str
    kind: str
    home: str  # a building, or the post at that place
    place: str
    part: str = "past"  # meter, ahead, service, past
    opens: bool = True
    bonded: bool = False
    reached: bool = True
    shared_bar: bool = False
    switches_neutral: bool = False
    can: str = "neutral-lug"
    plate: bool = False  # a panel with a slide plate between its main and a generator's breaker
    screw: bool | None = None  # a main bonding jumper that is a listed screw, or a wire; None: not shown


@dataclass(eq=False)
class Pipe:
    name: str
    type: str
    size: str
    feet: int
    ditch: str = ""
    place: str = ""
    continues: "Pipe | None" = None
    fitting: str = "bonding-bushing"
    rings: bool = False


@dataclass(eq=False)
class Outlet:
    name: str
    kind: str
    place: str
    own_rod: bool = False


@dataclass(eq=False)
class Run:
    name: str
    kind: str
    start: Source | Gear
    end: Gear | None = None
    outlets: list[Outlet] = field(default_factory=list)
    hot: str = "4 AWG copper"
    neutral: str = "4 AWG copper"
    ground: str = "8 AWG copper"
    cable: str = ""
    pipes: list[Pipe] = field(default_factory=list)
    breaker: int = 60
    existing: bool = False
    sets: int = 1
    kept: bool | None = None
    utility_owned: bool = False


@dataclass(eq=False)
class Rod:
    name: str
    building: str


@dataclass(eq=False)
class RodWire:
    name: str
    start: Gear | Rod
    end: Rod
    bar: str


@dataclass
class Wiring:
    """All of it. `dice` is the lot that it was drawn by."""

    dice: random.Random
    buildings: list[str] = field(default_factory=list)
    sources: list[Source] = field(default_factory=list)
    gear: list[Gear] = field(default_factory=list)
    runs: list[Run] = field(default_factory=list)
    pipes: list[Pipe] = field(default_factory=list)
    ditches: list[str] = field(default_factory=list)
    rods: list[Rod] = field(default_factory=list)
    rod_wires: list[RodWire] = field(default_factory=list)

    def once_in(self, times: float) -> bool:
        return self.dice.random() < 1 / times

    def home(self, *posts: str) -> str:
        return self.dice.choice([*self.buildings, *posts])

    def add(self, kind: str, home: str, part: str = "past", **more: object) -> Gear:
        """Gear inside or on the wall of a building, or on a post. Its neutral is right for its part more often than not."""
        wall = "yard" if home == "house" else "field"
        place = home if home in POSTS else self.dice.choice([f"{home}-room", f"{home}-room", f"{home}-loft", wall])
        said = {"bonded": (part in ("service", "ahead")) != self.once_in(5), "reached": not self.once_in(8)}
        gear = Gear(f"{kind}-{len(self.gear)}", kind, home, place, part, **{**said, **more})  # type: ignore[arg-type]
        self.gear.append(gear)
        return gear

    def pipe(self, kinds: list[str], **more: object) -> Pipe:
        feet, size = self.dice.choice([4, 5, 12]), self.dice.choice(["1/2 in", "1 in", "1-1/2 in"])
        pipe = Pipe(f"pipe-{len(self.pipes)}", self.dice.choice(kinds), size, feet, **more)  # type: ignore[arg-type]
        self.pipes.append(pipe)
        return pipe

    def ditch(self) -> str:
        self.ditches.append(f"ditch-{len(self.ditches)}")
        return self.ditches[-1]


def draw(seed: int) -> Wiring:
    """One wiring; the same for the same number."""
    made = Wiring(random.Random(seed))
    made.buildings = ["house", *(name for name, chance in (("studio", 0.85), ("barn", 0.35)) if made.dice.random() < chance)]
    _draw_services(made)
    for _ in range(made.dice.randint(0, 4)):
        _draw_feeder(made)
    if made.once_in(1.7):
        _draw_generator(made)
    for _ in range(made.dice.randint(0, 3)):
        _draw_circuit(made)
    _draw_rods(made)
    return made


def _draw_services(made: Wiring) -> None:
    """From the utility by way of a meter and a switch, or without them, to one service disconnect or several."""
    utility = Source("utility")
    made.sources.append(utility)
    start: Source | Gear = utility
    if not made.once_in(4):
        meter = made.add("meter", made.dice.choice(["house", "house", "yard"]), "meter", opens=False)
        meter.place, meter.can = "yard", made.dice.choice(["neutral-lug", "jumper", "neutral-lug", "none"])
        _service(made, start, meter, utility_owned=True)
        start = meter
    if made.once_in(4):
        ahead = made.add("disconnect", made.dice.choice(["house", "yard"]), "ahead", opens=made.once_in(2))
        ahead.place = "yard"
        _service(made, start, ahead)
        start = ahead
    for number in range(2 if made.once_in(5) else 1):
        kind = made.dice.choice(["disconnect", "disconnect", "panel", "transfer-switch"])
        main = made.add(kind, made.dice.choice(["house", "house", "house", "yard", made.home()]), "service")
        main.screw = made.dice.choice([None, None, True, False])
        if kind == "transfer-switch":
            main.switches_neutral = made.once_in(3)
        _service(made, utility if number and made.once_in(2) else start, main)


def _service(made: Wiring, start: Source | Gear, end: Gear, utility_owned: bool | None = None) -> None:
    owned = isinstance(start, Source) and made.once_in(2) if utility_owned is None else utility_owned
    metal = made.dice.choice(["copper", "aluminum"])
    hot, right, small = {"copper": ("2/0", "4", "6"), "aluminum": ("4/0", "2", "4")}[metal]
    size = made.dice.choice([right, right, "1/0", "1/0", small, small, ""]) if not owned else right
    run = Run(f"service-{len(made.runs)}", "service", start, end, hot=f"{hot} AWG {metal}", ground="", utility_owned=owned)
    run.neutral = f"{size} AWG {metal}" if size else ""
    run.sets = 2 if made.once_in(8) else 1
    if run.sets > 1:
        run.kept = True
    if owned or made.once_in(2):
        run.cable = "SEU"
    else:
        fitting = made.dice.choice(["threaded-hub", "bonding-bushing", "bonding-locknut", "plain-locknut", "none"])
        run.pipes = [made.pipe(["RMC", "IMC", "PVC-80"], place="yard", fitting=fitting, rings=made.once_in(3))]
    made.runs.append(run)


def _starts(made: Wiring) -> list[Gear]:
    """Gear from which a feeder may go on: the service disconnect and what lies past it."""
    fed_blind = {run.end for run in made.runs if run.kind == "feeder" and not run.neutral}
    return [gear for gear in made.gear if gear.part in ("service", "past") and gear not in fed_blind]


def _draw_feeder(made: Wiring) -> None:
    start = made.dice.choice(_starts(made))
    kind = made.dice.choice(["panel", "panel", "panel", "disconnect"])
    end = made.add(kind, made.home(*POSTS, *made.buildings), opens=kind == "disconnect" or not made.once_in(3))
    if kind == "panel":
        end.shared_bar = made.once_in(6)
    run = feeder(made, start, end)
    run.existing = made.once_in(3)
    if run.existing and made.once_in(1.5):
        run.ground = ""
        end.bonded = not made.once_in(3)
    if made.once_in(12):
        run.neutral = ""


def feeder(made: Wiring, start: Source | Gear, end: Gear) -> Run:
    """A feeder with its wires and its way."""
    run = Run(f"feeder-{len(made.runs)}", "feeder", start, end, breaker=made.dice.choice([20, 60]))
    if made.once_in(4):
        run.ground = ""
    _lay(made, run, ["SER", "AC", "UF-B"])
    made.runs.append(run)
    return run


def _lay(made: Wiring, run: Run, cables: list[str]) -> None:
    """In a cable, in a pipe of its own, in several one after another or side by side, or in those of an earlier run."""
    ends = {run.end.home} if run.end else {outlet.place for outlet in run.outlets}
    beside = [other for other in made.runs if other.pipes and other.sets == 1 and other.start is run.start and other is not run]
    beside = [other for other in beside if ({other.end.home} if other.end else {one.place for one in other.outlets}) == ends]
    if beside and made.once_in(2):
        run.pipes = made.dice.choice(beside).pipes[: made.dice.randint(1, 2)]
        run.kept = True if len(run.pipes) > 1 else None
        return
    if made.once_in(3):
        run.cable = made.dice.choice(cables)
        return
    kinds = made.dice.choice([["PVC-40"], ["EMT", "RMC"], ["PVC-40", "EMT", "FMC", "LFMC"], ["EMT", "FMC", "LFMC"]])
    way = made.dice.choice(["one", "one", "line", "bent", "abreast"])
    if way == "one":
        run.pipes = [made.pipe(kinds, ditch=made.ditch()) if made.once_in(2) else made.pipe(kinds, place="yard")]
    else:
        ditch = made.ditch()
        first, second = made.pipe(kinds, ditch=ditch), made.pipe(kinds, ditch=ditch)
        if way == "line":
            first.continues = second
        elif way == "bent":
            second.ditch, second.place = "", "house-room"
        run.pipes = [first, second]
    if way == "abreast":
        run.kept, run.sets = made.once_in(2), made.dice.choice([1, 2])
    elif made.once_in(8):
        run.kept, run.sets = made.once_in(2), 2


def _draw_generator(made: Wiring) -> None:
    """Stand-alone, by a transfer switch, by a slide plate in a panel, or without either; with a disconnect of its own or not."""
    generator = Source("generator", utility=False, bonded=made.once_in(2), cords=made.once_in(8))
    made.sources.append(generator)
    if generator.cords:
        return
    for _ in range(2 if made.once_in(5) else 1):
        start: Source | Gear = generator
        if made.once_in(2):
            stop = made.add("disconnect", made.home(*POSTS))
            stop.part, stop.bonded = "own", made.once_in(2.5)
            feeder(made, start, stop)
            start = stop
        run = feeder(made, start, _joined_at(made))
        if start is generator and made.once_in(10):
            run.neutral = ""


def _joined_at(made: Wiring) -> Gear:
    way = made.dice.choice(["switch", "switch", "switch", "main", "plate", "nothing", "alone"])
    mains = [gear for gear in made.gear if gear.part == "service" and gear.kind == "transfer-switch"]
    panels = [gear for gear in _starts(made) if gear.kind == "panel"]
    if way == "main" and mains:
        return mains[0]
    if way in ("plate", "nothing") and panels:
        panel = made.dice.choice(panels)
        panel.plate = panel.plate or way == "plate"
        return panel
    if way == "alone":
        panel = made.add("panel", made.home(), bonded=made.once_in(2.5), shared_bar=made.once_in(4))
        panel.part = "own"
        return panel
    switch = made.add("transfer-switch", made.home(), switches_neutral=made.once_in(2))
    feeder(made, made.dice.choice([gear for gear in _starts(made) if gear is not switch]), switch)
    feeder(made, switch, made.add("panel", switch.home))
    return switch


def _draw_circuit(made: Wiring) -> None:
    starts = [gear for gear in _starts(made) if gear.kind in ("panel", "disconnect")]
    if not starts:
        return
    start = made.dice.choice(starts)
    run = Run(f"circuit-{len(made.runs)}", "circuit", start, hot="12 AWG copper", neutral="12 AWG copper", breaker=20)
    run.ground = "" if made.once_in(3) else "12 AWG copper"
    run.existing = made.once_in(4)
    places = [*(f"{name}-room" for name in made.buildings), "yard"]
    place = made.dice.choice(places)
    for number in range(made.dice.randint(1, 2)):
        place = made.dice.choice(places) if made.once_in(8) else place
        kind = made.dice.choice(["lights", "load", "receptacles"])
        run.outlets.append(Outlet(f"{kind}-{len(made.runs)}-{number}", kind, place, kind == "load" and made.once_in(2)))
    _lay(made, run, ["NM-B", "AC"])
    run.sets, run.kept = 1, run.kept if len(run.pipes) > 1 else None
    made.runs.append(run)
    home = place.removesuffix("-room")
    if home in made.buildings and home != start.home and made.once_in(2):
        made.add("disconnect", home, bonded=False).part = "switch"


def _draw_rods(made: Wiring) -> None:
    gear = [one for one in made.gear if one.part != "switch"]
    for name in made.buildings:
        for _ in range(made.dice.choice([0, 1, 1, 2])):
            rod = Rod(f"rods-{len(made.rods)}", name)
            near = [one for one in gear if one.home == name or one.home in POSTS]
            start: Gear | Rod = made.dice.choice(near if near and not made.once_in(6) else gear)
            if made.rods and made.once_in(5):
                start = made.dice.choice(made.rods)
            made.rods.append(rod)
            if not made.once_in(6):
                bar = "neutral-bar" if made.once_in(2) else "ground-bar"
                made.rod_wires.append(RodWire(f"rod-wire-{len(made.rod_wires)}", start, rod, bar))
