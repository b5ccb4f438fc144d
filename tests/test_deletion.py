"""The deletion law: leaving out a line never turns an answer into another one in silence.

(1) Each attribute that has no default is taken out of each fixture, its `complete` line taken out before: met may become
undecided, broken may become undecided, nothing else may change. (2) Each statement is taken out together with the attributes
that refer to it: the same holds for every element that remains, except those that referred to what was deleted. (3) Taking out
the `complete` line itself turns met and broken into undecided only.
"""

import os
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.checking import run_rules
from planlint.facts.engine import Job
from planlint.faults import Faults
from planlint.language import Reading, read_text
from planlint.plan import Element
from planlint.plan.graph import Graph
from planlint.plan.wiring_faults import wiring_faults
from planlint.positions import Span
from planlint.rulebook import CompiledRule, compile_rules

ROOT = Path(__file__).parents[1]
COTTAGES = [ROOT / "fixtures" / "cottage.plan", ROOT / "fixtures" / "cottage-faults.plan"]
DEEP = os.environ.get("PLANLINT_DEEP") == "1"
PLANS = COTTAGES + (sorted((ROOT / "fixtures" / "rules").glob("*.plan")) if DEEP else [])

# What is passed over, each with its reason.
PASSED_OVER = {
    ("service", "raceway"): "what is in a raceway is what names it; a cable that names none lies in none",
    ("feeder", "raceway"): "as above",
    ("circuit", "raceway"): "as above",
    ("service", "trench"): "what is in a ditch is what names it",
    ("feeder", "trench"): "as above",
    ("circuit", "trench"): "as above",
    ("service", "holes"): "what goes through a hole is what names it",
    ("feeder", "holes"): "as above",
    ("circuit", "holes"): "as above",
    ("service", "span"): "what hangs in a span is what names it",
    ("feeder", "span"): "as above",
    ("circuit", "span"): "as above",
}
# What is in a pipe, a ditch, a hole is what names it (decided so, for nobody can list all that lies nowhere). So a statement that
# is left out is in none of them any more, as if it named another one: an answer may change as it does then, and no further.
WAYS = {"raceway": "route inside", "trench": "", "holes": "", "span": ""}
ALLOWED = {
    ("met", "undecided"),
    ("broken", "undecided"),
    # A rule that may or may not apply now: its condition is open, and its demand is met or open.
    ("not-applicable", "undecided"),
    ("not-applicable", "met"),
}
Answers = dict[tuple[str, str], str]


class Bench:
    """One fixture's text, with the rules compiled once."""

    def __init__(self, path: Path) -> None:
        self.text = path.read_text(encoding="utf-8")
        plan = read_text(self.text).elements[0].plan
        names = plan.value("profile") if plan.states("profile") else (f"model-{plan.value('edition')}",)
        self.code = resolve(names, beside=path.parent / "profiles")
        self.rules: list[CompiledRule] = compile_rules(self.code)
        self.asked = {name for rule in self.rules for name in _asked_stated(rule)}

    def answers(self, text: str) -> tuple[Answers, Reading] | None:
        """Every rule's answer on every element; None where the text is no plan any more (a faulty plan gives no answers)."""
        try:
            reading = read_text(text)
        except Faults:
            return None
        graph = Graph(reading.elements)
        if wiring_faults(graph):
            return None
        job = Job(graph, self.code, Tables())
        results = {(result.rule.name, result.element.name): result.answer for result in run_rules(job, self.rules)}
        return results, reading

    def not_complete(self) -> str:
        """The text without its `complete`, so that any statement and any attribute may be missing."""
        plan = read_text(self.text).elements[0].plan
        return without(self.text, [stretch(plan, "complete")]) if plan.states("complete") else self.text


def _asked_stated(rule: CompiledRule) -> Iterator[str]:
    for part in (rule.rule.record.when, rule.rule.record.must):
        if part:
            yield from re.findall(r"([a-z-]+) is (?:not )?stated", part.text)


def without(text: str, spans: list[Span]) -> str:
    """The text with these stretches taken out, and the separators that would be left over."""
    lines = text.split("\n")
    for span in sorted(spans, reverse=True):
        line = lines[span.line - 1]
        code, hash_, comment = line.partition("#") if '"' not in line else (line, "", "")
        before, after = code[: span.column - 1], code[span.end_column - 1 :]
        joined = re.sub(r"^(\s*);\s*", r"\1", before + re.sub(r"^\s*;\s*", "", after)) if not before.strip() else None
        lines[span.line - 1] = (joined if joined is not None else before.rstrip().rstrip(";") + after) + hash_ + comment
    return "\n".join(lines)


