"""Breakers, neutrals, cases and labels of panels, and the plaque for other sources: what the trade press, inspectors and forums
say of 408.36(D), 408.41, 312.2, 404.4, 110.22(A), 110.26, 230.70(B), 408.4(B), 702.7 and 705.10. The source stands at each."""

from collections.abc import Callable

import pytest

from planlint.book import resolve
from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.facts.panel_terminals import neutrals_landed
from planlint.plan.gear import Panel
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
EDITIONS = pytest.mark.parametrize("edition", [2017, 2020, 2023])


def answer(job: Job, rule: str, name: str) -> str:
    code = resolve((f"model-{job.edition}",))
    return run_rule(compile_rule(code.rules[rule], code), job.graph.one(name), job).answer


def landed(job: Job) -> int:
    panel = job.graph.one("house-panel")
    assert isinstance(panel, Panel)
    return neutrals_landed(panel, job)


SOURCES = """complete service, feeders
supply utility
  type utility
supply other
  type {}
panel house-panel
  main 200 A
service drop
  from utility; to house-panel
feeder feed
  from other; to house-panel{}
"""


@EDITIONS
@pytest.mark.parametrize("source", ["generator", "solar", "battery"])
@pytest.mark.parametrize(("held", "expected"), [("; held-down no", "broken"), ("; held-down yes", "met"), ("", "undecided")])
def test_a_breaker_fed_backwards(job_for: JobFor, source: str, held: str, expected: str, edition: int) -> None:
    """thebuildingcodeforum.com, thread 34769: 408.36(D), "back-fed and used to terminate field-installed ungrounded supply
    conductors"; 705.12(E) of 2020 spares listed interactive sources (there `held-down yes` says "made for an inverter")."""
    assert answer(job_for(SOURCES.format(source, held), edition), "backfed-breaker-unheld", "feed") == expected


@pytest.mark.parametrize(
    ("more", "start", "end", "expected"),
    [
        # Through its own switch to the panel: the breaker there is fed backwards all the same.
        ("disconnect switch\nfeeder first\n  from other; to switch", "switch", "house-panel", "broken"),
        # Into a transfer switch, and on from it to a panel of its own, as that one's only feed.
        ("transfer-switch switch\n  type manual", "other", "switch", "not-applicable"),
        ("panel standby\n  main lugs", "other", "standby", "not-applicable"),
        # A slide plate between two breakers is no switch of its own: the feed ends on a breaker of its panel.
        ("transfer-switch plate\n  type interlock; panel house-panel", "other", "plate", "broken"),
        # The panel's way out is fed the right way round.
        ("panel shed-panel\n  main lugs", "house-panel", "shed-panel", "not-applicable"),
    ],
)  # fmt: skip
def test_which_breakers_are_fed_backwards(job_for: JobFor, more: str, start: str, end: str, expected: str) -> None:
    """As above: it terminates the wires of a supply; and it is "back-fed", so that its panel is live without it."""
    text = SOURCES.format("generator", "").split("feeder feed")[0]
    text += f"{more}\nfeeder feed\n  from {start}; to {end}; held-down no\n"
    assert answer(job_for(text), "backfed-breaker-unheld", "feed") == expected


@EDITIONS
def test_a_bolted_main_is_held(job_for: JobFor, edition: int) -> None:
    """forum.nachi.org, thread 93519, on the same clause: a bolt-on breaker is secured."""
    for held, expected in (("yes", "met"), ("no", "broken")):
        job = job_for(f"panel house-panel\n  main 125 A; main-held-down {held}\n", edition)
        assert answer(job, "plug-on-main-unheld", "house-panel") == expected


def branches(number: int, more: str = "protection none") -> str:
    text = "circuit c{}\n  panel house-panel; poles 1; cable 12/2 copper NM-B; {}\n"
    return "complete circuits, feeders\n" + "".join(text.format(n, more) for n in range(number))


