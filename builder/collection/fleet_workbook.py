"""Writes the fleet workbook: machines to call first, charts of their flow, and the tables."""

from collections.abc import Iterator
from itertools import islice
from pathlib import Path

import xlsxwriter
from xlsxwriter.exceptions import FileCreateError

from builder.collection.fleet_charts import MOST_CHARTS, Charted, draw_charts
from builder.collection.fleet_sheet import Counts, FleetSheet
from builder.collection.fleet_words import Wording
from builder.collection.sheets import Span, TableSheets
from builder.collection.store import Store
from builder.exchange.output import replace_whole

OPTIONS = {
    "constant_memory": True,
    "strings_to_formulas": False,
    "strings_to_urls": False,
    "strings_to_numbers": False,
}
AUTHOR = "rinsebook"


def write_xlsx(out: Path, store: Store, wording: Wording, counts: Counts) -> None:
    """Write the fleet workbook whole or not at all, row by row."""
    with replace_whole([out]) as (aside,):
        aside.touch()  # told now, not after all tables, where this is no place to write
        workbook = xlsxwriter.Workbook(aside, {**OPTIONS, "tmpdir": aside.parent})
        workbook.set_properties({"title": wording.say("fleet_title"), "author": AUTHOR})
        workbook.set_custom_property("language", wording.lang, "text")
        fleet = workbook.add_worksheet(wording.say("fleet_sheet"))
        flow = workbook.add_worksheet(wording.say("fleet_flow_sheet"))
        FleetSheet(workbook, fleet, wording).write(store, counts)
        charted = list(islice(find_charted(store, wording), MOST_CHARTS))
        wanted = {chart.book for chart in charted}
        spans: dict[int, Span] = {}
        for name in store.tables.list_columns():
            spans |= write_table(workbook, store, wording, name, wanted)
        draw_charts(workbook, flow, charted, spans, store.tables.events, wording)
        close(workbook)


def close(workbook: xlsxwriter.Workbook) -> None:
    """Write the file; what the package cannot write is an error like any other file's."""
    try:
        workbook.close()
    except FileCreateError as error:
        raise OSError(str(error)) from error


def write_table(
    workbook: xlsxwriter.Workbook, store: Store, wording: Wording, name: str, wanted: set[int]
) -> dict[int, Span]:
    """Write one table, and return where the events of wanted books stand."""
    columns = store.tables.list_columns()[name]
    title, footer = wording.say(f"fleet_{name}_sheet"), wording.say("page")
    sheets = TableSheets(workbook, name, title, columns, footer)
    for _, frame in store.read_frames(name):
        sheets.write(frame, wanted)
    sheets.end_sheet()
    return sheets.spans if name == "events" else {}


def find_charted(store: Store, wording: Wording) -> Iterator[Charted]:
    """Yield the machines that have at least two points of flow, the most urgent first."""
    for number, call in enumerate(store.read_calls(), start=1):
        points = store.read_flows(call.book)
        if len(points) > 1:
            name = wording.name(call.producer, call.site, call.machine)
            yield Charted(call.book, number, name, points)
