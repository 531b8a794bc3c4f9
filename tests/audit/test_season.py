"""The season log typed in: every row agrees with the reference, and one change in one row shows."""

import re
from collections.abc import Callable
from pathlib import Path
from xml.sax.saxutils import escape

import pytest
from reference.season import FIRST_DAY_D, LINES, TODAY, make_season

from audit.edits import drop_stored, edit_cells, swapped, type_cells
from builder.audit.book import Book, read_book
from builder.audit.cases import Column, find_columns
from builder.audit.findings import Report
from builder.audit.report import audit_file
from builder.calculation import Calculator
from builder.exchange.demo import read_demo
from builder.exchange.machine import Machine, Typed
from builder.production import build_workbook
from builder.spec.records import Choice, Input
from builder.spec.specification import Spec

Audit = Callable[[bytes], Report]
ELEMENTS = [{"reading_brix": reading} for reading in (0.05, 0.15, None, 0.9)]
ENTRIES = {"log": make_season(), "force": LINES, "elements": ELEMENTS}
ENGLISH, FRENCH = ("en", "metric"), ("fr", "us")
UNSTORED = "no stored values: open the file in a spreadsheet program and save it there"
NEW_ROW = 150
PLENTY = "log_rinse_L"  # the season holds a text in this column
WORKED = re.compile(r"<f[^>]*(/>|>.*?</f>)", re.DOTALL)


@pytest.fixture(scope="module")
def season(spec: Spec) -> dict[tuple[str, str], bytes]:
    given = dict(read_demo(spec).given)
    for name, value in {**TODAY, "sugar_zero_brix": 0.02}.items():
        quantity = spec.quantities[name]
        if isinstance(quantity, Choice):
            given[name] = Typed(None, str(value), "")
        elif isinstance(quantity, Input):
            given[name] = Typed(float(value), str(value), quantity.unit)
    machine = Machine(given=given, entries=ENTRIES)
    return {pair: build_workbook(spec, machine, *pair) for pair in (ENGLISH, FRENCH)}


@pytest.fixture(scope="module")
def book(season) -> Book:
    return read_book(Path("season.xlsx"), season[ENGLISH])


@pytest.fixture(scope="module")
def columns(spec: Spec, book: Book):
    return {column.name: column for column in find_columns(spec, book.names)}


def place(columns, name: str, row: int) -> str:
    return columns[name].cells[row - 1]


def find_rows(event: str) -> list[int]:
    """Return the rows of the log, from 1, that hold an event."""
    rows = enumerate(make_season(), start=1)
    return [row for row, typed in rows if typed.get("event") == event]


def tell_others(report: Report) -> dict[str, str]:
    """Return the warnings by cell but that there are no stored values, and the season's own."""
    told = {warning.cell: warning.name for warning in report.warnings if warning.text != UNSTORED}
    return {cell: name for cell, name in told.items() if not name.startswith(f"{PLENTY} row")}


@pytest.mark.parametrize("pair", [ENGLISH, FRENCH])
def test_every_formula_agrees_with_a_season_and_only_its_slip_is_told(
    season, audit_real, pair
) -> None:
    report = audit_real(season[pair])
    assert [str(fault) for fault in report.faults] == []
    slips = [warning.text for warning in report.warnings if "plenty" in warning.text]
    others = tell_others(report)
    assert [text.partition(", expected")[0] for text in slips] == [
        "typed value, found text 'plenty'"
    ]
    # the same figures in degrees Fahrenheit are too cold to be used
    assert {name.split(" row ")[0][-4:] for name in others.values()} <= {"degC"}
    assert bool(others) is (pair == FRENCH)
    assert report.agree == report.formulas > 40_000


def test_changed_formula_and_changed_stored_value_are_placed_by_column_and_row(
    season, columns, audit_real: Audit
) -> None:
    formula, value = place(columns, "row_left_L", 137), place(columns, "row_rank_n", 5)
    changes = {
        formula: lambda words: WORKED.sub("<f>1+1</f>", words),
        value: lambda words: re.sub("<v>.*</v>", "<v>71</v>", words),
    }
    faults = [str(fault) for fault in audit_real(edit_cells(season[ENGLISH], changes)).faults]
    told = [fault.split(", found")[0] for fault in faults]
    assert f"{formula} row_left_L row 137: formula" in told
    assert f"{value} row_rank_n row 5: value" in told
    assert any("found 71, expected " in fault for fault in faults)


