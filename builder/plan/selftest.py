"""The self-test: each formula once more over the stored numbers of a worked case.

The stored numbers of what a formula uses stand beside it, so that a wrong function of the
reader's program shows at its own line, and nowhere else.
"""

from collections import Counter
from dataclasses import dataclass

from builder.calculation import Value
from builder.formula.grids import (
    BOOK_UNITS,
    FIXED,
    LIST,
    ROW_NUMBER,
    WORDS,
    find_owner,
    grid_columns,
    name_column,
    row_formula,
    split_grid_name,
)
from builder.formula.tokens import Name, find_names, replace_names
from builder.plan.canvas import Canvas
from builder.plan.cells import column_letters
from builder.plan.context import Context
from builder.plan.grids import HERE
from builder.spec.pages import Block
from builder.spec.records import Check, Constant, Grid, Record, Result

LABEL, STORED, AGAIN, AGREES = range(4)
LIST_ROWS, LISTS_ABREAST = 24, 4
FIRST_LIST, FIRST_LIST_ROW = 5, 8


@dataclass(frozen=True, slots=True)
class Copy:
    """A formula to be worked out again, and what it should give; that of a column in a row."""

    label: str
    formula: str
    value: Value
    grid: str = ""
    row: int = 0


def lay_selftest(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out stored numbers, formulas over them, and whether they agree."""
    heads = [(STORED, "col_stored"), (AGAIN, "col_again"), (AGREES, "col_agrees")]
    titles = [(LABEL, "head", context.pick(block.heading))]
    top = canvas.row
    canvas.next_row(2)
    canvas.put_head(titles + [(c, "head_number", context.word(key)) for c, key in heads])
    bench = Bench(canvas, context, list_copies(context))
    bench.lay_all()
    last = canvas.row
    canvas.row = top
    first = top + 4
    canvas.put(LABEL, "label", context.word("selftest_agree"))
    canvas.put_formula(
        STORED, "result", f"SUM(D{first}:D{last})", digits=0, name="selftest_agree_n"
    )
    canvas.put(AGAIN, "limit", context.word("selftest_of"))
    canvas.put_formula(AGREES, "result", f"COUNT(D{first}:D{last})", digits=0, name="selftest_n")
    canvas.row = last + 1


def list_copies(context: Context) -> dict[str, Copy]:
    """Return every formula whose worked value is known, by what it works out.

    A column that several grids share stands once for each way in which it is written.
    """
    copies: dict[str, Copy] = {}
    met: set[tuple[str, str]] = set()
    for name, quantity in context.spec.quantities.items():
        value = find_scalar(name, context)
        if isinstance(quantity, Result):
            copies[name] = Copy(context.label(name), quantity.formula, value)
        elif isinstance(quantity, Check):
            held = judge(quantity, str(value), context)
            formula = f"IF({quantity.formula},1,0)"
            copies[name] = Copy(context.label(name), formula, held)
        elif isinstance(quantity, Grid):
            copies |= list_columns(quantity, context, met)
    return {key: copy for key, copy in copies.items() if copy.value not in (None, "")}


def list_columns(grid: Grid, context: Context, met: set[tuple[str, str]]) -> dict[str, Copy]:
    """Return one row of each column of a grid whose writing has not been met with a value."""
    copies: dict[str, Copy] = {}
    for column in grid_columns(grid, context.spec.quantities):
        values = list_values(grid.name, column.name, context)
        row = None if column.worded else choose_row(values)
        if row is None:
            continue
        formula = row_formula(grid, column, first=row == 0)
        overrides = grid.rest if row else grid.first
        written = column.name, overrides.get(column.name, column.formula)
        if formula and written not in met:
            met.add(written)
            label = f"{context.label(grid.name)} – {context.label(column.name)}, {row + 1}"
            copies[name_cell(grid.name, column.name, row)] = Copy(
                label, formula, values[row], grid.name, row
            )
    return copies


def choose_row(values: list[Value]) -> int | None:
    """Return the first row with the rarest value, which tells most of a formula."""
    counts: Counter[Value] = Counter(value for value in values if value not in (None, ""))
    rows = [row for row, value in enumerate(values) if value in counts]
    return min(rows, key=lambda row: counts[values[row]], default=None)


def list_values(grid: str, column: str, context: Context) -> list[Value]:
    """Return the worked numbers and words of a column, row by row."""
    values = context.worked.get(f"{name_column(grid, column)}{LIST}")
    return values if isinstance(values, list) else []


def name_cell(grid: str, column: str, row: int) -> str:
    """Return the key of one cell of a grid."""
    return f"{grid}.{column} {row}"


def find_scalar(key: str, context: Context) -> Value:
    """Return one worked number or word, or None."""
    value = context.worked.get(key)
    return None if isinstance(value, list) else value


def judge(check: Check, word: str, context: Context) -> float | None:
    """Return 1 where a verdict says that its claim holds, 0 where not, None where unmade."""
    words = {context.word(key): key for key in ("ok", "look", "stop")}
    verdict = words.get(word)
    if verdict is None:
        return None
    return 1.0 if verdict == "ok" or (check.close and verdict != check.level) else 0.0


class Bench:
    """Puts each stored number once, and lets copies refer to it."""

    def __init__(self, canvas: Canvas, context: Context, copies: dict[str, Copy]) -> None:
        """Begin with nothing stored."""
        self.canvas, self.context, self.waiting = canvas, context, copies
        self.places: dict[str, str] = {}
        self.lists = 0

    def lay_all(self) -> None:
        """Lay out every copy, each after what it needs."""
        while self.waiting:
            self.lay(next(iter(self.waiting)))

    def lay(self, key: str) -> None:
        """Lay out one copy, after what it needs."""
        copy = self.waiting.pop(key)
        cells = {name: self.find(name, copy) for name in find_names(copy.formula)}
        canvas, row = self.canvas, self.canvas.row + 1
        canvas.put(LABEL, "plain", copy.label)
        canvas.put(STORED, "constant", copy.value)
        canvas.put_formula(AGAIN, "constant", replace_names(copy.formula, lambda n: cells[n]))
        pattern = agree_formula(copy.value)
        agreed = pattern.replace(HERE, str(row))
        canvas.put_formula(AGREES, "limit", agreed, digits=0, pattern=pattern)
        self.places[key] = f"$B${row}"
        canvas.next_row()

    def find(self, wanted: Name, copy: Copy) -> str:
        """Return the cell of a stored number; put it there if it is not yet."""
        name = wanted.text
        quantity = self.context.spec.quantities.get(name)
        if isinstance(quantity, Constant) or name.endswith(WORDS) or self.is_fixed(name):
            return name
        key, value = name, self.context.worked.get(name)
        if name == ROW_NUMBER:
            key, value = name_cell(copy.grid, name, copy.row), copy.row + 1.0
        elif isinstance(quantity, Record):
            row, owner = copy.row - wanted.prior, self.find_owner(name, copy.grid)
            key, values = name_cell(owner, name, row), list_values(owner, name, self.context)
            value = values[row] if 0 <= row < len(values) else None
        if key in self.waiting:
            self.lay(key)
        elif key not in self.places:
            stored = self.store_list(value) if isinstance(value, list) else self.store(name, value)
            self.places[key] = stored
        return self.places[key]

    def is_fixed(self, name: str) -> bool:
        """Tell whether a name of a grid stands for what neither log nor reader's units change."""
        part = split_grid_name(name, self.context.spec.quantities)
        return part is not None and part.part in FIXED and part.part not in BOOK_UNITS

    def find_owner(self, name: str, grid: str) -> str:
        """Return the grid whose column a name means in a row of a grid."""
        quantities = self.context.spec.quantities
        home = quantities.get(grid)
        owner = find_owner(name, home, quantities) if isinstance(home, Grid) else None
        return owner.name if owner else grid

    def store(self, name: str, value: Value) -> str:
        """Put one number or code, and return its cell."""
        canvas, quantities = self.canvas, self.context.spec.quantities
        canvas.put(LABEL, "faint", self.context.label(name) if name in quantities else name)
        canvas.put(STORED, "constant", None if value == "" else value)
        canvas.next_row()
        return f"$B${canvas.row}"

    def store_list(self, values: list[Value]) -> str:
        """Put the first rows of a column to the right, and return their range."""
        canvas, here = self.canvas, self.canvas.row
        col = FIRST_LIST + self.lists % LISTS_ABREAST
        row = FIRST_LIST_ROW + (LIST_ROWS + 1) * (self.lists // LISTS_ABREAST)
        self.lists += 1
        kept = values[:LIST_ROWS]
        for step, value in enumerate(kept):
            canvas.row = row + step
            if value not in (None, ""):
                canvas.put(col, "constant", value)
        canvas.row = here
        letters = column_letters(col)
        return f"${letters}${row + 1}:${letters}${row + len(kept)}"


def agree_formula(value: Value) -> str:
    """Return 1 where copy and stored value agree, else 0, its row marked."""
    if isinstance(value, str):
        return f"IFERROR(IF(C{HERE}=B{HERE},1,0),0)"
    return f"IFERROR(IF(ABS(C{HERE}-B{HERE})>ABS(B{HERE})*selftest_rel_n+selftest_abs_n,0,1),0)"
