"""`planlint worksheet`: every number of a plan with its formula, inputs, tables and clauses, to follow with a pencil."""

import argparse
from functools import partial
from typing import TYPE_CHECKING, Any

from planlint.cli.files import Found, add_plans_to, find_plans
from planlint.cli.following import Following
from planlint.cli.writing import Writer
from planlint.desk import Desk, NoSuchName
from planlint.facts import topic_word, topics
from planlint.output.layout import Page

if TYPE_CHECKING:
    from planlint.workings import Worksheet


def declare(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    add_plans_to(parser)
    parser.add_argument(
        "--output", choices=("text", "markdown", "json"), default="text", help="for a terminal, for a page, or for programs"
    )
    parser.add_argument("--of", default="", metavar="NAME", help="only of the statement with this name")
    parser.add_argument("--topic", choices=[topic_word(title) for title in topics()], default="", help="only this topic")
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Write the worksheet of every plan; 0, 2 for what can't be read, 3 where a number failed by a fault of planlint."""
    desk = Desk(chosen.profile, chosen.profiles)
    status = 0
    with Writer.to(chosen.to, chosen.output, "worksheets") as writer:
        for found in Following(find_plans(chosen.plans), writer):
            status = max(status, _one(found, desk, chosen, writer))
    return status


def _one(found: Found, desk: Desk, chosen: argparse.Namespace, writer: Writer) -> int:
    try:
        sheet, status = writer.read(found, lambda path: desk.worksheet_file(path, chosen.of, chosen.topic))
    except NoSuchName as fault:
        writer.unopened("--of", str(fault))
        return 2
    if sheet is None:
        return status
    writer.put(text=partial(_page, sheet), markdown=partial(_markdown, sheet), json=partial(_record, sheet))
    return 3 if sheet.failed else 0


def _page(sheet: "Worksheet", width: int) -> Page:
    from planlint.output.worksheet.page import worksheet_page

    return worksheet_page(sheet, width)


def _markdown(sheet: "Worksheet", _: int) -> str:
    from planlint.output.worksheet.markdown import worksheet_markdown

    return worksheet_markdown(sheet)


def _record(sheet: "Worksheet", _: int) -> dict[str, Any]:
    from planlint.output.worksheet.record import worksheet_record

    return worksheet_record(sheet)
