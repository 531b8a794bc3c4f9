"""What a person meets, in both languages; each rule speaks about a file that breaks it."""

import struct
from dataclasses import replace

import pytest

from builder.exchange.demo import read_demo
from builder.production import Edition, shorten
from face import rules
from face.book import Book, change
from face.draw import FOLDER, SOURCE, fingerprint
from face.rules import Rule

LANGUAGES = ("en", "fr")
SHEET, WORKBOOK, STYLES = r"xl/worksheets/sheet\d+\.xml", r"xl/workbook\.xml", r"xl/styles\.xml"
FIRST, CARD = (rf"xl/worksheets/sheet{number}\.xml" for number in (1, 10))
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
        r"xl/worksheets/sheet(?!1\.)\d+\.xml",
        r'<row (r="\d+"[^>]*) ht="[4-9]\d[^"]*"',
        r'<row \1 ht="15"',
    ),
    (rules.the_font_is_one_family, STYLES, '<name val="Arial"', '<name val="Calibri"'),
    (rules.the_font_is_one_family, STYLES, '<sz val="11"', '<sz val="7"'),
    (rules.the_font_is_one_family, r"xl/theme/theme1\.xml", "Arial", "Calibri"),
    (rules.typed_cells_say_what_they_take, SHEET, ' error="[^"]*"', ""),
    (rules.typed_cells_say_what_they_take, SHEET, ' promptTitle="[^"]*"', LONG),
)
# The same of a book of an example.
EXAMPLES = (
    (rules.the_first_sheet_fits_a_telephone, FIRST, '(<col min="1" max="1" width=")4', r"\g<1>5"),
    (rules.the_first_sheet_fits_a_telephone, FIRST, '(<row r="3"[^>]* ht=")5', r"\g<1>7"),
    (rules.cards_are_read_from_a_step_away, STYLES, '<sz val="20"', '<sz val="18"'),
    (rules.cards_are_read_from_a_step_away, STYLES, '<sz val="14"', '<sz val="13"'),
    (rules.cards_fill_one_page_a_side, CARD, "<pageSetup ", '<pageSetup scale="90" '),
    (rules.cards_fill_one_page_a_side, CARD, '(<row r="4"[^>]* ht=")19', r"\g<1>59"),
    (rules.cards_fill_one_page_a_side, CARD, "<rowBreaks.*</rowBreaks>", ""),
    (rules.cards_fill_one_page_a_side, CARD, '(<col min="2" max="2" width=")2', r"\g<1>3"),
    (rules.an_example_says_so_on_every_sheet, CARD, "EXAMPLE", "SAMPLE"),
    (rules.numbers_of_an_example_are_struck, FIRST, "example_n&gt;0", "example_n&gt;1"),
    (rules.numbers_of_an_example_are_struck, CARD, "example_n&gt;0", "example_n&gt;1"),
    (rules.numbers_of_an_example_are_struck, STYLES, "<strike/>", ""),
)
RULES = tuple(dict.fromkeys(rule for rule, *_ in BREAKS))


@pytest.fixture(scope="module")
def books(spec):
    """Return the workbook in each language; long grids are cut, as their rows are alike."""
    short = shorten(spec)
    return {
        lang: Edition(short, lang, "metric").build(replace(read_demo(short), example=False))
        for lang in LANGUAGES
    }


@pytest.fixture(scope="module")
def examples(spec):
    """Return the same of an example."""
    short = shorten(spec)
    return {lang: Edition(short, lang, "us").build(read_demo(spec)) for lang in LANGUAGES}


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


@pytest.mark.parametrize("lang", LANGUAGES)
@pytest.mark.parametrize(
    "rule", dict.fromkeys(rule for rule, *_ in EXAMPLES), ids=lambda rule: rule.__name__
)
def test_no_rule_speaks_about_the_book_of_an_example(rule: Rule, examples, lang):
    assert list(rule(Book(examples[lang], lang))) == []


@pytest.mark.parametrize(
    ("rule", "part", "pattern", "new"), EXAMPLES, ids=lambda item: getattr(item, "__name__", "")
)
def test_a_rule_speaks_about_the_example_that_breaks_it(rule: Rule, examples, part, pattern, new):
    assert list(rule(Book(change(examples["en"], part, pattern, new), "en")))


@pytest.mark.parametrize("lang", LANGUAGES)
def test_a_machine_of_somebody_is_no_example_on_any_sheet(read, lang):
    shown = [text for title in read[lang].titles for text in read[lang].show(title, 2)]
    assert not [text for text in shown for mark in rules.MARKS if mark in text]


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
