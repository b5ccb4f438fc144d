"""The shipped tables against other copies of them, taken over figure by figure from the sources that are named."""

import pytest

from planlint.book.tables import OutOfTable, Tables
from planlint.quantities import Current, Power, Temperature, Voltage, read_number
from planlint.trade import TradeSize, WireSize

TABLES = Tables()


def lines(block: str) -> list[list[str]]:
    return [line.split() for line in block.strip().splitlines()]


def row_id(value: object) -> str | None:
    return value[0] if isinstance(value, list) else None


AMPACITIES = """
14 15 20 25 - - -
12 20 25 30 15 20 25
10 30 35 40 25 30 35
8 40 50 55 35 40 45
6 55 65 75 40 50 55
4 70 85 95 55 65 75
3 85 100 115 65 75 85
2 95 115 130 75 90 100
1 110 130 145 85 100 115
1/0 125 150 170 100 120 135
2/0 145 175 195 115 135 150
3/0 165 200 225 130 155 175
4/0 195 230 260 150 180 205
250 215 255 290 170 205 230
300 240 285 320 195 230 260
350 260 310 350 210 250 280
400 280 335 380 225 270 305
500 320 380 430 260 310 350
"""


@pytest.mark.parametrize("row", lines(AMPACITIES), ids=row_id)
def test_ampacity(row: list[str]) -> None:
    """scribd.com/document/602627451: Table 310.15(B)(16), copper 60, 75, 90 C, aluminum 60, 75, 90 C."""
    cells = iter(row[1:])
    for metal in ("copper", "aluminum"):
        for column in (60, 75, 90):
            printed = next(cells)
            if printed == "-":
                with pytest.raises(OutOfTable):
                    TABLES.ampacity(WireSize(row[0], metal), Temperature.of(column, "C"))
            else:
                assert TABLES.ampacity(WireSize(row[0], metal), Temperature.of(column, "C")).amount == float(printed)


GROUNDS = """
15 14 12
20 12 10
60 10 8
100 8 6
200 6 4
300 4 2
400 3 1
500 2 1/0
600 1 2/0
800 1/0 3/0
1000 2/0 4/0
1200 3/0 250
1600 4/0 350
2000 250 400
2500 350 600
3000 400 600
4000 500 750
5000 700 1250
6000 800 1250
"""


@pytest.mark.parametrize("row", lines(GROUNDS), ids=row_id)
def test_equipment_ground(row: list[str]) -> None:
    """brunsengineering.com: Table 250.122, copper, aluminum. One ampere more asks for the next row."""
    for metal, size in zip(("copper", "aluminum"), row[1:], strict=True):
        assert TABLES.equipment_ground(Current.of(float(row[0]), "A"), metal).size == size
        if row[0] != "6000":
            assert TABLES.equipment_ground(Current.of(float(row[0]) + 1, "A"), metal).size != size or size in ("600", "1250")


@pytest.mark.parametrize(
    ("rating", "size"),
    [(30, "10"), (60, "10"), (70, "8"), (110, "6"), (200, "6"), (225, "4"), (350, "3"), (450, "2"), (600, "1"), (700, "1/0")],
)
def test_equipment_ground_between_rows(rating: int, size: str) -> None:
    """mikeholt.com newsletter 212: the standard ratings between the rows of Table 250.122, copper."""
    assert TABLES.equipment_ground(Current.of(rating, "A"), "copper").size == size


ELECTRODES = [
    (("14", "2"), ("12", "1/0"), "8", "6"),
    (("1", "1/0"), ("2/0", "3/0"), "6", "4"),
    (("2/0", "3/0"), ("4/0", "250"), "4", "2"),
    (("250", "350"), ("300", "500"), "2", "1/0"),
    (("400", "600"), ("600", "900"), "1/0", "3/0"),
    (("700", "1000"), ("1000", "1750"), "2/0", "4/0"),
    (("1250", "2000"), ("2000", "2000"), "3/0", "250"),
]


@pytest.mark.parametrize(("copper", "aluminum", "to_copper", "to_aluminum"), ELECTRODES)
def test_electrode_conductor(copper: tuple[str, str], aluminum: tuple[str, str], to_copper: str, to_aluminum: str) -> None:
    """voltagelab.com and buckworks.net: Table 250.66; the first and last size of each row that is made.

    A 1/0 aluminum service belongs to the first row (one further page prints 1 AWG there).
    """
    for metal, ends in (("copper", copper), ("aluminum", aluminum)):
        for size in ends:
            mils = TABLES.circular_mils(WireSize(size, metal))
            assert TABLES.electrode_conductor(mils, metal, "copper").size == to_copper
            assert TABLES.electrode_conductor(mils, metal, "aluminum").size == to_aluminum


