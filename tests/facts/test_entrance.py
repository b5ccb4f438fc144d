"""How far service wires go inside: what counts as outside, what comes ahead, metal, and two made-up localities."""

from collections.abc import Callable

import pytest

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.checking import run_rule
from planlint.facts import load_facts
from planlint.facts.engine import Job
from planlint.facts.entrance import in_metal_raceway, unfused_inside_length
from planlint.language import read_text
from planlint.plan import NotStated
from planlint.plan.graph import Graph
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]

SITE = """building house
  use one-family
place hall
  building house
place yard
  outdoors yes
supply utility
  type utility
disconnect main
  at hall; breaker 200 A
service entrance
  from utility; to main; owner customer; inside-length {inside}; raceway pipe
raceway pipe
  length 12 ft; {pipe}
"""


def length(job: Job, name: str = "entrance") -> float:
    return unfused_inside_length(job.graph.one(name), job).within("ft")


@pytest.mark.parametrize(
    ("pipe", "feet"),
    [
        # NFPA 70 230.6: 2 in of concrete below or round the pipe, or 18 in of earth below the building, and it counts as outside.
        ("route below-slab; at hall; concrete-cover 2 in", 3),
        ("route below-slab; at hall; concrete-cover 1.9 in", 15),
        ("route in-concrete; at hall; concrete-cover 1.9 in", 15),
        ("route in-concrete; at yard; concrete-cover 1 in", 3),
        ("route above-grade; at yard", 3),
        ("route inside; at hall", 3),
        ("trench ditch\ntrench ditch\n  under building; cover 18 in", 3),
        ("concrete-cover 0 in; trench ditch\ntrench ditch\n  under building; cover 17.9 in", 15),
        ("concrete-cover 2 in; trench ditch\ntrench ditch\n  under building; cover 6 in", 3),
        ("trench ditch\ntrench ditch\n  under yard; cover 17.9 in", 3),
    ],
)
def test_what_counts_as_outside(job_for: JobFor, pipe: str, feet: float) -> None:
    assert length(job_for(SITE.format(inside="3 ft", pipe=pipe))) == pytest.approx(feet)


@pytest.mark.parametrize(
    "pipe",
    [
        "route below-slab; at hall",
        "at hall",
        "route below-slab; concrete-cover 2 in",
        "trench ditch\ntrench ditch\n  under building; cover 6 in",
    ],
)
def test_what_is_left_out_of_a_pipe_below_the_building(job_for: JobFor, pipe: str) -> None:
    with pytest.raises(NotStated):
        length(job_for(SITE.format(inside="3 ft", pipe=pipe)))


def test_cable_in_a_ditch_below_the_building_is_inside_but_for_concrete(job_for: JobFor) -> None:
    for concrete, feet in (("2 in", 3), ("1.9 in", 23)):
        text = SITE.rpartition("raceway pipe\n")[0].format(inside="3 ft").replace("; raceway pipe", "; cable USE-2; trench ditch")
        ditch = f"trench ditch\n  under building; cover 30 in; concrete-over {concrete}; length 20 ft\n"
        assert length(job_for(text + ditch)) == pytest.approx(feet)


METER_INSIDE = """supply utility
  type utility
meter meter
service to-meter
  from utility; to meter; owner {owner}; cable SER; inside-length 4 ft
disconnect main
  breaker 200 A
service to-main
  from meter; to main; owner customer; cable SER; inside-length 6 ft
"""


@pytest.mark.parametrize(("owner", "feet"), [("customer", 10), ("utility", 6)])
def test_the_customers_wires_ahead_of_a_meter_count_too(job_for: JobFor, owner: str, feet: float) -> None:
    assert length(job_for(METER_INSIDE.format(owner=owner)), "to-main") == pytest.approx(feet)


@pytest.mark.parametrize(
    ("pipe", "expected"),
    [
        ("type EMT; route inside; at hall", True),
        ("type PVC-40; route inside; at hall", False),
        ("type RMC; route above-grade; at yard", False),
        ("type RMC; route below-slab; at hall; concrete-cover 4 in", False),
    ],
)
def test_the_inside_part_in_metal(job_for: JobFor, pipe: str, expected: bool) -> None:
    job = job_for(SITE.format(inside="12 ft", pipe=pipe))
    assert in_metal_raceway(job.graph.one("entrance"), job) is expected


def test_metal_that_is_shorter_than_the_inside_part_is_not_enough(job_for: JobFor) -> None:
    job = job_for(SITE.format(inside="12.1 ft", pipe="type EMT; route inside; at hall"))
    assert not in_metal_raceway(job.graph.one("entrance"), job)


@pytest.mark.parametrize(
    ("profile", "inside", "concrete", "expected"),
    [
        # Up through the slab and inside: a made-up township lets it go 3 ft, the model code's common figure is 10 ft.
        ("plover-township", "3 ft", "4 in", "met"),
        ("plover-township", "3.1 ft", "4 in", "broken"),
        ("plover-township", "3 ft", "1 in", "broken"),
        ("model-2017", "10 ft", "4 in", "met"),
        ("model-2017", "10.1 ft", "4 in", "broken"),
        ("tern-county", "3 ft", "4 in", "met"),
        ("tern-county", "3.1 ft", "4 in", "broken"),
    ],
)
def test_how_far_inside_by_locality(profile: str, inside: str, concrete: str, expected: str) -> None:
    load_facts()
    code = resolve((profile,))
    pipe = f"type PVC-40; route below-slab; at hall; concrete-cover {concrete}"
    graph = Graph(read_text(SITE.format(inside=inside, pipe=pipe), example=True).elements)
    rule = compile_rule(code.rules["service-wires-long-inside"], code)
    assert run_rule(rule, graph.one("entrance"), Job(graph, code, Tables())).answer == expected
