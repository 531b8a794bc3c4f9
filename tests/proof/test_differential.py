"""The differential run goes red: another value, a lost cell, an error code, a wrong formula."""

from contextlib import ExitStack
from dataclasses import replace

import openpyxl
import pytest
from openpyxl.workbook.defined_name import DefinedName
from workbook.cases import Case
from workbook.conftest import shorten
from workbook.engines import Formulas, Ironcalc
from workbook.files import read_file

from builder.exchange.machine import Machine
from builder.production import build_workbook
from builder.spec.load import find_specs, load_spec
from builder.spec.records import Tolerance
from proof.differential import (
    RUNS,
    check_forms,
    list_faults,
    list_lacking,
    open_engines,
    type_sets,
)
from proof.differential_compare import Judge, Tally
from proof.differential_sets import Trial, place_trial
from proof.engines import FormulasByForm
from proof.engines_office import OfficeIn, OfficeSheets

MADE_UP = {
    "C1": '=IF(COUNT(A1)<1,"",A1*made_up_factor_n+IF(B1="",0,B1))',
    "C2": '=IF(COUNT(A2)<1,"",A2*made_up_factor_n+IF(B2="",0,B2))',
    "C3": '=IF(COUNT(A3)<1,"",A3*made_up_factor_n+IF(B3="",0,B3))',
    "C4": "=SUM(C1:C3)/COUNT($A$1:$A$3)",
    "C5": '=IF(COUNT(INDEX(A1:A3,2))=0,"none",INDEX(made_up_list,2))',
    "C6": '=IFERROR(MATCH("B",B1:B3,0),-1)+CHOOSE(1,4,5)',
    "C7": '=IF(INDEX(made_up_list,3)="","blank",\'Other sheet\'!A1&"!")',
    "C8": '=ROUND(MAX(C1:C4)^2,9)-MIN(1,COUNTIF(B1:B3,"b"))',
    "C9": "=IF(ISTEXT(A3),1,0)+SUMPRODUCT((A1:A3>1)*1)",
    "C10": "=1/A2",
}
TYPED = ("A1", "A2", "A3", "B1", "B2", "B3")


@pytest.fixture(scope="module")
def spec():
    return load_spec(find_specs())


@pytest.fixture(scope="module")
def made_up(tmp_path_factory):
    """Return a small workbook with the shapes of formulas that the real ones have."""
    book = openpyxl.Workbook()
    sheet, other = book.active, book.create_sheet("Other sheet")
    sheet.title = "Été"
    for place, formula in MADE_UP.items():
        sheet[place] = formula
    sheet["A1"], sheet["A2"], sheet["B3"], sheet["E1"] = 2.5, 4, "b", 1.5
    other["A1"] = "text"
    for name, place in (("made_up_factor_n", "$E$1"), ("made_up_list", "$A$1:$A$3")):
        book.defined_names[name] = DefinedName(name, attr_text=f"'Été'!{place}")
    sheet.print_area, other.print_area = "A1:E10", "A1:B2"
    path = tmp_path_factory.mktemp("made_up") / "made_up.xlsx"
    book.save(path)
    return read_file(path)


@pytest.fixture(scope="module")
def broken(spec, tmp_path_factory):
    """Return the specs, and a workbook in which one formula of them is wrong."""
    short = shorten(spec)
    right = short.quantities["holdup_geometry_L"]
    wrong = replace(right, formula=right.formula.replace("+", "-", 1))
    quantities = {**short.quantities, "holdup_geometry_L": wrong}
    path = tmp_path_factory.mktemp("broken") / "broken.xlsx"
    path.write_bytes(build_workbook(replace(short, quantities=quantities), Machine(), "fr", "us"))
    return short, read_file(path)


def cell(place):
    return ("Été", int(place[1:]), "ABCDE".index(place[0]) + 1)


def typed_cells(*values):
    return {cell(place): value for place, value in zip(TYPED, values, strict=True)}


SETS = [
    {},
    typed_cells(1.0, -2.0, 3.0, None, 7.0, "B"),
    typed_cells(None, None, None, None, None, None),
    typed_cells("abc", 0.0, " ", "b", "a", "b"),
    typed_cells(None, 5.0, None, 2.0, None, None),
    {},  # what was typed before is taken back
]


@pytest.fixture(scope="module")
def whole(made_up):
    return Formulas(made_up)


@pytest.mark.parametrize("typed", SETS)
def test_each_form_once_gives_what_the_engines_own_model_gives(made_up, whole, typed):
    expected = whole.solve(typed)
    errors = {place: str(v) for place, v in expected.items() if isinstance(v, str)}
    assert FormulasByForm(made_up).solve(typed) == expected | errors


def test_a_column_is_one_form_and_nothing_stays_for_the_next_set(made_up):
    engine = FormulasByForm(made_up)
    first = engine.solve({})
    assert engine.solve(SETS[1]) != first == engine.solve({})
    assert len(engine.forms) == len(MADE_UP) - 2


def test_a_function_that_the_engine_does_not_know_is_an_error(made_up):
    file = replace(made_up, formulas={cell("C1"): "=OFFSET(A1,1,0)"})
    assert FormulasByForm(file).solve({}) == {cell("C1"): "#NAME?"}


