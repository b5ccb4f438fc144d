"""Plans as an examiner meets them: finished basements, switches away from their lights,
bathroom circuits by edition, damp rooms. The source stands at each check."""

from collections.abc import Callable

import pytest

from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
EDITIONS = (2017, 2020, 2023)
WORDS = {"met": "m", "broken": "B", "undecided": "?", "not-applicable": "n"}
HOUSE = """complete receptacles, lights, loads, rooms, circuits, service, feeders
supply utility
  type utility; volts 120/240 V
building house
  use one-family; construction new; outside-doors 1
place hall
  building house; use hallway; moisture dry
place bath
  building house; use bathroom; basins 1; tub no
place other-bath
  building house; use bathroom; basins 1; tub no
place dining
  building house; use dining
place kitchen
  building house; use kitchen
panel house-panel
  at hall; readily-accessible yes
circuit run
  panel house-panel; breaker 20 A; poles 1; use general; protection none
circuit own
  panel house-panel; breaker 20 A; poles 1; use general; protection none
"""
FAR = "distance-to-sink 20 ft; distance-to-tub 20 ft"


def answers(job_for: JobFor, rule: str, name: str, text: str) -> str:
    """What the rule says in 2017, 2020 and 2023: m met, B broken, ? undecided, n not applicable, - not in that edition."""
    found = ""
    for edition in EDITIONS:
        job = job_for(HOUSE + text, edition)
        if rule not in job.code.rules:
            found += "-"
            continue
        found += WORDS[run_rule(compile_rule(job.code.rules[rule], job.code), job.graph.one(name), job).answer]
    return found


@pytest.mark.parametrize("moisture", ["damp", "wet", "dry"])
def test_covers_in_damp_rooms(job_for: JobFor, moisture: str) -> None:
    """406.9(A) (outdoors under a roof or in other damp locations) and (B) (wet locations), from memory: rooms too."""
    text = f"place spot\n  building house; use mechanical; moisture {moisture}\n"
    text += "receptacles it\n  at spot; circuit run; rating 20 A; weather-resistant no; cover none\n"
    found = "nnn" if moisture == "dry" else "BBB"
    assert answers(job_for, "outdoor-receptacle-unprotected", "it", text) == found


@pytest.mark.parametrize(
    ("load", "expected"),
    [
        ("", "BBB"),
        ("load one\n  type dishwasher; circuit run; gfci no\n", "BBB"),
        ("load one\n  type dishwasher; circuit run; gfci yes\n", "BnB"),
        ("load one\n  type dishwasher; circuit run\n", "B?B"),
    ],
)
def test_the_receptacle_of_a_dishwasher(job_for: JobFor, load: str, expected: str) -> None:
    """iaeimagazine.org 2019/02/11, question 8 (2017: the outlet of a dishwasher); captaincode2020.leviton.com node 243 (2020:
    unless it is built in, 422.5(B)(3) to (5))."""
    spot = "place spot\n  building house; use pantry; moisture dry\n"
    one = spot + f"receptacles it\n  at spot; circuit run; rating 20 A; serves dishwasher; gfci no; {FAR}\n"
    assert answers(job_for, "gfci-receptacle-location", "it", one + load) == expected


def test_what_is_planned_has_no_outlet_yet(job_for: JobFor) -> None:
    """Ours, as in gfci-outdoor-equipment: a load that is put in later is judged then."""
    one = "load it\n  at kitchen; type dishwasher; circuit run; volts 120 V; connection hard-wired; gfci no; planned {}\n"
    assert answers(job_for, "gfci-appliance-or-crawl-light", "it", one.format("yes")) == "nnn"
    assert answers(job_for, "gfci-appliance-or-crawl-light", "it", one.format("no")) == "BBB"


@pytest.mark.parametrize("use", ["basement", "attic"])
def test_a_finished_basement_says_what_it_is(job_for: JobFor, use: str) -> None:
    """serveacademy.it lecture 48886415 and sciemce.com (404.2(C)): recreation rooms, bedrooms and similar ones, wherever."""
    spot = f"place spot\n  building house; use {use}; finished {{}}\nlights it\n  at spot; circuit run; switched-from 1\n"
    spot += "  switch-neutral no; switch-at spot\ncircuit piped\n  cable 12/2 copper NM-B\n"
    for finished, found in (("yes", "???"), ("no", "nnn")):
        assert answers(job_for, "afci-room-circuit", "run", spot.format(finished)) == found
    spot = spot.replace("circuit run;", "circuit piped;")
    for finished, found in (("yes", "???"), ("no", "nnn")):
        assert answers(job_for, "switch-box-without-neutral", "it", spot.format(finished)) == found


