"""Breakers for continuous loads against worked figures of the trade.

Sources: forums.mikeholt.com, threads 2553027 (water heater of 5,500 W: 28.75 A with the current rounded to 23 A, a 30 A breaker)
and 68985 (4,500 W at 230 V: 20 A x 125 % = 25 A); a bulletin of a maker of breakers on conductor ampacity, which reprints
210.20(A) and its exception for assemblies listed at 100 % (productinfo.schneider-electric.com). The car charger is 625.41 by
hand, and so is the kiln of the made-up studio: 48 A x 125 % = 60 A.
"""

from collections.abc import Callable
from pathlib import Path

import pytest

from planlint.checking import run_rule
from planlint.facts.continuous_load import breaker_needed
from planlint.facts.engine import Job
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
ALONE = (
    "complete loads, receptacles, lights\ncircuit alone\n  poles 2; use appliance; breaker {}\nload thing\n  circuit alone; {}\n"
)


@pytest.mark.parametrize(
    ("plate", "printed"),
    [
        ("type water-heater; rating 5.5 kW; amps 23 A; volts 240 V; tankless no", 28.75),
        ("type water-heater; amps 20 A; volts 230 V; tankless no", 25),
        ("type car-charger; amps 48 A; volts 240 V", 60),
    ],
)
def test_what_the_trade_works_out(job_for: JobFor, plate: str, printed: float) -> None:
    """Threads 2553027 and 68985, to the last printed figure; the charger by hand."""
    job = job_for(ALONE.format("60 A", plate))
    assert breaker_needed(job.graph.one("alone"), job).within("A") == pytest.approx(printed)


@pytest.mark.parametrize("edition", [2017, 2020, 2023])
@pytest.mark.parametrize(
    ("breaker", "more", "answer"), [("60 A", "", "met"), ("59 A", "", "broken"), ("50 A", "; full-rating yes", "met")]
)
def test_the_section_and_its_exception(job_for: JobFor, edition: int, breaker: str, more: str, answer: str) -> None:
    """NFPA 70 210.20(A): 100 % of what doesn't run long and 125 % of what does; 100 % of both where the assembly is listed so."""
    loads = "type kiln; amps 40 A; volts 240 V; continuous yes\n"
    loads += "load other\n  circuit alone; type kiln; amps 10 A; volts 240 V; continuous no"
    job = job_for(ALONE.format(breaker + more, loads), edition=edition)
    rule = compile_rule(job.code.rules["continuous-load-not-increased"], job.code)
    assert run_rule(rule, job.graph.one("alone"), job).answer == answer


COTTAGE = Path(__file__).parents[2] / "fixtures" / "cottage.plan"


@pytest.mark.parametrize(("run", "needed"), [("kiln-circuit", 60.0), ("studio-feeder", 65.0)])
def test_the_studio_by_hand(job_for: JobFor, run: str, needed: float) -> None:
    """The kiln 48 A x 125 %; the feeder 12,720 VA / 240 V = 53.0 A and a quarter of 48 A."""
    job = job_for(COTTAGE.read_text(encoding="utf-8"), profile="tern-county")
    assert breaker_needed(job.graph.one(run), job).within("A") == pytest.approx(needed)
