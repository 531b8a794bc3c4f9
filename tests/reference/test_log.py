"""Rows of the season log by hand: what they owe, what they lack, how they rank."""

import math

import pytest

from builder.reference import log

LIMITS = {"day_floor_pH": 10.5, "day_ceiling_pH": 11.5}
PRODUCT = {"day_holdup_L": 109.0, "day_factor_n": 40.0}
GALLON_L = 3.785411784  # US gallon, 231 cubic inches (definition)


def test_three_events_owe_a_rinse_and_one_is_an_alkaline_wash() -> None:
    codes = ("run", "rinse", "alkaline", "acid", "first", "storage")
    assert [log.owing_n(code) for code in codes] == [0, 0, 1, 1, 1, 0]
    assert [log.alkaline_n(code) for code in codes] == [0, 0, 1, 0, 0, 0]


def test_rows_that_owe_a_rinse_are_numbered_through_blanks() -> None:
    numbers = [log.entry_n()]
    for owing in (1.0, None, 0.0, 1.0):
        numbers.append(log.entry_n(owing, numbers[-1]))
    assert numbers == [0, 1, 1, 1, 2]


@pytest.mark.parametrize(
    ("event", "day", "owed"),
    [
        ("alkaline", {}, 4360.0),
        ("acid", {}, 4360.0),
        ("first", {}, 2900.0),
        ("alkaline", {"day_holdup_L": 100.0}, 4000.0),
        ("acid", {"day_factor_n": 30.0}, 3270.0),
        ("alkaline", {"day_holdup_L": 100.0, "day_factor_n": 30.0}, 3000.0),
        ("first", {"day_holdup_L": 100.0, "day_factor_n": 30.0}, 2900.0),
        ("alkaline", {"day_holdup_L": 100.0, "day_owed_L": 5000.0}, 5000.0),
        ("first", {"day_owed_L": 0.0}, 0.0),
    ],
)
def test_what_held_on_the_day_goes_before_what_holds_today(event, day, owed) -> None:
    assert log.owed_L(event, 4360.0, 2900.0, 109.0, 40.0, **day) == owed


@pytest.mark.parametrize("event", ["run", "rinse", "storage"])
def test_no_rinse_is_owed_after_a_run_a_rinse_or_storage(event) -> None:
    with pytest.raises(ValueError, match=f"{event} owes no rinse"):
        log.owed_L(event, 4360.0, 2900.0, 109.0, 40.0, 5000.0)


@pytest.mark.parametrize(
    ("event", "day", "leans"),
    [
        ("run", {}, 0),
        ("alkaline", {}, 1),
        ("alkaline", {"day_owed_L": 4360.0}, 1),
        ("alkaline", {"day_owed_L": 4360.0, "day_floor_pH": 10.5}, 1),
        ("alkaline", {"day_owed_L": 4360.0, **LIMITS}, 0),
        ("alkaline", {**PRODUCT, **LIMITS}, 0),
        ("alkaline", {"day_holdup_L": 109.0, **LIMITS}, 1),
        ("acid", PRODUCT, 0),
        ("acid", {"day_factor_n": 40.0}, 1),
        ("first", PRODUCT, 1),
        ("first", {"day_owed_L": 2900.0}, 0),
    ],
)
def test_a_row_is_marked_while_any_input_of_today_stands_in(event, day, leans) -> None:
    assert log.today_n(event, **day) == leans


def test_margins_take_the_days_limits_where_they_were_written_down() -> None:
    assert log.top_margin_pH(11.25, 11.5, 1.0) == 0.25
    assert log.top_margin_pH(11.25, 11.5, 1.0, 11.0) == -0.25
    assert log.low_margin_pH(10.75, 10.5, 1.0) == 0.25
    assert log.low_margin_pH(10.75, 10.5, 1.0, 11.0) == -0.25


@pytest.mark.parametrize("margin", [log.top_margin_pH, log.low_margin_pH])
def test_a_row_that_is_no_alkaline_wash_has_no_margins(margin) -> None:
    for day in ((), (11.0,)):
        with pytest.raises(ValueError, match="no alkaline wash, no margin"):
            margin(3.1, 10.5, 0.0, *day)


