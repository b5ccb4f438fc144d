"""Facts of an installed package: found by its entry point, usable in a local rule, named in the report."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
MODULE = '''"""Facts of a place."""

from planlint.facts.engine import Job, fact
from planlint.plan import Trench
from planlint.quantities import Length


@fact
def {name}(trench: Trench, job: Job) -> Length:
    """Half of its cover. The place's own."""
    half = trench.cover * 0.5
    job.step(f"half of {{trench.cover}}", half, "Ordinance, section 9")
    return half
'''
RULE = """rule: half-too-little
about: trench
must: half-cover >= 12 in
at: cover
severity: correction
hazard: shock
inspection: underground
clause: {2020: "Ordinance, section 9"}
finding: "Half the cover of {name} is {half-cover}."
remedy: Dig deeper.
why: The place has its own way.
"""


def lay_out(folder: Path, name: str = "half_cover", body: str = MODULE) -> None:
    package = folder / "site" / "tern_facts"
    package.mkdir(parents=True)
    (package / "__init__.py").write_text(body.format(name=name))
    info = folder / "site" / "tern_facts-1.2.dist-info"
    info.mkdir()
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: tern-facts\nVersion: 1.2\n")
    (info / "entry_points.txt").write_text("[planlint.facts]\ntern = tern_facts\n")
    (folder / "profiles" / "rules").mkdir(parents=True)
    head = "profile: place\ntitle: A made-up place\nbased-on: model-2020\nadds: [rules/half-too-little.yaml]\n"
    (folder / "profiles" / "place.yaml").write_text(head)
    (folder / "profiles" / "rules" / "half-too-little.yaml").write_text(RULE)
    (folder / "ditch.plan").write_text('plan "Ditch"\n  profile place\ntrench ditch\n  under yard; cover 20 in\n')


def run(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    paths = os.pathsep.join([str(folder / "site"), str(ROOT)])
    command = [sys.executable, "-m", "planlint", *arguments]
    return subprocess.run(command, cwd=folder, env=os.environ | {"PYTHONPATH": paths}, capture_output=True, text=True)


def test_a_local_rule_may_use_a_fact_of_an_installed_package(tmp_path: Path) -> None:
    lay_out(tmp_path)
    done = run(tmp_path, "check", "ditch.plan", "--output", "json")
    report = json.loads(done.stdout)["reports"][0]
    finding = next(one for one in report["findings"] if one["rule"] == "half-too-little")
    assert finding["message"] == "Half the cover of ditch is 10 in."
    assert {"fact": "half-cover", "text": "half of 20 in", "value": "10 in"}.items() <= finding["working"][0].items()
    assert "tern-facts 1.2" in report["profile"]["files"]


def test_its_numbers_are_on_the_worksheet(tmp_path: Path) -> None:
    lay_out(tmp_path)
    done = run(tmp_path, "worksheet", "ditch.plan", "--topic", "from-installed-packages")
    assert done.returncode == 0, done.stderr
    assert "half-cover: 10 in" in done.stdout


@pytest.mark.parametrize(
    ("name", "body", "words"),
    [
        ("trench_depth", MODULE, "declared twice, in planlint.facts.trenches and tern_facts"),
        ("half_cover", "import nothing_of_that_name\n", "ModuleNotFoundError"),
    ],
)
def test_a_package_that_cannot_be_taken_is_named(tmp_path: Path, name: str, body: str, words: str) -> None:
    lay_out(tmp_path, name, body)
    done = run(tmp_path, "check", "ditch.plan")
    said = " ".join(done.stdout.split())
    assert done.returncode == 2, done.stderr
    assert "tern-facts 1.2" in said
    assert words in said
