"""Lists to tick and cards to hang up: what to do, step by step."""

from builder.plan.canvas import Canvas
from builder.plan.context import Context
from builder.plan.results import pick_option, show_in_reader_unit
from builder.plan.validations import accept_date, accept_text
from builder.spec.pages import TICKS, Block
from builder.spec.records import Choice, Quantity

TEXT, DONE, DATE, INITIALS = range(4)
VALUE, UNIT = 1, 2


def lay_checklist(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out steps to tick: done, date, initials."""
    heads = [(DONE, "col_done"), (DATE, "col_date"), (INITIALS, "col_initials")]
    titles = [(TEXT, "head", context.pick(block.heading))]
    canvas.put_head(titles + [(col, "head", context.word(key)) for col, key in heads])
    for step in block.steps:
        canvas.put(TEXT, "wrapped", context.pick(step.text))
        for (col, word), part in zip(heads, TICKS, strict=True):
            title, day = context.word(word), col == DATE
            lay_typed(canvas, col, f"{step.key}_{part}", title, context, date=day)
        canvas.fit_height({TEXT: ("wrapped", step.text.words.values())})
        canvas.next_row()
    canvas.next_row()


def lay_typed(
    canvas: Canvas, col: int, key: str, title: str, context: Context, *, date: bool = False
) -> None:
    """Put a cell for free typing, named by its key, with what the machine brings along."""
    typed = context.machine.cells.get(key)
    accept, look = (accept_date, "typed_date") if date else (accept_text, "typed_word")
    rule = accept(title, "", context)
    canvas.put(col, look, typed, name=f"{key}_typed", typed=True, validation=rule)


def lay_card(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out numbered steps, each with this machine's own number where it has one."""
    canvas.put_head([(TEXT, "head", context.pick(block.heading))])
    for number, step in enumerate(block.steps, start=1):
        words = {lang: f"{number}.  {text}" for lang, text in step.text.words.items()}
        canvas.put(TEXT, "step", words[context.lang])
        canvas.fit_height({TEXT: ("step", words.values())})
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
