"""Whether a breaker can sit in the spaces of the panel that the plan gives it.

Spaces are numbered across in rows of two (common practice, no source), so a 2-pole breaker takes two that differ by 2.
"""

from collections import Counter

from planlint.facts.circuit_faults import broken_parts
from planlint.facts.engine import Job, fact
from planlint.facts.wires import hot_wires
from planlint.plan.elements import does_not_arise
from planlint.plan.gear import Panel
from planlint.plan.members import Members, all_hold
from planlint.plan.runs import Circuit, Feeder

Breaker = Circuit | Feeder


@fact
def fits_its_spaces(run: Feeder | Circuit, job: Job) -> bool:
    """Whether its breaker fits the spaces that it names: one for each pole, one below the other, shared as the label allows.

    NFPA 70 110.3(B), 408.54.
    """
    return all_hold(
        lambda: _is_there(run),
        lambda: _has_one_for_each_pole(run, job),
        lambda: _is_in_line(run),
        lambda: _may_share(run, job),
    )


@fact
def space_fault(run: Feeder | Circuit, job: Job) -> str:
    """Why its breaker can't sit in the spaces that it names, in words. NFPA 70 110.3(B), 408.54."""
    return broken_parts(
        run,
        (lambda: _is_there(run), lambda: f"it is in space {max(run.space)}, and the panel has {_panel(run).spaces}"),
        (lambda: _has_one_for_each_pole(run, job), lambda: f"it has {_poles(run, job)} poles and names {len(run.space)} spaces"),
        (
            lambda: _is_in_line(run),
            lambda: f"spaces {run.space[0]} and {run.space[1]} are not one below the other, so no 2-pole breaker fits",
        ),
        (lambda: _may_share(run, job), lambda: f"it shares a space with {_names(run, job)}, more than the panel's label allows"),
    )


def _panel(run: Breaker) -> Panel:
    start = run.panel if isinstance(run, Circuit) else run.from_
    return start if isinstance(start, Panel) else does_not_arise(run, f"{run.name}: a panel in which its breaker sits")


def _poles(run: Breaker, job: Job) -> int:
    return run.poles if isinstance(run, Circuit) else hot_wires(run, job).count


def _is_there(run: Breaker) -> bool:
    return max(run.space) <= _panel(run).spaces


def _has_one_for_each_pole(run: Breaker, job: Job) -> bool:
    return len(run.space) == _poles(run, job)


def _is_in_line(run: Breaker) -> bool:
    return len(run.space) != 2 or abs(run.space[0] - run.space[1]) == 2


def _others(run: Breaker, job: Job) -> Members[Breaker]:
    """The other breakers of the panel."""
    none: Members[Breaker] = Members(())
    found = none.joined(job.graph.those(Circuit, "panel", _panel(run)), job.graph.those(Feeder, "from", _panel(run)))
    return found.where(lambda one: one is not run)


def _may_share(run: Breaker, job: Job) -> bool:
    """Whether no other breaker names a space of it, or the panel has no more doubled spaces than poles beyond its spaces.

    Three are too many for one space whatever the label says.
    """
    others = _others(run, job)
    if all_hold(*(lambda space=space: not others.some(lambda one: space in one.space) for space in run.space)):
        return True
    named = Counter(space for one in (run, *others) if one.states("space") for space in one.space)
    doubled, panel = sum(named.values()) - len(named), _panel(run)
    return all_hold(
        lambda: all(named[space] <= 2 for space in run.space),
        lambda: doubled <= panel.circuits_most - panel.spaces,
        lambda: bool(others.where(lambda one: bool(one.space)).whole()),
    )


def _names(run: Breaker, job: Job) -> str:
    beside = [one.name for one in _others(run, job) if one.states("space") and set(one.space) & set(run.space)]
    return " and ".join(beside)
