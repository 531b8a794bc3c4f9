"""The real workbook: sound as built, and every kind of single change is caught and placed."""

import io
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import openpyxl
import pytest

from audit.edits import edit_cell, edit_cells, edit_part, swap_in_cell, swapped, type_cells
from builder.audit.book import Book, read_book
from builder.audit.findings import Report
from builder.audit.report import audit_file
from builder.spec.records import Check, Constant, Result
from builder.spec.specification import Spec

Audit = Callable[[bytes], Report]
BOOK = "xl/workbook.xml"


@pytest.fixture(scope="session")
def english(built) -> bytes:
    return built["en", "metric"]


@pytest.fixture(scope="session")
def book(english: bytes) -> Book:
    return read_book(Path("fresh.xlsx"), english)


@pytest.fixture
def audit(spec: Spec, built, tmp_path: Path) -> Audit:
    def run(data: bytes) -> Report:
        path = tmp_path / "back.xlsx"
        path.write_bytes(data)
        return audit_file(path, spec, lambda lang, units: built[lang, units], deep=False)

    return run


def places(report: Report) -> set[str]:
    return {fault.cell for fault in report.faults}


def texts(report: Report, place: str) -> list[str]:
    return [fault.text for fault in report.faults if fault.cell == place]


def operators(formula: str) -> Iterator[tuple[str, str]]:
    """Yield what stands in the XML of a formula and what another author might have written."""
    pairs = [("&lt;", "&gt;"), ("+", "-"), ("*", "/"), ("&gt;", "&lt;"), ("MAX(", "MIN(")]
    written = formula.replace("<", "&lt;").replace(">", "&gt;")
    yield from (pair for pair in pairs if pair[0] in written)


@pytest.mark.parametrize("pair", [("en", "metric"), ("fr", "us")])
def test_fresh_book_has_no_finding_and_every_formula_agrees(built, audit: Audit, pair) -> None:
    report = audit(built[pair])
    assert [str(finding) for finding in [*report.faults, *report.warnings]] == []
    assert report.agree == report.formulas > 1000


def test_every_result_and_verdict_is_compared_with_its_reference(spec: Spec, book: Book) -> None:
    named = [name for name, q in spec.quantities.items() if isinstance(q, Result | Check)]
    assert [name for name in named if book.names.get(name, "") not in book.cells] == []


def test_changed_operator_in_each_result_and_verdict_is_caught(
    spec: Spec, english: bytes, book: Book, audit: Audit
) -> None:
    changes = {}
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Result | Check):
            place = book.names[name]
            for pair in list(operators(book.cells[place].formula))[:1]:
                changes[place] = swapped(*pair)
    report = audit(edit_cells(english, changes))
    caught = {fault.cell for fault in report.faults if fault.text.startswith("formula, found")}
    assert len(changes) > 50
    assert caught == set(changes)


def test_one_changed_formula_is_shown_beside_the_right_one(
    english: bytes, book: Book, audit: Audit
) -> None:
    place = book.names["wash_solution_L"]
    right = book.cells[place].formula
    report = audit(swap_in_cell(english, place, "</f>", "+0</f>"))
    text = f"formula, found {right}+0, expected {right}; changes no result"
    assert texts(report, place) == [text]


def test_each_changed_constant_is_caught(
    spec: Spec, english: bytes, book: Book, audit: Audit
) -> None:
    changes = {
        book.names[name]: swapped("<v>-" if quantity.value < 0 else "<v>", "<v>7")
        for name, quantity in spec.quantities.items()
        if isinstance(quantity, Constant) and not book.cells[book.names[name]].formula
    }
    report = audit(edit_cells(english, changes))
    caught = {fault.cell for fault in report.faults if fault.text.startswith("constant, found")}
    assert len(changes) > 20
    assert caught == set(changes)


def test_each_wrong_stored_number_of_a_result_is_caught(
    spec: Spec, english: bytes, book: Book, audit: Audit
) -> None:
    results = [book.names[name] for name, q in spec.quantities.items() if isinstance(q, Result)]
    numbers = [place for place in results if isinstance(book.cells[place].stored, float)]
    tiny = 1e-9  # seven of something as small still counts as nothing
    stored = {place: float(str(book.cells[place].stored)) for place in numbers}
    positive = [place for place, value in stored.items() if value == 0 or value > tiny]
    report = audit(edit_cells(english, dict.fromkeys(positive, swapped("<v>", "<v>7"))))
    assert len(positive) > 50
    assert places(report) == set(positive)
    assert report.agree == report.formulas - len(positive)


def test_stored_verdict_turned_to_ok_is_caught(english: bytes, book: Book, audit: Audit) -> None:
    place = book.names["ceiling_ok"]
    change = edit_cell(english, place, lambda cell: cell.replace("<v>", "<v>not "))
    assert places(audit(change)) == {place}


