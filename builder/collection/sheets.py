"""Writes tables onto sheets row by row, and goes on to a further sheet where one is full."""

import textwrap
from collections.abc import Iterator
from dataclasses import dataclass, field

import pandas as pd
import xlsxwriter
from xlsxwriter.worksheet import Worksheet

from builder.collection.tables import BOOK, Columns, Kind
from builder.write.looks import BASE, HEAD

MOST_ROWS = 1_048_576
ROOM = 1_000  # rows that one book may need, so that its events stay on one sheet
LONGEST = 32_000
LETTER = 1
LINE = 15.0  # points
FROZEN = 4
NARROWEST, WIDEST = 11, 26
LARGEST = 1e300
FORMATS: dict[Kind, dict[str, object]] = {
    Kind.TEXT: {"shrink": True},
    Kind.COUNT: {"num_format": "0"},
    Kind.NUMBER: {"num_format": "General"},
    Kind.DAY: {"num_format": "yyyy-mm-dd", "align": "center"},
}
WIDTHS = {
    "file": 26,
    "producer": 28,
    "site": 22,
    "machine": 18,
    "sha256": 70,
    "cell": 22,
    "name": 26,
    "text": 90,
}
# Only what is long by nature takes several lines: the package remembers each height it is told.
WRAPPED = "text"
WRAP: dict[str, object] = {"text_wrap": True}
# What is known of a book prints on a page; its hundreds of values are for other programs.
PRINTED_COLUMNS = {"machines": len(BOOK)}
PAGES_WIDE = {"events": 4}


@dataclass(slots=True)
class TableSheets:
    """The sheets of one table; `footer` stands on every printed page."""

    workbook: xlsxwriter.Workbook
    name: str
    title: str
    columns: Columns
    footer: str
    most_rows: int = MOST_ROWS
    sheets: list[Worksheet] = field(default_factory=list)
    row: int = 0
    book: int = 0
    looks: list[object] = field(default_factory=list)

    def write(self, frame: pd.DataFrame) -> None:
        """Write rows."""
        if not self.sheets:
            self.looks = list(self.make_looks())
            self.begin_sheet()
        for book, *values in frame.itertuples(index=False, name=None):
            full = self.row >= self.most_rows
            if full or (book != self.book and self.row >= self.most_rows - ROOM):
                self.end_sheet()
                self.begin_sheet()
            self.book = book
            self.write_row(values)
            self.row += 1

    def make_looks(self) -> Iterator[object]:
        """Yield the look of each column."""
        top = {**BASE, "valign": "top"}
        formats = {kind: self.workbook.add_format({**top, **FORMATS[kind]}) for kind in Kind}
        wrapped = self.workbook.add_format({**top, **WRAP})
        for name, kind in self.columns.items():
            yield wrapped if name == WRAPPED else formats[kind]

    def begin_sheet(self) -> None:
        """Begin a sheet with its headings."""
        number = len(self.sheets) + 1
        sheet = self.workbook.add_worksheet(self.title if number == 1 else f"{self.title} {number}")
        self.sheets.append(sheet)
        head = self.workbook.add_format({**BASE, **HEAD})
        for col, name in enumerate(self.columns):
            sheet.set_column(col, col, find_width(name))
            sheet.write_string(0, col, name, head)
        sheet.freeze_panes(1, FROZEN)
        set_up_print(sheet, self.footer)
        sheet.fit_to_pages(PAGES_WIDE.get(self.name, 1), 0)
        if self.name in PAGES_WIDE:
            sheet.repeat_columns(0, FROZEN - 1)
        self.row = 1

    def end_sheet(self) -> None:
        """Give the sheet its filter and the area that prints, now that its last row is known."""
        sheet, last_row, last_col = self.sheets[-1], max(1, self.row - 1), len(self.columns) - 1
        sheet.autofilter(0, 0, last_row, last_col)
        printed = PRINTED_COLUMNS.get(self.name, len(self.columns))
        sheet.print_area(0, 0, last_row, printed - 1)

    def write_row(self, values: list[object]) -> None:
        """Write one row: texts as texts whatever they hold, numbers as numbers."""
        sheet = self.sheets[-1]
        for col, (name, look, value) in enumerate(
            zip(self.columns, self.looks, values, strict=True)
        ):
            if name == WRAPPED:
                set_height(sheet, self.row, [str(value)], [find_width(name)])
            write_cell(sheet, (self.row, col), value, look)


def find_width(name: str) -> int:
    """Return how wide a column of a table is."""
    return WIDTHS.get(name, min(max(len(name) + 4, NARROWEST), WIDEST))


def write_cell(sheet: Worksheet, place: tuple[int, int], value: object, look: object) -> None:
    """Write one value; a text never becomes a formula, a link or a number."""
    if isinstance(value, str):
        text = value if len(value) <= LONGEST else f"{value[:LONGEST]}…"
        sheet.write_string(*place, text, look)
    elif isinstance(value, int | float) and abs(value) < LARGEST:  # NaN is a blank
        sheet.write_number(*place, value, look)


def set_up_print(sheet: Worksheet, footer: str) -> None:
    """Set paper, margins, the repeated headings and the footer."""
    sheet.set_paper(LETTER)
    sheet.set_landscape()
    sheet.set_margins(left=0.5, right=0.5, top=0.5, bottom=0.7)
    sheet.repeat_rows(0)
    sheet.set_footer(f"&L&9{footer}")
    sheet.hide_gridlines(2)


def set_height(sheet: Worksheet, row: int, texts: list[str], widths: list[int]) -> None:
    """Make a row as high as its longest text needs; one line needs nothing."""
    lines = max(map(count_lines, texts, widths))
    if lines > 1:
        sheet.set_row(row, LINE * lines)


def count_lines(text: str, width: int) -> int:
    """Return how many lines a text takes in a column, words kept whole."""
    return max(1, len(textwrap.wrap(text, width - 1))) if len(text) >= width else 1
