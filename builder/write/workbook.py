"""Copies a plan into an .xlsx file with xlsxwriter, stored values included."""

import datetime
import io
import zlib
from collections.abc import Iterator, Mapping
from itertools import groupby
from zipfile import ZipFile

import xlsxwriter
from xlsxwriter.worksheet import Worksheet

from builder.plan.cells import Book, Cell, Drawing, PlannedSheet, Validation, column_letters
from builder.write.charts import insert_picture
from builder.write.document import SpokenWorkbook
from builder.write.looks import LOOKS, SHADES, STATES, TABS, find_font, number_format

Stored = Mapping[tuple[str, int, int], float | str]
CREATED = datetime.datetime(2026, 1, 1, tzinfo=datetime.UTC).replace(tzinfo=None)
PAPERS = {"letter": 1, "a4": 9}
# Tightest level, no head, widest window; a small memory begins new tables often, which suits rows.
TIGHTEST = (9, zlib.DEFLATED, -15, 6)
DIGITS = 15  # of the stored values of formulas
LARGEST = 1e9  # any number passes a validation that only keeps texts out
LONGEST = 255  # letters of a text that is typed
NO_GRID, NO_PRINTED_GRID = 2, 1
PROTECTION = {"select_locked_cells": True, "format_columns": True, "format_rows": True}


class WriteError(RuntimeError):
    """A call that the file library refused; a defect of this program."""


def write_book(book: Book, stored: Stored) -> bytes:
    """Return the file; `stored` holds the value of each formula by sheet title, row, column."""
    buffer = io.BytesIO()
    workbook = SpokenWorkbook(buffer, book.locale)
    workbook.set_properties({"title": book.title, "author": "rinsebook", "created": CREATED})
    for name, value in book.properties.items():
        workbook.set_custom_property(name, value, "text")
    writer = Writer(workbook, book, stored)
    for sheet in book.sheets:
        writer.write_sheet(sheet)
    for name in sorted(book.borne):
        insist(workbook.define_name(name, f"={book.names[name].address}"), name)
    workbook.close()
    return pack(buffer)


def pack(file: io.BytesIO) -> bytes:
    """Return the file with its parts packed as tightly as can be: a twelfth smaller."""
    packed = io.BytesIO()
    with ZipFile(file) as loose, ZipFile(packed, "w") as tight:
        for part in loose.infolist():
            content = loose.read(part)
            with tight.open(part, "w") as target:
                # There is no public way to a small memory.
                target._compressor = zlib.compressobj(*TIGHTEST)  # type: ignore  # noqa: SLF001
                target.write(content)
    return packed.getvalue()


def insist(answer: object, what: str) -> None:
    """Turn the library's silent refusals into errors."""
    if answer not in (0, None):
        raise WriteError(f"xlsxwriter refused {what}: {answer}")


class Sheet(Worksheet):  # type: ignore[misc]
    """A sheet that takes formulas as they are: half the library's time goes into new functions."""

    shares: Mapping[str, str]

    def _prepare_formula(self, formula: str, _expand: object = None) -> str:
        """Return the formula without its sign; our functions are older than what is looked for."""
        return formula.removeprefix("=")

    def _xml_formula_element(
        self, formula: str, result: object, attributes: list[tuple[str, object]]
    ) -> None:
        """Write a formula that a run of cells shares once, in the first of them."""
        share = self.shares.get(str(attributes[0][1]), "")
        told = "".join(f' {key}="{value}"' for key, value in attributes)
        mark = f"<f {share}".rstrip()
        head = not share or "ref" in share
        text = f"{mark}>{self._escape_data(formula)}</f>" if head else f"{mark}/>"
        self.fh.write(f"<c{told}>{text}<v>{self._escape_data(shorten(result))}</v></c>")


def shorten(result: object) -> str:
    """Return a stored value, a number with the digits that matter: others compress badly."""
    return f"{result:.{DIGITS}G}" if isinstance(result, float) else str(result)


