"""Recalculates a workbook with two independent engines, from a copy that nobody keeps."""

import contextlib
import io
import re
import warnings
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import ironcalc
import schedula
from openpyxl.utils.cell import coordinate_to_tuple

from builder.audit.book import Book, Cell
from builder.audit.hazards import keep_safe
from builder.audit.normalization import CellValue, normalize_value

Engine = Callable[[bytes, Book], dict[str, CellValue]]
Spot = tuple[int, int, int]

COPY = "book.xlsx"
TITLE, LOCALE, ZONE, LANGUAGE = "book", "en", "UTC", "en"
# A text or a sheet in quotes, which stay as they are, or a word that is no function and no sheet.
TOKEN = re.compile(r"\"[^\"]*\"|'[^']*'|\b[^\W\d][\w.]*\b(?![(!])")
CELL = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
ABSOLUTE = r"$\1$\2"


class EngineError(Exception):
    """An engine could not read or calculate the workbook."""


def recalculate(data: bytes, book: Book, engine: Engine) -> dict[str, CellValue]:
    """Return the value of each formula cell that an engine works out."""
    try:
        return engine(data, book)
    except (KeyboardInterrupt, SystemExit):
        raise
    # A panic of the engine's own language is no Exception, and the engines have no common one.
    except BaseException as error:
        raise EngineError(f"{type(error).__name__}: {error}") from error


def run_ironcalc(_data: bytes, book: Book) -> dict[str, CellValue]:
    """Return all formula cells as ironcalc calculates them."""
    model = ironcalc.create(TITLE, LOCALE, ZONE, LANGUAGE)
    model.rename_sheet(0, book.sheets[0])
    for title in book.sheets[1:]:
        model.add_sheet(title)
    numbers = {title: number for number, title in enumerate(book.sheets)}
    safe = keep_safe(spell_out(book))
    spots = {place: locate(place, numbers) for place in book.cells}
    for place, cell in book.cells.items():
        if place in safe or not cell.formula:
            put(model, spots[place], cell, safe.get(place, ""))
    model.evaluate()
    read = model.get_cell_value
    return {place: normalize_value(read(*spots[place])) for place in safe}


def spell_out(book: Book) -> dict[str, str]:
    """Return each formula with addresses for names, by place."""
    names = Names(book)
    return {place: names.spell_out(place, cell.formula) for place, cell in book.formulas()}


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


class Names:
    """The defined names of a workbook as addresses: each name costs the engine time a cell."""

    def __init__(self, book: Book) -> None:
        """Spell out each target once."""
        self.everywhere = {name.casefold(): address(to) for name, to in book.names.items()}
        self.own: dict[str, dict[str, str]] = {}
        for local, target in book.local_names.items():
            sheet, _, name = local.rpartition("!")
            self.own.setdefault(sheet, {})[name.casefold()] = address(target)

    def spell_out(self, place: str, formula: str) -> str:
        """Return a formula without names; one of the cell's own sheet goes before the others."""
        own = self.own.get(place.rpartition("!")[0], {})

        def swap(found: re.Match[str]) -> str:
            word = found[0].casefold()
            return own.get(word) or self.everywhere.get(word, found[0])

        return TOKEN.sub(swap, formula.strip("{}"))


def address(target: str) -> str:
    """Return what a name points to as a part of a formula."""
    sheet, mark, cell = target.rpartition("!")
    if not mark:
        return f"({target})"
    quoted = sheet.replace("'", "''")
    return f"'{quoted}'!{CELL.sub(ABSOLUTE, cell)}"


def run_formulas(data: bytes, book: Book) -> dict[str, CellValue]:
    """Return all formula cells as the package formulas calculates them; lost ones are left out."""
    spelled = spell_out(book)
    if unsafe := spelled.keys() - keep_safe(spelled).keys():
        raise EngineError(f"{min(unsafe)}, whose work may have no end")
    with TemporaryDirectory() as folder:
        path = Path(folder) / COPY
        path.write_bytes(data)
        solution = solve_formulas(path)
    found = {}
    for place, _ in book.formulas():
        sheet, _, cell = place.rpartition("!")
        node = solution.get(f"'[{COPY}]{sheet.upper()}'!{cell}")
        if node is not None:
            found[place] = read_formulas(node.value[0, 0])
    return found


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
