"""The grammar of one line, and the one place that knows Lark.

A plan is read line by line: a line at the left margin is a `head`, an indented one holds `attributes`. The grammar knows
words, text in quotes, comma and semicolon, and nothing of numbers, units or kinds: only the attribute's type can tell
whether `4/0` is a wire size or half a thought. So all words of a value are one terminal, which saves Lark a fifth of its time.
"""

import re
from functools import cache
from typing import Any, NamedTuple

from planlint.language.syntax_errors import EXAMPLES

_GRAMMAR = r"""
head: PLAN TEXT | INCLUDE TEXT | WORD WORD
attributes: attribute (";" attribute)*
attribute: WORD value ("," value)*
?value: WORDS | TEXT

PLAN: "plan"
INCLUDE: "include"
WORD: /[^ \t,;#"]+/
WORDS: /(?:[^ \t,;#"]|(?<=[0-9])"(?=[ \t,;#]|$))+(?:[ \t]+(?:[^ \t,;#"]|(?<=[0-9])"(?=[ \t,;#]|$))+)*/
TEXT: /"[^"]*"/
%ignore /[ \t]+/
%ignore /#.*/
"""
# In WORDS, a quote glued behind a digit is an inch mark: 5'6" then reaches the reader of lengths, which knows what to say.

_WORDS = re.compile(r'[^ \t,;#"]+')
_SHOWN = {",": "a comma", ";": "a semicolon", '"': "the words in quotes"}


class Word(NamedTuple):
    """A word, several words or a text of a line, and how many code points stand before it."""

    text: str
    start: int

    @property
    def end(self) -> int:
        """How many code points of the line end with it."""
        return self.start + len(self.text)


class Attribute(NamedTuple):
    """One attribute as its line has it: the name, and the words of each value."""

    name: Word
    values: list[Word]


class Misread(Exception):
    """A line that the grammar can't read: what is wrong, and which part of the line (`start` to `end`) is at fault.

    `met` is that part, `before` the word before it.
    """

    def __init__(self, message: str, line: str, start: int, end: int) -> None:
        self.start = start
        self.end = end
        self.met = line[start:end]
        self.before = "".join(_WORDS.findall(line[:start])[-1:])
        shown = _SHOWN.get(self.met[:1]) or f"'{self.met}'".replace("\t", " ")
        self.message = message.format(met=shown, before=self.before)
        super().__init__(self.message)


@cache
def _parser() -> tuple[Any, Any]:
    """Lark's parser of a line, built once, and the exception it raises."""
    from lark import Lark, UnexpectedInput  # 60 ms, so only when a plan is read

    return Lark(_GRAMMAR, parser="lalr", start=["head", "attributes"], maybe_placeholders=False), UnexpectedInput


def parse_head(line: str) -> tuple[Word, Word]:
    """The kind and the name (or title, or file) of a line at the left margin. Raises Misread."""
    first, second = _parse(line, "head").children
    return Word(first.value, first.start_pos), Word(second.value, second.start_pos)


def parse_attributes(line: str) -> list[Attribute]:
    """The attributes of an indented line. Raises Misread."""
    found = []
    for attribute in _parse(line, "attributes").children:
        name, *values = [Word(token.value, token.start_pos) for token in attribute.children]
        found.append(Attribute(name, values))
    return found


def _parse(line: str, start: str) -> Any:
    parser, unexpected = _parser()
    try:
        return parser.parse(line, start=start)
    except unexpected as error:
        message = _messages()[_signature(error, line, start)]
        token, at = getattr(error, "token", None), error.pos_in_stream
        raise Misread(message, line, at, len(line) if token is None else token.end_pos) from None


@cache
def _messages() -> dict[tuple[object, ...], str]:
    """The message for each way in which a line can stop the parser, from the examples that stop it so."""
    parser, unexpected = _parser()
    found: dict[tuple[object, ...], str] = {}
    for start, rows in EXAMPLES.items():
        for message, lines in rows:
            for line in lines:
                try:
                    parser.parse(line, start=start)
                except unexpected as error:
                    found[_signature(error, line, start)] = message
    return found


def _signature(error: Any, line: str, start: str) -> tuple[object, ...]:
    """What a line at fault has in common with the example that explains it.

    The first word where the grammar knows it, what stands just before, what could have followed and what does.
    """
    token: Any = getattr(error, "token", None)
    met = "open quotes" if token is None else "WORD" if token.type in ("PLAN", "INCLUDE", "WORDS") else token.type
    could = frozenset(error.allowed if token is None else error.expected)
    begins = _WORDS.match(line.lstrip(" \t"))
    first = begins[0] if begins and start == "head" else ""
    read = line[: token.end_pos if met == "$END" else error.pos_in_stream].rstrip(" \t")
    before = read[-1:] if read.endswith((",", ";")) else "word" if read else ""
    return start, first if first in ("plan", "include") else "", before, could, met
