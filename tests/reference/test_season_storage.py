"""Storage: preservative, its strength, frost and edition, against the outside."""

import math

import periodictable
import pytest

from builder.reference import season_storage as storage


@pytest.mark.parametrize(
    ("formula", "mass"),
    [
        ("Na2S2O5", storage.SODIUM_METABISULPHITE_GPMOL),
        ("K2S2O5", storage.POTASSIUM_METABISULPHITE_GPMOL),
        ("SO2", storage.SULPHUR_DIOXIDE_GPMOL),
    ],
)
def test_molar_masses_agree_with_the_atomic_weights(formula: str, mass: float) -> None:
    # periodictable; found when written: 1.2e-4, the weight of sulphur is an interval
    assert mass == pytest.approx(periodictable.formula(formula).mass, rel=1.5e-4)


def test_potassium_salt_replaces_sodium_salt_mole_by_mole() -> None:
    masses = [periodictable.formula(f).mass for f in ("K2S2O5", "Na2S2O5")]
    assert storage.preservative_ratio_n("sodium") == 1.0
    assert storage.preservative_ratio_n("potassium") == pytest.approx(
        masses[0] / masses[1], rel=1e-4
    )


def test_sulphur_dioxide_agrees_with_the_atomic_weights() -> None:
    whole, part = (periodictable.formula(f).mass for f in ("Na2S2O5", "SO2"))
    assert storage.storage_so2_mgpL(1.0) == pytest.approx(2000.0 * part / whole, rel=1e-4)


@pytest.mark.parametrize("preservative", ["sodium", "potassium"])
def test_both_salts_bring_the_same_sulphur_dioxide(preservative: str) -> None:
    # 30 L of 1 g/L as sodium metabisulphite: 30 g times 0.674 of sulphur dioxide
    ratio = storage.preservative_ratio_n(preservative)
    grams = storage.preservative_g(30.0, 1.0, ratio, 97.0)
    mass = {"sodium": 190.11, "potassium": 222.32}[preservative]
    moles = grams * 0.97 / mass
    assert 2.0 * moles * 64.066 == pytest.approx(30.0 * storage.storage_so2_mgpL(1.0) / 1000.0)


@pytest.mark.parametrize(
    ("strength", "verdict"),
    [(0.49, "look"), (0.5, "ok"), (1.0, "ok"), (10.0, "ok"), (10.1, "look")],
)
def test_strengths_of_the_generic_texts_will_do(strength: float, verdict: str) -> None:
    # 0.05 to 0.1 per cent in one text, 1 per cent in another (second hand)
    assert storage.strength_ok(strength, 0.5, 10.0) == verdict


def test_a_strength_of_a_converted_limit_will_do() -> None:
    assert storage.strength_ok(math.nextafter(10.0, 11.0), 0.5, 10.0) == "ok"
    assert storage.strength_ok(math.nextafter(0.5, 0.0), 0.5, 10.0) == "ok"


@pytest.mark.parametrize(
    ("temp", "verdict"),
    [(-5.0, "stop"), (1.9, "stop"), (2.0, "ok"), (35.0, "ok"), (35.1, "look")],
)
def test_a_store_near_frost_stops_and_a_warm_one_wants_a_look(temp: float, verdict: str) -> None:
    # never freeze, 35 degC at most (second hand); 2 degC: a margin, no source
    assert storage.frost_ok(temp, 2.0, 35.0) == verdict


@pytest.mark.parametrize("organic", ["yes", "no"])
@pytest.mark.parametrize("preservative", ["sodium", "potassium"])
@pytest.mark.parametrize("edition", ["e2015", "e2020", "e2026"])
def test_only_potassium_under_the_2015_edition_wants_a_look(
    organic: str, preservative: str, edition: str
) -> None:
    # potassium metabisulphite permitted since 2020: notice of a producers' federation (second hand)
    look = organic == "yes" and preservative == "potassium" and edition == "e2015"
    assert storage.preservative_ok(organic, preservative, edition) == ("look" if look else "ok")


def test_the_gap_to_frost_is_negative_exactly_where_the_store_stops() -> None:
    for temp, gap in ((-5.0, -7.0), (2.0, 0.0), (8.5, 6.5)):
        assert storage.frost_gap_degC(temp, 2.0) == gap
        assert (storage.frost_ok(temp, 2.0, 35.0) == "stop") == (gap < 0.0)
