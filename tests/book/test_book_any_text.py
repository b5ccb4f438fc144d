"""Whatever stands in a file, it is read or its faults are said; nothing else is ever raised."""

from pathlib import Path

import pytest
from book_folders import rule_text
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planlint.book.profiles import read_profile
from planlint.book.rules import read_rule
from planlint.book.schemas import schema_faults
from planlint.book.source import read_text
from planlint.faults import Faults

PROFILE = "profile: deep\ntitle: x\nbased-on: model-2020\nsettings: {deep.extra: {value: 2 in, because: x}}\nadds: [a.yaml]\n"
RULE = rule_text("deep", settings="{a: {2017: 3 ft}}", examples='{met: "a\\tb"}')
BITS = st.text(alphabet="abc:-[]{}!&*#|>'\"%@`,?~\n\t \\é\u2028\u00850123456789./", max_size=12)


@pytest.mark.parametrize(("kind", "text"), [("rule", RULE), ("profile", PROFILE)])
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_a_file_with_anything_in_it(kind: str, text: str, tmp_path: Path, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(text)))
    changed = text[:at] + data.draw(BITS) + text[at + data.draw(st.integers(0, 8)) :]
    (tmp_path / "deep.yaml").write_bytes(changed.encode())
    try:
        if kind == "rule":
            record = read_rule(tmp_path / "deep.yaml", "deep.yaml", "topic")
            record.must.locate(0, len(record.must.text))
        else:
            read_profile(tmp_path, "deep", "deep.yaml")
    except Faults as found:
        assert all(fault.span.line >= 1 and fault.span.column >= 1 for fault in found.faults)


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=60))
def test_any_text(text: str) -> None:
    try:
        node, _ = read_text(text, "a.yaml")
        schema_faults(node, "profile")
    except Faults:
        pass


@settings(max_examples=60, deadline=None)
@given(content=st.binary(max_size=80))
def test_any_bytes(content: bytes, tmp_path_factory: pytest.TempPathFactory) -> None:
    path = tmp_path_factory.getbasetemp() / "deep.yaml"
    path.write_bytes(content)
    with pytest.raises(Faults):
        read_rule(path, "deep.yaml", "topic")
