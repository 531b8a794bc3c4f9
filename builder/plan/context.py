"""What every block of a sheet needs to know while it is laid out."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from builder.calculation import Known
from builder.exchange.machine import Machine
from builder.formula.graph import find_precedents
from builder.formula.grids import is_typed
from builder.formula.tokens import find_blank_tests
from builder.plan.cells import Area
from builder.spec.conversion import list_units
from builder.spec.records import Citation, Grid, Input, Quantity, Record, Text
from builder.spec.specification import Spec


@dataclass(frozen=True, slots=True)
class Context:
    """The specs, the reader's language and units, the machine, and the names given so far."""

    spec: Spec
    machine: Machine
    lang: str
    units: str
    names: dict[str, Area] = field(default_factory=dict)
    worked: Known = field(default_factory=dict)
    precedents: dict[str, list[str]] = field(default_factory=dict)

    def pick(self, text: Text | None) -> str:
        """Return words in the reader's language."""
        return text.pick(self.lang) if text else ""

    def word(self, key: str) -> str:
        """Return one of the workbook's own words."""
        return self.spec.words[key].pick(self.lang)

    def label(self, name: str) -> str:
        """Return the label of a quantity."""
        return self.spec.quantities[name].label.pick(self.lang)

    def each(self, tell: Callable[["Context"], str]) -> list[str]:
        """Return what is told in each language, for rows that must be high enough for any."""
        return [tell(replace(self, lang=lang)) for lang in self.spec.languages]

    def symbol(self, unit: str) -> str:
        """Return the symbol of a unit."""
        return self.spec.units[unit].symbol.pick(self.lang) if unit else ""

    def suffix(self, unit: str) -> str:
        """Return how names end that hold this unit."""
        return self.spec.units[unit].suffix

    def cite(self, citation: Citation | None) -> str:
        """Return the short title of a source."""
        return self.pick(self.spec.sources[citation.id].short) if citation else ""

    def has_choice_of_unit(self, unit: str) -> bool:
        """Tell whether there are several units of the same dimension to type in."""
        return bool(unit) and len(list_units(self.spec.units[unit], self.spec.units)) > 1

    def has_reader_unit(self, unit: str) -> bool:
        """Tell whether some readers prefer another unit of the same dimension."""
        return bool(unit) and len(set(self.spec.units[unit].reader.values()) | {unit}) > 1

    def find_grid(self, column: Record) -> Grid:
        """Return the first grid that has a column."""
        grids = (q for q in self.spec.quantities.values() if isinstance(q, Grid))
        return next(grid for grid in grids if column.name in grid.columns)

    def typed_value(self, quantity: Input) -> tuple[float | None, str]:
        """Return number and unit as they stand in the typed cell at first: only what was given."""
        given = self.machine.given.get(quantity.name)
        if given is not None:
            return given.number, given.unit
        return None, self.spec.units[quantity.unit].reader[self.units]

    def waits_for_optional(self, quantity: Quantity) -> bool:
        """Tell whether a quantity stays blank until something optional was measured or logged.

        A formula that tests a name for a blank does not wait for it.
        """
        seen: set[str] = set()
        waiting = [quantity.name]
        while waiting:
            name = waiting.pop()
            found = self.spec.quantities.get(name)
            if found is None or name in seen:
                continue
            seen.add(name)
            logged = isinstance(found, Grid) and is_typed(found, self.spec.quantities)
            if logged or (isinstance(found, Input) and found.optional):
                return True
            if name not in self.precedents:
                self.precedents[name] = find_precedents(found, self.spec.quantities)
            tested = find_blank_tests(getattr(found, "formula", ""))
            waiting += [name for name in self.precedents[name] if name not in tested]
        return False
