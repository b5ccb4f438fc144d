"""GFCI and AFCI against published answers. Each check names its source.

The rules are run on small plans, so that settings, facts and the rule files are checked together. Places, voltages and ratings of
210.8(A): marselectric.com, 2023 NEC update 210.8(A) (the list of 2023); serveacademy.it, 2023 NEC changes, lectures 48884871 and
48885160 (2020 beside 2023); pdf4pro.com, 2020 NEC changes 5f868d (voltages of 2020); eaton.com, NEC 2023 updates, dwelling
requirements. The list of 2017 is from memory, but for what a check names beside it.
"""

from collections.abc import Callable

import pytest

from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
EDITIONS = (2017, 2020, 2023)
HOUSE = """complete receptacles, lights, loads, rooms
supply utility
  type utility; volts 120/240 V
building house
  use one-family
panel house-panel
  readily-accessible yes
"""
FAR = "distance-to-sink 20 ft; distance-to-tub 20 ft"


def answer(job_for: JobFor, rule: str, name: str, text: str, edition: int) -> str:
    job = job_for(HOUSE + text, edition)
    return run_rule(compile_rule(job.code.rules[rule], job.code), job.graph.one(name), job).answer


def receptacle(job_for: JobFor, room: str, what: str, edition: int, circuit: str = "poles 1; breaker 20 A") -> str:
    """What gfci-receptacle-location says of a receptacle without one."""
    text = f"place spot\n  {room}\ncircuit run\n  panel house-panel; protection none; {circuit}\n"
    text += f"receptacles outlet\n  at spot; circuit run; gfci no; {what}\n"
    return answer(job_for, "gfci-receptacle-location", "outlet", text, edition)


def by_edition(job_for: JobFor, room: str, what: str, circuit: str = "poles 1; breaker 20 A") -> str:
    """`YnN` and the like: for 2017, 2020 and 2023 whether a GFCI is required, small where the rule doesn't apply, ? if open."""
    words = {"broken": "Y", "not-applicable": "n", "undecided": "?"}
    return "".join(words[receptacle(job_for, room, what, edition, circuit)] for edition in EDITIONS)


GENERAL = f"rating 20 A; serves general; {FAR}"
INSIDE = "building house; moisture dry"


@pytest.mark.parametrize(
    ("room", "needed"),
    [
        (f"{INSIDE}; use bathroom", "YYY"),
        (f"{INSIDE}; use garage", "YYY"),
        ("outdoors yes; use yard; moisture wet", "YYY"),
        (f"{INSIDE}; use crawl-space", "YYY"),
        # pdf4pro.com 5f868d and ecmag.com, change for the better: from 2020 on finished basements too.
        (f"{INSIDE}; use basement; finished no", "YYY"),
        (f"{INSIDE}; use basement; finished yes", "nYY"),
        # serveacademy.it lecture 48885160: up to 2020 only receptacles that serve a counter, in 2023 every one of a kitchen.
        (f"{INSIDE}; use kitchen", "nnY"),
        (f"{INSIDE}; use boathouse", "YYY"),
        # ecmweb.com, code quiz, GFCI requirements in laundry areas: all three, though there is no sink.
        (f"{INSIDE}; use laundry", "YYY"),
        # marselectric.com: indoor damp and wet locations came with 2020.
        ("building house; use mechanical; moisture damp", "nYY"),
        (f"{INSIDE}; use bedroom", "nnn"),
        (f"{INSIDE}; use living", "nnn"),
        (f"{INSIDE}; use hallway", "nnn"),
        (f"{INSIDE}; use attic", "nnn"),
    ],
)
def test_places(job_for: JobFor, room: str, needed: str) -> None:
    """marselectric.com; serveacademy.it lectures 48884871 and 48885160."""
    assert by_edition(job_for, room, GENERAL) == needed


def test_kitchen_counters_in_every_edition(job_for: JobFor) -> None:
    """serveacademy.it lecture 48885160: 2020 (A)(6), where they serve the countertop."""
    assert by_edition(job_for, f"{INSIDE}; use kitchen", f"rating 20 A; serves counter; {FAR}") == "YYY"


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("what", ["sink", "tub"])
def test_six_feet(job_for: JobFor, what: str, edition: int) -> None:
    """marselectric.com (8) and (10); printreadingtrade.examzify.com, how far from the edge of a sink: 6 ft."""
    other = "tub" if what == "sink" else "sink"
    for distance, found in (("6 ft", "broken"), ("6 ft 1/8 in", "not-applicable")):
        where = f"distance-to-{what} {distance}; distance-to-{other} 20 ft; behind-door no"
        assert receptacle(job_for, f"{INSIDE}; use den", f"rating 15 A; serves general; {where}", edition) == found


