"""Sheets: what stands on them is known, and everything has its one place."""

from collections.abc import Iterator

from builder.problems import Problem, suggest
from builder.spec.pages import ROLES, TYPED, Block, Chart, Sheet
from builder.spec.records import Check, Choice, Grid, Input, Quantity, Result
from builder.spec.rules_names import CHOICE, list_exports
from builder.spec.rules_texts import find_fault
from builder.spec.specification import Spec

# The kinds of blocks, each with the quantities that its rows name; none where it has no rows.
KINDS: dict[str, tuple[type[Quantity], ...]] = {
    "identity": (),
    "homes": (),
    "values": (),
    "inputs": (Input, Choice),
    "results": (Result,),
    "answers": (Input, Choice, Result),
    "checks": (Check,),
    "master": (),
    "grid": (Grid,),
    "text": (),
    "chart": (),
    "table": (),
    "sources": (),
    "constants": (),
    "limits": (),
    "units": (),
    "words": (),
    "about": (),
    "bearer": (),
    "card": (),
    "card_head": (),
    "checklist": (),
    "details": (),
    "fields": (),
    "figures": (),
    "headline": (Result,),
    "links": (),
    "method": (),
    "notes": (),
    "picture": (),
    "safety": (),
    "selftest": (),
    "strip": (),
    "writing": (),
}
# In which kind of block a quantity has its cell, exactly once in the workbook.
HOMES = {Input: "inputs", Choice: "inputs", Result: "results", Check: "checks", Grid: "grid"}
LINKING = ("headline", "links")  # kinds of blocks whose steps lead to sheets
CHARTS = ("bars", "columns", "curve")
Blocks = list[tuple[str, Block]]


def check_sheets(spec: Spec) -> Iterator[Problem]:
    """Judge every block, and look for quantities without a place; no sheets, no findings."""
    blocks = list_blocks(spec)
    for sheet in spec.sheets:
        yield from check_sheet(sheet)
    for name, block in blocks:
        yield from check_block(name, block, spec)
    yield from check_keys(blocks, spec)
    yield from check_conditions(blocks, spec)
    if spec.sheets:
        yield from check_homes(blocks, spec)


def check_sheet(sheet: Sheet) -> Iterator[Problem]:
    """Demand that a sheet says whom it is for, and that links can be named after it."""
    if sheet.role not in ROLES:
        text = f"role {sheet.role!r} is not one of {', '.join(ROLES)}.{suggest(sheet.role, ROLES)}"
        yield find_fault(sheet, "unknown-role", sheet.key, text, "Take a known role.", "role")
    if not CHOICE.fullmatch(sheet.key):
        text = f"links cannot be named after the file {sheet.key}.toml."
        remedy = "Name it with small words joined by _: first_card.toml."
        yield find_fault(sheet, "bad-sheet-name", sheet.key, text, remedy)


def list_blocks(spec: Spec) -> Blocks:
    """Return all blocks, each with a name for findings."""
    return [
        (f"{sheet.key} block {number}", block)
        for sheet in spec.sheets
        for number, block in enumerate(sheet.blocks, start=1)
    ]


def check_block(name: str, block: Block, spec: Spec) -> Iterator[Problem]:
    """Judge the kind of a block and what it names."""
    if block.kind not in KINDS:
        text = f"kind {block.kind!r} is not one of {', '.join(KINDS)}.{suggest(block.kind, KINDS)}"
        yield find_fault(block, "unknown-block", name, text, "Take a known kind.", "kind")
        return
    kinds = KINDS[block.kind]
    for row in block.rows:
        quantity = spec.quantities.get(row)
        if not isinstance(quantity, kinds):
            wanted = " or ".join(kind.__name__.lower() for kind in kinds) or "nothing"
            found = type(quantity).__name__.lower() if quantity else "not known"
            near = "" if quantity else suggest(row, spec.quantities)
            text = f"row {row!r} is {found}; a block of {block.kind} lists {wanted}.{near}"
            yield find_fault(block, "wrong-row", name, text, "Correct the row.", "rows")
    if block.table not in spec.tables if block.kind == "table" else block.table:
        known = [] if block.table in spec.tables else spec.tables
        text = f"table {block.table!r} does not belong there.{suggest(block.table, known)}"
        remedy = "Name a file of specs/tables, without .csv, in a block of kind table."
        yield find_fault(block, "unknown-table", name, text, remedy, "table")
    yield from check_steps(name, block, spec)
    yield from check_drawing(name, block, spec)
    if (block.kind == "chart") != (block.chart is not None):
        remedy = "A block of kind chart has a table [block.chart], and no other has."
        yield find_fault(block, "wrong-chart", name, "chart and kind disagree.", remedy, "kind")
    elif block.chart:
        yield from check_chart(name, block, block.chart, spec)


def check_steps(name: str, block: Block, spec: Spec) -> Iterator[Problem]:
    """Demand that steps show quantities that are known, and lead to sheets that are there."""
    sheets = [sheet.key for sheet in spec.sheets]
    for step in block.steps:
        for shown in (step.show, step.beside):
            if shown and shown not in spec.quantities:
                text = f"{shown!r} is not known.{suggest(shown, spec.quantities)}"
                yield find_fault(block, "wrong-step", name, text, "Correct the step.", "steps")
        if block.kind in LINKING and step.key not in sheets:
            text = f"{step.key!r} is no sheet.{suggest(step.key, sheets)}"
            yield find_fault(block, "wrong-step", name, text, "Correct the key.", "steps")


