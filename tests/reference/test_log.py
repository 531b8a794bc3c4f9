"""Rows of the log, played as short seasons: what the stories leave open."""

import itertools

import pytest

from builder.reference import causes, entry, log, shape
from builder.reference.units import choose_units

from . import stories

DAY_D = 46082.0


def play(*rows: dict, start="in use, rinsed", **given) -> dict:
    """Return what the references say of a season without lines in force."""
    story = {"given": {"start": start, **given}, "row": [{"date": DAY_D, **row} for row in rows]}
    return stories.play(story)


def tell(known: dict, name: str, rows: int) -> list:
    return known[f"row_{name}_list"][:rows]


def find_causes(*rows: dict, **given) -> list[str]:
    return [causes.WORDS[n - 1] for n in tell(play(*rows, **given), "cause_n", len(rows))]


LIMITS_AS_TYPED = {
    "hours_h": (0, 24),
    "flow_Lph": (0, 100_000),
    "feed_bar": (0, 100),
    "out_bar": (0, 100),
    "back_bar": (0, 100),
    "water_degC": (-2, 50),
    "prefilter_bar": (0, 10),
    "product_kg": (0, 1000),
    "begin_pH": (0, 14),
    "begin_degC": (5, 60),
    "finish_pH": (0, 14),
    "finish_degC": (5, 60),
    "rinse_L": (0, 100_000),
    "rinse_Lpmin": (0, 2000),
    "rinse_min": (0, 3000),
    "permeate_brix": (0, 40),
    "date": (40000, 80000),
}
METRIC = entry.Line(None, 1.0, 1.0, 11.0, 12.0, choose_units("metric", (None,) * 4))
AMERICAN = entry.Line(None, 1.0, 1.0, 11.0, 12.0, choose_units("us", (None,) * 4))


def test_every_column_of_numbers_has_its_limits_claimed() -> None:
    assert set(LIMITS_AS_TYPED) == set(entry.LIMITS)


@pytest.mark.parametrize("name", LIMITS_AS_TYPED)
def test_limits_of_a_cell_are_inclusive(name) -> None:
    low, high = LIMITS_AS_TYPED[name]
    found = [entry.read_cell(name, cell, METRIC) for cell in (low - 0.01, low, high, high + 0.01)]
    assert found == ["x", low, high, "x"]


@pytest.mark.parametrize(
    ("name", "typed", "canonical"),
    [
        ("water_degC", 50.0, 10.0),
        ("water_degC", 122.0, 50.0),  # 50 degC itself
        ("water_degC", 122.1, "x"),
        ("feed_bar", 1450.3, 1450.3 * 0.0689475729316836),
        ("feed_bar", 1450.4, "x"),  # 100.0016 bar
        ("product_kg", 2.0, 0.90718474),
        ("flow_Lph", 100.0, 378.5411784),
        ("rinse_Lpmin", 10.0, 37.85411784),
        ("hours_h", 8.0, 8.0),
        ("rinse_min", 60.0, 60.0),
        ("begin_pH", 12.0, 12.0),
    ],
)
def test_a_cell_is_read_in_the_units_of_its_line(name, typed, canonical) -> None:
    told = entry.read_cell(name, typed, AMERICAN)
    assert told == canonical if canonical == "x" else told == pytest.approx(canonical, rel=1e-12)


@pytest.mark.parametrize(
    ("name", "cell", "found"),
    [
        ("hours_h", "ten", "x"),
        ("event", "wash", "x"),
        ("event", "acid", "acid"),
        ("event", 3.0, "x"),
        ("water_kind", "well", "x"),
        ("product", 5.0, 5.0),
        ("initials", "x", "x"),
        ("hours_h", None, None),
    ],
)
def test_a_text_for_a_number_or_an_unknown_word_is_not_usable(name, cell, found) -> None:
    assert entry.read_cell(name, cell, METRIC) == found


def test_initials_may_be_an_x() -> None:
    assert find_causes({"event": "rinse", "rinse": 1, "initials": "x"}) == ["ok"]


