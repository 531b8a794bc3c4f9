"""Formulas by themselves: what each one reads is set freely, its reference says what comes of it.

Through the inputs alone some values are never met: ties of a computed value with its limit, one
name missing of several that come from the same input, a solver that has not converged.
"""

import inspect
from collections.abc import Iterator
from dataclasses import dataclass, field

from workbook.files import Cell, Value

from builder.calculation import Calculation, Known, find_arguments, find_beside, find_reference
from builder.formula.graph import find_uses
from builder.formula.grids import (
    LIST,
    ROW_NUMBER,
    WORDS,
    bind_name,
    grid_columns,
    row_formula,
    split_grid_name,
)
from builder.formula.tokens import find_names
from builder.spec.records import Check, Choice, Constant, Grid, Input, Quantity, Record, Result
from builder.spec.specification import Spec
from proof.coverage_columns import show
from proof.coverage_scene import Scene, Wanted

Judged = Result | Check | Record
BY = "reference of the formula by itself"
# What a formula may rely on, and its reference does not: such values are not set for it.
RELIED: dict[str, tuple[str, Value]] = {
    "entry_n": ("log_entry_n_list", None),  # the row above always has a count
    "weight_n": ("last_wash_d", None),  # 0 where nothing was washed
    "chlorine_rest_h": ("chlorine_first_mgpL", 0.0),  # the rate is blank without chlorine
}
SORTED = ("entry_row_n", "log_entry_n_list")  # looks into counts, which rise


@dataclass(frozen=True, slots=True)
class Alone:
    """A formula in one cell; `keys` are the cells that its reference goes by.

    A key is the name of a quantity, or of a list with a row: `log_owed_L_list 3`.
    """

    quantity: Judged
    cell: Cell
    formula: str
    names: dict[str, str]
    keys: frozenset[str]
    row: int = 0
    grid: str = ""


@dataclass(slots=True)
class Opened:
    """What formulas read on the way to the names that their references go by: it stays live."""

    spec: Spec
    names: set[str] = field(default_factory=set)

    def reach(self, name: str, stops: frozenset[str], seen: set[str]) -> bool:
        """Tell whether a name is a stop, or leads to stops only; note what lies between."""
        quantities = self.spec.quantities
        part = split_grid_name(name, quantities)
        quantity = quantities.get(name)
        always = isinstance(quantity, Constant) or (part and part.part in WORDS)
        if always or name in stops or name in seen:
            return True
        behind = find_inside(name, quantities)
        if not behind or isinstance(quantity, Input | Choice):
            return False
        seen.add(name)
        return all(self.reach(each, stops, seen) for each in behind)


def find_inside(name: str, quantities: dict[str, Quantity]) -> list[str]:
    """Return what a result or a worked column without passes is made of, one step back."""
    part = split_grid_name(name, quantities)
    quantity = quantities.get(name)
    if isinstance(quantity, Result):
        return find_uses(quantity, quantities)
    column = quantities.get(part.column) if part else None
    if part is None or part.part != LIST or not isinstance(column, Record) or column.entry:
        return []
    if part.column in {*part.grid.first, *part.grid.rest}:
        return []
    names = find_names(row_formula(part.grid, column, first=True))
    if any(each.prior or each.text == ROW_NUMBER for each in names):
        return []
    own = part.grid.columns
    return [f"{part.grid.name}_{n.text}{LIST}" if n.text in own else n.text for n in names]


def list_alone(scene: Scene) -> tuple[list[Alone], set[str]]:
    """Return the formulas that can be tried by themselves, and the names that stay live."""
    opened = Opened(scene.spec)
    found: list[Alone] = []
    for quantity in scene.spec.quantities.values():
        if isinstance(quantity, Result | Check) and quantity.formula and quantity.reference:
            found += try_scalar(quantity, scene, opened)
        elif isinstance(quantity, Grid):
            found += try_grid(quantity, scene, opened)
    return found, opened.names


def try_scalar(quantity: Result | Check, scene: Scene, opened: Opened) -> Iterator[Alone]:
    """Yield a result or verdict whose formula goes by the same names as its reference."""
    function = find_reference(quantity.reference)
    if not callable(function):
        return
    names = find_arguments(quantity, function)
    stops, seen = frozenset(names.values()), set[str]()
    uses = find_uses(quantity, scene.spec.quantities)
    if not all(opened.reach(name, stops, seen) for name in uses):
        return
    opened.names |= seen
    keys = frozenset(key for name in stops for key in spread(name, scene))
    formula = quantity.formula
    if isinstance(quantity, Check) and quantity.close:
        formula = f"AND({formula},{quantity.close})"
    yield Alone(quantity, scene.file.cell(quantity.name), formula, names, keys)


