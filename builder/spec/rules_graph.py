"""What formulas use: known names, no circle, no division by something that may be 0."""

from collections.abc import Iterator
from graphlib import CycleError, TopologicalSorter
from typing import TypeGuard

from builder.formula.graph import find_cycle
from builder.formula.grids import LIST, ROW_NUMBER, find_owner, split_grid_name
from builder.formula.syntax import Node, Number, Operand, Pair, Sign, walk
from builder.formula.tokens import Name, find_names
from builder.problems import Problem, suggest
from builder.spec.records import Choice, Constant, Grid, Input, Quantity, Record, Result
from builder.spec.rules_names import list_exports
from builder.spec.rules_texts import Formula, find_fault, list_bound, list_rows
from builder.spec.specification import Spec

Interval = tuple[float, float]


def check_known(spec: Spec) -> Iterator[Problem]:
    """Every name in a formula is a quantity, a column of its grid, or a grid's last row."""
    seen: set[tuple[str, tuple[str, ...], str]] = set()
    for formula in list_bound(spec):
        for name in find_names(formula.text):
            key = (formula.owner.name, formula.keys, name.text)
            if key not in seen and (fault := judge_name(formula, name, spec)):
                seen.add(key)
                yield fault


def judge_name(formula: Formula, name: Name, spec: Spec) -> Problem | None:
    """Return what is wrong with one name of a formula."""
    columns = formula.grid.columns if formula.grid else []
    if name.prior:
        return judge_prior(formula, formula.grid, name.text) if formula.grid else None
    beside = formula.grid and find_owner(name.text, formula.grid, spec.quantities)
    inside = beside or (formula.grid and name.text == ROW_NUMBER)
    if inside or is_usable(name.text, spec.quantities):
        return None
    found = spec.quantities.get(name.text)
    if isinstance(found, Quantity):
        kind = type(found).__name__.lower()
        text = f"{name.text} is a {kind}, which has no one value."
        remedy = "Name the last row of a grid as GRID_COLUMN, or a quantity with a value."
        return formula.fault("unusable-name", text, remedy)
    where = f", in grid {formula.grid.name}" if formula.grid else ""
    grids = [grid for grid in spec.quantities.values() if isinstance(grid, Grid)]
    cells = [cell for grid in grids for cell in list_exports(grid)]
    near = suggest(name.text, [*columns, *spec.quantities, *cells])
    text = f"{name.text} is not known{where}.{near}"
    return formula.fault("unknown-name", text, "Correct the name, or declare the quantity.")


def judge_prior(formula: Formula, grid: Grid, name: str) -> Problem | None:
    """Return what is wrong with asking for the row above."""
    if name not in grid.columns:
        text = f"PRIOR({name}) is no column of grid {grid.name}.{suggest(name, grid.columns)}"
        return formula.fault("wrong-prior", text, "Name a column of the same grid.")
    if formula.first:
        text = f"PRIOR({name}) has no row above in the first row of grid {grid.name}."
        return formula.fault("wrong-prior", text, "Give the grid a formula under first.")
    return None


def is_usable(name: str, quantities: dict[str, Quantity]) -> bool:
    """Tell whether one cell holds the value of this name."""
    if isinstance(quantities.get(name), Input | Choice | Constant | Result):
        return True
    return split_grid_name(name, quantities) is not None


def check_circles(spec: Spec) -> Iterator[Problem]:
    """Nothing depends on itself, neither among quantities nor inside a row."""
    circle = find_cycle(spec.quantities)
    if circle:
        owner = spec.quantities[circle[0]]
        yield fault_circle(owner, owner.name, circle)
    for grid in spec.quantities.values():
        if isinstance(grid, Grid):
            yield from check_rows(grid, spec)


def check_rows(grid: Grid, spec: Spec) -> Iterator[Problem]:
    """No column of a grid depends on itself in the same row."""
    rows: dict[bool, dict[str, list[str]]] = {True: {}, False: {}}
    for formula in list_rows(grid, spec):
        names = [name.text for name in find_names(formula.text) if not name.prior]
        inside = list(list_inside(names, grid, spec))
        if formula.column:
            rows[formula.first][formula.column.name] = inside
    found: dict[frozenset[str], list[str]] = {}
    for graph in rows.values():
        try:
            TopologicalSorter(graph).prepare()
        except CycleError as error:
            circle = [str(name) for name in error.args[1]]
            found.setdefault(frozenset(circle), circle)
    for circle in found.values():
        yield fault_circle(grid, grid.name, circle)


def list_inside(names: list[str], grid: Grid, spec: Spec) -> Iterator[str]:
    """Yield the columns of a grid that names mean: in the same row, or as a whole."""
    for name in names:
        part = split_grid_name(name, spec.quantities)
        if name in grid.columns:
            yield name
        elif part and part.grid.name == grid.name and part.part in ("", LIST):
            yield part.column


def fault_circle(owner: Quantity, name: str, circle: list[str]) -> Problem:
    """Return the finding about a circle of names."""
    path = " -> ".join(reversed(circle))
    remedy = "Cut the circle: an unknown is found row by row in a grid."
    return find_fault(owner, "circle", name, f"depends on itself: {path}.", remedy, "formula")


def check_divisions(spec: Spec) -> Iterator[Problem]:
    """No divisor may be 0 inside the limits of the inputs."""
    for formula in list_bound(spec):
        tree = formula.read()
        for node in walk(tree) if tree else ():
            for factor in list_factors(node.right) if is_quotient(node) else ():
                span = find_span(factor, spec.quantities)
                if span and span[0] <= 0 <= span[1]:
                    names = " and ".join(n.text for n in walk(factor) if isinstance(n, Operand))
                    text = f"divides by {names or '0'}, which may be 0."
                    remedy = "Raise the lower limit, or turn the formula round."
                    yield formula.fault("zero-division", text, remedy)


def is_quotient(node: Node) -> TypeGuard[Pair]:
    """Tell whether a node is a division."""
    return isinstance(node, Pair) and node.sign == "/"


def list_factors(node: Node) -> Iterator[Node]:
    """Yield the factors of a product; a power is 0 where its base is."""
    match node:
        case Pair("*", left, right):
            yield from list_factors(left)
            yield from list_factors(right)
        case Pair("^" | "/", left, _) | Sign(_, left):
            yield from list_factors(left)
        case _:
            yield node


def find_span(node: Node, quantities: dict[str, Quantity]) -> Interval | None:
    """Return the smallest and largest value of sums of inputs and constants, else None."""
    match node:
        case Number(text):
            return float(text), float(text)
        case Operand(text):
            return find_limits(quantities.get(text))
        case Pair("+" | "-" as sign, left, right):
            one, other = find_span(left, quantities), find_span(right, quantities)
            if one is None or other is None:
                return None
            low, high = other if sign == "+" else (-other[1], -other[0])
            return one[0] + low, one[1] + high
        case _:
            return None


def find_limits(quantity: Quantity | None) -> Interval | None:
    """Return between which values an input or a constant lies."""
    if isinstance(quantity, Input):
        return quantity.limits.min, quantity.limits.max
    if isinstance(quantity, Constant):
        return quantity.value, quantity.value
    return None


def check_records(spec: Spec) -> Iterator[Problem]:
    """Every record is a column of some grid."""
    used = {name for q in spec.quantities.values() if isinstance(q, Grid) for name in q.columns}
    for quantity in spec.quantities.values():
        if isinstance(quantity, Record) and quantity.name not in used:
            text = "is a column of no grid."
            remedy = "List it among the columns of a grid, or remove it."
            yield find_fault(quantity, "unused-record", quantity.name, text, remedy)
