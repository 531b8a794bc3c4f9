"""XML that asks for more than any workbook holds is refused before cells are made of it."""

import pytest

from builder.audit.markup import MarkupError, judge_markup

SHEET = "xl/worksheets/sheet1.xml"


def judge(words: str, name: str = SHEET) -> None:
    judge_markup({name: f"<x>{words}</x>".encode()})


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        ("<row r='1048576'><c r='XFD1048576'/></row>", "row 1048576, column 16384"),
        ("<row r='9'><c r='A400000'/><c r='B9'/></row>", "as far out as row 9, column 2"),
        ("<row r='1048577'/>", "is damaged: it has a row 1048577"),
        ("<row r='1_000_000_000'/>", "is damaged: it has a row 1000000000"),
        ("<mergeCell ref='A1:XFD1048576'/>", "row 1048576, column 16384"),
        ("<mergeCell ref='a:xfd'/>", "row 1048576, column 16384"),
        ("<hyperlink ref='1:1048576'/>", "row 1048576, column 16384"),
        ("<comment ref='A1&#58;XFD1048576'/>", "row 1048576, column 16384"),
        ("<n:mergeCell xmlns:n='y' n='&gt;>' ref='A1:XFD1048576'/>", "row 1048576, column 16384"),
        ("<a>" * 200 + "</a>" * 200, "holds elements 101 deep"),
        ("<a/>" * 500_001, "holds more than 500000 elements"),
        ("<a/>" * 2_000_001, "holds 2000003 marks of XML, more than 2000000"),
        ("<a>", "is damaged in xl/worksheets/sheet1.xml: mismatched tag"),
    ],
)
def test_what_is_too_much_is_told_with_its_place(words: str, reason: str) -> None:
    with pytest.raises(MarkupError, match=reason):
        judge(words)


def test_far_cells_of_several_sheets_count_together() -> None:
    rows = "<row r='200000'><c r='A200000'/></row>"
    judge(rows)
    parts = {f"xl/worksheets/sheet{n}.xml": f"<x>{rows}</x>".encode() for n in range(3)}
    with pytest.raises(MarkupError, match="as far out as row 200000, column 1"):
        judge_markup(parts)


def test_a_blank_last_row_and_cells_without_places_are_no_matter() -> None:
    judge("<row><c/><c/></row>" * 1_000 + "<row r='1048576'/>")


def test_parts_that_are_no_xml_are_not_read() -> None:
    judge_markup({"xl/media/image1.png": b"\x89PNG", SHEET: b"<x/>"})
