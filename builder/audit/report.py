"""The audit of one workbook, from the file to the report."""

from collections.abc import Callable, Iterable
from pathlib import Path

from builder.audit.book import Book, read_book, read_design
from builder.audit.cases import (
    LIST,
    find_columns,
    find_machine,
    find_unnamed,
    list_cells,
    name_row,
)
from builder.audit.container import find_foreign, pack, read_parts
from builder.audit.findings import Finding, Report
from builder.audit.identity import find_other_edition, find_strangeness
from builder.audit.inputs import Reader
from builder.audit.normalization import CellValue
from builder.audit.recalculation import Engine, drop_idle_names, run_formulas, run_ironcalc
from builder.audit.reference import compare_case, compare_columns, compare_constants, read_words
from builder.audit.rows import read_entries
from builder.audit.structure import compare_books
from builder.audit.trimmings import find_losses
from builder.audit.values import audit_values
from builder.calculation import calculate_season
from builder.spec.specification import Spec

Build = Callable[[str, str], bytes]

FAST: dict[str, Engine] = {"ironcalc": run_ironcalc}
DEEP: dict[str, Engine] = {**FAST, "formulas": run_formulas}


def audit_file(path: Path, spec: Spec, build: Build, deep: bool) -> Report:  # noqa: FBT001
    """Return what is wrong with a workbook; raise UserError where it cannot be read at all.

    `build` returns a fresh workbook of this version in a language and a system of units.
    """
    parts = read_parts(path)
    data = pack(parts)
    book = read_book(path, data)
    faults = [*find_foreign(parts), *find_strangeness(book)]
    if any(find_strangeness(book)):
        return conclude(path, book, faults, [], set())
    other = list(find_other_edition(book, spec))
    pristine = book if other else build_pristine(path, book, build)
    labels = label_cells(pristine.names)
    light = pack(drop_idle_names(parts, book))
    values = audit_values(light, book, labels, DEEP if deep else FAST)
    faults += [*other, *compare_books(book, pristine, labels), *values.faults]
    warnings = [*values.warnings, *find_losses(book, pristine)]
    if not other:
        shown = {place: cell.constant for place, cell in book.cells.items()} | values.worked_out
        wrong, unusable = audit_reference(spec, pristine, shown, book.properties["language"])
        faults += wrong
        warnings += unusable
    return conclude(path, book, faults, warnings, values.confirmed)


def build_pristine(path: Path, book: Book, build: Build) -> Book:
    """Return the workbook that this version builds in the same language and units."""
    return read_design(path, build(book.properties["language"], book.properties["units"]))


def label_cells(names: dict[str, str]) -> dict[str, str]:
    """Return the first defined name of each cell, or else its column and row in a grid."""
    labels: dict[str, str] = {}
    for name, cell in names.items():
        labels.setdefault(cell, name)
    for name, area in names.items():
        if name.endswith(LIST):
            for number, cell in enumerate(list_cells(area), start=1):
                labels.setdefault(cell, name_row(name.removesuffix(LIST), number))
    return labels


def audit_reference(
    spec: Spec, pristine: Book, shown: dict[str, CellValue], lang: str
) -> tuple[list[Finding], list[Finding]]:
    """Return the faults against the reference, and the warnings about what was typed."""
    case, columns = find_machine(spec, pristine.names), find_columns(spec, pristine.names)
    reader = Reader(spec, lang, shown)
    given, warnings = reader.read(case)
    entries, doubts = read_entries(reader, columns)
    expected = calculate_season(spec, given, entries)
    words, faults = read_words(pristine.names, shown)
    faults += find_unnamed(spec, pristine.names)
    faults += compare_constants(spec, pristine.names)
    faults += compare_case(case, expected.values, spec, shown, words)
    faults += compare_columns(columns, expected.columns, shown, lang)
    return faults, [*warnings, *doubts]


def conclude(
    path: Path,
    book: Book,
    faults: Iterable[Finding],
    warnings: Iterable[Finding],
    confirmed: set[str],
) -> Report:
    """Return the report, each finding once."""
    faults, warnings = list(dict.fromkeys(faults)), list(dict.fromkeys(warnings))
    return Report(
        file=str(path),
        version=book.properties.get("version"),
        faults=faults,
        warnings=warnings,
        formulas=sum(1 for _ in book.formulas()),
        agree=len(confirmed - {fault.cell for fault in faults}),
    )