def test_an_empty_log_owes_the_first_rinse_of_a_machine_that_was_stored() -> None:
    known = stories.play({"given": {"start": "stored or new"}, "row": []})
    assert (known["still_to_rinse_L"], known["record_lines_n"]) == (1500, 1)
    assert known["record_kind_list"][:2] == ["start", None]
    assert (known["first_to_fix_n"], known["rows_left_n"]) == (0, 240)
    assert known["wash_days_d"] is known["reading_last_brix"] is known["season_hours_h"] is None


def test_a_row_that_is_not_begun_carries_all_on_and_has_no_verdict() -> None:
    known = stories.play(
        {"given": {"start": "stored or new"}, "row": [{}, {"date": DAY_D, "event": "storage"}, {}]}
    )
    assert tell(known, "left_L", 3) == [1500, 1500, 1500]
    assert tell(known, "debt_n", 3) == [1, 2, 2]
    assert tell(known, "day_d", 3) == [0, DAY_D, DAY_D]
    assert tell(known, "begun_n", 3) == [0, 1, 0]
    assert tell(known, "cause_n", 3) == [None, 8, None]
    assert tell(known, "open_n", 3) == [0, 1, 0]


def test_a_note_alone_begins_a_row_that_lacks_date_and_event() -> None:
    arguments = stories.play({"given": {"start": "rinsed"}, "row": []})
    arguments["log_note_list"] = ["order filters", *[None] * 239]
    columns = stories.call(log.rows, arguments)
    assert [columns[n][0] for n in ("begun_n", "cause_n", "bad_column_n")] == [1, 11, 1]


def test_a_rinse_within_a_billionth_of_what_stood_is_enough_and_not_a_millilitre_more() -> None:
    for rinse, left in ((4000 - 3.9e-6, 0), (4000 - 4.1e-6, pytest.approx(4.1e-6, rel=1e-3))):
        known = play({"event": "alkaline wash", "rinse": rinse})
        assert known["still_to_rinse_L"] == left


def test_too_much_rinse_is_no_credit() -> None:
    known = play({"event": "alkaline wash", "rinse": 9000}, {"event": "acid wash"})
    assert tell(known, "left_L", 2) == [0, 4000]


def test_a_blank_permeate_pressure_is_none() -> None:
    known = play({"event": "clean-water test", "perm": ""})
    assert tell(known, "tested_pct", 1)[0] == pytest.approx(100 * 16.2 / 16.5)


def test_a_test_without_driving_pressure_is_incomplete_and_gives_no_flow() -> None:
    pressures = {"feed": 2, "conc": 1, "perm": 1.5}
    known = play({"event": "clean-water test", **pressures})
    assert tell(known, "tested_pct", 1) == tell(known, "tested_drop_bar", 1) == [None]
    assert find_causes({"event": "clean-water test", **pressures}) == ["pressures"]


def read_brix(*pairs) -> list[str]:
    """Return the causes of runs of one day, by hours and reading."""
    return find_causes(*({"event": "run", "hours": h, "permeate_brix": b} for h, b in pairs))


def test_hours_since_a_trace_count_from_the_row_that_opened_it() -> None:
    assert read_brix((1, 0.2), (1, 0.2), (1.9, 0.2)) == ["trace", "trace", "trace"]
    assert read_brix((1, 0.2), (1, 0.2), (2.0, 0.2)) == ["trace", "trace", "sugar_stays"]


def test_a_trace_of_another_day_or_without_hours_stays() -> None:
    run = {"event": "run", "hours": 1, "permeate_brix": 0.2}
    assert find_causes(run, {**run, "date": DAY_D + 1}) == ["trace", "sugar_stays"]
    assert find_causes(run, {**run, "hours": ""}) == ["trace", "sugar_stays"]


def test_a_replacement_closes_before_its_own_reading_opens_again() -> None:
    run = {"event": "run", "hours": 1, "permeate_brix": 0.2}
    new = {"event": "replacement", "rinse": 1500}
    assert find_causes(run, new, {**run, "permeate_brix": ""}) == ["trace", "ok", "ok"]
    assert find_causes(run, {**new, "permeate_brix": 0.2}, {**run, "date": DAY_D + 1})[1:] == [
        "trace",
        "sugar_stays",
    ]


