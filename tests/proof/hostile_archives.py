"""Files that are no workbook, and zip files that are none to unpack."""

import gzip
import io
import tarfile
import zipfile
from collections.abc import Callable, Iterator

from proof.hostile_zip import WORKBOOK, Entry, bomb, pack_zeros, replace_parts, store, write_zip

Change = Callable[[bytes], bytes]
NO_WORKBOOK = "is not an .xlsx workbook, or it is damaged"
LOCKED = "opens with a password, or is an .xls of old: save it as .xlsx without a password"
NO_PART = r"is not an .xlsx workbook: it has no xl/workbook\.xml"
COMPOUND = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(16) + b"\x3e\0\x03\0\xfe\xff" + bytes(4066)
LEADS_OUT = "holds an entry whose name leads out of the file"
UNUSUAL = "is packed as no spreadsheet program does"
NAMES = ("../../planted.xml", "/tmp/planted.xml", "..\\..\\planted", "C:\\planted", "xl/../../p")  # noqa: S108
FILES: dict[str, tuple[bytes, str]] = {
    "empty": (b"", NO_WORKBOOK),
    "one byte": (b"P", NO_WORKBOOK),
    "text": (b"producer,site\n", NO_WORKBOOK),
    "HTML that a program calls a workbook": (b"<html><table></table></html>", NO_WORKBOOK),
    "XML of a spreadsheet": (b'<?xml version="1.0"?><Workbook/>', NO_WORKBOOK),
    "picture": (b"\x89PNG\r\n\x1a\n" + bytes(99), NO_WORKBOOK),
    "PDF": (b"%PDF-1.7\n%%EOF", NO_WORKBOOK),
    "zeros": (bytes(100_000), NO_WORKBOOK),
    "compound file, as with a password": (
        COMPOUND + "EncryptedPackage".encode("utf-16-le"),
        LOCKED,
    ),
    "compound file, as an old workbook": (COMPOUND + "Workbook".encode("utf-16-le"), LOCKED),
    "empty zip": (b"PK\x05\x06" + bytes(18), NO_WORKBOOK),
    "mark of a zip alone": (b"PK\x03\x04", NO_WORKBOOK),
    "too large": (b"PK\x03\x04" + bytes(50_000_000), "is larger than 50 MB"),
    "document of words": (write_zip([store("word/document.xml", b"<x/>")]), NO_PART),
    "workbook in binary": (write_zip([store("xl/workbook.bin", b"<x/>")]), NO_PART),
    "open document": (
        write_zip([store("mimetype", b"application/vnd.oasis.opendocument.spreadsheet")]),
        NO_PART,
    ),
    "ten gigabytes of zeros": (bomb(0xFFFFFFFE, 10_000), "unpacks to 4294967294 bytes"),
    "ten gigabytes that tell of one megabyte": (bomb(1_000_000, 10_000), NO_WORKBOOK),
    "ten gigabytes that tell of nothing": (bomb(0, 10_000), "is damaged in xl/workbook"),
    "forty megabytes of zeros": (bomb(40_000_000, 40), "unpacks to more than 200 times its size"),
    "a million entries": (
        write_zip([store("xl/workbook.xml", b"")], overlap=800_000),
        r"has \d+ entries, more than 500",
    ),
    "entries that lie one in the other": (
        write_zip([store("xl/workbook.xml", WORKBOOK)], overlap=400),
        "holds two entries of the same name",
    ),
    "an entry with two names": (
        write_zip([store("xl/workbook.xml", WORKBOOK, name_inside="xl/workbook.bin")]),
        NO_WORKBOOK,
    ),
    "an entry with a wrong checksum": (
        write_zip([Entry("xl/workbook.xml", WORKBOOK, len(WORKBOOK), 7, zipfile.ZIP_STORED)]),
        NO_WORKBOOK,
    ),
    "an entry that is locked": (
        write_zip([store("xl/workbook.xml", WORKBOOK, flags=1)]),
        "is encrypted; save it without a password",
    ),
    "an entry that is locked by a stronger way": (
        write_zip([store("xl/workbook.xml", WORKBOOK, flags=0x41)]),
        "is encrypted; save it without a password",
    ),
    "an unknown way of packing": (
        write_zip([Entry("xl/workbook.xml", WORKBOOK, 80, 0, 99)]),
        UNUSUAL,
    ),
    "a way of packing that takes gigabytes": (
        write_zip([Entry("xl/workbook.xml", b"\x09\x14\x05\0\x5d\xff\xff\xff\xff" * 9, 80, 0, 14)]),
        UNUSUAL,
    ),
    "a damaged stream": (
        write_zip([Entry("xl/workbook.xml", pack_zeros(1)[::-1], 5_000)]),
        NO_WORKBOOK,
    ),
}


def list_files(sound: bytes) -> Iterator[tuple[str, bytes, str]]:
    """Yield name and content of each file, and the words that refuse it."""
    for name, (data, told) in FILES.items():
        yield name, data, told
    yield "packed by another program", gzip.compress(sound[:9_000]), NO_WORKBOOK
    yield "tape archive", write_tape(sound), NO_WORKBOOK
    length = len(sound)
    for cut in (5, 30, 1_000, length // 2, length - 4_000, length - 21, length - 1):
        yield f"cut after {cut} bytes of {length}", sound[:cut], NO_WORKBOOK
    yield "without its beginning", sound[1_000:], NO_WORKBOOK
    yield "a program before it", b"MZ" + bytes(510) + sound, NO_WORKBOOK
    yield "a byte turned over in the middle", turn(sound, length // 2), NO_WORKBOOK
    yield "a page of zeros in the middle", blank(sound, length // 2), NO_WORKBOOK
    for name in NAMES:
        yield (
            f"an entry {name}",
            replace_parts(sound, lambda p, n=name: p.update({n: b""})),
            LEADS_OUT,
        )
    yield "the same part twice", add_twin(sound, "xl/workbook.xml"), "two entries of the same name"
    yield "the same part in capitals", add_twin(sound, "xl/Styles.xml"), "two entries of the same"
    yield "a workbook inside a workbook", nest(sound), NO_PART


def write_tape(sound: bytes) -> bytes:
    target = io.BytesIO()
    with tarfile.open(fileobj=target, mode="w") as archive:
        about = tarfile.TarInfo("book.xlsx")
        about.size = len(sound)
        archive.addfile(about, io.BytesIO(sound))
    return target.getvalue()


def turn(data: bytes, place: int) -> bytes:
    """Return the file with one byte turned over."""
    return data[:place] + bytes([data[place] ^ 0xFF]) + data[place + 1 :]


def blank(data: bytes, place: int) -> bytes:
    """Return the file with a page that a disk has lost."""
    return data[:place] + bytes(4096) + data[place + 4096 :]


def add_twin(data: bytes, name: str) -> bytes:
    """Return the file with one more entry at its end."""
    target = io.BytesIO(data)
    with zipfile.ZipFile(target, "a") as archive:
        archive.fp.seek(archive.start_dir)  # type: ignore[union-attr]
        about = zipfile.ZipInfo(name)
        archive.NameToInfo.pop(name, None)
        archive.writestr(about, b"<x/>")
    return target.getvalue()


def nest(data: bytes) -> bytes:
    for _ in range(20):
        data = write_zip([store("book.xlsx", data)])
    return data
