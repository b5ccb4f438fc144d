"""Whether a run's wires keep each other's company all the way."""

from collections import Counter

from planlint.facts.engine import Job, fact
from planlint.facts.entrance import METALS
from planlint.facts.ways import lies, pipes_of
from planlint.facts.wires import Wired, is_cable
from planlint.plan.elements import not_stated
from planlint.plan.members import Members
from planlint.plan.routes import Raceway
from planlint.plan.runs import Circuit, Feeder, Service


@fact
def is_together(run: Service | Feeder | Circuit, job: Job) -> bool:
    """Whether all its wires, or those of each parallel set, lie in the same cable, pipe or ditch.

    A cable's do, and so do those of one pipe at a time. Where several of its pipes may lie side by side the plan has to say it;
    of parallel sets, whether they share one pipe or have one each. Split wires break the rule in metal pipe; in plastic the
    authority has to be asked. NFPA 70 300.3(B), 300.5(I), 310.10(G) (2017: 310.10(H)).
    """
    says = run.states("kept-together") or "kept-together" in run.unknown
    beside = [] if is_cable(run, job) else _side_by_side(run, job)
    if run.sets > 1 and not is_cable(run, job):
        return _sets_are_whole(run, max(map(len, beside), default=1))
    if beside:
        return run.kept_together or _may_lie_apart(run, beside)
    if says and run.sets == 1 and not run.kept_together:
        not_stated(run, "kept-together", f"{run.name}: kept-together no, or one cable or pipe for all; it can't be both")
    return True


def _may_lie_apart(run: Wired, beside: list[list[Raceway]]) -> bool:
    """Never where one of the pipes is of metal. In plastic the code has a way out that a plan can't show. NFPA 70 300.3(B)(3)."""
    if Members(tuple(pipe for line in beside for pipe in line)).some(lambda pipe: pipe.type in METALS):
        return False
    not_stated(run, "kept-together", f"{run.name}: whether its wires may lie apart in plastic pipe, by 300.3(B)(3) and 300.20(B)")


def _sets_are_whole(run: Wired, abreast: int) -> bool:
    """Whether each set has a pipe of its own, or all share one. Raises NotStated where its pipes don't fit what it says."""
    if run.kept_together and abreast > 1:
        not_stated(run, "kept-together", f"{run.name}: kept-together yes, or several pipes side by side; it can't be both")
    if not run.kept_together and abreast < run.sets:
        not_stated(run, "raceway", f"{run.name}: a pipe for each of its {run.sets} sets (or kept-together yes)")
    return True


def _side_by_side(run: Wired, job: Job) -> list[list[Raceway]]:
    """Those of its pipes that may lie side by side, by the spot: one ditch, or one route in one place, not joined end to end."""
    lines = _joined(pipes_of(run, job))
    if len(lines) < 2:
        return []
    routes = [[lies(pipe, job) for pipe in line] for line in lines]
    shared = Counter(route for each in routes for route in set(each))
    spots: dict[object, dict[int, Raceway]] = {}
    for number, (line, each) in enumerate(zip(lines, routes, strict=True)):
        for pipe, route in zip(line, each, strict=True):
            if shared[route] > 1:
                spot = id(pipe.trench) if route == "buried" else (route, id(pipe.at))
                spots.setdefault(spot, {}).setdefault(number, pipe)
    return [list(found.values()) for found in spots.values() if len(found) > 1]


def _joined(pipes: tuple[Raceway, ...]) -> list[list[Raceway]]:
    """The pipes as lines: those together of which one is stated to continue another."""
    lines: list[list[Raceway]] = []
    for pipe in dict.fromkeys(pipes):
        touching = [line for line in lines if any(_goes_on(pipe, one) or _goes_on(one, pipe) for one in line)]
        lines = [line for line in lines if line not in touching] + [[pipe, *(one for line in touching for one in line)]]
    return lines


def _goes_on(pipe: Raceway, following: Raceway) -> bool:
    return pipe.states("continues") and pipe.continues is following
