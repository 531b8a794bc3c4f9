"""Summary and trend of the season log against a table and another least squares.

A total is the sum of what was typed or worked out in its column; where no row holds a number there
is nothing to total. Counts of events are true counts, 0 where there was none.
"""

import math

import numpy as np
import pandas as pd
import pytest

from builder.reference import season_summary, season_trend

from . import season

WORKED = season.work_out(season.make_season())
TABLE = pd.DataFrame(WORKED)
ENTRIES = 76.0  # 78 rows, less the empty one and the one that holds a note only
TREND = (WORKED["weight_n"], WORKED["since_d"], WORKED["shown_pct"])
COUNTS = {
    "season_washes_n": ("event_n",),
    "season_first_rinses_n": ("event_n",),
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


def forecast(days: list[float], flows: list[float], limit: float = 88.0) -> float:
    """Return the day on which the line through all points meets the limit."""
    return season_summary.next_wash_d(46451.0, *line(days, flows), limit)


def line(days: list[float], flows: list[float]) -> tuple[float, float]:
    """Return slope and start of the line through all points."""
    points = ([1.0] * len(days), days, flows)
    slope = season_summary.flow_slope_pctpd(float(len(days)), *points)
    return slope, season_summary.flow_start_pct(float(len(days)), *points, slope)


def test_rows_that_are_begun_are_counted() -> None:
    assert season_summary.log_entries_n([1.0, 0.0, None, 1.0]) == 2
    assert season_summary.log_entries_n(WORKED["begun_n"]) == ENTRIES == len(TABLE) - 2


@pytest.mark.parametrize("name", TOTALS)
def test_totals_of_the_sample_season_agree_with_a_table(name: str) -> None:
    total = getattr(season_summary, name)(WORKED[TOTALS[name]])
    assert total == pytest.approx(TABLE[TOTALS[name]].astype(float).sum(), rel=1e-13)


@pytest.mark.parametrize("name", COUNTS)
def test_counts_of_the_sample_season_are_those_that_were_planned(name: str) -> None:
    columns = (WORKED[column] for column in COUNTS[name])
    assert getattr(season_summary, name)(ENTRIES, *columns) == season.PLANNED[name]


@pytest.mark.parametrize("name", COUNTS)
def test_an_empty_log_has_no_counts(name: str) -> None:
    columns: list[list[float | None]] = [[None, None]] * len(COUNTS[name])
    with pytest.raises(ValueError, match=r"log_entries_n = 0\.0 n lies outside 1 to"):
        getattr(season_summary, name)(0.0, *columns)


@pytest.mark.parametrize("name", COUNTS)
def test_nothing_counted_is_a_count_of_zero(name: str) -> None:
    columns: list[list[float | None]] = [[None, None]] * len(COUNTS[name])
    assert getattr(season_summary, name)(1.0, *columns) == 0


@pytest.mark.parametrize("column", [[], [None, None], ["", "a few", True]])
@pytest.mark.parametrize("name", TOTALS)
def test_a_column_without_a_number_has_no_total(name: str, column: list[object]) -> None:
    with pytest.raises(ValueError, match=f"^log_{TOTALS[name]}_list holds no number to total$"):
        getattr(season_summary, name)(column)


@pytest.mark.parametrize("name", TOTALS)
def test_zeros_that_were_typed_have_a_total_of_zero(name: str) -> None:
    assert getattr(season_summary, name)([None, 0.0]) == 0
    assert getattr(season_summary, name)([2.5, -2.5]) == 0


@pytest.mark.parametrize("name", TOTALS)
def test_blanks_and_texts_among_numbers_are_left_out_of_the_total(name: str) -> None:
    total = getattr(season_summary, name)
    assert total([None, 1.25, "2", None, 0.0, 3, True, "abc"]) == 4.25
    assert total([0.1] * 10) == 1.0  # exact: adding in turn gives 0.9999999999999999


def test_an_acid_wash_below_the_floor_is_no_low_wash() -> None:
    assert season_summary.washes_low_n(4.0, [0.0, 1.0, 1.0, None], [-7.4, -0.1, 0.0, None]) == 1


def test_a_value_in_a_column_is_refused_with_its_row() -> None:
    text = r"log_hours_h_list, row 2 = nan h lies outside -10000 to 10000 h"
    with pytest.raises(ValueError, match=text):
        season_summary.season_hours_h(["none", math.nan])


def test_first_day_and_last_wash_are_found_in_any_order_of_rows() -> None:
    days = [46460.0, None, 46455.0, 46458.0, 46462.0]
    events = [3.0, 3.0, 1.0, 4.0, 5.0]
    assert season_summary.first_day_d(days) == 46455
    assert season_summary.last_wash_d(days, events) == 46460
    assert season_summary.last_wash_d(days, [1.0, 3.0, 1.0, 5.0, None]) == 0
    with pytest.raises(ValueError, match="holds no day"):
        season_summary.first_day_d([None, None])


def test_trend_rows_hold_numbers_only() -> None:
    assert season_trend.since_d(46455.0, 46451.0) == 4
    assert season_trend.since_d(None, 46451.0) == season_trend.since_d(46455.0) == 0
    assert season_trend.shown_pct(95.5) == 95.5
    assert season_trend.shown_pct() == season_trend.weight_n() == 0


@pytest.mark.parametrize(
    ("day", "flow", "wash", "weight"),
    [
        (5.0, 95.0, None, 1),
        (5.0, 95.0, 0.0, 1),
        (5.0, 95.0, 4.0, 1),
        (5.0, 95.0, 5.0, 0),
        (5.0, 95.0, 6.0, 0),
        (5.0, 0.0, 4.0, 1),
        (None, 95.0, 4.0, 0),
        (5.0, None, 4.0, 0),
    ],
)
def test_rows_up_to_the_day_of_the_last_wash_do_not_count(
    day: float | None, flow: float | None, wash: float | None, weight: float
) -> None:
    assert season_trend.weight_n(day, flow, wash) == weight


def test_the_line_agrees_with_a_polynomial_fit_on_scattered_points() -> None:
    noise = np.random.default_rng(7)
    for _ in range(50):
        days = sorted(noise.uniform(0, 60, 40).tolist())
        flows = (100 - noise.uniform(-1, 3) * np.array(days) + noise.normal(0, 2, 40)).clip(0)
        slope, start = np.polyfit(days, flows, 1)
        assert line(days, flows.tolist()) == pytest.approx((slope, start), rel=1e-10, abs=1e-12)


def test_weights_leave_rows_out_and_blanks_change_nothing() -> None:
    weights = [0.0, 1.0, None, 1.0, 1.0]
    days, flows = [0.0, 1.0, None, 2.0, 4.0], [0.0, 98.0, None, 96.0, 92.0]
    slope = season_summary.flow_slope_pctpd(3.0, weights, days, flows)
    assert slope == -2
    assert season_summary.flow_start_pct(3.0, weights, days, flows, slope) == 100


def test_a_steady_flow_has_no_slope_at_all_and_no_next_wash() -> None:
    slope, start = line([0.0, 1.0, 2.0, 5.0, 9.0], [91.3] * 5)
    assert slope == 0
    assert start == pytest.approx(91.3, rel=1e-15)
    with pytest.raises(ValueError, match=r"flow_slope_pctpd = 0\.0 pctpd lies outside"):
        forecast([0.0, 1.0, 2.0, 5.0, 9.0], [91.3] * 5)


def test_a_flow_that_is_level_but_for_rounding_has_no_next_wash() -> None:
    # 1400 and 1300 on one day, 1350 on the next, against a baseline of 1480
    days, flows = [0.0, 0.0, 1.0], [flow / 14.8 for flow in (1400.0, 1300.0, 1350.0)]
    assert -1e-13 < line(days, flows)[0] < 0
    with pytest.raises(ValueError, match=r"flow_slope_pctpd = -\d\.\d+e-1\d pctpd lies outside"):
        forecast(days, flows)


def test_a_slow_but_true_fall_has_a_next_wash() -> None:
    days = [0.0, 1.0, 2.0]
    assert forecast(days, [100.0, 99.998, 99.996], 99.98) == pytest.approx(46461.0)


def test_a_fall_counts_from_what_is_shown_as_a_thousandth_of_a_per_cent_a_day() -> None:
    season_summary.next_wash_d(46451.0, -0.0005, 90.0, 88.0)
    with pytest.raises(ValueError, match=r"flow_slope_pctpd = -0\.0004 pctpd lies outside"):
        season_summary.next_wash_d(46451.0, -0.0004, 90.0, 88.0)


def test_a_rising_flow_has_no_next_wash() -> None:
    with pytest.raises(ValueError, match=r"flow_slope_pctpd = 0\.\d+ pctpd lies outside"):
        forecast([0.0, 1.0, 2.0], [80.0, 80.1, 80.2])


def test_two_points_or_one_day_make_no_line() -> None:
    with pytest.raises(ValueError, match=r"trend_points_n = 2\.0 n lies outside 3 to"):
        line([0.0, 1.0], [99.0, 98.0])
    with pytest.raises(ValueError, match="holds one day only"):
        line([3.0, 3.0, 3.0], [99.0, 98.0, 97.0])


def test_the_next_wash_is_where_the_line_meets_the_limit() -> None:
    assert forecast([1.0, 2.0, 4.0], [98.0, 96.0, 92.0]) == pytest.approx(46457, rel=1e-12)


def test_the_trend_of_the_sample_season_agrees_with_a_table() -> None:
    days = TABLE["day_d"].astype(float)
    last = days.where(TABLE["event"].isin(["alkaline", "acid"])).max()
    counted = TABLE.assign(day=days)[days.gt(last) & TABLE["flow_pct"].notna()]
    slope, start = np.polyfit(counted["day"] - days.min(), counted["flow_pct"].astype(float), 1)
    points = season_summary.trend_points_n(TREND[0])
    found = season_summary.flow_slope_pctpd(points, *TREND)
    assert points == len(counted) == season.PLANNED["trend_points_n"]
    assert found == pytest.approx(slope, rel=1e-10)
    assert -3.0 < found < -2.0  # the season is made to lose 2.5 per cent a day
    assert season_summary.flow_start_pct(points, *TREND, found) == pytest.approx(start, rel=1e-10)


def test_the_sample_season_washes_again_in_its_last_days() -> None:
    day_list, events = WORKED["day_d"], WORKED["event_n"]
    first, last = season_summary.first_day_d(day_list), season_summary.last_wash_d(day_list, events)
    slope = season_summary.flow_slope_pctpd(5.0, *TREND)
    start = season_summary.flow_start_pct(5.0, *TREND, slope)
    next_wash = season_summary.next_wash_d(first, slope, start, 88.0)
    assert first == TABLE["day_d"].min()
    assert last == season.PLANNED["last_wash_d"]
    assert last + 4 < next_wash < last + 6
    assert start + slope * (next_wash - first) == pytest.approx(88.0, rel=1e-12)


def test_verdicts_stop_at_the_first_case_and_look_at_a_gap() -> None:
    assert [season_summary.washes_ok(n) for n in (0.0, 1.0)] == ["ok", "stop"]
    assert [season_summary.rinses_ok(n) for n in (0.0, 1.0)] == ["ok", "stop"]
    assert [season_summary.log_complete_ok(n) for n in (0.0, 1.0)] == ["ok", "look"]
