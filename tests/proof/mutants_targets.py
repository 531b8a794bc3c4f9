"""The formulas of the specs, and how a changed one stands in the cells of a workbook."""

import random
import re
from collections.abc import Iterator
from dataclasses import dataclass, fields, replace

from workbook.files import Cell, File

from builder.exchange.machine import Machine
from builder.formula.graph import find_behind
from builder.formula.grids import LIST, ROW_NUMBER, split_grid_name
from builder.formula.guard import guard_result
from builder.formula.syntax import parse
from builder.formula.tokens import find_names
from builder.plan.canvas import Canvas
from builder.plan.context import Context
from builder.plan.grids import GridLayout
from builder.plan.verdicts import verdict_formula
from builder.spec.records import Check, Choice, Constant, Grid, Input, Quantity, Record, Result
from builder.spec.specification import Spec
from proof.mutants_trees import Change, list_changes

OWN_ROW = re.compile(r"(?<![\w$])(\$?[A-Z]{1,3})(\d+)(?![\w(])")
ALIKE = 2  # rows of a grid after which all are alike
NUMERIC = (Input, Constant, Result)


@dataclass(frozen=True, slots=True)
class Target:
    """One formula: of a quantity, of the margin of a check, or of an override of a grid."""

    name: str
    key: str
    formula: str

    @property
    def label(self) -> str:
        """Return how the formula is called in findings."""
        return self.name if self.key == "formula" else f"{self.name}.{self.key}"


def list_targets(spec: Spec) -> Iterator[Target]:
    """Yield every formula of the specs."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Result | Record | Check) and quantity.formula:
            yield Target(name, "formula", quantity.formula)
        if isinstance(quantity, Check) and quantity.close:
            yield Target(name, "close", quantity.close)
        if isinstance(quantity, Grid):
            for part in ("first", "rest"):
                for column, formula in getattr(quantity, part).items():
                    yield Target(name, f"{part}.{column}", formula)


def exchange(target: Target, formula: str, spec: Spec) -> Spec:
    """Return the specs with another formula in this place."""
    quantity = spec.quantities[target.name]
    place, _, column = target.key.partition(".")
    held: object = {**getattr(quantity, place), column: formula} if column else formula
    parts = {one.name: getattr(quantity, one.name) for one in fields(quantity)}
    changed = type(quantity)(**{**parts, place: held})
    return replace(spec, quantities={**spec.quantities, target.name: changed})


class Printer:
    """Writes a formula of the specs as its cells hold it, by the generator's own hand."""

    def __init__(self, spec: Spec, file: File, lang: str) -> None:
        """Keep the specs and the workbook in which the cells have their places."""
        self.spec, self.file, self.lang = spec, file, lang

    def print(self, target: Target, formula: str) -> dict[Cell, str]:
        """Return the cells that this formula of the specs would stand in, with their texts."""
        spec = exchange(target, formula, self.spec)
        context = Context(spec, Machine(), self.lang, "metric")
        quantity = spec.quantities[target.name]
        if isinstance(quantity, Check):
            text = verdict_formula(quantity, context)
            return {self.file.cell(target.name): f"={text}"}
        if isinstance(quantity, Result):
            text = guard_result(quantity.formula, spec.quantities)
            return {self.file.cell(target.name): f"={text}"}
        if isinstance(quantity, Grid):
            return self.print_column(quantity, target.key.partition(".")[2], context)
        cells: dict[Cell, str] = {}
        for grid in spec.quantities.values():
            if isinstance(grid, Grid) and target.name in grid.columns:
                cells |= self.print_column(grid, target.name, context)
        return cells

    def print_column(self, grid: Grid, name: str, context: Context) -> dict[Cell, str]:
        """Return the cells of one column of a grid."""
        places = self.file.names[f"{grid.name}_{name}{LIST}"]
        column = context.spec.quantities[name]
        if not isinstance(column, Record):
            raise TypeError(name)
        canvas = Canvas(places[0][0], [], {})
        layout = GridLayout(canvas, grid, context)
        layout.heads = places[0][1] - 1
        cells = {}
        for number, cell in enumerate(places[:ALIKE]):
            canvas.row = cell[1] - 1
            cells[cell] = f"={layout.cell_formula(column, number)}"
        model = places[:ALIKE][-1]
        return cells | {c: shift(cells[model], c[1] - model[1]) for c in places[ALIKE:]}