COVERS = """
yard 24 6 18 12 6
concrete-in-trench 18 6 12 6 6
building 0 0 0 0 0
patio-slab 18 4 4 6 6
street 24 24 24 24 24
driveway 18 18 18 12 18
"""


@pytest.mark.parametrize("row", lines(COVERS), ids=row_id)
def test_cover(row: list[str]) -> None:
    """up.codes, underground installations: Table 300.5, columns 1 to 5; slab, columns 4 and 5: those of direct burial."""
    methods = ("direct-burial", "rigid-metal", "nonmetallic", "gfci-branch", "low-voltage")
    for method, inches in zip(methods, row[1:], strict=True):
        assert TABLES.cover(method, row[0]).within("in") == float(inches)


MOTORS = """
1/6 4.4 2.5 2.4 2.2
1/4 5.8 3.3 3.2 2.9
1/3 7.2 4.1 4.0 3.6
1/2 9.8 5.6 5.4 4.9
3/4 13.8 7.9 7.6 6.9
1 16 9.2 8.8 8.0
1-1/2 20 11.5 11.0 10
2 24 13.8 13.2 12
3 34 19.6 18.7 17
5 56 32.2 30.8 28
7-1/2 80 46.0 44.0 40
10 100 57.5 55.0 50
"""


@pytest.mark.parametrize("row", lines(MOTORS), ids=row_id)
def test_motor_current(row: list[str]) -> None:
    """paigewire.com: Table 430-148 of the 1999 code, 115, 200, 208, 230 V, for systems of 110 to 120 and 220 to 240 V."""
    horsepower = Power.of(read_number(row[0]), "hp")
    for volts, printed in zip(((110, 115, 120), (200,), (208,), (220, 230, 240)), row[1:], strict=True):
        for each in volts:
            assert TABLES.motor_current(horsepower, Voltage.of(each, "V")).amount == float(printed)


def test_standard_ratings() -> None:
    """ecmweb.com, code Q&A on fuse and breaker ratings (2017): fuses of 1, 3, 6, 10 and 601 A beside those of breakers."""
    breakers = {rating.amount for rating in TABLES.standard_ratings(2017)}
    fuses = {rating.amount for rating in TABLES.standard_ratings(2017, "fuse")}
    assert fuses - breakers == {1, 3, 6, 10, 601}


@pytest.mark.parametrize(
    ("type", "spacing", "first"),
    [("AC", 4.5, 12), ("EMT", 10, 36), ("ENT", 3, 36), ("FMC", 4.5, 12), ("NM-B", 4.5, 12), ("UF-B", 4.5, 12)],
)
def test_supports(type: str, spacing: float, first: float) -> None:
    """up.codes: Table E3802.1 of the IRC, feet between supports and inches from a box."""
    assert TABLES.support_spacing(type).within("ft") == spacing
    assert TABLES.first_support(type).within("in") == pytest.approx(first)


def test_supports_of_metal_clad_cable() -> None:
    """ecmweb.com, securing rules for metal-clad cable (330.30): 6 ft, and 12 in from a box for up to four 10 AWG."""
    assert TABLES.support_spacing("MC").within("ft") == 6
    assert TABLES.first_support("MC").within("in") == 12


def test_supports_by_size() -> None:
    """constructionmanuals.tpub.com/14027, table 5-5 (threaded steel); tobycarveryshoecharms.com (PVC 1/2 to 1, 2 and 6)."""
    threaded = {"1/2": 10, "3/4": 10, "1": 12, "1-1/4": 14, "1-1/2": 14, "2": 16, "2-1/2": 16, "3": 20, "6": 20}
    for size, feet in threaded.items():
        assert TABLES.support_spacing("RMC", TradeSize(read_number(size)), threaded=True).within("ft") == feet
    for size, feet in {"1/2": 3, "1": 3, "2": 5, "6": 8}.items():
        assert TABLES.support_spacing("PVC-40", TradeSize(read_number(size))).within("ft") == feet


