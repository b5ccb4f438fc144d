"""Straps and staples, against the spacings that handbooks and codes print.

Sources: constructionmanuals.tpub.com/14027, table 5-5 (threaded steel); up.codes, table E3802.1 of the IRC (cables, ENT, FMC);
ecmweb.com on 330.30 (MC), 350.30 (LFMC), 230.51(A) (service cable) and on securing PVC; nh.gov 1999 (PVC 1/2 and 2); an exam
preparation (PVC 1-1/2: 5 ft); solar365.com, NEC 2008 356.30 (LFNC); forums.mikeholt.com, threads 2575189 (358.30), 150480 and
57931 of forum.nachi.org (314.17(C); from 2020 on 314.17(B), electricallicenserenewal.com); profoundqa.com (334.30). PVC of
2-1/2 to 5 in from memory.
"""

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.facts.engine import Job
from planlint.facts.supports import most_first_here, most_spacing_here, needs_supports
from planlint.plan.elements import NotStated

JobFor = Callable[..., Job]
SIZES = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "3-1/2", "4", "5", "6")


def pipe(type: str, size: str, more: str = "support-spacing 1 ft; first-support 6 in") -> str:
    return f"raceway pipe\n  type {type}; size {size} in; route inside; {more}\n"


def cable(kind: str, more: str = "support-spacing 1 ft; first-support 6 in", run: str = "circuit") -> str:
    return f"{run} run\n  cable {kind}; {more}\n"


def spacing(job: Job, name: str = "pipe") -> float:
    """Feet."""
    return float(most_spacing_here(job.graph.one(name), job).within("ft"))


def first(job: Job, name: str = "pipe") -> float:
    """Inches."""
    return float(most_first_here(job.graph.one(name), job).within("in"))


@pytest.mark.parametrize("edition", [2017, 2020, 2023])
@pytest.mark.parametrize(
    ("type", "size", "between", "from_box"),
    [
        ("EMT", "1/2", 10, 36), ("EMT", "4", 10, 36), ("IMC", "2", 10, 36), ("RMC", "2", 10, 36),
        ("PVC-40", "1/2", 3, 36), ("PVC-40", "1", 3, 36), ("PVC-80", "1-1/2", 5, 36), ("PVC-40", "2", 5, 36),
        ("PVC-80", "3", 6, 36), ("PVC-40", "3-1/2", 7, 36), ("PVC-40", "5", 7, 36), ("PVC-80", "6", 8, 36),
        ("FMC", "1/2", 4.5, 12), ("LFMC", "1", 4.5, 12), ("LFNC-B", "1", 3, 12), ("ENT", "3/4", 3, 36),
    ],
)  # fmt: skip
def test_pipes(job_for: JobFor, type: str, size: str, between: float, from_box: float, edition: int) -> None:
    """Sections .30 of the articles on raceways, alike in the three editions as far as known."""
    job = job_for(pipe(type, size), edition)
    assert spacing(job) == pytest.approx(between)
    assert first(job) == pytest.approx(from_box)


THREADED = {"1/2": 10, "3/4": 10, "1": 12, "1-1/4": 14, "1-1/2": 14, "2": 16, "2-1/2": 16, "3": 20, "4": 20, "6": 20}


@pytest.mark.parametrize("type", ["RMC", "IMC"])
@pytest.mark.parametrize("size", THREADED)
def test_threaded_steel(job_for: JobFor, type: str, size: str) -> None:
    """Table 5-5 of the construction manual: 10, 12, 14, 16, 20 ft by size. Unthreaded pipe keeps its 10 ft."""
    more = "support-spacing 30 ft; first-support 1 ft; threaded "
    assert spacing(job_for(pipe(type, size, more + "yes"))) == pytest.approx(THREADED[size])
    assert spacing(job_for(pipe(type, size, more + "no"))) == pytest.approx(10)
    with pytest.raises(NotStated, match="threaded"):
        spacing(job_for(pipe(type, size, "support-spacing 30 ft; first-support 1 ft")))


@pytest.mark.parametrize("type", ["EMT", "RMC", "IMC"])
def test_rigid_metal_without_framing_nearby(job_for: JobFor, type: str) -> None:
    """358.30(A) exception 1 (electrical-knowhow.com, mikeholt.com): 5 ft for one length where no framing is within 3 ft."""
    more = "support-spacing 9 ft; first-support 4 ft; unbroken-to-framing "
    assert first(job_for(pipe(type, "1", more + "yes"))) == pytest.approx(60)
    assert first(job_for(pipe(type, "1", more + "no"))) == pytest.approx(36)
    with pytest.raises(NotStated, match="unbroken"):
        first(job_for(pipe(type, "1", "support-spacing 9 ft; first-support 4 ft")))
    assert first(job_for(pipe("PVC-40", "1", "support-spacing 3 ft; first-support 4 ft"))) == pytest.approx(36)


@pytest.mark.parametrize(
    ("kind", "between", "from_box"),
    [
        ("14/2 copper NM-B", 4.5, 12),
        ("12/2 copper UF-B", 4.5, 12),
        ("12/2 copper AC", 4.5, 12),
        ("12/2 copper MC", 6, 12),
        ("SER", 4.5, 12),
    ],
)
def test_cables(job_for: JobFor, kind: str, between: float, from_box: float) -> None:
    """334.30, 340.10(4), 320.30, 330.30, 338.10(B)(4)."""
    job = job_for(cable(kind))
    assert spacing(job, "run") == pytest.approx(between)
    assert first(job, "run") == pytest.approx(from_box)


