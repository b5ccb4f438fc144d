"""The tables of the book, one look-up each, in the values of the trade.

    tables = Tables()
    tables.ampacity(WireSize("4/0", "aluminum"), Temperature.of(75, "C"))    180 A
    tables.source("ampacity", 2020)                                          NFPA 70 Table 310.16

The figures stand in `rules/tables/`, each file with a head that says where they were read; a profile may replace rows.
"""

from planlint.book.csvfile import OutOfTable
from planlint.book.loadtables import LoadTables
from planlint.book.pathtables import PathTables
from planlint.book.wiretables import Insulation, WireTables

__all__ = ["Insulation", "OutOfTable", "Tables"]


class Tables(WireTables, PathTables, LoadTables):
    """All tables in force. What lies outside a table raises OutOfTable, whose message names the table and what was asked.

    `replaced` leads from a table's name (that of its file) to rows with the key columns of a row and the cells that replace
    its own. A name, column, key or cell that doesn't fit raises ValueError with the nearest right word.
    """
