"""Looks that hide or feign a value, colours of states, and what a sheet shows, prints, allows."""

import pytest

from audit.edits import edit_cell, edit_part, lines, swap
from builder.audit.looks import Look, normalize_format

BOOK, STYLES = "xl/workbook.xml", "xl/styles.xml"
RUN = "xl/worksheets/sheet1.xml"
STATE = '<cfRule type="cellIs" dxfId="0" priority="1" operator="equal">'
OVERLAY = (
    '<conditionalFormatting sqref="{}"><cfRule type="expression" dxfId="0" priority="2">'
    "<formula>TRUE</formula></cfRule></conditionalFormatting><dataValidations"
)
AREA = (
    '<definedName name="_xlnm.Print_Area" localSheetId="0">\'Pipe run\'!$A$1:$E$1</definedName>'
    "</definedNames>"
)


def warned(report) -> list[str]:
    return [str(warning) for warning in report.warnings]


def restyle(data: bytes, place: str, attributes: str, color: str = 'theme="1"') -> bytes:
    font = f'<font><sz val="11"/><color {color}/></font></fonts>'
    code = '<numFmts><numFmt numFmtId="200" formatCode="&quot;ok&quot;"/></numFmts><fonts'
    xf = f'<xf borderId="0" xfId="0" {attributes}/></cellXfs>'

    def change(words: str) -> str:
        words = words.replace("</fonts>", font).replace("</cellXfs>", xf)
        return words.replace("<fonts", code, 1)

    data = edit_part(data, STYLES, change)
    cell = place.rpartition("!")[2]
    return edit_cell(
        data,
        place,
        lambda words: words.replace(f'r="{cell}"', f'r="{cell}" s="2"').replace(' s="1"', ""),
    )


def test_number_format_that_feigns_a_value_is_a_fault(audit, fresh) -> None:
    changed = restyle(fresh, "Pipe run!D8", 'numFmtId="200" fontId="0" fillId="0"')
    text = "number format, found ok, expected General"
    assert lines(audit(changed)) == [f"Pipe run!D8 pipe_L: {text}"]


@pytest.mark.parametrize("color", ['theme="0"', 'rgb="FFFFFFFF"', 'rgb="FFEEEEEE"', 'indexed="9"'])
def test_ink_like_its_ground_is_a_fault(audit, fresh, color: str) -> None:
    changed = restyle(fresh, "Pipe run!D8", 'numFmtId="0" fontId="1" fillId="0"', color)
    found = lines(audit(changed))
    assert [text.partition(", found")[0] for text in found] == ["Pipe run!D8 pipe_L: ink"]
    assert found[0].endswith("on FFFFFF, expected 000000 on FFFFFF")


def test_another_legible_ink_is_no_fault(audit, fresh) -> None:
    changed = restyle(fresh, "Pipe run!D8", 'numFmtId="0" fontId="1" fillId="0"', 'rgb="FF0000FF"')
    assert lines(audit(changed)) == []


def test_look_pasted_into_a_typed_cell_is_no_fault_of_looks(audit, fresh) -> None:
    changed = restyle(fresh, "Pipe run!B4", 'numFmtId="200" fontId="0" fillId="0"')
    assert lines(audit(changed)) == [
        "Pipe run!B4 rinse_volumes_n_typed: lock, found locked, expected unlocked"
    ]


@pytest.mark.parametrize(
    ("ours", "saved"),
    [
        (";;;", '"";"";"";""'),
        ("#,##0.###;-#,##0.###;", r"#,##0.###;\-#,##0.###;;"),
        ("yyyy-mm-dd;;", r'yyyy\-mm\-dd;"";""'),
        ("yyyy-mm-dd;;", "yyyy/mm/dd;;;"),
    ],
)
def test_number_format_as_programs_spell_it_is_the_same(ours: str, saved: str) -> None:
    assert normalize_format(saved) == normalize_format(ours)


