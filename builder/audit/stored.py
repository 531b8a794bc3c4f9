"""The values that formulas were saved with, read straight from the sheets of a file."""

import io
import zipfile
from collections.abc import Callable, Iterator
from functools import cache
from xml.etree.ElementTree import Element

from defusedxml.ElementTree import fromstring, iterparse
from openpyxl.packaging.relationship import get_dependents
from openpyxl.reader.strings import read_string_table

from builder.audit.normalization import CellValue, normalize_value

MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
LINK = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
WORKBOOK, LINKS = "xl/workbook.xml", "xl/_rels/workbook.xml.rels"
STRINGS = "xl/sharedStrings.xml"
Strings = Callable[[], list[str]]
CELL, ROW, FORMULA, VALUE = (MAIN + tag for tag in ("c", "row", "f", "v"))
NUMBER = "n"


def read_stored(data: bytes) -> dict[str, CellValue]:
    """Return what the formulas of a workbook show, by `Sheet!B5`, without reading anything twice.

    The package that reads all else gives either formulas or values, and takes as long for each.
    """
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        # Hardly any program shares the text of a formula, and reading the texts takes a while.
        strings = cache(lambda: read_strings(archive))
        return {
            f"{title}!{place}": value
            for title, part in find_sheets(archive)
            for place, value in read_sheet(archive, part, strings)
            if value is not None
        }


def read_strings(archive: zipfile.ZipFile) -> list[str]:
    """Return the texts that cells share."""
    if STRINGS not in archive.namelist():
        return []
    with archive.open(STRINGS) as part:
        return [str(text) for text in read_string_table(part)]


def find_sheets(archive: zipfile.ZipFile) -> Iterator[tuple[str, str]]:
    """Yield title and part of each sheet."""
    links = {link.Id: link.target for link in get_dependents(archive, LINKS)}
    for sheet in fromstring(archive.read(WORKBOOK)).iter(f"{MAIN}sheet"):
        part = links.get(sheet.get(LINK), "")
        if part in archive.namelist():
            yield sheet.get("name", ""), part


def read_sheet(
    archive: zipfile.ZipFile, part: str, strings: Strings
) -> Iterator[tuple[str, CellValue]]:
    """Yield place and shown value of each formula cell."""
    with archive.open(part) as sheet:
        for _, element in iterparse(sheet):
            if element.tag == ROW:
                for cell in element.iterfind(CELL):
                    if cell.find(FORMULA) is not None:
                        yield cell.get("r", ""), read_value(cell, strings)
                element.clear()


def read_value(cell: Element, strings: Strings) -> CellValue:
    """Return the value beside a formula by its type: a number, a truth, a text or an error code."""
    text = cell.findtext(VALUE)
    if not text:
        return None
    match cell.get("t", NUMBER):
        case "n":
            return normalize_value(float(text))
        case "b":
            return text == "1"
        case "s":
            return normalize_value(strings()[int(text)])
    return normalize_value(text)
