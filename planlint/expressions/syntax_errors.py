"""What is wrong with an expression that the grammar can't read, said by example.

Each row is a plain message and texts that cause it. A text at fault gets the message of the example that stops the parser at
the same sort of place before the same sort of word; a test feeds every example back, and every short text there can be. In a
message `{met}` is the part at fault.
"""

import re
from typing import Any

_SOME = "like some bonds has (size >= 6 AWG copper)"
_LIST = "like type in [rod, pipe]"

CONDITIONS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("A value or a condition is missing here, like cover >= 18 in", ("", "a and", "a <")),
    (
        "Something is missing before '{met}', like cover >= 18 in",
        ("< a", "a < < b", "* a", "and a", "is a", "has (a)", ")", "(a and)"),
    ),
    (
        "'not' stands before a whole condition, like not grounded or not cover < 18 in",
        ("a < not b", "a not in b", "a not b"),
    ),
    (f"A list in square brackets stands after 'in', {_LIST}", ("[a]", "a [b]", "a < [b]", "a is [b]", "a in [[b]]")),
    ("Nothing opens the bracket that closes here", ("]", "a)", "a]", "a is b]", "a is ]")),
    (f"A comma stands only in a list in square brackets, {_LIST}", (", a", "a, b", "a is , b", "count(a, b)")),
    (
        "A name is written in lower-case letters, digits and hyphens, like at.room; '{met}' is none",
        ("Cover > a", "a > COVER"),
    ),
    ("'stated' and 'same as' stand after 'is', like cover is stated", ("a stated", "a same as b")),
    (
        "A space stands between a number and its unit, as in 18 in, 1-1/4 in, 3 % or 6 AWG copper, not '{met}'",
        ("cover >= 18in", "18in", "cover >= 18 in and 6AWG", "a is b 18in"),
    ),
    ("'{met}' is no unit; one is written like 18 in, 3 %, 120 V or 6 AWG copper", ("cover >= 18 inches", "a >= 12 Amps")),
    (
        "Nothing joins '{met}' to what stands before it: and, or, a sign like + or >=, or a comma in a list",
        ("a b", "a B", "a 1 in", "a yes", "a some b has (c)", "a is stated b", "a is b c", "a in [b c]"),
    ),
    (
        f"A bracket after a name wants 'some', 'every' or 'no' before it and 'has' after it, {_SOME}",
        ("a (b)", "some a (b)"),
    ),
    (
        "The condition is complete before '{met}'; join another one with and, or or",
        ("a is b < c", "a is b is c", "a is stated + b", "count(a and b)"),
    ),
    (f"'has' stands after 'some', 'every' or 'no' and the name of a list, {_SOME}", ("a has (b)", "a is b has (c)")),
    ("A round bracket is not closed", ("(a", "count(a", "some a has (b")),
    ("A word is missing here, like isolated in neutral is isolated", ("a is", "a is not", "a includes", "a in [", "a in [b,")),
    (
        "A word belongs here, not '{met}', like isolated in neutral is isolated",
        (
            "a is < b", "a is and b", "a is (b)", "a is is b", "a is )", "a is has",
            "a is not < b", "a is not and b", "a includes (b)", "a includes is b", "a is not )", "a includes has", "a includes ]",
            "a in [, b]",
        ),
    ),
    ("'not' stands once after 'is', like neutral is not isolated", ("a is not not b", "a includes not b")),
    (
        f"Commas stand between the members of a list, and a square bracket closes it, {_LIST}",
        ("a in [b", "a in [b and c", "a in [b)"),
    ),
    (f"The name of a list is missing here, {_SOME}", ("some", "count(", "a in")),
    (
        f"The name of a list belongs here, not '{{met}}', {_SOME}",
        (
            "some 1 has (b)", "some < b", "some and b", "some is b", "some has (b)", "count()", "count((a))", "some not a",
            "count(])", "some B", "count([a])", "count(, a)", "some 18in",
        ),
    ),
    (
        f"'has' and a condition in round brackets follow the list, {_SOME}",
        ("some a", "some a and b", "some a < b", "some a is b", "some a)"),
    ),
    (
        f"A condition in round brackets follows 'has', {_SOME}",
        (
            "some a has", "some a has b", "some a has < b", "some a has and b", "some a has is b", "some a has )",
            "some a has not b", "some a has [b]", "some a has ]", "some a has , b", "some a has has (b)", "some a has 18in",
            "some a has B", "some a has 1", "some a has stated b",
        ),
    ),
)  # fmt: skip
VALUES: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "A template prints a value, like {cover} or {cover-needed - cover}; it asks nothing",
        ("a and b", "a < b", "a is b", "a has (b)", "not a", "a [b]"),
    ),
)
CHARACTERS = {
    "-": "A minus has a space on both sides, like bus - load-amps; a hyphen belongs to a name, like load-amps",
    "!": "Write not before it, like not grounded, or is not, like neutral is not isolated",
    "&": "Write and, like grounded and listed",
    "|": "Write or, like grounded or listed",
    "'": "A word stands without quotes, like neutral is isolated",
    '"': "A word stands without quotes, like neutral is isolated",
    "%": "A space stands between a number and its unit, as in 3 %",
    "#": "There are no comments in an expression, and a wire size is written like 6 AWG copper",
    "≤": "Write <=",
    "≥": "Write >=",
    "≠": "Write not a = b for values, is not for words",
}
OTHERWISE = "'{met}' means nothing here; an expression is written like cover >= 18 in and neutral is isolated"

_SORTS = {
    "PATH": "name", "WORD": "word", "STATED": "stated", "_SAME_AS": "stated",
    **dict.fromkeys(("NUMBER", "QUANTITY", "SIZE", "YES", "NO", "COUNT", "SOME", "EVERY", "NONE_OF"), "thing"),
    **dict.fromkeys(("COMPARE", "PLUS", "MINUS", "TIMES", "BY"), "sign"),
    **dict.fromkeys(("_IS", "_IN", "_INCLUDES"), "asking"), **dict.fromkeys(("_AND", "_OR"), "joining"),
}  # fmt: skip
_AFTER_NUMBER = re.compile(r"(?:^|[\s(])-?[0-9][0-9./-]*\s+$")


def signature(error: Any, text: str) -> tuple[str, str]:
    """What a text at fault has in common with the example that explains it: what could stand there, and what does."""
    token = getattr(error, "token", None)
    if token is None:
        return "", text[error.pos_in_stream]
    sort = _SORTS.get(token.type, str(token.type))
    if sort == "word" and token[0] in "0123456789":
        sort = "glued"
    place = _place(frozenset(error.expected))
    if place == "joined" and sort in ("name", "word") and _AFTER_NUMBER.search(text[: token.start_pos]):
        place = "unit"
    return place, sort


def _place(could: frozenset[str]) -> str:
    """What sort of word could have stood where the parser stopped; "joined" where something complete wants a word that joins."""
    if "WORD" in could:
        return "negated word" if "NOT" in could else "word"
    if "NUMBER" in could:
        return "value"
    if "PATH" in could:
        return "list"
    if "LPAR" in could:
        return "bracket"
    if "_HAS" in could and "COMPARE" not in could:
        return "has"
    return "member" if "CLOSE" in could and "_AND" not in could else "joined"
