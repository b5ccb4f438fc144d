"""The demand tables and the motor table against worked examples of the code and against physics."""

from itertools import pairwise

import pytest

from planlint.book.csvfile import Row, read_rows
from planlint.book.tables import Tables
from planlint.data import data_folder
from planlint.quantities import Power, Voltage

TABLES = Tables()
MOTORS = read_rows((data_folder("rules") / "tables" / "motor-current.csv").read_text("utf-8"), "motor-current")


@pytest.mark.parametrize(("connected", "demand"), [(9000, 5100), (840 * 3 + 3000, 3882)])
def test_lighting_of_the_examples(connected: float, demand: float) -> None:
    """NFPA 70 Annex D, examples D1(a) and D4(b) (flylib.com): net lighting load."""
    assert TABLES.lighting_demand(Power.of(connected, "VA")) == Power.of(demand, "VA")


def test_one_range() -> None:
    """Annex D, example D1(a): a 12 kW range counts 8000 VA."""
    assert TABLES.range_demand(1) == Power.of(8000, "VA")


def test_a_small_range_in_column_b() -> None:
    """Annex D, example D4(b): an 8 kW range at 80 % counts 6400 VA."""
    assert Power.of(8, "kW") * TABLES.range_share(1, "b") == Power.of(6400, "VA")


def test_an_oven_in_column_a() -> None:
    """electrical-knowhow.com, household cooking, example 1: a 3 kW oven counts 2.4 kW."""
    assert Power.of(3, "kW") * TABLES.range_share(1, "a") == Power.of(2.4, "kW")


@pytest.mark.parametrize(("count", "rating", "demand"), [(24, 16, 46.8), (15, 15, 34.5), (10, 14, 27.5), (1, 14, 8.8)])
def test_larger_ranges(count: int, rating: float, demand: float) -> None:
    """Annex D, example D6 (24 of 16 kW); ecmweb.com quiz on the 2023 code (ten of 14 kW).

    high-tech-guide.com on demand factors (fifteen of 15 kW); sciemce.com, a textbook's question (one of 14 kW).
    """
    above = rating - TABLES.demand_limit("column-c-to").within("kW")
    worked = TABLES.range_demand(count) * (1 + above * TABLES.demand_limit("range-increase").amount)
    assert worked == Power.of(demand, "kW")


@pytest.mark.parametrize("column", ["a", "b"])
def test_shares_fall_with_the_number(column: str) -> None:
    """The more appliances, the less likely that all run together; no source needed."""
    shares = [TABLES.range_share(count, column).amount for count in range(1, 70)]
    assert shares == sorted(shares, reverse=True)


def test_column_c_rises_with_the_number() -> None:
    """No source needed; it rises through the formulas above 25 as well, to 40, and from 41 on."""
    for numbers in (range(1, 41), range(41, 100)):
        demands = [TABLES.range_demand(count).amount for count in numbers]
        assert all(later > earlier for earlier, later in pairwise(demands))


def test_dryers() -> None:
    """urban-wind.org, quoting Table 220.54: 9, 10 and 11 dryers 55, 50 and 47 %, then 1 % less for each one more."""
    assert [round(TABLES.dryer_share(count).within("%"), 9) for count in (9, 10, 11, 12, 20, 23)] == [55, 50, 47, 46, 38, 35]


@pytest.mark.parametrize("row", [pytest.param(row, id=f"{row['horsepower']} hp {row['volts']} V") for row in MOTORS])
def test_motors_take_the_power_they_give_and_more(row: Row) -> None:
    """746 W to the horsepower: efficiency times power factor lies between 0.24 (1/6 hp) and 0.68, and rises with the size."""
    volts = Voltage.of(float(row["volts"]), "V")
    horsepower = Power.read(f"{row['horsepower']} hp")
    taken = TABLES.motor_current(horsepower, volts).amount * volts.amount
    assert 0.23 < horsepower.amount / taken < 0.68


@pytest.mark.parametrize("horsepower", dict.fromkeys(row["horsepower"] for row in MOTORS))
def test_current_goes_down_as_voltage_goes_up(horsepower: str) -> None:
    """The same motor wound for another voltage takes the same power: twice the current at 115 V, 1.15 times at 200 V."""
    at = {
        volts: TABLES.motor_current(Power.read(f"{horsepower} hp"), Voltage.of(volts, "V")).amount
        for volts in (115, 200, 208, 230)
    }
    assert at[115] == pytest.approx(2 * at[230], abs=0.11)
    assert at[200] == pytest.approx(at[230] * 230 / 200, abs=0.06)
    assert at[208] == pytest.approx(at[230] * 230 / 208, rel=0.02)
