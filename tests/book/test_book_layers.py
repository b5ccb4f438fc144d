"""Layers: what a model edition, a state, a county and what cuts across them come to."""

import datetime

import pytest
from book_folders import Folder

from planlint.book import Confirm
from planlint.book.tables import Tables
from planlint.quantities import Length, Percent
from planlint.valuetypes import choice, list_of


@pytest.fixture
def book(folder: Folder) -> Folder:
    """Four rules: one in all editions, one from 2020 on, one with settings, one of common practice."""
    folder.rule("deep", settings="{extra: 0 in, open: yes, most: 3, rooms: [attic]}", renamed="[old-deep]")
    folder.rule("outdoors", clause='{2020: "230.85", 2023: "230.85"}', inspection="service")
    folder.rule("drop", severity="caution", settings="{most-drop: 3 %}", clause="{2017: note, 2020: note, 2023: note}")
    folder.rule("tidy", severity="advice", clause="{2017: practice, 2020: practice, 2023: practice}")
    folder.write(
        folder.rules / "settings.yaml",
        "fill-limit.nipple: {value: {2017: 24 in, 2023: 30 in}, clause: Ch. 9 note 4, help: a short pipe}\n",
    )
    return folder


def test_a_model_edition_alone(book: Folder) -> None:
    code = book.resolve("model-2020")
    assert (code.edition, code.title, code.names, code.changes_count) == (2020, "Model 2020", ("model-2020",), 0)
    assert code.confirm_with == Confirm("the inspector")
    assert set(code.rules) == {"deep", "outdoors", "drop", "tidy"}
    assert code.rules["outdoors"].clause_lines == ("2020: 230.85",)
    assert code.rules["tidy"].clause_lines == ("2020: common practice, no clause",)
    assert code.rules["outdoors"].layers == ()
    assert code.setting("drop.most-drop").trail == "3 % model-2020"


def test_a_rule_is_in_force_where_the_edition_has_it(book: Folder) -> None:
    code = book.resolve("model-2017")
    assert set(code.rules) == {"deep", "drop", "tidy"}
    assert set(code.known_rules) == {"deep", "outdoors", "drop", "tidy"}


def test_a_setting_of_a_fact_by_edition(book: Folder) -> None:
    values = [book.resolve(f"model-{year}").setting("fill-limit.nipple").value for year in (2017, 2020, 2023)]
    assert values == [Length.read("24 in"), Length.read("30 in"), Length.read("30 in")]


def test_layers_on_layers(book: Folder) -> None:
    book.profile("state", "based-on: model-2020\nsettings:\n  drop.most-drop: 2 %\n  deep.extra: 2 in\nkept-by: them\n")
    book.profile("county", "based-on: state\nconfirm-with: the county\nsettings:\n\n\n  drop.most-drop: 1 %\n")
    code = book.resolve("county")
    drop = code.setting("drop.most-drop")
    assert drop.value == Percent.read("1 %")
    assert drop.trail == "3 % model-2020, 2 % state line 5, 1 % county line 8"
    assert code.setting("deep.extra").trail == "0 in model-2020, 2 in state line 6"
    assert code.confirm_with == Confirm("the county")
    assert [one.name for one in code.profiles] == ["model-2020", "state", "county"]
    assert [file.rpartition("/")[2] for file in code.files] == ["rules", "model-2020.yaml", "state.yaml", "county.yaml"]
    assert code.changes_count == 2


@pytest.mark.parametrize(
    ("name", "value"), [("deep.extra", "0 in"), ("deep.open", "no"), ("deep.most", "0"), ("deep.rooms", "[]")]
)
def test_a_value_that_is_nothing_still_wins(book: Folder, name: str, value: str) -> None:
    """Merged by presence: the state gives something else, the county gives nothing, no or an empty list."""
    book.profile("state", "based-on: model-2020\nsettings: {deep.extra: 2 in, deep.open: yes, deep.most: 4, deep.rooms: [den]}\n")
    book.profile("county", f"based-on: state\nsettings: {{{name}: {value}}}\n")
    expected = {"deep.extra": Length.read("0 in"), "deep.open": False, "deep.most": 0, "deep.rooms": ()}
    code = book.resolve("county")
    assert code.setting(name).value == expected[name]
    assert code.setting(name).value is not None
    others = {"deep.extra": Length.read("2 in"), "deep.open": True, "deep.most": 4, "deep.rooms": ("den",)}
    for other in expected.keys() - {name}:
        assert code.setting(other).value == others[other]


def test_the_words_of_a_setting_are_those_in_force(book: Folder) -> None:
    book.profile("county", "based-on: model-2020\nsettings: {deep.rooms: [attic, den]}\n")
    assert book.resolve("model-2020").setting("deep.rooms").type == list_of(choice("attic"))
    assert book.resolve("county").setting("deep.rooms").type == list_of(choice("attic", "den"))


