"""A workbook file as a stranger reads it: cells, names and texts, without any of the builder."""

import html
import io
import re
import zipfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import openpyxl
from openpyxl.utils.cell import range_boundaries
from openpyxl.utils.datetime import to_excel
from openpyxl.workbook import Workbook

Value = float | str | None
Cell = tuple[str, int, int]  # title of the sheet, row and column, both from 1

ERROR = re.compile(r"#(NULL!|DIV/0!|VALUE!|REF!|NAME\?|NUM!|N/A|ERROR!|CIRC!|SPILL!|CALC!)|Err:")
TEXTS = (
    re.compile(r"<t(?: [^>]*)?>([^<]*)</t>"),
    re.compile(r"<a:t>([^<]*)</a:t>"),
    re.compile(r"<oddFooter>([^<]*)</oddFooter>"),
    re.compile(r' t="str"><f[^>]*>(?:[^<]*</f>)?<v>([^<]*)</v>'),
    re.compile(r' (?:prompt|promptTitle|error|errorTitle|descr)="([^"]*)"'),
)


@dataclass(frozen=True, slots=True)
class File:
    """One workbook; `stored` are the values of formulas that it was saved with."""

    path: Path
    data: bytes
    titles: list[str]
    formulas: dict[Cell, str]
    stored: dict[Cell, Value]
    constants: dict[Cell, Value]
    unlocked: set[Cell]
    names: dict[str, list[Cell]]
    printed: dict[str, tuple[int, int, int, int]]  # columns and rows of each sheet that print

    def cell(self, name: str) -> Cell:
        (cell,) = self.names[name]
        return cell


def read_file(path: Path) -> File:
    data = path.read_bytes()
    book = openpyxl.load_workbook(io.BytesIO(data))
    values = openpyxl.load_workbook(io.BytesIO(data), data_only=True)
    formulas: dict[Cell, str] = {}
    stored: dict[Cell, Value] = {}
    constants: dict[Cell, Value] = {}
    unlocked: set[Cell] = set()
    for sheet in book.worksheets:
        for row in sheet.iter_rows():
            for item in row:
                cell = (sheet.title, item.row, item.column)
                if item.data_type == "f":
                    formulas[cell] = str(item.value)
                    stored[cell] = plain(values[sheet.title][item.coordinate].value)
                elif item.value is not None:
                    constants[cell] = plain(item.value)
                if not item.protection.locked:
                    unlocked.add(cell)
    names, printed = dict(read_names(book)), dict(read_print(book))
    return File(path, data, book.sheetnames, formulas, stored, constants, unlocked, names, printed)


def plain(value: object) -> Value:
    """Return a number, a text, or None for a blank or an empty text, whatever a library gives."""
    if value is None or value == "":
        return None
    if isinstance(value, str):
        return value
    if isinstance(value, int | float):
        return float(value)
    return float(to_excel(value))


def read_names(book: Workbook) -> Iterator[tuple[str, list[Cell]]]:
    """Yield each defined name of the whole workbook with its cells."""
    for name, defined in book.defined_names.items():
        ((title, area),) = defined.destinations
        found = book[title][area.replace("$", "")]
        rows = found if isinstance(found, tuple) else ((found,),)
        yield name, [(title, item.row, item.column) for row in rows for item in row]


def read_print(book: Workbook) -> Iterator[tuple[str, tuple[int, int, int, int]]]:
    """Yield the first and last column and row of each sheet's print area."""
    for sheet in book.worksheets:
        area = sheet.print_area.rpartition("!")[2].replace("$", "")
        yield sheet.title, range_boundaries(area)


def read_texts(data: bytes) -> set[str]:
    """Return every text that the file can show: cells, prompts, charts, footers."""
    found: set[str] = set()
    with zipfile.ZipFile(io.BytesIO(data)) as parts:
        for part in parts.namelist():
            if part.startswith("xl/") and part.endswith(".xml"):
                xml = parts.read(part).decode()
                for pattern in TEXTS:
                    found |= {html.unescape(text).strip() for text in pattern.findall(xml)}
    return found - {""}


def change_part(data: bytes, name: str, change: Callable[[str], str]) -> bytes:
    """Return the bytes of a workbook after a change to the parts whose names begin so."""
    buffer = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(buffer, "w") as new:
        for part in old.namelist():
            content = old.read(part)
            new.writestr(part, change(content.decode()) if part.startswith(name) else content)
    return buffer.getvalue()


def find_errors(values: dict[Cell, Value]) -> list[str]:
    return [
        f"{show(cell)}: {value}"
        for cell, value in values.items()
        if isinstance(value, str) and ERROR.match(value)
    ]


def show(cell: Cell) -> str:
    """Return a cell's address as people write it."""
    title, row, col = cell
    return f"{title}!{openpyxl.utils.get_column_letter(col)}{row}"
