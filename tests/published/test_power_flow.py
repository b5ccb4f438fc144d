"""Voltage drop and fault current of 200 random radial systems against pandapower (pandapower.org), a general power-flow library.

Each system is written as a plan, read by the language, worked out by the facts, and solved a second time by the library, which
knows nothing of wiring. A single-phase loop of so many ohms has the same per-unit equations as one line of a balanced
three-phase network with the line voltage and those ohms; the wires of a 120 V circuit are brought to 240 V by the square of the
ratio. Where the two methods differ, and by how much they may:

- Loads. The facts take the current at nominal voltage. Loads of constant current, which the library has, must agree to its
  solver's last place. Loads of constant power draw more as the voltage falls: the drop must then lie between ours and ours
  over what is left of the voltage at the worst place, for no current rises by more.
- Angles. R cos + X sin leaves out that the voltage turns on its way, and the currents with it: of the second order, less than
  a quarter of the square of the largest drop.
- Fault current. The point-to-point method adds impedances as plain numbers. At one angle everywhere it must agree to the last
  place; at unlike ones it comes out lower, never higher, and by no more than the cosine of half the difference of the angles.

IEC 60909, by which the library works out short circuits, raises the voltage behind a source by a factor c and measures the source
with it; the wires are given c times their ohms, so that it falls out.
"""

import math
from collections.abc import Callable, Iterator
from functools import cache
from typing import Any

import pytest
from radial_systems import WIRES, System, Wire, system

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.facts import load_facts
from planlint.facts.drop import drop_ahead, drop_by_impedance, drop_to_last_outlet
from planlint.facts.engine import Job
from planlint.facts.fault import available_fault, available_fault_to_neutral, fault_at_end
from planlint.language import read_text
from planlint.plan.graph import Graph

SYSTEMS = 200
WITH_POWER_FACTOR = 60
C_FACTOR = 1.1  # IEC 60909 table 1, low voltage with a tolerance of 10 %


@cache
def systems(power_factor: int = 100) -> list[System]:
    return [system(seed, power_factor) for seed in range(SYSTEMS if power_factor == 100 else WITH_POWER_FACTOR)]


@cache
def jobs(power_factor: int = 100) -> list[Job]:
    load_facts()
    code, tables = resolve(("model-2020",)), Tables()
    return [Job(Graph(read_text(made.text, example=True).elements), code, tables) for made in systems(power_factor)]


@cache
def library() -> Any:
    """The power-flow library, which takes seconds to import: not while tests are only collected."""
    import pandapower
    import pandapower.shortcircuit

    return pandapower


class Islands:
    """Many radial systems in one network of the library, each with a source of its own."""

    def __init__(self, kilovolts: float = 0.24) -> None:
        self.net = library().create_empty_network(sn_mva=0.01)
        self.kilovolts = kilovolts
        self.buses: dict[tuple[int, str], int] = {}
        self._lines: list[tuple[int, int, float, float]] = []

    def bus(self, number: int, place: str) -> int:
        """The bus of that place, made when it is first asked for."""
        if (number, place) not in self.buses:
            self.buses[number, place] = len(self.buses)
        return self.buses[number, place]

    def line(self, number: int, wire: Wire, r: float, x: float) -> None:
        self._lines.append((self.bus(number, wire.start), self.bus(number, wire.end), r, x))

    def build(self) -> Any:
        library().create_buses(self.net, len(self.buses), self.kilovolts)
        starts, ends, r, x = zip(*self._lines, strict=True)
        library().create_lines_from_parameters(
            self.net, starts, ends, length_km=1.0, r_ohm_per_km=r, x_ohm_per_km=x, c_nf_per_km=0.0, max_i_ka=10.0
        )
        return self.net


def to_240(wire: Wire, ohms: float) -> float:
    return ohms * (240 / wire.volts) ** 2


@cache
def voltages(power_factor: int, constant: str) -> dict[tuple[int, str], float]:
    """Voltage at each place as a share of the source's, loads of constant `current` or `power`, by the library."""
    made = Islands()
    cosine = power_factor / 100
    by_impedance = power_factor < 100
    for number, one in enumerate(systems(power_factor)):
        for wire in one.wires:
            r, x = (wire.loop(1), wire.loop(2)) if by_impedance else (wire.loop(0), 0.0)
            made.line(number, wire, to_240(wire, r), to_240(wire, x))
    net = made.build()
    for number, one in enumerate(systems(power_factor)):
        library().create_ext_grid(net, made.buses[number, "utility"])
        places = [made.buses[number, end] for end in one.volt_amperes]
        real = [power * cosine / 1e6 for power in one.volt_amperes.values()]
        reactive = [power * math.sqrt(1 - cosine**2) / 1e6 for power in one.volt_amperes.values()]
        share = 100 if constant == "current" else 0
        library().create_loads(net, places, real, reactive, const_i_p_percent=share, const_i_q_percent=share)
    library().runpp(net, numba=False, init="flat", tolerance_mva=1e-12, max_iteration=50)
    found = net.res_bus.vm_pu.to_numpy()
    return {place: float(found[bus]) for place, bus in made.buses.items()}


def drops(fact_sum: Callable[[Wire, Job], float], power_factor: int, constant: str) -> Iterator[tuple[float, float, float]]:
    """For each circuit our drop, the library's, and the largest of the library's in that system, all as shares."""
    solved = voltages(power_factor, constant)
    for number, (one, job) in enumerate(zip(systems(power_factor), jobs(power_factor), strict=True)):
        theirs = {wire.end: 1 - solved[number, wire.end] for wire in one.circuits}
        for wire in one.circuits:
            yield fact_sum(wire, job), theirs[wire.end], max(theirs.values())


