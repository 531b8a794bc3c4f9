"""The plan of a workbook: frozen records that the writer only has to copy."""

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Validation:
    """What a typed cell accepts, what is said beside it, and what to somebody who types otherwise.

    It accepts the words of the named list `source`, a decimal number, or a text of some length.
    """

    title: str
    prompt: str
    error: str
    source: str = ""
    kind: str = "list"


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell. Exactly one of text, number and formula is set, or none in an empty typed cell.

    Cells of a column with the same `pattern` have the same formula but for the number of the row.
    A text may link to a cell of the workbook: to the name of it, which every program finds.
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
    link: str = ""


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
class Shade:
    """How a cell looks where a formula holds; of several the first goes before the others."""

    area: Area
    formula: str
    look: str


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
class Drawing:
    """A picture that somebody drew, at a cell, so far below its top edge, and how much smaller."""

    row: int
    col: int
    below_px: float
    scale: float
    png: bytes
    alt: str


@dataclass(frozen=True, slots=True)
class Paper:
    """How a sheet prints: turned, so many pages wide and high, or enlarged by `percent`.

    No pages high are as many as it takes; 0 percent is whatever fits the width. Margins are left,
    right, top and bottom. Before each row of `breaks` a new page begins.
    """

    turned: bool
    wide: int
    high: int
    percent: int
    margins_in: tuple[float, float, float, float]
    repeated: tuple[int, int]
    first_row: int
    rows: int
    cols: int
    breaks: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class PlannedSheet:
    """One sheet: its cells and how it looks and prints; `role` says whom it is for."""

    title: str
    role: str
    cells: list[Cell]
    widths: list[float]
    heights: dict[int, float]
    states: list[Area]
    shades: list[Shade]
    pictures: list[Picture]
    drawings: list[Drawing]
    frozen_rows: int
    frozen_cols: int
    paper: Paper


@dataclass(frozen=True, slots=True)
class Book:
    """A whole workbook; of its names the file bears those that somebody or something uses."""

    sheets: list[PlannedSheet]
    names: dict[str, Area]
    borne: frozenset[str]
    title: str
    lang: str
    locale: str
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