def test_rinse_water_is_read_off_or_flow_times_time() -> None:
    assert log.done_L(4360.0) == log.done_L(None, 40.0, 109.0) == 4360.0
    assert log.done_L(0.0, 40.0, 109.0) == 0.0
    for given in ({}, {"rinse_Lpmin": 40.0}, {"rinse_min": 109.0}):
        with pytest.raises(ValueError, match="lacks rinse_L, or rinse_Lpmin and rinse_min"):
            log.done_L(**given)


def test_a_rinse_is_never_short_by_noise_nor_by_less_than_nothing() -> None:
    assert log.short_L(4360.0, 4000.0) == 360.0
    assert log.short_L(4360.0, 5000.0) == log.short_L(0.0, 0.0) == 0.0
    assert log.short_L(40 * 27.15 * 1.1, 1194.6) == 0.0  # 1194.6000000000001
    for gallons, minutes, owed in ((27.74, 40, 1109.6), (29.214, 41, 1197.774)):
        assert log.short_L(owed * GALLON_L, gallons * GALLON_L * minutes) == 0.0


@pytest.mark.parametrize("scale", [1, 7, 12_345, 100_000])
def test_a_lack_of_exactly_one_part_in_a_thousand_million_does_not_count(scale) -> None:
    owed, done = scale * 1e9, scale * (1e9 - 1)
    assert log.short_L(owed, done) == 0.0
    assert log.short_L(owed, math.nextafter(done, 0)) > scale


def test_a_row_is_begun_by_any_of_seven_columns() -> None:
    assert log.begun_n() == 0
    typed = {"day_d": 46451.0, "event": "run", "hours_h": 0.0, "sap_L": 1.0, "flow_Lph": 1.0}
    for name, value in {**typed, "rinse_L": 1.0, "rinse_min": 1.0}.items():
        assert log.begun_n(**{name: value}) == 1


@pytest.mark.parametrize(
    ("row", "lacking"),
    [
        ((0,), 0),
        ((1,), 2),
        ((1, 46451.0, "run"), 0),
        ((1, 46451.0, "alkaline"), 3),
        ((1, 46451.0, "acid"), 1),
        ((1, 46451.0, "first"), 1),
        ((1, 46451.0, "alkaline", 4360.0, 11.3), 1),
        ((1, 46451.0, "alkaline", 4360.0, 11.3, 10.8), 0),
    ],
)
def test_what_is_missing_is_counted_only_in_a_row_that_is_begun(row, lacking) -> None:
    assert log.lacking_n(*row) == lacking


@pytest.mark.parametrize(
    ("row", "bad"),
    [
        ((1, "alkaline", 10.0, -0.1, -0.1), 3),
        ((1, "alkaline", 0.0, 0.0, 0.0), 0),
        ((1, "alkaline"), 0),
        ((1, "acid", 10.0, 8.9, -7.4), 1),
        ((1, "run", 10.0, -0.1, -0.1), 0),
        ((0, "alkaline", 10.0, -0.1, -0.1), 0),
    ],
)
def test_what_is_wrong_is_counted_where_it_is_told(row, bad) -> None:
    assert log.bad_n(*row) == bad


def test_sugar_at_the_resolution_of_the_instrument_is_not_seen() -> None:
    assert [log.watch_n(1, brix, 0.1) for brix in (0.0, 0.1, 0.2)] == [0, 0, 1]
    assert log.watch_n(1, 0.4 - 0.3, 0.1) == 0  # 0.10000000000000003
    assert log.watch_n(1) == log.watch_n(1, 0.2) == log.watch_n(0, 0.2, 0.1) == 0


def test_the_worst_finding_ranks_the_row() -> None:
    ranks = {(0, 0, 0): 1, (0, 0, 1): 2, (0, 2, 1): 3, (1, 2, 1): 4, (1, 0, 0): 4}
    assert {key: log.rank_n(1, *key) for key in ranks} == ranks
    with pytest.raises(ValueError, match="begun_n = 0 n: a row that is not begun"):
        log.rank_n(0, 0, 0, 0)
