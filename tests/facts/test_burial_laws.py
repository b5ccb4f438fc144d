"""Laws of cover: what is unknown, several circuits in one pipe, several ditches, rock, and the cottage's figures."""

from collections.abc import Callable
from pathlib import Path

import pytest

from planlint.book import resolve
from planlint.checking import run_rule
from planlint.facts.burial import comes_up_in_riser, cover, cover_needed, dig_deeper, shallowest_pipe
from planlint.facts.engine import Job
from planlint.plan.elements import NotStated
from planlint.quantities import Length
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
COTTAGE = Path(__file__).parents[2] / "fixtures" / "cottage.plan"
SMALL = "poles 1; breaker 20 A; protection gfci"
HOME = "building house\n  use one-family\n"


def inches(number: float) -> Length:
    return Length.of(number, "in")


def worked(job: Job, fact: Callable[..., object], name: str = "line") -> object:
    return fact(job.graph.one(name), job)


def answer(job: Job, name: str = "line") -> str:
    return run_rule(compile_rule(job.code.rules["trench-too-shallow"], job.code), job.graph.one(name), job).answer


def cable(more: str, where: str = "under yard; cover 12 in", home: str = HOME) -> str:
    return f"{home}circuit line\n  cable 12/2 copper UF-B; trench ditch; {more}\ntrench ditch\n  {where}\n"


def pipe(*circuits: str, more: str = "holds none", where: str = "under yard; cover 12 in") -> str:
    runs = "".join(f"circuit c{number}\n  raceway line; {said}\n" for number, said in enumerate(circuits))
    return f"{HOME}{runs}raceway line\n  type PVC-40; trench ditch; {more}\ntrench ditch\n  {where}\n"


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        (SMALL, "met"),
        ("poles 2; breaker 20 A; protection gfci", "broken"),
        ("poles 1; breaker 25 A; protection gfci", "broken"),
        ("poles 1; breaker 20 A; protection afci", "broken"),
        (f"volts 240 V; {SMALL}", "broken"),
        ("breaker 20 A; protection gfci", "undecided"),
        ("poles 1; protection gfci", "undecided"),
        ("poles 1; breaker 20 A", "undecided"),
        (f"volts unknown; {SMALL}", "undecided"),
        (f"shares-neutral-with other; {SMALL}", "broken"),
    ],
)
def test_each_condition_of_the_small_circuits_counts(job_for: JobFor, said: str, expected: str) -> None:
    """Table 300.5, column 4: residential, 120 V, 20 A, GFCI. One that fails decides, one that is open leaves it open."""
    assert answer(job_for(cable(said) + "circuit other\n  poles 1\n")) == expected


def test_a_circuit_of_no_dwelling_is_asked_about(job_for: JobFor) -> None:
    """Only residential circuits are meant: without a dwelling on the plan it is open."""
    assert answer(job_for(cable(SMALL, home=""))) == "undecided"
    assert answer(job_for(cable(SMALL, home="building barn\n  use barn\n"))) == "undecided"
    assert answer(job_for(cable(SMALL, "under yard; cover 24 in", home=""))) == "met"


def test_what_lies_deep_enough_asks_for_nothing_more(job_for: JobFor) -> None:
    """A circuit of which nothing is said passes at the cable's own 24 in, and is open at 23.9 in."""
    assert answer(job_for(cable("length 9 ft", "under yard; cover 24 in"))) == "met"
    assert answer(job_for(cable("length 9 ft", "under yard; cover 23.9 in"))) == "undecided"


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("volts 30 V; use lighting", "met"),
        ("volts 31 V; use lighting; breaker 20 A; protection none", "broken"),
        ("volts 24 V; use general", "undecided"),
        ("volts 24 V", "undecided"),
    ],
)
def test_low_voltage_is_for_irrigation_and_yard_lights(job_for: JobFor, said: str, expected: str) -> None:
    """Table 300.5, column 5: 30 V at most, irrigation and landscape lighting only."""
    assert answer(job_for(cable(said, "under yard; cover 6 in"))) == expected


