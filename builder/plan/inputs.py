"""Rows in which people type: label, number, unit, and whose number it is."""

from dataclasses import replace

from builder.plan.canvas import Canvas
from builder.plan.context import Context
from builder.plan.validations import accept_choice, accept_number, accept_text
from builder.spec.pages import Block
from builder.spec.records import Choice, Input

LABEL, TYPED, UNIT, STATE, BESIDE_WORDS = range(5)
IDENTITY = ("machine_title", "producer", "site")


def lay_inputs(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out a block of inputs; what becomes of them stands on the sheet of values."""
    if block.heading:
        canvas.put_head([(LABEL, "head", context.pick(block.heading))])
    first = canvas.row
    for name in block.rows:
        quantity = context.spec.quantities[name]
        if isinstance(quantity, Choice):
            lay_choice(canvas, quantity, context)
        elif isinstance(quantity, Input):
            lay_input(canvas, quantity, context)
        col = BESIDE_WORDS if isinstance(quantity, Choice) else STATE
        canvas.put_formula(col, "state", name_state(name))
        canvas.next_row()
    states = canvas.area(STATE, first, canvas.row - 1)
    canvas.states.append(replace(states, last_col=BESIDE_WORDS))
    canvas.next_row()


def name_state(name: str) -> str:
    """Return the name of the word that tells whose number an input is."""
    return f"{name}_state_txt"


def lay_input(canvas: Canvas, quantity: Input, context: Context) -> None:
    """Lay out one number and its unit: a drop-down where there is something to choose."""
    name = quantity.name
    number, unit = context.typed_value(quantity)
    prompt = accept_number(context.label(name), context.pick(quantity.help), context)
    lay_label(canvas, name, context)
    canvas.put(TYPED, "typed", number, name=f"{name}_typed", typed=True, validation=prompt)
    if not context.has_choice_of_unit(quantity.unit):
        canvas.put(UNIT, "unit", context.symbol(quantity.unit))
        return
    source = f"unit_{context.suffix(quantity.unit)}_symbols"
    choice = accept_choice(context.word("col_unit"), context.word("unit_hint"), source, context)
    named = f"{name}_typed_unit"
    symbol = context.symbol(unit)
    canvas.put(UNIT, "typed_unit", symbol, name=named, typed=True, validation=choice)


def lay_label(canvas: Canvas, name: str, context: Context) -> None:
    """Put the label of a quantity, in a row high enough for it in every language."""
    canvas.put(LABEL, "wrapped", context.label(name))
    languages = context.spec.quantities[name].label.words.values()
    canvas.fit_height({LABEL: ("wrapped", languages)})


def lay_choice(canvas: Canvas, quantity: Choice, context: Context) -> None:
    """Lay out one choice: a drop-down of words, which run on over the next cell."""
    name = quantity.name
    words = context.pick(quantity.options.get(find_code(quantity, context))) or None
    prompt = context.pick(quantity.help)
    choice = accept_choice(context.label(name), prompt, f"{name}_words", context)
    lay_label(canvas, name, context)
    canvas.put(TYPED, "typed_word", words, name=f"{name}_typed", typed=True, validation=choice)


def find_code(quantity: Choice, context: Context) -> str:
    """Return the option that stands there at first, "" for none; units follow the command."""
    given = context.machine.given.get(quantity.name)
    if given is not None:
        return given.code
    return context.units if quantity.name == "reader_units" else quantity.usual


def lay_identity(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out the free texts that tell which machine this is."""
    canvas.put_head([(LABEL, "head", context.pick(block.heading))])
    machine = context.machine
    for key, words in zip(IDENTITY, (machine.title, machine.producer, machine.site), strict=True):
        canvas.put(LABEL, "wrapped", context.word(key))
        canvas.fit_height({LABEL: ("wrapped", context.spec.words[key].words.values())})
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
