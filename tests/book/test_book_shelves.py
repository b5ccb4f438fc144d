"""Where profiles are found, and how profiles lead to others."""

import sys
from pathlib import Path

import pytest
from book_folders import Folder

from planlint.book import NOWHERE, resolve
from planlint.faults import Faults


def test_each_place_is_searched(folder: Folder, tmp_path: Path) -> None:
    folder.profile("beside", "based-on: model-2020\n")
    folder.profile("given", "based-on: beside\n", tmp_path / "more")
    code = folder.resolve("given", folders=(tmp_path / "more", tmp_path / "not-there"))
    assert [one.name for one in code.profiles] == ["model-2020", "beside", "given"]


def test_what_is_found_twice_is_an_error_that_names_both(folder: Folder, tmp_path: Path) -> None:
    folder.profile("county", "based-on: model-2020\n")
    folder.profile("county", "based-on: model-2020\n", tmp_path / "more")
    (fault,) = folder.faults("county", folders=(tmp_path / "more",))
    assert "the profile 'county' is found in several places: " in fault
    assert "plan/profiles/county.yaml and " in fault and "more/county.yaml" in fault


def test_the_same_folder_by_two_ways_is_one(folder: Folder, tmp_path: Path) -> None:
    folder.profile("county", "based-on: model-2020\n")
    (tmp_path / "link").symlink_to(folder.plan)
    assert folder.faults("county", folders=(tmp_path / "link", folder.plan / ".." / "profiles")) == []


def test_a_missing_profile_has_no_place_and_names_what_there_is(folder: Folder) -> None:
    with pytest.raises(Faults) as found:
        folder.resolve("modle-2020")
    (fault,) = found.value.faults
    assert fault.span == NOWHERE
    there = "There are: model-2017, model-2020, model-2023."
    assert fault.message == f"there is no profile 'modle-2020'. Did you mean 'model-2020'? {there}"


@pytest.mark.parametrize("name", ["../secret", "/etc/passwd", "", "model-2020.yaml", "MODEL-2020"])
def test_a_name_is_no_path(folder: Folder, name: str) -> None:
    folder.write(folder.root / "plan" / "secret.yaml", "profile: secret\ntitle: x\n")
    assert f"there is no profile '{name}'" in folder.faults(name)[0]


def test_no_name_at_all_lists_what_there_is(folder: Folder) -> None:
    (fault,) = folder.faults()
    assert "there are: model-2017, model-2020, model-2023" in fault


def test_a_missing_base_has_its_place(folder: Folder) -> None:
    folder.profile("county", "based-on: model-2021\n")
    (fault,) = folder.faults("county")
    assert fault.startswith("county.yaml 3: there is no profile 'model-2021'. Did you mean 'model-20")


def test_profiles_that_are_based_on_each_other(folder: Folder) -> None:
    folder.profile("town", "based-on: county\n")
    folder.profile("county", "based-on: state\n")
    folder.profile("state", "based-on: county\n")
    assert folder.faults("town") == ["state.yaml 3: county, which is based on state, which is based on county: a circle"]
    folder.profile("alone", "based-on: alone\n")
    assert folder.faults("alone") == ["alone.yaml 3: alone, which is based on alone: a circle"]


def test_two_editions_and_none(folder: Folder) -> None:
    folder.profile("county", "based-on: model-2020\n")
    folder.profile("utility", "title: Utility\n")
    (fault,) = folder.faults("county", "model-2017")
    assert "these profiles rest on two editions, model-2020 and model-2017" in fault
    (fault,) = folder.faults("utility")
    assert "'utility' rests on no edition; name it beside a model edition" in fault


def test_a_model_says_whom_to_ask(folder: Folder) -> None:
    folder.profile("model-x", "edition: 2020\n")
    assert folder.faults("model-x") == ["model-x.yaml 1: a model edition says whom to confirm with: confirm-with is missing"]


def test_the_file_has_the_profiles_name(folder: Folder) -> None:
    folder.write(folder.plan / "shire.yaml", "profile: county\ntitle: x\nbased-on: model-2020\n")
    assert folder.faults("shire") == ["shire.yaml 1: the profile is called 'county' and its file 'shire'; they have one name"]


def test_a_faulty_neighbor_that_nobody_asked_for_hides_nothing(folder: Folder) -> None:
    folder.profile("broken", "based-on: [\n")
    folder.profile("county", "based-on: model-2020\nrenamed: [shire]\n")
    code = folder.resolve("shire")
    assert code.names == ("county",)
    assert [note.message for note in code.notes] == ["the profile 'shire' is called 'county' now"]
    assert code.notes[0].span == NOWHERE


@pytest.fixture
def package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An installed package that offers profiles; importing it would fail."""
    site = tmp_path / "site"
    info = site / "tern_rules-1.2.dist-info"
    info.mkdir(parents=True)
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: tern-rules\nVersion: 1.2\n")
    (info / "entry_points.txt").write_text("[planlint.profiles]\ntern = tern_rules.profiles\n")
    profiles = site / "tern_rules" / "profiles"
    profiles.mkdir(parents=True)
    (site / "tern_rules" / "__init__.py").write_text("raise RuntimeError('a profile runs no code')\n")
    (profiles / "harbor.yaml").write_text("profile: harbor\ntitle: Harbor\nbased-on: model-2020\n")
    monkeypatch.syspath_prepend(str(site))
    return profiles


def test_installed_packages_offer_profiles_and_run_nothing(folder: Folder, package: Path) -> None:
    code = folder.resolve("harbor")
    assert code.files[-1] == "tern-rules 1.2/harbor.yaml"
    assert "tern_rules" not in sys.modules


def test_a_package_and_a_folder_with_one_name(folder: Folder, package: Path) -> None:
    folder.profile("harbor", "based-on: model-2020\n")
    assert "tern-rules 1.2/harbor.yaml" in folder.faults("harbor")[0]


def test_planlint_brings_its_models() -> None:
    code = resolve(["model-2020"])
    assert (code.edition, code.names) == (2020, ("model-2020",))
    assert code.confirm_with.text == "your local building department or electrical inspector"
    assert [file.partition(" ")[0] for file in code.files] == ["planlint", "rules/profiles/model-2020.yaml"]
