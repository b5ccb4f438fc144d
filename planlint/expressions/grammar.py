"""The grammar of expressions, and the one place of the rule language that knows Lark.

A keyword has a priority and ends where no letter, digit, hyphen or dot follows, because names have hyphens. A number and its
unit are one word, because `in` is both a unit and a keyword. What is a word and what a name only the types can tell.
"""

import re
from functools import cache
from typing import Any, Literal

from planlint.expressions import tree
from planlint.expressions.faults import ExpressionFault
from planlint.expressions.syntax_errors import CHARACTERS, CONDITIONS, OTHERWISE, VALUES, signature
from planlint.quantities import DIMENSIONS

MOST_LETTERS = 1000  # a rule is a thin record; and it bounds how deep a tree can be

_GRAMMAR = r"""
?condition: any
?value: sum
?any: all (_OR all)*
?all: negation (_AND negation)*
?negation: NOT negation -> negation | comparison
?comparison: sum
    | sum (COMPARE sum)+ -> compare
    | sum _IS NOT? literal -> is_literal
    | sum _IS NOT? _SAME_AS path -> is_same
    | sum _IS NOT? STATED -> is_stated
    | sum _IN _OPEN literal ("," literal)* CLOSE -> in_literals
    | sum _IN path -> in_path
    | sum _INCLUDES literal -> includes
?sum: product | sum (PLUS | MINUS) product -> arithmetic
?product: atom | product (TIMES | BY) atom -> arithmetic
?atom: path | number | yes_no | "(" any ")"
    | COUNT "(" path RIGHT -> count
    | (SOME | EVERY | NONE_OF) path _HAS "(" any RIGHT -> quantified
path: PATH
number: QUANTITY | SIZE | NUMBER
literal: WORD | QUANTITY | SIZE | NUMBER
yes_no: YES | NO

_OR.5: /or(?![\w.-])/
_AND.5: /and(?![\w.-])/
NOT.5: /not(?![\w.-])/
_IS.5: /is(?![\w.-])/
_SAME_AS.5: /same\s+as(?![\w.-])/
STATED.5: /stated(?![\w.-])/
_IN.5: /in(?![\w.-])/
_INCLUDES.5: /includes(?![\w.-])/
_HAS.5: /has(?![\w.-])/
SOME.5: /some(?![\w.-])/
EVERY.5: /every(?![\w.-])/
NONE_OF.6: /no(?=\s+[a-z][a-z0-9.-]*\s+has(?![\w.-]))/
YES.5: /yes(?![\w.-])/
NO.5: /no(?![\w.-])/
COUNT.5: /count(?=\s*\()/
COMPARE: /<=|>=|<|>|=/
PLUS: "+"
MINUS: /(?<=\s)-(?=\s)/
TIMES: "*"
BY: "/"
RIGHT: ")"
_OPEN: "["
CLOSE: "]"
QUANTITY.4: /-?<number>\s+(?:<units>)(?:\s+<number>\s+(?:<units>))*(?![\w-])/
SIZE.4: /[0-9]+(?:\/0)?\s+(?:AWG|kcmil)(?:\s+(?:copper|aluminum))?(?![\w-])/
NUMBER.3: /-?<number>(?![\w.-])/
PATH.2: /<path>/
WORD.1: /(?!(?:<keyword>)(?![\w.-]))[A-Za-z0-9][A-Za-z0-9-]*/
%ignore /\s+/
"""
_PIECES = {
    "<keyword>": "and|or|not|is|in|has|includes",
    "<reserved>": "and|or|not|is|in|has|includes|some|every|yes|no",
    "<name>": r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*",
    "<number>": r"(?:[0-9]+-[0-9]+\/[0-9]+|[0-9]+\/[0-9]+|[0-9]+(?:\.[0-9]+)?)",
}

_PATH = r"(?!(?:<reserved>)(?![\w.-]))<name>(?:\.<name>)*"


def _filled(pattern: str) -> str:
    for piece, meaning in _PIECES.items():
        pattern = pattern.replace(piece, meaning)
    return pattern


_NAME_ALONE = re.compile(_filled(_PATH))


