"""Rows that show what was worked out: at home with its formula, and for people in their unit."""

from builder.formula.guard import guard_result
from builder.plan.canvas import Canvas
from builder.plan.context import Context
from builder.plan.inputs import lay_label
from builder.spec.pages import BEHIND, Block
from builder.spec.records import Choice, Input, Result

LABEL, VALUE, UNIT, STATE, SOURCE = range(5)
HEADS = (
    (VALUE, "head_number", "col_value"),
    (UNIT, "head_unit", "col_unit"),
    (STATE, "head_state", "col_state"),
    (SOURCE, "head", "col_source"),
)


def lay_homes(canvas: Canvas, _block: Block, context: Context) -> None:
    """Lay out at home the results that sheets for people show, sheet by sheet."""
    first = canvas.row
    for sheet in context.spec.sheets:
        for shown in sheet.blocks if sheet.role != BEHIND else []:
            if shown.kind == "results":
                titles = [sheet.title, *([shown.heading] if shown.heading else [])]
                lay_home(canvas, shown, " / ".join(context.pick(t) for t in titles), context)
    canvas.states.append(canvas.area(STATE, first, canvas.row - 1))


def lay_results(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out results at home: here stand their formulas and names."""
    first = canvas.row
    lay_home(canvas, block, context.pick(block.heading) or context.word("col_label"), context)
    canvas.states.append(canvas.area(STATE, first, canvas.row - 1))


def lay_home(canvas: Canvas, block: Block, heading: str, context: Context) -> None:
    """Lay out the results of a block under a heading, in canonical units."""
    titles = [(LABEL, "head", heading)]
    canvas.put_head(titles + [(col, look, context.word(key)) for col, look, key in HEADS])
    for name in block.rows:
        quantity = context.spec.quantities[name]
        if isinstance(quantity, Result):
            lay_result(canvas, quantity, context)
    canvas.next_row()


def lay_result(canvas: Canvas, quantity: Result, context: Context) -> None:
    """Lay out one result with its formula."""
    lay_label(canvas, quantity.name, context)
    formula = guard_result(quantity.formula, context.spec.quantities)
    look = "code" if quantity.options else "result_date" if quantity.date else "result"
    canvas.put_formula(VALUE, look, formula, digits=quantity.digits, name=quantity.name)
    if not quantity.date:
        canvas.put(UNIT, "unit", context.symbol(quantity.unit) or None)
    canvas.put_formula(STATE, "state", tell_state(quantity, context))
    canvas.put(SOURCE, "faint", context.cite(quantity.source))
    canvas.next_row()


def tell_state(quantity: Result, context: Context) -> str:
    """Return the formula for the verdict of a result, or for why there is none."""
    absent = "word_none_txt" if context.waits_for_optional(quantity) else "word_missing_txt"
    return quantity.check or f'IF({quantity.name}="",{absent},"")'


def lay_answers(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out results for people: one number in the reader's unit, and the word for its state."""
    canvas.put_head([(LABEL, "head", context.pick(block.heading))])
    first = canvas.row
    for name in block.rows:
        quantity = context.spec.quantities[name]
        lay_label(canvas, name, context)
        if isinstance(quantity, Choice) or (isinstance(quantity, Result) and quantity.options):
            canvas.put_formula(VALUE, "word", pick_option(name))
        elif isinstance(quantity, Result) and (quantity.words or quantity.words_of):
            canvas.put_formula(VALUE, "word", pick_words(quantity))
        elif isinstance(quantity, Input | Result):
            show_number(canvas, quantity, context)
        canvas.next_row()
    canvas.states.append(canvas.area(STATE, first, canvas.row - 1))
    canvas.next_row()


def pick_words(quantity: Result) -> str:
    """Return the formula for the words at the place that a result tells; they run on."""
    name, lists = quantity.name, quantity.words_of or quantity.name
    return f'IF(SUM({name})=0,"",INDEX({lists}_words,{name}))'


def show_number(canvas: Canvas, quantity: Input | Result, context: Context) -> None:
    """Put a number in the unit that the reader has chosen, and the word for its state."""
    name, shown, unit = quantity.name, quantity.name, context.symbol(quantity.unit)
    if isinstance(quantity, Result) and quantity.date:
        canvas.put_formula(VALUE, "result_date", name)
    elif context.has_reader_unit(quantity.unit):
        reader = f"reader_{context.suffix(quantity.unit)}"
        shown = f'IF(OR({name}="",reader_units=""),"",({name}-{reader}_offset_n)/{reader}_factor_n)'
        canvas.put_formula(VALUE, "result", shown, digits=quantity.digits)
        canvas.put_formula(UNIT, "unit", f"{reader}_symbol_txt")
    else:
        canvas.put_formula(VALUE, "result", name, digits=quantity.digits)
        canvas.put(UNIT, "unit", unit or None)
    if isinstance(quantity, Result):
        canvas.put_formula(STATE, "state", tell_state(quantity, context))


def pick_option(name: str) -> str:
    """Return the formula for the reader's word for the code that a name holds."""
    return f'IFERROR(INDEX({name}_words,MATCH({name},{name}_codes,0)),"")'
