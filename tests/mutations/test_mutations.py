"""Single faults in the clean cottage: 300 and more, none of which is caught by none.

Each rule that the cottage meets had read some of what is altered here. Of each place the first few values are tried, and of what
nothing may catch (`uncaught`) none: all places with all values are the business of `python -m tests.mutations`, which tells too
what else fires.
"""

from collections import Counter

import pytest

from planlint.plan import KINDS
from tests.mutations.endings import COTTAGE, chosen, unexplained
from tests.mutations.faulted_plans import CleanPlan
from tests.mutations.uncaught import LAWFUL

FAULTS = 300
MOST, MOST_RULES = 0.7, 0.7


@pytest.fixture(scope="module")
def plan() -> CleanPlan:
    return CleanPlan(COTTAGE.read_text(encoding="utf-8"), "tern-county")


def test_single_faults_of_the_cottage_are_caught(plan: CleanPlan) -> None:
    outcomes = [plan.with_few_values(mutations) for mutations in chosen(plan, FAULTS)]
    assert unexplained(outcomes) == []
    assert len(outcomes) >= FAULTS
    read = {rule for outcome in outcomes for rule in plan.rules_reading(outcome.mutation.place)}
    assert plan.met - read == set()
    ends = Counter(outcome.end for outcome in outcomes)
    assert ends["intended"] >= MOST * FAULTS, ends
    broken = {rule for outcome in outcomes for rule, _ in outcome.intended}
    assert len(plan.met & broken) >= MOST_RULES * len(plan.met), plan.met - broken


@pytest.mark.parametrize("key", LAWFUL)
def test_what_has_a_reason_stands_in_the_cottage(plan: CleanPlan, key: str) -> None:
    who, _, attribute = key.partition(" ")
    kind = plan.kind_of.get(who, who)
    assert kind in {element.kind for element in plan.elements}
    assert not attribute or attribute in KINDS[kind].attributes
