"""The material list against the cottage counted by hand, against sums made a second way, and against what packing is.

Ends, waste, hot colors and packages: common practice, no source. Spacing of straps: NFPA 70, section .30 of each article, from
tests/published/test_tables_copies.py. White neutrals and green grounds: NFPA 70 200.6, 250.119.
"""

import csv
import io
import json
import re
from itertools import product
from pathlib import Path

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.cli import main
from planlint.desk import Desk
from planlint.faults import Faults
from planlint.output.takeoff.page import takeoff_page
from planlint.output.takeoff.record import takeoff_record
from planlint.output.takeoff.table import takeoff_csv
from planlint.papers.material.packages import Package, packed
from planlint.papers.material.prices import cost, read_prices
from planlint.papers.material.takeoff import Line, Takeoff, take_off
from planlint.quantities import Length

ROOT = Path(__file__).parents[2]
COTTAGE = (ROOT / "fixtures" / "cottage.plan").read_text("utf-8")
COILS = [
    (Length.of(feet, "ft"), word) for feet, word in ((25, "coil"), (50, "coil"), (100, "coil"), (250, "coil"), (1000, "reel"))
]

# By hand from fixtures/cottage.plan: feet are (length + 2 x 3 ft of ends) x 1.10 for each wire; what is bought beside it.
FEET = {
    "4/0 AWG aluminum XHHW-2 wire, black": (48.4, "49 ft, cut to length"),  # 38 ft
    "SER cable: 2 x 4/0 AWG aluminum, neutral 2/0 AWG aluminum, ground 4 AWG aluminum": (74.8, "75 ft, cut to length"),  # 62
    "1 AWG aluminum XHHW-2 wire, white": (160.6, "161 ft, cut to length"),  # 140 ft
    "12/2 copper NM-B cable": (330.0, "1 coil of 250 ft, 1 coil of 100 ft"),  # 42 48 24 38 36 40 30
    "14/2 copper NM-B cable": (174.9, "1 coil of 250 ft"),  # 46 60 35: 67.2 and 45.1 don't share a coil of 100 ft
    "10/2 copper UF-B cable": (204.6, "1 coil of 250 ft"),  # 180
    "10 AWG copper THWN-2 wire, green": (64.9, "1 coil of 100 ft"),  # 22 and 25
    "2 in PVC-40 pipe": (105.6, "11 lengths of 10 ft"),  # 96 ft
    "1 in EMT pipe": (26.4, "3 lengths of 10 ft"),  # 24 ft
    "warning ribbon": (302.0, "2 rolls of 300 ft"),  # 46 (charger-pipe), 160, 96 ft
    "6 AWG copper wire, green": (24.0, "24 ft, cut to length"),  # bonds of 20 and 4 ft
}
PIECES = {
    "breaker 20 A, 1 pole, AFCI and GFCI": 4,  # two kitchen circuits, laundry, dishwasher
    "breaker 20 A, 1 pole, GFCI": 3,  # bathroom, outdoor, bench
    "breaker 15 A, 1 pole, AFCI": 1,
    "breaker 100 A, 2 poles": 1,
    "breaker 60 A, 2 poles": 1,
    "panel, 200 A bus, main lugs, 40 spaces": 1,
    "panel, 125 A bus, 100 A main, 20 spaces": 1,
    "disconnect with 200 A breaker, weatherproof case": 1,
    "duplex receptacle 15 A, tamper-resistant": 9,  # living 4, bedroom 4, hall 1
    "duplex receptacle 20 A, tamper-resistant": 14,  # counter 3, island 2, washer, basin, mechanical, bench 6
    "light fixture": 31,  # 23 in the house, 8 in the studio
    "2 in PVC-40 elbow": 3,  # 90, 90, 45
    "2-1/2 in PVC-40 elbow": 2,
    "2 in PVC-40 coupling": 13,  # 10 lengths and 3 elbows have 12 joints, and one to the riser
    "1/2 in EMT strap": 3,  # 20 ft: 3 ft in from each end, and one between
    "2-1/2 in PVC-80 expansion fitting": 2,
    "ground rod 5/8 in x 8 ft, copper-clad": 2,
    "rod clamp, listed for direct burial": 2,
    "rebar clamp": 1,
    "surge device, type-2": 1,
    "disconnect switch, 25 A": 1,
    "disconnect switch, 60 A": 1,
    "bushing for 2 in pipe": 4,  # 1 AWG: both ends inside, one end of the pipe outside, one of the riser
}


@pytest.fixture(scope="module")
def cottage() -> Takeoff:
    return take_off(Desk().docket_text(COTTAGE))


