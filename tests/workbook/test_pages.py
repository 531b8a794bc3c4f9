"""The printed pages, as the office program draws them."""

import re
import subprocess
from collections import Counter

import pytest

from workbook.comparison import listed
from workbook.files import show
from workbook.pseudo import CODE, OPEN
from workbook.tools import require

SIGNS = ("###", "#VALUE", "#REF", "#NAME", "#DIV", "#N/A", "#NUM", "Err:")
WORD = re.compile(f"{OPEN}?[^\\s{OPEN}-]+")  # lines may break at a hyphen, neighbours may touch
FORMULA = re.compile(r"[a-z]_\w|[\])][-+*/^=<>,]")


@pytest.fixture(scope="module", params=["en", "fr", CODE])
def lang(request):
    """Return each language, and one that is longer."""
    return request.param


@pytest.fixture(scope="module")
def file(request, lang):
    """Return the workbook in the language."""
    return request.getfixturevalue("pseudo_books" if lang == CODE else "books")(lang)


@pytest.fixture(scope="module")
def pages(office, file, tmp_path_factory):
    """Return the text of each page."""
    require("pdftotext")
    path = tmp_path_factory.mktemp("pages") / "pages.pdf"
    office.open(file.path)
    office.ask("save", str(path))
    told = subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, check=True)
    return told.stdout.decode().split("\f")[:-1]


def by_sheet(pages, pseudo_spec, lang):
    """Return the pages of each sheet, told apart by their footers."""
    lead, _, rest = pseudo_spec.words["page"].pick(lang).partition("&A")
    footer = re.compile(re.escape(lead) + "(.+?)" + re.escape(rest.partition("&P")[0]) + r"\d+")
    found = {sheet.title.pick(lang): [] for sheet in pseudo_spec.sheets}
    for page in pages:
        found[footer.findall(page)[-1]].append(page)
    return found


def test_no_page_shows_an_error_code_or_a_number_too_wide(pages):
    shown = [line for page in pages for line in page.splitlines()]
    assert [line for line in shown if any(sign in line for sign in SIGNS)] == []


def test_every_sheet_prints_on_as_many_pages_as_planned(pages, pseudo_spec, lang):
    found = {title: len(sheet) for title, sheet in by_sheet(pages, pseudo_spec, lang).items()}
    wanted = {
        title: 1 if sheet.role == "behind" else sheet.pages * sheet.pages_wide or found[title]
        for sheet in pseudo_spec.sheets
        for title in [sheet.title.pick(lang)]
    }
    assert found == wanted


def test_no_word_of_a_printed_sheet_is_cut_off(pages, file, pseudo_spec, lang):
    lost = []
    for title, sheet in by_sheet(pages, pseudo_spec, lang).items():
        shown = Counter(WORD.findall(" ".join(sheet)))
        for cell, text in file.constants.items():
            if cell[0] == title and prints(cell, file) and is_prose(text):
                lacking = Counter(WORD.findall(text)) - shown
                if lacking:
                    lost.append(f"{show(cell)}: {text!r} lacks {list(lacking)}")
    assert not lost, listed(lost)


def prints(cell, file):
    """Tell whether a cell is inside the print area of its sheet."""
    first_col, first_row, last_col, last_row = file.printed[cell[0]]
    return first_row <= cell[1] <= last_row and first_col <= cell[2] <= last_col


def is_prose(text):
    """Tell whether a cell holds words; formulas may be broken anywhere."""
    return isinstance(text, str) and not FORMULA.search(text)
