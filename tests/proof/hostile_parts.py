"""Workbooks whose XML is a trap, is damaged, is missing, or asks for more than there is."""

import zipfile
from collections.abc import Callable, Iterator
from functools import partial
from io import BytesIO

from proof.hostile_zip import replace_parts

Change = Callable[[bytes], bytes]
MAIN = b'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"'
WORKBOOK, STYLES, STRINGS = "xl/workbook.xml", "xl/styles.xml", "xl/sharedStrings.xml"
SHEET, TYPES, LINKS = (
    "xl/worksheets/sheet1.xml",
    "[Content_Types].xml",
    "xl/_rels/workbook.xml.rels",
)
CORE, APP, CUSTOM = "docProps/core.xml", "docProps/app.xml", "docProps/custom.xml"
THEME, CHART = "xl/theme/theme1.xml", "xl/charts/chart1.xml"
DECLARES = "declares a document type in {}, as no spreadsheet program does"
DAMAGED = "is damaged"
LAUGHS = b"".join(b'<!ENTITY l%d "%s">' % (n, b"&l%d;" % (n - 1) * 10) for n in range(1, 10))
BOMBS = {
    "billion laughs": b'<!DOCTYPE x [<!ENTITY l0 "ha">' + LAUGHS + b"]>",
    "one long entity": b'<!DOCTYPE x [<!ENTITY l9 "' + b"a" * 90_000 + b'">]>',
}
WHOLE = "A1:XFD1048576"
FAR = "has cells as far out as row 1048576, column 16384"


def list_refused(sound: bytes, port: int) -> Iterator[tuple[str, bytes, str]]:
    """Yield name and content of each file, and the words that refuse it."""
    yield from list_bombs(sound, port)
    yield from list_damaged(sound)
    yield from list_endless(sound)


def list_bombs(sound: bytes, port: int) -> Iterator[tuple[str, bytes, str]]:
    change = partial(edit, sound)
    for part in (WORKBOOK, SHEET, STRINGS, STYLES, CORE, CUSTOM, TYPES, THEME, CHART, LINKS):
        told = DECLARES.format(part.replace("[", r"\[").replace("]", r"\]"))
        yield f"billion laughs in {part}", change(part, declare(BOMBS["billion laughs"])), told
    for part in (WORKBOOK, STRINGS):
        told = DECLARES.format(part)
        yield f"one long entity in {part}", change(part, declare(BOMBS["one long entity"])), told
    addresses = ("file:///etc/passwd", "../../secret.txt", f"http://127.0.0.1:{port}/x")
    for address in addresses:
        entity = f'<!DOCTYPE x [<!ENTITY l9 SYSTEM "{address}">]>'.replace(f":{port}", ":PORT")
        entity = entity.replace(":PORT", f":{port}")
        name = address.replace(f":{port}", "")
        yield (
            f"entity of {name}",
            change(STRINGS, declare(entity.encode())),
            DECLARES.format(STRINGS),
        )
        outer = f'<!DOCTYPE x SYSTEM "{address}">'.encode()
        yield f"type of {name}", change(CUSTOM, declare(outer)), DECLARES.format(CUSTOM)
    wide = declare(BOMBS["billion laughs"])
    told = DECLARES.format(CORE)
    yield "billion laughs in UTF-16", change(CORE, lambda d: recode(wide(d), "utf-16")), told
    yield "billion laughs in UTF-16-BE", change(CORE, lambda d: recode(wide(d), "utf-16-be")), told
    late = change(CORE, lambda d: b"<!--" + b" " * 70_000 + b"-->" + wide(d).partition(b"?>")[2])
    yield "billion laughs after a long remark", late, told


