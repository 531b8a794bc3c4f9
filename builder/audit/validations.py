"""Compares what cells accept and how they are coloured, whatever areas a program cuts them into."""

from collections.abc import Iterator
from dataclasses import dataclass

from openpyxl.utils.cell import get_column_letter
from openpyxl.worksheet.cell_range import CellRange

from builder.audit.pages import Rule


@dataclass(frozen=True, slots=True)
class Gap:
    """Cells that accept something else than they should; "" stands for no rule at all."""

    area: str
    found: str
    expected: str


def compare_rules(found: list[Rule], expected: list[Rule]) -> Iterator[Gap]:
    """Yield the cells whose rule is another, is gone, or is one too many."""
    missing = [rule for rule in expected if rule not in set(found)]
    extra = [rule for rule in found if rule not in set(expected)]
    areas = [(CellRange(rule.area), rule) for rule in found] if missing else []
    for rule in missing:
        yield from compare_cells(rule, areas)
    own = [CellRange(rule.area) for rule in expected] if extra else []
    for rule in extra:
        if not is_covered(CellRange(rule.area), own):
            yield Gap(rule.area, rule.shown, "")


def compare_states(found: list[Rule], expected: list[Rule]) -> Iterator[Gap]:
    """Yield the cells that are coloured otherwise; a state laid over others is one too many."""
    gaps = list(compare_rules(found, expected))
    yield from gaps
    known = {rule.text for rule in expected} | {gap.found for gap in gaps}
    for rule in found:
        if rule.text not in known and rule.shown not in known:
            yield Gap(rule.area, rule.shown, "")


def compare_cells(rule: Rule, areas: list[tuple[CellRange, Rule]]) -> Iterator[Gap]:
    """Yield the cells of one area by what they accept now."""
    nothing = Rule(rule.area, "", "")
    cells: dict[str, list[str]] = {}
    for row, column in CellRange(rule.area).cells:
        now = next((other for area, other in areas if holds(area, row, column)), nothing)
        if now.text != rule.text:
            cells.setdefault(now.shown, []).append(f"{get_column_letter(column)}{row}")
    for found, places in cells.items():
        rest = f":{places[-1]}" if len(places) > 1 else ""
        yield Gap(f"{places[0]}{rest}", found, rule.shown)


def is_covered(area: CellRange, areas: list[CellRange]) -> bool:
    """Tell whether each cell of an area lies in one of the areas."""
    if any(area.issubset(other) for other in areas):
        return True
    return all(any(holds(other, row, column) for other in areas) for row, column in area.cells)


def holds(area: CellRange, row: int, column: int) -> bool:
    """Tell whether a cell lies in an area."""
    return area.min_row <= row <= area.max_row and area.min_col <= column <= area.max_col
