"""`planlint one-line`: the one-line diagram of a plan, from the supply to the last panel and its larger loads, as SVG."""

import argparse
from functools import partial
from typing import TYPE_CHECKING

from planlint.cli.papers import add_plan_to, write_paper

if TYPE_CHECKING:
    from planlint.output.one_line.page import Paper
    from planlint.papers.docket import Docket


def declare(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    add_plan_to(parser, "svg")
    parser.add_argument("--paper", choices=("letter", "a4"), default="letter", help="the sheet, its long side across")
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Write the diagram, further sheets beside the first one as FILE-2.svg; the exit status is that of every paper."""
    return write_paper(chosen, "diagrams", {"svg": partial(_sheets, paper=chosen.paper)})


def _sheets(docket: "Docket", _: int, paper: "Paper") -> list[str]:
    from planlint.output.one_line.page import lay_out
    from planlint.output.one_line.svg import one_line_svgs
    from planlint.papers.one_line.drawing import one_line

    drawing = one_line(docket)
    return one_line_svgs(drawing, lay_out(drawing, paper))