def test_name_that_points_elsewhere_is_caught(english: bytes, book: Book, audit: Audit) -> None:
    place = book.names["holdup_geometry_L"]
    pointer = re.compile(r'(name="holdup_geometry_L">[^<]*\$)\d+<')
    data = edit_part(english, BOOK, lambda words: pointer.sub(r"\g<1>999<", words))
    moved = re.sub(r"\d+$", "999", place)
    text = f"defined name, found {moved}, expected {place}; changes: holdup_adopted_L, "
    assert [found.startswith(text) for found in texts(audit(data), place)] == [True]


def test_lost_name_is_caught(english: bytes, book: Book, audit: Audit) -> None:
    data = edit_part(
        english, BOOK, lambda words: words.replace('"rinse_fills_n"', '"rinse_fill_n"')
    )
    place = book.names["rinse_fills_n"]
    text = f"defined name, found none, expected {place}; changes no result"
    assert text in texts(audit(data), place)


def find_style(data: bytes, place: str) -> str:
    title, _, cell = place.rpartition("!")
    sheet = openpyxl.load_workbook(io.BytesIO(data))[title]
    return str(sheet[cell].style_id)


def test_unlocked_result_is_caught(english: bytes, book: Book, audit: Audit) -> None:
    place = book.names["cleaner_dose_kg"]
    own = find_style(english, place)
    typed = find_style(english, book.names["vessels_n_typed"])
    data = swap_in_cell(english, place, f's="{own}"', f's="{typed}"')
    assert texts(audit(data), place) == [
        "lock, found unlocked, expected locked",
        "number format, found General, expected #,##0.000",
    ]


def test_changed_word_of_a_unit_list_is_caught(english: bytes, book: Book, audit: Audit) -> None:
    shared = "xl/sharedStrings.xml"
    data = edit_part(english, shared, lambda words: words.replace(">US gal<", ">gallon<"))
    report = audit(data)
    changed = [place for place, cell in book.cells.items() if cell.constant == "US gal"]
    assert changed
    assert {place for place in changed if book.cells[place].locked} <= places(report)


def test_changed_unit_beside_a_typed_number_shows_in_what_follows(
    english: bytes, book: Book, audit: Audit
) -> None:
    unit = book.names["vessel_bore_mm_typed_unit"]
    assert book.cells[unit].constant == "mm"
    data = edit_cell(
        english,
        unit,
        lambda cell: (
            cell.split("<v>")[0].replace('t="s"', 't="inlineStr"') + "<is><t>in</t></is></c>"
        ),
    )
    report = audit(data)
    assert book.names["vessel_bore_mm"] in places(report)
    text = "typed value, found 206 in = 5232.4 mm, expected 40 to 500 mm"
    assert text in [warning.text for warning in report.warnings]


def test_formula_in_a_typed_cell_is_caught(english: bytes, book: Book, audit: Audit) -> None:
    place = book.names["vessels_n_typed"]
    report = audit(swap_in_cell(english, place, "<v>", "<f>1+1</f><v>"))
    expected = "typed cell, found =1+1, expected a value, not a formula: counts as blank; changes: "
    assert [text.startswith(expected) for text in texts(report, place)] == [True]
    assert len(report.faults) == 1


def type_values(data: bytes, book: Book, values: dict[str, object]) -> bytes:
    return type_cells(data, {book.names[name]: value for name, value in values.items()})


@pytest.mark.parametrize(
    "values",
    [
        {"vessels_n_typed": 3, "end_pH_typed": 11.3, "end_temp_degC_typed": 20},
        {
            "vessel_bore_mm_typed": 8,
            "vessel_bore_mm_typed_unit": "in",
            "rinse_flow_Lpmin_typed": 30,
        },
        {"wash_temp_degC_typed": 140, "wash_temp_degC_typed_unit": "°F"},
    ],
)
def test_formulas_follow_the_reference_for_other_machines(
    english: bytes, book: Book, audit: Audit, values: dict[str, object]
) -> None:
    report = audit(type_values(english, book, values))
    assert [str(fault) for fault in report.faults] == []
    assert ["no stored values" in str(warning) for warning in report.warnings] == [True]


@pytest.mark.parametrize("typed", [None, "eight", 2.5])
def test_unusable_input_blanks_results_on_both_sides(
    english: bytes, book: Book, audit: Audit, typed: object
) -> None:
    report = audit(type_values(english, book, {"vessels_n_typed": typed}))
    assert [str(fault) for fault in report.faults] == []
    assert [warning.name for warning in report.warnings] == ["", "vessels_n"]
