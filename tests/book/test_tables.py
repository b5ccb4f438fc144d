"""The look-ups: what each gives inside its table and what it says outside.

The figures are those of the tables; they are held against sources outside the project in tests/published.
"""

from collections.abc import Callable
from itertools import pairwise

import pytest

from planlint.book.csvfile import read_rows
from planlint.book.layouts import LAYOUTS
from planlint.book.records import EDITIONS
from planlint.book.tables import OutOfTable, Tables
from planlint.data import data_folder
from planlint.quantities import Current, Length, Percent, Power, Temperature, Voltage
from planlint.trade import INSULATIONS, METALS, Dimensions, TradeSize, WireSize

FOLDER = data_folder("rules") / "tables"
HEAD = ("Standard:", "Table:", "Editions:", "Units:", "Read:", "From memory:")


def wire(text: str) -> WireSize:
    return WireSize.read(text)


def trade(text: str) -> TradeSize:
    return TradeSize.read(text)


def celsius(number: float) -> Temperature:
    return Temperature.of(number, "C")


def amperes(number: float) -> Current:
    return Current.of(number, "A")


@pytest.fixture(scope="module")
def tables() -> Tables:
    return Tables()


def test_every_file_is_a_known_table_and_the_other_way_round() -> None:
    assert {path.name.removesuffix(".csv") for path in FOLDER.iterdir()} == set(LAYOUTS)


@pytest.mark.parametrize("name", LAYOUTS)
def test_a_file_says_where_its_figures_come_from(name: str) -> None:
    head = [line for line in (FOLDER / f"{name}.csv").read_text("utf-8").splitlines() if line.startswith("#")]
    for part in HEAD:
        assert any(line.startswith(f"# {part} ") for line in head), part


@pytest.mark.parametrize("name", LAYOUTS)
def test_a_file_keeps_to_its_layout(name: str) -> None:
    layout = LAYOUTS[name]
    rows = read_rows((FOLDER / f"{name}.csv").read_text("utf-8"), name)
    keys = [tuple(row[column] for column in layout.key) for row in rows]
    assert len(set(keys)) == len(keys)
    for row in rows:
        assert tuple(row) == (*layout.columns, "status")
        assert row["status"] in ("verified", "memory")
        for column, kind in layout.columns.items():
            if row[column]:
                kind(row[column])


def test_sources_follow_the_numbers_of_the_edition(tables: Tables) -> None:
    assert [tables.source("ampacity", edition) for edition in EDITIONS] == [
        "NFPA 70 Table 310.15(B)(16)",
        "NFPA 70 Table 310.16",
        "NFPA 70 Table 310.16",
    ]
    assert tables.source("burial-cover", 2023) == "NFPA 70 Table 300.5(A)"
    with pytest.raises(ValueError, match="Did you mean 'ampacity'"):
        tables.source("ampacty", 2020)
    with pytest.raises(ValueError, match="not of 2026"):
        tables.source("ampacity", 2026)


def test_ampacity(tables: Tables) -> None:
    assert tables.ampacity(wire("4/0 AWG aluminum"), celsius(75)) == amperes(180)
    assert tables.ampacity(wire("6 AWG copper"), celsius(60)) == amperes(55)
    assert tables.ampacity(wire("6 AWG copper"), Temperature.read("194 F")) == amperes(75)


@pytest.mark.parametrize("metal", METALS)
def test_sizes_go_up(tables: Tables, metal: str) -> None:
    sizes = tables.sizes_up(metal)
    assert str(sizes[0]) == {"copper": "14 AWG copper", "aluminum": "12 AWG aluminum"}[metal]
    assert all(small < large for small, large in pairwise(sizes))


@pytest.mark.parametrize(
    ("ambient", "factor"),
    [(-20, 1.20), (10, 1.20), (10.1, 1.15), (30, 1.00), (35, 0.94), (35.2, 0.88), (45, 0.82), (45.1, 0.75), (70, 0.33)],
)
def test_ambient_factor_between_two_rows_takes_the_warmer(tables: Tables, ambient: float, factor: float) -> None:
    assert tables.ambient_factor(celsius(ambient), celsius(75)) == Percent(factor)


def test_ambient_factor_takes_the_bands_of_fahrenheit_whole(tables: Tables) -> None:
    assert tables.ambient_factor(Temperature.read("113 F"), celsius(90)) == Percent(0.87)
    assert tables.ambient_factor(Temperature.read("114 F"), celsius(90)) == Percent(0.82)


