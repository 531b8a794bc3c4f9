"""Sets of input on which workbook and references are compared: from calm to nasty."""

from collections.abc import Iterator
from dataclasses import replace

from workbook.cases import (
    Case,
    Row,
    draw_cases,
    list_choices,
    list_corners,
    list_entries,
    typed_grids,
)
from workbook.files import Value

from builder.spec.records import Choice, Grid, Input
from builder.spec.specification import Spec
from proof.coverage_bad import UNKNOWN, list_bad, list_rows
from proof.coverage_logs import RUN, list_logs
from proof.coverage_rare import list_rare
from proof.coverage_trial import Trial

SEED = 20265
RANDOM, FEW, ABROAD = 80, 12, 3


def list_trials(spec: Spec) -> Iterator[Trial]:
    """Yield all sets of input."""
    yield from list_telling(spec)
    yield from map(Trial, list_corners(spec))
    yield from list_bad(spec)


def list_telling(spec: Spec) -> Iterator[Trial]:
    """Yield the sets of input that tell formulas apart, the most telling first."""
    worked = make_worked(spec)
    yield Trial(Case("defaults"))
    yield Trial(worked)
    yield from map(Trial, draw_cases(spec, SEED, RANDOM))
    yield from map(Trial, list_rare(spec))
    yield from list_log_trials(spec, worked)
    yield from map(Trial, list_choices(spec))
    for name in list_given(spec):
        yield Trial(replace(worked, label=f"{name} blank", given={**worked.given, name: None}))
        quantity = spec.quantities[name]
        if isinstance(quantity, Input) and not quantity.optional:
            yield Trial(Case(f"{name} alone blank", {name: None}))
    yield Trial(Case("emptied", dict.fromkeys(list_given(spec))))


def list_few(spec: Spec) -> Iterator[Trial]:
    """Yield the sets for the delivered book: as built, emptied, worked, and some at random."""
    yield Trial(Case("defaults"))
    yield Trial(Case("emptied", dict.fromkeys(list_given(spec))))
    yield Trial(make_worked(spec))
    yield from map(Trial, draw_cases(spec, SEED + 1, FEW))


def list_given(spec: Spec) -> list[str]:
    """Return the names of inputs and choices."""
    return [name for name, q in spec.quantities.items() if isinstance(q, Input | Choice)]


def make_worked(spec: Spec) -> Case:
    """Return the worked case of the specs, without idle branches."""
    given: dict[str, Value] = {}
    for name, value in spec.worked.given.items():
        given[name] = float(value) if isinstance(value, int | float) else str(value)
    rows: dict[str, list[Row]] = {}
    for grid, entries in spec.worked.entries.items():
        known = spec.quantities[grid]
        rows[grid] = [
            {k: float(v) if isinstance(v, int | float) else v for k, v in row.items()}
            for row in entries[: known.rows if isinstance(known, Grid) else 0]
        ]
    return Case("worked case", given, rows)


def list_log_trials(spec: Spec, worked: Case) -> Iterator[Trial]:
    """Yield rare logs, logs in other units, and logs of which a unit is unknown."""
    grid = spec.quantities["log"]
    yield from map(Trial, list_logs(grid.rows if isinstance(grid, Grid) else 0))
    yield from list_rows()
    for system in ("us", "imperial", "other"):
        yield Trial(worked, system=system)
        for case in draw_cases(spec, SEED + 2, ABROAD):
            yield Trial(case, system=system)
    run: Row = {**RUN, "day_d": 46451.0}
    for choice in ("flow_correction", "reader_units"):
        yield Trial(Case(f"a run without {choice}", {choice: None}, {"log": [run]}))
    for name, typed in typed_grids(spec).items():
        for column in list_entries(spec, typed):
            if column.entry == "number" and has_heading(column.unit, spec):
                yield estrange(worked, name, column.name)


def has_heading(unit: str, spec: Spec) -> bool:
    """Tell whether a column's unit is chosen in its heading."""
    alike = [u for u in spec.units.values() if unit and u.dimension == spec.units[unit].dimension]
    return len(alike) > 1


def estrange(case: Case, grid: str, column: str) -> Trial:
    """Return a case in which a column bears a unit that nobody knows: its numbers are nothing."""
    rows = [{**row, column: None} for row in case.rows.get(grid, [])]
    odd: dict[str, Value] = {f"{grid}_{column}_typed_unit": UNKNOWN}
    odd |= {f"{grid}_{column}_list {n}": 1.5 for n, _ in enumerate(rows, start=1)}
    lost = replace(case, label=f"{grid} {column} unknown", rows={**case.rows, grid: rows})
    return Trial(lost, odd)
