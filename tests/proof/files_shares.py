"""Damage to formulas that a run of cells shares: one change in the file, wrong in each cell."""

import re
from html import escape, unescape

from proof.files_draft import Mutant, Sign, pack
from proof.files_formulas import change_formula
from proof.lint_book import Book
from proof.lint_xml import Sheet, list_spots, write_spot

HEAD = re.compile(r'(?P<head><f t="shared" ref="(?P<area>[A-Z0-9:]+)"[^>]*>)(?P<text>[^<]+)</f>')


def change_shares(data: bytes) -> tuple[bytes, list[Mutant]]:
    """Return the file with each shared formula changed in one token, and what is to be told."""
    book, mutants = Book(data), list[Mutant]()
    parts = dict(book.parts)
    for sheet in book.sheets:

        def change(hit: re.Match[str], sheet: Sheet = sheet) -> str:
            new = change_formula(unescape(hit["text"]), hit["area"])
            mutants.append(blame(sheet, hit["area"]))
            return f"{hit['head']}{escape(new, quote=False)}</f>"

        parts[sheet.part] = HEAD.sub(change, parts[sheet.part].decode()).encode()
    return pack(parts), mutants


def blame(sheet: Sheet, area: str) -> Mutant:
    """Return the damage to all cells of an area."""
    places = [sheet.place(write_spot(spot)) for spot in list_spots(area)]
    signs = tuple(Sign(place, "formula, found ") for place in places)
    return Mutant("shared formula changed", places[0], "", {}, signs)
