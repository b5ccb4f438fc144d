"""Rule files: what each key may say, and every fault at its place."""

from pathlib import Path

import pytest
from book_folders import Folder, rule_text

from planlint.book import RuleRecord, load_rules
from planlint.book.rules import read_rule
from planlint.faults import Fault, Faults
from planlint.positions import Span
from planlint.quantities import Length
from planlint.trade import WireSizes
from planlint.valuetypes import NUMBER, WIRE_SIZE, YES_NO, choice, list_of, quantity


def read(tmp_path: Path, **changes: str) -> RuleRecord:
    path = tmp_path / "too-shallow.yaml"
    path.write_text(rule_text("too-shallow", **changes), encoding="utf-8")
    return read_rule(path, "rules/underground/too-shallow.yaml", "underground")


def faults(tmp_path: Path, **changes: str) -> tuple[Fault, ...]:
    with pytest.raises(Faults) as found:
        read(tmp_path, **changes)
    return found.value.faults


def test_a_rule_file_with_every_key(tmp_path: Path) -> None:
    record = read(
        tmp_path,
        about="[trench, raceway]",
        when="under is yard",
        settings="{extra: 2 in, banned: [attic, garage], open: {2017: no, 2020: yes}, most: 3}",
        instead_of="[other-rule]",
        renamed="[trench-shallow]",
        examples='{met: "trench a\\n", broken: "trench b"}',
    )
    assert (record.name, record.topic, record.about) == ("too-shallow", "underground", ("trench", "raceway"))
    assert record.when is not None and record.when.text == "under is yard"
    assert record.must.text == "cover >= 18 in"
    assert record.must.locate(9, 14).column == len("must: cover >= ") + 1
    assert (record.severity, record.hazard, record.inspection) == ("correction", "shock", "underground")
    assert record.clause == {2017: "300.5(A)", 2020: "300.5(A)", 2023: "300.5(A)"}
    assert [named.text for named in record.instead_of] == ["other-rule"]
    assert record.renamed == ("trench-shallow",)
    assert {answer: text.text for answer, text in record.examples.items()} == {"met": "trench a", "broken": "trench b"}
    assert record.span == Span("rules/underground/too-shallow.yaml", 1, 7, 1, 18)
    extra, banned, open_, most = record.settings.values()
    assert (extra.name, extra.values, extra.type) == ("too-shallow.extra", {None: Length.read("2 in")}, quantity("length"))
    assert (banned.values, banned.type) == ({None: ("attic", "garage")}, list_of(choice("attic", "garage")))
    assert (open_.values, open_.type) == ({2017: False, 2020: True}, YES_NO)
    assert (most.values, most.type) == ({None: 3}, NUMBER)


def test_what_may_be_left_out_is_nothing_and_not_an_empty_word(tmp_path: Path) -> None:
    record = read(tmp_path, clause='{2023: "225.41"}')
    assert record.about == ("trench",)
    assert record.when is None
    assert (record.settings, record.instead_of, record.renamed, record.examples) == ({}, (), (), {})
    assert record.clause == {2023: "225.41"}
    assert record.why == "a spade"