def test_the_wait_after_an_alarm_is_closed_by_a_clear_last_reading() -> None:
    rows = [{"event": "run", "hours": 1, "permeate_brix": b} for b in (0.4, "", 0.0)]
    known = play(*rows)
    assert tell(known, "cause_n", 3) == [3, 14, 36]
    assert tell(known, "open_n", 3) == [0, 0, 0]
    assert tell(play(*rows[:2]), "open_n", 2) == [1, 1]


def test_a_plain_instrument_without_temperature_has_an_alarm_but_no_sugar() -> None:
    rows = [{"event": "run", "permeate_brix": b} for b in (0.3, 0.29)]
    known = play(*rows, instrument="plain")
    assert tell(known, "sugar_row_brix", 2) == [None, None]
    assert tell(known, "sugar_class_n", 2) == [2, None]
    assert known["reading_last_brix"] is None


def test_the_strip_has_its_steps_and_straight_lines_between() -> None:
    """At 12.5 degC half way from 11.93 to 11.75: 11.84, 0.40 above the floor's 11.44."""
    wash = {"event": "alkaline wash", "rinse": 4000, "end_pH": 11.94, "end_temp": 12.5}
    known = play(wash)
    assert tell(known, "low_margin_pH", 1)[0] == pytest.approx(0.1)
    hot = play({**wash, "start_pH": 11.36, "start_temp": 60})
    assert tell(hot, "top_margin_pH", 1)[0] == pytest.approx(11.46 - 11.36)
    assert tell(hot, "begin_margin_pH", 1)[0] == pytest.approx(11.36 - 10.65)


FALLS_PH = {  # by how much floor and ceiling fall, step by step from 5 degC up
    "floor": (0.19, 0.18, 0.16, 0.15, 0.14, 0.13, 0.12, 0.11, 0.10, 0.10, 0.09),
    "ceiling": (0.21, 0.19, 0.18, 0.17, 0.16, 0.15, 0.14, 0.13, 0.13, 0.12, 0.11),
}


@pytest.mark.parametrize("name", FALLS_PH)
def test_the_strip_falls_by_less_with_every_five_degrees(name) -> None:
    table = {"floor": shape.FLOOR_PH, "ceiling": shape.CEILING_PH}[name]
    steps = [shape.shift_pH(float(t), table) for t in range(5, 65, 5)]
    falls = [a - b for a, b in itertools.pairwise(steps)]
    assert falls == pytest.approx(FALLS_PH[name], abs=1e-9)
    assert shape.shift_pH(25.0, table) == 0


@pytest.mark.parametrize(
    ("product", "approved", "cause"),
    [
        (" House  ALKALI ", "house alkali", "ok"),
        ("soap", "house alkali", "product_other"),
        ("soap", None, "ok"),
        ("soap", " ", "ok"),
    ],
)
def test_products_are_compared_without_case_and_further_spaces(product, approved, cause) -> None:
    known = play({"event": "alkaline wash", "rinse": 4000, "product": product})
    columns = stories.call(log.rows, {**known, "approved_alkaline": approved})
    assert causes.WORDS[int(columns["cause_n"][0]) - 1] == cause


def test_limits_that_are_not_known_are_not_judged() -> None:
    test = {"event": "clean-water test", "flow": 500, "permeate_brix": 5}
    blank = [name for name in stories.MACHINE if "pct" in name or "brix" in name]
    assert find_causes(test) == ["sugar_alarm"]
    assert find_causes(test, unknown=blank) == ["ok"]


REFERENCE = [name for name in stories.MACHINE if "baseline" in name or name == "flow_correction"]
RINSES = ["rinse_target_L", "first_rinse_target_L"]
LIMITS_OF_TODAY = ["floor_for_log_pH", "ceiling_for_log_pH"]
WASH = {"event": "alkaline wash", "rinse": 4000}
TEST = {"event": "clean-water test"}
IN_FORCE = {
    "from": DAY_D,
    "rinse_owed": 4000,
    "first_rinse": 1500,
    "floor_25_pH": 11.44,
    "ceiling_25_pH": 12.4,
}
SEASON = [WASH, TEST, {"event": "acid wash", "rinse": 4000}, {"event": "run"}, {"event": ""}]


