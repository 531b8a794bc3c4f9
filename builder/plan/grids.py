"""Grids: rows of records, one formula a column, the row above within reach."""

from builder.formula.grids import grid_columns, outer_names, row_formula
from builder.formula.guard import guard, guarded_names
from builder.formula.tokens import Name, find_names, replace_names
from builder.plan.canvas import Canvas
from builder.plan.cells import column_letters
from builder.plan.context import Context
from builder.spec.records import Block, Grid, Record

FIRST_COLUMN = 1


def lay_grids(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out the grids of a block, one below the other."""
    canvas.put_head([(0, "head", context.pick(block.heading))])
    for name in block.rows:
        grid = context.spec.quantities[name]
        if isinstance(grid, Grid):
            lay_grid(canvas, grid, context)


def lay_grid(canvas: Canvas, grid: Grid, context: Context) -> None:
    """Lay out one grid; the cells of its last row get names, as `start_next_pH`."""
    canvas.put(0, "label", context.label(grid.name))
    canvas.next_row()
    columns = grid_columns(grid, context.spec.quantities)
    for col, column in enumerate(columns, start=FIRST_COLUMN):
        canvas.put(col, "head_number", context.label(column.name))
    canvas.put(0, "head", context.word("row"))
    canvas.next_row()
    first = canvas.row
    for number in range(grid.rows):
        canvas.put(0, "limit", number + 1, digits=0)
        for col, column in enumerate(columns, start=FIRST_COLUMN):
            formula = cell_formula(grid, column, number, canvas.row, context)
            last = number == grid.rows - 1
            name = f"{grid.name}_{column.name}" if last else ""
            canvas.put_formula(col, "working", formula, digits=column.digits, name=name)
        canvas.next_row()
    for col, column in enumerate(columns, start=FIRST_COLUMN):
        area = canvas.area(col, first, canvas.row - 1)
        canvas.define(f"{grid.name}_{column.name}_list", area)
    canvas.next_row()


def cell_formula(grid: Grid, column: Record, number: int, row: int, context: Context) -> str:
    """Return the formula of one cell with its blank guard; `row` counts from 0."""
    formula = row_formula(grid, column, first=number == 0)
    place = {name: col for col, name in enumerate(grid.columns, start=FIRST_COLUMN)}

    def address(name: Name) -> str:
        if name.text not in place:
            return name.text
        return f"{column_letters(place[name.text])}{row if name.prior else row + 1}"

    bare = replace_names(formula, address)
    blank = column.blank or '""'
    if grid.guard and column.name != grid.guard:
        return f'IF({address(Name(grid.guard, prior=False))}="",{blank},{bare})'
    quantities = context.spec.quantities
    own = dict.fromkeys(address(name) for name in find_names(formula) if name.text in place)
    outer = outer_names(grid, quantities) if grid.guard else []
    numbers, choices = guarded_names(formula, quantities)
    numbers += [name for name in outer if name in guarded_names("+".join(outer), quantities)[0]]
    named = [name for name in dict.fromkeys(numbers) if name not in place]
    return guard(bare, [*own, *named], choices, blank)
