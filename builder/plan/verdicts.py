"""Rows of verdicts, and the one word that sums them up on every sheet."""

from builder.formula.guard import guard, guarded_names
from builder.plan.canvas import Canvas
from builder.plan.context import Context
from builder.spec.pages import Block
from builder.spec.records import Check

BAD_WORDS = ("missing", "text", "range", "unit")


def lay_checks(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out verdicts: what should hold, the word, and what to do."""
    heads = [(1, "head_state", "col_state"), (2, "head", "col_remedy")]
    titles = [(0, "head", context.pick(block.heading) or context.word("col_check"))]
    canvas.put_head(titles + [(col, look, context.word(key)) for col, look, key in heads])
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
    asked = f"{quantity.formula}+{quantity.close}" if quantity.close else quantity.formula
    numbers, choices = guarded_names(asked, context.spec.quantities)
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
