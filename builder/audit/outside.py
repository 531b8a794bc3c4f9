"""References that lead out of a workbook: no engine is given one, for it would open the file."""

import re
from collections.abc import Iterator

from builder.audit.book import Book
from builder.audit.findings import Finding
from builder.audit.names import address, spell_out

TEXT_OR_QUOTED = re.compile(r"\"[^\"]*\"|'[^']*'")
ERROR_VALUE = re.compile(r"#(?:REF!|DIV/0!|NULL!|VALUE!|NUM!)")
SHEET = re.compile(r"'((?:[^']|'')*)'[!#]|([^\s'\"!(){},;:+\-*/^&=<>%$]+)!")


def keep_inside(book: Book) -> dict[str, str]:
    """Return the formulas that use this workbook alone, addresses for names, by place."""
    titles = fold_titles(book)
    spelled = spell_out(book)
    return {place: text for place, text in spelled.items() if not leads_outside(text, titles)}


def find_outside(book: Book, labels: dict[str, str]) -> Iterator[Finding]:
    """Yield a fault for each cell and each name that refers to another file."""
    titles = fold_titles(book)
    for place, text in spell_out(book).items():
        if leads_outside(text, titles):
            yield report(place, labels.get(place, ""), book.cells[place].formula)
    for name, target in [*book.names.items(), *book.local_names.items()]:
        if leads_outside(address(target), titles):
            yield report("", name, target)


def report(place: str, name: str, found: str) -> Finding:
    """Return the fault of one reference."""
    return Finding(place, name, f"reference to another file, found {found}, expected none")


def leads_outside(formula: str, titles: set[str]) -> bool:
    """Tell whether a formula names a file, or a sheet that is none of these."""
    bare = TEXT_OR_QUOTED.sub(lambda found: found[0] if found[0][0] == "'" else '""', formula)
    if "[" in bare:
        return True
    sheets = SHEET.findall(ERROR_VALUE.sub("", bare))
    return not {fold(quoted.replace("''", "'") or plain) for quoted, plain in sheets} <= titles


def fold_titles(book: Book) -> set[str]:
    """Return the titles of the sheets as programs compare them."""
    return {fold(title) for title in book.sheets}


def fold(title: str) -> str:
    """Return a title without regard to case."""
    return title.casefold()
