"""Start-up and storage: both ends of a span hold; salts against the atomic weights."""

import math

import periodictable
import pytest

from builder.reference import offseason

PSI_BAR = 0.06894757293168361  # pound-force per square inch (definition)
SALTS = ("Na2S2O5", "K2S2O5", "NaHSO3", "SO2")
MASS = {formula: periodictable.formula(formula).mass for formula in SALTS}


@pytest.mark.parametrize(
    ("verdict", "low", "high"),
    [
        (offseason.soak_ok, 15.0, 20.0),  # common practice, no source
        (offseason.wetting_ok, 15.0, 30.0),  # common practice, no source
    ],
)
def test_both_ends_of_a_span_will_do_whatever_their_last_digit(verdict, low, high) -> None:
    for value in (low, math.nextafter(low, 0.0), high, math.nextafter(high, math.inf)):
        assert verdict(value, low, high) == "ok"
    for value in (low * 0.99, high * 1.01):
        assert verdict(value, low, high) == "look"


@pytest.mark.parametrize(
    ("psi", "seconds", "verdict"),
    [(20.0, 10.0, "ok"), (19.9, 5.0, "stop"), (25.0, 10.1, "stop"), (0.0, 60.0, "stop")],
)
def test_pressure_reaches_its_latch_in_time_or_the_start_stops(psi, seconds, verdict) -> None:
    # 20 psi within 10 s: common practice, no source
    latch_bar = 20.0 * PSI_BAR
    assert offseason.latch_ok(psi * PSI_BAR, latch_bar, seconds, 10.0) == verdict
    margin_bar = offseason.latch_margin_bar(psi * PSI_BAR, latch_bar)
    assert margin_bar == pytest.approx((psi - 20.0) * PSI_BAR)


def test_the_last_digit_of_a_conversion_does_not_decide() -> None:
    latch_bar = 20.0 * PSI_BAR
    assert offseason.latch_ok(math.nextafter(latch_bar, 0.0), latch_bar, 10.0, 10.0) == "ok"
    assert offseason.latch_ok(latch_bar, latch_bar, math.nextafter(10.0, 11.0), 10.0) == "ok"
    assert offseason.first_rinse_ok(0.1 * 3 * 1000, 300.0) == "ok"


@pytest.mark.parametrize(
    ("done", "verdict"),
    [(0.0, "stop"), (2900 - 3e-6, "stop"), (2900 - 2.8e-6, "ok"), (2900.0, "ok"), (3000.0, "ok")],
)
def test_a_first_rinse_short_by_more_than_a_billionth_stops(done, verdict) -> None:
    assert offseason.first_rinse_ok(done, 2900.0) == verdict
    assert (offseason.first_rinse_left_L(2900.0, done) > 0.0) == (verdict == "stop")


@pytest.mark.parametrize(
    "left", [offseason.soak_left_min, offseason.wetting_left_min, offseason.first_rinse_left_L]
)
def test_what_is_left_and_what_is_done_make_the_least_and_nothing_is_left_beyond(left) -> None:
    assert left(15.0, 0.0) == 15.0
    assert left(15.0, 6.25) + 6.25 == 15.0
    assert left(15.0, 15.0) == left(15.0, 99.0) == 0.0


@pytest.mark.parametrize(
    ("formula", "mass"),
    [
        ("Na2S2O5", offseason.SODIUM_METABISULPHITE_GPMOL),
        ("K2S2O5", offseason.POTASSIUM_METABISULPHITE_GPMOL),
        ("NaHSO3", offseason.SODIUM_BISULPHITE_GPMOL),
        ("SO2", offseason.SULPHUR_DIOXIDE_GPMOL),
    ],
)
def test_molar_masses_agree_with_the_atomic_weights(formula, mass) -> None:
    # periodictable; found when written: 1.2e-4, the weight of sulphur is an interval
    assert mass == pytest.approx(MASS[formula], rel=1.5e-4)


def test_one_metabisulphite_gives_two_bisulphites_and_each_a_sulphur_dioxide() -> None:
    # 9.13 g sodium or 10.68 g potassium metabisulphite for 10 g of bisulphite (published ratios)
    ratios = [offseason.preservative_ratio_n(salt) for salt in ("sodium", "potassium")]
    assert ratios == [pytest.approx(0.913, abs=6e-4), pytest.approx(1.068, abs=6e-4)]
    share = MASS["SO2"] / MASS["NaHSO3"]
    assert offseason.storage_so2_mgpL(1.0) == pytest.approx(1000.0 * share, rel=1.5e-4)


@pytest.mark.parametrize(("preservative", "mass"), [("sodium", 190.11), ("potassium", 222.32)])
def test_both_salts_bring_the_same_sulphur_dioxide(preservative, mass) -> None:
    # 15 L of 2 g/L as bisulphite: 2 mol of sulphur dioxide for each mol of salt
    ratio = offseason.preservative_ratio_n(preservative)
    moles = offseason.preservative_g(15.0, 2.0, ratio, 97.0) * 0.97 / mass
    assert 2.0 * moles * 64.066 == pytest.approx(15.0 * offseason.storage_so2_mgpL(2.0) / 1000.0)


def test_a_long_rest_wants_the_stronger_solution_unless_the_data_sheet_says_otherwise() -> None:
    # up to 30 days 1 g/L, beyond 10 g/L (read, generic texts)
    found = [offseason.storage_strength_gpL(days) for days in (5.0, 30.0, 31.0, 300.0)]
    assert found == [1.0, 1.0, 10.0, 10.0]
    assert offseason.storage_strength_gpL(300.0, 7.5) == 7.5


@pytest.mark.parametrize(("days", "least"), [(30.0, 0.5), (31.0, 5.0)])
def test_a_strength_is_usual_from_the_least_of_its_rest_to_the_most(days, least) -> None:
    spans = ((least, "ok"), (10.0, "ok"), (least * 0.99, "look"), (10.1, "look"))
    for strength, verdict in spans:
        assert offseason.strength_ok(strength, days, 0.5, 5.0, 10.0) == verdict


@pytest.mark.parametrize(
    ("temp", "gap", "verdict"),
    [(-5.0, -7.0, "stop"), (2.0, 0.0, "ok"), (35.0, 33.0, "ok"), (35.5, 33.5, "look")],
)
def test_a_store_near_frost_stops_and_a_warm_one_wants_a_look(temp, gap, verdict) -> None:
    # never freeze, 35 degC at most (second hand); 2 degC: a margin, no source
    assert offseason.frost_ok(temp, 2.0, 35.0) == verdict
    assert offseason.frost_gap_degC(temp, 2.0) == gap


def test_only_potassium_under_the_2015_edition_wants_a_look() -> None:
    # potassium metabisulphite permitted since 2020: notice of a producers' federation (second hand)
    asked = [
        (organic, salt, edition)
        for organic in ("yes", "no")
        for salt in ("sodium", "potassium")
        for edition in ("e2015", "e2020", "e2026")
    ]
    looks = [case for case in asked if offseason.preservative_ok(*case) == "look"]
    assert looks == [("yes", "potassium", "e2015")]
