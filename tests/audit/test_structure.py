"""One change of formulas, constants, names, locks or sheets is one fault at the right cell."""

import pytest

from audit.edits import add_part, edit_cell, edit_part, swap, swap_in_cell

BOOK = "xl/workbook.xml"
RUN = "xl/worksheets/sheet1.xml"
END = '<definedName name="end_pH">'
RULE = (
    '<dataValidation type="list" allowBlank="1" showInputMessage="1" showErrorMessage="1" '
    'sqref="C2"><formula1>Lists!$A$7:$A$8</formula1></dataValidation>'
)
COLOURS = (
    '<conditionalFormatting sqref="D9"><cfRule type="cellIs" dxfId="0" priority="1" '
    'operator="equal"><formula>"ok"</formula></cfRule></conditionalFormatting>'
)
MARGINS = "<pageMargins "
TYPES = "http://schemas.openxmlformats.org"
LINK = (
    f'<Relationships xmlns="{TYPES}/package/2006/relationships"><Relationship Id="rId9" '
    f'Type="{TYPES}/officeDocument/2006/relationships/hyperlink" '
    'Target="https://example.org/" TargetMode="External"/></Relationships>'
)


def lines(report) -> list[str]:
    return [str(fault) for fault in report.faults]


def test_changed_formula_is_shown_beside_the_right_one(audit, fresh) -> None:
    found = lines(audit(swap_in_cell(fresh, "Pipe run!D9", "&gt;=10", "&gt;=11")))
    head = "=IF(COUNT(D4)&lt;1,word_missing_txt,IF(D4&gt;={},word_ok_txt,word_look_txt))"
    head = head.replace("&lt;", "<").replace("&gt;", ">")
    text = f"formula, found {head.format(11)}, expected {head.format(10)}"
    assert found == [f"Pipe run!D9 rinse_ok: {text}; changes no result"]


def test_formula_overwritten_by_its_value_is_a_fault(audit, fresh) -> None:
    changed = edit_cell(fresh, "Pipe run!D10", lambda _: '<c r="D10"><v>1.008E-14</v></c>')
    text = "formula, found 1.008e-14, expected =1.008E-14*IF(TRUE,1,0)"
    assert lines(audit(changed)) == [f"Pipe run!D10: {text}; changes no result"]


def test_constant_changed_in_its_last_saved_digit_is_no_fault(audit, fresh) -> None:
    assert lines(audit(swap(fresh, RUN, "<v>1000</v>", "<v>1000.000000000001</v>"))) == []


def test_changed_constant_is_a_fault(audit, fresh) -> None:
    found = lines(audit(swap(fresh, RUN, "<v>1000</v>", "<v>1000.00000000002</v>")))
    expected = "constant, found 1000.00000000002, expected 1000.0"
    assert found == [f"Pipe run!D7 mm2m_per_L: {expected}; changes no result"]


def test_changed_word_is_a_fault(audit, fresh) -> None:
    found = lines(audit(swap(fresh, "xl/sharedStrings.xml", ">Pipe<", ">Tube<")))
    assert found == ["Pipe run!A1: constant, found 'Tube', expected 'Pipe'; changes no result"]


def test_spellings_of_other_programs_are_no_fault(audit, fresh) -> None:
    spelled = swap_in_cell(fresh, "Pipe run!D10", "1.008E-14", "0.00000000000001008")
    spelled = swap_in_cell(spelled, "Pipe run!D10", "TRUE", "TRUE()")
    spelled = swap(spelled, BOOK, "Lists!$A$1", "'Lists'!$A$1")
    assert lines(audit(spelled)) == []


def test_typed_cells_may_hold_other_values(audit, fresh) -> None:
    report = audit(swap_in_cell(fresh, "Pipe run!B4", "<v>12</v>", "<v>13</v>"))
    assert "typed" not in "".join(lines(report))


def test_formula_in_a_typed_cell_is_a_fault(audit, fresh) -> None:
    changed = swap_in_cell(fresh, "Pipe run!B4", "<v>12</v>", "<f>6+6</f><v>12</v>")
    text = "typed cell, found =6+6, expected a value, not a formula: counts as blank"
    assert lines(audit(changed)) == [
        f"Pipe run!B4 rinse_volumes_n_typed: {text}; changes: rinse_ok"
    ]


def test_unlocked_formula_cell_is_a_fault(audit, fresh) -> None:
    changed = swap_in_cell(fresh, "Pipe run!D8", 'r="D8"', 'r="D8" s="1"')
    assert lines(audit(changed)) == ["Pipe run!D8 pipe_L: lock, found unlocked, expected locked"]


