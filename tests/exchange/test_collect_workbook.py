import datetime

import openpyxl
import pytest
import xlsxwriter

from builder.collection.sheets import TableSheets
from builder.collection.store import open_store
from exchange.collected import DAY, FAULT, Sample, flows, refusal, run

HOSTILE = "=cmd|'/c calc'!A0"
ENGLISH = ["fleet", "flow", "machines", "events", "findings"]
FRENCH = ["parc", "débit", "machines", "événements", "constats"]


@pytest.mark.parametrize(("lang", "titles"), [("en", ENGLISH), ("fr", FRENCH)])
def test_fleet_comes_first_and_the_tables_last(shelf, write, lang, titles):
    shelf.put("a.xlsx", Sample())
    book = openpyxl.load_workbook(write(lang))
    assert book.sheetnames == titles
    assert book.active.title == titles[0]


def test_fleet_tells_whom_to_call_why_and_which_number_to_check(shelf, write):
    short = {"event": "alkaline", "left_L": 120.0, "low_margin_pH": -0.25}
    shelf.put("a.xlsx", Sample(rows=[run(0, tested_pct=93.5), {"day_d": DAY + 1, **short}]))
    shelf.put("b.xlsx", Sample(title="silent"))
    shelf.put("c.xlsx", Sample(error=refusal(str(shelf.folder / "c.xlsx"))))
    sheet = openpyxl.load_workbook(write())["fleet"]
    assert sheet["A1"].value == "Fleet: producers to call first"
    assert sheet["A2"].value == "Books: 7. Machines: 5. To call first: 3."
    first, unread, silent = (
        [cell.value for cell in row] for row in sheet.iter_rows(min_row=4, max_row=6)
    )
    rinse, floor = "Still 120\u00a0L to rinse", "wash ended 0.25\u00a0pH below the lowest allowed"
    why = f"{rinse}, 2026-03-02; {floor}, 2026-03-02"
    last = datetime.datetime(2026, 3, 2)
    assert first[:10] == [1, "Érablière du Lac", "camp", "RO 1", why, 120, 93.5, -0.25, last, 2]
    assert unread[4] == "Book cannot be read"
    assert (silent[3], silent[4][:19], silent[5:9]) == ("silent", "No entry in the log", [None] * 4)


def test_texts_stay_texts_whatever_they_hold(shelf, write):
    rows = flows(3, note=HOSTILE, letter="http://x", product="12")
    shelf.put("a.xlsx", Sample(title=HOSTILE, producer="{=1+1}", rows=rows, faults=[FAULT]))
    book = openpyxl.load_workbook(write())
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row]
    told = [cell for cell in cells if cell.value == HOSTILE]
    assert {cell.data_type for cell in told} == {"s"}
    assert len(told) == 9  # fleet, machine, 3 events twice, finding
    formulas = [cell for cell in cells if cell.data_type == "f"]
    assert {cell.parent.title for cell in formulas} == {"flow", "flow points"}
    assert not [cell for cell in formulas if "cmd" in cell.value or "1+1" in cell.value]
    assert not [cell for cell in cells if cell.hyperlink]


def test_numbers_are_numbers_and_days_are_dates(shelf, write):
    shelf.put("a.xlsx", Sample(rows=[run(0, hours_h=4.5)], values={"last_wash_d": DAY}))
    book = openpyxl.load_workbook(write())
    for title, expected in (
        ("machines", {"faults": 0, "last_wash_d": datetime.datetime(2026, 3, 1)}),
        ("events", {"hours_h": 4.5, "day_d": datetime.datetime(2026, 3, 1), "sap_L": None}),
    ):
        names, row = list(book[title].iter_rows(values_only=True))[:2]
        found = dict(zip(names, row, strict=True))
        assert {name: found[name] for name in expected} == expected


def test_every_table_has_frozen_headings_a_filter_and_a_print_set_up(shelf, write):
    shelf.put("a.xlsx", Sample(rows=flows(3), faults=[FAULT]))
    book = openpyxl.load_workbook(write())
    for title, pane, area in (
        ("fleet", "E4", "A3:K4"),
        ("machines", "E2", "A1:"),
        ("events", "E2", "A1:"),
        ("findings", "E2", "A1:H2"),
    ):
        sheet = book[title]
        assert (sheet.freeze_panes, sheet.auto_filter.ref.startswith(area)) == (pane, True)
        assert sheet.page_setup.orientation == "landscape"
        assert sheet.print_title_rows is not None
        assert "&P" in sheet.oddFooter.left.text


def test_the_file_tells_its_title_and_no_person(shelf, write):
    shelf.put("a.xlsx", Sample())
    properties = openpyxl.load_workbook(write()).properties
    assert (properties.title, properties.creator) == ("Fleet: producers to call first", "rinsebook")
    assert properties.lastModifiedBy in (None, "rinsebook")


def test_a_full_sheet_goes_on_with_the_next_book_on_a_further_one(shelf, tmp_path):
    for number in range(4):
        shelf.put(f"{number}.xlsx", Sample(title=f"RO {number}", rows=flows(2)))
    path = tmp_path / "book.xlsx"
    with xlsxwriter.Workbook(path, {"constant_memory": True}) as workbook:
        sheets = TableSheets(workbook, "events", "events", shelf.tables.events, "", most_rows=1004)
        with open_store(shelf.tables) as store:
            shelf.fill(store)
            for _, frame in store.read_frames("events"):
                sheets.write(frame)
        sheets.end_sheet()
    book = openpyxl.load_workbook(path)
    assert book.sheetnames == ["events", "events 2"]
    titles = [[row[3] for row in sheet.iter_rows(min_row=2, values_only=True)] for sheet in book]
    assert titles == [["RO 0", "RO 0", "RO 1", "RO 1"], ["RO 2", "RO 2", "RO 3", "RO 3"]]
