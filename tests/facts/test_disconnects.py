"""Emergency disconnects, mains, surge devices: facts at their edges, and the differences of the editions through the rules."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.checking import run_rule
from planlint.facts import load_facts
from planlint.facts.disconnects import (
    dwellings_shut_off,
    is_emergency_disconnect,
    labeled_in_series,
    mains_apart,
    mains_grouped,
    service_disconnect,
    service_throws,
    shuts_off_outdoors,
    supply_disconnects,
)
from planlint.facts.engine import Job
from planlint.facts.surges import distribution
from planlint.language import read_text
from planlint.plan import NotStated
from planlint.plan.graph import Graph
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]

HOUSE = """complete service, feeders, circuits, receptacles, lights, loads
building house
  use one-family; construction new
place yard
  outdoors yes
place hall
  building house
supply utility
  type utility
"""
OUTDOORS = """disconnect house-disconnect
  at yard; mounted-on house; breaker 200 A; service-rated yes; readily-accessible yes
service drop
  from utility; to house-disconnect; owner customer; inside-length 0 ft; raceway pipe
raceway pipe
  type PVC-40; route above-grade
"""
INDOORS = OUTDOORS.replace("at yard; mounted-on house", "at hall")
POST = OUTDOORS.replace("mounted-on house", "mounted-on none; within-sight-of none")
PANEL = """panel house-panel
  at hall; main lugs
feeder house-feeder
  from house-disconnect; to house-panel
"""


def answer(rule: str, text: str, profile: str, name: str) -> str:
    """What a rule says of one element under a profile; `not in force` where the profile hasn't it."""
    load_facts()
    code = resolve((profile,))
    if rule not in code.rules:
        return "not in force"
    graph = Graph(read_text(text, example=True).elements)
    return run_rule(compile_rule(code.rules[rule], code), graph.one(name), Job(graph, code, Tables())).answer


@pytest.mark.parametrize(
    ("profile", "outdoors", "indoors", "far_post"),
    [
        # NFPA 70: 2017 asks for none; 230.85 is new in 2020; from 2023 on it is on the dwelling or within its sight.
        ("model-2017", "not in force", "not in force", "not in force"),
        ("model-2020", "met", "broken", "met"),
        ("model-2023", "met", "broken", "broken"),
        # Made-up localities: one takes the rule up whatever the edition, the other stays with 2017.
        ("tern-county", "met", "broken", "met"),
        ("plover-township", "not in force", "not in force", "not in force"),
    ],
)
def test_the_outdoor_disconnect_by_edition(profile: str, outdoors: str, indoors: str, far_post: str) -> None:
    rule = "outdoor-emergency-disconnect-missing"
    found = [answer(rule, HOUSE + text + PANEL, profile, "house") for text in (OUTDOORS, INDOORS, POST)]
    assert found == [outdoors, indoors, far_post]


def test_a_county_on_the_2017_edition_may_want_it_all_the_same(job_for: JobFor) -> None:
    """As tern-county does, were it still based on 2017: the rule's code is that of 2017 with the rule taken up."""
    code = resolve(("model-2017",))
    taken_up = replace(
        code,
        rules={
            **code.rules,
            "outdoor-emergency-disconnect-missing": resolve(("tern-county",)).rules["outdoor-emergency-disconnect-missing"],
        },
    )
    graph = Graph(read_text(HOUSE + INDOORS + PANEL, example=True).elements)
    load_facts()
    rule = compile_rule(taken_up.rules["outdoor-emergency-disconnect-missing"], taken_up)
    assert run_rule(rule, graph.one("house"), Job(graph, taken_up, Tables())).answer == "broken"


@pytest.mark.parametrize("left_out", ["readily-accessible yes", "service-rated yes", "at yard", "type utility"])
def test_leaving_out_leaves_it_open(left_out: str) -> None:
    text = (HOUSE + OUTDOORS + PANEL).replace(f"; {left_out}", "", 1)
    text = text.replace(f"{left_out}; ", "", 1).replace(f"  {left_out}\n", "", 1)
    assert left_out not in text
    rule = "outdoor-emergency-disconnect-missing"
    assert answer(rule, text, "model-2023", "house") == "undecided"


def test_existing_houses_and_workshops_need_none() -> None:
    rule = "outdoor-emergency-disconnect-missing"
    assert answer(rule, (HOUSE + INDOORS).replace("one-family", "workshop"), "model-2023", "house") == "not-applicable"
    old = (HOUSE + INDOORS).replace("construction new", "construction existing")
    assert answer(rule, old.replace("owner customer", "owner customer; existing yes"), "model-2023", "house") == "not-applicable"