def test_count_factor(tables: Tables) -> None:
    wanted = {1: 100, 3: 100, 4: 80, 6: 80, 7: 70, 9: 70, 10: 50, 20: 50, 21: 45, 30: 45, 31: 40, 40: 40, 41: 35, 200: 35}
    assert {count: round(tables.count_factor(count).within("%"), 9) for count in wanted} == wanted


def test_dwelling_size(tables: Tables) -> None:
    assert str(tables.dwelling_size(amperes(200), "aluminum")) == "4/0 AWG aluminum"
    assert str(tables.dwelling_size(amperes(320), "copper")) == "350 kcmil copper"


def test_equipment_ground(tables: Tables) -> None:
    assert str(tables.equipment_ground(amperes(20), "copper")) == "12 AWG copper"
    assert str(tables.equipment_ground(amperes(60), "copper")) == "10 AWG copper"
    assert str(tables.equipment_ground(amperes(61), "copper")) == "8 AWG copper"
    assert str(tables.equipment_ground(amperes(200), "aluminum")) == "4 AWG aluminum"


@pytest.mark.parametrize(
    ("service", "metal", "least"),
    [
        ("2 AWG copper", "copper", "8 AWG copper"),
        ("1 AWG copper", "copper", "6 AWG copper"),
        ("3/0 AWG copper", "copper", "4 AWG copper"),
        ("250 kcmil copper", "copper", "2 AWG copper"),
        ("4/0 AWG aluminum", "copper", "4 AWG copper"),
        ("3/0 AWG aluminum", "aluminum", "4 AWG aluminum"),
        ("250 kcmil aluminum", "aluminum", "2 AWG aluminum"),
    ],
)
def test_electrode_conductor(tables: Tables, service: str, metal: str, least: str) -> None:
    hot = wire(service)
    assert str(tables.electrode_conductor(tables.circular_mils(hot), hot.metal, metal)) == least


def test_electrode_conductor_of_summed_sets(tables: Tables) -> None:
    two_of_4_awg = 2 * tables.circular_mils(wire("4 AWG copper"))  # 83,480: over 2 AWG, below 1 AWG
    assert str(tables.electrode_conductor(two_of_4_awg, "copper", "copper")) == "6 AWG copper"
    assert str(tables.electrode_conductor(1_100_000, "copper", "copper")) == "2/0 AWG copper"
    assert str(tables.electrode_conductor(1_100_001, "copper", "copper")) == "3/0 AWG copper"


def test_bonding_jumper_above_the_table_is_a_share(tables: Tables) -> None:
    assert str(tables.bonding_jumper(500_000, "copper", "copper")) == "1/0 AWG copper"
    assert str(tables.bonding_jumper(1_200_000, "copper", "copper")) == "3/0 AWG copper"
    assert str(tables.bonding_jumper(2_000_000, "copper", "copper")) == "250 kcmil copper"
    with pytest.raises(OutOfTable, match=r"Table 250.102\(C\)\(1\) has no aluminum jumper for copper wires of 1200000"):
        tables.bonding_jumper(1_200_000, "copper", "aluminum")


def test_standard_ratings(tables: Tables) -> None:
    of_2020, of_2023 = tables.standard_ratings(2020), tables.standard_ratings(2023)
    assert str(of_2020[0]) == "15 A"
    assert [str(rating) for rating in of_2023[:2]] == ["10 A", "15 A"]
    assert of_2023[1:] == of_2020
    assert all(low < high for low, high in pairwise(of_2020))
    fuses = tables.standard_ratings(2023, "fuse")
    assert [str(rating) for rating in fuses[:5]] == ["1 A", "3 A", "6 A", "10 A", "15 A"]
    assert amperes(601) in fuses
    assert amperes(601) not in of_2023


def test_small_conductor_limit(tables: Tables) -> None:
    assert tables.small_conductor_limit(wire("12 AWG copper"), 2017) == amperes(20)
    assert tables.small_conductor_limit(wire("12 AWG aluminum"), 2017) == amperes(15)


