"""Leaving out a line may leave a load, a drop or a fault current open; it never turns it into another figure."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest

from planlint.facts.building_load import existing_load, optional_load, standard_load
from planlint.facts.drop import drop, drop_ahead, drop_at_full_breaker
from planlint.facts.engine import Job
from planlint.facts.fault import available_fault
from planlint.facts.legs import connected_current, leg_a_load, leg_b_load, leg_imbalance
from planlint.facts.load import (
    calculated_load,
    current_needed,
    has_continuous_load,
    load_amps,
    load_current,
    load_served,
    service_rating,
)
from planlint.facts.neutral import neutral_carries_load, neutral_load, own_neutral_load
from planlint.facts.wires_for_load import wires_hold_load
from planlint.plan import Building, Circuit, Disconnect, Element, Feeder, Load, Meter, Panel, Service
from planlint.plan.elements import NotStated

JobFor = Callable[..., Job]
COMPLETE = "complete service, feeders, circuits, receptacles, lights, loads\n"

# One attribute a line. Attributes with a default of their own are left out: taking those away says something by the vocabulary.
PLAN = """building house
  use one-family
  construction existing
  floor-area 1500 sq ft
  load-method standard
building studio
  use workshop
place kitchen
  building house
place studio-room
  building studio
place yard
  outdoors yes
supply utility
  type utility
  volts 120/240 V
  transformer 25 kVA
  transformer-impedance 1.8 %
meter meter-post
  mounted-on house
disconnect house-disconnect
  mounted-on house
  breaker 200 A
service lateral
  from utility
  to meter-post
  owner utility
service meter-to-disconnect
  from meter-post
  to house-disconnect
  owner customer
  cable SER
  hot 2 x 4/0 aluminum
  length 38 ft
panel house-panel
  at kitchen
  main lugs
feeder house-feeder
  from house-disconnect
  to house-panel
  cable SER
  hot 2 x 4/0 aluminum
  neutral 2/0 aluminum
  breaker 200 A
  terminals 75 C
  touches-insulation no
  ambient 86 F
  length 62 ft
panel wing-panel
  at kitchen
  main lugs
feeder wing-feeder
  from house-panel
  to wing-panel
  cable SER
  hot 2 x 2 AWG aluminum
  length 30 ft
panel studio-panel
  at studio-room
  main 100 A
feeder studio-feeder
  from house-panel
  to studio-panel
  cable SER
  hot 2 x 1 AWG aluminum
  length 140 ft
circuit kitchen-a
  space 1
  panel house-panel
  use small-appliance
  poles 1
  breaker 20 A
  cable 12/2 copper NM-B
  length 40 ft
  design-load 12 A
receptacles counter
  at kitchen
  circuit kitchen-a
  serves counter
circuit lights-circuit
  space 1
  panel wing-panel
  use lighting
  poles 1
  breaker 15 A
  cable 14/2 copper NM-B
  length 40 ft
lights ceiling
  at kitchen
  circuit lights-circuit
  rating 60 W
circuit range-circuit
  space 3, 5
  panel wing-panel
  use appliance
  poles 2
  breaker 50 A
  cable 6/3 copper NM-B
  length 40 ft
receptacles range-receptacle
  at kitchen
  circuit range-circuit
  serves appliance
load range
  at kitchen
  type range
  circuit range-circuit
  rating 12 kW
  volts 240 V
  connection cord
circuit well-circuit
  space 2, 4
  panel house-panel
  use appliance
  poles 2
  breaker 20 A
  cable 10/2 copper UF-B
  length 180 ft
load well-pump
  at yard
  type well-pump
  circuit well-circuit
  horsepower 1 hp
  amps 8 A
  volts 240 V
circuit heat-circuit
  space 6, 8
  panel house-panel
  use appliance
  poles 2
  breaker 30 A
  cable 10/2 copper NM-B
  length 30 ft
load heaters
  at kitchen
  type baseboard-heat
  circuit heat-circuit
  existing yes
  rating 4 kW
  volts 240 V
  units 4
circuit kiln-circuit
  space 1, 3
  panel studio-panel
  use appliance
  poles 2
  breaker 60 A
  cable 6/2 copper NM-B
  length 25 ft
load kiln
  at studio-room
  type kiln
  circuit kiln-circuit
  rating 11.52 kW
  amps 48 A
  volts 240 V
  continuous yes
circuit bench
  space 2
  panel studio-panel
  use general
  poles 1
  breaker 20 A
  cable 12/2 copper NM-B
  length 30 ft
receptacles bench-receptacles
  at studio-room
  circuit bench
  serves general
"""
FACTS: list[tuple[Any, tuple[type[Element], ...]]] = [
    (calculated_load, (Building,)),
    (load_amps, (Building, Panel)),
    (service_rating, (Building,)),
    (load_served, (Meter, Disconnect, Panel)),
    (load_current, (Service, Feeder, Circuit, Load)),
    (current_needed, (Service, Feeder, Circuit)),
    (has_continuous_load, (Feeder, Circuit)),
    (standard_load, (Building,)),
    (optional_load, (Building,)),
    (existing_load, (Building,)),
    (own_neutral_load, (Building,)),
    (neutral_load, (Service, Feeder)),
    (neutral_carries_load, (Service, Feeder)),
    (wires_hold_load, (Service, Feeder)),
    (connected_current, (Circuit,)),
    (leg_a_load, (Panel,)),
    (leg_b_load, (Panel,)),
    (leg_imbalance, (Panel,)),
    (drop, (Service, Feeder, Circuit)),
    (drop_at_full_breaker, (Circuit,)),
    (drop_ahead, (Meter, Disconnect, Panel, Circuit)),
    (available_fault, (Meter, Disconnect, Panel)),
]
LINES = PLAN.splitlines()
ATTRIBUTES = [number for number, line in enumerate(LINES) if line.startswith("  ")]


def figures(job: Job) -> Iterator[tuple[tuple[str, str], Any]]:
    """Every fact of every element that has it; None where it is not stated."""
    for fact, kinds in FACTS:
        for element in job.graph.elements:
            if isinstance(element, kinds):
                try:
                    yield (fact.__name__, element.name), fact(element, job)
                except NotStated:
                    yield (fact.__name__, element.name), None


@pytest.fixture(scope="module")
def before(job_for: JobFor) -> dict[tuple[str, str], Any]:
    return dict(figures(job_for(COMPLETE + PLAN)))


def test_almost_everything_is_known_before(before: dict[tuple[str, str], Any]) -> None:
    by_design = {"lights-circuit", "bench"}  # receptacles or lights, and no design load
    motors = {("has_continuous_load", "well-circuit")}  # whether the pump runs long isn't stated
    wanted = {key for key, value in before.items() if value is None}
    assert {name for fact, name in wanted - motors if fact in ("load_current", "current_needed", "drop")} == by_design | {
        "lateral"
    }


@pytest.mark.parametrize("number", ATTRIBUTES, ids=lambda number: f"{number}-{LINES[number].split()[0]}")
def test_leaving_out_a_line_only_opens_figures(job_for: JobFor, before: dict[tuple[str, str], Any], number: int) -> None:
    rest = [line for position, line in enumerate(LINES) if position != number]
    job = job_for(COMPLETE + "\n".join(rest) + "\n")
    after = dict(figures(job))
    changed = {key: (value, after[key]) for key, value in before.items() if after[key] is not None and after[key] != value}
    assert changed == {}
