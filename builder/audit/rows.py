"""Reads the typed rows of grids back, with a warning for each cell that is not as it should be."""

from collections.abc import Iterator
from dataclasses import dataclass

from openpyxl.utils.datetime import from_excel

from builder.audit.cases import Column, name_row
from builder.audit.findings import Finding
from builder.audit.inputs import Reader, TypedError, settle, tell
from builder.audit.normalization import CellValue
from builder.calculation import Entries, Value
from builder.spec.conversion import to_canonical
from builder.spec.records import Limits, Record, Unit

DATE = "date"


@dataclass(frozen=True, slots=True)
class TypedCell:
    """What one typed cell says to the reference, and why that is doubtful."""

    value: Value
    doubt: str = ""


def read_entries(reader: Reader, columns: list[Column]) -> tuple[Entries, list[Finding]]:
    """Return the typed rows of each grid, and the warnings about their cells."""
    entries: Entries = {}
    warnings: list[Finding] = []
    for column in columns:
        if not column.record.entry:
            continue
        rows = entries.setdefault(column.grid.name, [])
        rows += [{} for _ in column.cells[len(rows) :]]
        try:
            readings = list(read_column(reader, column))
        except TypedError as error:
            warnings.append(Finding(column.unit_cell, column.name, str(error)))
            continue
        for number, (cell, reading) in enumerate(zip(column.cells, readings, strict=True), 1):
            rows[number - 1][column.record.name] = reading.value
            if reading.doubt:
                warnings.append(Finding(cell, name_row(column.name, number), reading.doubt))
    return entries, warnings


def read_column(reader: Reader, column: Column) -> Iterator[TypedCell]:
    """Yield each cell of a typed column; raise TypedError where its unit is not known."""
    record = column.record
    numbers = record.entry in {"number", DATE}
    unit = reader.find_unit(reader.spec.units[record.unit], column.unit_cell) if numbers else None
    for cell in column.cells:
        typed = reader.shown.get(cell)
        if typed is None or record.entry == "text":
            yield TypedCell(typed)
        elif unit is not None:
            yield read_number(reader, record, typed, unit)
        else:
            yield read_code(reader, record, typed)


def read_code(reader: Reader, record: Record, typed: CellValue) -> TypedCell:
    """Return the code of a chosen word; an unknown word counts as nothing."""
    try:
        return TypedCell(reader.read_choice(record, typed))
    except TypedError as error:
        return TypedCell(None, str(error))


def read_number(reader: Reader, record: Record, typed: CellValue, unit: Unit) -> TypedCell:
    """Return a number in the canonical unit, even outside its limits, as the workbook uses it."""
    canonical = reader.spec.units[record.unit]
    limits = record.limits
    kind = "date" if record.entry == DATE else "number"
    if not isinstance(typed, float):
        wanted = f"a {kind}, {show_limits(reader, record, limits)}" if limits else f"a {kind}"
        return TypedCell(None, f"typed value, found {tell(typed)}, expected {wanted}")
    value = to_canonical(typed, unit, canonical)
    if limits is None or limits.min <= settle(value, (limits.min, limits.max)) <= limits.max:
        return TypedCell(value)
    also = "" if unit is canonical else f" = {value:.6g} {reader.sign(canonical)}"
    found = f"{typed:.12g}" if kind == DATE else f"{typed:.12g} {reader.sign(unit)}{also}"
    expected = show_limits(reader, record, limits)
    return TypedCell(value, f"typed value, found {found}, expected {expected}; used as it is")


def show_limits(reader: Reader, record: Record, limits: Limits) -> str:
    """Return the limits of a column for messages: days as dates."""
    if record.entry == DATE:
        first, last = (str(from_excel(day)).split()[0] for day in (limits.min, limits.max))
        return f"{first} to {last}"
    return f"{limits.min:g} to {limits.max:g} {reader.sign(reader.spec.units[record.unit])}"
