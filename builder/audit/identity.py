"""Which program, version, language and units a workbook says that it comes from."""

import re
from collections.abc import Iterator
from enum import Enum

from builder import __version__
from builder.audit.book import Book
from builder.audit.findings import Finding
from builder.spec.editions import digest_words
from builder.spec.records import Edition
from builder.spec.specification import Spec

UNITS = ("metric", "us", "imperial")
PROGRAM = "rinsebook"
VERSION = re.compile(r"[0-9][0-9A-Za-z.+]{0,19}")
SHOWN = 20
PROPERTIES = ("version", "specs", "language", "units")
WORDS = "words"  # the books of the first edition do not have it


class Kinship(Enum):
    """How a workbook is related to this edition, by what it says of itself."""

    SAME = "the same"
    REWORDED = "the same but for words and looks"
    OTHER = "another"


def relate(book: Book, spec: Spec) -> Kinship:
    """Return how a workbook of this program is related to this edition."""
    facts = book.properties
    if (facts["version"], facts["specs"]) != (__version__, spec.digest):
        return Kinship.OTHER
    same = facts.get(WORDS) == digest_words(spec, facts["language"])
    return Kinship.SAME if same else Kinship.REWORDED


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


def is_listed(book: Book, spec: Spec) -> bool:
    """Tell whether a workbook is of an edition that this one knows."""
    own = book.properties["version"], book.properties["specs"]
    return any((edition.version, edition.digest) == own for edition in spec.editions)


def tell_edition(book: Book, spec: Spec) -> Finding:
    """Return which edition a workbook is of."""
    version, specs = name_version(book.properties["version"]), book.properties["specs"]
    unknown = "" if is_listed(book, spec) else ", an edition that is not known here"
    text = f"built by version {version} with specs {specs[:SHOWN]}{unknown}"
    here = f"this is version {__version__} with specs {spec.digest}"
    return Finding("", name_difference(book), f"{text}; {here}")


def tell_newer(book: Book, spec: Spec) -> Iterator[Finding]:
    """Yield what the editions since that of a workbook have told."""
    for edition in list_newer(spec.editions, book.properties["version"], book.properties["specs"]):
        out = edition.date or "not out yet"
        text = f"edition {edition.version} ({out}) tells: {edition.told.pick(spec.main_language)}"
        yield Finding("", name_difference(book), text)


def name_difference(book: Book) -> str:
    """Return which property tells another edition."""
    return "version" if book.properties["version"] != __version__ else "specs"


def list_newer(editions: list[Edition], version: str, specs: str) -> list[Edition]:
    """Return the editions after that of a workbook, the newest first; none if it is unknown."""
    for number, edition in enumerate(editions):
        if edition.version == version:
            # A state of that version which was not out yet lacks what the version tells.
            return editions[: number + (edition.digest != specs)]
    return []


def name_version(text: str) -> str:
    """Return the version that a workbook says it is of; quoted where it cannot be one."""
    return text if VERSION.fullmatch(text) else repr(text[:SHOWN])
