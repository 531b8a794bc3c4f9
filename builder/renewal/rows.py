"""Typed rows of grids, and all other cells of an older workbook that people fill in freely."""

from builder.audit.cases import TYPED, TYPED_UNIT, Column, find_columns, name_row
from builder.audit.rows import DATE, read_number
from builder.calculation import Entries, Value
from builder.renewal.inputs import default_unit, find_code, find_unit
from builder.renewal.source import Source
from builder.spec.records import Check, Choice, Input, Result, Unit

IDENTITY = ("machine_title", "producer", "site")


def read_rows(source: Source) -> tuple[Entries, dict[str, Value]]:
    """Return the typed rows of each grid, and the units in the headings of its columns."""
    entries: Entries = {}
    units: dict[str, Value] = {}
    for column in find_columns(source.spec, source.names):
        if not column.record.entry:
            drop_overtyped(source, column.cells, column.name)
            continue
        numeric = column.record.entry in {"number", DATE}
        unit = find_column_unit(source, column) if numeric else None
        rows = entries.setdefault(column.grid.name, [{} for _ in range(column.grid.rows)])
        filled = 0
        for number, place in enumerate(column.cells, start=1):
            name = name_row(column.name, number)
            value = read_cell(source, column, place, name, unit)
            if value is not None and number > column.grid.rows:
                source.drop(place, name, f"this edition has {column.grid.rows} rows")
            elif value is not None:
                rows[number - 1][column.record.name] = value
                filled += 1
        if unit and column.unit_cell and (filled or unit != default_unit(source, column.record)):
            units[f"{column.name}_unit"] = unit.key
    return {grid: trim(rows) for grid, rows in entries.items()}, units


def find_column_unit(source: Source, column: Column) -> Unit | None:
    """Return the unit in the heading of a column."""
    canonical = source.spec.units[column.record.unit]
    return find_unit(source, canonical, column.name, source.find(column.name + TYPED_UNIT))


def read_cell(source: Source, column: Column, place: str, name: str, unit: Unit | None) -> Value:
    """Return one typed cell as number in the canonical unit, code or text."""
    if column.record.entry == "text":
        return source.read_words(place, name)
    typed = source.read(place, name)
    if typed is None:
        return None
    if column.record.entry == "choice":
        return find_code(source, place, name, column.record, column.name) or None
    if unit is None:
        source.drop(place, name, "the unit over its column is not known; left blank")
        return None
    reading = read_number(source.reader, column.record, typed, unit)
    if reading.value is None:
        source.drop(place, name, f"{reading.doubt}; left blank")
    elif reading.doubt:
        source.tell("outside", place, name, reading.doubt)
    return reading.value


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
