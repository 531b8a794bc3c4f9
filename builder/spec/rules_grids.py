"""Grids: their columns, guard, overrides and bound names refer to what there is."""

from collections.abc import Iterator

from builder.counts import tell_count
from builder.formula.grids import grid_columns
from builder.formula.tokens import find_names
from builder.problems import Problem, suggest
from builder.spec.records import Grid, Quantity, Record
from builder.spec.rules_texts import find_fault
from builder.spec.specification import Spec


def check_grids(spec: Spec) -> Iterator[Problem]:
    """Judge each grid."""
    for grid in spec.quantities.values():
        if isinstance(grid, Grid):
            yield from check_columns(grid, spec.quantities)
            yield from check_overrides(grid)
            yield from check_beside(grid, spec.quantities)


def check_columns(grid: Grid, quantities: dict[str, Quantity]) -> Iterator[Problem]:
    """Columns are records, each once; there is at least one row."""
    records = [name for name, quantity in quantities.items() if isinstance(quantity, Record)]
    for number, name in enumerate(grid.columns):
        if name not in records:
            text = f"column {name!r} is no record.{suggest(name, records)}"
            remedy = "Name an entry of kind record."
            yield find_fault(grid, "unknown-column", grid.name, text, remedy, "columns")
        elif name in grid.columns[:number]:
            text = f"column {name!r} stands there twice."
            yield find_fault(grid, "column-twice", grid.name, text, "Remove one.", "columns")
    if grid.rows < 1 or not grid.columns:
        text = f"has {tell_count(grid.rows, 'row')} and {tell_count(grid.columns, 'column')}."
        yield find_fault(grid, "empty-grid", grid.name, text, "Give it one of each.", "rows")


def check_beside(grid: Grid, quantities: dict[str, Quantity]) -> Iterator[Problem]:
    """Demand that a grid beside another one has as many rows, and reads columns that it has."""
    host = quantities.get(grid.beside) if grid.beside else grid
    if not isinstance(host, Grid) or host.beside or host.rows != grid.rows:
        text = f"beside names {grid.beside!r}, no grid of {tell_count(grid.rows, 'row')} by itself."
        yield find_fault(grid, "bad-beside", grid.name, text, "Name such a grid.", "beside")
        return
    read = list(list_read([*host.columns, *grid.columns], quantities))
    for column in grid_columns(grid, quantities):
        for key, names in read:
            name = getattr(column, key)
            if name and name not in names:
                text = f"{key} names {name!r}, which cannot be read there.{suggest(name, names)}"
                yield find_fault(column, "bad-column", column.name, text, "Correct it.", key)


def list_read(near: list[str], quantities: dict[str, Quantity]) -> Iterator[tuple[str, list[str]]]:
    """Yield each key of a column that names another one, with those that it may name."""
    records = {n: q for n, q in quantities.items() if isinstance(q, Record)}
    inside = {name: records[name] for name in near if name in records}
    limited = ("number", "date")
    yield "used", [n for n, r in inside.items() if r.entry in limited and r.limits]
    worked = [n for n, r in inside.items() if not r.entry]
    yield "factor", worked
    yield "offset", worked
    yield "factor_of", [n for n, r in inside.items() if r.measure]
    yield "offset_of", [n for n, r in inside.items() if r.measure]
    yield "codes", [n for n, r in inside.items() if r.entry == "choice"]
    yield "unit_of", [n for n, r in records.items() if r.measure]
    yield "places", [n for n, r in records.items() if r.worded]
    yield "columns_of", [n for n, q in quantities.items() if isinstance(q, Grid)]


def check_overrides(grid: Grid) -> Iterator[Problem]:
    """Demand that guard and overridden formulas belong to columns of the grid."""
    named = [("guard", grid.guard)] if grid.guard else []
    named += [("first", name) for name in grid.first] + [("rest", name) for name in grid.rest]
    for key, name in named:
        if name not in grid.columns:
            text = f"{key} names {name!r}, which is no column.{suggest(name, grid.columns)}"
            remedy = "Name a column of this grid."
            yield find_fault(grid, "unknown-column", grid.name, text, remedy, key, name)
    if grid.rows == 1 and grid.rest:
        text = "has one row, so that nothing uses the formulas under rest."
        yield find_fault(grid, "unused-rest", grid.name, text, "Remove them.", "rest")


def check_bindings(spec: Spec) -> Iterator[Problem]:
    """Every bound name stands in a formula of the grid, and is no quantity itself."""
    for grid in spec.quantities.values():
        if not isinstance(grid, Grid):
            continue
        used = set(list_used(grid, spec))
        for key in grid.bind:
            if key in spec.quantities:
                text = f"bind hides the quantity {key}."
                remedy = "Bind names that are no quantities, such as aim_pH."
                yield find_fault(grid, "bind-hides", grid.name, text, remedy, "bind", key)
            elif key not in used and not (
                key.endswith("_") and any(name.startswith(key) for name in used)
            ):
                text = f"bind names {key!r}, which no formula of the grid uses.{suggest(key, used)}"
                yield find_fault(grid, "unused-bind", grid.name, text, "Remove it.", "bind", key)


def list_used(grid: Grid, spec: Spec) -> Iterator[str]:
    """Yield the names in the formulas of a grid before they are bound."""
    for column in grid_columns(grid, spec.quantities):
        for texts in (grid.first, grid.rest):
            text = texts.get(column.name, column.formula)
            yield from (name.text for name in find_names(text)) if text else ()
