"""Drawings beside or below what is typed: one picture for all languages, told in words of each."""

import struct

from builder.plan.canvas import Canvas
from builder.plan.cells import Drawing
from builder.plan.context import Context
from builder.plan.lettering import DIGIT_PX, PX_PER_POINT, ROW_POINTS, column_px
from builder.spec.pages import Block

SCALE = 4 / 5  # a drawing is shown so much smaller than it is, to be as sharp on paper
GAP_COLUMN, SPARE_PX = 2.0, 24
BESIDE_PX = 1100  # typed part and drawing together, on a small laptop


def lay_drawing(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out a drawing at the right of a narrow sheet, or in rows of its own, and its legend."""
    if block.heading:
        canvas.put_head([(0, "head", context.pick(block.heading))])
    png = context.spec.drawings[block.drawing]
    width, height = read_size(png)
    typed = sum(column_px(w) for w in canvas.widths[: canvas.span])
    alt = context.pick(block.alt)
    if typed + width <= BESIDE_PX:
        row = canvas.frozen_rows
        below = max(canvas.beside_px - find_top(canvas, row), 0.0)
        canvas.drawings.append(Drawing(row, find_column(canvas, width), below, SCALE, png, alt))
        canvas.beside_px = find_top(canvas, row) + below + height + SPARE_PX
    else:
        canvas.drawings.append(Drawing(canvas.row, 0, 0.0, SCALE, png, alt))
        canvas.next_row(int((height + SPARE_PX) / (ROW_POINTS * PX_PER_POINT)) + 1)
    for text in block.text:
        canvas.put_prose(text, context.lang)
    canvas.next_row()


def read_size(png: bytes) -> tuple[float, float]:
    """Return width and height on the screen, from the head of the file."""
    width, height = struct.unpack(">II", png[16:24])
    return width * SCALE, height * SCALE


def find_column(canvas: Canvas, width: float) -> int:
    """Return the column of drawings, behind a gap at the right, made as wide as they need."""
    needed = (width + SPARE_PX) / DIGIT_PX
    if len(canvas.widths) == canvas.span:
        canvas.widths += [GAP_COLUMN, needed]
    canvas.widths[-1] = max(canvas.widths[-1], needed)
    return len(canvas.widths) - 1


def find_top(canvas: Canvas, row: int) -> float:
    """Return how far below the top of the sheet a row begins on the screen."""
    heights = (canvas.heights.get(above, ROW_POINTS) for above in range(row))
    return sum(heights) * PX_PER_POINT
