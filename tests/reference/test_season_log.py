"""Rows of the season log against hand counts and published factors."""

import math

import iapws
import pytest

from builder.reference import season_elements, season_log, season_record


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
def test_two_branch_factor_agrees_with_the_generic_equation(
    temp_degC: float, factor: float
) -> None:
    # figures worked out from a generic design equation, which was read; it takes 298 K and
    # 273 + t, here 298.15 K and 273.15 + t: 0.09 per cent apart at 2 degC, less above
    slope_K = 2640 if temp_degC >= 25 else 3020
    rounded = math.exp(slope_K * (1 / 298 - 1 / (273 + temp_degC)))
    assert rounded == pytest.approx(factor, abs=6e-5)
    assert season_log.tcf_n(temp_degC, "two_branch") == pytest.approx(rounded, rel=9e-4)


@pytest.mark.parametrize(("temp_degC", "divisor"), [(10.0, 1.711), (15.0, 1.422), (20.0, 1.189)])
def test_two_branch_factor_agrees_with_a_printed_chart(temp_degC: float, divisor: float) -> None:
    # trade chart, generic, read second hand
    assert 1 / season_log.tcf_n(temp_degC, "two_branch") == pytest.approx(divisor, rel=6e-4)


@pytest.mark.parametrize(("temp_degC", "factor"), [(5.0, 0.554), (10.0, 0.642), (20.0, 0.863)])
def test_percent_factor_agrees_with_its_published_figures(temp_degC: float, factor: float) -> None:
    # ASTM D4516, from memory
    assert season_log.tcf_n(temp_degC, "percent") == pytest.approx(factor, abs=6e-4)


@pytest.mark.parametrize("temp_degC", [0.5, 4.0, 9.0, 13.0, 25.0, 40.0, 60.0])
def test_viscosity_factor_agrees_with_the_iapws_library(temp_degC: float) -> None:
    # IAPWS SR6-08 as the library holds it, read
    warm, here = (iapws._iapws._Liquid(t + 273.15, 0.1)["mu"] for t in (25.0, temp_degC))
    assert season_log.tcf_n(temp_degC, "viscosity") == pytest.approx(warm / here, rel=1e-12)


def test_all_forms_are_one_at_25_degC_and_rise() -> None:
    for form in ("two_branch", "percent", "viscosity"):
        factors = [season_log.tcf_n(t / 2, form) for t in range(2, 121)]
        assert factors == sorted(factors)
        assert season_log.tcf_n(25.0, form) == pytest.approx(1.0, rel=1e-14)


def test_a_clean_membrane_gives_a_hundred_per_cent_at_any_temperature_and_pressure() -> None:
    for temp_degC, drive_bar in ((3.0, 12.0), (9.0, 16.2), (20.0, 20.0)):
        factor = season_log.tcf_n(temp_degC, "viscosity")
        flow = 1500.0 * factor / 0.662 * drive_bar / 16.2
        share = season_log.flow_pct(flow, factor, drive_bar, 0.662, 16.2, 1500.0)
        assert share == pytest.approx(100.0, rel=1e-14)


def test_a_blank_permeate_pressure_counts_as_none() -> None:
    assert season_log.drive_bar(17.0, 16.0) == season_log.drive_bar(17.0, 16.0, 0.0) == 16.5


@pytest.mark.parametrize(("feed", "out", "back"), [(1.0, 1.0, 1.5), (0.1, 0.2, 0.15)])
def test_nothing_drives_where_the_permeate_pushes_back(
    feed: float, out: float, back: float
) -> None:
    with pytest.raises(ValueError, match="is not above 0"):
        season_log.drive_bar(feed, out, back)


def test_events_are_numbered_and_three_of_them_owe_a_rinse() -> None:
    codes = ("run", "rinse", "alkaline", "acid", "first", "storage")
    numbers = [season_log.event_n(code) for code in codes]
    assert numbers == [1, 2, 3, 4, 5, 6]
    assert [season_log.owing_n(n) for n in numbers] == [0, 0, 1, 1, 1, 0]
    assert [season_log.alkaline_n(n) for n in numbers] == [0, 0, 1, 0, 0, 0]


@pytest.mark.parametrize(
    ("event_n", "day", "owed"),
    [
        (3, {}, 4360.0),
        (4, {}, 4360.0),
        (5, {}, 2900.0),
        (3, {"day_holdup_L": 100.0}, 4000.0),
        (4, {"day_factor_n": 30.0}, 3270.0),
        (3, {"day_holdup_L": 100.0, "day_factor_n": 30.0}, 3000.0),
        (5, {"day_holdup_L": 100.0, "day_factor_n": 30.0}, 2900.0),
        (3, {"day_holdup_L": 100.0, "day_owed_L": 5000.0}, 5000.0),
        (5, {"day_owed_L": 0.0}, 0.0),
    ],
)
def test_what_held_on_the_day_goes_before_what_holds_today(
    event_n: float, day: dict[str, float], owed: float
) -> None:
    assert season_log.owed_L(event_n, 4360.0, 2900.0, 109.0, 40.0, **day) == owed