def check_drawing(name: str, block: Block, spec: Spec) -> Iterator[Problem]:
    """Demand that a picture is one that was drawn, and is told to those who cannot see it."""
    if block.kind != "picture":
        if block.drawing or block.alt:
            remedy = "Write drawing and alt in a block of kind picture."
            key = "drawing" if block.drawing else "alt"
            yield find_fault(block, "wrong-drawing", name, "no picture.", remedy, key)
        return
    if block.drawing not in spec.drawings:
        text = f"drawing {block.drawing!r} is not known.{suggest(block.drawing, spec.drawings)}"
        remedy = "Name a file of specs/drawings, without .png."
        yield find_fault(block, "unknown-drawing", name, text, remedy, "drawing")
    if block.alt is None:
        text = "nothing tells in words what the picture shows."
        yield find_fault(block, "no-alt", name, text, "Write alt.en and the others.", "alt")


def check_keys(blocks: Blocks, spec: Spec) -> Iterator[Problem]:
    """Demand steps in blocks that people fill in, each with a key that names its cells alone."""
    exports = (name for quantity in spec.quantities.values() for name in list_exports(quantity))
    taken = {name.lower() for name in exports}
    for name, block in blocks:
        if block.kind not in TYPED:
            continue
        if block.text or not block.steps:
            text = f"a block of {block.kind} lists steps, and no text."
            yield find_fault(block, "no-steps", name, text, "Write steps = [...].", "text")
        for step in block.steps:
            if not CHOICE.fullmatch(step.key):
                text = f"key {step.key!r} is no name: {step.text.pick(spec.main_language)!r}."
                remedy = "Write small words joined by _: startup_shaft; keep it for good."
                yield find_fault(block, "bad-key", name, text, remedy, "steps")
        for key, _ in block.typed_keys():
            if f"{key}_typed" in taken:
                text = f"the workbook needs the name {key}_typed twice."
                yield find_fault(block, "key-taken", name, text, "Take another key.", "steps")
            taken.add(f"{key}_typed")


def check_conditions(blocks: Blocks, spec: Spec) -> Iterator[Problem]:
    """Demand of each condition of a step a choice and one of its codes, in a checklist."""
    choices = {key: q.options for key, q in spec.quantities.items() if isinstance(q, Choice)}
    for name, block in blocks:
        for choice, code in (pair for step in block.steps for pair in step.when.items()):
            if block.kind != "checklist":
                text = f"when = {choice!r}, but steps of a {block.kind} always apply."
            elif choice not in choices:
                text = f"when = {choice!r} is no choice.{suggest(choice, choices)}"
            elif code not in choices[choice]:
                known = ", ".join(choices[choice])
                text = f"{choice} has no option {code!r}, but {known}."
                text += suggest(code, choices[choice])
            else:
                continue
            remedy = 'Write when = { CHOICE = "code" } at a step of a checklist.'
            yield find_fault(block, "wrong-when", name, text, remedy, "steps")


def check_chart(name: str, block: Block, chart: Chart, spec: Spec) -> Iterator[Problem]:
    """Demand that a chart draws results from first to last, or columns of grids."""
    wrong: list[tuple[str, str]] = []
    if chart.type not in CHARTS:
        wrong.append(("type", f"type {chart.type!r} is not one of {', '.join(CHARTS)}."))
    results = [name for name, q in spec.quantities.items() if isinstance(q, Result)]
    for key, row in (("first", chart.first), ("last", chart.last)):
        if (row or chart.type == "bars") and row not in results:
            wrong.append((key, f"{key} = {row!r} is no result.{suggest(row, results)}"))
    for series in chart.series:
        grid = spec.quantities.get(series.grid)
        columns = grid.columns if isinstance(grid, Grid) else []
        wrong += [
            ("series", f"{column!r} is no column of {series.grid!r}.{suggest(column, columns)}")
            for column in (series.x, series.y)
            if column not in columns
        ]
    for key, text in wrong:
        yield find_fault(block, "wrong-chart", name, text, "Correct the chart.", "chart", key)


def check_homes(blocks: Blocks, spec: Spec) -> Iterator[Problem]:
    """Each quantity stands in exactly one block of its kind."""
    for quantity in spec.quantities.values():
        home = next((kind for cls, kind in HOMES.items() if isinstance(quantity, cls)), "")
        if not home:
            continue
        places = [
            f"{block.place.file}:{block.place.at('rows')}"
            for _, block in blocks
            for row in block.rows
            if block.kind == home and row == quantity.name
        ]
        if len(places) != 1:
            text = f"stands in {len(places)} blocks of {home}{': ' * bool(places)}"
            text += f"{', '.join(places)}."
            remedy = f"List it in exactly one block of kind {home}; answers may repeat it."
            yield find_fault(quantity, "no-place", quantity.name, text, remedy)