def test_cover(tables: Tables) -> None:
    assert tables.cover("nonmetallic", "yard") == Length.read("18 in")
    assert tables.cover("direct-burial", "yard") == Length.read("24 in")
    assert tables.cover("gfci-branch", "driveway") == Length.read("12 in")
    assert tables.cover("rigid-metal", "street") == Length.read("2 ft")
    assert tables.cover("nonmetallic", "building") == Length.read("0 in")
    assert tables.cover("nonmetallic", "concrete-in-trench") == Length.read("12 in")
    assert tables.concrete("rock") == Length.read("2 in")


def test_fill(tables: Tables) -> None:
    assert [round(tables.fill_limit(count).within("%"), 9) for count in (1, 2, 3, 40)] == [53, 31, 40, 40]
    assert tables.nipple_fill() == Percent(0.6)


def test_raceways(tables: Tables) -> None:
    assert tables.inside_diameter("PVC-40", trade("2 in")) == Length.read("2.047 in")
    assert tables.inside_diameter("HDPE", trade("2 in")) == Length.read("2.047 in")
    assert (
        tables.outside_diameter("PVC-40", trade("2 in"))
        == tables.outside_diameter("RMC", trade("2 in"))
        == Length.read("2.375 in")
    )
    assert tables.outside_diameter("EMT", trade("2 in")) == Length.read("2.197 in")
    assert tables.inside_area("EMT", trade("1.5 in")).within("sq in") == pytest.approx(2.0358, abs=1e-4)
    sizes = tables.raceway_sizes("EMT")
    assert [size.name for size in sizes[:3]] == ["1/2", "3/4", "1"]
    assert sizes == tuple(sorted(sizes))
    assert tables.bend_radius(trade("2 in"), one_shot=True) == Length.read("9.5 in")
    assert tables.bend_radius(trade("2 in"), one_shot=False) == Length.read("12 in")


def test_supports(tables: Tables) -> None:
    assert tables.support_spacing("PVC-80", trade("1 in")) == Length.read("3 ft")
    assert tables.support_spacing("PVC-80", trade("1-1/4 in")) == Length.read("5 ft")
    assert tables.support_spacing("RMC", trade("1 in")) == Length.read("10 ft")
    assert tables.support_spacing("RMC", trade("1 in"), threaded=True) == Length.read("12 ft")
    assert tables.support_spacing("NM-B") == Length.read("4 ft 6 in")
    assert tables.first_support("NM-B") == Length.read("12 in")
    assert tables.first_support("PVC-40") == Length.read("3 ft")


@pytest.mark.parametrize("name", INSULATIONS)
def test_every_insulation_of_a_plan_has_its_temperature_and_its_room(tables: Tables, name: str) -> None:
    insulation = tables.insulation(name)
    assert insulation.wet_rated == (insulation.wet is not None)
    assert insulation.wet is None or insulation.wet <= insulation.dry
    for size in tables.sizes_up("copper"):
        bare = tables.conductor_diameter(size, "bare").within("in")
        assert tables.conductor_diameter(size, name).within("in") >= bare


def test_room_of_wires(tables: Tables) -> None:
    assert tables.conductor_area(wire("12 AWG copper"), "THWN-2").within("sq in") == pytest.approx(0.0133)
    assert tables.conductor_area(wire("6 AWG copper"), "bare").within("sq in") == pytest.approx(0.027)
    without = tables.conductor_area(wire("2 AWG copper"), "USE-2")
    assert without < tables.conductor_area(wire("2 AWG copper"), "RHW-2")


def test_resistance(tables: Tables) -> None:
    assert tables.dc_resistance(wire("4/0 AWG aluminum")) == 0.100
    assert tables.dc_resistance(wire("12 AWG copper")) == 1.98
    assert tables.dc_resistance(wire("12 AWG copper"), stranded=False) == 1.93
    assert tables.dc_resistance(wire("16 AWG copper")) == 4.99
    assert tables.impedance(wire("2 AWG copper"), "steel") == (0.20, 0.057, 0.20)
    assert tables.impedance(wire("2 AWG aluminum"), "pvc") == (0.32, 0.045, 0.30)
    assert tables.fault_constant(wire("2 AWG copper"), magnetic=True) == 5907
    assert tables.fault_constant(wire("2 AWG copper"), magnetic=False) == 6044


