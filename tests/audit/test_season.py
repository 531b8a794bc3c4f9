"""The season log typed in: every row agrees with the reference, and one change in one row shows."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from reference.season import TODAY, make_season

from audit.edits import drop_stored, edit_cells, swapped, type_cells
from builder.audit.book import Book, read_book
from builder.audit.cases import Column, find_columns
from builder.audit.findings import Report
from builder.audit.reference import find_source
from builder.audit.report import audit_file
from builder.exchange.machine import Machine, Typed
from builder.production import build_workbook
from builder.spec.records import Choice, Input
from builder.spec.specification import Spec

Audit = Callable[[bytes], Report]
ELEMENTS = [{"reading_brix": reading} for reading in (0.05, 0.15, None, 0.9)]
ENGLISH, FRENCH = ("en", "metric"), ("fr", "us")
UNSTORED = "no stored values: open the file in a spreadsheet program and save it there"
NEW_ROW = 150
WASHED = re.compile("log_(day|begin|finish|rinse)_")  # columns that a wash fills


@pytest.fixture(scope="module")
def season(spec: Spec) -> dict[tuple[str, str], bytes]:
    given = {}
    for name, value in {**TODAY, "sugar_zero_brix": 0.02}.items():
        quantity = spec.quantities[name]
        if isinstance(quantity, Choice):
            given[name] = Typed(None, str(value), "")
        elif isinstance(quantity, Input):
            given[name] = Typed(float(value), str(value), quantity.unit)
    machine = Machine(given=given, entries={"log": make_season(), "elements": ELEMENTS})
    return {pair: build_workbook(spec, machine, *pair) for pair in (ENGLISH, FRENCH)}


@pytest.fixture(scope="module")
def book(season) -> Book:
    return read_book(Path("season.xlsx"), season[ENGLISH])


@pytest.fixture(scope="module")
def columns(spec: Spec, book: Book):
    return {column.name: column for column in find_columns(spec, book.names)}


def place(columns, name: str, row: int) -> str:
    return columns[name].cells[row - 1]


def find_row(event: str, number: int) -> int:
    """Return the row of the log, from 1, that holds an event for the n-th time."""
    rows = [row for row, typed in enumerate(make_season(), start=1) if typed["event"] == event]
    return rows[number - 1]


@pytest.mark.parametrize("pair", [ENGLISH, FRENCH])
def test_season_typed_in_has_no_finding_and_every_formula_agrees(season, audit_real, pair) -> None:
    report = audit_real(season[pair])
    assert [str(finding) for finding in [*report.faults, *report.warnings]] == []
    assert report.agree == report.formulas > 9000


def test_changed_formula_and_changed_stored_value_are_placed_by_column_and_row(
    season, columns, audit_real: Audit
) -> None:
    formula, value = place(columns, "log_short_L", 137), place(columns, "log_rank_n", 5)
    changes = {formula: swapped("&gt;", "&lt;"), value: swapped("<v>", "<v>7")}
    faults = [str(fault) for fault in audit_real(edit_cells(season[ENGLISH], changes)).faults]
    assert [fault.split(", found")[0] for fault in faults] == [
        f"{formula} log_short_L row 137: formula",
        f"{value} log_rank_n row 5: value",
    ]
    assert faults[1].endswith("found 71, expected 1 (ironcalc)")


def test_text_in_any_number_or_date_is_a_warning_and_no_fault(
    season, columns, audit_real: Audit
) -> None:
    typed = {}
    for name, column in columns.items():
        if column.record.entry in {"number", "date"}:
            event = "alkaline" if WASHED.search(name) else "run"
            row = 2 if column.grid.name == "elements" else find_row(event, len(typed) % 12 + 1)
            typed[column.cells[row - 1]] = f"{name} row {row}"
    report = audit_real(type_cells(season[ENGLISH], dict.fromkeys(typed, "unclear")))
    assert [str(fault) for fault in report.faults] == []
    assert str(report.warnings[0]) == UNSTORED
    assert {warning.cell: warning.name for warning in report.warnings[1:]} == typed
    assert all("found text 'unclear'" in warning.text for warning in report.warnings[1:])


def test_odd_word_unit_or_number_is_a_warning_and_no_fault(
    season, columns, audit_real: Audit
) -> None:
    doubtful = {
        place(columns, "log_event", find_row("run", 9)): "lunch",
        place(columns, "log_hours_h", find_row("run", 11)): 60,
        columns["log_feed_bar"].unit_cell: "bark",
    }
    sound = {
        place(columns, "log_event", find_row("run", 10)): "RUN",
        place(columns, "log_product", find_row("run", 10)): 12,
    }
    report = audit_real(type_cells(season[ENGLISH], doubtful | sound))
    assert [str(fault) for fault in report.faults] == []
    assert {warning.cell for warning in report.warnings[1:]} == set(doubtful)


def test_row_typed_in_the_file_itself_is_judged(season, columns, audit_real: Audit) -> None:
    row = {
        "log_day_d": "><v>46520</v></c>",
        "log_event": ' t="inlineStr"><is><t>alkaline wash</t></is></c>',
        "log_begin_pH": "><v>11.3</v></c>",
        "log_finish_pH": "><v>10.1</v></c>",
        "log_rinse_L": "><v>200</v></c>",
    }
    changes = {
        place(columns, name, NEW_ROW): swapped("/>", content) for name, content in row.items()
    }
    report = audit_real(edit_cells(drop_stored(season[ENGLISH]), changes))
    assert [str(fault) for fault in report.faults] == []
    assert [str(warning) for warning in report.warnings] == [UNSTORED]


def is_right(column: Column, stored: object) -> bool:
    """Tell whether a cell shows a number, or a word that has another one after it."""
    return isinstance(stored, float) or stored in {
        word.pick("en") for word in column.record.words[:-1]
    }


def test_wrong_formula_of_this_very_edition_is_caught_in_each_compared_column(
    spec: Spec, season, book: Book, columns, tmp_path: Path
) -> None:
    # the pristine workbook is as wrong as the other, so that only the reference can tell
    candidates = {
        name: [
            row
            for row, cell in enumerate(column.cells)
            if is_right(column, book.cells[cell].stored)
        ]
        for name, column in columns.items()
        if find_source(column)
    }
    places: dict[str, str] = {}
    used: set[tuple[str, int]] = set()
    shown = [(name, rows) for name, rows in candidates.items() if rows]  # texts are no numbers
    for name, rows in sorted(shown, key=lambda item: len(item[1])):
        grid = columns[name].grid.name
        row = next(row for row in rows if (grid, row) not in used)
        used.add((grid, row))
        places[name] = columns[name].cells[row]
    changes = {
        place: swapped("_words,", "_words,1+")
        if columns[name].record.words
        else swapped("</f>", "+1</f>")
        for name, place in places.items()
    }
    wrong = drop_stored(edit_cells(season[ENGLISH], changes))
    path = tmp_path / "back.xlsx"
    path.write_bytes(wrong)
    report = audit_file(path, spec, lambda *_: wrong, deep=False)
    caught = {fault.cell for fault in report.faults if "(Python reference)" in fault.text}
    assert len(places) > 20
    assert set(places.values()) - caught == set()