class Writer:
    """Writes sheets into one open workbook."""

    def __init__(self, workbook: xlsxwriter.Workbook, book: Book, stored: Stored) -> None:
        """Keep the workbook, its plan and the formats made so far."""
        self.workbook, self.book, self.stored = workbook, book, stored
        self.formats: dict[tuple[str, str], object] = {}

    def find_format(self, look: str, code: str) -> object:
        """Return the format of a look with a number code, made once."""
        if (look, code) not in self.formats:
            settings = {**find_font(look), "num_format": code, **LOOKS[look]}
            self.formats[look, code] = self.workbook.add_format(settings)
        return self.formats[look, code]

    def write_sheet(self, sheet: PlannedSheet) -> None:
        """Write one sheet."""
        worksheet = self.workbook.add_worksheet(sheet.title, Sheet)
        worksheet.shares = dict(list_shares(self.list_worked(sheet)))
        for col, width in enumerate(sheet.widths):
            worksheet.set_column(col, col, width, self.find_format("plain", "General"))
        for row, height in sheet.heights.items():
            worksheet.set_row(row, height)
        for cell in sheet.cells:
            self.write_cell(worksheet, sheet.title, cell)
        self.validate(worksheet, sheet)
        self.shade_cells(worksheet, sheet)
        self.colour_states(worksheet, sheet)
        for picture in sheet.pictures:
            insert_picture(self.workbook, worksheet, picture)
        for drawing in sheet.drawings:
            insert_drawing(worksheet, drawing)
        worksheet.freeze_panes(sheet.frozen_rows, sheet.frozen_cols)
        worksheet.hide_gridlines(NO_PRINTED_GRID if sheet.role == "behind" else NO_GRID)
        worksheet.set_tab_color(TABS[sheet.role])
        worksheet.protect("", PROTECTION)
        self.set_up_print(worksheet, sheet)

    def list_worked(self, sheet: PlannedSheet) -> list[Cell]:
        """Return the cells that show something, which alone may share a formula.

        A program that reads a shared formula without a value works it out, and does not tell it to
        the cells that follow from it.
        """
        stored = (
            (cell, self.stored.get((sheet.title, cell.row, cell.col), "")) for cell in sheet.cells
        )
        return [cell for cell, value in stored if value != ""]

    def write_cell(self, worksheet: xlsxwriter.worksheet.Worksheet, title: str, cell: Cell) -> None:
        """Write one cell and what it accepts."""
        look = self.find_format(cell.look, number_format(cell.digits))
        if cell.link:
            target = f"internal:{cell.link}"
            answer = worksheet.write_url(cell.row, cell.col, target, look, cell.text)
        elif cell.formula is not None:
            value = self.stored.get((title, cell.row, cell.col), "")
            answer = worksheet.write_formula(cell.row, cell.col, cell.formula, look, value)
        elif cell.number is not None:
            answer = worksheet.write_number(cell.row, cell.col, cell.number, look)
        elif cell.text is not None:
            answer = worksheet.write_string(cell.row, cell.col, cell.text, look)
        else:
            answer = worksheet.write_blank(cell.row, cell.col, None, look)
        insist(answer, f"{title} row {cell.row + 1}")

    def validate(self, worksheet: xlsxwriter.worksheet.Worksheet, sheet: PlannedSheet) -> None:
        """Add drop-downs and prompts, one for each run of cells that share it in a column."""
        for rule, (first, last) in join_rules(sheet.cells):
            settings = describe_rule(rule)
            answer = worksheet.data_validation(first.row, first.col, last.row, last.col, settings)
            insist(answer, f"{sheet.title} row {first.row + 1} validation")

    def shade_cells(self, worksheet: xlsxwriter.worksheet.Worksheet, sheet: PlannedSheet) -> None:
        """Let cells look otherwise where a formula holds."""
        for shade in sheet.shades:
            look = self.workbook.add_format(SHADES[shade.look])
            rule = {"type": "formula", "criteria": f"={shade.formula}", "format": look}
            area = shade.area
            answer = worksheet.conditional_format(
                area.row, area.col, area.last_row, area.last_col, rule
            )
            insist(answer, f"{sheet.title} shades")

    def colour_states(self, worksheet: xlsxwriter.worksheet.Worksheet, sheet: PlannedSheet) -> None:
        """Colour the state words; the word itself always stands there too."""
        for area in sheet.states:
            for key, settings in STATES.items():
                rule = {
                    "type": "cell",
                    "criteria": "==",
                    "value": f"word_{key}_txt",
                    "format": self.workbook.add_format(settings),
                }
                answer = worksheet.conditional_format(
                    area.row, area.col, area.last_row, area.last_col, rule
                )
                insist(answer, f"{sheet.title} states")

    def set_up_print(self, worksheet: xlsxwriter.worksheet.Worksheet, sheet: PlannedSheet) -> None:
        """Set paper, margins, repeated rows, footer and the area that prints."""
        worksheet.set_paper(PAPERS[self.book.paper])
        paper = sheet.paper
        if paper.turned:
            worksheet.set_landscape()
        worksheet.set_margins(*paper.margins_in)
        if paper.percent:
            worksheet.set_print_scale(paper.percent)
            worksheet.center_horizontally()
        else:
            worksheet.fit_to_pages(paper.wide, paper.high)
        worksheet.repeat_rows(*paper.repeated)
        worksheet.print_area(paper.first_row, 0, paper.rows - 1, paper.cols - 1)
        worksheet.set_h_pagebreaks(list(paper.breaks))
        if paper.wide > 1:
            worksheet.repeat_columns(0, 1)
        insist(worksheet.set_footer(f"&L&8{self.book.footer}"), "footer")


