"""The real workbook: sound as built, and every kind of single change is caught and placed."""

from collections.abc import Callable
from pathlib import Path

import pytest

from audit.edits import edit_cell, type_cells
from builder.audit.book import Book, read_book
from builder.audit.findings import Report
from builder.spec.records import Check, Result
from builder.spec.specification import Spec

Audit = Callable[[bytes], Report]


@pytest.fixture(scope="session")
def english(built) -> bytes:
    return built["en", "metric"]


@pytest.fixture(scope="session")
def book(english: bytes) -> Book:
    return read_book(Path("fresh.xlsx"), english)


def places(report: Report) -> set[str]:
    return {fault.cell for fault in report.faults}


@pytest.mark.parametrize("pair", [("en", "metric"), ("fr", "us")])
def test_fresh_book_has_no_finding_and_every_formula_agrees(built, audit_real: Audit, pair) -> None:
    report = audit_real(built[pair])
    assert [str(finding) for finding in [*report.faults, *report.warnings]] == []
    assert report.agree == report.formulas > 1000


def test_every_result_and_verdict_is_compared_with_its_reference(spec: Spec, book: Book) -> None:
    named = [name for name, q in spec.quantities.items() if isinstance(q, Result | Check)]
    assert [name for name in named if book.names.get(name, "") not in book.cells] == []


def test_changed_unit_beside_a_typed_number_shows_in_what_follows(
    english: bytes, book: Book, audit_real: Audit
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
    report = audit_real(data)
    assert book.names["vessel_bore_mm"] in places(report)
    text = "typed value, found 206 in = 5232.4 mm, expected 40 to 500 mm"
    assert text in [warning.text for warning in report.warnings]


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
    english: bytes, book: Book, audit_real: Audit, values: dict[str, object]
) -> None:
    report = audit_real(type_values(english, book, values))
    assert [str(fault) for fault in report.faults] == []
    assert ["no stored values" in str(warning) for warning in report.warnings] == [True]


@pytest.mark.parametrize("typed", [None, "eight", 2.5])
def test_unusable_input_blanks_results_on_both_sides(
    english: bytes, book: Book, audit_real: Audit, typed: object
) -> None:
    report = audit_real(type_values(english, book, {"vessels_n_typed": typed}))
    assert [str(fault) for fault in report.faults] == []
    assert [warning.name for warning in report.warnings] == ["", "vessels_n"]
