"""`planlint packet`: all papers of a job on one self-contained page, to print, to read on a screen, to sign."""

import argparse
from functools import partial
from pathlib import Path

from planlint.cli.papers import add_plan_to, pages, write_paper
from planlint.cli.takeoff import add_prices_to, read_price_file
from planlint.cli.writing import Files
from planlint.papers.docket import Docket


def declare(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    add_plan_to(parser, "html")
    add_prices_to(parser)
    parser.add_argument("--folder", type=Path, metavar="DIR", help="write each paper to a file of its own in this folder instead")
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Write the packet of one plan."""
    form = partial(_page, chosen.prices) if chosen.folder is None else partial(_files, chosen.prices, chosen.folder)
    return write_paper(chosen, "packets", {"html": form})


def _page(prices: Path | None, docket: Docket, _: int) -> str:
    from planlint.output.packet.packet import make_packet, packet_page

    with pages():
        return packet_page(make_packet(docket, read_price_file(prices)))


def _files(prices: Path | None, folder: Path, docket: Docket, _: int) -> Files:
    from planlint.output.packet.packet import make_packet, packet_files

    with pages():
        return Files(folder, packet_files(make_packet(docket, read_price_file(prices))))
