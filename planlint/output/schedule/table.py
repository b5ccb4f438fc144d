"""Panel schedules as a table for a spreadsheet: one line for each breaker and each free space."""

import csv
import io

from planlint.output.csv_cells import cell
from planlint.output.schedule.words import protection_words, said, spaces_words
from planlint.papers.docket import Unknown
from planlint.papers.schedule import Schedules
from planlint.quantities import Power

COLUMNS = ("panel", "spaces", "serves", "breaker", "poles", "wires", "protection", "leg A VA", "leg B VA", "name")


def schedules_csv(schedules: Schedules) -> str:
    """RFC 4180, a head line first."""
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\r\n")
    table.writerow(COLUMNS)
    for panel in schedules.panels:
        name = panel.subject.name
        for one in panel.breakers:
            row = (name, spaces_words(one), one.serves, said(one.rating), said(one.poles), said(one.wires), protection_words(one))
            table.writerow(
                cell(value) for value in (*row, *(_figure(share) for share in (one.leg_a, one.leg_b)), one.subject.name)
            )
        for space in () if isinstance(panel.free, Unknown) else panel.free:
            table.writerow((cell(name), space, "free", *[""] * 7))
    return text.getvalue()


def _figure(power: Power | Unknown) -> str:
    return said(power) if isinstance(power, Unknown) else f"{power.within('VA'):.0f}"