@pytest.mark.parametrize("event_n", [1, 2, 6])
def test_no_rinse_is_owed_after_a_run_a_rinse_or_storage(event_n: float) -> None:
    with pytest.raises(ValueError, match=f"event_n = {event_n} n owes no rinse"):
        season_log.owed_L(event_n, 4360.0, 2900.0, 109.0, 40.0, 5000.0)


LIMITS = {"day_floor_pH": 10.5, "day_ceiling_pH": 11.5}
PRODUCT = {"day_holdup_L": 109.0, "day_factor_n": 40.0}


@pytest.mark.parametrize(
    ("event_n", "day", "leans"),
    [
        (1, {}, 0),
        (3, {}, 1),
        (3, {"day_owed_L": 4360.0}, 1),
        (3, {"day_owed_L": 4360.0, "day_floor_pH": 10.5}, 1),
        (3, {"day_owed_L": 4360.0, **LIMITS}, 0),
        (3, {**PRODUCT, **LIMITS}, 0),
        (3, {"day_holdup_L": 109.0, **LIMITS}, 1),
        (4, PRODUCT, 0),
        (4, {"day_factor_n": 40.0}, 1),
        (5, PRODUCT, 1),
        (5, {"day_owed_L": 2900.0}, 0),
    ],
)
def test_a_row_is_marked_while_any_input_of_today_stands_in(
    event_n: float, day: dict[str, float], leans: float
) -> None:
    assert season_log.today_n(event_n, **day) == leans


def test_margins_take_the_days_limits_where_they_were_written_down() -> None:
    assert season_log.top_margin_pH(11.25, 11.5, 1.0) == 0.25
    assert season_log.top_margin_pH(11.25, 11.5, 1.0, 11.0) == -0.25
    assert season_log.low_margin_pH(10.75, 10.5, 1.0) == 0.25
    assert season_log.low_margin_pH(10.75, 10.5, 1.0, 11.0) == -0.25


@pytest.mark.parametrize("name", ["top_margin_pH", "low_margin_pH"])
def test_a_row_that_is_no_alkaline_wash_has_no_margins(name: str) -> None:
    for day in ((), (11.0,)):
        with pytest.raises(ValueError, match=f"no alkaline wash, {name} undefined"):
            getattr(season_log, name)(3.1, 10.5, 0.0, *day)


def test_rinse_water_is_read_off_or_flow_times_time() -> None:
    assert season_log.done_L(4360.0) == 4360.0
    assert season_log.done_L(None, 40.0, 109.0) == 4360.0
    assert season_log.done_L(0.0, 40.0, 109.0) == 0.0
    for given in ({}, {"rinse_Lpmin": 40.0}, {"rinse_min": 109.0}):
        with pytest.raises(ValueError, match="lacks rinse_L, or rinse_Lpmin and rinse_min"):
            season_log.done_L(**given)


def test_a_rinse_is_never_short_by_noise_nor_by_less_than_nothing() -> None:
    assert season_log.short_L(4360.0, 4000.0) == 360.0
    assert season_log.short_L(4360.0, 5000.0) == 0.0
    assert season_log.short_L(40 * 27.15 * 1.1, 1194.6) == 0.0  # 1194.6000000000001
    gallon_L = 3.785411784  # US gallons a minute for some minutes, and the same in gallons
    for gallons, minutes, owed in ((27.74, 40, 1109.6), (29.214, 41, 1197.774)):
        assert season_log.short_L(owed * gallon_L, gallons * gallon_L * minutes) == 0.0


@pytest.mark.parametrize("owed", [1000.0, -1000.0])
def test_a_rinse_is_short_from_a_billionth_of_what_is_owed(owed: float) -> None:
    assert season_log.short_L(owed, owed - 0.9e-6) == season_log.short_L(owed, owed) == 0.0
    assert season_log.short_L(owed, owed - 1.1e-6) == pytest.approx(1.1e-6)
    assert season_log.short_L(0.0, 0.0) == 0.0


@pytest.mark.parametrize("scale", [1, 7, 12_345, 100_000])
def test_a_lack_of_exactly_one_part_in_a_thousand_million_does_not_count(scale):
    owed, done = scale * 1e9, scale * (1e9 - 1)
    assert season_log.short_L(owed, done) == 0.0
    assert season_log.short_L(owed, math.nextafter(done, 0)) > scale


def test_a_row_is_begun_by_any_of_seven_columns() -> None:
    assert season_log.begun_n() == 0
    typed = {"day_d": 46451.0, "event": "run", "hours_h": 0.0, "sap_L": 1.0, "flow_Lph": 1.0}
    for name, value in {**typed, "rinse_L": 1.0, "rinse_min": 1.0}.items():
        assert season_log.begun_n(**{name: value}) == 1


