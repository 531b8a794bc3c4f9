"""What the workbook tells people: nobody is asked to taste or to smell anything."""

import re

import pytest

from builder.spec.french import list_texts
from builder.spec.load import find_specs, load_spec

SENSES = re.compile(r"\b(tast|smell|sniff|goût|sent(ir|ent)?\b|odeur|renifl)", re.IGNORECASE)
REFUSED = re.compile(r"nobody|never|spoils the taste|personne|jamais|gâte le goût", re.IGNORECASE)


def list_asked(texts):
    sentences = [s for text in texts for s in re.split(r"(?<=[.!?;])\s", text)]
    return [s for s in sentences if SENSES.search(s) and not REFUSED.search(s)]


@pytest.fixture(scope="module")
def spec():
    return load_spec(find_specs())


@pytest.mark.parametrize("lang", ["en", "fr"])
def test_no_text_asks_anybody_to_taste_or_to_smell(spec, lang):
    texts = [text.pick(lang) for _, _, _, text in list_texts(spec)]
    assert any(REFUSED.search(text) and SENSES.search(text) for text in texts)
    assert list_asked(texts) == []


def test_a_text_that_asks_to_smell_or_taste_is_found():
    asked = ["Smell the water that leaves.", "Le filtrat ne doit pas avoir d’odeur."]
    assert list_asked(asked) == asked
