"""The values of one attribute: its type reads the words, and what it can't read becomes a sentence about them."""

import re
from collections.abc import Callable, Sequence
from typing import Any

from planlint.language.grammar import Attribute, Word
from planlint.plan.elements import Draft, Stated
from planlint.plan.types import TEXT
from planlint.quantities import Unreadable

Say = Callable[[int, int, str], None]
"""Takes a fault: where it starts and ends in the line, and the message."""

_THOUSANDS = re.compile(r"(?<![0-9./-])[0-9]{1,3}(?:,[0-9]{3})+(?![0-9./-])")
_DECIMALS = re.compile(r"(?<![0-9./-])([0-9]+),([0-9]+)(?![0-9./-])")
_LOST_TO_COMMENT = re.compile(r"[ \t]*#[0-9]")
LOST_TO_COMMENT = "what follows '#' is a comment, so it doesn't count"


def state(draft: Draft, attribute: Attribute, line: str, say: Say) -> None:
    """Read the values of an attribute that the statement's kind has into its draft; references stay names."""
    stated = draft.cls.attributes[attribute.name.text]
    texts = [_tidy(value.text) for value in attribute.values]
    if not _right_commas(stated, attribute, texts, line, say):
        return
    if "unknown" in texts or ("none" in texts and "none" not in stated.type.words):
        _state_without_value(draft, stated, attribute, texts, say)
        return
    if stated.type.is_list and (stated.type.kinds or stated.type.words) and not _all_different(attribute, texts, say):
        return
    read = texts if stated.type.kinds else [_read_one(stated, value, line, say) for value in attribute.values]
    if None not in read:
        draft.values[stated.name] = tuple(read) if stated.type.is_list else read[0]


def form(stated: Stated[Any]) -> str:
    """What belongs there, with the attribute's own example: `cover is a length, like 26 in`; `write it like 2 in` of a size."""
    example = stated.example if stated.example.startswith('"') else stated.example.split(",")[0]
    if stated.type.name.endswith(stated.name.rpartition("-")[2]):
        return f"write it like {example}"
    return f"{stated.name} is {stated.type.expected_like(example)}"


def lost_to_comment(line: str, end: int) -> bool:
    """Whether a number after `#` follows there: a wire size in the trade's shorthand, which is a comment in a plan."""
    return _LOST_TO_COMMENT.match(line, end) is not None


def _right_commas(stated: Stated[Any], attribute: Attribute, texts: list[str], line: str, say: Say) -> bool:
    """Whether each comma stands between two values of a list, and not inside a number or in a single value."""
    if len(texts) == 1:
        return True
    start, end = attribute.values[0].start, attribute.values[-1].end
    if stated.type is TEXT and not all(text.startswith('"') for text in texts):
        say(start, end, f"Words of your own are put in quotes; {form(stated)}")
        return False
    written = line[start:end] if '"' not in line[start:end] else ""
    thousands, decimals = _THOUSANDS.search(written), _DECIMALS.search(written)
    if thousands:
        right = thousands[0].replace(",", "")
        other = ", or put a space after it if they are two values" if stated.type.is_list else ""
        message = f"write {right} without the comma{other}"
        say(start + thousands.start(), start + thousands.end(), message)
    elif decimals and not stated.type.is_list:
        right = f"{decimals[1]}.{decimals[2]}"
        say(start + decimals.start(), start + decimals.end(), f"write {right} with a point; a comma stands between two values")
    elif not stated.type.is_list:
        say(attribute.values[1].start, end, f"'{stated.name}' takes one value, and {len(texts)} stand here")
    else:
        return True
    return False


def _state_without_value(draft: Draft, stated: Stated[Any], attribute: Attribute, texts: list[str], say: Say) -> None:
    word = "unknown" if "unknown" in texts else "none"
    first = attribute.values[texts.index(word)]
    if len(texts) > 1:
        say(first.start, first.end, f"'{word}' stands alone, not in a list with other values")
    elif word == "unknown":
        draft.unknown.add(stated.name)
    elif stated.none:
        draft.values[stated.name] = stated.type.none_value
    else:
        message = f"'none' can't stand here; {form(stated)}. If it isn't known, leave it out or write unknown"
        say(first.start, first.end, message)


def _all_different(attribute: Attribute, texts: Sequence[str], say: Say) -> bool:
    for at, value in enumerate(attribute.values):
        if texts[at] in texts[:at]:
            say(value.start, value.end, "This value stands twice in its list")
            return False
    return True


def _read_one(stated: Stated[Any], value: Word, line: str, say: Say) -> Any:
    text = _tidy(value.text)
    try:
        return stated.type.read_one(text)
    except Unreadable as fault:
        message = f"{fault.met}; {form(stated)}" if fault.meant else fault.met
        if lost_to_comment(line, value.end):
            message = f"{LOST_TO_COMMENT}; {form(stated)}"
        elif text[0] == '"' and stated.type is not TEXT:
            message = f"the value of '{stated.name}' stands without quotes; {form(stated)}"
        end = len(text) if fault.end is None else fault.end
        say(value.start + _offset(value.text, fault.start), value.start + _offset(value.text, end), message)
        return None


def _tidy(text: str) -> str:
    """The words with one space between two; a text in quotes as it stands."""
    return text if text[0] == '"' else " ".join(text.split())


def _offset(written: str, offset: int) -> int:
    """Where a place in the words, one space between two, lies in the words as they are written."""
    for word in re.finditer(r"[^ \t]+", written):
        if offset <= len(word[0]):
            return word.start() + offset
        offset -= len(word[0]) + 1
    return len(written)
