"""Hostile rosters: files that are no table, tables without end, and rows that mean harm."""

import csv
import io
import re
from collections.abc import Iterator
from pathlib import Path

import openpyxl

from proof import hostile_archives, hostile_parts
from proof.hostile_case import Case, Make
from proof.hostile_zip import replace_parts

KIND = "rosters"
FILE, BOOK = "roster.csv", "roster.xlsx"
HEAD = "producer,site,machine,vessels_n\n"
MANIFEST = "books/manifest.csv"
NO_TABLE = r"^roster\.csv:\d+ {} roster\.csv: .+\n    \S"
EMPTY = r"roster\.csv:\d+ empty roster\.csv: "
NOT_CSV = NO_TABLE.format("not-csv")
TABLES: dict[str, tuple[bytes, str]] = {
    "empty": (b"", EMPTY + "the file is empty"),
    "a mark alone": (b"\xef\xbb\xbf", EMPTY + "the file is empty"),
    "blank lines": (b"\n\r\n ,, \n" * 1_000, EMPTY + "the file is empty"),
    "headings alone": (HEAD.encode(), EMPTY + "there is no row below the headings"),
    "one word": (b"hello", EMPTY + "there is no row below the headings"),
    "other signs between cells": (b"producer|site\nOne|Two\n", "unknown-heading producer"),
    "tabs between cells": (b"producer\tsite\nOne\tTwo\n", "unknown-heading producer site"),
    "a byte 0": (HEAD.encode() + b"a\0b,c,d,1\n", r"roster\.csv:2 not-text"),
    "zeros": (bytes(9_000), r"roster\.csv:1 not-text"),
    "binary": (bytes(range(128, 256)) * 90, r"roster\.csv:1 not-utf8"),
    "Latin-1": (HEAD.encode() + "Érablière,,,1\n".encode("latin-1"), r"roster\.csv:2 not-utf8"),
    "UTF-16": (HEAD.encode("utf-16"), r"roster\.csv:1 not-utf8"),
    "UTF-16 without mark": (HEAD.encode("utf-16-le"), r"roster\.csv:1 not-text"),
    "line ends of another sign": (HEAD.replace("\n", "\r").encode() + b"a,b,c,1\r", NOT_CSV),
    "a quotation without end": (HEAD.encode() + b'"One,b,c,1\n' * 3, NOT_CSV),
    "a sign behind a quotation": (HEAD.encode() + b'"One"x,b,c,1\n', NOT_CSV),
    "a cell of fifty megabytes": (HEAD.encode() + b"x" * 50_000_000, "too-large"),
    "a cell of ten megabytes": (HEAD.encode() + b"x" * 10_000_000, r"roster\.csv:2 too-long"),
    "a cell of ten megabytes in lines": (HEAD.encode() + b'"' + b"xx\n" * 3_000_000, NOT_CSV),
    "commas without end": (HEAD.encode() + b"," * 10_000_000, r"roster\.csv:2 too-long"),
    "a million rows": (HEAD.encode() + b"a,b,c,0\n" * 1_000_000, r"more than 100000 rows\."),
    "ten thousand columns": (
        b",".join(b"x%d" % n for n in range(10_000)) + b"\n1\n",
        "unknown-heading x9999",
    ),
    "a hundred thousand blank headings": (b"," * 100_000 + b"a\nb\n", "blank-heading column 1:"),
    "the same heading twice": (b"site,SITE\na,b\n", "duplicate-heading SITE: means site"),
    "the same heading in two languages": (b"producer,producteur\na,b\n", "duplicate-heading"),
    "a formula as heading": (b"=1+1\n1\n", "unknown-heading =1"),
    "a result as heading": (b"rinse_owed_L\n1\n", "not-an-input rinse_owed_L"),
    "a unit of another kind": (b"vessel_bore_mm [kg]\n1\n", "vessel_bore_mm"),
    "an escape as heading": (b"\x1b[2J\n1\n", r"unknown-heading \\\\?u001b"),
}
FAULTY = {
    "a formula for a number": "=1+1",
    "a command for a number": "=cmd|'/c calc'!A0",
    "a link for a number": '=HYPERLINK("http://127.0.0.1/";"8")',
    "a number beyond all": "1e999",
    "no number": "nan",
    "a number of a thousand digits": "9" * 1_000,
    "a number of another script": "٣",
    "a unit without number": "in",
    "a day": "2026-01-01",
    "below the limit": "-1",
}
NAMES = {
    "a way up": "../../x",
    "a way from the root": "/tmp/planted",  # noqa: S108
    "a way of another system": "..\\..\\x",
    "a drive": "C:\\x",
    "a device": "CON",
    "a device with an ending": "nul.xlsx",
    "points at the end": "x...",
    "points alone": "..",
    "a stream beside": "x:y",
    "a long name": "x" * 300,
    "a command": "$(touch planted)",
    "a break": "a\nb",
    "signs from right to left": "x\u202ecod.xlsx",
    "the manifest": "manifest.csv",
}