def shift(text: str, step: int) -> str:
    """Return the formula of a row for another row, as a spreadsheet copies it down."""
    return OWN_ROW.sub(lambda found: f"{found[1]}{int(found[2]) + step}", text)


class Mutator:
    """Changes formulas; names give way to others of the same kind and unit."""

    def __init__(self, spec: Spec) -> None:
        """Sort the names by unit."""
        self.spec = spec
        self.kin: dict[tuple[bool, str], list[str]] = {}
        for name, quantity in spec.quantities.items():
            if isinstance(quantity, NUMERIC):
                key = (isinstance(quantity, Constant), quantity.unit)
                self.kin.setdefault(key, []).append(name)
        records = [q for q in spec.quantities.values() if isinstance(q, Record) and q.formula]
        used = {name.text for record in records for name in find_names(record.formula)}
        self.bound = sorted(name for name in used if self.is_bound(name))
        self.users: dict[str, set[str]] = {}
        for name, user in list_edges(spec.quantities):
            self.users.setdefault(name, set()).add(user)

    def is_bound(self, name: str) -> bool:
        """Tell whether a name stands for others, as a grid binds it."""
        quantities = self.spec.quantities
        return (
            name != ROW_NUMBER and name not in quantities and not split_grid_name(name, quantities)
        )

    def vary(self, target: Target, swaps: int) -> list[Change]:
        """Return the changed formulas of one place, with at most so many names for each name."""
        behind = self.find_users(target)
        tree = parse(target.formula)

        def names(name: str) -> list[str]:
            kin = [other for other in self.find_kin(target, name) if other not in {name, *behind}]
            rng = random.Random(f"{target.label} {name}")  # noqa: S311 - no secret
            return kin if len(kin) <= swaps else rng.sample(kin, swaps)

        return list_changes(tree, names, self.find_codes)

    def find_kin(self, target: Target, name: str) -> list[str]:
        """Return the names of the same unit: of the same kind, grid or list."""
        quantities = self.spec.quantities
        quantity = quantities.get(name)
        if isinstance(quantity, NUMERIC):
            return self.kin[isinstance(quantity, Constant), quantity.unit]
        if part := split_grid_name(name, quantities):
            unit = quantities[part.column].unit
            alike = [c for c in part.grid.columns if quantities[c].unit == unit]
            rows = [f"{part.grid.name}_{column}{part.part}" for column in alike]
            return rows if part.part == LIST else []
        if isinstance(quantity, Record):
            grid = find_grid(target, name, quantities)
            return [c for c in grid.columns if is_kin(quantities[c], quantity)] if grid else []
        return [other for other in self.bound if other.partition("_")[0] == name.partition("_")[0]]

    def find_users(self, target: Target) -> set[str]:
        """Return what depends on a formula: a circle is no mutant, the lint refuses it."""
        found = {target.name, target.key.partition(".")[2]} - {""}
        waiting = list(found)
        while waiting:
            users = self.users.get(waiting.pop(), set()) - found
            found |= users
            waiting += users
        return found

    def find_codes(self, name: str, code: str) -> list[str]:
        """Return the other options of a choice."""
        quantity = self.spec.quantities.get(name)
        options = quantity.options if isinstance(quantity, Choice) else {}
        return [other for other in options if other != code]


def list_edges(quantities: dict[str, Quantity]) -> Iterator[tuple[str, str]]:
    """Yield what is used, and by what: quantities, columns, and columns of grids by full name."""
    for user, quantity in quantities.items():
        if isinstance(quantity, Record):
            names = [n.text for n in find_names(quantity.formula) if not n.prior]
        else:
            names = find_behind(user, quantities)
        for name in names:
            yield name, user
            if part := split_grid_name(name, quantities):
                behind = [*find_behind(name, quantities), *part.grid.columns]
                yield from ((other, name) for other in behind)


def is_kin(one: Quantity, other: Quantity) -> bool:
    """Tell whether two columns have the same unit, and are both typed or both worked out."""
    if not (isinstance(one, Record) and isinstance(other, Record)):
        return False
    return one.unit == other.unit and one.entry == other.entry


def find_grid(target: Target, name: str, quantities: dict[str, Quantity]) -> Grid | None:
    """Return the grid of the target, or the first one, that has a column of this name."""
    own = quantities[target.name]
    grids = [own] if isinstance(own, Grid) else list(quantities.values())
    found = [
        g for g in grids if isinstance(g, Grid) and {name, target.name} <= {*g.columns, target.name}
    ]
    return found[0] if found else None
