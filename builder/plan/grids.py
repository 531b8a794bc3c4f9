"""Grids: rows of records, one formula a column, the row above within reach."""

import re

from builder.formula.grids import ROW_NUMBER, grid_columns, outer_names, row_formula
from builder.formula.guard import guard, guarded_names
from builder.formula.tokens import BLANK_TEST, Name, find_names, replace_names
from builder.plan.canvas import Canvas
from builder.plan.cells import column_letters
from builder.plan.context import Context
from builder.plan.entries import lay_entry, lay_entry_heads
from builder.spec.pages import Block
from builder.spec.records import Grid, Record

FIRST_COLUMN = 1
HERE, ABOVE = "_HERE", "_ABOVE"  # stand for a row's number in the formula of a column


def lay_grids(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out the grids of a block, one below the other."""
    if block.heading:
        canvas.put_head([(0, "head", context.pick(block.heading))])
    for name in block.rows:
        grid = context.spec.quantities[name]
        if isinstance(grid, Grid):
            GridLayout(canvas, grid, context).lay()


class GridLayout:
    """Lays out one grid; `heads` is the row of its factors, if some columns are typed."""

    def __init__(self, canvas: Canvas, grid: Grid, context: Context) -> None:
        """Find the columns and their places."""
        self.canvas, self.grid, self.context = canvas, grid, context
        self.quantities = context.spec.quantities
        self.columns = grid_columns(grid, self.quantities)
        self.place = {c.name: col for col, c in enumerate(self.columns, start=FIRST_COLUMN)}
        self.typed = any(column.entry for column in self.columns)
        self.heads = 0
        self.patterns: dict[tuple[str, bool], str] = {}

    def lay(self) -> None:
        """Lay out heads and rows, and name what other formulas may ask for."""
        canvas, context = self.canvas, self.context
        canvas.put(0, "label", context.label(self.grid.name))
        canvas.next_row()
        if self.typed:
            canvas.heads.append((canvas.row, canvas.row + 1))
            lay_entry_heads(canvas, self.grid, self.columns, context)
            self.heads = canvas.row
        else:
            canvas.heads.append((canvas.row, canvas.row))
            canvas.put(0, "head", context.word("row"))
            for col, column in enumerate(self.columns, start=FIRST_COLUMN):
                look = "head_unit" if column.text or column.words else "head_number"
                canvas.put(col, look, context.label(column.name))
            canvas.next_row()
        first = canvas.row
        for number in range(self.grid.rows):
            self.lay_row(number)
        for name, col in self.place.items():
            area = canvas.area(col, first, canvas.row - 1)
            canvas.define(f"{self.grid.name}_{name}_list", area)
            if self.is_word(name):
                canvas.states.append(area)
        canvas.next_row()

    def is_word(self, name: str) -> bool:
        """Tell whether a column shows state words."""
        column = self.quantities[name]
        return isinstance(column, Record) and bool(column.words)

    def lay_row(self, number: int) -> None:
        """Lay out one row; the cells of the last row of a worked grid get names."""
        canvas = self.canvas
        canvas.put(0, "limit", number + 1, digits=0)
        for col, column in enumerate(self.columns, start=FIRST_COLUMN):
            if column.entry:
                lay_entry(canvas, col, self.grid, column, number, self.context)
                continue
            named = number == self.grid.rows - 1 and not self.typed
            name = f"{self.grid.name}_{column.name}" if named else ""
            look = self.find_look(column)
            pattern = self.find_pattern(column, first=number == 0)
            formula = pattern.replace(HERE, str(canvas.row + 1)).replace(ABOVE, str(canvas.row))
            canvas.put_formula(col, look, formula, digits=column.digits, name=name)
        canvas.next_row()

    def find_look(self, column: Record) -> str:
        """Return how the worked cells of a column look; flags of a log show no zeros."""
        if column.words:
            return "working_word"
        if column.date:
            return "date"
        if column.codes:
            return "faint_code"
        if column.blank or (self.typed and column.unit == "n" and not column.digits):
            return "working_flag"
        return "unit" if column.text else "working"

    def address(self, name: Name) -> str:
        """Return the cell of a name in a row yet open, or the name itself if it stands outside."""
        row = ABOVE if name.prior else HERE
        if name.text == ROW_NUMBER:
            return f"$A{row}"
        if name.text not in self.place:
            return name.text
        return f"{column_letters(self.place[name.text])}{row}"

    def is_converted(self, name: str) -> bool:
        """Tell whether a name is a typed column whose unit is chosen in its heading."""
        column = self.quantities.get(name)
        typed = isinstance(column, Record) and column.entry == "number" and name in self.place
        return typed and self.context.has_choice_of_unit(self.quantities[name].unit)

    def cells(self, name: Name) -> str:
        """Return the cells that must hold numbers: the entry, and the factor of its unit."""
        cell = self.address(name)
        if not self.is_converted(name.text):
            return cell
        return f"{cell},{column_letters(self.place[name.text])}${self.heads - 1}"

    def value(self, name: Name, optional: list[str]) -> str:
        """Return what a formula reads: a typed number in the canonical unit, 0 if optional."""
        column, cell = self.quantities.get(name.text), self.address(name)
        typed = isinstance(column, Record) and column.entry == "number" and name.text in self.place
        if not typed:
            return cell
        letters = column_letters(self.place[name.text])
        parts = [cell, f"{letters}${self.heads - 1}", f"{letters}${self.heads}"]
        if name.text in optional:
            parts = [f"SUM({part})" for part in parts]
        if not self.is_converted(name.text):
            return parts[0]
        return f"({parts[0]}*{parts[1]}+{parts[2]})"

    def test_blanks(self, formula: str) -> str:
        """Return the formula with its blank tests of typed numbers as counts: a text is a blank."""

        def count(found: re.Match[str]) -> str:
            column = self.quantities.get(found[1])
            if not (isinstance(column, Record) and column.entry in ("number", "date")):
                return found[0]
            cells = self.cells(Name(found[1], prior=False))
            sign = "<" if found[2] == "=" else "="
            return f"COUNT({cells}){sign}{cells.count(',') + 1}"

        return BLANK_TEST.sub(count, formula)

    def copies_above(self, formula: str) -> bool:
        """Tell whether a cell only shows a worked cell of the row above: a blank shows itself."""
        copied = [column.name for column in self.columns if not column.entry and not column.blank]
        return formula in (f"PRIOR({name})" for name in copied)

    def find_pattern(self, column: Record, *, first: bool) -> str:
        """Return the formula of a column, worked out once for the first row and once for others."""
        key = column.name, first
        if key not in self.patterns:
            self.patterns[key] = self.make_pattern(column, first=first)
        return self.patterns[key]

    def make_pattern(self, column: Record, *, first: bool) -> str:
        """Return the formula of a column with its blank guard, its rows marked."""
        formula = row_formula(self.grid, column, first=first)
        bare = replace_names(
            self.test_blanks(formula), lambda name: self.value(name, column.optional)
        )
        if column.words:
            bare = f"INDEX({self.grid.name}_{column.name}_words,{bare})"
        if self.copies_above(formula) and not column.blank:
            return bare
        blank = column.blank or '""'
        guarding = self.grid.guard
        if guarding and column.name != guarding:
            return f'IF({self.address(Name(guarding, prior=False))}="",{blank},{bare})'
        numbers, words = guarded_names(formula, self.quantities, column.optional)
        if guarding:
            outer = "+".join(outer_names(self.grid, self.quantities))
            numbers += guarded_names(outer, self.quantities)[0]
        found = {name.text: self.cells(name) for name in find_names(formula) if not name.prior}
        shown = ",".join(dict.fromkeys(found.get(name, name) for name in numbers)).split(",")
        return guard(bare, [c for c in shown if c], [found.get(n, n) for n in words], blank)
