"""Lists to tick and cards to hang up: what to do, step by step."""

from builder.plan.canvas import Canvas
from builder.plan.context import Context
from builder.plan.results import pick_option, show_in_reader_unit
from builder.spec.pages import TICKS, Block
from builder.spec.records import Choice, Quantity

TEXT, DONE, DATE, INITIALS = range(4)
VALUE, UNIT = 1, 2
CARD_LETTERS = 0.9  # larger letters, fewer of them in a line


def lay_checklist(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out steps to tick: done, date, initials."""
    heads = [(DONE, "col_done"), (DATE, "col_date"), (INITIALS, "col_initials")]
    titles = [(TEXT, "head", context.pick(block.heading))]
    canvas.put_head(titles + [(col, "head", context.word(key)) for col, key in heads])
    looks = {DONE: "typed_word", DATE: "typed_date", INITIALS: "typed_word"}
    for step in block.steps:
        words = context.pick(step.text)
        canvas.put(TEXT, "wrapped", words)
        for col, part in zip((DONE, DATE, INITIALS), TICKS, strict=True):
            lay_typed(canvas, col, looks[col], f"{step.key}_{part}", context)
        canvas.fit_height({TEXT: words})
        canvas.next_row()
    canvas.next_row()


def lay_typed(canvas: Canvas, col: int, look: str, key: str, context: Context) -> None:
    """Put a cell for free typing, named by its key, with what the machine brings along."""
    typed = context.machine.cells.get(key)
    canvas.put(col, look, typed, name=f"{key}_typed", typed=True)


def lay_card(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out numbered steps, each with this machine's own number where it has one."""
    canvas.put_head([(TEXT, "head", context.pick(block.heading))])
    for number, step in enumerate(block.steps, start=1):
        words = f"{number}.  {context.pick(step.text)}"
        canvas.put(TEXT, "step", words)
        canvas.fit_height({TEXT: words}, CARD_LETTERS)
        if step.show:
            lay_shown(canvas, context.spec.quantities[step.show], context)
        canvas.next_row()
    canvas.next_row()


def lay_shown(canvas: Canvas, quantity: Quantity, context: Context) -> None:
    """Put a quantity's number with its units beside a step."""
    name = quantity.name
    if isinstance(quantity, Choice):
        canvas.put_formula(VALUE, "card_word", pick_option(name))
        return
    canvas.put_formula(VALUE, "card_number", name, digits=quantity.digits)
    canvas.put(UNIT, "unit", context.symbol(quantity.unit))
    show_in_reader_unit(canvas, quantity, context)
