"""A sheet while it is being laid out, top to bottom."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from builder.plan.cells import Area, Cell, Drawing, Picture, Shade, Validation
from builder.plan.lettering import (
    INSET_PX,
    ROW_POINTS,
    break_words,
    column_px,
    fit_lines,
    fit_row,
    spread_words,
)
from builder.spec.records import Text

UNSET_WIDTH = 8.43  # of a column that says none


@dataclass(slots=True)
class Canvas:
    """Collects the cells of one sheet; `row` is the next free row, counting from 0.

    `heads` are the first and last rows of the headings of its tables, `span` the columns of its
    text, and `beside_px` is how far down the drawings reach that stand to the right of them.
    Before the rows of `breaks` a new page begins; `steps` are those numbered so
    far; after `printed` rows nothing more is printed, where it says so.
    """

    title: str
    widths: list[float]
    names: dict[str, Area]
    span: int
    row: int = 0
    cells: list[Cell] = field(default_factory=list)
    heights: dict[int, float] = field(default_factory=dict)
    states: list[Area] = field(default_factory=list)
    shades: list[Shade] = field(default_factory=list)
    pictures: list[Picture] = field(default_factory=list)
    drawings: list[Drawing] = field(default_factory=list)
    beside_px: float = 0.0
    frozen_rows: int = 0
    heads: list[tuple[int, int]] = field(default_factory=list)
    breaks: list[int] = field(default_factory=list)
    steps: int = 0
    printed: int = 0

    def area(self, col: int, row: int | None = None, last_row: int | None = None) -> Area:
        """Return a part of one column; one cell of the present row by default."""
        first = self.row if row is None else row
        return Area(self.title, first, col, first if last_row is None else last_row, col)

    def define(self, name: str, area: Area) -> None:
        """Give an area a name of the whole workbook."""
        if name in self.names:
            raise ValueError(f"the name {name} was given twice")
        self.names[name] = area

    def put(
        self,
        col: int,
        look: str,
        value: float | str | None,
        *,
        digits: int | None = None,
        name: str = "",
        typed: bool = False,
        validation: Validation | None = None,
    ) -> None:
        """Put a text or a number into the present row."""
        text = value if isinstance(value, str) else None
        number = float(value) if isinstance(value, int | float) else None
        self.cells.append(Cell(self.row, col, look, text, number, None, digits, typed, validation))
        if name:
            self.define(name, self.area(col))

    def put_formula(
        self,
        col: int,
        look: str,
        formula: str,
        *,
        digits: int | None = None,
        name: str = "",
        pattern: str = "",
    ) -> None:
        """Put a formula, given without its equals sign, into the present row."""
        cell = Cell(self.row, col, look, formula=f"={formula}", digits=digits, pattern=pattern)
        self.cells.append(cell)
        if name:
            self.define(name, self.area(col))

    def shade(self, col: int, formula: str, look: str, *, last: int = 0) -> None:
        """Let cells of the present row look otherwise where a formula holds, one by default."""
        area = replace(self.area(col), last_col=max(col, last))
        self.shades.append(Shade(area, formula, look))

    def put_head(self, titles: list[tuple[int, str, str]]) -> None:
        """Put the row of column headings: column, look, words."""
        self.heads.append((self.row, self.row))
        filled = {col: (look, words) for col, look, words in titles}
        for col in range(min(len(self.widths), self.span)):
            look, words = filled.get(col, ("head", None))
            self.put(col, look, words)
        self.next_row()

    def put_link(self, col: int, words: str, target: str) -> None:
        """Put words into the present row that lead to a named cell."""
        self.cells.append(Cell(self.row, col, "link", words, link=target))

    def put_prose(self, text: Text, lang: str) -> None:
        """Put a paragraph across the whole width, in as many rows as its longest language needs."""
        room = sum(column_px(width) for width in self.widths[: self.span]) - INSET_PX
        rows = max(len(break_words(words, "prose", room)) for words in text.words.values())
        for line in spread_words(text.pick(lang), "prose", room, rows):
            if line:
                self.put(0, "prose", line)
            self.next_row()

    def fit_height(self, cells: Mapping[int, tuple[str, Iterable[str]]]) -> None:
        """Make the present row high enough for words that wrap, by column: look and languages."""
        height = fit_row(
            (words, look, width)
            for col, (look, languages) in cells.items()
            for width in self.widths[col : col + 1] or [UNSET_WIDTH]
            for words in languages
        )
        if height > ROW_POINTS:
            self.heights[self.row] = max(height, self.heights.get(self.row, 0.0))

    def fit_look(self, look: str) -> float:
        """Return the height in points of a row with one line in a look."""
        return max(fit_lines(1, look), ROW_POINTS)

    def next_row(self, step: int = 1) -> None:
        """Go on below."""
        self.row += step
