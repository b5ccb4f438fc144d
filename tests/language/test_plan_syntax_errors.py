"""Every example of the table is explained by its own row, and every short line there can be is explained at all."""

from itertools import product

import pytest

from planlint.language.grammar import Misread, parse_attributes, parse_head
from planlint.language.syntax_errors import EXAMPLES

PARSERS = {"head": parse_head, "attributes": parse_attributes}
ROWS = [(start, message, line) for start, rows in EXAMPLES.items() for message, lines in rows for line in lines]


@pytest.mark.parametrize(("start", "message", "line"), ROWS)
def test_an_example_gets_its_message(start: str, message: str, line: str) -> None:
    with pytest.raises(Misread) as caught:
        PARSERS[start](line)
    fault = caught.value
    named = {",": "a comma", ";": "a semicolon", '"': "the words in quotes"}.get(fault.met[0], f"'{fault.met}'")
    assert fault.message == message.format(met=named, before=fault.before)


@pytest.mark.parametrize("start", PARSERS)
@pytest.mark.parametrize("between", [" ", "", "\t"])
def test_every_short_line_is_read_or_explained(start: str, between: str) -> None:
    """All lines of up to five of these pieces. Only quotes left open may be called so."""
    pieces = ["panel", "plan", "include", '"t"', ",", ";", '"open', '# a comment; with, "marks']
    explained = 0
    for count in (1, 2, 3, 4, 5) if between == " " else (1, 2, 3, 4):
        for line in map(between.join, product(pieces, repeat=count)):
            if not line.partition("#")[0].strip():
                continue
            try:
                PARSERS[start](line)
            except Misread as fault:
                explained += 1
                assert 0 <= fault.start < fault.end <= len(line)
                assert ("not closed" in fault.message) == (fault.met.startswith('"') and not _closed(fault.met)), line
    assert explained > 100


def _closed(text: str) -> bool:
    return len(text) > 1 and text.endswith('"')


@pytest.mark.parametrize(
    ("line", "values"),
    [
        ("  size 2-1/2 in; length 30 ft", [["2-1/2 in"], ["30 ft"]]),
        ('  label "Bench; wall, north # 2"; poles 1 # a comment, with "marks"', [['"Bench; wall, north # 2"'], ["1"]]),
        ("  height 5'6\"; rating 200 A", [["5'6\""], ["200 A"]]),
        ("  bends 90 deg , 90 deg,45 deg", [["90 deg", "90 deg", "45 deg"]]),
        ("\tuse\tin x m ft # words like units and the x of a count", [["in x m ft"]]),
        ("  plan include", [["include"]]),
    ],
)
def test_a_line_is_parted_at_commas_and_semicolons_outside_quotes(line: str, values: list[list[str]]) -> None:
    found = parse_attributes(line)
    assert [[value.text for value in attribute.values] for attribute in found] == values
    assert all(line[word.start : word.end] == word.text for attribute in found for word in (attribute.name, *attribute.values))


@pytest.mark.parametrize("line", ["panel plan", "panel include", "planner x", "plan-b x", "building in", "box 12"])
def test_words_of_the_grammar_may_be_names(line: str) -> None:
    kind, name = parse_head(line)
    assert f"{kind.text} {name.text}" == line
