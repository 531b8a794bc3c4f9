"""A story that cannot be read is told with file and line, everything at once."""

import re
from datetime import date

import pytest

from builder.problems import ProblemsError, UserError
from builder.replay.entries import make_case
from builder.replay.story import read_stories

HEAD = 'title = "A season"\n[given]\nstart = "in use, rinsed"\n'
ROWS = '[[row]]\ndate = 2026-03-05\nevent = "alkaline wash"\nrinse = 4000\n'


@pytest.fixture
def read(spec, tmp_path):
    """Return a function that reads a text as a story."""

    def call(text):
        path = tmp_path / "season.toml"
        path.write_text(text, encoding="utf-8")
        return read_stories([path], spec)[0]

    return call


BAD = {
    "a row in an unknown word": (
        HEAD + '[[row]]\ndate = 2026-03-05\n[[row]]\nevents = "run"\n',
        r"season.toml:7 bad-story events: is unknown here. Did you mean event\?",
    ),
    "an unknown fact": (
        'title = "A season"\n[given]\nstat = "in use, rinsed"\n',
        r"season.toml:3 bad-story stat: is unknown here. Did you mean start\?",
    ),
    "a fact in an unknown word": (
        'title = "A season"\n[given]\nstart = "in use"\n',
        r"season.toml:3 bad-story start: 'in use' is none of stored or new, in use, rinsed.",
    ),
    "an unknown unit": (
        HEAD + 'units = { vol = "gal" }\n',
        r"season.toml:4 bad-story vol: 'gal' is none of L, gal_us, gal_imp.",
    ),
    "a line in an unknown word": (
        HEAD + "in_force = [ { since = 2026-03-01 } ]\n",
        r"season.toml:4 bad-story since: is unknown here.",
    ),
    "an answer that nobody gives": (
        HEAD + ROWS + "[expect]\nstill_l = [0]\n",
        r"season.toml:9 bad-story still_l: is unknown here. Did you mean still_L\?",
    ),
    "a word that is no answer": (
        HEAD + ROWS + '[expect]\nwhy = ["okay"]\n',
        r"season.toml:9 bad-story why: 'okay' is no answer of specs/replay.toml.",
    ),
    "a list that is too short": (
        HEAD + ROWS + ROWS + "[expect]\nstill_L = [0]\n",
        r"season.toml:13 bad-story still_L: has 1 items for 2 rows.",
    ),
    "one number for all rows": (
        HEAD + ROWS + "[expect]\nstill_L = 0\n",
        r"season.toml:9 bad-story still_L: expected a list, found 0.",
    ),
    "a line of the record in an unknown word": (
        HEAD + ROWS + "[expect]\n[[expect.record]]\nowed = 4000\n",
        r"season.toml:10 bad-story owed: is unknown here.",
    ),
    "a cell that is no cell": (
        HEAD + "[[row]]\nrinse = true\n",
        r"season.toml:5 bad-story rinse: expected a number, a text or a date, found True.",
    ),
    "a season that is repeated by halves": (
        "repeat = { times = 1.5 }\n" + HEAD + ROWS,
        r"season.toml:1 bad-story times: expected a whole number, found 1.5.",
    ),
    "no TOML": (HEAD + "[[row]]\nrinse = 4,5\n", r"season.toml:5 not-toml season.toml: "),
}


@pytest.mark.parametrize("case", BAD)
def test_what_is_wrong_is_told_with_its_line(read, case):
    text, expected = BAD[case]
    with pytest.raises(ProblemsError, match=expected):
        read(text)


def test_all_that_is_wrong_in_several_stories_is_told_at_once(spec, tmp_path):
    for name in ("one", "two"):
        (tmp_path / f"{name}.toml").write_text("[given]\nstat = 1\nstop = 2\n")
    with pytest.raises(ProblemsError) as told:
        read_stories([tmp_path / "one.toml", tmp_path / "two.toml"], spec)
    assert len(re.findall("bad-story", str(told.value))) == 4


def test_a_story_that_is_not_there_is_told(spec, tmp_path):
    with pytest.raises(UserError, match=r"nowhere\.toml cannot be read: No such file"):
        read_stories([tmp_path / "nowhere.toml"], spec)


def test_a_row_takes_the_sound_values_of_its_event_and_blanks_stay_blank(read, spec):
    story = read(HEAD + ROWS + 'end_temp = ""\n')
    (row,) = make_case(story, spec).rows["log"]
    assert (row["finish_pH"], row["product"], row["rinse_L"]) == (11.8, "house alkali", 4000)
    assert row["finish_degC"] is None
    assert (row["event"], row["date"]) == ("alkaline", 46086)  # 1900-01-01 is day 2


def test_texts_and_unknown_events_are_typed_as_they_stand(read, spec):
    story = read(HEAD + '[[row]]\nevent = "wash"\nrinse_time = "two hours"\n')
    assert make_case(story, spec).rows["log"] == [{"event": "wash", "rinse_min": "two hours"}]


def test_a_repeated_season_moves_on_by_days(read):
    story = read("repeat = { times = 3, step_days = 2 }\n" + HEAD + ROWS)
    assert [row["date"].day for row in story.rows] == [5, 7, 9]


def test_another_rinse_owed_is_typed_as_a_factor_of_the_hold_up(read, spec):
    given = make_case(read(HEAD + "rinse_owed_L = 6000\n" + ROWS), spec).given
    assert given["rinse_factor_n"] == 60  # of 100 L


def test_other_units_without_a_line_make_a_line_of_the_same_volumes(read, spec):
    story = read(HEAD + 'units = { vol = "gal_us" }\n' + ROWS)
    (line,) = make_case(story, spec).rows["force"]
    # 1 US gal = 3.785411784 L
    assert line["line_rinse_L"] == pytest.approx(4000 / 3.785411784)
    assert (line["line_volume"], line["line_pressure"], line["line_date"]) == (
        "gal_us",
        "bar",
        40000,
    )


def test_usual_units_make_no_line(read, spec):
    assert make_case(read(HEAD + 'units = { vol = "L" }\n' + ROWS), spec).rows["force"] == []


def test_a_line_takes_the_units_of_the_book_where_it_names_none(read, spec):
    lines = (
        'units = { pressure = "psi" }\n'
        'in_force = [ { from = 2026-03-01, rinse_owed = 1060, units = { vol = "gal_us" } } ]\n'
    )
    (line,) = make_case(read(HEAD + lines + ROWS), spec).rows["force"]
    assert (line["line_volume"], line["line_pressure"]) == ("gal_us", "psi")
    assert (line["line_rinse_L"], line["line_date"]) == (
        1060,
        (date(2026, 3, 1) - date(1899, 12, 30)).days,
    )