class _Builder:
    """Makes a node of each rule of the grammar, from what Lark hands up. The methods are named after the rules."""

    def path(self, parts: list[Any]) -> tree.Path:
        """`at.room`."""
        (token,) = parts
        return tree.Path(token.start_pos, token.end_pos, tuple(str(token).split(".")))

    def number(self, parts: list[Any]) -> tree.Written:
        """A quantity, a wire size, a plain number."""
        (token,) = parts
        return tree.Written(token.start_pos, token.end_pos, _SORTS[token.type], str(token))

    literal = number

    def yes_no(self, parts: list[Any]) -> tree.YesNo:
        """`yes`."""
        (token,) = parts
        return tree.YesNo(token.start_pos, token.end_pos, token.type == "YES")

    def count(self, parts: list[Any]) -> tree.Count:
        """`count(services)`."""
        token, path, closing = parts
        return tree.Count(token.start_pos, closing.end_pos, path)

    def arithmetic(self, parts: list[Any]) -> tree.Arithmetic:
        """`a + b`."""
        left, token, right = parts
        return tree.Arithmetic(left.start, right.end, str(token), left, right)

    def compare(self, parts: list[Any]) -> tree.Compare:
        """`a < b`, and the chain `a < b < c`."""
        operands = tuple(parts[::2])
        return tree.Compare(operands[0].start, operands[-1].end, tuple(map(str, parts[1::2])), operands)

    def is_literal(self, parts: list[Any]) -> tree.Is:
        """`a is word`."""
        return tree.Is(parts[0].start, parts[-1].end, parts[0], parts[-1], len(parts) == 3)

    def is_same(self, parts: list[Any]) -> tree.IsSame:
        """`a is same as b`."""
        return tree.IsSame(parts[0].start, parts[-1].end, parts[0], parts[-1], len(parts) == 3)

    def is_stated(self, parts: list[Any]) -> tree.IsStated:
        """`a is stated`."""
        return tree.IsStated(parts[0].start, parts[-1].end_pos, parts[0], len(parts) == 3)

    def in_literals(self, parts: list[Any]) -> tree.In:
        """`a in [b, c]`."""
        left, *members, closing = parts
        return tree.In(left.start, closing.end_pos, left, tuple(members))

    def in_path(self, parts: list[Any]) -> tree.In:
        """`a in list`."""
        left, right = parts
        return tree.In(left.start, right.end, left, right)

    def includes(self, parts: list[Any]) -> tree.Includes:
        """`list includes a`."""
        left, right = parts
        return tree.Includes(left.start, right.end, left, right)

    def negation(self, parts: list[Any]) -> tree.Not:
        """`not a`."""
        token, part = parts
        return tree.Not(token.start_pos, part.end, part)

    def any(self, parts: list[Any]) -> tree.Joined:
        """`a or b`."""
        return tree.Joined(parts[0].start, parts[-1].end, "or", tuple(parts))

    def all(self, parts: list[Any]) -> tree.Joined:
        """`a and b`."""
        return tree.Joined(parts[0].start, parts[-1].end, "and", tuple(parts))

    def quantified(self, parts: list[Any]) -> tree.Quantified:
        """`some list has (a)`."""
        token, path, body, closing = parts
        return tree.Quantified(token.start_pos, closing.end_pos, _QUANTIFIERS[token.type], path, body)


_SORTS: dict[str, Literal["quantity", "number", "size", "word"]] = {
    "QUANTITY": "quantity", "NUMBER": "number", "SIZE": "size", "WORD": "word",
}  # fmt: skip
_QUANTIFIERS: dict[str, Literal["some", "every", "no"]] = {"SOME": "some", "EVERY": "every", "NONE_OF": "no"}


@cache
def _parser() -> tuple[Any, Any]:
    """Lark's parser, built once, and the exception it raises."""
    from lark import Lark, UnexpectedInput  # 60 ms, so only when rules are compiled

    # the longest first, so that m doesn't stand in the way of mm
    units = sorted({unit for cls in DIMENSIONS.values() for unit in cls.units}, key=len, reverse=True)
    patterns = [re.escape(unit).replace("/", r"\/").replace(r"\ ", r"\s+") for unit in units]
    grammar = _GRAMMAR.replace("<path>", _PATH).replace("<units>", "|".join(patterns))
    builder: Any = _Builder()
    parser = Lark(
        _filled(grammar),
        parser="lalr",
        start=["condition", "value"],
        transformer=builder,
        maybe_placeholders=False,
        propagate_positions=False,
    )
    return parser, UnexpectedInput


def parse(text: str, start: Literal["condition", "value"]) -> tree.Node:
    """The tree of a condition, or of a value as a template prints it. Raises ExpressionFault."""
    if len(text) > MOST_LETTERS:
        raise ExpressionFault(f"an expression of more than {MOST_LETTERS} characters wants a fact of its own", 0, len(text))
    if _NAME_ALONE.fullmatch(text):  # most of what templates print; Lark needs many times as long
        return tree.Path(0, len(text), tuple(text.split(".")))
    parser, unexpected = _parser()
    try:
        found: tree.Node = parser.parse(text, start=start)
    except unexpected as error:
        raise _explained(error, text, start) from None
    return found


def _explained(error: Any, text: str, start: str) -> ExpressionFault:
    token = getattr(error, "token", None)
    if token is None:
        at, end = error.pos_in_stream, error.pos_in_stream + 1
    elif token.type == "$END":
        at = end = len(text.rstrip())
    else:
        at, end = token.start_pos, token.end_pos
    message = _message(start, *signature(error, text))
    return ExpressionFault(message.replace("{met}", text[at:end]), at, end)


def _message(start: str, place: str, met: str) -> str:
    if not place:
        return CHARACTERS.get(met, OTHERWISE)
    known = _messages()
    return known.get((start, place, met)) or known.get(("condition", place, met)) or OTHERWISE


@cache
def _messages() -> dict[tuple[str, str, str], str]:
    """The message for each way in which a text can stop the parser, from the examples that stop it so."""
    parser, unexpected = _parser()
    found: dict[tuple[str, str, str], str] = {}
    for start, rows in (("condition", CONDITIONS), ("value", VALUES)):
        for message, examples in rows:
            for example in examples:
                try:
                    parser.parse(example, start=start)
                except unexpected as error:
                    found[(start, *signature(error, example))] = message
    return found
