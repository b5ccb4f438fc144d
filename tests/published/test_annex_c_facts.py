"""Annex C through the facts of a plan: a pipe takes the printed number of alike wires, and not one more.

The counts are in data/annex-c.csv, with the pages where they were read; counts from memory are left out here.
"""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from planlint.book.csvfile import Row, read_rows
from planlint.facts.engine import Job
from planlint.facts.fill import fill, fill_limit, most_alike, smallest_size
from planlint.plan import Raceway
from planlint.quantities import read_number
from planlint.trade import WireSize

JobFor = Callable[..., Job]
FILE = Path(__file__).parent / "data" / "annex-c.csv"
COUNTS = [row for row in read_rows(FILE.read_text("utf-8"), FILE.name) if row["status"] == "verified"]
# USE-2 has the rows of RHW-2 without outer covering.
INSULATION = {"THHN/THWN/THWN-2": "THHN", "RHH/RHW/RHW-2 without outer covering": "USE-2"}
MOST = 999
GROUPS = sorted({(row["raceway"], row["insulation"]) for row in COUNTS})


def printed(row: Row) -> int:
    """The count of the page, or what its areas give where the page has a typing fault (head of the data)."""
    return int(row["fault"] or row["most"])


def pipe(name: str, row: Row, count: int) -> str:
    """A pipe longer than a nipple that holds so many wires of the row's size (a plan counts up to 999 at a time)."""
    wire = f"{WireSize(row['size'], 'copper')} {INSULATION[row['insulation']]}"
    lots = [f"{min(MOST, count - done)} x {wire}" for done in range(0, count, MOST)]
    return (
        f"raceway {name}\n  type {row['raceway']}; size {row['trade-size']} in; length 10 ft; continues none; route inside\n"
        f"  holds {', '.join(lots)}\n"
    )


@pytest.mark.parametrize(("raceway", "insulation"), GROUPS)
def test_the_printed_count_fits_and_one_more_does_not(job_for: JobFor, raceway: str, insulation: str) -> None:
    """Tables C.1, C.4, C.9, C.10, C.11: `most-alike` gives the count, and the fill meets its limit with it, not with one more."""
    rows = [row for row in COUNTS if (row["raceway"], row["insulation"]) == (raceway, insulation)]
    plan = [pipe(f"p{number}-{count}", row, count) for number, row in enumerate(rows) for count in around(row)]
    job = job_for("".join(plan))

    def of(number: int, count: int, fact: Callable[[Any, Job], Any]) -> Any:
        return fact(job.graph.one(f"p{number}-{count}"), job)

    for number, row in enumerate(rows):
        what = f"{row['size']} in {row['trade-size']} in"
        for count in around(row):
            assert of(number, count, most_alike) == printed(row), what
            fits = of(number, count, fill) <= of(number, count, fill_limit)
            assert fits is (count <= printed(row)), f"{count} of {what}"
        if printed(row):
            assert of(number, printed(row), smallest_size).inches <= read_number(row["trade-size"]), what


def around(row: Row) -> list[int]:
    """The printed count and one more."""
    return [count for count in (printed(row), printed(row) + 1) if count]


def test_the_counts_are_all_there() -> None:
    """So that a lost file can't pass for agreement."""
    assert len(COUNTS) > 400
    assert {row["raceway"] for row in COUNTS} == {"EMT", "IMC", "PVC-40", "PVC-80", "RMC"}


def test_two_wires_take_less_than_three(job_for: JobFor) -> None:
    """Chapter 9 Table 1: 31 % for two, 40 % for more; so of 2 AWG THHN 3/4 in EMT takes one, not two, as Annex C.1 prints."""
    row = next(row for row in COUNTS if (row["raceway"], row["size"], row["trade-size"]) == ("EMT", "2", "3/4"))
    job = job_for(pipe("two", row, 2))
    two = job.graph.one("two")
    assert isinstance(two, Raceway)
    assert printed(row) == 1
    assert round(fill(two, job).within("%"), 1) == 43.4  # 2 x 0.1158 / 0.533, reckoned by hand
    assert fill_limit(two, job).within("%") == 31
