"""A ditch as a whole: how deep and how wide to dig it, and how far from other lines."""

import math
from typing import cast

from planlint.facts.burial import least_cover
from planlint.facts.engine import Job, fact
from planlint.facts.wires import Wired, hot_size, is_cable
from planlint.plan.elements import not_stated
from planlint.plan.members import Members
from planlint.plan.routes import Raceway, Trench
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Length

NOTHING = Length.of(0, "in")


@fact
def trench_depth(trench: Trench, job: Job) -> Length:
    """How deep to dig: its cover, below it the lines, layer on layer with their spacing, and the bed under them.

    Cover ends at the top of the topmost line. In several layers the thickest lines count, one for each, as nothing says which
    lie where. A flat cable counts by its wide side. NFPA 70 300.5, note 1 to the table.
    """
    return _depth(trench.cover, "of cover", trench, job)


@fact
def least_depth(trench: Trench, job: Job) -> Length:
    """How deep it has to be at the least: as `trench-depth`, from the most cover that any of its lines needs.

    Of a pipe the cover for whatever may be in it; and what the authority wants on top of the table.
    NFPA 70 Table 300.5 (2023: 300.5(A)).
    """
    pipes, runs = _lines(trench, job)
    extra: Length = job.setting("trench-too-shallow.extra-cover")
    needed = max(least_cover(line, trench, job) for line in (*pipes, *runs)) + extra
    return _depth(needed, "of cover at the least", trench, job)


@fact
def trench_width(trench: Trench, job: Job) -> Length:
    """How wide its floor has to be: the lines of one layer side by side, the spacing between them, and room at the walls.

    The widest lines count as one layer, as nothing says which lie where. Common practice, no source.
    """
    sizes = sorted(_thicknesses(trench, job), reverse=True)
    in_a_row = sizes[: math.ceil(len(sizes) / trench.layers)]
    gaps = len(in_a_row) - 1
    spacing = trench.spacing if gaps else NOTHING
    side: Length = job.setting("trench-width.at-walls")
    width = side + side
    for each in in_a_row:
        width = width + each
    width = width + spacing * gaps
    text = " + ".join(map(str, in_a_row)) + (f" + {gaps} x {spacing} between" if gaps else "")
    job.step(f"{text} + 2 x {side} at the walls", width, "common practice, no source")
    return width


@fact
def pipes_side_by_side(trench: Trench, job: Job) -> int:
    """How many pipes lie in it beside or above one another; pieces that continue one another count as one."""
    return len(_pulls(job.graph.those(Raceway, "trench", trench).whole()))


@fact
def separation_needed(trench: Trench, job: Job) -> Length:
    """How far off the nearest of what shares it should be: the most that any of them asks for; 0 in where nothing does.

    Common practice of the sheets on joint trenches; their figures differ, so ask each owner.
    """
    least = [(job.setting(f"separation-needed.from-{what}"), what) for what in trench.shares_with]
    for length, what in least:
        job.step(f"from {what}", length, "common practice, joint-trench sheets")
    return max([length for length, _ in least], default=NOTHING)


def _depth(cover: Length, what: str, trench: Trench, job: Job) -> Length:
    thick = sorted(_thicknesses(trench, job), reverse=True)[: trench.layers]
    gaps = len(thick) - 1
    spacing = trench.spacing if gaps else NOTHING
    bed = _bed(trench)
    depth = cover + spacing * gaps + bed
    for each in thick:
        depth = depth + each
    parts = [f"{cover} {what}", *map(str, thick)]
    parts += [f"{gaps} x {spacing} between layers"] if gaps else []
    parts += [f"{bed} of bed"] if bed > NOTHING else []
    has_pipes = bool(_lines(trench, job)[0])
    job.step(" + ".join(parts), depth, job.from_table("raceway-outside") if has_pipes else "")
    return depth


def _bed(trench: Trench) -> Length:
    """What lies under the lines. Where a bed is stated and not how thick it is, that is open; otherwise there may be none."""
    if trench.states("bedding-depth") or "bedding-depth" in trench.unknown:
        return trench.bedding_depth
    if trench.states("bedding") and trench.bedding != "none":
        not_stated(trench, "bedding-depth")
    return NOTHING


def _lines(trench: Trench, job: Job) -> tuple[tuple[Raceway, ...], tuple[Wired, ...]]:
    """The pipes in it, and the runs that lie in it without pipe. Raises NotStated where nothing does."""
    pipes = job.graph.those(Raceway, "trench", trench).whole()
    services, feeders, circuits = (job.graph.those(kind, "trench", trench) for kind in (Service, Feeder, Circuit))
    runs = cast("Members[Wired]", services.joined(feeders, circuits)).whole()
    if not pipes and not runs:
        not_stated(trench, "contents", f"what lies in {trench.name}")
    return pipes, runs


def _thicknesses(trench: Trench, job: Job) -> list[Length]:
    """What each line takes from side to side: pipes that continue one another in it are one line."""
    pipes, runs = _lines(trench, job)
    found = [max(job.tables.outside_diameter(pipe.type, pipe.size) for pipe in group) for group in _pulls(pipes)]
    return found + [_thickness(run, job) for run in runs for _ in range(run.sets)]


def _pulls(pipes: tuple[Raceway, ...]) -> list[list[Raceway]]:
    """The pipes, those together of which one is stated to continue another."""
    groups = [[pipe] for pipe in pipes]
    for pipe in pipes:
        following = pipe.continues if pipe.states("continues") else None
        ahead, behind = (next((group for group in groups if one in group), None) for one in (pipe, following))
        if ahead is not None and behind is not None and ahead is not behind:
            ahead += behind
            groups.remove(behind)
    return groups


def _thickness(run: Wired, job: Job) -> Length:
    return run.cable_width if is_cable(run, job) else job.tables.conductor_diameter(hot_size(run, job), run.hot.insulation)
