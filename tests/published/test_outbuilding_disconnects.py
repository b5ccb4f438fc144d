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
from planlint.checking import run_rule
from planlint.facts import load_facts
from planlint.facts.disconnect_ratings import disconnect_rating, least_disconnect
from planlint.facts.engine import Job
from planlint.language import read_text
from planlint.plan.graph import Graph
from planlint.quantities import Current
from planlint.rulebook import compile_rule

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


def studio_on_lugs(breakers: int, more: str = "") -> str:
    panel = "panel studio-panel\n  at studio-room; main lugs; readily-accessible yes\n"
    panel += "feeder studio-feeder\n  from house-panel; to studio-panel; breaker 60 A\n"
    return HOUSE + panel + more + "".join(lights(f"c{number}", "studio-panel", "; breaker 15 A") for number in range(breakers))


def answer(job: Job, rule: str, name: str = "studio") -> str:
    code = resolve((f"model-{job.edition}",))
    return run_rule(compile_rule(code.rules[rule], code), job.graph.one(name), job).answer


@pytest.mark.parametrize("edition", [2017, 2020, 2023])
@pytest.mark.parametrize(("breakers", "expected"), [(0, "broken"), (1, "met"), (6, "met"), (7, "broken")])
def test_six_breakers_do_without_a_main(job_for: JobFor, edition: int, breakers: int, expected: str) -> None:
    """225.33(A) as forums.mikeholt.com, threads 13023 and (edition of 2020) 2578664, quote it; 2023 from memory."""
    assert answer(job_for(studio_on_lugs(breakers), edition), "outbuilding-disconnect-missing") == expected


def test_breakers_that_may_be_more_are_an_open_question(job_for: JobFor) -> None:
    def judged(breakers: int) -> str:
        text = studio_on_lugs(breakers).replace("complete service, feeders, circuits,", "complete service, feeders,")
        return answer(job_for(text), "outbuilding-disconnect-missing")

    assert [judged(0), judged(6), judged(7)] == ["undecided", "undecided", "broken"]


def test_the_breakers_of_one_panel_add_up_to_its_rating(job_for: JobFor) -> None:
    """Thread 13023: 15, 15 and 40 A of two poles and 15 A of one on lugs are argued to be 85 A, which 225.39(D) wants 60 A of."""
    more = "".join(
        f"circuit t{number}\n  panel studio-panel; poles 2; breaker {amps} A\n" for number, amps in enumerate((15, 15, 40))
    )
    job = job_for(studio_on_lugs(1, more))
    assert disconnect_rating(job.graph.one("studio"), job) == Current.of(85, "A")


BELL = """circuit bell
  panel house-panel; volts {volts}; hot 14 AWG copper THWN-2; neutral 14 AWG copper THWN-2; ground none; raceway pipe
raceway pipe
  type PVC-40
load chime
  at studio-room; circuit bell; type other; connection hard-wired
"""


@pytest.mark.parametrize(("volts", "expected"), [("24 V", "not-applicable"), ("120 V", "broken")])
@pytest.mark.parametrize("rule", ["outbuilding-disconnect-missing", "outbuilding-electrode-missing"])
def test_bell_wires_are_no_supply(job_for: JobFor, volts: str, expected: str, rule: str) -> None:
    """225.30 counts feeders and branch circuits; class 2 wires are neither (article 725), and of another voltage (225.30(E))."""
    job = job_for(HOUSE.replace("loads", "loads, grounding") + BELL.format(volts=volts))
    assert answer(job, rule) == expected
    assert answer(job, "outbuilding-three-wire-feed", "bell") == expected


@pytest.mark.parametrize(("volts", "expected"), [("24 V", "met"), ("120 V", "broken")])
def test_bell_wires_beside_a_feeder(job_for: JobFor, volts: str, expected: str) -> None:
    assert answer(job_for(studio_on_lugs(2, BELL.format(volts=volts))), "outbuilding-two-supplies") == expected
