"""The wheel carries the same data as the repository, and a check from a zipped install finds it."""

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return next(folder.glob("*.whl"))


def in_repository(name: str) -> dict[str, bytes]:
    folder = ROOT / name
    return {path.relative_to(ROOT).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.mark.parametrize("name", ["rules", "schema"])
def test_the_wheel_has_the_repositorys_data(wheel: Path, name: str) -> None:
    with zipfile.ZipFile(wheel) as archive:
        prefix = "planlint/_data/"
        packed = {
            path.removeprefix(prefix): archive.read(path) for path in archive.namelist() if path.startswith(f"{prefix}{name}/")
        }
    assert packed == in_repository(name)


def test_a_zipped_install_checks_a_plan(wheel: Path, tmp_path: Path) -> None:
    code = f"import sys; sys.path.insert(0, {str(wheel)!r}); from planlint.cli import main; sys.exit(main(sys.argv[1:]))"
    plan = ROOT / "fixtures" / "cottage.plan"
    done = subprocess.run([sys.executable, "-c", code, "check", str(plan)], cwd=tmp_path, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "Tern County" in done.stdout


def test_no_data_is_hidden_from_git() -> None:
    paths = [*in_repository("rules"), *in_repository("schema")]
    done = subprocess.run(["git", "check-ignore", "--stdin"], cwd=ROOT, input="\n".join(paths), capture_output=True, text=True)
    assert done.stdout == ""
