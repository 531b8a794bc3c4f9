"""Rules of formulas: what every spreadsheet program and engine works out alike."""

import math
import re
from collections.abc import Iterator
from functools import cache
from itertools import pairwise

from openpyxl.formula.tokenizer import Token
from openpyxl.utils import column_index_from_string

from proof.lint_book import Book
from proof.lint_xml import Cell, Finding, Findings, Spot, tokens, write_spot

# Measured alike in three engines, and known from every program since 2007.
PORTABLE_LINES = (
    "ABS AND AVERAGE AVERAGEIFS CEILING CHOOSE CONCATENATE CORREL COUNT COUNTA COUNTBLANK COUNTIF",
    "COUNTIFS DATE DAY DEVSQ EXACT EXP FLOOR IF IFERROR INDEX INT INTERCEPT ISERROR ISTEXT LARGE",
    "LEFT LEN LN LOG10 LOOKUP LOWER MATCH MAX MEDIAN MID MIN MOD MONTH NA NOT OR PERCENTILE PI",
    "POWER PRODUCT REPT RIGHT ROUND ROUNDDOWN ROUNDUP ROWS SIGN SLOPE SMALL SQRT STDEV",
    "SUBSTITUTE SUM SUMIF SUMIFS SUMPRODUCT SUMSQ TINV TRIM TRUNC UPPER VAR VLOOKUP WEEKDAY YEAR",
)
PORTABLE = frozenset(name for line in PORTABLE_LINES for name in line.split())
VOLATILE = {"NOW", "TODAY", "RAND", "RANDBETWEEN", "OFFSET", "INDIRECT", "CELL", "INFO"}
AREA = re.compile(r"(?:(?:'[^']+'|\w+)!)?\$?[A-Z]{1,3}\$?\d+(?::\$?[A-Z]{1,3}\$?\d+)?")
WHOLE = re.compile(r"\$?[A-Z]{1,3}:\$?[A-Z]{1,3}|\$?\d+:\$?\d+")
EXPONENT = re.compile(r"[\d.]+E\d+", re.IGNORECASE)  # one engine reads 1E+5, but not 1E5
CRITERION = re.compile(r'"[<>=]*-?\d*[.,]\d+"')  # a decimal sign in a text depends on the country
TEXT = re.compile(r'("[^"]*")')
REFERENCE = re.compile(r"(?<![\w.!$'])(\$?)([A-Z]{1,3})(\$?)(\d+)(?![\w(.])")


def list_words(book: Book, kind: str, subtype: str) -> Iterator[tuple[str, str]]:
    for word, places in book.words.get((kind, subtype), {}).items():
        for place in places:
            yield place, word


def list_functions(book: Book) -> Iterator[tuple[str, str]]:
    for place, word in list_words(book, Token.FUNC, Token.OPEN):
        yield place, word.rstrip("(").upper()


def list_references(book: Book) -> Iterator[tuple[str, str]]:
    """Yield what formulas ask for."""
    return list_words(book, Token.OPERAND, Token.RANGE)


def functions_are_portable(book: Book) -> Findings:
    """Only functions of the closed list."""
    for place, function in list_functions(book):
        if function not in PORTABLE | VOLATILE:
            yield Finding(place, "function", function, "one of the closed list")


def nothing_is_volatile(book: Book) -> Findings:
    """No function whose value changes without its inputs."""
    for place, function in list_functions(book):
        if function in VOLATILE:
            yield Finding(place, "function", function, "none that changes by itself")


def formulas_are_no_arrays(book: Book) -> Findings:
    """No array formula, no data table, no array constant."""
    for sheet in book.sheets:
        for cell in sheet.cells:
            if cell.array:
                yield Finding(sheet.place(cell.address), "formula", "an array", "a plain formula")
    for place, _ in list_words(book, Token.ARRAY, Token.OPEN):
        yield Finding(place, "formula", "an array constant", "a plain formula")


def formulas_stay_in_the_file(book: Book) -> Findings:
    """No reference to another file, and no structured reference."""
    for place, word in list_references(book):
        if "[" in word:
            yield Finding(place, "reference", word, "a name or a cell of this file")


def references_lead_to_cells(book: Book) -> Findings:
    """Every word in a formula is a defined name or an area of an existing sheet."""
    for place, word in list_references(book):
        title = word.rpartition("!")[0].strip("'")
        known = word in book.areas or "[" in word or AREA.fullmatch(word) or WHOLE.fullmatch(word)
        if not known or (title and "[" not in title and title not in book.titles):
            yield Finding(place, "reference", word, "a defined name or a cell")


