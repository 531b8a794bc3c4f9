"""Produces a workbook: plan, work out every cell with an engine, write with the values."""

import re
from dataclasses import replace

import ironcalc

from builder.calculation import Known, Value
from builder.exchange.machine import Machine, Typed
from builder.formula.grids import LIST
from builder.plan.cells import Area, Book, Cell
from builder.plan.layout import plan_book
from builder.plan.selftest import LIST_ROWS
from builder.spec.records import Grid
from builder.spec.specification import Spec
from builder.write.workbook import write_book

Spot = tuple[str, int, int]
Solved = dict[Spot, float | str]
TOKEN = re.compile(r"\"[^\"]*\"|\b[A-Za-z]\w*\b(?!\()")  # a text, which stays, or a word
LOCALE, ZONE, LANGUAGE = "en", "UTC", "en"


def build_workbook(spec: Spec, machine: Machine, lang: str, units: str) -> bytes:
    """Return the .xlsx file of one machine, right without being recalculated."""
    return Edition(spec, lang, units).build(machine)


def build_design(spec: Spec, lang: str, units: str) -> bytes:
    """Return the .xlsx file that an audit compares with: nothing typed, no values of formulas."""
    return write_book(plan_book(spec, Machine(), lang, units, work_case(spec, lang)), {})


class Edition:
    """One language and one system of units: what all its workbooks share is worked out once."""

    def __init__(self, spec: Spec, lang: str, units: str) -> None:
        """Work out the worked case; the engine is filled by the first workbook."""
        self.spec, self.lang, self.units = spec, lang, units
        self.worked = work_case(spec, lang)
        self.engine = Engine()

    def build(self, machine: Machine) -> bytes:
        """Return the .xlsx file of one machine, the same whatever was built before."""
        book = plan_book(self.spec, machine, self.lang, self.units, self.worked)
        return write_book(book, self.engine.solve(book))


class Engine:
    """The calculation engine; it keeps the last book and takes in what the next has otherwise."""

    def __init__(self) -> None:
        """Begin with no book."""
        self.model = ironcalc.create("book", LOCALE, ZONE, LANGUAGE)
        self.frame: tuple[list[str], dict[str, Area]] = ([], {})
        self.numbers: dict[str, int] = {}
        self.held: dict[Spot, Cell] = {}

    def solve(self, book: Book) -> Solved:
        """Return the value of every formula by sheet title, row and column, both from 0."""
        titles = [sheet.title for sheet in book.sheets]
        if (titles, book.names) != self.frame:
            self.begin(titles, book.names)
        cells = {(s.title, cell.row, cell.col): cell for s in book.sheets for cell in s.cells}
        for spot in self.held.keys() - cells.keys():
            self.model.clear_cell_contents(*locate(spot, self.numbers))
        for spot, cell in cells.items():
            if spot not in self.held or content(cell) != content(self.held[spot]):
                self.put(locate(spot, self.numbers), cell)
        self.held = cells
        self.model.evaluate()
        return {spot: self.read(spot) for spot, cell in cells.items() if cell.formula is not None}

    def read(self, spot: Spot) -> float | str:
        """Return what a cell shows, "" for nothing."""
        value = self.model.get_cell_value(*locate(spot, self.numbers))
        return "" if value is None else value

    def type(self, spot: Spot, value: Value) -> None:
        """Type a number, a text or nothing into a cell; whoever types evaluates the model."""
        if isinstance(value, str):
            self.model.update_cell_with_text(*locate(spot, self.numbers), value)
        elif value is None:
            self.model.clear_cell_contents(*locate(spot, self.numbers))
        else:
            self.model.update_cell_with_number(*locate(spot, self.numbers), float(value))

    def begin(self, titles: list[str], names: dict[str, Area]) -> None:
        """Make an empty model with the sheets of a book."""
        self.model = ironcalc.create("book", LOCALE, ZONE, LANGUAGE)
        self.model.rename_sheet(0, titles[0])
        for title in titles[1:]:
            self.model.add_sheet(title)
        self.frame, self.held = (titles, dict(names)), {}
        self.numbers = {title: number for number, title in enumerate(titles)}

    def put(self, place: tuple[int, int, int], cell: Cell) -> None:
        """Put one cell into the model, a number with the digits that a file holds."""
        if cell.formula is not None:
            self.model.update_cell_with_formula(*place, self.spell_out(cell.formula))
        elif cell.number is not None:
            self.model.update_cell_with_number(*place, float(f"{cell.number:.16G}"))
        elif cell.text:
            self.model.update_cell_with_text(*place, cell.text)
        else:
            self.model.clear_cell_contents(*place)

    def spell_out(self, formula: str) -> str:
        """Return a formula with addresses for names: each name costs the engine time a cell."""
        names = self.frame[1]

        def swap(found: re.Match[str]) -> str:
            area = names.get(found[0])
            return area.address if area else found[0]

        return TOKEN.sub(swap, formula)


def content(cell: Cell) -> tuple[str | None, float | None, str | None]:
    """Return what of a cell takes part in the calculation."""
    return cell.text, cell.number, cell.formula


def locate(spot: Spot, numbers: dict[str, int]) -> tuple[int, int, int]:
    """Return number of sheet, row and column as the engine counts them."""
    return numbers[spot[0]], spot[1] + 1, spot[2] + 1


def work_case(spec: Spec, lang: str) -> Known:
    """Return the numbers of the worked case: by name, and columns of grids as lists."""
    book = plan_book(shorten(spec), find_case(spec), lang, "metric", {})
    values = read_values(book)
    worked: Known = {}
    for name, area in book.names.items():
        rows = range(area.row, area.last_row + 1)
        column = [values.get((area.sheet, row, area.col)) for row in rows]
        worked[name] = column if name.endswith(LIST) else column[0]
    return worked


def read_values(book: Book) -> dict[Spot, Value]:
    """Return what stands in every cell, worked out or written."""
    values: dict[Spot, Value] = {**Engine().solve(book)}
    for sheet in book.sheets:
        for cell in sheet.cells:
            if cell.formula is None:
                shown = cell.text if cell.text is not None else cell.number
                values[sheet.title, cell.row, cell.col] = shown
    return values


def shorten(spec: Spec, longest: int = LIST_ROWS, kept: int = LIST_ROWS) -> Spec:
    """Return the specs with grids of more rows than `longest` cut: their rows are alike."""
    cut = {
        name: replace(quantity, rows=kept)
        for name, quantity in spec.quantities.items()
        if isinstance(quantity, Grid) and quantity.rows > longest
    }
    return replace(spec, quantities={**spec.quantities, **cut})


def find_case(spec: Spec) -> Machine:
    """Return the worked case of the specs as a machine with its log."""
    given: dict[str, Typed] = {}
    for name, value in spec.worked.given.items():
        number = float(value) if isinstance(value, int | float) else None
        given[name] = Typed(number, str(value), spec.quantities[name].unit)
    return Machine(given=given, entries=spec.worked.entries)
