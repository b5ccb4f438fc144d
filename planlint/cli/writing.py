"""Where a command's words go: to the terminal in color, to a pipe or a file without, or as JSON in one piece."""

import io
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any, TextIO, TypeVar

from planlint.cli.files import Found
from planlint.faults import Fault, Faults
from planlint.language import Unopened
from planlint.output.layout import PLAIN_WIDTH, literal, print_page
from planlint.report import Report

if TYPE_CHECKING:
    from planlint.workings import Worksheet


T = TypeVar("T")


def wants_color(stream: TextIO) -> bool:
    """Whether color is welcome: on a terminal, unless NO_COLOR is set."""
    return stream.isatty() and not os.environ.get("NO_COLOR")


def page_width(stream: TextIO) -> int:
    """The terminal's width, or a plain one for pipes and files."""
    return os.get_terminal_size(stream.fileno()).columns if stream.isatty() else PLAIN_WIDTH


class Unwritten(Exception):
    """A file that the output was meant for and that can't be written; one line."""


class Writer:
    """Takes reports or worksheets, and faults, as they come. Text goes out at once, JSON when all is known.

    `what` they are called together in JSON; `working` shows how each figure of a report was worked out.
    """

    def __init__(self, stream: TextIO, output: str, what: str, working: bool = False) -> None:
        self._stream = stream
        self._json = output == "json"
        self._markdown = output == "markdown"
        self._what = what
        self._working = working
        self._color = wants_color(stream)
        self._width = page_width(stream)
        self._records: list[dict[str, Any]] = []
        self._errors: list[dict[str, Any]] = []
        self._begun = False

    @classmethod
    @contextmanager
    def to(cls, path: Path | None, output: str, what: str, working: bool = False) -> "Iterator[Writer]":
        """A writer to a file, or to standard output. A file is written whole or not at all."""
        if path is None:
            writer = cls(sys.stdout, output, what, working)
            yield writer
            writer._finish()
            return
        whole = io.StringIO()
        writer = cls(whole, output, what, working)
        yield writer
        writer._finish()
        try:
            path.write_text(whole.getvalue(), encoding="utf-8", newline="\n")
        except OSError as fault:
            raise Unwritten(f"{path.as_posix()}: it can't be written: {fault.strerror}") from None

    def report(self, report: Report) -> None:
        """One plan's report."""
        if self._json:
            from planlint.output.data import report_record

            self._records.append(report_record(report))
            return
        from planlint.output.text import report_page

        self._separate()
        print_page(report_page(report, self._width, self._working), self._stream, self._color)

    def worksheet(self, sheet: "Worksheet") -> None:
        """One plan's worksheet."""
        if self._json:
            from planlint.output.worksheet_data import worksheet_record

            self._records.append(worksheet_record(sheet))
            return
        self._separate()
        if self._markdown:
            from planlint.output.worksheet_markdown import worksheet_markdown

            self._stream.write(worksheet_markdown(sheet))
            return
        from planlint.output.worksheet_text import worksheet_page

        print_page(worksheet_page(sheet, self._width), self._stream, self._color)

    def faults(self, faults: Sequence[Fault]) -> None:
        """What is wrong with a text that could not be read in full."""
        if self._json:
            from planlint.output.data import fault_record

            self._errors.extend(fault_record(fault) for fault in faults)
            return
        from planlint.output.text import faults_page

        self._separate()
        print_page(faults_page(faults, self._width), self._stream, self._color)

    def unopened(self, path: str, message: str) -> None:
        """A file that could not be opened, or is left alone: one line."""
        if self._json:
            from planlint.output.data import unopened_record

            self._errors.append(unopened_record(path, message))
            return
        self._separate()
        self._stream.write(f"{literal(path)}: {literal(message)}\n")

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
        if self._begun:
            self._stream.write("\n")
        self._begun = True

    def _finish(self) -> None:
        if self._json:
            from planlint.output.data import document_json

            self._stream.write(document_json(self._what, self._records, self._errors))
        self._stream.flush()