def list_cases(sound: bytes) -> Iterator[Case]:
    for name, (data, told) in TABLES.items():
        yield Case(name, KIND, write(FILE, data), 3, told)
    for name, value in FAULTY.items():
        text = write_rows([HEAD.strip().split(","), ["a", "b", "c", value]])
        told = r"^roster\.csv:2 \S+ vessels_n: .+\n    \S"
        yield Case(name, KIND, write(FILE, text), 5, told, frozenset({"books", MANIFEST}))
    yield from list_rows()
    yield from list_workbooks(sound)


def list_rows() -> Iterator[Case]:
    """Yield tables of which the sound rows become books, under names that stay in their folder."""
    rows = [["file", "vessels_n"], *([name, "0"] for name in NAMES.values())]
    told = f"{len(NAMES)} failed"
    folder = frozenset({"books", MANIFEST})
    yield Case("names that lead out, faulty", KIND, write(FILE, write_rows(rows)), 5, told, folder)
    for what, name in (("a way up", "../../x"), ("a device", "CON"), ("a break", "a\nb")):
        rows = [["file", "machine"], [name, "=cmd|'/c calc'!A0"]]
        stem = {"a way up": "x", "a device": "con-book", "a break": "a-b"}[what]
        writes = folder | {f"books/{stem}.xlsx"}
        told = rf"(?s)1 built.*'=cmd.*,{stem}\.xlsx,"
        yield Case(f"a name that is {what}", KIND, write(FILE, write_rows(rows)), 0, told, writes)
    for what, text in (("an escape", "\x1b[2J"), ("a mark", "a\u202eb"), ("a break", "a\nb")):
        rows = [["producer"], [text]]
        told = r"^roster\.csv:2 control-character producer: character U\+\w{4}"
        yield Case(f"{what} in a text", KIND, write(FILE, write_rows(rows)), 5, told, folder)
    many = HEAD.encode() + b"a,b,c,0\n" * 5_000
    yield Case("five thousand faulty rows", KIND, write(FILE, many), 5, "5000 failed", folder)
    wide = HEAD.encode() + b"a,b,c,1" + b",x" * 100_000 + b"\n"
    yield Case("a row of too many cells", KIND, write(FILE, wide), 5, "too-many-cells", folder)
    head = HEAD.encode() + b"a,b,c,1" + b"," * 100_000 + b"\na,b,c,0\n"
    code = frozenset({"books", MANIFEST, "books/a-b-c.xlsx"})
    yield Case("a row of blank cells without end", KIND, write(FILE, head), 5, "1 built", code)
    mail = write_rows([["mail"], ["a@example.org\nBcc: all@example.org"]])
    yield Case("two heads in an address", KIND, write(FILE, mail), 5, "bad-address mail", folder)
    one = write_rows([["producer"], ["One"]])
    yield Case(
        "a manifest of somebody else", KIND, beside(one, b"a,b\n1,2\n"), 4, "is no manifest of"
    )
    yield Case("a manifest of zeros", KIND, beside(one, bytes(9_000)), 4, "is no manifest of")


