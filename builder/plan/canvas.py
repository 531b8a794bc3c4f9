"""A sheet while it is being laid out, top to bottom."""

from dataclasses import dataclass, field

from builder.plan.cells import Area, Cell, Picture, Validation
from builder.spec.records import Text

LINE_HEIGHT = 15.0
LETTERS_PER_WIDTH = 1.12


@dataclass(slots=True)
class Canvas:
    """Collects the cells of one sheet; `row` is the next free row, counting from 0.

    `heads` are the first and last rows of the headings of its tables.
    """

    title: str
    widths: list[float]
    names: dict[str, Area]
    span: int = 9
    row: int = 0
    cells: list[Cell] = field(default_factory=list)
    heights: dict[int, float] = field(default_factory=dict)
    states: list[Area] = field(default_factory=list)
    pictures: list[Picture] = field(default_factory=list)
    frozen_rows: int = 0
    heads: list[tuple[int, int]] = field(default_factory=list)

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

    def put_head(self, titles: list[tuple[int, str, str]]) -> None:
        """Put the row of column headings: column, look, words."""
        self.heads.append((self.row, self.row))
        filled = {col: (look, words) for col, look, words in titles}
        for col in range(min(len(self.widths), self.span)):
            look, words = filled.get(col, ("head", None))
            self.put(col, look, words)
        self.next_row()

    def put_prose(self, text: Text, lang: str) -> None:
        """Put a paragraph across the whole width, in as many rows as its longest language needs."""
        width = sum(self.widths[: self.span])
        per_line = max(20, int(width * LETTERS_PER_WIDTH))
        rows = max(len(wrap_words(words, per_line)) for words in text.words.values())
        for line in spread_words(text.pick(lang), per_line, rows):
            if line:
                self.put(0, "prose", line)
            self.next_row()

    def fit_height(self, words: dict[int, str], letters: float = LETTERS_PER_WIDTH) -> None:
        """Make the present row high enough for words that wrap inside their columns."""
        lines = max(
            len(wrap_words(text, max(4, int(self.widths[col] * letters))))
            for col, text in words.items()
        )
        if lines > 1:
            self.heights[self.row] = LINE_HEIGHT * lines * LETTERS_PER_WIDTH / letters

    def next_row(self, step: int = 1) -> None:
        """Go on below."""
        self.row += step


def spread_words(words: str, width: int, rows: int) -> list[str]:
    """Break words into so many lines, about as long as each other where they need fewer."""
    lines = wrap_words(words, width)
    if len(lines) < rows:
        longest = max(len(word) for word in words.split(" "))
        narrow = max(longest, len(words) // rows)
        even = (wrap_words(words, letters) for letters in range(narrow, width + 1))
        lines = next((found for found in even if len(found) <= rows), lines)
    return lines + [""] * (rows - len(lines))


def wrap_words(words: str, width: int) -> list[str]:
    """Break words into lines of at most `width` letters; a longer word breaks inside."""
    lines: list[str] = []
    line = ""
    for whole in words.split(" "):
        word = whole
        while len(word) > width:
            lines += [line, word[:width]] if line else [word[:width]]
            line, word = "", word[width:]
        longer = f"{line} {word}".strip(" ")
        if len(longer) > width and line:
            lines.append(line)
            longer = word
        line = longer
    return [*lines, line]
