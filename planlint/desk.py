"""The examiner's desk: opens a plan, lays the book beside it, gives report or worksheet. Command line and Python share it."""

import os
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from planlint.book import Code, resolve
from planlint.book.tables import Tables
from planlint.checking import check_plan
from planlint.facts import installed_facts
from planlint.facts.engine import Job
from planlint.faults import Fault, Faults
from planlint.language import Reading, read_plan, read_text
from planlint.nearest import proposal
from planlint.permissions import OWN_RULES
from planlint.plan import Plan
from planlint.plan.elements import watch
from planlint.plan.graph import Graph
from planlint.plan.wiring_faults import wiring_faults
from planlint.report import ProfileHead, Report
from planlint.rulebook import CompiledRule, compile_rules

if TYPE_CHECKING:
    from planlint.papers.docket import Docket
    from planlint.workings import Worksheet


class NoSuchName(LookupError):
    """A worksheet was asked for of a statement that the plan doesn't have; with the nearest name."""


class Desk:
    """Holds plans against their profiles. Books are opened once and kept for the plans that follow.

    `profile` names win over what a plan says; `folders` are searched for profiles beside the plan's own and planlint's.
    """

    def __init__(self, profile: Sequence[str] = (), folders: Iterable[Path] = ()) -> None:
        self._profile = tuple(profile)
        self._folders = tuple(folders)
        self._books: dict[tuple[tuple[str, ...], Path | None], tuple[Code, list[CompiledRule], Tables]] = {}

    def known_rules(self) -> set[str]:
        """Every rule of the model code and of the books opened so far."""
        books = [resolve(("model-2023",)), *(code for code, _, _ in self._books.values())]
        return {*OWN_RULES, *(name for code in books for name in code.known_rules)}

    def code(self) -> Code:
        """The code under the profiles that the desk was given, its rules compiled. Raises planlint.faults.Faults."""
        code = resolve(self._profile, folders=self._folders)
        compile_rules(code)
        return code

    def check_file(self, path: str | os.PathLike[str]) -> Report:
        """Check a plan's file.

        Raises planlint.faults.Faults for a plan, profile or rule that can't be read in full, and
        planlint.language.Unopened for a file that can't be opened or isn't a text.
        """
        reading = read_plan(path)
        return self.check_reading(reading, Path(path).resolve().parent / "profiles")

    def check_text(self, text: str) -> Report:
        """Check a plan given as text. Raises planlint.faults.Faults."""
        return self.check_reading(read_text(text), None)

    def check_reading(self, reading: Reading, beside: Path | None) -> Report:
        """Check a plan that is read already."""
        graph = _graph(reading)
        code, rules, tables, head = self._opened(graph.plan, beside)
        return check_plan(graph, code, rules, tables, head, _path(reading))

    def worksheet_file(self, path: str | os.PathLike[str], of: str = "", topic: str = "") -> "Worksheet":
        """The worksheet of a plan's file; of its one element of that name, or on one topic. Raises as check_file does."""
        return self.worksheet_reading(read_plan(path), Path(path).resolve().parent / "profiles", of, topic)

    def worksheet_text(self, text: str, of: str = "", topic: str = "") -> "Worksheet":
        """The worksheet of a plan given as text. Raises planlint.faults.Faults."""
        return self.worksheet_reading(read_text(text), None, of, topic)

    def worksheet_reading(self, reading: Reading, beside: Path | None, of: str, topic: str) -> "Worksheet":
        """The worksheet of a plan that was just read: its elements are watched from then on. Raises NoSuchName too."""
        from planlint.workings import work_out

        graph = _graph(reading)
        if of and of not in (names := [element.name for element in graph.elements]):
            raise NoSuchName(f"no statement of {graph.plan.name} has the name '{of}'.{proposal(of, names)}")
        code, _, tables, head = self._opened(graph.plan, beside)
        watch(graph.elements)
        return work_out(Job(graph, code, tables), head, _path(reading), of, topic)

    def docket_file(self, path: str | os.PathLike[str]) -> "Docket":
        """A plan's file with everything known of it, to make papers from. Raises as check_file does."""
        return self.docket_reading(read_plan(path), Path(path).resolve().parent / "profiles")

    def docket_text(self, text: str) -> "Docket":
        """The docket of a plan given as text. Raises planlint.faults.Faults."""
        return self.docket_reading(read_text(text), None)

    def docket_reading(self, reading: Reading, beside: Path | None) -> "Docket":
        """The docket of a plan that is read already."""
        from planlint.papers.docket import Docket

        graph = _graph(reading)
        code, rules, tables, head = self._opened(graph.plan, beside)
        report = check_plan(graph, code, rules, tables, head, _path(reading))
        return Docket(Job(graph, code, tables), {rule.name: rule for rule in rules}, report)

    def _opened(self, plan: Plan, beside: Path | None) -> tuple[Code, list[CompiledRule], Tables, ProfileHead]:
        names, said = self._names(plan)
        code, rules, tables = self._book(names, beside, plan)
        notes = [_at_the_plan(note, names, plan) for note in code.notes]
        notes.extend(_before_their_day(code, plan))
        return code, rules, tables, _head(code, said, tuple(notes))

    def _names(self, plan: Plan) -> tuple[tuple[str, ...], str]:
        """The profiles that the plan is held against, and a word on who chose them where it wasn't the plan."""
        if self._profile:
            stated = ", ".join(plan.profile) if plan.states("profile") else ""
            said = f"held against {', '.join(self._profile)} as asked" + (f"; the plan says {stated}" if stated else "")
            return self._profile, said
        if plan.states("profile"):
            return plan.profile, ""
        if plan.states("edition"):
            return (f"model-{plan.edition}",), ""
        editions = " or ".join(type(plan).attributes["edition"].type.words)
        message = (
            f"The plan says neither 'profile' nor 'edition'; say which book it is held against: edition {editions}, or a profile."
        )
        raise Faults([Fault(plan.line, message)])

    def _book(self, names: tuple[str, ...], beside: Path | None, plan: Plan) -> tuple[Code, list[CompiledRule], Tables]:
        key = (names, beside)
        if key not in self._books:
            try:
                code = resolve(names, beside=beside, folders=self._folders)
            except Faults as found:
                if self._profile:
                    raise  # the plan doesn't say these names
                raise Faults(_at_the_plan(fault, names, plan) for fault in found.faults) from None
            self._books[key] = (code, compile_rules(code), Tables(code.tables_replaced))
        return self._books[key]