@pytest.mark.parametrize("profile", ["model-2020", "model-2023"])
def test_a_new_service_in_an_old_house_needs_one(profile: str) -> None:
    """NFPA 70 230.85 (2023: 230.85(C)): where the service equipment is replaced the house counts as a new one."""
    rule, old = "outdoor-emergency-disconnect-missing", (HOUSE + INDOORS).replace("construction new", "construction existing")
    assert answer(rule, old, profile, "house") == "undecided"
    assert answer(rule, old.replace("owner customer", "owner customer; existing no"), profile, "house") == "broken"
    assert answer(rule, old.replace("at hall", "at yard; mounted-on house"), profile, "house") == "met"


def test_a_meter_disconnect_says_that_it_is_one() -> None:
    """NFPA 70 230.85(E)(1)(2): what is ahead of the meter and not made for service equipment bears METER DISCONNECT too."""
    meter = """meter house-meter
  at yard; mounted-on house
disconnect before-it
  at yard; mounted-on house; switch-rating 200 A; readily-accessible yes; service-rated {rated}; label white-on-red
  marking {words}
service to-it
  from utility; to before-it; owner utility
service past-it
  from before-it; to house-meter; owner customer
"""
    rule, text = "emergency-disconnect-label-missing", HOUSE + INDOORS.replace("from utility", "from house-meter") + meter
    said = "emergency-disconnect, not-service-equipment"
    for rated, words, expected in (
        ("no", said, "broken"),
        ("no", f"{said}, meter-disconnect", "met"),
        ("yes", said, "met"),
    ):
        assert answer(rule, text.format(rated=rated, words=words), "model-2023", "before-it") == expected


AHEAD = """disconnect meter-switch
  at yard; mounted-on house; switch-rating 200 A; service-rated yes; readily-accessible yes{marking}
service drop
  from utility; to meter-switch; owner customer
meter house-meter
service to-meter
  from meter-switch; to house-meter; owner customer
disconnect main
  at {main}; mounted-on house; breaker 200 A; service-rated yes; readily-accessible yes
  marking {words}; label white-on-red
service to-main
  from house-meter; to main; owner customer
"""


def test_a_disconnect_ahead_of_the_meter_serves_an_indoor_main(job_for: JobFor) -> None:
    text = AHEAD.format(marking="", main="hall", words="service-disconnect")
    job = job_for(HOUSE + text, 2023)
    assert is_emergency_disconnect(job.graph.one("meter-switch"), job)
    assert not is_emergency_disconnect(job.graph.one("main"), job)
    assert shuts_off_outdoors(job.graph.one("house"), job)


@pytest.mark.parametrize(
    ("words", "switch", "main"),
    [("emergency-disconnect, service-disconnect", "not-applicable", "met"), ("service-disconnect", "broken", "broken")],
)
def test_one_label_on_two_outdoor_disconnects_in_series_is_enough(words: str, switch: str, main: str) -> None:
    text = HOUSE + AHEAD.format(marking="; marking not-service-equipment; label plain", main="yard", words=words)
    rule = "emergency-disconnect-label-missing"
    assert [answer(rule, text, "model-2023", name) for name in ("meter-switch", "main")] == [switch, main]


def test_the_label_ahead_spares_the_main(job_for: JobFor) -> None:
    marking = "; marking emergency-disconnect, meter-disconnect, not-service-equipment; label white-on-red"
    job = job_for(HOUSE + AHEAD.format(marking=marking, main="yard", words="service-disconnect"), 2023)
    assert labeled_in_series(job.graph.one("main"), job)


@pytest.mark.parametrize(("edition", "expected"), [("model-2020", "met"), ("model-2023", "broken")])
def test_colors_of_the_label_count_from_2023(edition: str, expected: str) -> None:
    marked = "readily-accessible yes\n  marking emergency-disconnect, service-disconnect; label plain"
    text = HOUSE + OUTDOORS.replace("readily-accessible yes", marked)
    assert answer("emergency-disconnect-label-missing", text, edition, "house-disconnect") == expected


