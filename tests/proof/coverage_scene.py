"""What an oracle looks at: a workbook with what was typed, and what the reference made of it."""

import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from workbook.files import Cell, File, Value, read_file

from builder.calculation import Calculation
from builder.exchange.machine import Machine
from builder.formula.graph import find_cut
from builder.production import build_workbook
from builder.spec.records import Choice, Input, Quantity, Result, Tolerance, Unit
from builder.spec.specification import Spec
from proof.coverage_blanks import list_needs, list_row_needs

LABEL, TYPED, UNIT, USED, READER, READER_UNIT, STATE, CONVERTED = 1, 2, 3, 4, 4, 5, 8, 9


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a formula cell should show, how closely, and who says so."""

    value: Value
    by: str
    tolerance: Tolerance | None = None


NOTHING = "oracle: nothing where something is missing"  # says when to be blank, not what to show
Sight = Iterator[tuple[Cell, Wanted]]


@dataclass(frozen=True, slots=True)
class Ground:
    """A workbook and its specs.

    `waiting` are the results that wait for something optional; `needs` and `row_needs` are what
    each working column cannot do without.
    """

    spec: Spec
    file: File
    lang: str
    waiting: frozenset[str]
    needs: dict[str, frozenset[str]]
    row_needs: dict[str, frozenset[str]]


def make_ground(spec: Spec, file: File, lang: str) -> Ground:
    """Find out once what holds for every set of input."""
    waiting = frozenset(name for name, q in spec.quantities.items() if waits(q, spec))
    return Ground(spec, file, lang, waiting, list_needs(spec), list_row_needs(spec))


def waits(quantity: Quantity, spec: Spec) -> bool:
    """Tell whether something optional stands behind a result."""
    if not isinstance(quantity, Result):
        return False
    _, inputs = find_cut(quantity, set(), spec.quantities)
    found = [spec.quantities[each] for each in inputs]
    return any(isinstance(each, Input) and each.optional for each in found)


@dataclass(frozen=True, slots=True)
class Scene:
    """A workbook, what its other cells hold, and the reference's values for it."""

    ground: Ground
    held: dict[Cell, Value]
    season: Calculation

    @property
    def spec(self) -> Spec:
        """Return the specs."""
        return self.ground.spec

    @property
    def file(self) -> File:
        """Return the workbook as it was built."""
        return self.ground.file

    @property
    def lang(self) -> str:
        """Return the reader's language."""
        return self.ground.lang

    def word(self, key: str) -> str:
        """Return one of the workbook's own words."""
        return self.spec.words[key].pick(self.lang)

    def label(self, name: str) -> str:
        """Return the label of a quantity."""
        return self.spec.quantities[name].label.pick(self.lang)

    def find_run(self, title: str, labels: list[str]) -> int:
        """Return the row of a sheet from which on these labels stand one below the other."""
        for row in range(1, 2000):
            shown = [self.held.get((title, row + step, LABEL)) for step in range(len(labels))]
            if shown == labels:
                return row
        raise LookupError(f"{title} does not list {labels}")

    def find_unit(self, symbol: Value, canonical: Unit) -> Unit | None:
        """Return the unit of the same dimension that is written so."""
        for unit in self.spec.units.values():
            if unit.dimension == canonical.dimension and unit.symbol.pick(self.lang) == symbol:
                return unit
        return None

    def value(self, name: str) -> tuple[Value, Tolerance | None]:
        """Return what the reference says of a quantity, and how far the workbook may be off."""
        found = self.season.values[name]
        quantity = self.spec.quantities[name]
        if isinstance(found, int | float):
            found = float(found)
        return found or (found if found == 0 else None), (
            quantity.tolerance if isinstance(quantity, Result) else None
        )

    def option(self, name: str) -> Value:
        """Return the word of the option that a choice stands at, None for none."""
        quantity = self.spec.quantities[name]
        code = self.season.values[name]
        if isinstance(quantity, Choice) and isinstance(code, str):
            return quantity.options[code].pick(self.lang)
        return None


def list_judged(wanted: dict[Cell, Wanted]) -> set[Cell]:
    """Return the cells of which somebody says what they show, not only that it is nothing."""
    return {cell for cell, want in wanted.items() if want.by != NOTHING}


def convert(number: float, unit: Unit, canonical: Unit) -> float:
    """Return a number of one unit in another of its dimension, exactly and then rounded once."""
    base = Fraction(number) * unit.factor + unit.offset
    return float((base - canonical.offset) / canonical.factor)


def make_file(spec: Spec, machine: Machine, lang: str = "en", units: str = "metric") -> File:
    """Build a workbook and read it back."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "book.xlsx"
        path.write_bytes(build_workbook(spec, machine, lang, units))
        return read_file(path)
