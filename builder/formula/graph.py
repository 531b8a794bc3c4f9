"""What depends on what: precedents, order of calculation, cycles."""

from graphlib import CycleError, TopologicalSorter

from builder.formula.grids import BOOK_UNITS, FIXED, outer_names, split_grid_name
from builder.formula.tokens import find_names
from builder.spec.records import Check, Choice, Grid, Input, Quantity, Record, Result

READER = "reader_units"  # what a unit left blank follows


def find_precedents(quantity: Quantity, quantities: dict[str, Quantity]) -> list[str]:
    """Return the quantities and grids that this one uses directly.

    A grid may look up its own rows, and show columns of the grids beside it.
    """
    found: dict[str, None] = {}
    for name in find_uses(quantity, quantities):
        part = split_grid_name(name, quantities)
        if part is None:
            found.setdefault(name)
        elif part.part not in FIXED and quantity.name not in (part.grid.name, part.grid.beside):
            found.setdefault(part.grid.name)
    return list(found)


def find_uses(quantity: Quantity, quantities: dict[str, Quantity]) -> list[str]:
    """Return the names in a quantity's formulas, or from outside in those of a grid."""
    if isinstance(quantity, Grid):
        return outer_names(quantity, quantities)
    if isinstance(quantity, Result):
        return [name.text for name in find_names(quantity.formula)]
    if isinstance(quantity, Check):
        both = [quantity.formula, quantity.close]
        return [name.text for formula in both if formula for name in find_names(formula)]
    return []


def find_behind(name: str, quantities: dict[str, Quantity]) -> list[str]:
    """Return what a name uses: of a grid, only what stands behind the column it asks for."""
    if part := split_grid_name(name, quantities):
        if part.part in FIXED:
            return [READER] if part.part in BOOK_UNITS else []
        return outer_names(part.grid, quantities, part.column)
    quantity = quantities.get(name)
    return find_uses(quantity, quantities) if quantity else []


def sort_quantities(quantities: dict[str, Quantity]) -> list[str]:
    """Return all names, precedents first; raise CycleError on a circle."""
    graph = {name: find_precedents(quantity, quantities) for name, quantity in quantities.items()}
    return [name for name in TopologicalSorter(graph).static_order() if name in quantities]


def find_cycle(quantities: dict[str, Quantity]) -> list[str]:
    """Return the names of a circle of formulas, or nothing."""
    try:
        sort_quantities(quantities)
    except CycleError as error:
        return list(error.args[1])
    return []


class Paths:
    """The ways from formulas towards the inputs; what stands behind a name is found once."""

    def __init__(self, quantities: dict[str, Quantity]) -> None:
        """Begin with nothing found."""
        self.quantities = quantities
        self.behind: dict[str, list[str]] = {}

    def find_cut(self, quantity: Quantity, stops: set[str]) -> tuple[set[str], set[str]]:
        """Walk from a formula towards the inputs, but no further than `stops`.

        Return the stops that were met, and the inputs met although they are no stops. A reference
        function whose parameters are the stops determines the quantity if the second set is empty.
        """
        seen: set[str] = set()
        waiting = find_uses(quantity, self.quantities)
        while waiting:
            name = find_stop(waiting.pop(), stops, self.quantities)
            if name not in seen:
                seen.add(name)
                waiting += [] if name in stops else self.find_behind(name)
        typed = {n for n in seen if isinstance(self.quantities.get(n), Input | Choice | Record)}
        return seen & stops, typed - stops

    def find_behind(self, name: str) -> list[str]:
        """Return what a name uses."""
        if name not in self.behind:
            self.behind[name] = find_behind(name, self.quantities)
        return self.behind[name]


def find_stop(name: str, stops: set[str], quantities: dict[str, Quantity]) -> str:
    """Return the grid where a name points into one that is a stop as a whole, else the name."""
    part = split_grid_name(name, quantities)
    return part.grid.name if part and part.part not in FIXED and part.grid.name in stops else name
