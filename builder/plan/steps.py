"""Lists to tick: what to do, step by step."""

from builder.plan.canvas import Canvas
from builder.plan.cells import column_letters
from builder.plan.context import Context
from builder.plan.validations import accept_date, accept_text
from builder.spec.pages import TICKS, Block, Step

TEXT, DONE, DATE, INITIALS, APPLIES = range(5)


def lay_checklist(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out steps to tick: done, date, initials; one that does not apply says so and fades."""
    heads = [(DONE, "col_done"), (DATE, "col_date"), (INITIALS, "col_initials")]
    titles = [(TEXT, "head", context.pick(block.heading))]
    canvas.put_head(titles + [(col, "head", context.word(key)) for col, key in heads])
    for step in block.steps:
        canvas.put(TEXT, "wrapped", context.pick(step.text))
        for (col, word), part in zip(heads, TICKS, strict=True):
            title, day = context.word(word), col == DATE
            lay_typed(canvas, col, f"{step.key}_{part}", title, context, date=day)
        if step.when:
            canvas.put_formula(APPLIES, "working_word", tell_idle(step))
            idle = f"${column_letters(APPLIES)}${canvas.row + 1}"
            canvas.shade(TEXT, f'{idle}<>""', "faded")
        canvas.fit_height({TEXT: ("wrapped", step.text.words.values())})
        canvas.next_row()
    canvas.next_row()


def tell_idle(step: Step) -> str:
    """Return the formula that says that a step does not apply; a choice left open hides nothing."""
    other = (f'AND({name}<>"",{name}<>"{code}")' for name, code in step.when.items())
    return f'IF(OR({",".join(other)}),word_not_here_txt,"")'


def lay_typed(
    canvas: Canvas, col: int, key: str, title: str, context: Context, *, date: bool = False
) -> None:
    """Put a cell for free typing, named by its key, with what the machine brings along."""
    typed = context.machine.cells.get(key)
    accept, look = (accept_date, "typed_date") if date else (accept_text, "typed_word")
    rule = accept(title, "", context)
    canvas.put(col, look, typed, name=f"{key}_typed", typed=True, validation=rule)
