"""Wash volume and dose against rules of thumb and hand figures."""

import math

import pytest

from builder.reference import wash

US_GAL_L = 3.785411784  # 231 cubic inches (definition)


def test_recipe_of_one_element_gives_the_usual_strength() -> None:
    # common practice, no source: buffered alkaline cleaner 1.13 kg an element in 13 US gal
    solution = wash.wash_solution_L(wash.recipe_volume_L(1.0, 13 * US_GAL_L), "circulating", 27.0)
    dose = wash.cleaner_dose_kg(1.0, 1.13, wash.wash_volume_L(solution, 27.0), solution)
    assert dose == pytest.approx(1.13, rel=1e-15)
    assert wash.cleaner_strength_gpL(dose, solution) == pytest.approx(22.96, abs=0.005)


@pytest.mark.parametrize(
    ("means", "holdup", "solution", "volume", "fill", "dose"),
    [  # 196 L and 4.52 kg for four elements
        ("circulating", 109.0, 196.0, 196.0, 87.0, 4.52),  # the machine's water is included
        ("tank", 109.0, 305.0, 305.0, 196.0, 4.52),  # it comes on top
        ("circulating", 294.0, 196.0, 294.0, 0.0, 6.78),  # half as much again: same strength
    ],
)
def test_a_recipe_means_its_water_with_or_without_the_machine(
    means: str, holdup: float, solution: float, volume: float, fill: float, dose: float
) -> None:
    found = wash.wash_solution_L(196.0, means, holdup)
    assert found == solution
    assert wash.wash_volume_L(found, holdup) == volume
    assert wash.tank_fill_L(found, holdup) == fill
    assert wash.cleaner_dose_kg(4.0, 1.13, volume, found) == pytest.approx(dose, rel=1e-15)


def test_what_does_not_fit_into_the_tank_is_never_negative() -> None:
    assert wash.tank_short_L(87.0, 400.0) == 0.0
    assert wash.tank_short_L(487.0, 400.0) == 87.0
    assert (wash.tank_ok(0.0), wash.tank_ok(math.ulp(0.0))) == ("ok", "stop")


def test_a_recipe_that_only_fills_the_machine_wants_a_look() -> None:
    assert wash.solution_ok(math.nextafter(109.0, 110.0), 109.0) == "ok"
    assert wash.solution_ok(109.0, 109.0) == "look"


@pytest.mark.parametrize(
    ("dose", "pack", "packs"),
    [
        (4.52, 2.0, 3.0),
        (4.0, 2.0, 2.0),
        (0.1 * 3, 0.1, 3.0),  # 3.0000000000000004 in binary
        (3.0000000005, 1.0, 3.0),  # within 1e-9
        (3.00000001, 1.0, 4.0),
        (0.0, 2.0, 0.0),
    ],
)
def test_packs_are_whole_and_rounding_noise_buys_none(
    dose: float, pack: float, packs: float
) -> None:
    assert wash.cleaner_packs_n(dose, pack) == packs


@pytest.mark.parametrize(
    ("dose", "pack", "whole", "rest"),
    [
        (4.52, 2.0, 2.0, 0.52),
        (4.0, 2.0, 2.0, 0.0),
        (2.9999999999, 1.0, 3.0, 0.0),  # within 1e-9 of a third one
        (1.9, 5.0, 0.0, 1.9),
    ],
)
def test_a_dose_is_whole_packs_and_a_rest_to_weigh(
    dose: float, pack: float, whole: float, rest: float
) -> None:
    assert wash.dose_packs_whole_n(dose, pack) == whole
    assert wash.dose_rest_kg(dose, whole, pack) == pytest.approx(rest, abs=1e-12)
