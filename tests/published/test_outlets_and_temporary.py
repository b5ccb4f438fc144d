"""Shutters, weather covers, switch neutrals, closet lights and power for building work, against published answers.

Each check names its source. The rules are run on small plans, so that settings, facts and the rule files are checked together.
"""

from collections.abc import Callable

import pytest

from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.facts.light_places import storage_distance_needed
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
EDITIONS = (2017, 2020, 2023)
HOUSE = """building house
  use one-family
panel house-panel
  bus 200 A
circuit run
  panel house-panel; breaker 20 A; poles 1; protection none
"""


def answer(job_for: JobFor, rule: str, name: str, text: str, edition: int = 2020) -> str:
    job = job_for(text, edition)
    return run_rule(compile_rule(job.code.rules[rule], job.code), job.graph.one(name), job).answer


def shutters(job_for: JobFor, use: str, what: str, edition: int = 2020) -> str:
    text = (
        f"{HOUSE}place spot\n  building house; use {use}\nreceptacles it\n  at spot; circuit run; tamper-resistant no; {what}\n"
    )
    return answer(job_for, "receptacle-not-tamper-resistant", "it", text, edition)


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("what", "found"),
    [
        # p3-inc.com entry 109 (2017): 15 and 20 A, 125 and 250 V, not above 5 1/2 ft.
        ("rating 15 A; height 16 in; serves general", "broken"),
        ("rating 20 A; height 16 in; serves general", "broken"),
        ("rating 20 A; volts 240 V; height 16 in; serves general", "broken"),
        # learn8.ai, 406.12 of 2023: not 30 A.
        ("rating 30 A; height 16 in; serves general", "not-applicable"),
        ("rating 15 A; height 66 in; serves general", "broken"),
        ("rating 15 A; height 66.1 in; serves general", "not-applicable"),
        # forums.mikeholt.com 105589, exception (3): a single one, or a duplex for two, in the space of appliances that stay.
        ("rating 15 A; height 16 in; serves refrigerator; single yes", "not-applicable"),
        ("rating 15 A; height 16 in; serves refrigerator; single no", "broken"),
        ("rating 15 A; height 16 in; serves refrigerator, dishwasher; single no", "not-applicable"),
    ],
)
def test_shutters(job_for: JobFor, what: str, found: str, edition: int) -> None:
    assert shutters(job_for, "bedroom", what, edition) == found


@pytest.mark.parametrize(
    ("use", "found"),
    [
        # ecmweb.com, 2011 changes, page 19, and Q&A 100: the areas of 210.52.
        ("kitchen", ["broken"] * 3),
        ("bathroom", ["broken"] * 3),
        ("laundry", ["broken"] * 3),
        ("garage", ["broken"] * 3),
        ("hallway", ["broken"] * 3),
        # life-improver.com: an unfinished attic is none of them; since 2020 every place of a dwelling counts (from memory).
        ("attic", ["not-applicable", "broken", "broken"]),
    ],
)
def test_rooms_with_shutters(job_for: JobFor, use: str, found: list[str]) -> None:
    what = "rating 15 A; height 16 in; serves general"
    assert [shutters(job_for, use, what, edition) for edition in EDITIONS] == found


def weather(job_for: JobFor, moisture: str, what: str, edition: int = 2020) -> str:
    text = f"{HOUSE}place spot\n  outdoors yes; moisture {moisture}\nreceptacles it\n  at spot; circuit run; {what}\n"
    return answer(job_for, "outdoor-receptacle-unprotected", "it", text, edition)


@pytest.mark.parametrize("edition", EDITIONS)
def test_covers(job_for: JobFor, edition: int) -> None:
    """ecmweb.com 55285496 (406.9(B)(1)): in the wet, weatherproof with a plug in it, and marked WR, at 15 and 20 A.

    doityourself.com 611290 (a wide covered porch): damp, so WR and a cover, no extra-duty hood.
    """
    small = "rating 20 A; serves general; weather-resistant"
    assert weather(job_for, "wet", f"{small} yes; cover in-use", edition) == "met"
    assert weather(job_for, "wet", f"{small} yes; cover weatherproof", edition) == "broken"
    assert weather(job_for, "wet", f"{small} no; cover in-use", edition) == "broken"
    assert weather(job_for, "damp", f"{small} yes; cover weatherproof", edition) == "met"
    assert weather(job_for, "damp", f"{small} yes; cover none", edition) == "broken"
    assert weather(job_for, "damp", f"{small} no; cover weatherproof", edition) == "broken"


