"""Every number that a plan implies, with its formula, inputs, tables and clauses: what an inspector follows with a pencil.

A worksheet is made of the same workings that a check's findings rest on. What can't be worked out yet says what it waits for.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any

from planlint.book.in_force import Layer
from planlint.checking import needed, subject_of
from planlint.expressions.template import printed
from planlint.facts import topic_word, topics
from planlint.facts.engine import FACTS, FactSpec, Job, Working
from planlint.plan import Element, NotStated, Service
from planlint.positions import Span
from planlint.quantities import WORKING_FIGURES, Quantity, figured
from planlint.report import Needed, NotChecked, ProfileHead, Subject, WorkingStep

_SURE = "sure-"
# Between what a load lies while it is open how it is worked out, and the load that it is then.
_BOUNDS = {
    "least-load": "calculated-load",
    "most-load": "calculated-load",
    "least-service-load": "service-load",
    "most-service-load": "service-load",
}
_NUMBERS = ("quantity", "number", "wire-size", "trade-size")


@dataclass(frozen=True, slots=True)
class Input:
    """One attribute that a number rests on, as the plan writes it. `taken`: the plan leaves it out, and it counts as this."""

    subject: Subject
    attribute: str
    value: str
    position: Span
    taken: bool = False


@dataclass(frozen=True, slots=True)
class Rest:
    """Another fact that a number rests on, and what that came to; nothing where it waits too."""

    fact: str
    subject: Subject
    value: str


@dataclass(frozen=True, slots=True)
class Figure:
    """A setting of the rule book that a number rests on, with where it stands and the layers that it came through."""

    name: str
    value: str
    source: str
    is_number: bool


@dataclass(frozen=True, slots=True)
class Entry:
    """One fact of one element: what it came to and how. Where `missing` names something, it stops there."""

    fact: str
    about: str
    value: str
    steps: tuple[WorkingStep, ...] = ()
    inputs: tuple[Input, ...] = ()
    rests_on: tuple[Rest, ...] = ()
    figures: tuple[Figure, ...] = ()
    missing: tuple[Needed, ...] = ()


@dataclass(frozen=True, slots=True)
class Part:
    """What was worked out about one element on one topic. `taken` are values that needed no reckoning."""

    subject: Subject
    position: Span
    entries: tuple[Entry, ...]
    taken: tuple[Rest, ...] = ()


@dataclass(frozen=True, slots=True)
class Section:
    """One topic's parts, in the plan's order."""

    topic: str
    parts: tuple[Part, ...]


@dataclass(slots=True)
class Worksheet:
    """All sections of one plan, or those asked for: `of` one statement, on one `topic`.

    `elsewhere`: where there is none of these, the topics on which there is something. `failed`: facts that could not be worked
    out by a fault of planlint.
    """

    plan: str
    path: str
    profile: ProfileHead
    sections: tuple[Section, ...] = ()
    failed: list[NotChecked] = field(default_factory=list)
    of: str = ""
    topic: str = ""
    elsewhere: tuple[str, ...] = ()

    def entries(self) -> Iterator[tuple[Section, Part, Entry]]:
        """Every entry with where it stands."""
        for section in self.sections:
            for part in section.parts:
                for entry in part.entries:
                    yield section, part, entry

    def waiting(self) -> dict[Subject, list[tuple[Needed, list[str]]]]:
        """What the plan leaves out, by element: each thing with the facts that wait for it."""
        found: dict[Subject, dict[tuple[str, str, str], tuple[Needed, list[str]]]] = {}
        for _, part, entry in self.entries():
            for need in entry.missing:
                own = found.setdefault(need.subject, {})
                _, facts = own.setdefault((need.attribute, need.complete, need.note), (need, []))
                facts.append(f"{entry.fact} of {part.subject.name}")
        return {subject: list(needs.values()) for subject, needs in found.items()}


def work_out(job: Job, head: ProfileHead, path: str, of: str = "", topic: str = "") -> Worksheet:
    """The worksheet of a plan whose elements are watched; of one element of it, or on one topic.

    Topic by topic; every fact that gives a number, and every other one that keeps steps.
    """
    sheet = Worksheet(job.graph.plan.name, path, head, of=of, topic=topic)
    wanted = [element for element in job.graph.elements if not of or element.name == of]
    titles = [title for title in topics() if topic in ("", topic_word(title))]
    sheet.sections = tuple(_sections(titles, wanted, job, sheet.failed))
    if not sheet.sections and topic:
        others = [title for title in topics() if title not in titles]
        sheet.elsewhere = tuple(topic_word(section.topic) for section in _sections(others, wanted, job, []))
    return sheet


def _sections(titles: Iterable[str], wanted: Iterable[Element], job: Job, failed: list[NotChecked]) -> Iterator[Section]:
    for title in titles:
        parts = [_part(element, list(_facts(element, topics()[title])), job, failed) for element in wanted]
        if parts := [part for part in parts if part.entries or part.taken]:
            yield Section(title, tuple(parts))


def _facts(element: Element, modules: Iterable[str]) -> Iterator[FactSpec]:
    """The element's facts that these modules declare, in their order; what is sure of a fact, behind the fact itself."""
    for home in modules:
        for (kind, _), spec in FACTS.items():
            if kind == element.kind and spec.function.__module__ == home:
                yield spec


