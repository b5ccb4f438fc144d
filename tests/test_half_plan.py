"""A plan with half its inputs left out: its worksheet names what is missing, and never gives another number.

The deletion law for numbers: what is left out takes numbers away. Which half is left out is drawn by lot, from fixed seeds.
"""

import random
from pathlib import Path

import pytest
from test_deletion import PASSED_OVER, stretch, without

import planlint
from planlint.faults import Faults
from planlint.language import read_text
from planlint.output.worksheet.page import worksheet_page
from planlint.quantities import Power, Unreadable
from planlint.workings import Worksheet

COTTAGE = (Path(__file__).parents[1] / "fixtures" / "cottage.plan").read_text(encoding="utf-8")

# Facts that give a bound for certain, which may move when less is known.
BOUNDS = {
    "stated-rooms-area": "the rooms that are stated: a lower bound",
    "appliances-take": "the appliances that are stated: a lower bound",
    "known-bend": "the bends that are stated: a lower bound",
    "size-to-pull": "the smallest size that does for certain: an upper bound",
}


def numbers(sheet: Worksheet) -> dict[tuple[str, str], str]:
    found = {(entry.fact, part.subject.name): entry.value for _, part, entry in sheet.entries()}
    for section in sheet.sections:
        for part in section.parts:
            found |= {(rest.fact, part.subject.name): rest.value for rest in part.taken}
    return {key: value for key, value in found.items() if value and key[0] not in BOUNDS and not key[0].startswith("sure-")}


def alike(one: str, other: str) -> bool:
    """Two plates of one load are in watts and in amperes at volts: the same amount in other words."""
    try:
        return one == other or Power.read(one) == Power.read(other)
    except Unreadable:
        return False


def half(seed: int) -> str | None:
    lot = random.Random(seed)
    elements = read_text(COTTAGE).elements
    out = [stretch(elements[0].plan, "complete")]
    for element in elements:
        for attribute in element.standing:
            kept = element.kind in ("plan", "permission") or (element.kind, attribute) in PASSED_OVER
            if not kept and type(element).attributes[attribute].default is None and lot.random() < 0.5:
                out.append(stretch(element, attribute))
    text = without(COTTAGE, out)
    try:
        read_text(text)
    except Faults:
        return None
    return text


@pytest.mark.parametrize("seed", range(8))
def test_half_a_plan_gives_fewer_numbers_and_no_other_ones(seed: int) -> None:
    whole, text = numbers(planlint.worksheet(COTTAGE)), half(seed)
    assert text is not None
    sheet = planlint.worksheet(text)
    assert sheet.failed == []
    left = numbers(sheet)
    assert 50 < len(left) < len(whole) / 2
    assert {key: (whole[key], value) for key, value in left.items() if key in whole and not alike(whole[key], value)} == {}


def test_it_names_what_it_waits_for() -> None:
    text = half(1)
    assert text is not None
    sheet = planlint.worksheet(text)
    said = worksheet_page(sheet, 100).plain()
    stated = {(e.name, attribute) for e in read_text(text).elements for attribute in e.standing}
    asked = {(subject.name, need.attribute) for subject, needs in sheet.waiting().items() for need, _ in needs if not need.note}
    assert len(asked) > 50
    assert not asked & stated
    assert "NOT STATED YET" in said
