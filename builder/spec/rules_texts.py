"""What the rules share: findings at the line of a key, and all formulas of a spec."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Protocol

from builder.formula.grids import grid_columns, list_words, row_formula
from builder.formula.syntax import FormulaError, Node, parse
from builder.problems import Problem
from builder.spec.records import Check, Choice, Grid, Place, Quantity, Record, Result
from builder.spec.specification import Spec


class Placed(Protocol):
    """Anything that knows where it stands."""

    @property
    def place(self) -> Place:
        """Return the file, the line, and the lines of the keys."""


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula, whose it is and under which key it stands; in a row of a grid, which one.

    `places` is the number of words in the list of which it gives a place, one more for none.
    """

    owner: Quantity
    keys: tuple[str, ...]
    text: str
    grid: Grid | None = None
    column: Record | None = None
    first: bool = True
    places: int = -2

    @property
    def made(self) -> bool:
        """Whether the program made it, for a column that only reads a typed one."""
        return isinstance(self.owner, Record) and bool(self.owner.made_from)

    def fault(self, code: str, text: str, remedy: str) -> Problem:
        """Return a finding at the line of the formula."""
        return find_fault(self.owner, code, self.owner.name, text, remedy, *self.keys)

    def read(self) -> Node | None:
        """Return the formula's tree, or None where it cannot be read."""
        try:
            return parse(self.text)
        except FormulaError:
            return None


def find_fault(entry: Placed, code: str, name: str, text: str, remedy: str, *keys: str) -> Problem:
    """Return a finding at the line of a key of an entry."""
    return Problem(entry.place.file, entry.place.at(*keys), code, name, text, remedy)


def is_worded(quantity: Quantity | None) -> bool:
    """Tell whether a cell of this quantity holds a word and not a number."""
    if isinstance(quantity, Result) and quantity.options:
        return True
    return isinstance(quantity, Choice) or (
        isinstance(quantity, Record)
        and (bool(quantity.codes) or quantity.entry in ("choice", "text"))
    )


def list_written(spec: Spec) -> Iterator[Formula]:
    """Yield all formulas as they stand in the files."""
    for quantity in spec.quantities.values():
        match quantity:
            case Result() | Check():
                yield Formula(quantity, ("formula",), quantity.formula)
                if isinstance(quantity, Check) and quantity.close:
                    yield Formula(quantity, ("close",), quantity.close)
            case Record():
                if quantity.formula:
                    places = count_words(quantity, spec)
                    yield Formula(quantity, ("formula",), quantity.formula, places=places)
            case Grid():
                for key, texts in (("first", quantity.first), ("rest", quantity.rest)):
                    for name, text in texts.items():
                        column = spec.quantities.get(name)
                        places = count_words(column, spec) if isinstance(column, Record) else -2
                        yield Formula(quantity, (key, name), text, quantity, places=places)


def count_words(column: Record, spec: Spec) -> int:
    """Return how many words there are of which a column gives the place, as a bare number."""
    listed = spec.quantities.get(column.places)
    return len(list_words(listed, spec.quantities)) if isinstance(listed, Record) else -2


def list_bound(spec: Spec) -> Iterator[Formula]:
    """Yield all formulas as cells will hold them: in grids by column, with bound names."""
    for formula in list_written(spec):
        if isinstance(formula.owner, Result | Check):
            yield formula
    for grid in spec.quantities.values():
        if isinstance(grid, Grid):
            yield from list_rows(grid, spec)


def list_rows(grid: Grid, spec: Spec) -> Iterator[Formula]:
    """Yield the formulas of a grid's first row, and of the others where there are any."""
    for first in (True, False) if grid.rows > 1 else (True,):
        key, texts = ("first", grid.first) if first else ("rest", grid.rest)
        for column in grid_columns(grid, spec.quantities):
            own = column.name in texts
            text = row_formula(grid, column, first=first)
            if text:
                owner: Quantity = grid if own else column
                keys = (key, column.name) if own else ("formula",)
                yield Formula(owner, keys, text, grid, column, first)
