"""Several cables in one hole that is filled with foam, caulk or insulation, where they can't get rid of their heat."""

from planlint.facts.ampacity import ampacity
from planlint.facts.engine import Job, fact
from planlint.facts.framing import runs
from planlint.facts.motors import sized_by_motor_rules
from planlint.facts.overcurrent import breaker_fits, uses_reduction
from planlint.facts.wires import Wired, breaker_rating, cable_type
from planlint.plan.elements import not_stated
from planlint.plan.members import all_hold
from planlint.plan.routes import Holes
from planlint.plan.runs import Service


@fact
def is_crowded(holes: Holes, job: Job) -> bool:
    """Whether more cables share one of these holes than may lie together in foam without loss of ampacity. NFPA 70 334.80.

    Where more runs name the holes than that, the plan has to say how many share one.
    """
    most: float = job.setting("count-factor.cables-up-to")
    if not holes.states("together") and "together" not in holes.unknown and len(runs(holes, job).known) > most:
        not_stated(holes, "together", f"{holes.name}: together, how many of its cables share one hole")
    return holes.together > most


def _runs_too_hot(run: Wired, job: Job) -> bool:
    return all_hold(
        lambda: cable_type(run, job) in job.setting("count-factor.sealed-hole-cables"),
        lambda: isinstance(run, Service) or not sized_by_motor_rules(run, job),
        lambda: not breaker_fits(run, job),
        lambda: not uses_reduction(run, job),
    )


@fact
def crowding_is_borne(holes: Holes, job: Job) -> bool:
    """Whether the breaker of every nonmetallic or armored cable in these holes still suits what its wires carry there.

    NFPA 70 334.80, 320.80, Table 310.15(C)(1) (2017: 310.15(B)(3)(a)), 240.4(B).
    """
    return not runs(holes, job).some(lambda run: _runs_too_hot(run, job))


@fact
def overheated_runs(holes: Holes, job: Job) -> str:
    """The runs in these holes whose breaker is too large for what their wires carry there, in words."""
    hot = runs(holes, job).where(lambda run: _runs_too_hot(run, job))
    return "; ".join(f"{run.name} keeps {ampacity(run, job).show(3)} on a {breaker_rating(run, job)} breaker" for run in hot)