@EDITIONS
@pytest.mark.parametrize(("screws", "expected"), [(12, "met"), (11, "broken")])
def test_one_neutral_to_a_screw(job_for: JobFor, screws: int, expected: str, edition: int) -> None:
    """ecmweb.com, code Q&A 39: each neutral in a panelboard goes to a terminal of its own, by 408.41."""
    job = job_for(f"{branches(12)}panel house-panel\n  neutral-terminals {screws}; neutrals-alone yes\n", edition)
    assert landed(job) == 12
    assert answer(job, "two-neutrals-one-screw", "house-panel") == expected


def test_a_neutral_and_a_ground_under_one_screw(job_for: JobFor) -> None:
    """forum.nachi.org, thread 179689, the handbook's commentary: no neutral with another neutral, nor with a ground."""
    job = job_for(f"{branches(2)}panel house-panel\n  neutral-terminals 20; neutrals-alone no\n")
    assert answer(job, "two-neutrals-one-screw", "house-panel") == "broken"


def test_hot_wires_on_one_neutral_bring_one(job_for: JobFor) -> None:
    """mikeholt.com, thread 146342: three hot wires over one neutral are one multiwire circuit, which lands one neutral."""
    text = "circuit {}\n  panel house-panel; poles 1; hot 12 AWG copper; neutral 12 AWG copper; raceway pipe; protection none{}\n"
    three = text.format("a", "") + text.format("b", "; shares-neutral-with a") + text.format("c", "; shares-neutral-with a")
    job = job_for(
        f"complete circuits, feeders\n{three}raceway pipe\npanel house-panel\n  neutral-terminals 1; neutrals-alone yes\n"
    )
    assert landed(job) == 1
    assert answer(job, "two-neutrals-one-screw", "house-panel") == "met"


@pytest.mark.parametrize(("clips", "expected"), [("yes", "met"), ("no", "broken"), ("unknown", "undecided")])
def test_breakers_that_clip_onto_the_neutral(job_for: JobFor, clips: str, expected: str) -> None:
    """engineerfix.com, how plug-on neutral panels work: there the breaker's own neutral clips on; elsewhere its pigtail is landed
    on the bar, in the place of the circuit's neutral."""
    panel = f"panel house-panel\n  neutral-terminals 3; neutrals-alone yes; plug-on-neutral {clips}\n"
    assert answer(job_for(branches(4, "protection afci") + panel), "two-neutrals-one-screw", "house-panel") == expected


def test_a_cable_without_neutral_needs_no_screw(job_for: JobFor) -> None:
    """240 V over two hot wires has no neutral (article 100, neutral conductor, from memory)."""
    heater = "circuit heater\n  panel house-panel; poles 2; cable 10/2 copper NM-B; protection none\n"
    job = job_for(f"complete circuits, feeders\n{heater}panel house-panel\n  neutral-terminals 0; neutrals-alone yes\n")
    assert answer(job, "two-neutrals-one-screw", "house-panel") == "met"


@EDITIONS
@pytest.mark.parametrize(
    ("listed", "torqued", "expected"), [("yes", "yes", "met"), ("no", "yes", "broken"), ("yes", "no", "broken")]
)
def test_breakers_and_torque(job_for: JobFor, listed: str, torqued: str, expected: str, edition: int) -> None:
    """electricallicenserenewal.com, sections 216 and 797: 110.14(D) of 2017 asks for the marked torque, by a calibrated tool; of
    2020 by approved means. voltagelab.com, breaker types quiz: another maker's breaker goes against 110.3(B)."""
    job = job_for(f"panel house-panel\n  breakers-listed {listed}; torqued {torqued}\n", edition)
    assert answer(job, "breaker-not-listed-for-panel", "house-panel") == expected


@EDITIONS
@pytest.mark.parametrize("kind", ["panel", "disconnect"])
@pytest.mark.parametrize(
    ("moisture", "case", "expected"),
    [
        ("wet", "indoor", "broken"),
        ("wet", "weatherproof", "met"),
        ("damp", "indoor", "broken"),
        ("damp", "weatherproof", "met"),
        ("dry", "indoor", "not-applicable"),
    ],
)
def test_cases_by_the_place(job_for: JobFor, kind: str, moisture: str, case: str, expected: str, edition: int) -> None:
    """mikeholt.com, thread 111348: 312.2, weatherproof in wet places. ecmweb.com, what's wrong here 47: 404.4 asks it of breakers
    and switches in damp ones too, from 2008 on."""
    job = job_for(f"place spot\n  moisture {moisture}\n{kind} gear\n  at spot; enclosure {case}\n", edition)
    assert answer(job, "panel-case-not-weatherproof", "gear") == expected


