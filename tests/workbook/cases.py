"""Cases to compare: what is given, in canonical units, and the cells that it stands in."""

import random
from collections.abc import Iterator
from dataclasses import dataclass, field

from builder.formula.grids import grid_columns
from builder.spec.conversion import from_canonical, list_units
from builder.spec.records import Choice, Grid, Input, Record
from builder.spec.specification import Spec
from workbook.files import Cell, File, Value

Row = dict[str, Value]
MISSING = 0.04  # share of needed inputs left blank in random cases


@dataclass(frozen=True, slots=True)
class Case:
    """Inputs and choices by name, rows by grid, and the units that inputs are typed in."""

    label: str
    given: dict[str, Value] = field(default_factory=dict)
    rows: dict[str, list[Row]] = field(default_factory=dict)
    units: dict[str, str] = field(default_factory=dict)


def list_corners(spec: Spec) -> Iterator[Case]:
    """Yield each input alone at its smallest and at its largest."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Input):
            yield Case(f"{name} = {quantity.limits.min}", {name: quantity.limits.min})
            yield Case(f"{name} = {quantity.limits.max}", {name: quantity.limits.max})


def list_blanks(spec: Spec) -> Iterator[Case]:
    """Yield each input alone left blank."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Input):
            yield Case(f"{name} blank", {name: None})


def list_choices(spec: Spec) -> Iterator[Case]:
    """Yield each option of each choice."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Choice):
            for code in quantity.options:
                yield Case(f"{name} = {code}", {name: code})


def draw_cases(spec: Spec, seed: int, count: int) -> Iterator[Case]:
    """Yield random cases: odd ones anywhere inside the limits, even ones near the defaults."""
    for number in range(count):
        rng = random.Random(f"{seed} {number}")  # noqa: S311 - no secret
        given: dict[str, Value] = {}
        units: dict[str, str] = {}
        for name, quantity in spec.quantities.items():
            if isinstance(quantity, Choice):
                given[name] = rng.choice(list(quantity.options))
            elif isinstance(quantity, Input):
                given[name] = draw_number(quantity, rng, near=number % 2 == 0)
                if strictly_inside(given[name], quantity) and quantity.unit:
                    fitting = list_units(spec.units[quantity.unit], spec.units)
                    units[name] = rng.choice(fitting).key
        rows = {name: draw_rows(spec, grid, rng) for name, grid in typed_grids(spec).items()}
        yield Case(f"random {seed}.{number}", given, rows, units)


def draw_number(quantity: Input, rng: random.Random, *, near: bool) -> Value:
    """Return a random value of an input, sometimes a limit, sometimes nothing."""
    low, high = quantity.limits.min, quantity.limits.max
    if rng.random() < (0.3 if quantity.optional else MISSING / 10):
        return None
    if near and quantity.value is not None:
        value = min(high, max(low, quantity.value * rng.uniform(0.7, 1.4)))
    elif rng.random() < 0.1:
        value = rng.choice([low, high])
    else:
        value = low + (high - low) * rng.random() ** rng.choice([1, 3])
    return float(round(value)) if quantity.whole else value


def strictly_inside(value: Value, quantity: Input) -> bool:
    """Tell whether a number is within the limits by more than the rounding of a conversion."""
    low, high = quantity.limits.min, quantity.limits.max
    margin = (high - low) / 1e6
    return isinstance(value, float) and low + margin < value < high - margin


def typed_grids(spec: Spec) -> dict[str, Grid]:
    """Return the grids that have columns to type in."""
    return {
        name: grid
        for name, grid in spec.quantities.items()
        if isinstance(grid, Grid) and list_entries(spec, grid)
    }


def list_entries(spec: Spec, grid: Grid) -> list[Record]:
    """Return the typed columns of a grid."""
    return [column for column in grid_columns(grid, spec.quantities) if column.entry]


def draw_rows(spec: Spec, grid: Grid, rng: random.Random) -> list[Row]:
    """Return rows for the top of a grid, some cells blank, some rows wholly."""
    rows = []
    for _ in range(rng.randint(0, grid.rows)):
        share = rng.choice([0.0, 0.1, 0.5, 1.0])
        columns = list_entries(spec, grid)
        rows.append({c.name: None if rng.random() < share else draw_entry(c, rng) for c in columns})
    return rows


def draw_entry(column: Record, rng: random.Random) -> Value:
    """Return a random entry of a typed column."""
    if column.entry == "choice":
        return rng.choice(list(column.options))
    if column.entry == "text":
        return rng.choice(["AB", "lot 7"])
    low, high = (column.limits.min, column.limits.max) if column.limits else (0.0, 100.0)
    if column.entry == "date":
        return float(rng.randint(int(high * 0.6 + low * 0.4), int(high * 0.6 + low * 0.4) + 60))
    return low + (high - low) * rng.random() ** rng.choice([1, 3])


def place_case(case: Case, file: File, spec: Spec, lang: str) -> dict[Cell, Value]:
    """Return what has to be typed into which cells."""
    typed: dict[Cell, Value] = {}
    for name, value in case.given.items():
        quantity = spec.quantities[name]
        if isinstance(quantity, Choice):
            typed[file.cell(f"{name}_typed")] = quantity.options[str(value)].pick(lang)
        elif isinstance(quantity, Input):
            unit = case.units.get(name, quantity.unit)
            typed[file.cell(f"{name}_typed")] = express(value, quantity.unit, unit, spec)
            if f"{name}_typed_unit" in file.names:
                typed[file.cell(f"{name}_typed_unit")] = spec.units[unit].symbol.pick(lang)
    for name, rows in case.rows.items():
        typed |= place_rows(name, rows, file, spec, lang)
    return typed


def express(value: Value, canonical: str, unit: str, spec: Spec) -> Value:
    """Return a canonical number in another unit."""
    if unit == canonical or not isinstance(value, float):
        return value
    return from_canonical(value, spec.units[unit], spec.units[canonical])


def place_rows(grid: str, rows: list[Row], file: File, spec: Spec, lang: str) -> dict[Cell, Value]:
    """Return the cells of typed rows, and of the units of their columns."""
    typed: dict[Cell, Value] = {}
    for number, row in enumerate(rows):
        for key, value in row.items():
            column = spec.quantities[key]
            cell = file.names[f"{grid}_{key}_list"][number]
            if isinstance(column, Record) and column.entry == "choice" and value is not None:
                typed[cell] = column.options[str(value)].pick(lang)
            else:
                typed[cell] = value
            if f"{grid}_{key}_typed_unit" in file.names:
                symbol = spec.units[column.unit].symbol.pick(lang)
                typed[file.cell(f"{grid}_{key}_typed_unit")] = symbol
    return typed
