"""A language is words: cells keep their addresses, and no word that a reader sees stands in code.

The made-up language puts every text of the specs in brackets and makes it a third longer.
"""

import re
from email import message_from_bytes
from email.policy import default

import pytest

from builder.audit.report import Auditor
from builder.exchange.demo import read_demo
from builder.exchange.machine import Machine
from builder.formula.grids import UNUSABLE
from builder.production import build_workbook
from builder.roster.mail import write_message
from builder.roster.roster import Row
from builder.spec.records import Choice, Record, Result
from builder.spec.rules import check_spec
from workbook.files import read_texts
from workbook.pseudo import CODE, ENTRY, OPEN, SHUT, speak

SPOKEN = re.compile(f"{OPEN}[^{OPEN}{SHUT}]*{SHUT}")
LETTER = re.compile(r"[^\W\d_]")
HOLE = re.compile(r"\{[a-z]+\}")  # of a sentence that a formula puts together
NAME = re.compile(r"\w_\w|\w_?\(|[\])][-+*/^<>=]")  # names and formulas, whatever the language
LITERAL = re.compile(r'"([^"]*)"')
START = "start"  # code of the record's line for what a machine owes when its season begins


def place(file):
    """Return formulas and names by number of the sheet, row and column."""
    numbers = {title: number for number, title in enumerate(file.titles)}
    formulas = {(numbers[t], row, col): text for (t, row, col), text in file.formulas.items()}
    names = {
        name: [(numbers[title], row, col) for title, row, col in area]
        for name, area in file.names.items()
    }
    return formulas, names


def test_english_and_french_have_the_same_formulas_and_names_at_the_same_addresses(books):
    assert place(books("en")) == place(books("fr"))


@pytest.mark.parametrize("lang", ["fr", CODE])
def test_a_longer_language_moves_all_languages_alike(short_pseudo_books, lang):
    assert place(short_pseudo_books("en")) == place(short_pseudo_books(lang))


def test_a_further_language_breaks_no_rule_of_the_specs(pseudo_spec):
    assert check_spec(pseudo_spec) == []


def test_a_book_of_a_further_language_passes_the_audit(pseudo_spec, tmp_path):
    machine = read_demo(pseudo_spec)
    auditor = Auditor(pseudo_spec, lambda *pair: build_workbook(pseudo_spec, machine, *pair))
    path = tmp_path / "book.xlsx"
    path.write_bytes(build_workbook(pseudo_spec, machine, CODE, "metric"))
    report = auditor.audit(path, deep=False)
    assert (report.faults, report.warnings) == ([], [])


@pytest.fixture(scope="module")
def shared(pseudo_spec):
    """Return what is the same in every language: symbols, codes, names, what was typed."""
    quantities = pseudo_spec.quantities.values()
    coded = [q for q in quantities if isinstance(q, Choice | Record | Result)]
    codes = {UNUSABLE, START, *(code for q in coded for code in q.options)}
    rows = [row for grid in pseudo_spec.worked.entries.values() for row in grid]
    typed = {value for row in rows for value in row.values() if isinstance(value, str)}
    symbols = {unit.symbol.pick(CODE) for unit in pseudo_spec.units.values()}
    tables = {word for rows in pseudo_spec.tables.values() for row in rows for word in row}
    names = set(pseudo_spec.quantities)
    return codes | typed | names | symbols | tables | {pseudo_spec.digest, ENTRY["name"]}


def find_unspoken(lines, shared):
    """Return what stands outside all brackets: words that hide in code."""
    text, count = "\n".join(lines), 1
    while count:  # words may stand inside others
        text, count = SPOKEN.subn("", text)
    left = (line.strip() for line in text.split("\n"))
    return sorted({s for s in left if LETTER.search(s) and not NAME.search(s)} - shared)


def test_every_word_in_a_cell_comes_from_the_specs(pseudo_books, shared):
    file = pseudo_books(CODE)
    columns = {}  # a paragraph goes on in the cell below
    for (title, _, col), text in sorted((file.constants | file.stored).items(), key=lambda c: c[0]):
        if isinstance(text, str):
            columns.setdefault((title, col), []).append(text)
    unspoken = {place: find_unspoken(lines, shared) for place, lines in columns.items()}
    assert {place: words for place, words in unspoken.items() if words} == {}


def test_every_prompt_title_and_footer_comes_from_the_specs(pseudo_books, shared):
    file = pseudo_books(CODE)
    cells = {*file.constants.values(), *file.stored.values()}
    texts = {text for text in read_texts(file.data) if text not in cells}
    # A long prompt is cut off at its end, the name of a curve at its beginning.
    whole = {text for text in texts if not (text.startswith(OPEN) or text.endswith(SHUT))}
    assert [text for text in find_unspoken(whole, shared) if "rinsebook" not in text] == []
    assert file.titles == [title for title in file.titles if SPOKEN.fullmatch(title)]


def test_formulas_hold_no_words_but_codes(pseudo_books, shared):
    texts = {
        text
        for formula in pseudo_books(CODE).formulas.values()
        for text in LITERAL.findall(formula)
    }
    words = [text for text in texts if LETTER.search(text) and not HOLE.fullmatch(text)]
    assert sorted(words) == sorted(texts & shared)


def test_a_message_in_a_further_language_stands_before_the_others(pseudo_spec):
    row = Row(line=2, machine=Machine("A"), lang=CODE, units="us", stem="b")
    message = message_from_bytes(write_message(row, "b.xlsx", b"book", pseudo_spec), policy=default)
    told = message.get_body().get_content()
    assert [part.partition(",")[0].strip() for part in told.split("-" * 40)] == [
        speak("Hello"), "Hello", "Bonjour",
    ]  # fmt: skip
