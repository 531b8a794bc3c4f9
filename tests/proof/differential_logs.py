"""Logs that nobody should type: texts, unknown units and words, limits, zeros, ties."""

from collections.abc import Callable, Iterator
from itertools import product

from workbook.cases import Case, Row, list_entries, typed_grids
from workbook.files import Value

from builder.spec.conversion import list_units
from builder.spec.records import Grid, Record
from builder.spec.specification import Spec

WASH = 3  # place of the alkaline wash among the events, on which most columns of a log depend
TEXTS = ("abc", " ")  # the engine `formulas` counts digits that are a text as a number
UNKNOWN = "cubit"
TOGETHER = 4  # columns whose unit is unknown at once

Spoiled = dict[tuple[str, int], Value]
Log = tuple[Case, Spoiled]


def list_logs(spec: Spec) -> Iterator[Log]:
    """Yield logs of each grid, each with what the reference is given and what is typed instead."""
    for grid in typed_grids(spec).values():
        columns = list_entries(spec, grid)
        ends = [fill_row(columns, at_end(0)), fill_row(columns, at_end(1))]
        yield Case(f"{grid.name}: limits by turns", {}, {grid.name: ends * 4}), {}
        yield Case(f"{grid.name}: rows alike", {}, {grid.name: [usual(columns)] * 8}), {}
        for entry, number in product(("number", "date"), (0.0, -3.0)):
            names = [column.name for column in columns if column.entry == entry]
            rows = [{**usual(columns), name: number} for name in names]
            label = f"{grid.name}: {number:g} in each column of a {entry}"
            yield Case(label, {}, {grid.name: [*rows, usual(columns)][: grid.rows]}), {}
        yield spoil_cells(grid, columns)
        yield type_codes(grid, columns)
        yield from spoil_units(spec, grid, columns)


def usual(columns: list[Record]) -> Row:
    """Return a row in which every cell is typed, with numbers in the middle of their limits."""
    return fill_row(columns, lambda low, high: (low + high) // 2)


def fill_row(columns: list[Record], pick: Callable[[float, float], float]) -> Row:
    """Return a row in which every cell is typed."""
    row: Row = {}
    for column in columns:
        if column.options:
            row[column.name] = list(column.options)[:WASH][-1]
        elif column.entry == "text":
            row[column.name] = "AB"
        else:
            limits = column.limits
            row[column.name] = pick(limits.min, limits.max) if limits else 10.0
    return row


def at_end(end: int) -> Callable[[float, float], float]:
    """Return a function that picks the lower or the upper limit."""
    return lambda low, high: (low, high)[end]


def spoil_cells(grid: Grid, columns: list[Record]) -> Log:
    """Return a log with a text or an unknown word in another column of each row."""
    rows: list[Row] = []
    spoiled: Spoiled = {}
    judged = [column for column in columns if column.entry != "text"]
    for place, column in enumerate(judged[: grid.rows]):
        rows.append({**usual(columns), column.name: None})
        text = UNKNOWN if column.options else TEXTS[place % len(TEXTS)]
        spoiled[f"{grid.name}_{column.name}_list", place] = text
    return Case(f"{grid.name}: a text in each column", {}, {grid.name: rows}), spoiled


def type_codes(grid: Grid, columns: list[Record]) -> Log:
    """Return a log with codes in place of words."""
    codes: Spoiled = {}
    row = usual(columns)
    for column in columns:
        if column.options:
            codes |= {
                (f"{grid.name}_{column.name}_list", place): row[column.name] for place in (1, 2)
            }
    return Case(f"{grid.name}: codes", {}, {grid.name: [row] * 4}), codes


def spoil_units(spec: Spec, grid: Grid, columns: list[Record]) -> Iterator[Log]:
    """Yield logs with an unknown unit in some headings: what stands below counts as blank."""
    names = [
        column.name
        for column in columns
        if column.entry == "number" and len(list_units(spec.units[column.unit], spec.units)) > 1
    ]
    step = -(-len(names) // TOGETHER) or 1
    for some in (names[first::step] for first in range(min(step, len(names)))):
        rows = [{**usual(columns), **dict.fromkeys(some)}] * 4
        spoiled: Spoiled = {(f"{grid.name}_{name}_typed_unit", 0): UNKNOWN for name in some}
        for name in some:
            filled = usual(columns)[name]
            spoiled |= {(f"{grid.name}_{name}_list", place): filled for place in range(4)}
        yield (
            Case(f"{grid.name}: unknown units of {', '.join(some)}", {}, {grid.name: rows}),
            spoiled,
        )
