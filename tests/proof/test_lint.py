"""Each rule of the lint speaks about the files that break it, and no other rule does."""

import pytest

from builder.exchange.demo import read_demo
from builder.production import Edition, shorten
from builder.spec.load import find_specs, load_spec
from proof.broken_files import BREAKS, Break
from proof.lint import RULES, judge, list_caught, list_new
from proof.lint_book import Book
from proof.lint_looks import contrast

STANDARD = "the_file_follows_the_standard"  # slow; it may speak about files of other rules too


@pytest.fixture(scope="module")
def spec():
    return load_spec(find_specs())


@pytest.fixture(scope="module")
def sound(spec):
    """Return a sound book; long grids are cut, as their rows are alike."""
    return Edition(shorten(spec), "en", "metric").build(read_demo(spec))


@pytest.fixture(scope="module")
def known(sound):
    """Return what the rules find in the sound book, which should be nothing."""
    return set(judge(Book(sound)))


@pytest.mark.parametrize("lang", ["en", "fr"])
def test_no_rule_speaks_about_the_delivered_book(spec, lang):
    assert list(judge(Book(Edition(spec, lang, "metric").build(read_demo(spec))))) == []


@pytest.mark.parametrize("broken", BREAKS, ids=lambda broken: f"{broken.rule} {broken.what}")
def test_exactly_the_broken_rule_speaks(sound, known, broken):
    asked = [r for r in RULES if r.__name__ in {broken.rule} or r.__name__ != STANDARD]
    assert list(list_new(known, Book(broken.change(sound)), asked)) == [broken.rule]


def test_every_rule_has_a_file_that_breaks_it():
    assert {broken.rule for broken in BREAKS} == {rule.__name__ for rule in RULES}


def test_a_rule_that_misses_its_broken_file_is_not_counted(sound, monkeypatch):
    seen = next(broken for broken in BREAKS if broken.rule == "sheets_are_shown")
    missed = Break("cells_are_not_merged", "nothing", lambda data: data)
    monkeypatch.setattr("proof.lint.BREAKS", (seen, missed))
    assert list_caught(sound) == {"sheets_are_shown"}


def test_a_finding_names_the_cell_what_was_found_and_what_was_expected(sound):
    broken = next(broken for broken in BREAKS if broken.what == "lost name")
    (told,) = [line for line in judge(Book(broken.change(sound))) if "vessel_bores_mm" in line]
    assert told == (
        "references_lead_to_cells: Machine!E11: reference, found vessel_bores_mm, "
        "expected a defined name or a cell"
    )


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [("000000", "FFFFFF", 21), ("777777", "FFFFFF", 4.48), ("767676", "FFFFFF", 4.54)],
)
def test_contrast_is_that_of_the_guideline(one, other, ratio):
    """Well-known values: black on white, and the greys on both sides of 4.5 to 1."""
    assert contrast(one, other) == pytest.approx(ratio, abs=0.005)
