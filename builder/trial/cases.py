"""Machines to try: what is given, in canonical units, and the rows typed into grids."""

import random
import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from builder.calculation import Value
from builder.exchange.machine import canonical
from builder.formula.grids import grid_columns
from builder.production import find_case
from builder.spec.conversion import list_units
from builder.spec.records import Choice, Constant, Grid, Input, Quantity, Record
from builder.spec.specification import Spec

Row = dict[str, Value]
MISSING = 0.004  # share of needed inputs left blank in machines that are drawn
OPTIONAL_MISSING, WORKED_MISSING = 0.3, 0.06  # of optional ones; of those of the worked case
AT_A_LIMIT = 0.1
SHARED = 0.15  # share of numbers that are taken from those of the same unit, so that ties occur
EDGES = {"min": "all numbers the least", "max": "all numbers the largest", "": "no numbers"}
NEAR = (0.8, 1.25)
BESIDE = (0.97, 1.03)  # of a number of a sample row
COMPARED = re.compile(r"(\w+)(?:<=|>=|<|>)(\w+)")
TEXTS = ("AB", "lot 7")
SAMPLED, IN_ORDER = 0.9, 0.7  # shares of rows that are like one of the worked case, the next one
ODD, ODDITIES = 0.003, ("abc", "12 L", -7.0, 1e7)  # what nobody should type
FIRST_DAY, STEPS_D = 46450, (-1.0, *[0.0] * 6, *[1.0] * 6, 2.0, 7.0, 70.0, 310.0)


@dataclass(frozen=True, slots=True)
class Case:
    """Inputs and choices by name, rows by grid, and the units that inputs are typed in."""

    label: str
    given: dict[str, Value] = field(default_factory=dict)
    rows: dict[str, list[Row]] = field(default_factory=dict)
    units: dict[str, str] = field(default_factory=dict)


def list_fixed(spec: Spec) -> Iterator[Case]:
    """Yield a machine of which nothing is known, and the worked case."""
    yield Case("a machine of which nothing is typed")
    if spec.worked.given:
        worked = find_case(spec)
        yield Case("the worked case", canonical(worked, spec), dict(worked.entries))


def list_edges(spec: Spec) -> Iterator[Case]:
    """Yield machines on the edges of comparisons, and logs with every number at a limit."""
    usual = canonical(find_case(spec), spec)
    for number, given in enumerate(pack_ties(spec), start=1):
        yield Case(f"inputs equal to what they are compared with, {number}", {**usual, **given})
    for name, edge in EDGES.items():
        rows = {grid: make_edge_rows(spec, grid, name) for grid in typed_grids(spec)}
        yield Case(f"a log with {edge}", usual, rows)
        if name:
            inputs = {n: getattr(q.limits, name) for n, q in list_inputs(spec)}
            first = {grid: listed[2:3] for grid, listed in rows.items()}
            yield Case(f"one entry, and inputs with {edge}", inputs, first)


