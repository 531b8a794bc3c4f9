"""The audit of one workbook, from the file to the report."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from builder.audit.book import Book, read_book, read_design
from builder.audit.cases import NUMBERED, find_unnamed
from builder.audit.changes import compare_editions
from builder.audit.container import find_foreign, pack, read_parts
from builder.audit.design import Design, adopt_words, has_same_frame, make_design
from builder.audit.editions import (
    compare_values,
    find_typed_formulas,
    report_changes,
    split_values,
    tell_changes,
)
from builder.audit.effects import find_effects
from builder.audit.findings import Finding, Report
from builder.audit.identity import (
    WORDS,
    Kinship,
    find_strangeness,
    is_listed,
    relate,
    tell_edition,
    tell_newer,
)
from builder.audit.normalization import CellValue
from builder.audit.outside import find_outside
from builder.audit.readback import Places, read_back, translate_choices
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
OTHER_WORDS = "built with other words or looks than this edition has: they were not compared"


@dataclass(frozen=True, slots=True)
class Told:
    """What a comparison with this edition has to tell."""

    faults: list[Finding]
    warnings: list[Finding]


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
        kinship = relate(book, self.spec)
        design = self.choose_design(path, book, kinship)
        typed = book if kinship is Kinship.SAME else translate_choices(book, design.places)
        reading, doubts = read_back(typed, design.places)
        values = audit_values(book, design.labels, DEEP if deep else FAST)
        if design.book is book:
            told = audit_names(design, self.find_design(path, book), self.spec, reading, values)
        else:
            told = Told(list(audit_structure(book, design, reading, values)), [])
        if kinship is Kinship.REWORDED:
            told.warnings.append(Finding("", WORDS, OTHER_WORDS))
        faults += [*told.faults, *find_outside(book, design.labels), *values.faults]
        warnings = [*values.warnings, *told.warnings, *find_losses(book, design.book), *doubts]
        return conclude(path, book, faults, warnings, values.confirmed, reading)

    def choose_design(self, path: Path, book: Book, kinship: Kinship) -> Design:
        """Return the workbook to compare with cell by cell; the workbook itself where none is."""
        design = self.find_design(path, book)
        if kinship is Kinship.SAME:
            return design
        if kinship is Kinship.REWORDED and has_same_frame(book, design.book):
            return adopt_words(book, design)
        return make_design(self.spec, book)

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


def audit_structure(
    book: Book, design: Design, reading: Reading, values: Values
) -> Iterator[Finding]:
    """Yield the faults against the pristine workbook and against the reference."""
    shown = show_values(book, values)
    differences = list(compare_books(book, design.book, design.labels))
    effects = find_effects(differences, book, design.book, design.places, shown)
    yield from effects.faults
    for fault in audit_reference(design.places, reading, shown):
        if fault.name.partition(NUMBERED)[0] not in effects.unproven:
            yield fault


def audit_names(own: Design, here: Design, spec: Spec, reading: Reading, values: Values) -> Told:
    """Return what the names of a workbook stand for otherwise than in this edition."""
    book, changes = own.book, compare_editions(own.side, here.side)
    wrong = list(compare_values(own.places, reading, show_values(book, values)))
    wrong, followed = split_values(book, wrong, changes)
    faults = [*find_typed_formulas(book, own.places), *wrong]
    if relate(book, spec) is Kinship.REWORDED:
        return Told([*faults, *report_changes(book, changes)], [])
    warnings = [*tell_newer(book, spec), *tell_changes(book, changes, followed)]
    if is_listed(book, spec):
        return Told(faults, [tell_edition(book, spec), *warnings])
    return Told([tell_edition(book, spec), *faults], warnings)


def show_values(book: Book, values: Values) -> dict[str, CellValue]:
    """Return what each cell shows, its formula worked out."""
    return {place: cell.constant for place, cell in book.cells.items()} | values.worked_out


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