def test_working_space(tables: Tables) -> None:
    assert [str(tables.working_depth(120, condition)) for condition in (1, 2, 3)] == ["3 ft", "3 ft", "3 ft"]
    assert [str(tables.working_depth(277, condition)) for condition in (1, 2, 3)] == ["3 ft", "3.5 ft", "4 ft"]
    assert tables.working_depth(150, 3) < tables.working_depth(151, 3)
    assert str(tables.working_width()) == "30 in"
    assert str(tables.working_height()) == "6.5 ft"


def test_cable_grounds(tables: Tables) -> None:
    assert str(tables.cable_ground("NM-B", wire("6 AWG copper"))) == "10 AWG copper"
    assert str(tables.cable_ground("UF-B", wire("12 AWG copper"))) == "12 AWG copper"


def test_boxes(tables: Tables) -> None:
    assert str(tables.box_volume("square", Dimensions.read("4 x 2-1/8 in"))) == "30.3 cu in"
    assert str(tables.box_volume("square", Dimensions.read("4 x 2.125 in"))) == "30.3 cu in"
    assert str(tables.box_volume("utility", Dimensions.read("4 x 2-1/8 x 1-7/8 in"))) == "13 cu in"
    assert str(tables.box_allowance(wire("12 AWG copper"))) == "2.25 cu in"


def test_lighting_demand(tables: Tables) -> None:
    assert tables.lighting_demand(Power.of(3000, "VA")) == Power.of(3000, "VA")
    assert tables.lighting_demand(Power.of(120_000, "VA")) == Power.of(3000 + 0.35 * 117_000, "VA")
    assert tables.lighting_demand(Power.of(140_000, "VA")) == Power.of(3000 + 0.35 * 117_000 + 0.25 * 20_000, "VA")
    assert [(str(part), str(share)) for part, share in tables.lighting_steps(Power.of(9, "kVA"))] == [
        ("3000 VA", "100 %"),
        ("6000 VA", "35 %"),
    ]


def test_cooking_and_dryers(tables: Tables) -> None:
    assert str(tables.range_demand(1)) == "8 kW"
    assert tables.range_demand(40) == Power.of(55, "kW")
    assert tables.range_demand(60) == Power.of(70, "kW")
    assert tables.range_share(2, "a") == Percent(0.75)
    assert tables.range_share(2, "b") == Percent(0.65)
    assert [round(tables.dryer_share(count).within("%"), 9) for count in (1, 4, 5, 11, 12, 23, 24, 42, 43)] == [
        100, 100, 85, 47, 46, 35, 34.5, 25.5, 25,
    ]  # fmt: skip
    assert tables.demand_limit("column-b-to") == Power.of(8.75, "kW")
    assert tables.demand_limit("range-increase") == Percent(0.05)


def test_motor_current(tables: Tables) -> None:
    assert str(tables.motor_current(Power.read("1-1/2 hp"), Voltage.read("240 V"))) == "10 A"
    assert str(tables.motor_current(Power.read("0.5 hp"), Voltage.read("120 V"))) == "9.8 A"
    assert str(tables.motor_current(Power.read("5 hp"), Voltage.read("208 V"))) == "30.8 A"


