"""Whole workbooks with every cell filled: all arrives, or is told, cell by cell."""

import io
import re
import subprocess
from dataclasses import replace
from datetime import datetime

import openpyxl
import pytest
from openpyxl.utils.datetime import to_excel
from workbook.tools import require

from builder.exchange.demo import read_demo
from builder.exchange.machine import Machine, canonical
from builder.plan.layout import plan_book
from builder.production import build_workbook, shorten
from builder.renewal.renewal import renew
from builder.spec.load import find_specs, load_spec

MANY = 500
JUNK = ("words", 7.25, "=1+1", True, datetime(2026, 3, 14))
NAMED = re.compile(r".*(_typed|_typed_unit|_list)")
TOLD = re.compile(r"dropped: ([^!:]+![A-Z]+\d+)\b")


def list_unlocked(data):
    """Return what stands in each cell that people may type in, days as numbers."""
    book = openpyxl.load_workbook(io.BytesIO(data))
    return {
        f"{sheet.title}!{cell.coordinate}": to_excel(v) if isinstance(v, datetime) else v
        for sheet in book.worksheets
        for row in sheet.iter_rows()
        for cell in row
        if not cell.protection.locked
        for v in [cell.value]
    }


def find_typed(spec, lang, units):
    """Return sheet and cell of each planned cell for typing, with the words it offers."""
    book = plan_book(spec, read_demo(spec), lang, units, {})
    written = {(s.title, c.row, c.col): c.text for s in book.sheets for c in s.cells}
    for sheet in book.sheets:
        for cell in sheet.cells:
            area = book.names.get(cell.validation.source) if cell.validation else None
            rows = range(area.row, area.last_row + 1) if area else ()
            yield sheet.title, cell, [written[area.sheet, row, area.col] for row in rows]


def fill(data, spec, lang, units):
    """Return a workbook with each cell filled as its drop-down, its look or its kind asks."""
    book = openpyxl.load_workbook(io.BytesIO(data))
    typed = [found for found in find_typed(spec, lang, units) if found[1].typed]
    for number, (title, cell, words) in enumerate(typed):
        value = {"typed": round(1.37 + number / 100, 2), "typed_date": 46400 + number % 60}
        filled = words[number % len(words)] if words else value.get(cell.look, f"word {number}")
        book[title].cell(cell.row + 1, cell.col + 1).value = filled
    return save(book)


def spoil(data):
    """Return a workbook in which no cell for typing holds what it should."""
    book = openpyxl.load_workbook(io.BytesIO(data))
    cells = [
        cell
        for sheet in book.worksheets
        for row in sheet.iter_rows()
        for cell in row
        if not cell.protection.locked
    ]
    for number, cell in enumerate(cells):
        cell.value = JUNK[number % len(JUNK)]
    return save(book)


def save(book):
    target = io.BytesIO()
    book.save(target)
    return target.getvalue()


def renew_data(data, spec, tmp_path):
    path = tmp_path / "old.xlsx"
    path.write_bytes(data)
    return renew(path, spec, lambda *_: set(list_cells(data)))


def list_cells(data):
    book = openpyxl.load_workbook(io.BytesIO(data), read_only=False)
    cells = (cell for sheet in book.worksheets for row in sheet.iter_rows() for cell in row)
    return (f"{cell.parent.title}!{cell.coordinate}" for cell in cells)


@pytest.fixture(scope="module")
def long_spec():
    return load_spec(find_specs())


@pytest.fixture(scope="module")
def spec(long_spec):
    """Return the specs with short grids: every kind of cell, few of a kind."""
    return shorten(long_spec)


@pytest.fixture(scope="module")
def fresh(spec):
    return build_workbook(spec, read_demo(spec), "fr", "us")


@pytest.fixture(scope="module")
def full(spec, fresh):
    return fill(fresh, spec, "fr", "us")


@pytest.fixture(scope="module")
def renewal(spec, full, tmp_path_factory):
    """Return what is carried from the workbook with every cell filled."""
    return renew_data(full, spec, tmp_path_factory.mktemp("full"))


