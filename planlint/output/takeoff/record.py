"""The material list for programs: plain data, valid against `schema/takeoff.schema.json`."""

from typing import Any

from planlint.output.check.record import need_record, profile_record, subject_record
from planlint.papers.material.prices import Cost
from planlint.papers.material.takeoff import Line, Takeoff, bought
from planlint.papers.material.wanted import LeftOut


def takeoff_record(takeoff: Takeoff, cost: Cost | None) -> dict[str, Any]:
    """One plan's list."""
    record = {
        "plan": takeoff.plan,
        "profile": profile_record(takeoff.profile),
        "lines": [_line(line) for line in takeoff.lines],
        "left_out": [_left_out(left) for left in takeoff.left_out],
        "notes": list(takeoff.notes),
    }
    if cost is not None:
        record["cost"] = {
            "by_item": {item: round(amount, 2) for item, amount in cost.by_item.items()},
            "total": round(cost.total, 2),
            "without_price": list(cost.without),
            "unused_prices": list(cost.unused),
        }
    return record


def _line(line: Line) -> dict[str, Any]:
    record: dict[str, Any] = {"group": line.group, "item": line.item, "pieces": line.pieces}
    if line.length is not None and line.longest is not None:
        record |= {
            "feet": round(line.length.within("ft"), 3),
            "longest_piece_feet": round(line.longest.within("ft"), 3),
            "packages": None
            if line.packages is None
            else [{"count": one.count, "word": one.word, "feet": one.length.within("ft")} for one in line.packages],
        }
    return record | {"bought": bought(line), "serves": [subject_record(subject) for subject in line.serves]}


def _left_out(left: LeftOut) -> dict[str, Any]:
    return {
        "group": left.group,
        "item": left.item,
        "subject": subject_record(left.subject),
        "needs": [need_record(need) for need in left.unknown.needs],
    }
