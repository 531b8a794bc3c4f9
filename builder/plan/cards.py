"""Cards to hang up by the machine: safety first, then each step beside this machine's number."""

from collections.abc import Mapping

from builder.formula.graph import find_precedents
from builder.formula.grids import LIST, name_column
from builder.plan.canvas import Canvas
from builder.plan.context import Context
from builder.plan.lettering import INSET_PX, break_words, column_px, spread_words
from builder.plan.links import lay_title
from builder.plan.results import pick_option
from builder.plan.today import MOST_DIGITS, show_number
from builder.spec.pages import Block, Step
from builder.spec.records import Choice, Quantity, Record, Text

BOX, TEXT, FIRST_PICK, BESIDE, NUMBER, UNIT, MARK, END = 0, 1, 2, 4, 5, 6, 7, 8
PICKED = (2, 4, 5, 6, 8)  # rows of the strip that a card has columns for
ESTIMATED = "holdup_adopted_L"  # what may be a mere estimate, and all that rests on it
TICK, DOT = "☐", "•"  # signs of any language
SPARSE, WRITTEN_POINTS = '""', 24.0


def lay_card_head(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out title and bearer of a card, which stand on both its sides."""
    sheet = next(s for s in context.spec.sheets if block in s.blocks)
    lay_title(canvas, sheet, context)
    canvas.put_formula(BOX, "card_bearer", "IF(example_n>0,say_do_not_use_txt,bearer_txt)")
    canvas.shade(BOX, "example_n>0", "example", last=END - 1)
    canvas.heights[canvas.row] = canvas.fit_look("card_bearer")
    canvas.next_row()
    canvas.frozen_rows = canvas.row


def lay_safety(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out what keeps people safe, with boxes to tick, under a band of its own colour."""
    put_warnings(canvas, block, ("box", TICK, "safety_line"), context)


def lay_card(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out numbered steps, each with this machine's own number where it has one."""
    put_band(canvas, "card_band", block, context)
    for step in block.steps:
        canvas.steps += 1
        words = {lang: f"{canvas.steps}  {text}" for lang, text in step.text.words.items()}
        canvas.put(BOX, "box", TICK)
        put_lines(canvas, "card_line", words, find_end(step), context)
        if step.show:
            lay_shown(canvas, step, context)
        canvas.next_row()


def find_end(step: Step) -> int:
    """Return the column before which the words of a step must end."""
    if step.beside:
        return BESIDE
    return NUMBER if step.show else END


def lay_shown(canvas: Canvas, step: Step, context: Context) -> None:
    """Put a quantity's number with its unit beside a step, and whether it is an estimate."""
    quantity = context.spec.quantities[step.show]
    canvas.heights[canvas.row] = canvas.fit_look("card_number")
    if isinstance(quantity, Choice):
        canvas.put_formula(NUMBER, "card_word", pick_option(step.show))
        return
    put_number(canvas, NUMBER, quantity, context)
    if step.beside:
        put_number(canvas, BESIDE, context.spec.quantities[step.beside], context)
    unit = getattr(quantity, "unit", "")
    if context.has_reader_unit(unit):
        canvas.put_formula(UNIT, "card_unit", f"reader_{context.suffix(unit)}_symbol_txt")
    else:
        canvas.put(UNIT, "card_unit", context.symbol(unit) or None)
    if rests_on(quantity.name, ESTIMATED, context):
        guessed = f'AND(SUM(holdup_estimated_n)>0,{step.show}<>"")'
        canvas.put_formula(MARK, "card_unit", f'IF({guessed},say_estimate_txt,"")')


def put_number(canvas: Canvas, col: int, quantity: Quantity, context: Context) -> None:
    """Put a number in a frame, struck through where it is an example's."""
    digits = min(getattr(quantity, "digits", 0), MOST_DIGITS)
    shown = show_number(quantity.name, getattr(quantity, "unit", ""), SPARSE, context)
    canvas.put_formula(col, "card_number", shown, digits=digits)
    canvas.shade(col, "example_n>0", "struck")


def rests_on(name: str, root: str, context: Context) -> bool:
    """Tell whether a quantity is worked out from another one."""
    quantities, seen, waiting = context.spec.quantities, set(), [name]
    while waiting:
        found = waiting.pop()
        if found == root:
            return True
        if found in seen or found not in quantities:
            continue
        seen.add(found)
        waiting += find_precedents(quantities[found], quantities)
    return False


def lay_strip(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out what a sample reads by its temperature: a row a line, a column a temperature."""
    put_band(canvas, "card_band", block, context)
    for step in block.steps:
        column = context.spec.quantities[step.show]
        canvas.put(BOX, "card_line", None)
        canvas.put(TEXT, "card_line", context.pick(step.text))
        canvas.heights[canvas.row] = canvas.fit_look("card_line")
        if isinstance(column, Record):
            lay_strip_row(canvas, column, context)
        canvas.next_row()


def lay_strip_row(canvas: Canvas, column: Record, context: Context) -> None:
    """Put the numbers of one column of the strip side by side."""
    grid = context.find_grid(column)
    listed = f"{name_column(grid.name, column.name)}{LIST}"
    for col, row in enumerate(PICKED, start=FIRST_PICK):
        shown = show_number(f"INDEX({listed},{row})", column.unit, SPARSE, context)
        canvas.put_formula(col, "strip_number", shown, digits=column.digits)
        canvas.shade(col, "example_n>0", "struck")
    if context.has_reader_unit(column.unit):
        unit = f"reader_{context.suffix(column.unit)}_symbol_txt"
        canvas.put_formula(FIRST_PICK + len(PICKED), "card_unit", unit)


def lay_writing(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out lines to write on."""
    put_band(canvas, "card_band", block, context)
    for text in block.text:
        canvas.put(BOX, "card_line", context.pick(text))
        canvas.heights[canvas.row] = WRITTEN_POINTS
        canvas.next_row()


def lay_notes(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out what is to be read before, in the type of a card."""
    put_warnings(canvas, block, ("card_line", DOT, "card_line"), context)


def put_warnings(
    canvas: Canvas, block: Block, looks: tuple[str, str, str], context: Context
) -> None:
    """Put lines under the band of safety: look of the mark, the mark, look of the words."""
    marked, mark, worded = looks
    put_band(canvas, "safety_band", block, context)
    for text in block.text:
        canvas.put(BOX, marked, mark)
        put_lines(canvas, worded, text.words, END, context)
        canvas.next_row()


def put_band(canvas: Canvas, look: str, block: Block, context: Context) -> None:
    """Put a heading across a card."""
    canvas.heads.append((canvas.row, canvas.row))
    canvas.put(BOX, look, context.pick(block.heading))
    for col in range(1, END):
        canvas.put(col, look, None)
    canvas.heights[canvas.row] = canvas.fit_look(look)
    canvas.next_row()


def put_lines(
    canvas: Canvas, look: str, words: Mapping[str, str], end: int, context: Context
) -> None:
    """Put words before a column, in the rows that their longest language needs; end in the last."""
    room = sum(column_px(width) for width in canvas.widths[TEXT:end]) - INSET_PX
    rows = max(len(break_words(text, look, room)) for text in words.values())
    for line in spread_words(Text(dict(words)).pick(context.lang), look, room, rows):
        if line:
            canvas.put(TEXT, look, line)
        canvas.heights[canvas.row] = canvas.fit_look(look)
        canvas.next_row()
    canvas.next_row(-1)
