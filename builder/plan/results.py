"""Rows that show what was worked out, in the canonical and in the reader's unit."""

from builder.formula.guard import guard_result
from builder.plan.canvas import Canvas
from builder.plan.context import Context
from builder.plan.inputs import lay_label
from builder.spec.pages import Block
from builder.spec.records import Choice, Input, Quantity, Result

LABEL, VALUE, UNIT, READER, READER_UNIT, STATE, SOURCE = 0, 1, 2, 3, 4, 7, 8


def lay_results(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out results at home: here stand their formulas and names."""
    lay_result_heads(canvas, block, context)
    first = canvas.row
    for name in block.rows:
        quantity = context.spec.quantities[name]
        if isinstance(quantity, Result):
            formula = guard_result(quantity.formula, context.spec.quantities)
            lay_result(canvas, quantity, formula, name, context)
    canvas.states.append(canvas.area(STATE, first, canvas.row - 1))
    canvas.next_row()


def lay_answers(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out results again that have their home on another sheet."""
    lay_result_heads(canvas, block, context)
    first = canvas.row
    for name in block.rows:
        quantity = context.spec.quantities[name]
        if isinstance(quantity, Result):
            lay_result(canvas, quantity, name, "", context)
        elif isinstance(quantity, Input):
            lay_label(canvas, name, context)
            canvas.put_formula(VALUE, "result", name, digits=quantity.digits)
            canvas.put(UNIT, "unit", context.symbol(quantity.unit))
            show_in_reader_unit(canvas, quantity, context)
            canvas.next_row()
        elif isinstance(quantity, Choice):
            lay_label(canvas, name, context)
            canvas.put_formula(VALUE, "word", pick_option(name))
            canvas.next_row()
    canvas.states.append(canvas.area(STATE, first, canvas.row - 1))
    canvas.next_row()


def pick_option(name: str) -> str:
    """Return the formula for the reader's word for the code that a name holds."""
    return f'IFERROR(INDEX({name}_words,MATCH({name},{name}_codes,0)),"")'


def lay_result_heads(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out the row of headings."""
    heads = [
        (VALUE, "head_number", "col_value"),
        (UNIT, "head_unit", "col_unit"),
        (READER, "head_number", "col_reader"),
        (READER_UNIT, "head_unit", "col_unit"),
        (STATE, "head_state", "col_state"),
        (SOURCE, "head", "col_source"),
    ]
    titles = [(LABEL, "head", context.pick(block.heading) or context.word("col_label"))]
    canvas.put_head(titles + [(col, look, context.word(key)) for col, look, key in heads])


def lay_result(canvas: Canvas, quantity: Result, formula: str, name: str, context: Context) -> None:
    """Lay out one result."""
    row, digits = canvas.row + 1, quantity.digits
    lay_label(canvas, quantity.name, context)
    if quantity.words or quantity.words_of or quantity.options:
        lay_words(canvas, quantity, formula, name)
    else:
        look = "result_date" if quantity.date else "result"
        canvas.put_formula(VALUE, look, formula, digits=digits, name=name)
        canvas.put(UNIT, "unit", None if quantity.date else context.symbol(quantity.unit))
        show_in_reader_unit(canvas, quantity, context)
    waits = context.waits_for_optional(quantity)
    absent = "word_none_txt" if waits else "word_missing_txt"
    verdict = quantity.check if quantity.check else f'IF(B{row}="",{absent},"")'
    if not quantity.words_of:  # their sentences run on over the state
        canvas.put_formula(STATE, "state", verdict)
    canvas.put(SOURCE, "faint", context.cite(quantity.source))
    canvas.next_row()


def lay_words(canvas: Canvas, quantity: Result, formula: str, name: str) -> None:
    """Show the words of a result; the code that formulas read stands unseen before them."""
    cell, lists = f"B{canvas.row + 1}", quantity.words_of or quantity.name
    canvas.put_formula(VALUE, "used_code", formula, digits=quantity.digits, name=name)
    picked = f'IF(SUM({cell})=0,"",INDEX({lists}_words,{cell}))'
    if quantity.options:
        picked = pick_option(quantity.name)
    canvas.put_formula(UNIT, "word", picked)


def show_in_reader_unit(canvas: Canvas, quantity: Quantity, context: Context) -> None:
    """Put the value of column B once more, in the unit that the reader has chosen."""
    if not context.has_reader_unit(quantity.unit):
        return
    cell, reader = f"B{canvas.row + 1}", f"reader_{context.suffix(quantity.unit)}"
    blank = f'OR({cell}="",reader_units="")'
    shown = f'IF({blank},"",({cell}-{reader}_offset_n)/{reader}_factor_n)'
    canvas.put_formula(READER, "number", shown, digits=quantity.digits)
    canvas.put_formula(READER_UNIT, "unit", f"{reader}_symbol_txt")
