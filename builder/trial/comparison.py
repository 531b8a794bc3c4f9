"""Compares what a workbook shows with what the reference says."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TypeVar

from builder.calculation import Calculation, Value
from builder.formula.grids import LIST, grid_columns, name_column
from builder.spec.records import Check, Grid, Record, Result, Tolerance
from builder.spec.specification import Spec

Cell = TypeVar("Cell")
RELATIVE, ABSOLUTE = 1e-9, 1e-12
VERDICTS = ("ok", "look", "stop", "missing", "none")


@dataclass(frozen=True, slots=True)
class Difference:
    """A quantity, or a column of a grid and its row, with the values of both sides."""

    name: str
    column: str
    row: int
    shown: Value
    reference: Value

    @property
    def key(self) -> str:
        """Return the name, or `grid.column`."""
        return f"{self.name}.{self.column}" if self.column else self.name

    def __str__(self) -> str:
        """Return the place and both values."""
        place = f"{self.name} row {self.row} {self.column}" if self.column else self.name
        return f"{place}: workbook {self.shown!r}, reference {self.reference!r}"


def agree(found: Value, expected: Value, tolerance: Tolerance | None = None) -> bool:
    """Tell whether two values are the same; a blank is only the same as a blank."""
    wider = tolerance or Tolerance()
    if isinstance(found, float) and isinstance(expected, float):
        relative, absolute = max(RELATIVE, wider.rel), max(ABSOLUTE, wider.abs)
        return math.isclose(found, expected, rel_tol=relative, abs_tol=absolute)
    return found == expected


def list_differences(
    reference: Calculation,
    shown: Mapping[Cell, Value],
    names: Mapping[str, list[Cell]],
    spec: Spec,
    lang: str,
) -> Iterator[Difference]:
    """Yield what differs from a calculation that the reference has made."""
    words: dict[Value, Value] = {spec.words[key].pick(lang): key for key in VERDICTS}
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Result | Check):
            found, expected = shown[names[name][0]], as_number(reference.values[name])
            if isinstance(quantity, Check):
                found = words.get(found, found)
            tolerance = quantity.tolerance if isinstance(quantity, Result) else None
            if not agree(found, expected, tolerance):
                yield Difference(name, "", 0, found, expected)
        elif isinstance(quantity, Grid):
            yield from compare_grid(quantity, reference, shown, names, spec, lang)


def compare_grid(
    grid: Grid,
    reference: Calculation,
    shown: Mapping[Cell, Value],
    names: Mapping[str, list[Cell]],
    spec: Spec,
    lang: str,
) -> Iterator[Difference]:
    """Yield the differences in the worked columns of a grid that have a reference."""
    for column in grid_columns(grid, spec.quantities):
        name = f"{name_column(grid.name, column.name)}{LIST}"
        if column.entry or name not in reference.columns:
            continue
        pairs = zip(names[name], reference.columns[name], strict=True)
        for row, (cell, value) in enumerate(pairs, start=1):
            found, expected = as_place(shown[cell], column, lang), as_number(value)
            if not agree(found, expected, column.tolerance):
                yield Difference(grid.name, column.name, row, found, expected)


def as_number(value: Value) -> Value:
    """Return whole numbers as the kind of number that workbooks hold, and no empty text."""
    if isinstance(value, str):
        return value or None
    return None if value is None else float(value)


def as_place(value: Value, column: Record, lang: str) -> Value:
    """Return the place of a word in its column's list; anything else as it is."""
    words = [text.pick(lang) for text in column.words]
    return float(words.index(value) + 1) if isinstance(value, str) and value in words else value