def test_behind_the_door_of_a_sink_cabinet(job_for: JobFor) -> None:
    """ecmag.com, Remodel with care: the disposal's receptacle under the sink, behind a door: 2017 no, 2020 yes.

    iaeimagazine.org 2019/02/11, question 5: 2017 measures without passing a door, doorway or window.
    """
    what = "rating 20 A; serves appliance; distance-to-sink 1 ft; distance-to-tub 20 ft"
    kitchen = f"{INSIDE}; use kitchen"
    assert by_edition(job_for, kitchen, f"{what}; behind-door yes") == "nYY"
    assert by_edition(job_for, kitchen, f"{what}; behind-door no") == "YYY"
    assert by_edition(job_for, kitchen, what) == "?YY"


@pytest.mark.parametrize(
    ("volts", "rating", "poles", "needed"),
    [
        ("120 V", "15 A", 1, "YYY"),
        ("120 V", "20 A", 1, "YYY"),
        # eaton.com blog, NEC 2020 increases GFCI protection: no ratings any more, and up to 250 V.
        ("120 V", "30 A", 1, "nYY"),
        ("240 V", "15 A", 2, "nYY"),
        ("240 V", "30 A", 2, "nYY"),
        ("240 V", "50 A", 2, "nYY"),
    ],
)
def test_voltages_and_ratings(job_for: JobFor, volts: str, rating: str, poles: int, needed: str) -> None:
    """ecmag.com, change for the better, and eaton.com: dryer and range receptacles from 2020 on, by their place."""
    circuit = f"poles {poles}; breaker {rating}"
    assert by_edition(job_for, f"{INSIDE}; use garage", f"rating {rating}; volts {volts}; serves general", circuit) == needed


def test_dryer_in_a_laundry_and_range_in_a_kitchen(job_for: JobFor) -> None:
    """iaeimagazine.org 2021 September: the washer's place is what counts (210.8(A)(10)); a range's from 2023 on (A)(6)."""
    circuit = "poles 2; breaker 50 A"
    dryer = f"rating 30 A; volts 240 V; serves appliance; {FAR}"
    assert by_edition(job_for, f"{INSIDE}; use laundry", dryer, circuit) == "nYY"
    assert by_edition(job_for, f"{INSIDE}; use kitchen", f"rating 50 A; volts 240 V; serves appliance; {FAR}", circuit) == "nnY"


def test_more_than_150_volts_to_ground(job_for: JobFor) -> None:
    """pdf4pro.com 5f868d: circuits of 150 volts or less to ground; of 240 V with no neutral between, all 240 V are to ground."""
    house = HOUSE.replace("120/240 V", "240 V")
    text = "place spot\n  use garage\ncircuit run\n  panel house-panel; poles 2; protection none\n"
    text += "receptacles outlet\n  at spot; circuit run; rating 30 A; volts 240 V; serves general; gfci no\n"
    job = job_for(house + text, 2020)
    rule = compile_rule(job.code.rules["gfci-receptacle-location"], job.code)
    assert run_rule(rule, job.graph.one("outlet"), job).answer == "not-applicable"


def test_alarm_systems(job_for: JobFor) -> None:
    """serveacademy.it lecture 48884871: exempt in basements up to 2020; eaton.com: in 2023 whatever the room."""
    what = f"rating 15 A; serves security; {FAR}"
    assert by_edition(job_for, f"{INSIDE}; use basement; finished no", what) == "nnn"
    assert by_edition(job_for, f"{INSIDE}; use garage", what) == "YYn"


def test_snow_melting(job_for: JobFor) -> None:
    """iaeimagazine.org 2021 September: on a circuit of its own, and (210.8(A) exception no. 1) not readily accessible."""
    yard = "outdoors yes; use yard; moisture wet"
    assert by_edition(job_for, yard, "rating 20 A; serves snow-melting; readily-accessible no") == "nnn"
    assert by_edition(job_for, yard, "rating 20 A; serves snow-melting; readily-accessible yes") == "YYY"


