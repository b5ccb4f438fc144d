"""Profiles: what is wrong with one, in its form and in what it names."""

import pytest
from book_folders import Folder, rule_text

from planlint.faults import Faults


@pytest.fixture
def book(folder: Folder) -> Folder:
    """Two rules in force everywhere, one from 2020 on, and one fact's setting."""
    folder.rule("deep", settings="{extra: 0 in, open: yes, most: 3, rooms: [attic], use: rod, least: 6 AWG copper}")
    folder.rule("outdoors", clause='{2020: "230.85", 2023: "230.85"}', settings="{far: 3 ft}")
    folder.rule("tidy", severity="advice", clause="{2017: practice, 2020: practice, 2023: practice}")
    folder.write(folder.rules / "settings.yaml", "fill-limit.nipple: {value: 24 in, clause: note 4, help: a short pipe}\n")
    return folder


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("setings: {}", 4, "'setings' is no key of a profile. Did you mean 'settings'?"),
        ("title: [a]", 2, "title is one text"),
        ("title: 2020", 2, "YAML takes 2020 for a number"),
        ("edition: 2020\nconfirm-with: x", 4, "a profile is a model edition or based on another one, not both"),
        ("preview: ~", 4, "preview says nothing"),
        ("checked: last year", 4, "checked is a date, which is written like 2026-03-14"),
        ("checked: 2026-02-30", 4, "checked is a date"),
        ("in-force-from: 2026", 4, "in-force-from is a date"),
        ("kept-by: ~", 4, "kept-by says nothing"),
        ("renamed: shire", 4, "renamed is a list"),
        ("confirm-with: {note: ask}", 4, "confirm-with lacks office"),
        ("confirm-with: {office: '', note: ask}", 4, "office says nothing"),
        ("confirm-with: {office: x, fone: 1}", 4, "'fone' is no key of confirm-with"),
        ("takes-up: [outdoors]", 4, "takes-up is keys and values"),
        ("takes-up: {outdoors: ~}", 4, "the clause and reason of outdoors says nothing"),
        ("takes-up: {outdoor: x}", 4, "there is no rule 'outdoor'. Did you mean 'outdoors'?"),
        ("leaves-out: {dep: x}", 4, "there is no rule 'dep'. Did you mean 'deep'?"),
        ("leaves-out: {deep: x}\ntakes-up: {deep: y}", 4, "'deep' is both taken up and left out"),
        ("leaves-out: {outdoors: x}", 4, "'outdoors' isn't in force under the 2017 edition here: it can't be left out"),
        ("changes: {depe: {severity: advice}}", 4, "there is no rule 'depe'. Did you mean 'deep'?"),
        ("changes: {deep: {severity: advice, clause: x}}", 4, "'clause' is no key of a change"),
        ("changes: {deep: {}}", 4, "a change sets severity, inspection or because"),
        ("changes: {deep: {severity: advise}}", 4, "Did you mean 'advice'?"),
        ("changes: {deep: {inspection: rough}}", 4, "Did you mean 'rough-in'?"),
        ("changes: {outdoors: {severity: advice}}", 4, "'outdoors' isn't in force under the 2017 edition here"),
        ("changes: {tidy: {severity: correction}}", 4, "behind 'tidy' stands no clause; say in 'because'"),
        ("settings: {deep.exra: 2 in}", 4, "there is no setting 'deep.exra'. Did you mean 'deep.extra'?"),
        ("settings: {extra: 2 in}", 4, "'extra' is not the name of a setting"),
        ("settings: {deep.extra: 2 A}", 4, "2 A is a current"),
        ("settings: {deep.extra: 2}", 4, "'deep.extra' is a length, and this is a number"),
        ("settings: {deep.open: 1}", 4, "'deep.open' is yes or no, and this is a number"),
        ("settings: {deep.most: yes}", 4, "'deep.most' is a number, and this is yes or no"),
        ("settings: {deep.rooms: attic}", 4, "'deep.rooms' is a list of words, and this is a word"),
        ("settings: {deep.use: [rod]}", 4, "'deep.use' is a word, and this is a list of words"),
        ("settings: {deep.least: 2 in}", 4, "'deep.least' is a wire size, and this is a length"),
        ("settings: {deep.extra: {value: 2 in}}", 4, "a setting lacks because"),
        ("settings: {deep.extra: {value: 2 in, because: x, 2017: 2 in}}", 4, "'2017' is no key of a setting"),
        ("settings: {outdoors.far: 2 ft}", 4, "'outdoors' isn't in force under the 2017 edition here: nobody reads its settings"),
        ("settings: {fill-limit.nipple: no}", 4, "'fill-limit.nipple' is a length, and this is yes or no"),
        ("adds: rules/x.yaml", 4, "adds is a list"),
        ("adds: [rules/x.yaml]", 4, "there is no file 'rules/x.yaml' in the profile's folder"),
        ("adds: [../x.yaml]", 4, "an added rule lies in the profile's own folder"),
        ("adds: [/etc/x.yaml]", 4, "an added rule lies in the profile's own folder"),
        ("adds: [rules/x.py]", 4, "an added rule is a file whose name ends in .yaml"),
        ("tables: {burial-covr: [{location: yard}]}", 4, "there is no table 'burial-covr'. Did you mean 'burial-cover'?"),
        ("tables: {moon: [{location: yard}]}", 4, "there is no table 'moon'. There are: ampacity, "),
        ("tables: {burial-cover: x.csv}", 4, "the rows for burial-cover is a list"),
        ("tables: {burial-cover: [yard]}", 4, "a row of a table is keys and values"),
        ("tables: {burial-cover: [{location: [yard]}]}", 4, "location is one figure or word of a table"),
        ("tables: {burial-cover: [{location: yard, nonmetalic: 24}]}", 4, "Did you mean 'nonmetallic'?"),
        ("tables: {burial-cover: [{location: yrd, nonmetallic: 24}]}", 4, "Did you mean 'yard'?"),
        ("tables: {burial-cover: [{nonmetallic: 24}]}", 4, "is named by location; this one leaves out 'location'"),
        ("tables: {burial-cover: [{location: yard, nonmetallic: 24 in}]}", 4, "column 'nonmetallic': '24 in' is not a number"),
        ("settings: {fill-limit.nipple: 2 inch}", 4, "'inch' is written 'in' here"),
        ("cases: [{plan: a.plan, expect: [dep]}]", 4, "there is no rule 'dep'. Did you mean 'deep'?"),
        ("cases: [{plan: ../a.plan, expect: []}]", 4, "the plan of a case lies in the profile's own folder"),
        ("cases: [{plan: a.plan}]", 4, "a case lacks expect"),
    ],
)
def test_each_fault_of_a_profile_is_said_at_its_line(book: Folder, text: str, line: int, said: str) -> None:
    book.profile("county", ("" if "title:" in text else "title: County\n") + f"based-on: model-2017\n{text}\n")
    found = book.faults("county")
    if "title:" in text:
        line = 3
    assert len(found) == 1
    assert found[0].startswith(f"county.yaml {line}: ")
    assert said in found[0]


