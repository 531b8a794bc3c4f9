"""Typing into the open workbook, as its owner does, and sending the saved file back."""

import pytest

from builder.audit.report import audit_file
from builder.calculation import calculate
from builder.spec.conversion import to_canonical
from workbook.cases import change_demo


def type_bore(office, file, unit):
    """Type an eight-inch bore with keys."""
    office.open(file.path)
    office.strike(file.cell("vessel_bore_mm_typed"), "8")
    office.strike(file.cell("vessel_bore_mm_typed_unit"), unit)


@pytest.mark.parametrize(("lang", "unit"), [("en", "in"), ("fr", "po")])
def test_a_bore_typed_in_inches_changes_the_hold_up_as_the_reference_says(
    office, demo_books, spec, lang, unit
):
    file = demo_books(lang)
    cell = file.cell("holdup_adopted_L")
    type_bore(office, file, unit)
    bore = to_canonical(8, spec.units["in"], spec.units["mm"])
    expected = calculate(spec, change_demo(spec, "", vessel_bore_mm=bore).given)["holdup_adopted_L"]
    assert office.read(file)[cell] == pytest.approx(expected, rel=1e-9)
    assert file.stored[cell] != pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize(("lang", "unit"), [("en", "in"), ("fr", "po")])
def test_a_workbook_saved_by_the_office_program_passes_the_audit(
    office, demo_books, spec, tmp_path, lang, unit
):
    path = tmp_path / "back.xlsx"
    type_bore(office, demo_books(lang), unit)
    office.ask("save", str(path))
    report = audit_file(path, spec, lambda language, _: demo_books(language).data, deep=False)
    assert [str(fault) for fault in report.faults] == []
    assert report.formulas == report.agree == len(demo_books(lang).formulas)


def test_a_locked_cell_takes_no_keys(office, books):
    file = books("en")
    cell = file.cell("holdup_adopted_L")
    office.open(file.path)
    office.strike(cell, "1")
    assert office.read(file)[cell] == file.stored[cell]
