"""What came out of a check: findings, what stays open, what was granted, covered or not checked. No behaviour, only records."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from planlint.book.records import INSPECTIONS, SEVERITIES, Severity
from planlint.faults import Fault
from planlint.positions import Span

__all__ = [
    "INSPECTIONS", "SEVERITIES", "Covered", "Finding", "Granted", "Needed", "NotChecked", "OpenCheck", "ProfileHead", "Related",
    "Report", "Severity", "Subject", "WorkingStep",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Subject:
    """The element that a result is about."""

    kind: str
    name: str

    def __str__(self) -> str:
        return self.name


@dataclass(frozen=True, slots=True)
class WorkingStep:
    """One line of a working: of which fact and element, what was reckoned, what came out, and where it stands in the book."""

    fact: str
    subject: Subject
    text: str
    value: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Related:
    """Another element that a finding rests on, its place, and what was read or worked out there: `cover of studio-trench`."""

    subject: Subject
    position: Span
    text: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One rule broken by one element, at its place, with what to do about it and whom to ask.

    `clause` has one line for each layer that the rule rests on, the local one first. `layers` says through which profiles a
    figure or a severity came. `assumed` names the attributes that were taken as their default.
    """

    rule: str
    severity: Severity
    subject: Subject
    position: Span
    attribute: str
    message: str
    remedy: str
    clause: tuple[str, ...]
    inspection: str
    hazard: str
    confirm: str
    working: tuple[WorkingStep, ...] = ()
    related: tuple[Related, ...] = ()
    layers: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Needed:
    """What a plan would have to state: an attribute of an element, or that a topic is complete; `note` says more.

    `at`: the name of the place or panel that the element is at, if the plan says it.
    """

    subject: Subject
    attribute: str
    position: Span
    complete: str = ""
    note: str = ""
    at: str = ""

    @property
    def question(self) -> tuple[str, ...]:
        """What is asked: the same of several elements of one kind at one place is one question."""
        if self.complete:
            return ("complete", self.complete)
        return (self.subject.kind, self.at, self.position.file, self.note or self.attribute)


@dataclass(frozen=True, slots=True)
class OpenCheck:
    """One rule that could not be decided on one element. `half_broken`: one side of an "or" is broken already.

    `whether`: those of the needs on which it hangs whether the rule applies at all; the others may not matter then.
    """

    rule: str
    severity: Severity
    subject: Subject
    position: Span
    inspection: str
    needs: tuple[Needed, ...]
    half_broken: bool
    confirm: str
    whether: tuple[Needed, ...] = ()


@dataclass(frozen=True, slots=True)
class Granted:
    """A finding that the authority allows in writing."""

    finding: Finding
    permission: str
    granted_by: str
    reference: str
    until: str


@dataclass(frozen=True, slots=True)
class Covered:
    """A result that another finding on the same element speaks for."""

    rule: str
    subject: Subject
    by: str


@dataclass(frozen=True, slots=True)
class NotChecked:
    """A rule that failed on an element by a fault of planlint: never a pass."""

    rule: str
    subject: Subject
    position: Span
    message: str


@dataclass(frozen=True, slots=True)
class ProfileHead:
    """The code that the plan was held against: title, edition, how many local changes, and every file that took part.

    `notes`: what works there but should be written otherwise, such as a rule's former name. `preview`: what it holds of a coming
    edition, where it previews one.
    """

    names: tuple[str, ...]
    title: str
    edition: int
    changes: int
    chosen_by: str
    confirm: str
    files: tuple[str, ...]
    notes: tuple[Fault, ...] = ()
    preview: str = ""


@dataclass(slots=True)
class Report:
    """Everything that one plan's check came to, in the order it is shown."""

    plan: str
    path: str
    profile: ProfileHead
    passed: tuple[str, ...] = ()
    findings: list[Finding] = field(default_factory=list)
    open_checks: list[OpenCheck] = field(default_factory=list)
    checklist: list[OpenCheck] = field(default_factory=list)
    granted: list[Granted] = field(default_factory=list)
    covered: list[Covered] = field(default_factory=list)
    not_checked: list[NotChecked] = field(default_factory=list)
    unmentioned: list[str] = field(default_factory=list)
    met: list[tuple[str, Subject]] = field(default_factory=list)
    not_applicable: int = 0

    def of(self, severity: Severity) -> Iterator[Finding]:
        """The findings of one severity."""
        return (finding for finding in self.findings if finding.severity == severity)

    def numbered(self) -> list[list[Finding]]:
        """The findings as they are shown and numbered, from 1: those of one rule at one position are one, with all names."""
        groups: dict[tuple[object, ...], list[Finding]] = {}
        for finding in self.findings:
            groups.setdefault((finding.rule, finding.position), []).append(finding)
        return list(groups.values())

    def counts(self) -> dict[str, int]:
        """How many of each, for every output. Open questions are counted once for all alike at one place, the rest by check."""
        count = {
            f"{severity}s" if severity != "advice" else "advice": sum(1 for _ in self.of(severity)) for severity in SEVERITIES
        }
        return count | {
            "open_questions": len({need.question for check in self.open_checks for need in check.needs}),
            "undecided": len(self.open_checks),
            "checklist": len(self.checklist),
            "met": len(self.met),
            "not_applicable": self.not_applicable,
            "granted": len(self.granted),
            "covered": len(self.covered),
            "not_checked": len(self.not_checked),
        }

    def is_clean(self, stop_at: Severity = "correction", settled: bool = False) -> bool:
        """Whether nothing at or above that severity is broken (with `settled`: nor undecided) and everything could be checked."""
        counted = SEVERITIES[: SEVERITIES.index(stop_at) + 1]
        broken = any(finding.severity in counted for finding in self.findings)
        waiting = settled and any(check.severity in counted for check in self.open_checks)
        return not (broken or waiting or self.not_checked)
