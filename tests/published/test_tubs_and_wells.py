"""Hot tubs and well pumps: the limits by edition, held against the trade press and forums.

Each check names where its clause or figure was seen. Inputs that the source leaves out are made up and don't bear on the answer.
The reprints of 680.12 (680.13 since 2017), 680.22, 680.42 to 680.44 are of older editions than those in force here; that these
figures stand unchanged from 2017 to 2023 is from memory.
"""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.book import resolve
from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.facts.equipment_ground import ground_needed
from planlint.rulebook import compile_rule
from planlint.trade import WireSize

JobFor = Callable[..., Job]
EDITIONS = (2017, 2020, 2023)

PLACES = """building house
  use one-family
place yard
  outdoors yes
place sunroom
  building house; finished yes
"""


def answer(job: Job, rule: str, name: str = "unit") -> str:
    code = resolve((f"model-{job.edition}",))
    return run_rule(compile_rule(code.rules[rule], code), job.graph.one(name), job).answer


def worked(job: Job, fact: Callable[[Any, Job], Any], name: str = "unit") -> Any:
    return fact(job.graph.one(name), job)


def tub(job_for: JobFor, more: str, place: str = "yard", before: str = "", edition: int = 2020) -> Job:
    return job_for(f"complete receptacles\n{PLACES}{before}load unit\n  at {place}; type hot-tub; {more}\n", edition)


AROUND = "disconnect switch; disconnect-in-sight yes; disconnect-distance {}; receptacle-distance {}; gfci yes"


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("place", "disconnect", "receptacle", "expected"),
    [
        # studyres.com, one-hour presentation (2016), 680.12: in sight, at least 5 ft, by the shortest path of a hand.
        ("yard", "5 ft", "6 ft", "met"),
        ("yard", "4 ft 11 in", "6 ft", "broken"),
        # ecmweb.com, Code Quandaries (2004): not behind the panels of the tub itself.
        ("yard", "0 ft", "6 ft", "broken"),
        # forums.mikeholt.com, thread 135203: outdoors one not less than 6 ft and not more than 20 ft away (680.22(A)) ...
        ("yard", "5 ft", "5 ft 11 in", "broken"),
        ("yard", "5 ft", "20 ft", "met"),
        ("yard", "5 ft", "20 ft 1 in", "broken"),
        # ... indoors at least 6 ft, but not more than 10 ft (680.43(A)).
        ("sunroom", "5 ft", "6 ft", "met"),
        ("sunroom", "5 ft", "10 ft", "met"),
        ("sunroom", "5 ft", "10 ft 1 in", "broken"),
    ],
)
def test_distances_round_a_tub(
    job_for: JobFor, edition: int, place: str, disconnect: str, receptacle: str, expected: str
) -> None:
    job = tub(job_for, AROUND.format(disconnect, receptacle), place, edition=edition)
    assert answer(job, "hot-tub-disconnect-or-protection") == expected


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("place", "says", "expected"),
    [
        ("sunroom", "gfci no; distance-to-tub 10 ft", "broken"),
        ("sunroom", "gfci yes; distance-to-tub 6 ft", "met"),
        ("sunroom", "gfci no; distance-to-tub 10 ft 1 in", "met"),
        ("sunroom", "gfci no; distance-to-tub 8 ft; volts 240 V", "met"),
        ("sunroom", "gfci no", "undecided"),
        # Outdoors every receptacle has one for being there (210.8(A)(3)), which another rule asks.
        ("yard", "gfci no; distance-to-tub 8 ft", "met"),
    ],
)
def test_receptacles_within_reach_of_a_tub_indoors(job_for: JobFor, edition: int, place: str, says: str, expected: str) -> None:
    """680.43(A)(2), from memory: 125 V receptacles within 10 ft of an indoor tub have a GFCI. electrical-contractor.net, thread
    183233 (2008) asks why the one that must be there, with GFCI, is to be within 10 ft indoors."""
    before = f"circuit run\n  protection none; poles 1\nreceptacles outlet\n  at {place}; circuit run; {says}\n"
    job = tub(job_for, AROUND.format("6 ft", "6 ft"), place, before, edition)
    assert answer(job, "hot-tub-disconnect-or-protection") == expected


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        # electrical-contractor.net, print of thread 9994, 680.44 of 2002 and 2005: what supplies any such tub has a GFCI,
        ("self-contained yes; connection hard-wired; amps 40 A", "broken"),
        ("self-contained yes; connection cord; amps 12 A", "broken"),
        ("self-contained yes; connection hard-wired; amps 60 A", "broken"),
        ("self-contained no; connection hard-wired; amps 50 A", "broken"),
        # (B) but one put together on site with a heater of more than 50 A: the plan gives the whole tub's current.
        ("self-contained no; connection hard-wired; amps 50.1 A", "undecided"),
        # (A), and ecmweb.com, Code Q&A 21: none ahead where it is in the unit.
        ("self-contained yes; connection hard-wired; amps 40 A; gfci yes", "met"),
    ],
)
def test_gfci_of_a_tub(job_for: JobFor, more: str, expected: str) -> None:
    stated = "" if "gfci" in more else "; gfci no"
    text = f"volts 240 V; circuit run; disconnect switch; disconnect-in-sight yes; disconnect-distance 6 ft; {more}{stated}"
    circuit = "circuit run\n  protection none\n"
    if "cord" in more:
        circuit += "receptacles outlet\n  circuit run; gfci no\n"
    job = tub(job_for, text + "; receptacle-distance 8 ft", before=circuit)
    assert answer(job, "hot-tub-disconnect-or-protection") == expected


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("place", "more", "expected"),
    [
        # forums.mikeholt.com, threads 2574117 and 2567619, 680.42(B): listed self-contained, rim 28 in above all within 30 in.
        ("yard", "self-contained yes; rim-height 30 in", "met"),
        ("yard", "self-contained yes; rim-height 28 in", "met"),
        ("yard", "self-contained yes; rim-height 27.9 in", "broken"),
        # the same: "not all hot tubs are a listed complete tub"; those get bonded like a pool.
        ("yard", "self-contained no; rim-height 30 in", "broken"),
        # an exam page on article 680 (necarticle680.examzify.com): not for self-contained ones indoors above a finished floor.
        ("sunroom", "self-contained yes; rim-height 20 in", "met"),
        ("sunroom", "self-contained no; rim-height 36 in", "broken"),
    ],
)
def test_floor_round_a_tub(job_for: JobFor, edition: int, place: str, more: str, expected: str) -> None:
    job = tub(job_for, f"{more}; surround-bonded no", place, edition=edition)
    assert answer(job, "hot-tub-surround-not-bonded") == expected