@pytest.mark.parametrize(("lang", "units"), [("en", "metric"), ("fr", "imperial")])
def test_a_name_leads_to_every_cell_for_typing(spec, lang, units):
    book = plan_book(spec, read_demo(spec), lang, units, {})
    named = {
        (area.sheet, row, area.col)
        for name, area in book.names.items()
        if NAMED.fullmatch(name)
        for row in range(area.row, area.last_row + 1)
    }
    typed = {(s.title, cell.row, cell.col) for s in book.sheets for cell in s.cells if cell.typed}
    assert typed - named == set()
    assert {"startup_shaft_done_typed", "record_edition_typed"} <= set(book.names)


def test_fresh_workbook_is_renewed_to_the_very_same_bytes(spec, fresh, tmp_path):
    renewal = renew_data(fresh, spec, tmp_path)
    assert renewal.notes == []
    assert build_workbook(spec, renewal.machine, renewal.lang, renewal.units) == fresh


def test_every_filled_cell_arrives_as_it_was_typed(spec, full, renewal):
    renewed = build_workbook(spec, renewal.machine, renewal.lang, "us")
    before, after = list_unlocked(full), list_unlocked(renewed)
    assert [note for note in renewal.notes if note.fate == "dropped"] == []
    assert len(before) > MANY
    assert None not in before.values()
    assert {place: (v, after[place]) for place, v in before.items() if v != after[place]} == {}


def test_every_spoiled_cell_arrives_or_is_told(spec, fresh, tmp_path):
    spoiled = spoil(fresh)
    renewal = renew_data(spoiled, spec, tmp_path)
    renewed = build_workbook(spec, renewal.machine, renewal.lang, "us")
    before, after = list_unlocked(spoiled), list_unlocked(renewed)
    told = {match[1] for note in renewal.notes if (match := TOLD.match(str(note)))}
    kept = {place for place, value in before.items() if is_kept(value, after[place])}
    assert {place: (before[place], after[place]) for place in before.keys() - kept - told} == {}
    assert len(kept | told) == len(before) > MANY
    assert {before[place] for place in told} >= {"words", "=1+1", True}
    assert {"2026-03-14", "TRUE"} <= set(after.values())


def is_kept(before, after):
    """Tell whether a value arrived, in a cell for words as words."""
    as_words = {7.25: "7.25", True: "TRUE", to_excel(datetime(2026, 3, 14)): "2026-03-14"}
    return after is not None and after in (before, as_words.get(before))


def test_rows_beyond_the_grid_are_told(spec, full, tmp_path):
    rows = spec.quantities["log"].rows - 1
    log = replace(spec.quantities["log"], rows=rows)
    spec = replace(spec, quantities={**spec.quantities, "log": log})
    renewal = renew_data(full, spec, tmp_path)
    dropped = [str(note) for note in renewal.notes if note.fate == "dropped"]
    entered = [c for c in log.columns if spec.quantities[c].entry]
    assert len(renewal.machine.entries["log"]) == rows
    assert len(dropped) == len(entered)
    assert all(f" row {rows + 1}: " in line for line in dropped)
    assert all(line.endswith(f": this edition has {rows} rows") for line in dropped)


def test_machine_is_the_same_after_a_turn_through_the_other_language(spec, renewal, tmp_path):
    machine = renewal.machine
    english = build_workbook(spec, machine, "en", "us")
    again = renew_data(english, spec, tmp_path).machine
    assert again == replace(machine, given=again.given)
    assert canonical(again, spec) == canonical(machine, spec)


def test_office_program_and_its_own_format_change_nothing(spec, full, renewal, tmp_path):
    require("soffice")
    (tmp_path / "full.xlsx").write_bytes(full)
    profile = f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}"
    for source, ending, folder in (("full.xlsx", "ods", "."), ("full.ods", "xlsx", "back")):
        command = ["soffice", profile, "--headless", "--convert-to", ending, "--outdir", folder]
        subprocess.run([*command, source], cwd=tmp_path, check=True, capture_output=True)
    back = (tmp_path / "back" / "full.xlsx").read_bytes()
    assert renew_data(back, spec, tmp_path).machine == renewal.machine


@pytest.mark.parametrize("marked", [True, False])
def test_a_renewed_book_is_an_example_where_the_older_one_was(tmp_path, marked):
    spec, path = shorten(load_spec(find_specs())), tmp_path / "old.xlsx"
    path.write_bytes(build_workbook(spec, Machine(example=marked), "en", "metric"))
    assert renew(path, spec, lambda *_: set()).machine.example is marked
