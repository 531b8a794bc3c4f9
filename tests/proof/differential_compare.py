"""Compares what engines show for one set of inputs, with each other and with the reference."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import combinations

from workbook.cases import Case
from workbook.comparison import STRONGEST_GPL, VERDICTS, agree, as_number
from workbook.files import ERROR, Cell, File, Value, show

from builder.calculation import Calculation, calculate_season
from builder.formula.grids import grid_columns
from builder.spec.records import Check, Grid, Result, Tolerance
from builder.spec.specification import Spec

SMALLEST = 1e-9  # numbers below it have no say in the worst relative disagreement
EXACT = Tolerance()
REFERENCE = "reference"


@dataclass(frozen=True, slots=True)
class Expected:
    """What one cell should show; `codes` turn the words that it may show into what is expected."""

    name: str
    cell: Cell
    value: Value
    tolerance: Tolerance
    codes: Mapping[Value, Value]


@dataclass(slots=True)
class Tally:
    """What comparing so far found; a fault is kept once a cell, with the set that showed it first.

    `worst` is the largest relative disagreement of two engines or of an engine and the reference,
    among the cells that must agree to nine digits.
    """

    comparisons: int = 0
    worst: dict[bool, float] = field(default_factory=lambda: {False: 0.0, True: 0.0})
    errors: int = 0
    missing: int = 0
    judged: int = 0
    faults: dict[tuple[str, Cell], str] = field(default_factory=dict)
    repeats: dict[tuple[str, Cell], int] = field(default_factory=dict)

    def blame(self, kind: str, cell: Cell, text: str) -> None:
        """Keep a fault, or count it once more."""
        self.faults.setdefault((kind, cell), text)
        self.repeats[kind, cell] = self.repeats.get((kind, cell), 0) + 1

    def compare(self, found: Value, expected: Value, tolerance: Tolerance, *, told: bool) -> bool:
        """Count a comparison and tell whether both are the same; `told` by the reference."""
        self.comparisons += 1
        if found == expected:
            return True
        if tolerance is EXACT:
            self.worst[told] = max(self.worst[told], measure_distance(found, expected))
        return agree(found, expected, tolerance) or (is_error(found) and is_error(expected))


class Judge:
    """Knows what stands in the cells of one workbook."""

    def __init__(self, file: File, spec: Spec, lang: str) -> None:
        """Find the name and the tolerance of each cell."""
        self.file, self.spec, self.lang = file, spec, lang
        self.names = name_cells(file)
        self.tolerances = {
            file.cell(name): quantity.tolerance
            for name, quantity in spec.quantities.items()
            if isinstance(quantity, Result) and quantity.tolerance
        }

    def compare_engines(
        self, label: str, shown: Mapping[str, Mapping[Cell, Value]], tally: Tally
    ) -> None:
        """Compare all engines cell by cell, and count errors and cells that one of them lacks."""
        for engine, values in shown.items():
            for cell in self.file.formulas:
                if cell not in values:
                    tally.missing += 1
                    tally.blame(engine, cell, f"{self.tell(cell)}: no value in {engine}; {label}")
                elif is_error(values[cell]):
                    tally.errors += 1
                    found = f"{engine} shows {values[cell]}"
                    tally.blame(engine, cell, f"{self.tell(cell)}: {found}; {label}")
        for one, other in combinations(shown, 2):
            for cell in self.file.formulas.keys() & shown[one].keys() & shown[other].keys():
                found, expected = shown[one][cell], shown[other][cell]
                tolerance = self.tolerances.get(cell, EXACT)
                if not tally.compare(found, expected, tolerance, told=False):
                    told = f"{one} {found!r}, {other} {expected!r}"
                    tally.blame(f"{one}, {other}", cell, f"{self.tell(cell)}: {told}; {label}")

    def compare_reference(
        self, case: Case, shown: Mapping[str, Mapping[Cell, Value]], tally: Tally
    ) -> None:
        """Compare every engine with the reference, for all that has one."""
        expected = list(self.expect(calculate_season(self.spec, case.given, case.rows)))
        tally.judged += bool(expected)
        for engine, values in shown.items():
            for item in expected:
                found = values.get(item.cell)
                found = item.codes.get(found, found)
                if not tally.compare(found, item.value, item.tolerance, told=True):
                    told = f"{engine} {found!r}, reference {item.value!r}"
                    text = f"{item.name} {show(item.cell)}: {told}; {case.label}"
                    tally.blame(f"{engine}, {REFERENCE}", item.cell, text)

    def expect(self, reference: Calculation) -> Iterator[Expected]:
        """Yield what each result, check and worked column should show; nothing where none can."""
        strength = reference.values["cleaner_strength_gpL"]
        if isinstance(strength, float) and strength > STRONGEST_GPL:
            return
        words = {self.spec.words[key].pick(self.lang): key for key in VERDICTS}
        for name, quantity in self.spec.quantities.items():
            if isinstance(quantity, Result | Check):
                result = isinstance(quantity, Result)
                tolerance = (quantity.tolerance if result else None) or EXACT
                value = as_number(reference.values[name])
                yield Expected(
                    name, self.file.cell(name), value, tolerance, {} if result else words
                )
            elif isinstance(quantity, Grid):
                yield from self.expect_columns(quantity, reference)

    def expect_columns(self, grid: Grid, reference: Calculation) -> Iterator[Expected]:
        """Yield what the worked columns of a grid should show."""
        for column in grid_columns(grid, self.spec.quantities):
            name = f"{grid.name}_{column.name}_list"
            if column.entry or name not in reference.columns:
                continue
            texts = [text.pick(self.lang) for text in column.words]
            codes: dict[Value, Value] = {text: float(n) for n, text in enumerate(texts, 1)}
            values = reference.columns[name]
            for cell, value in zip(self.file.names[name], values, strict=True):
                yield Expected(name, cell, as_number(value), EXACT, codes)

    def tell(self, cell: Cell) -> str:
        """Return the quantity and the address of a cell."""
        return f"{self.names.get(cell, 'no quantity')} {show(cell)}"


def name_cells(file: File) -> dict[Cell, str]:
    """Return the defined name of each formula cell, or else of one that stands in its row."""
    names = {cell: name for name, cells in file.names.items() for cell in cells}
    rows = {cell[:2]: f"beside {name}" for cell, name in names.items()}
    return {cell: names.get(cell) or rows.get(cell[:2], "no quantity") for cell in file.formulas}


def is_error(value: Value) -> bool:
    """Tell whether a cell shows an error code."""
    return isinstance(value, str) and ERROR.match(value) is not None


def measure_distance(found: Value, expected: Value) -> float:
    """Return how far two numbers are apart, as a share of the larger; 0 for anything else."""
    if not (isinstance(found, float) and isinstance(expected, float)):
        return 0.0
    larger = max(abs(found), abs(expected))
    return abs(found - expected) / larger if larger > SMALLEST else 0.0
