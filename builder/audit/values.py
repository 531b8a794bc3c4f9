"""Compares what a workbook shows with what engines work out from its formulas."""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

from builder.audit.book import Book
from builder.audit.findings import Finding
from builder.audit.normalization import CellValue
from builder.audit.recalculation import Engine, EngineError, recalculate

RELATIVE = 1e-9
# Differences of equal numbers: two engines leave other crumbs, far below any digit shown.
ABSOLUTE = 1e-12
ERROR = re.compile(r"#(N/A|[A-Z0-9/_]+[!?])")


@dataclass(frozen=True, slots=True)
class Values:
    """Formula cells by `Sheet!B5`: their values, and which of them every engine confirms."""

    worked_out: dict[str, CellValue]
    confirmed: set[str]
    faults: list[Finding]
    warnings: list[Finding]


def audit_values(book: Book, labels: dict[str, str], engines: dict[str, Engine]) -> Values:
    """Recalculate a workbook with each engine and compare with what it stores."""
    shown = {place: cell.stored for place, cell in book.formulas()}
    solutions: list[dict[str, CellValue]] = []
    faults: list[Finding] = []
    warnings: list[Finding] = []
    for engine, run in engines.items():
        try:
            solutions.append(recalculate(book, run))
        except EngineError as error:
            text = f"{engine} cannot calculate the workbook, found {error}, expected values"
            faults.append(Finding("", "", text))
            continue
        if is_unstored(shown, solutions[-1]):
            text = "no stored values: open the file in a spreadsheet program and save it there"
            warnings.append(Finding("", "", text))
            shown = solutions[-1]
        faults += compare_values(shown, solutions[-1], labels, engine)
    doubted = {fault.cell for fault in faults}
    confirmed = set(shown) - doubted if len(solutions) == len(engines) else set()
    return Values(solutions[0] if solutions else shown, confirmed, faults, warnings)


def is_unstored(shown: dict[str, CellValue], worked_out: dict[str, CellValue]) -> bool:
    """Tell whether a file stores no value at all although its formulas have values."""
    stored = any(value is not None for value in shown.values())
    return not stored and any(value is not None for value in worked_out.values())


def compare_values(
    shown: dict[str, CellValue],
    worked_out: dict[str, CellValue],
    labels: dict[str, str],
    engine: str,
) -> Iterator[Finding]:
    """Yield a fault for each formula cell that an engine leaves out, fails at or sees otherwise."""
    for place, found in shown.items():
        name = labels.get(place, "")
        if place not in worked_out:
            yield Finding(place, name, f"value, found {show(found)}, left out by {engine}")
        elif is_error(found) and is_error(worked_out[place]):
            # Engines name errors differently, so the codes are not compared.
            yield Finding(place, name, f"value, found error {found}, expected none")
        elif not agree(found, worked_out[place]):
            text = f"value, found {show(found)}, expected {show(worked_out[place])} ({engine})"
            yield Finding(place, name, text)


def agree(found: CellValue, expected: CellValue) -> bool:
    """Tell whether two values agree: numbers within tolerance, all else exactly."""
    if isinstance(found, float) and isinstance(expected, float):
        return math.isclose(found, expected, rel_tol=RELATIVE, abs_tol=ABSOLUTE)
    return type(found) is type(expected) and found == expected


def is_error(value: CellValue) -> bool:
    """Tell whether a value is an error code."""
    return isinstance(value, str) and ERROR.fullmatch(value) is not None


def show(value: CellValue) -> str:
    """Return a value for messages."""
    if value is None:
        return "nothing"
    return f"{value:.12g}" if isinstance(value, float) else repr(value)
