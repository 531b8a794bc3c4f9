"""Compares a workbook's results, verdicts and constants with the Python reference."""

import math
from collections.abc import Iterator

from builder.audit.cases import Case, Column, name_row
from builder.audit.findings import Finding
from builder.audit.normalization import CellValue
from builder.audit.values import ABSOLUTE, RELATIVE, is_error, show
from builder.calculation import Value, find_reference
from builder.spec.records import Check, Constant, Result, Tolerance
from builder.spec.specification import Spec

VERDICTS = ("ok", "look", "stop", "missing", "none")


def read_words(
    names: dict[str, str], shown: dict[str, CellValue]
) -> tuple[dict[str, CellValue], list[Finding]]:
    """Return the workbook's word for each verdict, and a fault for each that is missing."""
    words: dict[str, CellValue] = {}
    faults: list[Finding] = []
    for verdict in VERDICTS:
        name = f"word_{verdict}_txt"
        word = shown.get(names.get(name, ""))
        if isinstance(word, str):
            words[verdict] = word
        else:
            text = f"word for {verdict}, found {show(word)}, expected a text"
            faults.append(Finding(names.get(name, ""), name, text))
    return words, faults


def compare_case(
    case: Case,
    expected: dict[str, Value],
    spec: Spec,
    shown: dict[str, CellValue],
    words: dict[str, CellValue],
) -> Iterator[Finding]:
    """Yield a fault for each result or verdict that differs from the reference."""
    for name, cell in case.outcomes.items():
        quantity, found, wanted = spec.quantities[name], shown.get(cell), expected[name]
        if isinstance(quantity, Check):
            word = words.get(str(wanted), wanted)
            if found != word:
                yield report(cell, name, found, word)
        elif isinstance(quantity, Result) and not is_near(found, wanted, quantity.tolerance):
            yield report(cell, name, found, wanted)


def compare_columns(
    columns: list[Column], expected: dict[str, list[Value]], shown: dict[str, CellValue], lang: str
) -> Iterator[Finding]:
    """Yield a fault for each worked cell of a grid that differs from the reference."""
    for column in columns:
        if column.source not in expected or column.record.entry:
            continue
        rows = zip(column.cells, expected[column.source], strict=True)
        for number, (cell, value) in enumerate(rows, start=1):
            found, wanted = shown.get(cell), pick_word(column, value, lang)
            if not is_near(found, wanted, column.record.tolerance):
                yield report(cell, name_row(column.name, number), found, wanted)


def pick_word(column: Column, value: Value, lang: str) -> Value:
    """Return a value as a column shows it: word n for n where the column has words, none for 0."""
    if column.words and isinstance(value, int | float):
        return column.words[int(value) - 1].pick(lang) if value else None
    return value


def report(cell: str, name: str, found: CellValue, expected: CellValue) -> Finding:
    """Return the fault of a cell that differs from the reference."""
    text = f"value, found {show(found)}, expected {show(expected)} (Python reference)"
    return Finding(cell, name, text)


def is_near(found: CellValue, expected: Value, tolerance: Tolerance | None) -> bool:
    """Tell whether a result is within 1e-9 relative, or within its quantity's own tolerance."""
    if isinstance(found, float) and isinstance(expected, int | float):
        allowed = tolerance or Tolerance()
        relative, absolute = max(RELATIVE, allowed.rel), max(ABSOLUTE, allowed.abs)
        gap = abs(found - expected)
        return math.isfinite(gap) and gap <= max(relative * abs(expected), absolute)
    return found == expected and not is_error(found)


def compare_constants(spec: Spec, names: dict[str, str]) -> Iterator[Finding]:
    """Yield a fault for each constant that the reference holds otherwise."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Constant) and quantity.reference:
            expected = look_up(quantity.reference)
            if expected != quantity.value:
                wanted = "none" if expected is None else repr(expected)
                text = f"constant, found {quantity.value!r}, expected {wanted} (Python reference)"
                yield Finding(names.get(name, ""), name, text)


def look_up(path: str) -> float | None:
    """Return a constant of the reference, or None."""
    try:
        found = find_reference(path)
    except LookupError:
        return None
    return None if callable(found) else found