def stretch(element: Element, attribute: str) -> Span:
    """From the attribute's name to the end of its last value."""
    standing = element.standing[attribute]
    last = standing.values[-1]
    return Span(standing.name.file, standing.name.line, standing.name.column, last.end_line, last.end_column)


def unlawful(before: Answers, after: Answers, spared: set[str] = frozenset()) -> list[tuple[object, str, str]]:
    return [
        (key, answer, after[key])
        for key, answer in before.items()
        if key in after and key[1] not in spared and after[key] != answer and (answer, after[key]) not in ALLOWED
    ]


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_leaving_out_an_attribute_only_opens_questions(path: Path) -> None:
    bench = Bench(path)
    bare = bench.not_complete()
    before, reading = bench.answers(bare)
    sums: Counter[str] = Counter()
    wrong = []
    for element in reading.elements:
        for attribute in element.standing:
            declared = type(element).attributes[attribute]
            passed_over = (element.kind, attribute) in PASSED_OVER or attribute in bench.asked or declared.default is not None
            if passed_over or element.kind in ("plan", "permission"):
                sums["passed over"] += 1
                continue
            after = bench.answers(without(bare, [stretch(element, attribute)]))
            if after is None:
                sums["no plan any more"] += 1
                continue
            sums["deleted"] += 1
            found = unlawful(before, after[0])
            sums["answers opened"] += sum(after[0].get(key) == "undecided" != answer for key, answer in before.items())
            wrong += [(f"{element.name}: {attribute}", *one) for one in found]
    print(path.stem, "attributes", dict(sums))
    assert wrong == [], wrong
    assert sums["deleted"] > 0


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_leaving_out_a_statement_only_opens_questions(path: Path) -> None:
    bench = Bench(path)
    bare = bench.not_complete()
    before, reading = bench.answers(bare)
    sums: Counter[str] = Counter()
    wrong = []
    for element in reading.elements:
        if element.kind == "plan":
            continue
        referring = [(other, name) for other in reading.elements for name in references(other, element)]
        spans = [stretch(other, name) for other, name in referring if other is not element]
        text = without(bare, spans)
        after = bench.answers(without_statement(text, element))
        if after is None:
            sums["no plan any more"] += 1
            continue
        sums["deleted"] += 1
        spared = {other.name for other, _ in referring}
        found = unlawful(before, after[0], spared)
        if found and (moved := bench.answers(elsewhere(bare, element))) is not None:
            sums["answers like those of another pipe"] += len(found)
            found = [one for one in found if one[0] in {key for key, *_ in unlawful(moved[0], after[0])}]
            sums["answers like those of another pipe"] -= len(found)
        wrong += [(element.name, *one) for one in found]
    print(path.stem, "statements", dict(sums))
    assert wrong == [], wrong
    assert sums["deleted"] > 0


def references(element: Element, target: Element) -> Iterator[str]:
    for name, declared in type(element).attributes.items():
        if declared.type.kinds and element.states(name):
            value = element.value(name)
            if any(one is target for one in (value if isinstance(value, tuple) else (value,))):
                yield name


def elsewhere(text: str, element: Element) -> str:
    """The text with each pipe, ditch, hole and span that the statement names turned into one where nothing else is."""
    lines, added = text.split("\n"), []
    named = [name for name in WAYS if name in element.standing and type(element).attributes[name].type.kinds]
    for name in sorted(named, key=lambda each: element.standing[each].name.column, reverse=True):
        values = element.standing[name].values
        line = lines[values[0].line - 1]
        lines[values[0].line - 1] = line[: values[0].column - 1] + f"another-{name}" + line[values[-1].end_column - 1 :]
        added += [f"{name} another-{name}", f"  {WAYS[name]}"]
    return "\n".join(lines + added) + "\n"


def without_statement(text: str, element: Element) -> str:
    lines = text.split("\n")
    start = element.line.line - 1
    end = start + 1
    while end < len(lines) and (lines[end][:1] in (" ", "\t", "#") or not lines[end].strip()):
        end += 1
    return "\n".join(lines[:start] + lines[end:])


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_leaving_out_complete_only_opens_questions(path: Path) -> None:
    bench = Bench(path)
    bare = bench.not_complete()
    if bare == bench.text:
        pytest.skip("says nothing is complete")
    before, _ = bench.answers(bench.text)
    after, _ = bench.answers(bare)
    assert unlawful(before, after) == []
    assert before != after
