"""Typed columns of a grid: their headings with a unit chosen once, and their cells."""

from builder.plan.canvas import Canvas
from builder.plan.cells import Validation
from builder.plan.context import Context
from builder.plan.inputs import fit_digits
from builder.plan.validations import accept_choice, accept_date, accept_number, accept_text
from builder.spec.conversion import from_canonical
from builder.spec.records import Grid, Record, Unit

FIRST_COLUMN = 1
DIGITS = 15  # of a number, in every spreadsheet program
TOP_ROWS = 10  # heads of a grid that begins near the top stay in view
LOOKS = {"number": "typed", "date": "typed_date", "choice": "typed_word", "text": "typed_word"}


def lay_entry_heads(canvas: Canvas, grid: Grid, columns: list[Record], context: Context) -> None:
    """Lay out four rows: labels, units, and how the unit chosen leads to the canonical one."""
    heads = ("row", "col_unit", "unit_factor", "unit_offset")
    rows = [canvas.row + step for step in range(len(heads))]
    for row, key in zip(rows, heads, strict=True):
        canvas.row = row
        canvas.put(0, "head" if row == rows[0] else "faint", context.word(key))
    labels = {}
    for col, column in enumerate(columns, start=FIRST_COLUMN):
        canvas.row = rows[0]
        labels[col] = ("head_wrapped", column.label.words.values())
        canvas.put(col, "head_wrapped", context.label(column.name))
        canvas.row = rows[1]
        if column.entry == "date":
            continue
        if not (column.entry == "number" and context.has_choice_of_unit(column.unit)):
            canvas.put(col, "unit", context.symbol(column.unit) or None)
            continue
        lay_column_unit(canvas, col, f"{grid.name}_{column.name}", column, context)
    canvas.row = rows[0]
    canvas.fit_height(labels)
    canvas.row = rows[-1] + 1
    if rows[0] < TOP_ROWS:
        canvas.frozen_rows = canvas.row


def lay_column_unit(canvas: Canvas, col: int, name: str, column: Record, context: Context) -> None:
    """Lay out the drop-down of a column's unit, and below it factor and offset."""
    lists = f"unit_{context.suffix(column.unit)}"
    hint = context.word("unit_hint")
    choice = accept_choice(context.word("col_unit"), hint, f"{lists}_symbols", context)
    symbol = context.symbol(find_unit(name, column, context).key)
    unit = f"{name}_typed_unit"
    canvas.put(col, "typed_unit", symbol, name=unit, typed=True, validation=choice)
    for part in ("factor", "offset"):
        canvas.next_row()
        found = f"INDEX({lists}_{part}s,MATCH({unit},{lists}_symbols,0))"
        formula = f"IFERROR({found},word_unit_txt)"
        canvas.put_formula(col, "faint_number", formula, name=f"{name}_{part}_n")


def lay_entry(
    canvas: Canvas, col: int, grid: Grid, column: Record, number: int, context: Context
) -> None:
    """Lay out one typed cell, filled with what the machine brings along."""
    rule = find_rule(grid, column, context)
    value = find_entry(grid, column, number, context)
    digits = fit_digits(value, column.digits) if isinstance(value, float) else None
    canvas.put(col, LOOKS[column.entry], value, digits=digits, typed=True, validation=rule)


def find_rule(grid: Grid, column: Record, context: Context) -> Validation:
    """Return what the typed cells of a column accept."""
    label, prompt = context.label(column.name), context.pick(column.help)
    if column.entry == "choice":
        return accept_choice(label, prompt, f"{grid.name}_{column.name}_words", context)
    accept = {"number": accept_number, "date": accept_date, "text": accept_text}[column.entry]
    return accept(label, prompt, context)


def find_entry(grid: Grid, column: Record, number: int, context: Context) -> float | str | None:
    """Return what stands in a typed cell at first: words, or a number in the unit shown."""
    rows = context.machine.entries.get(grid.name, [])
    value = rows[number].get(column.name) if number < len(rows) else None
    if isinstance(value, str) and column.options:
        return context.pick(column.options[value])
    if not isinstance(value, int | float) or not context.has_choice_of_unit(column.unit):
        return value
    canonical = context.spec.units[column.unit]
    shown = find_unit(f"{grid.name}_{column.name}", column, context)
    if shown is canonical:
        return value
    # The digits that somebody typed, without the last bit that two conversions leave.
    return float(f"{from_canonical(value, shown, canonical):.{DIGITS}g}")


def find_unit(name: str, column: Record, context: Context) -> Unit:
    """Return the unit in a column's heading: the one that the machine brings, or the reader's."""
    units = context.spec.units
    brought = context.machine.cells.get(f"{name}_unit")
    return units[str(brought or units[column.unit].reader[context.units])]
