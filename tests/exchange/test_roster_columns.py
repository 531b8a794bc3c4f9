import pytest

from builder.problems import ProblemsError
from builder.roster.columns import Column, fold, list_known, read_columns


def read(headings, spec):
    return read_columns("r.csv", 1, headings, spec)


def test_headings_are_known_in_both_languages_in_any_order(spec):
    words = ["Courriel", "FICHIER", " unites", "Langue", "machine", "Site", "Producteur"]
    keys = ["mail", "file", "units", "language", "machine", "site", "producer"]
    assert [column.key for column in read(words, spec)] == keys
    assert [column.key for column in read(keys, spec)] == keys


@pytest.mark.parametrize(
    "word", ["Unités", "UNITÉS", "unite\u0301s", "u n i t e s", "\u00a0unités"]
)
def test_accents_capitals_and_spaces_do_not_matter(spec, word):
    assert [column.key for column in read([word], spec)] == ["units"]


@pytest.mark.parametrize(
    "word", ["vessel_bore_mm [in]", "Vessel Bore mm[ in ]", "VESSEL_BORE_MM [in] "]
)
def test_an_input_may_bring_its_unit(spec, word):
    assert read([word], spec) == [Column(" ".join(word.split()), "vessel_bore_mm", "in")]


def test_no_two_headings_look_the_same(spec):
    known = list(list_known(spec))
    assert len({word for word, key in known}) == len({(fold(word), key) for word, key in known})


@pytest.mark.parametrize(
    ("headings", "told"),
    [
        (["vessel_boar_mm"], "vessel_boar_mm: no column has this heading. Did you mean ve"),
        (["Producteurs"], "Producteurs: no column has this heading. Did you mean producteur?"),
        (["site", "SITE"], 'SITE: means site, as "site" does.'),
        (["unités", "units"], 'units: means units, as "unités" does.'),
        (["site", None, "file"], "column 2: the heading is blank."),
        (["rinse_owed_L"], "rinse_owed_L: is a result, which is worked out, not an input."),
        (["vessel_bore_mm [L]"], 'vessel_bore_mm [L]: L in "vessel_bore_mm [L]" is a unit of'),
        (["vessel_bore_mm [inch]"], 'vessel_bore_mm [inch]: unit "inch" in "vessel'),
        (["vessel_bore_mm []"], 'vessel_bore_mm []: "vessel_bore_mm []" has no unit.'),
        (["rinse_rule [L]"], "rinse_rule [L]: only an input has a unit."),
        (["\u202esite\u0007x"], "\\u202esite\\u0007x: no column has this heading."),
        ([12.5], "12.5: no column has this heading."),
    ],
)  # fmt: skip
def test_a_heading_that_cannot_be_used_is_told_in_these_words(spec, headings, told):
    with pytest.raises(ProblemsError) as error:
        read(headings, spec)
    (problem,) = error.value.problems
    assert f"{problem.name}: {problem.text}".startswith(told)
    assert (problem.file, problem.line) == ("r.csv", 1)


def test_every_bad_heading_is_told_at_once(spec):
    with pytest.raises(ProblemsError) as error:
        read(["a", "site", "b", "site"], spec)
    codes = [problem.code for problem in error.value.problems]
    assert codes == ["duplicate-heading", "unknown-heading", "unknown-heading"]