def test_a_rule_is_taken_up_under_an_edition_that_lacks_it(book: Folder) -> None:
    book.profile("county", "based-on: model-2017\ntakes-up:\n  outdoors: Ordinance 2\n")
    code = book.resolve("county")
    rule = code.rules["outdoors"]
    assert rule.clause_lines == ("Ordinance 2 (county)", "2023: 230.85 (not in the 2017 edition)")
    assert [str(layer) for layer in rule.layers] == ["taken up county line 5"]
    assert code.changes_count == 1


def test_taking_up_a_rule_in_force_only_adds_the_clause(book: Folder) -> None:
    book.profile("county", "based-on: model-2020\ntakes-up: {outdoors: Ordinance 2}\n")
    code = book.resolve("county")
    assert code.rules["outdoors"].clause_lines == ("Ordinance 2 (county)", "2020: 230.85")
    assert code.changes_count == 0


def test_leaving_out_and_taking_up_again(book: Folder) -> None:
    book.profile("state", "based-on: model-2020\nleaves-out: {outdoors: not adopted}\n")
    book.profile("county", "based-on: state\ntakes-up: {outdoors: Ordinance 2}\n")
    state = book.resolve("state")
    assert "outdoors" not in state.rules and "outdoors" in state.known_rules
    assert state.changes_count == 1
    county = book.resolve("county").rules["outdoors"]
    assert county.clause_lines == ("Ordinance 2 (county)", "2020: 230.85")
    assert [str(layer) for layer in county.layers] == ["left out state line 4", "taken up county line 4"]


def test_a_change_of_severity_and_inspection(book: Folder) -> None:
    change = "changes: {drop: {severity: correction, because: Act 3}}"
    book.profile("state", f"based-on: model-2020\nconfirm-with: the state\n{change}\n")
    book.profile("county", "based-on: state\nconfirm-with: the county\nchanges: {drop: {inspection: final}}\n")
    code = book.resolve("county")
    rule = code.rules["drop"]
    assert (rule.severity, rule.inspection) == ("correction", "final")
    assert rule.clause_lines == ("Act 3 (state)", "2020: note")
    assert rule.confirm_with == Confirm("the county")
    assert book.resolve("state").rules["drop"].confirm_with == Confirm("the state")
    assert code.rules["deep"].confirm_with == Confirm("the county")
    assert code.changes_count == 2
    assert book.resolve("model-2020").rules["drop"].severity == "caution"


def test_the_clause_of_a_setting_is_the_rules(book: Folder) -> None:
    book.profile("county", "based-on: model-2020\nsettings: {deep.extra: {value: 2 in, because: Ordinance 5}}\n")
    code = book.resolve("county")
    assert code.rules["deep"].clause_lines == ("Ordinance 5 (county)", "2020: 300.5(A)")
    assert code.setting("deep.extra").layers[-1].because == "Ordinance 5"


def test_confirm_with_is_inherited_and_never_empty(book: Folder) -> None:
    book.profile("county", "based-on: model-2020\n")
    book.profile("town", 'based-on: county\nconfirm-with: {office: "Desk", note: "Ask early."}\n')
    assert book.resolve("county").confirm_with.text == "the inspector"
    assert book.resolve("town").confirm_with.text == "Desk. Ask early."


def test_an_added_rule(book: Folder) -> None:
    book.profile("county", "based-on: model-2017\nconfirm-with: the county\nadds: [own/photo.yaml]\n")
    text = (book.rules / "topic" / "deep.yaml").read_text().replace("rule: deep", "rule: photo").replace("{2017: 300.5(A), ", "{")
    book.write(book.plan / "own" / "photo.yaml", text.replace("renamed: [old-deep]\n", ""))
    code = book.resolve("county")
    rule = code.rules["photo"]
    assert rule.clause_lines == ("300.5(A) (county)",)
    assert rule.record.topic == "county"
    assert rule.confirm_with == Confirm("the county")
    assert code.setting("photo.extra").trail == "0 in county"
    assert [file.rpartition("/profiles/")[2] for file in code.files[1:]] == ["model-2017.yaml", "county.yaml", "own/photo.yaml"]
    assert code.changes_count == 1
    assert "photo" not in book.resolve("model-2017").known_rules


def test_what_cuts_across_localities(book: Folder) -> None:
    book.profile("county", "based-on: model-2020\nconfirm-with: the county\nsettings: {drop.most-drop: 2 %}\n")
    book.profile("utility", "confirm-with: the utility\nsettings: {deep.extra: 6 in}\nchanges: {deep: {inspection: final}}\n")
    for names in (("county", "utility"), ("utility", "county")):
        code = book.resolve(*names)
        assert code.names == names
        assert code.setting("deep.extra").value == Length.read("6 in")
        assert code.setting("drop.most-drop").value == Percent.read("2 %")
        assert code.rules["deep"].confirm_with == Confirm("the utility")
        assert code.rules["drop"].confirm_with == Confirm("the county")
        assert code.changes_count == 3
    assert book.resolve("county", "utility").title == "county and utility"


