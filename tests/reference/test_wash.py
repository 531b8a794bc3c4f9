"""Wash volume, dose and alkali against rules of thumb, hand figures and other libraries."""

import pytest
from periodictable import formula

from builder.reference import wash
from builder.reference.cleaner import (
    NA2CO3_GPMOL,
    NA2SIO3_GPMOL,
    NA4EDTA_GPMOL,
    NAOH_GPMOL,
)

US_GAL_L = 3.785411784  # 231 cubic inches (definition)


def test_recipe_of_one_element_gives_the_usual_strength() -> None:
    # common practice, no source: buffered alkaline cleaner 1.13 kg an element in 13 US gal
    volume = wash.recipe_volume_L(1.0, 13 * US_GAL_L)
    solution = wash.wash_solution_L(volume, "circulating", 27.0)
    dose = wash.cleaner_dose_kg(1.0, 1.13, wash.wash_volume_L(solution, 27.0), solution)
    assert dose == pytest.approx(1.13, rel=1e-15)
    assert wash.cleaner_strength_gpL(dose, solution) == pytest.approx(22.96, abs=0.005)


def test_circulating_recipe_includes_the_water_in_the_machine() -> None:
    assert wash.wash_solution_L(196.0, "circulating", 109.0) == 196.0
    assert wash.tank_fill_L(196.0, 109.0) == 87.0


def test_tank_recipe_adds_the_water_in_the_machine() -> None:
    assert wash.wash_solution_L(196.0, "tank", 109.0) == 305.0
    assert wash.tank_fill_L(305.0, 109.0) == 196.0


def test_tank_recipe_keeps_the_recipe_dose_in_the_larger_volume() -> None:
    assert wash.cleaner_dose_kg(4.0, 1.13, 305.0, 305.0) == pytest.approx(4.52, rel=1e-15)


def test_machine_larger_than_the_recipe_keeps_the_strength_of_the_recipe() -> None:
    solution = wash.wash_solution_L(100.0, "circulating", 150.0)
    volume = wash.wash_volume_L(solution, 150.0)
    dose = wash.cleaner_dose_kg(2.0, 1.0, volume, solution)
    assert (volume, wash.tank_fill_L(solution, 150.0)) == (150.0, 0.0)
    assert dose == pytest.approx(3.0)
    assert wash.cleaner_strength_gpL(dose, volume) == pytest.approx(20.0)


def test_a_recipe_without_water_has_no_dose() -> None:
    with pytest.raises(ValueError, match=r"wash_solution_L = 0\.0 L lies outside 1e-09 to 1e\+09"):
        wash.cleaner_dose_kg(4.0, 1.13, 100.0, 0.0)


@pytest.mark.parametrize(
    ("dose", "pack", "packs"),
    [
        (4.52, 2.0, 3.0),
        (4.0, 2.0, 2.0),
        (0.3, 0.1, 3.0),  # 0.3 / 0.1 is 2.9999999999999996 in binary
        (0.1 * 3, 0.1, 3.0),  # and this one 3.0000000000000004
        (3.0000000005, 1.0, 3.0),  # within 1e-9
        (3.00000001, 1.0, 4.0),
        (0.0, 2.0, 0.0),
    ],
)
def test_packs_are_whole_and_rounding_noise_buys_none(
    dose: float, pack: float, packs: float
) -> None:
    assert wash.cleaner_packs_n(dose, pack) == packs


def test_what_does_not_fit_into_the_tank_is_never_negative() -> None:
    assert wash.tank_short_L(87.0, 400.0) == 0.0
    assert wash.tank_short_L(487.0, 400.0) == 87.0


@pytest.mark.parametrize(
    ("salt", "grams"),
    [
        ("NaOH", NAOH_GPMOL),
        ("Na2CO3", NA2CO3_GPMOL),
        ("Na2SiO3", NA2SIO3_GPMOL),
        ("Na4C10H12N2O8", NA4EDTA_GPMOL),
    ],
)
def test_molar_masses_agree_with_the_elements(salt: str, grams: float) -> None:
    assert grams == pytest.approx(formula(salt).mass, rel=3e-5)


def test_one_molar_mass_in_a_litre_is_one_mole() -> None:
    assert wash.naoh_molpL(39.997, 100.0) == pytest.approx(1.0, rel=1e-15)
    assert wash.carbonate_molpL(1059.88, 10.0) == pytest.approx(1.0, rel=1e-15)
    assert wash.silicate_molpL(122.063, 50.0) == pytest.approx(0.5, rel=1e-15)
    assert wash.edta_molpL(380.17, 5.0) == pytest.approx(0.05, rel=1e-15)


def test_alkali_is_the_sodium_of_all_salts() -> None:
    assert wash.alkali_eqpL(0.1, 0.01, 0.002, 0.0003) == pytest.approx(0.1252, rel=1e-15)


def test_alkali_of_the_label_example_agrees_with_its_equivalents_per_gram() -> None:
    # charge balance (definition):
    # NaOH/39.997 + 2 Na2CO3/105.988 + 2 Na2SiO3/122.063 + 4 Na4EDTA/380.17
    strength = 150 / 195
    salts = (
        wash.naoh_molpL(strength, 35.0),
        wash.carbonate_molpL(strength, 10.0),
        wash.silicate_molpL(strength, 8.0),
        wash.edta_molpL(strength, 5.0),
    )
    per_gram = 0.35 / 39.997 + 2 * 0.10 / 105.988 + 2 * 0.08 / 122.063 + 4 * 0.05 / 380.17
    assert wash.alkali_eqpL(*salts) == pytest.approx(strength * per_gram, rel=1e-14)
