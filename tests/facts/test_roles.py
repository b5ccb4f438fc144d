"""Roles: what each piece of gear is on the way from the utility, by edge cases and by a second way over random plans."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from planlint.facts.engine import Job
from planlint.facts.roles import role
from planlint.plan import NotStated
from planlint.plan.wiring_faults import wiring_faults

JobFor = Callable[..., Job]

UTILITY = "complete service, feeders\nsupply utility\n  type utility\n"
HOUSE = (
    UTILITY
    + """meter meter-post
service lateral
  from utility; to meter-post; owner utility
disconnect house-disconnect
  breaker 200 A
service entrance
  from meter-post; to house-disconnect; owner customer
panel house-panel
  main lugs
feeder house-feeder
  from house-disconnect; to house-panel
"""
)


def roles(job: Job, *names: str) -> list[str]:
    return [role(job.graph.one(name), job) for name in names]


def needs(job: Job, name: str) -> str:
    with pytest.raises(NotStated) as gap:
        role(job.graph.one(name), job)
    return str(gap.value)


def test_meter_main_and_panel(job_for: JobFor) -> None:
    assert roles(job_for(HOUSE), "meter-post", "house-disconnect", "house-panel") == ["ahead-of-service", "service", "downstream"]


def test_gear_marked_not_service_equipment_is_ahead(job_for: JobFor) -> None:
    job = job_for(
        UTILITY
        + """disconnect outdoor-disconnect
  breaker 200 A; marking emergency-disconnect, not-service-equipment
service drop
  from utility; to outdoor-disconnect
panel house-panel
  main 200 A
service entrance
  from outdoor-disconnect; to house-panel
"""
    )
    assert roles(job, "outdoor-disconnect", "house-panel") == ["ahead-of-service", "service"]


def test_a_switch_from_which_service_wires_go_on_is_ahead_without_any_marking(job_for: JobFor) -> None:
    job = job_for(
        UTILITY
        + """disconnect meter-switch
  switch-rating 200 A
service drop
  from utility; to meter-switch
panel house-panel
  main lugs
service entrance
  from meter-switch; to house-panel
"""
    )
    assert roles(job, "meter-switch", "house-panel") == ["ahead-of-service", "service"]


def test_a_switch_without_breaker_is_open_while_more_services_may_start_there(job_for: JobFor) -> None:
    text = """supply utility
  type utility
disconnect house-disconnect
  {more}
service drop
  from utility; to house-disconnect
"""
    assert "complete service" in needs(job_for(text.format(more="switch-rating 200 A")), "house-disconnect")
    assert roles(job_for(text.format(more="breaker 200 A")), "house-disconnect") == ["service"]


def test_what_nothing_feeds_has_no_role(job_for: JobFor) -> None:
    assert "which service or feeder ends at shed-panel" in needs(job_for(UTILITY + "panel shed-panel\n"), "shed-panel")


@pytest.mark.parametrize(("neutral", "expected"), [("bonded", "derived-source"), ("floating", "downstream")])
def test_the_first_gear_of_a_generator(job_for: JobFor, neutral: str, expected: str) -> None:
    job = job_for(
        UTILITY
        + f"""supply generator
  type generator; neutral {neutral}
disconnect generator-disconnect
  breaker 50 A
feeder generator-feeder
  from generator; to generator-disconnect
panel generator-panel
feeder onward
  from generator-disconnect; to generator-panel
"""
    )
    assert roles(job, "generator-disconnect", "generator-panel") == [expected, "downstream"]


GENERATOR = """supply generator
  type generator; neutral bonded
disconnect generator-disconnect
  breaker 50 A
feeder generator-feeder
  from generator; to generator-disconnect
"""
FROM_GENERATOR = "feeder from-generator\n  from generator-disconnect; to switch\n"
FROM_HOUSE = "feeder from-house\n  from house-disconnect; to switch\n"
SWITCH = "transfer-switch switch\n  type manual\n"


@pytest.mark.parametrize("runs", [FROM_GENERATOR + FROM_HOUSE, FROM_HOUSE + FROM_GENERATOR])
def test_the_order_of_statements_decides_nothing(job_for: JobFor, runs: str) -> None:
    job = job_for(HOUSE + GENERATOR + SWITCH + runs)
    assert job.graph.feed(job.graph.one("switch")).name == "from-house"
    assert roles(job, "switch") == ["downstream"]


def test_leaving_out_where_the_house_run_ends_gives_no_other_source(job_for: JobFor) -> None:
    """The generator's run alone would make the switch the first gear of a derived source."""
    open_end = FROM_HOUSE.replace("; to switch", "")
    direct = "feeder from-generator\n  from generator; to switch\n"
    assert "from-house: to" in needs(job_for(HOUSE + GENERATOR + SWITCH + direct + open_end), "switch")


