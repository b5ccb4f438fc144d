"""The rules that judge how a wiring is joined, held against a second way on small random plans.

`drawn_wiring` draws a wiring, `plan_of_wiring` writes its plan; `copper_and_cases` lays out neutral, ground and cases from the
same draw and walks them exhaustively. (1) Each rule says of each element what the second way says (`expected_answers`).
(2) Whatever a rule's words are: where the neutral's current finds a way home by ground, or a fault none by metal, some rule
complains of a piece concerned. (3) Leaving out a line opens questions and turns no answer. `PLANLINT_DEEP=1` takes 6,000 plans.
"""

import os
from collections import Counter
from collections.abc import Iterator

import pytest
from copper_and_cases import Copper
from drawn_wiring import Gear, Run, Source, Wiring, draw
from expected_answers import Answers
from plan_of_wiring import COMPLETE, statements, text_of
from test_deletion import unlawful

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.checking import run_rules
from planlint.facts.engine import Job
from planlint.language import read_text
from planlint.plan.graph import Graph
from planlint.plan.wiring_faults import wiring_faults
from planlint.rulebook import compile_rules

BLOCK = 50
BLOCKS = range(120 if os.environ.get("PLANLINT_DEEP") == "1" else 6)
Found = dict[tuple[str, str], str]

# What is said where the neutral's current also returns by ground, and where a fault finds no way home.
TWICE = ("neutral-bonded-away-from-service", "grounds-share-the-neutral-bar", "generator-neutral-mismatch")
NO_WAY_HOME = (
    "main-bonding-jumper-or-neutral-absent-at-service",
    "neutral-absent-ahead-of-service",
    "ahead-of-service-case-not-bonded",
    "meter-can-not-bonded",
    "neutral-loose-at-three-wire-outbuilding",
    "equipment-ground-missing",
    "outbuilding-three-wire-feed",
    "generator-neutral-mismatch",
)
# Leaving these out says something (a default, or what is in a pipe is what names it), so they are not left out here.
SAYS_BY_ITS_ABSENCE = ("existing", "own-rod", "sets", "raceway")


@pytest.fixture(scope="module")
def bench() -> "Bench":
    return Bench()


class Bench:
    """The rules that are compared, compiled once."""

    def __init__(self) -> None:
        self.code = resolve(("model-2020",))
        compared = {rule for seed in range(20) for rule, _ in Answers(draw(seed)).found}
        self.rules = [rule for rule in compile_rules(self.code) if rule.name in compared]
        assert {rule.name for rule in self.rules} == compared

    def answers(self, text: str) -> Found | None:
        """Every rule's answer on every element; None where the text is no wiring any more."""
        graph = Graph(read_text(text).elements)
        if wiring_faults(graph):
            return None
        results = run_rules(Job(graph, self.code, Tables()), self.rules)
        return {(result.rule.name, result.element.name): result.answer for result in results}


def seeds(block: int) -> range:
    return range(block * BLOCK, (block + 1) * BLOCK)


@pytest.mark.parametrize("block", BLOCKS)
def test_rules_say_what_copper_and_cases_say(bench: Bench, block: int) -> None:
    wrong: list[object] = []
    for seed in seeds(block):
        made = draw(seed)
        said, expected = bench.answers(text_of(statements(made))), Answers(made).found
        assert said is not None
        wrong += [(seed, *key, said.get(key), expected.get(key)) for key in said | expected if said.get(key) != expected.get(key)]
        wrong += [(seed, "nobody says it", *names) for names in _unsaid(made, said)]
    assert wrong == []


def _unsaid(made: Wiring, said: Found) -> Iterator[list[str]]:
    """The faults of physics of which no rule complains at a piece concerned; an open question of one is no all-clear."""
    complained = {key for key, answer in said.items() if answer in ("broken", "undecided")}
    copper = Copper(made)
    stray = [tie.name for tie in copper.stray_ties()]
    at = {*stray, *(source.name for source in copper.generators)}
    if stray and not any((rule, name) in complained for rule in TWICE for name in at):
        yield stray
    for case in copper.cases_without_return():
        if not any((rule, name) in complained for rule in NO_WAY_HOME for name in copper.ahead(case)):
            yield [case.name]


def test_the_draw_leaves_no_rule_without_both_answers() -> None:
    """And the physics asks its two questions often enough, so that the comparison isn't empty."""
    found: Counter[tuple[str, str]] = Counter()
    for seed in range(200):
        made = draw(seed)
        found.update((rule, answer) for (rule, _), answer in Answers(made).found.items())
        found["a neutral grounded twice", "met"] += bool(Copper(made).stray_ties())
        found["no way home", "met"] += bool(Copper(made).cases_without_return())
    assert min(found[rule, "met"] for rule, _ in found) >= 20
    assert min(found[rule, "broken"] for rule, answer in found if answer == "not-applicable") >= 4


@pytest.mark.parametrize("block", BLOCKS)
@pytest.mark.parametrize("complete", [COMPLETE, ""], ids=["all shown", "open"])
def test_leaving_out_a_line_turns_no_answer(bench: Bench, block: int, complete: str) -> None:
    wrong: list[object] = []
    left_out = 0
    for seed in seeds(block)[::2]:
        made = draw(seed)
        said = statements(made)
        before = bench.answers(text_of(said, complete))
        assert before is not None
        for what, after, spared in _without_a_line(made, said, complete):
            answers = bench.answers(after)
            if answers is not None:
                left_out += 1
                wrong += [(seed, what, *one) for one in unlawful(before, answers, spared)]
    assert wrong == []
    assert left_out > BLOCK / 4


def _without_a_line(made: Wiring, said: list[list[str]], complete: str) -> Iterator[tuple[str, str, set[str]]]:
    """Plans with an attribute left out; where the plan is open, also one with a statement and all that refers to it left out.

    What is left out, the text, and the elements that referred to it.
    """
    lines = [(i, k) for i, (_, *rest) in enumerate(said) for k in range(1, len(rest) + 1)]
    beside = {thing.name for thing in _beside_utility(made)} if not complete else set()
    lines = [(i, k) for i, k in lines if said[i][k].split()[0] not in SAYS_BY_ITS_ABSENCE]
    i, k = made.dice.choice([(i, k) for i, k in lines if said[i][0].split()[1] not in beside])
    shorter = [[line for n, line in enumerate(one) if (m, n) != (i, k)] for m, one in enumerate(said)]
    yield f"{said[i][0]}: {said[i][k]}", text_of(shorter, complete), set()
    if not complete:
        loose = [one for one in said if not any(line.startswith("raceway ") for line in one[1:])]
        gone = made.dice.choice([one for one in loose if one[0].split()[1] not in beside])
        name = gone[0].split()[1]
        kept = [[one[0], *(line for line in one[1:] if not _names(line, name))] for one in said if one is not gone]
        spared = {one[0].split()[1] for one in said if any(_names(line, name) for line in one[1:])}
        yield gone[0], text_of(kept, complete), spared


def _beside_utility(made: Wiring) -> list[Source | Gear | Run]:
    """What only a generator feeds: while the plan is open, a run whose way back isn't told is taken for the utility's."""
    known = Copper(made).behind_utility
    runs = [run for run in made.runs if run.start not in known]
    return [*runs, *(thing for thing in [*made.sources, *made.gear] if thing not in known)]


def _names(line: str, name: str) -> bool:
    return name in line.replace(",", "").split()[1:]
