"""What the commands that write one paper of one plan share: their options, and opening the plan's docket."""

import argparse
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from planlint.cli.files import add_book_to, find_plans
from planlint.cli.writing import Paper, Unwritten, Writer
from planlint.desk import Desk

if TYPE_CHECKING:
    from planlint.papers.docket import Docket

Form = Callable[["Docket", int], Paper]


def add_plan_to(parser: argparse.ArgumentParser, *forms: str) -> None:
    """Declare the one plan that a paper is of, its rule book, the forms the paper has, and where it goes."""
    parser.add_argument("plan", metavar="PLAN", help="a plan's file, or a folder with one")
    add_book_to(parser)
    if len(forms) > 1:
        parser.add_argument("--output", choices=forms, default=forms[0], help="the form of the paper")
    else:
        parser.set_defaults(output=forms[0])


def write_paper(chosen: argparse.Namespace, what: str, forms: Mapping[str, Form]) -> int:
    """Make the paper in the form that was asked for; the exit status is 0, 2 for a plan that can't be read, 3 for our own fault.

    A paper shows a plan as it is: what is to be corrected is for `planlint check` to say.
    """
    desk = Desk(chosen.profile, chosen.profiles)
    with Writer.to(chosen.to, chosen.output, what) as writer:
        found, *others = find_plans([chosen.plan])
        if others:
            writer.unopened(chosen.plan, f"this folder has {1 + len(others)} plans; name the file of one")
            return 2
        form = forms[chosen.output]

        def make(path: Path) -> "tuple[Docket, Paper]":
            docket = desk.docket_file(path)
            return docket, form(docket, writer.width)

        made, status = writer.read(found, make)
        if made is None:
            return status
        docket, paper = made
        writer.write(paper)
        for failure in docket.failed:
            writer.unopened(f"{failure.position.file}, line {failure.position.line}", f"not worked out: {failure.message}")
        return 3 if docket.failed else 0


@contextmanager
def pages() -> Iterator[None]:
    """For what makes pages. Raises Unwritten where planlint was installed without what they need."""
    from planlint.output.packet.pages import NoTemplates

    try:
        yield
    except NoTemplates as lack:
        raise Unwritten(str(lack)) from None
