"""What a person meets, in both languages; each rule speaks about a file that breaks it."""

import struct

import pytest

from builder.exchange.machine import Machine
from builder.production import Edition, shorten
from face import rules
from face.book import Book, change
from face.draw import FOLDER, SOURCE, fingerprint
from face.rules import Rule

LANGUAGES = ("en", "fr")
SHEET, WORKBOOK, STYLES = r"xl/worksheets/sheet\d+\.xml", r"xl/workbook\.xml", r"xl/styles\.xml"
CHART, DRAWING, CORE = r"xl/charts/chart1\.xml", r"xl/drawings/drawing1\.xml", r"docProps/core\.xml"
PANE, TAB = r'(<pane [^>]*topLeftCell=")A', '<tabColor rgb="FF[0-9A-F]*"'
MERGED = r'\1<mergeCells count="1"><mergeCell ref="A1:B1"/></mergeCells>'
LONG = f' promptTitle="{"x" * 33}"'
# Rule, and what breaks it: part, pattern, and what stands there instead.
BREAKS = (
    (rules.frozen_columns_leave_room_on_a_telephone, SHEET, PANE, r"\1B"),
    (rules.links_aim_at_names_of_one_cell, WORKBOOK, "go_log", "gone_log"),
    (rules.links_aim_at_names_of_one_cell, SHEET, 'location="go_log"', 'location="Log!A1"'),
    (rules.links_aim_at_names_of_one_cell, WORKBOOK, r'("go_log">[^<]*\$)(\d+)<', r"\1\2:$A$99<"),
    (
        rules.every_sheet_is_one_link_from_the_first,
        SHEET,
        'location="go_log"',
        'location="go_card"',
    ),
    (rules.typed_cells_have_a_frame_that_shows, STYLES, "FF5A6B72", "FFB9C7CB"),
    (rules.tabs_tell_whom_a_sheet_is_for, SHEET, TAB, '<tabColor rgb="FFEEEEEE"'),
    (rules.tabs_tell_whom_a_sheet_is_for, SHEET, "<tabColor[^>]*>", ""),
    (rules.sheets_for_people_are_without_a_grid, SHEET, ' showGridLines="0"', ""),
    (rules.the_file_tells_its_language, CORE, "<dc:language>[^<]*</dc:language>", ""),
    (rules.the_file_tells_its_language, CORE, "<dc:title>[^<]*<", "<dc:title>Overview<"),
    (rules.the_file_tells_its_language, CHART, '<c:lang val="[^"]*"', '<c:lang val="en-US"'),
    (rules.pictures_are_told_in_words, DRAWING, 'descr="[^"]*"', 'descr="Picture"'),
    (rules.nothing_is_merged_folded_or_hatched, SHEET, "(<sheetProtection[^>]*>)", MERGED),
    (rules.nothing_is_merged_folded_or_hatched, SHEET, "<row ", '<row outlineLevel="1" '),
    (
        rules.nothing_is_merged_folded_or_hatched,
        STYLES,
        'patternType="solid"',
        'patternType="darkUp"',
    ),
    (
        rules.rows_are_high_enough,
        SHEET,
        r'<row (r="\d+"[^>]*) ht="[4-9]\d[^"]*"',
        r'<row \1 ht="15"',
    ),
    (rules.the_font_is_one_family, STYLES, '<name val="Arial"', '<name val="Calibri"'),
    (rules.the_font_is_one_family, STYLES, '<sz val="11"', '<sz val="7"'),
    (rules.the_font_is_one_family, r"xl/theme/theme1\.xml", "Arial", "Calibri"),
    (rules.typed_cells_say_what_they_take, SHEET, ' error="[^"]*"', ""),
    (rules.typed_cells_say_what_they_take, SHEET, ' promptTitle="[^"]*"', LONG),
)
RULES = tuple(dict.fromkeys(rule for rule, *_ in BREAKS))


@pytest.fixture(scope="module")
def books(spec):
    """Return the workbook in each language; long grids are cut, as their rows are alike."""
    short = shorten(spec)
    return {lang: Edition(short, lang, "metric").build(Machine()) for lang in LANGUAGES}


@pytest.fixture(scope="module")
def read(books):
    return {lang: Book(data, lang) for lang, data in books.items()}


@pytest.mark.parametrize("lang", LANGUAGES)
@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.__name__)
def test_no_rule_speaks_about_the_delivered_book(rule: Rule, read, lang):
    assert list(rule(read[lang])) == []


@pytest.mark.parametrize(
    ("rule", "part", "pattern", "new"), BREAKS, ids=lambda item: getattr(item, "__name__", "")
)
def test_a_rule_speaks_about_the_file_that_breaks_it(rule: Rule, books, part, pattern, new):
    assert list(rule(Book(change(books["en"], part, pattern, new), "en")))


def test_the_languages_have_the_same_heights_and_pictures_and_other_words_for_them(read):
    english, french = (read[lang] for lang in LANGUAGES)
    for one, other in zip(english.sheets, french.sheets, strict=True):
        heights = [{k: d.height for k, d in s.row_dimensions.items()} for s in (one, other)]
        assert heights[0] == heights[1], one.title
        assert len(one._images) == len(other._images)
    images = [{k: v for k, v in b.parts.items() if "/media/" in k} for b in (english, french)]
    assert images[0] == images[1]
    words = [
        [v for k, v in b.parts.items() if k.startswith("xl/drawings/drawing")]
        for b in (english, french)
    ]
    assert all(one != other for one, other in zip(*words, strict=True))


@pytest.mark.parametrize("source", sorted(FOLDER.glob("*.svg")), ids=lambda path: path.stem)
def test_each_picture_was_made_from_the_source_beside_it(source):
    """Run `python -m face.draw` in `tests` after a change, with the packages of `dev`."""
    told = dict(read_texts(source.with_suffix(".png").read_bytes()))
    assert told[SOURCE] == fingerprint(source)


def read_texts(png):
    """Yield the texts that a picture holds, by keyword."""
    at = 8
    while at < len(png):
        (length,) = struct.unpack(">I", png[at : at + 4])
        if png[at + 4 : at + 8] == b"tEXt":
            yield png[at + 8 : at + 8 + length].decode("latin-1").split("\0")
        at += length + 12


def test_drawings_need_no_font():
    assert [path.name for path in FOLDER.glob("*.svg") if "<text" in path.read_text()] == []