def _graph(reading: Reading) -> Graph:
    """The plan's graph. Raises Faults for what no wiring can be."""
    graph = Graph(reading.elements)
    faults = wiring_faults(graph)
    if faults:
        raise Faults(faults)
    return graph


def _path(reading: Reading) -> str:
    return reading.files[0] if reading.files else ""


def _at_the_plan(fault: Fault, names: tuple[str, ...], plan: Plan) -> Fault:
    """What is wrong with a profile's name, or out of date, is of no file: it stands where the plan says the name."""
    if fault.span.file or not plan.states("profile"):
        return fault if fault.span.file else replace(fault, span=plan.line)
    spans = plan.standing["profile"].values
    at = next((span for name, span in zip(plan.profile, spans, strict=True) if f"'{name}'" in fault.message), spans[0])
    return replace(fault, span=at)


def _before_their_day(code: Code, plan: Plan) -> Iterator[Fault]:
    """The profiles that weren't in force yet on the day that the plan stands for."""
    for one in code.profiles if plan.states("date") else ():
        if one.in_force_from and plan.date < one.in_force_from:
            message = f"the plan stands for {plan.date}, and '{one.name}' is in force from {one.in_force_from} on only"
            yield Fault(plan.position("date"), message)


def _head(code: Code, said: str, notes: tuple[Fault, ...]) -> ProfileHead:
    return ProfileHead(
        tuple(code.names),
        code.title,
        code.edition,
        code.changes_count,
        said,
        code.confirm_with.text,
        (*code.files, *(offer.called for offer in installed_facts())),
        notes,
        code.preview,
    )


def check(
    plan: str | os.PathLike[str], profile: str | Sequence[str] = (), profiles: Iterable[str | os.PathLike[str]] = ()
) -> Report:
    """Check one plan and return its report. Pure: nothing is written, and the same input gives the same report.

    `plan` is the text of a plan (any string with a line break) or the path of its file. `profile` names the rule books it is
    held against, over what the plan says; `profiles` are folders to search for them.

    Raises planlint.faults.Faults where the plan, a profile or a rule can't be read in full, with every place; and
    planlint.language.Unopened for a file that can't be opened.
    """
    desk = _desk(profile, profiles)
    if isinstance(plan, str) and "\n" in plan:
        return desk.check_text(plan)
    return desk.check_file(plan)


def worksheet(
    plan: str | os.PathLike[str],
    profile: str | Sequence[str] = (),
    profiles: Iterable[str | os.PathLike[str]] = (),
    of: str = "",
    topic: str = "",
) -> "Worksheet":
    """Every number that a plan implies, with its working: of all, of the element named, on a topic such as `voltage-drop`.

    Takes a plan as `check` does, and raises as it does; and planlint.desk.NoSuchName.
    """
    desk = _desk(profile, profiles)
    if isinstance(plan, str) and "\n" in plan:
        return desk.worksheet_text(plan, of, topic)
    return desk.worksheet_file(plan, of, topic)


def _desk(profile: str | Sequence[str], profiles: Iterable[str | os.PathLike[str]]) -> Desk:
    names = (profile,) if isinstance(profile, str) else tuple(profile)
    return Desk(names, (Path(folder) for folder in profiles))
