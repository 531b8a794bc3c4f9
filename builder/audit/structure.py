"""Compares a workbook, cell by cell, with the one that this version builds."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from builder.audit.book import Book, Cell
from builder.audit.findings import Finding
from builder.audit.normalization import CellValue, normalize_formula
from builder.audit.validations import compare_rules

CONSTANT_TOLERANCE = 1e-14
LAST_PLACE = 1e-20  # an .ods file keeps twenty decimals
LOCK = "lock"
NOTHING_FOLLOWS = ""
ABSENT = Cell("", None, None, locked=True)


@dataclass(frozen=True, slots=True)
class Difference:
    """A fault of structure, and the cell or name from which wrong results may follow.

    The origin is None where the question does not arise, as for a lock.
    """

    finding: Finding
    origin: str | None


def compare_books(book: Book, pristine: Book, labels: dict[str, str]) -> Iterator[Difference]:
    """Yield each difference that people cannot make by filling in the workbook."""
    for finding in compare_sheets(book, pristine):
        yield Difference(finding, None)
    yield from compare_names(book, pristine)
    for finding in compare_validations(book, pristine, labels):
        yield Difference(finding, NOTHING_FOLLOWS)
    for place in dict.fromkeys([*pristine.cells, *book.cells]):
        sheet = place.rpartition("!")[0]
        if sheet in book.sheets and sheet in pristine.sheets:
            found = book.cells.get(place, ABSENT)
            for text in compare_cells(found, pristine.cells.get(place, ABSENT)):
                finding = Finding(place, labels.get(place, ""), text)
                yield Difference(finding, None if text.startswith(LOCK) else place)


def compare_validations(book: Book, pristine: Book, labels: dict[str, str]) -> Iterator[Finding]:
    """Yield a fault for cells that accept something else; a dropped rule is only a warning."""
    pages = {page.title: page for page in book.pages}
    for twin in pristine.pages:
        if twin.title in pages:
            for gap in compare_rules(pages[twin.title].validated, twin.validated):
                if gap.found:
                    place = f"{twin.title}!{gap.area.partition(':')[0]}"
                    text = f"validation of {gap.area}, found {gap.found}, "
                    expected = f"expected {gap.expected or 'none'}"
                    yield Finding(place, labels.get(place, ""), text + expected)


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


def compare_names(book: Book, pristine: Book) -> Iterator[Difference]:
    """Yield each defined name that is missing, elsewhere, or not ours."""
    for name in dict.fromkeys([*pristine.names, *book.names]):
        found, expected = book.names.get(name), pristine.names.get(name)
        if found != expected:
            text = f"defined name, found {found or 'none'}, expected {expected or 'none'}"
            yield Difference(Finding(expected or found or "", name, text), name)
    for local in book.local_names:
        if local not in pristine.local_names:
            sheet, _, name = local.rpartition("!")
            text = "defined name of one sheet, found one, expected none"
            yield Difference(Finding(sheet, name, text), name)


def compare_cells(found: Cell, expected: Cell) -> Iterator[str]:
    """Yield what differs; what people typed into an unlocked cell may differ."""
    if found.locked != expected.locked:
        words = {True: "locked", False: "unlocked"}
        yield f"{LOCK}, found {words[found.locked]}, expected {words[expected.locked]}"
    if not expected.locked:
        if found.formula and not expected.formula:
            remedy = "expected a value, not a formula: counts as blank"
            yield f"typed cell, found {found.formula}, {remedy}"
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
        return math.isclose(found, expected, rel_tol=CONSTANT_TOLERANCE, abs_tol=LAST_PLACE)
    return type(found) is type(expected) and found == expected


def show(cell: Cell) -> str:
    """Return what a cell holds, for messages."""
    if cell.formula:
        return cell.formula
    return "nothing" if cell.constant is None else repr(cell.constant)
