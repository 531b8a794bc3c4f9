"""Rinse volumes against rules of thumb and the washout of one mixed volume."""

import math

import pytest

from builder.reference import rinse

US_GAL_L = 3.785411784  # 231 cubic inches (definition)


def test_forty_holdup_volumes_are_owed() -> None:
    # common practice, no source: 40 hold-up volumes after a cleaner
    owed = rinse.rinse_by_holdup_L(40.0, 109.0)
    assert (owed, rinse.rinse_volumes_n(owed, 109.0)) == (4360.0, 40.0)
    assert rinse.rinse_time_min(owed, 40.0) == 109.0


def test_three_elements_take_about_eight_hundred_us_gallons_at_the_upper_end() -> None:
    # common practice, no source: 500-600 US gal for one element, 50-100 for each further one,
    # about 800 US gal for three
    low = rinse.rinse_by_elements_L(500 * US_GAL_L, 50 * US_GAL_L, 3.0) / US_GAL_L
    high = rinse.rinse_by_elements_L(600 * US_GAL_L, 100 * US_GAL_L, 3.0) / US_GAL_L
    assert (low, high) == (pytest.approx(600.0), pytest.approx(800.0))
    assert rinse.rinse_by_elements_L(2000.0, 300.0, 1.0) == 2000.0


@pytest.mark.parametrize(
    ("rule", "after", "first"),
    [("holdup", 4360.0, 2400.0), ("elements", 2900.0, 2900.0), ("larger", 4360.0, 2900.0)],
)
def test_the_rule_picks_both_rinses(rule: str, after: float, first: float) -> None:
    # common practice, no source: before first use, the volume of one hour of rated flow
    hourly = rinse.first_rinse_hourly_L(2400.0, 1.0)
    assert rinse.rinse_owed_L(rule, 4360.0, 2900.0) == after
    assert rinse.first_rinse_owed_L(rule, hourly, 2900.0) == first
    assert rinse.first_rinse_time_min(first, 40.0) == first / 40.0


@pytest.mark.parametrize(
    ("litres", "tank", "fills"),
    [
        (4360.0, 1000.0, 5.0),
        (0.1 * 3, 0.1, 3.0),  # 3.0000000000000004 in binary
        (3000.00000001, 1000.0, 3.0),
        (3000.01, 1000.0, 4.0),
    ],
)
def test_fills_are_whole_and_rounding_noise_adds_none(
    litres: float, tank: float, fills: float
) -> None:
    assert rinse.rinse_fills_n(litres, tank) == fills
    assert rinse.first_rinse_fills_n(litres, tank) == fills


def test_a_rinse_covers_the_doubt_of_an_estimate_unless_told_otherwise() -> None:
    asked = [(cover, way) for cover in ("auto", "yes", "no") for way in (1.0, 2.0, 3.0)]
    for rule in ("holdup", "larger"):
        found = [rinse.rinse_covered_n(rule, *case) for case in asked]
        assert found == [0, 1, 1, 1, 1, 1, 0, 0, 0]
    assert not any(rinse.rinse_covered_n("elements", *case) for case in asked)
    assert rinse.rinse_cover_L(40.0, 5.3) == 424.0


@pytest.mark.parametrize(
    ("rule", "owed", "covered", "wanted"),
    [  # 4360 L by hold-up, 424 L for its doubt
        ("holdup", 4360.0, 1.0, 4784.0),
        ("holdup", 4360.0, 0.0, 4360.0),
        ("elements", 2900.0, 1.0, 2900.0),
        ("larger", 4500.0, 1.0, 4784.0),
        ("larger", 5000.0, 1.0, 5000.0),
    ],
)
def test_doubt_raises_a_rinse_that_rests_on_the_holdup(
    rule: str, owed: float, covered: float, wanted: float
) -> None:
    assert rinse.rinse_wanted_L(rule, owed, covered, 4360.0, 424.0) == wanted


def test_a_target_is_a_whole_number_of_steps_that_a_scale_shows() -> None:
    steps = [rinse.rinse_step_L(units) for units in ("metric", "us", "imperial")]
    assert steps == [10.0, pytest.approx(5 * US_GAL_L), pytest.approx(2 * 4.54609)]
    assert [rinse.rinse_target_L(litres, 10.0) for litres in (4784.0, 4780.0)] == [4790.0, 4780.0]
    assert rinse.first_rinse_target_L(0.1 * 3, 0.1) == pytest.approx(0.3)  # no step for noise
    assert rinse.first_rinse_target_L(2400.0, 10.0) == 2400.0


@pytest.mark.parametrize(
    ("volumes", "left"),
    [  # Levenspiel, washout of one mixed volume, exp(-n) (from memory)
        (1.0, 0.3679),
        (2.0, 0.1353),
        (3.0, 0.0498),
        (5.0, 0.00674),
        (7.0, 9.12e-4),
        (10.0, 4.54e-5),
    ],
)
def test_dilution_agrees_with_the_published_washout(volumes: float, left: float) -> None:
    assert 10.0 ** -rinse.rinse_ideal_decades_n(volumes) == pytest.approx(left, rel=1e-3)


def test_dilution_stays_finite_where_the_exponential_underflows() -> None:
    assert rinse.rinse_ideal_decades_n(5000.0) == pytest.approx(2171.4724, abs=1e-4)


def test_ten_volumes_are_the_least_that_passes() -> None:
    # 7 to 10 volumes for ideal mixing: Levenspiel (from memory)
    assert [rinse.rinse_ok(n) for n in (7.0, math.nextafter(10.0, 0.0))] == ["look", "look"]
    assert rinse.rinse_ok(10.0) == "ok"


def test_a_machine_without_holdup_has_no_rinse_volumes() -> None:
    with pytest.raises(ValueError, match="no number of hold-up volumes of 0 L"):
        rinse.rinse_volumes_n(100.0, 0.0)