# NFPA 70 (2020) 230.85(2), (3): a meter disconnect, past its meter too, need not be service equipment; another switch has to.
@pytest.mark.parametrize(
    ("words", "counts"), [("meter-disconnect, not-service-equipment", True), ("not-service-equipment", False)]
)
def test_a_meter_disconnect_past_its_meter_need_not_be_service_equipment(job_for: JobFor, words: str, counts: bool) -> None:
    job = job_for(
        HOUSE
        + f"""meter meter-post
  at yard; mounted-on house
service lateral
  from utility; to meter-post; owner utility
disconnect switch
  at yard; mounted-on house; switch-rating 200 A; service-rated no; readily-accessible yes; marking emergency-disconnect, {words}
service to-switch
  from meter-post; to switch; owner customer; raceway pipe
panel main-panel
  at hall; main 200 A; service-rated yes
service to-main
  from switch; to main-panel; owner customer; raceway pipe
raceway pipe
  type PVC-40; route above-grade
"""
    )
    assert is_emergency_disconnect(job.graph.one("switch"), job) is counts
    assert shuts_off_outdoors(job.graph.one("house"), job) is counts


def test_the_service_disconnect_ahead(job_for: JobFor) -> None:
    job = job_for(
        HOUSE + AHEAD.format(marking="", main="hall", words="service-disconnect") + PANEL.replace("house-disconnect", "main")
    )
    assert [service_disconnect(job.graph.one(name), job).name for name in ("house-panel", "main")] == ["main", "main"]
    with pytest.raises(NotStated, match="the service disconnect ahead of meter-switch"):
        service_disconnect(job.graph.one("meter-switch"), job)


def test_an_outdoor_panel_counts_with_a_main_only(job_for: JobFor) -> None:
    panel = """panel outdoor-panel
  at yard; mounted-on house; main {main}; service-rated yes; readily-accessible yes
service drop
  from utility; to outdoor-panel; owner customer
"""
    for main, expected in (("200 A", True), ("lugs", False)):
        job = job_for(HOUSE + panel.format(main=main), 2023)
        assert is_emergency_disconnect(job.graph.one("outdoor-panel"), job) is expected


GUEST = """building guest-house
  use one-family; construction new
place guest-hall
  building guest-house
feeder guest-feeder
  from house-panel; to guest-panel
panel guest-panel
  at guest-hall; main 100 A; readily-accessible yes
"""


@pytest.mark.parametrize(
    ("sight", "expected"), [("guest-house", "met"), ("none", "broken"), ("house", "broken"), ("unknown", "undecided")]
)
def test_a_feeder_fed_house_that_sees_the_main_of_the_other(sight: str, expected: str) -> None:
    text = HOUSE + OUTDOORS.replace("mounted-on house", f"mounted-on house; within-sight-of {sight}") + PANEL + GUEST
    rule = "emergency-disconnect-missing-at-feeder-fed-house"
    assert answer(rule, text, "model-2023", "guest-house") == expected
    assert answer(rule, text, "model-2020", "guest-house") == "not in force"
    assert answer(rule, text, "model-2023", "house") == "not-applicable"


def test_only_what_stands_at_the_building_is_its_supply_disconnect_but_what_it_sees_may_shut_it_off(job_for: JobFor) -> None:
    text = HOUSE + OUTDOORS.replace("mounted-on house", "mounted-on house; within-sight-of guest-house") + PANEL + GUEST
    job = job_for(text, 2023)
    guest = job.graph.one("guest-house")
    assert [gear.name for gear in supply_disconnects(guest, job).whole()] == ["guest-panel"]
    assert [home.name for home in dwellings_shut_off(job.graph.one("house-disconnect"), job).whole()] == ["house", "guest-house"]


LUGS = """panel house-panel
  at hall; main lugs
service drop
  from utility; to house-panel; owner customer
"""


@pytest.mark.parametrize(("breakers", "in_2017", "in_2020"), [(1, "met", "met"), (6, "met", "broken"), (7, "broken", "broken")])
def test_the_breakers_of_a_panel_on_lugs_are_its_throws(job_for: JobFor, breakers: int, in_2017: str, in_2020: str) -> None:
    """Up to six throws by every edition; from 2020 on each in an enclosure of its own. NFPA 70 230.71."""
    text = HOUSE + LUGS + "".join(f"circuit circuit-{k}\n  panel house-panel\n" for k in range(breakers))
    job = job_for(text)
    assert len(service_throws(job.graph.one("house"), job).whole()) == breakers
    assert answer("too-many-service-disconnects", text, "model-2017", "house") == in_2017
    assert answer("too-many-service-disconnects", text, "model-2020", "house") == in_2020


