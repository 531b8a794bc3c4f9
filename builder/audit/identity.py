"""Which program, version, language and units a workbook says that it comes from."""

import re
from collections.abc import Iterator

from builder import __version__
from builder.audit.book import Book
from builder.audit.findings import Finding
from builder.spec.specification import Spec

UNITS = ("metric", "us", "imperial")
PROGRAM = "rinsebook"
VERSION = re.compile(r"[0-9][0-9A-Za-z.+]{0,19}")
SHOWN = 20
NOT_COMPARED = "formulas and constants were not compared"
PROPERTIES = ("version", "specs", "language", "units")


def find_strangeness(book: Book, spec: Spec) -> Iterator[Finding]:
    """Yield a fault where the workbook does not say what it is."""
    missing = [name for name in PROPERTIES if name not in book.properties]
    if missing:
        text = f"not a workbook of this program: document property {', '.join(missing)} is missing"
        yield Finding("", "", text)
    for name, known in (("language", tuple(spec.languages)), ("units", UNITS)):
        found = book.properties.get(name)
        if found is not None and found not in known:
            text = f"not a workbook of this program: found {found!r}, expected {' or '.join(known)}"
            yield Finding("", name, text)


def find_other_edition(book: Book, spec: Spec) -> Iterator[Finding]:
    """Yield a fault where another version, or other specs, built the workbook."""
    version, specs = name_version(book.properties["version"]), book.properties["specs"]
    if version != __version__:
        text = f"built by version {version} of the program, this is {__version__}"
        yield Finding("", "version", f"{text}; {NOT_COMPARED}: audit it with {PROGRAM} {version}")
    elif specs != spec.digest:
        text = (
            f"built by version {version} with other specs ({specs[:SHOWN]}), here are {spec.digest}"
        )
        remedy = f"audit it with the {PROGRAM} {version} that built it"
        yield Finding("", "specs", f"{text}; {NOT_COMPARED}: {remedy}")


def name_version(text: str) -> str:
    """Return the version that a workbook says it is of; quoted where it cannot be one."""
    return text if VERSION.fullmatch(text) else repr(text[:SHOWN])
