"""Lines at the left margin that can't be read: kinds, names, the plan's title, include."""

from collections.abc import Callable

import pytest

FaultsOf = Callable[[str], list[tuple[int, int, int, str]]]

# The text; and of each fault its line, column, end column and message.
CASES = {
    "a title and a word": (
        'plan "T" x',
        [(1, 10, 11, "The line of a statement ends here; what is known of it stands on the indented lines below.")],
    ),
    "a title without quotes": (
        "plan Plover Lane",
        [(1, 6, 17, 'A title in quotes belongs after plan, like plan "Plover Lane cottage".')],
    ),
    "a plan without a title": ("plan", [(1, 1, 5, 'A title in quotes belongs after plan, like plan "Plover Lane cottage".')]),
    "an empty title": ('plan ""', [(1, 6, 8, "Nothing stands between the quotes.")]),
    "typeset quotes": ("plan “T”", [(1, 6, 7, "'“' is written \" in a plan.")]),
    "attributes on the statement's line": (
        "trench a; cover 26 in",
        [(1, 9, 10, "The line of a statement ends here; what is known of it stands on the indented lines below.")],
    ),
    "a comma on the statement's line": (
        "trench a, b",
        [(1, 9, 10, "The line of a statement ends here; what is known of it stands on the indented lines below.")],
    ),
    "a name of two words": (
        "panel house panel",
        [(1, 13, 18, "'panel' is too much here: a name is one word, its parts joined by hyphens.")],
    ),
    "a name in quotes": (
        'trench "a"',
        [(1, 8, 11, "A name stands without quotes: one word of lower-case letters, digits and hyphens.")],
    ),
    "a text after the name": (
        'trench a "b"',
        [(1, 10, 13, "The line of a statement ends here; what is known of it stands on the indented lines below.")],
    ),
    "no name": ("trench", [(1, 1, 7, "A name is missing after 'trench': one word of lower-case letters, digits and hyphens.")]),
    "a name lost to a comment": (
        "panel #4",
        [
            (
                1,
                1,
                6,
                (
                    "A name is missing after 'panel': one word of lower-case letters, digits and hyphens; what "
                    "follows '#' is a comment."
                ),
            )
        ],
    ),
    "a misspelt kind": ("trnch service-trench", [(1, 1, 6, "'trnch' is no kind of statement. Did you mean 'trench'?")]),
    "a kind with a capital letter": (
        "Trench service-trench",
        [(1, 1, 7, "'Trench' is no kind of statement. Did you mean 'trench'?")],
    ),
    "a word that is no kind": (
        "xyzzy foo",
        [
            (
                1,
                1,
                6,
                (
                    "'xyzzy' is no kind of statement; the kinds are plan, building, place, supply, meter, "
                    "disconnect, panel, transfer-switch, service, feeder, circuit, receptacles, lights, load, "
                    "wall-space, counter, raceway, trench, span, holes, box, electrode, electrode-conductor, "
                    "bond, piping, permission."
                ),
            )
        ],
    ),
    "the name first": ("service-trench trench", [(1, 1, 15, "The kind comes first: trench service-trench.")]),
    "a line that begins with a comma": (
        ", a",
        [(1, 1, 2, ("A line at the left margin begins with a kind of statement, like panel or circuit, not with a comma."))],
    ),
    "a line that begins with a text": (
        '"x" y',
        [
            (
                1,
                1,
                4,
                "A line at the left margin begins with a kind of statement, like panel or circuit, not with the words in quotes.",
            )
        ],
    ),
    "quotes not closed": ('plan "T', [(1, 6, 8, "These quotes are not closed on their line.")]),
    "capital letters in a name": (
        "panel House-Panel",
        [(1, 7, 18, "'House-Panel' is no name: a name is lower-case letters, digits and hyphens, like house-panel.")],
    ),
    "an underscore in a name": (
        "panel house_panel",
        [(1, 7, 18, "'house_panel' is no name: a name is lower-case letters, digits and hyphens, like house-panel.")],
    ),
    "a name with a meaning of its own": ("place none", [(1, 7, 11, "'none' has a meaning of its own and can't be a name.")]),
    "a name used twice": ("place a\n\ntrench a", [(3, 8, 9, "The name 'a' is used already, as a place in line 1.")]),
    "two plan statements": ('plan "T"\nplan "U"', [(2, 1, 9, "A plan has one plan statement; the first stands in line 1.")]),
    "an include without quotes": (
        "include circuits.plan",
        [(1, 9, 22, 'The name of a file in quotes belongs after include, like include "circuits.plan".')],
    ),
    "an include with two files": (
        'include "a.plan" "b.plan"',
        [(1, 18, 26, "One include takes in one file, and nothing follows its name.")],
    ),
    "an include without a file": (
        "include",
        [(1, 1, 8, 'The name of a file in quotes belongs after include, like include "circuits.plan".')],
    ),
    "an include of nothing": ('include ""', [(1, 9, 11, "Nothing stands between the quotes.")]),
}


@pytest.mark.parametrize("case", CASES)
def test_it_is_told_at_its_place(case: str, faults_of: FaultsOf) -> None:
    text, told = CASES[case]
    assert faults_of(text) == told
