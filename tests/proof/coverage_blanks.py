"""What the cells of working rows wait for: where one of these is missing, they show nothing."""

from collections.abc import Iterator

from builder.formula.grids import LIST, grid_columns, outer_names, row_formula, split_grid_name
from builder.formula.tokens import find_blank_tests, find_names
from builder.spec.records import Constant, Grid, Quantity, Record
from builder.spec.specification import Spec


def list_needs(spec: Spec) -> dict[str, frozenset[str]]:
    """Return the quantities that each working column needs, by the names of the columns."""
    found: dict[str, frozenset[str]] = {}
    for name, grid in spec.quantities.items():
        if isinstance(grid, Grid) and is_working(grid, spec):
            for column in grid_columns(grid, spec.quantities):
                if not column.blank and not column.reference:
                    needs = frozenset(walk(grid, column.name, spec.quantities))
                    found[f"{name}_{column.name}{LIST}"] = needs
    return found


def is_working(grid: Grid, spec: Spec) -> bool:
    """Tell whether nobody types into a grid, and none of its formulas deals with blanks itself."""
    columns = grid_columns(grid, spec.quantities)
    formulas = [row_formula(grid, c, first=first) for c in columns for first in (True, False)]
    return not any(c.entry for c in columns) and not any(map(find_blank_tests, formulas))


def walk(grid: Grid, column: str, quantities: dict[str, Quantity]) -> Iterator[str]:
    """Yield the quantities from outside behind a column, through the columns of other grids."""
    for name in outer_names(grid, quantities, column):
        part = split_grid_name(name, quantities)
        if part is None:
            quantity = quantities.get(name)
            yield from () if quantity is None or isinstance(quantity, Constant) else (name,)
        elif not part.part:
            yield from walk(part.grid, part.column, quantities)


def list_row_needs(spec: Spec) -> dict[str, frozenset[str]]:
    """Return the columns that each working column of a typed grid needs in its own row."""
    found: dict[str, frozenset[str]] = {}
    for name, grid in spec.quantities.items():
        columns = grid_columns(grid, spec.quantities) if isinstance(grid, Grid) else []
        known = {c.name for c in columns if c.entry or c.reference}
        for column in columns if any(c.entry for c in columns) else []:
            if not (column.name in known or column.blank or column.words):
                found[f"{name}_{column.name}{LIST}"] = frozenset(
                    f"{name}_{each}{LIST}" for each in walk_row(column, known, spec.quantities)
                )
    return found


def walk_row(column: Record, known: set[str], quantities: dict[str, Quantity]) -> Iterator[str]:
    """Yield the known columns behind a column, but for those whose blanks it deals with itself."""
    spared = find_blank_tests(column.formula) | set(column.optional)
    for name in find_names(column.formula):
        inner = quantities.get(name.text)
        if name.text in known and name.text not in spared:
            yield name.text
        elif isinstance(inner, Record) and name.text not in spared:
            yield from walk_row(inner, known, quantities)