def test_two_runs_of_which_neither_is_known_to_be_the_generators(job_for: JobFor) -> None:
    unknown = GENERATOR.replace("type generator", "type unknown")
    assert "which run brings the utility's power to switch" in needs(
        job_for(HOUSE + unknown + SWITCH + FROM_GENERATOR + FROM_HOUSE), "switch"
    )


def test_an_interlock_is_a_part_of_its_panel(job_for: JobFor) -> None:
    job = job_for(HOUSE + "transfer-switch plate\n  type interlock; panel house-panel\n")
    assert roles(job, "plate") == ["part-of-panel"]


def test_a_plain_switch_that_no_service_or_feeder_reaches_is_in_a_circuit(job_for: JobFor) -> None:
    switch = "disconnect wood-switch\n  switch-rating 20 A\n"
    assert roles(job_for(HOUSE + switch), "wood-switch") == ["downstream"]
    assert needs(job_for(HOUSE.replace("service, feeders", "feeders") + switch), "wood-switch") == "complete service"
    assert "wood-switch" in needs(job_for(HOUSE + switch.replace("switch-rating", "breaker")), "wood-switch")


GEAR = st.fixed_dictionaries(
    {
        "kind": st.sampled_from(["meter", "disconnect", "disconnect", "panel"]),
        "behind": st.integers(0, 5),
        "breaker": st.booleans(),
        "marked": st.booleans(),
        "service": st.booleans(),
    }
)


def written(gear: list[dict[str, Any]], order: list[int]) -> str:
    """A plan of this tree; `behind` says which earlier piece it is fed from, 0 the utility."""
    blocks = []
    for number, one in enumerate(gear, start=1):
        behind = one["behind"] % number
        start = f"gear-{behind}" if behind else "utility"
        run = "service" if is_service(gear, number) else "feeder"
        lines = [f"{one['kind']} gear-{number}"]
        if one["kind"] != "meter" and one["breaker"]:
            lines.append("  main 100 A" if one["kind"] == "panel" else "  breaker 100 A")
        if one["kind"] != "meter" and one["marked"]:
            lines.append("  marking not-service-equipment")
        blocks.append("\n".join([*lines, f"{run} run-{number}", f"  from {start}; to gear-{number}"]))
    return UTILITY + "\n".join(blocks[i] for i in order) + "\n"


def is_service(gear: list[dict[str, Any]], number: int) -> bool:
    """A run is a service where it is drawn so and may start there; a feeder can't end at a meter nor start at one."""
    one, behind = gear[number - 1], gear[number - 1]["behind"] % number
    start = gear[behind - 1]["kind"] if behind else "supply"
    return start != "panel" and (one["service"] or one["kind"] == "meter" or start == "meter")


def walked(gear: list[dict[str, Any]]) -> list[str]:
    """The second way: from the utility on, piece by piece, as an inspector follows the wires."""
    found = ["ahead-of-service"]
    for number, one in enumerate(gear, start=1):
        goes_on = any(each["behind"] % k == number and is_service(gear, k) for k, each in enumerate(gear, start=1))
        if found[one["behind"] % number] != "ahead-of-service":
            found.append("downstream")
        elif one["kind"] == "meter" or one["marked"] or (not one["breaker"] and goes_on):
            found.append("ahead-of-service")
        else:
            found.append("service")
    return found[1:]


@settings(max_examples=60, deadline=None)
@given(st.lists(GEAR, min_size=1, max_size=6), st.randoms(use_true_random=False))
def test_roles_of_random_trees_by_a_second_way(job_for: JobFor, gear: list[dict[str, Any]], random: Any) -> None:
    no_meter_behind_a_panel = all(
        not (one["kind"] == "meter" and one["behind"] % k and gear[one["behind"] % k - 1]["kind"] == "panel")
        for k, one in enumerate(gear, start=1)
    )
    assume(no_meter_behind_a_panel)
    order = list(range(len(gear)))
    random.shuffle(order)
    job = job_for(written(gear, order))
    assume(not wiring_faults(job.graph))
    assert roles(job, *(f"gear-{k}" for k in range(1, len(gear) + 1))) == walked(gear)


def test_a_supply_that_says_nothing_is_not_taken_for_the_utility(job_for: JobFor) -> None:
    """Beside the run of a battery, one whose supply has no type may be another such source's."""
    text = "complete service, feeders\nsupply one\n  type {}\nsupply two\n  type battery\npanel gear\n  main 100 A\n"
    text += "feeder from-one\n  from one; to gear\nfeeder from-two\n  from two; to gear\n"
    job = job_for(text.format("utility"))
    assert job.graph.feed(job.graph.one("gear")).name == "from-one"
    job = job_for(text.format("unknown"))
    with pytest.raises(NotStated, match="one: type"):
        job.graph.feed(job.graph.one("gear"))