def test_a_published_answer_that_needs_no_cover_under_a_roof_is_wrong(job_for: JobFor) -> None:
    """rosendin-code.com, "in use cover" (2011): no cover under a roofed porch. The text of 406.9(A) asks for one there.

    Its text is on inspectionnews.net 1932 (there 406.8): outdoors protected from the weather, weatherproof when covered.
    """
    assert weather(job_for, "damp", "rating 20 A; serves general; weather-resistant yes; cover none") == "broken"


def test_larger_receptacles_in_the_rain(job_for: JobFor) -> None:
    """zephyrhills archive 62762, page 34: one whose load runs unattended needs the larger cover, a tool's doesn't."""
    big = "rating 50 A; volts 240 V; cover weatherproof; serves"
    assert weather(job_for, "wet", f"{big} car") == "broken"
    assert weather(job_for, "wet", f"{big} general") == "undecided"
    assert weather(job_for, "damp", f"{big} general") == "met"


@pytest.mark.parametrize("edition", EDITIONS)
def test_neutrals_at_switches(job_for: JobFor, edition: int) -> None:
    """sciemce.com, 404.2(C): not in pipe; not for garages or unfinished basements; habitable rooms, baths, halls, stairs are."""
    found = {}
    for use in ("bedroom", "bathroom", "hallway", "stairs", "garage", "basement"):
        text = f"building home\n  use one-family\nplace spot\n  building home; use {use}; finished no\n"
        text += "circuit cable-run\n  cable 14/2 copper NM-B\n"
        text += "raceway pipe\n  type EMT\ncircuit pipe-run\n  raceway pipe; hot 1 x 14 AWG copper THWN-2\n"
        text += "".join(
            f"lights by-{way}\n  at spot; circuit {way}-run; switched-from 1; switch-neutral no\n" for way in ("cable", "pipe")
        )
        found[use] = [answer(job_for, "switch-box-without-neutral", f"by-{way}", text, edition) for way in ("cable", "pipe")]
    living, other = ["broken", "not-applicable"], ["not-applicable", "not-applicable"]
    assert found == {
        **dict.fromkeys(("bedroom", "bathroom", "hallway", "stairs"), living),
        **dict.fromkeys(("garage", "basement"), other),
    }


def closet(job_for: JobFor, kind: str, inches: float, edition: int = 2020) -> str:
    text = f"place closet\n  use clothes-closet\nlights it\n  at closet; type {kind}; distance-to-storage {inches} in\n"
    return answer(job_for, "closet-light-too-close", "it", text, edition)


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(("kind", "least"), [("enclosed", 12), ("recessed", 6), ("fluorescent", 6)])
def test_closet_lights(job_for: JobFor, kind: str, least: int, edition: int) -> None:
    """mcgarryandmadsen.com 2013-11-30: 12 in on the surface, 6 in recessed, 6 in fluorescent.

    ecmweb.com, code quiz of the day: 6 in for surface-mounted fluorescent lights. codebookcity.com, quiz 410-3: 12 in.
    """
    assert closet(job_for, kind, least, edition) == "met"
    assert closet(job_for, kind, least - 0.1, edition) == "broken"


def test_a_published_clearance_of_eight_inches_is_wrong(job_for: JobFor) -> None:
    """codebookcity.com, quiz 410-3, answer 4, prints 8 in for 410.16(C)(4), recessed fluorescent lights, where it is 6 in.

    6 in: mcgarryandmadsen.com 2013-11-30.
    """
    job = job_for("place closet\n  use clothes-closet\nlights it\n  at closet; type recessed\n")
    assert storage_distance_needed(job.graph.one("it"), job).within("in") == 6
    assert closet(job_for, "recessed", 7) == "met"


