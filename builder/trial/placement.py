"""What has to be typed into which cells of a workbook, to give it a machine."""

from collections.abc import Iterator, Mapping
from typing import TypeVar

from builder.calculation import Value
from builder.formula.grids import LIST, name_column
from builder.spec.conversion import from_canonical
from builder.spec.records import Choice, Input, Record
from builder.spec.specification import Spec
from builder.trial.cases import Case, Row

Cell = TypeVar("Cell")


def place_case(
    case: Case, names: Mapping[str, list[Cell]], spec: Spec, lang: str
) -> dict[Cell, Value]:
    """Return what to type where; `names` are the cells of each defined name."""
    return dict(list_typed(case, names, spec, lang))


def list_typed(
    case: Case, names: Mapping[str, list[Cell]], spec: Spec, lang: str
) -> Iterator[tuple[Cell, Value]]:
    """Yield cells with numbers in the units of the case, and words in a language."""
    for name, value in case.given.items():
        quantity = spec.quantities[name]
        if isinstance(quantity, Choice):
            words = quantity.options[str(value)].pick(lang) if value else None
            yield names[f"{name}_typed"][0], words
        elif isinstance(quantity, Input):
            unit = case.units.get(name, quantity.unit)
            yield names[f"{name}_typed"][0], express(value, quantity.unit, unit, spec)
            if f"{name}_typed_unit" in names:
                yield names[f"{name}_typed_unit"][0], spec.units[unit].symbol.pick(lang)
    for grid, rows in case.rows.items():
        yield from list_row_cells(grid, rows, names, spec, lang)


def express(value: Value, canonical: str, unit: str, spec: Spec) -> Value:
    """Return a canonical number in another unit."""
    if unit == canonical or not isinstance(value, float):
        return value
    return from_canonical(value, spec.units[unit], spec.units[canonical])


def list_row_cells(
    grid: str, rows: list[Row], names: Mapping[str, list[Cell]], spec: Spec, lang: str
) -> Iterator[tuple[Cell, Value]]:
    """Yield the cells of typed rows; a code is typed as its word, all else as it is."""
    for number, row in enumerate(rows):
        for key, value in row.items():
            column = spec.quantities[key]
            cell = names[f"{name_column(grid, key)}{LIST}"][number]
            options = column.options if isinstance(column, Record) else {}
            known = isinstance(value, str) and value in options
            yield cell, options[str(value)].pick(lang) if known else value