def test_locked_typed_cell_is_a_fault(audit, fresh) -> None:
    changed = swap_in_cell(fresh, "Pipe run!B5", ' s="1"', "")
    text = "lock, found locked, expected unlocked"
    assert lines(audit(changed)) == [f"Pipe run!B5 end_pH_typed: {text}"]


def test_unlocked_column_is_a_fault(audit, fresh) -> None:
    columns = '<cols><col min="6" max="6" width="9" style="1"/></cols><sheetData>'
    found = lines(audit(swap(fresh, RUN, "<sheetData>", columns)))
    assert found == ["Pipe run: rows or columns F, found unlocked, expected locked"]


def test_protection_taken_off_is_a_fault(audit, fresh) -> None:
    changed = swap(fresh, RUN, 'sheet="1"', 'sheet="0"')
    assert lines(audit(changed)) == ["Pipe run: sheet protection, found off, expected on"]


def test_range_that_may_be_edited_in_spite_of_locks_is_a_fault(audit, fresh) -> None:
    allowed = '<protectedRanges><protectedRange name="r" sqref="D8"/></protectedRanges>'
    found = lines(
        audit(swap(fresh, RUN, "<conditionalFormatting", f"{allowed}<conditionalFormatting"))
    )
    assert found == [f"cells are open to editing in spite of locks ({RUN})"]


def test_extra_cell_is_a_fault(audit, fresh) -> None:
    changed = swap_in_cell(fresh, "Pipe run!D10", "<c ", '<c r="C10"><v>7</v></c><c ')
    text = "constant, found 7.0, expected nothing; changes no result"
    assert lines(audit(changed)) == [f"Pipe run!C10: {text}"]


def test_hidden_sheet_is_a_fault(audit, fresh) -> None:
    changed = swap(fresh, BOOK, 'name="Lists"', 'name="Lists" state="hidden"')
    assert lines(audit(changed)) == ["Lists: sheet, found hidden, expected visible"]


def test_renamed_sheet_is_a_fault(audit, fresh) -> None:
    changed = edit_part(fresh, BOOK, lambda words: words.replace("Lists", "Listes"))
    expected = "sheets, found Pipe run, Listes, expected Pipe run, Lists"
    assert lines(audit(changed))[0] == expected


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        (
            END,
            '<definedName name="end_ph_n">',
            "Pipe run!D5 end_pH: defined name, found none, expected Pipe run!D5",
        ),
        (
            "'Pipe run'!$D$5",
            "'Pipe run'!$D$4",
            "Pipe run!D5 end_pH: defined name, found Pipe run!D4, expected Pipe run!D5",
        ),
        (
            END,
            f'<definedName name="pipe_L" localSheetId="1">1</definedName>{END}',
            "Lists pipe_L: defined name of one sheet, found one, expected none",
        ),
        (
            END,
            f'<definedName name="own_n">Lists!$B$7</definedName>{END}',
            "Lists!B7 own_n: defined name, found Lists!B7, expected none",
        ),
    ],
)
def test_changed_name_is_a_fault(audit, fresh, old: str, new: str, expected: str) -> None:
    assert f"{expected}; changes no result" in lines(audit(swap(fresh, BOOK, old, new)))


def test_link_out_of_the_workbook_is_a_fault(audit, fresh) -> None:
    link = f'<hyperlinks><hyperlink ref="A1" r:id="rId9"/></hyperlinks>{MARGINS}'
    linked = swap(fresh, RUN, MARGINS, link)
    found = lines(audit(add_part(linked, "xl/worksheets/_rels/sheet1.xml.rels", LINK)))
    assert found == ["Pipe run!A1: link, found https://example.org/, expected none"]


def test_precision_as_displayed_is_a_fault(audit, fresh) -> None:
    changed = swap(fresh, BOOK, "<calcPr ", '<calcPr fullPrecision="0" ')
    assert lines(audit(changed)) == [
        "calculates with the digits shown, expected full precision",
    ]


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        (
            (RUN, RULE, ""),
            "Pipe run!C2: drop-downs and limits lost in C2",
        ),
        ((RUN, COLOURS, ""), "Pipe run!D9: colours of states lost in D9"),
        ((BOOK, "<calcPr ", '<calcPr calcMode="manual" '), "calculation is set to manual"),
    ],
)
def test_what_programs_drop_is_a_warning(audit, fresh, change, expected) -> None:
    report = audit(swap(fresh, *change))
    assert report.faults == []
    assert [str(warning).startswith(expected) for warning in report.warnings] == [True]
