"""Which faults are tried, and what came of them in sums and in words."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from pathlib import Path

from tests.mutations.faulted_plans import ENDS, CleanPlan, Mutation, Outcome, Place
from tests.mutations.uncaught import LAWFUL

COTTAGE = Path(__file__).parents[2] / "fixtures" / "cottage.plan"
UNRELATED = 3


def reason(mutation: Mutation) -> str:
    """The key in `uncaught` under which a fault is lawful, that of its statement before that of its kind; "" for none."""
    keys = (f"{who} {mutation.attribute}".strip() for who in (mutation.subject, mutation.kind))
    return next((key for key in keys if key in LAWFUL), "")


def chosen(plan: CleanPlan, least: int) -> Iterator[list[Mutation]]:
    """At least so many places that a rule reads, so that each rule that is met is among their readers; none that is lawful.

    Of each rule three places, those that fewest checks read; then others, those that fewest checks read first.
    """
    places = {mutations[0].place: mutations for mutations in plan.mutations() if mutations and not reason(mutations[0])}
    narrow = sorted(filter(plan.rules_reading, places), key=lambda place: len(plan.readers[place]))
    wanted: dict[Place, None] = {}
    for rule in sorted(plan.met):
        wanted |= dict.fromkeys([place for place in narrow if rule in plan.rules_reading(place)][:3])
    for place in narrow:
        if len(wanted) < least:
            wanted[place] = None
    return (places[place] for place in wanted)


def table(plan: CleanPlan, outcomes: Iterable[Outcome]) -> list[str]:
    """The sums, as lines to print."""
    outcomes = list(outcomes)
    ends = Counter(outcome.end for outcome in outcomes)
    lines = [f"{len(outcomes)} faults: " + ", ".join(f"{end} {ends[end]}" for end in ENDS)]
    broken = {rule for outcome in outcomes for rule, _ in outcome.intended | outcome.others}
    by_topic: defaultdict[str, Counter[str]] = defaultdict(Counter)
    for rule in plan.met:
        by_topic[plan.topic(rule)]["met"] += 1
        by_topic[plan.topic(rule)]["broken"] += rule in broken
    for outcome in outcomes:
        for topic in {plan.topic(rule) for rule, _ in outcome.intended}:
            by_topic[topic]["faults"] += 1
    lines += [f"  {topic}: {sums['met']} rules met, {sums['broken']} of them broken, faults caught {sums['faults']}"
              for topic, sums in sorted(by_topic.items())]  # fmt: skip
    lines.append(f"met and broken by none: {', '.join(sorted(plan.met - broken)) or 'no rule'}")
    lines.append(f"other rules broken: {', '.join(sorted(broken - plan.met))}")
    for outcome in outcomes:
        if len(beside := {rule for rule, _ in outcome.others}) >= UNRELATED:
            lines.append(f"{outcome.mutation} also breaks {', '.join(sorted(beside))}")
    return lines


def unexplained(outcomes: Iterable[Outcome]) -> list[str]:
    """Faults that nothing catches, without a reason; reasons that no fault needs; rules that failed."""
    outcomes = list(outcomes)
    wrong = [f"caught by none: {one.mutation}" for one in outcomes if one.end == "none" and not reason(one.mutation)]
    wrong += [f"not checked: {one.mutation}, {one.others}" for one in outcomes if one.end == "not checked"]
    used = {reason(one.mutation) for one in outcomes if one.end == "none"}
    there = {reason(one.mutation) for one in outcomes}
    return wrong + [f"no exception any more: {key}" for key in sorted((there & set(LAWFUL)) - used)]