def test_text_in_any_number_or_date_is_a_warning_with_its_cell_and_no_fault(
    season, columns, audit_real: Audit
) -> None:
    typed = {}
    for name, column in columns.items():
        if column.record.entry in {"number", "date"}:
            row = 20 + len(typed) if column.grid.name == "log" else 1
            typed[column.cells[row - 1]] = f"{name} row {row}"
    report = audit_real(type_cells(season[ENGLISH], dict.fromkeys(typed, "unclear")))
    assert [str(fault) for fault in report.faults] == []
    wanted = {cell: name for cell, name in typed.items() if not name.startswith(PLENTY + " ")}
    assert tell_others(report) == wanted
    assert len(wanted) > 25


def test_word_or_number_that_cannot_be_used_is_a_warning_and_no_fault(
    season, columns, audit_real: Audit
) -> None:
    runs = find_rows("run")
    doubtful = {
        place(columns, "log_event", runs[9]): "lunch",
        place(columns, "log_hours_h", runs[11]): 60,
        place(columns, "log_date", runs[12]): 12,
        place(columns, "force_line_volume", 3): "bucket",
        place(columns, "force_line_ceiling_pH", 3): 15,
        place(columns, "force_line_date", 3): 1,
    }
    sound = {
        place(columns, "log_event", runs[10]): "RUN",
        place(columns, "log_product", runs[10]): 12,
    }
    report = audit_real(type_cells(season[ENGLISH], doubtful | sound))
    assert [str(fault) for fault in report.faults] == []
    assert set(tell_others(report)) == set(doubtful)


def test_row_typed_in_the_file_itself_is_judged(season, columns, audit_real: Audit) -> None:
    row = {
        "log_date": f"><v>{FIRST_DAY_D + 60}</v></c>",
        "log_event": ' t="inlineStr"><is><t>alkaline wash</t></is></c>',
        "log_begin_pH": "><v>11.3</v></c>",
        "log_rinse_L": "><v>200</v></c>",
    }
    changes = {
        place(columns, name, NEW_ROW): swapped("/>", content) for name, content in row.items()
    }
    report = audit_real(edit_cells(drop_stored(season[ENGLISH]), changes))
    assert [str(fault) for fault in report.faults] == []
    assert tell_others(report) == {}


def is_right(column: Column, stored: object) -> bool:
    """Tell whether a cell shows a number, or a word that has another one after it."""
    return isinstance(stored, float) or stored in {
        word.pick("en") for word in column.record.words[:-1]
    }


def add_one(column: Column, formula: str) -> Callable[[str], str]:
    """Return what makes a cell show one more, or the next word."""
    words = formula.replace("_words,", "_words,1+") if column.words else f"{formula}+1"
    return lambda cell: WORKED.sub(f"<f>{escape(words.removeprefix('='))}</f>", cell)


def test_wrong_formula_of_this_very_edition_is_caught_in_each_compared_column(
    spec: Spec, season, book: Book, columns, tmp_path: Path
) -> None:
    # the pristine workbook is as wrong as the other, so that only the reference can tell
    compared = Calculator(spec).work_out({}, {}).columns
    places: dict[str, str] = {}
    for name, column in columns.items():
        if column.source in compared and column.record.reference + column.grid.reference:
            first = 2 if len(column.cells) > 3 else 0  # formulas below it may be shared
            shown = [c for c in column.cells[first:] if is_right(column, book.cells[c].stored)]
            places |= {name: shown[len(places) % len(shown)]} if shown else {}
    changes = {
        place: add_one(columns[name], book.cells[place].formula) for name, place in places.items()
    }
    wrong = drop_stored(edit_cells(season[ENGLISH], changes))
    path = tmp_path / "back.xlsx"
    path.write_bytes(wrong)
    report = audit_file(path, spec, lambda *_: wrong, deep=False)
    caught = {fault.cell for fault in report.faults if "(Python reference)" in fault.text}
    assert len(places) > 50
    assert {name for name, place in places.items() if place not in caught} == set()
