"""What some programs drop when they save, and what people switch: worth a word, not a fault."""

from collections.abc import Iterable, Iterator

from builder.audit.book import Book
from builder.audit.findings import Finding
from builder.audit.pages import Page
from builder.audit.validations import Gap, compare_rules


def find_losses(book: Book, pristine: Book) -> Iterator[Finding]:
    """Yield a warning for what is switched or hidden, and for each sheet that lost something."""
    if book.manual and not pristine.manual:
        yield Finding("", "", "calculation is set to manual: results follow only after F9")
    if book.circular and not pristine.circular:
        yield Finding("", "", "calculates in circles (iteration is on): they go without an error")
    pages = {page.title: page for page in book.pages}
    for twin in pristine.pages:
        page = pages.get(twin.title)
        if page is not None:
            rules = compare_rules(page.validated, twin.validated)
            yield from report_loss(twin.title, "drop-downs and limits", rules)
            states = compare_rules(page.coloured, twin.coloured)
            yield from report_loss(twin.title, "colours of states", states)
            yield from find_unseen(page, twin)


def find_unseen(page: Page, twin: Page) -> Iterator[Finding]:
    """Yield a warning for rows and columns that are hidden, and for what does not print."""
    hidden = [span for span in page.hidden if span not in twin.hidden]
    if hidden:
        text = f"rows or columns {', '.join(hidden)}, found hidden, expected shown"
        yield Finding(page.title, "", text)
    for words, found, expected in (
        ("print area", page.printed, twin.printed),
        ("rows on every page", page.repeated, twin.repeated),
    ):
        if found != expected:
            text = f"{words}, found {found or 'none'}, expected {expected or 'none'}"
            yield Finding(page.title, "", text)


def report_loss(sheet: str, words: str, gaps: Iterable[Gap]) -> Iterator[Finding]:
    """Yield a warning where cells that had something have it no more."""
    areas = [gap.area for gap in gaps if not gap.found]
    if areas:
        text = f"{words} lost in {', '.join(areas)}; a program that saved the file dropped them"
        yield Finding(f"{sheet}!{areas[0].partition(':')[0]}", "", text)