def test_the_three_engines_agree_on_the_made_up_workbook(judge, made_up):
    fast, forms, tally = Ironcalc(made_up), FormulasByForm(made_up), Tally()
    with OfficeIn("fr-CA") as office:
        sheets = OfficeSheets(office, made_up)
        for typed in SETS:
            shown = {"a": fast.solve(typed), "b": forms.solve(typed), "c": sheets.solve(typed)}
            judge.compare_engines(str(typed), shown, tally)
    assert [text for (kind, _), text in tally.faults.items() if "," in kind] == []
    assert {kind for kind, place in tally.faults if place == cell("C10")} == {"a", "b", "c"}


def test_the_office_program_without_the_wanted_locale_is_noticed(made_up):
    with OfficeIn("fr-CA") as office:
        sheets = OfficeSheets(office, made_up)
        assert sheets.reads_commas(cell("A1"))
        assert sheets.solve({})[cell("C1")] == 2.5 * 1.5
        office.locale = "en-US"
        assert not sheets.reads_commas(cell("A1"))


@pytest.fixture
def judge(spec, made_up):
    """Return a judge of a workbook that holds no quantity of the specs."""
    return Judge(made_up, replace(spec, quantities={}), "en")


@pytest.mark.parametrize(
    ("factor", "tolerance", "faults"),
    [
        (1 + 5e-10, None, 0),
        (1 + 2e-9, None, 1),
        (1 + 2e-9, Tolerance(rel=1e-7, why="made up"), 0),
        (1 + 2e-7, Tolerance(rel=1e-7, why="made up"), 1),
    ],
)
def test_two_engines_differ_beyond_nine_digits_or_a_tolerance(
    judge, made_up, factor, tolerance, faults
):
    tally = Tally()
    judge.tolerances = {cell("C1"): tolerance} if tolerance else {}
    good = FormulasByForm(made_up).solve({})
    other = {**good, cell("C1"): good[cell("C1")] * factor}
    judge.compare_engines("a set", {"one": good, "other": other}, tally)
    assert len(tally.faults) == faults
    assert tally.comparisons == len(MADE_UP)


def test_a_fault_names_quantity_cell_values_and_set(judge, made_up):
    tally, good = Tally(), FormulasByForm(made_up).solve({})
    other = {**good, cell("C1"): 4.0}
    for label in ("first set", "second set"):
        judge.compare_engines(label, {"one": good, "other": other}, tally)
    assert list(tally.faults.values()) == [
        "beside made_up_list Été!C1: one 3.75, other 4.0; first set"
    ]
    assert tally.worst[False] == pytest.approx(0.0625)


def test_a_cell_that_an_engine_lacks_is_missing_and_not_blank(judge, made_up):
    tally, good = Tally(), FormulasByForm(made_up).solve({})
    lacking = {place: value for place, value in good.items() if place != cell("C3")}
    judge.compare_engines("a set", {"one": good, "other": lacking}, tally)
    assert good[cell("C3")] is None
    assert (tally.missing, len(tally.faults)) == (1, 1)


@pytest.mark.parametrize("code", ["#DIV/0!", "#NAME?", "Err:"])
def test_an_error_code_is_a_fault_even_where_all_agree(judge, made_up, code):
    tally, good = Tally(), FormulasByForm(made_up).solve({})
    shown = {**good, cell("C1"): code}
    judge.compare_engines("a set", {"one": shown, "other": shown}, tally)
    assert (tally.errors, len(tally.faults)) == (2, 2)


def test_a_wrong_formula_is_named_against_the_reference(broken):
    short, file = broken
    run = replace(RUNS[0], units="us")
    engines = {"ironcalc": Ironcalc(file)}
    tally = type_sets([Trial(Case("defaults"))], engines, file, short, run)
    faults = list_faults(run, tally)
    place = file.cell("holdup_geometry_L")
    assert any(fault.startswith("fr us fr-CA: holdup_geometry_L Volume mort!B") for fault in faults)
    assert ("ironcalc, reference", place) in tally.faults
    assert tally.worst[True] > 0.01


def test_faults_beyond_the_listed_are_counted():
    tally = Tally()
    for row in range(25):
        tally.blame("one, other", ("Sheet", row, 1), f"fault {row}")
    faults = list_faults(RUNS[0], tally)
    assert faults[0] == "fr metric fr-CA: fault 0"
    assert faults[-1] == "fr metric fr-CA: 5 more cells differ"


def test_the_check_of_the_forms_names_a_cell_that_they_get_wrong(made_up, monkeypatch):
    monkeypatch.setattr("proof.differential.build", lambda *_: made_up)
    assert check_forms() == []
    monkeypatch.setattr("proof.engines.BLANK", 0)
    assert any("Été!C" in fault for fault in check_forms())


def test_a_text_takes_the_place_of_a_number_and_units_are_the_books(broken):
    short, file = broken
    case = Case("a set", {"vessel_bore_mm": None}, {"log": [{"sap_L": 3785.411784}]})
    trial = Trial(case, {("vessel_bore_mm_typed", 0): "abc"})
    typed = place_trial(trial, file, short, "fr", "us")
    assert typed == {
        file.cell("vessel_bore_mm_typed"): "abc",
        file.names["log_sap_L_list"][0]: pytest.approx(1000),
    }


def test_without_the_office_program_the_other_engines_work_and_it_is_a_fault(made_up, monkeypatch):
    monkeypatch.setenv("PATH", "")
    with ExitStack() as stack:
        engines, faults = open_engines(RUNS[0], made_up, stack)
    assert (list(engines), faults) == (["ironcalc", "formulas"], [])
    (fault,) = list_lacking()
    assert fault.startswith(
        "differential run without LibreOffice: LibreOffice (soffice) is missing"
    )
