"""Characters that don't belong in a plan: twins of plain letters, typeset signs, hidden ones."""

from collections.abc import Callable

import pytest

FaultsOf = Callable[[str], list[tuple[int, int, int, str]]]

# The text; and of each fault its line, column, end column and message.
CASES = {
    "a Cyrillic letter in a name": (
        "place cottаge",
        [
            (
                1,
                11,
                12,
                ("This 'а' is another script's letter (U+0430, cyrillic small letter a) that only looks like the plain 'a'."),
            )
        ],
    ),
    "a Greek letter in a name": (
        "place kitchεn",
        [
            (
                1,
                12,
                13,
                (
                    "'ε' (U+03B5, greek small letter epsilon) belongs inside quotes only; names and words are "
                    "in plain letters, a to z."
                ),
            )
        ],
    ),
    "an accent in a name": (
        "place café",
        [
            (
                1,
                10,
                11,
                (
                    "'é' (U+00E9, latin small letter e with acute) belongs inside quotes only; names and words "
                    "are in plain letters, a to z."
                ),
            )
        ],
    ),
    "a fraction sign": ("raceway a\n  size 1½ in", [(2, 9, 10, "'½' is written 1/2 in a plan.")]),
    "a degree sign": ("raceway a\n  bends 90°", [(2, 11, 12, "Leave out the sign '°': write 86 F or 90 deg.")]),
    "a multiplication sign": ("circuit a\n  hot 2 × 4/0 aluminum", [(2, 9, 10, "'×' is written x in a plan.")]),
    "a long dash": ("trench a\n  cover 1–1/2 in", [(2, 10, 11, "'–' is written - in a plan.")]),
    "a prime": (
        "trench a\n  cover 5′6″",
        [(2, 10, 11, "Write feet and inches in words, like 5 ft 6 in, not with the sign '′'.")],
    ),
    "typeset quotes": ("circuit a\n  label “Kitchen”", [(2, 9, 10, "'“' is written \" in a plan.")]),
    "a no-break space": (
        "place a\n  use\u00a0kitchen",
        [(2, 6, 7, "This space (U+00A0, no-break space) is none of a plan's; write a plain one.")],
    ),
    "a line of a no-break space": (
        "place a\n\u00a0",
        [(2, 1, 2, "This space (U+00A0, no-break space) is none of a plan's; write a plain one.")],
    ),
    "a bell in a comment": ("place a # \u0007", [(1, 11, 12, "A hidden character (U+0007) stands here; take it out.")]),
    "a direction mark in a text": (
        'circuit a\n  label "a\u202eb"',
        [(2, 11, 12, "A hidden character (U+202E) stands here; take it out.")],
    ),
    "a zero-width space in a name": ("place a\u200bb", [(1, 8, 9, "A hidden character (U+200B) stands here; take it out.")]),
    "a form feed, which ends no line": (
        "place a\u000c\nplace b\n  use kitchn",
        [
            (1, 8, 9, "A hidden character (U+000C) stands here; take it out."),
            (3, 7, 13, "'kitchn' can't stand here. Did you mean 'kitchen'?"),
        ],
    ),
    "a line separator, which ends no line": (
        "# a\u2028b\nplace b\n  use kitchn",
        [
            (1, 4, 5, "A hidden character (U+2028) stands here; take it out."),
            (3, 7, 13, "'kitchn' can't stand here. Did you mean 'kitchen'?"),
        ],
    ),
    "a lone surrogate": ("# \ud800", [(1, 3, 4, "The byte 0xED is no UTF-8; save the file as UTF-8.")]),
    "a carriage return inside a line": (
        "place a\r  use kitchen",
        [(1, 8, 9, "A hidden character (U+000D) stands here; take it out.")],
    ),
    "two words of another script, each told": (
        "place дом\n  use кухня; moisture сухо",
        [
            (
                1,
                7,
                8,
                (
                    "'д' (U+0434, cyrillic small letter de) belongs inside quotes only; names and words are in "
                    "plain letters, a to z."
                ),
            ),
            (
                2,
                7,
                8,
                (
                    "'к' (U+043A, cyrillic small letter ka) belongs inside quotes only; names and words are in "
                    "plain letters, a to z."
                ),
            ),
            (
                2,
                23,
                24,
                ("This 'с' is another script's letter (U+0441, cyrillic small letter es) that only looks like the plain 'c'."),
            ),
        ],
    ),
    "a value of wide letters": (
        "place ａ",
        [
            (
                1,
                7,
                8,
                (
                    "'ａ' (U+FF41, fullwidth latin small letter a) belongs inside quotes only; names and words "
                    "are in plain letters, a to z."
                ),
            )
        ],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_it_is_told_at_its_place(case: str, faults_of: FaultsOf) -> None:
    text, told = CASES[case]
    assert faults_of(text) == told
