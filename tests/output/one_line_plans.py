"""Made-up plans by lot, for drawing: several buildings, panels and supplies, values left out, names nobody would choose."""

import random

HOSTILE = (
    "<script>alert('x')</script> & \"quoted\" by nobody".replace('"', "'"),
    "right to left \u05d1\u05d9\u05ea \u05d4\u05de\u05dc\u05d0\u05db\u05d4 \u0645\u0646\u0632\u0644",
    "\u9676\u82b8\u5de5\u623f\u306e\u5bb6 " * 6,
    "W" * 300,
    "a plain title; with ]]> and -- in it &amp; &#60;",
    "\u0301\u0301combining \U0001f3e0 house",
)
SIZES = ("4/0 aluminum XHHW-2", "2 AWG copper THWN-2", "1 AWG aluminum XHHW-2", "6 AWG copper THWN-2", "350 kcmil copper XHHW-2")
LOADS = (
    "range",
    "dryer",
    "water-heater",
    "well-pump",
    "kiln",
    "car-charger",
    "heat-pump",
    "dishwasher",
    "other",
    "fan",
)


class Lot:
    """One plan, grown from a seed."""

    def __init__(self, seed: int) -> None:
        self.dice = random.Random(seed)
        self.told = self.dice.choice((0.15, 0.5, 0.8, 1.0))
        self.long = seed % 5 == 0
        self.lines: list[str] = []
        self.names: set[str] = set()
        self.fed: list[tuple[str, str]] = []  # kind, name

    def name(self, word: str) -> str:
        found = f"{word}-{len(self.names)}"
        if self.long and word != "pipe" and self.dice.random() < 0.3:
            found += "-" + self.dice.choice(("w" * 280, "-".join(["east", "barn"] * 30), "m" * 60))
        self.names.add(found)
        return found

    def maybe(self, *attributes: str) -> list[str]:
        return [one for one in attributes if self.dice.random() < self.told]

    def put(self, kind: str, name: str, attributes: list[str]) -> None:
        self.lines.append(f"{kind} {name}")
        self.lines += [f"  {one}" for one in attributes]

    def grow(self) -> str:
        dice = self.dice
        title = dice.choice(HOSTILE) if dice.random() < 0.4 else "Plover Lane by lot"
        self.lines.append(f'plan "{title}"')
        self.lines += ["  edition 2020", *self.maybe("  date 2026-11-25", '  address-note "' + dice.choice(HOSTILE) + '"')]
        if dice.random() < 0.3:
            self.lines.append("  complete service, feeders, grounding, circuits, loads, raceways")
        self.buildings = [self.name("building") for _ in range(dice.randint(0, 4))]
        for building in self.buildings:
            self.put("building", building, self.maybe("use " + dice.choice(("one-family", "workshop", "barn", "garage"))))
        self.places = []
        for building in self.buildings * dice.randint(1, 2):
            self.places.append(self.name("room"))
            self.put("place", self.places[-1], [f"building {building}"])
        for _ in range(dice.randint(0, 2)):
            self.places.append(self.name("yard"))
            self.put("place", self.places[-1], self.maybe("outdoors yes"))
        self.supply("utility")
        for _ in range(dice.choice((1, 2, 3, 5, 9))):
            self.gear()
        for _ in range(dice.choice((0, 0, 1, 2, 4))):
            self.other_source()
        self.rings()
        self.circuits()
        self.grounding()
        self.odds_and_ends()
        return "\n".join(self.lines) + "\n"

    def at(self) -> list[str]:
        return self.maybe(f"at {self.dice.choice(self.places)}") if self.places else []

    def supply(self, kind: str) -> str:
        name = self.name(kind)
        rated = (
            self.maybe("fault-current 10 kA", "volts 120/240 V")
            if kind == "utility"
            else self.maybe("rating 7.6 kW", "volts 240 V")
        )
        if self.dice.random() < 0.3:
            rated += self.maybe("transformer 25 kVA", "transformer-impedance 1.8 %")
        self.put("supply", name, [f"type {kind}", *rated, *(self.at() if kind != "utility" or self.dice.random() < 0.3 else [])])
        if kind == "utility":
            self.fed.append(("supply", name))
        return name

    def gear(self) -> None:
        dice = self.dice
        kind_ahead, ahead = dice.choice(self.fed[-4:] if dice.random() < 0.6 else self.fed)
        service = kind_ahead in ("supply", "meter")
        kind = dice.choice(("meter", "disconnect", "panel")) if service else dice.choice(
            ("disconnect", "panel", "panel", "panel", "transfer-switch")
        )  # fmt: skip
        name = self.name(kind)
        own = {
            "meter": ["rating 200 A", "bonding neutral-lug"],
            "disconnect": [dice.choice(("breaker 200 A", "fuses 60 A", "switch-rating 100 A")), "interrupting 10 kA"],
            "panel": ["bus 200 A", dice.choice(("main lugs", "main 100 A")), "interrupting 10 kA"],
            "transfer-switch": [dice.choice(("type automatic", "type manual")), "rating 200 A", "switches-neutral yes"],
        }[kind]
        neutral = ["neutral " + dice.choice(("bonded", "isolated"))] if kind != "meter" else []
        self.put(kind, name, [*self.at(), *self.maybe(*own, *neutral)])
        self.run("service" if service else "feeder", ahead, name)
        self.fed.append((kind, name))

    def run(self, kind: str, start: str, end: str) -> None:
        dice = self.dice
        name = self.name("run")
        wires = [f"hot 2 x {dice.choice(SIZES)}", f"neutral {dice.choice(SIZES)}", "ground 6 AWG copper bare"]
        if dice.random() < 0.3:
            wires = ["cable " + dice.choice(("6/3 copper NM-B", "SER", "2/3 aluminum SER"))]
        pipes = []
        for _ in range(dice.choice((0, 0, 1, 2, 3, 12))):
            pipes.append(self.name("pipe"))
            self.put("raceway", pipes[-1], self.maybe("type " + dice.choice(("EMT", "PVC-40", "PVC-80")), "size 2 in"))
        said = self.maybe("length 60 ft", *wires, *([f"raceway {', '.join(pipes)}"] if pipes else []))
        if kind == "service":
            said += ["owner utility"] if dice.random() < 0.3 else self.maybe("owner customer")
        else:
            said += self.maybe(dice.choice(("breaker 100 A", "fuses 60 A", "breaker 200 A")))
        self.put(kind, name, [*([f"from {start}"] if start else []), *([f"to {end}"] if end else []), *said])

    def other_source(self) -> None:
        """A generator, solar panels or a battery, behind up to three disconnects, into a panel or transfer switch."""
        dice = self.dice
        goals = [name for kind, name in self.fed if kind in ("panel", "transfer-switch")]
        here = self.supply(dice.choice(("generator", "solar", "battery")))
        for _ in range(dice.choice((0, 0, 1, 2, 3))):
            switch = self.name("switch")
            self.put("disconnect", switch, [*self.at(), *self.maybe("switch-rating 60 A")])
            self.run("feeder", here, switch)
            here = switch
        for goal in dice.sample(goals, min(len(goals), dice.choice((0, 1, 1, 2)))):
            self.run("feeder", here, goal)

    def rings(self) -> None:
        switches = [place for place, (kind, _) in enumerate(self.fed) if kind == "transfer-switch"]
        for place in switches:
            starts = [name for kind, name in self.fed[:place] if kind in ("disconnect", "panel", "transfer-switch")]
            if starts and self.dice.random() < 0.4:
                self.run("feeder", self.dice.choice(starts), self.fed[place][1])

    def circuits(self) -> None:
        dice = self.dice
        for kind, panel in self.fed:
            if kind != "panel":
                continue
            for _ in range(dice.choice((0, 1, 2, 4, 12))):
                circuit = self.name("circuit")
                said = self.maybe("breaker 20 A", f"poles {dice.randint(1, 2)}", "length 40 ft", "cable 10/2 copper NM-B")
                self.put("circuit", circuit, [f"panel {panel}", *said, f'label "{dice.choice(HOSTILE)}"'])
                for _ in range(dice.choice((0, 0, 1, 1, 2, 9)) if dice.random() < 0.5 else 0):
                    said = self.maybe(f"type {dice.choice(LOADS)}", "rating 4.5 kW", "volts 240 V", "connection hard-wired")
                    self.put("load", self.name("load"), [f"circuit {circuit}", *said])

    def grounding(self) -> None:
        dice = self.dice
        electrodes = []
        for _ in range(dice.choice((0, 1, 2, 6))):
            electrode = self.name("electrode")
            self.put("electrode", electrode, self.maybe("type " + dice.choice(("rod", "ring", "plate")), "length 8 ft"))
            starts = [name for kind, name in self.fed if kind != "supply"] + electrodes
            for _ in range(dice.choice((0, 1, 1, 2))):
                start = [f"from {dice.choice(starts)}"] if starts else []
                self.put("electrode-conductor", self.name("wire"), [*start, f"to {electrode}", *self.maybe("size 6 AWG copper")])
            electrodes.append(electrode)
        for kind, gear in self.fed:
            if kind == "panel" and dice.random() < 0.2:
                self.put("bond", self.name("bond"), [f"from {gear}", *self.maybe("type main", "size 4 AWG copper")])

    def odds_and_ends(self) -> None:
        """What hangs from nothing, and runs of which an end isn't said."""
        dice = self.dice
        panels = [name for kind, name in self.fed if kind == "panel"]
        if dice.random() < 0.3:
            self.put("load", self.name("load"), ["type car-charger", "planned yes"])
        if dice.random() < 0.3:
            self.put("panel", self.name("panel"), self.at())
        if panels and dice.random() < 0.3:
            self.run("feeder", dice.choice(panels), "")
        if dice.random() < 0.2:
            self.run("feeder", "", "")
        if panels and dice.random() < 0.3:
            self.put("transfer-switch", self.name("plate"), ["type interlock", f"panel {dice.choice(panels)}"])


def plan_by_lot(seed: int) -> str:
    """The text of one plan; the same for the same seed."""
    return Lot(seed).grow()
