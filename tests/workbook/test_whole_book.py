"""Every formula cell of the demo workbook, as built: stored values, engines, error codes."""

import re

import pytest

from workbook.comparison import compare_values, listed
from workbook.engines import FormulasByForm, WholeFormulas
from workbook.files import change_part, find_errors

LANGUAGES = ["en", "fr"]


@pytest.mark.parametrize("lang", LANGUAGES)
def test_no_cell_shows_an_error_code(books, lang):
    errors = find_errors(books(lang).stored)
    assert not errors, listed(errors)


def test_formulas_form_by_form_shows_what_it_shows_with_the_whole_file(shortest_book):
    whole, by_form = WholeFormulas(shortest_book), FormulasByForm(shortest_book)
    differences = compare_values(by_form.solve({}), whole.solve())
    assert not differences, listed(differences)


@pytest.mark.parametrize("lang", LANGUAGES)
def test_the_office_program_shows_the_stored_values_before_it_recalculates(office, books, lang):
    file = books(lang)
    office.open(file.path)
    differences = compare_values(office.read(file), file.stored)
    assert not differences, listed(differences)


@pytest.mark.parametrize("lang", LANGUAGES)
def test_the_office_program_recalculates_the_stored_values_and_the_self_test_agrees(
    office, books, lang
):
    file = books(lang)
    office.open(file.path)
    office.ask("recalculate")
    shown = office.read(file)
    differences = compare_values(shown, file.stored)
    assert not differences, listed(differences)
    assert office.ask("errors") == []
    agree, lines = (shown[file.cell(name)] for name in ("selftest_agree_n", "selftest_n"))
    assert agree == lines > 0


def test_the_office_program_recalculates_only_when_told(office, books, tmp_path):
    file, path = books("en"), tmp_path / "poisoned.xlsx"
    cell = file.cell("holdup_geometry_L")
    path.write_bytes(poison(file, cell, "12345"))
    office.open(path)
    before = office.read(file)[cell]
    office.ask("recalculate")
    assert (before, office.read(file)[cell]) == (12345, pytest.approx(file.stored[cell]))


def poison(file, cell, number):
    """Return the file with another stored number in a formula cell."""
    title, row, _ = cell
    place = re.compile(rf'(<c r="B{row}"[^>]*><f>[^<]*</f><v>)[^<]*')
    part = f"xl/worksheets/sheet{file.titles.index(title) + 1}.xml"
    return change_part(file.data, part, lambda xml: place.sub(rf"\g<1>{number}", xml))