def test_all_faults_come_at_once(book: Folder) -> None:
    book.profile("county", "based-on: model-2017\nleaves-out: {dep: x}\nsettings: {deep.open: 3, deep.far: 2}\nadds: [x.yaml]\n")
    assert [fault.partition(":")[0] for fault in book.faults("county")] == ["county.yaml 6"]
    book.profile("county", "based-on: model-2017\nleaves-out: {dep: x}\nsettings: {deep.open: 3, deep.far: 2}\n")
    assert [fault.partition(":")[0] for fault in book.faults("county")] == ["county.yaml 4", "county.yaml 5", "county.yaml 5"]


def test_a_change_that_says_which_local_clause_makes_a_practice_a_correction(book: Folder) -> None:
    book.profile("county", "based-on: model-2017\nchanges: {tidy: {severity: correction, because: Act 1}}\n")
    assert book.resolve("county").rules["tidy"].severity == "correction"


def test_a_profile_without_an_edition_may_name_what_its_neighbor_lacks(book: Folder) -> None:
    changes = "changes: {outdoors: {inspection: final}}"
    book.profile("utility", f"settings: {{outdoors.far: 2 ft}}\nleaves-out: {{outdoors: x}}\n{changes}\n")
    assert book.faults("model-2017", "utility") == []
    assert "outdoors" not in book.resolve("model-2020", "utility").rules


def test_a_wrong_cell_is_told_at_its_place(book: Folder) -> None:
    book.profile("county", "based-on: model-2017\ntables:\n  burial-cover:\n    - {location: yard, nonmetallic: 24 in}\n")
    with pytest.raises(Faults) as caught:
        book.resolve("county")
    (fault,) = caught.value.faults
    assert (fault.span.line, fault.span.column, fault.span.end_column) == (6, 37, 42)


