"""Draws the charts of a plan."""

import xlsxwriter

from builder.plan.cells import Picture
from builder.write.looks import SERIES

SIZE = {"width": 820, "height": 380}


def insert_picture(
    workbook: xlsxwriter.Workbook, worksheet: xlsxwriter.worksheet.Worksheet, picture: Picture
) -> None:
    """Insert one chart below its row, with words for those who cannot see it."""
    bars = picture.type == "bars"
    kind = {"type": "bar"} if bars else {"type": "scatter", "subtype": "straight"}
    chart = workbook.add_chart(kind)
    for line in picture.lines:
        look = SERIES[line.look]
        settings: dict[str, object] = {
            "categories": f"={line.x.address}",
            "values": f"={line.y.address}",
            **look,
        }
        if bars:
            settings |= {"fill": {"color": SERIES["main"]["line"]["color"]}, "gap": 40}
            settings["data_labels"] = {"value": True, "num_format": "0.0"}
        else:
            settings["name"] = line.name
            settings.setdefault("line", {"none": True})
            settings.setdefault("marker", {"type": "none"})
        chart.add_series(settings)
    x_axis: dict[str, object] = {"name": picture.x_title, "num_format": "0"}
    y_axis: dict[str, object] = {"name": picture.y_title, "num_format": "0.0"}
    if picture.x_range:
        x_axis |= {"min": picture.x_range[0], "max": picture.x_range[1], "crossing": 0}
    if picture.y_range:
        y_axis |= {"min": picture.y_range[0], "max": picture.y_range[1]}
        x_axis["label_position"] = "low"
    if bars:
        chart.set_x_axis(x_axis | {"min": 0})
        chart.set_y_axis({"reverse": True})
        chart.set_legend({"none": True})
    else:
        chart.set_x_axis(x_axis)
        chart.set_y_axis(y_axis | {"crossing": picture.y_range[0]})
        chart.set_legend({"position": "bottom"})
    chart.set_size(SIZE)
    worksheet.insert_chart(
        picture.row, 0, chart, {"description": picture.alt, "x_offset": 8, "y_offset": 6}
    )
