"""Receptacles and lights that rooms must have, on both sides of each limit and by edition.

Sources: quotations of the code's editions and answers in trade papers and forums, named beside each check:
captaincode2017.leviton.com, captaincode2020.leviton.com, electricallicenserenewal.com, jadelearning.com, ecmag.com,
ecmweb.com, forums.mikeholt.com, expertce.com. Each figure's other side, a little past the limit, is arithmetic.
"""

from collections.abc import Callable

import pytest

from planlint.book import resolve
from planlint.checking import run_rule
from planlint.facts.counters import receptacles_needed
from planlint.facts.engine import Job
from planlint.facts.lighting import switches_needed
from planlint.facts.room_receptacles import receptacles_needed as needed_in_room
from planlint.facts.wall_spaces import farthest_point
from planlint.quantities import Length
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
EDITIONS = pytest.mark.parametrize("edition", [2017, 2020, 2023])
HOUSE = "building house\n  use one-family\n"
KITCHEN = HOUSE + "place kitchen\n  building house; use kitchen\n"
ALL = "complete receptacles, lights, loads, circuits, feeders, service, rooms\n"


def answer(job: Job, rule: str, name: str) -> str:
    code = resolve((f"model-{job.edition}",))
    return run_rule(compile_rule(code.rules[rule], code), job.graph.one(name), job).answer


def island(job_for: JobFor, edition: int, length: str, depth: str, more: str = "", kind: str = "island") -> Job:
    return job_for(KITCHEN + f"counter top\n  at kitchen; type {kind}; length {length}; depth {depth}\n  {more}\n", edition)


@EDITIONS
@pytest.mark.parametrize(
    ("use", "length", "places", "expected"),
    [
        ("living", "12 ft", "6 ft", "met"),
        ("living", "12 ft 1 in", "6 ft", "broken"),
        ("bedroom", "24 ft", "6 ft, 18 ft", "met"),
        ("bedroom", "24 ft", "6 ft, 18 ft 1 in", "broken"),
        ("kitchen", "2 ft", "none", "broken"),
        ("den", "23.9 in", "none", "not-applicable"),
        ("hallway", "40 ft", "none", "not-applicable"),
        ("bathroom", "9 ft", "none", "not-applicable"),
    ],
)
def test_walls(job_for: JobFor, edition: int, use: str, length: str, places: str, expected: str) -> None:
    """ecmweb.com, Q&A 93, and forums.mikeholt.com 2552662 and 55705 (210.52(A)(1), (2)): 6 ft to a receptacle in the same
    wall space, spaces of 2 ft and more; forums.mikeholt.com 130379: hallways aren't spaced; astreetbuilders.com: 12 ft from
    one to the next."""
    room = HOUSE + f"place room\n  building house; use {use}\n"
    job = job_for(room + f"wall-space line\n  at room; length {length}; receptacles-at {places}\n", edition)
    assert answer(job, "wall-receptacle-gap", "line") == expected


@EDITIONS
@pytest.mark.parametrize(("places", "far", "expected"), [("24 in", 39, "broken"), ("16 in, 48 in", 16, "met")])
def test_a_counter_of_63_inches(job_for: JobFor, edition: int, places: str, far: float, expected: str) -> None:
    """forums.mikeholt.com, thread 75969: one at 24 in leaves 39 in of the 63 and isn't enough; 16 in and 48 in off the wall
    are."""
    wall = f"counter top\n  at kitchen; type wall; length 63 in; receptacles-at {places}; receptacle-height 8 in\n"
    job = job_for(KITCHEN + wall, edition)
    assert farthest_point(job.graph.one("top"), job) == Length.of(far, "in")
    assert answer(job, "counter-receptacle-gap", "top") == expected


