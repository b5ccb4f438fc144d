"""What must hold of loads, drops and fault currents whatever the figures are: more of what burdens never comes out as less."""

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.facts.building_load import own_load
from planlint.facts.drop import drop, size_for_drop
from planlint.facts.engine import Job
from planlint.facts.fault import available_fault
from planlint.facts.load import load_served

JobFor = Callable[..., Job]
FEW = settings(max_examples=50, deadline=None)
# No furnace: up to 1500 VA its plate is taken for that of a fan, which counts among the appliances and not as heat.
OPTIONAL_TYPES = ("range", "dryer", "water-heater", "kiln", "heat-pump", "supplementary-heat", "air-conditioner")
FIXED_TYPES = ("water-heater", "dishwasher", "well-pump", "kiln", "heat-pump", "air-conditioner", "other", "car-charger")

HOUSE = """complete service, feeders, circuits, receptacles, lights, loads
building house
  use one-family; floor-area {area} sq ft; load-method {method}
place hall
  building house
"""
APPLIANCE = "load appliance-{0}\n  at hall; planned yes; connection hard-wired; type {1}; rating {2} W; volts 240 V\n"
plates = st.integers(500, 20_000)


def load_of(job_for: JobFor, method: str, appliances: list[tuple[str, int]], area: int = 1500) -> float:
    text = HOUSE.format(area=area, method=method)
    text += "".join(APPLIANCE.format(number, *one) for number, one in enumerate(appliances))
    job = job_for(text)
    return own_load(job.graph.one("house"), job).within("VA")


def appliances(types: tuple[str, ...], least: int = 1) -> st.SearchStrategy[list[tuple[str, int]]]:
    return st.lists(st.tuples(st.sampled_from(types), plates), min_size=least, max_size=6)


@FEW
@given(appliances(OPTIONAL_TYPES), st.integers(0, 5), st.integers(0, 10_000))
def test_a_larger_appliance_never_lowers_the_optional_load(
    job_for: JobFor, those: list[tuple[str, int]], which: int, more: int
) -> None:
    type_, watts = those[which % len(those)]
    larger = [*those]
    larger[which % len(those)] = (type_, watts + more)
    assert load_of(job_for, "optional", larger) >= load_of(job_for, "optional", those) - 1e-6


@FEW
@given(appliances(OPTIONAL_TYPES), st.tuples(st.sampled_from(OPTIONAL_TYPES), plates))
def test_one_more_appliance_never_lowers_the_optional_load(
    job_for: JobFor, those: list[tuple[str, int]], one: tuple[str, int]
) -> None:
    assert load_of(job_for, "optional", [*those, one]) >= load_of(job_for, "optional", those) - 1e-6


@FEW
@given(appliances(FIXED_TYPES), st.integers(0, 5), st.integers(0, 10_000))
def test_a_larger_appliance_never_lowers_the_standard_load(
    job_for: JobFor, those: list[tuple[str, int]], which: int, more: int
) -> None:
    """Not so one more appliance: the fourth that is fastened in place lets all of them count 75 % (NFPA 70 220.53)."""
    type_, watts = those[which % len(those)]
    larger = [*those]
    larger[which % len(those)] = (type_, watts + more)
    assert load_of(job_for, "standard", larger) >= load_of(job_for, "standard", those) - 1e-6


@FEW
@given(st.integers(200, 20_000), st.integers(0, 10_000), st.sampled_from(("standard", "optional")))
def test_a_larger_house_never_has_less_load(job_for: JobFor, area: int, more: int, method: str) -> None:
    assert load_of(job_for, method, [], area + more) >= load_of(job_for, method, [], area)


@FEW
@given(appliances(OPTIONAL_TYPES, least=2), st.randoms(use_true_random=False))
@pytest.mark.parametrize("method", ["standard", "optional"])
def test_the_order_of_statements_changes_nothing(
    job_for: JobFor, method: str, those: list[tuple[str, int]], chance: object
) -> None:
    shuffled = [*those]
    chance.shuffle(shuffled)
    assert load_of(job_for, method, shuffled) == pytest.approx(load_of(job_for, method, those))


SIZES = ("14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0")