def list_inputs(spec: Spec) -> Iterator[tuple[str, Input]]:
    """Yield the numbers that are typed."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Input):
            yield name, quantity


def pack_ties(spec: Spec) -> list[dict[str, Value]]:
    """Return inputs set to what formulas compare them with, each once in a machine."""
    packed: list[tuple[dict[str, Value], set[str]]] = []
    for name, other, value in find_ties(spec):
        quantity = spec.quantities[name]
        if not isinstance(quantity, Input) or not is_inside(value, quantity):
            continue
        free = [pair for pair in packed if name not in pair[1] and other not in pair[0]]
        if not free:
            packed.append(({}, set()))
            free = packed[-1:]
        given, held = free[0]
        given[name] = value
        held |= {name, other}
    return [given for given, _ in packed]


def is_inside(value: float, quantity: Input) -> bool:
    """Tell whether an input takes a value."""
    return quantity.limits.min <= value <= quantity.limits.max


def find_ties(spec: Spec) -> Iterator[tuple[str, str, float]]:
    """Yield each input, what a formula compares it with, and the value of that."""
    for quantity in spec.quantities.values():
        formulas = [getattr(quantity, key, "") for key in ("formula", "close")]
        for left, right in COMPARED.findall(" ".join(formulas)):
            for name, other in ((left, right), (right, left)):
                found = spec.quantities.get(other)
                value = find_figure(found)
                if other.isdigit():
                    value = float(other)
                if isinstance(spec.quantities.get(name), Input) and value is not None:
                    yield name, other, value


def find_figure(quantity: Quantity | None) -> float | None:
    """Return the number of a constant, or what is usual of an input."""
    if isinstance(quantity, Constant):
        return quantity.value
    return quantity.usual if isinstance(quantity, Input) else None


def make_edge_rows(spec: Spec, grid: str, limit: str) -> list[Row]:
    """Return a row for each option of each choice, every number at one of its limits, or none."""
    columns = list_entries(spec, typed_grids(spec)[grid])
    most = max((len(column.options) for column in columns), default=0) or 1
    rows: list[Row] = []
    for number in range(most):
        row: Row = {}
        for column in columns:
            if column.options:
                row[column.name] = list(column.options)[number % len(column.options)]
            elif column.limits and (limit or column.entry == "date"):
                row[column.name] = getattr(column.limits, limit or "min")
        rows.append(row)
    return rows


def draw_cases(spec: Spec, seed: int, count: int) -> Iterator[Case]:
    """Yield machines: odd ones anywhere inside the limits, even ones near what is usual."""
    for number in range(count):
        yield Dice(spec, seed, number).draw()


class Dice:
    """Draws one machine; the same seed and number give the same one."""

    def __init__(self, spec: Spec, seed: int, number: int) -> None:
        """Collect the figures of the specs by unit: numbers drawn from them make ties."""
        self.spec, self.seed, self.number = spec, seed, number
        self.rng = random.Random(f"{seed} {number}")  # noqa: S311 - no secret
        self.figures: dict[str, list[float]] = {}
        for quantity in spec.quantities.values():
            if (figure := find_figure(quantity)) is not None:
                self.figures.setdefault(quantity.unit, []).append(figure)

    def draw(self) -> Case:
        """Return the machine."""
        spec = self.spec
        given: dict[str, Value] = {}
        units: dict[str, str] = {}
        for name, quantity in spec.quantities.items():
            if isinstance(quantity, Choice):
                given[name] = self.rng.choice(list(quantity.options))
            elif isinstance(quantity, Input):
                value = self.draw_number(quantity)
                if value is None:
                    continue
                given[name] = value
                # A tie is typed as it is: a conversion leaves a last bit, which one engine sees.
                tie = value in self.figures.get(quantity.unit, [])
                if strictly_inside(value, quantity) and quantity.unit and not tie:
                    fitting = list_units(spec.units[quantity.unit], spec.units)
                    units[name] = self.rng.choice(fitting).key
        rows = {name: self.draw_rows(grid) for name, grid in typed_grids(spec).items()}
        return Case(f"drawn machine {self.seed}.{self.number}", given, rows, units)

    def draw_number(self, quantity: Input) -> Value:
        """Return a value of an input, sometimes a limit, sometimes nothing."""
        low, high = quantity.limits.min, quantity.limits.max
        chance = self.rng.random()
        usual = self.find_usual(quantity)
        missing = WORKED_MISSING if usual is not None else OPTIONAL_MISSING
        if chance < (missing if quantity.optional else MISSING):
            return None
        if self.number % 2 == 0 and usual is not None:
            value = min(high, max(low, usual * self.rng.uniform(*NEAR)))
        else:
            value = self.draw_between(quantity.unit, low, high)
        return float(round(value)) if quantity.whole else value

    def find_usual(self, quantity: Input) -> float | None:
        """Return what an input usually is, or else is in the worked case."""
        if quantity.usual is not None:
            return quantity.usual
        worked = self.spec.worked.given.get(quantity.name)
        return float(worked) if isinstance(worked, int | float) else None

    def draw_between(self, unit: str, low: float, high: float) -> float:
        """Return a number between two limits: one of them, a figure of the specs, or any."""
        chance = self.rng.random()
        if chance < AT_A_LIMIT:
            return self.rng.choice([low, high])
        known = [n for n in self.figures.get(unit, []) if low <= n <= high]
        if known and chance < AT_A_LIMIT + SHARED:
            return self.rng.choice(known)
        return low + (high - low) * self.rng.random() ** self.rng.choice([1, 3])

    def draw_rows(self, grid: Grid) -> list[Row]:
        """Return rows for the top of a grid, some cells blank, some rows wholly."""
        rows = []
        columns = list_entries(self.spec, grid)
        samples = self.spec.worked.entries.get(grid.name, [])
        day = float(FIRST_DAY + self.rng.randint(0, 3))
        place = 0
        for _ in range(self.rng.randint(grid.rows // 2, grid.rows)):
            share = self.rng.choice([0.0, 0.0, 0.0, 0.05, 0.1, 0.3, 1.0])
            day += self.rng.choice(STEPS_D)
            place += 1 if self.rng.random() < IN_ORDER else self.rng.randint(0, 20)
            sampled = samples and self.rng.random() < SAMPLED
            sample = samples[place % len(samples)] if sampled else {}
            blank = {column.name: self.rng.random() < share for column in columns}
            drawn = {c.name: self.draw_cell(c, sample, day) for c in columns}
            rows.append({key: None if blank[key] else value for key, value in drawn.items()})
        return rows

    def draw_cell(self, column: Record, sample: Row, day: float) -> Value:
        """Return what is typed in a cell: in a sample row as there, in others anything."""
        if column.entry != "text" and self.rng.random() < ODD:
            return self.rng.choice(ODDITIES)
        if column.entry == "date":
            return day
        if sample:
            value = sample.get(column.name)
            near = isinstance(value, int | float) and self.rng.random() < 0.5
            return float(value) * self.rng.uniform(*BESIDE) if near and value else value
        return self.draw_entry(column)

    def draw_entry(self, column: Record) -> Value:
        """Return an entry of a typed column, a number at times beyond its limits."""
        if column.entry == "choice":
            return self.rng.choice(list(column.options))
        if column.entry == "text":
            return self.rng.choice(TEXTS)
        low, high = (column.limits.min, column.limits.max) if column.limits else (0.0, 100.0)
        beyond = (high - low) * 0.02
        return self.draw_between(column.unit, low - beyond, high + beyond)


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
