"""The same specs give the same bytes, and each language the same numbers in its own words."""

import hashlib
import os
import re
import subprocess
import sys

import pytest
from xlsxwriter.worksheet import Worksheet

from builder.exchange.machine import Machine
from builder.production import build_workbook
from workbook.comparison import listed
from workbook.files import read_texts

BUILD = """
import hashlib
from builder.exchange.machine import Machine
from builder.production import build_workbook
from builder.spec.load import find_specs, load_spec
spec = load_spec(find_specs())
data = build_workbook(spec, Machine(), "{lang}", "metric")
print(hashlib.sha256(data).hexdigest())
"""
ENGLISH = re.compile(  # none of these is a word of French too; AND( is a function
    r"\b(the|of|and|is|are|with|for|from|by|at|not|this|that|each|it|its|to|be|your|which|water)"
    r"\b(?!\()",
    re.IGNORECASE,
)


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
