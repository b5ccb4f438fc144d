"""Indented lines that can't be read: attributes, their marks and their indent."""

from collections.abc import Callable

import pytest

FaultsOf = Callable[[str], list[tuple[int, int, int, str]]]

# The text; and of each fault its line, column, end column and message.
CASES = {
    "a misspelt attribute": ("trench a\n  covr 26 in", [(2, 3, 7, "'covr' is no attribute of a trench. Did you mean 'cover'?")]),
    "an attribute with a capital letter": (
        "trench a\n  Cover 26 in",
        [(2, 3, 8, "'Cover' is no attribute of a trench. Did you mean 'cover'?")],
    ),
    "an attribute of another kind": (
        "panel a\n  breaker 20 A",
        [(2, 3, 10, "'breaker' is no attribute of a panel; it is one of a disconnect, feeder or circuit.")],
    ),
    "an attribute of the plan's neighbors": (
        'plan "T"\n  cover 26 in',
        [(2, 3, 8, "'cover' is no attribute of a plan; it is one of receptacles or trench.")],
    ),
    "a word like no attribute": (
        "holes a\n  xyzzy 5",
        [
            (
                2,
                3,
                8,
                (
                    "'xyzzy' is no attribute of holes; those that matter most are through, diameter, "
                    "edge-distance, member-depth, plates, sealed."
                ),
            )
        ],
    ),
    "an attribute given twice": (
        "trench a\n  cover 26 in\n  under yard; cover 27 in",
        [(3, 15, 20, "'cover' is given twice; it stands in line 2, column 3 already.")],
    ),
    "no value": ("trench a\n  cover", [(2, 3, 8, "'cover' has no value; cover is a length, like 26 in.")]),
    "no value before a semicolon": (
        "trench a\n  cover; under yard",
        [(2, 8, 9, "'cover' has no value; cover is a length, like 26 in.")],
    ),
    "no value before a comma": ("trench a\n  cover , 5 in", [(2, 9, 10, "'cover' has no value; cover is a length, like 26 in.")]),
    "a semicolon at the end": (
        "trench a\n  cover 26 in;",
        [(2, 14, 15, "A semicolon stands between two attributes; none follows this one.")],
    ),
    "two semicolons": (
        "trench a\n  cover 26 in;; under yard",
        [(2, 15, 16, "The name of an attribute belongs here, not a semicolon.")],
    ),
    "a comma at the end": ("trench a\n  shares-with gas,", [(2, 18, 19, "A value is missing after the comma.")]),
    "two commas": ("trench a\n  shares-with gas,, water", [(2, 19, 20, "A value is missing after the comma.")]),
    "a comma before a semicolon": (
        "trench a\n  shares-with gas,; under yard",
        [(2, 19, 20, "A value is missing after the comma.")],
    ),
    "a line that begins with a comma": (
        "trench a\n  shares-with gas\n  , water",
        [(3, 3, 4, "An indented line begins with the name of an attribute, not with a comma; a list stays on one line.")],
    ),
    "a text in place of an attribute": (
        'trench a\n  "cover" 26 in',
        [
            (
                2,
                3,
                10,
                "An indented line begins with the name of an attribute, not with the words in quotes; a list stays on one line.",
            )
        ],
    ),
    "a text after a semicolon": (
        'trench a\n  under yard; "cover" 26 in',
        [(2, 15, 22, "The name of an attribute belongs here, not the words in quotes.")],
    ),
    "a value after a text": (
        'circuit a\n  label "Kitchen" north',
        [(2, 19, 24, "A comma or a semicolon is missing before 'north'.")],
    ),
    "quotes not closed": (
        'circuit a\n  breaker 20 A; label "Kitchen; poles 1',
        [(2, 23, 40, "These quotes are not closed on their line.")],
    ),
    "three faults on one line, all told": (
        "trench a\n  cover ; under; rock maybe",
        [
            (2, 9, 10, "'cover' has no value; cover is a length, like 26 in."),
            (2, 11, 16, "'under' has no value; under is one of yard, driveway, street, patio-slab, building."),
            (2, 23, 28, "'maybe' is neither yes nor no."),
        ],
    ),
    "different indents": (
        "trench a\n  cover 26 in\n    under yard\n  rock no",
        [(3, 1, 5, "This line is indented by 4, the lines of its statement above by 2.")],
    ),
    "a tab in the indent": ("trench a\n\tcover 26 in", [(2, 1, 2, "A tab stands in the indent; indent with spaces.")]),
    "a tab after spaces in the indent": (
        "trench a\n  cover 26 in\n  \tunder yard",
        [(3, 1, 4, "A tab stands in the indent; indent with spaces.")],
    ),
    "a missing indent": (
        "trench a\ncover 26 in\n  under moon",
        [
            (2, 1, 6, "'cover' is an attribute of the trench above: indent this line."),
            (3, 9, 13, "'moon' can't stand here; under is one of yard, driveway, street, patio-slab, building."),
        ],
    ),
    "a missing indent of an attribute that is a kind too": (
        "circuit a\npanel b; breaker 20 A\n  poles x\npanel b",
        [
            (2, 1, 6, "'panel' is an attribute of the circuit above: indent this line."),
            (3, 9, 10, "'x' is not a whole number; poles is a whole number, like 2."),
        ],
    ),
    "a missing indent that looks like a statement": (
        "circuit a\npanel b\npanel b",
        [
            (
                3,
                7,
                8,
                (
                    "The name 'b' is used already, as a panel in line 2. If panel in line 2 is meant as an "
                    "attribute of the circuit above it, indent that line."
                ),
            )
        ],
    ),
    "a misspelt attribute at the margin": (
        "trench a\ncovr 26 in",
        [(2, 1, 5, "'covr' is no kind of statement. Did you mean the attribute 'cover', indented?")],
    ),
    "an attribute of no statement at the margin": (
        "cover 26 in",
        [(1, 1, 6, "'cover' is an attribute, not a kind of statement: indent it below receptacles or trench.")],
    ),
    "an indented line before any statement": (
        "\n  cover 26 in",
        [(2, 3, 14, "This line is indented, but no statement stands above it.")],
    ),
    "a statement that is indented": (
        "place kitchen\n  use kitchen\n  lights l\n    count two",
        [
            (3, 1, 9, "'lights' is no attribute of a place, and begins a statement, which stands at the left margin."),
            (4, 11, 14, "'two' is not a whole number; count is a whole number, like 6."),
        ],
    ),
    "an attribute below an include": (
        'include "a.plan"\n  cover 26 in',
        [(1, 9, 17, "A text that is no file can't include one."), (2, 3, 14, "An include has no attributes.")],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_it_is_told_at_its_place(case: str, faults_of: FaultsOf) -> None:
    text, told = CASES[case]
    assert faults_of(text) == told
