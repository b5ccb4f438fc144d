"""YAML as the book reads it: places, texts as written, and what is refused."""

from pathlib import Path

import pytest

from planlint.book.source import Fields, Items, Node, Scalar, read_source, read_text
from planlint.faults import Faults
from planlint.positions import Span


def scalar(text: str, *path: str) -> Scalar:
    node: Node = read_text(text, "a.yaml")[0]
    for step in path:
        if isinstance(node, Fields):
            node = node.entries[step].value
        else:
            assert isinstance(node, Items)
            node = node.members[int(step)]
    assert isinstance(node, Scalar)
    return node


def slice_of(text: str, span: Span) -> str:
    lines = text.split("\n")
    if span.line == span.end_line:
        return lines[span.line - 1][span.column - 1 : span.end_column - 1]
    between = lines[span.line : span.end_line - 1]
    return "\n".join([lines[span.line - 1][span.column - 1 :], *between, lines[span.end_line - 1][: span.end_column - 1]])


@pytest.mark.parametrize(
    ("written", "word"),
    [
        ("must: cover >= cover-needed + extra-cover\n", "cover-needed"),
        ('must: "cover >= cover-needed"   # why\n', "cover-needed"),
        ("must: 'the panel''s cover-needed'\n", "cover-needed"),
        ('must: "é😀 \\u00e9\\t\\x41 \\"cover-needed\\" end"\n', "cover-needed"),
        ("{must: cover >= cover-needed, x: 1}\n", "cover-needed"),
        ("must: >\n  {name} has {cover}\n  of cover;\n\n  {cover-needed} is the least\n", "cover-needed"),
        ("must: >-\n    a\n      more indented cover-needed\n    b\n", "cover-needed"),
        ("must: |\n  a\n\n    b cover-needed\n", "cover-needed"),
        ("must: plain over\n  several   \n\n  lines cover-needed\n", "cover-needed"),
        ('must: "quoted over\n  several \\\n  \\  lines \n\n\n  cover-needed"\n', "cover-needed"),
        ("must: 'it''s over\n  two lines'' cover-needed'\nx: 1\n", "cover-needed"),
    ],
)
def test_a_stretch_inside_a_scalar_has_its_place(written: str, word: str) -> None:
    """The stretch found through the value, cut out of the file again, is the same word."""
    value = scalar(written, "must")
    start = value.text.index(word)
    assert slice_of(written, value.locate(start, start + len(word))) == word


def test_every_visible_character_of_a_folded_text_has_its_place() -> None:
    written = "must: >\n  one {two}\n  three\n\n  four\n   five  \n"
    value = scalar(written, "must")
    for at, character in enumerate(value.text):
        if not character.isspace():
            assert slice_of(written, value.locate(at, at + 1)) == character


def test_a_stretch_over_several_lines_ends_where_it_ends() -> None:
    span = scalar("must: >\n  one two\n  three\n", "must").locate(4, 13)
    assert (span.line, span.column, span.end_line, span.end_column) == (2, 7, 3, 8)


def test_columns_count_code_points() -> None:
    assert scalar('why: "😀é"\nat: x\n', "why").span == Span("a.yaml", 1, 6, 1, 10)


@pytest.mark.parametrize(
    ("written", "tag"),
    [
        ("230.70", "number"), ("2017", "number"), ("1:30", "number"), ("no", "yes-no"), ("on", "yes-no"),
        ("2026-03-14", "date"), ("2026-03", "text"), ("~", "nothing"), ('"230.70"', "text"), ("250.24(A)(5)", "text"),
        ("!!python/name:os.system x", "name:os.system"),
    ],
)  # fmt: skip
def test_a_scalar_keeps_its_text_and_what_yaml_takes_it_for(written: str, tag: str) -> None:
    value = scalar(f"clause: {written}\n", "clause")
    assert value.tag.endswith(tag.rpartition(":")[2])
    if " " not in written:
        assert value.text == written.strip('"')


def test_a_byte_order_mark_and_carriage_returns_shift_nothing(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes("\ufeffrule: a\r\nat: b\r\n".encode())
    node, _ = read_source(path, "a.yaml")
    assert isinstance(node, Fields)
    assert node.entries["rule"].value.span == Span("a.yaml", 1, 7, 1, 8)
    assert node.entries["at"].value.span == Span("a.yaml", 2, 5, 2, 6)


@pytest.mark.parametrize(
    ("text", "line", "column", "said"),
    [
        ("", 1, 1, "nothing in this file"),
        ("# only a comment\n", 1, 1, "nothing in this file"),
        ("rule: a: b\n", 1, 8, "this isn't YAML"),
        ("rule: [a\nb: c\n", 2, 2, "this isn't YAML"),
        ("a\n---\nb\n", 2, 1, "this isn't YAML"),
        ("rule: a\nat: b\u2028c\n", 2, 6, "U+2028"),
        ("rule: a\rat: b\n", 1, 8, "U+000D"),
        ("rule: a\x00\n", 1, 8, "U+0000"),
        ("[" * 100_000, 1, 1, ""),
    ],
)
def test_what_cannot_be_read_at_all(text: str, line: int, column: int, said: str) -> None:
    with pytest.raises(Faults) as found:
        read_text(text, "a.yaml")
    (fault,) = found.value.faults
    assert said in fault.message
    if said:
        assert (fault.span.line, fault.span.column) == (line, column)


@pytest.mark.parametrize(
    ("text", "line", "column", "said"),
    [
        ("rule: a\nat: b\nrule: c\n", 3, 1, "'rule' is given twice; the first is in line 1"),
        ("a: &x [b]\nc: *x\n", 1, 4, "repeat this in another place"),
        ("a: &x [*x]\n", 1, 4, "repeat this in another place"),
        ("[a, b]: c\n", 1, 1, "a key is one word"),
    ],
)
def test_what_is_wrong_but_hides_nothing(text: str, line: int, column: int, said: str) -> None:
    _, faults = read_text(text, "a.yaml")
    assert [(fault.span.line, fault.span.column) for fault in faults] == [(line, column)]
    assert said in faults[0].message


def test_files_that_cannot_be_opened(tmp_path: Path) -> None:
    (tmp_path / "big.yaml").write_bytes(b"a" * 1_000_001)
    (tmp_path / "bytes.yaml").write_bytes(b"rule: a\nat: \xe9\xff\n")
    for name, said, place in (
        ("none.yaml", "can't be opened", (1, 1)),
        ("big.yaml", "larger than 1,000,000 bytes", (1, 1)),
        ("bytes.yaml", "isn't text in UTF-8", (2, 5)),
    ):
        with pytest.raises(Faults) as found:
            read_source(tmp_path / name, name)
        (fault,) = found.value.faults
        assert said in fault.message
        assert (fault.span.line, fault.span.column) == place


@pytest.mark.parametrize("style", ["plain", "'", '"', ">", "|"])
def test_both_of_yamls_readers_give_the_same_places(style: str, monkeypatch: pytest.MonkeyPatch) -> None:
    import yaml

    words = "one two three"
    written = {"plain": f"a: {words}\n", ">": f"a: >\n  one\n  two\n\n  {words}\n", "|": f"a: |\n  é\n  {words}\n"}
    text = written.get(style, f"a: {style}{words}{style}\nb: c\n")
    quick = scalar(text, "a")
    monkeypatch.setattr(yaml, "CSafeLoader", yaml.SafeLoader)
    slow = scalar(text, "a")
    at = quick.text.index("three")
    assert quick.text == slow.text
    assert quick.locate(at, at + 5) == slow.locate(at, at + 5)
    assert slice_of(text, slow.locate(at, at + 5)) == "three"