LOOSE = "hot 2 x 6 AWG copper THWN-2; neutral 6 AWG copper THWN-2; ground {}; raceway pipe"


@pytest.mark.parametrize(
    ("wires", "connection", "expected"),
    [
        # electriciantalk.com, "hot tub wire up": 6 AWG in flexible pipe from the disconnect, with an insulated 10 AWG ground.
        (LOOSE.format("10 AWG copper THWN-2"), "hard-wired", "met"),
        # forums.mikeholt.com, thread 47348: an uninsulated ground past the disconnect was refused.
        (LOOSE.format("10 AWG copper bare"), "hard-wired", "broken"),
        # forums.mikeholt.com, thread 28566, 680.42(C): copper, insulated or in the sheath inside the house, not below 12 AWG.
        (LOOSE.format("8 AWG aluminum XHHW-2"), "hard-wired", "broken"),
        (LOOSE.format("14 AWG copper THWN-2"), "hard-wired", "broken"),
        ("cable 12/2 copper NM-B", "cord", "met"),
        ("cable 14/2 copper NM-B", "cord", "broken"),
        # diychatroom.com, thread 109698: UF cable can't be used to feed a hot tub, for its ground is bare.
        ("cable 6/3 copper UF-B", "hard-wired", "broken"),
        # thread 47348 again, cable to the tub itself: never an all-clear.
        ("cable 6/3 copper NM-B", "hard-wired", "undecided"),
    ],
)
def test_ground_to_a_tub(job_for: JobFor, wires: str, connection: str, expected: str) -> None:
    before = f"raceway pipe\n  type LFNC-B\ncircuit run\n  breaker 50 A; poles 2; {wires}\n"
    job = tub(job_for, f"circuit run; connection {connection}", before=before)
    assert answer(job, "hot-tub-ground-unsuitable") == expected


def test_twelve_is_the_least_but_not_enough_behind_fifty(job_for: JobFor) -> None:
    """forums.mikeholt.com, thread 47348: 12 AWG suits 680.42(C), but 6 AWG wires on 50 A ask for 10 AWG."""
    before = f"raceway pipe\n  type LFNC-B\ncircuit run\n  breaker 50 A; poles 2; {LOOSE.format('12 AWG copper THWN-2')}\n"
    job = tub(job_for, "circuit run; connection hard-wired", before=before)
    assert answer(job, "hot-tub-ground-unsuitable") == "met"
    assert worked(job, ground_needed, "run") == WireSize("10", "copper")
    assert answer(job, "equipment-ground-too-small", "run") == "broken"


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("pump", "expected"),
    [
        # forums.mikeholt.com, thread 5030, 250.112(M): a metal casing is tied to the pump circuit's equipment ground,
        ("casing steel; casing-bonded yes", "met"),
        # and being an electrode of its own "in no way relieves" of it.
        ("casing steel; casing-bonded no; own-rod yes", "broken"),
        # forums.mikeholt.com, thread 42413: "plastic casing, no bond".
        ("casing plastic", "met"),
    ],
)
def test_well_casings(job_for: JobFor, edition: int, pump: str, expected: str) -> None:
    job = job_for(f"circuit run\n  cable 10/2 copper UF-B\nload unit\n  type well-pump; circuit run; {pump}\n", edition)
    assert answer(job, "well-pump-disconnect-or-ground") == expected


def test_a_pump_without_ground(job_for: JobFor) -> None:
    """250.4(A)(5) and 250.112(L), forums.mikeholt.com, thread 102964: pump and casing go to the ground wire; soil is none."""
    run = "raceway pipe\n  type PVC-40\ncircuit run\n  hot 2 x 12 AWG copper THWN; neutral none; ground none; raceway pipe\n"
    job = job_for(f"{run}load unit\n  type well-pump; circuit run; casing plastic; own-rod yes\n")
    assert answer(job, "well-pump-disconnect-or-ground") == "broken"
