"""Every rule's examples: whole plans without a plan statement, under the newest edition of the rule's clause."""

from collections.abc import Iterator

import pytest

from planlint.book import Code, RuleRecord, resolve
from planlint.book.tables import Tables
from planlint.checking import run_rule
from planlint.facts import load_facts
from planlint.facts.engine import Job
from planlint.language import read_text
from planlint.plan.graph import Graph
from planlint.plan.wiring_faults import wiring_faults
from planlint.rulebook import compile_rule, compile_rules

load_facts()
CODES = {edition: resolve((f"model-{edition}",)) for edition in (2017, 2020, 2023)}
PREVIEWS = {2026: resolve(("model-2026-preview",))}
RULES = dict(CODES[2023].known_rules)
OTHERS = {"met": {"broken", "undecided"}, "broken": {"met", "undecided"}, "undecided": {"met", "broken"}}


def newest(record: RuleRecord) -> Code:
    return (CODES | PREVIEWS)[max(record.clause)]


def examples() -> Iterator[object]:
    for name, record in sorted(RULES.items()):
        for answer in record.examples:
            yield pytest.param(record, answer, id=f"{name}-{answer}")


@pytest.mark.parametrize(("record", "answer"), list(examples()))
def test_an_example_gives_its_answer_and_no_other(record: RuleRecord, answer: str) -> None:
    code = newest(record)
    reading = read_text(record.examples[answer].text, example=True)
    graph = Graph(reading.elements)
    assert not wiring_faults(graph)
    rule = compile_rule(code.rules[record.name], code)
    job = Job(graph, code, Tables())
    results = [run_rule(rule, element, job) for element in graph.elements if element.kind in record.about]
    answers = {result.answer for result in results}
    assert answer in answers, [(result.element, result.answer, result.fault or result.waiting) for result in results]
    assert not answers & (OTHERS[answer] | {"not-checked"}), [(r.element, r.answer, r.fault or r.waiting) for r in results]


@pytest.mark.parametrize("name", sorted(RULES))
def test_every_rule_shows_all_three_answers(name: str) -> None:
    assert {"met", "broken"} <= set(RULES[name].examples)
    assert "undecided" in RULES[name].examples


@pytest.mark.parametrize("edition", CODES)
def test_every_rule_in_force_compiles(edition: int) -> None:
    compiled = compile_rules(CODES[edition])
    assert [rule.name for rule in compiled] == sorted(name for name, record in RULES.items() if edition in record.clause)
