"""Charts: bars over a run of results, or a curve from grids."""

from builder.formula.grids import LIST, name_column
from builder.plan.canvas import Canvas
from builder.plan.cells import Area, Line, Picture
from builder.plan.context import Context
from builder.spec.pages import Block, Series

ROWS_OF_PICTURE = 20


def lay_picture(canvas: Canvas, block: Block, context: Context) -> None:
    """Reserve rows for a chart, and remember what it draws."""
    chart = block.chart
    if chart is None:
        return
    lines: list[Line] = []
    if chart.type == "bars":
        first, last = canvas.names[chart.first], canvas.names[chart.last]
        labels = Area(first.sheet, first.row, 0, last.row, 0)
        values = Area(first.sheet, first.row, first.col, last.row, first.col)
        lines.append(Line("", labels, values, "main"))
    canvas.pictures.append(
        Picture(
            chart.type,
            canvas.row,
            lines,
            context.pick(block.heading),
            context.pick(chart.alt),
            context.pick(chart.x_title),
            context.pick(chart.y_title),
            chart.x_range,
            chart.y_range,
        )
    )
    canvas.next_row(ROWS_OF_PICTURE)


def find_lines(block: Block, context: Context) -> list[Line]:
    """Return the series of a curve, once every grid has its place."""
    chart = block.chart
    if chart is None or chart.type == "bars":
        return []
    return [
        Line(
            name_series(series, chart.type, context),
            context.names[f"{name_column(series.grid, series.x)}{LIST}"],
            context.names[f"{name_column(series.grid, series.y)}{LIST}"],
            series.look,
        )
        for series in chart.series
    ]


def name_series(series: Series, kind: str, context: Context) -> str:
    """Return the words of a series in the legend: of its column, or of its grid."""
    label = context.label(series.y if kind == "columns" else series.grid)
    return label.split(":")[-1].strip()
