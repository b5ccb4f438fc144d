"""One file of a plan, read line by line into drafts of its statements.

Each line is parsed for itself and its indent compared beside it, so that one fault never hides the next and never causes
another.
"""

import re
from dataclasses import dataclass

from planlint.language.characters import ODD, plain, strange
from planlint.language.collecting import Collector, Known, Names
from planlint.language.grammar import Attribute, Misread, Word, parse_attributes, parse_head
from planlint.language.values import LOST_TO_COMMENT, form, lost_to_comment, state
from planlint.nearest import nearest, proposal
from planlint.plan import KINDS
from planlint.plan.elements import Draft, Element, Standing
from planlint.plan.site import Plan
from planlint.plan.types import TEXT, plain_name, with_article
from planlint.positions import Span
from planlint.quantities import Unreadable

MOST_LINES = 100_000
LONGEST_LINE = 2_000
_FIRST_WORD = re.compile(r'[ \t]*([^ \t,;#"]+)')
_NAME = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_BEFORE_COMMENT = re.compile(r'(?:[^"#]|(?<=[0-9])"(?=[ \t,;#]|$)|"[^"]*(?:"|$))*')
_PIECE = re.compile(r'(?:[^";]|(?<=[0-9])"(?=[ \t,;#]|$)|"[^"]*(?:"|$))+')
_RESERVED = ("none", "unknown")


@dataclass(frozen=True, slots=True)
class Include:
    """A line that takes in another file: the path as written, and where it stands."""

    path: str
    span: Span


