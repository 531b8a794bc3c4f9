"""How the file is made: nothing hidden or foreign, only typed cells unlocked, ready to print."""

import io
import itertools
import re
import zipfile

import openpyxl
import pytest
from openpyxl.formula import Tokenizer
from openpyxl.formula.translate import Translator
from openxml_audit import OpenXmlValidator

from builder.exchange.machine import Machine
from builder.plan.layout import plan_book
from builder.production import work_case
from builder.spec.records import Grid
from workbook.comparison import listed
from workbook.files import show

VOLATILE = {"NOW", "TODAY", "RAND", "RANDBETWEEN", "OFFSET", "INDIRECT", "CELL", "INFO"}
FOREIGN = ("vba", "externalLink", "connection", "queryTable", "embedding", "activeX", "ctrlProp")
PAPERS = {"en": 1, "fr": 9}  # letter, A4
LONGEST_TITLE = 31


@pytest.fixture(params=["en", "fr"])
def file(request, books):
    """Return the workbook in each language."""
    return books(request.param)


@pytest.fixture
def book(file):
    """Return the same as a library reads it."""
    return openpyxl.load_workbook(file.path)


def read_parts(file):
    """Return the parts of the file as texts."""
    with zipfile.ZipFile(io.BytesIO(file.data)) as parts:
        return {name: parts.read(name).decode() for name in parts.namelist()}


def test_nothing_is_hidden(book):
    hidden = [sheet.title for sheet in book.worksheets if sheet.sheet_state != "visible"]
    for sheet in book.worksheets:
        spans = [*sheet.row_dimensions.items(), *sheet.column_dimensions.items()]
        hidden += [f"{sheet.title} {key}" for key, span in spans if span.hidden]
    assert hidden == []
    assert [name for name, defined in book.defined_names.items() if defined.hidden] == []


def test_no_cells_are_merged(book):
    assert [sheet.title for sheet in book.worksheets if sheet.merged_cells.ranges] == []


def test_nothing_comes_from_outside_the_file(file):
    parts = read_parts(file)
    assert [name for name in parts if any(word in name for word in FOREIGN)] == []
    assert [name for name, xml in parts.items() if 'TargetMode="External"' in xml] == []
    assert [cell for cell, formula in file.formulas.items() if "[" in formula] == []


def test_no_formula_is_volatile_or_newer_than_the_programs_that_open_it(file):
    used = {
        token.value.rstrip("(").upper()
        for formula in set(file.formulas.values())
        for token in Tokenizer(formula).items
        if token.type == "FUNC" and token.subtype == "OPEN"
    }
    assert used & VOLATILE == set()
    assert [name for name in used if "." in name or name.startswith("_")] == []


def test_only_typed_cells_are_unlocked(file, spec, request):
    lang = request.node.callspec.params["file"]
    plan = plan_book(spec, Machine(), lang, "metric", work_case(spec, lang))
    typed = {
        (sheet.title, cell.row + 1, cell.col + 1)
        for sheet in plan.sheets
        for cell in sheet.cells
        if cell.typed
    }
    assert sorted(map(show, file.unlocked ^ typed)) == []
    assert file.unlocked & set(file.formulas) == set()


def test_every_typed_name_leads_to_an_unlocked_cell(file):
    names = [name for name in file.names if name.endswith(("_typed", "_typed_unit"))]
    assert [name for name in names if file.cell(name) not in file.unlocked] == []
    assert names


def test_every_sheet_is_protected_without_a_password(book):
    for sheet in book.worksheets:
        assert sheet.protection.sheet, sheet.title
        assert sheet.protection.password is None, sheet.title
        spans = [*sheet.row_dimensions.values(), *sheet.column_dimensions.values()]
        assert all(span.protection.locked for span in spans), sheet.title


def test_the_file_follows_the_open_standard(file):
    result = OpenXmlValidator().validate(str(file.path))
    assert [str(error) for error in result.errors] == []


def test_titles_of_sheets_fit_every_program(file):
    assert [title for title in file.titles if len(title) > LONGEST_TITLE] == []
    assert [title for title in file.titles if re.search(r"[\[\]:*?/\\'!%]", title)] == []


def test_every_sheet_is_set_up_for_print(book, request):
    lang = request.node.callspec.params["file"]
    for sheet in book.worksheets:
        assert sheet.page_setup.paperSize == PAPERS[lang], sheet.title
        assert sheet.sheet_properties.pageSetUpPr.fitToPage, sheet.title
        assert sheet.page_setup.fitToWidth != 0, sheet.title
        assert sheet.print_title_rows, sheet.title
        assert sheet.print_area, sheet.title
        assert "&P" in sheet.oddFooter.left.text, sheet.title


def test_long_grids_repeat_the_formulas_of_their_second_row(file, spec):
    odd = []
    for name, grid in spec.quantities.items():
        for column in grid.columns if isinstance(grid, Grid) else []:
            _, *cells = file.names[f"{name}_{column}_list"]
            for one, other in itertools.pairwise(c for c in cells if c in file.formulas):
                origin, target = (show(cell).partition("!")[2] for cell in (one, other))
                moved = Translator(file.formulas[one], origin).translate_formula(target)
                if moved != file.formulas[other]:
                    odd.append(f"{show(other)}: {file.formulas[other]} is not {moved}")
    assert not odd, listed(odd)
