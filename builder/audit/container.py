"""The zip file around a workbook: judged before anything in it is parsed."""

import io
import re
import zipfile
import zlib
from collections.abc import Iterator
from pathlib import Path

from openpyxl.xml import DEFUSEDXML

from builder.audit.findings import Finding
from builder.problems import EXIT_FILE, UserError

REMEDY = "Give a workbook that rinsebook built."
MOST_ENTRIES = 500
MOST_BYTES = 50_000_000
MOST_RATIO = 200
ENCRYPTED = 0x1
NEEDED = "xl/workbook.xml"
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
    if not DEFUSEDXML:
        raise UserError("The package defusedxml is missing: pip install defusedxml.", EXIT_FILE)
    try:
        if path.stat().st_size > MOST_BYTES:
            raise refuse(path, f"is larger than {MOST_BYTES // 1_000_000} MB")
        with zipfile.ZipFile(io.BytesIO(path.read_bytes())) as archive:
            judge_directory(path, archive.infolist())
            parts = {entry.filename: archive.read(entry) for entry in archive.infolist()}
    except OSError as error:
        reason = error.strerror or str(error)
        raise UserError(f"{path}: cannot be read: {reason}.", EXIT_FILE) from error
    except (zipfile.BadZipFile, NotImplementedError, zlib.error, EOFError, ValueError) as error:
        raise refuse(path, "is not an .xlsx workbook, or it is damaged") from error
    for name, data in parts.items():
        if DOCTYPE in data.replace(LEFTOVER, b"").upper():
            raise refuse(
                path, f"declares a document type in {name}, as no spreadsheet program does"
            )
    return parts


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


def pack(parts: dict[str, bytes]) -> bytes:
    """Return a clean zip of the parts, so that every reader sees the same ones."""
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_STORED) as archive:
        for name, data in parts.items():
            archive.writestr(name, data)
    return target.getvalue()
