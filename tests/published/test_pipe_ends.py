"""Ends of pipes, risers and wires that keep together, against published answers. Each check names its source."""

from collections.abc import Callable

import pytest

from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
WELL = "circuit run\n  cable 10/2 copper UF-B; poles 2; breaker 20 A; protection none; raceway pipe; trench ditch\n"
DITCH = "trench ditch\n  under yard; cover 24 in\n"
EDITIONS = [2017, 2020, 2023]


def answer(job: Job, rule: str, name: str = "pipe") -> str:
    return run_rule(compile_rule(job.code.rules[rule], job.code), job.graph.one(name), job).answer


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("below", "above", "expected"),
    [("18 in", "8 ft", "met"), ("24 in", "10 ft", "met"), ("17.9 in", "8 ft", "broken"), ("18 in", "7.9 ft", "broken")],
)
def test_protection_of_direct_buried_cable(job_for: JobFor, below: str, above: str, expected: str, edition: int) -> None:
    """ecmweb.com, code quiz "protection of direct-buried conductors": 8 ft up (not 3, 6 or 10), never more than 18 in down."""
    said = f"type RMC; route riser; begins-below {below}; ends-above {above}; ends-in none; subject-to-damage yes"
    job = job_for(f"{DITCH}{WELL}raceway pipe\n  {said}\n", edition)
    assert answer(job, "riser-unprotected") == expected


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("type", "damage", "expected"),
    [
        ("RMC", "yes", "met"),
        ("IMC", "yes", "met"),
        ("PVC-80", "yes", "met"),
        ("EMT", "yes", "met"),
        ("PVC-40", "yes", "broken"),
        ("PVC-40", "no", "met"),
    ],
)
def test_where_it_can_be_hit(job_for: JobFor, type: str, damage: str, expected: str, edition: int) -> None:
    """electricallicenserenewal.com, code change 273: rigid, intermediate, schedule 80, and EMT from 2017 on (300.5(D)(4));
    forums.mikeholt.com thread 2553813: schedule 40 in a flower bed, schedule 80 in a driveway (352.10(F))."""
    said = f"type {type}; route riser; begins-below 18 in; ends-above 8 ft; subject-to-damage {damage}"
    assert answer(job_for(f"{DITCH}{WELL}raceway pipe\n  {said}\n", edition), "riser-unprotected") == expected


@pytest.mark.parametrize(
    ("type", "size", "expected"),
    [
        # ecmweb.com, code Q&A 114: conductors of 4 AWG and larger; for IMC and RMC regardless of conductor size.
        ("EMT", "4", "broken"),
        ("EMT", "6", "not-applicable"),
        ("RMC", "12", "broken"),
        ("IMC", "12", "broken"),
        # electriciantalk.com, insulating bushing: so many 12 AWG wires in whatever size of tubing want none.
        ("EMT", "12", "not-applicable"),
    ],
)
def test_bushings(job_for: JobFor, type: str, size: str, expected: str) -> None:
    run = f"feeder run\n  hot 2 x {size} AWG copper THWN-2; neutral none; raceway pipe\n"
    pipe = f"raceway pipe\n  type {type}; route inside; continues none; bushings "
    assert answer(job_for(f"{run}{pipe}no\n"), "raceway-end-unprotected") == expected
    assert answer(job_for(f"{run}{pipe}yes\n"), "raceway-end-unprotected") == expected.replace("broken", "met")


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("way", ["trench ditch", "route above-grade; at yard", "route below-slab"])
def test_seals(job_for: JobFor, way: str, edition: int) -> None:
    """electricallicenserenewal.com, code change 247: every pipe that comes into a building from outside, not only from below
    ground (225.27); ecmweb.com, code quiz 49: spare ones too."""
    plan = (
        f"{DITCH}building house\n  use one-family\nplace yard\n  outdoors yes\nplace hall\n  building house\n"
        "panel house-panel\n  at hall\ndisconnect post\n  at yard; mounted-on none\n"
        f"feeder run\n  from house-panel; to post; hot 2 x 6 AWG copper THWN-2; raceway pipe\nraceway pipe\n  {way}; sealed "
    )
    assert [answer(job_for(f"{plan}{said}\n", edition), "raceway-unsealed-at-wall") for said in ("yes", "no")] == [
        "met",
        "broken",
    ]
    spare = f"building house\n  use one-family\n{DITCH}raceway pipe\n  {way.replace('; at yard', '')}; holds none"
    assert answer(job_for(f"complete raceways\n{spare}\n", edition), "raceway-unsealed-at-wall") == "undecided"


@pytest.mark.parametrize(
    ("types", "said", "expected"),
    [
        # forums.mikeholt.com thread 107386, text of 300.3(B): all wires of a circuit in the same raceway.
        (("RMC", "RMC"), "kept-together no", "broken"),
        (("RMC", "RMC"), "kept-together yes", "met"),
        # forums.mikeholt.com thread 2568455, 300.3(B)(1): of parallel sets each portion by itself.
        (("RMC", "RMC"), "sets 2; kept-together no", "met"),
        # The same, 300.3(B)(3), and thread 127270: apart in plastic pipe under conditions; so it is asked.
        (("PVC-40", "PVC-40"), "kept-together no", "undecided"),
    ],
)
def test_wires_of_one_circuit(job_for: JobFor, types: tuple[str, str], said: str, expected: str) -> None:
    pipes = "".join(f"raceway p{number}\n  type {type}; trench ditch\n" for number, type in enumerate(types))
    job = job_for(f"{DITCH}{pipes}feeder run\n  hot 2 x 1/0 AWG copper XHHW-2; raceway p0, p1; {said}\n")
    assert answer(job, "circuit-split-across-raceways", "run") == expected
