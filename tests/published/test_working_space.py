"""The working space of 110.26(A), on both sides of each limit, through the rule working-space-too-small."""

from collections.abc import Callable

import pytest

from planlint.book import resolve
from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.facts.space import clear_width_needed, low_height_allowed
from planlint.quantities import Length
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]


def answer(job: Job) -> str:
    code = resolve((f"model-{job.edition}",))
    return run_rule(compile_rule(code.rules["working-space-too-small"], code), job.graph.one("gear"), job).answer


def space(kind: str, depth: float, width: float, height: float, more: str = "") -> str:
    return f"{kind} gear\n  clear-depth {depth:g} in; clear-width {width:g} in; clear-height {height:g} in\n{more}"


@pytest.mark.parametrize("edition", [2017, 2020, 2023])
@pytest.mark.parametrize("kind", ["panel", "disconnect", "meter", "transfer-switch"])
@pytest.mark.parametrize(
    ("depth", "width", "height", "expected"),
    [
        (36, 30, 78, "met"),
        (35.9, 30, 78, "broken"),
        (36, 29.9, 78, "broken"),
        (36, 30, 77.9, "broken"),
    ],
)
def test_depth_width_and_height(
    job_for: JobFor, kind: str, depth: float, width: float, height: float, expected: str, edition: int
) -> None:
    """A state's table S-1 (casetext.com, WAC 296-24-95703): 3 ft up to 150 V to ground; ecmag.com, work spaces around electrical
    equipment: 30 in wide and 6-1/2 ft high."""
    of_kind = {"panel": "  width 14-1/2 in\n", "transfer-switch": "  type manual\n"}.get(kind, "")
    home = "  at room\nplace room\n  building house; use mechanical\nbuilding house\n  use one-family; construction new\n"
    assert answer(job_for(space(kind, depth, width, height, of_kind + home), edition)) == expected


@pytest.mark.parametrize(("case", "needed"), [("14-1/2 in", 30), ("30 in", 30), ("31 in", 31)])
def test_the_width_of_the_case_counts_where_it_is_more(job_for: JobFor, case: str, needed: float) -> None:
    """ecmag.com on 110.26(A)(2): the width of the equipment or 30 in, whichever is greater."""
    job = job_for(space("panel", 36, needed, 78, f"  width {case}\n"))
    assert clear_width_needed(job.graph.one("gear"), job) == Length.of(needed, "in")
    assert answer(job) == "met"
    assert answer(job_for(space("panel", 36, needed - 0.1, 78, f"  width {case}\n"))) == "broken"


@pytest.mark.parametrize(
    ("kind", "rating", "construction", "allowed"),
    [
        ("panel", "bus 200 A; width 14 in", "existing", True),
        ("panel", "bus 225 A; width 14 in", "existing", False),
        ("panel", "bus 200 A; width 14 in", "new", False),
        ("disconnect", "breaker 200 A", "existing", True),
        ("disconnect", "fuses 400 A", "existing", False),
    ],
)
def test_an_existing_dwelling_may_be_lower(job_for: JobFor, kind: str, rating: str, construction: str, allowed: bool) -> None:
    """110.26(A)(3), exception 1: service equipment and panels up to 200 A in existing dwellings. The figure as in the rule
    catalogue's reading of an inspection checklist; from memory."""
    job = job_for(
        space(kind, 36, 30, 72, f"  at room; {rating}\nplace room\n  building house\n")
        + f"building house\n  use one-family; construction {construction}\n"
    )
    assert low_height_allowed(job.graph.one("gear"), job) is allowed
    assert answer(job) == ("met" if allowed else "broken")


def test_the_slide_plate_of_an_interlock_has_the_space_of_its_panel(job_for: JobFor) -> None:
    """Law: it is no case of its own, so it asks for nothing."""
    assert answer(job_for("transfer-switch gear\n  type interlock\n")) == "not-applicable"
    assert answer(job_for("transfer-switch gear\n  readily-accessible yes\n")) == "undecided"
