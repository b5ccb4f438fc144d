"""Reads the value of a setting: it is typed by how it is written."""

import re
from collections.abc import Iterator

from planlint import valuetypes
from planlint.book.reader import Reader
from planlint.book.records import Value
from planlint.book.source import Items, Node, Scalar
from planlint.quantities import DIMENSIONS, Quantity, Unreadable
from planlint.trade import METALS, WireSizes
from planlint.valuetypes import ValueType

_WORD = re.compile(r"(?!(?:yes|no|true|false)$)[A-Za-z][A-Za-z0-9]*(?:-[A-Za-z0-9]+)*")
PLAIN_NUMBER = re.compile(r"-?(0|[1-9][0-9]{0,11})(\.[0-9]{1,6})?")
YES = ("yes", "true", "on")
_STOPGAP: tuple[Value, ValueType] = (0, valuetypes.NUMBER)
KINDS_OF_VALUE = "a quantity like 3 ft or 3 %, a number, yes or no, a word, a list of words, or wire sizes like 6 AWG copper"


def read_value(node: Node, reader: Reader, dimension: str = "") -> tuple[Value, ValueType]:
    """A setting's value and its type.

    `dimension` says which is meant where a unit belongs to several (lb/ft is a weight per length or a force per length).
    """
    if isinstance(node, Items):
        words = tuple(_words(node, reader))
        return words, valuetypes.list_of(valuetypes.choice(*words))
    if not isinstance(node, Scalar) or node.tag == "nothing":
        reader.fault(node.span, f"the value of a setting is {KINDS_OF_VALUE}")
        return _STOPGAP
    if node.tag == "yes-no":
        return node.text.lower() in YES, valuetypes.YES_NO
    if node.tag == "number" and PLAIN_NUMBER.fullmatch(node.text):
        return float(node.text) if "." in node.text else int(node.text), valuetypes.NUMBER
    if node.tag == "text":
        return _read_text(node, reader, dimension)
    if node.tag != "missing":
        reader.fault(node.span, f"'{node.text}' is no value of a setting; that is {KINDS_OF_VALUE}")
    return _STOPGAP


def _words(node: Items, reader: Reader) -> Iterator[str]:
    for member in node.members:
        word = reader.text(member, "a word of a list")
        if word.text and not _WORD.fullmatch(word.text):
            reader.fault(word.span, f"'{word}' is not a word: letters, digits and hyphens, a letter first")
        yield word.text


def _read_text(node: Scalar, reader: Reader, dimension: str) -> tuple[Value, ValueType]:
    text = node.text
    if node.style and (PLAIN_NUMBER.fullmatch(text) or text in ("yes", "no", "true", "false")):
        reader.fault(node.span, f"in quotes '{text}' is words; leave the quotes off")
        return _STOPGAP
    if _WORD.fullmatch(text):
        return text, valuetypes.choice(text)
    try:
        if any(metal in text for metal in (*METALS, "AWG", "kcmil")):
            return WireSizes.read(text), valuetypes.WIRE_SIZE
        quantity = _quantity_class(text, dimension).read_pair(text)
        return quantity, valuetypes.quantity(quantity.dimension)
    except Unreadable as fault:
        reader.fault(node.locate(fault.start, fault.end or len(text)), fault.message)
        return _STOPGAP


def _quantity_class(text: str, dimension: str) -> type[Quantity]:
    """The dimension that is asked for, else the first that has the unit. Raises Unreadable."""
    if dimension in DIMENSIONS:
        return DIMENSIONS[dimension]
    last = re.search(r"[0-9] +([A-Za-z%][A-Za-z %/-]*)$", text.partition(" (")[0].rstrip())
    for cls in DIMENSIONS.values():
        if last and last[1] in cls.units:
            return cls
    _say_unit(text)
    raise Unreadable(f"'{text}' is no value of a setting; that is {KINDS_OF_VALUE}", 0, len(text))


def _say_unit(text: str) -> None:
    """Raise Unreadable where a dimension knows how a unit that is spelled out is written."""
    for cls in DIMENSIONS.values():
        try:
            cls.read(text)
        except Unreadable as fault:
            if "is written" in fault.message and "here" in fault.message:
                raise


def same_sort(one: ValueType, other: ValueType) -> bool:
    """Whether a value of one type may stand where the other does: other words, but the same dimension."""
    return (one.base, one.dimension) == (other.base, other.dimension)


def sort_of(type_: ValueType) -> str:
    """How a message calls values of that type."""
    if type_.base == "quantity":
        cls = DIMENSIONS[type_.dimension]
        return f"{cls.article} {cls.dimension}"
    return _SORTS[type_.base]


_SORTS = {"number": "a number", "yes-no": "yes or no", "choice": "a word", "list": "a list of words", "wire-size": "a wire size"}


def show_value(value: Value) -> str:
    """A value as a rule file writes it.

    >>> show_value(True), show_value(("bathroom", "attic")), show_value(2)
    ('yes', 'bathroom, attic', '2')
    """
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return ", ".join(value)
    return str(value)


def type_of_words(value: Value, type_: ValueType) -> ValueType:
    """The type with just the words of this value, where it has words: what is compared with them is checked against these."""
    if isinstance(value, tuple):
        return valuetypes.list_of(valuetypes.choice(*value))
    return valuetypes.choice(value) if isinstance(value, str) else type_
