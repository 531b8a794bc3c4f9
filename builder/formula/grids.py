"""The formulas of a grid, row by row: overrides of its rows, and bound names."""

from dataclasses import dataclass

from builder.formula.tokens import Name, find_names, replace_names
from builder.spec.records import Grid, Quantity, Record

ROW_NUMBER = "row_n"
WORDS = ("_words", "_codes")
LIST = "_list"
PARTS = (LIST, "_factor_n", "_offset_n", *WORDS)


@dataclass(frozen=True, slots=True)
class GridName:
    """What a name says about a grid: a column's last row, or its list, factor, offset or words."""

    grid: Grid
    column: str
    part: str


def bind_name(name: str, bind: dict[str, str]) -> str:
    """Return the name that a bound name stands for; a key ending in _ binds a prefix."""
    for key, target in bind.items():
        if name == key:
            return target
        if key.endswith("_") and name.startswith(key):
            return target + name.removeprefix(key)
    return name


def row_formula(grid: Grid, column: Record, *, first: bool) -> str:
    """Return the bound formula of a column in the first row or in the others; "" is typed."""
    override = grid.first if first else grid.rest
    formula = override.get(column.name, column.formula)
    if column.codes:
        formula = code_formula(f"{grid.name}_{column.codes}", column.codes)

    def change(name: Name) -> str:
        bound = bind_name(name.text, grid.bind)
        return f"PRIOR({bound})" if name.prior else bound

    return replace_names(formula, change) if formula else ""


def code_formula(lists: str, typed: str) -> str:
    """Return the code of what was typed, a word of the list or a code itself, or a blank."""
    place = f"IFERROR(MATCH({typed},{lists}_words,0),MATCH({typed},{lists}_codes,0))"
    return f'IFERROR(INDEX({lists}_codes,{place}),"")'


def grid_columns(grid: Grid, quantities: dict[str, Quantity]) -> list[Record]:
    """Return the records of a grid's columns, left to right."""
    found = (quantities.get(name) for name in grid.columns)
    return [record for record in found if isinstance(record, Record)]


def split_grid_name(name: str, quantities: dict[str, Quantity]) -> GridName | None:
    """Return what a name such as `start_next_pH` or `log_sap_L_list` says about a grid."""
    key, _, rest = name.partition("_")
    grid = quantities.get(key)
    if not isinstance(grid, Grid):
        return None
    if rest in grid.columns:
        return GridName(grid, rest, "")
    for part in PARTS:
        column = rest.removesuffix(part)
        if column != rest and column in grid.columns:
            return GridName(grid, column, part)
    return None


def outer_names(grid: Grid, quantities: dict[str, Quantity], column: str = "") -> list[str]:
    """Return the names from outside that the grid's formulas use, or those behind one column."""
    columns = {record.name: record for record in grid_columns(grid, quantities)}
    waiting = [column] if column else list(columns)
    seen: dict[str, None] = {}
    while waiting:
        name = waiting.pop(0)
        if name in seen or name == ROW_NUMBER:
            continue
        seen[name] = None
        if name in columns:
            waiting += list_uses(grid, columns[name])
    return [name for name in seen if name not in columns]


def list_uses(grid: Grid, column: Record) -> list[str]:
    """Return the names in the formulas of one column, whether of the grid or from outside."""
    rows = (True, False) if grid.rows > 1 else (True,)
    return [
        name.text for first in rows for name in find_names(row_formula(grid, column, first=first))
    ]