def test_two_profiles_with_one_base(book: Folder) -> None:
    book.profile("state", "based-on: model-2020\nsettings: {deep.extra: 2 in}\n")
    book.profile("east", "based-on: state\nsettings: {drop.most-drop: 2 %}\n")
    book.profile("west", "based-on: state\nsettings: {deep.extra: 4 in}\n")
    code = book.resolve("east", "west")
    assert code.setting("deep.extra").value == Length.read("4 in")
    assert code.setting("drop.most-drop").value == Percent.read("2 %")


def test_two_profiles_that_say_the_same(book: Folder) -> None:
    book.profile("county", "based-on: model-2020\nsettings: {deep.extra: 6 in}\n")
    book.profile("utility", "settings: {deep.extra: 0.5 ft}\n")
    assert book.resolve("county", "utility").setting("deep.extra").value == Length.read("6 in")


@pytest.mark.parametrize(
    ("one", "other", "said"),
    [
        ("settings: {deep.extra: 2 in}", "settings: {deep.extra: 3 in}", "the setting 'deep.extra'"),
        ("settings: {deep.open: no}", "settings: {deep.open: yes}", "the setting 'deep.open'"),
        ("changes: {deep: {severity: advice}}", "changes: {deep: {severity: caution}}", "the severity of 'deep'"),
        ("changes: {deep: {inspection: final}}", "changes: {deep: {inspection: service}}", "the inspection of 'deep'"),
        ("takes-up: {deep: a}", "leaves-out: {deep: b}", "the rule 'deep'"),
    ],
)
def test_two_profiles_that_disagree(book: Folder, one: str, other: str, said: str) -> None:
    book.profile("county", f"based-on: model-2020\n{one}\n")
    book.profile("utility", f"{other}\n")
    (fault,) = book.faults("county", "utility")
    assert fault.startswith(f"utility.yaml 3: 'county' and 'utility' don't agree on {said}, and neither is based on the other")


def test_former_names_work_and_are_told(book: Folder) -> None:
    book.profile("county", "based-on: model-2020\nsettings: {old-deep.extra: 2 in}\ntakes-up: {old-deep: x}\nrenamed: [shire]\n")
    book.profile("town", "based-on: shire\n")
    code = book.resolve("town")
    assert code.rules["deep"].clause_lines[0] == "x (county)"
    assert code.setting("deep.extra").value == Length.read("2 in")
    assert code.renamed == {"old-deep": "deep"}
    assert [note.message for note in code.notes] == [
        "the profile 'shire' is called 'county' now",
        "the rule 'old-deep' is called 'deep' now",
        "the rule 'old-deep' is called 'deep' now",
    ]


def test_the_oldest_check_of_the_named_profiles_counts(book: Folder) -> None:
    book.profile("county", "based-on: model-2020\nchecked: 2026-03-14\nin-force-from: 2026-01-01\n")
    book.profile("utility", "checked: '2024-05-01'\n")
    assert book.resolve("model-2020").checked is None
    assert book.resolve("county").checked == datetime.date(2026, 3, 14)
    assert book.resolve("county").profiles[-1].in_force_from == datetime.date(2026, 1, 1)
    assert book.resolve("county", "utility").checked == datetime.date(2024, 5, 1)


def test_rows_of_tables(book: Folder) -> None:
    """The row comes out of `Tables`, and only under the profile that names it (NFPA 70 Table 110.26(A)(1) has 3 ft)."""
    row = "{item: depth, volts-to: 150, condition: 1, value: 42 in, because: Code 3}"
    book.profile("county", f"based-on: model-2020\ntables: {{working-space: [{row}]}}\n")
    code = book.resolve("county")
    assert code.tables_replaced == {"working-space": [{"item": "depth", "volts-to": "150", "condition": "1", "value": "42 in"}]}
    assert [(row.profile, row.because, row.span.line) for row in code.table_rows] == [("county", "Code 3", 4)]
    assert code.changes_count == 1
    depths = [str(Tables(one.tables_replaced).working_depth(120, 1)) for one in (code, book.resolve("model-2020"))]
    assert depths == ["42 in", "3 ft"]


def test_rows_of_two_profiles(book: Folder) -> None:
    row = "tables: {{working-space: [{{item: depth, volts-to: 150, condition: {}, value: {} in}}]}}\n"
    book.profile("county", "based-on: model-2020\n" + row.format(1, 42))
    book.profile("utility", row.format(2, 42))
    assert len(book.resolve("county", "utility").tables_replaced["working-space"]) == 2
    book.profile("utility", row.format(1, 48))
    (fault,) = book.faults("county", "utility")
    assert fault.startswith("utility.yaml 3: 'county' and 'utility' don't agree on the table working-space, depth, 150, 1: value")


def test_a_setting_that_is_not_there(book: Folder) -> None:
    with pytest.raises(LookupError, match=r"there is no setting 'deep.extar'. Did you mean 'deep.extra'\?"):
        book.resolve("model-2020").setting("deep.extar")
