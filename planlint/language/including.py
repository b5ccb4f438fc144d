"""The files of one plan: the one that is given, and those it takes in, of the same folder tree and never from outside it."""

import os
from collections.abc import Callable
from pathlib import Path, PurePosixPath, PureWindowsPath

from planlint.language.collecting import Collector, Names
from planlint.language.lines import FileReader, Include
from planlint.language.opening import Unopened, decoded, shown_path
from planlint.nearest import proposal
from planlint.plan.elements import Draft

MOST_FILES = 100
Source = Callable[[Path], bytes]
"""Gives a file's bytes, or raises Unopened: the disk, an editor's open texts, a revision in a repository."""


class Gathering:
    """The files of one reading. `files` are those read, as shown; `drafts` come in source order, included ones in place."""

    def __init__(self, root: Path, source: Source, collector: Collector, names: Names) -> None:
        self.files: list[str] = []
        self.found: list[Path] = []
        self._root = Path(os.path.realpath(root))
        self._source = source
        self._collector = collector
        self._names = names
        self._first: dict[Path, Include | None] = {}
        self._open: list[Path] = []

    def drafts(self, path: Path, include: Include | None = None) -> list[Draft]:
        """The drafts of a file and of what it includes. Raises Unopened for the file itself, never for an included one."""
        shown = shown_path(path)
        text, whole = decoded(self._source(path), shown, self._collector)
        real = Path(os.path.realpath(path))
        self._first[real] = include
        self.found.append(real)
        self.files.append(shown)
        reader = FileReader(shown, self._collector, self._names, included=include is not None)
        reader.read(text, whole)
        self._open.append(real)
        drafts: list[Draft] = []
        for item in reader.items:
            drafts.extend(self._included(item, path.parent) if isinstance(item, Include) else [item])
        self._open.pop()
        return drafts

    def _included(self, include: Include, folder: Path) -> list[Draft]:
        wrong = _wrong_form(include.path)
        path = folder / include.path
        try:
            wrong = wrong or self._wrong_place(include.path, path)
            if not wrong:
                return self.drafts(path, include)
        except Unopened as fault:
            near = proposal(path.name, [each.name for each in path.parent.glob("*.plan")])
            wrong = f"'{include.path}' can't be taken in: {fault.message}{'.' if near else ''}{near}"
        self._collector.add(include.span, wrong)
        self._names.lost.add("any")
        return []

    def _wrong_place(self, written: str, path: Path) -> str:
        """What is wrong with taking in this file, by where it lies and what has been read; nothing if nothing is."""
        real = Path(os.path.realpath(path))
        if not real.is_relative_to(self._root):
            return f"'{written}' lies outside the plan's folder; a plan takes in files of its own folder and those below it"
        if real == self._open[-1]:
            return f"'{written}' is this very file; a file can't include itself"
        if real in self._open:
            return f"'{written}' includes this file itself: the includes run in a circle"
        if real in self._first:
            first = self._first[real]
            return f"'{written}' is included twice" + (f"; first in {first.span.file}, line {first.span.line}" if first else "")
        if len(self.found) >= MOST_FILES:
            return f"A plan has at most {MOST_FILES} files"
        return ""


def _wrong_form(written: str) -> str:
    if "\\" in written:
        return "Folders in the path of an include are parted by /, not by a backslash"
    if PurePosixPath(written).is_absolute() or PureWindowsPath(written).drive or written.startswith("~"):
        return f'\'{written}\' is no path from this file\'s folder, like "circuits.plan" or "studio/circuits.plan"'
    if not written.endswith(".plan"):
        return f"'{written}' is no plan's file, whose name ends in .plan"
    return ""
