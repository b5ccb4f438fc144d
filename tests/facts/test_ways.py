"""What lies where: pipes, ditches, what is in them, and what may lie in the soil."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts import ways
from planlint.facts.engine import Job
from planlint.plan.elements import NotStated

JobFor = Callable[..., Job]
PIPE = "raceway pipe\n  type PVC-40; size 2 in; "
WIRES = "hot 2 x 6 AWG copper THWN-2; neutral none; ground 10 AWG copper THWN-2"


def worked(job: Job, fact: Callable[[Any, Job], Any], name: str) -> Any:
    return fact(job.graph.one(name), job)


def needs(job: Job, fact: Callable[[Any, Job], Any], name: str) -> str:
    """What the plan would have to state; fails where it has an answer."""
    with pytest.raises(NotStated) as raised:
        worked(job, fact, name)
    return str(raised.value)


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("trench ditch", "buried"),
        ("trench ditch; route in-concrete", "buried"),
        ("trench ditch; route below-slab", "buried"),
        ("route riser", "riser"),
        ("route sleeve", "sleeve"),
    ],
)
def test_where_a_pipe_lies(job_for: JobFor, said: str, expected: str) -> None:
    job = job_for(f"{PIPE}{said}\ntrench ditch\n  cover 24 in\n")
    assert worked(job, ways.lies, "pipe") == expected
    assert worked(job, ways.lies_in_trench, "pipe") is (expected == "buried")


@pytest.mark.parametrize(
    ("said", "missing"),
    [
        ("bends none", "pipe: route"),
        ("trench ditch; route riser", "pipe: trench or route riser, for it can't be both"),
        ("trench unknown; route inside", "pipe: trench"),
        ("trench ditch; route unknown", "pipe: route"),
    ],
)
def test_where_a_pipe_lies_may_be_open(job_for: JobFor, said: str, missing: str) -> None:
    assert needs(job_for(f"{PIPE}{said}\ntrench ditch\n  cover 24 in\n"), ways.lies, "pipe") == missing


def test_what_names_a_pipe_is_in_it(job_for: JobFor) -> None:
    job = job_for(f"{PIPE}route inside\nfeeder one\n  raceway pipe; {WIRES}\ncircuit two\n  raceway pipe; {WIRES}\n")
    inside = worked(job, ways.contents, "pipe")
    assert [run.name for run in inside.whole()] == ["one", "two"]


@pytest.mark.parametrize(
    ("said", "run", "gap"),
    [
        ("", "", "pipe: holds"),
        ("; holds none", "", ""),
        ("; holds unknown", "", "pipe: holds"),
        ("; holds 3 x 10 AWG copper THWN-2", "", ""),
        ("; holds none", f"circuit loose\n  {WIRES}\n", "loose: raceway"),
        ("; holds none", f"complete raceways\ncircuit loose\n  {WIRES}\n", ""),
        ("; holds none", "circuit cabled\n  cable 12/2 copper NM-B\n", ""),
    ],
)
def test_a_pipe_that_nothing_names(job_for: JobFor, said: str, run: str, gap: str) -> None:
    """Loose wires that name no pipe may lie in it, unless all raceways are shown; a cable that names none lies in none."""
    first = "complete raceways\n" if run.startswith("complete") else ""
    job = job_for(f"{first}{PIPE}route inside{said}\n{run.removeprefix(first)}")
    inside = worked(job, ways.contents, "pipe")
    assert not inside.known
    assert ", ".join(map(str, inside.gaps)) == gap


OWNERS = {"utility": True, "customer": False}


@pytest.mark.parametrize("owner", OWNERS)
def test_whose_a_service_and_its_pipe_are(job_for: JobFor, owner: str) -> None:
    job = job_for(f"{PIPE}trench ditch\ntrench ditch\n  cover 24 in\nservice lateral\n  owner {owner}; raceway pipe\n")
    for name in ("lateral", "pipe"):
        assert worked(job, ways.is_utility_owned, name) is OWNERS[owner]
    assert worked(job, ways.carries_service, "pipe") is not OWNERS[owner]
    assert worked(job, ways.carries_service, "ditch") is not OWNERS[owner]
    assert worked(job, ways.carries_only_utility, "ditch") is OWNERS[owner]


def test_a_pipe_with_other_wires_beside_the_utilitys_is_not_its_own(job_for: JobFor) -> None:
    service = "service lateral\n  owner utility; raceway pipe\n"
    held = job_for(f"{PIPE}holds 1 x 6 AWG copper bare\n{service}")
    assert worked(held, ways.is_utility_owned, "pipe") is False
    fed = job_for(f"{PIPE}route inside\n{service}feeder studio-feeder\n  raceway pipe; {WIRES}\n")
    assert worked(fed, ways.is_utility_owned, "pipe") is False
    spare = job_for(f"{PIPE}holds none\n")
    assert worked(spare, ways.is_utility_owned, "pipe") is False


def test_whose_it_is_may_be_open(job_for: JobFor) -> None:
    silent = job_for(f"{PIPE}trench ditch\ntrench ditch\n  cover 24 in\nservice lateral\n  raceway pipe\n")
    for fact, name in [(ways.is_utility_owned, "pipe"), (ways.carries_service, "ditch"), (ways.carries_only_utility, "ditch")]:
        assert needs(silent, fact, name) == "lateral: owner"
    nothing = job_for(f"{PIPE}trench ditch\ntrench ditch\n  cover 24 in\ntrench other\n  cover 24 in\n")
    assert needs(nothing, ways.is_utility_owned, "pipe") == "pipe: holds"
    assert needs(nothing, ways.carries_service, "ditch") == "pipe: holds"
    assert needs(nothing, ways.carries_service, "other") == "what lies in other"


def test_underground(job_for: JobFor) -> None:
    pipes = "".join(f"raceway {route}\n  route {route}\n" for route in ("below-slab", "inside", "riser"))
    text = f"{pipes}raceway buried\n  trench ditch\ntrench ditch\n  cover 24 in\n"
    for pipe, expected in {"below-slab": True, "inside": False, "riser": False, "buried": True}.items():
        job = job_for(f"{text}feeder run\n  raceway {pipe}; {WIRES}\n")
        assert worked(job, ways.is_underground, "run") is expected
        assert worked(job, ways.is_direct_buried, "run") is False
    direct = job_for(f"{text}circuit run\n  cable 10/2 copper UF-B; trench ditch\n")
    assert worked(direct, ways.is_underground, "run") is True
    assert worked(direct, ways.is_direct_buried, "run") is True
    indoors = job_for(f"{text}circuit run\n  cable 10/2 copper NM-B\n")
    assert worked(indoors, ways.is_underground, "run") is False
    assert needs(job_for(f"{text}feeder run\n  hot 2 x 6 AWG copper THWN-2\n"), ways.is_underground, "run").startswith(
        "run: cable, or"
    )


SOIL = (
    "trench ditch\n  cover 24 in; under {under}\nraceway pipe\n  trench ditch\nraceway indoors\n  route inside\n"
    "feeder run\n  {run}\n"
)


@pytest.mark.parametrize(
    ("run", "under", "expected"),
    [
        ("cable NM-B; trench ditch", "yard", False),
        ("cable NM-B; raceway pipe", "yard", False),
        ("cable SER; raceway pipe", "yard", False),
        ("cable SEU; trench ditch", "yard", False),
        ("cable AC; raceway pipe", "yard", False),
        ("cable UF-B; trench ditch", "yard", True),
        ("cable USE-2; trench ditch", "driveway", True),
        ("cable UF-B; raceway pipe", "building", True),
        ("cable UF-B; trench ditch", "building", False),
        ("cable UF-B; trench ditch; raceway pipe", "building", True),
        ("hot 2 x 6 AWG copper THWN-2; raceway pipe", "yard", True),
        ("hot 2 x 4/0 aluminum USE-2; trench ditch", "yard", True),
        ("hot 2 x 6 AWG copper THWN-2; raceway indoors; trench ditch", "yard", False),
        ("hot 2 x 6 AWG copper THWN-2; raceway pipe; trench ditch", "yard", True),
    ],
)
def test_what_may_lie_in_the_soil(job_for: JobFor, run: str, under: str, expected: bool) -> None:
    """NFPA 70 334.12(B)(4), 338.12(A)(2), 340.10(1), 320.12, 300.5(C), from memory."""
    assert worked(job_for(SOIL.format(under=under, run=run)), ways.cable_suits_soil, "run") is expected


@pytest.mark.parametrize(
    ("run", "under", "missing"),
    [
        ("cable MC; raceway pipe", "yard", "run: whether its cable is made and marked for the soil"),
        ("cable unknown; raceway pipe", "yard", "run: hot"),
        ("cable UF-B; trench ditch", "unknown", "ditch: under"),
        ("hot 2 x 6 AWG copper; raceway indoors; trench ditch", "yard", "run: hot, the insulation of its wires"),
    ],
)
def test_what_may_lie_in_the_soil_can_be_open(job_for: JobFor, run: str, under: str, missing: str) -> None:
    assert needs(job_for(SOIL.format(under=under, run=run)), ways.cable_suits_soil, "run") == missing


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("route below-slab", True),
        ("trench ditch; route below-slab", True),
        ("trench ditch", True),
        ("trench front-ditch", False),
        ("route in-concrete", False),
        ("route above-grade", False),
    ],
)
def test_below_a_building(job_for: JobFor, said: str, expected: bool) -> None:
    """NFPA 70 230.6. A pipe in a slab is not below it."""
    job = job_for(f"{PIPE}{said}\ntrench ditch\n  under building; cover 20 in\ntrench front-ditch\n  under yard\n")
    assert worked(job, ways.is_below_building, "pipe") is expected
    if "trench ditch" in said:
        assert worked(job, ways.earth_cover, "pipe").within("in") == 20


def test_parallel_sets(job_for: JobFor) -> None:
    run = "feeder run\n  raceway pipe; sets {sets}{more}; " + WIRES + "\n"
    for sets, more, expected in [(1, "", 1), (2, "; kept-together yes", 2), (2, "; kept-together no", 1)]:
        job = job_for(PIPE + "route inside\n" + run.format(sets=sets, more=more))
        assert ways.sets_inside(job.graph.one("run")) == expected
    job = job_for(PIPE + "route inside\n" + run.format(sets=2, more=""))
    with pytest.raises(NotStated, match="kept-together"):
        ways.sets_inside(job.graph.one("run"))