@pytest.mark.parametrize(
    ("light", "expected"),
    [
        ("switched-from 1; switch-at hall", "BBB"),
        ("switched-from 1; switch-at bath", "nnn"),
        ("switched-from 2; switch-at bath, hall", "BBB"),
        ("switched-from 0; automatic yes", "nnn"),
        ("switched-from 1", "???"),
    ],
)
def test_a_switch_in_a_room_is_a_device_there(job_for: JobFor, light: str, expected: str) -> None:
    """forums.mikeholt.com, thread 122966, prints 210.12(A) since 2014: outlets or devices; floodlights of a shed switched from
    the house want it."""
    text = "place yard\n  outdoors yes; use yard\n"
    for at in ("yard", "bath"):
        assert answers(job_for, "afci-room-circuit", "run", f"{text}lights it\n  at {at}; circuit run; {light}\n") == expected


def test_lights_of_an_outbuilding_on_its_own_panel(job_for: JobFor) -> None:
    """Ours: nobody is asked where its switches are; but on a circuit from the house they are."""
    shed = "building shed\n  use shed\nplace spot\n  building shed; use storage\npanel shed-panel\n  at spot\n"
    shed += (
        "circuit far\n  panel {}; breaker 20 A; poles 1; protection none\nlights it\n  at spot; circuit far; switched-from 1\n"
    )
    assert answers(job_for, "afci-room-circuit", "far", shed.format("shed-panel")) == "nnn"
    assert answers(job_for, "afci-room-circuit", "far", shed.format("house-panel")) == "???"


HALL_LIGHT = "lights light\n  at hall; circuit run\n"
BASIN = "receptacles it\n  at bath; circuit own; serves basin\n"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # A receptacle within 3 ft of the basin is the one that 210.52(D) asks for, whatever it is said to serve.
        ("receptacles it\n  at bath; circuit run; serves general; distance-to-basin 3 ft\n", "BBB"),
        ("receptacles it\n  at bath; circuit run; serves general; distance-to-basin 37 in\n", "nnn"),
        ("receptacles it\n  at bath; circuit run; serves general\n", "???"),
        # ecmweb.com 21246942; hanaleikauaivacation.com, which device in bathroom: from 2020 on no other receptacles for several.
        (f"{BASIN}receptacles far\n  at other-bath; circuit own; serves general; distance-to-basin 8 ft\n", "mBB"),
        (f"{BASIN}receptacles far\n  at other-bath; circuit own; serves basin\n", "mmm"),
        (f"{BASIN}receptacles far\n  at bath; circuit own; serves general\n", "mmm"),
        # What is plugged in is no outlet.
        (
            f"{BASIN}receptacles far\n  at other-bath; circuit own; serves basin\n"
            "load dryer\n  at bath; circuit own; type other; connection cord\n",
            "mmm",
        ),
    ],
)
def test_bathroom_circuits(job_for: JobFor, text: str, expected: str) -> None:
    """210.52(D), 210.11(C)(3); the source stands at each."""
    assert answers(job_for, "bathroom-circuit-missing", "bath", text + HALL_LIGHT) == expected


def test_a_door_opener_is_plugged_in(job_for: JobFor) -> None:
    """210.11(C)(4): outlets; an opener with a cord hangs on a receptacle, one that is wired in is an outlet."""
    text = "place garage\n  building house; use garage; vehicle-bays 2\n"
    text += "receptacles bays\n  at garage; circuit run; serves vehicle-bay; count 2\n"
    text += "load opener\n  at garage; circuit run; type motor; connection {}\n"
    assert answers(job_for, "garage-circuit-missing", "garage", text.format("cord")) == "mmm"
    assert answers(job_for, "garage-circuit-missing", "garage", text.format("hard-wired")) == "BBB"


def test_a_basin_receptacle_within_reach(job_for: JobFor) -> None:
    """210.52(4), from memory: one more than 5-1/2 ft up is none of those required."""
    text = "receptacles it\n  at bath; circuit run; serves basin; distance-to-basin 1 ft; height {}\n"
    assert answers(job_for, "bathroom-receptacle-missing", "bath", text.format("5 ft 6 in")) == "mmm"
    assert answers(job_for, "bathroom-receptacle-missing", "bath", text.format("5 ft 7 in")) == "BBB"


@pytest.mark.parametrize(
    ("there", "expected"), [("height 3 ft", "mmm"), ("height 6 ft", "BBB"), ("height 3 ft; volts 240 V", "BBB"), ("", "BBB")]
)
def test_two_basins_want_a_receptacle_that_is_there(job_for: JobFor, there: str, expected: str) -> None:
    """210.52(D): a distance alone is no receptacle."""
    text = "place wash\n  building house; use bathroom; basins 2; basin-receptacle 2 ft; tub no\n"
    text += f"receptacles it\n  at wash; circuit run; serves basin; {there}\n" if there else ""
    assert answers(job_for, "bathroom-receptacle-missing", "wash", text) == expected


