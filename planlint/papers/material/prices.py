"""A price list: what a piece, or a foot, of an item costs; and what the whole list then comes to."""

import csv
import io
import math
from collections.abc import Mapping
from dataclasses import dataclass

from planlint.faults import Fault, Faults
from planlint.nearest import proposal
from planlint.papers.material.takeoff import Takeoff, bought
from planlint.positions import Span

COLUMNS = ("item", "price")


@dataclass(frozen=True, slots=True)
class Cost:
    """What the priced lines cost, by item, and together; the items without a price, and prices of nothing on the list.

    Prices have no currency: they are added up as they stand.
    """

    by_item: Mapping[str, float]
    total: float
    without: tuple[str, ...]
    unused: tuple[str, ...]


def read_prices(text: str, file: str) -> dict[str, float]:
    """The prices of a CSV file (RFC 4180) whose first line names the columns `item` and `price`; other columns may stand there.

    Raises planlint.faults.Faults with every line that can't be read.
    """
    rows = csv.reader(io.StringIO(text))
    head = [name.strip().lower() for name in next(rows, [])]
    for name in COLUMNS:
        if name not in head:
            message = f"the first line of a price list names the columns item and price; '{name}' is not there"
            raise Faults([_fault(file, 1, f"{message}.{proposal(name, head)}")])
    item_at, price_at = (head.index(name) for name in COLUMNS)
    faults: list[Fault] = []
    found: dict[str, float] = {}
    for row in rows:
        cells = [cell.strip() for cell in row]
        if not any(cells):
            continue
        if len(cells) <= max(item_at, price_at):
            faults.append(_fault(file, rows.line_num, "this line is too short to have an item and a price"))
        elif cells[price_at]:
            item, price = cells[item_at].removeprefix("'"), cells[price_at]
            wrong = _wrong(item, price, found)
            if wrong:
                faults.append(_fault(file, rows.line_num, wrong))
            else:
                found[item] = float(price)
    if faults:
        raise Faults(faults)
    return found


def _wrong(item: str, price: str, found: Mapping[str, float]) -> str:
    """What is wrong with a price; nothing where it can be taken."""
    amount = _amount(price)
    if amount is None:
        return f"'{price}' is no price; it is written like 12.50, without a currency"
    if item in found and found[item] != amount:
        return f"'{item}' has two prices, {found[item]:g} and {amount:g}"
    return ""


def _amount(text: str) -> float | None:
    try:
        amount = float(text)
    except ValueError:
        return None
    return amount if math.isfinite(amount) and amount >= 0 else None


def _fault(file: str, line: int, message: str) -> Fault:
    return Fault(Span(file, line, 1, line, 1), message)


def cost(takeoff: Takeoff, prices: Mapping[str, float]) -> Cost:
    """What the list costs: the price of a piece, or of a foot of what is bought by length, times what is bought."""
    by_item = {line.item: prices[line.item] * bought(line) for line in takeoff.lines if line.item in prices}
    items = [line.item for line in takeoff.lines]
    return Cost(
        by_item,
        math.fsum(by_item.values()),
        tuple(item for item in items if item not in prices),
        tuple(item for item in prices if item not in items),
    )