def test_a_pipe_takes_the_strictest_of_its_circuits(job_for: JobFor) -> None:
    """Law: the relief of a small circuit is no relief for what lies beside it."""
    assert answer(job_for(pipe(SMALL))) == "met"
    assert answer(job_for(pipe(SMALL, SMALL))) == "met"
    assert answer(job_for(pipe(SMALL, "poles 2; breaker 20 A; protection gfci"))) == "broken"
    assert answer(job_for(pipe("volts 12 V; use lighting", SMALL, where="under yard; cover 11.9 in"))) == "broken"
    assert answer(job_for(pipe("volts 12 V; use lighting", where="under yard; cover 6 in"))) == "met"


def test_a_pipe_whose_contents_are_open_has_no_relief(job_for: JobFor) -> None:
    """Law: not stated is neither relief nor its contrary."""
    assert answer(job_for(pipe(SMALL, more="holds unknown"))) == "undecided"
    assert answer(job_for(pipe(SMALL, more="holds 3 x 6 AWG copper THWN-2"))) == "broken"
    assert answer(job_for(pipe(SMALL, "length 9 ft"))) == "undecided"
    assert answer(job_for(pipe())) == "undecided"
    assert answer(job_for(pipe(more="size 1 in"))) == "undecided"
    assert answer(job_for("complete circuits\n" + pipe())) == "broken"
    loose = "circuit stray\n  hot 1 x 12 AWG copper THWN-2\n"
    assert answer(job_for(pipe(SMALL) + loose)) == "undecided"


def test_the_worst_of_several_ditches_counts(job_for: JobFor) -> None:
    """Law: cover and need come from one ditch, that where most is missing; a known fault stands whatever else is open."""
    two = "trench far\n  under {}\n"
    line = HOME + "circuit line\n  cable 12/2 copper UF-B; trench near, far; poles 2\ntrench near\n  under yard; cover 24 in\n"
    job = job_for(line + two.format("driveway; cover 17 in"))
    assert (worked(job, cover), worked(job, cover_needed), worked(job, dig_deeper)) == (inches(17), inches(18), inches(1))
    assert answer(job_for(line + two.format("driveway; cover 18 in"))) == "met"
    assert answer(job_for(line + two.format("driveway"))) == "undecided"
    shallow = line.replace("cover 24 in", "cover 23 in").replace("poles 2", "poles 2; breaker 20 A; protection none")
    assert answer(job_for(shallow + two.format("driveway"))) == "broken"


def test_a_small_circuit_in_a_yard_and_a_street(job_for: JobFor) -> None:
    """Law: the ditch with less cover need not be the worse one; below a street even a small circuit lies at 24 in."""
    line = HOME + f"circuit line\n  cable 12/2 copper UF-B; trench near, far; {SMALL}\ntrench near\n  under yard; cover 12 in\n"
    assert answer(job_for(line + "trench far\n  under street; cover 20 in\n")) == "broken"
    assert answer(job_for(line + "trench far\n  under street; cover 24 in\n")) == "met"


def test_rock_below_concrete_excuses_pipe_only(job_for: JobFor) -> None:
    """Table 300.5, note on solid rock: 2 in of concrete down to the rock, in a raceway. From memory, as in the table's file."""
    capped = "under street; cover 2 in; rock yes; concrete-over {} in"
    feeder = "feeder studio\n  raceway line\nraceway line\n  type PVC-40; trench ditch\ntrench ditch\n  "
    assert answer(job_for(feeder + capped.format(2))) == "met"
    assert answer(job_for(feeder + capped.format(1.9))) == "broken"
    assert answer(job_for(feeder + capped.format(2).replace("rock yes", "rock no"))) == "broken"
    assert answer(job_for(cable("poles 2", capped.format(2)) + "circuit other\n  poles 1\n")) != "met"


def test_concrete_in_the_ditch_changes_no_row_but_the_yards(job_for: JobFor) -> None:
    """Law: other rows say what they want themselves."""
    feeder = "feeder studio\n  raceway line\nraceway line\n  type PVC-40; trench ditch\ntrench ditch\n  concrete-over 2 in; "
    assert answer(job_for(feeder + "under yard; cover 12 in")) == "met"
    assert answer(job_for(feeder + "under driveway; cover 17.9 in")) == "broken"
    unknown = feeder.replace("concrete-over 2 in", "concrete-over unknown")
    assert answer(job_for(unknown + "under yard; cover 12 in")) == "undecided"


