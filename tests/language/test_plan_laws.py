"""Laws that hold for every plan: printing and reading back gives the same plan; any bytes give elements or faults."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planlint.faults import Faults
from planlint.language import Reading, Unopened, read_plan, read_text
from planlint.language.writing import write
from planlint.plan import KINDS, Element, Stated
from planlint.plan.types import COUNT, NUMBER, TEXT
from planlint.quantities import DIMENSIONS

FIXTURES = Path(__file__).parents[2] / "fixtures"
NAMES = st.from_regex(r"[a-z][a-z0-9]{0,3}(-[a-z0-9]{1,3}){0,2}", fullmatch=True).filter(
    lambda name: name not in ("none", "unknown")
)
WORDS = st.text(st.characters(exclude_categories=("C", "Zl", "Zp"), exclude_characters='"'), min_size=1, max_size=12).filter(
    str.strip
)
NUMBERS = st.one_of(
    st.integers(0, 99999).map(str),
    st.decimals(0, 999, places=3).map(lambda number: f"{number:f}"),
    st.tuples(st.integers(0, 99), st.integers(1, 15), st.integers(1, 16)).map(lambda n: f"{n[0]}-{n[1]}/{n[2]}"),
)


def quantity(stated: Stated[Any]) -> st.SearchStrategy[str]:
    """A quantity in any unit of the attribute's dimension."""
    value_type = stated.type.value_type.of or stated.type.value_type
    units = st.sampled_from(sorted(DIMENSIONS[value_type.dimension].units))
    return st.tuples(NUMBERS, units).map(" ".join)


def value(stated: Stated[Any], names: dict[str, list[str]]) -> st.SearchStrategy[str] | None:
    """One value of an attribute as a plan may write it, or None if the plan has nothing that it could name."""
    kind = stated.type
    if kind.kinds:
        fitting = [name for each, found in names.items() if kind.kinds == ("any",) or each in kind.kinds for name in found]
        return st.sampled_from(fitting) if fitting else None
    if kind.words:
        return st.sampled_from(kind.words)
    if kind in (TEXT, COUNT, NUMBER):
        return {TEXT: WORDS.map(lambda words: f'"{words}"'), COUNT: st.integers(0, 999999).map(str), NUMBER: NUMBERS}[kind]
    if (kind.value_type.of or kind.value_type).base == "quantity":
        return quantity(stated)
    return st.sampled_from([part.strip() for part in stated.example.split(",") if part.strip() != "none"])


@st.composite
def plan_texts(draw: Callable[..., Any]) -> str:
    """A plan with every kind of attribute, in every layout that the language allows."""
    statements = draw(
        st.lists(st.tuples(st.sampled_from(sorted(KINDS.keys() - {"plan"})), NAMES), max_size=7, unique_by=lambda s: s[1])
    )
    names: dict[str, list[str]] = {}
    for kind, name in statements:
        names.setdefault(kind, []).append(name)
    lines = []
    for kind, name in [("plan", f'"{draw(WORDS)}"'), *statements]:
        lines.append(f"{kind} {name}")
        lines += draw(attributes(kind, {each: [n for n in found if n != name] for each, found in names.items()}))
    return draw(st.sampled_from(["\n", "\r\n"])).join(draw(st.permutations(lines)) if len(lines) == 1 else lines)


@st.composite
def attributes(draw: Callable[..., Any], kind: str, names: dict[str, list[str]]) -> list[str]:
    chosen = draw(st.lists(st.sampled_from(sorted(KINDS[kind].attributes)), max_size=8, unique=True))
    written = []
    for name in chosen:
        stated = KINDS[kind].attributes[name]
        one = value(stated, names)
        special = ["unknown"] + ["none"] * stated.none
        if one is None or draw(st.integers(0, 9)) == 0:
            written.append(f"{name} {draw(st.sampled_from(special))}")
        elif stated.type.is_list:
            several = draw(st.lists(one, min_size=1, max_size=3, unique=bool(stated.type.kinds or stated.type.words)))
            written.append(
                f"{name} {draw(st.sampled_from([', ', ',', ' ,  ']) if stated.type is not COUNT else ', ').join(several)}"
            )
        else:
            written.append(f"{name} {draw(one)}")
    indent = draw(st.sampled_from([" ", "  ", "       "]))
    lines, row = [], ""
    for at, attribute in enumerate(written):
        row = f"{row}; {attribute}" if row else indent + attribute
        if at == len(written) - 1 or draw(st.booleans()):
            lines.append(row + draw(st.sampled_from(["", " ", "  # a comment; with, marks"])))
            row = ""
    return lines


