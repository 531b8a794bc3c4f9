"""Writes the fleet workbook: machines to call first, charts of their flow, and the tables."""

from collections.abc import Iterator
from pathlib import Path

import xlsxwriter
from xlsxwriter.exceptions import FileCreateError
from xlsxwriter.utility import quote_sheetname
from xlsxwriter.worksheet import Worksheet

from builder.collection.fleet_charts import MOST_CHARTS, FlowSheet
from builder.collection.fleet_points import CHOICE, Area, Charted, PointsSheet
from builder.collection.fleet_sheet import Counts, FleetSheet
from builder.collection.fleet_words import Wording
from builder.collection.sheets import TableSheets
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
        for name in store.tables.list_columns():
            write_table(workbook, store, wording, name)
        write_flows(workbook, flow, store, wording)
        close(workbook)


def close(workbook: xlsxwriter.Workbook) -> None:
    """Write the file; what the package cannot write is an error like any other file's."""
    try:
        workbook.close()
    except FileCreateError as error:
        raise OSError(str(error)) from error


def write_table(workbook: xlsxwriter.Workbook, store: Store, wording: Wording, name: str) -> None:
    """Write one table."""
    columns = store.tables.list_columns()[name]
    title, footer = wording.say(f"fleet_{name}_sheet"), wording.say("page")
    sheets = TableSheets(workbook, name, title, columns, footer)
    for _, frame in store.read_frames(name):
        sheets.write(frame)
    sheets.end_sheet()


def write_flows(
    workbook: xlsxwriter.Workbook, sheet: Worksheet, store: Store, wording: Wording
) -> None:
    """Write the points of all machines, and draw the charts."""
    flows = FlowSheet(workbook, sheet, wording)
    machines, most = store.count_flows()
    if not machines:
        flows.write_nothing()
        return
    area = Area(wording.say("fleet_points_sheet"), machines, most)
    chooser = f"{quote_sheetname(sheet.get_name())}!{CHOICE}"
    points = PointsSheet(workbook, area, wording).write(find_charted(store, wording), chooser)
    drawn: list[Charted] = []
    for machine in points:
        if len(drawn) < MOST_CHARTS:
            drawn.append(machine)
    flows.draw(drawn, area)


def find_charted(store: Store, wording: Wording) -> Iterator[Charted]:
    """Yield the machines that have at least two points of flow, the most urgent first."""
    for number, call in enumerate(store.read_calls(), start=1):
        points = store.read_flows(call.book)
        if len(points) > 1:
            name = wording.name(call.producer, call.site, call.machine)
            yield Charted(number, name, points)
