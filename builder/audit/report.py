"""The audit of one workbook, from the file to the report."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from builder.audit.book import Book, read_book, read_design
from builder.audit.cases import (
    LIST,
    NUMBERED,
    find_unnamed,
    keep_columns,
    list_cells,
    name_row,
)
from builder.audit.container import find_foreign, pack, read_parts
from builder.audit.effects import find_effects
from builder.audit.findings import Finding, Report
from builder.audit.identity import find_other_edition, find_strangeness
from builder.audit.normalization import CellValue
from builder.audit.outside import find_outside
from builder.audit.readback import Places, find_places, read_back
from builder.audit.reading import Reading
from builder.audit.recalculation import Engine, run_formulas, run_ironcalc
from builder.audit.reference import compare_case, compare_columns, compare_constants, read_words
from builder.audit.structure import compare_books
from builder.audit.trimmings import find_losses
from builder.audit.values import Values, audit_values
from builder.spec.specification import Spec

Build = Callable[[str, str], bytes]

FAST: dict[str, Engine] = {"ironcalc": run_ironcalc}
DEEP: dict[str, Engine] = {**FAST, "formulas": run_formulas}


@dataclass(frozen=True, slots=True)
class Design:
    """What a workbook is compared with, how its cells are called, and where people type."""

    book: Book
    labels: dict[str, str]
    places: Places


class Auditor:
    """Audits any number of workbooks; what they are compared with is built once."""

    def __init__(self, spec: Spec, build: Build) -> None:
        """Keep the specs, and the function that builds a workbook in a language and units."""
        self.spec, self.build = spec, build
        self.designs: dict[tuple[str, str], Design] = {}

    def audit(self, path: Path, deep: bool) -> Report:  # noqa: FBT001
        """Return what is wrong with a workbook; raise UserError where it cannot be read at all."""
        parts = read_parts(path)
        data = pack(parts)
        book = read_book(path, data)
        strange = list(find_strangeness(book, self.spec))
        faults = [*find_foreign(parts), *strange]
        if strange:
            return conclude(path, book, faults, [], set(), None)
        other = list(find_other_edition(book, self.spec))
        design = make_design(self.spec, book) if other else self.find_design(path, book)
        reading, doubts = read_back(book, design.places)
        values = audit_values(book, design.labels, DEEP if deep else FAST)
        faults += [*other, *find_outside(book, design.labels)]
        faults += [*audit_structure(book, design, reading, values), *values.faults]
        warnings = [*values.warnings, *find_losses(book, design.book), *doubts]
        return conclude(path, book, faults, warnings, values.confirmed, reading)

    def find_design(self, path: Path, book: Book) -> Design:
        """Return the workbook that this version builds in the same language and units."""
        pair = book.properties["language"], book.properties["units"]
        if pair not in self.designs:
            pristine = read_design(path, self.build(*pair))
            self.designs[pair] = make_design(self.spec, pristine)
        return self.designs[pair]


def audit_file(path: Path, spec: Spec, build: Build, deep: bool) -> Report:  # noqa: FBT001
    """Return what is wrong with one workbook; raise UserError where it cannot be read at all.

    `build` returns a fresh workbook of this version in a language and a system of units.
    """
    return Auditor(spec, build).audit(path, deep)


def make_design(spec: Spec, book: Book) -> Design:
    """Return what there is to know of a workbook before it is compared with another."""
    return Design(book, label_cells(book.names), find_places(spec, book.names))


def label_cells(names: dict[str, str]) -> dict[str, str]:
    """Return the first defined name of each cell, or else its column and row in a grid."""
    labels: dict[str, str] = {}
    for name, cell in names.items():
        labels.setdefault(cell, name)
    for name, area in keep_columns(names).items():
        if name.endswith(LIST):
            for number, cell in enumerate(list_cells(area), start=1):
                labels.setdefault(cell, name_row(name.removesuffix(LIST), number))
    return labels


def audit_structure(
    book: Book, design: Design, reading: Reading, values: Values
) -> Iterator[Finding]:
    """Yield the faults against the pristine workbook and against the reference.

    The workbook of another edition is its own design, and no result of it is compared.
    """
    shown = {place: cell.constant for place, cell in book.cells.items()} | values.worked_out
    differences = list(compare_books(book, design.book, design.labels))
    effects = find_effects(differences, book, design.book, design.places, shown)
    yield from effects.faults
    if book is not design.book:
        for fault in audit_reference(design.places, reading, shown):
            if fault.name.partition(NUMBERED)[0] not in effects.unproven:
                yield fault


def audit_reference(
    places: Places, reading: Reading, shown: dict[str, CellValue]
) -> Iterator[Finding]:
    """Yield the faults against the reference."""
    words, faults = read_words(places.names, shown)
    yield from faults
    yield from find_unnamed(places.spec, places.names)
    yield from compare_constants(places.spec, places.names)
    yield from compare_case(places.case, reading.values, places.spec, shown, words)
    yield from compare_columns(places.columns, reading.columns, shown, reading.language)


def conclude(
    path: Path,
    book: Book,
    faults: Iterable[Finding],
    warnings: Iterable[Finding],
    confirmed: set[str],
    reading: Reading | None,
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
        reading=reading,
    )
