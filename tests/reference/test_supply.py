"""Water for washes and rinses: chlorine, its neutralisers, hardness, stored permeate."""

import math

import numpy as np
import periodictable
import pytest
from scipy.integrate import solve_ivp

from builder.reference import supply

US_GAL_L = 3.785411784  # 231 cubic inches (definition)
LB_G = 453.59237  # pound (definition)


def decay(start: float, rate: float, end_h: float) -> tuple[float, float]:
    """Return concentration and exposure after first-order decay, by an ODE solver."""
    steps = {"method": "DOP853", "rtol": 1e-12, "atol": 1e-14}
    found = solve_ivp(lambda _, y: (-rate * y[0], y[0]), (0.0, end_h), (start, 0.0), **steps)
    return float(found.y[0, -1]), float(found.y[1, -1])


def test_decay_and_exposure_agree_with_an_ODE_solver() -> None:
    draw = np.random.default_rng(7)
    for _ in range(40):
        start, rate, end_h = draw.uniform(0.1, 5), draw.uniform(1e-3, 0.3), draw.uniform(1, 150)
        left, exposure = decay(start, rate, end_h)
        # found when written: 2e-14
        assert supply.chlorine_after_mgpL(start, rate, end_h) == pytest.approx(
            left, abs=1e-9 * start
        )
        assert supply.chlorine_exposure_mghpL(start, rate, end_h) == pytest.approx(
            exposure, rel=1e-9
        )


def test_a_worked_decay_is_met() -> None:
    # worked for this project: 0.6 mg/L, 0.03 per hour at 20 degC and 45 kJ/mol, water of 5 degC,
    # standing for 24 h, limit 0.05 mg/L
    rate = 0.03 * math.exp(45000.0 / 8.314462618 * (1.0 / 293.15 - 1.0 / 278.15))
    assert rate == pytest.approx(0.01108, abs=6e-6)
    assert supply.chlorine_after_mgpL(0.6, rate, 24.0) == pytest.approx(0.4598, abs=6e-5)
    assert supply.chlorine_exposure_mghpL(0.6, rate, 24.0) == pytest.approx(12.64, abs=6e-3)
    assert supply.chlorine_rest_h(0.6, rate, 0.05) == pytest.approx(224.2, abs=0.06)


@pytest.mark.parametrize(
    ("rate", "contact"), [(1e-9, 1.0), (0.02, 0.0), (0.02, 100.0), (0.5, 30.0), (3.0, 1e5)]
)
def test_exposure_agrees_with_its_closed_form_from_short_to_endless_contact(
    rate: float, contact: float
) -> None:
    closed = -0.4 * math.expm1(-rate * contact) / rate
    exposure = supply.chlorine_exposure_mghpL(0.4, rate, contact)
    assert exposure == pytest.approx(closed, rel=1e-13)


def test_rate_from_two_readings_leads_from_the_first_to_the_second() -> None:
    rate = supply.chlorine_rate_ph(0.6, 0.4, 24.0)
    assert supply.chlorine_after_mgpL(0.6, rate, 24.0) == pytest.approx(0.4, rel=1e-14)
    rests = [supply.chlorine_rest_h(first, rate, 0.4) for first in (0.6, 0.4, 0.3)]
    assert rests == pytest.approx([24.0, 0.0, 0.0], rel=1e-13)


@pytest.mark.parametrize(("first", "second"), [(0.3, 0.1 * 3), (0.3, 0.4), (0.4, 0.0), (0.0, 0.0)])
def test_readings_that_do_not_fall_give_no_rate(first: float, second: float) -> None:
    with pytest.raises(ValueError, match="gives no rate of decay"):
        supply.chlorine_rate_ph(first, second, 24.0)


def test_life_is_used_up_at_the_published_threshold() -> None:
    # 400 ppm h: threshold for a change of permeability in one paper (second hand, its abstract)
    assert supply.chlorine_life_pct(400.0, 400.0) == 100.0


def test_a_kit_of_coarse_steps_leaves_the_standing_time_wide_open() -> None:
    # worked for this project: 0.5 and 0.3 mg/L, 12 h between, limit 0.05, step 0.1: 54 h, 37 to 105
    readings, off = (0.5, 0.3, 12.0), supply.chlorine_off_mgpL(0.1)
    rate = supply.chlorine_rate_ph(*readings)
    fast = supply.chlorine_fast_ph(*readings, off, rate)
    slow = supply.chlorine_slow_ph(*readings, off, rate)
    least = supply.chlorine_rest_least_h(0.5, off, fast, 0.05)
    most = supply.chlorine_rest_most_h(0.5, off, slow, 0.05)
    middle = supply.chlorine_rest_h(0.5, rate, 0.05)
    assert (middle, least, most) == tuple(pytest.approx(h, abs=0.6) for h in (54, 37, 105))
    for first, second, hours in ((0.55, 0.25, least), (0.45, 0.35, most)):
        by_hand = 12.0 * math.log(first / 0.05) / math.log(first / second)
        assert hours == pytest.approx(by_hand, rel=1e-12)
    assert supply.chlorine_proven_mgpL(0.5, 0.3, off) == pytest.approx(0.1)
    # a kit that tells everything: all three are one
    sharp = supply.chlorine_fast_ph(*readings, 0.0, rate)
    assert supply.chlorine_rest_least_h(0.5, 0.0, sharp, 0.05) == pytest.approx(middle, rel=1e-13)


def test_water_that_was_never_above_the_limit_need_not_stand() -> None:
    assert supply.chlorine_rest_least_h(0.2, 0.05, 0.04, 0.25) == 0.0
    assert supply.chlorine_rest_most_h(0.3, 0.05, 0.04, 0.25) == 0.0


