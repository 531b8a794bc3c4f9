"""How sheets print: those for people whole and in readable type, the first page of the others."""

from builder.plan.canvas import Canvas
from builder.plan.cells import Paper
from builder.plan.lettering import PX_PER_POINT, ROW_POINTS, column_px
from builder.spec.pages import Sheet

PX_PER_INCH = 96
SHORT_IN, LONG_IN = 8.27, 11.0  # of letter and of A4 paper, whichever is less
MARGINS_IN = (0.3, 0.3, 0.4, 0.6)  # left, right, top, and bottom with the footer
READABLE, LEGIBLE = 0.8, 0.7  # type of 10 points is printed in 8, and in 7 behind
LARGEST_PERCENT = 145
SPARE = 1.06  # one program makes columns so much wider
LONG_TABLE = 40  # rows that do not fit on one page with their head


def plan_paper(canvas: Canvas, sheet: Sheet, top: int, first: int, cols: int) -> Paper:
    """Return how a sheet prints; `top` is the row below its introduction, `first` its first."""
    behind = sheet.role == "behind"
    cols = count_columns(canvas, cols) if behind else cols
    width = sum(column_px(w) for w in canvas.widths[:cols])
    end = canvas.printed or (canvas.row if sheet.columns else top)
    whole = measure_rows(canvas, first, end)
    wanted = whole if sheet.pages == 1 and not behind else 0.0
    scales = {turned: fit(width, wanted, turned=turned) for turned in (False, True)}
    turned = sheet.landscape or scales[False] < min(READABLE, scales[True])
    scale = min(scales[turned], 1.0)
    room = find_room(turned=turned)[1] / scale
    rows = count_rows(canvas, first, end, room) if behind else end
    grown = int(scales[turned] / SPARE * 100) if sheet.role in ("start", "print") else 0
    return Paper(
        turned,
        sheet.pages_wide,
        1 if behind else sheet.pages,
        sheet.percent or (min(grown, LARGEST_PERCENT) if grown >= 100 else 0),
        MARGINS_IN,
        find_repeated(canvas, sheet),
        first,
        rows,
        cols,
        tuple(canvas.breaks),
    )


def find_room(*, turned: bool) -> tuple[float, float]:
    """Return width and height of what a page holds."""
    width, height = (LONG_IN, SHORT_IN) if turned else (SHORT_IN, LONG_IN)
    left, right, top, bottom = MARGINS_IN
    return (width - left - right) * PX_PER_INCH, (height - top - bottom) * PX_PER_INCH


def fit(width: float, height: float, *, turned: bool) -> float:
    """Return by how much a sheet may grow on one page; no height is one of any."""
    across, down = find_room(turned=turned)
    return min(across / width, down / height if height else across)


def count_columns(canvas: Canvas, cols: int) -> int:
    """Return how many columns the first page holds in type that can be read, turned."""
    room, used = find_room(turned=True)[0] / SPARE / LEGIBLE, 0.0
    for col, width in enumerate(canvas.widths[:cols]):
        used += column_px(width)
        if used > room:
            return col
    return cols


def measure_rows(canvas: Canvas, first: int, end: int) -> float:
    """Return how high rows are on the screen."""
    heights = (canvas.heights.get(row, ROW_POINTS) for row in range(first, end))
    return sum(heights) * PX_PER_POINT


def count_rows(canvas: Canvas, first: int, end: int, room: float) -> int:
    """Return the row after the last one of the first page."""
    used = 0.0
    for row in range(first, end):
        used += canvas.heights.get(row, ROW_POINTS) * PX_PER_POINT
        if used > room:
            return row
    return end


def find_repeated(canvas: Canvas, sheet: Sheet) -> tuple[int, int]:
    """Return the rows on top of every printed page: the head of a long table, or the title's."""
    ends = [*(first for first, _ in canvas.heads), canvas.row][1:]
    long = [h for h, end in zip(canvas.heads, ends, strict=True) if end - h[0] > LONG_TABLE]
    many = sheet.columns and sheet.pages != 1 and sheet.role != "behind"
    return long[0] if long and many else (0, canvas.frozen_rows - 1)
