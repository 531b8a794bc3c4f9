"""Files that are refused before anything in them is parsed, and parts that should not be there."""

import os
import tracemalloc
import zipfile
from pathlib import Path

import pytest
from proof import hostile_zip
from proof.hostile_zip import Entry, bomb, store

from audit.edits import add_part, swap
from audit.strict import make_strict
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


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(500), "opens with a password, or is an .xls"),
        (b"MZ" + bytes(500), "is not an .xlsx workbook, or it is damaged"),
        (bomb(1_000_000, 2_000), "is not an .xlsx workbook, or it is damaged"),
        (
            hostile_zip.write_zip([store("xl/workbook.xml", b"")], overlap=900),
            "has 901 entries, more than 500",
        ),
        (
            hostile_zip.write_zip([Entry("xl/workbook.xml", b"x", 9, 0, 14)]),
            "is packed as no spreadsheet",
        ),
        (
            hostile_zip.write_zip([store("xl/workbook.xml", b"<x/>"), store("../x", b"")]),
            "whose name leads out of the file",
        ),
    ],
)
def test_archive_made_by_hand_is_refused_with_the_reason(
    tmp_path: Path, data: bytes, reason: str
) -> None:
    path = tmp_path / "odd.xlsx"
    path.write_bytes(data)
    with pytest.raises(UserError, match=reason) as raised:
        read_parts(path)
    assert raised.value.exit_code == 4


def test_a_part_is_unpacked_no_further_than_its_entry_tells(tmp_path: Path) -> None:
    path = tmp_path / "lying.xlsx"
    path.write_bytes(bomb(1_000_000, 2_000))
    tracemalloc.start()
    with pytest.raises(UserError):
        read_parts(path)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 50_000_000


def test_a_pipe_is_refused_and_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.xlsx")
    with pytest.raises(UserError, match=r"pipe\.xlsx: is a pipe or a device, and no file"):
        read_parts(tmp_path / "pipe.xlsx")


def test_a_relation_to_something_outside_is_a_fault_and_a_link_to_follow_is_none(
    audit, fresh
) -> None:
    part, end = "xl/_rels/workbook.xml.rels", "</Relationships>"
    line = '<Relationship Id="r99" Type="x/{}" Target="http://127.0.0.1/" TargetMode="{}"/>'
    outside = swap(fresh, part, end, line.format("externalLink", "Ext&#101;rnal") + end)
    told = f"the file asks for something outside of it (externalLink in {part}), expected nothing"
    assert [str(fault) for fault in audit(outside).faults] == [told]
    assert audit(swap(fresh, part, end, line.format("hyperlink", "External") + end)).faults == []


def test_a_workbook_of_the_kind_with_macros_is_refused(audit, fresh) -> None:
    part = "[Content_Types].xml"
    with pytest.raises(UserError, match=r"is of the kind with macros; save it as \.xlsx"):
        audit(swap(fresh, part, "sheet.main+xml", "sheet.macroEnabled.main+xml"))


def test_a_book_that_lacks_a_sheet_it_tells_of_is_refused(audit, fresh) -> None:
    lacking = swap(fresh, "xl/_rels/workbook.xml.rels", "sheet2.xml", "sheet9.xml")
    with pytest.raises(UserError, match=r"is damaged: the sheet xl/worksheets/sheet9\.xml is miss"):
        audit(lacking)


@pytest.mark.parametrize("ending", ["", "workbook.xml", "sheet1.xml", "workbook.xml.rels"])
def test_a_workbook_of_the_strict_form_is_refused_in_words_that_tell_what_to_do(
    audit, fresh, ending: str
) -> None:
    with pytest.raises(UserError, match=r"strict Open XML.* save it as \.xlsx of the") as raised:
        audit(make_strict(fresh, ending))
    assert raised.value.exit_code == 4
