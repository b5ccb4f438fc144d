"""Loads of neutrals and of the two legs against the examples of the code's own annex, each to its printed rounding.

"Annex D" is informative annex D of NFPA 70, examples as reprinted in a pocket guide to the 2005 edition (flylib.com).
"""

from collections.abc import Callable

import pytest

from planlint.facts.engine import Job
from planlint.facts.legs import leg_a_load, leg_b_load, leg_imbalance
from planlint.facts.neutral import neutral_load, own_neutral_load
from planlint.quantities import Power
from tests.published.test_loads import house, texts

JobFor = Callable[..., Job]
RANGE_AND_DRYER = "range type range; rating 12 kW\ndryer type dryer; rating {}"
HOT_TO_HOT = "water-heater type water-heater; rating {}; volts 240 V\ndishwasher type dishwasher; rating 1.2 kW; volts 120 V"

# Example, area, method, appliances, the neutral's load as printed, its amperes, parts of the sum
EXAMPLES = [
    ("D1(a)", "1500 sq ft", "standard", [RANGE_AND_DRYER.format("5.5 kW")], 14_550, 61,
     ["5100 VA", "8000 VA x 70 %", "5500 VA x 70 %"]),
    (
        "D2(a)",
        "1500 sq ft",
        "optional",
        [RANGE_AND_DRYER.format("5 kW"), HOT_TO_HOT.format("2.5 kW"), "heat type space-heat; rating 9 kW; volts 240 V; units 5",
         "cooling type air-conditioner; amps 6 A; volts 230 V"],
        15_400,
        64,
        ["5100 VA", "8000 VA x 70 %", "5000 VA x 70 %", "hot to neutral 1200 VA"],
    ),
    (
        "D2(c)",  # the neutral's figures from memory
        "2000 sq ft",
        "optional",
        [RANGE_AND_DRYER.format("5 kW"), HOT_TO_HOT.format("4.5 kW"), "pump type heat-pump; amps 24 A; volts 240 V",
         "strips type supplementary-heat; rating 15 kW; volts 240 V"],
        15_925,
        66,
        ["5625 VA", "8000 VA x 70 %", "5000 VA x 70 %", "hot to neutral 1200 VA"],
    ),
]  # fmt: skip


@pytest.mark.parametrize(
    ("area", "method", "appliances", "printed", "amperes", "parts"),
    [row[1:] for row in EXAMPLES],
    ids=[row[0] for row in EXAMPLES],
)
def test_neutrals_of_the_annex(
    job_for: JobFor, area: str, method: str, appliances: list[str], printed: int, amperes: int, parts: list[str]
) -> None:
    """Annex D, examples D1(a), D2(a), D2(c)."""
    job = job_for(house(area=area, method=method, appliances="\n".join(appliances)))
    assert own_neutral_load(job.graph.one("house"), job) == Power.of(printed, "VA")
    assert round(neutral_load(job.graph.one("drop"), job).within("A")) == amperes
    words = texts(job, own_neutral_load, "house")
    assert [part for part in parts if part not in words] == []


def test_ovens_and_a_cooktop(job_for: JobFor) -> None:
    """Annex D, example D2(b): 13.1 kW at 55 % printed as 7,200 VA, so that the neutral's share is 5,040 VA; it is 5,043.5 VA."""
    appliances = "ovens type oven; rating 4 kW; count 2\ntop type cooktop; rating 5.1 kW"
    job = job_for(house(area="1500 sq ft", method="optional", appliances=appliances))
    load = own_neutral_load(job.graph.one("house"), job).within("VA")
    assert load == pytest.approx(5100 + 13_100 * 0.55 * 0.7)
    assert round(13_100 * 0.55, -2) == 7200
    assert abs(load - (5100 + 5040)) < 0.7 * 50  # the rounding of the printed 7,200


def test_the_two_legs_of_the_annex(job_for: JobFor) -> None:
    """Annex D, example D1(b): beside what D1(a) has, 6 A on both legs, 12 A on A, 10 and 8 A on B: 18 A and 24 A."""
    text = house(area="1500 sq ft", method="standard")
    for name, plate, space in (
        ("room-unit", "type air-conditioner; amps 6 A; volts 230 V", "5, 7"),
        ("other-unit", "type air-conditioner; amps 12 A; volts 115 V", "1"),
        ("dishwasher", "type dishwasher; amps 10 A; volts 120 V", "3"),
        ("disposer", "type disposal; amps 8 A; volts 115 V", "4"),
    ):
        text += f"circuit {name}-circuit\n  panel main-panel; use appliance; poles {space.count(',') + 1}; space {space}\n"
        text += f"load {name}\n  at kitchen; circuit {name}-circuit; {plate}\n"
    for name in ("kitchen-a", "kitchen-b", "washer"):  # not of the four: 12.5 A each
        text = text.replace(f"circuit {name}\n", f"circuit {name}\n  poles 1; space {2 if name == 'kitchen-a' else 8}\n")
    job = job_for(text)
    panel = job.graph.one("main-panel")
    assert leg_a_load(panel, job).within("A") - 12.5 == pytest.approx(99 - 78 - 3)
    assert leg_b_load(panel, job).within("A") - 25 == pytest.approx(104 - 78 - 2)
    assert leg_imbalance(panel, job).within("A") == pytest.approx(24 + 25 - 18 - 12.5)
