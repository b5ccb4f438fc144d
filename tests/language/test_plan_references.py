"""Names that refer to nothing, or to a statement of a wrong kind."""

from collections.abc import Callable

import pytest

FaultsOf = Callable[[str], list[tuple[int, int, int, str]]]

# The text; and of each fault its line, column, end column and message.
CASES = {
    "a misspelt reference": (
        "place kitchen\ncounter c\n  at kichen",
        [(3, 6, 12, "Nothing is named 'kichen' here. Did you mean 'kitchen'?")],
    ),
    "a reference with capital letters": (
        "place kitchen\ncounter c\n  at Kitchen",
        [(3, 6, 13, "Nothing is named 'Kitchen' here. Did you mean 'kitchen'?")],
    ),
    "a reference of two words": (
        "place back-deck\ncounter c\n  at back deck",
        [(3, 6, 15, "Nothing is named 'back deck' here. Did you mean 'back-deck'?")],
    ),
    "a reference in quotes": (
        'place kitchen\ncounter c\n  at "kitchen"',
        [(3, 6, 15, "A name stands without quotes; at is the name of a place.")],
    ),
    "a reference to nothing": (
        "permission p\n  for trench",
        [(2, 7, 13, "Nothing is named 'trench' here; for is the name of a statement.")],
    ),
    "a reference to nothing of its kinds": (
        "place a\n  building b",
        [(2, 12, 13, "Nothing is named 'b' here; building is the name of a building.")],
    ),
    "a reference to a statement of another kind": (
        "place yard\nplace kitchen\n  building yard",
        [(3, 12, 16, "'yard' is a place (line 1); building is the name of a building.")],
    ),
    "a reference to itself": ("raceway a\n  continues a", [(2, 13, 14, "'continues' names the very statement it stands in.")]),
    "the second of a list": (
        "raceway a\ncircuit c\n  raceway a, b",
        [(3, 14, 15, "Nothing is named 'b' here; raceway is the name of a raceway.")],
    ),
    "the same reference twice": ("raceway a\ncircuit c\n  raceway a, a", [(3, 14, 15, "This value stands twice in its list.")]),
    "a quantity for a reference": (
        "counter c\n  at 26 A",
        [(2, 6, 10, "Nothing is named '26 A' here; at is the name of a place.")],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_it_is_told_at_its_place(case: str, faults_of: FaultsOf) -> None:
    text, told = CASES[case]
    assert faults_of(text) == told