@pytest.mark.parametrize("second", [0.1, 0.05])
def test_a_second_reading_within_half_a_step_of_none_has_no_fastest_decay(second: float) -> None:
    with pytest.raises(ValueError, match="may be none at all"):
        supply.chlorine_fast_ph(0.5, second, 12.0, 0.1, 0.1)


@pytest.mark.parametrize(("first", "second"), [(0.5, 0.4), (0.3, 0.2), (0.4, 0.35)])
def test_readings_a_step_apart_have_no_slowest_decay(first: float, second: float) -> None:
    assert supply.chlorine_proven_mgpL(first, second, 0.05) <= 1e-15
    with pytest.raises(ValueError, match="does not tell the readings apart"):
        supply.chlorine_slow_ph(first, second, 12.0, 0.05, 0.1)


def test_water_stands_as_long_as_the_slowest_decay_wants_and_longer_than_a_kit_can_tell() -> None:
    verdicts = [supply.chlorine_ok(0.04, hours, 105.0) for hours in (105.0, 104.9)]
    assert [*verdicts, supply.chlorine_ok(0.04, 1000.0, None)] == ["ok", "stop", "stop"]


@pytest.mark.parametrize(
    ("standing", "least", "most", "short"),
    [
        (23.5, 24.0, 48.0, 0.5),
        (24.0, 24.0, 48.0, 0.0),
        (99.0, 24.0, 48.0, 0.0),
        (20.0, 48.0, 24.0, 4.0),  # limits entered the wrong way round
    ],
)
def test_water_stands_short_of_the_smaller_limit(
    standing: float, least: float, most: float, short: float
) -> None:
    # 24 to 48 h: common practice, no source
    assert supply.standing_short_h(standing, least, most) == short
    assert supply.standing_ok(standing, least, most) == ("look" if short else "ok")


# AWWA guide to the disinfection of pipelines and storage facilities, second hand: table 7-2 mg per
# mg, table 7-5 lb for 100,000 US gal at 1 mg/L, metric kg for 100 m3 at 1 mg/L; then the formula,
# Cl2 for each, and what the ratio of the field adds to theory
GUIDE = {
    "metabisulphite": (1.47, 1.23, 0.15, "Na2S2O5", 2, 1.10),
    "bisulphite": (1.61, 1.34, 0.16, "NaHSO3", 1, 1.10),
    "ascorbic": (2.5, 2.08, 0.25, "C6H8O6", 1, 1.01),
}


@pytest.mark.parametrize("neutraliser", GUIDE)
def test_dose_agrees_with_the_tables_of_the_guide(neutraliser: str) -> None:
    ratio = supply.neutraliser_ratio_n(neutraliser)
    per_mg, pounds, kilograms, *_ = GUIDE[neutraliser]
    assert ratio == per_mg
    by_gallons = supply.neutraliser_g(1e5 * US_GAL_L, 1.0, ratio, 1.0, 100.0)
    by_metres = supply.neutraliser_g(1e5, 1.0, ratio, 1.0, 100.0)
    assert by_gallons / LB_G == pytest.approx(pounds, abs=0.0075)  # printed to 0.01
    assert by_metres / 1000.0 == pytest.approx(kilograms, abs=0.005)


@pytest.mark.parametrize("neutraliser", GUIDE)
def test_field_ratio_exceeds_the_stoichiometric_one(neutraliser: str) -> None:
    *_, formula, chlorines, field = GUIDE[neutraliser]
    chlorine = chlorines * periodictable.formula("Cl2").mass
    theory = periodictable.formula(formula).mass / chlorine
    ratio = supply.neutraliser_ratio_n(neutraliser)
    assert ratio / theory == pytest.approx(field, abs=0.005)


def test_worked_doses_are_met() -> None:
    # worked for this project with stoichiometric ratios: 0.6 mg/L, 800 L, twice, 97 per cent pure
    for ratio, grams in ((1.3406, 1.3267), (1.4676, 1.4525)):
        dose = supply.neutraliser_g(800.0, 0.6, ratio, 2.0, 97.0)
        assert dose == pytest.approx(grams, abs=1.1e-4)


@pytest.mark.parametrize(
    ("hardness", "number"),
    [
        (0.0, 1),
        (60.0, 1),
        (math.nextafter(60.0, 61.0), 1),  # converted from other units
        (60.0001, 2),
        (61.0, 2),
        (120.0, 2),
        (121.0, 3),
        (180.0, 3),
        (181.0, 4),
    ],
)
def test_hardness_class_is_that_of_the_geological_survey(hardness: float, number: int) -> None:
    # USGS, read in three of its pages: 0 to 60 soft, 61 to 120, 121 to 180, above 180 very hard
    found = supply.hardness_class_n(hardness)
    assert found == number
    assert supply.hardness_ok(found) == ("ok" if number == 1 else "look")


@pytest.mark.parametrize(
    ("hours", "tank", "verdict"),
    [
        (6.0, "stainless", "ok"),
        (6.1, "stainless", "look"),
        (6.0, "plastic", "ok"),
        (0.0, "other_metal", "stop"),
    ],
)
def test_fresh_permeate_may_rinse_unless_it_touched_other_metal(
    hours: float, tank: str, verdict: str
) -> None:
    # a few hours in stainless steel or food-grade plastic: Centre ACER, second hand; 6 h: estimate
    assert supply.permeate_water_ok(hours, 6.0, tank) == verdict


def test_permeate_has_its_hours_left_and_never_less_than_none() -> None:
    assert [supply.permeate_left_h(6.0, age) for age in (4.5, 30.0)] == [1.5, 0.0]