def describe_rule(rule: Validation) -> dict[str, object]:
    """Return what the file library needs to know of what a cell accepts."""
    settings: dict[str, object] = {
        "validate": rule.kind,
        "input_title": rule.title,
        "input_message": rule.prompt,
        "error_title": rule.title,
        "error_message": rule.error,
    }
    match rule.kind:
        case "list":  # the state word judges what is typed
            return {**settings, "source": f"={rule.source}", "error_type": "warning"}
        case "decimal":
            return {**settings, "criteria": ">=", "value": -LARGEST}
        case _:
            return {**settings, "criteria": "<=", "value": LONGEST}


def insert_drawing(worksheet: xlsxwriter.worksheet.Worksheet, drawing: Drawing) -> None:
    """Insert one drawing, with words for those who cannot see it."""
    settings = {
        "image_data": io.BytesIO(drawing.png),
        "x_scale": drawing.scale,
        "y_scale": drawing.scale,
        "x_offset": 4,
        "y_offset": drawing.below_px + 4,
        "description": drawing.alt,
        "object_position": 1,
    }
    answer = worksheet.insert_image(drawing.row, drawing.col, "drawing.png", settings)
    insist(answer, "a drawing")


def list_shares(cells: list[Cell]) -> Iterator[tuple[str, str]]:
    """Yield each cell of those down a column with one pattern, and what its formula shares."""
    made = sorted((c for c in cells if c.pattern), key=lambda c: (c.col, c.pattern, c.row))
    groups = (list(group) for _, group in groupby(made, lambda cell: (cell.col, cell.pattern)))
    for number, group in enumerate(group for group in groups if len(group) > 1):
        places = [f"{column_letters(cell.col)}{cell.row + 1}" for cell in group]
        yield places[0], f't="shared" ref="{places[0]}:{places[-1]}" si="{number}"'
        yield from ((place, f't="shared" si="{number}"') for place in places[1:])


def join_rules(cells: list[Cell]) -> Iterator[tuple[Validation, tuple[Cell, Cell]]]:
    """Yield each rule with the first and the last cell of a run down a column that share it."""
    ruled = sorted((c for c in cells if c.validation), key=lambda cell: (cell.col, cell.row))
    numbered = enumerate(ruled)  # down a run, row and number rise together
    for _, group in groupby(numbered, lambda n: (n[1].col, n[1].row - n[0], n[1].validation)):
        run = [cell for _, cell in group]
        if run[0].validation:
            yield run[0].validation, (run[0], run[-1])
