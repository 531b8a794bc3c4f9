"""Typed rows of grids, and all other cells of an older workbook that people fill in freely."""

from collections.abc import Callable

from builder.audit.cases import TYPED, TYPED_UNIT, Column, find_columns, name_row
from builder.audit.inputs import TypedError
from builder.calculation import Entries, Value
from builder.renewal.inputs import find_unit
from builder.renewal.source import Source
from builder.spec.conversion import to_canonical
from builder.spec.records import Check, Choice, Input, Result, Unit

DIGITS = 15  # of a number, in every spreadsheet program
IDENTITY = ("machine_title", "producer", "site")


def read_rows(source: Source, system: str) -> Entries:
    """Return the typed rows of each grid, as they were typed.

    Where an older edition had a unit over a column, its numbers go into the unit of the book.
    """
    entries: Entries = {}
    for column in find_columns(source.spec, source.names):
        if not column.record.entry:
            drop_overtyped(source, column.cells, column.name)
            continue
        convert = find_conversion(source, column, system)
        rows = entries.setdefault(column.grid.name, [{} for _ in range(column.grid.rows)])
        for number, place in enumerate(column.cells, start=1):
            name = name_row(column.name, number)
            value = convert(read_cell(source, column, place, name))
            if value is not None and number > column.grid.rows:
                source.drop(place, name, f"this edition has {column.grid.rows} rows")
            elif value is not None:
                rows[number - 1][column.record.name] = value
    return {grid: trim(rows) for grid, rows in entries.items()}


def find_conversion(source: Source, column: Column, system: str) -> Callable[[Value], Value]:
    """Return what becomes of a number of a column: it stays as it is but under an older unit."""
    unit_place = source.find(column.name + TYPED_UNIT)
    canonical = source.spec.units.get(column.record.unit)
    unit = find_unit(source, canonical, column.name, unit_place) if canonical else None
    if not unit_place or canonical is None or unit is None:
        return lambda value: value
    own, shown = unit, source.spec.units[canonical.reader[system]]
    return lambda value: express(value, own, shown)


def express(value: Value, unit: Unit, shown: Unit) -> Value:
    """Return a number in another unit, with the digits that somebody typed."""
    if not isinstance(value, float) or unit is shown:
        return value
    return float(f"{to_canonical(value, unit, shown):.{DIGITS}g}")


def read_cell(source: Source, column: Column, place: str, name: str) -> Value:
    """Return one typed cell as it stands, a choice as its code if its word is known."""
    if column.record.entry == "text":
        return source.read_words(place, name)
    typed = source.read(place, name)
    if not isinstance(typed, str) or column.record.entry != "choice":
        return typed
    code = source.list_words(column.name).get(typed.casefold(), "")
    if code in column.record.options:
        return code
    try:
        return source.reader.read_choice(column.record, typed)
    except TypedError as error:
        source.tell("outside", place, name, f"{error}; carried as it is")
        return typed


def trim(rows: list[dict[str, Value]]) -> list[dict[str, Value]]:
    """Return the rows without the blank ones at the end."""
    last = max((number for number, row in enumerate(rows, start=1) if row), default=0)
    return rows[:last]


def read_texts(source: Source) -> dict[str, str]:
    """Return title, producer and site by the names of their cells."""
    texts: dict[str, str] = {}
    for name in IDENTITY:
        typed = source.read_words(source.find(name + TYPED), name)
        texts[name] = f"{typed:.15g}" if isinstance(typed, float) else typed or ""
    return texts


def read_filled(source: Source) -> dict[str, Value]:
    """Return ticks, days, initials and free fields; what stands in them is carried as it is."""
    cells: dict[str, Value] = {}
    for block in (block for sheet in source.spec.sheets for block in sheet.blocks):
        for key, day in block.typed_keys():
            place = source.find(key + TYPED)
            typed = source.read(place, key) if day else source.read_words(place, key)
            if typed is not None:
                cells[key] = typed
    return cells


def drop_worked(source: Source) -> None:
    """Tell of everything that was typed over a formula."""
    for name, quantity in source.spec.quantities.items():
        if isinstance(quantity, Input | Choice | Result | Check):
            drop_overtyped(source, [place] if (place := source.find(name)) else [], name)


def drop_overtyped(source: Source, places: list[str], name: str) -> None:
    """Tell of cells that hold something typed where this edition works out a value."""
    for place in places:
        cell = source.book.cells.get(place)
        if cell and not cell.formula and cell.constant is not None:
            source.drop(place, name, "this edition works it out")
        source.asked.add(place)
