"""Where a workbook holds what people typed and what follows from it, found by defined names.

The machine's sheets are one case; grids, such as the season log, are columns of typed and worked
cells beside it.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from openpyxl.utils.cell import rows_from_range

from builder.audit.findings import Finding
from builder.formula.grids import (
    LIST,
    grid_columns,
    list_words,
    name_column,
    name_outside,
    row_formula,
)
from builder.spec.records import Check, Choice, Grid, Input, Quantity, Record, Result, Text
from builder.spec.specification import Spec

TYPED = "_typed"
TYPED_UNIT = "_typed_unit"
NUMBERED = " row "
COLUMN = re.compile(r".+!\$?([A-Z]{1,3})\$?(\d{1,7})(?::\$?([A-Z]{1,3})\$?(\d{1,7}))?", re.DOTALL)
MOST_ROWS = 2_000


@dataclass(frozen=True, slots=True)
class Entry:
    """An input, the cell that it is typed in, and the cell of its unit where it has one."""

    quantity: Input | Choice
    cell: str
    unit_cell: str


@dataclass(frozen=True, slots=True)
class Case:
    """Typed cells, and the cells of the results and verdicts that follow from them."""

    entries: list[Entry]
    outcomes: dict[str, str]


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a grid, and its cells from the first row on.

    `source` is the list of the reference that tells what it shows, and `words` what it shows for
    the numbers of that.
    """

    grid: Grid
    record: Record
    cells: list[str]
    source: str = ""
    words: list[Text] = field(default_factory=list)

    @property
    def name(self) -> str:
        """The name of grid and column, as `log_sap_L`."""
        return name_column(self.grid.name, self.record.name)


def find_machine(spec: Spec, names: dict[str, str]) -> Case:
    """Return the case of the machine itself, found by defined names."""
    entries = [
        Entry(quantity, names[name + TYPED], names.get(name + TYPED_UNIT, ""))
        for name, quantity in spec.quantities.items()
        if isinstance(quantity, Input | Choice) and name + TYPED in names
    ]
    outcomes = {
        name: names[name]
        for name, quantity in spec.quantities.items()
        if isinstance(quantity, Result | Check) and name in names
    }
    return Case(entries, outcomes)


def find_columns(spec: Spec, names: dict[str, str]) -> list[Column]:
    """Return the columns of every grid that have a name."""
    return [
        Column(
            grid,
            record,
            list_cells(names[name + LIST]),
            find_source(grid, record, spec.quantities),
            list_words(record, spec.quantities),
        )
        for grid, record in list_records(spec)
        if (name := name_column(grid.name, record.name)) + LIST in names
    ]


def find_source(grid: Grid, record: Record, quantities: dict[str, Quantity]) -> str:
    """Return the list that tells what a worked column shows; "" where it is typed.

    A column of words that only shows a number shows that of another column.
    """
    formulas = {row_formula(grid, record, first=first) for first in (True, False)}
    if record.worded and not record.reference and len(formulas) == 1:
        return name_outside(formulas.pop(), grid, quantities)
    return "" if record.entry else name_column(grid.name, record.name) + LIST


def list_records(spec: Spec) -> Iterator[tuple[Grid, Record]]:
    """Yield each column of each grid."""
    for grid in spec.quantities.values():
        if isinstance(grid, Grid):
            for record in grid_columns(grid, spec.quantities):
                yield grid, record


def keep_columns(names: dict[str, str]) -> dict[str, str]:
    """Return the names of one cell, or of cells one below the other: a stranger's may be others."""
    return {name: target for name, target in names.items() if is_column(target)}


def is_column(target: str) -> bool:
    """Tell whether a name leads to one cell, or to part of one column, and not too long."""
    found = COLUMN.fullmatch(target)
    if found is None:
        return False
    first, top, last, bottom = found.groups()
    return (last or first) == first and 0 <= int(bottom or top) - int(top) < MOST_ROWS


def list_cells(target: str) -> list[str]:
    """Return the cells of `Sheet!$B$10:$B$209`, or of `Sheet!B5`, top to bottom."""
    sheet, mark, area = target.rpartition("!")
    rows = rows_from_range(area.replace("$", ""))
    return [f"{sheet}{mark}{cell}" for row in rows for cell in row]


def name_row(name: str, number: int) -> str:
    """Return how findings call a cell of a column, rows counted from 1."""
    return f"{name}{NUMBERED}{number}"


def find_unnamed(spec: Spec, names: dict[str, str]) -> Iterator[Finding]:
    """Yield a fault for each quantity that no cell bears, so that it cannot be judged."""
    for name, quantity in spec.quantities.items():
        wanted = name
        if isinstance(quantity, Input | Choice):
            wanted = name + TYPED
        elif not isinstance(quantity, Result | Check):
            continue
        if wanted not in names:
            yield report_unnamed(wanted)
    for grid, record in list_records(spec):
        wanted = f"{name_column(grid.name, record.name)}{LIST}"
        if (record.entry or record.reference) and wanted not in names:
            yield report_unnamed(wanted)


def report_unnamed(name: str) -> Finding:
    """Return the fault of a quantity that cannot be found."""
    return Finding("", name, "defined name, found none, expected one: not compared")
