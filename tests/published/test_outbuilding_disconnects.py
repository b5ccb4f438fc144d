"""Ratings of the disconnects of outbuildings against NFPA 70 225.39 as a trade forum reads it.

Sources: forums.mikeholt.com, threads 114864 (a building with a panel of seven circuits, fed at 30 A: a 60 A disconnect) and 56238
(one multiwire branch circuit to an outbuilding: argued between 15 and 30 A). The figures 15, 30, 60 and 100 A of 225.39(A) to (D)
from memory; those threads name the first three of them.
"""

from collections.abc import Callable
from pathlib import Path

import pytest

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.facts import load_facts
from planlint.facts.disconnect_ratings import least_disconnect
from planlint.facts.engine import Job
from planlint.language import read_text
from planlint.plan.graph import Graph
from planlint.quantities import Current

JobFor = Callable[..., Job]
HOUSE = """complete service, feeders, circuits, receptacles, lights, loads
building cottage
  use one-family
building studio
  use workshop
place hall
  building cottage
place studio-room
  building studio
supply utility
  type utility; volts 120/240 V
panel house-panel
  at hall; main 200 A
service drop
  from utility; to house-panel; owner customer
"""


def lights(name: str, panel: str, more: str = "") -> str:
    return f"circuit {name}\n  panel {panel}; poles 1{more}\nlights {name}-lights\n  at studio-room; circuit {name}\n"


@pytest.mark.parametrize("edition", [2017, 2020, 2023])
def test_a_building_with_seven_circuits_behind_a_small_feeder(job_for: JobFor, edition: int) -> None:
    """Thread 114864: six single circuits and a 240 V one behind a 30 A breaker: 60 A all the same."""
    panel = "panel studio-panel\n  at studio-room; main 60 A\n"
    panel += "feeder studio-feeder\n  from house-panel; to studio-panel; breaker 30 A\n"
    circuits = "".join(lights(f"circuit-{number}", "studio-panel") for number in range(6))
    compressor = "circuit compressor\n  panel studio-panel; poles 2; neutral 10 AWG copper\n"
    job = job_for(HOUSE + panel + circuits + compressor, edition=edition)
    assert least_disconnect(job.graph.one("studio"), job) == Current.of(60, "A")


MULTIWIRE = HOUSE + lights("bench", "house-panel", "; shares-neutral-with ceiling") + lights("ceiling", "house-panel")


def test_one_multiwire_circuit_as_one_and_as_argued(job_for: JobFor, tmp_path: Path) -> None:
    """Thread 56238: one branch circuit by 225.30, so a plain switch does; whoever reads it as two gets more by the setting."""
    job = job_for(MULTIWIRE)
    assert least_disconnect(job.graph.one("studio"), job) == Current.of(15, "A")
    (tmp_path / "two.yaml").write_text(
        "profile: two\ntitle: Two (made up)\nbased-on: model-2020\nchecked: 2026-01-01\n"
        "settings:\n  least-disconnect.shared-neutral-is-one: no\n"
    )
    load_facts()
    strict = Job(Graph(read_text(MULTIWIRE, example=True).elements), resolve(("two",), folders=[tmp_path]), Tables())
    assert least_disconnect(strict.graph.one("studio"), strict) == Current.of(30, "A")


def test_one_and_two_circuits_from_the_house(job_for: JobFor) -> None:
    """NFPA 70 225.39(A) and (B)."""
    one = job_for(HOUSE + lights("bench", "house-panel"))
    assert least_disconnect(one.graph.one("studio"), one) == Current.of(15, "A")
    two = job_for(HOUSE + lights("bench", "house-panel") + lights("ceiling", "house-panel"))
    assert least_disconnect(two.graph.one("studio"), two) == Current.of(30, "A")
