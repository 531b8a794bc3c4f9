"""Make-up water: chlorine, its neutralisers, hardness and permeate, against the outside."""

import math

import numpy as np
import periodictable
import pytest
from scipy.integrate import solve_ivp

from builder.reference import season_water as water
from builder.reference import wash

US_GAL_L = 3.785411784  # 231 cubic inches (definition)
LB_G = 453.59237  # pound (definition)


def decay(start: float, rate: float, end_h: float) -> tuple[float, float]:
    """Return concentration and exposure after first-order decay, by an ODE solver."""
    found = solve_ivp(
        lambda _, y: (-rate * y[0], y[0]),
        (0.0, end_h),
        (start, 0.0),
        "DOP853",
        rtol=1e-12,
        atol=1e-14,
    )
    return float(found.y[0, -1]), float(found.y[1, -1])


def test_decay_and_exposure_agree_with_an_ODE_solver() -> None:
    draw = np.random.default_rng(7)
    worst = 0.0
    for _ in range(40):
        start, rate, end_h = draw.uniform(0.1, 5), draw.uniform(1e-3, 0.3), draw.uniform(1, 150)
        left, exposure = decay(start, rate, end_h)
        worst = max(worst, abs(water.chlorine_after_mgpL(start, rate, end_h) - left) / start)
        worst = max(worst, abs(water.chlorine_exposure_mghpL(start, rate, end_h) / exposure - 1))
    assert worst <= 1e-9  # found when written: 2e-14


def test_a_worked_decay_is_met() -> None:
    # worked for this project: 0.6 mg/L, 0.03 per hour at 20 degC and 45 kJ/mol, water of 5 degC,
    # standing for 24 h, limit 0.05 mg/L
    rate = 0.03 * math.exp(45000.0 / 8.314462618 * (1.0 / 293.15 - 1.0 / 278.15))
    assert rate == pytest.approx(0.01108, abs=6e-6)
    assert water.chlorine_after_mgpL(0.6, rate, 24.0) == pytest.approx(0.4598, abs=6e-5)
    assert water.chlorine_exposure_mghpL(0.6, rate, 24.0) == pytest.approx(12.64, abs=6e-3)
    assert water.chlorine_rest_h(0.6, rate, 0.05) == pytest.approx(224.2, abs=0.06)


def test_exposure_agrees_with_its_closed_form_from_short_to_endless_contact() -> None:
    for rate, contact in ((1e-9, 1.0), (0.02, 0.0), (0.02, 100.0), (0.5, 30.0), (3.0, 1e5)):
        closed = -0.4 * math.expm1(-rate * contact) / rate
        exposure = water.chlorine_exposure_mghpL(0.4, rate, contact)
        assert exposure == pytest.approx(closed, rel=1e-13)


def test_rate_from_two_readings_leads_from_the_first_to_the_second() -> None:
    rate = water.chlorine_rate_ph(0.6, 0.4, 24.0)
    assert water.chlorine_after_mgpL(0.6, rate, 24.0) == pytest.approx(0.4, rel=1e-14)
    assert water.chlorine_rest_h(0.6, rate, 0.4) == pytest.approx(24.0, rel=1e-13)
    assert water.chlorine_rest_h(0.4, rate, 0.4) == 0.0
    assert water.chlorine_rest_h(0.3, rate, 0.4) == 0.0


@pytest.mark.parametrize(("first", "second"), [(0.4, 0.4), (0.3, 0.4), (0.4, 0.0), (0.0, 0.0)])
def test_readings_that_do_not_fall_give_no_rate(first: float, second: float) -> None:
    with pytest.raises(ValueError, match=rf"chlorine_second_mgpL = {second} mgpL is not above 0"):
        water.chlorine_rate_ph(first, second, 24.0)


def test_life_is_used_up_at_the_published_threshold() -> None:
    # 400 ppm h: threshold for a change of permeability in one paper (second hand, its abstract)
    assert water.chlorine_life_pct(400.0, 400.0) == 100.0
    assert water.chlorine_life_pct(20.0, 400.0) == pytest.approx(5.0)


def test_chlorine_at_the_limit_may_reach_the_membrane() -> None:
    assert water.chlorine_ok(0.05, 0.05) == "ok"
    assert water.chlorine_ok(0.1 * 3, 0.3) == "ok"  # 0.30000000000000004
    assert water.chlorine_ok(0.0501, 0.05) == "stop"


def test_water_that_stands_too_short_wants_a_look() -> None:
    # 24 to 48 h: common practice, no source
    assert [water.standing_ok(h, 24.0, 48.0) for h in (23.9, 24.0, 48.0, 99.0)] == [
        "look",
        "ok",
        "ok",
        "ok",
    ]


# AWWA guide to the disinfection of pipelines and storage facilities, second hand: table 7-2 mg per
# mg, table 7-5 lb for 100,000 US gal at 1 mg/L, metric kg for 100 m3 at 1 mg/L
GUIDE = {
    "metabisulphite": (1.47, 1.23, 0.15),
    "bisulphite": (1.61, 1.34, 0.16),
    "ascorbic": (2.5, 2.08, 0.25),
}


