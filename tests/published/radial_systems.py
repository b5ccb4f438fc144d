"""Random radial systems, each as a plan text and as the tree of wires that a general power-flow library takes.

The wires' figures stand here on their own: NFPA 70 Chapter 9 Table 8 (ohms a 1000 ft to direct current, as copied at
electrical-design-tutor.com), Table 9 (resistance and reactance in plastic pipe, as copied at studylib.net/doc/18487561 and
18564968), and the constants C of the point-to-point method (scribd.com/document/184293836).
"""

import random
from dataclasses import dataclass, field

# Table 8; Table 9 R and X in plastic pipe; C in plastic pipe.
WIRES: dict[str, tuple[float, float, float, float]] = {
    "12 AWG copper": (1.98, 2.0, 0.054, 617),
    "10 AWG copper": (1.24, 1.2, 0.050, 982),
    "8 AWG copper": (0.778, 0.78, 0.052, 1559),
    "6 AWG copper": (0.491, 0.49, 0.051, 2430),
    "4 AWG copper": (0.308, 0.31, 0.048, 3826),
    "2 AWG copper": (0.194, 0.19, 0.045, 6044),
    "1/0 AWG copper": (0.122, 0.12, 0.044, 9317),
    "2 AWG aluminum": (0.319, 0.32, 0.045, 3730),
    "1/0 AWG aluminum": (0.201, 0.20, 0.044, 5838),
    "4/0 AWG aluminum": (0.100, 0.10, 0.041, 11174),
    "250 kcmil aluminum": (0.0847, 0.085, 0.041, 12862),
}
SMALL = [size for size in WIRES if "copper" in size][:4]
LARGE = [size for size in WIRES if size not in SMALL]


@dataclass(frozen=True)
class Wire:
    """A run from one place to the next; a circuit at 120 V works between one hot wire and the neutral."""

    name: str
    start: str
    end: str
    size: str
    feet: int
    sets: int = 1
    volts: int = 240

    def loop(self, column: int) -> float:
        """Ohms there and back, by Table 8 (0), Table 9 R (1) or X (2)."""
        return 2 * self.feet * WIRES[self.size][column] / 1000 / self.sets

    @property
    def loop_by_constant(self) -> float:
        return 2 * self.feet / WIRES[self.size][3] / self.sets


@dataclass
class System:
    """One made-up system: its plan, its wires from the utility's point on, and the load at the end of each circuit."""

    text: str
    amperes: int
    wires: list[Wire] = field(default_factory=list)
    volt_amperes: dict[str, float] = field(default_factory=dict)

    @property
    def circuits(self) -> list[Wire]:
        return [wire for wire in self.wires if wire.end in self.volt_amperes]


HEAD = """complete service, feeders, circuits, receptacles, lights, loads, raceways
building shop
  use workshop
place shop-room
  building shop
supply utility
  type utility; volts 120/240 V; fault-current {amperes} A
disconnect p0
  at shop-room; breaker 200 A
"""


def system(seed: int, power_factor: int = 100) -> System:
    """A service, two to five panels in a tree, on each one or two circuits of 240 V or pairs of equal ones of 120 V."""
    dice = random.Random(seed)
    amperes = dice.randrange(2000, 22001)
    made = System(HEAD.format(amperes=amperes), amperes)
    _run(made, dice, "service", Wire("s0", "utility", "p0", dice.choice(LARGE), dice.randint(20, 150), dice.choice([1, 1, 2])))
    for number in range(1, dice.randint(2, 5) + 1):
        panel, ahead = f"p{number}", f"p{dice.randrange(number)}"
        made.text += f"panel {panel}\n  at shop-room; main lugs\n"
        _run(made, dice, "feeder", Wire(f"f{number}", ahead, panel, dice.choice(LARGE), dice.randint(10, 250)))
        for circuit in range(dice.randint(1, 2)):
            _circuits(made, dice, panel, f"c{number}-{circuit}", power_factor)
    return made


def _run(made: System, dice: random.Random, kind: str, wire: Wire) -> None:
    owner = "owner customer" if kind == "service" else f"breaker {dice.choice([60, 100, 200])} A"
    made.wires.append(wire)
    made.text += (
        f"{kind} {wire.name}\n  from {wire.start}; to {wire.end}; {owner}; cable SER; hot 2 x {wire.size}\n"
        f"  length {wire.feet} ft; sets {wire.sets}\n"
    )


def _circuits(made: System, dice: random.Random, panel: str, name: str, power_factor: int) -> None:
    size, feet, power = dice.choice(SMALL), dice.randint(10, 150), dice.randint(200, 2400)
    two_pole = dice.random() < 0.5
    for each in [name] if two_pole else [f"{name}a", f"{name}b"]:
        volts, poles = (240, 2) if two_pole else (120, 1)
        made.wires.append(Wire(each, panel, f"{each}-end", size, feet, volts=volts))
        made.volt_amperes[f"{each}-end"] = power
        made.text += (
            f"circuit {each}\n  panel {panel}; poles {poles}; use appliance; cable UF-B; hot {poles} x {size}\n"
            f"  length {feet} ft\n"
            f"load {each}-load\n  at shop-room; type kiln; circuit {each}; rating {power} VA; volts {volts} V\n"
            f"  power-factor {power_factor} %\n"
        )
