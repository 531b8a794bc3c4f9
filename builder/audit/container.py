"""The zip file around a workbook: judged before anything in it is parsed."""

import io
import re
import stat
import zipfile
import zlib
from collections.abc import Iterator
from pathlib import Path
from posixpath import join, normpath

from defusedxml.ElementTree import fromstring
from openpyxl.xml import DEFUSEDXML

from builder.audit.findings import Finding
from builder.audit.markup import MarkupError, judge_markup
from builder.problems import EXIT_FILE, UserError

REMEDY = "Give a workbook that rinsebook built."
MOST_ENTRIES = 500
MOST_BYTES = 50_000_000
MOST_RATIO = 200
ENCRYPTED = 0x1
START, LISTED = b"PK\x03\x04", b"PK\x01\x02"
COMPOUND = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
PACKED = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
OUTSIDE = re.compile(r"(^|[/\\])\.\.([/\\]|$)|^[/\\]|^[A-Za-z]:")
TYPES, MACROS = "[Content_Types].xml", b"macroEnabled"
DAMAGED = "is not an .xlsx workbook, or it is damaged"
LOCKED = "opens with a password, or is an .xls of old: save it as .xlsx without a password"
NEEDED = "xl/workbook.xml"
RELATIONS, LINKS = ".rels", "xl/_rels/workbook.xml.rels"
PERMISSION = re.compile(rb"<(?:\w+:)?protectedRange\b")
LEFTOVER = b"\0"
DOCTYPE = b"<!DOCTYPE"
FOREIGN = {
    "vbaproject": "a macro project",
    "externallinks/": "a link to another workbook",
    "connections.xml": "a data connection",
    "embeddings/": "an embedded object",
    "activex/": "a control",
    "customui": "a changed ribbon",
    "macrosheets/": "a macro sheet",
}


def read_parts(path: Path) -> dict[str, bytes]:
    """Return the parts of a workbook file; raise UserError where it is none, or no sane one."""
    parts = unpack_parts(path)
    judge_parts(path, parts)
    return parts


def unpack_parts(path: Path) -> dict[str, bytes]:
    """Return the parts of a workbook file, of which nothing was parsed."""
    if not DEFUSEDXML:
        raise UserError("The package defusedxml is missing: pip install defusedxml.", EXIT_FILE)
    data = read_file(path)
    if not data.startswith(START):
        raise refuse(path, LOCKED if data.startswith(COMPOUND) else DAMAGED)
    if (count := data.count(LISTED)) > MOST_ENTRIES:  # before the package makes a list of them
        raise refuse(path, f"has {count} entries, more than {MOST_ENTRIES}")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            judge_directory(path, archive.infolist())
            return {entry.filename: unpack(archive, entry) for entry in archive.infolist()}
    except (zipfile.BadZipFile, NotImplementedError, zlib.error, EOFError, ValueError) as error:
        raise refuse(path, DAMAGED) from error


def read_file(path: Path) -> bytes:
    """Return the content of a file, never more than a workbook has."""
    try:
        about = path.stat()
        if not stat.S_ISREG(about.st_mode) and not stat.S_ISDIR(about.st_mode):
            raise refuse(path, "is a pipe or a device, and no file")
        with path.open("rb") as file:
            data = file.read(min(about.st_size, MOST_BYTES) + 1)
    except OSError as error:
        reason = error.strerror or str(error)
        raise UserError(f"{path}: cannot be read: {reason}.", EXIT_FILE) from error
    if len(data) > MOST_BYTES:
        raise refuse(path, f"is larger than {MOST_BYTES // 1_000_000} MB")
    return data


def unpack(archive: zipfile.ZipFile, entry: zipfile.ZipInfo) -> bytes:
    """Return one part, unpacked no further than to the size that its entry tells."""
    with archive.open(entry) as part:
        return part.read(entry.file_size)


def judge_parts(path: Path, parts: dict[str, bytes]) -> None:
    """Raise UserError where the XML of the parts is not to be made cells of."""
    for name, data in parts.items():
        if DOCTYPE in data.replace(LEFTOVER, b"").upper():
            raise refuse(
                path, f"declares a document type in {name}, as no spreadsheet program does"
            )
    if MACROS in parts.get(TYPES, b""):
        raise refuse(path, "is of the kind with macros; save it as .xlsx")
    try:
        judge_markup(parts)
    except MarkupError as error:
        raise refuse(path, str(error)) from error
    # The reading package leaves out a sheet that is missing, and says nothing.
    for name in list_sheets(parts):
        if name not in parts:
            raise refuse(path, f"is damaged: the sheet {name} is missing")


def list_sheets(parts: dict[str, bytes]) -> Iterator[str]:
    """Yield the parts in which a workbook says that its sheets are."""
    for relation in fromstring(parts[LINKS]) if LINKS in parts else ():
        if relation.get("Type", "").endswith("/worksheet"):
            yield normpath(join("/xl", relation.get("Target", ""))).lstrip("/")


def judge_directory(path: Path, entries: list[zipfile.ZipInfo]) -> None:
    """Raise UserError where the list of entries alone shows a file that is not to be unpacked."""
    names = [entry.filename for entry in entries]
    total = sum(entry.file_size for entry in entries)
    packed = sum(entry.compress_size for entry in entries)
    if NEEDED not in names:
        raise refuse(path, f"is not an .xlsx workbook: it has no {NEEDED}")
    if len(entries) > MOST_ENTRIES:
        raise refuse(path, f"has {len(entries)} entries, more than {MOST_ENTRIES}")
    if total > MOST_BYTES:
        raise refuse(path, f"unpacks to {total} bytes, more than {MOST_BYTES}")
    if total > MOST_RATIO * packed:
        raise refuse(path, f"unpacks to more than {MOST_RATIO} times its size")
    if len({name.lower() for name in names}) < len(names):
        raise refuse(path, "holds two entries of the same name")
    if any(entry.flag_bits & ENCRYPTED for entry in entries):
        raise refuse(path, "is encrypted; save it without a password")
    if any(entry.compress_type not in PACKED for entry in entries):
        raise refuse(path, "is packed as no spreadsheet program does")
    if any(OUTSIDE.search(name) for name in names):
        raise refuse(path, "holds an entry whose name leads out of the file")


def refuse(path: Path, reason: str) -> UserError:
    """Return the error that ends an audit before it begins."""
    return UserError(f"{path}: {reason}. {REMEDY}", EXIT_FILE)


def find_foreign(parts: dict[str, bytes]) -> Iterator[Finding]:
    """Yield a fault for each part that can run, fetch or link, or that lifts the protection."""
    for name, data in parts.items():
        for mark, words in FOREIGN.items():
            if mark in name.lower():
                yield Finding("", "", f"{words} is in the file ({name}), expected none")
        if PERMISSION.search(data):
            yield Finding("", "", f"cells are open to editing in spite of locks ({name})")
        if name.endswith(RELATIONS):
            yield from find_relations(name, data)


def find_relations(name: str, data: bytes) -> Iterator[Finding]:
    """Yield a fault for each relation to something outside, apart from links that people follow."""
    for relation in fromstring(data):
        kind = relation.get("Type", "").rpartition("/")[2]
        if relation.get("TargetMode", "").lower() == "external" and kind != "hyperlink":
            text = f"the file asks for something outside of it ({kind} in {name}), expected nothing"
            yield Finding("", "", text)


def pack(parts: dict[str, bytes]) -> bytes:
    """Return a clean zip of the parts, so that every reader sees the same ones."""
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_STORED) as archive:
        for name, data in parts.items():
            archive.writestr(name, data)
    return target.getvalue()
