"""The tables of wires against physics and against each other. Each check names the source it rests on."""

import math
from itertools import pairwise

import pytest

from planlint.book.csvfile import Row, read_rows
from planlint.book.tables import OutOfTable, Tables
from planlint.data import data_folder
from planlint.quantities import Temperature
from planlint.trade import AWG_SIZES, METALS, WireSize

TABLES = Tables()


def rows_of(name: str) -> list[Row]:
    """The rows of a table as printed, so that a check can see how many figures a cell has."""
    return read_rows((data_folder("rules") / "tables" / f"{name}.csv").read_text("utf-8"), name)


def named(rows: list[Row], *columns: str) -> list[object]:
    return [pytest.param(row, id=" ".join(row[column] for column in columns)) for row in rows]


def half_unit(cell: str) -> float:
    """Half of the last place printed: 0.067 may stand for 0.0665 to 0.0675."""
    return 0.5 * 10.0 ** -len(cell.partition(".")[2])


PROPERTIES = rows_of("conductor-properties")


@pytest.mark.parametrize("row", named(rows_of("conductor-area"), "size", "insulation"))
def test_area_of_an_insulated_wire_is_that_of_its_diameter(row: Row) -> None:
    """Chapter 9 Table 5 by the area of a circle; the table rounds to four places."""
    assert float(row["area"]) == pytest.approx(math.pi / 4 * float(row["diameter"]) ** 2, abs=0.0001)


@pytest.mark.parametrize("row", named(PROPERTIES, "size", "stranding"))
def test_area_of_a_bare_wire_is_that_of_its_diameter(row: Row) -> None:
    """Chapter 9 Table 8 by the area of a circle; the table has three places and rounds 12 AWG stranded (0.0066) down."""
    assert float(row["area"]) == pytest.approx(math.pi / 4 * float(row["diameter"]) ** 2, abs=0.00085)


@pytest.mark.parametrize("size", AWG_SIZES)
def test_circular_mils_by_the_gauge(size: str) -> None:
    """ASTM B258: d = 0.005 in x 92^((36 - n) / 39), to 0.0001 in, its square in mils to 10 (from 1/0 on to 100).

    That the rounding goes this way was found by looking; the standard gives the formula.
    """
    number = {"1/0": 0, "2/0": -1, "3/0": -2, "4/0": -3}.get(size)
    number = int(size) if number is None else number
    mils = round(5 * 92 ** ((36 - number) / 39), 1)
    step = 10 if number > 0 else 100
    table = TABLES.circular_mils(WireSize(size, "copper"))
    assert table == pytest.approx((5 * 92 ** ((36 - number) / 39)) ** 2, rel=0.003 if size in ("18", "16") else 0.001)
    assert table == round(mils**2 / step) * step


@pytest.mark.parametrize("row", named([row for row in PROPERTIES if row["size"] not in AWG_SIZES], "size"))
def test_kcmil_are_thousands_of_circular_mils(row: Row) -> None:
    """By the definition of the unit."""
    assert float(row["circular-mils"]) == 1000 * float(row["size"])


@pytest.mark.parametrize("row", named([row for row in PROPERTIES if row["strand-diameter"]], "size"))
def test_strands_make_up_the_circular_mils(row: Row) -> None:
    """Number of strands times the square of their diameter in mils, the diameter within its printed place."""
    low, high = (1000 * (float(row["strand-diameter"]) + sign * half_unit(row["strand-diameter"])) for sign in (-1, 1))
    strands = int(row["strands"])
    assert strands * low**2 * 0.995 <= float(row["circular-mils"]) <= strands * high**2 * 1.005


COPPER, ALUMINUM = 10.371, 10.371 / 0.61
WARM = {"copper": 1 + 0.00393 * (75 - 20), "aluminum": 1 + 0.00403 * (75 - 20)}


@pytest.mark.parametrize("metal", METALS)
@pytest.mark.parametrize("row", named(PROPERTIES, "size", "stranding"))
def test_resistance_from_resistivity(row: Row, metal: str) -> None:
    """Annealed copper 10.371 ohm-circular-mil per foot at 20 C (100 % IACS), 0.00393 per K; aluminum of 61 % IACS, 0.00403.

    Stranded wires are 2 % longer for their lay (ASTM B8). Constants of IEC 60028 and ASTM B230; the largest difference is 0.5 %.
    """
    resistivity = {"copper": COPPER, "aluminum": ALUMINUM}[metal] * WARM[metal]
    stranded = row["stranding"] == "stranded"
    worked = resistivity * (1.02 if stranded else 1) / float(row["circular-mils"]) * 1000
    assert TABLES.dc_resistance(WireSize(row["size"], metal), stranded) == pytest.approx(worked, rel=0.0055)


@pytest.mark.parametrize("row", named(rows_of("impedance"), "size", "metal", "conduit"))
def test_effective_impedance(row: Row) -> None:
    """Chapter 9 Table 9, note 2: Z = R cos + X sin at a power factor of 0.85, each figure within its printed place."""
    sine = math.sqrt(1 - 0.85**2)
    worked = 0.85 * float(row["resistance"]) + sine * float(row["reactance"])
    room = 0.85 * half_unit(row["resistance"]) + sine * half_unit(row["reactance"]) + half_unit(row["impedance"])
    assert abs(float(row["impedance"]) - worked) <= room + 1e-12