@pytest.mark.parametrize(
    ("what", "expected"),
    [("switched yes", "mmm"), ("switched no", "BBB"), ("switched yes; count 2", "???"), ("count 1", "???")],
)
def test_lamps_of_the_dining_room(job_for: JobFor, what: str, expected: str) -> None:
    """210.52(B)(1) exception no. 1, from memory: one that a wall switch turns on, outside the kitchen, from a general circuit."""
    text = "circuit a\n  panel house-panel; breaker 20 A; poles 1; use small-appliance\n"
    text += "circuit b\n  panel house-panel; breaker 20 A; poles 1; use small-appliance\n"
    text += "".join(f"receptacles {c}-top\n  at kitchen; circuit {c}; serves counter\n" for c in "ab")
    text += f"receptacles lamp\n  at dining; circuit run; serves general; {what}\nlights light\n  at hall; circuit own\n"
    assert answers(job_for, "kitchen-circuits-missing-or-shared", "house", text) == expected


def test_one_wall_is_not_all_of_them(job_for: JobFor) -> None:
    """Law: of a list that may have more members, every one is known only under `complete rooms`."""
    for line, found in ((HOUSE, "met"), (HOUSE.replace(", rooms", ""), "undecided")):
        job = job_for(
            line + "place den\n  building house; use den\nwall-space north\n  at den; length 6 ft; receptacles-at 3 ft\n"
        )
        rule = compile_rule(job.code.rules["room-receptacle-gap"], job.code)
        assert run_rule(rule, job.graph.one("den"), job).answer == found


def test_a_foyer_wall_without_one_is_known_though_more_may_come(job_for: JobFor) -> None:
    """210.52(I): each wall space of 3 ft or more in a foyer of more than 60 sq ft."""
    foyer = "place foyer\n  building house; use foyer; floor-area {} sq ft\n"
    foyer += "wall-space north\n  at foyer; length {}; receptacles-at none\n"
    rule = "garage-basement-hall-receptacle-missing"
    for house in (HOUSE, HOUSE.replace(", rooms", "")):
        job = job_for(house + foyer.format(61, "3 ft"))
        assert run_rule(compile_rule(job.code.rules[rule], job.code), job.graph.one("foyer"), job).answer == "broken"
    assert answers(job_for, rule, "foyer", foyer.format(60, "3 ft")) == "nnn"
    assert answers(job_for, rule, "foyer", foyer.format(61, "35 in")) == "nnn"


@pytest.mark.parametrize(
    ("kind", "volts", "built_in", "expected"),
    [
        ("dishwasher", "120 V", "yes", "BmB"),
        ("dishwasher", "120 V", "no", "mmm"),
        ("dryer", "240 V", "yes", "nnB"),
        ("sump-pump", "120 V", "yes", "nmB"),
    ],
)
def test_a_gfci_inside_the_appliance(job_for: JobFor, kind: str, volts: str, built_in: str, expected: str) -> None:
    """captaincode2020.leviton.com node 243: in 2020 one built in does (422.5(B)(3) to (5)); captaincode2023.leviton.com node 308:
    in 2023 the branch circuit or outlet is protected."""
    text = "circuit big\n  panel house-panel; breaker 50 A; poles 2; protection none\n"
    text += f"load it\n  at kitchen; type {kind}; circuit big; volts {volts}; connection hard-wired; gfci yes"
    assert answers(job_for, "gfci-appliance-or-crawl-light", "it", f"{text}; gfci-built-in {built_in}\n") == expected
    silent = {"BmB": "?m?", "mmm": "?m?", "nnB": "nn?", "nmB": "nm?"}[expected]
    assert answers(job_for, "gfci-appliance-or-crawl-light", "it", f"{text}\n") == silent


def test_a_charger_with_a_gfci_beside_it(job_for: JobFor) -> None:
    """625.54, 210.8(F): what a charger has inside protects the car's side; a GFCI at its disconnect protects the outlet."""
    text = "place drive\n  outdoors yes; use driveway\ncircuit big\n  panel house-panel; breaker 50 A; poles 2; protection none\n"
    text += "load it\n  at drive; type car-charger; circuit big; volts 240 V; connection hard-wired; gfci yes"
    for said, found in (("; gfci-built-in no", "-mm"), ("; gfci-built-in yes", "-BB"), ("", "-??")):
        assert answers(job_for, "gfci-outdoor-equipment", "it", f"{text}{said}\n") == found