@pytest.mark.parametrize(
    ("changes", "line", "said"),
    [
        ({"sevrity": "correction"}, 12, "'sevrity' is no key of a rule. Did you mean 'severity'?"),
        ({"must": ""}, 1, "a rule lacks must"),
        ({"must": "[a]"}, 3, "must is one text"),
        ({"must": "yes"}, 3, 'must is a text, and YAML takes yes for yes or no; put it in quotes: "yes"'),
        ({"must": '"  "'}, 3, "must says nothing"),
        ({"must": "~"}, 3, "must says nothing"),
        ({"why": "!!python/name:os.system x"}, 11, "put it in quotes"),
        ({"rule": "too-deep"}, 1, "the rule is called 'too-deep' and its file 'too-shallow'"),
        ({"about": "trenches"}, 2, "not 'trenches'. Did you mean 'trench'?"),
        ({"about": "[]"}, 2, "about names at least one kind"),
        ({"about": "[trench, trench]"}, 2, "'trench' is named twice"),
        ({"severity": "warning"}, 5, "severity is one of correction, caution, advice, not 'warning'"),
        ({"severity": "corection"}, 5, "Did you mean 'correction'?"),
        ({"hazard": "electricution"}, 6, "hazard is one of fire, shock"),
        ({"inspection": "roughin"}, 7, "Did you mean 'rough-in'?"),
        ({"clause": "{2020: 230.70}"}, 8, 'YAML takes 230.70 for a number; put it in quotes: "230.70"'),
        ({"clause": "{2020: 2017}"}, 8, "YAML takes 2017 for a number"),
        ({"clause": "{2020: no}"}, 8, "YAML takes no for yes or no"),
        ({"clause": "{2020: ~}"}, 8, "the clause of 2020 says nothing"),
        ({"clause": "{2014: 300.5(A)}"}, 8, "an edition is one of 2017, 2020, 2023, 2026, not '2014'"),
        ({"clause": "{}"}, 8, "clause names at least one edition"),
        ({"clause": "300.5(A)"}, 8, "clause is keys and values"),
        ({"clause": "{2020: practice}"}, 8, "behind 'practice' stands no clause"),
        ({"examples": "{good: x}"}, 12, "'good' is no key of examples"),
        ({"instead_of": "other"}, 12, "instead-of is a list"),
        ({"instead_of": "[a, a]"}, 12, "'a' is named twice"),
        ({"settings": "{most: 3 fet}"}, 12, "is no value of a setting"),
        ({"settings": "{most: 3ft}"}, 12, "is no value of a setting"),
        ({"settings": '{most: "3"}'}, 12, "in quotes '3' is words; leave the quotes off"),
        ({"settings": '{most: "no"}'}, 12, "in quotes 'no' is words; leave the quotes off"),
        ({"settings": "{most: 0x1F}"}, 12, "'0x1F' is no value of a setting"),
        ({"settings": "{most: 1:30}"}, 12, "'1:30' is no value of a setting"),
        ({"settings": "{most: ~}"}, 12, "the value of a setting is a quantity like"),
        ({"settings": "{most: {2017: 3 ft, 2020: 3 A}}"}, 12, "a setting is of one type: length is before it"),
        ({"settings": "{most: {2016: 3 ft}}"}, 12, "an edition is one of"),
        ({"settings": "{most: {}}"}, 12, "or one for each edition"),
        ({"settings": "{most: 6 AWG}"}, 12, "each size names its metal"),
        ({"settings": "{most: [attic, 3 ft]}"}, 12, "'3 ft' is not a word"),
        ({"settings": "{Most: 3}"}, 12, "'Most' is not a name"),
        ({"settings": "{most: {value: 3, dimension: length}}"}, 12, "only a quantity has a dimension"),
        ({"settings": "{most: {value: 3 in, dimension: lenght}}"}, 12, "Did you mean 'length'?"),
        ({"settings": "{most: {value: 3 in, hlep: x}}"}, 12, "Did you mean 'help'?"),
    ],
)
def test_each_fault_is_said_at_its_line(tmp_path: Path, changes: dict[str, str], line: int, said: str) -> None:
    found = faults(tmp_path, **changes)
    assert (found[0].span.line, len(found)) == (line, 1)
    assert said in found[0].message


def test_all_faults_come_at_once_and_at_the_very_word(tmp_path: Path) -> None:
    settings = "{most: 6 AWG copper, least: 5 AWG copper}"
    found = faults(tmp_path, severity="hard", about="[trench, rceway]", settings=settings, at="")
    assert [(fault.span.line, fault.span.column) for fault in found] == [(1, 1), (2, 17), (4, 11), (11, 39)]
    assert "'5' is no wire size" in found[-1].message


