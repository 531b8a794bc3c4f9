"""Programs that calculate a workbook, behind one small interface.

Each starts from the file as it was built, types some cells, and returns what all formulas show.
"""

import contextlib
import io
import re
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Protocol

import formulas
import ironcalc
from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import coordinate_to_tuple

from builder.audit.book import read_design
from builder.audit.forms import FormEngine, take
from builder.audit.outside import keep_inside
from builder.replay.office import OfficeProgram
from workbook.files import Cell, File, Value, change_part, plain
from workbook.tools import OFFICE, require

DEFINED = re.compile(r'<definedName name="\w+"[^>]*>[^<]*</definedName>')
FORMULA = re.compile(r"(<f(?: [^>]*[^/>])?>)([^<]*)")  # a shared one has attributes
TOKEN = re.compile(r"\"[^\"]*\"|\b[A-Za-z]\w*\b(?!\()")  # a text, which stays, or a word


class Engine(Protocol):
    """Calculates one workbook any number of times."""

    def solve(self, typed: Mapping[Cell, Value]) -> dict[Cell, Value]:
        """Return the value of each formula cell after typing; nothing stays for the next call."""


class Ironcalc:
    """The engine that also works out the stored values; fast."""

    def __init__(self, file: File) -> None:
        """Load the workbook with addresses for names: each name costs this engine time a cell."""
        self.file = file
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / file.path.name
            path.write_bytes(spell_out(file))
            self.model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
        pages = self.model.get_worksheets_properties()
        self.sheets = {page["name"]: number for number, page in enumerate(pages)}
        self.touched: set[Cell] = set()

    def solve(self, typed: Mapping[Cell, Value]) -> dict[Cell, Value]:
        """Type over what was typed before, and evaluate everything."""
        for cell in self.touched - set(typed):
            self.put(cell, self.file.constants.get(cell))
        for cell, value in typed.items():
            self.put(cell, value)
        self.touched = set(typed)
        self.model.evaluate()
        get, sheets = self.model.get_cell_value, self.sheets
        return {cell: plain(get(sheets[cell[0]], *cell[1:])) for cell in self.file.formulas}

    def put(self, cell: Cell, value: Value) -> None:
        place = (self.sheets[cell[0]], *cell[1:])
        if value is None:
            self.model.clear_cell_contents(*place)
        elif isinstance(value, str):
            self.model.update_cell_with_text(*place, value)
        else:
            self.model.update_cell_with_number(*place, value)


def spell_out(file: File) -> bytes:
    """Return the file with addresses in place of names in its formulas, and without names."""
    data = change_part(file.data, "xl/workbook.xml", lambda xml: DEFINED.sub("", xml))
    areas = {name: write_area(cells) for name, cells in file.names.items()}

    def swap(found: re.Match[str]) -> str:
        return areas.get(found[0], found[0])

    def change(xml: str) -> str:
        return FORMULA.sub(lambda found: f"{found[1]}{TOKEN.sub(swap, found[2])}", xml)

    return change_part(data, "xl/worksheets/", change)


def write_area(cells: list[Cell]) -> str:
    """Return the absolute address of a cell or a column of cells."""
    (title, row, col), (_, last_row, last_col) = cells[0], cells[-1]
    first = f"${get_column_letter(col)}${row}"
    last = f"${get_column_letter(last_col)}${last_row}"
    return f"'{title}'!{first if first == last else f'{first}:{last}'}"


class FormulasByForm:
    """Another engine, in Python, as the deep audit runs it."""

    def __init__(self, file: File) -> None:
        self.file = file
        self.book = read_design(file.path, file.data)
        self.engine = FormEngine(keep_inside(self.book), self.book.sheets)

    def solve(self, typed: Mapping[Cell, Value]) -> dict[Cell, Value]:
        """Return the values of the formula cells after typing; a lost cell is left out."""
        held = {place: cell.constant for place, cell in self.book.cells.items()}
        held |= {write_place(cell): value for cell, value in typed.items()}
        return {read_place(place): plain(v) for place, v in self.engine.solve(held).items()}


def write_place(cell: Cell) -> str:
    """Return a cell as the audit calls it."""
    title, row, col = cell
    return f"{title}!{get_column_letter(col)}{row}"


def read_place(place: str) -> Cell:
    """Return a cell of the audit."""
    title, _, address = place.rpartition("!")
    return title, *coordinate_to_tuple(address)


class WholeFormulas:
    """The same engine given the whole file; it takes milliseconds for each formula."""

    def __init__(self, file: File) -> None:
        self.file = file
        with contextlib.redirect_stderr(io.StringIO()):
            self.model = formulas.ExcelModel().loads(str(file.path)).finish()

    def solve(self) -> dict[Cell, Value]:
        """Return the values of the formula cells as built; a lost cell is left out."""
        solution = self.model.calculate()
        name = self.file.path.name
        found = {
            cell: solution.get(f"'[{name}]{cell[0].upper()}'!{get_column_letter(cell[2])}{cell[1]}")
            for cell in self.file.formulas
        }
        return {
            cell: plain(take(node.value[0, 0])) for cell, node in found.items() if node is not None
        }


class Office(OfficeProgram):
    """The office program as its user meets it: it stays open, and cells are typed one by one."""

    def __init__(self, locale: str = "en-US") -> None:
        require(*OFFICE)
        super().__init__(locale)

    def put(self, typed: Mapping[Cell, Value]) -> None:
        self.ask("put", [[*cell, value] for cell, value in typed.items()])

    def strike(self, cell: Cell, keys: str) -> None:
        self.ask("strike", [[*cell, keys]])

    def read(self, file: File) -> dict[Cell, Value]:
        found = self.ask("read")
        if not isinstance(found, dict):
            raise TypeError(found)
        return dict(self.pick(found, file))

    def pick(
        self, sheets: dict[str, list[list[object]]], file: File
    ) -> Iterator[tuple[Cell, Value]]:
        for cell in file.formulas:
            title, row, col = cell
            yield cell, plain(sheets[title][row - 1][col - 1])


class OfficeBook:
    def __init__(self, office: Office, file: File) -> None:
        self.office, self.file = office, file

    def solve(self, typed: Mapping[Cell, Value]) -> dict[Cell, Value]:
        """Open the workbook afresh, type, and read."""
        self.office.open(self.file.path)
        self.office.put(typed)
        return self.office.read(self.file)
