"""Reads the typed rows of grids back, with a warning for each cell that is not as it should be."""

from collections.abc import Iterator
from dataclasses import dataclass

from openpyxl.utils.datetime import from_excel

from builder.audit.cases import Column, name_row
from builder.audit.findings import Finding
from builder.audit.inputs import Reader, TypedError, settle, tell
from builder.audit.normalization import CellValue
from builder.calculation import Entries, Value
from builder.spec.records import Limits, Record

DATE = "date"
Conversion = tuple[float, float]  # factor and offset that lead to the canonical unit


@dataclass(frozen=True, slots=True)
class TypedCell:
    """What one typed cell says to the reference, and why that is doubtful."""

    value: Value
    doubt: str = ""


def read_entries(reader: Reader, columns: list[Column]) -> tuple[Entries, list[Finding]]:
    """Return the typed rows of each grid as they are, and the warnings about their cells."""
    entries: Entries = {}
    warnings: list[Finding] = []
    for column in columns:
        if not column.record.entry:
            continue
        rows = entries.setdefault(column.grid.name, [])
        rows += [{} for _ in column.cells[len(rows) :]]
        readings = read_column(reader, column, columns)
        for number, (cell, reading) in enumerate(zip(column.cells, readings, strict=True), 1):
            rows[number - 1][column.record.name] = reading.value
            if reading.doubt:
                warnings.append(Finding(cell, name_row(column.name, number), reading.doubt))
    return entries, warnings


def read_column(reader: Reader, column: Column, columns: list[Column]) -> Iterator[TypedCell]:
    """Yield each cell of a typed column."""
    record = column.record
    conversions = find_conversions(reader, column, columns)
    for cell, conversion in zip(column.cells, conversions, strict=True):
        typed = reader.shown.get(cell)
        if typed is None or record.entry == "text":
            yield TypedCell(typed)
        elif record.entry == "choice":
            yield read_code(reader, record, typed)
        else:
            yield TypedCell(typed, doubt_number(reader, record, typed, conversion))


def find_conversions(reader: Reader, column: Column, columns: list[Column]) -> list[Conversion]:
    """Return how each row's number is converted: by what the columns that use it say."""
    named = {found.record.name: found for found in columns}
    user = next((c.record for c in columns if c.record.used == column.record.name), None)
    plain = [(1.0, 0.0)] * len(column.cells)
    if user is None or user.factor not in named:
        return plain
    factors = read_numbers(reader, named[user.factor], 1.0)
    offsets = read_numbers(reader, named[user.offset], 0.0) if user.offset in named else []
    offsets += [0.0] * (len(factors) - len(offsets))
    return list(zip(factors, offsets, strict=True))


def read_numbers(reader: Reader, column: Column, usual: float) -> list[float]:
    """Return the numbers that a column shows, the usual one where it shows none."""
    shown = (reader.shown.get(cell) for cell in column.cells)
    return [value if isinstance(value, float) else usual for value in shown]


def read_code(reader: Reader, record: Record, typed: CellValue) -> TypedCell:
    """Return the code of a chosen word; an unknown word as it stands."""
    try:
        return TypedCell(reader.read_choice(record, typed))
    except TypedError as error:
        return TypedCell(typed, str(error))


def doubt_number(reader: Reader, record: Record, typed: CellValue, conversion: Conversion) -> str:
    """Return why a number cannot be used: it is none, or outside its limits; "" if it can."""
    limits = record.limits
    if not isinstance(typed, float):
        kind = "date" if record.entry == DATE else "number"
        wanted = f"a {kind}, {show_limits(reader, record, limits)}" if limits else f"a {kind}"
        return f"typed value, found {tell(typed)}, expected {wanted}"
    value = typed * conversion[0] + conversion[1]
    if limits is None or limits.min <= settle(value, (limits.min, limits.max)) <= limits.max:
        return ""
    sign = "" if record.entry == DATE else f" {reader.sign(reader.spec.units[record.unit])}"
    also = "" if conversion == (1.0, 0.0) else f" = {value:.6g}"
    expected = show_limits(reader, record, limits)
    return f"typed value, found {typed:.12g}{also}{sign}, expected {expected}; not used"


def show_limits(reader: Reader, record: Record, limits: Limits) -> str:
    """Return the limits of a column for messages: days as dates."""
    if record.entry == DATE:
        first, last = (str(from_excel(day)).split()[0] for day in (limits.min, limits.max))
        return f"{first} to {last}"
    return f"{limits.min:g} to {limits.max:g} {reader.sign(reader.spec.units[record.unit])}"