def test_receptacles_for_servicing(job_for: JobFor) -> None:
    """electricallicenserenewal.com section 811: those of 210.63 from 2020 on, in an attic as anywhere (210.8(E))."""
    attic = f"{INSIDE}; use attic"
    assert by_edition(job_for, attic, f"rating 20 A; serves service; {FAR}") == "nYY"


@pytest.mark.parametrize("edition", EDITIONS)
def test_readily_accessible(job_for: JobFor, edition: int) -> None:
    """mikeholt.com newsletter 2136, A1: reached without climbing over or removing obstacles, and without a ladder."""
    for reached, found in (("yes", "met"), ("no", "broken")):
        text = f"place spot\n  {INSIDE}; use laundry\ncircuit run\n  poles 1; protection none\n"
        text += f"receptacles it\n  at spot; circuit run; rating 20 A; serves laundry; gfci yes; gfci-reachable {reached}\n"
        assert answer(job_for, "gfci-hard-to-reach", "it", text, edition) == found


def test_wet_bars(job_for: JobFor) -> None:
    """serveacademy.it lecture 48885160: a wet bar's receptacles in 2023 however far from the sink they are."""
    bar = f"{INSIDE}; use recreation\ncounter bar\n  at spot; type wall; sink"
    assert by_edition(job_for, f"{bar} yes", GENERAL) == "nnY"
    assert by_edition(job_for, f"{bar} no", GENERAL) == "nnn"


@pytest.mark.parametrize(
    ("kind", "volts", "needed"),
    [
        # iaeimagazine.org 2019/02/11, question 8, and forums.mikeholt.com 2559641: dwelling dishwashers already in 2017.
        ("dishwasher", "120 V", "YYY"),
        # inspector-iq.com 3255: sump pumps from 2020 on.
        ("sump-pump", "120 V", "nYY"),
        # captaincode2023.leviton.com node 308 and eaton.rs, 210.8(D): items (8) to (12) of 2023.
        ("range", "240 V", "nnY"),
        ("oven", "240 V", "nnY"),
        ("cooktop", "240 V", "nnY"),
        ("dryer", "240 V", "nnY"),
        ("microwave", "120 V", "nnY"),
        ("water-heater", "240 V", "nnn"),
        ("disposal", "120 V", "nnn"),
    ],
)
def test_appliances(job_for: JobFor, kind: str, volts: str, needed: str) -> None:
    text = f"circuit run\n  panel house-panel; breaker 50 A; poles 2; protection none\nload it\n  type {kind}; circuit run"
    text += f"; volts {volts}; connection hard-wired; gfci no\n"
    words = {"broken": "Y", "not-applicable": "n"}
    found = [words[answer(job_for, "gfci-appliance-or-crawl-light", "it", text, edition)] for edition in EDITIONS]
    assert "".join(found) == needed


@pytest.mark.parametrize("edition", EDITIONS)
def test_lights_of_a_crawl_space(job_for: JobFor, edition: int) -> None:
    """iaeimagazine.org 2019/02/11, question 3: lighting outlets up to 120 V in crawl spaces."""
    for volts, found in (("120 V", "broken"), ("277 V", "not-applicable")):
        text = f"place crawl\n  {INSIDE}; use crawl-space\ncircuit run\n  poles 1; volts {volts}; protection none\n"
        text += "lights it\n  at crawl; circuit run; gfci no\n"
        assert answer(job_for, "gfci-appliance-or-crawl-light", "it", text, edition) == found


def outdoors(job_for: JobFor, kind: str, breaker: int, date: str, edition: int, more: str = "") -> str:
    text = f'plan "It"\n  edition {edition}; date {date}\n'
    text += "supply utility\n  type utility; volts 120/240 V\nplace yard\n  outdoors yes; use yard\n"
    text += f"circuit run\n  breaker {breaker} A; poles 2; protection none\n"
    text += f"load unit\n  at yard; type {kind}; circuit run; volts 240 V; connection hard-wired; gfci no{more}\n"
    job = job_for(text, edition)
    return run_rule(compile_rule(job.code.rules["gfci-outdoor-equipment"], job.code), job.graph.one("unit"), job).answer


