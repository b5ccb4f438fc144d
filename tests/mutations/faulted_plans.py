"""Single faults put into a clean plan, and what the rules make of each.

Two sorts of faults. Each attribute that the plan states gets other values (`other_values`), up and down a ladder and through all
words of its choice, until a rule that had read it is broken. Each statement is taken out, together with what refers to it, while
the plan still says that it shows everything. What none catches is either lawful, whatever the value, or a hole in the rules: the
command lists it by name, so that an examiner can look at each.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal
from unittest.mock import patch

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.checking import Result, run_rule, run_rules
from planlint.checking import _cover as cover
from planlint.facts.engine import Job, Working
from planlint.faults import Faults
from planlint.language import lines, read_text
from planlint.language.writing import write
from planlint.plan import Element
from planlint.plan.elements import watch
from planlint.plan.graph import Graph
from planlint.plan.wiring_faults import wiring_faults
from planlint.rulebook import compile_rules
from tests.mutations.other_values import other_values

Place = tuple[str, str]  # a statement's name and one of its attributes, or "" for the whole of it
Check = tuple[str, str]  # a rule's name, and the name of the statement that it is held against
End = Literal["not checked", "intended", "another", "no plan", "undecided", "none"]
ENDS: tuple[End, ...] = ("not checked", "intended", "another", "no plan", "undecided", "none")
CAUGHT = ENDS[:2]
FEW_VALUES = 6


@dataclass(frozen=True, slots=True)
class Mutation:
    """One fault: a statement, its attribute and the value put there; or, without an attribute, the statement taken out.

    `lines` are those of every statement of the plan with the fault in it.
    """

    subject: str
    kind: str
    attribute: str
    value: str
    lines: Mapping[str, list[str]]

    @property
    def text(self) -> str:
        """The whole plan with the fault in it."""
        return "\n".join(line for statement in self.lines.values() for line in statement) + "\n"

    @property
    def place(self) -> Place:
        """What it was done to."""
        return self.subject, self.attribute

    def __str__(self) -> str:
        return " ".join(filter(None, (self.kind, f"{self.subject}:", self.attribute, self.value)))


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one fault: how it ended, the checks broken that had read what was altered, others broken, and those opened."""

    mutation: Mutation
    end: End
    intended: frozenset[Check] = frozenset()
    others: frozenset[Check] = frozenset()
    asked: frozenset[Check] = frozenset()


