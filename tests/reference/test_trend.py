"""Temperature factors against published figures; the line against another least squares."""

import numpy as np
import pytest

from builder.reference import trend

FORMS = ("two_branch", "percent", "viscosity")  # the viscosity itself: see the clean-water test


def draw_line(days, flows) -> tuple[float, float]:
    """Return slope and start of the line through all points."""
    rows = (float(len(days)), [1.0] * len(days), days, flows)
    return trend.flow_slope_pctpd(*rows), trend.flow_start_pct(*rows)


def forecast(days, flows, limit=88.0) -> float:
    """Return the day on which the line through all points meets the limit."""
    return trend.next_wash_d(46451.0, *draw_line(days, flows), limit)


@pytest.mark.parametrize(
    ("temp_degC", "factor"),
    [
        (2.0, 0.4284),
        (5.0, 0.4824),
        (7.0, 0.5213),
        (10.0, 0.5844),
        (12.78, 0.6483),
        (15.0, 0.7034),
        (20.0, 0.8412),
        (25.0, 1.0),
        (30.0, 1.1574),
        (40.0, 1.5289),
        (45.0, 1.7457),
    ],
)
def test_two_branch_factor_agrees_with_the_generic_equation(temp_degC, factor) -> None:
    # figures worked out from a generic design equation, which was read; it takes 298 K and
    # 273 + t, here 298.15 K and 273.15 + t: 0.09 per cent apart at 2 degC, less above
    assert trend.tcf_n(temp_degC, "two_branch") == pytest.approx(factor, rel=1e-3)


@pytest.mark.parametrize(("temp_degC", "factor"), [(5.0, 0.554), (10.0, 0.642), (20.0, 0.863)])
def test_percent_factor_agrees_with_its_published_figures(temp_degC, factor) -> None:
    # ASTM D4516, from memory
    assert trend.tcf_n(temp_degC, "percent") == pytest.approx(factor, abs=6e-4)


@pytest.mark.parametrize("form", FORMS)
def test_every_form_is_one_at_25_degC_and_rises_and_ends_with_the_viscosity(form) -> None:
    factors = [trend.tcf_n(t / 2, form) for t in range(-40, 221)]
    assert factors == sorted(factors)
    assert trend.tcf_n(25.0, form) == pytest.approx(1.0, rel=1e-14)
    for beyond in (-300.0, -20.1, 110.1):
        with pytest.raises(ValueError, match="beyond the model, -20 to 110 degC"):
            trend.tcf_n(beyond, form)


@pytest.mark.parametrize(("temp_degC", "drive_bar"), [(3.0, 12.0), (9.0, 16.2), (20.0, 20.0)])
def test_a_clean_membrane_gives_a_hundred_per_cent_at_any_temperature(temp_degC, drive_bar) -> None:
    factor = trend.tcf_n(temp_degC, "viscosity")
    flow = 1500.0 * factor / 0.662 * drive_bar / 16.2
    assert trend.flow_pct(flow, factor, drive_bar, 0.662, 16.2, 1500.0) == pytest.approx(100.0)


def test_a_blank_permeate_pressure_counts_as_none() -> None:
    assert trend.drive_bar(17.0, 16.0) == trend.drive_bar(17.0, 16.0, 0.0) == 16.5


@pytest.mark.parametrize(("feed", "out", "back"), [(1.0, 1.0, 1.5), (0.1, 0.2, 0.15)])
def test_nothing_drives_where_the_permeate_pushes_back(feed, out, back) -> None:
    with pytest.raises(ValueError, match="is not below the mean"):
        trend.drive_bar(feed, out, back)


def test_the_least_difference_of_pressures_that_is_told_apart_drives() -> None:
    assert trend.drive_bar(17.0, 16.0, 16.5 - 5e-13) == pytest.approx(5e-13, rel=1e-2)


def test_trend_rows_hold_numbers_only() -> None:
    assert trend.since_d(46455.0, 46451.0) == 4
    assert trend.since_d(None, 46451.0) == trend.since_d(46455.0) == 0
    assert trend.shown_pct() == trend.weight_n() == 0