@EDITIONS
@pytest.mark.parametrize(
    ("length", "places", "height", "expected"),
    [
        ("8 ft", "2 ft, 6 ft", "20 in", "met"),
        ("8 ft", "2 ft, 6 ft 1 in", "20 in", "broken"),
        ("8 ft 1 in", "2 ft, 6 ft", "20 in", "broken"),
        ("8 ft", "2 ft, 6 ft", "20.1 in", "broken"),
        ("12 in", "none", "8 in", "broken"),
        ("11.9 in", "none", "8 in", "not-applicable"),
    ],
)
def test_counters(job_for: JobFor, edition: int, length: str, places: str, height: str, expected: str) -> None:
    """electrical-contractor.net post 88869, electricallicenserenewal.com 823 (210.52(C)(1), (C)(5)): 24 in, from 12 in on, 20
    in up; greenyplace.com: 48 in from one to the next."""
    wall = f"counter top\n  at kitchen; type wall; length {length}; receptacles-at {places}; receptacle-height {height}\n"
    assert answer(job_for(KITCHEN + wall, edition), "counter-receptacle-gap", "top") == expected


@pytest.mark.parametrize(
    ("length", "depth", "needed"),
    [
        ("54 in", "20 in", 1),  # forums.mikeholt.com 2579635 page 2, by a picture of the handbook of 2020: 7.5 sq ft
        ("9 ft", "5 ft", 3),  # forums.mikeholt.com 2555897: 45 sq ft, three
        ("6 ft", "5 ft", 3),  # forums.mikeholt.com 2579635: 30 sq ft, one for 9, one for 18, one for the remaining 3
        ("5 ft", "4 ft", 2),  # forums.mikeholt.com 2552561: 20 sq ft, one for the first 9 and one more
        ("3 ft", "3 ft", 1),
        ("3 ft 1 in", "3 ft", 2),
        ("9 ft", "3 ft", 2),
        ("9 ft 1 in", "3 ft", 3),
    ],
)
def test_islands_by_area_in_2020(job_for: JobFor, length: str, depth: str, needed: int) -> None:
    """210.52(C)(2)(a) of 2020 as forums.mikeholt.com 2539378 quotes it: one for the first 9 sq ft, one for each 18 sq ft more."""
    job = island(job_for, 2020, length, depth)
    assert receptacles_needed(job.graph.one("top"), job) == needed


def test_a_wrong_answer_about_an_island(job_for: JobFor) -> None:
    """forums.mikeholt.com 2555897 says in passing that 9 ft by 2 ft needs only one: 18 sq ft are more than the first 9."""
    job = island(job_for, 2020, "9 ft", "2 ft")
    assert receptacles_needed(job.graph.one("top"), job) == 2 != 1


@pytest.mark.parametrize(
    ("edition", "length", "depth", "needed"),
    [(2017, "24 in", "12 in", 1), (2017, "23.9 in", "12 in", 0), (2017, "24 in", "11.9 in", 0), (2017, "9 ft", "5 ft", 1),
     (2020, "20 in", "12 in", 1), (2020, "9 ft", "11.9 in", 0), (2023, "9 ft", "5 ft", 1)],
)  # fmt: skip
def test_the_smallest_islands(job_for: JobFor, edition: int, length: str, depth: str, needed: int) -> None:
    """gardencourte.com on 2017 (C)(2), (3): from 24 in by 12 in on, one; electricallicenserenewal.com 821 on 2020 (C): 12 in
    wide."""
    job = island(job_for, edition, length, depth)
    assert receptacles_needed(job.graph.one("top"), job) == needed


