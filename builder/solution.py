"""The workbook of one machine, worked out: what stands in its named cells and in rows of grids."""

from functools import cached_property, partial

from builder.calculation import Value
from builder.exchange.machine import Machine
from builder.formula.grids import LIST, ROW_NUMBER, find_owner, list_group, name_column
from builder.formula.tokens import Name, replace_names
from builder.plan.cells import Area, Book, column_letters
from builder.plan.layout import plan_book
from builder.production import Spot, read_values, shorten
from builder.spec.records import Grid, Record
from builder.spec.specification import Spec

MOST_ROWS = 30  # more than any solver has; longer grids are logs


class Solution:
    """A planned workbook and the value of each of its cells."""

    def __init__(self, spec: Spec, machine: Machine, lang: str) -> None:
        """Plan and work out the workbook, long grids cut short."""
        self.spec, self.entries = spec, machine.entries
        self.plan = partial(plan_book, machine=machine, lang=lang, units="metric", worked={})
        self.book = self.plan(shorten(spec, longest=MOST_ROWS))
        self.values: dict[Spot, Value] = read_values(self.book)
        self.formulas = {
            (sheet.title, cell.row, cell.col): cell.formula or ""
            for sheet in self.book.sheets
            for cell in sheet.cells
        }

    def locate(self, name: str) -> str:
        """Return where a name points, as `Sheet!B5` or `Sheet!B5:B9`."""
        area = self.book.names[name]
        if area.sheet in self.cut_sheets:
            area = self.whole.names[name]
        first, last = (
            f"{column_letters(col)}{row + 1}"
            for row, col in ((area.row, area.col), (area.last_row, area.last_col))
        )
        return f"{area.sheet}!{first}" if first == last else f"{area.sheet}!{first}:{last}"

    @cached_property
    def whole(self) -> Book:
        """The plan with all rows."""
        return self.plan(self.spec)

    @cached_property
    def cut_sheets(self) -> set[str]:
        """The sheets on which a grid was cut short, so that what follows stands too high."""
        grids = [q for q in self.spec.quantities.values() if isinstance(q, Grid)]
        cut = [grid for grid in grids if grid.rows > MOST_ROWS]
        return {self.area(grid, grid.columns[0]).sheet for grid in cut}

    def label(self, name: str) -> str:
        """Return the words that stand on the left of a name's cell, or its sheet."""
        area = self.book.names[name]
        words = self.values.get((area.sheet, area.row, 0))
        return words if isinstance(words, str) and words else area.sheet

    def formula(self, name: str) -> str:
        """Return the formula in the first cell of a name."""
        area = self.book.names[name]
        return self.formulas.get((area.sheet, area.row, area.col), "").removeprefix("=")

    def value(self, name: str) -> Value:
        """Return the value of a name that points to one cell; None for any other."""
        area = self.book.names.get(name)
        if area is None or not self.is_cell(name):
            return None
        value = self.values.get((area.sheet, area.row, area.col))
        return None if value == "" else value

    def is_cell(self, name: str) -> bool:
        """Tell whether a name points to one cell."""
        area = self.book.names.get(name)
        return bool(area and (area.row, area.col) == (area.last_row, area.last_col))

    def cell(self, grid: Grid, column: str, row: int) -> Value:
        """Return what stands in one row of a grid, rows from 0; typed numbers are canonical."""
        record = self.spec.quantities[column]
        if isinstance(record, Record) and record.entry:
            rows = self.entries.get(grid.name, [])
            return rows[row].get(column) if 0 <= row < len(rows) else None
        area = self.area(grid, column)
        value = self.values.get((area.sheet, area.row + row, area.col)) if row >= 0 else ""
        return None if value == "" else value

    def area(self, grid: Grid, column: str) -> Area:
        """Return the cells of a column."""
        return self.book.names[f"{name_column(grid.name, column)}{LIST}"]

    def last_row(self, grid: Grid, column: str) -> int | None:
        """Return the last row of a column in which something stands, of a log a typed row."""
        area = self.area(grid, column)
        host = list_group(grid, self.spec.quantities)[0]
        typed = any(getattr(self.spec.quantities[name], "entry", "") for name in host.columns)
        count = len(self.entries.get(host.name, [])) if typed else area.last_row - area.row + 1
        rows = reversed(range(count))
        return next((row for row in rows if self.cell(grid, column, row) is not None), None)

    def look_up(self, name: Name, grid: Grid | None, row: int) -> Value:
        """Return what a name in a row of a grid stands for; None for a range and for a blank."""
        if grid and name.text == ROW_NUMBER:
            return float(row + 1)
        owner = find_owner(name.text, grid, self.spec.quantities) if grid else None
        if owner:
            return self.cell(owner, name.text, row - name.prior)
        return self.value(name.text)

    def fill(self, formula: str, grid: Grid | None = None, row: int = 0) -> str:
        """Return a formula with the numbers of one row of a grid; ranges keep their names."""

        def swap(name: Name) -> str:
            owner = grid and find_owner(name.text, grid, self.spec.quantities)
            inside = owner or (grid and name.text == ROW_NUMBER)
            known = inside or self.is_cell(name.text)
            return show(self.look_up(name, grid, row)) if known else name.text

        return replace_names(formula, swap)


def show(value: Value) -> str:
    """Return a value as it stands in a formula."""
    if not isinstance(value, int | float):
        return f'"{value or ""}"'
    return f"({value:.10g})" if value < 0 else f"{value:.10g}"
