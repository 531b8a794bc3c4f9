"""Zip files made by hand, as no honest program makes them."""

import io
import struct
import zipfile
import zlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass

WORKBOOK = b'<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>'
MEGABYTE = bytes(1 << 20)


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry as its headers tell it; `size` may be a lie, and so may `name` in one of them."""

    name: str
    packed: bytes
    size: int
    checksum: int = 0
    method: int = zipfile.ZIP_DEFLATED
    flags: int = 0
    name_inside: str | None = None

    def head(self, offset: int) -> bytes:
        about = self.describe()
        name = self.name.encode()
        start = struct.pack("<IHHHHHH", 0x02014B50, 45, 45, self.flags, self.method, 0, 33)
        return start + about + struct.pack("<HHHHHII", len(name), 0, 0, 0, 0, 0, offset) + name

    def local(self) -> bytes:
        name = (self.name if self.name_inside is None else self.name_inside).encode()
        start = struct.pack("<IHHHHH", 0x04034B50, 45, self.flags, self.method, 0, 33)
        return start + self.describe() + struct.pack("<HH", len(name), 0) + name + self.packed

    def describe(self) -> bytes:
        size = min(self.size, 0xFFFFFFFE)
        return struct.pack("<III", self.checksum, len(self.packed), size)


def store(name: str, data: bytes, **others: object) -> Entry:
    return Entry(name, data, len(data), zlib.crc32(data), zipfile.ZIP_STORED, **others)  # type: ignore[arg-type]


def write_zip(entries: Iterable[Entry], *, overlap: int = 0) -> bytes:
    """Return a file of entries; the first is listed `overlap` more times."""
    body, listed = io.BytesIO(), []
    for entry in entries:
        offset = body.tell()
        body.write(entry.local())
        listed += [entry.head(offset)] * (1 if listed else overlap + 1)
    start, heads = body.tell(), b"".join(listed)
    count = min(len(listed), 0xFFFF)
    end = struct.pack("<IHHHHIIH", 0x06054B50, 0, 0, count, count, len(heads), start, 0)
    return body.getvalue() + heads + end


def pack_zeros(megabytes: int) -> bytes:
    """Return packed zeros: one packed megabyte, again and again."""
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    packer.compress(MEGABYTE)
    packer.flush(zlib.Z_FULL_FLUSH)
    again = packer.compress(MEGABYTE) + packer.flush(zlib.Z_FULL_FLUSH)
    return again * megabytes + packer.flush()


def bomb(told: int, megabytes: int) -> bytes:
    """Return a file whose workbook unpacks to megabytes, and tells another size."""
    return write_zip([Entry("xl/workbook.xml", pack_zeros(megabytes), told)])


def replace_parts(data: bytes, change: Callable[[dict[str, bytes]], None]) -> bytes:
    with zipfile.ZipFile(io.BytesIO(data)) as old:
        parts = {name: old.read(name) for name in old.namelist()}
    change(parts)
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as new:
        for name, words in parts.items():
            new.writestr(name, words)
    return target.getvalue()
