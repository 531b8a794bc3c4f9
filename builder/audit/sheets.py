"""Compares sheets as a whole, and how the workbook calculates, with what this version builds."""

from collections.abc import Iterator

from builder.audit.book import Book
from builder.audit.findings import Finding
from builder.audit.pages import Page


def compare_files(book: Book, pristine: Book) -> Iterator[Finding]:
    """Yield a fault for other sheets, and for switches that change every number or day."""
    if book.sheets != pristine.sheets:
        found, expected = ", ".join(book.sheets), ", ".join(pristine.sheets)
        yield Finding("", "", f"sheets, found {found}, expected {expected}")
    if book.rounded and not pristine.rounded:
        yield Finding("", "", "calculates with the digits shown, expected full precision")
    if book.early != pristine.early:
        years = {True: "1904", False: "1900"}
        text = f"counts days from {years[book.early]}, expected from {years[pristine.early]}"
        yield Finding("", "", text)


def compare_pages(book: Book, pristine: Book) -> Iterator[Finding]:
    """Yield a fault for sheets that are hidden, unprotected, unlocked or linked."""
    twins = {page.title: page for page in pristine.pages}
    for page in book.pages:
        if not page.visible:
            yield Finding(page.title, "", "sheet, found hidden, expected visible")
        twin = twins.get(page.title)
        if twin is not None:
            yield from compare_protection(page, twin)
            yield from compare_links(page, twin)


def compare_protection(page: Page, twin: Page) -> Iterator[Finding]:
    """Yield a fault for a sheet where people may do more than they should."""
    if twin.protected and not page.protected:
        yield Finding(page.title, "", "sheet protection, found off, expected on")
    elif twin.protected:
        for right in page.allowed:
            if right not in twin.allowed:
                text = f"sheet protection, found {right} allowed, expected forbidden"
                yield Finding(page.title, "", text)
    if extra := sorted(set(page.unlocked) - set(twin.unlocked)):
        text = f"rows or columns {', '.join(extra)}, found unlocked, expected locked"
        yield Finding(page.title, "", text)


def compare_links(page: Page, twin: Page) -> Iterator[Finding]:
    """Yield a fault for a link that leads elsewhere."""
    for cell, link in page.links.items():
        if twin.links.get(cell) != link:
            expected = twin.links.get(cell, "none")
            yield Finding(f"{page.title}!{cell}", "", f"link, found {link}, expected {expected}")
