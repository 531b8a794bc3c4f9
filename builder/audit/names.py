"""The defined names of a workbook, spelled out in its formulas."""

import re

from builder.audit.book import Book

# A text or a sheet in quotes, which stay as they are, or a word that is no function and no sheet.
TOKEN = re.compile(r"\"[^\"]*\"|'[^']*'|\b[^\W\d][\w.]*\b(?![(!])")
CELL = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
ABSOLUTE = r"$\1$\2"


def spell_out(book: Book) -> dict[str, str]:
    """Return each formula with addresses for names, by place."""
    names = Names(book)
    return {place: names.spell_out(place, cell.formula) for place, cell in book.formulas()}


class Names:
    """The defined names of a workbook as addresses: each name costs the engine time a cell."""

    def __init__(self, book: Book) -> None:
        """Spell out each target once."""
        self.everywhere = {name.casefold(): address(to) for name, to in book.names.items()}
        self.own: dict[str, dict[str, str]] = {}
        for local, target in book.local_names.items():
            sheet, _, name = local.rpartition("!")
            self.own.setdefault(sheet, {})[name.casefold()] = address(target)

    def spell_out(self, place: str, formula: str) -> str:
        """Return a formula without names; one of the cell's own sheet goes before the others."""
        own = self.own.get(place.rpartition("!")[0], {})

        def swap(found: re.Match[str]) -> str:
            word = found[0].casefold()
            return own.get(word) or self.everywhere.get(word, found[0])

        return TOKEN.sub(swap, formula.strip("{}"))


def address(target: str) -> str:
    """Return what a name points to as a part of a formula."""
    sheet, mark, cell = target.rpartition("!")
    if not mark:
        return f"({target})"
    quoted = sheet.replace("'", "''")
    return f"'{quoted}'!{CELL.sub(ABSOLUTE, cell)}"
