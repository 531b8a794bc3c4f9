"""The formulas of a grid, row by row: overrides of the first and the other rows, and bound names."""

from builder.formula.tokens import Name, find_names, replace_names
from builder.spec.records import Grid, Quantity, Record


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

    def change(name: Name) -> str:
        bound = bind_name(name.text, grid.bind)
        return f"PRIOR({bound})" if name.prior else bound

    return replace_names(formula, change) if formula else ""


def grid_columns(grid: Grid, quantities: dict[str, Quantity]) -> list[Record]:
    """Return the records of a grid's columns, left to right."""
    found = (quantities.get(name) for name in grid.columns)
    return [record for record in found if isinstance(record, Record)]


def split_grid_name(name: str, quantities: dict[str, Quantity]) -> tuple[Grid, str] | None:
    """Return grid and column where the name means a grid's last row, as `start_next_pH`."""
    key, _, column = name.partition("_")
    grid = quantities.get(key)
    return (grid, column) if isinstance(grid, Grid) and column in grid.columns else None


def outer_names(grid: Grid, quantities: dict[str, Quantity]) -> list[str]:
    """Return the names from outside that the grid's formulas use."""
    inside = set(grid.columns)
    found: dict[str, None] = {}
    for column in grid_columns(grid, quantities):
        for first in (True, False) if grid.rows > 1 else (True,):
            for name in find_names(row_formula(grid, column, first=first)):
                if name.text not in inside:
                    found.setdefault(name.text)
    return list(found)
