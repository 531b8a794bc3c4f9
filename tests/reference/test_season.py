"""What to fix first, facts of now, counts and sums, by hand."""

import pytest

from builder.reference import season

EVENTS = ["first", "run", "acid", None, "alkaline", "x"]
DAYS = [0.0, 46083.0, 46080.0, 46081.0, 46085.0, 46090.0]


@pytest.mark.parametrize(
    ("causes", "flags", "row"),
    [
        ([1, 9, 13, 36], [1, 1, 1, 0], 1),
        ([1, 9, 13, 36], [0, 1, 1, 0], 2),
        ([9, 13, 12, 34], [1, 1, 1, 1], 3),
        ([13, 34, None, 35], [1, 1, 0, 0], 2),
        ([8, 36, 1, 9], [1, 0, 1, 1], 3),
        ([36, 35, None, None], [0, 0, 0, 0], 0),
    ],
)
def test_the_newest_of_the_worst_open_rows_is_first_to_fix(causes, flags, row) -> None:
    columns = [7.0, 2.0, 5.0, 0.0]
    assert season.first_to_fix_n(flags, causes) == row
    if row:
        assert season.first_to_fix_cause_n(float(row), causes) == causes[row - 1]
        assert season.first_to_fix_column_n(float(row), columns) == columns[row - 1]


def test_without_a_row_to_fix_there_is_no_cause_and_no_column() -> None:
    for look_up in (season.first_to_fix_cause_n, season.first_to_fix_column_n):
        with pytest.raises(ValueError, match="there is nothing to fix"):
            look_up(0.0, [36.0])


@pytest.mark.parametrize(
    ("cause_n", "verdicts"),
    [
        (None, ("ok", "ok", "ok")),
        (8, ("stop", "ok", "ok")),
        (9, ("ok", "look", "ok")),
        (12, ("ok", "look", "ok")),
        (13, ("ok", "ok", "look")),
        (34, ("ok", "ok", "look")),
    ],
)
def test_the_rank_of_the_first_to_fix_shows_in_one_check(cause_n, verdicts) -> None:
    checks = (season.log_stop_ok, season.log_complete_ok, season.log_look_ok)
    assert tuple(check(cause_n) for check in checks) == verdicts


def test_days_since_the_last_wash_go_by_rows_not_by_dates() -> None:
    day = season.last_wash_d(EVENTS, DAYS)
    assert (day, season.wash_days_d(day, DAYS)) == (46085, 5)
    assert season.last_wash_d(["alkaline", "acid"], [46085.0, 46080.0]) == 46080
    for events, days in ((["run"], [46085.0]), (["acid"], [0.0])):
        with pytest.raises(ValueError, match="no wash with a day"):
            season.last_wash_d(events, days)


def test_the_first_day_is_the_earliest() -> None:
    assert season.first_day_d(DAYS) == 46080
    with pytest.raises(ValueError, match="holds no day"):
        season.first_day_d([0.0, 0.0])


def test_the_last_reading_has_the_day_of_its_row() -> None:
    sugar = [0.1, None, 0.0, None]
    assert season.reading_last_brix(sugar) == 0
    assert season.reading_last_d(sugar, DAYS) == 46080
    with pytest.raises(ValueError, match="before the first date"):
        season.reading_last_d(sugar[:1], DAYS)
    with pytest.raises(ValueError, match="holds no reading"):
        season.reading_last_brix([None])


def test_rows_are_counted() -> None:
    begun = [1.0, 1.0, 0.0, 1.0]
    assert (season.rows_begun_n(begun), season.rows_left_n(begun)) == (3, 1)
    assert season.rows_today_n(begun, [0.0, 1.0, 0.0, 0.0]) == 2
    assert season.rows_ok_n([36.0, 35.0, None, 34.0]) == 2
    assert (season.season_washes_n(6.0, EVENTS), season.season_first_rinses_n(6.0, EVENTS)) == (
        2,
        1,
    )
    assert season.record_lines_n([1.0, 1.0, 2.0]) == 2
    assert season.record_shown_n([0.0, 3.0, None]) == 2


def test_an_empty_log_has_no_counts() -> None:
    for count in (season.season_washes_n, season.season_first_rinses_n):
        with pytest.raises(ValueError, match="the log is empty"):
            count(0.0, [None])
    with pytest.raises(ValueError, match="the log is empty"):
        season.rows_today_n([0.0], [0.0])


@pytest.mark.parametrize(("begun", "lines"), [([1.0, 1.0], [1.0, 0.0]), ([0.0, 0.0], [0.0, 0.0])])
@pytest.mark.parametrize("blank", [0, 1])
def test_what_is_still_to_rinse_is_not_known_without_today_s_rinses(begun, lines, blank) -> None:
    left, held = [4000.0, 1500.0], [[4000.0, 5000.0], [1500.0, 1500.0]]
    assert season.still_to_rinse_L(left, begun, lines, *held) == 1500
    held[blank][0] = None
    with pytest.raises(ValueError, match="holds nothing for today"):
        season.still_to_rinse_L(left, begun, lines, *held)
    assert season.still_to_rinse_L(left, [1.0, 0.0], [1.0, 0.0], *held) == 1500


def test_a_rinse_that_nobody_knows_asks_for_attention() -> None:
    assert (season.rinse_known_ok(None), season.rinse_known_ok(0.0)) == ("look", "ok")


def test_the_log_has_room_with_ten_rows_left() -> None:
    assert (season.log_room_ok(10.0), season.log_room_ok(9.0)) == ("ok", "look")


def test_sums_take_what_is_usable_and_round_once() -> None:
    assert season.season_hours_h([0.1] * 10 + ["x", None]) == 1.0
    assert season.season_cleaner_kg([2.5, "x"]) == 2.5
    assert season.season_rinse_L([300.0, 4000.0, None], [0.0, 4000.0, 0.0]) == 4000
    with pytest.raises(ValueError, match="row_volume_L_list holds no number to total"):
        season.season_rinse_L([None], [0.0])
    with pytest.raises(ValueError, match="row_used_hours_h_list holds no number to total"):
        season.season_hours_h([None, "x"])


def test_sap_is_summed_in_the_unit_of_each_row_s_line() -> None:
    lines, units = [0.0, 1.0, 1.0, 2.0], ["gal_us", None]
    total = season.season_sap_L([10.0, 10.0, "much", 10.0], lines, units, "imperial")
    assert total == pytest.approx(10 * (4.54609 + 3.785411784 + 4.54609))


def test_an_element_is_ranked_from_the_step_and_from_the_alarm_up() -> None:
    assert season.element_brix(0.3, 0.4) == 0
    ranks = [season.element_rank_n(brix, 0.1, 0.3) for brix in (0.09, 0.1, 0.29, 0.3)]
    assert ranks == [1, 2, 2, 3]
    assert season.element_rank_n(season.element_brix(0.3, 0.2), 0.1, 0.3) == 2