class CleanPlan:
    """A plan without findings under one profile, the rules compiled once, and what each check reads of the plan."""

    def __init__(self, text: str, profile: str) -> None:
        self.code = resolve((profile,))
        self.rules = {rule.name: rule for rule in compile_rules(self.code)}
        self.tables = Tables(self.code.tables_replaced)
        graph = self._graph(text)
        self.elements = graph.elements
        results = list(run_rules(self._job(graph), self.rules.values()))
        self.before = {check_of(result): result.answer for result in results}
        self.open = {check_of(result): _needs(result) for result in results}
        assert not {"broken", "not-checked"} & set(self.before.values()), f"not clean under {profile}"
        self.kind_of = {element.name: element.kind for element in self.elements if element.kind != "plan"}
        self.lines = {element.name: write([element]).splitlines() for element in self.elements}
        self.readers = self._readers(self._graph(text))

    @staticmethod
    def _graph(text: str) -> Graph:
        """The plan's graph. Raises Faults for what is no plan. Lines are parsed once: most are the same in the next fault too."""
        with patch.object(lines, "parse_attributes", _parsed):
            graph = Graph(read_text(text).elements)
        if faults := wiring_faults(graph):
            raise Faults(faults)
        return graph

    def _job(self, graph: Graph) -> Job:
        return Job(graph, self.code, self.tables)

    def _readers(self, graph: Graph) -> defaultdict[Place, set[Check]]:
        """For each attribute of each statement the checks that read it, or its default, or ask for it, whatever they come to."""
        watch(graph.elements)
        job = self._job(graph)
        found: defaultdict[Place, set[Check]] = defaultdict(set)
        for rule in self.rules.values():
            for element in graph.elements:
                if element.kind in rule.rule.record.about:
                    with job.observing(element) as working:
                        applies = rule.when.judge(element, job) if rule.when else None
                        if applies is None or applies.answer != "no":
                            rule.must.judge(element, job)
                    for read in _all_read(working) | self.open[rule.name, element.name]:
                        found[read].add((rule.name, element.name))
        return found

    def mutations(self) -> Iterator[list[Mutation]]:
        """Every attribute with its other values, every statement with the ways to take it out; as lists of one place each."""
        for element in self.elements:
            own = type(element).attributes
            unstated = [name for name in own if name not in element.standing and (element.name, name) in self.readers]
            for attribute in [*element.standing, *unstated]:
                yield list(self.alterations(element, attribute))
            if element.kind != "plan":
                yield list(self.removals(element))

    def alterations(self, element: Element, attribute: str) -> Iterator[Mutation]:
        """The plan with each other value of one attribute."""
        own = self.lines[element.name]
        stated = list(element.standing)
        at = 1 + (stated.index(attribute) if attribute in stated else len(stated))
        written = own[at].split(maxsplit=1)[1] if attribute in stated else ""
        for value in other_values(element, attribute, written, self.kind_of):
            changed = {**self.lines, element.name: [*own[:at], f"  {attribute} {value}", *own[at + 1 :]]}
            yield Mutation(element.name, element.kind, attribute, value, changed)

    def removals(self, element: Element) -> Iterator[Mutation]:
        """The plan without the statement and any word of it; and without the statements that hang on it too."""
        for value, gone in (("left out", {element.name}), ("left out with what hangs on it", self._hanging_on(element))):
            left = {other.name: self._without(other, gone) for other in self.elements if other.name not in gone}
            yield Mutation(element.name, element.kind, "", value, left)

    def _without(self, element: Element, gone: set[str]) -> list[str]:
        """The lines of a statement that names nothing that is gone."""
        head, *own = self.lines[element.name]
        kept = [head]
        for attribute, line in zip(element.standing, own, strict=True):
            if type(element).attributes[attribute].type.kinds:
                left = [value for value in line.split(maxsplit=1)[1].split(", ") if value not in gone]
                line = f"  {attribute} {', '.join(left)}" if left else ""
            kept += [line] if line else []
        return kept

    def _hanging_on(self, element: Element) -> set[str]:
        """The statement, and all that has no place or no feed without it."""
        gone = {element.name}
        while more := {other.name for other in self.elements if other.name not in gone and set(_needed_by(other)) & gone}:
            gone |= more
        return gone

    def judge(self, mutation: Mutation, readers_only: bool = False) -> Outcome:
        """What the rules make of one fault; or only the checks that had read what it alters, in a fifth of the time."""
        try:
            graph = self._graph(mutation.text)
        except Faults:
            return Outcome(mutation, "no plan")
        job, readers = self._job(graph), self.readers_of(mutation)
        results = list(self._run(job, readers) if readers_only else run_rules(job, self.rules.values()))
        cover(results, ())
        after = {check_of(result): result.answer for result in results if not result.covered_by}
        if failed := {check for check, answer in after.items() if answer == "not-checked"}:
            return Outcome(mutation, "not checked", others=frozenset(failed))
        broken = {check for check, answer in after.items() if answer == "broken"}
        asked = {check_of(result) for result in results if _needs(result) and _needs(result) != self.open.get(check_of(result))}
        intended = broken & readers
        end: End = "intended" if intended else "another" if broken else "undecided" if asked else "none"
        return Outcome(mutation, end, frozenset(intended), frozenset(broken - intended), frozenset(asked))

    def _run(self, job: Job, checks: set[Check]) -> Iterator[Result]:
        by_name = {element.name: element for element in job.graph.elements}
        return (run_rule(self.rules[rule], by_name[name], job) for rule, name in sorted(checks) if name in by_name)

    def readers_of(self, mutation: Mutation) -> set[Check]:
        """The checks that read what was altered; of a statement taken out, anything of it."""
        if mutation.attribute:
            return self.readers[mutation.place]
        return {check for (name, _), checks in self.readers.items() if name == mutation.subject for check in checks}

    @property
    def met(self) -> set[str]:
        """The rules that are met somewhere."""
        return {rule for (rule, _), answer in self.before.items() if answer == "met"}

    def rules_reading(self, place: Place) -> set[str]:
        """The rules whose checks had read it and are met."""
        return {check[0] for check in self.readers[place] if self.before[check] == "met"}

    def topic(self, rule: str) -> str:
        """The topic under which the rule stands in the book."""
        return self.rules[rule].rule.record.topic

    def past_its_limit(self, mutations: list[Mutation]) -> Outcome:
        """The first value that a rule which had read it catches, with all that it breaks; if none, the best caught."""
        for mutation in mutations:
            if self.judge(mutation, readers_only=True).end in CAUGHT:
                return self.judge(mutation)
        return _best(self.judge(mutation) for mutation in mutations)

    def with_few_values(self, mutations: list[Mutation]) -> Outcome:
        """The same of the first few values, by the checks that had read it alone; by all rules only where those say nothing."""
        tried = []
        for mutation in mutations[:FEW_VALUES]:
            tried.append(self.judge(mutation, readers_only=True))
            if tried[-1].end in CAUGHT:
                break
        best = _best(tried)
        return self.past_its_limit(mutations) if best.end == "none" else best


def _best(outcomes: Iterable[Outcome]) -> Outcome:
    return min(outcomes, key=lambda outcome: ENDS.index(outcome.end))


_parsed = lru_cache(10_000)(lines.parse_attributes)


def _needed_by(element: Element) -> Iterator[str]:
    """The names of the statements to which this one refers as the only one: its place, its panel, its circuit, its ends."""
    for attribute in element.standing:
        declared = type(element).attributes[attribute]
        if declared.type.kinds and not declared.type.is_list and isinstance(element.value(attribute), Element):
            yield element.value(attribute).name


def _needs(result: Result) -> frozenset[Place]:
    """What an undecided check asks for."""
    needs = result.waiting.needs if result.waiting else ()
    return frozenset((need.subject.name, need.attribute or need.complete or need.note) for need in needs)


def check_of(result: Result) -> Check:
    """The rule and the statement, by their names."""
    return result.rule.name, result.element.name


def _all_read(root: Working) -> set[tuple[str, str]]:
    left, seen, found = [root], set(), set()
    while left:
        working = left.pop()
        if id(working) not in seen:
            seen.add(id(working))
            left += working.uses
            found |= {(element.name, attribute) for element, attribute in working.read.stated + working.read.defaults}
    return found