def all_the_way(wire: Wire, job: Job) -> float:
    return drop_to_last_outlet(job.graph.one(wire.name), job).amount


def by_impedance(wire: Wire, job: Job) -> float:
    """Our drops by impedance along the way, added."""
    circuit: Any = job.graph.one(wire.name)
    added, place = drop_by_impedance(circuit, job).amount, circuit.panel
    while place.kind != "supply":
        run = job.graph.feed(place)
        added, place = added + drop_by_impedance(run, job).amount, run.from_
    return added


def test_there_are_systems_of_many_kinds() -> None:
    """Some 200 trees, up to four runs deep and more, drops from next to nothing to far over the limits."""
    found = [ours for ours, _, _ in drops(all_the_way, 100, "current")]
    assert len(found) > 500
    assert min(found) < 0.01
    assert max(found) > 0.08


def test_drop_with_loads_of_constant_current() -> None:
    """Physics: all the way from the utility's point to each of the outlets, by resistance."""
    wrong = [(ours, theirs) for ours, theirs, _ in drops(all_the_way, 100, "current") if abs(ours - theirs) > 1e-8]
    assert wrong == []


def test_drop_at_the_panels() -> None:
    """Physics: what is lost ahead of a panel."""
    solved = voltages(100, "current")
    for number, (one, job) in enumerate(zip(systems(), jobs(), strict=True)):
        for wire in one.circuits:
            ahead = drop_ahead(job.graph.one(wire.start), job).amount  # type: ignore[arg-type]
            assert ahead == pytest.approx(1 - solved[number, wire.start], abs=1e-8)


def test_drop_with_loads_of_constant_power() -> None:
    """Physics: at least ours, for no current is lower, and no more than ours over the lowest voltage."""
    for ours, theirs, largest in drops(all_the_way, 100, "power"):
        assert ours < theirs + 1e-9
        assert theirs <= ours / (1 - largest) + 1e-9


def test_drop_by_impedance() -> None:
    """Physics: R cos + X sin at 85 %, but for what is of the second order in the drop."""
    for ours, theirs, largest in drops(by_impedance, 85, "current"):
        assert abs(theirs - ours) <= largest**2 / 4
        assert ours == pytest.approx(theirs, rel=0.02)


# ---- Fault current


def angle_of_wire(wire: Wire) -> float:
    _, r, x, _ = WIRES[wire.size]
    return math.atan2(x, r)


def short_circuits(volts: int, source_angle: float | None) -> dict[tuple[int, str], float]:
    """Amperes of a dead short at each place by the library: at 240 V all places, at 120 V those of one hot wire and neutral.

    All of one angle, or the source at the angle given and each wire at that of Table 9.
    """
    made = Islands(volts / 1000)
    for number, one in enumerate(systems()):
        for wire in one.wires:
            if wire.volts == volts or wire not in one.circuits:
                angle = math.pi / 4 if source_angle is None else angle_of_wire(wire)
                ohms = wire.loop_by_constant * C_FACTOR
                made.line(number, wire, ohms * math.cos(angle), ohms * math.sin(angle))
    net = made.build()
    for number, one in enumerate(systems()):
        angle = math.pi / 4 if source_angle is None else source_angle
        power = volts * one.amperes / 1e6
        library().create_ext_grid(net, made.buses[number, "utility"], s_sc_max_mva=power, rx_max=1 / math.tan(angle))
    library().shortcircuit.calc_sc(net, fault="3ph", case="max", lv_tol_percent=10)
    found = net.res_bus_sc.ikss_ka.to_numpy()
    return {place: float(found[bus]) * 1000 * math.sqrt(3) for place, bus in made.buses.items()}


def faults(volts: int, source_angle: float | None) -> Iterator[tuple[float, float]]:
    """Our fault current and the library's at each panel and at the end of each circuit."""
    solved = short_circuits(volts, source_angle)
    fact = available_fault if volts == 240 else available_fault_to_neutral
    for number, (one, job) in enumerate(zip(systems(), jobs(), strict=True)):
        for wire in one.wires:
            end = job.graph.one(wire.name)
            if wire not in one.circuits:
                yield fact(job.graph.one(wire.end), job).within("A"), solved[number, wire.end]  # type: ignore[arg-type]
            elif wire.volts == volts:
                yield fault_at_end(end, job).within("A"), solved[number, wire.end]  # type: ignore[arg-type]


@pytest.mark.parametrize("volts", [240, 120])
def test_fault_current_where_all_has_one_angle(volts: int) -> None:
    """Physics: the volts over all that lies ahead, between the hot wires and from one to the neutral."""
    found = list(faults(volts, None))
    assert len(found) > 500
    assert [pair for pair in found if pair[0] != pytest.approx(pair[1], rel=1e-6)] == []


@pytest.mark.parametrize("reactance_over_resistance", [1, 2, 4])
def test_fault_current_where_source_and_wires_differ_in_angle(reactance_over_resistance: int) -> None:
    """Physics: numbers at unlike angles add up to no less than their plain sum times the cosine of half the difference."""
    angle = math.atan(reactance_over_resistance)
    ratios = [theirs / ours for ours, theirs in faults(240, angle)]
    assert min(ratios) > 1 - 1e-9
    assert max(ratios) < 1 / math.cos((angle - min(math.atan2(x, r) for _, r, x, _ in WIRES.values())) / 2)
    assert max(ratios) > 1.03
