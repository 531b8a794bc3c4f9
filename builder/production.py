"""Produces a workbook: plan, write, let a calculation engine work out every cell, write again."""

import tempfile
from pathlib import Path

import ironcalc

from builder.exchange.machine import Machine
from builder.plan.cells import Book
from builder.plan.layout import plan_book
from builder.spec.records import Spec
from builder.write.workbook import write_book


def build_workbook(spec: Spec, machine: Machine, lang: str, units: str) -> bytes:
    """Return the .xlsx file of one machine, right without being recalculated."""
    book = plan_book(spec, machine, lang, units)
    return write_book(book, evaluate_book(book))


def evaluate_book(book: Book) -> dict[tuple[str, int, int], float | str | bool]:
    """Return the value of every formula by sheet title, row and column, both from 0."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "first.xlsx"
        path.write_bytes(write_book(book, {}))
        model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
    model.evaluate()
    values: dict[tuple[str, int, int], float | str | bool] = {}
    for number, sheet in enumerate(book.sheets):
        for cell in sheet.cells:
            if cell.formula is not None:
                value = model.get_cell_value(number, cell.row + 1, cell.col + 1)
                values[sheet.title, cell.row, cell.col] = "" if value is None else value
    return values
