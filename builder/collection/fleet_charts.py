"""Draws the corrected flow of machines against their hours run."""

from dataclasses import dataclass

import xlsxwriter
from xlsxwriter.chart import Chart
from xlsxwriter.worksheet import Worksheet

from builder.collection.fleet_words import Wording
from builder.collection.sheets import Span, set_up_print
from builder.collection.tables import Columns
from builder.write.looks import BAR, BASE, INK, LOOKS

MOST_CHARTS = 60
ACROSS, COLUMNS, ROWS = 2, 7, 15  # charts beside each other; cells from one chart to the next
SIZE = {"width": 440, "height": 290}
PAGE = 2  # rows of charts on a page
SCALE = 85  # per cent: two charts fit beside each other whatever font a program has
# The file library takes a title such as x!A1 for a reference; nobody sees a word joiner.
UNREFERRING = "!\u2060"
X, Y = "run_hours_h", "corrected_pct"


@dataclass(frozen=True, slots=True)
class Charted:
    """A machine with its number on the fleet sheet and its points of hours and flow."""

    book: int
    number: int
    name: str
    points: list[tuple[float, float]]


def draw_charts(
    workbook: xlsxwriter.Workbook,
    sheet: Worksheet,
    charted: list[Charted],
    spans: dict[int, Span],
    columns: Columns,
    wording: Wording,
) -> None:
    """Draw a chart for each machine, from the rows of its events."""
    title = workbook.add_format({**BASE, **LOOKS["title"]})
    sheet.write_string(0, 0, wording.say("fleet_percent"), title)
    if not charted:
        sheet.write_string(1, 0, wording.say("fleet_no_charts"))
    for place, machine in enumerate(charted):
        row, col = divmod(place, ACROSS)
        chart = make_chart(workbook, machine, wording)
        chart.add_series(describe_series(spans[machine.book], columns))
        where = {"description": describe(machine, wording), "y_offset": 4}
        sheet.insert_chart(1 + row * ROWS, col * COLUMNS, chart, where)
    set_up_print(sheet, wording.say("page"))
    sheet.set_print_scale(SCALE)
    pages = range(1, -(-len(charted) // (ACROSS * PAGE)))
    sheet.set_h_pagebreaks([1 + page * PAGE * ROWS for page in pages])


def describe_series(span: Span, columns: Columns) -> dict[str, object]:
    """Return where the points of a chart stand, and how they look."""
    x, y = (list(columns).index(name) for name in (X, Y))
    return {
        "categories": [span.sheet, span.first, x, span.last, x],
        "values": [span.sheet, span.first, y, span.last, y],
        "line": {"color": BAR, "width": 1.75},
        "marker": {"type": "circle", "size": 5, "fill": {"color": BAR}},
    }


def make_chart(workbook: xlsxwriter.Workbook, machine: Charted, wording: Wording) -> Chart:
    """Return the chart of one machine, without its points."""
    chart = workbook.add_chart({"type": "scatter", "subtype": "straight_with_markers"})
    font = {"size": 9, "bold": False, "color": INK}
    title = f"{machine.number}. {machine.name}".replace("!", UNREFERRING)
    chart.set_title({"name": title, "name_font": {"size": 11, "color": INK}})
    chart.set_x_axis({"name": wording.say("fleet_hours"), "name_font": font, "min": 0})
    chart.set_y_axis({"name": wording.say("fleet_percent"), "name_font": font, "min": 0})
    chart.set_legend({"none": True})
    chart.show_blanks_as("span")
    chart.set_size(SIZE)
    return chart


def describe(machine: Charted, wording: Wording) -> str:
    """Return a chart in words, for those who cannot see it."""
    (start, first), (end, last) = machine.points[0], machine.points[-1]
    parts = {
        "from": wording.show(start, 0),
        "to": wording.show(end, 0),
        "first": wording.show(first, 1),
        "last": wording.show(last, 1),
    }
    count = len(machine.points)
    return wording.say("fleet_alt", machine=machine.name, count=count, **parts)