@pytest.mark.parametrize("edition", [2020, 2023])
def test_fifty_amperes_outdoors(job_for: JobFor, edition: int) -> None:
    """electricallicenserenewal.com section 812: 240 V single-phase, 120 V to ground, up to 50 A; well pumps too."""
    assert outdoors(job_for, "well-pump", 50, "2021-05-01", edition) == "broken"
    assert outdoors(job_for, "well-pump", 60, "2021-05-01", edition) == "not-applicable"


@pytest.mark.parametrize(
    ("date", "edition", "drive", "found"),
    [
        # thebuildingcodeforum.com 34486, the text with interim amendment 20-13: only units with power conversion, to 2023-01-01.
        ("2022-12-31", 2020, "yes", "not-applicable"),
        ("2023-01-01", 2020, "yes", "broken"),
        ("2022-12-31", 2020, "no", "broken"),
        # forums.mikeholt.com 2570000: exception no. 2 of 2023, listed equipment, expires 2026-09-01.
        ("2026-08-31", 2023, "yes", "not-applicable"),
        ("2026-08-31", 2023, "no", "not-applicable"),
        ("2026-09-01", 2023, "no", "broken"),
    ],
)
def test_heat_pumps_and_their_dates(job_for: JobFor, date: str, edition: int, drive: str, found: str) -> None:
    for kind in ("heat-pump", "air-conditioner"):
        assert outdoors(job_for, kind, 30, date, edition, f"; variable-speed {drive}") == found


def test_a_heat_pump_at_a_house_is_asked_for_its_place(job_for: JobFor) -> None:
    """Ours: a building may mean its wall outside; nothing is cleared by that."""
    text = "circuit run\n  breaker 30 A; poles 2; protection none\nload unit\n  at house; circuit run; volts 240 V; gfci no\n"
    for kind, found in (("heat-pump", "undecided"), ("water-heater", "not-applicable")):
        assert answer(job_for, "gfci-outdoor-equipment", "unit", f"{text}  type {kind}\n", 2020) == found


def test_the_rule_for_outdoor_equipment_began_in_2020(job_for: JobFor) -> None:
    """electricallicenserenewal.com section 812: new in 2020."""
    assert "gfci-outdoor-equipment" not in job_for(HOUSE, 2017).code.rules


AFCI_ROOMS = ["kitchen", "dining", "living", "bedroom", "den", "recreation", "sunroom", "clothes-closet", "hallway", "laundry"]
OTHER_ROOMS = ["bathroom", "garage", "basement", "attic", "crawl-space"]


def arc(job_for: JobFor, room: str, breaker: int, edition: int, protection: str = "none") -> str:
    text = f"place spot\n  building house; use {room}; finished no\ncircuit run\n"
    text += f"  panel house-panel; breaker {breaker} A; poles 1; protection {protection}\n"
    text += "lights it\n  at spot; circuit run; switched-from 0\n"
    return answer(job_for, "afci-room-circuit", "run", text, edition)


@pytest.mark.parametrize("edition", EDITIONS)
def test_rooms_with_afci(job_for: JobFor, edition: int) -> None:
    """serveacademy.it lecture 48886415: the rooms of 2020; truyenhinhcapsongthu.net, 210.12: kitchens and laundries since 2014.

    greenyplace.com: not in unfinished basements, garages, attics, bathrooms, nor outdoors.
    """
    assert {room: arc(job_for, room, 15, edition) for room in AFCI_ROOMS} == dict.fromkeys(AFCI_ROOMS, "broken")
    assert {room: arc(job_for, room, 15, edition) for room in OTHER_ROOMS} == dict.fromkeys(OTHER_ROOMS, "not-applicable")
    assert arc(job_for, "bedroom", 15, edition, "afci") == "met"


def test_breakers_with_afci(job_for: JobFor) -> None:
    """The same sources: 15 and 20 A; the 10 A of 2023 is from memory of 210.12(B)."""
    found = {breaker: [arc(job_for, "den", breaker, edition) for edition in EDITIONS] for breaker in (10, 15, 20, 30)}
    no, yes = "not-applicable", "broken"
    assert found == {10: [no, no, yes], 15: [yes] * 3, 20: [yes] * 3, 30: [no] * 3}
