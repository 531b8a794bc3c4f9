"""What the names of a workbook stand for, told without addresses: rows and sheets may move."""

import hashlib
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from openpyxl.utils.cell import coordinate_to_tuple

from builder.audit.book import Book
from builder.audit.cases import keep_columns, list_cells
from builder.formula.grids import LIST

# A text, which stays as it is, or a cell or an area, perhaps of another sheet.
REFERENCE = re.compile(
    r"\"[^\"]*\"|(?<![\w.$!])(?:(?P<sheet>'(?:[^']|'')+'|[^\W\d][\w.]*)!)?"
    r"(?P<first>\$?[A-Z]{1,3}\$?[0-9]{1,7})(?::(?P<last>\$?[A-Z]{1,3}\$?[0-9]{1,7}))?(?![\w(])"
)
DEEPEST = 100  # cells without a name behind each other
LARGEST = 400  # cells of an area without a name
DIGITS = 12
TYPED, BLANK, WORD, NUMBER, LOST = "typed", "blank", "word", "number", "lost"


@dataclass(frozen=True, slots=True)
class Trait:
    """How a cell is worked out, by names; and the numbers that stand in cells without a name."""

    shape: str
    numbers: str = ""


class Traits:
    """The traits of one workbook; `spell` brings a formula into the spelling to compare."""

    def __init__(self, book: Book, spell: Callable[[str], str]) -> None:
        """Find which names lead to which cells; formulas are read when somebody asks."""
        self.book, self.spell = book, spell
        self.owners: dict[str, str] = {}
        self.rows: dict[str, tuple[str, int]] = {}
        for name, target in sorted(keep_columns(book.names).items()):
            self.owners.setdefault(target.replace("$", ""), name)
            if name.endswith(LIST):
                for number, cell in enumerate(list_cells(target)):
                    self.rows.setdefault(cell, (name, number))
        self.found: dict[str, Trait] = {}
        self.depth = 0

    def describe(self, place: str) -> Trait:
        """Return what a cell holds."""
        if place not in self.found:
            self.found[place] = Trait(LOST)  # for a cell that follows from itself
            self.depth += 1
            self.found[place] = self.read(place) if self.depth < DEEPEST else Trait(LOST)
            self.depth -= 1
        return self.found[place]

    def read(self, place: str) -> Trait:
        """Return the same, read from the workbook."""
        cell = self.book.cells.get(place)
        if cell is None:
            return Trait(BLANK)
        if cell.formula:
            return self.read_formula(place, cell.formula)
        if not cell.locked:
            return Trait(TYPED)
        if isinstance(cell.constant, float):
            return Trait(NUMBER, f"{cell.constant:.{DIGITS}g}")
        return Trait(WORD)

    def read_formula(self, place: str, formula: str) -> Trait:
        """Return a formula with names and traits for its addresses."""
        numbers: list[str] = []

        def swap(found: re.Match[str]) -> str:
            if not found["first"]:
                return found[0]
            parts = list(self.list_parts(place, found))
            numbers.extend(part.numbers for part in parts if part.numbers)
            return "_".join(part.shape for part in parts)

        text = self.spell(REFERENCE.sub(swap, formula))
        return Trait(shorten(text), shorten(" ".join(numbers)) if numbers else "")

    def list_parts(self, own: str, found: re.Match[str]) -> Iterator[Trait]:
        """Yield what a reference in a formula of a cell stands for."""
        sheet = (found["sheet"] or "").strip("'").replace("''", "'") or own.rpartition("!")[0]
        ends = [end for end in (found["first"], found["last"]) if end]
        area = f"{sheet}!{':'.join(ends).replace('$', '')}"
        places = [f"{sheet}!{end.replace('$', '')}" for end in ends]
        if area in self.owners:
            yield Trait(self.owners[area])
        elif all(place in self.rows for place in places):
            for place, end in zip(places, ends, strict=True):
                yield Trait(self.name_row(own, place, fixed="$" in end[1:]))
        elif len(ends) == 1:
            yield self.describe(area)
        elif measure(*ends) <= LARGEST:
            for place in list_cells(area):
                yield self.describe(place)
        else:
            yield Trait(LOST)

    def name_row(self, own: str, place: str, *, fixed: bool) -> str:
        """Return a cell of a column by name and row, counted from the formula's own row or not."""
        name, number = self.rows[place]
        if fixed or own not in self.rows:
            return f"{name}_row_{number}"
        step = number - self.rows[own][1]
        return f"{name}_{'above' if step < 0 else 'below'}_{abs(step)}"


def measure(first: str, last: str) -> int:
    """Return how many cells an area has."""
    (top, left), (bottom, right) = (
        coordinate_to_tuple(end.replace("$", "")) for end in (first, last)
    )
    return (abs(bottom - top) + 1) * (abs(right - left) + 1)


def shorten(text: str) -> str:
    """Return a fingerprint that can stand in a formula as a name, so that no formula grows."""
    return f"x{hashlib.sha256(text.encode()).hexdigest()[:16]}"