def try_grid(grid: Grid, scene: Scene, opened: Opened) -> Iterator[Alone]:
    """Yield the cells of worked columns whose references go by the same names."""
    for column in grid_columns(grid, scene.spec.quantities):
        function = find_reference(column.reference) if column.reference else None
        if column.entry or not callable(function) or column.words:
            continue
        names = find_arguments(column, function)
        for row, cell in enumerate(scene.file.names[f"{grid.name}_{column.name}{LIST}"], start=1):
            formula = row_formula(grid, column, first=row == 1)
            stops = frozenset(widen(name, grid) for name in names.values())
            seen = set[str]()
            uses = [widen(read(n.text, n.prior), grid) for n in find_names(formula)]
            # A place in a list by the number of the row is what the reference is given.
            beside = {n.removeprefix("ROW(").removesuffix(")") for n in stops}
            known = stops | beside | {ROW_NUMBER}
            if not all(opened.reach(name, known, seen) for name in uses):
                continue
            opened.names |= seen
            keys = frozenset(k for n in stops for k in place(n, row, grid, scene))
            yield Alone(column, cell, formula, names, keys, row, grid.name)


def read(name: str, prior: bool) -> str:  # noqa: FBT001 as of a name
    """Return a name as references call it."""
    return f"PRIOR({name})" if prior else name


def widen(name: str, grid: Grid) -> str:
    """Return the full name of a column of a grid."""
    return f"{grid.name}_{name}{LIST}" if name in grid.columns else bind_name(name, grid.bind)


def place(name: str, row: int, grid: Grid, scene: Scene) -> Iterator[str]:
    """Yield the keys of what a row's reference is given."""
    if name.startswith("PRIOR("):
        column = name.removeprefix("PRIOR(").removesuffix(")")
        yield from (f"{grid.name}_{column}{LIST} {row - 1}",) if row > 1 else ()
    elif name.startswith("ROW("):
        yield f"{name.removeprefix('ROW(').removesuffix(')')} {row}"
    elif name.startswith(f"{grid.name}_") and name.endswith(LIST):
        yield f"{name} {row}"
    elif name != ROW_NUMBER:
        yield from spread(name, scene)


def spread(name: str, scene: Scene) -> Iterator[str]:
    """Yield the key of a quantity, or those of all rows of a list."""
    cells = scene.file.names.get(name, [])
    if split_grid_name(name, scene.spec.quantities):
        yield from (f"{name} {row}" for row in range(1, len(cells) + 1))
    else:
        yield name


def set_keys(season: Calculation, change: dict[str, Value]) -> Calculation:
    """Return a calculation in which some values are others."""
    values, columns = {**season.values}, {**season.columns}
    for key, value in change.items():
        name, _, row = key.partition(" ")
        if row:
            columns[name] = [*columns[name]]
            columns[name][int(row) - 1] = value
        else:
            values[name] = value
    return Calculation(values, columns)


def is_apart(alone: Alone, change: dict[str, Value]) -> bool:
    """Tell whether a change does not concern a formula, or takes away what it relies on."""
    name = alone.quantity.name
    touched = {(key.partition(" ")[0], value) for key, value in change.items()}
    mixed = any((name, key) == SORTED for key, _ in touched)
    return mixed or not alone.keys & change.keys() or RELIED.get(name) in touched


def judge(alone: Alone, scene: Scene) -> Wanted | None:
    """Return what a cell should show by its reference, or None where that refuses the values."""
    function = find_reference(alone.quantity.reference)
    if not callable(function):
        raise LookupError(alone.quantity.reference)  # noqa: TRY004 a wrong spec
    known: Known = {**scene.season.columns, **scene.season.values}
    if alone.row:
        known |= list_beside(alone, known)
    given = {parameter: known.get(name) for parameter, name in alone.names.items()}
    needed = inspect.signature(function).parameters
    nothing = {parameter for parameter, value in given.items() if value is None}
    lacking = any(needed[each].default is inspect.Parameter.empty for each in nothing)
    try:
        value = None if lacking else function(**given)
    except (ValueError, ArithmeticError):
        return None
    tolerance = alone.quantity.tolerance if isinstance(alone.quantity, Result) else None
    return Wanted(tell(alone.quantity, value, scene), BY, tolerance)


def list_beside(alone: Alone, known: Known) -> Known:
    """Return what a row's reference may ask for: the row itself, the one above, other grids."""
    row: Known = {ROW_NUMBER: float(alone.row)}
    prefix = f"{alone.grid}_"
    for key, column in known.items():
        if key.startswith(prefix) and key.endswith(LIST) and isinstance(column, list):
            name = key.removeprefix(prefix).removesuffix(LIST)
            row[name] = column[alone.row - 1]
            if alone.row > 1:
                row[f"PRIOR({name})"] = column[alone.row - 2]
    return row | find_beside(known, alone.row - 1)


def tell(quantity: Judged, value: Value, scene: Scene) -> Value:
    """Return a value as its cell shows it."""
    if isinstance(quantity, Check):
        blank = "missing" if quantity.needed else "none"
        return scene.word(str(value or blank))
    if isinstance(quantity, Record):
        return show(quantity, value, scene)
    return float(value) if isinstance(value, int | float) else value or None