def references_have_ends(book: Book) -> Findings:
    """No whole column and no whole row: one engine needs a gigabyte for it."""
    for place, word in list_references(book):
        if WHOLE.fullmatch(word.rpartition("!")[2]):
            yield Finding(place, "reference", word, "an area with ends")


def references_are_single(book: Book) -> Findings:
    """No union and no intersection of areas."""
    signs = (*list_words(book, Token.OP_IN, ""), *list_words(book, Token.WSPACE, ""))
    for place, sign in signs:
        if sign in {",", " "}:
            yield Finding(place, "reference", repr(sign), "one area")


def numbers_are_readable(book: Book) -> Findings:
    """An exponent has a sign."""
    for place, number in list_words(book, Token.OPERAND, Token.NUMBER):
        if EXPONENT.fullmatch(number):
            yield Finding(place, "number", number, "a sign after E")


def criteria_are_whole_numbers(book: Book) -> Findings:
    """No decimal sign in a text that a function compares."""
    for place, text in list_words(book, Token.OPERAND, Token.TEXT):
        if CRITERION.fullmatch(text):
            yield Finding(place, "criterion", text, "no decimal sign")


def signs_stand_alone(book: Book) -> Findings:
    """No double sign: engines differ in what it makes of a truth value."""
    for place, formula in list_formulas(book):
        if has_double_sign(formula):
            yield Finding(place, "signs", "two in a row", "one")


def list_formulas(book: Book) -> Iterator[tuple[str, str]]:
    """Yield every formula of cells, validations and conditional formats with its place."""
    yield from book.formulas
    yield from book.rule_formulas


@cache
def has_double_sign(formula: str) -> bool:
    kinds = [token.type for token in tokens(formula)]
    return any(one == other == Token.OP_PRE for one, other in pairwise(kinds))


def columns_repeat_one_formula(book: Book) -> Findings:
    """All rows of a grid's column have one formula, counted from their own cell.

    The first row may have its own: nothing stands above it, or what was before the others.
    """
    cells = {(sheet.title, cell.spot): cell for sheet in book.sheets for cell in sheet.cells}
    for name, (title, spots) in book.areas.items():
        column = [write_relative(cells.get((title, spot))) for spot in spots]
        if not name.endswith("_list") or not any(column) or len(column) < 3:
            continue
        for spot, formula in list(zip(spots, column, strict=True))[2:]:
            if formula != column[1]:
                place = f"{title}!{write_spot(spot)}"
                yield Finding(place, f"column {name}", formula or "no formula", column[1])


def write_relative(cell: Cell | None) -> str | None:
    """Return a cell's formula with references counted from the cell itself."""
    if cell is None or cell.formula is None:
        return None
    return shift(cell.formula, cell.spot)


@cache
def shift(formula: str, spot: Spot) -> str:
    """Return a formula with references counted from a cell; texts stay as they are."""

    def write(hit: re.Match[str]) -> str:
        row, col = int(hit[4]), column_index_from_string(hit[2])
        down = f"R{row}" if hit[3] else f"R[{row - spot[0]}]"
        return down + (f"C{col}" if hit[1] else f"C[{col - spot[1]}]")

    parts = TEXT.split(formula)
    return "".join(p if p.startswith('"') else REFERENCE.sub(write, p) for p in parts)


def formulas_have_values(book: Book) -> Findings:
    """A program that does not recalculate shows something for every formula."""
    for sheet in book.sheets:
        for cell in sheet.cells:
            if cell.formula is not None and not is_value(cell):
                yield Finding(sheet.place(cell.address), "stored value", cell.value, "a value")


def is_value(cell: Cell) -> bool:
    """Tell whether what is stored is a number, or a text or error marked as such."""
    if cell.value is None or cell.kind in {"str", "e", "b"}:
        return cell.value is not None
    try:
        return cell.value == "" or math.isfinite(float(cell.value))
    except ValueError:
        return False


def values_are_no_errors(book: Book) -> Findings:
    """No cell shows an error code."""
    for sheet in book.sheets:
        for cell in sheet.cells:
            if cell.kind == "e" or (cell.kind == "str" and (cell.value or "").startswith("#")):
                yield Finding(sheet.place(cell.address), "stored value", cell.value, "no error")
