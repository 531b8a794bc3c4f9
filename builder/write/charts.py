"""Draws the charts of a plan."""

import xlsxwriter

from builder.plan.cells import Line, Picture
from builder.plan.lettering import FONT
from builder.write.looks import SERIES

SIZE = {"width": 820, "height": 380}
TITLE_FONT = {"name": FONT, "size": 12, "bold": True}
KINDS: dict[str, dict[str, str]] = {
    "bars": {"type": "bar"},
    "columns": {"type": "column"},
    "curve": {"type": "scatter", "subtype": "straight"},
}


def insert_picture(
    workbook: xlsxwriter.Workbook, worksheet: xlsxwriter.worksheet.Worksheet, picture: Picture
) -> None:
    """Insert one chart below its row, with words for those who cannot see it."""
    chart = workbook.add_chart(KINDS[picture.type])
    for line in picture.lines:
        chart.add_series(describe_series(picture, line))
    chart.set_title({"name": picture.title, "name_font": TITLE_FONT})
    x_axis = {"name": picture.x_title, "num_format": "0", "label_position": "low"}
    y_axis: dict[str, object] = {"name": picture.y_title, "num_format": "0"}
    if picture.type == "bars":
        chart.set_x_axis({**x_axis, "min": 0})
        chart.set_y_axis({"reverse": True})
        chart.set_legend({"none": True})
    else:
        chart.set_x_axis(x_axis | limit(picture.x_range))
        chart.set_y_axis(y_axis | limit(picture.y_range))
        chart.set_legend({"position": "bottom"})
    chart.set_size(SIZE)
    place = {"description": picture.alt, "x_offset": 8, "y_offset": 6}
    worksheet.insert_chart(picture.row, 0, chart, place)


def limit(numbers: list[float]) -> dict[str, object]:
    """Return the ends of an axis; the other axis crosses at the first."""
    ends = dict(zip(("min", "max"), numbers, strict=False))
    return {**ends, "crossing": numbers[0]} if numbers else {}


def describe_series(picture: Picture, line: Line) -> dict[str, object]:
    """Return what the file library needs to know of one series."""
    look = SERIES[line.look]
    settings: dict[str, object] = {
        "categories": f"={line.x.address}",
        "values": f"={line.y.address}",
    }
    if line.name:
        settings["name"] = line.name
    if picture.type == "curve":
        return {"line": {"none": True}, "marker": {"type": "none"}, **settings, **look}
    settings |= {"fill": {"color": look["line"]["color"]}, "gap": 40}
    if picture.type == "bars":
        settings["data_labels"] = {"value": True, "num_format": "0.0"}
    return settings