def _part(element: Element, specs: list[FactSpec], job: Job, failed: list[NotChecked]) -> Part:
    entries, taken = [], []
    for spec in specs:
        working = _worked(spec, element, job, failed)
        if working is None or not _belongs(working, job) or _is_told_already(working, job):
            continue
        if working.steps or working.gap is not None:
            entries.append(_entry(working, job))
        else:
            taken.append(Rest(spec.name, subject_of(element), _shown(working.value)))
    return Part(subject_of(element), element.line, tuple(entries), tuple(taken))


def _worked(spec: FactSpec, element: Element, job: Job, failed: list[NotChecked]) -> Working | None:
    with job.observing(element) as root:
        try:
            job.work(spec, element)
        except NotStated:
            pass
        except Exception as fault:  # one fact that fails must not hide the others
            failed.append(NotChecked(spec.name, subject_of(element), element.line, f"{type(fault).__name__}: {fault}"))
            return None
    return root.uses[-1]


def _belongs(working: Working, job: Job) -> bool:
    """Whether it is something to reckon with: a number, or an answer with steps; and the question arises for this element.

    Of the utility's own wires nothing is asked, nor of the ditch of a pipe that lies in none.
    """
    if working.gap is not None:
        arises = any(need.arises and not job.graph.has_none(need.element, need.attribute) for need in working.gap)
        return arises and _gives_a_number(working.spec) and not _is_the_utilitys(working.element)
    return bool(working.steps) or (_gives_a_number(working.spec) and working.value is not None)


def _is_told_already(working: Working, job: Job) -> bool:
    """Whether it is the sure part or a bound of a fact that comes out whole: `sure-ampacity` beside `ampacity`."""
    name = working.spec.name
    whole = FACTS.get((working.element.kind, _BOUNDS.get(name, name.removeprefix(_SURE))))
    if whole is None or whole is working.spec:
        return False
    try:
        job.work(whole, working.element)
    except NotStated:
        return False
    return True


def _sure_part_is_told(working: Working, job: Job) -> bool:
    """Whether what is sure of a fact that can't be worked out yet stands beside it, with the steps."""
    sure = FACTS.get((working.element.kind, _SURE + working.spec.name))
    try:
        return sure is not None and bool(job.work(sure, working.element).steps)
    except NotStated:
        return False


def _is_the_utilitys(element: Element) -> bool:
    return isinstance(element, Service) and element.states("owner") and element.owner == "utility"


def _gives_a_number(spec: FactSpec) -> bool:
    return spec.type.base in _NUMBERS


def _entry(working: Working, job: Job) -> Entry:
    me = subject_of(working.element)
    own = () if working.gap is not None and _sure_part_is_told(working, job) else working.steps
    steps = tuple(WorkingStep(working.spec.name, me, step.text, step.value, step.source) for step in dict.fromkeys(own))
    return Entry(
        working.spec.name,
        " ".join(working.spec.help.split()),
        "" if working.gap is not None else _shown(working.value),
        steps,
        tuple(_inputs(working)),
        tuple(_rests_on(working)),
        tuple(_figures(working, job)),
        tuple(needed(need) for need in working.gap or ()),
    )


def _inputs(working: Working) -> Iterator[Input]:
    """What it read of the plan: values, not the names that lead from one element to another."""
    read = [(element, name, False) for element, name in working.read.stated]
    read += [(element, name, True) for element, name in working.read.defaults]
    seen: set[tuple[int, str]] = set()
    for element, name, taken in read:
        declared = type(element).attributes[name]
        if (id(element), name) in seen or declared.type.kinds:
            continue
        seen.add((id(element), name))
        yield Input(subject_of(element), name, printed(element.value(name)), element.position(name), taken)


def _rests_on(working: Working) -> Iterator[Rest]:
    seen: set[int] = set()
    for used in working.uses:
        if id(used) in seen or not (_gives_a_number(used.spec) or used.steps):
            continue
        seen.add(id(used))
        yield Rest(used.spec.name, subject_of(used.element), "" if used.gap is not None else _shown(used.value))


def _figures(working: Working, job: Job) -> Iterator[Figure]:
    """The settings that it read, but those of a fact that it rests on: they stand there."""
    below = {used.spec.name for used in _all_below(working)}
    for name in dict.fromkeys(working.settings):
        if name.partition(".")[0] in below:
            continue
        setting = job.code.setting(name)
        origin = "; ".join(_origin(layer) for layer in setting.layers)
        yield Figure(name, printed(setting.value), origin, setting.type.base in _NUMBERS)


def _all_below(working: Working) -> Iterator[Working]:
    seen: set[int] = set()
    left = list(working.uses)
    while left:
        used = left.pop()
        if id(used) not in seen:
            seen.add(id(used))
            left.extend(used.uses)
            yield used


def _shown(value: Any) -> str:
    """A value as a working has it."""
    if isinstance(value, Quantity):
        return value.show(WORKING_FIGURES)
    return figured(value, WORKING_FIGURES) if isinstance(value, float) else printed(value)


def _origin(layer: Layer) -> str:
    """Where a layer says so: the model's clause, or the locality's."""
    where = layer.because or layer.profile
    return where if layer.base else f"{layer.text} {layer.profile} line {layer.span.line}: {where}"
