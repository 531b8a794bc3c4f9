"""Recalculates a workbook with two independent engines, from a copy that nobody keeps."""

import contextlib
import io
import re
import warnings
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

import ironcalc
import schedula
from openpyxl.utils.cell import coordinate_to_tuple

from builder.audit.book import Book
from builder.audit.normalization import CellValue, normalize_value

Engine = Callable[[Path, Book], dict[str, CellValue]]

COPY = "book.xlsx"
LOCALE = "en"
ZONE = "UTC"
NAMES = "xl/workbook.xml"
NAME = re.compile(rb'<definedName name="(\w+)">[^<]*</definedName>')
WORD = re.compile(r"\w+")


class EngineError(Exception):
    """An engine could not read or calculate the workbook."""


def recalculate(data: bytes, book: Book, engine: Engine) -> dict[str, CellValue]:
    """Return the value of each formula cell that an engine works out."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / COPY
        path.write_bytes(data)
        try:
            return engine(path, book)
        except (KeyboardInterrupt, SystemExit):
            raise
        # A panic of the engine's own language is no Exception, and the engines have no common one.
        except BaseException as error:
            raise EngineError(f"{type(error).__name__}: {error}") from error


def drop_idle_names(parts: dict[str, bytes], book: Book) -> dict[str, bytes]:
    """Return the parts of a workbook without the names that no formula mentions.

    Nothing follows from such names, and an engine takes half of its time to look past them.
    """
    texts = [*(cell.formula for _, cell in book.formulas()), *book.names.values()]
    used = {word.casefold() for text in texts for word in WORD.findall(text)}

    def keep(name: re.Match[bytes]) -> bytes:
        return name[0] if name[1].decode().casefold() in used else b""

    return {**parts, NAMES: NAME.sub(keep, parts[NAMES])}


def run_ironcalc(path: Path, book: Book) -> dict[str, CellValue]:
    """Return all formula cells as ironcalc calculates them."""
    model = ironcalc.load_from_xlsx(str(path), LOCALE, ZONE)
    model.evaluate()
    sheets = {page["name"]: number for number, page in enumerate(model.get_worksheets_properties())}
    found: dict[str, CellValue] = {}
    for place, _ in book.formulas():
        sheet, _, cell = place.rpartition("!")
        row, column = coordinate_to_tuple(cell)
        found[place] = normalize_value(model.get_cell_value(sheets[sheet], row, column))
    return found


def run_formulas(path: Path, book: Book) -> dict[str, CellValue]:
    """Return all formula cells as the package formulas calculates them; lost ones are left out."""
    with warnings.catch_warnings(), contextlib.redirect_stderr(io.StringIO()):
        warnings.simplefilter("ignore")
        import formulas  # noqa: PLC0415 - takes seconds, and only a deep audit needs it

        solution = formulas.ExcelModel().loads(str(path)).finish().calculate()
    found = {}
    for place, _ in book.formulas():
        sheet, _, cell = place.rpartition("!")
        node = solution.get(f"'[{path.name}]{sheet.upper()}'!{cell}")
        if node is not None:
            found[place] = read_formulas(node.value[0, 0])
    return found


def read_formulas(value: object) -> CellValue:
    """Return a value of formulas without its array types."""
    if value is schedula.EMPTY:
        return None
    item = getattr(value, "item", None)
    plain = item() if callable(item) else value
    return normalize_value(plain if isinstance(plain, bool | int | float) else str(plain))