@pytest.mark.parametrize("row", named([row for row in rows_of("impedance") if row["conduit"] == "pvc"], "size", "metal"))
def test_resistance_to_alternating_current_is_near_that_to_direct(row: Row) -> None:
    """Table 9 in plastic conduit against Table 8: skin effect is below 2 % up to 500 kcmil and below 20 % up to 1000 kcmil."""
    direct = TABLES.dc_resistance(WireSize(row["size"], row["metal"]))
    shown, room = float(row["resistance"]), half_unit(row["resistance"])
    large = row["size"] in ("600", "750", "1000")
    assert direct * 0.96 <= shown + room
    assert shown - room <= direct * (1.20 if large else 1.03)


@pytest.mark.parametrize("size", ["14", "12", "10", "8"])
@pytest.mark.parametrize("metal", METALS)
def test_fault_constants_of_small_wires_are_one_over_their_resistance(size: str, metal: str) -> None:
    """The constant is 1 / impedance of a foot; of small wires that is their resistance at 25 C, from the same resistivity."""
    resistivity = {"copper": COPPER * (1 + 0.00393 * 5), "aluminum": ALUMINUM * (1 + 0.00393 * 5)}[metal]
    wire = WireSize(size, metal)
    assert TABLES.fault_constant(wire, magnetic=False) == pytest.approx(TABLES.circular_mils(wire) / resistivity, rel=0.004)


@pytest.mark.parametrize("metal", METALS)
@pytest.mark.parametrize("magnetic", [True, False])
def test_fault_constants_rise_and_stay_below_one_over_resistance(metal: str, magnetic: bool) -> None:
    """More metal never lets less through, and reactance only takes away; steel takes more than other conduit."""
    known: list[float] = []
    for size in TABLES.sizes_up(metal):
        try:
            constant = TABLES.fault_constant(size, magnetic)
        except OutOfTable:
            continue
        resistivity = {"copper": COPPER, "aluminum": ALUMINUM}[metal] * (1 + 0.00393 * 5)
        assert constant <= TABLES.circular_mils(size) / resistivity * 1.004
        known.append(constant)
    assert len(known) > 15
    assert all(small < large for small, large in pairwise(known))


@pytest.mark.parametrize("column", [60, 75, 90])
@pytest.mark.parametrize("row", named(rows_of("ambient-correction"), "to"))
def test_ambient_factor_by_the_law_of_heat(row: Row, column: int) -> None:
    """310.15(B): I' = I sqrt((Tc - Ta) / (Tc - 30)), heat going with the square of the current; at the upper end of the band."""
    ambient = float(row["to"])
    temperature = Temperature.of(column, "C")
    if ambient >= column:
        with pytest.raises(OutOfTable):
            TABLES.ambient_factor(Temperature.of(ambient, "C"), temperature)
        return
    worked = math.sqrt((column - ambient) / (column - 30))
    assert TABLES.ambient_factor(Temperature.of(ambient, "C"), temperature).amount == pytest.approx(worked, abs=0.00501)


@pytest.mark.parametrize("metal", METALS)
def test_ampacity_rises_with_size_and_temperature(metal: str) -> None:
    """As the heat a wire gives off does; no source beside physics."""
    columns = [Temperature.of(each, "C") for each in (60, 75, 90)]
    table = [[TABLES.ampacity(size, column).amount for column in columns] for size in TABLES.sizes_up(metal)]
    for cells in table:
        assert all(cool < warm for cool, warm in pairwise(cells))
    for smaller, larger in pairwise(table):
        assert all(small < large for small, large in zip(smaller, larger, strict=True))


@pytest.mark.parametrize("metal", METALS)
def test_columns_are_as_far_apart_as_heat_would_have_them(metal: str) -> None:
    """The same law between two columns at 30 C: 90 to 75 C sqrt(60 / 45) = 1.155; being rounded to 5 A it strays by 8 %."""
    for size in TABLES.sizes_up(metal):
        warm, cool = (TABLES.ampacity(size, Temperature.of(each, "C")).amount for each in (90, 75))
        assert warm / cool == pytest.approx(math.sqrt(60 / 45), rel=0.085)


@pytest.mark.parametrize(
    ("size", "metal", "amperes"),
    [("14", "copper", 15), ("12", "copper", 20), ("10", "copper", 30), ("12", "aluminum", 15), ("10", "aluminum", 25)],
)
def test_limits_of_small_wires_are_their_sixty_degree_ampacity(size: str, metal: str, amperes: int) -> None:
    """240.4(D) as quoted by alanwire.com, allowable ampacities; since 2011 the 60 C column says the same."""
    wire = WireSize(size, metal)
    assert TABLES.small_conductor_limit(wire, 2020).amount == amperes
    assert TABLES.ampacity(wire, Temperature.of(60, "C")).amount == amperes
