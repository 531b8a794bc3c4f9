"""Totals, counts and record of the season: by hand, and of a made-up season by a table."""

import numpy as np
import pandas as pd
import pytest

from builder.reference import season as reference
from builder.reference import trend

from . import season

WORKED = season.work_out(season.make_season())
TABLE = pd.DataFrame(WORKED)
ENTRIES = 76.0  # 78 rows, less the empty one and the one that holds a note only
POINTS = (WORKED["weight_n"], WORKED["since_d"], WORKED["shown_pct"])
COUNTS = {
    "season_washes_n": ("event",),
    "season_first_rinses_n": ("event",),
    "washes_low_n": ("alkaline_n", "low_margin_pH"),
    "rinses_short_n": ("short_L",),
    "rows_missing_n": ("rank_n",),
    "rows_today_n": ("today_n",),
}
TOTALS = {
    "season_hours_h": "hours_h",
    "season_sap_L": "sap_L",
    "season_cleaner_kg": "product_kg",
    "season_rinse_L": "done_L",
}


def test_rows_that_are_begun_are_counted() -> None:
    assert reference.log_entries_n(WORKED["begun_n"]) == ENTRIES == len(TABLE) - 2


@pytest.mark.parametrize("name", TOTALS)
def test_totals_of_the_sample_season_agree_with_a_table(name) -> None:
    total = getattr(reference, name)(WORKED[TOTALS[name]])
    assert total == pytest.approx(TABLE[TOTALS[name]].astype(float).sum(), rel=1e-13)


@pytest.mark.parametrize("name", TOTALS)
def test_a_column_without_a_number_has_no_total_and_zeros_have_one(name) -> None:
    total = getattr(reference, name)
    assert total([None, 0.0]) == total([2.5, None, -2.5]) == 0
    assert total([0.1] * 10) == 1.0  # rounded once: adding in turn gives 0.9999999999999999
    for column in ([], [None, None]):
        with pytest.raises(ValueError, match=f"^log_{TOTALS[name]}_list holds no number to total$"):
            total(column)


@pytest.mark.parametrize("name", COUNTS)
def test_counts_of_the_sample_season_are_those_that_were_planned(name) -> None:
    columns = (WORKED[column] for column in COUNTS[name])
    assert getattr(reference, name)(ENTRIES, *columns) == season.PLANNED[name]


@pytest.mark.parametrize("name", COUNTS)
def test_an_empty_log_has_no_counts_and_a_begun_one_may_count_none(name) -> None:
    columns = [[None, None]] * len(COUNTS[name])
    assert getattr(reference, name)(1.0, *columns) == 0
    with pytest.raises(ValueError, match="log_entries_n = 0 n: the log is empty"):
        getattr(reference, name)(0.0, *columns)


def test_an_acid_wash_below_the_floor_is_no_low_wash() -> None:
    assert reference.washes_low_n(4.0, [0.0, 1.0, 1.0, None], [-7.4, -0.1, 0.0, None]) == 1


def test_first_day_and_last_wash_are_found_in_any_order_of_rows() -> None:
    days = [46460.0, None, 46455.0, 46458.0, 46462.0]
    assert reference.first_day_d(days) == 46455
    assert reference.last_wash_d(days, ["alkaline", "alkaline", "run", "acid", "first"]) == 46460
    assert reference.last_wash_d(days, ["run", "alkaline", "run", "first", None]) == 0
    with pytest.raises(ValueError, match="holds no day"):
        reference.first_day_d([None, None])


def test_the_trend_of_the_sample_season_agrees_with_a_table() -> None:
    days = TABLE["day_d"].astype(float)
    last = days.where(TABLE["event"].isin(["alkaline", "acid"])).max()
    counted = TABLE.assign(day=days)[days.gt(last) & TABLE["flow_pct"].notna()]
    slope, start = np.polyfit(counted["day"] - days.min(), counted["flow_pct"].astype(float), 1)
    points = trend.trend_points_n(POINTS[0])
    found = trend.flow_slope_pctpd(points, *POINTS)
    assert points == len(counted) == season.PLANNED["trend_points_n"]
    assert found == pytest.approx(slope, rel=1e-10)
    assert -3.0 < found < -2.0  # the season is made to lose 2.5 per cent a day
    assert trend.flow_start_pct(points, *POINTS) == pytest.approx(start, rel=1e-10)


def test_the_sample_season_washes_again_in_its_last_days() -> None:
    days, events = WORKED["day_d"], WORKED["event"]
    first, last = reference.first_day_d(days), reference.last_wash_d(days, events)
    line = trend.flow_slope_pctpd(5.0, *POINTS), trend.flow_start_pct(5.0, *POINTS)
    assert first == TABLE["day_d"].min()
    assert last == season.PLANNED["last_wash_d"]
    assert last + 4 < trend.next_wash_d(first, *line, 88.0) < last + 6


@pytest.mark.parametrize(
    ("verdict", "bad"),
    [
        (reference.washes_ok, "stop"),
        (reference.rinses_ok, "stop"),
        (reference.log_complete_ok, "look"),
    ],
)
def test_verdicts_turn_at_the_first_case(verdict, bad) -> None:
    assert [verdict(n) for n in (0.0, 1.0)] == ["ok", bad]


def test_the_record_finds_the_row_of_each_rinse() -> None:
    owing = [None, 1.0, 0.0, None, 1.0]
    assert [reference.entry_row_n(k, owing) for k in (1.0, 2.0)] == [2, 5]
    with pytest.raises(ValueError, match="row_n = 3 n is more than the rinses owed"):
        reference.entry_row_n(3, owing)


def test_a_rinse_of_the_record_is_enough_short_or_not_given() -> None:
    owed, done = [None, 4360.0, 4360.0, 2900.0, 0.0], [400.0, 4360.0, 4359.0, None, 0.0]
    states = [reference.record_rinse_n(float(row), owed, done) for row in range(2, 6)]
    assert states == [1, 2, 3, 1]
    with pytest.raises(ValueError, match=r"entry_row_n = 1\.0 n is no row with a volume owed"):
        reference.record_rinse_n(1.0, owed, done)


@pytest.mark.parametrize(("done_L", "state"), [(1000 - 0.9e-6, 1), (1000 - 1.1e-6, 2)])
def test_a_rinse_of_the_record_is_short_exactly_where_the_log_says_so(done_L, state) -> None:
    assert reference.record_rinse_n(1.0, [1000.0], [done_L]) == state


def test_an_element_is_ranked_by_what_it_reads_above_clean_water() -> None:
    readings = (0.2, 0.3, 0.4, 0.5, 0.6)
    sugar = [reference.element_brix(reading, 0.3) for reading in readings]
    assert sugar == pytest.approx([0.0, 0.0, 0.1, 0.2, 0.3], abs=1e-15)
    assert [reference.element_rank_n(s, 0.1, 0.2) for s in sugar] == [1, 1, 1, 2, 3]
