"""Of what the ground path is made, who shares it, and how large it has to be."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.appliances import may_stay_ungrounded
from planlint.facts.engine import Job
from planlint.facts.equipment_ground import ground_in_use, ground_needed, ground_needed_enlarged, ground_path, is_enlarged
from planlint.plan.elements import NotStated
from planlint.trade import WireSize

JobFor = Callable[..., Job]


def worked(job: Job, fact: Callable[[Any, Job], Any], name: str = "run") -> Any:
    return fact(job.graph.one(name), job)


@pytest.mark.parametrize(
    ("run", "pipes", "path"),
    [
        ("cable 12/2 copper NM-B", "", "wire"),
        ("cable 12/2 copper NM-B; ground none", "", "none"),
        ("cable AC; hot 2 x 12 AWG copper; ground none", "", "cable-armor"),
        ("cable MC; hot 2 x 12 AWG copper; ground none", "", "none"),
        ("hot 2 x 12 AWG copper; ground 12 AWG copper; raceway one", "EMT", "wire"),
        ("hot 2 x 12 AWG copper; ground none; raceway one", "EMT", "metal-raceway"),
        ("hot 2 x 12 AWG copper; ground none; raceway one, two", "EMT RMC", "metal-raceway"),
        ("hot 2 x 12 AWG copper; ground none; raceway one, two", "EMT PVC-40", "none"),
        ("hot 2 x 12 AWG copper; ground none; raceway one, two; breaker 20 A", "EMT FMC", "metal-raceway"),
        ("hot 2 x 12 AWG copper; ground none; raceway one, two; breaker 20 A", "FMC FMC", "none"),
        ("hot 2 x 12 AWG copper; ground none; raceway one; breaker 25 A", "FMC", "none"),
        ("hot 2 x 12 AWG copper; ground none; raceway one; breaker 60 A", "LFMC", "metal-raceway"),
        ("hot 2 x 12 AWG copper; ground none; raceway one; breaker 70 A", "LFMC", "none"),
        ("hot 2 x 12 AWG copper; ground none; raceway one; breaker 20 A", "LFNC-B", "none"),
    ],
)
def test_what_brings_a_fault_back(job_for: JobFor, run: str, pipes: str, path: str) -> None:
    """NFPA 70 250.118, from memory; each flexible piece here is 4 ft of 3/4 in."""
    names = ("one", "two")
    text = "".join(
        f"raceway {name}\n  type {type_}; size 3/4 in; length 4 ft\n" for name, type_ in zip(names, pipes.split(), strict=False)
    )
    assert worked(job_for(f"circuit run\n  {run}\n{text}"), ground_path) == path


def test_a_ground_that_is_left_out_is_not_none(job_for: JobFor) -> None:
    job = job_for("circuit run\n  hot 2 x 12 AWG copper; raceway one\nraceway one\n  type EMT\n")
    with pytest.raises(NotStated, match="run: ground"):
        worked(job, ground_path)


SHARED = """
raceway pipe
  type PVC-40
circuit run
  breaker 20 A; hot 2 x 12 AWG copper THWN-2; neutral none; ground {own}; raceway pipe
circuit oven
  breaker 40 A; hot 2 x 8 AWG copper THWN-2; neutral none; ground {other}; raceway pipe
"""


def test_one_ground_for_two_circuits_goes_by_the_larger(job_for: JobFor) -> None:
    """NFPA 70 250.122(C), Table 250.122: 40 A asks for 10 AWG, though the wire comes with the 20 A circuit."""
    job = job_for(SHARED.format(own="12 AWG copper", other="none"))
    for name in ("run", "oven"):
        assert worked(job, ground_path, name) == "wire"
        assert worked(job, ground_in_use, name) == WireSize("12", "copper")
        assert worked(job, ground_needed, name) == WireSize("10", "copper")


def test_a_circuit_with_its_own_ground_goes_by_its_own_breaker(job_for: JobFor) -> None:
    job = job_for(SHARED.format(own="12 AWG copper", other="10 AWG copper"))
    assert worked(job, ground_needed) == WireSize("12", "copper")
    assert worked(job, ground_needed, "oven") == WireSize("10", "copper")


def test_whether_another_shares_it_is_open_while_that_says_nothing(job_for: JobFor) -> None:
    job = job_for(SHARED.format(own="12 AWG copper", other="unknown"))
    with pytest.raises(NotStated, match="oven: ground"):
        worked(job, ground_needed)


@pytest.mark.parametrize(
    ("hot", "ground", "needed"),
    [
        ("12 AWG copper", "10 AWG copper", "12 AWG copper"),
        ("4 AWG copper", "10 AWG copper", "10 AWG copper"),
        ("12 AWG copper", "8 AWG aluminum", "8 AWG aluminum"),
        ("12 AWG aluminum", "10 AWG copper", "12 AWG copper"),
    ],
)
def test_never_larger_than_the_hot_wires(job_for: JobFor, hot: str, ground: str, needed: str) -> None:
    """NFPA 70 250.122(A) behind 60 A. An aluminum ground beside copper is not let off by the smaller copper size."""
    job = job_for(f"""
raceway pipe
  type PVC-40
circuit run
  breaker 60 A; hot 2 x {hot} THWN-2; neutral none; ground {ground}; raceway pipe