def test_a_word_that_no_plan_can_say_is_no_word_of_a_facts_setting(book: Folder) -> None:
    book.write(book.rules / "settings.yaml", "fill-limit.rooms: {value: [attic], clause: note 4, help: rooms}\n")
    book.profile("county", "based-on: model-2017\nsettings: {fill-limit.rooms: [attic, kichen]}\n")
    assert book.faults("county") == ["county.yaml 4: 'kichen' is no word for 'fill-limit.rooms'. Did you mean 'kitchen'?"]
    book.profile("county", "based-on: model-2017\nsettings: {fill-limit.rooms: [attic, kitchen]}\n")
    assert book.faults("county") == []


def test_a_file_that_is_not_there_is_proposed(book: Folder) -> None:
    book.write(book.plan / "own" / "bonds.yaml", rule_text("bonds"))
    book.profile("county", "based-on: model-2017\nadds: [own/bond.yaml]\n")
    assert "Did you mean 'own/bonds.yaml'?" in book.faults("county")[0]


def test_a_link_out_of_the_profiles_folder(book: Folder) -> None:
    outside = book.write(book.root / "outside.yaml", rule_text("outside"))
    book.profile("county", "based-on: model-2017\nadds: [outside.yaml]\n")
    (book.plan / "outside.yaml").symlink_to(outside)
    assert book.faults("county") == ["county.yaml 4: 'outside.yaml' leads out of the profile's folder"]


def test_an_added_rule_is_shown_with_its_whole_path(book: Folder) -> None:
    book.profile("county", "based-on: model-2017\nadds: [own/other.yaml]\n")
    book.write(book.plan / "own" / "other.yaml", rule_text("other"))
    assert (book.plan / "own" / "other.yaml").as_posix() in book.resolve("county").files


def test_an_added_rule_with_a_name_that_is_taken_or_a_fault(book: Folder) -> None:
    book.profile("county", "based-on: model-2017\nadds: [own/deep.yaml, own/other.yaml]\n")
    book.write(book.plan / "own" / "deep.yaml", rule_text("deep"))
    book.write(book.plan / "own" / "other.yaml", rule_text("other", severity="hard"))
    first, second = book.faults("county")
    assert first.startswith("deep.yaml 1: a rule 'deep' is there already: ")
    assert second.startswith("other.yaml 5: severity is one of")


@pytest.mark.parametrize(
    ("rules", "said"),
    [
        ({"a": {"instead_of": "[b, c]"}, "b": {}}, ["a.yaml 12: there is no rule 'c'."]),
        (
            {"a": {"instead_of": "[b]"}, "b": {"instead_of": "[c]"}, "c": {"instead_of": "[a]"}},
            [f"{x}.yaml 12: '{x}' and '{y}' stand in for each other; one of them has to speak" for x, y in ("ab", "bc", "ca")],
        ),
        ({"a": {"instead_of": "[a]"}}, ["a.yaml 12: 'a' and 'a' stand in for each other; one of them has to speak"]),
        (
            {"a": {"instead_of": "[b]", "severity": "caution"}, "b": {}},
            ["a.yaml 12: 'b' is a correction here, and 'a', which speaks for it, a caution"],
        ),
    ],
)
def test_rules_that_speak_for_others(folder: Folder, rules: dict[str, dict[str, str]], said: list[str]) -> None:
    for name, changes in rules.items():
        folder.rule(name, **changes)
    assert folder.faults("model-2020") == said


def test_speaking_for_a_harder_rule_depends_on_the_profile(folder: Folder) -> None:
    folder.rule("a", instead_of="[b]", severity="caution")
    folder.rule("b", severity="caution")
    folder.profile("county", "based-on: model-2020\nchanges: {b: {severity: correction, because: Act 1}}\n")
    assert folder.faults("model-2020") == []
    assert folder.faults("county") == ["a.yaml 12: 'b' is a correction here, and 'a', which speaks for it, a caution"]


def test_names_and_settings_that_are_taken(folder: Folder) -> None:
    folder.rule("a", renamed="[b, z]", settings="{most: 3}")
    folder.rule("b", renamed="[z]")
    folder.write(folder.rules / "settings.yaml", "a.most: {value: 2, clause: x, help: y}\n")
    first, second, third = folder.faults("model-2020")
    assert first == "a.yaml 1: 'b' can't be a former name of 'a': 'b' has it"
    assert second.startswith("a.yaml 13: a setting 'a.most' is there already: ")
    assert third == "b.yaml 1: 'z' can't be a former name of 'b': 'a' has it"


def test_the_settings_of_facts(folder: Folder) -> None:
    folder.write(folder.rules / "settings.yaml", "nipple: {value: 2 in, clause: x, help: y}\nfill.nipple: {value: 2 in}\n")
    assert folder.faults("model-2020") == [
        "settings.yaml 1: 'nipple' is not the name of a setting, which is written like fact.setting",
        "settings.yaml 2: a setting lacks clause, help",
    ]
