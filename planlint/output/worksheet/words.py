"""The words of a worksheet, shared by terminal and Markdown: what a number rests on and what it waits for."""

from collections.abc import Iterator

from planlint.output.book_words import book_words
from planlint.report import Needed, WorkingStep
from planlint.workings import Entry, Input, Part, Rest, Section, Worksheet

ROUNDING = "Numbers are carried on unrounded and printed to four figures, whole ones in full; where the code rounds, it is said."


def book_line(sheet: Worksheet) -> str:
    """The rule book that the plan was held against, and whom to confirm things with."""
    profile = sheet.profile
    chosen = f"; {profile.chosen_by}" if profile.chosen_by else ""
    return f"{book_words(profile)}{chosen}. Confirm with: {profile.confirm}"


def nothing_line(sheet: Worksheet) -> str:
    """Where what was asked for has no number: that there is none, and where there are some."""
    of, on = f"of {sheet.of} " if sheet.of else "", f"on {sheet.topic} " if sheet.topic else ""
    there = f" There are numbers {of}on {', '.join(sheet.elsewhere)}." if sheet.elsewhere else ""
    return f"There is no number {of}{on}in this plan.{there}"


def place(part: Part, sheet: Worksheet) -> str:
    """Where an element stands: the line, and the file where it isn't the plan's own."""
    line = f"line {part.position.line}"
    return line if part.position.file == sheet.path else f"{part.position.file}, {line}"


def taken_line(part: Part) -> str:
    """The values that needed no reckoning."""
    return "; ".join(f"{rest.fact} {rest.value}" for rest in part.taken)


def worked(part: Part) -> list[Entry]:
    """The entries that came out, or that got as far as a step."""
    return [entry for entry in part.entries if entry.value or entry.steps]


def not_begun(part: Part) -> Iterator[tuple[str, str]]:
    """What couldn't be begun, together by what it waits for: what is asked, and the numbers that wait."""
    groups: dict[str, list[str]] = {}
    for entry in part.entries:
        if not (entry.value or entry.steps):
            groups.setdefault("; ".join(map(asked, entry.missing)), []).append(entry.fact)
    for needs, facts in groups.items():
        yield needs, ", ".join(facts)


def about(entry: Entry) -> str:
    """What the number is, in the first sentence of its help."""
    return entry.about.partition(". ")[0].rstrip(".") + "."


def notes(entry: Entry) -> Iterator[tuple[str, str]]:
    """What a number waits for and rests on: a heading and its words each."""
    if entry.missing:
        yield "Waits for", "; ".join(map(asked, entry.missing))
    stated = [one for one in entry.inputs if not one.taken]
    if stated:
        yield "Stated", "; ".join(_by_element(stated))
    taken = [one for one in entry.inputs if one.taken]
    if taken:
        yield "Not stated, taken as usual", "; ".join(_by_value(taken))
    if entry.rests_on:
        yield "Worked before", "; ".join(map(_worked_before, entry.rests_on))
    figures = [f"{one.name} {one.value} ({one.source})" for one in entry.figures if one.is_number]
    if figures:
        yield "Rule book", "; ".join(figures)


def _by_element(inputs: list[Input]) -> Iterator[str]:
    """`range: rating 9.6 kW, volts 240 V (line 295)`."""
    groups: dict[tuple[str, str, int], list[Input]] = {}
    for one in inputs:
        groups.setdefault((one.subject.name, one.position.file, one.position.line), []).append(one)
    for (name, _, line), own in groups.items():
        yield f"{name}: {', '.join(f'{one.attribute} {one.value}' for one in own)} (line {line})"


def _by_value(inputs: list[Input]) -> Iterator[str]:
    """`planned no: range, dryer`."""
    groups: dict[tuple[str, str], list[str]] = {}
    for one in inputs:
        groups.setdefault((one.attribute, one.value), []).append(one.subject.name)
    for (attribute, value), names in groups.items():
        yield f"{attribute} {value}: {', '.join(names)}"


def _worked_before(rest: Rest) -> str:
    return f"{rest.fact} of {rest.subject.name} {rest.value or 'not yet'}"


def asked(need: Needed) -> str:
    """What the plan would have to state."""
    if need.complete:
        return f"complete {need.complete}, once all of it is shown"
    return need.note or f"{need.attribute} of {need.subject.name} (line {need.position.line})"


def waiting(sheet: Worksheet) -> Iterator[tuple[str, str, str]]:
    """What the plan leaves out: the element, what of it, and how many numbers wait for that; those most waited for first."""
    found = [(subject, need, facts) for subject, needs in sheet.waiting().items() for need, facts in needs]
    for subject, need, facts in sorted(found, key=lambda one: (-len(one[2]), one[1].position, one[1].attribute)):
        what = f"complete {need.complete} (once all of it is shown)" if need.complete else need.note or need.attribute
        yield f"{subject.name}, line {need.position.line}", what, numbers(facts)


def numbers(facts: list[str]) -> str:
    """How many numbers wait."""
    return "1 number waits" if len(facts) == 1 else f"{len(facts)} numbers wait"


def by_fact(section: Section) -> list[tuple[str, str, list[tuple[str, Entry]]]]:
    """A topic's numbers by what they are instead of by element: the fact, what it is, and what it came to for each element."""
    found: dict[str, list[tuple[str, Entry]]] = {}
    for part in section.parts:
        for entry in worked(part):
            found.setdefault(entry.fact, []).append((part.subject.name, entry))
    return [(fact, about(rows[0][1]), rows) for fact, rows in found.items()]


def steps_line(entry: Entry) -> str:
    """The working of one number in a line: each step with what comes out and where it stands."""
    return "; ".join(_step(step) for step in entry.steps)


def _step(step: WorkingStep) -> str:
    result = f" = {step.value}" if step.value and step.value != step.text else ""
    return step.text + result + (f" ({step.source})" if step.source else "")
