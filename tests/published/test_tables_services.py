"""The tables of services and grounding against each other and the rules they were drawn from."""

import pytest

from planlint.book.csvfile import Row, read_rows
from planlint.book.tables import Tables
from planlint.data import data_folder
from planlint.quantities import Current, Temperature
from planlint.trade import METALS, WireSize

TABLES = Tables()
COLUMN = Temperature.of(75, "C")


@pytest.mark.parametrize("metal", METALS)
@pytest.mark.parametrize("rating", [100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400])
def test_dwelling_sizes_follow_the_83_percent_rule(rating: int, metal: str) -> None:
    """NFPA 70 310.15(B)(7) of 2017: at least 83 % of the rating, in the 75 C column of the table of ampacities."""
    fitting = [size for size in TABLES.sizes_up(metal) if TABLES.ampacity(size, COLUMN) >= Current.of(0.83 * rating, "A")]
    assert TABLES.dwelling_size(Current.of(rating, "A"), metal) == fitting[0]


def rows_of(name: str) -> list[Row]:
    return read_rows((data_folder("rules") / "tables" / f"{name}.csv").read_text("utf-8"), name)


def test_bonding_jumpers_are_electrode_conductors_but_for_the_last_row() -> None:
    """ecmweb.com, 2011 code changes, page 6: Table 250.66, with 12.5 % above its end."""
    electrode, jumper = rows_of("electrode-conductor"), rows_of("bonding-jumper")
    columns = ("copper-to", "aluminum-to", "copper", "aluminum")
    assert [[row[column] for column in columns] for row in electrode[:-1]] == [
        [row[column] for column in columns] for row in jumper[:-1]
    ]
    assert jumper[-1]["copper"] == jumper[-1]["aluminum"] == "12.5 %"


@pytest.mark.parametrize("metal", METALS)
def test_the_share_joins_the_row_below_it(metal: str) -> None:
    """250.102(C)(1): one circular mil above the last row asks for no less than that row."""
    end = {"copper": 1_100_000, "aluminum": 1_750_000}[metal]
    assert TABLES.bonding_jumper(end + 1, metal, metal) >= TABLES.bonding_jumper(end, metal, metal)


@pytest.mark.parametrize(
    ("service", "jumper"),
    [(250_000, "2 AWG copper"), (750_000, "2/0 AWG copper"), (1_200_000, "3/0 AWG copper"), (1_500_000, "4/0 AWG copper")],
)
def test_jumpers_as_published(service: float, jumper: str) -> None:
    """thebuildingcodeforum.com thread 26483 (250 and 750 kcmil copper); 12.5 % of 1200 and 2 x 750 kcmil by hand: 150, 187.5."""
    assert str(TABLES.bonding_jumper(service, "copper", "copper")) == jumper


@pytest.mark.parametrize("name", ["electrode-conductor", "bonding-jumper"])
@pytest.mark.parametrize("metal", METALS)
def test_a_larger_service_never_asks_for_less(name: str, metal: str) -> None:
    """No source needed."""
    look_up = {"electrode-conductor": TABLES.electrode_conductor, "bonding-jumper": TABLES.bonding_jumper}[name]
    found = [look_up(mils, metal, metal) for mils in range(4_000, 3_000_000, 4_000)]
    assert found == sorted(found)


@pytest.mark.parametrize("metal", METALS)
def test_a_larger_breaker_never_asks_for_a_smaller_ground(metal: str) -> None:
    """No source needed."""
    found = [TABLES.equipment_ground(rating, metal) for rating in TABLES.standard_ratings(2023)]
    assert found == sorted(found)


@pytest.mark.parametrize("size", ["14", "12", "10", "8", "6", "4", "2"])
@pytest.mark.parametrize("type", ["NM-B", "UF-B"])
def test_grounds_in_cables_are_large_enough_for_the_breaker_on_them(size: str, type: str) -> None:
    """Table 250.122 for the largest breaker that 60 C ampacity and 240.4(B) allow on the cable."""
    wire = WireSize(size, "copper")
    ampacity = TABLES.ampacity(wire, Temperature.of(60, "C"))
    breaker = next(rating for rating in TABLES.standard_ratings(2020) if rating >= ampacity)
    assert TABLES.cable_ground(type, wire) >= TABLES.equipment_ground(breaker, "copper")


def test_a_cable_as_its_maker_describes_it() -> None:
    """southwire.com, product data of 4/3 NM-B: one ground of 8 AWG."""
    assert str(TABLES.cable_ground("NM-B", WireSize("4", "copper"))) == "8 AWG copper"


def test_other_tables_are_drawn_up_by_standard_ratings() -> None:
    """Tables 310.12 and 250.122 against 240.6(A): the dwelling ratings are all standard ones from 100 to 400 A."""
    standard = [rating.amount for rating in TABLES.standard_ratings(2020)]
    assert [float(row["rating"]) for row in rows_of("dwelling-service")] == [each for each in standard if 100 <= each <= 400]
    assert {float(row["rating"]) for row in rows_of("equipment-ground")} <= set(standard)
