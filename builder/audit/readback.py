"""Reads a workbook back: what was typed, found by defined names, and what follows by reference."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from builder.audit.book import Book
from builder.audit.cases import (
    TYPED,
    Case,
    Column,
    find_columns,
    find_machine,
    keep_columns,
    list_cells,
)
from builder.audit.findings import Finding
from builder.audit.inputs import Reader
from builder.audit.reading import Reading
from builder.audit.rows import list_unused, read_entries
from builder.calculation import Value, calculate_season
from builder.spec.records import Check, Choice, Grid, Input, Result
from builder.spec.specification import Spec

TITLE, PRODUCER, SITE = "machine_title", "producer", "site"


@dataclass(frozen=True, slots=True)
class Places:
    """Where a workbook holds what people type and what follows; `spec` has grids as long."""

    spec: Spec
    names: dict[str, str]
    case: Case
    columns: list[Column]


def find_places(spec: Spec, names: dict[str, str]) -> Places:
    """Return the places that defined names lead to."""
    names = keep_columns(names)
    columns = find_columns(spec, names)
    rows: dict[str, int] = {}
    for column in columns:
        rows[column.grid.name] = max(len(column.cells), rows.get(column.grid.name, 0))
    quantities = {
        name: replace(quantity, rows=rows.get(name, quantity.rows))
        if isinstance(quantity, Grid)
        else quantity
        for name, quantity in spec.quantities.items()
    }
    spec = replace(spec, quantities=quantities)
    return Places(spec, names, find_machine(spec, names), columns)


def read_back(book: Book, places: Places) -> tuple[Reading, list[Finding]]:
    """Return what was typed in a workbook, with the warnings about it.

    A formula is no typed value whatever it shows: its cell counts as blank. An input that the
    workbook of another edition does not have is what is usual.
    """
    typed = {place: cell.constant for place, cell in book.cells.items()}
    reader = Reader(places.spec, book.properties["language"], typed)
    given, warnings = reader.read(places.case)
    entries, doubts = read_entries(reader, places.columns)
    given = {**dict(list_usual(places.spec)), **given}
    found = calculate_season(places.spec, given, entries)
    doubts += list_unused(reader, places.columns, found.columns)
    reading = Reading(
        title=read_text(reader, places.names, TITLE),
        producer=read_text(reader, places.names, PRODUCER),
        site=read_text(reader, places.names, SITE),
        given=given,
        entries=entries,
        values=dict(list_outcomes(places.spec, found.values)),
        columns=found.columns,
        language=book.properties["language"],
        units=book.properties["units"],
        version=book.properties["version"],
    )
    return reading, [word for word in [*warnings, *doubts] if not has_formula(book, word.cell)]


def translate_choices(book: Book, places: Places) -> Book:
    """Return a workbook with codes for the words that its own lists offer in typed cells.

    The words of a choice may be others in another edition; its codes stand beside them.
    """
    cells = dict(book.cells)
    typed = [(entry.quantity.name, [entry.cell]) for entry in places.case.entries]
    typed += [(column.name, column.cells) for column in places.columns if column.record.entry]
    for name, found in typed:
        codes = read_codes(book, places, name)
        for place in found if codes else ():
            cell = cells.get(place)
            if cell and isinstance(cell.constant, str) and cell.constant.casefold() in codes:
                cells[place] = replace(cell, constant=codes[cell.constant.casefold()])
    return replace(book, cells=cells)


def read_codes(book: Book, places: Places, name: str) -> dict[str, str]:
    """Return the codes of the words among which a workbook lets people choose."""
    lists = [places.names.get(f"{name}_{part}", "") for part in ("words", "codes")]
    words, codes = (
        [book.cells[cell].constant for cell in list_cells(area) if cell in book.cells]
        if area
        else []
        for area in lists
    )
    return {str(w).casefold(): str(c) for w, c in zip(words, codes, strict=False)}


def list_usual(spec: Spec) -> Iterator[tuple[str, Value]]:
    """Yield each input and choice with what is usual, if anything is."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Input | Choice):
            yield name, quantity.usual


def list_outcomes(spec: Spec, values: dict[str, Value]) -> Iterator[tuple[str, Value]]:
    """Yield each result and check with its value."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Result | Check):
            yield name, values[name]


def read_text(reader: Reader, names: dict[str, str], name: str) -> str:
    """Return a free text as typed, "" if blank; a number or a truth as text."""
    typed = reader.shown.get(names.get(name + TYPED, ""))
    return f"{typed:g}" if isinstance(typed, float) else str(typed or "")


def has_formula(book: Book, place: str) -> bool:
    """Tell whether a cell holds a formula, which is told as a fault of its own."""
    cell = book.cells.get(place)
    return cell is not None and bool(cell.formula)