class FileReader:
    """Reads one file. `items` are its drafts and includes in the order of the text."""

    def __init__(self, file: str, collector: Collector, names: Names, *, included: bool = False, example: bool = False) -> None:
        self.items: list[Draft | Include] = []
        self._file = file
        self._collector = collector
        self._names = names
        self._included = included
        self._example = example
        self._number = 0
        self._draft: Draft | None = None  # the statement that the indented lines belong to
        self._above = "nothing"  # or "statement"; "lost": its kind can't be read; "include"
        self._indent: str | None = None

    def read(self, text: str, whole: bool = True) -> None:
        """Read the text of the file. Where it isn't `whole`, a line with U+FFFD had bytes at fault, and no more is said of it."""
        lines = text.split("\n")
        for self._number, line in enumerate(lines[:MOST_LINES], 1):
            self._collector.quiet = not whole and "\ufffd" in line
            self._read_line(line[:-1] if line.endswith("\r") else line)
        self._collector.quiet = False
        if len(lines) > MOST_LINES:
            self._number += 1
            self._say(0, 1, f"A plan's file has at most {MOST_LINES} lines")
            self._names.lost.add("any")
        if self._example and self._names.plan is None:
            self.items.insert(0, Draft(Plan, "example", Span.of(self._file, 1, 1, 0)))

    def _say(self, start: int, end: int, message: str) -> None:
        self._collector.add(Span.of(self._file, self._number, start + 1, end - start), message)

    def _read_line(self, line: str) -> None:
        if len(line) > LONGEST_LINE:
            self._say(LONGEST_LINE, len(line), f"A line has at most {LONGEST_LINE} characters")
            self._names.lost.add("any")
            return
        if ODD.search(line):
            for start, end, message in (faults := strange(line)):
                self._say(start, end, message)
            if faults or self._collector.quiet:
                self._collector.quiet = True
                line = plain(line)
        bare = line.strip(" \t")
        if bare and bare[0] != "#":
            if line[0] in " \t":
                self._indented(line, bare)
            else:
                self._margin(line)

    # ---- lines at the margin

    def _margin(self, line: str) -> None:
        first = _FIRST_WORD.match(line)
        word = first[1] if first else ""
        if self._example and self._above == "nothing" and word == "complete":
            self._begin(Draft(Plan, "example", Span.of(self._file, self._number, 1, len(word))))
            self._attributes(line)
        elif word in KINDS or word == "include" or not word:
            self._head(line, word)
        else:
            self._no_kind(line, word)

    def _head(self, line: str, word: str) -> None:
        try:
            kind, name = parse_head(line)
        except Misread as fault:
            if self._draft and word in self._draft.cls.attributes and fault.met in ",;":
                self._missing_indent(line, word)
                return
            comment = "; what follows '#' is a comment" if lost_to_comment(line, fault.end) else ""
            self._say(fault.start, fault.end, fault.message + comment)
            self._lose(line, word)
            return
        if word == "include":
            self._begin_include(name)
        elif word == "plan":
            self._begin_plan(kind, name)
        else:
            self._begin_statement(KINDS[word], kind, name)

    def _begin(self, draft: Draft) -> None:
        self._draft, self._above, self._indent = draft, "statement", None
        self.items.append(draft)
        if draft.cls is Plan:
            if self._included:
                self._collector.add(
                    draft.line, "An included file has no plan statement: it is a part of the plan that includes it"
                )
            elif self._names.plan:
                first = _where(self._names.plan, self._file)
                self._collector.add(draft.line, f"A plan has one plan statement; the first stands in {first}")
            self._names.plan = self._names.plan or draft.line

    def _begin_include(self, file: Word) -> None:
        self._draft, self._above, self._indent = None, "include", None
        try:
            path = TEXT.read_one(file.text)
        except Unreadable as fault:
            self._say(file.start, file.end, fault.met)
            self._names.lost.add("any")
            return
        if self._collector.quiet:
            self._names.lost.add("any")
            return
        self.items.append(Include(path, Span.of(self._file, self._number, file.start + 1, len(file.text))))

    def _begin_plan(self, kind: Word, title: Word) -> None:
        name = title.text[1:-1]
        self._begin(Draft(Plan, name, Span.of(self._file, self._number, kind.start + 1, title.end - kind.start)))
        try:
            TEXT.read_one(title.text)
        except Unreadable as fault:
            self._say(title.start, title.end, fault.met)

    def _begin_statement(self, cls: type[Element], kind: Word, name: Word) -> None:
        span = Span.of(self._file, self._number, name.start + 1, len(name.text))
        above = self._draft.cls if self._draft else None
        remark = ""
        if above and cls.kind in above.attributes:
            remark = (
                f". If {cls.kind} in line {self._number} is meant as an attribute of the {above.kind} above it, indent that line"
            )
        known = Known(cls.kind, span, remark, guess=self._collector.quiet)
        first = self._names.give(name.text, known)
        if first:
            where = _where(first.span, self._file)
            what = f"as {with_article(first.kind)} in {where}{remark or first.remark}"
            self._say(name.start, name.end, f"The name '{name.text}' is used already, {what}")
        if name.text in _RESERVED:
            self._say(name.start, name.end, f"'{name.text}' has a meaning of its own and can't be a name")
        elif not _NAME.fullmatch(name.text):
            right = plain_name(name.text)
            self._names.give(right, Known(cls.kind, span, guess=True))
            like = f", like {right}" if right else ""
            self._say(name.start, name.end, f"'{name.text}' is no name: a name is lower-case letters, digits and hyphens{like}")
        self._begin(Draft(cls, name.text, Span.of(self._file, self._number, kind.start + 1, name.end - kind.start)))

    def _lose(self, line: str, word: str) -> None:
        """A statement whose line can't be read: keep the names that it may have, so that no reference to it is called wrong."""
        cls = KINDS.get(word.lower())
        words = re.findall(r'[^ \t,;"]+', _before_comment(line))
        names = [name for name in map(plain_name, words[1 if word else 0 :]) if name]
        span = Span.of(self._file, self._number, 1, len(line))
        for name in ("-".join(names), *names[:1], *words[1:2], *([] if cls else [word])) if names else ():
            self._names.give(name, Known(cls.kind if cls else "", span, guess=True))
        if not names or word == "include":
            self._names.lost.add(cls.kind if cls else "any")
        if cls is None or cls is Plan:
            self._names.unclear = True
        self._draft, self._above, self._indent = None, "lost", None
        if cls and cls is not Plan:
            self._draft, self._above = Draft(cls, "", span), "statement"

    def _no_kind(self, line: str, word: str) -> None:
        own = self._draft.cls.attributes if self._draft else {}
        if word in own:
            self._missing_indent(line, word)
            return
        owners = [cls.kind for cls in KINDS.values() if word in cls.attributes]
        meant = nearest(word, [*KINDS, "include", *own])
        second = _FIRST_WORD.match(line, len(word))
        if owners:
            message = f"'{word}' is an attribute, not a kind of statement: indent it below {with_article(*owners[:3])}"
        elif second and second[1] in KINDS:
            message = f"The kind comes first: {second[1]} {word}"
        elif meant in own:
            message = f"'{word}' is no kind of statement. Did you mean the attribute '{meant}', indented?"
        elif meant:
            message = f"'{word}' is no kind of statement. Did you mean '{meant}'?"
        else:
            message = f"'{word}' is no kind of statement; the kinds are {', '.join(KINDS)}"
        self._say(0, len(word), message)
        self._lose(line, word)

    def _missing_indent(self, line: str, word: str) -> None:
        assert self._draft is not None
        self._say(0, len(word), f"'{word}' is an attribute of the {self._draft.cls.kind} above: indent this line")
        self._attributes(line)

    # ---- indented lines

    def _indented(self, line: str, bare: str) -> None:
        indent = line[: len(line) - len(line.lstrip(" \t"))]
        first = _FIRST_WORD.match(line)
        word = first[1] if first else ""
        if (word in KINDS or word == "include") and not (self._draft and word in self._draft.cls.attributes):
            above = f"is no attribute of {with_article(self._draft.cls.kind)}, and " if self._draft else ""
            self._say(0, len(indent) + len(word), f"'{word}' {above}begins a statement, which stands at the left margin")
            self._head(line, word)
            return
        if "\t" in indent:
            self._say(0, len(indent), "A tab stands in the indent; indent with spaces")
        elif self._indent is None:
            self._indent = indent
        elif indent != self._indent:
            spaces = len(self._indent)
            self._say(0, len(indent), f"This line is indented by {len(indent)}, the lines of its statement above by {spaces}")
        if self._above == "nothing":
            self._say(len(indent), len(line), "This line is indented, but no statement stands above it")
            self._above = "lost"
        elif self._above == "include":
            self._say(len(indent), len(line), "An include has no attributes")
            self._above = "lost"
        self._attributes(line)

    def _attributes(self, line: str) -> None:
        try:
            attributes = parse_attributes(line)
        except Misread as fault:
            self._misread(fault, line)
            attributes = self._readable(fault, line)
        for attribute in attributes:
            self._attribute(attribute, line)

    def _misread(self, fault: Misread, line: str) -> None:
        message = fault.message
        word = fault.before if fault.met in ",;" else fault.met
        if self._draft and word in self._draft.cls.attributes and message.endswith("has no value"):
            lost = lost_to_comment(line, fault.end)
            message = f"{LOST_TO_COMMENT if lost else message}; {form(self._draft.cls.attributes[word])}"
        self._say(fault.start, fault.end, message)

    def _readable(self, fault: Misread, line: str) -> list[Attribute]:
        """What can be read of a line with a fault: each attribute tried alone, the faults of the later ones told too."""
        found: list[Attribute] = []
        for piece in _PIECE.finditer(_before_comment(line)):
            if not piece[0].strip(" \t"):
                continue
            try:
                found += parse_attributes(" " * piece.start() + piece[0])
            except Misread as other:
                if other.start >= fault.end:
                    self._misread(other, line)
        return found

    def _attribute(self, attribute: Attribute, line: str) -> None:
        draft, name = self._draft, attribute.name
        if draft is None:
            return
        if name.text not in draft.cls.attributes:
            self._say(name.start, name.end, _no_attribute(name.text, draft.cls))
        elif name.text in draft.standing:
            first = draft.standing[name.text].name
            self._say(
                name.start,
                name.end,
                f"'{name.text}' is given twice; it stands in line {first.line}, column {first.column} already",
            )
        else:
            draft.standing[name.text] = Standing(self._span(name), tuple(map(self._span, attribute.values)))
            state(draft, attribute, line, self._say)

    def _span(self, word: Word) -> Span:
        return Span.of(self._file, self._number, word.start + 1, len(word.text))


def _before_comment(line: str) -> str:
    found = _BEFORE_COMMENT.match(line)
    return found[0] if found else ""


def _where(span: Span, file: str) -> str:
    return f"line {span.line}" if span.file == file else f"{span.file}, line {span.line}"


def _no_attribute(word: str, cls: type[Element]) -> str:
    kind = with_article(cls.kind)
    owners = [other.kind for other in KINDS.values() if word in other.attributes]
    if owners:
        return f"'{word}' is no attribute of {kind}; it is one of {with_article(*owners)}"
    near = proposal(word, cls.attributes)
    if near:
        return f"'{word}' is no attribute of {kind}.{near}"
    first = [name for name, stated in cls.attributes.items() if stated.first]
    return f"'{word}' is no attribute of {kind}; those that matter most are {', '.join(first)}"