@pytest.mark.parametrize("other", ["0.0", "0.00,", "0.00%", '"0.00"', "0.00;;", "0.00;-0.00;0.00"])
def test_number_format_that_shows_something_else_is_another(other: str) -> None:
    known = {normalize_format(code) for code in ("0.00;-0.00", "0.0000")}
    assert normalize_format(other) not in known


@pytest.mark.parametrize(
    ("ink", "ground", "faded"),
    [("FFFFFF", "FFFFFF", True), ("D0D0D0", "FFFFFF", True), ("CF0000", "FFFFFF", False)],
)
def test_ink_fades_where_all_three_colours_are_near_its_ground(ink, ground, faded) -> None:
    assert Look("General", ink, ground).faded is faded


@pytest.mark.parametrize(
    ("old", "new", "found"),
    [
        (STATE, STATE.replace("equal", "notEqual"), 'cellIs notEqual ="ok": 000000 on its own'),
        ("<formula>", '<formula>"look"&amp;', 'cellIs equal ="look"&"ok": 000000 on its own'),
    ],
)
def test_state_coloured_otherwise_is_a_fault(audit, fresh, old, new, found) -> None:
    expected = 'cellIs equal ="ok": 000000 on its own'
    text = f"colours of states in D9, found {found}, expected {expected}"
    assert lines(audit(swap(fresh, RUN, old, new))) == [f"Pipe run!D9 rinse_ok: {text}"]


def test_state_in_other_ink_is_a_fault(audit, fresh) -> None:
    changed = swap(fresh, STYLES, "<dxf><font><b/>", '<dxf><font><b/><color rgb="FFFFFFFF"/>')
    (found,) = lines(audit(changed))
    assert 'found cellIs equal ="ok": FFFFFF on its own, expected cellIs' in found


def test_colours_laid_over_what_is_locked_are_a_fault_and_over_typed_cells_none(
    audit, fresh
) -> None:
    text = "found expression  =TRUE: 000000 on its own, expected none"
    for area, expected in (
        ("D9:D10", [f"Pipe run!D9 rinse_ok: colours of states in D9:D10, {text}"]),
        ("B2:B6", []),
    ):
        changed = swap(fresh, RUN, "<dataValidations", OVERLAY.format(area))
        assert lines(audit(changed)) == expected


@pytest.mark.parametrize("right", ["insertRows", "formatCells", "sort"])
def test_sheet_that_allows_more_is_a_fault(audit, fresh, right: str) -> None:
    changed = swap(fresh, RUN, "<sheetProtection ", f'<sheetProtection {right}="0" ')
    text = f"sheet protection, found {right} allowed, expected forbidden"
    assert lines(audit(changed)) == [f"Pipe run: {text}"]


def test_sheet_that_allows_less_is_no_fault(audit, fresh) -> None:
    changed = swap(fresh, RUN, "<sheetProtection ", '<sheetProtection selectLockedCells="1" ')
    assert lines(audit(changed)) == []


def test_days_counted_from_another_year_are_a_fault(audit, fresh) -> None:
    changed = swap(fresh, BOOK, "<workbookPr ", '<workbookPr date1904="1" ')
    assert lines(audit(changed)) == ["counts days from 1904, expected from 1900"]


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        (
            (RUN, '<row r="8"', '<row hidden="1" r="8"'),
            "Pipe run: rows or columns 8, found hidden, expected shown",
        ),
        (
            (RUN, "<sheetData>", '<cols><col min="4" max="4" width="0"/></cols><sheetData>'),
            "Pipe run: rows or columns D, found hidden, expected shown",
        ),
        (
            (BOOK, "</definedNames>", AREA),
            "Pipe run: print area, found 'Pipe run'!$A$1:$E$1, expected none",
        ),
        (
            (BOOK, "<calcPr ", '<calcPr iterate="1" '),
            "calculates in circles (iteration is on): they go without an error",
        ),
    ],
)
def test_what_people_may_switch_is_a_warning(audit, fresh, change, expected: str) -> None:
    report = audit(swap(fresh, *change))
    assert lines(report) == []
    assert warned(report) == [expected]