def list_workbooks(sound: bytes) -> Iterator[Case]:
    """Yield workbooks that are no rosters, or rosters that hold more than one."""
    for name, data, told in hostile_archives.list_files(sound):
        if "zip" in name or "giga" in name or "zeros" in name or "compound" in name:
            yield Case(f"workbook, {name}", KIND, write(BOOK, data), 3, rf"^roster\.xlsx: .*{told}")
    plain = write_book([["producer", "vessels_n"], ["One", 0]])
    folder = frozenset({"books", MANIFEST})
    told = r"^roster\.xlsx:2 \S+ vessels_n: "
    part = "xl/worksheets/sheet1.xml"

    def change(mark: bytes, words: bytes) -> bytes:
        return hostile_parts.edit(plain, part, lambda d: d.replace(mark, words, 1))

    yield Case("workbook, as it is", KIND, write(BOOK, plain), 5, told, folder)
    size = re.compile(rb'<dimension ref="[^"]*" ?/>')
    lie = hostile_parts.edit(
        plain, part, lambda d: size.sub(b'<dimension ref="A1:XFD1048576"/>', d)
    )
    yield Case("workbook, a size that is a lie", KIND, write(BOOK, lie), 5, told, folder)
    last = change(b"</sheetData>", b'<row r="1048576"/></sheetData>')
    yield Case("workbook, a blank last row", KIND, write(BOOK, last), 5, told, folder)
    for row in (b"1048577", b"99999999999", b"1_000_000_000", b"9" * 5_000):
        beyond = change(b"</sheetData>", b'<row r="%s"><c><v>1</v></c></row></sheetData>' % row)
        name = f"workbook, a row {row.decode()[:13]}"
        yield Case(name, KIND, write(BOOK, beyond), 3, r"^roster\.xlsx: .*is damaged")
    far = change(b"</sheetData>", b'<row r="3"><c r="XFD3"><v>1</v></c></row></sheetData>')
    yield Case("workbook, a cell in the last column", KIND, write(BOOK, far), 3, "16384 columns")
    for trap in (part, "xl/styles.xml", "xl/workbook.xml"):
        laughs = hostile_parts.declare(hostile_parts.BOMBS["billion laughs"])
        data = hostile_parts.edit(plain, trap, laughs)
        yield Case(f"workbook, laughs in {trap}", KIND, write(BOOK, data), 3, "declares a document")
    formula = write_book([["producer", "vessels_n"], ["=cmd|'/c calc'!A0", "=1+1"]])
    yield Case("workbook, formulas", KIND, write(BOOK, formula), 5, "no-value vessels_n", folder)
    link = "xl/externalLinks/externalLink1.xml"
    linked = replace_parts(plain, lambda parts: parts.update({link: b"<x/>"}))
    yield Case("workbook, a link to another", KIND, write(BOOK, linked), 5, told, folder)
    macro = replace_parts(plain, lambda parts: parts.update({"xl/vbaProject.bin": b"x"}))
    yield Case("workbook, a macro", KIND, write(BOOK, macro), 5, told, folder)
    yield Case("workbook, of this program", KIND, write(BOOK, sound), 3, "heading")
    yield Case("workbook, called a text", KIND, write(FILE, plain), 3, r"roster\.csv:\d+ not-")
    text = write_rows([["producer"], ["One"]])
    yield Case("text, called a workbook", KIND, write(BOOK, text), 3, "is not an .xlsx workbook")


def write(name: str, data: bytes) -> Make:
    def make(folder: Path) -> list[str]:
        (folder / name).write_bytes(data)
        return ["roster", name, "--out", "books", "--jobs", "1"]

    return make


def beside(data: bytes, manifest: bytes) -> Make:
    """Return a maker of a roster and a manifest that an earlier run has not written."""

    def make(folder: Path) -> list[str]:
        (folder / "books").mkdir()
        (folder / MANIFEST).write_bytes(manifest)
        return write(FILE, data)(folder)

    return make


def write_rows(rows: list[list[str]]) -> bytes:
    target = io.StringIO()
    csv.writer(target).writerows(rows)
    return target.getvalue().encode()


def write_book(rows: list[list[str | int]]) -> bytes:
    book, target = openpyxl.Workbook(), io.BytesIO()
    for row in rows:
        book.active.append(row)
    book.save(target)
    return target.getvalue()