def by_item(takeoff: Takeoff) -> dict[str, Line]:
    return {line.item: line for line in takeoff.lines}


def test_feet_of_the_cottage_by_hand(cottage: Takeoff) -> None:
    from planlint.output.takeoff.words import bought_words

    lines = by_item(cottage)
    found = {item: (round(lines[item].length.within("ft"), 1), bought_words(lines[item])) for item in FEET}
    assert found == FEET


def test_pieces_of_the_cottage_by_hand(cottage: Takeoff) -> None:
    lines = by_item(cottage)
    assert {item: lines[item].pieces for item in PIECES} == PIECES


def test_the_cottage_leaves_nothing_open(cottage: Takeoff) -> None:
    assert cottage.left_out == ()


def blocks(kind: str) -> list[str]:
    """The statements of a kind, as text: a second way that knows nothing of elements."""
    return [block for block in re.split(r"\n(?=\S)", re.sub(r"#.*", "", COTTAGE)) if block.startswith(kind + " ")]


def feet_of(block: str) -> float:
    found = re.search(r"\blength ([0-9]+) ft", block)
    assert found, block
    return float(found[1])


def test_wire_adds_up_a_second_way(cottage: Takeoff) -> None:
    """Wires counted from the text alone: every hot, neutral and ground of runs without cable, each (length + 6 ft) x 1.1."""
    together = 0.0
    for block in (*blocks("service"), *blocks("feeder"), *blocks("circuit")):
        if "owner utility" in block or re.search(r"\bcable ", block):
            continue
        for role in ("hot", "neutral", "ground"):
            said = re.search(rf"\b{role} (?:([0-9]+) x )?([0-9]\S*|none)", block)
            if said and said[2] != "none":
                together += int(said[1] or 1) * (feet_of(block) + 6) * 1.1
    ours = sum(line.length.within("ft") for line in cottage.lines if line.group == "Wire and cable" and " wire, " in line.item)
    assert ours == pytest.approx(together)


def test_cable_adds_up_a_second_way(cottage: Takeoff) -> None:
    cables = [block for kind in ("feeder", "circuit") for block in blocks(kind) if re.search(r"\bcable ", block)]
    ours = sum(line.length.within("ft") for line in cottage.lines if line.item.split(":")[0].endswith("cable"))
    assert ours == pytest.approx(sum((feet_of(block) + 6) * 1.1 for block in cables))


def test_pipe_adds_up_a_second_way(cottage: Takeoff) -> None:
    ours = sum(line.length.within("ft") for line in cottage.lines if line.item.endswith(" pipe") and line.length is not None)
    assert ours == pytest.approx(sum(feet_of(block) * 1.1 for block in blocks("raceway")))


def test_every_breaker_is_one_of_the_schedule(cottage: Takeoff) -> None:
    ours = sum(line.pieces for line in cottage.lines if line.item.startswith("breaker "))
    fed_by_panels = [block for block in (*blocks("circuit"), *blocks("feeder")) if re.search(r"(panel|from) \S+-panel", block)]
    assert ours == len(fed_by_panels)


@pytest.mark.parametrize(
    ("said", "gone"),
    [
        ("length 42 ft; design-load 12 A", "design-load 12 A"),  # kitchen-a
        ("bus 125 A; main 100 A; spaces 20", "bus 125 A; main 100 A"),
        ("breaker 60 A; poles 2; space 1, 3", "poles 2; space 1, 3"),
    ],
)
def test_what_is_left_out_is_named_and_nothing_else_changes(cottage: Takeoff, said: str, gone: str) -> None:
    assert COTTAGE.count(said) == 1
    less = take_off(Desk().docket_text(COTTAGE.replace(said, gone)))
    assert less.left_out
    whole, rest = by_item(cottage), by_item(less)
    assert rest.keys() <= whole.keys()
    for item, line in rest.items():
        assert line.pieces <= whole[item].pieces
    assert sum(line.pieces for line in rest.values()) < sum(line.pieces for line in whole.values())
    assert "NOT ON THE LIST YET" in takeoff_page(less, None, 80).plain()


feet = st.floats(min_value=0.5, max_value=240.0)


@given(st.lists(feet, min_size=1, max_size=6))
def test_pieces_come_out_of_their_packages_uncut(lengths: list[float]) -> None:
    """Checked by trying every way to lay the pieces: the packages hold them, whatever way they were found."""
    bought = packed([Length.of(one, "ft") for one in lengths], COILS)
    assert bought is not None
    room = [package.length.within("ft") for package in bought for _ in range(package.count)]
    assert any(fits(lengths, room, way) for way in product(range(len(room)), repeat=len(lengths)))