@EDITIONS
@pytest.mark.parametrize(
    ("outdoors", "clear", "lit", "expected"),
    [("no", "yes", "yes", "met"), ("no", "yes", "no", "broken"), ("no", "no", "yes", "broken"),
     ("yes", "yes", "no", "met"), ("yes", "no", "yes", "broken")],
)  # fmt: skip
def test_the_space_over_a_panel_and_its_light(
    job_for: JobFor, outdoors: str, clear: str, lit: str, expected: str, edition: int
) -> None:
    """ecmag.com, general installation requirements XXIII and XXVIII: a light for what is installed indoors, a dedicated space
    over every panel. ecmweb.com, 2014 code changes page 4, electricallicenserenewal.com, section 223: outdoors too since 2014."""
    text = f"place spot\n  outdoors {outdoors}\npanel gear\n  at spot; dedicated-space-clear {clear}; lit {lit}\n"
    assert answer(job_for(text, edition), "dedicated-space-invaded-or-unlit", "gear") == expected


@EDITIONS
@pytest.mark.parametrize(("says", "expected"), [("yes", "met"), ("no", "broken")])
def test_every_circuit_is_described(job_for: JobFor, says: str, expected: str, edition: int) -> None:
    """thebuildingcodeforum.com, thread 26677, prints 408.4(A): every circuit by its clear, evident and specific purpose."""
    assert answer(job_for(f"panel gear\n  directory {says}\n", edition), "circuit-directory-missing", "gear") == expected


FED = """complete service, feeders
building house
  use one-family
building shed
  use {}
place hall
  building house
place inside
  building shed
supply utility
  type utility
panel house-panel
  at hall; main 200 A; marking {}
service drop
  from utility; to house-panel
panel shed-panel
  at inside; main 60 A; marking {}
feeder shed-feeder
  from house-panel; to shed-panel
"""


@EDITIONS
@pytest.mark.parametrize(("words", "expected"), [("service-disconnect", "met"), ("fed-from", "broken")])
def test_the_service_disconnect_says_so(job_for: JobFor, words: str, expected: str, edition: int) -> None:
    """230.70(B), from memory: each service disconnect is marked as the service disconnect."""
    assert (
        answer(job_for(FED.format("shed", words, "fed-from"), edition), "service-or-feed-label-missing", "house-panel")
        == expected
    )


@EDITIONS
@pytest.mark.parametrize(
    ("use", "words", "expected"),
    [
        ("other", "building-disconnect", "broken"),
        ("other", "building-disconnect, fed-from", "met"),
        ("shed", "building-disconnect", "not-applicable"),
        ("one-family", "building-disconnect", "not-applicable"),
        ("two-family", "building-disconnect", "not-applicable"),
    ],
)
def test_a_panel_says_what_feeds_it(job_for: JobFor, use: str, words: str, expected: str, edition: int) -> None:
    """thebuildingcodeforum.com, source of supply label, prints 408.4(B) of 2017: other than in one- or two-family dwellings.
    mikeholt.com, thread 2574411: an inspector asks it of a shed's panel, and the forum is of two minds: a setting."""
    job = job_for(FED.format(use, "service-disconnect", words), edition)
    assert answer(job, "service-or-feed-label-missing", "shed-panel") == expected


