"""Grids: rows of records, one formula a column, the row above within reach."""

from builder.formula.grids import (
    LIST,
    ROW_NUMBER,
    grid_columns,
    is_typed,
    list_group,
    name_column,
    outer_names,
    row_formula,
)
from builder.formula.guard import guard, guarded_names
from builder.formula.tokens import Name, replace_names
from builder.plan.canvas import Canvas
from builder.plan.cells import column_letters
from builder.plan.context import Context
from builder.plan.entries import lay_entry, lay_entry_heads
from builder.spec.pages import Block
from builder.spec.records import Grid, Record

FIRST_COLUMN = 1
HERE, ABOVE = "_HERE", "_ABOVE"  # stand for a row's number in the formula of a column


def lay_grids(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out the grids of a block, one below the other, and to their right those beside them."""
    if block.heading:
        canvas.put_head([(0, "head", context.pick(block.heading))])
    for name in block.rows:
        grid = context.spec.quantities[name]
        if isinstance(grid, Grid) and not grid.beside:
            GridLayout(canvas, grid, context).lay()


class GridLayout:
    """Lays out one grid and the grids beside it."""

    def __init__(self, canvas: Canvas, grid: Grid, context: Context) -> None:
        """Find the columns and their places."""
        self.canvas, self.grid, self.context = canvas, grid, context
        self.quantities = context.spec.quantities
        self.columns = [
            (member, column)
            for member in list_group(grid, self.quantities)
            for column in grid_columns(member, self.quantities)
        ]
        self.place = {c.name: col for col, (_, c) in enumerate(self.columns, start=FIRST_COLUMN)}
        self.typed = any(column.entry for _, column in self.columns)
        self.patterns: dict[tuple[str, bool], str] = {}

    def lay(self) -> None:
        """Lay out heads and rows, and name what other formulas may ask for."""
        canvas, context = self.canvas, self.context
        canvas.put(0, "label", context.label(self.grid.name))
        canvas.next_row()
        if self.typed:
            canvas.heads.append((canvas.row, canvas.row + 1))
            lay_entry_heads(canvas, self.columns, context)
        else:
            self.lay_heads()
        first = canvas.row
        for number in range(self.grid.rows):
            self.lay_row(number)
        for grid, column in self.columns:
            area = canvas.area(self.place[column.name], first, canvas.row - 1)
            canvas.define(f"{name_column(grid.name, column.name)}{LIST}", area)
            if column.words:
                canvas.states.append(area)
        canvas.next_row()

    def lay_heads(self) -> None:
        """Lay out one row of headings, those of numbers over their numbers."""
        canvas, context = self.canvas, self.context
        canvas.heads.append((canvas.row, canvas.row))
        canvas.put(0, "head", context.word("row"))
        labels = {}
        for _, column in self.columns:
            words = column.text or column.worded
            look = "head_wrapped" if words else "head_number_wrapped"
            labels[self.place[column.name]] = (look, column.label.words.values())
            canvas.put(self.place[column.name], look, context.label(column.name))
        canvas.fit_height(labels)
        canvas.next_row()

    def lay_row(self, number: int) -> None:
        """Lay out one row; the cells of a last row get names, unless many rows are typed."""
        canvas = self.canvas
        canvas.put(0, "limit", number + 1, digits=0)
        for grid, column in self.columns:
            col = self.place[column.name]
            name = self.find_name(grid, column) if number == grid.rows - 1 else ""
            if column.entry:
                lay_entry(canvas, col, grid, column, number, self.context, name)
                continue
            pattern = self.find_pattern(grid, column, first=number == 0)
            formula = pattern.replace(HERE, str(canvas.row + 1)).replace(ABOVE, str(canvas.row))
            look = self.find_look(column)
            canvas.put_formula(col, look, formula, digits=column.digits, name=name, pattern=pattern)
        canvas.next_row()

    def find_name(self, grid: Grid, column: Record) -> str:
        """Return the name of the last cell of a column, where it has one."""
        typed = is_typed(grid, self.quantities)
        name = f"{grid.name}_{column.name}"
        shared = name_column(grid.name, column.name) != name
        return "" if shared or (typed and grid.rows > 1) else name

    def find_look(self, column: Record) -> str:
        """Return how the worked cells of a column look; flags of a log show no zeros."""
        if column.worded:
            return "working_word"
        if column.date or self.is_date(column.used):
            return "date"
        if column.codes:
            return "faint_code"
        if column.blank or (self.typed and column.unit == "n" and not column.digits):
            return "working_flag"
        return "unit" if column.text else "working"

    def is_date(self, name: str) -> bool:
        """Tell whether days are typed in a column."""
        column = self.quantities.get(name)
        return isinstance(column, Record) and column.entry == "date"

    def address(self, name: Name) -> str:
        """Return the cell of a name in a row yet open, or the name itself if it stands outside."""
        row = ABOVE if name.prior else HERE
        if name.text == ROW_NUMBER:
            return f"$A{row}"
        if name.text not in self.place:
            return name.text
        return f"{column_letters(self.place[name.text])}{row}"

    def copies_above(self, formula: str) -> bool:
        """Tell whether a cell only shows a worked cell of the row above: a blank shows itself."""
        copied = [column.name for _, column in self.columns if not column.entry]
        return formula in (f"PRIOR({name})" for name in copied)

    def find_pattern(self, grid: Grid, column: Record, *, first: bool) -> str:
        """Return the formula of a column, worked out once for the first row and once for others."""
        key = column.name, first
        if key not in self.patterns:
            self.patterns[key] = self.make_pattern(grid, column, first=first)
        return self.patterns[key]

    def make_pattern(self, grid: Grid, column: Record, *, first: bool) -> str:
        """Return the formula of a column with its blank guard, its rows marked."""
        formula = row_formula(grid, column, first=first)
        bare = replace_names(formula, self.address)
        if column.worded:
            found = f"INDEX({name_column(grid.name, column.name)}_words,{bare})"
            # Place 0 is no word; INDEX would give the whole list for it.
            bare = f'IF(SUM({bare})>0,{found},"")' if grid.open else found
        copied = self.copies_above(formula) and not column.blank
        if grid.open or copied or column.made_from:
            return bare
        blank = column.blank or '""'
        if grid.guard and column.name != grid.guard:
            return f'IF({self.address(Name(grid.guard, prior=False))}="",{blank},{bare})'
        numbers, words = guarded_names(formula, self.quantities, column.optional)
        if grid.guard:
            outer = "+".join(outer_names(grid, self.quantities))
            numbers += guarded_names(outer, self.quantities)[0]
        cells = dict.fromkeys(self.address(Name(name, prior=False)) for name in numbers)
        return guard(bare, list(cells), [self.address(Name(n, prior=False)) for n in words], blank)
