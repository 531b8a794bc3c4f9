"""Judges a workbook of another edition by names: what differs, and which results follow from it."""

from collections.abc import Iterator

from builder.audit.book import Book
from builder.audit.cases import keep_columns, list_cells, name_row
from builder.audit.changes import Changes, list_names
from builder.audit.dependence import Dependence, fold
from builder.audit.findings import Finding
from builder.audit.identity import PROGRAM, name_difference, name_version
from builder.audit.normalization import CellValue
from builder.audit.readback import Places
from builder.audit.reading import Reading
from builder.audit.reference import compare_case, compare_columns, read_words


def compare_values(
    places: Places, reading: Reading, shown: dict[str, CellValue]
) -> Iterator[Finding]:
    """Yield each value that differs from the reference of this edition."""
    words, _ = read_words(places.names, shown)
    yield from compare_case(places.case, reading.values, places.spec, shown, words)
    yield from compare_columns(places.columns, reading.columns, shown, reading.language)


def split_values(
    book: Book, values: list[Finding], changes: Changes
) -> tuple[list[Finding], list[str]]:
    """Return the values that nothing explains, and the names of those that follow from changes."""
    targets = keep_columns(book.names)
    nodes = {fold(name) for name in changes.names()}
    nodes |= {c for name in changes.names() if name in targets for c in list_cells(targets[name])}
    dependence = Dependence(book, book.cells)
    followed = {
        value.cell for value in values if not nodes.isdisjoint(dependence.follow_back([value.cell]))
    }
    wrong = [value for value in values if value.cell not in followed]
    return wrong, [value.name for value in values if value.cell in followed]


def tell_changes(book: Book, changes: Changes, followed: list[str]) -> Iterator[Finding]:
    """Yield what differs, which results follow, and who can say whether somebody did it."""
    name, version = name_difference(book), name_version(book.properties["version"])
    yield Finding("", name, f"compared by names, not cell by cell: {changes}")
    if followed:
        text = f"values that differ from this edition's for these reasons: {len(followed)}"
        yield Finding("", name, f"{text} ({list_names(followed)})")
    if changes.names() or changes.new or changes.gone:
        text = "whether the edition or somebody has made these differences cannot be told from here"
        yield Finding("", name, f"{text}: the {PROGRAM} {version} that built it can tell")


def find_typed_formulas(book: Book, places: Places) -> Iterator[Finding]:
    """Yield a fault for each formula where people type."""
    typed = [(entry.cell, entry.quantity.name) for entry in places.case.entries]
    for column in places.columns:
        if column.record.entry:
            rows = enumerate(column.cells, start=1)
            typed += [(cell, name_row(column.name, number)) for number, cell in rows]
    for place, name in typed:
        cell = book.cells.get(place)
        if cell is not None and cell.formula:
            text = f"typed cell, found {cell.formula}, expected a value, not a formula"
            yield Finding(place, name, f"{text}: counts as blank")


def report_changes(book: Book, changes: Changes) -> Iterator[Finding]:
    """Yield a fault for each name that differs although the edition is the same."""
    kinds: dict[str, list[str]] = {
        "formula, found another than this edition's": changes.formulas,
        "limits or numbers behind, found others than this edition's": changes.limits,
        "defined name, found none, expected one": changes.new,
        "defined name, found one, expected none": changes.gone,
    }
    for text, names in kinds.items():
        for name in names:
            yield Finding(book.names.get(name, ""), name, text)
    for name, values in changes.constants.items():
        yield Finding(book.names.get(name, ""), name, f"constant, found {values}")