def test_service_cable(job_for: JobFor) -> None:
    """230.51(A) (ecmweb.com, electrical services part 13): every 30 in, and 12 in from the service head or enclosure."""
    job = job_for(cable("SEU", run="service"))
    assert (spacing(job, "run") * 12, first(job, "run")) == (pytest.approx(30), pytest.approx(12))


@pytest.mark.parametrize(("clamps", "inches"), [("boxes-without-clamps yes", 8), ("boxes-without-clamps no", 12)])
def test_plastic_boxes_without_clamps(job_for: JobFor, clamps: str, inches: float) -> None:
    """314.17(C): 8 in where a single-gang plastic box doesn't clamp the cable."""
    assert first(job_for(cable("14/2 copper NM-B", f"first-support 10 in; {clamps}")), "run") == pytest.approx(inches)
    with pytest.raises(NotStated, match="clamps"):
        first(job_for(cable("14/2 copper NM-B", "first-support 10 in")), "run")


@pytest.mark.parametrize(("kind", "inches"), [("NM-B", 54), ("UF-B", 54), ("AC", 72), ("MC", 72)])
def test_whips_to_lights_above_a_ceiling(job_for: JobFor, kind: str, inches: float) -> None:
    """334.30(B)(2): 4-1/2 ft; 320.30(D), 330.30(D)(2): 6 ft (ecmweb.com, quizwizapp.com)."""
    job = job_for(cable(f"12/2 copper {kind}", "first-support 9 ft; unfastened whip; poles 1"))
    assert first(job, "run") == pytest.approx(inches)


@pytest.mark.parametrize(
    ("wires", "inches"),
    [
        ("hot 2 x 10 AWG copper; neutral 10 AWG copper", 12),
        ("hot 2 x 8 AWG copper; neutral none", 72),
        ("hot 4 x 12 AWG copper; neutral 12 AWG copper", 72),
    ],
)
def test_large_armored_cable_has_no_staple_at_its_box(job_for: JobFor, wires: str, inches: float) -> None:
    """330.30(B) (ecmweb.com quiz): the 12 in are for four or fewer wires no larger than 10 AWG."""
    assert first(job_for(cable("MC", f"{wires}; first-support 5 ft")), "run") == pytest.approx(inches)


@pytest.mark.parametrize(
    ("text", "needed"),
    [
        (pipe("FMC", "1/2", "length 3 ft; unfastened whip").replace("inside", "above-grade"), False),
        (pipe("FMC", "1-1/4", "length 4 ft; unfastened whip").replace("inside", "above-grade"), True),
        (pipe("LFMC", "2", "length 4 ft; unfastened whip").replace("inside", "above-grade"), False),
        (pipe("LFMC", "2-1/2", "length 5 ft; unfastened whip").replace("inside", "above-grade"), False),
        (pipe("LFMC", "2-1/2", "length 6 ft; unfastened whip").replace("inside", "above-grade"), True),
        (pipe("FMC", "1/2", "length 6 ft; unfastened whip"), False),
        (pipe("FMC", "1/2", "length 7 ft; unfastened whip"), True),
        (pipe("FMC", "1/2", "length 3 ft"), True),
        (pipe("EMT", "1/2", "length 3 ft; unfastened whip"), True),
        (pipe("EMT", "1/2", "length 30 ft; unfastened fished"), False),
        (pipe("LFNC-B", "1/2", "length 6 ft"), False),
        (pipe("LFNC-A", "1/2", "length 6.1 ft"), True),
        (pipe("PVC-40", "1").replace("inside", "riser"), True),
        (pipe("PVC-40", "1").replace("inside", "in-concrete"), False),
    ],
)
def test_what_may_hang_free(job_for: JobFor, text: str, needed: bool) -> None:
    """350.30(A) exceptions 2 and 4 (ecmweb.com): 3, 4 or 5 ft by size, 6 ft above a ceiling; 356.30: LFNC up to 6 ft."""
    job = job_for(text)
    assert needs_supports(job.graph.one("pipe"), job) is needed


def test_what_a_cable_may(job_for: JobFor) -> None:
    """334.30(B)(1): fished cable. Loose wires hang on nothing of their own; USE-2 lies in the soil."""
    for text, needed in (
        (cable("14/2 copper NM-B"), True),
        (cable("14/2 copper NM-B", "unfastened fished"), False),
        (cable("14/2 copper NM-B", "unfastened whip"), True),
        (cable("USE-2"), False),
        ("circuit run\n  hot 2 x 12 AWG copper THWN-2; raceway pipe\nraceway pipe\n", False),
    ):
        job = job_for(text)
        assert needs_supports(job.graph.one("run"), job) is needed


@settings(max_examples=40, deadline=None)
@given(
    type=st.sampled_from(["EMT", "IMC", "RMC", "PVC-40", "PVC-80"]),
    sizes=st.lists(st.integers(0, len(SIZES) - 1), min_size=2, max_size=2).map(sorted),
    threaded=st.booleans(),
)
def test_a_larger_pipe_never_needs_straps_closer(job_for: JobFor, type: str, sizes: list[int], threaded: bool) -> None:
    more = f"support-spacing 50 ft; first-support 1 ft; threaded {'yes' if threaded else 'no'}"
    small, large = (spacing(job_for(pipe(type, SIZES[size], more))) for size in sizes)
    assert small <= large
