"""Rows in which people type: label, number, unit, value used, limits, state."""

from builder.formula.grids import code_formula
from builder.plan.canvas import Canvas
from builder.plan.cells import column_letters
from builder.plan.context import Context
from builder.plan.validations import accept_choice, accept_number, accept_text
from builder.spec.pages import Block
from builder.spec.records import Choice, Input

LABEL, TYPED, UNIT, USED, USED_UNIT, FROM, TO, STATE, CONVERTED = range(9)
IDENTITY = ("machine_title", "producer", "site")
EXTRA_DIGITS = 1  # shown of an example that was converted into the reader's unit


def lay_inputs(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out a block of inputs and name the range of its states."""
    heads = [
        (TYPED, "head_number", "col_typed"),
        (UNIT, "head_unit", "col_unit"),
        (USED, "head_number", "col_used"),
        (USED_UNIT, "head_unit", "col_unit"),
        (FROM, "head_number", "col_from"),
        (TO, "head_number", "col_to"),
        (STATE, "head_state", "col_state"),
        (CONVERTED, "head_number", "col_converted"),
    ]
    titles = [(LABEL, "head", context.pick(block.heading) or context.word("col_label"))]
    canvas.put_head(titles + [(col, look, context.word(key)) for col, look, key in heads])
    first = canvas.row
    for name in block.rows:
        quantity = context.spec.quantities[name]
        if isinstance(quantity, Choice):
            lay_choice(canvas, quantity, context)
        elif isinstance(quantity, Input):
            lay_input(canvas, quantity, context)
    name_states(canvas, first, canvas.row - 1)
    canvas.next_row()


def name_states(canvas: Canvas, first: int, last: int) -> None:
    """Name the states and labels of a block, for the sums on the sheet of checks."""
    canvas.states.append(canvas.area(STATE, first, last))
    first -= 1  # with the heading: one engine counts nothing in a range of a single cell
    number = sum(key.startswith("input_states_") for key in canvas.names) + 1
    canvas.define(f"input_states_{number}", canvas.area(STATE, first, last))
    canvas.define(f"input_labels_{number}", canvas.area(LABEL, first, last))


def lay_input(canvas: Canvas, quantity: Input, context: Context) -> None:
    """Lay out one number."""
    name, row = quantity.name, canvas.row + 1
    number, unit = context.typed_value(quantity)
    prompt = accept_number(context.label(name), context.pick(quantity.help), context)
    lay_label(canvas, name, context)
    digits = None if name in context.machine.given else fit_digits(number, quantity.digits)
    typed = f"{name}_typed"
    canvas.put(TYPED, "typed", number, digits=digits, name=typed, typed=True, validation=prompt)
    lay_unit(canvas, quantity, unit, context)
    canvas.put_formula(USED, "number", used_formula(row), digits=quantity.digits, name=name)
    canvas.put(USED_UNIT, "unit", context.symbol(quantity.unit))
    canvas.put(FROM, "limit", quantity.limits.min, digits=quantity.digits)
    canvas.put(TO, "limit", quantity.limits.max, digits=quantity.digits)
    canvas.put_formula(STATE, "state", state_formula(row, quantity))
    formula = converted_formula(row, quantity, context)
    canvas.put_formula(CONVERTED, "faint_number", formula, digits=quantity.digits)
    canvas.next_row()


def lay_label(canvas: Canvas, name: str, context: Context) -> None:
    """Put the label of a quantity, in a row high enough for it in every language."""
    canvas.put(LABEL, "wrapped", context.label(name))
    languages = context.spec.quantities[name].label.words.values()
    canvas.fit_height({LABEL: ("wrapped", languages)})


def fit_digits(number: float | None, digits: int) -> int | None:
    """Return the digits to show of an example that has more of them than anybody typed."""
    wanted = digits + EXTRA_DIGITS
    return wanted if number is not None and round(number, wanted) != number else None


def lay_unit(canvas: Canvas, quantity: Input, unit: str, context: Context) -> None:
    """Lay out the unit of a typed number: a drop-down where there is something to choose."""
    if not context.has_choice_of_unit(quantity.unit):
        canvas.put(UNIT, "unit", context.symbol(quantity.unit))
        return
    source = f"unit_{context.suffix(quantity.unit)}_symbols"
    name = f"{quantity.name}_typed_unit"
    choice = accept_choice(context.word("col_unit"), context.word("unit_hint"), source, context)
    symbol = context.symbol(unit)
    canvas.put(UNIT, "typed_unit", symbol, name=name, typed=True, validation=choice)


def used_formula(row: int) -> str:
    """Return the value that formulas use: the converted one if its state is fine.

    A limit typed in another unit may convert to a last digit beyond it: it counts as the limit.
    """
    state, converted = f"{column_letters(STATE)}{row}", f"{column_letters(CONVERTED)}{row}"
    return f'IF({state}=word_ok_txt,MAX(F{row},MIN(G{row},{converted})),"")'


def converted_formula(row: int, quantity: Input, context: Context) -> str:
    """Return the typed number in the canonical unit, or nothing."""
    typed, unit = f"B{row}", f"C{row}"
    if not context.has_choice_of_unit(quantity.unit):
        return f'IF(OR({typed}="",ISTEXT({typed})),"",{typed}*1)'
    lists = f"unit_{context.suffix(quantity.unit)}"
    place = f"MATCH({unit},{lists}_symbols,0)"
    factor, offset = f"INDEX({lists}_factors,{place})", f"INDEX({lists}_offsets,{place})"
    return f'IF(OR({typed}="",ISTEXT({typed})),"",IFERROR({typed}*{factor}+{offset},""))'


def state_formula(row: int, quantity: Input) -> str:
    """Return the word that tells whether the typed number can be used."""
    blank = "word_none_txt" if quantity.optional else "word_missing_txt"
    odd = f",I{row}<>INT(I{row})" if quantity.whole else ""
    outside = f"ROUND(F{row}-I{row},9)>0,ROUND(I{row}-G{row},9)>0"
    judged = f"IF(OR({outside}{odd}),word_range_txt,word_ok_txt)"
    absent = f'IF(B{row}="",{blank},IF(ISTEXT(B{row}),word_text_txt,word_unit_txt))'
    return f'IF(I{row}="",{absent},{judged})'


def lay_choice(canvas: Canvas, quantity: Choice, context: Context) -> None:
    """Lay out one choice: a drop-down of words; formulas use the code of the word."""
    name, row = quantity.name, canvas.row + 1
    words = context.pick(quantity.options.get(find_code(quantity, context))) or None
    prompt = context.pick(quantity.help)
    choice = accept_choice(context.label(name), prompt, f"{name}_words", context)
    lay_label(canvas, name, context)
    canvas.put(TYPED, "typed_word", words, name=f"{name}_typed", typed=True, validation=choice)
    canvas.put_formula(USED, "used_code", f'IF(H{row}=word_ok_txt,I{row},"")', name=name)
    absent = f'IF(B{row}="",word_missing_txt,word_range_txt)'
    canvas.put_formula(STATE, "state", f'IF(I{row}="",{absent},word_ok_txt)')
    canvas.put_formula(CONVERTED, "faint_code", code_formula(name, f"B{row}"))
    canvas.next_row()


def find_code(quantity: Choice, context: Context) -> str:
    """Return the option that stands there at first, "" for none; units follow the command."""
    given = context.machine.given.get(quantity.name)
    if given is not None:
        return given.code
    return context.units if quantity.name == "reader_units" else quantity.value


def lay_identity(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out the free texts that tell which machine this is."""
    canvas.put_head([(LABEL, "head", context.pick(block.heading))])
    machine = context.machine
    for key, words in zip(IDENTITY, (machine.title, machine.producer, machine.site), strict=True):
        canvas.put(LABEL, "label", context.word(key))
        rule = accept_text(context.word(key), "", context)
        name = f"{key}_typed"
        canvas.put(TYPED, "typed_word", words or None, name=name, typed=True, validation=rule)
        canvas.next_row()
    canvas.next_row()


def lay_bearer(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out again which machine this is, for sheets that leave the house."""
    canvas.put_head([(LABEL, "head", context.pick(block.heading))])
    for key in IDENTITY:
        canvas.put(LABEL, "label", context.word(key))
        canvas.put_formula(TYPED, "word", f'IF({key}_typed="","",{key}_typed)')
        canvas.next_row()
    canvas.next_row()
