"""One change of formulas, constants, names, locks or sheets is one fault at the right cell."""

from dataclasses import replace
from pathlib import Path

import pytest

from audit.edits import add_part, edit_part, lines, swap, swap_in_cell
from builder.audit.book import read_book
from builder.audit.design import label_cells
from builder.audit.structure import compare_books
from builder.exchange.machine import Machine
from builder.production import build_design, build_workbook, shorten
from builder.spec.load import find_specs, load_spec

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
TYPED = "typed cell, found =6+6, expected a value, not a formula: counts as blank"
NONE = "changes no result"
OPENED = '<protectedRanges><protectedRange name="r" sqref="D8"/></protectedRanges>'
TYPES = "http://schemas.openxmlformats.org"
LINK = (
    f'<Relationships xmlns="{TYPES}/package/2006/relationships"><Relationship Id="rId9" '
    f'Type="{TYPES}/officeDocument/2006/relationships/hyperlink" '
    'Target="https://example.org/" TargetMode="External"/></Relationships>'
)


def test_changed_formula_is_shown_beside_the_right_one(audit, fresh) -> None:
    found = lines(audit(swap_in_cell(fresh, "Pipe run!D9", "&gt;=10", "&gt;=11")))
    head = "=IF(COUNT(D4)&lt;1,word_missing_txt,IF(D4&gt;={},word_ok_txt,word_look_txt))"
    head = head.replace("&lt;", "<").replace("&gt;", ">")
    text = f"formula, found {head.format(11)}, expected {head.format(10)}"
    assert found == [f"Pipe run!D9 rinse_ok: {text}; changes no result"]


def test_constant_changed_in_its_last_saved_digit_is_no_fault(audit, fresh) -> None:
    assert lines(audit(swap(fresh, RUN, "<v>1000</v>", "<v>1000.000000000001</v>"))) == []


def test_spellings_of_other_programs_are_no_fault(audit, fresh) -> None:
    spelled = swap_in_cell(fresh, "Pipe run!D10", "1.008E-14", "0.00000000000001008")
    spelled = swap_in_cell(spelled, "Pipe run!D10", "TRUE", "TRUE()")
    spelled = swap(spelled, BOOK, "Lists!$A$1", "'Lists'!$A$1")
    assert lines(audit(spelled)) == []


def test_typed_cells_may_hold_other_values(audit, fresh) -> None:
    report = audit(swap_in_cell(fresh, "Pipe run!B4", "<v>12</v>", "<v>13</v>"))
    assert "typed" not in "".join(lines(report))


@pytest.mark.parametrize(
    ("place", "old", "new", "expected"),
    [
        ("D10", "<f>1.008E-14*IF(TRUE,1,0)</f>", "",
         ": formula, found 1.008e-14, expected =1.008E-14*IF(TRUE,1,0); changes no result"),
        ("B4", "<v>12</v>", "<f>6+6</f><v>12</v>",
         f" rinse_volumes_n_typed: {TYPED}; changes: rinse_ok"),
        ("D8", 'r="D8"', 'r="D8" s="1"', " pipe_L: lock, found unlocked, expected locked"),
        ("B5", ' s="1"', "", " end_pH_typed: lock, found locked, expected unlocked"),
    ],
    ids=["formula overwritten by its value", "formula in a typed cell", "unlocked", "locked"],
)  # fmt: skip
def test_cell_of_another_kind_or_lock_is_a_fault(audit, fresh, place, old, new, expected) -> None:
    found = lines(audit(swap_in_cell(fresh, f"Pipe run!{place}", old, new)))
    assert found == [f"Pipe run!{place}{expected}"]