@pytest.mark.parametrize("unknown", RINSES)
def test_no_row_of_today_is_ok_while_one_of_its_rinses_is_not_known(unknown) -> None:
    assert find_causes(*SEASON) == ["ok"] * 4 + ["missing"]
    assert find_causes(*SEASON, unknown=[unknown]) == ["missing"] * 5
    known = play(*SEASON, unknown=[unknown])
    assert tell(known, "bad_column_n", 6) == [0, 0, 0, 0, 2, 0]  # the last has no event
    assert tell(known, "open_n", 6) == [1, 1, 1, 1, 1, 0]
    assert tell(known, "cause_n", 6)[5] is None
    assert (known["rows_ok_n"], known["first_to_fix_n"]) == (0, 5)
    assert (known["first_to_fix_cause_n"], known["log_complete_ok"]) == (11, "look")


@pytest.mark.parametrize("unknown", LIMITS_OF_TODAY)
def test_an_alkaline_wash_alone_needs_both_limits_of_pH(unknown) -> None:
    told = find_causes(*SEASON[:4], unknown=[unknown])
    assert told == ["missing", "ok", "ok", "ok"]


def test_a_line_in_force_needs_nothing_of_today() -> None:
    unknown = RINSES + LIMITS_OF_TODAY
    known = play(*SEASON[:4], in_force=[IN_FORCE], unknown=unknown)
    assert tell(known, "cause_n", 4) == [36, 36, 36, 36]
    known = play({**WASH, "date": DAY_D - 1}, *SEASON, in_force=[IN_FORCE], unknown=unknown)
    assert tell(known, "cause_n", 5) == [11, 36, 36, 36, 36]


@pytest.mark.parametrize("unknown", REFERENCE)
def test_a_test_that_cannot_be_compared_is_not_ok(unknown) -> None:
    """The flow hangs on each of them: 70 % of the reference's would be a stop."""
    known = play(TEST, {"event": "run"}, unknown=[unknown])
    assert tell(known, "cause_n", 2) == [11, 36]
    assert (tell(known, "tested_pct", 1), known["rows_ok_n"]) == ([None], 1)
    assert tell(known, "bad_column_n", 1) == [0]


def test_a_test_whose_own_readings_fail_says_so_whatever_the_machine() -> None:
    for row, cause in (({"feed": 2}, "pressures"), ({"flow": "much"}, "not_usable")):
        assert find_causes({**TEST, **row}, unknown=REFERENCE) == [cause]


def test_what_is_not_known_goes_before_all_but_a_stop_and_closes_by_what_was_done() -> None:
    owing = [{"event": "alkaline wash", "start_pH": 13.5, "mass": "x"}, {"event": "run"}]
    found = find_causes(*owing, {"event": "first rinse"}, unknown=["first_rinse_target_L"])
    assert found == ["start_high", "sap_on_owing", "missing"]
    known = play({**owing[0], "done": "called"}, unknown=["first_rinse_target_L"])
    assert tell(known, "open_n", 1) == [0]
    assert tell(known, "bad_column_n", 1) == [11]  # the mass that is no number


def test_without_a_day_there_is_no_gap_of_days() -> None:
    assert find_causes({"event": "run", "date": ""}, {"event": "run"}) == ["missing", "ok"]


def test_the_leftmost_unusable_cell_is_named_before_the_leftmost_blank() -> None:
    row = {"event": "alkaline wash", "product": "", "end_pH": 113, "start_temp": 99}
    assert tell(play(row), "bad_column_n", 1) == [13]


@pytest.mark.parametrize(("minutes", "cause"), [(111.1, "ok"), (111.2, "rinse_differs")])
def test_volume_and_flow_times_time_may_be_a_tenth_of_the_larger_apart(minutes, cause) -> None:
    rinse = {"event": "rinse", "rinse": 1000, "rinse_flow": 10, "rinse_time": minutes}
    assert find_causes(rinse) == [cause]
