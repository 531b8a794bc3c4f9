"""Compares what a workbook shows with what the Python reference says."""

import math
from collections.abc import Iterable, Iterator

from builder.calculation import calculate_season
from builder.formula.grids import grid_columns
from builder.spec.records import Check, Grid, Record, Result, Tolerance
from builder.spec.specification import Spec
from workbook.cases import Case, place_case
from workbook.engines import Engine
from workbook.files import Cell, File, Value, find_errors, show

RELATIVE, ABSOLUTE = 1e-9, 1e-12
LISTED = 30
VERDICTS = ("ok", "look", "stop", "missing", "none")
STRONGEST_GPL = 1000.0  # beyond it the reference refuses a pH; the workbook shows one, and warns


def agree(found: Value, expected: Value, tolerance: Tolerance | None = None) -> bool:
    """Tell whether two values are the same; a blank is only the same as a blank."""
    wider = tolerance or Tolerance()
    if isinstance(found, float) and isinstance(expected, float):
        relative, absolute = max(RELATIVE, wider.rel), max(ABSOLUTE, wider.abs)
        return math.isclose(found, expected, rel_tol=relative, abs_tol=absolute)
    return found == expected


def listed(differences: list[str]) -> str:
    """Return the first differences as lines, for the message of a failed claim."""
    return "\n".join([f"{len(differences)} differences", *differences[:LISTED]])


def list_differences(found: dict[Cell, Value], expected: dict[Cell, Value]) -> list[str]:
    """Return the cells whose values differ or that one side lacks."""
    return [
        f"{show(cell)}: found {found.get(cell, 'no cell')!r}, expected {value!r}"
        for cell, value in expected.items()
        if cell not in found or not agree(found[cell], value)
    ]


def compare_cases(
    cases: Iterable[Case], engine: Engine, file: File, spec: Spec, lang: str = "en"
) -> list[str]:
    """Return every result, verdict and worked column that differs from the reference."""
    differences: list[str] = []
    for case in cases:
        values = engine.solve(place_case(case, file, spec, lang))
        problems = [*find_errors(values), *compare_case(case, values, file, spec, lang)]
        differences += [f"{case.label}: {problem}" for problem in problems]
    return differences


def compare_case(
    case: Case, values: dict[Cell, Value], file: File, spec: Spec, lang: str
) -> Iterator[str]:
    """Yield the differences of one case."""
    reference = calculate_season(spec, case.given, case.rows)
    strength = reference.values["cleaner_strength_gpL"]
    if isinstance(strength, float) and strength > STRONGEST_GPL:
        return
    words: dict[Value, Value] = {spec.words[key].pick(lang): key for key in VERDICTS}
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Result | Check):
            found, expected = values[file.cell(name)], as_number(reference.values[name])
            if isinstance(quantity, Check):
                found = words.get(found, found)
            tolerance = quantity.tolerance if isinstance(quantity, Result) else None
            if not agree(found, expected, tolerance):
                yield f"{name}: workbook {found!r}, reference {expected!r}"
        elif isinstance(quantity, Grid):
            yield from compare_grid(quantity, values, reference.columns, file, spec, lang)


def compare_grid(
    grid: Grid,
    values: dict[Cell, Value],
    columns: dict[str, list[Value]],
    file: File,
    spec: Spec,
    lang: str,
) -> Iterator[str]:
    """Yield the differences in the worked columns of a grid that have a reference."""
    for column in grid_columns(grid, spec.quantities):
        name = f"{grid.name}_{column.name}_list"
        if column.entry or name not in columns:
            continue
        for cell, expected in zip(file.names[name], columns[name], strict=True):
            found = as_place(values[cell], column, lang)
            if not agree(found, as_number(expected)):
                yield f"{name} {show(cell)}: workbook {found!r}, reference {expected!r}"


def as_number(value: Value) -> Value:
    """Return whole numbers as the kind of number that workbooks hold, and no empty text."""
    if isinstance(value, str):
        return value or None
    return None if value is None else float(value)


def as_place(value: Value, column: Record, lang: str) -> Value:
    """Return the place of a word in its column's list; anything else as it is."""
    words = [text.pick(lang) for text in column.words]
    return float(words.index(value) + 1) if isinstance(value, str) and value in words else value
