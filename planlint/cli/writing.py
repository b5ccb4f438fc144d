"""Where a command's words go: to the terminal in color, to a pipe or a file without, or as JSON in one piece."""

import io
import os
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TextIO, TypeVar

from planlint.cli.files import Found
from planlint.faults import Fault, Faults
from planlint.language import Unopened
from planlint.output.layout import PLAIN_WIDTH, Page, literal, print_page

T = TypeVar("T")


def wants_color(stream: TextIO) -> bool:
    """Whether color is welcome: on a terminal, unless NO_COLOR is set."""
    return stream.isatty() and not os.environ.get("NO_COLOR")


def page_width(stream: TextIO) -> int:
    """The terminal's width, or a plain one for pipes and files."""
    columns = os.get_terminal_size(stream.fileno()).columns if stream.isatty() else 0
    return columns or PLAIN_WIDTH  # some terminals don't tell


@dataclass(frozen=True, slots=True)
class Files:
    """Several papers, each to be a file of its own in one folder: names and texts."""

    folder: Path
    texts: Mapping[str, str]

    def write(self) -> None:
        """Make the folder if it isn't there, and write each file. Raises Unwritten."""
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
        except OSError as fault:
            raise Unwritten(f"{self.folder.as_posix()}: this folder can't be made: {fault.strerror}") from None
        for name, text in self.texts.items():
            _write_file(self.folder / name, text)


Paper = Page | str | list[str] | dict[str, Any] | Files
_WORDED = ("text", "markdown", "json")


class Unwritten(Exception):
    """A file that the output was meant for and that can't be written; one line."""


def _write_file(path: Path, text: str) -> None:
    try:
        path.write_text(text, encoding="utf-8", newline="\n")
    except OSError as fault:
        raise Unwritten(f"{path.as_posix()}: it can't be written: {fault.strerror}") from None


def _nothing() -> None:
    """What there is to do before words are printed, where nobody shows how far things are."""


class Writer:
    """Takes reports, worksheets and other papers, and faults, as they come. Text goes out at once, JSON when all is known.

    `output` is the form that was asked for; `what` the papers are called together in JSON. In a form that has no room for words
    of its own (a table, a page, a drawing), what is wrong with a plan goes to the standard error. `before_words` is called
    before anything is printed.
    """

    def __init__(self, stream: TextIO, output: str, what: str) -> None:
        self._stream = stream
        self._output = output
        self._json = output == "json"
        self._what = what
        self._color = wants_color(stream)
        self.width = page_width(stream)
        self._records: list[dict[str, Any]] = []
        self._errors: list[dict[str, Any]] = []
        self._begun = False
        self._further: list[str] = []
        self._aside = output not in _WORDED
        self.before_words: Callable[[], None] = _nothing

    @classmethod
    @contextmanager
    def to(cls, path: Path | None, output: str, what: str) -> "Iterator[Writer]":
        """A writer to a file, or to standard output. A file is written whole or not at all; further sheets go beside it."""
        if path is None:
            writer = cls(sys.stdout, output, what)
            yield writer
            writer._finish()
            return
        whole = io.StringIO()
        writer = cls(whole, output, what)
        yield writer
        writer._finish()
        if writer._aside and not writer._begun:
            return
        for number, text in enumerate([whole.getvalue(), *writer._further], start=1):
            _write_file(path if number == 1 else path.with_name(f"{path.stem}-{number}{path.suffix}"), text)

    def put(self, **forms: Callable[[int], Paper]) -> None:
        """One plan's paper, in the form that was asked for: each makes a paper of that width."""
        self.write(forms[self._output](self.width))

    def write(self, made: Paper) -> None:
        """One plan's paper as it is: a page, a text, sheets, a record for JSON, or files of their own. Raises Unwritten."""
        if isinstance(made, Files):
            made.write()
            return
        if isinstance(made, dict):
            self._records.append(made)
            return
        if isinstance(made, list):
            if len(made) > 1 and self._stream is sys.stdout:
                raise Unwritten(f"It has {len(made)} sheets, each a file: name the first one with --to.")
            made, *self._further = made
        self._separate()
        if isinstance(made, str):
            self._stream.write(made)
        else:
            print_page(made, self._stream, self._color)

    def faults(self, faults: Sequence[Fault]) -> None:
        """What is wrong with a text that could not be read in full."""
        if self._json:
            from planlint.output.check.record import fault_record

            self._errors.extend(fault_record(fault) for fault in faults)
            return
        from planlint.output.check.page import faults_page

        if self._aside:
            print_page(faults_page(faults, page_width(sys.stderr)), sys.stderr, wants_color(sys.stderr))
            return
        self._separate()
        print_page(faults_page(faults, self.width), self._stream, self._color)

    def unopened(self, path: str, message: str) -> None:
        """A file that could not be opened, or is left alone: one line."""
        if self._json:
            from planlint.output.check.record import unopened_record

            self._errors.append(unopened_record(path, message))
            return
        stream = sys.stderr if self._aside else self._stream
        if not self._aside:
            self._separate()
        stream.write(f"{literal(path)}: {literal(message)}\n")

    def read(self, found: Found, opened: Callable[[Path], T]) -> tuple[T | None, int]:
        """What a plan gives when it is opened; or nothing, and the exit status, once it is told why not."""
        if found.message:
            self.unopened(found.shown, found.message)
            return None, 2 if found.is_error else 0
        try:
            return opened(found.path), 0
        except Faults as faults:
            self.faults(faults.faults)
        except Unopened as fault:
            self.unopened(fault.path, fault.message)
        return None, 2

    def _separate(self) -> None:
        self.before_words()
        if self._begun:
            self._stream.write("\n")
        self._begun = True

    def _finish(self) -> None:
        if self._json:
            from planlint.output.check.record import document_json

            self._stream.write(document_json(self._what, self._records, self._errors))
        self._stream.flush()
