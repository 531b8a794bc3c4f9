"""Compares a workbook, cell by cell, with the one that this version builds."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from openpyxl.utils.cell import coordinate_to_tuple
from openpyxl.worksheet.cell_range import CellRange

from builder.audit.book import Book, Cell
from builder.audit.findings import Finding
from builder.audit.normalization import CellValue, normalize_formula
from builder.audit.pages import STATES
from builder.audit.sheets import compare_files, compare_pages
from builder.audit.validations import Gap, compare_rules, compare_states, holds

CONSTANT_TOLERANCE = 1e-14
LAST_PLACE = 1e-20  # an .ods file keeps twenty decimals
NOTHING_FOLLOWS = ""
MARK, MARKS = "example_n", (0.0, 1.0)  # a book may be an example or not
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
    for finding in (*compare_files(book, pristine), *compare_pages(book, pristine)):
        yield Difference(finding, None)
    yield from compare_names(book, pristine)
    for finding in compare_validations(book, pristine, labels):
        yield Difference(finding, NOTHING_FOLLOWS)
    for finding in compare_colours(book, pristine, labels):
        yield Difference(finding, None)
    for place in dict.fromkeys([*pristine.cells, *book.cells]):
        sheet = place.rpartition("!")[0]
        if sheet in book.sheets and sheet in pristine.sheets:
            found, expected = (b.cells.get(place, ABSENT) for b in (book, pristine))
            label = labels.get(place, "")
            if label == MARK and found.constant in MARKS:
                expected = replace(expected, constant=found.constant)
            for text in compare_cells(found, expected):
                yield Difference(Finding(place, label, text), place)
            for text in (*compare_locks(found, expected), *compare_looks(found, expected)):
                yield Difference(Finding(place, label, text), None)


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


def compare_colours(book: Book, pristine: Book, labels: dict[str, str]) -> Iterator[Finding]:
    """Yield a fault for cells that show their state in other colours; lost ones are a warning.

    Colours come along with what is pasted into typed cells, so those beside locked ones may.
    """
    pages = {page.title: page for page in book.pages}
    for twin in pristine.pages:
        if twin.title in pages:
            for gap in compare_states(pages[twin.title].coloured, twin.coloured):
                if gap.found and (gap.expected or holds_locked(gap.area, twin.title, pristine)):
                    place = f"{twin.title}!{gap.area.partition(':')[0]}"
                    yield Finding(place, labels.get(place, ""), tell_colours(gap))


def holds_locked(area: str, title: str, pristine: Book) -> bool:
    """Tell whether a locked cell that holds something lies in an area of a sheet."""
    inside = CellRange(area)
    for place, cell in pristine.cells.items():
        sheet, _, address = place.rpartition("!")
        if sheet == title and cell.locked and holds(inside, *coordinate_to_tuple(address)):
            return True
    return False


def tell_colours(gap: Gap) -> str:
    """Return which states of some cells are coloured otherwise."""
    found, expected = gap.found.split(STATES), gap.expected.split(STATES)
    other = [state for state in found if state not in expected]
    right = [state for state in expected if state not in found]
    words = f"found {STATES.join(other) or 'another order'}, "
    return f"colours of states in {gap.area}, {words}expected {STATES.join(right) or 'none'}"


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


def compare_locks(found: Cell, expected: Cell) -> Iterator[str]:
    """Yield whether a cell can be typed in that should not be, or the other way round."""
    if found.locked != expected.locked:
        words = {True: "locked", False: "unlocked"}
        yield f"lock, found {words[found.locked]}, expected {words[expected.locked]}"


def compare_looks(found: Cell, expected: Cell) -> Iterator[str]:
    """Yield how the look of a locked cell hides or feigns what it holds.

    A typed cell takes the look of whatever is pasted into it, so its look is nobody's fault.
    """
    if not expected.locked or is_blank(found) or is_blank(expected):
        return
    own, right = found.look, expected.look
    if own.number_format != right.number_format:
        yield f"number format, found {own.number_format}, expected {right.number_format}"
    if own.faded and not right.faded:
        words = f"found {own.ink} on {own.ground}, expected {right.ink} on {right.ground}"
        yield f"ink, {words}"


def is_blank(cell: Cell) -> bool:
    """Tell whether a cell holds nothing."""
    return not cell.formula and cell.constant is None


def compare_cells(found: Cell, expected: Cell) -> Iterator[str]:
    """Yield what differs; what people typed into an unlocked cell may differ."""
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