@pytest.mark.parametrize(
    ("first", "last", "percent"), [(4, 6, 80), (7, 9, 70), (10, 20, 50), (21, 30, 45), (31, 40, 40), (41, 99, 35)]
)
def test_count_factor(first: int, last: int, percent: int) -> None:
    """buildmyowncabin.com and voltagelab.com: Table 310.15(B)(3)(a)."""
    for count in (first, last):
        assert TABLES.count_factor(count).within("%") == pytest.approx(percent)


IMPEDANCES = """
14 0.058 0.073 3.1 3.1 3.1 - - -
12 0.054 0.068 2 2 2 3.2 3.2 3.2
10 0.05 0.063 1.2 1.2 1.2 2 2 2
8 0.052 0.065 0.78 0.78 0.78 1.3 1.3 1.3
6 0.051 0.064 0.49 0.49 0.49 0.81 0.81 0.81
4 0.048 0.06 0.31 0.31 0.31 0.51 0.51 0.51
3 0.047 0.059 0.25 0.25 0.25 0.4 0.41 0.4
2 0.045 0.057 0.19 0.2 0.2 0.32 0.32 0.32
1 0.046 0.057 0.15 0.16 0.16 0.25 0.26 0.25
1/0 0.044 0.055 0.12 0.13 0.12 0.2 0.21 0.2
2/0 0.043 0.054 0.1 0.1 0.1 0.16 0.16 0.16
3/0 0.042 0.052 0.077 0.082 0.079 0.13 0.13 0.13
4/0 0.041 0.051 0.062 0.067 0.063 0.1 0.11 0.1
250 0.041 0.052 0.052 0.057 0.054 0.085 0.09 0.086
"""


@pytest.mark.parametrize("row", lines(IMPEDANCES), ids=row_id)
def test_resistance_and_reactance(row: list[str]) -> None:
    """brunsengineering.com, table 9: reactance in plastic and aluminum, in steel; resistance in plastic, aluminum, steel.

    For 1/0 AWG copper in aluminum conduit that page prints 0.12; 0.13 stands here, as on the other pages (head of the file).
    """
    reactance = {"pvc": row[1], "aluminum": row[1], "steel": row[2]}
    cells = iter(row[3:])
    for metal in ("copper", "aluminum"):
        for conduit in ("pvc", "aluminum", "steel"):
            resistance = next(cells)
            if resistance != "-":
                found = TABLES.impedance(WireSize(row[0], metal), conduit)
                assert found[:2] == (float(resistance), float(reactance[conduit]))


@pytest.mark.parametrize(
    ("name", "dry", "wet"),
    [("THHN", 90, None), ("THWN", 75, 75), ("THWN-2", 90, 90), ("XHHW", 90, 75), ("XHHW-2", 90, 90), ("THHW", 90, 75)],
)
def test_insulations(name: str, dry: float, wet: float | None) -> None:
    """forums.mikeholt.com threads 111616 (XHHW, XHHW-2), 146183 (THHN, THWN, THWN-2), 2568838 (THHW)."""
    found = TABLES.insulation(name)
    assert found.dry == Temperature.of(dry, "C")
    assert (found.wet == Temperature.of(wet, "C")) if wet else found.wet is None


@pytest.mark.parametrize(("volts", "feet"), [(120, (3, 3, 3)), (150, (3, 3, 3)), (151, (3, 3.5, 4)), (600, (3, 3.5, 4))])
def test_working_depth(volts: float, feet: tuple[float, ...]) -> None:
    """casetext.com: WAC 296-24-95703, table S-1, 0 to 150 and 151 to 600 V to ground, conditions 1 to 3."""
    assert tuple(TABLES.working_depth(volts, condition).within("ft") for condition in (1, 2, 3)) == feet


CODE_LETTERS = """
C 3.55 3.99
D 4.0 4.49
G 5.6 6.29
J 7.1 7.99
L 9.0 9.99
M 10.0 11.19
U 20.0 22.39
"""


@pytest.mark.parametrize("row", lines(CODE_LETTERS), ids=row_id)
def test_code_letters(row: list[str]) -> None:
    """engineeringtoolbox.com, locked rotor code: kVA for each horsepower."""
    low, high = TABLES.locked_rotor(row[0])
    assert high is not None
    assert (low.within("kVA"), high.within("kVA")) == (float(row[1]), float(row[2]))
