"""What becomes of typed cells: the value used, whose it is, its limits, and what is usual."""

from collections.abc import Iterator

from builder.formula.grids import code_formula
from builder.plan.canvas import Canvas
from builder.plan.context import Context
from builder.plan.inputs import lay_label, name_state
from builder.spec.pages import Block, Sheet
from builder.spec.records import Choice, Input

LABEL, STATE, USED, UNIT, FROM, TO, CONVERTED, USUAL = range(8)
HEADS = (
    (STATE, "head_state", "col_state"),
    (USED, "head_number", "col_used"),
    (UNIT, "head_unit", "col_unit"),
    (FROM, "head_number", "col_from"),
    (TO, "head_number", "col_to"),
    (CONVERTED, "head_number", "col_converted"),
    (USUAL, "head_number", "col_usual"),
)


def lay_values(canvas: Canvas, _block: Block, context: Context) -> None:
    """Lay out every input, sheet by sheet, and name the range of their states."""
    first = canvas.row
    for sheet, names in list_typed(context):
        titles = [(LABEL, "head", context.pick(sheet.title))]
        canvas.put_head(titles + [(col, look, context.word(key)) for col, look, key in HEADS])
        for name in names:
            quantity = context.spec.quantities[name]
            lay_label(canvas, name, context)
            if isinstance(quantity, Choice):
                lay_code(canvas, quantity)
            elif isinstance(quantity, Input):
                lay_number(canvas, quantity, context)
            canvas.next_row()
        canvas.next_row()
    canvas.states.append(canvas.area(STATE, first, canvas.row - 1))
    canvas.define("input_states", canvas.area(STATE, first, canvas.row - 1))
    canvas.define("input_labels", canvas.area(LABEL, first, canvas.row - 1))


def list_typed(context: Context) -> Iterator[tuple[Sheet, list[str]]]:
    """Yield each sheet on which inputs are typed, with their names."""
    for sheet in context.spec.sheets:
        names = [n for block in sheet.blocks if block.kind == "inputs" for n in block.rows]
        if names:
            yield sheet, names


def lay_number(canvas: Canvas, quantity: Input, context: Context) -> None:
    """Lay out the value that formulas use of a number: converted, inside its limits, or usual.

    A limit typed in another unit may convert to a last digit beyond it: it counts as the limit.
    """
    name, row, digits = quantity.name, canvas.row + 1, quantity.digits
    canvas.put_formula(STATE, "state", tell_number(row, quantity), name=name_state(name))
    usual = f'IF(B{row}=word_usual_txt,H{row},"")'
    used = f"IF(B{row}=word_yours_txt,MAX(E{row},MIN(F{row},G{row})),{usual})"
    canvas.put_formula(USED, "number", used, digits=digits, name=name)
    canvas.put(UNIT, "unit", context.symbol(quantity.unit))
    canvas.put(FROM, "limit", quantity.limits.min, digits=digits)
    canvas.put(TO, "limit", quantity.limits.max, digits=digits)
    converted = convert(quantity, context)
    canvas.put_formula(CONVERTED, "faint_number", converted, digits=digits)
    if quantity.usual is not None:
        canvas.put(USUAL, "faint_number", quantity.usual, digits=digits)


def convert(quantity: Input, context: Context) -> str:
    """Return the formula for the typed number in the canonical unit, or nothing."""
    typed, unit = f"{quantity.name}_typed", f"{quantity.name}_typed_unit"
    if not context.has_choice_of_unit(quantity.unit):
        return f'IF(OR({typed}="",ISTEXT({typed})),"",{typed}*1)'
    lists = f"unit_{context.suffix(quantity.unit)}"
    place = f"MATCH({unit},{lists}_symbols,0)"
    factor, offset = f"INDEX({lists}_factors,{place})", f"INDEX({lists}_offsets,{place})"
    return f'IF(OR({typed}="",ISTEXT({typed})),"",IFERROR({typed}*{factor}+{offset},""))'


def tell_number(row: int, quantity: Input) -> str:
    """Return the formula for the word that tells whose a number is, or why none can be used."""
    blank = "word_none_txt" if quantity.optional else "word_missing_txt"
    if quantity.usual is not None:
        blank = "word_usual_txt"
    elif quantity.typical:
        blank = f'IF({quantity.typical}="",{blank},word_typical_txt)'
    odd = f",G{row}<>INT(G{row})" if quantity.whole else ""
    outside = f"ROUND(E{row}-G{row},9)>0,ROUND(G{row}-F{row},9)>0"
    judged = f"IF(OR({outside}{odd}),word_range_txt,word_yours_txt)"
    typed = f"{quantity.name}_typed"
    absent = f'IF({typed}="",{blank},IF(ISTEXT({typed}),word_text_txt,word_unit_txt))'
    return f'IF(G{row}="",{absent},{judged})'


def lay_code(canvas: Canvas, quantity: Choice) -> None:
    """Lay out the code that formulas see of a choice: that of the word, or the usual one."""
    name, row, typed = quantity.name, canvas.row + 1, f"{quantity.name}_typed"
    absent = f'IF({typed}="",word_usual_txt,word_range_txt)'
    chosen = f"IF(G{row}=H{row},word_usual_txt,word_yours_txt)"
    state = f'IF(G{row}="",{absent},{chosen})'
    canvas.put_formula(STATE, "state", state, name=name_state(name))
    used = f'IF(B{row}=word_yours_txt,G{row},IF(B{row}=word_usual_txt,H{row},""))'
    canvas.put_formula(USED, "code", used, name=name)
    canvas.put_formula(CONVERTED, "faint_code", code_formula(name, typed))
    canvas.put(USUAL, "code", quantity.usual)
