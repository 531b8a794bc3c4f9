"""Edges of the season: nothing to total, a level flow, a rinse that differs by its last digit."""

import pytest

from builder.calculation import calculate_season
from builder.trial.cases import Case
from builder.trial.comparison import as_number
from builder.trial.placement import list_row_cells
from workbook.comparison import compare_cases, listed
from workbook.files import find_errors

GALLON_L = 3.785411784  # US gallon, 231 cubic inches (definition)
UNKNOWN_UNIT = "cubit"
TOTALS = {
    "season_hours_h": "hours_h",
    "season_sap_L": "sap_L",
    "season_cleaner_kg": "product_kg",
    "season_rinse_L": "rinse_L",
}
BASELINE = {"baseline_flow_Lph": 1480.0}
SAME = {"feed_bar": 17.0, "out_bar": 16.0, "water_degC": 9.0, "event": "run"}


def solve(fast, spec, rows, given=None):
    """Return the workbook's values of a log that agrees with the reference."""
    case = Case("season", dict(given or {}), {"log": rows})
    differences = compare_cases([case], fast, fast.file, spec)
    assert not differences, listed(differences)
    values = calculate_season(spec, case.given, case.rows).values
    return {name: as_number(value) for name, value in values.items()}


def type_log(fast, spec, rows, typed):
    """Return a function that tells what the workbook shows for a name, with some cells changed."""
    cells = dict(list_row_cells("log", rows, fast.file.names, spec, "en"))
    cells |= {fast.file.names[f"log_{name}"][0]: value for name, value in typed.items()}
    values = fast.solve(cells)
    assert find_errors(values) == []
    return lambda name: values[fast.file.names[name][0]]


def run_days(flows, days=(0, 0, 1)):
    """Return runs of some days with the permeate flows in L/h."""
    pairs = zip(flows, days, strict=True)
    return [{**SAME, "day_d": 46451.0 + day, "flow_Lph": flow} for flow, day in pairs]


@pytest.mark.parametrize("name", TOTALS)
def test_entries_of_an_unknown_unit_have_no_total(fast, short_spec, name):
    column = TOTALS[name]
    unit = {f"{column}_typed_unit": UNKNOWN_UNIT}
    show = type_log(fast, short_spec, [{"day_d": 46451.0, column: 1.5}], unit)
    assert show(name) in ("", None)


@pytest.mark.parametrize("name", TOTALS)
def test_a_text_is_left_out_of_the_total(fast, short_spec, name):
    rows = [{"day_d": 46451.0}, {TOTALS[name]: 1.5}]
    text = {f"{TOTALS[name]}_list": "a few"}
    assert type_log(fast, short_spec, rows, text)(name) == 1.5
    assert type_log(fast, short_spec, rows[:1], text)(name) in ("", None)


@pytest.mark.parametrize(
    ("baseline", "flows"),
    [
        (1480.0, (1400.0, 1300.0, 1350.0)),
        (1550.0, (1228.0, 1082.0, 1155.0)),  # the slope is -7e-15 per cent a day, by rounding
        (1575.0, (1578.0, 1382.0, 1480.0)),  # the same, above the limit for a wash
        (1480.0, (-3.0, -3.0, -3.0)),
        (1480.0, (1350.0, 1350.0, 1350 - 1480 * 0.000004)),  # 0.0004 per cent a day
    ],
)
def test_a_level_flow_forecasts_no_wash(fast, short_spec, baseline, flows):
    found = solve(fast, short_spec, run_days(flows), {"baseline_flow_Lph": baseline})
    assert found["trend_points_n"] == 3
    assert found["next_wash_d"] is None


def test_a_slow_but_true_fall_forecasts_the_next_wash(fast, short_spec):
    days = [1350.0 - 1480 * 0.00002 * day for day in range(3)]  # 0.002 per cent of the baseline
    level = solve(fast, short_spec, run_days(days, (0, 1, 2)), BASELINE)
    limit = {**BASELINE, "flow_wash_pct": level["flow_start_pct"] - 0.02}
    found = solve(fast, short_spec, run_days(days, (0, 1, 2)), limit)
    assert found["flow_slope_pctpd"] == pytest.approx(-0.002, rel=0.1)
    assert found["next_wash_d"] == pytest.approx(46461.0, abs=2.0)


@pytest.mark.parametrize(
    ("gallons", "minutes", "owed"),
    [(27.74, 40.0, 1109.6), (29.214, 41.0, 1197.774), (33.809, 41.0, 1386.169)],
)
def test_a_rinse_that_differs_by_the_last_digit_of_its_conversion_is_enough(
    fast, short_spec, gallons, minutes, owed
):
    owed_L = owed * GALLON_L
    row = {"day_d": 46451.0, "event": "alkaline", "day_owed_L": owed_L, "rinse_min": minutes}
    typed = {"rinse_Lpmin_list": gallons, "rinse_Lpmin_typed_unit": "US gal/min"}
    show = type_log(fast, short_spec, [{**row, "rinse_Lpmin": gallons}], typed)
    assert show("log_done_L_list") == pytest.approx(owed_L, rel=1e-14)
    assert show("log_short_L_list") == show("rinses_short_n") == 0
    assert show("record_record_rinse_n_list") == "enough"


@pytest.mark.parametrize(("share", "word"), [(0.9e-9, "enough"), (1.1e-9, "short")])
def test_a_rinse_is_short_from_a_billionth_of_what_is_owed(fast, short_spec, share, word):
    owed_L = 1109.6 * GALLON_L
    row = {"day_d": 46451.0, "event": "alkaline", "day_owed_L": owed_L}
    rows = [{**row, "rinse_L": owed_L * (1 - share)}]
    assert solve(fast, short_spec, rows)["rinses_short_n"] == (word == "short")
    assert type_log(fast, short_spec, rows, {})("record_record_rinse_n_list") == word


@pytest.mark.parametrize(("share", "verdict"), [(0.9e-9, "ok"), (1.1e-9, "stop")])
def test_a_first_rinse_is_short_from_a_billionth_too(fast, short_spec, share, verdict):
    owed_L = solve(fast, short_spec, [])["first_rinse_owed_L"]
    found = solve(fast, short_spec, [], {"first_rinse_done_L": owed_L * (1 - share)})
    assert found["first_rinse_ok"] == verdict
    assert (found["first_rinse_left_L"] == 0) == (verdict == "ok")
