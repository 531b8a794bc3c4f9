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
        canvas.put(0, "wrapped", quantity.label.pick(context.lang))
        canvas.put_formula(1, "state", verdict_formula(quantity, context), name=name)
        texts = {0: quantity.label, 2: quantity.help}
        canvas.put(2, "wrapped", context.pick(quantity.help))
        canvas.fit_height({c: ("wrapped", t.words.values()) for c, t in texts.items() if t})
        canvas.next_row()
    canvas.states.append(canvas.area(1, first, canvas.row - 1))
    first -= 1  # with the heading: one engine counts nothing in a range of a single cell
    number = sum(key.startswith("check_states_") for key in canvas.names) + 1
    canvas.define(f"check_states_{number}", canvas.area(1, first, canvas.row - 1))
    canvas.define(f"check_labels_{number}", canvas.area(0, first, canvas.row - 1))
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
    inputs = ["input_states"]
    checks = name_checks(context)
    planned = sum(isinstance(q, Check) for q in context.spec.quantities.values())
    for key, formula, name in list_counts(inputs, checks):
        canvas.put(0, "label", context.word(key))
        canvas.put_formula(1, "result", formula, digits=0, name=name)
        canvas.next_row()
    canvas.put(0, "label", context.word("checks_planned"))
    canvas.put(1, "constant", planned, name="checks_planned_n")
    canvas.next_row()
    lay_master_words(canvas, context)
    lay_first_to_mend(canvas, inputs, checks, context)


def name_checks(context: Context) -> list[str]:
    """Return the names of the states of all blocks of checks, on whichever sheet they stand."""
    blocks = [block for sheet in context.spec.sheets for block in sheet.blocks]
    count = sum(block.kind == "checks" for block in blocks)
    return [f"check_states_{number}" for number in range(1, count + 1)]


def list_counts(inputs: list[str], checks: list[str]) -> list[tuple[str, str, str]]:
    """Return word, formula and name of each count of states."""

    def count(word: str, ranges: list[str]) -> str:
        return "+".join(f"COUNTIF({name},word_{word}_txt)" for name in ranges)

    counted = "+".join(count(word, checks) for word in ("ok", "look", "stop", "missing", "none"))
    return [
        *((f"inputs_{word}", count(word, inputs), f"inputs_{word}_n") for word in BAD_WORDS),
        ("inputs_bad", "+".join(f"inputs_{word}_n" for word in BAD_WORDS), "inputs_bad_n"),
        ("checks_stop", count("stop", checks), "checks_stop_n"),
        ("checks_missing", count("missing", checks), "checks_missing_n"),
        ("checks_look", count("look", checks), "checks_look_n"),
        ("checks_none", count("none", checks), "checks_none_n"),
        ("checks_count", counted, "checks_n"),
    ]


def lay_master_words(canvas: Canvas, context: Context) -> None:
    """Lay out the master word."""
    first = canvas.row
    later = "IF(checks_look_n>0,word_look_txt,word_ok_txt)"
    waiting = f"IF(inputs_bad_n+checks_missing_n>0,word_missing_txt,{later})"
    master = f"IF(OR(checks_stop_n>0,checks_n<>checks_planned_n),word_stop_txt,{waiting})"
    canvas.put(0, "label", context.word("master"))
    canvas.put_formula(1, "state", master, name="master_state")
    canvas.next_row()
    canvas.states.append(canvas.area(1, first, first))


def lay_first_to_mend(
    canvas: Canvas, inputs: list[str], checks: list[str], context: Context
) -> None:
    """Lay out the first check and the first input of each bad state, and the first of all.

    One formula for all of them would nest deeper than the 64 levels that the file format allows.
    """
    first = "word_nothing_to_mend_txt"
    for key, ranges, word in [
        ("look_first", checks, "look"),
        ("stop_first", checks, "stop"),
        *((f"first_{word}", inputs, word) for word in reversed(BAD_WORDS)),
    ]:
        canvas.put(0, "label", context.word(key))
        canvas.put_formula(1, "word", find_first(ranges, word), name=f"{key}_txt")
        canvas.next_row()
        first = f'IF({key}_txt<>"",{key}_txt,{first})'
    canvas.put(0, "label", context.word("mend_first"))
    canvas.put_formula(1, "word", first, name="mend_first_txt")
    canvas.next_row(2)


def find_first(ranges: list[str], word: str) -> str:
    """Return the label of the first state that is a word, or nothing."""
    found = '""'
    for name in reversed(ranges):
        labels = name.replace("states", "labels")
        found = f"IFERROR(INDEX({labels},MATCH(word_{word}_txt,{name},0)),{found})"
    return found
