"""Links between sheets: each aims at the name of one fixed cell, which every program finds."""

from builder.plan.canvas import Canvas
from builder.plan.context import Context
from builder.plan.lettering import column_px, measure_px
from builder.spec.pages import ROLES, Sheet

GAP_PX = 12
TOUCH_POINTS = 24.0  # high enough for a finger


def name_target(key: str) -> str:
    """Return the name of the cell of a sheet that links aim at."""
    return f"go_{key}"


def lay_title(canvas: Canvas, sheet: Sheet, context: Context) -> None:
    """Lay out a sheet's title, and behind its end in every language the way back.

    On a sheet to hang up it stands beside what prints.
    """
    canvas.put(0, "title", canvas.title)
    canvas.heights[canvas.row] = TOUCH_POINTS
    first = context.spec.sheets[0]
    if sheet is not first:
        col = canvas.span if sheet.role == "print" else find_free(canvas, sheet)
        if col is None:
            canvas.next_row()
            canvas.heights[canvas.row] = TOUCH_POINTS
        words = context.word("back_to").format(sheet=context.pick(first.title))
        canvas.put_link(col or 0, words, name_target(first.key))
    canvas.next_row()


def find_free(canvas: Canvas, sheet: Sheet) -> int | None:
    """Return the first column that begins behind the title, if there is one."""
    title = max(measure_px(words, "title") for words in sheet.title.words.values())
    left = 0.0
    for col, width in enumerate(canvas.widths[: canvas.span]):
        if left >= title + GAP_PX:
            return col
        left += column_px(width)
    return None


def lay_index(canvas: Canvas, context: Context) -> None:
    """Lay out a link to each other sheet, those for people first, in rows for a finger."""
    for role in ROLES:
        sheets = [sheet for sheet in context.spec.sheets[1:] if sheet.role == role]
        if sheets:
            canvas.put_head([(0, "head", context.word(f"role_{role}"))])
        for sheet in sheets:
            canvas.heights[canvas.row] = TOUCH_POINTS
            canvas.put_link(0, context.pick(sheet.title), name_target(sheet.key))
            canvas.next_row()