def test_a_panel_that_leaves_its_main_out_may_have_many_throws(job_for: JobFor) -> None:
    text = HOUSE + LUGS.replace("; main lugs", "") + "circuit lights-circuit\n  panel house-panel\n"
    throws = service_throws((job := job_for(text)).graph.one("house"), job)
    assert [str(gap) for gap in throws.gaps] == ["house-panel: main"]


TWO = """disconnect main-1
  at yard; mounted-on house; breaker 100 A{first}
disconnect main-2
  {place}; breaker 100 A; shares-enclosure-with {second}
service service-1
  from utility; to main-1
service service-2
  from utility; to main-2
"""


def test_mains_in_two_places_are_not_grouped(job_for: JobFor) -> None:
    for place, expected in (("at yard; mounted-on house", True), ("at hall", False)):
        job = job_for(HOUSE + TWO.format(first="", place=place, second="none"))
        assert mains_grouped(job.graph.one("house"), job) is expected


def test_one_of_two_mains_says_that_they_share_a_box(job_for: JobFor) -> None:
    yard = "at yard; mounted-on house"
    job = job_for(HOUSE + TWO.format(first="", place=yard, second="main-1"))
    assert not mains_apart(job.graph.one("house"), job)
    job = job_for(HOUSE + TWO.format(first="", place=yard, second="none"))
    with pytest.raises(NotStated, match="main-1: shares-enclosure-with"):
        mains_apart(job.graph.one("house"), job)
    job = job_for(HOUSE + TWO.format(first="; shares-enclosure-with none", place=yard, second="none"))
    assert mains_apart(job.graph.one("house"), job)


SUB = """panel sub-panel
  at hall; main lugs
feeder sub-feeder
  from house-panel; to sub-panel
circuit sub-circuit
  panel sub-panel
circuit house-circuit
  panel house-panel
"""


def test_only_the_next_panels_with_branch_breakers_count(job_for: JobFor) -> None:
    job = job_for(HOUSE + OUTDOORS + PANEL + SUB)
    assert [gear.name for gear in distribution(job.graph.one("house"), job).whole()] == ["house-panel"]
    job = job_for(HOUSE + OUTDOORS + PANEL + SUB.replace("circuit house-circuit\n  panel house-panel\n", ""))
    assert [gear.name for gear in distribution(job.graph.one("house"), job).whole()] == ["sub-panel"]


@pytest.mark.parametrize(
    ("profile", "device", "expected"),
    [
        # NFPA 70 230.67: new in 2020; 10 kA from 2023 on.
        ("model-2017", "none", "not in force"),
        ("model-2020", "none", "broken"),
        ("model-2020", "type-2", "met"),
        ("model-2023", "type-2", "undecided"),
        ("model-2023", "type-2; surge-rating 10 kA", "met"),
        ("model-2023", "type-2; surge-rating 9.9 kA", "broken"),
    ],
)
def test_the_surge_device_by_edition(profile: str, device: str, expected: str) -> None:
    main = OUTDOORS.replace("breaker 200 A", "breaker 200 A; surge-protection none")
    panel = PANEL.replace("main lugs", f"main lugs; surge-protection {device}")
    text = HOUSE + main + panel + "circuit house-circuit\n  panel house-panel\n"
    assert answer("surge-device-missing", text, profile, "house") == expected


def test_a_feeder_fed_dwelling_needs_a_surge_device_from_2023() -> None:
    text = HOUSE + OUTDOORS + PANEL + GUEST.replace("main 100 A", "main 100 A; surge-protection none")
    text += "circuit guest-circuit\n  panel guest-panel\nlights guest-lights\n  at guest-hall; circuit guest-circuit\n"
    found = [answer("surge-device-missing", text, f"model-{edition}", "guest-house") for edition in (2020, 2023)]
    assert found == ["not-applicable", "broken"]


def test_gear_on_one_building_may_go_on_to_a_dwelling_that_is_not_shown(job_for: JobFor) -> None:
    workshop = HOUSE.replace("use one-family; construction new", "use workshop") + OUTDOORS
    assert not dwellings_shut_off((job := job_for(workshop)).graph.one("house-disconnect"), job).whole()
    open_ended = job_for(workshop.replace("service, feeders,", "service,"))
    assert "complete feeders" in str(dwellings_shut_off(open_ended.graph.one("house-disconnect"), open_ended).gaps[0])
    no_feeders_asked = job_for(workshop.replace("service, feeders,", "service,").replace("at yard; mounted-on house", "at hall"))
    assert not dwellings_shut_off(no_feeders_asked.graph.one("house-disconnect"), no_feeders_asked).gaps
