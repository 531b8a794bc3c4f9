"""Those who must have the properties: the Python reference, and the workbook in an engine."""

import tempfile
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Protocol

from workbook.engines import Ironcalc
from workbook.files import File, Value, read_file, show

from builder.calculation import calculate, find_arguments, find_reference
from builder.exchange.given import convert, read_given
from builder.exchange.machine import Machine
from builder.formula.graph import find_precedents
from builder.production import Edition
from builder.spec.records import Check, Choice, Input, Record, Result
from builder.spec.specification import Spec
from builder.trial.cases import Case
from builder.trial.comparison import as_number
from builder.trial.placement import express, place_case

Results = Mapping[str, Value]


class Side(Protocol):
    """Works out results for what is typed."""

    spec: Spec

    def solve(self, case: Case) -> Results:
        """Return results and verdicts by name."""

    def locate(self, name: str) -> str:
        """Return where a result stands."""


class Reference:
    """The Python reference, fed as by a machine file."""

    def __init__(self, spec: Spec) -> None:
        """Take all quantities."""
        self.spec = spec

    def solve(self, case: Case) -> Results:
        """Return results and verdicts for what a machine file would hold."""
        given = {name: self.read(name, value, case) for name, value in case.given.items()}
        return {name: as_number(value) for name, value in calculate(self.spec, given).items()}

    def read(self, name: str, value: Value, case: Case) -> Value:
        """Return the canonical number of an input that is typed in a unit of its case."""
        quantity, unit = self.spec.quantities[name], case.units.get(name)
        if not unit or not isinstance(quantity, Input) or unit == quantity.unit:
            return value
        typed = f"{express(value, quantity.unit, unit, self.spec)!r} {unit}"
        return convert(read_given(name, typed, self.spec), quantity, self.spec)

    def locate(self, name: str) -> str:
        """Return the reference function of a result."""
        return f"{getattr(self.spec.quantities[name], 'reference', name)} of the reference"


class Workbook:
    """The finished workbook, its long grids cut, typed into and recalculated."""

    def __init__(self, spec: Spec, lang: str) -> None:
        """Build the workbook and load it into the engine."""
        self.spec, self.lang = spec, lang
        self.file = build_file(spec, lang)
        self.engine = Ironcalc(self.file)
        judged = (name for name, q in spec.quantities.items() if isinstance(q, Result | Check))
        self.cells = {name: self.file.cell(name) for name in judged}
        self.words = {spec.words[key].pick(lang): key for key in ("ok", "look", "stop")}
        self.words |= {spec.words[key].pick(lang): key for key in ("missing", "none")}

    def solve(self, case: Case) -> Results:
        """Return what the named cells show."""
        shown = self.engine.solve(place_case(case, self.file.names, self.spec, self.lang))
        found = {name: shown[cell] for name, cell in self.cells.items()}
        return {name: self.words.get(str(value), value) for name, value in found.items()}

    def locate(self, name: str) -> str:
        """Return the cell of a result."""
        return show(self.cells[name])


def build_file(spec: Spec, lang: str) -> File:
    """Return the demo workbook in a language."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / f"book_{lang}.xlsx"
        path.write_bytes(Edition(spec, lang, "metric").build(Machine()))
        return read_file(path)


def narrow(spec: Spec, wanted: Iterable[str]) -> Spec:
    """Return the specs with what stands behind some results only, which works out faster."""
    kept = {name for name, q in spec.quantities.items() if isinstance(q, Input | Choice | Record)}
    waiting = list(wanted)
    while waiting:
        name = waiting.pop()
        if name in kept or name not in spec.quantities:
            continue
        kept.add(name)
        quantity = spec.quantities[name]
        waiting += find_precedents(quantity, spec.quantities)
        if isinstance(quantity, Result | Check):
            function = find_reference(quantity.reference)
            waiting += find_arguments(quantity, function).values() if callable(function) else []
    quantities = {name: q for name, q in spec.quantities.items() if name in kept}
    return replace(spec, quantities=quantities)
