"""What holes take from wood, and cables in sealed holes, attics and crawl spaces, against published figures and answers.

Sources: jlconline.com, notches and holes in joists (2-3/8 in for a depth of 7-1/4 in: a third; 2 in to the edge); diybuildsnet on
IRC 502.8 (2x6: 1-13/16 in, 2x8: 2-3/8 in, rounded down to sixteenths); campbellsegarra on 2x12 joists (3-3/4 in);
hinarratives.com, text of R602.6 and R802.7; diychatroom.com thread 1408 (40, 60 %, 5/8 in); notasdeldiaoficial.es (2x4 studs: 1.4
in and 2.1 in); power.one, notches and holes (2x6 stud of a bearing wall: 2-3/16 in; its plate without a strap: 2-3/4 in).
334.80: forums.mikeholt.com thread 2567711, posts of Wayne and others, and forum.nachi.org thread 47123 (30 x 70 % = 21 A with
eight or nine wires); forums.mikeholt.com thread 1504948; life-improver.com (334.80 and 320.80). 334.15(C): forums.mikeholt.com
thread 135669. 320.23: electriciantalk.com, "I find 320.23A to be hard to understand". The 12.5 A of five 14 AWG cables is
arithmetic: 25 A x 50 %.
"""

from collections.abc import Callable

import pytest

from planlint.checking import run_rule
from planlint.facts.ampacity import ampacity_adjusted
from planlint.facts.engine import Job
from planlint.facts.framing import edge_left
from planlint.facts.open_cables import passes_attic_or_joists, passes_unfinished
from planlint.facts.sealed_holes import crowding_is_borne, is_crowded
from planlint.facts.wood import diameter_allowed, wood_is_left
from planlint.plan.elements import NotStated
from planlint.quantities import Length
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
EDITIONS = [2017, 2020, 2023]


def sixteenths(length: Length) -> float:
    """Rounded down to sixteenths of an inch, as tables for carpenters print it."""
    return int(length.within("in") * 16 + 1e-9) / 16


@pytest.mark.parametrize(
    ("said", "printed"),
    [
        ("through joist; member-depth 5-1/2 in", 1 + 13 / 16),
        ("through joist; member-depth 7-1/4 in", 2 + 3 / 8),
        ("through joist; member-depth 11-1/4 in", 3 + 3 / 4),
        ("through stud; member-depth 5-1/2 in; bearing yes", 2 + 3 / 16),
        ("through stud; member-depth 3-1/2 in; bearing yes", 1 + 3 / 8),
        ("through stud; member-depth 3-1/2 in; bearing no", 2 + 1 / 16),
    ],
)
def test_the_largest_hole_that_tables_print(job_for: JobFor, said: str, printed: float) -> None:
    """A third of a joist; 40 % and 60 % of a stud (1.4 in and 2.1 in of a 2x4)."""
    job = job_for(f"holes bored\n  {said}\n")
    assert sixteenths(diameter_allowed(job.graph.one("bored"), job)) == printed


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("through joist; member-depth 9-1/4 in; diameter 2 in; edge-distance 2 in", True),
        ("through joist; member-depth 9-1/4 in; diameter 2 in; edge-distance 1.9 in", False),
        ("through stud; member-depth 5-1/2 in; bearing yes; diameter 2 in; edge-distance 5/8 in", True),
        ("through stud; member-depth 5-1/2 in; bearing yes; diameter 2 in; edge-distance 0.6 in", False),
        ("through plate; member-depth 5-1/2 in; bearing yes; diameter 2-3/4 in", True),
    ],
)
def test_wood_to_the_edge(job_for: JobFor, said: str, expected: bool) -> None:
    """R502.8.1 (2 in), R602.6 (5/8 in); power.one prints 2-3/4 in for the plate of a 2x6 wall."""
    job = job_for(f"holes bored\n  {said}\n")
    assert wood_is_left(job.graph.one("bored"), job) is expected


CROWD = """complete receptacles
holes top
  through plate; sealed {sealed}; together {together}
circuit bench
  breaker {breaker} A; poles 1; use general; cable {size}/2 copper {kind}; hot {size} AWG copper THHN; ambient 86 F
  terminals 60 C; holes top
receptacles benches
  circuit bench; count 6
"""


def crowd(job_for: JobFor, together: int, size: int, edition: int = 2020, sealed: str = "yes", kind: str = "NM-B") -> Job:
    breaker = {14: 15, 12: 20}[size]
    return job_for(CROWD.format(together=together, size=size, breaker=breaker, sealed=sealed, kind=kind), edition)


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("together", "size", "amperes"),
    [(2, 12, 30.0), (3, 12, 24.0), (4, 12, 21.0), (5, 12, 15.0), (4, 14, 17.5), (5, 14, 12.5)],
)
def test_what_wires_keep_in_foam(job_for: JobFor, together: int, size: int, amperes: float, edition: int) -> None:
    """Thread 2567711: 30 A in the 90 C column, 70 % for eight wires: 21 A; two cables lose nothing."""
    job = crowd(job_for, together, size, edition)
    assert ampacity_adjusted(job.graph.one("bench"), job).within("A") == pytest.approx(amperes)


