"""What is said of an expression that can't be read: every example is fed back, and every short text there can be."""

from collections import defaultdict
from typing import Any

import pytest

from planlint.expressions.faults import ExpressionFault
from planlint.expressions.grammar import parse
from planlint.expressions.syntax_errors import CHARACTERS, CONDITIONS, OTHERWISE, VALUES

EXAMPLES = [
    (start, message, text)
    for start, rows in (("condition", CONDITIONS), ("value", VALUES))
    for message, texts in rows
    for text in texts
]
WORDS = (
    "a", "B", "1", "1 in", "6 AWG", "18in", "yes", "count(", "some", "every", "no a has", "not", "and", "or", "is", "same as",
    "stated", "in", "includes", "has", "(", ")", "[", "]", ",", "<", "+", "*",
)  # fmt: skip


def refused(text: str, start: Any) -> ExpressionFault | None:
    try:
        parse(text, start)
    except ExpressionFault as fault:
        return fault
    return None


@pytest.mark.parametrize(("start", "message", "text"), EXAMPLES)
def test_an_example_gets_its_own_message(start: str, message: str, text: str) -> None:
    fault = refused(text, start)
    assert fault is not None
    assert fault.message == message.replace("{met}", text[fault.start : fault.end])


@pytest.mark.parametrize("start", ["condition", "value"])
def test_every_short_text_can_be_read_or_is_explained(start: str) -> None:
    """From each text that could go on, every word is tried; of texts that stop at their end alike, one goes on."""
    general = OTHERWISE.partition("{met}")[2]
    begun, unexplained = [""], []
    for _ in range(5):
        going_on = defaultdict(list)
        for text in (f"{before} {word}".strip() for before in begun for word in WORDS):
            fault = refused(text, start)
            if fault is None:
                going_on["complete", text.split()[-1], text.count("(") - text.count(")")].append(text)
            elif general in fault.message:
                unexplained.append(text)
            elif fault.start == fault.end == len(text):
                going_on[fault.message, text.split()[-1], text.count("(") - text.count(")")].append(text)
        begun = [texts[0] for texts in going_on.values()]
    assert unexplained == []


@pytest.mark.parametrize(
    ("text", "at", "part"),
    [
        ("a and and b", "and", "Something is missing before 'and'"),
        ("cover >= 18 inches", "inches", "'inches' is no unit"),
        ("cover >= 18in", "18in", "A space stands between a number and its unit"),
        ("cover >= 3%", "%", "A space stands between a number and its unit, as in 3 %"),
        ("bus -load", "-", "A minus has a space on both sides"),
        ("bus- load", "-", "A minus has a space on both sides"),
        ("bus - -load", "-", "A minus has a space on both sides"),
        ("a != b", "!", "Write not before it"),
        ("a == b", "=", "Something is missing before '='"),
        ("a && b", "&", "Write and"),
        ("neutral is 'isolated'", "'", "A word stands without quotes"),
        ("size >= #4", "#", "no comments in an expression"),
        ("cover ≥ 18 in", "≥", "Write >="),
        ("a ; b", ";", "';' means nothing here"),
        ("(a and b", "", "A round bracket is not closed"),
        ("a not in [b]", "not", "'not' stands before a whole condition"),
    ],
)
def test_slips_are_named_at_their_place(text: str, at: str, part: str) -> None:
    fault = refused(text, "condition")
    assert fault is not None
    assert text[fault.start : fault.end] == at
    assert part in fault.message


@pytest.mark.parametrize("character", CHARACTERS)
def test_a_character_is_explained(character: str) -> None:
    fault = refused(f"a {character}b", "condition")
    assert fault is not None
    assert fault.message == CHARACTERS[character]


@pytest.mark.parametrize("text", ["", " ", "{", "\0", "é", "a\u2028b", "$" * 50, "(" * 400, "((((a" + ")" * 90, "1e9", "9" * 40])
def test_nothing_but_a_fault_comes_out_of_a_wild_text(text: str) -> None:
    refused(text, "condition")
    refused(text, "value")
