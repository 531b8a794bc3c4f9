"""Values that an older log kept in its rows become lines in force."""

from dataclasses import dataclass, field

from builder.audit.cases import TYPED_UNIT, list_cells, name_row
from builder.calculation import Calculator, Entries, Value, find_reference
from builder.formula.grids import LIST, split_grid_name
from builder.reference.shape import shift_pH
from builder.renewal.inputs import find_unit
from builder.renewal.rows import express
from builder.renewal.source import Source
from builder.spec.records import Grid
from builder.spec.renaming import Kept, Renaming
from builder.spec.specification import Spec

Row = dict[str, Value]
REFUSED = "a line in force needs a later day, a rinse, floor and ceiling: nothing became of it"


@dataclass(slots=True)
class KeptValues:
    """What each row of an older log kept, by the column of a line in force."""

    source: Source
    renaming: Renaming
    temp_degC: Value
    rows: dict[int, Row] = field(default_factory=dict)
    places: dict[int, list[tuple[str, str]]] = field(default_factory=dict)

    def read(self) -> None:
        """Read all kept columns, in canonical units."""
        for old, kept in self.renaming.kept.items():
            area = self.source.names.get(old + LIST)
            self.source.asked.add(self.source.find(old + TYPED_UNIT))
            for number, place in enumerate(list_cells(area) if area else [], start=1):
                name = name_row(old, number)
                value = self.source.read(place, name)
                if isinstance(value, float):
                    canonical = self.convert(old, kept, value)
                    self.rows.setdefault(number, {})[kept.column] = canonical
                    self.places.setdefault(number, []).append((place, name))
                elif value is not None:
                    self.source.drop(place, name, "not a number; left blank")

    def convert(self, old: str, kept: Kept, value: float) -> Value:
        """Return a kept value in its canonical unit, a pH at the temperature of lines."""
        spec = self.source.spec
        canonical = spec.units[spec.quantities[kept.column].unit]
        unit = find_unit(self.source, canonical, old, self.source.find(old + TYPED_UNIT))
        table = find_reference(kept.strip) if kept.strip else None
        if isinstance(table, tuple) and isinstance(self.temp_degC, float):
            return round(value - shift_pH(self.temp_degC, table), 3)
        return express(value, unit or canonical, canonical)


def make_lines(
    kept: KeptValues, days: dict[int, Value], today: dict[str, Value], system: str
) -> list[Row]:
    """Return the lines in force that kept values ask for, and tell what became of each value."""
    lines: list[Row] = []
    renaming, most = kept.renaming, count_lines(kept.source.spec, kept.renaming)
    before: Row = {}
    for number, row in sorted(kept.rows.items()):
        whole = complete(row, renaming, today)
        line = {renaming.day: days.get(number), **whole}
        if whole != before and is_sound(line, lines, renaming) and len(lines) < most:
            lines.append(line)
            before = whole
        fate = f"line {len(lines)} of the values in force" if whole == before else REFUSED
        for place, name in kept.places[number]:
            if whole == before:
                kept.source.tell("moved", place, name, fate)
            else:
                kept.source.drop(place, name, fate)
    return [show_line(line, kept.source.spec, system) for line in lines]


def count_lines(spec: Spec, renaming: Renaming) -> int:
    """Return how many lines there can be."""
    grid = spec.quantities[renaming.grid]
    return grid.rows if isinstance(grid, Grid) else 0


def complete(row: Row, renaming: Renaming, today: dict[str, Value]) -> Row:
    """Return a row with what is a product of others, and what a line takes of today."""
    whole = {key: today.get(name) for key, name in renaming.first.items()} | row
    for key, names in renaming.product.items():
        factors = [value for name in names if isinstance(value := row.get(name), float)]
        if whole.get(key) is None and len(factors) == len(names) == 2:
            whole[key] = factors[0] * factors[1]
    return whole


def is_sound(line: Row, lines: list[Row], renaming: Renaming) -> bool:
    """Tell whether a line has all it needs, and a later day than the one above."""
    numbers = all(isinstance(line.get(name), float) for name in renaming.needed)
    days = [day for one in (*lines, line) if isinstance(day := one.get(renaming.day), float)]
    return numbers and days == sorted(set(days))


def show_line(line: Row, spec: Spec, system: str) -> Row:
    """Return a line in the units of the book."""
    shown: Row = {}
    for key, value in line.items():
        canonical = spec.units[spec.quantities[key].unit]
        shown[key] = express(value, canonical, spec.units[canonical.reader[system]])
    return shown


def add_lines(source: Source, entries: Entries, given: dict[str, Value], system: str) -> None:
    """Put the lines in force that an older log asks for among the typed rows."""
    renaming = source.spec.renaming
    if renaming is None or not any(old + LIST in source.names for old in renaming.kept):
        return
    part = split_grid_name(renaming.days + LIST, source.spec.quantities)
    rows = entries.get(part.grid.name, []) if part else []
    days = {number: row.get(part.column) for number, row in enumerate(rows, 1) if part}
    today = Calculator(source.spec).work_out(given, {}).values
    kept = KeptValues(source, renaming, today.get(renaming.temp))
    kept.read()
    if lines := make_lines(kept, days, today, system):
        entries[renaming.grid] = lines
