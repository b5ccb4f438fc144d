"""How high overhead wires hang, against published figures; and what a service may be.

Sources: ecmweb.com, code Q&A 20886687 and "code-qa-52" (230.24(A) with its exceptions); pages 728 and 729 of the International
Residential Code 2018, E3604.1 to E3604.2.2, which names the sections of NFPA 70 of 2017 that it takes up (3, 8, 10, 12 and
18 ft); ecmweb.com, "What's wrong here" (230.24(B)(1)); quizwizapp.com, 230.24 clearances; jaspector.com, IRC 2024 (10 ft at the
fastening). 8 ft 6 in over roofs from the edition of 2020 on is from memory. Barriers: forum.nachi.org thread 250910 and
electricallicenserenewal.com, sections 313 and 841. One service: forums.mikeholt.com thread 108792 (sets of service-entrance wires
are no services) and legalclarity.org on 230.2. Meters: we-energies.com and skamaniapud.com, meter guidelines.
"""

from collections.abc import Callable

import pytest

from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.facts.service_lines import barrier_needed, service_lines
from planlint.facts.spans import hangs_high_enough, low_places, roof_clearance, worst_shortfall
from planlint.quantities import Length
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
EDITIONS = [2017, 2020, 2023]


def span(job_for: JobFor, text: str, edition: int = 2020) -> tuple[Job, object]:
    job = job_for(f"span drop\n  {text}\n", edition)
    return job, job.graph.one("drop")


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("passed", "said", "feet"),
    [
        ("walkway", "above-walkway", 10),
        ("driveway", "above-driveway", 12),
        ("street", "above-street", 18),
        ("windows", "from-windows", 3),
    ],
)
def test_the_heights_that_handbooks_print(job_for: JobFor, passed: str, said: str, feet: int, edition: int) -> None:
    """230.24(B)(1), (2), (4) and 230.9(A): the printed figure does, an inch less doesn't."""
    job, drop = span(job_for, f"passes-over {passed}; attachment 20 ft; {said} {feet} ft", edition)
    assert hangs_high_enough(drop, job) is True
    assert worst_shortfall(drop, job) == Length.of(0, "ft")
    job, drop = span(job_for, f"passes-over {passed}; attachment 20 ft; {said} {feet * 12 - 1} in", edition)
    assert hangs_high_enough(drop, job) is False
    assert worst_shortfall(drop, job) == Length.of(1, "in")
    assert f"{feet} ft is the least" in low_places(drop, job)


@pytest.mark.parametrize("edition", EDITIONS)
def test_the_fastening(job_for: JobFor, edition: int) -> None:
    """230.26, as jaspector.com and quizwizapp.com print it: 10 ft."""
    for height, expected in (("10 ft", True), ("9 ft 11 in", False)):
        job, drop = span(job_for, f"passes-over walkway; above-walkway 12 ft; attachment {height}", edition)
        assert hangs_high_enough(drop, job) is expected


@pytest.mark.parametrize(
    ("edition", "roof", "feet"),
    [
        (2017, "roof-slope 3 in 12; over-overhang-only no", 8.0),
        (2020, "roof-slope 3 in 12; over-overhang-only no", 8.5),
        (2023, "roof-slope 3 in 12; over-overhang-only no", 8.5),
        (2017, "roof-slope 4 in 12; over-overhang-only no", 3.0),
        (2020, "roof-slope 8 in 24; over-overhang-only no", 3.0),
        (2023, "roof-slope 12 in 12; over-overhang-only no", 3.0),
        (2017, "roof-slope 1 in 12; over-overhang-only yes", 1.5),
        (2023, "roof-slope 6 in 12; over-overhang-only yes", 1.5),
    ],
)
def test_over_roofs(job_for: JobFor, edition: int, roof: str, feet: float) -> None:
    """230.24(A): 8 ft; 3 ft from 4 in 12 on (exception 2); 18 in over 4 ft of overhang (exception 3)."""
    for inches, expected in ((feet * 12, True), (feet * 12 - 1, False)):
        job, drop = span(job_for, f"passes-over roof; attachment 20 ft; above-roof {inches:g} in; {roof}", edition)
        assert hangs_high_enough(drop, job) is expected
        assert roof_clearance(drop, job) == Length.of(feet, "ft")


BARRIER = "panel gear\n  main 200 A\n", "disconnect gear\n  breaker 200 A\n", "panel gear\n  main lugs\n"


@pytest.mark.parametrize(("edition", "needed"), [(2017, (True, False, False)), (2020, (True,) * 3), (2023, (True,) * 3)])
def test_where_live_terminals_are_covered(job_for: JobFor, edition: int, needed: tuple[bool, ...]) -> None:
    """2017: service panelboards, but those with several mains; 2020 on: all service equipment (the two pages on 230.62)."""
    for text, expected in zip(BARRIER, needed, strict=True):
        job = job_for(text, edition)
        assert barrier_needed(job.graph.one("gear"), job) is expected


def test_two_sets_of_wires_behind_one_drop_are_one_service(job_for: JobFor) -> None:
    """230.40, exception 2, as forums.mikeholt.com thread 108792 explains: there is one service, with sets of conductors."""
    job = job_for(
        "complete service, feeders, circuits\nbuilding house\n  use one-family\nsupply utility\n  type utility\n"
        "meter socket\n  mounted-on house\nservice drop\n  from utility; to socket\n"
        "disconnect left\n  mounted-on house; breaker 200 A\ndisconnect right\n  mounted-on house; breaker 200 A\n"
        "service first\n  from socket; to left\nservice second\n  from socket; to right\n"
    )
    assert [line.name for line in service_lines(job.graph.one("house"), job).whole()] == ["drop"]


METERS = [("4 ft", "3 ft", "met"), ("6 ft", "3 ft", "met"), ("47 in", "3 ft", "broken"), ("73 in", "3 ft", "broken")]


@pytest.mark.parametrize(("height", "gas", "answer"), [*METERS, ("5 ft", "35 in", "broken")])
def test_where_utilities_want_the_meter(job_for: JobFor, height: str, gas: str, answer: str) -> None:
    """we-energies.com: 4 to 6 ft for overhead drops, 3 ft to gas (skamaniapud.com: 36 in)."""
    job = job_for(f"meter socket\n  height {height}; gas-distance {gas}\n")
    rule = compile_rule(job.code.rules["meter-place-against-utility-rules"], job.code)
    assert run_rule(rule, job.graph.one("socket"), job).answer == answer
