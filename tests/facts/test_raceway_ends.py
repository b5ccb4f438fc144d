"""The ends of pipes: which edges want a bushing, where a pipe comes into a building, and whether wires keep together."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.facts.raceway_ends import enters_building, needs_bushings
from planlint.facts.together import is_together
from planlint.plan.elements import NotStated
from planlint.rulebook import compile_rule
from planlint.trade import WireSize

JobFor = Callable[..., Job]
LARGE = ["4", "3", "2", "1", "1/0", "4/0", "250", "500"]
SMALL = ["14", "12", "10", "8", "6"]


def worked(job: Job, fact: Callable[[Any, Job], Any], name: str = "pipe") -> Any:
    return fact(job.graph.one(name), job)


def needs(job: Job, fact: Callable[[Any, Job], Any], name: str = "pipe") -> str:
    with pytest.raises(NotStated) as raised:
        worked(job, fact, name)
    return str(raised.value)


def answer(job: Job, rule: str, name: str = "pipe") -> str:
    return run_rule(compile_rule(job.code.rules[rule], job.code), job.graph.one(name), job).answer


def tube(size: str, metal: str = "copper", type: str = "EMT", neutral: str = "none") -> str:
    wire = str(WireSize(size, metal))
    return (
        f"raceway pipe\n  type {type}; route inside; continues none\n"
        f"feeder run\n  hot 2 x {wire} THWN-2; neutral {neutral}; raceway pipe\n"
    )


@pytest.mark.parametrize("metal", ["copper", "aluminum"])
def test_wires_from_4_awg_up_want_a_smooth_edge(job_for: JobFor, metal: str) -> None:
    """NFPA 70 300.4(G), ecmweb.com code Q&A 114: 4 AWG and larger, in whatever pipe; in tubing smaller wires don't."""
    assert all(worked(job_for(tube(size, metal)), needs_bushings) is True for size in LARGE)
    assert all(worked(job_for(tube(size, metal)), needs_bushings) is False for size in SMALL if size != "14")
    assert worked(job_for(tube("6", neutral="4 AWG copper THWN-2")), needs_bushings) is True
    held = "raceway pipe\n  type EMT; route inside; continues none; holds {}\n"
    assert worked(job_for(held.format("1 x 4 AWG copper THWN-2")), needs_bushings) is True
    assert worked(job_for(held.format("1 x 4 AWG copper bare")), needs_bushings) is False
    assert worked(job_for(held.format("none")), needs_bushings) is False


@pytest.mark.parametrize(
    ("type", "wants"),
    [("RMC", True), ("IMC", True), ("PVC-40", True), ("PVC-80", True), ("EMT", False), ("FMC", False), ("LFNC-B", False)],
)
def test_some_pipes_want_one_for_any_wire(job_for: JobFor, type: str, wants: bool) -> None:
    """342.46, 344.46 (ecmweb.com code Q&A 114: regardless of conductor size), 352.46."""
    assert worked(job_for(tube("12", type=type)), needs_bushings) is wants


def test_a_piece_in_the_middle_of_a_pull_has_no_end(job_for: JobFor) -> None:
    following = {"first": "pipe", "pipe": "last", "last": "none"}
    pull = "".join(f"raceway {name}\n  type RMC; continues {after}\n" for name, after in following.items())
    job = job_for(f"{pull}feeder run\n  hot 2 x 4/0 AWG copper THWN-2; raceway first, pipe, last\n")
    assert [worked(job, needs_bushings, name) for name in ("first", "pipe", "last")] == [True, False, True]


def test_cable_that_goes_on_in_the_soil(job_for: JobFor) -> None:
    """300.5(H): a bushing at the end of a pipe out of which cable goes on in the soil."""
    line = (
        "trench ditch\n  cover 24 in\nraceway pipe\n  type EMT; route riser\ncircuit run\n  cable 12/2 copper UF-B; raceway pipe"
    )
    assert worked(job_for(line + "; trench ditch\n"), needs_bushings) is True
    assert needs(job_for(line + "\n"), needs_bushings) == "run: the ditch in which it goes on below pipe"
    joined = line.replace("type EMT", "type EMT; continues below") + "\nraceway below\n  type EMT; trench ditch\n"
    assert worked(job_for(joined), needs_bushings) is False
    assert answer(job_for(line + "; trench ditch\n"), "raceway-end-unprotected") == "undecided"


def test_what_may_be_open_at_its_ends(job_for: JobFor) -> None:
    assert needs(job_for("raceway pipe\n  type EMT; continues none\n"), needs_bushings) == "pipe: holds"
    silent = "raceway pipe\n  type EMT; continues none\nfeeder run\n  length 9 ft; raceway pipe\n"
    assert "run: hot" in needs(job_for(silent), needs_bushings)


ROOMS = (
    "building house\n  use one-family\nplace yard\n  outdoors yes\nplace hall\n  building house\n"
    "panel inner\n  at hall\ndisconnect outer\n  at yard; mounted-on house\ntrench ditch\n  cover 24 in\n"
)
RUN = "feeder run\n  from {}; to {}; hot 2 x 6 AWG copper THWN-2; raceway {}\n"
DITCH, RISER = "raceway pipe\n  trench ditch\n", "raceway pipe\n  route riser; at yard{}\n"


