"""The material list as a table for a spreadsheet. Its `item` column, with a price beside it, is a price list."""

import csv
import io
from collections.abc import Mapping

from planlint.output.csv_cells import cell
from planlint.output.takeoff.words import bought_words, left_out_words, serves_words
from planlint.papers.material.prices import cost
from planlint.papers.material.takeoff import Takeoff, bought

COLUMNS = ("group", "item", "needed", "unit", "buy", "bought as", "serves", "price", "cost")


def takeoff_csv(takeoff: Takeoff, prices: Mapping[str, float]) -> str:
    """RFC 4180, a head line first; what the plan leaves open stands at the end, without a number."""
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\r\n")
    table.writerow(COLUMNS)
    priced = cost(takeoff, prices)
    for line in takeoff.lines:
        unit = "piece" if line.length is None else "ft"
        needed = str(line.pieces) if line.length is None else f"{line.length.within('ft'):.1f}"
        price = f"{prices[line.item]:g}" if line.item in prices else ""
        paid = f"{priced.by_item[line.item]:.2f}" if line.item in prices else ""
        words = ("" if line.length is None else bought_words(line), serves_words(line))
        table.writerow(cell(value) for value in (line.group, line.item, needed, unit, f"{bought(line):g}", *words, price, paid))
    for left in takeoff.left_out:
        table.writerow(
            cell(value) for value in (left.group, left.item, "", "", "", left_out_words(left), left.subject.name, "", "")
        )
    return text.getvalue()
