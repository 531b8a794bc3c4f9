"""Compares what a workbook file shows with what the Python reference says."""

from collections.abc import Iterable

from builder.calculation import Calculator
from builder.spec.specification import Spec
from builder.trial.cases import Case
from builder.trial.comparison import agree, list_differences
from builder.trial.placement import place_case
from workbook.engines import Engine
from workbook.files import Cell, File, Value, find_errors, show

LISTED = 30


def listed(differences: list[str]) -> str:
    """Return the first differences as lines, for the message of a failed claim."""
    return "\n".join([f"{len(differences)} differences", *differences[:LISTED]])


def compare_values(found: dict[Cell, Value], expected: dict[Cell, Value]) -> list[str]:
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
    calculator = Calculator(spec)
    for case in cases:
        values = engine.solve(place_case(case, file.names, spec, lang))
        reference = calculator.work_out(case.given, case.rows)
        found = list_differences(reference, values, file.names, spec, lang)
        problems = [*find_errors(values), *map(str, found)]
        differences += [f"{case.label}: {problem}" for problem in problems]
    return differences