@pytest.mark.parametrize("sort", ["ENT", "FMC"])
def test_pipe_that_is_not_made_for_the_soil_gets_no_figure(job_for: JobFor, sort: str) -> None:
    """The table has no column for it (348.12, 362.12): not a pass at any depth."""
    job = job_for(f"raceway line\n  type {sort}; trench ditch; holds none\ntrench ditch\n  under yard; cover 40 in\n")
    assert answer(job) == "undecided"


@pytest.mark.parametrize(
    ("round_it", "cover_in", "expected"),
    [("2 in", 18, "met"), ("2 in", 17.9, "broken"), ("1.9 in", 40, "undecided")],
)
def test_tubing_cast_in_concrete_counts_as_plastic_pipe(job_for: JobFor, round_it: str, cover_in: float, expected: str) -> None:
    """Table 300.5, note 2, from memory: a raceway that may be buried only in concrete wants 2 in of it all round."""
    feeder = "feeder studio\n  raceway line\n"
    line = f"raceway line\n  type ENT; trench ditch; concrete-cover {round_it}\n"
    job = job_for(f"{feeder}{line}trench ditch\n  under yard; encased yes; cover {cover_in} in\n")
    assert answer(job) == expected


def test_the_pipe_that_may_stay(job_for: JobFor) -> None:
    """Table 300.5, row of yards: plastic from 18 in, steel from 6 in."""
    found = {}
    for deep in (18, 17.9, 6, 5.9):
        job = job_for(cable("poles 2; breaker 20 A; protection none", f"under yard; cover {deep} in"))
        found[deep] = worked(job, shallowest_pipe)
    assert found == {18: "PVC-40", 17.9: "RMC", 6: "RMC", 5.9: "none"}


def test_a_cable_whose_pipe_lies_in_the_same_ditch_is_asked_about(job_for: JobFor) -> None:
    """A run that names ditch and pipe may leave its pipe there or not."""
    line = (
        HOME + "circuit line\n  cable 12/2 copper UF-B; trench ditch; raceway sleeve; poles 2; breaker 20 A; protection none\n"
        "raceway sleeve\n  type PVC-40; trench ditch\ntrench ditch\n  under yard; cover {} in\n"
    )
    assert answer(job_for(line.format(18))) == "undecided"
    assert answer(job_for(line.format(24))) == "met"


def test_a_riser_is_a_pipe_of_that_route(job_for: JobFor) -> None:
    """Law: a pipe whose route is left out may be one."""
    line = "circuit line\n  cable 10/2 copper UF-B; trench ditch; raceway up\ntrench ditch\nraceway up\n  "
    assert worked(job_for(line + "route riser"), comes_up_in_riser) is True
    assert worked(job_for(line + "route inside"), comes_up_in_riser) is False
    assert worked(job_for(line + "trench ditch"), comes_up_in_riser) is False
    with pytest.raises(NotStated):
        worked(job_for(line + "size 1 in"), comes_up_in_riser)


@pytest.mark.parametrize(
    ("name", "lies", "needed"),
    [
        ("service-pipe", 26, 18),
        ("charger-pipe", 26, 18),
        ("studio-pipe", 24, 18),
        ("well-circuit", 28, 24),
    ],
)
def test_the_cottage(job_for: JobFor, name: str, lies: float, needed: float) -> None:
    """By hand, from Table 300.5: PVC below a driveway and a yard 18 in, UF-B at 240 V 24 in; the county asks for 2 in more."""
    job = job_for(COTTAGE.read_text(encoding="utf-8"), profile="tern-county")
    assert worked(job, cover, name) == inches(lies)
    assert worked(job, cover_needed, name) == inches(needed)
    assert worked(job, dig_deeper, name) == inches(0)
    assert answer(job, name) == "met"


def test_the_studio_pipe_with_too_little_cover(job_for: JobFor) -> None:
    """By hand: 14 in of 18 + 2 in, so 6 in are missing, and only steel may stay."""
    text = COTTAGE.read_text(encoding="utf-8").replace("cover 24 in; under yard", "cover 14 in; under yard")
    job = job_for(text, profile="tern-county")
    assert worked(job, dig_deeper, "studio-pipe") == inches(6)
    assert worked(job, shallowest_pipe, "studio-pipe") == "RMC"
    assert answer(job, "studio-pipe") == "broken"


def test_every_edition_has_the_rule() -> None:
    """The table moved to 300.5(A) in 2023; the rule is in force in all three editions."""
    assert all("trench-too-shallow" in resolve((f"model-{year}",)).rules for year in (2017, 2020, 2023))
