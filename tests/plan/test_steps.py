"""Steps that belong to one design of machine say so where they do not apply."""

from io import BytesIO

import pytest
from openpyxl import load_workbook

from builder.exchange.given import Typed
from builder.exchange.machine import Machine
from builder.plan.cells import column_letters
from builder.plan.layout import plan_book
from builder.plan.steps import APPLIES, DONE, TEXT
from builder.production import Engine, shorten
from builder.write.workbook import write_book

CHOICES = ("recirculation_pump", "latched_start", "wash_prefilter", "element_taps")
STEPS = {
    "startup_shaft": "recirculation_pump",
    "startup_unplugged": "recirculation_pump",
    "startup_motor": "recirculation_pump",
    "startup_feed": "latched_start",
    "startup_wash_filter": "wash_prefilter",
    "startup_taps": "element_taps",
}
IDLE = {"en": "does not apply", "fr": "sans objet"}


@pytest.fixture(scope="module")
def short(spec):
    return shorten(spec)


def answer(code, *choices):
    return Machine(given={name: Typed(None, code) for name in choices})


def find_row(book, key):
    area = book.names[f"{key}_done_typed"]
    assert area.col == DONE
    return area.sheet, area.row


def read_steps(spec, machine, lang="en"):
    """Return what stands beside each step that has a condition."""
    book = plan_book(spec, machine, lang, "metric", {})
    values = Engine().solve(book)
    return {key: values[(*find_row(book, key), APPLIES)] for key in STEPS}


@pytest.mark.parametrize("choice", CHOICES)
def test_step_says_that_it_does_not_apply_where_its_condition_does_not_hold(short, choice):
    told = read_steps(short, answer("no", choice))
    assert {key for key, words in told.items() if words == IDLE["en"]} == {
        key for key, asked in STEPS.items() if asked == choice
    }
    assert set(told.values()) == {IDLE["en"], ""}


@pytest.mark.parametrize("lang", IDLE)
def test_word_beside_a_step_is_in_the_language_of_the_reader(short, lang):
    assert set(read_steps(short, answer("no", *CHOICES), lang).values()) == {IDLE[lang]}


@pytest.mark.parametrize("code", ["yes", ""])
def test_question_answered_with_yes_or_left_open_takes_no_step_away(short, code):
    assert set(read_steps(short, answer(code, *CHOICES)).values()) == {""}


def test_words_of_a_step_fade_while_the_cell_beside_says_that_it_does_not_apply(short):
    book = plan_book(short, Machine(), "en", "metric", {})
    rows = {row for key in STEPS for _, row in [find_row(book, key)]}
    sheet = load_workbook(BytesIO(write_book(book, Engine().solve(book))))["Start-up"]
    fading = {
        str(area.sqref): rule.formula[0]
        for area in sheet.conditional_formatting
        for rule in area.rules
        if rule.type == "expression" and rule.formula[0].endswith('<>""')
    }
    text, beside = column_letters(TEXT), column_letters(APPLIES)
    assert fading == {f"{text}{row + 1}": f'${beside}${row + 1}<>""' for row in rows}
