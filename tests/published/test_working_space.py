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


DROP = "supply utility\n  type utility\nservice drop\n  from utility; to gear"
BEHIND = DROP.replace("to gear", "to first") + "\ndisconnect first\n  breaker 200 A\nfeeder run\n  from first; to gear"


@pytest.mark.parametrize(
    ("kind", "rating", "construction", "allowed"),
    [
        ("panel", "bus 200 A; width 14 in", "existing", True),
        ("panel", "bus 225 A; width 14 in", "existing", False),
        ("panel", "bus 200 A; width 14 in", "new", False),
        ("disconnect", f"breaker 200 A\n{DROP}", "existing", True),
        ("disconnect", f"fuses 400 A\n{DROP}", "existing", False),
        ("disconnect", f"breaker 60 A\n{BEHIND}", "existing", False),
    ],
)
def test_an_existing_dwelling_may_be_lower(job_for: JobFor, kind: str, rating: str, construction: str, allowed: bool) -> None:
    """110.26(A)(3), exception 1: service equipment and panels up to 200 A in existing dwellings. The figure as in the rule
    catalogue's reading of an inspection checklist; from memory."""
    job = job_for(
        space(kind, 36, 30, 72, f"  at room; {rating}\nplace room\n  building house; use mechanical\n")
        + f"building house\n  use one-family; construction {construction}\n"
    )
    assert low_height_allowed(job.graph.one("gear"), job) is allowed
    assert answer(job) == ("met" if allowed else "broken")


@pytest.mark.parametrize(
    ("kind", "use", "expected"),
    [("disconnect", "crawl-space", "undecided"), ("disconnect", "mechanical", "broken"), ("panel", "crawl-space", "broken")],
)
def test_a_disconnect_that_has_to_be_in_a_crawl_space_may_have_less(job_for: JobFor, kind: str, use: str, expected: str) -> None:
    """bobotechnologies.com, changes of 2017: 110.26(A)(4) lets equipment that has to be in a crawl space have the height there
    is, if the opening is 22 in by 30 in or more. Of a panel nothing there asks for its place."""
    of_kind = "width 14 in; bus 100 A" if kind == "panel" else "breaker 60 A"
    home = f"  at room; {of_kind}\nplace room\n  building house; use {use}\nbuilding house\n  use one-family; construction new\n"
    assert answer(job_for(space(kind, 36, 30, 40, home))) == expected


def test_the_slide_plate_of_an_interlock_has_the_space_of_its_panel(job_for: JobFor) -> None:
    """Law: it is no case of its own, so it asks for nothing."""
    assert answer(job_for("transfer-switch gear\n  type interlock\n")) == "not-applicable"
    assert answer(job_for("transfer-switch gear\n  readily-accessible yes\n")) == "undecided"
