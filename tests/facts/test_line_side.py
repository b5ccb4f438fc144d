"""Metal pipe ahead of the service disconnect: pipe that is coupled to well tied pipe, and what is left open."""

from collections.abc import Callable

import pytest

from planlint.facts.engine import Job
from planlint.facts.line_side import bonded_on_line_side, is_out_of_reach
from planlint.plan.elements import NotStated

JobFor = Callable[..., Job]

GOOD, BAD = "bonding threaded-hub; ring-knockouts no", "bonding plain-locknut"


def answer(job_for: JobFor, *pipes: str, asked: Callable[..., object] = bonded_on_line_side) -> object:
    """Of the first of the pipes p0, p1, ... of one service; the ditch deep has 18 in of cover, shallow less, open says none."""
    names = ", ".join(f"p{number}" for number in range(len(pipes)))
    text = f"service s\n  owner customer; raceway {names}\n"
    text += "trench deep\n  cover 18 in\ntrench shallow\n  cover 17.9 in\ntrench open\n  under yard\n"
    job = job_for(text + "".join(f"raceway p{number}\n  {said}\n" for number, said in enumerate(pipes)))
    try:
        return asked(job.graph.one("p0"), job)
    except NotStated as gap:
        return sorted({f"{need.element.name}: {need.attribute}" for need in gap.needs})


@pytest.mark.parametrize(
    ("pipes", "expected"),
    [
        ([f"type RMC; {GOOD}"], True),
        # Well tied itself: whatever goes on from it isn't asked.
        ([f"type RMC; {GOOD}", "type RMC"], True),
        ([f"type RMC; {BAD}", f"type RMC; {GOOD}; continues none"], ["p0: continues"]),
        ([f"type RMC; {BAD}; continues p1", f"type RMC; {GOOD}; continues none"], True),
        # Drawn from the other end.
        ([f"type RMC; {BAD}; continues none", f"type RMC; {GOOD}; continues p0"], True),
        # Over a third piece of metal, but not over plastic.
        ([f"type RMC; {BAD}; continues p1", "type EMT; bonding none; continues p2", f"type RMC; {GOOD}; continues none"], True),
        ([f"type RMC; {BAD}; continues p1", "type PVC-80; continues p2", f"type RMC; {GOOD}; continues none"], False),
        # A box between: each has to be tied by itself.
        ([f"type RMC; {BAD}; continues none", f"type RMC; {GOOD}; continues none"], False),
        ([f"type RMC; {BAD}; continues p1", f"type RMC; {BAD}; continues none"], False),
        (["type RMC; continues p1", f"type RMC; {BAD}; continues none"], ["p0: bonding"]),
        # Whether rings are left isn't asked of a bushing with a jumper.
        (["type RMC; bonding bonding-bushing"], True),
        (["type RMC; bonding bonding-locknut"], ["p0: ring-knockouts"]),
    ],
)
def test_pipes_of_one_service(job_for: JobFor, pipes: list[str], expected: object) -> None:
    assert answer(job_for, *pipes) == expected


@pytest.mark.parametrize(
    ("pipes", "expected"),
    [
        (["type RMC; trench deep; continues p1", "type PVC-80; continues none", "type PVC-40; continues p0"], True),
        (["type RMC; trench deep; continues none", "type PVC-80; continues p0", "type PVC-40; continues p0"], True),
        (["type RMC; trench shallow", "type PVC-80", "type PVC-40"], False),
        (["type RMC; trench open; continues p1", "type PVC-80; continues none", "type PVC-40; continues p0"], ["open: cover"]),
        (["type RMC; route riser; continues p1", "type PVC-80; continues none", "type PVC-40; continues p0"], False),
        # Metal, or nothing, at one end.
        (["type RMC; trench deep; continues p1", "type RMC; continues none", "type PVC-40; continues p0"], False),
        (["type RMC; trench deep; continues p1", "type PVC-80; continues none"], False),
        (["type RMC; trench deep; continues p1", "type PVC-80; continues none", "type PVC-40"], ["p2: continues"]),
    ],
)
def test_an_elbow_out_of_reach(job_for: JobFor, pipes: list[str], expected: object) -> None:
    """NFPA 70 250.80, exception, as electricallicenserenewal.com, section 1006, quotes the edition of 2020: 18 in of cover."""
    assert answer(job_for, *pipes, asked=is_out_of_reach) == expected