@pytest.mark.parametrize("size", [12, 14])
@pytest.mark.parametrize(("together", "borne"), [(2, True), (3, True), (4, True), (5, False)])
def test_four_cables_are_borne_and_five_are_not(job_for: JobFor, together: int, size: int, borne: bool) -> None:
    """Threads 2567711 and 1504948: two to four 12/2 or 14/2 make no difference, the magic number is nine wires."""
    job = crowd(job_for, together, size)
    top = job.graph.one("top")
    assert is_crowded(top, job) is (together > 2)
    assert crowding_is_borne(top, job) is borne


def test_open_holes_and_armored_cable_lose_nothing(job_for: JobFor) -> None:
    """diychatroom.com thread 22317: in a hole that isn't sealed as many as one wants; 334.80 is not of MC cable."""
    for job in (crowd(job_for, 9, 12, sealed="no"), crowd(job_for, 9, 12, kind="MC")):
        assert crowding_is_borne(job.graph.one("top"), job) is True


ROOMS = (
    "place attic\n  use attic; finished no\nplace crawl\n  use crawl-space\nplace cellar\n  use basement; finished no\n"
    "place garage\n  use garage; finished no\n"
)


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("cable", "where", "expected"),
    [
        ("cable 14/2 copper NM-B", "attic", True),
        ("cable 2/3 copper NM-B", "attic", True),
        ("cable 12/2 copper AC", "attic", True),
        ("cable 14/2 copper NM-B", "crawl", True),
        ("cable 10/3 copper NM-B", "cellar", True),
        ("cable 8/3 copper NM-B", "crawl", False),
        ("cable NM-B; hot 2 x 8 AWG copper; neutral none", "crawl", True),
        ("cable NM-B; hot 2 x 6 AWG copper; neutral none", "cellar", False),
        ("cable 12/2 copper AC", "crawl", False),
    ],
)
def test_what_is_guarded(job_for: JobFor, cable: str, where: str, expected: bool, edition: int) -> None:
    """320.23(A) of all attics; 334.15(C): two 6 AWG or three 8 AWG may be stapled below the joists."""
    job = job_for(f"{ROOMS}circuit line\n  poles 1; {cable}; passes {where}\n", edition)
    assert passes_attic_or_joists(job.graph.one("line"), job) is expected


@pytest.mark.parametrize(
    ("cable", "where", "expected"),
    [("NM-B", "garage", True), ("NM-B", "cellar", True), ("NM-B", "attic", False), ("MC", "garage", False)],
)
def test_what_lies_open(job_for: JobFor, cable: str, where: str, expected: bool) -> None:
    """334.15(B), as electricians read it of garages and basements: forums.mikeholt.com threads 135669 and 2554773."""
    job = job_for(f"{ROOMS}circuit line\n  cable 14/2 copper {cable}; passes {where}\n")
    assert passes_unfinished(job.graph.one("line"), job) is expected


@pytest.mark.parametrize(("filled", "answer"), [("yes", "met"), ("no", "broken")])
def test_holes_in_fire_walls_are_filled(job_for: JobFor, filled: str, answer: str) -> None:
    """300.21, as in every code book."""
    job = job_for(
        "holes bored\n  through stud; member-depth 3-1/2 in; diameter 1 in; edge-distance 1-1/4 in; fire-rated yes\n"
        f"  fire-stopped {filled}\n"
    )
    rule = compile_rule(job.code.rules["fire-or-structure-broken-by-holes"], job.code)
    assert run_rule(rule, job.graph.one("bored"), job).answer == answer


def test_the_nearest_edge_is_never_beyond_the_middle_of_the_wood(job_for: JobFor) -> None:
    """300.4(A)(1), by arithmetic: 3-1/2 in less a hole of 1 in leaves 1-1/4 in on both sides; 2 in was measured elsewhere."""
    stud = "holes bored\n  through stud; member-depth 3-1/2 in; diameter 1 in; bearing yes; edge-distance {}\n"
    middle, beyond = (job_for(stud.format(edge)) for edge in ("1-1/4 in", "2 in"))
    assert edge_left(middle.graph.one("bored"), middle) == Length.of(1.25, "in")
    for fact in (edge_left, wood_is_left):
        with pytest.raises(NotStated, match=r"leaves no more than 1\.25 in"):
            fact(beyond.graph.one("bored"), beyond)
