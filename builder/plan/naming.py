"""Which of the defined names a file bears: the working columns of grids make many idle ones."""

import re
from collections.abc import Iterator

from builder.formula.grids import LIST, split_grid_name
from builder.plan.cells import Area, PlannedSheet
from builder.spec.records import Record
from builder.spec.specification import Spec

WORD = re.compile(r"\b[A-Za-z]\w*")


def list_borne(sheets: list[PlannedSheet], names: dict[str, Area], spec: Spec) -> Iterator[str]:
    """Yield the names that formulas, rules and links use, and those that others ask for."""
    used = find_used(sheets)
    yield from (name for name in names if name in used or is_asked_for(name, spec))


def find_used(sheets: list[PlannedSheet]) -> set[str]:
    """Return the words of all formulas, rules and links; those of a column are alike."""
    texts: set[str] = set()
    for cell in (cell for sheet in sheets for cell in sheet.cells):
        texts |= {cell.pattern or cell.formula or "", cell.link}
        texts |= {cell.validation.source} if cell.validation else set()
    return {word for text in texts for word in WORD.findall(text)}


def is_asked_for(name: str, spec: Spec) -> bool:
    """Tell whether a name is more than that of a step on the way: typed, in words, or compared."""
    part = split_grid_name(name, spec.quantities)
    if part is None:
        return True
    column = spec.quantities[part.column]
    if part.part != LIST or not isinstance(column, Record):
        return False
    return bool(column.entry or column.worded or column.reference or part.grid.reference)
