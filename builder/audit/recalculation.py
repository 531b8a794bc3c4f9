"""Recalculates the cells of a workbook with two independent engines."""

import contextlib
import io
import warnings
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import ironcalc
import schedula
import xlsxwriter
from openpyxl.utils.cell import coordinate_to_tuple

from builder.audit.book import Book, Cell
from builder.audit.hazards import keep_safe
from builder.audit.normalization import CellValue, normalize_value
from builder.audit.outside import keep_inside

Engine = Callable[[Book], dict[str, CellValue]]
Spot = tuple[int, int, int]

COPY = "book.xlsx"
TITLE, LOCALE, ZONE, LANGUAGE = "book", "en", "UTC", "en"


class EngineError(Exception):
    """An engine could not read or calculate the workbook."""


def recalculate(book: Book, engine: Engine) -> dict[str, CellValue]:
    """Return the value of each formula cell that an engine works out."""
    try:
        return engine(book)
    except (KeyboardInterrupt, SystemExit):
        raise
    # A panic of the engine's own language is no Exception, and the engines have no common one.
    except BaseException as error:
        raise EngineError(f"{type(error).__name__}: {error}") from error


def run_ironcalc(book: Book) -> dict[str, CellValue]:
    """Return all formula cells as ironcalc calculates them."""
    model = ironcalc.create(TITLE, LOCALE, ZONE, LANGUAGE)
    model.rename_sheet(0, book.sheets[0])
    for title in book.sheets[1:]:
        model.add_sheet(title)
    numbers = {title: number for number, title in enumerate(book.sheets)}
    safe = keep_safe(keep_inside(book))
    spots = {place: locate(place, numbers) for place in book.cells}
    for place, cell in book.cells.items():
        if place in safe or not cell.formula:
            put(model, spots[place], cell, safe.get(place, ""))
    model.evaluate()
    read = model.get_cell_value
    return {place: normalize_value(read(*spots[place])) for place in safe}


def put(model: Any, spot: Spot, cell: Cell, formula: str) -> None:
    """Put one cell into a model of ironcalc."""
    match cell.constant:
        case _ if formula:
            model.update_cell_with_formula(*spot, formula)
        case bool():
            model.update_cell_with_bool(*spot, cell.constant)
        case float():
            model.update_cell_with_number(*spot, cell.constant)
        case str():
            model.update_cell_with_text(*spot, cell.constant)


def locate(place: str, numbers: dict[str, int]) -> Spot:
    """Return number of sheet, row and column as the engine counts them."""
    sheet, _, cell = place.rpartition("!")
    return numbers[sheet], *coordinate_to_tuple(cell)


def run_formulas(book: Book) -> dict[str, CellValue]:
    """Return all formula cells as the package formulas calculates them; lost ones are left out."""
    safe = keep_safe(keep_inside(book))
    with TemporaryDirectory() as folder:
        path = Path(folder) / COPY
        write_bare(path, book, safe)
        solution = solve_formulas(path)
    found = {}
    for place in safe:
        sheet, _, cell = place.rpartition("!")
        node = solution.get(f"'[{COPY}]{sheet.upper()}'!{cell}")
        if node is not None:
            found[place] = read_formulas(node.value[0, 0])
    return found


def write_bare(path: Path, book: Book, formulas: dict[str, str]) -> None:
    """Write a workbook of cells alone: whatever else a file holds, this engine would follow it."""
    with xlsxwriter.Workbook(path) as workbook:
        sheets = {title: workbook.add_worksheet(title) for title in book.sheets}
        for place, cell in book.cells.items():
            title, _, spot = place.rpartition("!")
            if place in formulas:
                sheets[title].write_formula(spot, formulas[place])
            elif isinstance(cell.constant, bool):
                sheets[title].write_boolean(spot, cell.constant)
            elif isinstance(cell.constant, float):
                sheets[title].write_number(spot, cell.constant)
            elif isinstance(cell.constant, str):
                sheets[title].write_string(spot, cell.constant)


def solve_formulas(path: Path) -> Any:
    """Return the solution of the package formulas, without its bar of progress."""
    with warnings.catch_warnings(), contextlib.redirect_stderr(io.StringIO()):
        warnings.simplefilter("ignore")
        import formulas  # noqa: PLC0415 - takes seconds, and only a deep audit needs it

        return formulas.ExcelModel().loads(str(path)).finish().calculate()


def read_formulas(value: object) -> CellValue:
    """Return a value of formulas without its array types."""
    if value is schedula.EMPTY:
        return None
    item = getattr(value, "item", None)
    plain = item() if callable(item) else value
    return normalize_value(plain if isinstance(plain, bool | int | float) else str(plain))
