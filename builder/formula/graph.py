"""What depends on what: precedents, order of calculation, cycles."""

from collections.abc import Iterator
from graphlib import CycleError, TopologicalSorter

from builder.formula.grids import WORDS, outer_names, split_grid_name
from builder.formula.tokens import find_names
from builder.spec.records import Check, Constant, Grid, Quantity, Result


def find_precedents(quantity: Quantity, quantities: dict[str, Quantity]) -> list[str]:
    """Return the quantities and grids that this one uses directly."""
    if isinstance(quantity, Grid):
        names = outer_names(quantity, quantities)
    elif isinstance(quantity, Result):
        names = [name.text for name in find_names(quantity.formula)]
    elif isinstance(quantity, Check):
        both = [quantity.formula, quantity.close]
        names = [name.text for formula in both if formula for name in find_names(formula)]
    else:
        return []
    found: dict[str, None] = {}
    for name in names:
        part = split_grid_name(name, quantities)
        if part is None or part.part != WORDS:
            found.setdefault(part.grid.name if part else name)
    return list(found)


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


def find_cut(
    quantity: Quantity, stops: set[str], quantities: dict[str, Quantity]
) -> tuple[set[str], set[str]]:
    """Walk from a formula towards the inputs, but no further than `stops`.

    Return the stops that were met, and the inputs met although they are no stops. A reference
    function whose parameters are the stops determines the quantity if the second set is empty.
    """
    met: set[str] = set()
    missed: set[str] = set()
    seen: set[str] = set()

    def walk(names: list[str]) -> Iterator[str]:
        for name in names:
            if name in seen:
                continue
            seen.add(name)
            yield name
            inner = quantities.get(name)
            if name not in stops and inner is not None:
                yield from walk(find_precedents(inner, quantities))

    for name in walk(find_precedents(quantity, quantities)):
        if name in stops:
            met.add(name)
        elif not isinstance(quantities.get(name), Constant | Result | Check | Grid):
            missed.add(name)
    return met, missed
