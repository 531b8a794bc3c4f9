"""Rules of defined names: found by every engine, and taken for nothing else."""

import re
from collections import Counter

from proof.lint_book import Book
from proof.lint_xml import PLAIN_AREA, Finding, Findings, find_area, write_spot

PATTERN = re.compile(r"[a-z][A-Za-z0-9_]*")  # engines lose names with other letters
ADDRESS = re.compile(r"[a-z]{1,3}[0-9]+|r[0-9]*c?[0-9]*|c[0-9]*", re.IGNORECASE)
LONGEST_NAME = 255


def names_follow_the_pattern(book: Book) -> Findings:
    """A name has plain letters, digits and underscores only, and begins small."""
    for name in book.names:
        if not PATTERN.fullmatch(name.name) or len(name.name) > LONGEST_NAME:
            yield Finding(name.text, "name", name.name, f"{PATTERN.pattern}, <= {LONGEST_NAME}")


def names_are_no_addresses(book: Book) -> Findings:
    """No name can be taken for the address of a cell."""
    for name in book.names:
        if ADDRESS.fullmatch(name.name):
            yield Finding(name.text, "name", name.name, "no address of a cell")


def names_differ_in_more_than_case(book: Book) -> Findings:
    """No two names are the same to a program that does not see case."""
    count = Counter(name.name.lower() for name in book.names)
    for name in book.names:
        if count[name.name.lower()] > 1:
            yield Finding(name.text, "name", name.name, "one name of this spelling")


def names_belong_to_the_book(book: Book) -> Findings:
    """Every name holds in the whole workbook."""
    for name in book.names:
        if name.scope:
            yield Finding(name.text, f"scope of {name.name}", "one sheet", "the workbook")


def names_lead_to_cells(book: Book) -> Findings:
    """A name leads to absolute cells of an existing sheet, not to a formula or a constant."""
    for name in book.names:
        area = find_area(name.text)
        if area is None or area[0] not in book.titles:
            expected = f"{PLAIN_AREA.pattern} of a sheet"
            yield Finding(name.text, f"name {name.name}", name.text, expected)


def names_lead_to_one_column(book: Book) -> Findings:
    """A name leads to one cell or to cells of one column."""
    for name, (title, spots) in book.areas.items():
        columns = {col for _, col in spots}
        if len(columns) > 1:
            yield Finding(title, f"columns of {name}", len(columns), 1)


def names_are_shown(book: Book) -> Findings:
    """No name is hidden."""
    for name in book.all_names:
        if name.hidden:
            yield Finding(name.text, f"name {name.name}", "hidden", "shown")


def names_of_typed_cells_lead_to_unlocked_cells(book: Book) -> Findings:
    """What a script types into by name can be typed into by hand."""
    unlocked = book.unlocked
    for name, (title, spots) in book.areas.items():
        if name.endswith(("_typed", "_typed_unit")):
            for spot in spots:
                if (title, spot) not in unlocked:
                    yield Finding(
                        f"{title}!{write_spot(spot)}", f"cell of {name}", "locked", "unlocked"
                    )
