"""Rows that show what was worked out, in the canonical and in the reader's unit."""

from builder.formula.guard import guard, guarded_names
from builder.plan.canvas import Canvas
from builder.plan.context import Context
from builder.spec.records import Block, Check, Choice, Result

LABEL, VALUE, UNIT, READER, READER_UNIT, STATE, SOURCE = 0, 1, 2, 3, 4, 7, 8
BAD_WORDS = ("missing", "text", "range", "unit")


def lay_results(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out results at home: here stand their formulas and names."""
    lay_result_heads(canvas, block, context)
    first = canvas.row
    for name in block.rows:
        quantity = context.spec.quantities[name]
        if isinstance(quantity, Result):
            numbers, choices = guarded_names(quantity.formula, context.spec.quantities)
            formula = guard(quantity.formula, numbers, choices, '""')
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
        elif isinstance(quantity, Choice):
            canvas.put(LABEL, "label", context.label(name))
            place = f"MATCH({name},{name}_codes,0)"
            canvas.put_formula(VALUE, "word", f'IFERROR(INDEX({name}_words,{place}),"")')
            canvas.next_row()
    canvas.states.append(canvas.area(STATE, first, canvas.row - 1))
    canvas.next_row()


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


def lay_result(
    canvas: Canvas, quantity: Result, formula: str, name: str, context: Context
) -> None:
    """Lay out one result."""
    row, digits = canvas.row + 1, quantity.digits
    canvas.put(LABEL, "label", context.label(quantity.name))
    canvas.put_formula(VALUE, "result", formula, digits=digits, name=name)
    canvas.put(UNIT, "unit", context.symbol(quantity.unit))
    if context.has_choice_of_unit(quantity.unit):
        reader = f"reader_{context.suffix(quantity.unit)}"
        shown = f'IF(B{row}="","",(B{row}-{reader}_offset_n)/{reader}_factor_n)'
        canvas.put_formula(READER, "number", shown, digits=digits)
        canvas.put_formula(READER_UNIT, "unit", f"{reader}_symbol_txt")
    waits = context.waits_for_optional(quantity)
    absent = "word_none_txt" if waits else "word_missing_txt"
    verdict = quantity.check if quantity.check else f'IF(B{row}="",{absent},"")'
    canvas.put_formula(STATE, "state", verdict)
    canvas.put(SOURCE, "faint", context.cite(quantity.source))
    canvas.next_row()


def lay_checks(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out verdicts: what should hold, the word, and what to do."""
    titles = [(0, "head", "col_check"), (1, "head_state", "col_state"), (2, "head", "col_remedy")]
    canvas.put_head([(col, look, context.word(key)) for col, look, key in titles])
    first = canvas.row
    for name in block.rows:
        quantity = context.spec.quantities[name]
        if not isinstance(quantity, Check):
            continue
        label, remedy = context.label(name), context.pick(quantity.help)
        canvas.put(0, "wrapped", label)
        canvas.put_formula(1, "state", verdict_formula(quantity, context), name=name)
        canvas.put(2, "wrapped", remedy)
        canvas.fit_height({0: label, 2: remedy})
        canvas.next_row()
    area = canvas.area(1, first, canvas.row - 1)
    canvas.states.append(area)
    number = sum(key.startswith("check_states_") for key in canvas.names) + 1
    canvas.define(f"check_states_{number}", area)
    canvas.next_row()


def verdict_formula(quantity: Check, context: Context) -> str:
    """Return the word of a verdict."""
    numbers, choices = guarded_names(quantity.formula, context.spec.quantities)
    held = "word_ok_txt"
    if quantity.close:
        held = f"IF({quantity.close},word_ok_txt,word_look_txt)"
    blank = "word_missing_txt" if quantity.needed else "word_none_txt"
    judged = f"IF({quantity.formula},{held},word_{quantity.level}_txt)"
    return guard(judged, numbers, choices, blank)


def lay_master(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out the sums of all states and the one word that stands on every sheet."""
    canvas.put_head([(0, "head", context.pick(block.heading))])
    inputs = [name for name in canvas.names if name.startswith("input_states_")]
    checks = [name for name in canvas.names if name.startswith("check_states_")]
    planned = sum(isinstance(q, Check) for q in context.spec.quantities.values())

    def count(word: str, ranges: list[str]) -> str:
        return "+".join(f"COUNTIF({name},word_{word}_txt)" for name in ranges)

    counted = "+".join(count(word, checks) for word in ("ok", "look", "stop", "missing", "none"))
    rows = [
        *((f"inputs_{word}", count(word, inputs), f"inputs_{word}_n") for word in BAD_WORDS),
        ("inputs_bad", "+".join(f"inputs_{word}_n" for word in BAD_WORDS), "inputs_bad_n"),
        ("checks_stop", count("stop", checks), "checks_stop_n"),
        ("checks_missing", count("missing", checks), "checks_missing_n"),
        ("checks_look", count("look", checks), "checks_look_n"),
        ("checks_count", counted, "checks_n"),
    ]
    for key, formula, name in rows:
        canvas.put(0, "label", context.word(key))
        canvas.put_formula(1, "result", formula, digits=0, name=name)
        canvas.next_row()
    canvas.put(0, "label", context.word("checks_planned"))
    canvas.put(1, "constant", planned, name="checks_planned_n")
    canvas.next_row()
    lay_master_words(canvas, inputs, context)


def lay_master_words(canvas: Canvas, inputs: list[str], context: Context) -> None:
    """Lay out the master word and the first input that needs a hand."""
    first = canvas.row
    later = "IF(checks_look_n>0,word_look_txt,word_ok_txt)"
    waiting = f"IF(inputs_bad_n+checks_missing_n>0,word_missing_txt,{later})"
    master = f"IF(OR(checks_stop_n>0,checks_n<>checks_planned_n),word_stop_txt,{waiting})"
    canvas.put(0, "label", context.word("master"))
    canvas.put_formula(1, "state", master, name="master_state")
    canvas.next_row()
    canvas.states.append(canvas.area(1, first, first))
    mend = "word_nothing_to_mend_txt"
    for name in reversed(inputs):
        labels = name.replace("states", "labels")
        for word in reversed(BAD_WORDS):
            mend = f"IFERROR(INDEX({labels},MATCH(word_{word}_txt,{name},0)),{mend})"
    canvas.put(0, "label", context.word("mend_first"))
    canvas.put_formula(1, "word", mend, name="mend_first_txt")
    canvas.next_row(2)
