"""The tables of `rules/tables/`: reading a CSV file, putting a profile's rows in place, and finding a row."""

from collections.abc import Mapping, Sequence

from planlint.book.layouts import LAYOUTS, Layout
from planlint.book.records import EDITIONS
from planlint.data import data_folder
from planlint.nearest import proposal
from planlint.quantities import alike

Row = dict[str, str]
_NO_END = ("", "larger")
_FEW = 20


class OutOfTable(LookupError):
    """A table was asked for something that it doesn't have. `table` names it in trade words, `asked` says what for."""

    def __init__(self, table: str, asked: str) -> None:
        self.table = table
        self.asked = " ".join(asked.split())  # a metal that isn't said leaves a gap
        super().__init__(f"{table} has no {self.asked}")


def read_rows(text: str, file: str) -> list[Row]:
    """The rows of a CSV file whose lines that begin with `#` are comments; the first other line names the columns.

    Raises ValueError, with file and line, for a row with more or fewer cells than there are columns.
    """
    names: list[str] = []
    rows: list[Row] = []
    for number, line in enumerate(text.split("\n"), 1):
        if not line.strip() or line.startswith("#"):
            continue
        cells = [cell.strip() for cell in line.split(",")]
        if not names:
            names = cells
        elif len(cells) != len(names):
            raise ValueError(
                f"{file}, line {number}: {len(cells)} cells where there are {len(names)} columns ({', '.join(names)})"
            )
        else:
            rows.append(dict(zip(names, cells, strict=True)))
    return rows


class WrongCell(ValueError):
    """A profile's row that doesn't fit its table: the column, and whether it is the column's name that is wrong or its cell."""

    def __init__(self, message: str, column: str, by_name: bool = False) -> None:
        super().__init__(message)
        self.column = column
        self.by_name = by_name


class Table:
    """One table in force: its rows in the order of the file, found by their key columns."""

    def __init__(self, name: str, replaced: Sequence[Mapping[str, str]] = ()) -> None:
        self.name = name
        self.layout: Layout = LAYOUTS[_known(name)]
        file = data_folder("rules") / "tables" / f"{name}.csv"
        self.rows = read_rows(file.read_text("utf-8-sig"), file.name)
        self._index = {self._key(row): row for row in self.rows}
        for row in replaced:
            self._replace(row)

    def _key(self, row: Mapping[str, str]) -> tuple[str, ...]:
        return tuple([row.get(column, "") for column in self.layout.key])

    def find(self, *key: str) -> Row | None:
        """The row whose key columns say this, or None."""
        return self._index.get(key)

    def _replace(self, new: Mapping[str, str]) -> None:
        """Put the cells of a profile's row into the row of the same key; an empty cell leaves the figure as it is."""
        columns = (*self.layout.columns, "status")
        for column in new:
            if column not in columns:
                known = ", ".join(columns)
                message = f"the table '{self.name}' has no column '{column}'; it has {known}.{proposal(column, columns)}"
                raise WrongCell(message, column, by_name=True)
        row = self.find(*self._key(new))
        if row is None:
            raise self._no_such_row(new)
        for column, cell in new.items():
            if column in self.layout.columns and column not in self.layout.key and cell:
                self._check(column, cell)
            if cell:
                row[column] = cell

    def _check(self, column: str, cell: str) -> None:
        try:
            self.layout.columns[column](cell)
        except ValueError as fault:
            raise WrongCell(f"the table '{self.name}', column '{column}': {fault}", column) from None

    def _no_such_row(self, new: Mapping[str, str]) -> WrongCell:
        for column in self.layout.key:
            if column not in new:
                named = ", ".join(self.layout.key)
                return WrongCell(f"a row of the table '{self.name}' is named by {named}; this one leaves out '{column}'", column)
            known = list(dict.fromkeys(row[column] for row in self.rows))
            if new[column] not in known:
                near = proposal(new[column], known) or (f" There are: {', '.join(known)}." if len(known) <= _FEW else "")
                return WrongCell(f"the table '{self.name}' has no row with {column} '{new[column]}'.{near}", column)
        wanted = ", ".join(f"{column} {new[column]}" for column in self.layout.key)
        return WrongCell(f"the table '{self.name}' has no row with {wanted}", self.layout.key[0])


class LookUps:
    """The tables in force, each read when it is first asked for."""

    def __init__(self, replaced: Mapping[str, Sequence[Mapping[str, str]]] | None = None) -> None:
        self._tables: dict[str, Table] = {}
        for name, rows in (replaced or {}).items():
            self._tables[name] = Table(name, rows)

    def source(self, name: str, edition: int) -> str:
        """What to cite for a table in a working: `NFPA 70 Table 310.16`.

        Raises ValueError for a name that is no table, with the nearest one, and for an edition whose numbering isn't known.
        """
        layout = LAYOUTS[_known(name)]
        if edition not in EDITIONS:
            raise ValueError(f"the tables are known by the numbers of {', '.join(map(str, EDITIONS))}, not of {edition}")
        return layout.sources[EDITIONS.index(edition)]

    def _table(self, name: str) -> Table:
        table = self._tables.get(name)
        if table is None:
            table = self._tables[name] = Table(name)
        return table

    def _outside(self, name: str, asked: str) -> OutOfTable:
        return OutOfTable(LAYOUTS[name].title, asked)

    def _cell(self, name: str, key: tuple[str, ...], column: str, asked: str) -> str:
        """One cell. Raises OutOfTable if there is no such row, no such column, or nothing in the cell."""
        row = self._table(name).find(*key)
        cell = row.get(column) if row else None
        if not cell:
            raise self._outside(name, asked)
        return cell

    def _band(self, name: str, column: str, number: float, asked: str) -> Row:
        """The first row whose upper end, in this column, isn't below the number. Raises OutOfTable above the last."""
        for row in self._table(name).rows:
            end = row[column]
            if end in _NO_END or number < float(end) or alike(number, float(end)):
                return row
        raise self._outside(name, asked)


def _known(name: str) -> str:
    if name not in LAYOUTS:
        raise ValueError(f"there is no table '{name}'.{proposal(name, LAYOUTS)}")
    return name
