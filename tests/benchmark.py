"""Wall time of `planlint check` beside a peer's, as a ratio measured in one run: `python -m tests.benchmark [PLAN]`.

The peer is yamllint on the same data written as YAML: also Python, also a linter, also one start per run. Pairs are run in turn,
because the machine drifts; byte code is compiled first. A command to look at, never a timed test.
Needs the extra `benchmark`.
"""

import compileall
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import yaml

from planlint.language import read_plan

ROOT = Path(__file__).parents[1]
PAIRS = 15


def as_yaml(path: Path) -> str:
    """The plan's statements as a YAML list, each value as it is written."""
    text = path.read_text(encoding="utf-8").split("\n")
    statements = []
    for element in read_plan(path).elements:
        statement: dict[str, object] = {"kind": element.kind, "name": element.name}
        for name, standing in element.standing.items():
            values = [text[span.line - 1][span.column - 1 : span.end_column - 1] for span in standing.values]
            statement[name] = values if len(values) > 1 else values[0]
        statements.append(statement)
    return str(yaml.safe_dump(statements, sort_keys=False, explicit_start=True))


def timed(command: list[str]) -> float:
    """Wall time of one run, in seconds."""
    start = time.perf_counter()
    subprocess.run(command, cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    return time.perf_counter() - start


def main() -> None:
    """Print the medians and the ratio."""
    plan = Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "fixtures" / "cottage.plan"
    compileall.compile_dir(str(ROOT / "planlint"), quiet=1)
    with tempfile.TemporaryDirectory() as folder:
        peer_file = Path(folder) / "plan.yaml"
        peer_file.write_text(as_yaml(plan), encoding="utf-8")
        ours = [sys.executable, "-m", "planlint", "check", str(plan)]
        peers = [sys.executable, "-m", "yamllint", str(peer_file)]
        pairs = [(timed(ours), timed(peers)) for _ in range(PAIRS)]
    ratios = [mine / peer for mine, peer in pairs]
    print(f"planlint check: {1000 * statistics.median(mine for mine, _ in pairs):.0f} ms (median of {PAIRS})")
    print(f"yamllint:       {1000 * statistics.median(peer for _, peer in pairs):.0f} ms")
    print(f"ratio:          {statistics.median(ratios):.2f} (from {min(ratios):.2f} to {max(ratios):.2f})")


if __name__ == "__main__":
    main()