def list_damaged(sound: bytes) -> Iterator[tuple[str, bytes, str]]:
    """Yield files with parts that are cut, emptied, exchanged or left out."""
    change = partial(edit, sound)
    for part in (WORKBOOK, SHEET, STRINGS, STYLES, CUSTOM, TYPES, LINKS):
        yield f"{part} is cut", change(part, lambda d: d[: len(d) // 2]), DAMAGED
    for part in (WORKBOOK, SHEET, STYLES, CUSTOM, LINKS):
        yield f"{part} is empty", change(part, lambda _: b""), DAMAGED
    yield "a sheet is no XML", change(SHEET, lambda _: bytes(range(256))), DAMAGED
    yield "a sheet in a code that nobody knows", change(SHEET, encode("x-none")), DAMAGED
    yield "a sheet in another code of letters", change(SHEET, encode("cp037")), DAMAGED
    yield "styles that are a sheet", swap_parts(sound, STYLES, SHEET), DAMAGED
    yield "a workbook that is text", change(WORKBOOK, lambda _: b"<p>hello</p>"), DAMAGED
    for part in (TYPES, STYLES, LINKS):
        yield f"{part} is missing", drop(sound, part), DAMAGED
    yield f"{WORKBOOK} is missing", drop(sound, WORKBOOK), r"it has no xl/workbook\.xml"


def list_endless(sound: bytes) -> Iterator[tuple[str, bytes, str]]:
    """Yield files that ask for more cells, elements or levels than any workbook has."""
    add = partial(add_to_sheet, sound)
    yield (
        "one cell in the last row and column",
        add(b'<row r="1048576"><c r="XFD1048576"/></row>'),
        FAR,
    )
    yield (
        "every cell joined",
        add(b'</sheetData><mergeCells><mergeCell ref="%s"/></mergeCells>'),
        FAR,
    )
    yield "whole columns joined", add(b'<mergeCell ref="A:XFD"/>'), FAR
    yield "whole rows joined", add(b'<mergeCell ref="1:1048576"/>'), FAR
    yield "every cell one link", add(b'<hyperlink ref="%s" location="A1"/>'), FAR
    hidden = b'<x:mergeCell xmlns:x="%s" a="&gt;>" ref="A1&#58;XFD1048576"/>'
    yield "every cell joined, in other letters", add(hidden.replace(b"%s", MAIN[7:-1])), FAR
    far = b"".join(b'<row r="%d"><c r="A%d"/></row>' % (n, n) for n in range(900_000, 900_009))
    yield "a cell in row 900000", add(far), "has cells as far out as row 9"
    rows = b"".join(b"<row><c><v>1</v></c></row>" for _ in range(170_000))
    yield (
        "a sheet of many rows",
        add(rows),
        r"(holds more than 500000 elements|has cells as far out)",
    )
    million = b"".join(b"<row><c><v>1</v></c></row>" for _ in range(1_000_000))
    yield "a sheet of a million rows", add(million), r"holds \d+ marks of XML, more than 2000000"
    cells = b"<row>" + b"<c/>" * 16_384 + b"</row>"
    yield "a sheet of 16384 columns", add(cells * 30), r"has cells as far out as row \d+, column"
    yield "a column beyond the last", add(b'<row r="1"><c r="ZZZZ1"><v>1</v></c></row>'), DAMAGED
    yield "elements a thousand deep", edit(sound, CUSTOM, deepen(1_000)), "holds elements 101 deep"
    yield (
        "elements a million deep",
        edit(sound, STRINGS, deepen(400_000)),
        "holds elements 101 deep",
    )
    many = b"".join(b' a%d=""' % n for n in range(2_100_000))
    yield "two million attributes", add(b"<row%s/>".replace(b"%s", many)), "marks of XML, more than"


def edit(data: bytes, part: str, change: Change) -> bytes:
    return replace_parts(data, lambda parts: parts.update({part: change(parts[part])}))


def drop(data: bytes, part: str) -> bytes:
    return replace_parts(data, lambda parts: void(parts.pop(part)))


def void(_value: object) -> None:
    """Return nothing."""


def swap_parts(data: bytes, part: str, other: str) -> bytes:
    """Return the file with the content of one part in another too."""
    with zipfile.ZipFile(BytesIO(data)) as archive:
        words = archive.read(other)
    return edit(data, part, lambda _: words)


def declare(words: bytes) -> Change:
    """Return a change that puts a declaration before the root, and what it declares inside."""

    def change(data: bytes) -> bytes:
        start = data.index(b"?>") + 2 if data.startswith(b"<?xml") else 0
        head, body = data[:start], data[start:]
        first = body.index(b">") + 1
        return head + words + body[:first] + b"&l9;" + body[first:]

    return change


def recode(data: bytes, code: str) -> bytes:
    """Return a part in another code of letters, which it declares."""
    return data.decode().replace("UTF-8", "UTF-16", 1).encode(code)


def encode(code: str) -> Change:
    """Return a change that declares another code of letters than the part is in."""
    return lambda data: data.replace(b"UTF-8", code.encode(), 1)


def deepen(levels: int) -> Change:
    return lambda _: b"<a>" * levels + b"</a>" * levels


def add_to_sheet(data: bytes, words: bytes) -> bytes:
    """Return the file with words at the end of the rows of the first sheet, or behind them."""
    words = words.replace(b"%s", WHOLE.encode())

    def change(sheet: bytes) -> bytes:
        if words.startswith(b"</sheetData>"):
            return sheet.replace(b"</sheetData>", words, 1)
        mark = b"</sheetData>" if b"<row" in words else b"</worksheet>"
        return sheet.replace(mark, words + mark, 1)

    return edit(data, SHEET, change)
