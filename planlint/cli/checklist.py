"""`planlint checklist`: by inspection what the plan settles, what only eyes can settle, what to ask and to have there."""

import argparse

from planlint.cli.papers import add_plan_to, pages, write_paper
from planlint.output.layout import Page
from planlint.papers.docket import Docket


def declare(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    add_plan_to(parser, "text", "html")
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Write the checklist of one plan."""
    return write_paper(chosen, "checklists", {"text": _text, "html": _html})


def _text(docket: Docket, width: int) -> Page:
    from planlint.output.checklist.page import checklist_page
    from planlint.papers.checklist import make_checklist

    return checklist_page(make_checklist(docket), width)


def _html(docket: Docket, _: int) -> str:
    from planlint.output.packet.packet import checklist_html

    with pages():
        return checklist_html(docket)
