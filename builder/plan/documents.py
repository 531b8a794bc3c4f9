"""Pages about the workbook itself: its method, its version and the key to its looks."""

from collections.abc import Callable

from builder import __version__
from builder.formula.tokens import Name, replace_names
from builder.plan.canvas import Canvas
from builder.plan.context import Context
from builder.plan.steps import lay_typed
from builder.spec.pages import Block
from builder.spec.records import Check, Record, Result

KEY = (("typed_sample", "key_typed"), ("result", "key_result"), ("faint", "key_faint"))
LABEL, NAME, WORDS, FORMULA, SOURCE = range(5)


def lay_method(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out every formula twice: with the words of its quantities, and with their names."""
    heads = [
        (NAME, "col_name"),
        (WORDS, "col_in_words"),
        (FORMULA, "col_formula"),
        (SOURCE, "col_source"),
    ]
    titles = [(LABEL, "head", context.pick(block.heading))]
    canvas.put_head(titles + [(col, "head", context.word(key)) for col, key in heads])
    for name, quantity in context.spec.quantities.items():
        if isinstance(quantity, Result | Check | Record) and quantity.formula:
            lay_formula(canvas, name, quantity.formula, context)
    canvas.next_row()


def lay_formula(canvas: Canvas, name: str, formula: str, context: Context) -> None:
    """Lay out one formula."""
    tellers: dict[int, Callable[[Context], str]] = {
        LABEL: lambda c: c.label(name),
        NAME: lambda _: name,
        WORDS: lambda c: tell_formula(formula, c),
        FORMULA: lambda _: formula,
    }
    for col, tell in tellers.items():
        canvas.put(col, "small_wrapped", tell(context))
    canvas.put(SOURCE, "faint", context.cite(context.spec.quantities[name].source) or None)
    canvas.fit_height({c: ("small_wrapped", context.each(tell)) for c, tell in tellers.items()})
    canvas.next_row()


def tell_formula(formula: str, context: Context) -> str:
    """Return a formula with words for the names of quantities."""
    quantities = context.spec.quantities

    def tell(found: Name) -> str:
        words = context.label(found.text) if found.text in quantities else found.text
        return f"[{words}]"

    return replace_names(formula, tell)


def lay_about(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out what this file is, and how its cells look."""
    canvas.put_head([(0, "head", context.pick(block.heading))])
    facts = [
        ("about_version", __version__),
        ("about_specs", context.spec.digest),
        ("about_language", context.spec.languages[context.lang].name),
    ]
    for key, value in facts:
        canvas.put(0, "label", context.word(key))
        canvas.put(1, "word", value)
        canvas.next_row()
    canvas.put(0, "label", context.word("about_example"))
    canvas.put(1, "number", int(context.machine.example), digits=0, name="example_n")
    canvas.next_row(2)
    canvas.put_head([(0, "head", context.word("about_key"))])
    for look, key in KEY:
        canvas.put(0, "label", context.word(key))
        canvas.put(1, look, context.word("about_sample"))
        canvas.next_row()
    first = canvas.row
    for state in ("ok", "look", "stop", "missing", "none"):
        canvas.put(0, "label", context.word(f"key_{state}"))
        canvas.put_formula(1, "state", f"word_{state}_txt")
        canvas.next_row()
    canvas.states.append(canvas.area(1, first, canvas.row - 1))
    canvas.next_row()


def lay_fields(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out free texts that a person writes, such as an edition, a clause, a signature."""
    canvas.put_head([(0, "head", context.pick(block.heading))])
    for field in block.steps:
        canvas.put(0, "label", context.pick(field.text))
        lay_typed(canvas, 1, field.key, context.pick(field.text), context, date=field.date)
        canvas.next_row()
    canvas.next_row()
