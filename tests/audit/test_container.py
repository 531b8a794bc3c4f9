"""Files that are refused before anything in them is parsed, and parts that should not be there."""

import tracemalloc
import zipfile
from pathlib import Path

import pytest
from proof.hostile_zip import bomb

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


def test_a_part_is_unpacked_no_further_than_its_entry_tells(tmp_path: Path) -> None:
    path = tmp_path / "lying.xlsx"
    path.write_bytes(bomb(1_000_000, 2_000))
    tracemalloc.start()
    with pytest.raises(UserError):
        read_parts(path)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 50_000_000


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