def test_what_is_missing_is_counted_only_in_a_row_that_is_begun() -> None:
    assert season_log.lacking_n(0) == 0
    assert season_log.lacking_n(1) == 2
    assert season_log.lacking_n(1, 46451.0, 3.0) == 3
    assert season_log.lacking_n(1, 46451.0, 4.0) == season_log.lacking_n(1, 46451.0, 5.0) == 1
    assert season_log.lacking_n(1, 46451.0, 1.0) == 0
    assert season_log.lacking_n(1, 46451.0, 3.0, 4360.0, 11.3) == 1
    assert season_log.lacking_n(1, 46451.0, 3.0, 4360.0, 11.3, 10.8) == 0


def test_what_is_wrong_is_counted_where_it_is_told() -> None:
    assert season_log.bad_n(1, 3.0, 10.0, -0.1, -0.1) == 3
    assert season_log.bad_n(1, 3.0, 0.0, 0.0, 0.0) == season_log.bad_n(1, 3.0) == 0
    assert season_log.bad_n(1, 4.0, 10.0, 8.9, -7.4) == 1
    assert season_log.bad_n(1, 1.0, 10.0, -0.1, -0.1) == 0
    assert season_log.bad_n(0, 3.0, 10.0, -0.1, -0.1) == 0


def test_sugar_at_the_resolution_of_the_instrument_is_not_seen() -> None:
    assert [season_log.watch_n(1, brix, 0.1) for brix in (0.0, 0.1, 0.2)] == [0, 0, 1]
    assert season_log.watch_n(1, 0.4 - 0.3, 0.1) == 0  # 0.10000000000000003
    assert season_log.watch_n(1) == season_log.watch_n(1, 0.2) == season_log.watch_n(0, 0.2, 0.1)


def test_the_worst_finding_ranks_the_row() -> None:
    ranks = {(0, 0, 0): 1, (0, 0, 1): 2, (0, 2, 1): 3, (1, 2, 1): 4, (1, 0, 0): 4}
    assert {key: season_log.rank_n(1, *key) for key in ranks} == ranks
    with pytest.raises(ValueError, match="begun_n = 0 n lies outside 1 to 1 n"):
        season_log.rank_n(0, 0, 0, 0)


def test_rows_that_owe_a_rinse_are_numbered_through_blanks() -> None:
    assert season_log.entry_n() == 0
    assert season_log.entry_n(1.0) == 1
    assert season_log.entry_n(None, 7.0) == season_log.entry_n(0.0, 7.0) == 7
    assert season_log.entry_n(1.0, 7.0) == 8


def test_the_record_finds_the_row_of_each_rinse() -> None:
    entries, owing = [0.0, 1.0, 1.0, 1.0, 2.0], [None, 1.0, 0.0, None, 1.0]
    assert [season_record.entry_row_n(k, entries, owing) for k in (1.0, 2.0)] == [2, 5]
    with pytest.raises(ValueError, match="row_n = 3 n is more than the rinses owed"):
        season_record.entry_row_n(3, entries, owing)


def test_a_rinse_of_the_record_is_enough_short_or_not_given() -> None:
    owed, done = [None, 4360.0, 4360.0, 2900.0, 0.0], [400.0, 4360.0, 4359.0, None, 0.0]
    states = [season_record.record_rinse_n(float(row), owed, done) for row in range(2, 6)]
    assert states == [1, 2, 3, 1]


def test_a_rinse_of_the_record_is_short_exactly_where_the_log_says_so() -> None:
    assert season_record.record_rinse_n(1.0, [40 * 27.15 * 1.1], [1194.6]) == 1
    assert season_record.record_rinse_n(1.0, [1000.0], [1000 - 0.9e-6]) == 1
    assert season_record.record_rinse_n(1.0, [1000.0], [1000 - 1.1e-6]) == 2


@pytest.mark.parametrize("row", [1.0, 3.0, 1.5])
def test_a_row_without_a_volume_owed_has_no_state_of_its_rinse(row: float) -> None:
    with pytest.raises(ValueError, match=f"entry_row_n = {row} n is no row with a volume owed"):
        season_record.record_rinse_n(row, [None, 4360.0], [400.0, 4360.0])


def test_an_element_is_ranked_by_what_it_reads_above_clean_water() -> None:
    readings = (0.2, 0.3, 0.4, 0.5, 0.6)
    sugar = [season_elements.element_brix(reading, 0.3) for reading in readings]
    assert sugar == pytest.approx([0.0, 0.0, 0.1, 0.2, 0.3], abs=1e-15)
    assert [season_elements.element_rank_n(s, 0.1, 0.2) for s in sugar] == [1, 1, 1, 2, 3]
