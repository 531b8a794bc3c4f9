"""Rules of lengths and numbers: limits of the format, and of what opens on any machine."""

import re
from collections import Counter

from proof.lint_book import Book
from proof.lint_xml import MAIN, Finding, Findings, Sheet

LONGEST_TITLE, LONGEST_TEXT, LONGEST_LIST, LONGEST_FOOTER = 31, 32767, 255, 255
PROMPTS = {"promptTitle": 32, "prompt": 255, "errorTitle": 32, "error": 255}
RESERVED = {"history", "historique"}  # titles that a program keeps for itself
BAD_SIGNS = re.compile(r"[\[\]:*?/\\!%']")  # some are refused, others stop an engine
CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f]|_x00[01][0-9A-Fa-f]_")
STYLES = {"cellXfs": 256, "fonts": 32, "fills": 32, "borders": 16, "numFmts": 64, "dxfs": 32}
MOST_FORMATS, MOST_ROWS, MOST_COLUMNS, MOST_SHEETS = 80, 2000, 100, 40
WIDEST, TALLEST, LARGEST_FILE = 255, 409, 2_000_000


def titles_of_sheets_fit(book: Book) -> Findings:
    """Titles of sheets are short, not reserved, and without signs that a program refuses."""
    for title in book.titles:
        if not 0 < len(title) <= LONGEST_TITLE:
            yield Finding(title, "length of the title", len(title), f"<= {LONGEST_TITLE}")
        if BAD_SIGNS.search(title) or title != title.strip():
            yield Finding(title, "title", title, f"no {BAD_SIGNS.pattern}")
        if title.lower() in RESERVED:
            yield Finding(title, "title", title, "not a reserved one")


def titles_of_sheets_differ(book: Book) -> Findings:
    """No two sheets have the same title to a program that does not see case."""
    for title, count in Counter(title.lower() for title in book.titles).items():
        if count > 1:
            yield Finding(title, "sheets of this title", count, 1)


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


def lists_of_validations_fit(book: Book) -> Findings:
    """A list that stands in its validation is short enough."""
    for place, formula in book.rule_formulas:
        if formula.startswith('"') and len(formula) - 2 > LONGEST_LIST:
            yield Finding(place, "length of the list", len(formula) - 2, f"<= {LONGEST_LIST}")


def prompts_fit(book: Book) -> Findings:
    """Prompts, messages and their titles are short enough."""
    for sheet in book.sheets:
        for item in sheet.root.iter(f"{MAIN}dataValidation"):
            for key, longest in PROMPTS.items():
                length = len(item.get(key, ""))
                if length > longest:
                    place = sheet.place(item.get("sqref"))
                    yield Finding(place, f"length of {key}", length, f"<= {longest}")


def footers_fit(book: Book) -> Findings:
    """Headers and footers are short enough."""
    for sheet in book.sheets:
        for item in sheet.root.iterfind(f"{MAIN}headerFooter/*"):
            length = len(item.text or "")
            if length > LONGEST_FOOTER:
                yield Finding(sheet.title, "length of the footer", length, f"<= {LONGEST_FOOTER}")


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


def rows_and_columns_are_of_size(book: Book) -> Findings:
    """Widths and heights are within what the format allows."""
    for sheet in book.sheets:
        yield from judge_sizes(sheet, "col", "width", WIDEST)
        yield from judge_sizes(sheet, "row", "ht", TALLEST)


def judge_sizes(sheet: Sheet, tag: str, key: str, most: float) -> Findings:
    """Judge the sizes of rows or of columns."""
    for item in sheet.root.iter(MAIN + tag):
        size = float(item.get(key, "1"))
        if not 0 < size <= most:
            number = item.get("r") or item.get("min")
            yield Finding(f"{sheet.title} {tag} {number}", key, size, f"> 0 and <= {most}")


def cells_stand_in_order(book: Book) -> Findings:
    """Every cell stands once, row by row; a program repairs a file that differs."""
    for sheet in book.sheets:
        spots = [cell.spot for cell in sheet.cells]
        for cell, before in zip(sheet.cells[1:], spots, strict=False):
            if cell.spot <= before:
                yield Finding(sheet.place(cell.address), "cell", "after a later one", "in order")


def the_file_is_small(book: Book) -> Findings:
    """The file can be mailed and opened on a telephone."""
    if len(book.data) > LARGEST_FILE:
        yield Finding("file", "bytes", len(book.data), f"<= {LARGEST_FILE}")
