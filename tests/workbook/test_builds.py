"""The same specs give the same bytes, and each language the same numbers in its own words."""

import hashlib
import os
import re
import subprocess
import sys
from collections import Counter
from dataclasses import fields, is_dataclass

import pytest
from xlsxwriter.worksheet import Worksheet

from builder.exchange.machine import Machine
from builder.production import build_workbook
from builder.spec.records import Choice, Record, Text
from workbook.comparison import listed
from workbook.files import read_texts, show

BUILD = """
import hashlib
from builder.exchange.machine import Machine
from builder.production import build_workbook
from builder.spec.load import find_specs, load_spec
data = build_workbook(load_spec(find_specs()), Machine(), "{lang}", "metric")
print(hashlib.sha256(data).hexdigest())
"""
SAME_IN_BOTH = {  # French spells these as English does
    "Bicarbonate",
    "Calcium",
    "Date",
    "Dose",
    "Instrument",
    "Machine",
    "Note",
    "Saturation",
    "Source",
    "Sources",
    "Verdict",
    "Verdicts",
    "Version",
}
ENGLISH = re.compile(  # none of these is a word of French too; AND( is a function
    r"\b(the|of|and|is|are|with|for|from|by|at|not|this|that|each|it|its|to|be|your|which|water)"
    r"\b(?!\()",
    re.IGNORECASE,
)
NAME = re.compile(r"\w_\w|[A-Z]{2,}\(")  # names and formulas are the same in both languages
LETTERS = re.compile(r"[^\W\d_]{4}")


def test_a_second_build_gives_the_same_bytes(short_spec, short_books):
    assert build_workbook(short_spec, Machine(), "en", "metric") == short_books("en").data


@pytest.mark.parametrize(
    ("lang", "seed", "zone"), [("en", "7", "Asia/Tokyo"), ("fr", "8", "UTC+11")]
)
def test_another_hash_seed_and_time_zone_give_the_same_bytes(books, lang, seed, zone):
    environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone}
    code = BUILD.format(lang=lang)
    told = subprocess.run(
        [sys.executable, "-c", code], env=environment, capture_output=True, text=True, check=True
    )
    assert told.stdout.strip() == hashlib.sha256(books(lang).data).hexdigest()


def pair_formulas(english, french):
    """Yield the formula cells of both languages side by side."""
    titles = dict(zip(english.titles, french.titles, strict=True))
    for title, row, col in english.formulas:
        yield (title, row, col), (titles[title], row, col)


def test_both_languages_have_the_same_numbers(books):
    english, french = books("en"), books("fr")
    for one, other in pair_formulas(english, french):
        value = english.stored[one]
        if not isinstance(value, str):
            assert french.stored[other] == value, show(one)
    assert count_numbers(french) == count_numbers(english)


def count_numbers(file):
    """Return the numbers that stand in the cells of each sheet."""
    return [
        Counter(
            value
            for cell, value in file.constants.items()
            if cell[0] == title and not isinstance(value, str)
        )
        for title in file.titles
    ]


def find_pairs(item):
    """Yield every text of the specs."""
    if isinstance(item, Text):
        yield item
    elif is_dataclass(item):
        for part in fields(item):
            yield from find_pairs(getattr(item, part.name))
    elif isinstance(item, dict):
        yield from find_pairs(list(item.values()))
    elif isinstance(item, list):
        for part in item:
            yield from find_pairs(part)


def test_every_word_that_a_french_formula_shows_is_the_french_of_the_english_one(books, spec):
    english, french = books("en"), books("fr")
    known = {(text.pick("en"), text.pick("fr")) for text in find_pairs(spec)}
    wrong = []
    for one, other in pair_formulas(english, french):
        pair = (english.stored[one], french.stored[other])
        if isinstance(pair[0], str) and pair not in known and pair[0] not in list_codes(spec):
            wrong.append(f"{show(other)}: {pair}")
    assert not wrong, listed(wrong)


def list_codes(spec):
    """Return the codes of choices: formulas compare them, so both languages hold them."""
    return {
        code
        for choice in spec.quantities.values()
        if isinstance(choice, Choice | Record)
        for code in choice.options
    }


def test_no_text_of_the_english_workbook_is_left_in_the_french_one(books, spec):
    symbols = {unit.symbol.pick("fr") for unit in spec.units.values()}
    sources = {
        text.pick("fr") for source in spec.sources.values() for text in (source.short, source.title)
    }
    shared = read_texts(books("en").data) & read_texts(books("fr").data)
    left = shared - symbols - sources - list_codes(spec) - SAME_IN_BOTH
    assert sorted(text for text in left if LETTERS.search(text) and not NAME.search(text)) == []


def test_no_english_word_is_left_in_the_french_workbook(books, spec):
    sources = {source.title.pick("fr") for source in spec.sources.values()}
    texts = read_texts(books("fr").data) - sources
    assert sorted(text for text in texts if ENGLISH.search(text)) == []


def test_formulas_stand_in_the_file_as_the_library_alone_would_write_them(books):
    library = Worksheet()
    changed = [
        formula
        for formula in books("en").formulas.values()
        if library._prepare_formula(formula) != formula.removeprefix("=")
    ]
    assert not changed, listed(changed)