@pytest.mark.parametrize(
    ("written", "value", "kind"),
    [
        ("3 %", "3 %", quantity("percent")),
        ("6 ft 7 in", "6 ft 7 in", quantity("length")),
        ("0 in", "0 in", quantity("length")),
        ("-10 F", "-10 F", quantity("temperature")),
        ("{value: 60 F, dimension: temperature difference}", "60 F", quantity("temperature difference")),
        ("{value: 300 lb/ft, dimension: force per length}", "300 lb/ft", quantity("force per length")),
        ("0", "0", NUMBER),
        ("2.8", "2.8", NUMBER),
        ("no", "False", YES_NO),
        ("off", "False", YES_NO),
        ("PVC-80", "PVC-80", choice("PVC-80")),
        ("6 AWG copper", "6 AWG copper", WIRE_SIZE),
        ('"6 AWG copper, 4 AWG aluminum"', "6 AWG copper, 4 AWG aluminum", WIRE_SIZE),
    ],
)
def test_a_setting_is_typed_by_how_it_is_written(tmp_path: Path, written: str, value: str, kind: object) -> None:
    (setting,) = read(tmp_path, settings=f"{{most: {written}}}").settings.values()
    assert str(setting.values[None]) == value
    assert setting.type == kind


def test_words_of_all_editions_make_the_type_of_a_setting(tmp_path: Path) -> None:
    settings = read(tmp_path, settings="{in: {2017: [attic], 2020: [garage, attic]}, use: {2017: rod, 2023: pipe}}").settings
    assert settings["in"].type == list_of(choice("attic", "garage"))
    assert settings["use"].type == choice("rod", "pipe")


def test_the_wire_sizes_of_a_setting_are_by_metal(tmp_path: Path) -> None:
    value = read(tmp_path, settings='{least: "6 AWG copper, 4 AWG aluminum"}').settings["least"].values[None]
    assert isinstance(value, WireSizes)
    assert [str(size) for size in value.by_metal.values()] == ["6 AWG copper", "4 AWG aluminum"]


@pytest.mark.parametrize(
    ("values", "expected"),
    [
        ("{2017: 1, 2020: 2, 2023: 3}", [1, 2, 3]),
        ("{2020: 2, 2023: 3}", [2, 2, 3]),
        ("{2023: 3}", [3, 3, 3]),
        ("{2017: 1, 2023: 3}", [1, 3, 3]),
        ("{2017: 1, 2020: 0}", [1, 0, 0]),
        ("7", [7, 7, 7]),
    ],
)
def test_an_edition_without_a_value_takes_the_nearest_later_ones(tmp_path: Path, values: str, expected: list[int]) -> None:
    setting = read(tmp_path, settings=f"{{most: {values}}}").settings["most"]
    assert [setting.for_edition(edition) for edition in (2017, 2020, 2023)] == expected


def test_a_folder_of_topics(folder: Folder) -> None:
    folder.rule("b-rule", "underground")
    folder.rule("a-rule", "underground")
    folder.rule("c-rule", "bonding")
    folder.write(folder.rules / "tables" / "cover.yaml", "not: a rule")
    folder.write(folder.rules / "bonding" / "notes.txt", "not a rule")
    found = load_rules(folder.rules)
    assert [(name, record.topic) for name, record in found.items()] == [
        ("c-rule", "bonding"), ("a-rule", "underground"), ("b-rule", "underground"),
    ]  # fmt: skip
    assert found["a-rule"].span.file == "rules/underground/a-rule.yaml"


def test_the_faults_of_all_files_come_at_once_and_a_name_is_taken_once(folder: Folder) -> None:
    folder.rule("a-rule", "bonding")
    folder.rule("a-rule", "underground")
    folder.rule("b-rule", "underground", severity="hard")
    with pytest.raises(Faults) as found:
        load_rules(folder.rules)
    said = [(fault.span.file, fault.message) for fault in found.value.faults]
    assert [file for file, _ in said] == ["rules/underground/a-rule.yaml", "rules/underground/b-rule.yaml"]
    assert said[0][1] == "a rule 'a-rule' is there already: rules/bonding/a-rule.yaml, line 1, column 7"