@pytest.mark.parametrize(
    ("edition", "said", "expected"),
    [
        (2017, "receptacles-at none; future-provision yes", "broken"),
        (2020, "receptacles-at none; future-provision yes", "broken"),
        (2023, "receptacles-at none; future-provision yes", "met"),
        (2023, "receptacles-at none; future-provision no", "broken"),
        (2023, "receptacles-at 1 ft; receptacle-height 20 in", "met"),
        (2023, "receptacles-at 1 ft; below-top 8 in; overhang 0 in; future-provision no", "broken"),
        (2023, "receptacles-at 1 ft; below-top 8 in; overhang 0 in; future-provision yes", "met"),
        (2020, "receptacles-at 1 ft; below-top 12 in; overhang 6 in", "met"),
        (2020, "receptacles-at 1 ft; below-top 12.1 in; overhang 6 in", "broken"),
        (2020, "receptacles-at 1 ft; below-top 12 in; overhang 6.1 in", "broken"),
        (2017, "receptacles-at 1 ft; below-top 12 in; overhang 6 in; no-place-above yes", "met"),
        (2017, "receptacles-at 1 ft; below-top 12 in; overhang 6 in; no-place-above no", "broken"),
    ],
)
def test_where_an_islands_receptacles_are(job_for: JobFor, edition: int, said: str, expected: str) -> None:
    """forums.mikeholt.com 2580461 and ecmag.com, islands and peninsulas (2023: only on or above, or a provision; what is
    below doesn't serve the top), gardencourte.com (2017: the exception), forums.mikeholt.com 2555897 (2020: not under more
    than 6 in)."""
    assert answer(island(job_for, edition, "3 ft", "3 ft", said), "island-receptacle-rule", "top") == expected


@pytest.mark.parametrize(
    ("edition", "at", "expected"),
    [(2020, "2 ft", "met"), (2020, "23 in", "broken"), (2017, "23 in", "met"), (2023, "23 in", "met")],
)
def test_the_outer_end_of_a_peninsula(job_for: JobFor, edition: int, at: str, expected: str) -> None:
    """210.52(C)(2)(b) of 2020, forums.mikeholt.com 2539378: one within 2 ft of the outer end; measured from the wall."""
    job = island(job_for, edition, "4 ft", "2 ft", f"receptacles-at {at}; receptacle-height 0 in", "peninsula")
    assert answer(job, "island-receptacle-rule", "top") == expected


@pytest.mark.parametrize(
    ("edition", "basin", "tub", "expected"),
    [
        (2017, "3 ft", "1 in", "met"),
        (2017, "37 in", "5 ft", "broken"),
        (2017, "1 ft", "0 in", "broken"),
        (2020, "3 ft", "3 ft", "met"),
        (2020, "3 ft", "35 in", "broken"),
        (2023, "3 ft", "3 ft", "met"),
        (2023, "37 in", "3 ft", "broken"),
        (2023, "1 ft", "35 in", "broken"),
    ],
)
def test_bathrooms(job_for: JobFor, edition: int, basin: str, tub: str, expected: str) -> None:
    """ecmweb.com, Q&A 81 (210.52(D)): 3 ft from each basin; electricallicenserenewal.com 1494 (406.9(C)): 2017 within or
    above the tub only, 3 ft from 2020 on; the exception for small rooms is held not to apply."""
    job = job_for(
        ALL + HOUSE + "place bath\n  building house; use bathroom; basins 1\ncircuit c\n  poles 1\n"
        f"receptacles r\n  at bath; circuit c; height 3 ft; distance-to-basin {basin}; distance-to-tub {tub}; opposite-tub no\n",
        edition,
    )
    assert answer(job, "bathroom-receptacle-missing", "bath") == expected


@EDITIONS
@pytest.mark.parametrize(
    ("floor", "height", "expected"), [("0 in", "6 ft 6 in", "met"), ("0 in", "79 in", "broken"), ("5 ft", "19 in", "broken")]
)
def test_front_and_back(job_for: JobFor, edition: int, floor: str, height: str, expected: str) -> None:
    """electriciantalk.com on 210.52(E)(1), with the handbook: front and back, within 6-1/2 ft of the ground, on decks too."""
    job = job_for(
        ALL + HOUSE + "place hall\n  building house\npanel p\n  at hall\ncircuit c\n  panel p; poles 1\n"
        "place front\n  outdoors yes; use yard; side front\n"
        f"place back\n  outdoors yes; use deck; side back; above-ground {floor}\n"
        f"receptacles f\n  at front; circuit c; height 2 ft\nreceptacles b\n  at back; circuit c; height {height}\n",
        edition,
    )
    assert answer(job, "outdoor-receptacle-missing", "house") == expected