@pytest.mark.parametrize("edition", EDITIONS)
def test_what_may_not_be_in_a_closet(job_for: JobFor, edition: int) -> None:
    """mikeholt.com newsletter 2397, A1: no open or half open lamps, nothing that hangs; what is marked for it may be inside."""
    assert [closet(job_for, kind, 100, edition) for kind in ("bare", "pendant")] == ["broken", "broken"]
    assert closet(job_for, "in-storage", 0, edition) == "met"


POLE = "complete lights\npanel pole-panel\n  temporary yes\ncircuit run\n  panel pole-panel; poles {}; protection {}\n"


def work(job_for: JobFor, what: str, protection: str = "none", poles: int = 1, edition: int = 2020, more: str = "") -> str:
    text = POLE.format(poles, protection) + f"receptacles it\n  circuit run; {what}\n{more}"
    return answer(job_for, "temporary-receptacle-unprotected", "it", text, edition)


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("rating", [15, 20, 30])
def test_receptacles_for_building_work(job_for: JobFor, rating: int, edition: int) -> None:
    """nssltd.com, 2023 code year, 590.6(A): 125 V up to 30 A need a GFCI; a program of tests doesn't stand in for it."""
    assert work(job_for, f"rating {rating} A", "gfci", edition=edition) == "met"
    assert work(job_for, f"rating {rating} A; gfci no; grounds-tested yes", edition=edition) == "broken"


def test_fifty_amperes_on_a_pole(job_for: JobFor) -> None:
    """forums.mikeholt.com 134201 (590.6(B)): a GFCI or the written program of tests."""
    what = "rating 50 A; volts 240 V; gfci no; grounds-tested"
    assert work(job_for, f"{what} yes", poles=2) == "met"
    assert work(job_for, f"{what} no", poles=2) == "broken"


def test_lights_on_the_same_circuit(job_for: JobFor) -> None:
    """ecmweb.com, code Q&A 59 (then 527.4(D)): temporary lights not on the circuit of receptacles."""
    assert work(job_for, "rating 20 A", "gfci", more="lights site\n  circuit run\n") == "broken"
    assert work(job_for, "rating 20 A", "gfci") == "met"


def pole(job_for: JobFor, panel: str, line: str = "span line", more: str = "") -> str:
    text = "complete feeders, grounding\nsupply utility\n  type utility\n"
    text += "span line\n  attachment 14 ft\ntrench ditch\n  cover 36 in\n"
    text += f"panel it\n  temporary yes; mounted-on none; {panel}\nservice way\n  from utility; to it; owner utility; {line}\n"
    text += f"electrode rod\n  type rod\nelectrode-conductor wire\n  from it; to rod\n{more}"
    return answer(job_for, "temporary-supply-unsound", "it", text)


def test_a_pole_is_braced_and_feeds_no_house(job_for: JobFor) -> None:
    """codelibrary.amlegal.com, Murray (Kentucky) 5914 (D) and (E): firmly braced; no feeding of the panel of the building."""
    early = "panel house-panel\n  bus 200 A\nfeeder early\n  from it; to house-panel\n"
    assert pole(job_for, "braced yes") == "met"
    assert pole(job_for, "braced no") == "broken"
    assert pole(job_for, "braced yes", more=early) == "broken"
    assert pole(job_for, "braced no", "trench ditch") == "met", "nothing pulls at a pedestal (common practice, no source)"


def test_a_pole_has_a_rod(job_for: JobFor) -> None:
    """homesteady.com 7615435: a ground rod must be driven next to the pole."""
    text = "complete feeders, grounding\nsupply utility\n  type utility\npanel it\n  temporary yes; braced yes\n"
    text += "service way\n  from utility; to it\n"
    assert answer(job_for, "temporary-supply-unsound", "it", text) == "broken"


@pytest.mark.parametrize("edition", EDITIONS)
def test_it_is_taken_down(job_for: JobFor, edition: int) -> None:
    """thenecwiki.com, article 590, 590.3(D): removed immediately upon completion."""
    for removed, found in (("yes", "met"), ("no", "broken")):
        text = f"panel it\n  temporary yes; removed {removed}\n"
        assert answer(job_for, "temporary-wiring-left-or-early-use", "it", text, edition) == found
