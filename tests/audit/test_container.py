"""Files that are refused before anything in them is parsed, and parts that should not be there."""

import zipfile
from pathlib import Path

import pytest

from audit.edits import add_part, swap
from builder.audit.container import read_parts
from builder.problems import UserError


def write_zip(path: Path, parts: dict[str, bytes]) -> Path:
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in parts.items():
            archive.writestr(name, data)
    return path


@pytest.mark.parametrize(
    ("parts", "reason"),
    [
        ({"word/document.xml": b"<x/>"}, "it has no xl/workbook.xml"),
        ({"xl/workbook.xml": bytes(3_000_000)}, "unpacks to more than 200 times its size"),
        ({"xl/workbook.xml": b"<!DOCTYPE x []><x/>"}, "declares a document type in xl/workbook"),
        ({"xl/workbook.xml": "<!DOCTYPE x><x/>".encode("utf-16")}, "declares a document type"),
        (
            {"xl/workbook.xml": b"<x/>"} | {f"xl/p{n}.xml": b"<x/>" for n in range(500)},
            "has 501 entries, more than 500",
        ),
        (
            {"xl/workbook.xml": b"<x/>", "xl/WORKBOOK.xml": b"<x/>"},
            "holds two entries of the same name",
        ),
    ],
)
def test_odd_archive_is_refused_with_the_reason(
    tmp_path: Path, parts: dict[str, bytes], reason: str
) -> None:
    path = write_zip(tmp_path / "odd.xlsx", parts)
    with pytest.raises(UserError, match=reason) as raised:
        read_parts(path)
    assert raised.value.exit_code == 4


def test_archive_that_unpacks_to_too_much_is_refused_before_unpacking(tmp_path: Path) -> None:
    noise = bytes(range(256)) * 2000
    parts = {"xl/workbook.xml": b"<x/>"} | {f"xl/{n}": noise for n in range(100)}
    path = write_zip(tmp_path / "large.xlsx", parts)
    with pytest.raises(UserError, match="unpacks to 51200004 bytes, more than 50000000"):
        read_parts(path)


def test_missing_file_says_so(tmp_path: Path) -> None:
    with pytest.raises(UserError, match=r"none\.xlsx: cannot be read: No such file"):
        read_parts(tmp_path / "none.xlsx")


def test_folder_says_so(tmp_path: Path) -> None:
    with pytest.raises(UserError, match="cannot be read: Is a directory"):
        read_parts(tmp_path)


def test_broken_part_is_refused(tmp_path: Path) -> None:
    path = write_zip(tmp_path / "broken.xlsx", {"xl/workbook.xml": b"<workbook/>" * 50})
    data = bytearray(path.read_bytes())
    data[50] ^= 0xFF
    path.write_bytes(data)
    with pytest.raises(UserError, match="or it is damaged"):
        read_parts(path)


def test_damaged_xml_is_refused_without_a_traceback(audit, fresh) -> None:
    with pytest.raises(UserError, match="is damaged"):
        audit(swap(fresh, "xl/workbook.xml", "<sheets>", "<sheets"))


@pytest.mark.parametrize(
    ("part", "words"),
    [
        ("xl/vbaProject.bin", "a macro project"),
        ("xl/externalLinks/externalLink1.xml", "a link to another workbook"),
        ("xl/connections.xml", "a data connection"),
        ("xl/embeddings/oleObject1.bin", "an embedded object"),
        ("xl/activeX/activeX1.xml", "a control"),
    ],
)
def test_part_that_runs_or_links_is_a_fault(audit, fresh, part: str, words: str) -> None:
    faults = [str(fault) for fault in audit(add_part(fresh, part)).faults]
    assert faults == [f"{words} is in the file ({part}), expected none"]
