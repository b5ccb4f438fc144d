"""What travels with planlint: its models, its made-up localities, the settings of its facts."""

from pathlib import Path

import pytest

from planlint.book import EDITIONS, Code, resolve
from planlint.book.settings import load_settings
from planlint.quantities import Length

RULES = Path(__file__).parents[2] / "rules"
LOCALITIES = {"tern-county": 2020, "plover-township": 2017}


@pytest.fixture(scope="module")
def models() -> dict[int, Code]:
    return {edition: resolve([f"model-{edition}"]) for edition in EDITIONS}


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_model_changes_nothing(models: dict[int, Code], edition: int) -> None:
    code = models[edition]
    assert code.changes_count == 0
    assert set(code.rules) == {name for name, record in code.known_rules.items() if edition in record.clause}
    assert all(len(setting.layers) == 1 for setting in code.settings.values())
    assert "inspector" in code.confirm_with.text


def test_settings_stand_in_the_order_of_their_names() -> None:
    names = [tuple(name.split(".")) for name in load_settings(RULES / "settings.yaml", "rules/settings.yaml")]
    assert names == sorted(names)


def test_every_setting_of_a_fact_says_where_it_stands() -> None:
    for name, setting in load_settings(RULES / "settings.yaml", "rules/settings.yaml").items():
        assert setting.help and setting.clause, name


@pytest.mark.parametrize("name", LOCALITIES)
def test_a_made_up_locality(name: str) -> None:
    code = resolve([name])
    assert code.edition == LOCALITIES[name]
    assert code.checked is not None
    assert code.notes == ()
    assert code.setting("service-wires-long-inside.most-inside").value == Length.read("3 ft")
    assert code.rules["service-wires-long-inside"].clause_lines[0].endswith(f"({name})")
    if name == "tern-county":
        assert code.setting("trench-too-shallow.extra-cover").trail == "0 in model-2020, 2 in tern-county line 16"
        assert code.rules["total-voltage-drop"].severity == "correction"
        assert code.rules["outdoor-emergency-disconnect-missing"].clause_lines[0].startswith("Local ordinance, section 2")
        assert code.changes_count == 3
    else:
        assert code.setting("footing-electrode-no-reachable-end.least-stub-ups").value == 2
        assert code.changes_count == 2