def seen(reading: Reading) -> list[Any]:
    """All that a reading says, its places left out."""

    def plain(one: Any) -> Any:
        if isinstance(one, Element):
            return one.kind, one.name
        return tuple(map(plain, one)) if isinstance(one, tuple) else (type(one), str(one))

    return [
        (e.kind, e.name, sorted(e.unknown), [(name, e.states(name) and plain(e.value(name))) for name in e.standing])
        for e in reading.elements
    ]


@given(plan_texts())
@settings(max_examples=100, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_printing_and_reading_back_gives_the_same_plan(text: str) -> None:
    reading = read_text(text)
    printed = write(reading.elements)
    again = read_text(printed)
    assert seen(again) == seen(reading)
    for before, after in zip(reading.elements, again.elements, strict=True):
        assert all(
            before.value(name) == after.value(name)
            for name in before.standing
            if before.states(name) and not _refers(before, name)
        )
    assert write(again.elements) == printed


def _refers(element: Element, attribute: str) -> bool:
    return bool(type(element).attributes[attribute].type.kinds)


@pytest.mark.parametrize("name", ["cottage", "cottage-faults"])
def test_the_cottages_read_back_as_they_are(name: str) -> None:
    reading = read_plan(FIXTURES / f"{name}.plan")
    assert seen(read_text(write(reading.elements))) == seen(reading)


def test_every_example_of_the_vocabulary_can_be_read() -> None:
    """An example that names another statement is taken as a name of a fitting kind; several examples are told one by one."""
    for kind, cls in KINDS.items():
        for name, stated in cls.attributes.items():
            if stated.type.kinds:
                continue
            examples = [stated.example] if stated.type is TEXT or stated.type.is_list else stated.example.split(",")
            for example in examples:
                head = 'plan "T"' if kind == "plan" else f'plan "T"\n{kind} a'
                element = read_text(f"{head}\n  {name} {example.strip()}\n").elements[-1]
                assert element.states(name), f"{kind} {name} {example}"


PIECES = st.sampled_from(
    ['plan "T"', "\n", "\n  ", "\r\n", "\t", " ", ";", ",", "#", '"', "'", "place", "trench", "circuit", "a", "b-c", "cover",
     "panel", "hot", "label", "26 in", "2 x 4/0 aluminum", "4/0", "1-1/2", "#4", "none", "unknown", 'include "x.plan"', "use",
     "complete", "{met}", "%s", "\ufeff", "\u200b", "é", "ａ", "\x0c", "\x85", "\u2028", "-", ".", "9" * 30]
)  # fmt: skip


def check_that_it_is_told(read: Callable[[], Reading], text: str) -> None:
    """Elements, or faults with a place inside the text and one line of words each; never another exception."""
    lines = text.removeprefix("\ufeff").split("\n")
    try:
        reading = read()
    except Unopened as fault:
        assert fault.message
    except Faults as faults:
        assert faults.faults
        for fault in faults.faults:
            span = fault.span
            assert 1 <= span.line <= len(lines) and span.end_line == span.line
            assert 1 <= span.column <= span.end_column <= len(lines[span.line - 1]) + 1
            assert fault.message and fault.message.isprintable(), repr(fault.message)
    else:
        assert all(isinstance(element, Element) for element in reading.elements)


@given(st.one_of(st.text(), st.lists(PIECES, max_size=40).map("".join), st.lists(PIECES, max_size=40).map(" ".join)))
@settings(max_examples=200, deadline=None)
def test_any_text_gives_elements_or_faults(text: str) -> None:
    check_that_it_is_told(lambda: read_text(text), text)


@given(st.one_of(st.binary(), st.lists(st.one_of(PIECES.map(str.encode), st.binary(max_size=3)), max_size=30).map(b" ".join)))
@settings(max_examples=200, deadline=None)
def test_any_bytes_give_elements_or_faults(data: bytes) -> None:
    check_that_it_is_told(lambda: read_plan("x.plan", source=lambda _: data), data.decode(errors="replace"))


@given(plan_texts(), st.data())
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_a_plan_with_a_slip_gives_elements_or_faults(text: str, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(text)))
    slipped = text[:at] + data.draw(PIECES) + text[at + data.draw(st.integers(0, 3)) :]
    check_that_it_is_told(lambda: read_text(slipped), slipped)
