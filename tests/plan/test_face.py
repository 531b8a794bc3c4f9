"""Where drawings and links stand, and how sheets of some widths print."""

from dataclasses import replace

import pytest

from builder.exchange.demo import read_demo
from builder.plan.context import Context
from builder.plan.drawings import read_size
from builder.plan.layout import plan_sheet
from builder.plan.lettering import break_words, column_px, fit_row, measure_px, room_px
from builder.spec.load import find_specs, load_spec
from builder.spec.pages import Block
from builder.spec.records import Text

NARROW, WIDE = [20.0, 9.0, 7.0, 8.0], [62.0, 15.0, 10.0, 16.0, 10.0, 9.0, 10.0, 20.0, 15.0]
LINE = "Rinse until the volume that is owed has run through. "


@pytest.fixture(scope="module")
def spec():
    return load_spec(find_specs())


def lay(spec, widths, **more):
    """Return a sheet of one paragraph and the two drawings of the specs."""
    sheet = next(sheet for sheet in spec.sheets if sheet.key == "machine")
    drawings = [block for block in sheet.blocks if block.kind == "picture"]
    words = Text(dict.fromkeys(spec.languages, LINE * 3))
    blocks = [Block(kind="text", place=sheet.place, text=[words]), *drawings]
    own = replace(sheet, widths=widths, columns=len(widths), blocks=blocks, **more)
    return plan_sheet(own, Context(spec, read_demo(spec), "en", "metric"))


def test_drawings_stand_right_of_a_narrow_sheet_one_below_the_other_and_print(spec):
    sheet = lay(spec, NARROW)
    first, second = sheet.drawings
    assert (first.row, first.col, first.col) == (sheet.frozen_rows, len(NARROW) + 1, second.col)
    assert second.below_px >= first.below_px + read_size(first.png)[1]
    assert column_px(sheet.widths[first.col]) > read_size(first.png)[0]
    assert sheet.paper.cols == first.col + 1


def test_a_wide_sheet_gives_each_drawing_rows_of_its_own(spec):
    sheet = lay(spec, WIDE)
    taken = {cell.row for cell in sheet.cells}
    for drawing in sheet.drawings:
        rows = int(read_size(drawing.png)[1] / 20)
        assert (drawing.col, drawing.below_px) == (0, 0)
        assert not taken & set(range(drawing.row, drawing.row + rows))


@pytest.mark.parametrize(
    ("widths", "role", "percent", "turned"),
    [
        ([42.0], "start", 145, False),  # a narrow sheet to hang up is enlarged, never beyond this
        ([90.0], "print", 109, False),
        ([90.0], "type", 0, False),
        (WIDE, "type", 0, True),
    ],
)
def test_a_sheet_prints_as_large_as_its_page_takes_it(spec, widths, role, percent, turned):
    paper = lay_text(spec, widths, role)
    assert (paper.percent, paper.turned) == (percent, turned)


def lay_text(spec, widths, role, lines=1, **more):
    sheet = next(sheet for sheet in spec.sheets if sheet.key == "machine")
    words = Text(dict.fromkeys(spec.languages, LINE))
    blocks = [Block(kind="text", place=sheet.place, text=[words] * lines)]
    own = replace(
        sheet, widths=widths, columns=len(widths), blocks=blocks, intro=[], role=role, **more
    )
    return plan_sheet(own, Context(spec, read_demo(spec), "en", "metric")).paper


def test_what_stands_behind_prints_the_rows_and_columns_of_one_page(spec):
    people, behind = (lay_text(spec, [60.0] * 4, role, 400) for role in ("type", "behind"))
    assert (people.rows > 400, people.cols, people.high) == (True, 4, 0)
    assert (behind.rows < 80, behind.cols, behind.high) == (True, 3, 1)


def test_the_way_back_stands_behind_the_title_or_below_it(spec):
    def find(widths):
        cells = lay(spec, widths).cells
        return next((cell.row, cell.col) for cell in cells if cell.link)

    assert [find(WIDE), find([42.0])] == [(0, 1), (1, 0)]


def test_words_break_where_they_no_longer_fit_and_a_long_word_inside():
    room = room_px(12)
    for line in break_words(LINE * 2 + "x" * 60, "prose", room):
        assert measure_px(line, "prose") <= room


def test_the_width_of_words_is_that_of_the_published_table_of_the_font():
    """Helvetica's and Arial's widths, from memory: H 722, a 556, i 222, W 944, space 278."""
    assert measure_px("HaiW ", "prose") == pytest.approx(2.722 * 10 * 96 / 72 * 1.06)


def test_a_row_of_two_lines_is_higher_than_a_row_of_one():
    one, two = (fit_row([(LINE, "prose", width)]) for width in (80.0, 30.0))
    assert (one, two) == (15.0, 27.5)