@EDITIONS
@pytest.mark.parametrize("source", ["generator", "solar", "battery"])
@pytest.mark.parametrize(("plaque", "expected"), [("yes", "met"), ("no", "broken")])
def test_other_sources_are_listed_at_the_service(job_for: JobFor, source: str, plaque: str, expected: str, edition: int) -> None:
    """nh.gov, deficiencies 2005, no. 18: a sign at the service equipment with place and kind of a standby source (now 702.7(A)).
    legalclarity.org, 705.10: a directory at each service equipment location where more than one source feeds a building."""
    text = FED.format("shed", "service-disconnect", "fed-from").replace("main 200 A", f"main 200 A; source-plaque {plaque}")
    text += f"supply other\n  type {source}\nfeeder other-feed\n  from other; to {{}}\n"
    for panel, building in (("house-panel", "house"), ("shed-panel", "shed")):
        assert answer(job_for(text.format(panel), edition), "second-source-notice-missing", building) == expected


def test_without_another_source_no_plaque(job_for: JobFor) -> None:
    """As above: only where more than one source feeds it."""
    job = job_for(FED.format("shed", "service-disconnect", "fed-from").replace("main 200 A", "main 200 A; source-plaque no"))
    assert answer(job, "second-source-notice-missing", "house") == "not-applicable"


@EDITIONS
@pytest.mark.parametrize(
    ("use", "room", "gear", "expected"),
    [
        ("one-family", "bathroom", "panel gear\n  main 60 A", {2017: "broken", 2020: "broken", 2023: "broken"}),
        ("workshop", "bathroom", "panel gear\n  main 60 A", {2017: "met", 2020: "met", 2023: "broken"}),
        ("workshop", "bathroom", "disconnect gear\n  fuses 60 A", {2017: "met", 2020: "met", 2023: "broken"}),
        ("workshop", "clothes-closet", "panel gear\n  main lugs", {2017: "broken", 2020: "broken", 2023: "broken"}),
        ("one-family", "clothes-closet", "disconnect gear\n  breaker 60 A", {2017: "broken", 2020: "broken", 2023: "broken"}),
        ("one-family", "hallway", "disconnect gear\n  breaker 60 A", {2017: "met", 2020: "met", 2023: "met"}),
        ("one-family", "clothes-closet", "disconnect gear\n  switch-rating 60 A", dict.fromkeys((2017, 2020, 2023), "undecided")),
    ],
)
def test_rooms_without_breakers(job_for: JobFor, edition: int, use: str, room: str, gear: str, expected: dict[int, str]) -> None:
    """Clothes closets: forum.nachi.org, thread 24772. Bathrooms: electricallicenserenewal.com, section 1883: up to 2020 those of
    dwellings, from 2023 on all (manualshelf.com, a maker's answers, page 55)."""
    text = f"""complete feeders
building home
  use {use}
place room
  building home; use {room}
{gear}; at room; over-stairs no; handle-height 5 ft; readily-accessible yes
feeder feed
  to gear
"""
    assert answer(job_for(text, edition), "breakers-in-forbidden-place", "gear") == expected[edition]


def test_fuses_beside_the_unit_that_they_protect_may_hang_high(job_for: JobFor) -> None:
    """240.24(A), exception for devices beside the equipment that they supply; from memory."""
    text = "complete service, feeders\nplace wall\n  use yard\ndisconnect gear\n  at wall; fuses 30 A; handle-height 9 ft\n"
    assert answer(job_for(text), "breakers-in-forbidden-place", "gear") == "not-applicable"


@EDITIONS
@pytest.mark.parametrize(
    ("ahead", "label", "expected"),
    [
        ("service-disconnect", "fed-from", "met"),
        ("service-disconnect", "service-disconnect", "broken"),
        ("not-service-equipment", "service-disconnect", "not-applicable"),
    ],
)
def test_a_label_tells_what_it_is_for(job_for: JobFor, ahead: str, label: str, expected: str, edition: int) -> None:
    """thebuildingcodeforum.com, thread 38077: by 110.22(A) a disconnect is marked with its purpose. Past the service disconnect
    that of a panel is another; past the meter's own switch it is that."""
    run = "service" if ahead == "not-service-equipment" else "feeder"
    job = job_for(
        f"""complete service, feeders
supply utility
  type utility
disconnect ahead
  breaker 200 A; marking {ahead}
service drop
  from utility; to ahead
panel old
  main 200 A; marking {label}
{run} on
  from ahead; to old
""",
        edition,
    )
    assert answer(job, "service-label-past-service", "old") == expected
