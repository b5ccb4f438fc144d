"""`planlint schedule`: what sits in which space of each panel, and the directory for its door."""

import argparse

from planlint.cli.papers import add_plan_to, pages, write_paper
from planlint.output.layout import Page
from planlint.papers.docket import Docket


def declare(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    add_plan_to(parser, "text", "csv", "html")
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Write the schedules of one plan."""
    return write_paper(chosen, "schedules", {"text": _text, "csv": _csv, "html": _html})


def _text(docket: Docket, width: int) -> Page:
    from planlint.output.schedule.page import schedules_page
    from planlint.papers.schedule import panel_schedules

    return schedules_page(panel_schedules(docket), width)


def _csv(docket: Docket, _: int) -> str:
    from planlint.output.schedule.table import schedules_csv
    from planlint.papers.schedule import panel_schedules

    return schedules_csv(panel_schedules(docket))


def _html(docket: Docket, _: int) -> str:
    from planlint.output.packet.packet import schedules_html

    with pages():
        return schedules_html(docket)
