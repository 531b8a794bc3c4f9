"""Which formulas stand behind which: to tell a slip from all that follows from it."""

from collections.abc import Collection, Iterator
from functools import cached_property

from builder.formula.graph import find_uses
from builder.formula.grids import (
    FIXED,
    LIST,
    find_owner,
    grid_columns,
    list_uses,
    name_column,
    split_grid_name,
)
from builder.spec.records import Check, Grid, Quantity, Record, Result
from builder.spec.specification import Spec
from builder.trial.comparison import Difference


class Ancestry:
    """Results, checks and columns by key: a name, or `grid.column`."""

    def __init__(self, spec: Spec, columns: Collection[str] = ()) -> None:
        """Keep the specs, and the lists that the references give."""
        self.spec, self.columns = spec, columns

    @cached_property
    def uses(self) -> dict[str, list[str]]:
        """The keys that each key uses directly."""
        found: dict[str, list[str]] = {}
        for name, quantity in self.spec.quantities.items():
            if isinstance(quantity, Result | Check):
                found[name] = list(self.make_keys(find_uses(quantity, self.spec.quantities)))
            elif isinstance(quantity, Grid):
                for column in grid_columns(quantity, self.spec.quantities):
                    names = [] if column.entry else list_uses(quantity, column)
                    keys = list(self.make_keys(names, quantity))
                    found[f"{name}.{column.name}"] = keys
        return found

    def make_keys(self, names: list[str], grid: Grid | None = None) -> Iterator[str]:
        """Yield the keys behind names in a formula, in a row of a grid its columns first."""
        for name in names:
            part = split_grid_name(name, self.spec.quantities)
            if grid and (owner := find_owner(name, grid, self.spec.quantities)):
                yield f"{owner.name}.{name}"
            elif part is None:
                yield name
            elif part.part not in FIXED:
                yield f"{part.grid.name}.{part.column}"

    def list_behind(self, key: str, stops: frozenset[str] = frozenset()) -> set[str]:
        """Return every key behind one, going no further than the stops."""
        seen: set[str] = set()
        waiting = list(self.uses.get(key, []))
        while waiting:
            found = waiting.pop()
            if found not in seen:
                seen.add(found)
                waiting += [] if found in stops else self.uses.get(found, [])
        return seen

    def find_first(self, differences: list[Difference]) -> list[Difference]:
        """Return the differences with none before them: one a key, and all of them in a circle."""
        by_key: dict[str, Difference] = {}
        for difference in differences:
            by_key.setdefault(difference.key, difference)
        first = [
            difference
            for key, difference in by_key.items()
            if not (self.list_behind(key) - {key}) & by_key.keys()
        ]
        return first or list(by_key.values())

    def list_steps(self, key: str) -> list[Record]:
        """Return the columns without a reference between a key and what has one before it."""
        judged = frozenset(key for key in self.uses if self.is_judged(key))
        steps = {k: None for k in self.uses if k in self.list_behind(key, judged)}
        return [record for k in steps if (record := self.find_step(k)) is not None]

    def is_judged(self, key: str) -> bool:
        """Tell whether a key has a reference."""
        grid, _, name = key.rpartition(".")
        quantity = self.spec.quantities.get(name)
        whole = f"{name_column(grid, name)}{LIST}" in self.columns
        return whole or bool(getattr(quantity, "reference", ""))

    def find_step(self, key: str) -> Record | None:
        """Return the column of a key if it is worked out without a reference."""
        quantity = self.spec.quantities.get(key.rpartition(".")[2])
        worked = isinstance(quantity, Record) and not quantity.entry and not self.is_judged(key)
        return quantity if worked and isinstance(quantity, Record) else None

    def find_quantity(self, name: str) -> Quantity | None:
        """Return the entry behind a name in the workbook."""
        part = split_grid_name(name, self.spec.quantities)
        return self.spec.quantities.get(part.column if part else name)
