"""The first sheet: what to mend first, then today's numbers, in one column for a telephone."""

from collections.abc import Iterator

from builder.plan.canvas import Canvas
from builder.plan.context import Context
from builder.plan.lettering import SIZES
from builder.plan.links import TOUCH_POINTS, name_target
from builder.plan.results import pick_option
from builder.spec.pages import Block, Step
from builder.spec.records import Check, Choice, Grid, Input, Quantity, Record, Result

COLUMN = 0
NUMBER_LEADING = 1.2  # a number has no letters that hang low
MOST_DIGITS = 2  # of a number that is read from afar
HOLE = "{u}"  # where a caption tells the reader's unit
ROW_DIGITS = "000"  # as wide as the number of any row


def lay_headline(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out whose machine it is, the state of the book, and the first thing to mend."""
    canvas.put_formula(COLUMN, "headline", tell_bearer(), name="bearer_txt")
    canvas.heights[canvas.row] = canvas.fit_look("headline")
    canvas.next_row()
    lacking = (
        'IF(inputs_bad_n>0,SUBSTITUTE(say_lacking_txt,"{n}",inputs_bad_n&""),say_complete_txt)'
    )
    canvas.put_formula(COLUMN, "sentence", f"IF(example_n>0,say_example_txt,{lacking})")
    canvas.shade(COLUMN, "example_n>0", "example")
    canvas.shade(COLUMN, "inputs_bad_n>0", "missing")
    keys = ("say_example", "say_complete")
    said = [text for key in keys for text in context.spec.words[key].words.values()]
    canvas.fit_height({COLUMN: ("sentence", said)})
    canvas.next_row()
    canvas.frozen_rows = canvas.row
    lay_fault(canvas, block, context)


def tell_bearer() -> str:
    """Return the formula for the names of machine and producer, as far as they are typed."""
    machine, producer = (f"{key}_typed" for key in ("machine_title", "producer"))
    both = f'SUBSTITUTE(SUBSTITUTE(say_bearer_txt,"{{m}}",{machine}),"{{p}}",{producer})'
    one = f'IF({machine}&{producer}="",say_unnamed_txt,{machine}&{producer})'
    return f'IF(OR({machine}="",{producer}=""),{one},{both})'


def lay_fault(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out the first thing to mend, in the log or else anywhere, and where to mend it."""
    logged, mended = "SUM(first_to_fix_n)>0", "mend_first_txt=word_nothing_to_mend_txt"
    cell = "SUM(first_to_fix_column_n)>0"
    said = f'SUBSTITUTE(IF({cell},say_fix_cell_txt,say_fix_row_txt),"{{n}}",first_to_fix_n&"")'
    # A place of 0 would give the whole list.
    named = f'SUBSTITUTE({said},"{{cell}}",INDEX(log_cell_n_words,MAX(1,first_to_fix_column_n)))'
    row = f'SUBSTITUTE({named},"{{why}}",INDEX(log_why_words,MAX(1,first_to_fix_cause_n)))'
    well = "IF(SUM(still_to_rinse_L)>0,say_rinse_txt,say_nothing_txt)"
    rest = f'IF({mended},{well},SUBSTITUTE(say_mend_txt,"{{what}}",mend_first_txt))'
    canvas.put_formula(COLUMN, "fault", f"IF({logged},{row},{rest})", name="fix_first_txt")
    canvas.shade(COLUMN, "fix_first_txt=say_nothing_txt", "ok")
    canvas.shade(COLUMN, "fix_first_txt<>say_nothing_txt", "stop")
    canvas.fit_height({COLUMN: ("fault", list_faults(context))})
    canvas.next_row()
    put_links(canvas, block, context)


def list_faults(context: Context) -> Iterator[str]:
    """Yield how the first thing to mend can be told, in every language, with its longest cell."""
    quantities, words = context.spec.quantities, context.spec.words
    why = quantities["why"]
    labels = [q.label for q in quantities.values() if isinstance(q, Check | Input)]
    log = quantities["log"]
    names = log.columns if isinstance(log, Grid) else []
    cells = [quantities[name].label for name in names]
    for lang in context.spec.languages:
        cell = max((text.pick(lang) for text in cells), key=len)
        row = words["say_fix_cell"].pick(lang).replace("{n}", ROW_DIGITS).replace("{cell}", cell)
        for text in why.words if isinstance(why, Record) else []:
            yield row.replace("{why}", text.pick(lang))
        for text in labels:
            yield words["say_mend"].pick(lang).replace("{what}", text.pick(lang))


def lay_figures(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out numbers to be read from afar, each under its caption with the reader's unit."""
    lay_numbers(canvas, block, "answer", context)


def lay_details(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out numbers that are looked up, under a heading."""
    canvas.put_head([(COLUMN, "head", context.pick(block.heading))])
    lay_numbers(canvas, block, "detail", context)


def lay_numbers(canvas: Canvas, block: Block, look: str, context: Context) -> None:
    """Lay out captions, and below each its number in one look, or its words."""
    for step in block.steps:
        quantity = context.spec.quantities[step.show]
        lay_caption(canvas, step, quantity, context)
        worded = isinstance(quantity, Choice) or (
            isinstance(quantity, Result) and quantity.words + list(quantity.options)
        )
        if worded:
            canvas.put_formula(COLUMN, "answer_word", pick_words(quantity))
            canvas.fit_height({COLUMN: ("answer_word", list_words(quantity))})
        else:
            digits = min(getattr(quantity, "digits", 0), MOST_DIGITS)
            canvas.put_formula(COLUMN, look, tell_number(quantity, context), digits=digits)
            canvas.fit_height({COLUMN: (look, [])})
            canvas.heights[canvas.row] = SIZES[look] * NUMBER_LEADING
        canvas.shade(COLUMN, "example_n>0", "struck")
        if step.alarm:
            canvas.shade(COLUMN, f"SUM({step.show})>0", "stop")
        canvas.next_row()
    canvas.next_row()


def lay_caption(canvas: Canvas, step: Step, quantity: Quantity, context: Context) -> None:
    """Lay out what a number is, its unit, and the verdict where it is not fine."""
    said = f"caption_{step.show}_txt"
    unit = getattr(quantity, "unit", "")
    if unit and context.has_reader_unit(unit):
        said = f'SUBSTITUTE({said},"{HOLE}",reader_{context.suffix(unit)}_symbol_txt)'
    check = quantity.check if isinstance(quantity, Result) else ""
    if check:
        judged = f'SUBSTITUTE(SUBSTITUTE(say_judged_txt,"{{q}}",{said}),"{{v}}",{check})'
        said = f"IF(OR({check}=word_stop_txt,{check}=word_look_txt),{judged},{said})"
        for state in ("stop", "look"):
            canvas.shade(COLUMN, f"{check}=word_{state}_txt", state)
    canvas.put_formula(COLUMN, "caption", said)
    canvas.fit_height({COLUMN: ("caption", step.text.words.values())})
    canvas.next_row()


def tell_number(quantity: Quantity, context: Context) -> str:
    """Return the formula for a number in the reader's unit, or for the word that it is missing."""
    name, absent = quantity.name, "word_missing_txt"
    if isinstance(quantity, Result) and context.waits_for_optional(quantity):
        absent = "word_none_txt"
    return show_number(name, getattr(quantity, "unit", ""), absent, context)


def show_number(cell: str, unit: str, absent: str, context: Context) -> str:
    """Return the formula for what stands in a cell in the reader's unit, or else for a word."""
    if not context.has_reader_unit(unit):
        return f'IF({cell}="",{absent},{cell})'
    reader = f"reader_{context.suffix(unit)}"
    worked = f"({cell}-{reader}_offset_n)/{reader}_factor_n"
    return f'IF(OR({cell}="",reader_units=""),{absent},{worked})'


def pick_words(quantity: Quantity) -> str:
    """Return the formula for the words of a code, or of a place in a list of words."""
    name = quantity.name
    if isinstance(quantity, Result) and quantity.words:
        return f"IF(SUM({name})=0,word_none_txt,INDEX({name}_words,{name}))"
    return pick_option(name)


def list_words(quantity: Quantity) -> Iterator[str]:
    """Yield all words that a quantity can show, in every language."""
    texts = [*getattr(quantity, "words", []), *getattr(quantity, "options", {}).values()]
    yield from (words for text in texts for words in text.words.values())


def lay_links(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out links to sheets in words that say what is done there; they are not printed."""
    canvas.printed = canvas.row
    put_links(canvas, block, context)
    canvas.next_row()


def put_links(canvas: Canvas, block: Block, context: Context) -> None:
    """Put the links of a block, in rows for a finger."""
    for step in block.steps:
        canvas.put_link(COLUMN, context.pick(step.text), name_target(step.key))
        canvas.heights[canvas.row] = TOUCH_POINTS
        canvas.next_row()
