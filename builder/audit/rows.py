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
        for number, cell in enumerate(column.cells, 1):
            reading = read_cell(reader, column.record, cell)
            rows[number - 1][column.record.name] = reading.value
            if reading.doubt:
                warnings.append(Finding(cell, name_row(column.name, number), reading.doubt))
    return entries, warnings


def read_cell(reader: Reader, record: Record, cell: str) -> TypedCell:
    """Return what a typed cell says."""
    typed = reader.shown.get(cell)
    if typed is None or record.entry == "text":
        return TypedCell(typed)
    if record.entry == "choice":
        return read_code(reader, record, typed)
    return TypedCell(typed, doubt_kind(reader, record, typed))


def list_unused(
    reader: Reader, columns: list[Column], worked: dict[str, list[Value]]
) -> Iterator[Finding]:
    """Yield a warning for each number outside its limits, in the units of its row.

    Those are known to the reference, whose columns say what is not used; the cells may be altered.
    """
    for column in columns:
        record = column.record
        if not record.entry or record.limits is None:
            continue
        users = [c.source for c in columns if c.record.used == record.name and c.source in worked]
        used = worked[users[0]] if users else []
        for number, cell in enumerate(column.cells, 1):
            typed = reader.shown.get(cell)
            value = used[number - 1] if number <= len(used) else typed
            if isinstance(typed, float) and not is_inside(value, record.limits):
                doubt = doubt_limits(reader, record, typed)
                yield Finding(cell, name_row(column.name, number), doubt)


def is_inside(value: Value | CellValue, limits: Limits) -> bool:
    """Tell whether a number can be used."""
    edges = (limits.min, limits.max)
    return isinstance(value, float) and limits.min <= settle(value, edges) <= limits.max


def read_code(reader: Reader, record: Record, typed: CellValue) -> TypedCell:
    """Return the code of a chosen word; an unknown word as it stands."""
    try:
        return TypedCell(reader.read_choice(record, typed))
    except TypedError as error:
        return TypedCell(typed, str(error))


def doubt_kind(reader: Reader, record: Record, typed: CellValue) -> str:
    """Return why a cell for a number cannot be used: it holds none; "" if it does."""
    if isinstance(typed, float):
        return ""
    kind = "date" if record.entry == DATE else "number"
    limits = f", {show_limits(reader, record, record.limits)}" if record.limits else ""
    return f"typed value, found {tell(typed)}, expected a {kind}{limits}"


def doubt_limits(reader: Reader, record: Record, typed: float) -> str:
    """Return that a number is outside its limits."""
    own = " in the units of its line" if record.unit_of else ""
    limits = record.limits
    expected = show_limits(reader, record, limits) if limits else "another"
    return f"typed value, found {typed:.12g}{own}, expected {expected}; not used"


def show_limits(reader: Reader, record: Record, limits: Limits) -> str:
    """Return the limits of a column for messages: days as dates."""
    if record.entry == DATE:
        first, last = (str(from_excel(day)).split()[0] for day in (limits.min, limits.max))
        return f"{first} to {last}"
    return f"{limits.min:g} to {limits.max:g} {reader.sign(reader.spec.units[record.unit])}"
