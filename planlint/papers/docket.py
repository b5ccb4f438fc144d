"""The docket: a plan with everything that is known of it, which all its papers are made from.

What a plan leaves out is never guessed on a paper: it stands there as `Unknown`, with what would have to be stated.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from planlint.checking import needed, subject_of
from planlint.facts.engine import Job
from planlint.plan import Element, NotStated
from planlint.plan.elements import watch
from planlint.plan.graph import Graph
from planlint.report import Needed, NotChecked, ProfileHead, Report, Subject
from planlint.rulebook import CompiledRule
from planlint.workings import Worksheet, work_out

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Unknown:
    """In the place of a value that can't be told yet: what the plan would have to state.

    `arises`: whether the question makes sense for this element at all; where it doesn't, a paper shows nothing.
    """

    needs: tuple[Needed, ...]
    arises: bool = True

    def __str__(self) -> str:
        return "not stated"


@dataclass(slots=True)
class Docket:
    """One plan under one code: its job (graph, facts, tables, settings), the rules in force by name, the report of its check.

    `failed`: what could not be worked out by a fault of planlint; a paper that has one is not complete.
    """

    job: Job
    rules: Mapping[str, CompiledRule]
    report: Report
    failed: list[NotChecked] = field(default_factory=list)

    @property
    def graph(self) -> Graph:
        """The plan's elements."""
        return self.job.graph

    @property
    def head(self) -> ProfileHead:
        """The code that the plan is held against."""
        return self.report.profile

    def worksheet(self) -> Worksheet:
        """Every number of the plan with its working. The plan's elements are watched from then on, which makes reading slower."""
        watch(self.graph.elements)
        return work_out(Job(self.graph, self.job.code, self.job.tables), self.head, self.report.path)

    def element(self, subject: Subject) -> Element:
        """The element that a result is about."""
        return self.graph.one(subject.name) if subject.kind != "plan" else self.graph.plan

    def ask(self, element: Element, question: Callable[[], T]) -> T | Unknown:
        """What a question about an element comes to; `Unknown` where it waits for what the plan leaves out.

        A question that fails by a fault of planlint is unknown too, and noted in `failed`: the rest of the paper goes on.
        """
        try:
            return question()
        except NotStated as gap:
            return Unknown(tuple(needed(need) for need in gap.needs), any(need.arises for need in gap.needs))
        except Exception as fault:  # one value that fails must not hide the others
            message = f"{type(fault).__name__}: {fault}"
            self.failed.append(NotChecked("paper", subject_of(element), element.line, message))
            return Unknown(())

    def stated(self, element: Element, attribute: str) -> object:
        """An attribute's value, its default, or `Unknown`."""
        return self.ask(element, lambda: element.value(attribute))
