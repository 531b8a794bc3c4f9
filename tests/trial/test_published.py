"""The formulas on an engine: published figures, derivatives by difference, ways to a hold-up."""

import pytest

from builder.exchange.demo import read_demo
from builder.exchange.machine import canonical
from builder.production import shorten
from builder.spec.load import find_specs, load_spec
from builder.trial.bench import Bench
from builder.trial.cases import Case

US_GAL_L = 3.785411784  # 231 cubic inches (NIST SP 811)
BARE = {  # one element, nothing else in the circuit
    "vessels_n": 1.0,
    "elements_per_vessel_n": 1.0,
    "vessel_bore_mm": None,
    "vessel_ends_L": 0.0,
    "vessel_ends_u_L": 0.0,
    "filter_housings_L": 0.0,
    "pumps_L": 0.0,
    "other_holdup_L": 0.0,
    **{f"pipe_{n}_length_m": 0.0 for n in range(1, 9)},
}
READINGS = {
    "chlorine_first_mgpL": 0.5,
    "chlorine_second_mgpL": 0.3,
    "chlorine_between_h": 12.0,
    "chlorine_limit_mgpL": 0.05,
    "chlorine_step_mgpL": 0.1,
}


@pytest.fixture(scope="module")
def bench():
    return Bench(shorten(load_spec(find_specs()), 24, 12), "en")


@pytest.fixture(scope="module")
def show(bench):
    demo = canonical(read_demo(bench.spec), bench.spec)

    def read(name, **given):
        return bench.type(Case("", {**demo, **given}))[bench.names[name][0]]

    return read


@pytest.mark.parametrize(("size", "told_L"), [("4x40", 4.5), ("8x40", 17.0)])
def test_an_element_holds_what_a_general_manual_tells_within_two_uncertainties(show, size, told_L):
    # volumes of preservative for each element, general equipment manual (read)
    typical_L = show("holdup_adopted_L", **BARE, element_size=size)
    doubt_L = show("holdup_adopted_u_L", **BARE, element_size=size)
    assert abs(typical_L - told_L) < 2.0 * doubt_L


def test_elements_of_one_size_share_their_doubt(show):
    two = {**BARE, "vessels_n": 2.0, "element_size": "8x40"}
    assert show("holdup_size_L", **two) == pytest.approx(37.4)
    assert show("holdup_size_u_L", **two) == pytest.approx(2.6)


def test_dimensions_of_a_generic_sheet_agree_with_the_size(show):
    # 4 x 40: 99 mm, 1,016 mm, 7.9 m2, tube 19 mm, spacer 28 mil (generic element sheet, read);
    # bore and inner diameter of the tube from memory
    sheet = {
        **BARE,
        "element_size": "4x40",
        "vessel_bore_mm": 102.0,
        "vessel_length_mm": 1100.0,
        "element_diameter_mm": 99.0,
        "element_length_mm": 1016.0,
        "element_area_m2": 7.9,
        "feed_spacer_mm": 0.7112,
        "core_tube_outer_mm": 19.0,
        "core_tube_inner_mm": 14.5,
    }
    assert show("size_ok", **sheet) == "ok"
    assert show("size_ok", **{**sheet, "element_area_m2": 37.2}) == "check this"


@pytest.mark.parametrize(
    ("name", "part", "relative"),
    [
        ("vessel_bore_mm", "vessel_bore_part_u_L", False),
        ("vessel_length_mm", "vessel_length_part_u_L", False),
        ("element_diameter_mm", "element_diameter_part_u_L", False),
        ("element_length_mm", "element_length_part_u_L", False),
        ("core_tube_inner_mm", "core_tube_part_u_L", False),
        ("element_extra_pct", "element_extra_part_u_L", False),
        ("feed_spacer_porosity_frac", "feed_porosity_part_u_L", False),
        ("permeate_carrier_porosity_frac", "permeate_porosity_part_u_L", False),
        ("element_area_m2", "element_area_part_u_L", True),
        ("feed_spacer_mm", "feed_spacer_part_u_L", True),
        ("permeate_carrier_mm", "permeate_carrier_part_u_L", True),
    ],
)
def test_a_part_of_the_doubt_is_the_slope_of_the_holdup_times_u(bench, show, name, part, relative):
    # law of propagation, JCGM 100:2008; the slope by difference, exact for squares
    quantities = bench.spec.quantities
    doubt = f"{name.rpartition('_')[0]}_u_pct" if relative else name.replace("_mm", "_u_mm")
    doubt = doubt.replace("_frac", "_u_frac").replace("extra_pct", "extra_u_pct")
    demo = canonical(read_demo(bench.spec), bench.spec)
    value, u = demo.get(name, quantities[name].usual), quantities[doubt].usual
    u = value * u / 100.0 if relative else u
    step = value / 1024.0
    slope = show("holdup_geometry_L", **{name: value + step})
    slope -= show("holdup_geometry_L", **{name: value - step})
    assert show(part) == pytest.approx(abs(slope) / 2.0 / step * u, rel=1e-7)


