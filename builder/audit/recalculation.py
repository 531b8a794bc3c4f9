"""Recalculates a workbook with two independent engines, which are given cells and no file."""

from collections.abc import Callable
from graphlib import CycleError
from typing import Any

import ironcalc
from openpyxl.utils.cell import coordinate_to_tuple

from builder.audit.book import Book, Cell
from builder.audit.hazards import keep_safe
from builder.audit.normalization import CellValue, normalize_value
from builder.audit.outside import keep_inside

Engine = Callable[[Book], dict[str, CellValue]]
Spot = tuple[int, int, int]

TITLE, LOCALE, ZONE, LANGUAGE = "book", "en", "UTC", "en"


class EngineError(Exception):
    """An engine could not read or calculate the workbook."""


def recalculate(book: Book, engine: Engine) -> dict[str, CellValue]:
    """Return the value of each formula cell that an engine works out."""
    try:
        return engine(book)
    except (KeyboardInterrupt, SystemExit, EngineError):
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
    """Return the formula cells as the package formulas calculates them, those that it can."""
    from builder.audit.forms import FormEngine  # noqa: PLC0415 - only a deep audit needs it

    try:
        engine = FormEngine(keep_safe(keep_inside(book)), book.sheets)
    except CycleError as error:
        circle = [node for node in error.args[1] if isinstance(node, str)]
        raise EngineError(f"a circle through {' and '.join(circle[1:3])}") from error
    return engine.solve({place: cell.constant for place, cell in book.cells.items()})
