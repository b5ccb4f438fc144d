"""What shuts appliances, heaters, cooling units and motors off, against published answers. Each check names its source."""

from collections.abc import Callable

import pytest

from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
EDITIONS = [2017, 2020, 2023]
SEEN, UNSEEN = "disconnect-in-sight yes", "disconnect-in-sight no"

PRINTED = [
    # ecmweb.com, code-qa-99: a water heater's breaker within sight, or capable of being locked open with a hasp that stays.
    (f"type water-heater; connection hard-wired; disconnect breaker; {SEEN}", "met"),
    (f"type water-heater; connection hard-wired; disconnect lockable-breaker; {UNSEEN}", "met"),
    (f"type water-heater; connection hard-wired; disconnect breaker; {UNSEEN}", "broken"),
    # forums.mikeholt.com thread 2582027: of breaker and switch out of sight either one is lockable.
    (f"type range; connection hard-wired; disconnect lockable-switch; {UNSEEN}", "met"),
    # electricallicenserenewal.com, section 323: motor-operated appliances too; jaspector.com, IRC 2021 E4101.5: cord and plug.
    (f"type dishwasher; connection hard-wired; disconnect lockable-breaker; {UNSEEN}", "met"),
    ("type dishwasher; connection cord; disconnect cord", "not-applicable"),
    # jaspector.com, IRC 2021 E4101.5: up to 300 VA the breaker is the disconnect where it is in sight or lockable.
    (f"type hood; rating 200 W; connection hard-wired; disconnect breaker; {UNSEEN}", "broken"),
    (f"type hood; rating 200 W; connection hard-wired; disconnect lockable-breaker; {UNSEEN}", "met"),
    # ecmweb.com, code-qa-54: a breaker in a panel within sight of the cooling unit does.
    (f"type air-conditioner; connection hard-wired; disconnect breaker; {SEEN}", "met"),
    # ecmweb.com, A/C equipment quiz, and NFPA's forum, thread 39595: the lock out of sight is for industrial plants.
    (f"type air-conditioner; connection hard-wired; disconnect lockable-breaker; {UNSEEN}", "broken"),
    (f"type heat-pump; connection hard-wired; disconnect lockable-breaker; {UNSEEN}", "broken"),
    # forums.mikeholt.com threads 80961 and 2538894: electric heaters in sight or lockable; ecmweb.com, code-qa-15: a unit switch.
    (f"type baseboard-heat; connection hard-wired; disconnect lockable-breaker; {UNSEEN}", "met"),
    (f"type baseboard-heat; connection hard-wired; disconnect breaker; {UNSEEN}", "broken"),
    (f"type space-heat; connection hard-wired; disconnect unit-switch; {UNSEEN}", "met"),
    # 430.102(B) and its exception, as ecmweb.com's articles on motors print it: impracticable or more dangerous in sight.
    (f"type motor; connection hard-wired; disconnect switch; {SEEN}", "met"),
    (f"type motor; connection hard-wired; disconnect lockable-breaker; sight-impracticable no; {UNSEEN}", "broken"),
    (f"type well-pump; connection hard-wired; disconnect lockable-breaker; sight-impracticable yes; {UNSEEN}", "met"),
]


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(("said", "answer"), PRINTED)
def test_published_answers(job_for: JobFor, said: str, answer: str, edition: int) -> None:
    """In sight, or locked open where the articles let it."""
    job = job_for(f"load machine\n  {said}\n", edition)
    rule = compile_rule(job.code.rules["equipment-disconnect-out-of-sight"], job.code)
    assert run_rule(rule, job.graph.one("machine"), job).answer == answer
