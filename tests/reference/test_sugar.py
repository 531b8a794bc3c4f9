"""Sugar in the permeate against published tables and worked examples."""

import pytest
from iapws._iapws import _Liquid, _Refractive  # type: ignore[import-untyped]

from builder.reference import permeate

# OIV-MA-AS2-02, table I (read): percentage points to add, 10 per cent column from 5 degC, 20 per
# cent column at 5, 10 and 15 degC
OIV_10 = (-0.82, -0.80, -0.74, -0.69, -0.64, -0.59, -0.54, -0.49, -0.43, -0.38, -0.32, -0.26, -0.20)
# index of sucrose in water at 20 degC, 0 and 1 per cent, ICUMSA 1974 (second hand: a library)
ICUMSA_0, ICUMSA_1 = 1.33299, 1.33442
OIV_20 = ((5.0, -0.92), (10.0, -0.65), (15.0, -0.34))
OIV = [(10.0, 5.0 + k, p) for k, p in enumerate(OIV_10)] + [(20.0, *row) for row in OIV_20]


@pytest.mark.parametrize(("reading", "temp", "points"), OIV)
def test_correction_agrees_with_the_wine_organisation(
    reading: float, temp: float, points: float
) -> None:
    # found when written: 0.036 at most (the table is printed to 0.01 and not smooth)
    found = permeate.sugar_correction_brix("plain", reading, temp)
    assert found == pytest.approx(points, abs=0.04)
    gap, tens = permeate.sugar_gap_degC("plain", temp), permeate.sugar_tens_n(reading)
    assert permeate.sugar_shift_brix(gap, tens) == found


@pytest.mark.parametrize("temp", [2.0, 5.0, 10.0, 15.0, 18.0])
def test_cold_water_corrected_is_free_of_sugar(temp: float) -> None:
    # index of water by the IAPWS (library), read off the scale of ICUMSA 1974 (second hand); the
    # organisation's table has no column below 10 per cent
    kelvin, warm = temp + 273.15, 293.15
    shift = _Refractive(_Liquid(warm)["rho"], warm, 0.5893) - ICUMSA_0
    index = _Refractive(_Liquid(kelvin)["rho"], kelvin, 0.5893) - shift
    reading = (index - ICUMSA_0) / (ICUMSA_1 - ICUMSA_0)
    correction = permeate.sugar_correction_brix("plain", reading, temp)
    assert reading + correction == pytest.approx(0.0, abs=0.06 if temp < 5.0 else 0.03)


def test_a_plain_instrument_is_right_at_20_degC_and_a_compensated_one_anywhere() -> None:
    assert permeate.sugar_correction_brix("plain", 12.0, 20.0) == 0.0
    assert permeate.sugar_correction_brix("compensated", 35.0, 3.0) == 0.0
    assert permeate.sugar_gap_degC("compensated", 8.0) == permeate.sugar_gap_degC("plain") == 0.0


def test_a_plain_instrument_without_a_temperature_has_no_correction() -> None:
    assert permeate.sugar_correction_brix("compensated", 5.0) == 0.0
    with pytest.raises(ValueError, match="no correction without its temperature"):
        permeate.sugar_correction_brix("plain", 5.0)


def test_sugar_is_reading_less_zero_plus_correction_and_never_negative() -> None:
    assert permeate.sugar_brix(0.9, 0.1, -0.6) == pytest.approx(0.2)
    assert permeate.sugar_brix(0.0, 0.1, -0.6) == 0.0


@pytest.mark.parametrize("unseen", [0.0, 0.1, 0.3 - 0.2])
def test_what_the_instrument_cannot_see_is_no_sugar_loss(unseen: float) -> None:
    # resolution of 0.1 per cent by mass: OIV-MA-AS2-02 (read)
    with pytest.raises(ValueError, match=r"is not above a resolution of 0\.1"):
        permeate.sugar_seen_brix(unseen, 0.1)
    assert permeate.sugar_seen_brix(0.11, 0.1) == 0.11


def test_loss_and_what_hides_below_the_resolution_agree_with_the_mass_balance() -> None:
    # worked for this project: 1000 L of sap, 2 to 8 Brix at 5 degC, gives 757.78 L of permeate at
    # 0.02 Brix, 0.1516 kg of sugar; sap of 1.007891 kg/L by ICUMSA SPS-4 (second hand)
    sap_kg = 1000.0 * 1.007891 * 0.02
    loss = permeate.sugar_carried_kgph(0.02, 757.78)
    assert loss == pytest.approx(0.1516, abs=1e-4)
    assert 100.0 * loss / sap_kg == pytest.approx(0.752, abs=5e-4)
    # the same permeate at a resolution of 0.1 Brix hides 3.8 per cent
    assert 100.0 * permeate.sugar_carried_kgph(0.1, 757.78) / sap_kg == pytest.approx(3.8, abs=0.05)


def test_a_little_sugar_is_a_large_share_of_thin_sap() -> None:
    # worked for this project: sap of 2 Brix, permeate of 0.1 Brix; 3.8 per cent of the sugar goes
    # with the 0.7576 kg of permeate of each kg of sap
    assert permeate.sugar_passage_pct(0.1, 2.0) * 0.7576 == pytest.approx(3.8, abs=0.05)


@pytest.mark.parametrize(
    ("brix", "since", "verdict"),
    [
        (0.1, 9.0, "ok"),
        (0.15, 2.9, "look"),
        (0.2, 0.0, "look"),
        (0.3 - 0.1, 1.0, "look"),
        (0.15, 3.0, "stop"),
        (0.21, 0.0, "stop"),
    ],
)
def test_a_little_sugar_is_borne_only_just_after_start_or_wash(
    brix: float, since: float, verdict: str
) -> None:
    # 2 to 3 h: common practice, no source
    assert permeate.sugar_ok(brix, 0.1, 0.2, since, 3.0) == verdict