OUTSIDE: dict[str, Callable[[Tables], object]] = {
    "the table of ampacities has no 14 AWG aluminum at 75 C": lambda t: t.ampacity(wire("14 AWG aluminum"), celsius(75)),
    "the table of ampacities has no 4 AWG at 75 C": lambda t: t.ampacity(wire("4 AWG"), celsius(75)),
    "the table of ampacities has no 4 AWG copper at 70 C": lambda t: t.ampacity(wire("4 AWG copper"), celsius(70)),
    "the table of ampacities has no wires of gold": lambda t: t.sizes_up("gold"),
    "the table of factors for ambient temperature has no factor for a 60 C wire at 56 C": lambda t: t.ambient_factor(
        celsius(56), celsius(60)
    ),
    "the table of factors for ambient temperature has no factor for a 90 C wire at 86 C": lambda t: t.ambient_factor(
        celsius(86), celsius(90)
    ),
    "the table of factors for more than three wires has no row for 0 wires": lambda t: t.count_factor(0),
    "the table of dwelling services and feeders has no 90 A in copper": lambda t: t.dwelling_size(amperes(90), "copper"),
    "the table of dwelling services and feeders has no 600 A in copper": lambda t: t.dwelling_size(amperes(600), "copper"),
    "Table 250.122 has no copper ground for 6001 A": lambda t: t.equipment_ground(Current.read("6001 A"), "copper"),
    "Table 250.122 has no ground for 20 A": lambda t: t.equipment_ground(amperes(20), ""),
    "Table 250.66 has no copper electrode conductor for wires of 26240 circular mils": lambda t: t.electrode_conductor(
        26240, "", "copper"
    ),
    "240.4(D) has no limit for 8 AWG copper": lambda t: t.small_conductor_limit(wire("8 AWG copper"), 2020),
    "the table of cover has no nonmetallic in the row of rock": lambda t: t.cover("nonmetallic", "rock"),
    "the table of cover has no nonmetallic in the row of moon": lambda t: t.cover("nonmetallic", "moon"),
    "Chapter 9 Table 1 has no row for 0 wires": lambda t: t.fill_limit(0),
    "Chapter 9 Table 4 has no EMT of 6 in": lambda t: t.inside_diameter("EMT", trade("6 in")),
    "Chapter 9 Table 4 has no BX": lambda t: t.raceway_sizes("BX"),
    "the table of outside diameters has no EMT of 6 in": lambda t: t.outside_diameter("EMT", trade("6 in")),
    "the table of outside diameters has no LFNC-B of 1 in": lambda t: t.outside_diameter("LFNC-B", trade("1 in")),
    "Chapter 9 Table 2 has no bend in 3/8 in": lambda t: t.bend_radius(trade("3/8 in"), one_shot=True),
    "Chapter 9 Table 5 has no 1250 kcmil copper THHN": lambda t: t.conductor_area(wire("1250 kcmil copper"), "THHN"),
    "the table of insulations has no 'ABC'": lambda t: t.insulation("ABC"),
    "Chapter 9 Table 8 has no solid 6 AWG copper": lambda t: t.dc_resistance(wire("6 AWG copper"), stranded=False),
    "Chapter 9 Table 8 has no stranded 6 AWG": lambda t: t.dc_resistance(wire("6 AWG")),
    "Chapter 9 Table 8 has no circular mils of no wire": lambda t: t.circular_mils(WireSize("")),
    "Chapter 9 Table 9 has no 14 AWG aluminum in pvc conduit": lambda t: t.impedance(wire("14 AWG aluminum"), "pvc"),
    "the table of constants for fault current has no 8 AWG aluminum in steel conduit": lambda t: t.fault_constant(
        wire("8 AWG aluminum"), magnetic=True
    ),
    "the table of working space has no depth for 120 V to ground in condition 4": lambda t: t.working_depth(120, 4),
    "the table of working space has no depth for 1001 V to ground in condition 1": lambda t: t.working_depth(1001, 1),
    "the table of supports has no PVC-40": lambda t: t.support_spacing("PVC-40"),
    "the table of supports has no EMT of 1 in": lambda t: t.support_spacing("EMT", trade("1 in"), threaded=True),
    "the table of places for raceways has no BX in soil": lambda t: t.raceway_place("BX", "soil"),
    "the table of expansion has no HDPE": lambda t: t.expansion_coefficient("HDPE"),
    "the table of ground wires in cables has no 4/0 AWG aluminum in NM-B": lambda t: t.cable_ground(
        "NM-B", wire("4/0 AWG aluminum")
    ),
    "Table 314.16(A) has no square box of 5 x 2 in": lambda t: t.box_volume("square", Dimensions.read("5 x 2 in")),
    "the table of room for one wire in a box has no 4 AWG copper": lambda t: t.box_allowance(wire("4 AWG copper")),
    "Table 220.55 has no row for 0 appliances": lambda t: t.range_demand(0),
    "Table 220.55 has no share in column c": lambda t: t.range_share(1, "c"),
    "220.54 and 220.55 has no oven-over": lambda t: t.demand_limit("oven-over"),
    "Table 430.248 has no motor of 2.5 hp at 240 V": lambda t: t.motor_current(Power.read("2.5 hp"), Voltage.read("240 V")),
    "Table 430.248 has no motor of 1 hp at 277 V": lambda t: t.motor_current(Power.read("1 hp"), Voltage.read("277 V")),
}


@pytest.mark.parametrize("message", OUTSIDE)
def test_outside_a_table_the_message_names_it(tables: Tables, message: str) -> None:
    with pytest.raises(OutOfTable) as caught:
        OUTSIDE[message](tables)
    assert str(caught.value) == message