def test_margins_of_0_leave_the_sum_of_the_pieces(show):
    pieces = [f"{n}_L" for n in ("annulus", "feed_channel", "permeate_channel", "core_tubes")]
    pieces += ["ends_L", "pipes_L", "elsewhere_L"]
    bare_L = show("holdup_geometry_L", element_extra_pct=0.0)
    assert bare_L == pytest.approx(sum(show(piece) for piece in pieces))


def test_known_comes_before_dimensions_and_dimensions_before_size(show):
    every = {"known_holdup_L": 70.0, "element_size": "8x40"}
    assert show("holdup_from", **every) == "known"
    assert show("holdup_adopted_L", **every) == 70.0
    assert show("holdup_from", element_size="8x40") == "dimensions"
    assert show("holdup_from", element_size="8x40", element_area_m2=None) == "size"
    assert show("holdup_from", element_area_m2=None) is None
    assert show("master_state", element_size="8x40", element_area_m2=None) == "ok"
    assert show("master_state", element_area_m2=None) == "not filled in"


def test_a_rinse_is_rounded_up_and_a_whole_number_of_steps_is_kept(show):
    exact = {"rinse_rule": "holdup", "rinse_factor_n": 40.0, "rinse_cover": "no"}
    assert show("rinse_target_L", **exact, known_holdup_L=70.0) == 2800.0
    assert show("rinse_target_L", **exact, known_holdup_L=70.01) == 2810.0
    gallons = {**exact, "reader_units": "us"}
    for known_gal in (15.0, 15.125, 18.5, 21.125):  # 40 times these is a whole number of 5 gal
        found_L = show("rinse_target_L", **gallons, known_holdup_L=known_gal * US_GAL_L)
        assert found_L == pytest.approx(40.0 * known_gal * US_GAL_L, rel=1e-12)
    found_L = show("rinse_target_L", **gallons, known_holdup_L=15.01 * US_GAL_L)
    assert found_L == pytest.approx(605.0 * US_GAL_L, rel=1e-12)


def test_only_an_estimate_is_covered_unless_asked_for(show):
    known = {"known_holdup_L": 70.0, "known_holdup_u_L": 3.0, "rinse_factor_n": 40.0}
    known["rinse_cover"] = "auto"
    assert show("rinse_cover_L", **known) == pytest.approx(240.0)
    assert show("rinse_target_L", **known) == 2800.0
    assert show("rinse_target_L", **{**known, "rinse_cover": "yes"}) == 3040.0
    assert show("rinse_target_L") < show("rinse_target_L", rinse_cover="auto")
    elements = {"rinse_rule": "elements", "rinse_cover": "yes"}
    assert show("rinse_target_L", **elements) == show("rinse_owed_L", **elements)


def test_half_a_step_of_the_test_kit_makes_54_h_anything_from_37_to_105_h(show):
    # first-order decay; readings and times of this project's review of the rule
    assert show("chlorine_rest_h", **READINGS) == pytest.approx(54.1, abs=0.05)
    assert show("chlorine_rest_least_h", **READINGS) == pytest.approx(36.5, abs=0.05)
    assert show("chlorine_rest_most_h", **READINGS) == pytest.approx(104.9, abs=0.05)
    assert show("chlorine_ok", **READINGS, chlorine_standing_h=60.0) == "stop"
    assert show("chlorine_ok", **READINGS, chlorine_standing_h=105.0) == "ok"


def test_readings_too_close_for_the_kit_prove_no_standing_time(show):
    close = {**READINGS, "chlorine_second_mgpL": 0.4, "chlorine_standing_h": 1000.0}
    assert show("chlorine_rest_most_h", **close) is None
    assert show("chlorine_ok", **close) == "stop"


def test_a_summer_asks_for_ten_times_the_strength_of_a_month(show):
    # 0.5 to 1 g/L up to 30 days, 1 % beyond, as sodium bisulphite (generic storage texts, read)
    assert show("storage_strength_gpL", storage_rest_d=30.0) == 1.0
    assert show("storage_strength_gpL", storage_rest_d=31.0) == 10.0
    assert show("storage_strength_gpL", sheet_strength_gpL=7.0) == 7.0
    assert show("strength_ok", sheet_strength_gpL=1.0) == "check this"


@pytest.mark.parametrize(("salt", "gpL"), [("sodium", 9.13), ("potassium", 10.68)])
def test_one_per_cent_of_bisulphite_is_this_much_of_the_salt(show, salt, gpL):
    # molar masses 190.11, 222.32 and 2 x 104.06 g/mol (IUPAC)
    pure = {"storage_solution_L": 1.0, "preservative_purity_pct": 100.0}
    found_g = show("preservative_g", **pure, preservative=salt)
    assert found_g == pytest.approx(gpL, abs=0.01)
    if salt == "sodium":  # 0.674 g of SO2 for each gram of the salt
        assert show("storage_so2_mgpL") / 1000.0 / found_g == pytest.approx(0.674, abs=0.0005)