""")
    assert worked(job, ground_needed) == WireSize.read(needed)


def test_wires_that_heat_asks_for_are_not_enlarged(job_for: JobFor) -> None:
    """NFPA 70 250.122(B): behind 50 A 8 AWG does at 86 F; at 131 F it keeps 55 x 76 % = 41.8 A, and 6 AWG has to do."""
    text = """
raceway pipe
  type PVC-40; route inside
circuit run
  breaker 50 A; use general; hot 2 x {} THWN-2; neutral none; ground 10 AWG copper; raceway pipe; ambient {}; terminals 75 C
"""
    assert worked(job_for(text.format("6 AWG copper", "86 F")), is_enlarged) is True
    assert worked(job_for(text.format("6 AWG copper", "131 F")), is_enlarged) is False
    assert worked(job_for(text.format("4 AWG copper", "131 F")), is_enlarged) is True


@pytest.mark.parametrize("size", ["12", "10", "8", "6", "4", "2", "1/0"])
def test_a_20_ampere_ground_grows_with_its_hot_wires(job_for: JobFor, size: str) -> None:
    """NFPA 70 250.122(B): 12 AWG for 12 AWG on 20 A, in the same measure, so always the size of the hot wires.

    The catalog example of 8 AWG on 20 A asks for an 8 AWG ground (ecmweb.com, code quiz on sizing).
    """
    job = job_for(f"""
raceway pipe
  type PVC-40; route inside
circuit run
  breaker 20 A; use general; hot 2 x {size} copper THWN-2; neutral none; ground 12 AWG copper; raceway pipe; ambient 86 F
""")
    assert worked(job, is_enlarged) is (size != "12")
    assert worked(job, ground_needed_enlarged) == WireSize(size, "copper")


@pytest.mark.parametrize(
    ("breaker", "hot", "needed"),
    [("60 A", "4", "8"), ("70 A", "4", "6"), ("60 A", "3", "6"), ("40 A", "6", "8")],
)
def test_the_table_s_rounding_asks_for_no_larger_ground(job_for: JobFor, breaker: str, hot: str, needed: str) -> None:
    """Two sizes up of the hot wires are two sizes up of the ground: AWG steps have one ratio (ASTM B258), Table 8 rounds them.

    6 to 4 AWG: 10380 x 41740 / 26240 = 16511.4, and 8 AWG is listed with 16510; 16510 x 41740 / 26240 = 26262.4, 6 AWG 26240.
    6 to 3 AWG: 10380 x 52620 / 26240 = 20815, really more than 8 AWG. 8 to 6 AWG: 16497, less.
    """
    job = job_for(f"""complete receptacles, lights, loads
raceway pipe
  type PVC-40; route inside
circuit run
  breaker {breaker}; use general; hot 2 x {hot} copper THWN-2; neutral none; ground 10 AWG copper; raceway pipe; ambient 86 F
  terminals 75 C; design-load 20 A
""")
    assert worked(job, ground_needed_enlarged) == WireSize(needed, "copper")


@pytest.mark.parametrize(("cable", "enlarged"), [("12/2", False), ("10/2", False), ("8/2", False), ("6/2", True)])
def test_wires_as_large_as_the_breaker_asks_for_are_not_enlarged(job_for: JobFor, cable: str, enlarged: bool) -> None:
    """A unit of 19 A on 40 A may have 12 AWG (NFPA 70 240.4(G), 440.33); 8 AWG is the 40 A cable, with its 10 AWG ground."""
    job = job_for(f"""complete receptacles, lights, loads
circuit run
  breaker 40 A; poles 2; use appliance; cable {cable} copper NM-B; ambient 86 F; terminals 60 C
load unit
  type air-conditioner; circuit run; amps 15 A; volts 240 V; connection hard-wired; nameplate-ampacity 19 A
""")
    assert worked(job, is_enlarged) is enlarged


OLD = "hot 2 x 10 AWG copper THWN-2; neutral 10 AWG copper THWN-2; ground none; raceway pipe"


@pytest.mark.parametrize(
    ("said", "on_it", "stays"),
    [
        ("existing no; extended no", "", False),
        ("existing yes; extended no", "", True),
        ("existing yes; extended yes", "load stove\n  circuit c; type kiln\n", False),
        ("existing yes", "load stove\n  circuit c; type kiln\n", "open"),
        (f"existing yes; {OLD}", "load stove\n  circuit c; type range\n", True),
        (f"existing yes; extended yes; {OLD}", "load stove\n  circuit c; type range\n", True),
        (f"existing yes; extended yes; {OLD.replace('10 AWG', '12 AWG')}", "load stove\n  circuit c; type range\n", False),
        (f"existing yes; extended yes; {OLD}", "load stove\n  circuit c; type range\nlights l\n  circuit c\n", False),
    ],
)
def test_what_was_there_before_may_stay_without_a_ground(job_for: JobFor, said: str, on_it: str, stays: object) -> None:
    """NFPA 70 250.130(C) asks it of what is added; 250.140, exception, lets the neutral (10 AWG copper) ground an old range."""
    job = job_for(f"complete circuits, receptacles, lights, loads\ncircuit c\n  {said}\nraceway pipe\n  type PVC-40\n{on_it}")
    try:
        assert may_stay_ungrounded(job.graph.one("c"), job) is stays
    except NotStated:
        assert stays == "open"