@pytest.mark.parametrize(("said", "found"), [("", "B"), ("existing no", "B"), ("existing yes", "n")])
def test_what_was_there_before_may_stay(job_for: JobFor, said: str, found: str) -> None:
    """90.4 and 406.4(D), from memory: the code in force asks it of what is put in or replaced; what stays, stays."""
    for circuit, expected in (("", "B"), ("; existing yes", "?" if not said else found)):
        text = "place garage\n  building house; use garage; moisture dry\n"
        text += f"circuit old\n  panel house-panel; poles 1; protection none{circuit}\n"
        text += (
            "receptacles it\n  at garage; circuit old; rating 15 A; serves general; gfci no; height 3 ft; tamper-resistant no\n"
        )
        text += f"  {said}\n" if said else ""
        assert answers(job_for, "gfci-receptacle-location", "it", text) == expected * 3
        assert answers(job_for, "receptacle-not-tamper-resistant", "it", text) == expected * 3
        text = text.replace("building house; use garage; moisture dry", "outdoors yes; use yard; moisture wet") + "  cover none\n"
        assert answers(job_for, "outdoor-receptacle-unprotected", "it", text) == expected.replace("n", "m") * 3


SERVICE = """complete service, feeders, circuits, receptacles, lights, loads
supply grid
  type utility
building home
  use one-family; construction {}
place inside
  building home; use hallway
place outside
  outdoors yes; use yard
disconnect main
  at outside; mounted-on home; breaker 200 A; {}
service drop
  from grid; to main; owner customer{}
feeder line
  from main; to panel
panel panel
  at inside; main 200 A; {}
circuit branch
  panel panel
lights lamp
  at inside; circuit branch
"""
DEVICE, NO_DEVICE = "surge-protection type-2; surge-rating 10 kA", "surge-protection none"


@pytest.mark.parametrize(
    ("construction", "main", "service", "panel", "expected"),
    [
        # electricallicenserenewal.com section 1440 and captaincode2023.leviton.com node 318 (215.18): at the end of the feeder.
        ("new", DEVICE, "", NO_DEVICE, "-mB"),
        ("new", NO_DEVICE, "", DEVICE, "-mm"),
        ("new", NO_DEVICE, "", NO_DEVICE, "-BB"),
        # captaincode2020.leviton.com node 241 (230.67(D)): also where service equipment is replaced.
        ("existing", NO_DEVICE, "; existing no", NO_DEVICE, "-BB"),
        ("existing", NO_DEVICE, "; existing yes", NO_DEVICE, "-nn"),
        ("existing", NO_DEVICE, "", NO_DEVICE, "-??"),
        ("existing", NO_DEVICE, "", DEVICE, "-mm"),
    ],
)
def test_surge_devices(job_for: JobFor, construction: str, main: str, service: str, panel: str, expected: str) -> None:
    """The source stands at each."""
    found = ""
    for edition in EDITIONS:
        job = job_for(SERVICE.format(construction, main, service, panel), edition)
        rule = job.code.rules.get("surge-device-missing")
        found += WORDS[run_rule(compile_rule(rule, job.code), job.graph.one("home"), job).answer] if rule else "-"
    assert found == expected


@pytest.mark.parametrize(
    ("breaker", "load", "open_answer", "whole_answer"),
    [
        # 625.41: 125 % of 48 A is 60 A; no further load makes 50 A enough.
        (50, "type car-charger; amps 48 A", "broken", "broken"),
        (60, "type car-charger; amps 48 A", "undecided", "met"),
        # 422.13: a water heater with a tank at 125 %, 18.75 A of 4.5 kW at 240 V is 23.4 A.
        (20, "type water-heater; rating 4.5 kW; tankless no", "broken", "broken"),
        (25, "type water-heater; rating 4.5 kW; tankless no", "undecided", "met"),
        # 424.4(B): space heat at 125 %, 17 A is 21.25 A.
        (20, "type baseboard-heat; amps 17 A", "broken", "broken"),
        (20, "type baseboard-heat; amps 16 A", "undecided", "met"),
    ],
)
def test_more_loads_never_mend_a_breaker(job_for: JobFor, breaker: int, load: str, open_answer: str, whole_answer: str) -> None:
    """Law, and the sections beside each: what known loads ask for is a lower bound, whatever else may be on the circuit."""
    text = f"circuit big\n  panel house-panel; breaker {breaker} A; poles 2; cable 6/3 copper NM-B; protection none\n"
    text += f"load it\n  at hall; circuit big; volts 240 V; connection hard-wired; {load}\n"
    for house, expected in ((HOUSE, whole_answer), (HOUSE.replace(", loads", ""), open_answer)):
        job = job_for(house + text)
        rule = "car-charger-circuit-wrong" if "charger" in load else "large-appliance-circuit-wrong"
        assert run_rule(compile_rule(job.code.rules[rule], job.code), job.graph.one("it"), job).answer == expected
