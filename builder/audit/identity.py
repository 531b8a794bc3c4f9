"""Which program, version, language and units a workbook says that it comes from."""

from collections.abc import Iterator

from builder import __version__
from builder.audit.book import Book
from builder.audit.findings import Finding
from builder.spec.specification import Spec

KNOWN = {"language": ("en", "fr"), "units": ("metric", "us", "imperial")}
PROPERTIES = ("version", "specs", "language", "units")


def find_strangeness(book: Book) -> Iterator[Finding]:
    """Yield a fault where the workbook does not say what it is."""
    missing = [name for name in PROPERTIES if name not in book.properties]
    if missing:
        text = f"not a workbook of this program: document property {', '.join(missing)} is missing"
        yield Finding("", "", text)
    for name, known in KNOWN.items():
        found = book.properties.get(name)
        if found is not None and found not in known:
            text = f"not a workbook of this program: found {found!r}, expected {' or '.join(known)}"
            yield Finding("", name, text)


def find_other_edition(book: Book, spec: Spec) -> Iterator[Finding]:
    """Yield a fault where another version, or other specs, built the workbook."""
    expected = {"version": __version__, "specs": spec.digest}
    for name, own in expected.items():
        found = book.properties[name]
        if found != own:
            text = (
                f"built by another edition of the program, found {found!r}, expected {own!r}; "
                "formulas and constants were not compared: audit it with its own edition"
            )
            yield Finding("", name, text)
