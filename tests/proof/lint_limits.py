"""Rules of lengths and numbers: limits of the format, and of what opens on any machine."""

import re

from proof.lint_book import Book
from proof.lint_xml import MAIN, Finding, Findings

LONGEST_TITLE, LONGEST_TEXT = 31, 32767
RESERVED = {"history", "historique"}  # titles that a program keeps for itself
BAD_SIGNS = re.compile(r"[\[\]:*?/\\!%']")  # some are refused, others stop an engine
CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f]|_x00[01][0-9A-Fa-f]_")
STYLES = {"cellXfs": 256, "fonts": 32, "fills": 32, "borders": 16, "numFmts": 64, "dxfs": 32}
MOST_FORMATS, MOST_ROWS, MOST_COLUMNS, MOST_SHEETS = 80, 2000, 256, 40
LARGEST_FILE = 2_000_000


def titles_of_sheets_fit(book: Book) -> Findings:
    """Titles of sheets are short, not reserved, and without signs that a program refuses."""
    for title in book.titles:
        if not 0 < len(title) <= LONGEST_TITLE:
            yield Finding(title, "length of the title", len(title), f"<= {LONGEST_TITLE}")
        if BAD_SIGNS.search(title) or title != title.strip():
            yield Finding(title, "title", title, f"no {BAD_SIGNS.pattern}")
        if title.lower() in RESERVED:
            yield Finding(title, "title", title, "not a reserved one")


def texts_of_cells_fit(book: Book) -> Findings:
    """Texts of cells are short enough, and hold no control characters."""
    for sheet in book.sheets:
        for cell in sheet.cells:
            text = book.text(cell)
            if len(text) > LONGEST_TEXT:
                place = sheet.place(cell.address)
                yield Finding(place, "length of the text", len(text), f"<= {LONGEST_TEXT}")
            if CONTROL.search(text):
                yield Finding(sheet.place(cell.address), "text", repr(text), "no control character")


def styles_are_few(book: Book) -> Findings:
    """The book has few styles; old programs stop at a few hundred fonts and number formats."""
    for tag, most in STYLES.items():
        count = len(book.styles.find(MAIN + tag))
        if count > most:
            yield Finding("styles", tag, count, f"<= {most}")


def conditional_formats_are_few(book: Book) -> Findings:
    """A sheet has few conditional formats."""
    for sheet in book.sheets:
        count = sum(1 for _ in sheet.root.iter(f"{MAIN}cfRule"))
        if count > MOST_FORMATS:
            yield Finding(sheet.title, "conditional formats", count, f"<= {MOST_FORMATS}")


def sheets_are_small(book: Book) -> Findings:
    """Sheets are few, and end at a row and a column that every program has."""
    if len(book.sheets) > MOST_SHEETS:
        yield Finding("workbook", "sheets", len(book.sheets), f"<= {MOST_SHEETS}")
    for sheet in book.sheets:
        last_row = max(cell.spot[0] for cell in sheet.cells)
        last_col = max(cell.spot[1] for cell in sheet.cells)
        if last_row > MOST_ROWS or last_col > MOST_COLUMNS:
            expected = f"<= {MOST_ROWS} and {MOST_COLUMNS}"
            yield Finding(sheet.title, "last row and column", (last_row, last_col), expected)


def the_file_is_small(book: Book) -> Findings:
    """The file can be mailed and opened on a telephone."""
    if len(book.data) > LARGEST_FILE:
        yield Finding("file", "bytes", len(book.data), f"<= {LARGEST_FILE}")
