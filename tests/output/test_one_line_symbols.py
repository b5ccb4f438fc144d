"""The symbols by what makes them those of IEEE 315 and IEC 60617 (both standards' forms from memory)."""

import math

import pytest

from planlint.output.one_line import symbols
from planlint.output.one_line.figures import Arc, Figure, Line, Ring, Words
from planlint.output.one_line.svg import _PENS
from planlint.papers.one_line.records import Device, Symbol


def lines(figures: list[Figure]) -> list[Line]:
    return [figure for figure in figures if isinstance(figure, Line)]


def rings(figures: list[Figure]) -> list[Ring]:
    return [figure for figure in figures if isinstance(figure, Ring)]


def letters(figures: list[Figure]) -> list[str]:
    return [figure.text for figure in figures if isinstance(figure, Words)]


def device(kind: Device, across: bool) -> list[Figure]:
    return symbols.device(kind, 0, 0, 1, "x", across=across)


@pytest.mark.parametrize("across", [True, False])
def test_a_breaker_is_an_arc_over_open_contacts(across: bool) -> None:
    """IEEE 315 11.2, the form for low voltage: two contacts, a gap in the line, an arc that bridges it without touching."""
    found = device("breaker", across)
    (arc,) = [figure for figure in found if isinstance(figure, Arc)]
    contacts = [ring for ring in rings(found) if ring.filled]
    assert len(contacts) == 2 and len(lines(found)) == 2
    ends = sorted(max(point[0 if across else 1] for point in line.points) for line in lines(found))
    assert ends[0] == 3 and ends[1] == symbols.DEVICE
    assert math.dist(arc.start, arc.end) > math.dist((contacts[0].x, contacts[0].y), (contacts[1].x, contacts[1].y))


def test_a_fuse_is_a_box_on_an_unbroken_line() -> None:
    """IEEE 315 9.1, IEC form."""
    through, box = lines(device("fuse", True))
    assert through.points[0] == (0, 0) and through.points[-1] == (symbols.DEVICE, 0)
    assert box.points[0] == box.points[-1] and len(box.points) == 5


def test_a_switch_is_an_open_blade() -> None:
    """IEEE 315 4.2."""
    found = lines(device("switch", True))
    (blade,) = [line for line in found if line.points[0][1] != line.points[1][1]]
    assert blade.points[0] == (11, 0)
    assert abs(blade.points[1][1]) > 3


def test_what_is_not_stated_is_a_question_and_no_device() -> None:
    assert letters(device("open", True)) == ["?"]
    assert len(device("", True)) == 1


@pytest.mark.parametrize(("kind", "text"), [("meter", "WH"), ("generator", "G")])
def test_meters_and_generators_are_circles_with_letters(kind: Symbol, text: str) -> None:
    """IEEE 315 17.1 (WH: watthour meter) and 13.1."""
    drawn = symbols.gear(kind, "", 0, 0, 1, "x")
    assert len(rings(drawn.figures)) == 1
    assert letters(drawn.figures) == [text]


def test_a_motor_is_a_circle_with_an_m_and_heating_a_box_with_bars() -> None:
    """IEEE 315 13.1; IEC 60617-04."""
    motor = symbols.end("motor", 0, 0, 1, "x", "power")
    assert len(rings(motor)) == 1 and letters(motor) == ["M"]
    box, *bars = lines(symbols.end("heater", 0, 0, 1, "x", "power"))
    assert len(box.points) == 5 and len(bars) >= 2


def test_a_transformer_is_two_circles_that_overlap() -> None:
    """IEC 60617-06, in the form for one line."""
    source, one, two = rings(symbols.gear("transformer", "", 0, 0, 1, "x").figures)
    assert math.dist((one.x, one.y), (two.x, two.y)) < one.radius + two.radius
    assert one.radius == two.radius
    assert source.y < one.y


def test_earth_is_three_bars_each_shorter_than_the_one_above() -> None:
    """IEEE 315 3.9.1."""
    lead, *bars = lines(symbols.end("electrode", 0, 0, 1, "x", "ground"))
    wide = [bar.points[1][0] - bar.points[0][0] for bar in bars]
    assert len(bars) == 3 and wide == sorted(wide, reverse=True)
    middles = {round((bar.points[1][0] + bar.points[0][0]) / 2, 6) for bar in bars}
    assert middles == {round(lead.points[-1][0], 6)}


def test_a_battery_is_long_and_short_bars_in_turn_and_solar_a_cell_with_two_arrows() -> None:
    """IEEE 315 2.13; IEC 60617-06."""
    bars = [line for line in lines(symbols.gear("battery", "", 0, 0, 1, "x").figures) if len(line.points) == 2]
    wide = [bar.points[1][0] - bar.points[0][0] for bar in bars]
    assert wide[0] > wide[1] and wide[0] == wide[2] and wide[1] == wide[3]
    arrows = [line for line in lines(symbols.gear("solar", "", 0, 0, 1, "x").figures) if line.filled]
    assert len(arrows) == 2


def test_a_transfer_switch_has_two_ways_in_and_one_out() -> None:
    drawn = symbols.gear("transfer", "", 0, 0, 1, "x")
    tops = [line for line in lines(drawn.figures) if line.points[0][1] == 0]
    assert sorted(line.points[0][0] for line in tops) == [0, symbols.TRANSFER_GAP]
    assert any(line.points[-1] == (0, drawn.height) for line in lines(drawn.figures))


def test_the_bus_is_the_heaviest_line() -> None:
    widths = {pen: float(look["stroke-width"]) for pen, look in _PENS.items()}
    assert widths["bus"] == max(widths.values()) >= 2.5 * widths["power"]