@pytest.mark.parametrize(
    ("edition", "said", "expected"),
    [
        (2017, "house-distance 0 in; reached-from-inside yes", "broken"),
        (2017, "house-distance 0 in; reached-from-inside no", "not-applicable"),
        (2017, "house-distance 1 in; reached-from-inside yes", "not-applicable"),
        (2020, "house-distance 4 in; reached-from-inside no", "broken"),
        (2020, "house-distance 4.1 in; reached-from-inside yes", "not-applicable"),
        (2023, "house-distance 4 in", "broken"),
    ],
)
def test_which_decks_want_one(job_for: JobFor, edition: int, said: str, expected: str) -> None:
    """jadelearning.com, 2020 NEC 210.52(E)(3): 2017 attached and reached from inside; from 2020 within 4 in of the
    dwelling."""
    job = job_for(f"complete receptacles\nplace deck\n  outdoors yes; use deck; {said}\n", edition)
    assert answer(job, "deck-receptacle-missing", "deck") == expected


@EDITIONS
@pytest.mark.parametrize(
    ("said", "needed"),
    [
        ("use garage; vehicle-bays 3", 3),  # captaincode2017.leviton.com node 128: a three-car garage, three; 2017 already
        ("use hallway; length 21.5 ft", 1),  # learn8.cc, question 15: 21-1/2 ft, one
        ("use hallway; length 23 ft", 1),  # forums.mikeholt.com 2572847: 11 ft and 12 ft round a corner, one
        ("use hallway; length 10 ft", 1),  # forums.mikeholt.com 109222: of 10 ft or more
        ("use hallway; length 119 in", 0),
        ("use basement; finished no", 1),  # expertce.com on 210.52(G): each unfinished part
        ("use basement; finished yes", 0),
        ("use foyer; floor-area 60 sq ft", 0),  # forums.mikeholt.com 109222 on 210.52(I): more than 60 sq ft
        ("use foyer; floor-area 61 sq ft", 1),  # and walls of 3 ft or more
        ("use storage", 0),
    ],
)
def test_halls_garages_and_basements(job_for: JobFor, edition: int, said: str, needed: int) -> None:
    """210.52(G), (H), (I); sources beside each."""
    walls = (
        "wall-space a\n  at room; length 3 ft; receptacles-at none\nwall-space b\n  at room; length 35 in; receptacles-at none\n"
    )
    job = job_for(ALL + HOUSE + f"place room\n  building house; {said}\n" + walls, edition)
    assert needed_in_room(job.graph.one("room"), job) == needed


@pytest.mark.parametrize(("height", "expected"), [("5 ft 6 in", "met"), ("67 in", "broken")])
@pytest.mark.parametrize("use", ["garage; vehicle-bays 1", "hallway; length 10 ft"])
def test_not_above_five_and_a_half_feet(job_for: JobFor, use: str, height: str, expected: str) -> None:
    """captaincode2017.leviton.com node 128 (garages); forums.mikeholt.com 130379 (any that 210.52 asks for)."""
    room = f"place room\n  building house; use {use}\ncircuit c\n  poles 1\n"
    served = f"receptacles r\n  at room; circuit c; serves general; height {height}\n"
    job = job_for(ALL + HOUSE + room + served)
    assert answer(job, "garage-basement-hall-receptacle-missing", "room") == expected


@EDITIONS
@pytest.mark.parametrize(("away", "expected"), [("25 ft", "met"), ("301 in", "broken")])
def test_service_receptacles(job_for: JobFor, edition: int, away: str, expected: str) -> None:
    """ecmweb.com, maintenance receptacle, and ecmag.com, can this safety situation be fixed (210.63): 25 ft, on its level."""
    job = job_for(f"load unit\n  type air-conditioner; service-receptacle {away}\n", edition)
    assert answer(job, "service-outlet-near-equipment-missing", "unit") == expected


