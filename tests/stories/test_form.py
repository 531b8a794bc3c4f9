"""The stories themselves: well formed, and at one with themselves. Nothing plays them yet."""

import datetime
import tomllib
from pathlib import Path
from typing import Any

import pytest

STORIES = sorted(Path(__file__).parent.glob("*.toml"))
EVENTS = {"run", "rinse", "alkaline wash", "acid wash", "first rinse", "clean-water test"}
EVENTS |= {"storage", "replacement"}
COLUMNS = {"date", "event", "hours", "flow", "feed", "conc", "perm", "temp", "prefilter"}
COLUMNS |= {"product", "mass", "start_pH", "start_temp", "end_pH", "end_temp", "rinse"}
COLUMNS |= {"rinse_flow", "rinse_time", "permeate_brix", "water", "initials", "done"}
# The first that applies is what a row is told; its rank is the row's verdict.
CAUSES = {
    "stop": "sap_on_owing acid_on_owing sugar_alarm sugar_stays start_high acid_low flow_stop owes",
    "incomplete": "not_usable date_falls missing pressures",
    "look": "trace recheck flow_wash drop_high prefilter end_low end_above_start start_low pH_close"
    " acid_first acid_weak product_other storage_long date_gap day_over_24 rinse_not_counted"
    " rinse_differs nothing_owed water_other test_on_owing temp_gap flow_high",
    "ok": "made_good ok",
}
RANKS = {cause: rank for rank, causes in CAUSES.items() for cause in causes.split()} | {"": ""}
PER_ROW = ("why", "verdict", "column", "line", "still_L", "pct")
CLEARED = {"enough", "made good"}
STATES = CLEARED | {"sap first", "carried on", "owes"}


def read(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))


@pytest.fixture(params=STORIES, ids=lambda path: path.stem)
def story(request: pytest.FixtureRequest) -> dict[str, Any]:
    return read(request.param)


def test_each_story_has_a_title_of_its_own() -> None:
    titles = [read(path)["title"] for path in STORIES]
    assert len(titles) == len(set(titles)) >= 59


@pytest.mark.parametrize("path", STORIES, ids=lambda path: path.stem)
def test_a_story_begins_with_what_it_works_out_by_hand(path: Path) -> None:
    assert path.read_text(encoding="utf-8").startswith("# ")


def test_rows_name_known_columns(story: dict[str, Any]) -> None:
    assert {key for row in story["row"] for key in row} <= COLUMNS


def test_what_is_told_of_rows_is_told_of_each(story: dict[str, Any]) -> None:
    count = len(story["row"]) * story.get("repeat", {"times": 1})["times"]
    told = {key: len(story["expect"][key]) for key in PER_ROW if key in story["expect"]}
    assert told == dict.fromkeys(told, count)


def test_a_verdict_is_the_rank_of_its_cause(story: dict[str, Any]) -> None:
    why = story["expect"].get("why", [])
    assert set(why) <= set(RANKS)
    assert story["expect"].get("verdict", [RANKS[w] for w in why]) == [RANKS[w] for w in why]
    assert set(story["expect"].get("column", [])) <= COLUMNS | {""}


def test_what_is_left_at_the_end_is_what_the_last_row_leaves(story: dict[str, Any]) -> None:
    left = story["expect"].get("still_L") or [story["expect"]["still_to_rinse_L"]]
    assert left[-1] == story["expect"]["still_to_rinse_L"]


def test_the_first_thing_to_fix_is_no_row_in_order(story: dict[str, Any]) -> None:
    row, why = story["expect"]["first_to_fix"], story["expect"].get("why", [])
    assert row == 0 or not why or RANKS[why[row - 1]] not in {"ok", ""}


def test_a_debt_is_cleared_where_its_state_says_so(story: dict[str, Any]) -> None:
    for line in story["expect"].get("record", []):
        assert line["kind"] in EVENTS | {"start"}
        assert line["state"] in STATES
        if line["state"] in CLEARED:
            assert line["done_L"] >= line["owed_L"] * (1 - 1e-9)
        if line["state"] == "owes":
            assert "cleared" not in line
        assert isinstance(line.get("cleared", datetime.date.min), datetime.date)
