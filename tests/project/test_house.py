"""The house of DEVELOPERS.md: imports go down only, heavy libraries stand in one place, files can be read in one sitting."""

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "planlint"
MODULES = sorted(PACKAGE.rglob("*.py"))
FLOORS = {
    "amounts": 0, "quantities": 0, "trade": 0, "valuetypes": 0, "positions": 0, "faults": 0, "nearest": 0, "data": 0,
    "installed": 0,
    "plan": 1,
    "language": 2, "book": 2, "expressions": 2,
    "facts": 3,
    "rulebook": 4, "checking": 4, "permissions": 4, "report": 4, "workings": 4, "localities": 4, "desk": 4, "papers": 4,
    "output": 5,
    "cli": 6, "__main__": 6, "__init__": 6,
}  # fmt: skip


def room(module: str) -> str:
    return module.split(".")[1] if "." in module else "__init__"


def imported(path: Path) -> set[str]:
    """The planlint rooms that a module imports while it runs (what only type checkers read doesn't count)."""
    found = set()
    tree = ast.parse(path.read_text(encoding="utf-8"))
    unread = {
        id(inner)
        for node in ast.walk(tree)
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test)
        for inner in ast.walk(node)
    }
    for node in ast.walk(tree):
        if id(node) in unread:
            continue
        if isinstance(node, ast.ImportFrom) and node.module and node.module.split(".")[0] == "planlint":
            found |= {room(node.module)} if "." in node.module else {alias.name for alias in node.names}
    return found


def own(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_imports_go_down(path: Path) -> None:
    here = own(path)
    for there in imported(path) - {here, "__version__"}:
        assert FLOORS[there] <= FLOORS[here], f"{here} imports {there}, a floor above it"
        if FLOORS[there] == FLOORS[here] == 2:
            pytest.fail(f"{here} and {there} are on one floor and don't know each other")


@pytest.mark.parametrize("library", ["lark", "yaml", "rich", "jsonschema", "jinja2", "markupsafe"])
def test_a_heavy_library_is_imported_inside_functions_only(library: str) -> None:
    for path in MODULES:
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for node in tree.body:
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            names += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            assert not any(name.split(".")[0] == library for name in names), f"{path.name} imports {library} at its top"


def test_a_module_fits_one_sitting() -> None:
    long = {path.name: len(path.read_text(encoding="utf-8").splitlines()) for path in MODULES}
    assert {name: lines for name, lines in long.items() if lines > 410} == {}


def test_facts_read_attributes_only_through_their_declarations() -> None:
    """Going round NotStated would turn what isn't stated into an answer."""
    for path in (PACKAGE / "facts").glob("*.py"):
        text = path.read_text(encoding="utf-8")
        assert not re.search(r"__dict__|_by_kind|_naming", text), f"{path.name} goes round the graph"


def test_a_check_does_without_what_it_does_not_need() -> None:
    """Of one plan, to a pipe: no rich, no jsonschema, no network, no package metadata."""
    code = "import sys; from planlint.cli import main; main(['check', 'fixtures/cottage.plan']); print(*sorted(sys.modules))"
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True)
    loaded = set(done.stdout.splitlines()[-1].split())
    assert "planlint.checking" in loaded, done.stderr
    assert not loaded & {"rich", "jsonschema", "socket", "asyncio", "urllib.request", "networkx", "hypothesis", "jinja2"}
    assert not any(name.startswith(("planlint.papers", "planlint.workings")) for name in loaded)
