"""Produces a workbook: plan, write, let a calculation engine work out every cell, write again."""

import re
import tempfile
from dataclasses import replace
from pathlib import Path

import ironcalc

from builder.calculation import Known, Value
from builder.exchange.machine import Machine, Typed
from builder.formula.grids import ROW_NUMBER, split_grid_name
from builder.plan.cells import Area, Book
from builder.plan.layout import plan_book
from builder.plan.selftest import LIST_ROWS
from builder.spec.records import Grid
from builder.spec.specification import Spec
from builder.write.workbook import write_book

WORD = re.compile(r"\w+")


def build_workbook(spec: Spec, machine: Machine, lang: str, units: str) -> bytes:
    """Return the .xlsx file of one machine, right without being recalculated."""
    book = plan_book(spec, machine, lang, units, work_case(spec, lang))
    return write_book(book, evaluate_book(book))


def work_case(spec: Spec, lang: str) -> Known:
    """Return the numbers of the worked case: by name, and by `grid.column` of a first row."""
    book = plan_book(shorten(spec), find_case(spec), lang, "metric", {})
    values = read_values(book)
    worked: Known = {}
    for name, area in book.names.items():
        rows = range(area.row, area.last_row + 1)
        column = [values.get((area.sheet, row, area.col)) for row in rows]
        worked[name] = column if name.endswith("_list") else column[0]
        if part := split_grid_name(name, spec.quantities):
            worked[f"{part.grid.name}.{ROW_NUMBER}"] = 1.0
            if part.part == "_list":
                worked[f"{part.grid.name}.{part.column}"] = column[0]
    return worked


def read_values(book: Book) -> dict[tuple[str, int, int], Value]:
    """Return what stands in every cell, worked out or written."""
    values: dict[tuple[str, int, int], Value] = {**evaluate_book(book)}
    for sheet in book.sheets:
        for cell in sheet.cells:
            if cell.formula is None:
                shown = cell.text if cell.text is not None else cell.number
                values[sheet.title, cell.row, cell.col] = shown
    return values


def shorten(spec: Spec) -> Spec:
    """Return the spec with no grid longer than the lists of the self-test."""
    quantities = {
        name: replace(quantity, rows=min(quantity.rows, LIST_ROWS))
        if isinstance(quantity, Grid)
        else quantity
        for name, quantity in spec.quantities.items()
    }
    return replace(spec, quantities=quantities)


def find_case(spec: Spec) -> Machine:
    """Return the worked case of the specs as a machine with its log."""
    given: dict[str, Typed] = {}
    for name, value in spec.worked.given.items():
        number = float(value) if isinstance(value, int | float) else None
        given[name] = Typed(number, str(value), spec.quantities[name].unit)
    return Machine(given=given, entries=spec.worked.entries)


def evaluate_book(book: Book) -> dict[tuple[str, int, int], float | str]:
    """Return the value of every formula by sheet title, row and column, both from 0."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "first.xlsx"
        path.write_bytes(write_book(replace(book, names=find_used_names(book)), {}))
        model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
    model.evaluate()
    values: dict[tuple[str, int, int], float | str] = {}
    for number, sheet in enumerate(book.sheets):
        for cell in sheet.cells:
            if cell.formula is not None:
                value = model.get_cell_value(number, cell.row + 1, cell.col + 1)
                values[sheet.title, cell.row, cell.col] = "" if value is None else value
    return values


def find_used_names(book: Book) -> dict[str, Area]:
    """Return the names that formulas read; the engine takes time for each name and cell."""
    formulas = (cell.formula for sheet in book.sheets for cell in sheet.cells if cell.formula)
    words = {word for formula in formulas for word in WORD.findall(formula)}
    return {name: area for name, area in book.names.items() if name in words}
