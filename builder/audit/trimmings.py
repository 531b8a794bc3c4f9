"""What some programs drop when they save, and what people switch: worth a word, not a fault."""

from collections.abc import Iterator

from openpyxl.worksheet.cell_range import CellRange

from builder.audit.book import Book, Page
from builder.audit.findings import Finding
from builder.audit.validations import compare_rules, is_covered


def find_losses(book: Book, pristine: Book) -> Iterator[Finding]:
    """Yield a warning for each sheet that lost validations or conditional formats."""
    if book.manual and not pristine.manual:
        yield Finding("", "", "calculation is set to manual: results follow only after F9")
    pages = {page.title: page for page in book.pages}
    for twin in pristine.pages:
        page = pages.get(twin.title)
        if page is not None:
            gaps = compare_rules(page.validated, twin.validated)
            dropped = [gap.area for gap in gaps if not gap.found]
            yield from report_loss(twin.title, "drop-downs and limits", dropped)
            yield from report_loss(twin.title, "colours of states", find_uncoloured(page, twin))


def find_uncoloured(page: Page, twin: Page) -> list[str]:
    """Return the areas with coloured states that are not coloured any more."""
    changed = set(twin.formatted).difference(page.formatted)  # in most files none, of thousands
    areas = [CellRange(area) for area in page.formatted] if changed else []
    return [
        area
        for area in twin.formatted
        if area in changed and not is_covered(CellRange(area), areas)
    ]


def report_loss(sheet: str, words: str, areas: list[str]) -> Iterator[Finding]:
    """Yield a warning where cells that had something have it no more."""
    if areas:
        text = f"{words} lost in {', '.join(areas)}; a program that saved the file dropped them"
        yield Finding(f"{sheet}!{areas[0].partition(':')[0]}", "", text)
