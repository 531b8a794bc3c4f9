"""Typed columns of a grid: their headings with unit and limits, and their cells."""

from builder.formula.grids import LIMITS, name_column
from builder.plan.canvas import Canvas
from builder.plan.cells import Validation
from builder.plan.context import Context
from builder.plan.validations import accept_choice, accept_date, accept_number, accept_text
from builder.spec.conversion import find_part, list_units
from builder.spec.records import Grid, Record

FIRST_COLUMN = 1
TOP_ROWS = 10  # heads of a grid that begins near the top stay in view
LOOKS = {"number": "typed", "date": "typed_date", "choice": "typed_word", "text": "typed_word"}


def lay_entry_heads(canvas: Canvas, columns: list[tuple[Grid, Record]], context: Context) -> None:
    """Lay out four rows: labels, units, and the least and the largest number that counts."""
    heads = ("row", "col_unit", "col_from", "col_to")
    rows = [canvas.row + step for step in range(len(heads))]
    for row, key in zip(rows, heads, strict=True):
        canvas.row = row
        canvas.put(0, "head" if row == rows[0] else "faint", context.word(key))
    labels = {}
    for col, (grid, column) in enumerate(columns, start=FIRST_COLUMN):
        canvas.row = rows[0]
        labels[col] = ("head_wrapped", column.label.words.values())
        canvas.put(col, "head_wrapped", context.label(column.name))
        canvas.row = rows[1]
        lay_unit(canvas, col, column, context)
        if column.limits:
            lay_limits(canvas, col, name_column(grid.name, column.name), column)
    canvas.row = rows[0]
    canvas.fit_height(labels)
    canvas.row = rows[-1] + 1
    if rows[0] < TOP_ROWS:
        canvas.frozen_rows = canvas.row


def lay_unit(canvas: Canvas, col: int, column: Record, context: Context) -> None:
    """Lay out a column's unit: of a typed one that of the newest row of the choice of units."""
    choice = context.spec.quantities.get(column.unit_of)
    if not isinstance(choice, Record):
        dated = column.date or column.entry == "date"
        canvas.put(col, "unit", None if dated else context.symbol(column.unit) or None)
        return
    owner = context.find_grid(choice)
    lists = name_column(owner.name, choice.name)
    suffix, units = context.suffix(column.unit), context.spec.units
    known = [unit.key for unit in list_units(units[column.unit], units)]
    parts = [find_part(code, choice.measure, column.unit) for code in choice.options]
    places = ",".join(str(known.index(part) + 1) for part in parts)
    reader = f"reader_{suffix}_symbol_txt"
    word = f"INDEX({lists}_list,{owner.newest})"
    place = f"CHOOSE(MATCH({word},{lists}_words,0),{places})"
    found = f"IFERROR(INDEX(unit_{suffix}_symbols,{place}),{reader})"
    canvas.put_formula(col, "unit", f"IF({owner.newest}=0,{reader},{found})")


def lay_limits(canvas: Canvas, col: int, name: str, column: Record) -> None:
    """Lay out the least and the largest number that counts, in the canonical unit."""
    if column.limits is None:
        return
    look = "limit_date" if column.entry == "date" else "limit"
    for part, limit in zip(LIMITS, (column.limits.min, column.limits.max), strict=True):
        canvas.next_row()
        canvas.put(col, look, limit, digits=column.digits, name=f"{name}{part}")


def lay_entry(
    canvas: Canvas,
    col: int,
    grid: Grid,
    column: Record,
    number: int,
    context: Context,
    name: str = "",
) -> None:
    """Lay out one typed cell, filled with what the machine brings along."""
    rule = find_rule(grid, column, context)
    value = find_entry(grid, column, number, context)
    canvas.put(col, LOOKS[column.entry], value, name=name, typed=True, validation=rule)


def find_rule(grid: Grid, column: Record, context: Context) -> Validation:
    """Return what the typed cells of a column accept."""
    label, prompt = context.label(column.name), context.pick(column.help)
    if column.entry == "choice":
        return accept_choice(label, prompt, f"{name_column(grid.name, column.name)}_words", context)
    accept = {"number": accept_number, "date": accept_date, "text": accept_text}[column.entry]
    return accept(label, prompt, context)


def find_entry(grid: Grid, column: Record, number: int, context: Context) -> float | str | None:
    """Return what stands in a typed cell at first: as it was typed, words for codes."""
    rows = context.machine.entries.get(grid.name, [])
    value = rows[number].get(column.name) if number < len(rows) else None
    known = isinstance(value, str) and value in column.options
    return context.pick(column.options[str(value)]) if known else value