def dropped(job_for: JobFor, size: str, feet: int, amperes: int) -> float:
    job = job_for(f"""circuit bench
  volts 120 V; hot 2 x {size} copper; raceway pipe; length {feet} ft; design-load {amperes} A
raceway pipe
  type EMT
""")
    return drop(job.graph.one("bench"), job).within("%")


@FEW
@given(st.sampled_from(SIZES), st.integers(0, 1000), st.integers(0, 1000), st.integers(0, 100), st.integers(0, 100))
def test_a_longer_run_or_a_larger_load_never_drops_less(
    job_for: JobFor, size: str, feet: int, more: int, amperes: int, more_amperes: int
) -> None:
    least = dropped(job_for, size, feet, amperes)
    assert dropped(job_for, size, feet + more, amperes) >= least
    assert dropped(job_for, size, feet, amperes + more_amperes) >= least


@FEW
@given(st.integers(0, len(SIZES) - 2), st.integers(1, 1000), st.integers(1, 100))
def test_a_larger_wire_drops_less(job_for: JobFor, which: int, feet: int, amperes: int) -> None:
    assert dropped(job_for, SIZES[which + 1], feet, amperes) < dropped(job_for, SIZES[which], feet, amperes)


@FEW
@given(st.sampled_from(SIZES[:8]), st.integers(1, 500), st.integers(1, 30))
def test_the_size_that_mends_a_drop_is_the_smallest_that_does(job_for: JobFor, size: str, feet: int, amperes: int) -> None:
    job = job_for(f"circuit bench\n  volts 120 V; cable {size}/2 copper NM-B; length {feet} ft; design-load {amperes} A\n")
    mended = size_for_drop(job.graph.one("bench"), job).size
    assert dropped(job_for, mended, feet, amperes) <= 3 + 1e-6
    if mended != size:
        assert dropped(job_for, SIZES[SIZES.index(mended) - 1], feet, amperes) > 3


def fault_at_the_end(job_for: JobFor, feet: int, amperes: int) -> float:
    job = job_for(f"""complete service, feeders
supply utility
  type utility; volts 120/240 V; fault-current {amperes} A
panel main-panel
  main 200 A
service drop
  from utility; to main-panel; owner customer; cable SEU; hot 2 x 4/0 aluminum; length {feet} ft
""")
    return available_fault(job.graph.one("main-panel"), job).within("A")


@FEW
@given(st.integers(0, 500), st.integers(0, 500), st.integers(100, 100_000), st.integers(0, 100_000))
def test_a_longer_run_takes_off_more_and_a_stiffer_supply_gives_more(
    job_for: JobFor, feet: int, more: int, amperes: int, more_amperes: int
) -> None:
    there = fault_at_the_end(job_for, feet, amperes)
    assert there <= amperes * (1 + 1e-9)
    assert fault_at_the_end(job_for, feet + more, amperes) <= there * (1 + 1e-9)
    assert fault_at_the_end(job_for, feet, amperes + more_amperes) >= there * (1 - 1e-9)


@FEW
@given(st.lists(st.integers(100, 3000), min_size=1, max_size=5), st.integers(1, 3000))
def test_a_part_of_a_house_never_counts_less_for_one_more_circuit(job_for: JobFor, plates: list[int], more: int) -> None:
    """Behind a panel that feeds a part of a house; heaters, which have no demand factor there."""

    def served(watts: list[int]) -> float:
        text = """complete service, feeders, circuits, receptacles, lights, loads
building house
  use one-family
place hall
  building house
supply utility
  type utility; volts 120/240 V
panel main-panel
  at hall; main 200 A
service drop
  from utility; to main-panel; owner customer
circuit other
  panel main-panel; use appliance
panel wing-panel
  at hall; main lugs
feeder wing-feeder
  from main-panel; to wing-panel
"""
        for number, each in enumerate(watts):
            text += f"circuit heat-{number}\n  panel wing-panel; use appliance\n"
            text += f"load heater-{number}\n  at hall; circuit heat-{number}; type baseboard-heat; rating {each} W\n"
        job = job_for(text)
        return load_served(job.graph.one("wing-panel"), job).within("VA")

    assert served(plates) == pytest.approx(sum(plates))
    assert served([*plates, more]) >= served(plates)
