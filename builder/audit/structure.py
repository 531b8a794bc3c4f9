"""Compares a workbook, cell by cell, with the one that this version builds."""

import math
from collections.abc import Iterator

from builder.audit.book import Book, Cell
from builder.audit.findings import Finding
from builder.audit.normalization import CellValue, normalize_formula

CONSTANT_TOLERANCE = 1e-14
ABSENT = Cell("", None, None, locked=True)


def compare_books(book: Book, pristine: Book, labels: dict[str, str]) -> Iterator[Finding]:
    """Yield a fault for each difference that people cannot make by filling in the workbook."""
    yield from compare_sheets(book, pristine)
    yield from compare_names(book, pristine)
    for place in dict.fromkeys([*pristine.cells, *book.cells]):
        sheet = place.rpartition("!")[0]
        if sheet in book.sheets and sheet in pristine.sheets:
            found = book.cells.get(place, ABSENT)
            for text in compare_cells(found, pristine.cells.get(place, ABSENT)):
                yield Finding(place, labels.get(place, ""), text)


def compare_sheets(book: Book, pristine: Book) -> Iterator[Finding]:
    """Yield a fault for sheets that are other, hidden, unprotected, unlocked or linked."""
    if book.sheets != pristine.sheets:
        found, expected = ", ".join(book.sheets), ", ".join(pristine.sheets)
        yield Finding("", "", f"sheets, found {found}, expected {expected}")
    if book.rounded and not pristine.rounded:
        yield Finding("", "", "calculates with the digits shown, expected full precision")
    twins = {page.title: page for page in pristine.pages}
    for page in book.pages:
        twin = twins.get(page.title)
        if not page.visible:
            yield Finding(page.title, "", "sheet, found hidden, expected visible")
        if twin is None:
            continue
        if twin.protected and not page.protected:
            yield Finding(page.title, "", "sheet protection, found off, expected on")
        if extra := sorted(set(page.unlocked) - set(twin.unlocked)):
            text = f"rows or columns {', '.join(extra)}, found unlocked, expected locked"
            yield Finding(page.title, "", text)
        for cell, link in page.links.items():
            if twin.links.get(cell) != link:
                expected = twin.links.get(cell, "none")
                yield Finding(
                    f"{page.title}!{cell}", "", f"link, found {link}, expected {expected}"
                )


def compare_names(book: Book, pristine: Book) -> Iterator[Finding]:
    """Yield a fault for each defined name that is missing, elsewhere, or not ours."""
    for name in dict.fromkeys([*pristine.names, *book.names]):
        found, expected = book.names.get(name), pristine.names.get(name)
        if found != expected:
            text = f"defined name, found {found or 'none'}, expected {expected or 'none'}"
            yield Finding(expected or found or "", name, text)
    for local in book.local_names:
        if local not in pristine.local_names:
            sheet, _, name = local.rpartition("!")
            yield Finding(sheet, name, "defined name of one sheet, found one, expected none")


def compare_cells(found: Cell, expected: Cell) -> Iterator[str]:
    """Yield what differs; what people typed into an unlocked cell may differ."""
    if found.locked != expected.locked:
        words = {True: "locked", False: "unlocked"}
        yield f"lock, found {words[found.locked]}, expected {words[expected.locked]}"
    if not expected.locked:
        if found.formula and not expected.formula:
            yield f"typed cell, found {found.formula}, expected a value, not a formula"
    elif found.formula and expected.formula:
        if not same_formula(found.formula, expected.formula):
            yield f"formula, found {found.formula}, expected {expected.formula}"
    elif found.formula or expected.formula or not same_constant(found.constant, expected.constant):
        kind = "formula" if expected.formula else "constant"
        yield f"{kind}, found {show(found)}, expected {show(expected)}"


def same_formula(found: str, expected: str) -> bool:
    """Tell whether two formulas say the same in other spellings."""
    return found == expected or normalize_formula(found) == normalize_formula(expected)


def same_constant(found: CellValue, expected: CellValue) -> bool:
    """Tell whether two constants are the same; programs save numbers with 15 digits."""
    if isinstance(found, float) and isinstance(expected, float):
        return math.isclose(found, expected, rel_tol=CONSTANT_TOLERANCE)
    return type(found) is type(expected) and found == expected


def show(cell: Cell) -> str:
    """Return what a cell holds, for messages."""
    if cell.formula:
        return cell.formula
    return "nothing" if cell.constant is None else repr(cell.constant)
