"""Reads the table of a roster line by line, from a text file or from a workbook's first sheet."""

import csv
import io
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import zip_longest
from pathlib import Path

from openpyxl import Workbook, load_workbook

from builder.audit.container import REMEDY, pack, read_parts
from builder.problems import EXIT_FILE, EXIT_INVALID, Problem, ProblemsError, UserError

LARGEST_FILE = 20_000_000
LONGEST_LINE = 1_000_000
MOST_ROWS = 100_000
MOST_COLUMNS = 1_000
QUOTED = re.compile('"[^"]*"')
HINT = "Save it as .xlsx, or as CSV in UTF-8, and look at docs/roster.md."
FORMULA = "f"


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the table: its number in the file, and its cells without blank ones at the end.

    A cell is a text or number, None where blank, or whatever else a workbook holds.
    """

    number: int
    cells: list[object]


@dataclass(frozen=True, slots=True)
class Unsolved:
    """A formula that no program has worked out: its value is not known."""

    formula: str


@dataclass(frozen=True, slots=True)
class Table:
    """Headings, and a function that reads the lines below, of which there are `count`."""

    headings: Line
    lines: Callable[[], Iterator[Line]]
    count: int
    decimal_comma: bool


def open_table(path: Path) -> Table:
    """Return the table of a file; its whole length is judged before anything is made of it."""
    if not path.is_file():
        what = "is no file" if path.exists() else "does not exist"
        raise UserError(f"{path} {what}. Give the path of a roster.", EXIT_FILE)
    workbook = path.suffix.lower() == ".xlsx"
    delimiter = "" if workbook else find_delimiter(path)

    def read() -> Iterator[Line]:
        found = read_sheet(path) if workbook else read_text(path, delimiter)
        return (line for line in found if line.cells)

    lines = read()
    headings = next(lines, None)
    count = count_rows(path, lines)
    if headings is None or not count:
        text = "there is no row below the headings." if headings else "the file is empty."
        remedy = "Write one line of headings, then one row for each machine."
        problem = Problem(
            str(path), headings.number if headings else 1, "empty", path.name, text, remedy
        )
        raise ProblemsError([problem])
    below = headings.number
    return Table(headings, lambda: (x for x in read() if x.number > below), count, delimiter == ";")


def count_rows(path: Path, lines: Iterator[Line]) -> int:
    """Return how many rows there are; refuse more than anybody can make books of."""
    count = 0
    for line in lines:
        count += 1
        if count > MOST_ROWS:
            text = f"more than {MOST_ROWS} rows."
            remedy = "Split it: each row becomes a workbook of its own."
            raise refuse(path, line.number, "too-large", text, remedy)
    return count


def find_delimiter(path: Path) -> str:
    """Return the sign between cells: what stands more often in the first line that has words."""
    first = next((line for line in read_lines(path) if line.strip(" ,;\r\n")), "")
    bare = QUOTED.sub("", first)
    return ";" if bare.count(";") > bare.count(",") else ","


def read_lines(path: Path) -> Iterator[str]:
    """Yield the lines of a text file; refuse one that is no text in UTF-8."""
    for number, raw in enumerate(read_bytes(path), start=1):
        if len(raw) > LONGEST_LINE:
            text = f"the line has more than {LONGEST_LINE} bytes."
            raise refuse(path, number, "too-long", text, HINT)
        try:
            line = raw.decode("utf-8-sig" if number == 1 else "utf-8")
        except UnicodeDecodeError as error:
            text = f"byte {error.start + 1} of this line is not UTF-8."
            raise refuse(path, number, "not-utf8", text, HINT) from error
        if "\0" in line:
            raise refuse(path, number, "not-text", "the line holds a byte 0.", HINT)
        yield line


def read_bytes(path: Path) -> Iterator[bytes]:
    """Yield the lines of a file of sensible size, none much longer than a line may be."""
    try:
        size = path.stat().st_size
        if size > LARGEST_FILE:
            text = f"{size} bytes, more than {LARGEST_FILE}."
            raise refuse(path, 1, "too-large", text, "Split it: a row takes some hundred bytes.")
        with path.open("rb") as file:
            while raw := file.readline(LONGEST_LINE + 1):
                yield raw
    except OSError as error:
        reason = error.strerror or str(error)
        message = f"{path} cannot be read: {reason}. Check its name and permissions."
        raise UserError(message, EXIT_FILE) from error


def read_text(path: Path, delimiter: str) -> Iterator[Line]:
    """Yield the lines of a text file; a cell in quotes may go on over several."""
    reader = csv.reader(read_lines(path), delimiter=delimiter, strict=True)
    number = 1
    try:
        for cells in reader:
            yield Line(number, trim([cell.strip() or None for cell in cells]))
            number = reader.line_num + 1
    except csv.Error as error:
        if "new-line character" in str(error):
            text = "the line holds a carriage return without a line feed."
            raise refuse(path, number, "not-csv", text, HINT) from error
        remedy = 'Close every quotation mark, and write " inside a cell twice.'
        raise refuse(path, number, "not-csv", f"{error}.", remedy) from error


def refuse(path: Path, number: int, code: str, text: str, remedy: str) -> ProblemsError:
    """Return the error of a file that cannot be read as a table."""
    return ProblemsError([Problem(str(path), number, code, path.name, text, remedy)])


def read_sheet(path: Path) -> Iterator[Line]:
    """Yield the rows of a workbook's first sheet: what its cells show, formulas worked out."""
    try:
        data = pack(read_parts(path))
    except UserError as error:
        reason = str(error).removesuffix(REMEDY).strip()
        code = EXIT_FILE if isinstance(error.__cause__, OSError) else EXIT_INVALID
        raise UserError(f"{reason} {HINT}", code) from error
    try:
        sheets = [
            load_workbook(io.BytesIO(data), read_only=True, keep_links=False, data_only=only)
            for only in (False, True)
        ]
        written, shown = (open_rows(book) for book in sheets)
        for number, pair in enumerate(zip_longest(written, shown, fillvalue=()), start=1):
            judge_width(path, number, len(pair[0]))
            if any(pair):
                cells = [find_value(*cells) for cells in zip(*pair, strict=True)]
                yield Line(number, trim(cells))
    except UserError:
        raise
    except Exception as error:
        # The reading package fails in many ways over a file that is damaged inside.
        raise UserError(
            f"{path}: is damaged ({type(error).__name__}). {HINT}", EXIT_INVALID
        ) from error


def judge_width(path: Path, number: int, columns: int) -> None:
    """Refuse a row that is wider than any table of machines."""
    if columns > MOST_COLUMNS:
        text = f"{columns} columns, more than {MOST_COLUMNS}."
        raise refuse(path, number, "too-large", text, "Remove what stands far to the right.")


def open_rows(book: Workbook) -> Iterator[tuple[object, ...]]:
    """Return the rows of the first sheet, each as long as it is, whatever size the sheet tells."""
    sheet = book.worksheets[0]
    sheet.reset_dimensions()
    return sheet.iter_rows()


def find_value(written: object, shown: object) -> object:
    """Return what a cell shows."""
    value = getattr(shown, "value", None)
    if value is None and getattr(written, "data_type", "") == FORMULA:
        return Unsolved(str(getattr(written, "value", "")))
    return value.strip() or None if isinstance(value, str) else value


def trim(cells: list[object]) -> list[object]:
    """Return the cells without blank ones at the end."""
    end = len(cells)
    while end and cells[end - 1] is None:
        end -= 1
    return cells[:end]
