"""A workbook read cold: its cells, names, sheets and properties, and nothing calculated."""

import io
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from openpyxl import Workbook, load_workbook
from openpyxl.cell.cell import Cell as SourceCell
from openpyxl.cell.cell import MergedCell
from openpyxl.utils.datetime import CALENDAR_MAC_1904
from openpyxl.worksheet.formula import ArrayFormula

from builder.audit.container import refuse
from builder.audit.looks import Look, Looks
from builder.audit.normalization import CellValue, normalize_target, normalize_value
from builder.audit.pages import Page, read_page
from builder.audit.stored import read_stored

FORMULA = "f"
OWN_NAMES_OF_PROGRAMS = "_xlnm."
MANUAL = "manual"


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell that holds something or that people may type in."""

    formula: str
    constant: CellValue
    stored: CellValue
    locked: bool
    look: Look = field(default_factory=Look)


@dataclass(frozen=True, slots=True)
class Book:
    """One workbook; cells are found by `Sheet!B5`."""

    sheets: list[str]
    pages: list[Page]
    cells: dict[str, Cell]
    names: dict[str, str]
    local_names: dict[str, str]
    properties: dict[str, str]
    manual: bool
    circular: bool
    rounded: bool
    early: bool

    def formulas(self) -> Iterator[tuple[str, Cell]]:
        """Yield every formula cell."""
        return ((place, cell) for place, cell in self.cells.items() if cell.formula)


def read_book(path: Path, data: bytes) -> Book:
    """Return a workbook from its bytes; `path` is for messages only."""
    formulas = load(path, data)
    with refusing(path):
        return assemble(formulas, read_stored(data))


def read_design(path: Path, data: bytes) -> Book:
    """Return a workbook without the values that its formulas show."""
    return assemble(load(path, data), {})


def load(path: Path, data: bytes) -> Workbook:
    """Return a workbook as the reading package sees it, or raise UserError."""
    with warnings.catch_warnings(), refusing(path):
        warnings.simplefilter("ignore")
        return load_workbook(io.BytesIO(data), keep_links=False)


@contextmanager
def refusing(path: Path) -> Iterator[None]:
    """Raise UserError for whatever goes wrong inside: packages fail at bad files in many ways."""
    try:
        yield
    except Exception as error:
        raise refuse(path, f"is damaged ({type(error).__name__})") from error


def assemble(formulas: Workbook, stored: dict[str, CellValue]) -> Book:
    """Return a workbook from its cells and from the values that its formulas show."""
    calculation = formulas.calculation
    return Book(
        sheets=formulas.sheetnames,
        pages=[read_page(sheet) for sheet in formulas.worksheets],
        cells=dict(read_cells(formulas, stored)),
        names={
            name: normalize_target(defined.attr_text or "")
            for name, defined in formulas.defined_names.items()
            if not name.startswith(OWN_NAMES_OF_PROGRAMS)
        },
        local_names=dict(read_local_names(formulas)),
        properties=dict(read_properties(formulas)),
        manual=calculation.calcMode == MANUAL,
        circular=bool(calculation.iterate),
        rounded=calculation.fullPrecision is False,
        early=formulas.epoch == CALENDAR_MAC_1904,
    )


def read_properties(formulas: Workbook) -> Iterator[tuple[str, str]]:
    """Yield the document properties that a program of ours, or a person, has added."""
    for item in formulas.custom_doc_props.props:  # type: ignore[attr-defined]
        yield item.name, str(item.value)


def read_cells(formulas: Workbook, stored: dict[str, CellValue]) -> Iterator[tuple[str, Cell]]:
    """Yield place and cell for each cell that is not blank or that is not locked."""
    looks = Looks()
    for sheet in formulas.worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                place = f"{sheet.title}!{cell.coordinate}"
                found = read_cell(cell, stored.get(place), looks)
                if found.formula or found.constant is not None or not found.locked:
                    yield place, found


def read_cell(cell: SourceCell | MergedCell, stored: CellValue, looks: Looks) -> Cell:
    """Return one cell."""
    locked, look = looks.read(cell)
    if cell.data_type != FORMULA:
        constant = normalize_value(cell.value)
        return Cell("", constant, constant, locked, look)
    value = cell.value
    formula = f"{{{value.text}}}" if isinstance(value, ArrayFormula) else str(value)
    return Cell(formula, None, stored, locked, look)


def read_local_names(formulas: Workbook) -> Iterator[tuple[str, str]]:
    """Yield the names that only one sheet knows, as `Sheet!name`, with what they point to."""
    for sheet in formulas.worksheets:
        for name, defined in sheet.defined_names.items():
            if not name.startswith(OWN_NAMES_OF_PROGRAMS):
                yield f"{sheet.title}!{name}", normalize_target(defined.attr_text or "")
