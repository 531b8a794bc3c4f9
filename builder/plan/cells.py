"""The plan of a workbook: frozen records that the writer only has to copy."""

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Validation:
    """What a typed cell accepts: the words of a named list, or numbers; and its prompt."""

    source: str = ""
    title: str = ""
    prompt: str = ""
    kind: str = "any"


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell. Exactly one of text, number and formula is set, or none in an empty typed cell.

    Cells of a column with the same `pattern` have the same formula but for the number of the row.
    """

    row: int
    col: int
    look: str
    text: str | None = None
    number: float | None = None
    formula: str | None = None
    digits: int | None = None
    typed: bool = False
    validation: Validation | None = None
    pattern: str = ""


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle of cells of one sheet, all borders included."""

    sheet: str
    row: int
    col: int
    last_row: int
    last_col: int

    @property
    def address(self) -> str:
        """Return the absolute address with the sheet's name, as formulas and names need it."""
        first = f"${column_letters(self.col)}${self.row + 1}"
        last = f"${column_letters(self.last_col)}${self.last_row + 1}"
        cells = first if first == last else f"{first}:{last}"
        return f"'{self.sheet}'!{cells}"


@dataclass(frozen=True, slots=True)
class Line:
    """One series of a chart."""

    name: str
    x: Area
    y: Area
    look: str


@dataclass(frozen=True, slots=True)
class Picture:
    """A chart at a row of its sheet."""

    type: str
    row: int
    lines: list[Line]
    title: str
    alt: str
    x_title: str
    y_title: str
    x_range: list[float]
    y_range: list[float]


@dataclass(frozen=True, slots=True)
class PlannedSheet:
    """One sheet: its cells and how it looks and prints."""

    title: str
    cells: list[Cell]
    widths: list[float]
    heights: dict[int, float]
    states: list[Area]
    pictures: list[Picture]
    frozen_rows: int
    landscape: bool
    pages: int
    pages_wide: int
    repeated: tuple[int, int]
    print_from: int
    print_rows: int
    print_cols: int


@dataclass(frozen=True, slots=True)
class Book:
    """A whole workbook."""

    sheets: list[PlannedSheet]
    names: dict[str, Area]
    title: str
    lang: str
    paper: str
    footer: str
    properties: dict[str, str]
    words: dict[str, str] = field(default_factory=dict)


def list_places(book: Book) -> set[str]:
    """Return every cell of a plan as `Sheet!B5`."""
    return {
        f"{sheet.title}!{column_letters(cell.col)}{cell.row + 1}"
        for sheet in book.sheets
        for cell in sheet.cells
    }


def column_letters(col: int) -> str:
    """Return the letters of a column that counts from 0."""
    letters = ""
    col += 1
    while col:
        col, rest = divmod(col - 1, 26)
        letters = chr(65 + rest) + letters
    return letters
