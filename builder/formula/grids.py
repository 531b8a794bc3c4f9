"""The formulas of a grid, row by row: overrides of its rows, and bound names."""

from dataclasses import dataclass

from builder.formula.tokens import Name, find_names, replace_names
from builder.spec.records import Grid, Quantity, Record, Result, Text

ROW_NUMBER = "row_n"
UNUSABLE = "x"  # stands for what was typed and cannot be used
WORDS = ("_words", "_codes")
LIST = "_list"
LIMITS = ("_min", "_max")  # of a typed number
BOOK_UNITS = ("_factor_n", "_offset_n")  # of a choice of units left blank
CONVERSIONS = ("_factors", "_offsets", *BOOK_UNITS)  # of a choice of units
FIXED = (*LIMITS, *CONVERSIONS, *WORDS)  # what no typed cell of the grid changes
PARTS = (LIST, *FIXED)


@dataclass(frozen=True, slots=True)
class GridName:
    """What a name says about a grid: a column's last row, or its list, limit, factor or words."""

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
    if column.name not in override and column.made_from:
        formula = make_formula(grid.beside or grid.name, column)

    def change(name: Name) -> str:
        bound = bind_name(name.text, grid.bind)
        return f"PRIOR({bound})" if name.prior else bound

    return replace_names(formula, change) if formula else ""


def make_formula(host: str, column: Record) -> str:
    """Return the formula of a column that only reads a typed one of the grid `host`."""
    lists = name_column(host, column.made_from)
    if column.codes:
        found = f"INDEX({lists}_codes,{place_formula(lists, column.codes)})"
        return f'IF({column.codes}="","",IFERROR({found},"{UNUSABLE}"))'
    if column.used:
        return use_formula(lists, column)
    part = "factor" if column.factor_of else "offset"
    place = place_formula(lists, column.made_from)
    return f"IFERROR(INDEX({lists}_{part}s,{place}),{lists}_{part}_n)"


def use_formula(lists: str, column: Record) -> str:
    """Return a typed number in the canonical unit, a blank, or what stands for not usable."""
    typed = column.used
    value = typed + (f"*{column.factor}" if column.factor else "")
    value += f"+{column.offset}" if column.offset else ""
    inside = f"AND({value}>={lists}_min-tiny_n,{value}<={lists}_max+tiny_n)"
    number = f'IF({inside},{value},"{UNUSABLE}")'
    return f'IF({typed}="","",IF(COUNT({typed})=0,"{UNUSABLE}",{number}))'


def place_formula(lists: str, typed: str) -> str:
    """Return the place of what was typed, a word of the list or a code itself, or an error."""
    return f"IFERROR(MATCH({typed},{lists}_words,0),MATCH({typed},{lists}_codes,0))"


def code_formula(lists: str, typed: str) -> str:
    """Return the code of what was typed, a word of the list or a code itself, or a blank."""
    return f'IFERROR(INDEX({lists}_codes,{place_formula(lists, typed)}),"")'


def name_column(grid: str, column: str) -> str:
    """Return what the names of a column begin with: the grid's name, and said once only."""
    return column if column.startswith(f"{grid}_") else f"{grid}_{column}"


def list_group(grid: Grid, quantities: dict[str, Quantity]) -> list[Grid]:
    """Return the grids that run row by row beside each other, the one that is typed first."""
    host = quantities.get(grid.beside) if grid.beside else grid
    grids = [q for q in quantities.values() if isinstance(q, Grid)]
    first = host if isinstance(host, Grid) else grid
    return [first, *(other for other in grids if other.beside == first.name)]


def find_owner(name: str, grid: Grid, quantities: dict[str, Quantity]) -> Grid | None:
    """Return the grid whose column a name means in a row: this one, or one beside it."""
    if name in grid.columns:
        return grid
    if not isinstance(quantities.get(name), Record):
        return None
    group = list_group(grid, quantities)
    return next((other for other in group if name in other.columns), None)


def grid_columns(grid: Grid, quantities: dict[str, Quantity]) -> list[Record]:
    """Return the records of a grid's columns, left to right."""
    found = (quantities.get(name) for name in grid.columns)
    return [record for record in found if isinstance(record, Record)]


def is_typed(grid: Grid, quantities: dict[str, Quantity]) -> bool:
    """Tell whether a grid has columns to type in."""
    return any(column.entry for column in grid_columns(grid, quantities))


def list_words(column: Record | Result, quantities: dict[str, Quantity]) -> list[Text]:
    """Return the words that a value 1 to n shows: its own, or headings of typed columns."""
    grid = quantities.get(column.columns_of) if isinstance(column, Record) else None
    if not isinstance(grid, Grid):
        return column.words
    return [found.label for found in grid_columns(grid, quantities) if found.entry]


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
        if column == rest:
            continue
        for found in (column, f"{key}_{column}"):
            if found in grid.columns:
                return GridName(grid, found, part)
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
    return [name_outside(name, grid, quantities) for name in seen if name not in columns]


def name_outside(name: str, grid: Grid, quantities: dict[str, Quantity]) -> str:
    """Return the list of a column of a grid beside this one; other names as they are."""
    owner = find_owner(name, grid, quantities)
    return f"{name_column(owner.name, name)}{LIST}" if owner else name


def list_uses(grid: Grid, column: Record) -> list[str]:
    """Return the names in the formulas of one column, whether of the grid or from outside."""
    rows = (True, False) if grid.rows > 1 else (True,)
    return [
        name.text for first in rows for name in find_names(row_formula(grid, column, first=first))
    ]