@pytest.mark.parametrize(
    ("part", "old", "new", "expected"),
    [
        (RUN, "<v>1000</v>", "<v>1000.00000000002</v>",
         f"Pipe run!D7 mm2m_per_L: constant, found 1000.00000000002, expected 1000.0; {NONE}"),
        ("xl/sharedStrings.xml", ">Pipe<", ">Tube<",
         "Pipe run!A1: constant, found 'Tube', expected 'Pipe'; changes no result"),
        (RUN, '<c r="D10"', '<c r="C10"><v>7</v></c><c r="D10"',
         "Pipe run!C10: constant, found 7.0, expected nothing; changes no result"),
        (RUN, "<sheetData>", '<cols><col min="6" max="6" width="9" style="1"/></cols><sheetData>',
         "Pipe run: rows or columns F, found unlocked, expected locked"),
        (RUN, 'sheet="1"', 'sheet="0"', "Pipe run: sheet protection, found off, expected on"),
        (RUN, "<conditionalFormatting", f"{OPENED}<conditionalFormatting",
         f"cells are open to editing in spite of locks ({RUN})"),
        (BOOK, 'name="Lists"', 'name="Lists" state="hidden"',
         "Lists: sheet, found hidden, expected visible"),
        (BOOK, "<calcPr ", '<calcPr fullPrecision="0" ',
         "calculates with the digits shown, expected full precision"),
    ],
    ids=["constant", "word", "extra cell", "column", "protection", "range", "hidden", "precision"],
)  # fmt: skip
def test_one_change_is_one_fault(audit, fresh, part, old, new, expected) -> None:
    assert lines(audit(swap(fresh, part, old, new))) == [expected]


def test_renamed_sheet_is_a_fault(audit, fresh) -> None:
    changed = edit_part(fresh, BOOK, lambda words: words.replace("Lists", "Listes"))
    expected = "sheets, found Pipe run, Listes, expected Pipe run, Lists"
    assert lines(audit(changed))[0] == expected


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        (END, '<definedName name="end_ph_n">',
         "Pipe run!D5 end_pH: defined name, found none, expected Pipe run!D5"),
        ("'Pipe run'!$D$5", "'Pipe run'!$D$4",
         "Pipe run!D5 end_pH: defined name, found Pipe run!D4, expected Pipe run!D5"),
        (END, f'<definedName name="pipe_L" localSheetId="1">1</definedName>{END}',
         "Lists pipe_L: defined name of one sheet, found one, expected none"),
        (END, f'<definedName name="own_n">Lists!$B$7</definedName>{END}',
         "Lists!B7 own_n: defined name, found Lists!B7, expected none"),
    ],
)  # fmt: skip
def test_changed_name_is_a_fault(audit, fresh, old: str, new: str, expected: str) -> None:
    assert f"{expected}; changes no result" in lines(audit(swap(fresh, BOOK, old, new)))


def test_link_out_of_the_workbook_is_a_fault(audit, fresh) -> None:
    link = f'<hyperlinks><hyperlink ref="A1" r:id="rId9"/></hyperlinks>{MARGINS}'
    linked = swap(fresh, RUN, MARGINS, link)
    found = lines(audit(add_part(linked, "xl/worksheets/_rels/sheet1.xml.rels", LINK)))
    assert found == ["Pipe run!A1: link, found https://example.org/, expected none"]


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        ((RUN, RULE, ""), "Pipe run!C2: drop-downs and limits lost in C2"),
        ((RUN, COLOURS, ""), "Pipe run!D9: colours of states lost in D9"),
        ((BOOK, "<calcPr ", '<calcPr calcMode="manual" '), "calculation is set to manual"),
    ],
)
def test_what_programs_drop_is_a_warning(audit, fresh, change, expected) -> None:
    report = audit(swap(fresh, *change))
    assert report.faults == []
    assert [str(warning).startswith(expected) for warning in report.warnings] == [True]


def test_a_book_may_be_an_example_or_not_and_nothing_third() -> None:
    spec, path = shorten(load_spec(find_specs())), Path("book.xlsx")
    book = read_book(path, build_workbook(spec, Machine(example=True), "en", "metric"))
    pristine = read_book(path, build_design(spec, "en", "metric"))
    labels = label_cells(pristine.names)
    assert list(compare_books(book, pristine, labels)) == []
    place = pristine.names["example_n"].replace("$", "").replace("'", "")
    book.cells[place] = replace(book.cells[place], constant=2.0)
    told = [difference.finding.text for difference in compare_books(book, pristine, labels)]
    assert told == ["constant, found 2.0, expected 0.0"]
