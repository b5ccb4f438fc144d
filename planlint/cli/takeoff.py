"""`planlint takeoff`: the material list of a plan, as it is bought, with prices if there is a list of them."""

import argparse
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from planlint.cli.papers import add_plan_to, write_paper
from planlint.cli.writing import Paper
from planlint.language import Unopened
from planlint.language.opening import read_bytes, shown_path
from planlint.output.layout import Page
from planlint.papers.docket import Docket


def declare(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    add_plan_to(parser, "text", "csv", "json")
    add_prices_to(parser)
    parser.set_defaults(run=run)


def add_prices_to(parser: argparse.ArgumentParser) -> None:
    """Declare the price list that adds cost to a material list."""
    parser.add_argument("--prices", type=Path, metavar="FILE.csv", help="add cost: a table with the columns item and price")


def run(chosen: argparse.Namespace) -> int:
    """Write the material list of one plan."""
    forms: dict[str, Callable[[Path | None, Docket, int], Paper]] = {
        "text": _text,
        "csv": _csv,
        "json": _json,
    }
    return write_paper(chosen, "takeoffs", {name: partial(form, chosen.prices) for name, form in forms.items()})


def read_price_file(path: Path | None) -> dict[str, float] | None:
    """The prices of a file, if there is one. Raises Faults and Unopened."""
    if path is None:
        return None

    from planlint.papers.material.prices import read_prices

    shown = shown_path(path)
    try:
        text = read_bytes(path).decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Unopened(shown, "it can't be read: it is not in UTF-8; save it as CSV UTF-8") from None
    return read_prices(text, shown)


def _text(prices: Path | None, docket: Docket, width: int) -> Page:
    from planlint.output.takeoff.page import takeoff_page
    from planlint.papers.material.prices import cost
    from planlint.papers.material.takeoff import take_off

    known, takeoff = read_price_file(prices), take_off(docket)
    return takeoff_page(takeoff, None if known is None else cost(takeoff, known), width)


def _csv(prices: Path | None, docket: Docket, _: int) -> str:
    from planlint.output.takeoff.table import takeoff_csv
    from planlint.papers.material.takeoff import take_off

    return takeoff_csv(take_off(docket), read_price_file(prices) or {})


def _json(prices: Path | None, docket: Docket, _: int) -> dict[str, Any]:
    from planlint.output.takeoff.record import takeoff_record
    from planlint.papers.material.prices import cost
    from planlint.papers.material.takeoff import take_off

    known, takeoff = read_price_file(prices), take_off(docket)
    return takeoff_record(takeoff, None if known is None else cost(takeoff, known))
