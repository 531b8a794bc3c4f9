"""Edges of the season: nothing to add up, an exact conversion, a text in a cell for a number."""

from dataclasses import replace

import pytest

from builder.calculation import calculate_season
from builder.trial.cases import list_entries
from builder.trial.comparison import as_number
from workbook.cases import change_demo
from workbook.comparison import compare_cases, listed

DAY = 46451.0
UNKNOWN_UNIT = "cubit"
TOTALS = {"season_hours_h": "hours_h", "season_sap_L": "sap_L", "season_cleaner_kg": "product_kg"}
LINE = {
    "line_date": DAY,
    "line_rinse_L": 1109.6,
    "line_first_L": 400.0,
    "line_floor_pH": 11.4,
    "line_ceiling_pH": 12.4,
    "line_volume": "gal_us",
}


@pytest.fixture
def play(fast, short_spec):
    """Return a function that types a log, and tells results and columns as both sides say."""

    def tell(rows, line=LINE, **given):
        machine = change_demo(short_spec, "season", season_start="rinsed", **given)
        case = replace(machine, rows={"log": rows, "force": [line]})
        differences = compare_cases([case], fast, fast.file, short_spec)
        assert not differences, listed(differences)
        found = calculate_season(short_spec, case.given, case.rows)
        return {**{k: as_number(v) for k, v in found.values.items()}, **found.columns}

    return tell


@pytest.mark.parametrize(("name", "column"), TOTALS.items())
def test_a_text_is_left_out_of_the_total(play, name, column):
    row, text = {"date": DAY, column: 1.5}, {"date": DAY, column: "a few"}
    assert play([row, text])[name] == play([row])[name] > 0
    assert play([text])[name] is None


@pytest.mark.parametrize("column", ["rinse_L", "feed_bar", "water_degC", "product_kg"])
def test_a_text_in_a_cell_for_a_number_is_named_by_its_column(play, short_spec, column):
    row = {"date": DAY, "event": "rinse", column: "12 L"}
    found = play([row])
    assert found[f"row_used_{column}_list"][0] == "x"
    assert found["row_cause_n_list"][0] == 9
    typed = [entry.name for entry in list_entries(short_spec, short_spec.quantities["log"])]
    assert typed.index(column) + 1 == found["first_to_fix_column_n"]


@pytest.mark.parametrize("choice", ["line_volume", "line_pressure", "line_mass"])
def test_an_unknown_unit_in_a_line_is_the_unit_of_the_book(play, choice):
    row = {"date": DAY, "event": "alkaline", "product_kg": 2.0, "rinse_L": 100.0, "feed_bar": 3.0}
    wrong, blank = ({**LINE, choice: word} for word in (UNKNOWN_UNIT, None))
    given = {"reader_units": "imperial"}
    lists = ("row_used_product_kg_list", "row_used_rinse_L_list", "row_used_feed_bar_list")
    first, second = play([row], wrong, **given), play([row], blank, **given)
    assert [first[name][0] for name in lists] == [second[name][0] for name in lists]


@pytest.mark.parametrize(
    ("gallons", "minutes", "owed"),
    [(27.74, 40.0, 1109.6), (29.214, 41.0, 1197.774), (33.809, 41.0, 1386.169)],
)
def test_a_rinse_that_differs_by_the_last_digit_of_its_conversion_is_enough(
    play, gallons, minutes, owed
):
    row = {"date": DAY, "event": "alkaline", "rinse_Lpmin": gallons, "rinse_min": minutes}
    found = play([row], {**LINE, "line_rinse_L": owed})
    assert found["still_to_rinse_L"] == 0
    assert found["record_state_n_list"][0] == 2  # enough


@pytest.mark.parametrize(("share", "state"), [(0.9e-9, 2), (1.1e-9, 5)])
def test_a_rinse_is_short_from_a_billionth_of_what_is_owed(play, share, state):
    row = {"date": DAY, "event": "alkaline", "rinse_L": LINE["line_rinse_L"] * (1 - share)}
    found = play([row])
    assert (found["still_to_rinse_L"] == 0) == (state == 2)
    assert found["record_state_n_list"][0] == state


@pytest.mark.parametrize("pct", [100.0, 77.7])
def test_a_flow_that_is_level_but_for_rounding_is_no_fall(play, pct):
    reference = {"feed_bar": 17.0, "out_bar": 16.0, "back_bar": 0.3, "water_degC": 9.0}
    flows = (pct / 0.3, pct / 0.1 / 3, pct * 10 / 3)  # alike but for the last digit
    rows = [
        row
        for number, flow in enumerate(flows)
        for row in (
            {"date": DAY + number, "event": "run", "hours_h": 5.0},
            {"date": DAY + number, "event": "test", "flow_Lph": flow, **reference},
        )
    ]
    litres = {**LINE, "line_volume": "L"}
    baseline = {"baseline_flow_Lph": 1000 / 3, "flow_wash_pct": 70.0}
    found = play(rows, litres, **baseline)
    assert found["next_wash_class_n"] == 4
    assert found["next_wash_from_n"] is None
