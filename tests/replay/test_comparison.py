"""Each expectation of a story can fail."""

from datetime import date

import pytest

from builder.replay.answers import read_answers, read_record, tell
from builder.replay.comparison import agree, compare
from builder.replay.story import Story
from builder.spec.stories import Answer

ANSWERS = {"why": ["ok", "owes"], "still_L": [0, 1400], "first_to_fix": 2, "next_wash_from": 7.02}
RECORD = [{"kind": "alkaline wash", "owed_L": 4000, "cleared": "2026-03-05", "state": "owes"}]
EXPECT = {
    "why": ["ok", "owes"],
    "still_L": [0, 1400],
    "first_to_fix": 2,
    "next_wash_from": 7.0,
    "within": 0.02,
    "record": [{"kind": "alkaline wash", "owed_L": 4000, "cleared": date(2026, 3, 5)}],
}
CHANGED = {
    "why": (["ok", "ok"], "row 2 why: expected 'ok', found 'owes'"),
    "still_L": ([0, 1399.99], "row 2 still_L: expected 1399.99, found 1400"),
    "first_to_fix": (0, "first_to_fix: expected 0, found 2"),
    "next_wash_from": (7.05, "next_wash_from: expected 7.05, found 7.02"),
    "within": (0.001, "next_wash_from: expected 7.0, found 7.02"),
    "record": ([{"owed_L": 4001}], "record 1 owed_L: expected 4001, found 4000"),
}


def list_told(expect):
    found = compare(Story("s.toml", "", expect=expect), ANSWERS, RECORD)
    return [str(difference) for difference in found]


def test_a_season_as_expected_has_no_difference():
    assert list_told(EXPECT) == []


@pytest.mark.parametrize("key", CHANGED)
def test_each_expectation_that_is_changed_is_told(key):
    value, told = CHANGED[key]
    assert list_told({**EXPECT, key: value}) == [f"s.toml: {told}"]


def test_a_record_with_more_or_fewer_lines_differs():
    assert list_told({"record": []}) == ["s.toml: record lines: expected 0, found 1"]


def test_a_margin_is_for_the_forecast_alone():
    assert list_told({"still_L": [0, 1400.01], "within": 0.02}) != []


@pytest.mark.parametrize("pair", [(0, None), ("", 0), (True, 1.5), (0, 1e-9), ("ok", "okay")])
def test_what_is_not_the_same_does_not_agree(pair):
    assert not agree(*pair)


@pytest.mark.parametrize("pair", [("", None), (4000, 4000 * (1 + 1e-12)), (0, 1e-13)])
def test_nothing_and_nothing_agree_and_so_do_the_last_digits(pair):
    assert agree(*pair)


def test_answers_are_told_in_the_words_of_stories(spec):
    words = spec.stories
    shown = {answer.name: [None] * 3 for answer in (*words.told.values(), *words.asked.values())}
    shown[words.told["why"].name] = [36.0, 8.0, None]
    shown[words.told["column"].name] = [0.0, 16.0, None]
    shown[words.asked["line_differs_from_today"].name] = [1.0]
    shown[words.asked["lines_in_force"].name] = [None, 46000.0, 46010.0]
    answers = read_answers(shown, words, 2)
    assert (answers["why"], answers["column"]) == (["ok", "owes"], ["", "rinse"])
    assert (answers["line_differs_from_today"], answers["lines_in_force"]) == (True, 2)


def test_the_record_ends_with_the_last_debt(spec):
    columns = {answer.name: [None, None] for answer in spec.stories.record.values()}
    columns[spec.stories.record["kind"].name] = ["alkaline", None]
    columns[spec.stories.record["state"].name] = [5.0, None]
    columns[spec.stories.record["cleared"].name] = [46086.0, None]
    (line,) = read_record(columns, spec.stories)
    assert (line["kind"], line["state"], line["cleared"]) == ("alkaline wash", "owes", "2026-03-05")


def test_a_number_that_has_no_word_is_told_as_it_is():
    assert tell(Answer(name="x", words=["ok"]), 2.0) == "no word 2"
    assert tell(Answer(name="x", words=["ok"]), "#VALUE!") == "#VALUE!"