def fits(lengths: list[float], room: list[float], way: tuple[int, ...]) -> bool:
    loads = [0.0] * len(room)
    for length, at in zip(lengths, way, strict=True):
        loads[at] += length
    return all(load <= most + 1e-6 for load, most in zip(loads, room, strict=True))


@given(st.lists(feet, min_size=1, max_size=30))
def test_pipe_is_bought_to_the_next_length_and_no_further(lengths: list[float]) -> None:
    bought = packed([Length.of(one, "ft") for one in lengths], [(Length.of(10, "ft"), "length")], uncut=False)
    assert bought is not None
    total = sum(package.count * 10 for package in bought)
    assert sum(lengths) <= total + 1e-6
    assert total < sum(lengths) + 10 + 1e-6


def test_the_least_is_bought() -> None:
    """Of all ways by hand: 300 ft in pieces of 60 ft is two coils, not a reel; 1100 ft uncut can't be bought in a package."""
    assert packed([Length.of(60, "ft")] * 5, COILS) == (
        Package(1, "coil", Length.of(250, "ft")),
        Package(1, "coil", Length.of(100, "ft")),
    )
    assert packed([Length.of(1100, "ft")], COILS) is None
    assert packed([Length.of(12.2, "ft")] * 2, [(Length.of(1, "ft"), "foot")]) == (Package(26, "foot", Length.of(1, "ft")),)


def test_prices_add_up(cottage: Takeoff) -> None:
    prices = read_prices(
        'item,price\n12/2 copper NM-B cable,0.5\n"breaker 60 A, 2 poles",12.25\nlight fixture,2\nkettle,9\n', "p.csv"
    )
    made = cost(cottage, prices)
    assert made.total == pytest.approx(350 * 0.5 + 12.25 + 31 * 2)
    assert made.unused == ("kettle",)
    assert "2 in PVC-40 pipe" in made.without
    assert len(made.without) + 3 == len(cottage.lines)


def test_our_own_table_is_a_price_list(cottage: Takeoff) -> None:
    table = list(csv.reader(io.StringIO(takeoff_csv(cottage, {}))))
    at = table[0].index("price")
    for row in table[1:]:
        row[at] = "1"
    text = io.StringIO()
    csv.writer(text).writerows(table)
    assert cost(cottage, read_prices(text.getvalue(), "own.csv")).without == ()


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("", 1, "names the columns item and price"),
        ("itme,price\n", 1, "Did you mean 'itme'"),
        ("item,price\nwire,one\n", 2, "'one' is no price"),
        ("item,price\nwire,-1\n", 2, "'-1' is no price"),
        ("item,price\nwire,nan\n", 2, "'nan' is no price"),
        ("item,price\nwire\n", 2, "too short"),
        ("item,price\nwire,1\nwire,2\n", 3, "has two prices"),
    ],
)
def test_a_price_list_that_can_not_be_read(text: str, line: int, said: str) -> None:
    with pytest.raises(Faults) as found:
        read_prices(text, "prices.csv")
    fault = found.value.faults[0]
    assert (fault.span.file, fault.span.line) == ("prices.csv", line)
    assert said in fault.message


def test_json_is_valid(cottage: Takeoff, tmp_path: Path) -> None:
    schema = json.loads((ROOT / "schema" / "takeoff.schema.json").read_text("utf-8"))
    prices = tmp_path / "p.csv"
    prices.write_text("item,price\nlight fixture,2\n", encoding="utf-8")
    to = tmp_path / "out.json"
    assert (
        main(["takeoff", str(ROOT / "fixtures" / "cottage.plan"), "--output", "json", "--prices", str(prices), "--to", str(to)])
        == 0
    )
    document = json.loads(to.read_text("utf-8"))
    jsonschema.validate(document, schema)
    assert document["takeoffs"][0]["cost"]["total"] == 62
    assert len(document["takeoffs"][0]["lines"]) == len(cottage.lines)
    assert takeoff_record(cottage, None)["plan"] == "Plover Lane cottage"


@pytest.mark.parametrize("width", [60, 80, 100, 200])
def test_no_line_is_wider_than_the_page(cottage: Takeoff, width: int) -> None:
    text = takeoff_page(cottage, cost(cottage, {"light fixture": 2.0}), width).plain()
    assert all(len(line) <= min(width, 110) for line in text.splitlines())


def test_an_empty_plan_buys_nothing() -> None:
    made = take_off(Desk().docket_text('plan "Trial"\n  edition 2020\n'))
    assert made.lines == ()
    assert "nothing that is bought" in takeoff_page(made, None, 80).plain()