@pytest.mark.parametrize(
    ("plan", "enters"),
    [
        (DITCH + RUN.format("outer", "inner", "pipe"), True),
        (DITCH + RUN.format("inner", "outer", "pipe"), True),
        (DITCH + "disconnect far\n  at yard\n" + RUN.format("outer", "far", "pipe"), False),
        (DITCH + "raceway in\n  route inside; at hall\n" + RUN.format("inner", "outer", "in, pipe"), True),
        (
            "raceway pipe\n  route inside; at hall\nraceway out\n  trench ditch\n" + RUN.format("inner", "outer", "pipe, out"),
            False,
        ),
        ("raceway pipe\n  route inside; at hall\n" + RUN.format("outer", "inner", "pipe"), True),
        ("raceway pipe\n  route inside; at hall\npanel next\n  at hall\n" + RUN.format("inner", "next", "pipe"), False),
        ("raceway pipe\n  route above-grade; at yard\n" + RUN.format("outer", "inner", "pipe"), True),
        (RISER.format("; ends-in inner") + RUN.format("outer", "inner", "pipe"), True),
        (RISER.format("; ends-in outer") + "circuit run\n  cable 12/2 copper UF-B; raceway pipe; trench ditch\n", False),
        (RISER.format("; ends-in inner") + "circuit run\n  cable 12/2 copper UF-B; raceway pipe; trench ditch\n", True),
        (RISER.format("; ends-in inner; holds none"), True),
        ("raceway pipe\n  route in-concrete; at hall; against-ground yes\n" + RUN.format("outer", "inner", "pipe"), True),
    ],
)
def test_where_a_pipe_comes_into_a_building(job_for: JobFor, plan: str, enters: bool) -> None:
    """NFPA 70 225.27, 230.8, 300.5(G) from the ground, 300.7(A) from outdoors."""
    assert worked(job_for("complete raceways\n" + ROOMS + plan), enters_building) is enters


@pytest.mark.parametrize(
    "plan",
    [
        DITCH.replace("ditch", "ditch; holds none", 1),
        DITCH + "circuit run\n  cable 12/2 copper UF-B; raceway pipe\n",
        RISER.format("") + "circuit run\n  cable 12/2 copper UF-B; raceway pipe; trench ditch\n",
    ],
)
def test_where_only_eyes_can_tell(job_for: JobFor, plan: str) -> None:
    """An empty pipe, and one with cable that may leave it anywhere: a point for the checklist, never a pass."""
    job = job_for("complete raceways\n" + ROOMS + plan)
    with pytest.raises(NotStated) as raised:
        worked(job, enters_building)
    assert [(need.attribute, need.site) for need in raised.value.needs] == [("sealed", True)]
    assert answer(job, "raceway-unsealed-at-wall") == "undecided"
    sealed = job_for("complete raceways\n" + ROOMS + plan.replace("raceway pipe\n  ", "raceway pipe\n  sealed yes; "))
    assert answer(sealed, "raceway-unsealed-at-wall") == "met"


PIPES = (
    "trench ditch\n  cover 24 in\nplace yard\n  outdoors yes\n"
    "raceway a\n  type RMC; trench ditch\nraceway b\n  type PVC-40; trench ditch\nraceway e\n  type PVC-40; trench ditch\n"
    "raceway c\n  type EMT; trench ditch; continues d\nraceway d\n  type EMT; trench ditch\n"
    "raceway up\n  type RMC; route riser; at yard\nraceway down\n  type RMC; route riser; at yard\nraceway in\n  route inside\n"
)


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("cable SER", "met"),
        ("cable SER; raceway a, b", "met"),
        ("raceway a", "met"),
        ("raceway in, a, up", "met"),
        ("raceway c, d", "met"),
        ("raceway a, b", "undecided"),
        ("raceway up, a, down", "undecided"),
        ("raceway a, b; kept-together yes", "met"),
        ("raceway a, b; kept-together no", "broken"),
        ("raceway up, a, down; kept-together no", "broken"),
        ("raceway b, e; kept-together no", "undecided"),
        ("raceway b, e; kept-together yes", "met"),
        ("raceway a, b; kept-together unknown", "undecided"),
        ("raceway a; kept-together unknown", "undecided"),
        ("raceway a; kept-together no", "undecided"),
        ("cable SER; kept-together no", "undecided"),
        ("raceway a; sets 2", "undecided"),
        ("raceway a; sets 2; kept-together yes", "met"),
        ("raceway a; sets 2; kept-together no", "undecided"),
        ("raceway a, b; sets 2; kept-together no", "met"),
        ("raceway a, b; sets 3; kept-together no", "undecided"),
        ("raceway a, b, c, d; sets 3; kept-together no", "met"),
        ("raceway a, b; sets 2; kept-together yes", "undecided"),
        ("cable SER; sets 2", "met"),
        ("owner utility; raceway a, b; kept-together no", "not-applicable"),
    ],
)
def test_what_keeps_together(job_for: JobFor, said: str, expected: str) -> None:
    """NFPA 70 300.3(B); of parallel sets 300.3(B)(1), 310.10(G): each pipe has a whole set."""
    kind = "service" if "owner" in said else "feeder"
    job = job_for(f"{PIPES}{kind} run\n  hot 2 x 1/0 AWG copper XHHW-2; {said}\n")
    assert answer(job, "circuit-split-across-raceways", "run") == expected


@settings(max_examples=40, deadline=None)
@given(st.permutations(["a", "c", "d", "up", "in"]))
def test_the_order_of_pipes_makes_no_difference(job_for: JobFor, order: list[str]) -> None:
    job = job_for(f"{PIPES}feeder run\n  hot 2 x 1 AWG copper XHHW-2; raceway {', '.join(order)}; kept-together no\n")
    assert worked(job, is_together, "run") is False  # a lies beside c and d in one ditch
