"""Meter sockets against the mains behind them.

UL 414, 1.2 (scope, standardscatalog.ul.com): a socket is marked with the current it carries on and on, and may besides be marked
for a while with 125 % of it or less. A utility's handbook for its customers (online.flipbuilder.com/gvsc/fzpu, page 60): the
socket for a 120/240 V service of 400 A is one of 320 A.
"""

from collections.abc import Callable

import pytest

from planlint.book import resolve
from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
PLAN = """complete service, feeders
meter post
  rating {socket}
disconnect main
  breaker {main}
service wires
  from post; to main; owner customer
"""


@pytest.mark.parametrize("edition", [2017, 2020, 2023])
@pytest.mark.parametrize(
    ("socket", "main", "answer"),
    [
        ("200 A", "200 A", "met"),
        ("320 A", "400 A", "met"),  # the utility's own pair
        ("200 A", "250 A", "met"),  # at 125 %
        ("200 A", "300 A", "broken"),
        ("100 A", "200 A", "broken"),
        ("125 A", "200 A", "broken"),
        ("320 A", "600 A", "broken"),
    ],
)
def test_a_socket_serves_mains_of_125_percent(job_for: JobFor, edition: int, socket: str, main: str, answer: str) -> None:
    job = job_for(PLAN.format(socket=socket, main=main), edition=edition)
    code = resolve((f"model-{edition}",))
    assert run_rule(compile_rule(code.rules["meter-socket-too-small"], code), job.graph.one("post"), job).answer == answer
