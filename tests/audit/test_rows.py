"""Typed rows of a grid: read as they are, with a warning for what cannot be used."""

from dataclasses import replace

import pytest

from audit.small import PLACE, small_spec, text
from builder.audit.cases import Column, find_columns, find_unnamed, list_cells
from builder.audit.inputs import Reader
from builder.audit.readback import find_places
from builder.audit.rows import list_unused, read_entries
from builder.spec.records import Grid, Limits, Record, Text
from builder.spec.specification import Spec

WORDS = {
    "run": Text({"en": "run", "fr": "marche"}),
    "wash": Text({"en": "alkaline wash", "fr": "lavage alcalin"}),
}
DAYS = Limits(40000, 80000)
RECORDS = {
    record.name: record
    for record in (
        Record(name="bore_mm", place=PLACE, label=text("Bore"), unit="mm", entry="number"),
        Record(name="event", place=PLACE, label=text("Event"), entry="choice", options=WORDS),
        Record(name="day_d", place=PLACE, label=text("Day"), unit="n", entry="date", limits=DAYS),
        Record(name="note", place=PLACE, label=text("Note"), entry="text"),
    )
}
RECORDS["bore_mm"] = replace(RECORDS["bore_mm"], limits=Limits(0, 1000), unit_of="unit")
LOG = Grid(name="log", place=PLACE, label=text("Log"), rows=3, columns=list(RECORDS))
USED = Record(name="used_mm", place=PLACE, label=text("Used"), used="bore_mm")
SOURCE = "row_used_mm_list"


def read(name: str, typed: list[object], used: list[object] | None = None, lang: str = "en"):
    """Return what a column says, row by row, and the warnings; `used` as the reference says."""
    cells = [f"Log!B{row}" for row in range(10, 10 + len(typed))]
    columns = [Column(LOG, RECORDS[name], cells), Column(LOG, USED, [], SOURCE)]
    reader = Reader(small_spec(), lang, dict(zip(cells, typed, strict=True)))
    entries, warnings = read_entries(reader, columns)
    warnings += list_unused(reader, columns, {} if used is None else {SOURCE: used})
    return [row.get(name) for row in entries["log"]], [str(warning) for warning in warnings]


@pytest.mark.parametrize(
    ("name", "lang", "typed", "expected"),
    [
        ("bore_mm", "en", [50.0, None, 0.0], [50.0, None, 0.0]),
        ("event", "en", ["run", None, "Alkaline Wash"], ["run", None, "wash"]),
        ("event", "fr", ["marche", "lavage alcalin", "wash"], ["run", "wash", "wash"]),
        ("day_d", "en", [46451.0, None, 46451.5], [46451.0, None, 46451.5]),
        ("note", "en", ["tank ran dry", None, 12.0], ["tank ran dry", None, 12.0]),
    ],
)
def test_usable_rows_leave_no_word(name, lang, typed, expected) -> None:
    assert read(name, typed, lang=lang) == (expected, [])


@pytest.mark.parametrize(
    ("name", "typed", "warning"),
    [
        ("bore_mm", "8,5", "typed value, found text '8,5', expected a number, 0 to 1000 mm"),
        ("bore_mm", True, "typed value, found True, expected a number, 0 to 1000 mm"),
        ("event", "lunch", "choice, found text 'lunch', expected run, alkaline wash"),
        ("event", 3.0, "choice, found 3.0, expected run, alkaline wash"),
        (
            "day_d",
            "5 March",
            "typed value, found text '5 March', expected a date, 2009-07-06 to 2119-01-11",
        ),
    ],
)
def test_unusable_cell_stays_as_it_is_with_a_warning_at_its_row(name, typed, warning) -> None:
    assert read(name, [None, typed]) == ([None, typed], [f"Log!B11 log_{name} row 2: {warning}"])


@pytest.mark.parametrize(
    ("name", "typed", "warning"),
    [
        ("bore_mm", 1040.0, "found 1040 in the units of its line, expected 0 to 1000 mm"),
        ("bore_mm", -1.0, "found -1 in the units of its line, expected 0 to 1000 mm"),
        ("day_d", 5.0, "found 5, expected 2009-07-06 to 2119-01-11"),
    ],
)
def test_number_outside_its_limits_is_not_used(name, typed, warning) -> None:
    found, warnings = read(name, [typed])
    assert found == [typed]
    assert warnings == [f"Log!B10 log_{name} row 1: typed value, {warning}; not used"]


def test_number_is_judged_as_its_row_uses_it_in_the_units_of_its_line() -> None:
    assert read("bore_mm", [1040.0, None], [10.4, None]) == ([1040.0, None], [])
    _, warnings = read("bore_mm", [40.0], ["x"])
    (warning,) = warnings
    assert warning.endswith("found 40 in the units of its line, expected 0 to 1000 mm; not used")


@pytest.mark.parametrize(
    ("target", "cells"),
    [
        ("Log!$B$10:$B$12", ["Log!B10", "Log!B11", "Log!B12"]),
        ("Log!B5", ["Log!B5"]),
        ("It's!$AA$9:$AA$10", ["It's!AA9", "It's!AA10"]),
    ],
)
def test_area_of_a_name_is_its_cells_from_the_top(target: str, cells: list[str]) -> None:
    assert list_cells(target) == cells


def log_spec() -> Spec:
    spec = small_spec()
    return replace(spec, quantities={**spec.quantities, **RECORDS, "log": LOG})


def test_typed_column_that_no_name_finds_is_a_fault() -> None:
    names = {"log_bore_mm_list": "Log!$A$2:$A$4", "log_event_list": "Log!$B$2:$B$4"}
    assert [column.name for column in find_columns(log_spec(), names)] == [
        "log_bore_mm",
        "log_event",
    ]
    missing = [finding.name for finding in find_unnamed(log_spec(), names)]
    assert [name for name in missing if name.startswith("log_")] == [
        "log_day_d_list",
        "log_note_list",
    ]


def test_columns_of_other_lengths_are_read_as_far_as_they_go() -> None:
    names = {"log_event_list": "Log!$B$2:$B$3", "log_day_d_list": "Log!$A$2:$A$6"}
    places = find_places(log_spec(), names)
    shown = {"Log!A6": 46451.0, "Log!B2": "run"}
    entries, warnings = read_entries(Reader(places.spec, "en", shown), places.columns)
    assert warnings == []
    assert (entries["log"][0]["event"], entries["log"][4]["day_d"]) == ("run", 46451.0)
    assert places.spec.quantities["log"].rows == 5
