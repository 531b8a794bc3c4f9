"""Rules of the container: nothing foreign, nothing hidden, protected, and as the standard says."""

import re
import tempfile
from pathlib import Path

from openxml_audit import OpenXmlValidator

from proof.lint_book import Book
from proof.lint_xml import MAIN, Finding, Findings, is_on, is_unlocked

PARTS = re.compile(
    r"\[Content_Types\]\.xml|_rels/\.rels|docProps/(?:app|core|custom)\.xml"
    r"|xl/(?:workbook|styles|sharedStrings)\.xml|xl/_rels/workbook\.xml\.rels|xl/theme/theme1\.xml"
    r"|xl/(?:worksheets/sheet|charts/chart|drawings/drawing)\d+\.xml|xl/media/image\d+\.png"
    r"|xl/(?:worksheets|drawings)/_rels/\w+\.xml\.rels"
)
PROGRAM = ("macroEnabled", "vbaProject", "activeX", "oleObject")
PASSWORDS = ("password", "hashValue", "algorithmName", "saltValue")
RULES = (("cellIs", "equal"), ("expression", None))  # of conditional formats


def parts_are_known(book: Book) -> Findings:
    """Only parts of a plain workbook: no macro, no query, no embedded object, no comment."""
    for part in book.parts:
        if not PARTS.fullmatch(part):
            yield Finding(part, "part", part, "a part of a plain workbook")


def nothing_is_a_program(book: Book) -> Findings:
    """No part is declared as one that can run."""
    types = book.root("[Content_Types].xml")
    for item in types:
        if any(word in item.get("ContentType") for word in PROGRAM):
            yield Finding(item.get("PartName"), "type", item.get("ContentType"), "no program")


def nothing_leads_out_of_the_file(book: Book) -> Findings:
    """No link to another file or to the web."""
    for part in book.parts:
        if part.endswith(".rels"):
            for item in book.root(part):
                if item.get("TargetMode") == "External":
                    yield Finding(part, "link", item.get("Target"), "none out of the file")


def sheets_are_shown(book: Book) -> Findings:
    """No sheet is hidden."""
    for sheet in book.sheets:
        if sheet.state != "visible":
            yield Finding(sheet.title, "sheet", sheet.state, "visible")


def rows_and_columns_are_shown(book: Book) -> Findings:
    """No row or column is hidden or folded away."""
    for sheet in book.sheets:
        for item in (*sheet.root.iter(f"{MAIN}col"), *sheet.root.iter(f"{MAIN}row")):
            if is_on(item.get("hidden")) or is_on(item.get("collapsed")):
                number = item.get("r") or item.get("min")
                yield Finding(
                    f"{sheet.title} {item.tag[len(MAIN) :]} {number}", "is", "hidden", "shown"
                )


def cells_are_not_merged(book: Book) -> Findings:
    """No cells are merged."""
    for sheet in book.sheets:
        for item in sheet.root.iter(f"{MAIN}mergeCell"):
            yield Finding(sheet.place(item.get("ref")), "cells", "merged", "one by one")


def sheets_are_protected(book: Book) -> Findings:
    """Every sheet is protected, without a password."""
    for sheet in book.sheets:
        found = sheet.root.find(f"{MAIN}sheetProtection")
        if found is None or not is_on(found.get("sheet")):
            yield Finding(sheet.title, "protection", "off", "on")
        elif any(found.get(key) for key in PASSWORDS):
            yield Finding(sheet.title, "protection", "a password", "no password")


def unlocked_cells_are_for_typing(book: Book) -> Findings:
    """An unlocked cell holds no formula, and is named as typed or in a wholly typed column."""
    typed = set(list_typed(book))
    for sheet in book.sheets:
        for cell in sheet.cells:
            spot, place = (sheet.title, cell.spot), sheet.place(cell.address)
            if spot in book.unlocked and cell.formula is not None:
                yield Finding(place, "formula", "unlocked", "locked")
            elif spot in book.unlocked and spot not in typed:
                yield Finding(place, "cell without a name for typing", "unlocked", "locked")


def list_typed(book: Book) -> list[tuple[str, tuple[int, int]]]:
    """Return the cells of names for typing, and of columns that are typed from top to bottom."""
    found = []
    for name, (title, spots) in book.areas.items():
        area = [(title, spot) for spot in spots]
        column = name.endswith("_list") and book.unlocked.issuperset(area)
        if column or name.endswith(("_typed", "_typed_unit")):
            found += area
    return found


def rows_and_columns_are_locked(book: Book) -> Findings:
    """Cells that do not stand in the file are locked too."""
    for sheet in book.sheets:
        spans = ((item, "style") for item in sheet.root.iter(f"{MAIN}col"))
        rows = ((item, "s") for item in sheet.root.iter(f"{MAIN}row"))
        for item, key in (*spans, *rows):
            if is_unlocked(book.formats[int(item.get(key, "0"))]):
                number = item.get("r") or item.get("min")
                yield Finding(f"{sheet.title} {number}", "cells outside", "unlocked", "locked")


def calculation_is_plain(book: Book) -> Findings:
    """A program recalculates the file when it opens it: once, with all digits, from 1900."""
    found = book.workbook.find(f"{MAIN}calcPr")
    if found is None or not is_on(found.get("fullCalcOnLoad")):
        yield Finding("workbook", "recalculation when opened", "off", "on")
        return
    if found.get("calcMode", "auto") != "auto":
        yield Finding("workbook", "calculation", found.get("calcMode"), "auto")
    if is_on(found.get("iterate")) or not is_on(found.get("fullPrecision", "1")):
        yield Finding("workbook", "calculation", "repeated or rounded", "once with all digits")
    if is_on(book.workbook.find(f"{MAIN}workbookPr").get("date1904")):
        yield Finding("workbook", "first year of dates", 1904, 1900)


def conditional_formats_compare_words(book: Book) -> Findings:
    """Conditional formats compare with a word or ask a formula: other kinds differ by program."""
    for sheet in book.sheets:
        for item in sheet.root.iter(f"{MAIN}cfRule"):
            if (item.get("type"), item.get("operator")) not in RULES:
                place = sheet.place(item.getparent().get("sqref"))
                yield Finding(place, "conditional format", item.get("type"), "a word or a formula")


def the_file_follows_the_standard(book: Book) -> Findings:
    """The file is valid by the open standard's schema."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "book.xlsx"
        path.write_bytes(book.data)
        for error in OpenXmlValidator().validate(str(path)).errors:
            yield Finding("file", "standard", error, "no finding")
