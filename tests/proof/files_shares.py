"""Damage to formulas that many cells share: one change in the file, wrong in each cell."""

import re
from html import escape, unescape

from proof.files_draft import Mutant, Sign, pack
from proof.files_formulas import change_formula
from proof.lint_book import Book
from proof.lint_xml import Sheet

HEAD = re.compile(r'(?P<head><f t="shared" [^>]*si="(?P<share>\d+)"[^>]*>)(?P<text>[^<]+)</f>')
SHARER = re.compile(r'<c r="(?P<cell>[A-Z]+[0-9]+)"[^>]*><f t="shared" [^>]*si="(?P<share>\d+)"')


def change_shares(data: bytes) -> tuple[bytes, list[Mutant]]:
    """Return the file with each shared formula changed in one token, and what is to be told."""
    book, mutants = Book(data), list[Mutant]()
    parts = dict(book.parts)
    for sheet in book.sheets:
        text = parts[sheet.part].decode()
        sharers: dict[str, list[str]] = {}
        for hit in SHARER.finditer(text):
            sharers.setdefault(hit["share"], []).append(hit["cell"])

        def change(hit: re.Match[str], sheet: Sheet = sheet) -> str:
            new = change_formula(unescape(hit["text"]), f"{sheet.title} {hit['share']}")
            return f"{hit['head']}{escape(new, quote=False)}</f>"

        parts[sheet.part] = HEAD.sub(change, text).encode()
        mutants += [blame(sheet, cells) for cells in sharers.values()]
    return pack(parts), mutants


def blame(sheet: Sheet, cells: list[str]) -> Mutant:
    """Return the damage to all cells that share a formula."""
    places = [sheet.place(cell) for cell in cells]
    signs = tuple(Sign(place, "formula, found ") for place in places)
    return Mutant("shared formula changed", places[0], "", {}, signs)