@pytest.mark.parametrize(
    ("day", "flow", "wash", "weight"),
    [
        (5.0, 95.0, None, 1),
        (5.0, 95.0, 4.0, 1),
        (5.0, 95.0, 5.0, 0),
        (5.0, 95.0, 6.0, 0),
        (5.0, 0.0, 4.0, 1),
        (None, 95.0, 4.0, 0),
        (5.0, None, 4.0, 0),
    ],
)
def test_rows_up_to_the_day_of_the_last_wash_do_not_count(day, flow, wash, weight) -> None:
    assert trend.weight_n(day, flow, wash) == weight


def test_the_line_agrees_with_sums_of_squares_on_scattered_points() -> None:
    noise = np.random.default_rng(7)
    for _ in range(50):
        days = noise.uniform(0, 60, 40)
        flows = 100 - noise.uniform(-1, 3) * days + noise.normal(0, 2, 40)
        cross = np.sum((days - days.mean()) * (flows - flows.mean()))
        slope = cross / np.sum((days - days.mean()) ** 2)
        found = draw_line(days.tolist(), flows.tolist())
        assert found == pytest.approx((slope, flows.mean() - slope * days.mean()), rel=1e-10)


def test_rows_without_weight_change_nothing() -> None:
    weights, days, flows = [0.0, 1.0, None, 1.0, 1.0], [0.0, 1, 0, 2, 4], [0.0, 98, 0, 96, 92]
    assert trend.trend_points_n(weights) == 3
    assert trend.flow_slope_pctpd(3.0, weights, days, flows) == pytest.approx(-2.0)
    assert trend.flow_start_pct(3.0, weights, days, flows) == pytest.approx(100.0)


def test_the_next_wash_is_where_the_line_meets_the_limit() -> None:
    assert forecast([1.0, 2.0, 4.0], [98.0, 96.0, 92.0]) == pytest.approx(46457, rel=1e-12)
    assert forecast([0.0, 1.0, 2.0], [100.0, 99.998, 99.996], 99.98) == pytest.approx(46461.0)


@pytest.mark.parametrize(
    ("days", "flows"),
    [
        ([0.0, 1.0, 2.0, 5.0, 9.0], [91.3] * 5),
        ([0.0, 1.0, 2.0], [0.0] * 3),
        # 1400 and 1300 on one day, 1350 on the next, against a baseline of 1480
        ([0.0, 0.0, 1.0], [flow / 14.8 for flow in (1400.0, 1300.0, 1350.0)]),
    ],
)
def test_a_flow_that_is_level_but_for_rounding_has_no_next_wash(days, flows) -> None:
    slope, start = draw_line(days, flows)
    assert (slope, start) == pytest.approx((0.0, np.mean(flows)), abs=1e-12)
    with pytest.raises(ValueError, match=r"is no fall of 0\.0005 pctpd"):
        forecast(days, flows)


def test_a_fall_counts_from_what_is_shown_as_a_thousandth_of_a_per_cent_a_day() -> None:
    assert trend.next_wash_d(46451.0, -0.0005, 90.0, 88.0) == pytest.approx(46451 + 4000)
    for slope in (-0.0004, 0.1):
        with pytest.raises(ValueError, match=f"flow_slope_pctpd = {slope} pctpd is no fall"):
            trend.next_wash_d(46451.0, slope, 90.0, 88.0)


def test_two_points_or_one_day_make_no_line() -> None:
    with pytest.raises(ValueError, match=r"trend_points_n = 2\.0 n: a line needs 3 points"):
        draw_line([0.0, 1.0], [99.0, 98.0])
    with pytest.raises(ValueError, match="holds one day only"):
        draw_line([3.0, 3.0, 3.0], [99.0, 98.0, 97.0])


def test_the_line_is_drawn_from_the_last_wash_to_the_last_day_of_the_log() -> None:
    days = [0.0, 4.0, None, 21.0, 17.0, None]
    assert [trend.line_d(row, 46460.0, 46451.0, days) for row in (1.0, 2.0)] == [9.0, 21.0]


def test_the_line_starts_on_the_first_day_when_the_last_wash_was_before_it() -> None:
    assert trend.line_d(1.0, 46440.0, 46451.0, [0.0, 4.0]) == 0.0


def test_the_line_falls_by_its_slope_each_day_from_the_first() -> None:
    assert [trend.line_pct(day, 98.0, -0.5) for day in (0.0, 9.0, 21.0)] == [98.0, 93.5, 87.5]
