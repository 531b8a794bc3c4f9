"""Rinse volumes against rules of thumb and the washout of one mixed volume."""

import math

import pytest

from builder.reference import rinse

US_GAL_L = 3.785411784  # 231 cubic inches (definition)


def test_forty_holdup_volumes_are_owed() -> None:
    # common practice, no source: 40 hold-up volumes after a cleaner
    assert rinse.rinse_by_holdup_L(40.0, 109.0) == 4360.0


def test_three_elements_take_about_eight_hundred_us_gallons_at_the_upper_end() -> None:
    # common practice, no source: 500-600 US gal for one element, 50-100 for each further one,
    # about 800 US gal for three
    low = rinse.rinse_by_elements_L(500 * US_GAL_L, 50 * US_GAL_L, 3.0) / US_GAL_L
    high = rinse.rinse_by_elements_L(600 * US_GAL_L, 100 * US_GAL_L, 3.0) / US_GAL_L
    assert low == pytest.approx(600.0)
    assert high == pytest.approx(800.0)


def test_one_element_takes_only_the_first_volume() -> None:
    assert rinse.rinse_by_elements_L(2000.0, 300.0, 1.0) == 2000.0


def test_first_rinse_is_the_hourly_volume() -> None:
    # common practice, no source: before first use, the volume of one hour of rated flow
    hourly = rinse.first_rinse_hourly_L(2400.0, 1.0)
    assert rinse.first_rinse_owed_L("holdup", hourly, 2900.0) == 2400.0
    assert rinse.first_rinse_time_min(2400.0, 40.0) == 60.0
    assert rinse.first_rinse_fills_n(2400.0, 1000.0) == 3.0


@pytest.mark.parametrize(
    ("rule", "owed"), [("holdup", 4360.0), ("elements", 2900.0), ("larger", 4360.0)]
)
def test_the_rule_picks_the_rinse_owed(rule: str, owed: float) -> None:
    assert rinse.rinse_owed_L(rule, 4360.0, 2900.0) == owed


def test_larger_never_owes_less_than_either_rule() -> None:
    for hourly, elements in ((2400.0, 2900.0), (3000.0, 2900.0), (0.0, 0.0)):
        assert rinse.first_rinse_owed_L("larger", hourly, elements) == max(hourly, elements)
        assert rinse.first_rinse_owed_L("elements", hourly, elements) == elements


def test_an_unknown_rule_is_refused() -> None:
    with pytest.raises(ValueError, match="rinse_rule = smaller is none of holdup, elements"):
        rinse.rinse_owed_L("smaller", 4360.0, 2900.0)


@pytest.mark.parametrize(
    ("volumes", "left"),
    [  # Levenspiel, washout of one mixed volume, exp(-n) (from memory)
        (1.0, 0.3679),
        (2.0, 0.1353),
        (3.0, 0.0498),
        (5.0, 0.00674),
        (7.0, 9.12e-4),
        (10.0, 4.54e-5),
        (40.0, 4e-18),
    ],
)
def test_dilution_agrees_with_the_published_washout(volumes: float, left: float) -> None:
    decades = rinse.rinse_ideal_decades_n(volumes)
    assert 10.0**-decades == pytest.approx(left, rel=0.07 if volumes == 40.0 else 1e-3)
    assert decades == pytest.approx(-math.log10(math.exp(-volumes)), rel=1e-14)


def test_dilution_stays_finite_where_the_exponential_underflows() -> None:
    assert rinse.rinse_ideal_decades_n(5000.0) == pytest.approx(2171.4724, abs=1e-4)


def test_time_volumes_and_fills_of_the_owed_rinse() -> None:
    assert rinse.rinse_time_min(4360.0, 40.0) == 109.0
    assert rinse.rinse_volumes_n(4360.0, 109.0) == 40.0
    assert rinse.rinse_fills_n(4360.0, 1000.0) == 5.0


def test_a_full_number_of_fills_is_not_rounded_up_by_noise() -> None:
    assert rinse.rinse_fills_n(0.1 * 3, 0.1) == 3.0
    assert rinse.rinse_fills_n(3000.00000001, 1000.0) == 3.0
    assert rinse.rinse_fills_n(3000.01, 1000.0) == 4.0
    assert rinse.first_rinse_fills_n(0.7 + 0.1 + 0.1, 0.3) == 3.0


def test_a_machine_without_holdup_has_no_rinse_volumes() -> None:
    with pytest.raises(ValueError, match=r"holdup_adopted_L = 0\.0 L lies outside 1e-09 to"):
        rinse.rinse_volumes_n(100.0, 0.0)
