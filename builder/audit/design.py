"""What a workbook is compared with, how its cells are called, and where people type."""

from dataclasses import dataclass, replace

from builder.audit.book import Book, Cell
from builder.audit.cases import keep_columns, list_cells, name_row
from builder.audit.changes import CODES, Side, take_side
from builder.audit.readback import Places, find_places
from builder.formula.grids import LIST
from builder.spec.specification import Spec

STATE_WORD = "word_"


@dataclass(frozen=True, slots=True)
class Design:
    """A workbook as it should be; `side` is ready to be compared with another by names."""

    book: Book
    labels: dict[str, str]
    places: Places
    side: Side


def make_design(spec: Spec, book: Book) -> Design:
    """Return what there is to know of a workbook before it is compared with another."""
    names = book.names
    return Design(book, label_cells(names), find_places(spec, names), take_side(book))


def label_cells(names: dict[str, str]) -> dict[str, str]:
    """Return the first defined name of each cell, or else its column and row in a grid."""
    labels: dict[str, str] = {}
    for name, cell in names.items():
        labels.setdefault(cell, name)
    for name, area in keep_columns(names).items():
        if name.endswith(LIST):
            for number, cell in enumerate(list_cells(area), start=1):
                labels.setdefault(cell, name_row(name.removesuffix(LIST), number))
    return labels


def has_same_frame(book: Book, pristine: Book) -> bool:
    """Tell whether each name leads to the same cells, and whether the states have their words."""
    words = [cell for name, cell in pristine.names.items() if name.startswith(STATE_WORD)]
    return book.names == pristine.names and all(
        read_cell(book, cell).constant == read_cell(pristine, cell).constant for cell in words
    )


def adopt_words(book: Book, design: Design) -> Design:
    """Return a design with the words and looks of a workbook that was built with other ones."""
    pristine, places = design.book, {*design.book.cells, *book.cells}
    codes = {
        cell
        for name, target in keep_columns(pristine.names).items()
        if name.endswith(CODES)
        for cell in list_cells(target)
    }
    cells = dict(pristine.cells)
    for place in places - codes:
        found, here = read_cell(book, place), read_cell(pristine, place)
        if is_word(found) and is_word(here):
            cells[place] = replace(found, locked=here.locked)
        elif place in cells:
            cells[place] = replace(here, look=found.look)
    return replace(design, book=replace(pristine, cells=cells))


def is_word(cell: Cell) -> bool:
    """Tell whether a locked cell holds words, or nothing."""
    return not cell.formula and cell.locked and isinstance(cell.constant, str | None)


def read_cell(book: Book, place: str) -> Cell:
    """Return a cell, a blank one where there is none."""
    return book.cells.get(place) or Cell("", None, None, locked=True)
