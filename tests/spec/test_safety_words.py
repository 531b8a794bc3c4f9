"""What the workbook tells people: nobody tastes or smells anything, no way round is guessed."""

import re

import pytest

from builder.spec.french import list_texts
from builder.spec.load import find_specs, load_spec

SENSES = re.compile(r"\b(tast|smell|sniff|goût|sent(ir|ent)?\b|odeur|renifl)", re.IGNORECASE)
REFUSED = re.compile(r"nobody|never|spoils the taste|personne|jamais|gâte le goût", re.IGNORECASE)

# Which way round depends on the design of the machine: its own drawing tells.
WAYS = re.compile(r"\b(up|down|(up|down)wards?|upside|upright|towards?|haut|bas)\b", re.IGNORECASE)
PLACES = re.compile(r"point haut|highest point", re.IGNORECASE)


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


def list_ways(texts):
    return [words for words in texts if WAYS.search(PLACES.sub("", words))]


@pytest.mark.parametrize("lang", ["en", "fr"])
def test_no_step_of_start_up_says_which_way_round_a_part_stands(spec, lang):
    (sheet,) = (sheet for sheet in spec.sheets if sheet.key == "startup")
    steps = [step.text.pick(lang) for block in sheet.blocks for step in block.steps]
    assert steps
    assert list_ways(steps) == []


def test_a_step_that_says_which_way_round_is_found():
    told = ["Lip seal towards the motor.", "Le joint à lèvre vers le bas."]
    assert list_ways(told) == told
