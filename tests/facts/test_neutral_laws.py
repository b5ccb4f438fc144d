"""More load never asks for a smaller service or neutral, and taking a circuit away never for a larger one."""

from collections.abc import Callable

from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.facts.building_load import own_load
from planlint.facts.engine import Job
from planlint.facts.load import load_current
from planlint.facts.neutral import neutral_load

JobFor = Callable[..., Job]
FEW = settings(max_examples=40, deadline=None)
# No furnace (a small one is taken for a fan), no small cooking (the columns of Table 220.55 fall as well as rise with the plate).
AT_NEUTRAL = ("dishwasher", "disposal", "other", "sump-pump", "space-heat", "air-conditioner", "microwave")
FROM_HOT_TO_HOT = (
    "water-heater",
    "heat-pump",
    "baseboard-heat",
    "well-pump",
    "car-charger",
    "dryer",
    "kiln",
    "supplementary-heat",
)
KINDS = [*((type_, 120) for type_ in AT_NEUTRAL), *((type_, 240) for type_ in FROM_HOT_TO_HOT)]
Appliance = tuple[tuple[str, int], int]
appliances = st.lists(st.tuples(st.sampled_from(KINDS), st.integers(500, 12_000)), min_size=1, max_size=6)


def worked(job_for: JobFor, method: str, those: list[Appliance], kitchens: int = 2) -> tuple[float, float, float]:
    """Load of the house, current of its service, load of its neutral."""
    text = f"""complete service, feeders, circuits, receptacles, lights, loads
building house
  use one-family; construction existing; floor-area 1500 sq ft; load-method {method}
place hall
  building house
supply utility
  type utility; volts 120/240 V
panel main-panel
  at hall; main 200 A
service drop
  from utility; to main-panel; owner customer
circuit spare
  panel main-panel; use appliance; neutral none
"""
    for number in range(kitchens):
        text += f"circuit kitchen-{number}\n  panel main-panel; use small-appliance\n"
    for number, ((type_, volts), watts) in enumerate(those):
        text += f"load thing-{number}\n  at hall; circuit spare; type {type_}; rating {watts} W; volts {volts} V; existing no\n"
        text += "  connection hard-wired; units 1\n"
    job = job_for(text)
    house, drop = job.graph.one("house"), job.graph.one("drop")
    return own_load(house, job).within("VA"), load_current(drop, job).within("A"), neutral_load(drop, job).within("A")


def no_less(more: tuple[float, ...], less: tuple[float, ...]) -> bool:
    return all(one >= other - 1e-6 for one, other in zip(more, less, strict=True))


@FEW
@given(appliances, st.integers(0, 5), st.integers(0, 10_000), st.sampled_from(("standard", "optional", "existing")))
def test_a_larger_appliance(job_for: JobFor, those: list[Appliance], which: int, more: int, method: str) -> None:
    kind, watts = those[which % len(those)]
    larger = [*those]
    larger[which % len(those)] = (kind, watts + more)
    assert no_less(worked(job_for, method, larger), worked(job_for, method, those))


@FEW
@given(appliances, st.integers(0, 6), st.integers(0, 3), st.sampled_from(("standard", "optional", "existing")))
def test_one_circuit_less(job_for: JobFor, those: list[Appliance], kitchens: int, more: int, method: str) -> None:
    """Never more; and never less than with the two that a kitchen must have."""
    few, many = worked(job_for, method, those, kitchens), worked(job_for, method, those, kitchens + more)
    assert no_less(many, few)
    assert no_less(few, worked(job_for, method, those, 2)) or kitchens > 2
    assert no_less(few, worked(job_for, method, those, 0))


@FEW
@given(appliances, st.integers(0, 5), st.sampled_from(("optional", "existing")))
def test_one_appliance_less(job_for: JobFor, those: list[Appliance], which: int, method: str) -> None:
    """Of load and service. (Of the neutral not: the fourth appliance that is fastened in place lets all count 75 %; nor with four
    heaters that are switched separately, which is why there are fewer here.)
    """
    heaters = 0
    kept: list[Appliance] = []
    for one in those:
        heaters += one[0][0] in ("space-heat", "baseboard-heat")
        if heaters < 4 or one[0][0] not in ("space-heat", "baseboard-heat"):
            kept.append(one)
    fewer = [one for number, one in enumerate(kept) if number != which % len(kept)]
    assert no_less(worked(job_for, method, kept)[:2], worked(job_for, method, fewer)[:2])


@FEW
@given(appliances, st.sampled_from(("standard", "optional", "existing")))
def test_the_neutral_never_carries_more_than_the_hot_wires_would_by_plates(
    job_for: JobFor, those: list[Appliance], method: str
) -> None:
    """Lighting and circuits whole, and every plate with a quarter more, are more than any unbalance."""
    most = 1500 * 3 + 3 * 1500 + 1.25 * sum(max(watts, 5000) for _, watts in those)
    assert worked(job_for, method, those)[2] <= most / 240
