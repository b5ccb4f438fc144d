"""Panel schedules against the cottage counted by hand, and against what panels are.

Source of what a directory must say: NFPA 70 408.4(A). Numbering and legs of spaces: common practice, no source.
Volt-amperes by hand: receptacles 180 VA each (NFPA 70 220.14(I)), small-appliance and laundry circuits 1500 VA each
(220.52), appliances by their plates, all as the cottage's plan states them.
"""

import csv
import io
from pathlib import Path

import pytest

from planlint.desk import Desk
from planlint.output.schedule.page import schedules_page
from planlint.output.schedule.table import COLUMNS, schedules_csv
from planlint.papers.schedule import PanelSchedule, Schedules, panel_schedules

ROOT = Path(__file__).parents[2]

# Counted by hand from fixtures/cottage.plan: spaces, breaker and poles, and what each leg carries.
HOUSE = {
    "range-circuit": ((1, 3), 50, 2, 4800, 4800),  # 9.6 kW
    "studio-feeder": ((2, 4), 100, 2, 6840, 5880),  # the studio's legs below
    "dryer-circuit": ((5, 7), 30, 2, 2500, 2500),  # 5 kW
    "heat-pump-circuit": ((6, 8), 25, 2, 1320, 1320),  # 11 A
    "air-handler-circuit": ((9, 11), 30, 2, 2750, 2750),  # 5 kW of strips and 0.5 kW of fan
    "well-circuit": ((10, 12), 20, 2, 960, 960),  # 8 A
    "kitchen-a": ((13,), 20, 1, 1500, 0),
    "laundry-circuit": ((14,), 20, 1, 1500, 0),
    "kitchen-b": ((15,), 20, 1, 0, 1500),
    "bathroom-circuit": ((16,), 20, 1, 0, 180),
    "bedroom-circuit": ((17,), 15, 1, 1620, 0),  # living 4, bedroom 4, hall 1 receptacles
    "outdoor-circuit": ((18,), 20, 1, 540, 0),  # porch, deck, mechanical room
    "lights-circuit": ((19,), 15, 1, 0, 276),  # 4 + 6 + 2 + 2 + 2 + 1 + 1 + 2 + 1 + 2 lights of 12 W
    "dishwasher-circuit": ((20,), 20, 1, 0, 1200),
}
STUDIO = {
    "kiln-circuit": ((1, 3), 60, 2, 5760, 5760),  # 48 A
    "studio-bench": ((5,), 20, 1, 1080, 0),  # 6 receptacles
    "studio-lights-circuit": ((7,), 15, 1, 0, 120),  # 8 lights of 15 W
}


@pytest.fixture(scope="module")
def cottage() -> Schedules:
    return panel_schedules(Desk().docket_file(ROOT / "fixtures" / "cottage.plan"))


def schedules(text: str) -> Schedules:
    return panel_schedules(Desk().docket_text(text))


@pytest.mark.parametrize(("number", "counted"), [(0, HOUSE), (1, STUDIO)], ids=["house", "studio"])
def test_the_cottage_counted_by_hand(cottage: Schedules, number: int, counted: dict[str, tuple[object, ...]]) -> None:
    panel = cottage.panels[number]
    found = {
        one.subject.name: (one.spaces, one.rating.within("A"), one.poles, one.leg_a.within("VA"), one.leg_b.within("VA"))
        for one in panel.breakers
    }
    assert {name: (*row[:3], *(round(leg) for leg in row[3:])) for name, row in found.items()} == counted
    assert round(panel.leg_a.power.within("VA")) == sum(row[3] for row in counted.values())
    assert round(panel.leg_b.power.within("VA")) == sum(row[4] for row in counted.values())
    assert not panel.leg_a.at_least
    assert not panel.notes


def test_free_spaces_of_the_cottage(cottage: Schedules) -> None:
    house, studio = cottage.panels
    assert house.free == tuple(range(21, 41))
    assert studio.free == (2, 4, 6, *range(8, 21))


def test_every_breaker_stands_on_the_page_and_in_the_table_once(cottage: Schedules) -> None:
    rows = list(csv.reader(io.StringIO(schedules_csv(cottage))))
    assert tuple(rows[0]) == COLUMNS
    names = [row[-1] for row in rows[1:] if row[2] != "free"]
    assert sorted(names) == sorted({**HOUSE, **STUDIO})
    for column, leg in ((7, 3), (8, 4)):
        known = {**HOUSE, **STUDIO}
        assert all(float(row[column]) == known[row[-1]][leg] for row in rows[1:] if row[2] != "free")
    text = schedules_page(cottage, 100).plain()
    assert text.count("Kitchen counter, north") == 2  # the face and the door


@pytest.mark.parametrize("width", [60, 72, 80, 100, 200])
def test_no_line_is_wider_than_the_page(cottage: Schedules, width: int) -> None:
    assert all(len(line) <= min(width, 110) for line in schedules_page(cottage, width).plain().splitlines())


HEAD = 'plan "Trial"\n  edition 2020\n'


def one_panel(text: str) -> PanelSchedule:
    return schedules(HEAD + text).panels[0]


def test_what_is_not_stated_is_named_and_never_counted_as_nothing() -> None:
    panel = one_panel("panel p\n  spaces 8\ncircuit a\n  panel p; breaker 20 A; poles 1\n")
    assert [one.subject.name for one in panel.unplaced] == ["a"]
    assert panel.leg_a.at_least
    assert panel.imbalance is None
    text = schedules_page(schedules(HEAD + "panel p\n  spaces 8\ncircuit a\n  panel p; poles 1\n"), 100).plain()
    assert "a: what it feeds is not stated" in text
    assert "1 below name no space yet" in text
    assert "leg A not stated" in text.replace("Leg", "leg")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("circuit a\n  panel p; poles 2; space 1, 2\n", "not one below the other"),
        ("circuit a\n  panel p; poles 2; space 4\n", "has 2 poles and names 1 spaces"),
        ("circuit a\n  panel p; poles 1; space 9\n", "is in space 9, and the panel has 8"),
        ("circuit a\n  panel p; poles 1; space 3\ncircuit b\n  panel p; poles 1; space 3\n", "Space 3 is named by a and b"),
    ],
)
def test_what_can_not_sit_there_is_said(text: str, said: str) -> None:
    assert said in " ".join(one_panel("panel p\n  spaces 8\n" + text).notes)


def test_what_can_sit_there_gets_no_note() -> None:
    text = "panel p\n  spaces 8\ncircuit a\n  panel p; poles 2; space 1, 3\ncircuit b\n  panel p; poles 2; space 6, 8\n"
    assert one_panel(text).notes == ()


@pytest.mark.parametrize("label", ["=1+1", "+cmd", "-2", "@sum", "a 'b', <c>", "\u05e9\u05dc\u05d5\u05dd", "x" * 300])
def test_hostile_labels_come_through_whole_and_harmless(label: str) -> None:
    made = schedules(HEAD + f'panel p\n  spaces 2\ncircuit a\n  panel p; poles 1; space 1; label "{label}"\n')
    row = list(csv.reader(io.StringIO(schedules_csv(made))))[1]
    assert row[2].lstrip("'") == label
    assert not row[2].startswith(("=", "+", "-", "@"))
    text = schedules_page(made, 80).plain()
    assert all(len(line) <= 80 for line in text.splitlines())


def test_a_plan_without_panels_says_so() -> None:
    assert "shows no panel" in schedules_page(schedules(HEAD), 80).plain()
