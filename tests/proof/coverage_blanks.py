"""What the cells of working rows wait for: where one of these is missing, they show nothing."""

from collections.abc import Iterator

from builder.formula.grids import LIST, grid_columns, outer_names, row_formula, split_grid_name
from builder.formula.tokens import find_blank_tests
from builder.spec.records import Constant, Grid, Quantity
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
