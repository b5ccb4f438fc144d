"""Which plans a command is given: files as they are, folders searched for `*.plan`."""

import argparse
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from planlint.language import is_part, parts_included_by


@dataclass(frozen=True, slots=True)
class Found:
    """One plan to check; or, with a message, what was met instead. A message that is no error is only a note."""

    path: Path
    message: str = ""
    is_error: bool = False

    @property
    def shown(self) -> str:
        """The path as it is printed."""
        return self.path.as_posix()


def add_plans_to(parser: argparse.ArgumentParser) -> None:
    """Declare the plans of a command, what they are held against, and where its words go."""
    parser.add_argument("plans", nargs="+", metavar="PLAN", help="a plan's file, or a folder to search for *.plan")
    add_book_to(parser)


def add_book_to(parser: argparse.ArgumentParser) -> None:
    """Declare what plans are held against, and where the words of a command go."""
    parser.add_argument(
        "--profile", action="append", default=[], metavar="NAME", help="hold it against this rule book (may be given twice)"
    )
    parser.add_argument(
        "--profiles", action="append", default=[], type=Path, metavar="DIR", help="search this folder for rule books"
    )
    parser.add_argument("--to", type=Path, metavar="FILE", help="write to this file")


def find_plans(named: Iterable[str]) -> Iterator[Found]:
    """The plans in the order named, a folder's by their paths, each once.

    A file without a `plan` statement is a part of another plan: a search passes it over, and names it if nothing includes it.
    """
    seen: set[Path] = set()
    for name in named:
        path = Path(name)
        for found in _in_folder(path) if path.is_dir() else (Found(path),):
            if found.path.resolve() not in seen:
                seen.add(found.path.resolve())
                yield found


def _in_folder(folder: Path) -> Iterator[Found]:
    files = sorted(path for path in folder.rglob("*.plan") if path.is_file())
    if not files:
        yield Found(folder, "no *.plan is in this folder", is_error=True)
    parts = [path for path in files if is_part(path)]
    plans = [path for path in files if path not in parts]
    included = {part for plan in files for part in parts_included_by(plan)} if parts else set()
    yield from (Found(plan) for plan in plans)
    for part in parts:
        if part.resolve() not in included:
            yield Found(part, "it has no plan statement and no plan here includes it, so it was not checked")
