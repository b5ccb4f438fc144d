"""How far a command is that works through many plans: a line on the terminal that goes away before anything else is printed."""

import os
import sys
from collections.abc import Iterable, Iterator
from typing import Any

from planlint.cli.files import Found
from planlint.cli.writing import Writer
from planlint.output.layout import literal

FEW, _NAME = 4, 30


class Following:
    """Shows which of many plans is in hand, on a standard error that is a terminal; otherwise, and for a few plans, nothing."""

    def __init__(self, plans: Iterable[Found], writer: Writer) -> None:
        self._plans = list(plans)
        writer.before_words = self._hide
        self._bar: Any = None
        if len(self._plans) >= FEW and sys.stderr.isatty() and os.environ.get("TERM") != "dumb":
            self._bar, self._task = _bar(len(self._plans))

    def __iter__(self) -> Iterator[Found]:
        """The plans, one after the other, each shown while it is in hand."""
        for number, found in enumerate(self._plans):
            self._show(number, found)
            yield found
        self._hide()

    def _show(self, number: int, found: Found) -> None:
        if self._bar is not None:
            self._bar.update(self._task, completed=number, plan=literal(found.path.name)[:_NAME])
            self._bar.start()
            self._bar.refresh()

    def _hide(self) -> None:
        if self._bar is not None:
            self._bar.stop()


def _bar(total: int) -> tuple[Any, Any]:
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn
    from rich.table import Column

    whole = Column(no_wrap=True)
    columns = (
        MofNCompleteColumn(" of ", table_column=whole),
        BarColumn(16, table_column=Column(min_width=16)),
        TimeRemainingColumn(table_column=whole),
        TextColumn("{task.fields[plan]}", markup=False, table_column=whole),
    )
    console = Console(file=sys.stderr, no_color=bool(os.environ.get("NO_COLOR")))
    bar = Progress(*columns, console=console, transient=True, auto_refresh=False, redirect_stdout=False, redirect_stderr=False)
    return bar, bar.add_task("", total=total, plan="")