@pytest.mark.parametrize("neutraliser", GUIDE)
def test_dose_agrees_with_the_tables_of_the_guide(neutraliser: str) -> None:
    ratio = water.neutraliser_ratio_n(neutraliser)
    per_mg, pounds, kilograms = GUIDE[neutraliser]
    assert ratio == per_mg
    by_gallons = water.neutraliser_g(1e5 * US_GAL_L, 1.0, ratio, 1.0, 100.0)
    by_metres = water.neutraliser_g(1e5, 1.0, ratio, 1.0, 100.0)
    assert by_gallons / LB_G == pytest.approx(pounds, abs=0.0075)  # printed to 0.01
    assert by_metres / 1000.0 == pytest.approx(kilograms, abs=0.005)


@pytest.mark.parametrize(
    ("neutraliser", "formula", "chlorines", "field"),
    [
        ("metabisulphite", "Na2S2O5", 2, 1.10),
        ("bisulphite", "NaHSO3", 1, 1.10),
        ("ascorbic", "C6H8O6", 1, 1.01),
    ],
)
def test_field_ratio_exceeds_the_stoichiometric_one(
    neutraliser: str, formula: str, chlorines: int, field: float
) -> None:
    # atomic weights of periodictable; one SO2 or one ascorbic acid for each Cl2
    mass = periodictable.formula(formula).mass
    theory = mass / (chlorines * periodictable.formula("Cl2").mass)
    assert water.neutraliser_ratio_n(neutraliser) / theory == pytest.approx(field, abs=0.005)


def test_worked_doses_are_met() -> None:
    # worked for this project with stoichiometric ratios: 0.6 mg/L, 800 L, twice, 97 per cent pure
    for ratio, grams in ((1.3406, 1.3267), (1.4676, 1.4525)):
        dose = water.neutraliser_g(800.0, 0.6, ratio, 2.0, 97.0)
        assert dose == pytest.approx(grams, abs=1.1e-4)


@pytest.mark.parametrize(
    ("hardness", "number"),
    [(0, 1), (60, 1), (61, 2), (120, 2), (121, 3), (180, 3), (181, 4), (500, 4)],
)
def test_hardness_class_is_that_of_the_geological_survey(hardness: float, number: int) -> None:
    # USGS, read in three of its pages: 0 to 60 soft, 61 to 120, 121 to 180, above 180 very hard
    found = water.hardness_class_n(float(hardness))
    assert found == number
    assert water.hardness_ok(found) == ("ok" if number == 1 else "look")


def test_a_converted_hardness_on_the_limit_stays_in_its_class() -> None:
    assert water.hardness_class_n(math.nextafter(60.0, 61.0)) == 1.0
    assert water.hardness_class_n(60.0001) == 2.0


def test_alkali_cost_agrees_with_the_chemistry_of_each_ion() -> None:
    # 1 mmol/L of Ca(HCO3)2: 2 OH for two bicarbonates, 2 OH for the calcium; CaCO3 of periodictable
    whole = periodictable.formula("CaCO3").mass
    assert water.water_alkali_cost_eqpL(whole, whole) == pytest.approx(0.004, rel=1e-4)
    assert water.scale_g(whole, 1000.0) == pytest.approx(whole)


def test_cleaner_for_the_water_brings_exactly_its_alkali() -> None:
    salts = (wash.naoh_molpL(12.0, 35.0), wash.carbonate_molpL(12.0, 10.0), 0.0, 0.0)
    alkali = wash.alkali_eqpL(*salts)
    cleaner = water.water_cleaner_kg(0.004, 195.0, alkali, 12.0)
    assert cleaner * 1000.0 * (0.35 / 39.997 + 0.2 / 105.988) == pytest.approx(0.004 * 195.0)


def test_a_wash_without_alkali_cannot_pay_for_the_water() -> None:
    with pytest.raises(ValueError, match=r"alkali_eqpL = 0\.0 eqpL lies outside"):
        water.water_cleaner_kg(0.004, 195.0, 0.0, 0.0)


@pytest.mark.parametrize("tank", ["stainless", "plastic"])
def test_permeate_of_a_few_hours_may_rinse(tank: str) -> None:
    # a few hours in stainless steel or food-grade plastic: Centre ACER, second hand; 6 h: estimate
    assert water.permeate_water_ok(6.0, 6.0, tank) == "ok"
    assert water.permeate_water_ok(6.1, 6.0, tank) == "look"


def test_permeate_from_other_metal_may_not_rinse() -> None:
    assert water.permeate_water_ok(0.0, 6.0, "other_metal") == "stop"


@pytest.mark.parametrize(
    ("standing", "least", "most", "short"),
    [
        (0.0, 24.0, 48.0, 24.0),
        (20.5, 24.0, 48.0, 3.5),
        (24.0, 24.0, 48.0, 0.0),
        (99.0, 24.0, 48.0, 0.0),
        (20.0, 48.0, 24.0, 4.0),  # limits entered the wrong way round
    ],
)
def test_water_stands_short_of_the_smaller_limit(
    standing: float, least: float, most: float, short: float
) -> None:
    assert water.standing_short_h(standing, least, most) == short


def test_permeate_has_its_hours_left_and_never_less_than_none() -> None:
    left = [water.permeate_left_h(6.0, age) for age in (0.0, 4.5, 6.0, 30.0)]
    assert left == [6.0, 1.5, 0.0, 0.0]
