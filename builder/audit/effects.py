"""Tells of each difference which results it changes: wrong ones that follow from it."""

from dataclasses import dataclass, replace

from builder.audit.book import Book, Cell
from builder.audit.dependence import Dependence, fold, is_place
from builder.audit.findings import Finding
from builder.audit.normalization import CellValue
from builder.audit.readback import Places
from builder.audit.recalculation import run_ironcalc
from builder.audit.structure import ABSENT, Difference
from builder.audit.values import agree

MOST_NAMES = 5
OTHERS = ""  # stands for cells that are worked out and shown but are no result


@dataclass(frozen=True, slots=True)
class Effects:
    """The faults of structure with their effects, and the results that typed formulas change."""

    faults: list[Finding]
    unproven: set[str]


def find_effects(
    differences: list[Difference],
    book: Book,
    pristine: Book,
    places: Places,
    shown: dict[str, CellValue],
) -> Effects:
    """Return each difference with the results that are wrong and follow from it."""
    if all(difference.origin is None for difference in differences):
        return Effects([difference.finding for difference in differences], set())
    wrong = find_wrong(shown, work_out_right(book, pristine), places)
    dependence = Dependence(book, {**pristine.cells, **book.cells})
    behind = {name: dependence.follow_back(cells) for name, cells in wrong.items()}
    faults: list[Finding] = []
    unproven: set[str] = set()
    for difference in differences:
        finding, origin = difference.finding, difference.origin
        if origin is None:
            faults.append(finding)
            continue
        node = origin if is_place(origin) else fold(origin)
        names = [name for name, nodes in behind.items() if node in nodes]
        faults.append(replace(finding, text=f"{finding.text}; {describe(names)}"))
        if is_typed(pristine, origin):
            unproven |= set(names)
    return Effects(faults, unproven)


def work_out_right(book: Book, pristine: Book) -> dict[str, CellValue]:
    """Return what each pristine formula makes of what was typed in the workbook."""
    cells = dict(pristine.cells)
    for place, cell in pristine.cells.items():
        if not cell.locked and not cell.formula:
            typed = book.cells.get(place, ABSENT).constant  # nothing where there is a formula
            cells[place] = Cell("", typed, typed, locked=False)
    typed_in = replace(pristine, cells=cells)
    return run_ironcalc(typed_in)


def find_wrong(
    shown: dict[str, CellValue], right: dict[str, CellValue], places: Places
) -> dict[str, list[str]]:
    """Return the wrong cells by result or by column of a grid, and all others together."""
    owners = {cell: name for name, cell in places.case.outcomes.items()}
    for column in places.columns:
        if column.source:
            owners |= dict.fromkeys(column.cells, column.name)
    wrong: dict[str, list[str]] = {name: [] for name in [*owners.values(), OTHERS]}
    for place, value in right.items():
        if not agree(shown.get(place), value):
            wrong[owners.get(place, OTHERS)].append(place)
    return {name: cells for name, cells in wrong.items() if cells}


def is_typed(pristine: Book, place: str) -> bool:
    """Tell whether people type into a cell."""
    cell = pristine.cells.get(place)
    return cell is not None and not cell.locked


def describe(names: list[str]) -> str:
    """Return what a difference changes, in words."""
    results = [name for name in names if name != OTHERS]
    if not results:
        return "changes no result" + (", but what is shown" if names else "")
    rest = len(results) - MOST_NAMES
    more = f" and {rest} more" if rest > 0 else ""
    return f"changes: {', '.join(results[:MOST_NAMES])}{more}"
