"""What counts as an electrode, how far apart rods and plates stand, and what protects the wire to them.

Sources: galvanelectrical.com, flipbook catalog page 5 (250.52(A)(5), 250.53(A)(2), (A)(3) of the editions 2011 to 2020);
iecrm.org, code question of the month 4 (250.52(A)(5)(a), (A)(7)); electricallicenserenewal.com, section 997 (250.64(B)(2), (3)
of 2020); life-improver.com on Schedule 40 and 250.64(B) of 2014, which names rigid PVC of any wall. From memory: that 2017 still
reads so for small wire and 2023 as 2020; that gas pipe is no electrode (250.52(B)(1)).
"""

from collections.abc import Callable

import pytest

from planlint.book import resolve
from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]

SHED = "complete grounding\nbuilding shed\n  use shed\n"
ROD = "electrode {name}\n  type {type}; building shed; length 8 ft; diameter {across}; area 2 sq ft; depth 30 in{more}\n"


def answer(job: Job, rule: str, name: str) -> str:
    code = resolve((f"model-{job.edition}",))
    return run_rule(compile_rule(code.rules[rule], code), job.graph.one(name), job).answer


def electrode(name: str, more: str = "", type: str = "rod", across: str = "5/8 in") -> str:
    return ROD.format(name=name, type=type, across=across, more=f"; {more}" if more else "")


@pytest.mark.parametrize(
    ("type", "rule"),
    [
        ("rod", "ground-rod-size-and-spacing"),
        ("pipe", "ground-rod-size-and-spacing"),
        ("plate", "ground-ring-or-plate-too-small"),
    ],
)
@pytest.mark.parametrize(
    ("count", "beside", "spacing", "expected"),
    [
        (1, "", "", "met"),
        (2, "", "spacing 6 ft", "met"),
        (2, "", "spacing 5 ft 11 in", "broken"),
        (2, "", "", "undecided"),
        (1, "rod", "spacing 6 ft", "met"),
        (1, "rod", "spacing 5 ft 11 in", "broken"),
        (1, "plate", "spacing 5 ft 11 in", "broken"),
        (1, "ring", "spacing 5 ft 11 in", "met"),
        (1, "rod", "", "undecided"),
    ],
)
def test_rods_pipes_and_plates_stand_six_feet_apart(
    job_for: JobFor, type: str, rule: str, count: int, beside: str, spacing: str, expected: str
) -> None:
    """250.53(A)(3): not less than 6 ft between several rods, pipes or plates, however a plan writes them."""
    text = SHED + electrode("one", f"count {count}" + (f"; {spacing}" if spacing else ""), type, "3/4 in")
    text += electrode("other", type=beside) if beside else ""
    assert answer(job_for(text), rule, "one") == expected


@pytest.mark.parametrize(
    ("type", "metal", "expected"),
    [
        ("rod", "steel", "broken"),
        ("rod", "galvanized", "met"),
        ("rod", "stainless", "met"),
        ("rod", "copper-clad", "met"),
        ("pipe", "steel", "broken"),
        ("pipe", "galvanized", "met"),
        ("plate", "steel", "met"),
        ("plate", "aluminum", "broken"),
    ],
)
def test_steel_in_the_soil_wears_a_coat(job_for: JobFor, type: str, metal: str, expected: str) -> None:
    """250.52(A)(5)(a), (b): pipe of steel is galvanized, rods are coated or stainless; (A)(7): plates may be bare."""
    assert answer(job_for(SHED + electrode("one", f"material {metal}", type)), "electrode-of-wrong-metal", "one") == expected


@pytest.mark.parametrize(
    ("pipe", "expected"),
    [
        ("type water; material copper; buried-length 10 ft", "met"),
        ("type water; material steel; buried-length 10 ft", "met"),
        ("type water; material copper; buried-length 9 ft 11 in", "broken"),
        ("type water; material plastic; buried-length 40 ft", "broken"),
        ("type gas; material steel; buried-length 40 ft", "broken"),
        ("type water; material copper", "undecided"),
        ("type water; buried-length 40 ft", "undecided"),
    ],
)
def test_ten_feet_of_metal_water_pipe(job_for: JobFor, pipe: str, expected: str) -> None:
    """250.52(A)(1): metal, 10 ft or more in direct contact with the soil; (B)(1): gas pipe never."""
    text = f"""{SHED}place room
  building shed
panel gear
  at room
piping line
  {pipe}; building shed; meter-jumper yes
electrode the-pipe
  type water-pipe; building shed; pipe line; connection-distance 5 ft
{electrode("rods", "count 2; spacing 6 ft")}electrode-conductor wire
  from gear; to rods
"""
    assert answer(job_for(text), "water-pipe-electrode-limits", "the-pipe") == expected


@pytest.mark.parametrize(
    ("edition", "size", "pipe", "hit", "expected"),
    [
        (2017, "6", "PVC-40", "yes", "broken"),
        (2020, "6", "PVC-40", "yes", "broken"),
        (2023, "4", "PVC-40", "yes", "broken"),
        (2020, "6", "PVC-40", "no", "met"),
        (2020, "6", "PVC-80", "yes", "met"),
        (2020, "6", "EMT", "yes", "met"),
        (2020, "6", "ENT", "yes", "broken"),
        (2017, "8", "PVC-40", "no", "met"),
        (2020, "8", "PVC-40", "no", "broken"),
        (2023, "8", "PVC-80", "no", "met"),
        (2020, "8", "none", "no", "met"),
    ],
)
def test_what_protects_the_wire_to_an_electrode(
    job_for: JobFor, edition: int, size: str, pipe: str, hit: str, expected: str
) -> None:
    """250.64(B)(2): where it can be hit, and (3): smaller than 6 AWG; RMC, IMC, Schedule 80 PVC, EMT or armor (raceway none)."""
    rule = "electrode-wire-unprotected-or-in-steel"
    sleeve = "" if pipe == "none" else f"raceway sleeve\n  type {pipe}\n"
    text = f"{sleeve}electrode-conductor wire\n  size {size} AWG copper; subject-to-damage {hit}; protected yes"
    text += f"; raceway {'none' if pipe == 'none' else 'sleeve'}\n"
    assert answer(job_for(text, edition), rule, "wire") == expected
    open_text = text.split("; raceway")[0] + "\n"
    needed = hit == "yes" or size == "8"
    assert answer(job_for(open_text, edition), rule, "wire") == ("undecided" if needed else "met")
