"""What some programs drop when they save, and what people switch: worth a word, not a fault."""

from collections.abc import Iterator

from openpyxl.worksheet.cell_range import CellRange

from builder.audit.book import Book, Page
from builder.audit.findings import Finding


def find_losses(book: Book, pristine: Book) -> Iterator[Finding]:
    """Yield a warning for each sheet that lost validations or conditional formats."""
    if book.manual and not pristine.manual:
        yield Finding("", "", "calculation is set to manual: results follow only after F9")
    pages = {page.title: page for page in book.pages}
    for twin in pristine.pages:
        page = pages.get(twin.title)
        if page is not None:
            yield from compare_areas(page, "drop-downs and limits", page.validated, twin.validated)
            yield from compare_areas(page, "colours of states", page.formatted, twin.formatted)


def compare_areas(
    page: Page, words: str, found: list[str], expected: list[str]
) -> Iterator[Finding]:
    """Yield a warning where cells that had something have it no more."""
    changed = set(expected).difference(found)  # in most files none, of thousands
    areas = [CellRange(area) for area in found] if changed else []
    lost = [area for area in expected if area in changed and not is_covered(CellRange(area), areas)]
    if lost:
        text = f"{words} lost in {', '.join(lost)}; a program that saved the file dropped them"
        yield Finding(f"{page.title}!{lost[0]}", "", text)


def is_covered(area: CellRange, areas: list[CellRange]) -> bool:
    """Tell whether each cell of an area lies in one of the areas."""
    if any(area.issubset(other) for other in areas):
        return True
    return all(any(holds(other, row, column) for other in areas) for row, column in area.cells)


def holds(area: CellRange, row: int, column: int) -> bool:
    """Tell whether a cell lies in an area."""
    return area.min_row <= row <= area.max_row and area.min_col <= column <= area.max_col