@pytest.mark.parametrize(
    ("edition", "said", "needed"),
    [
        (2017, "stairs; stair-risers 6", 2),  # ecmag.com, required lighting outlets, part VII: six risers or more
        (2023, "stairs; stair-risers 5", 1),  # the same page: five or fewer, one switch
        (2017, "bathroom", 1),  # ecmag.com, part II: every habitable room and bathroom
        (2020, "hallway", 1),
        (2020, "laundry", 0),
        (2023, "laundry", 1),  # leviton's guide to 2023, page 33: laundry areas added
        (2020, "attic; holds-equipment no; finished no", 0),  # ecmag.com, part VIII: used for storage, or equipment in it
        (2020, "attic; holds-equipment yes", 1),
        (2020, "crawl-space; holds-equipment yes", 1),
        (2020, "mechanical", 1),
        (2020, "clothes-closet", 0),  # forums and smartsolve.ai, question 16 f: not asked for
    ],
)
def test_lights(job_for: JobFor, edition: int, said: str, needed: int) -> None:
    """210.70(A), (C); sources beside each."""
    job = job_for(HOUSE + f"place room\n  building house; use {said}\n", edition)
    assert switches_needed(job.graph.one("room"), job) == needed


@EDITIONS
@pytest.mark.parametrize(("lit", "expected"), [(2, "met"), (1, "broken")])
def test_outside_doors(job_for: JobFor, edition: int, lit: int, expected: str) -> None:
    """howtowireahouse.com, outside codes (210.70(A)(2)): one light outside each door at grade; the garage's door doesn't
    count."""
    job = job_for(
        ALL + "building house\n  use one-family; outside-doors 2\nplace hall\n  building house\npanel p\n  at hall\n"
        "circuit c\n  panel p\nplace yard\n  outdoors yes; use yard\n"
        f"lights l\n  at yard; circuit c; switched-from 1; outside-doors {lit}\n",
        edition,
    )
    assert answer(job, "outside-door-unlit", "house") == expected


@EDITIONS
@pytest.mark.parametrize(
    ("cable", "volts", "expected"),
    [("12/2", "240 V", "met"), ("12/2", "208 V", "met"), ("12/2", "120 V", "broken"), ("12/3", "120 V", "met")],
)
def test_receptacles_are_of_their_circuits_volts(job_for: JobFor, edition: int, cable: str, volts: str, expected: str) -> None:
    # codebookcity.com on article 406: made and rated for the voltage of its circuit; forums.mikeholt.com: one for 250 V may be
    # on 208 V. 120 V on either side of a shared neutral: 210.4, from memory.
    text = f"circuit run\n  breaker 20 A; poles 2; cable {cable} copper NM-B\nreceptacles here\n  circuit run; volts {volts}\n"
    job = job_for(text, edition)
    assert answer(job, "receptacle-volts-wrong", "here") == expected


@EDITIONS
@pytest.mark.parametrize(
    ("connection", "receptacle", "expected"),
    [("cord", True, "met"), ("cord", False, "broken"), ("hard-wired", False, "not-applicable")],
)
def test_a_cord_has_a_receptacle(job_for: JobFor, edition: int, connection: str, receptacle: bool, expected: str) -> None:
    # forums.mikeholt.com, a disposer's cord without its plug in a box: 400.10(B) asks for a plug, in a receptacle outlet.
    text = f"{ALL}circuit run\n  breaker 20 A; poles 1\n" + ("receptacles here\n  circuit run\n" if receptacle else "")
    text += f"load unit\n  type disposal; circuit run; connection {connection}\n"
    assert answer(job_for(text, edition), "cord-without-receptacle", "unit") == expected
