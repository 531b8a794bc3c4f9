"""Sheets that list what the specs hold: words, units, constants, limits, sources, tables."""

from collections.abc import Callable, Iterator

from builder.formula.graph import find_precedents
from builder.formula.grids import grid_columns, list_words, name_column
from builder.plan.canvas import Canvas
from builder.plan.context import Context
from builder.plan.inputs import lay_label
from builder.spec.conversion import find_factor, find_offset, list_units
from builder.spec.pages import Block
from builder.spec.records import (
    Choice,
    Citation,
    Constant,
    Grid,
    Input,
    Quantity,
    Record,
    Result,
    Source,
    Unit,
)

JUDGED = ("ok", "look", "stop", "missing", "none")
STATE_WORDS = (*JUDGED, "yours", "usual", "typical", "text", "unit", "range")
SAID, CAPTIONED = "say_", ("figures", "details")
SYSTEMS = ("metric", "us", "imperial")


def lay_words(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out the words that formulas pick, and the lists behind the drop-downs."""
    canvas.put_head([(0, "head", context.pick(block.heading))])
    for key in (*STATE_WORDS, "nothing_to_mend", "not_here"):
        canvas.put(0, "plain", context.word(key), name=f"word_{key}_txt")
        canvas.next_row()
    canvas.next_row()
    lay_sentences(canvas, context)
    for name, quantity in list_worded(context):
        lay_word_list(canvas, name, quantity, context)


def lay_sentences(canvas: Canvas, context: Context) -> None:
    """Lay out sentences with holes, and captions of numbers."""
    said = {key: context.word(key) for key in context.spec.words if key.startswith(SAID)}
    blocks = [block for sheet in context.spec.sheets for block in sheet.blocks]
    steps = [step for block in blocks if block.kind in CAPTIONED for step in block.steps]
    said |= {f"caption_{step.show}": context.pick(step.text) for step in steps}
    for key, words in said.items():
        canvas.put(0, "plain", words, name=f"{key}_txt")
        canvas.next_row()
    canvas.next_row()


def list_worded(context: Context) -> Iterator[tuple[str, Choice | Result | Record]]:
    """Yield what has words to pick from; a column of a grid bears the grid's name too."""
    quantities = context.spec.quantities
    for name, quantity in quantities.items():
        if isinstance(quantity, Grid):
            for column in grid_columns(quantity, quantities):
                if column.options or column.worded:
                    yield name_column(name, column.name), column
        elif isinstance(quantity, Choice) or (
            isinstance(quantity, Result) and (quantity.words or quantity.options)
        ):
            yield name, quantity


def lay_word_list(
    canvas: Canvas, name: str, quantity: Choice | Result | Record, context: Context
) -> None:
    """Lay out one list of words, with their codes where they have some."""
    options = quantity.options
    words = [] if isinstance(quantity, Choice) else list_words(quantity, context.spec.quantities)
    canvas.put_head([(0, "head", context.label(quantity.name))])
    first = canvas.row
    for text in words:
        canvas.put(0, "plain", context.pick(text))
        canvas.next_row()
    for code, text in options.items():
        canvas.put(0, "plain", context.pick(text))
        canvas.put(1, "code", code)
        canvas.next_row()
    canvas.define(f"{name}_words", canvas.area(0, first, canvas.row - 1))
    if options:
        canvas.define(f"{name}_codes", canvas.area(1, first, canvas.row - 1))
    if isinstance(quantity, Record) and quantity.measure:
        lay_conversions(canvas, name, quantity, first, context)
    canvas.next_row()


def lay_conversions(
    canvas: Canvas, name: str, choice: Record, first: int, context: Context
) -> None:
    """Lay out how each unit of a choice leads to the canonical one, and below the book's own."""
    units, last = context.spec.units, canvas.row - 1
    canonical = units[choice.measure]
    for row, code in enumerate(choice.options, start=first):
        canvas.row = row
        canvas.put(2, "constant", find_factor(units[code], canonical))
        canvas.put(3, "constant", find_offset(units[code], canonical))
    canvas.next_row()
    reader = f"reader_{canonical.suffix}"
    canvas.put(0, "faint", context.word("unit_chosen"))
    for col, part, usual in ((2, "factor", 1), (3, "offset", 0)):
        formula = f'IF(reader_units="",{usual},{reader}_{part}_n)'
        canvas.put_formula(col, "constant", formula, name=f"{name}_{part}_n")
        canvas.define(f"{name}_{part}s", canvas.area(col, first, last))
    canvas.next_row()


def find_typed_units(context: Context) -> list[Unit]:
    """Return the canonical units of which another one could be typed or shown."""
    used = {quantity.unit for quantity in context.spec.quantities.values() if quantity.unit}
    return [
        unit
        for unit in context.spec.units.values()
        if unit.key in used and context.has_choice_of_unit(unit.key)
    ]


def lay_units(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out, for each canonical unit, its units with factors, and the reader's choice."""
    canvas.put_head([(0, "head", context.pick(block.heading))])
    units = context.spec.units
    for canonical in find_typed_units(context):
        symbol = context.pick(canonical.symbol)
        canvas.put(0, "head", context.word("unit_canonical").format(symbol=symbol))
        canvas.put(1, "head_number", context.word("unit_factor"))
        canvas.put(2, "head_number", context.word("unit_offset"))
        canvas.next_row()
        first = canvas.row
        for unit in list_units(canonical, units):
            canvas.put(0, "plain", context.pick(unit.symbol))
            canvas.put(1, "constant", find_factor(unit, canonical))
            canvas.put(2, "constant", find_offset(unit, canonical))
            canvas.next_row()
        name = f"unit_{canonical.suffix}"
        for col, part in enumerate(("symbols", "factors", "offsets")):
            canvas.define(f"{name}_{part}", canvas.area(col, first, canvas.row - 1))
        if context.has_reader_unit(canonical.key):
            lay_reader(canvas, canonical, context)
        canvas.next_row()


def lay_reader(canvas: Canvas, canonical: Unit, context: Context) -> None:
    """Lay out which unit the reader sees beside a canonical one, with its factor."""
    row = canvas.row + 1
    lists, reader = f"unit_{canonical.suffix}", f"reader_{canonical.suffix}"
    canvas.put(0, "faint", context.word("unit_chosen"))
    for col, system in enumerate(SYSTEMS, start=1):
        canvas.put(col, "plain", context.symbol(canonical.reader[system]))
    picked = f"INDEX(B{row}:D{row},MATCH(reader_units,reader_units_codes,0))"
    place = f"MATCH(E{row},{lists}_symbols,0)"
    blank = 'IF(reader_units="","",'
    canvas.put_formula(4, "plain", f"{blank}{picked})", name=f"{reader}_symbol_txt")
    for col, part in ((5, "factor"), (6, "offset")):
        formula = f"{blank}INDEX({lists}_{part}s,{place}))"
        canvas.put_formula(col, "constant", formula, name=f"{reader}_{part}_n")
    canvas.next_row()


def lay_constants(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out every constant with its source and the sheets that use it."""
    keys = ("value", "unit", "source", "at", "seen", "used_on")
    looks = ("head_number", "head_unit", "head", "head", "head", "head")
    heads = [(0, "head", context.pick(block.heading))]
    for col, (key, look) in enumerate(zip(keys, looks, strict=True), start=1):
        heads.append((col, look, context.word(f"col_{key}")))
    canvas.put_head(heads)
    users = find_users(context)
    for name, quantity in context.spec.quantities.items():
        if isinstance(quantity, Constant):
            canvas.put(1, "constant", quantity.value, name=name)
            canvas.put(2, "unit", context.symbol(quantity.unit))
            lay_users(canvas, users.get(name, set()), context)
            lay_label(canvas, quantity.name, context)
            lay_citation(canvas, 3, quantity, context)
            canvas.next_row()
    canvas.next_row()


def lay_users(canvas: Canvas, users: set[str], context: Context) -> None:
    """Put the titles of the sheets where a constant is used into the last cell of its row."""
    lay_wrapped(canvas, 6, lambda c: list_sheets(users, c), context)


def lay_wrapped(canvas: Canvas, col: int, tell: Callable[[Context], str], context: Context) -> None:
    """Put faint words into a cell, in a row high enough for them in every language."""
    canvas.put(col, "faint_wrapped", tell(context) or None)
    canvas.fit_height({col: ("faint_wrapped", context.each(tell))})


def lay_citation(canvas: Canvas, col: int, quantity: Quantity, context: Context) -> None:
    """Put source, place in it and how it was seen into three cells."""
    citation = quantity.source
    if citation is None:
        return
    canvas.put(col, "faint", context.cite(citation))
    lay_wrapped(canvas, col + 1, lambda c: c.pick(citation.at), context)
    lay_wrapped(canvas, col + 2, lambda c: describe_seen(citation.id, c), context)


def describe_seen(source_id: str, context: Context) -> str:
    """Return how a source was seen, in the reader's words."""
    seen = context.spec.sources[source_id].seen
    kind, _, date = seen.partition(" ")
    if kind == "read":
        return f"{context.word('seen_read')} {date}"
    return context.word(f"seen_{seen}")


def find_users(context: Context) -> dict[str, set[str]]:
    """Return, for each name, the quantities and grids that use it directly."""
    quantities = context.spec.quantities
    users: dict[str, set[str]] = {}
    for user, quantity in quantities.items():
        for name in find_precedents(quantity, quantities):
            users.setdefault(name, set()).add(user)
    return users


def list_sheets(users: set[str], context: Context) -> str:
    """Return the titles of the sheets where some quantities have their home."""
    titles = [
        context.pick(sheet.title)
        for sheet in context.spec.sheets
        if any(users & set(block.rows) for block in sheet.blocks if block.kind != "answers")
    ]
    return ", ".join(titles)


def lay_limits(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out limits and sources of the inputs."""
    keys = ("from", "to", "unit", "at", "seen", "source")
    heads = [(0, "head", context.pick(block.heading))]
    looks = ("head_number", "head_number", "head_unit", "head", "head", "head")
    for col, (key, look) in enumerate(zip(keys, looks, strict=True), start=1):
        heads.append((col, look, context.word(f"col_{key}")))
    canvas.put_head(heads)
    for name, quantity in context.spec.quantities.items():
        if isinstance(quantity, Input) and quantity.source:
            lay_label(canvas, name, context)
            canvas.put(1, "limit", quantity.limits.min, digits=quantity.digits)
            canvas.put(2, "limit", quantity.limits.max, digits=quantity.digits)
            canvas.put(3, "unit", context.symbol(quantity.unit))
            lay_place(canvas, quantity.source, context)
            canvas.next_row()
    canvas.next_row()


def lay_place(canvas: Canvas, citation: Citation, context: Context) -> None:
    """Put where in a source limits stand, how it was seen, and the source."""
    lay_wrapped(canvas, 4, lambda c: c.pick(citation.at), context)
    lay_wrapped(canvas, 5, lambda c: describe_seen(citation.id, c), context)
    canvas.put(6, "faint", context.cite(citation))


def lay_sources(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out the register of sources."""
    heads = [(1, "head", "col_title"), (2, "head", "col_seen")]
    titles = [(0, "head", context.pick(block.heading))]
    canvas.put_head(titles + [(col, look, context.word(key)) for col, look, key in heads])
    for source in context.spec.sources.values():
        lay_source(canvas, source, context)
        canvas.next_row()
    canvas.next_row()


def lay_source(canvas: Canvas, source: Source, context: Context) -> None:
    """Put what a source is called, its title, and how it was seen."""
    texts = {0: source.short, 1: source.title}
    for col, text in texts.items():
        canvas.put(col, "wrapped", context.pick(text))
    canvas.fit_height({c: ("wrapped", text.words.values()) for c, text in texts.items()})
    lay_wrapped(canvas, 2, lambda c: describe_seen(source.id, c), context)


def lay_table(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out a look-up table for the eye."""
    head, *rows = context.spec.tables[block.table]
    titles = [(0, "head", context.pick(block.heading))]
    canvas.put_head(titles + [(col, "head_number", words) for col, words in enumerate(head[1:], 1)])
    for row in rows:
        canvas.put(0, "plain", row[0])
        for col, value in enumerate(row[1:], start=1):
            canvas.put(col, "number", float(value), digits=2)
        canvas.next_row()
    canvas.next_row()
