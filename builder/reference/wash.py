"""Volume of the wash and dose of its cleaner."""

import math

from builder.reference.cleaner import (
    alkali_eqpL,
    carbonate_molpL,
    edta_molpL,
    naoh_molpL,
    silicate_molpL,
)
from builder.reference.ranges import require, require_all
from builder.reference.wash_water import (
    recipe_volume_L,
    tank_fill_L,
    tank_short_L,
    wash_solution_L,
    wash_volume_L,
)

__all__ = [
    "alkali_eqpL",
    "carbonate_molpL",
    "cleaner_dose_kg",
    "cleaner_packs_n",
    "cleaner_strength_gpL",
    "edta_molpL",
    "naoh_molpL",
    "recipe_volume_L",
    "silicate_molpL",
    "tank_fill_L",
    "tank_short_L",
    "wash_solution_L",
    "wash_volume_L",
]

SMALLEST = 1e-9  # least divisor taken as not zero (common practice, no source)
LARGEST = 1e9  # upper end of the same ranges (common practice, no source)

G_PER_KG = 1000.0  # grams in a kilogram (definition)
WHOLE = 1e-9  # a quotient this near to a whole number counts as it (common practice, no source)


def cleaner_dose_kg(
    elements_n: float, recipe_cleaner_kg: float, wash_volume_L: float, wash_solution_L: float
) -> float:
    """Return the cleaner for the whole wash.

    Strength of the recipe (N cleaner / wash solution) times the volume in circulation.

    Parameters
    ----------
    elements_n : float
        Elements in the machine [n], 1 to 100000.
    recipe_cleaner_kg : float
        Cleaner that the recipe asks for each element [kg], 0 to 100000.
    wash_volume_L : float
        Wash solution really in circulation [L], 0 to 1e+09.
    wash_solution_L : float
        Wash solution that the recipe means [L], 1e-09 to 1e+09.

    Returns
    -------
    float
        Mass [kg].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(
        elements_n=elements_n, recipe_cleaner_kg=recipe_cleaner_kg, wash_volume_L=wash_volume_L
    )
    require("wash_solution_L", wash_solution_L, "L", SMALLEST, LARGEST)
    strength_kgpL = elements_n * recipe_cleaner_kg / wash_solution_L
    return strength_kgpL * wash_volume_L


def cleaner_strength_gpL(cleaner_dose_kg: float, wash_volume_L: float) -> float:
    """Return the cleaner in the circulating solution.

    1000 dose / volume in circulation.

    Parameters
    ----------
    cleaner_dose_kg : float
        Cleaner for the whole wash [kg], 0 to 1e+09.
    wash_volume_L : float
        Wash solution really in circulation [L], 1e-09 to 1e+09.

    Returns
    -------
    float
        Strength [gpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(cleaner_dose_kg=cleaner_dose_kg)
    require("wash_volume_L", wash_volume_L, "L", SMALLEST, LARGEST)
    return cleaner_dose_kg * G_PER_KG / wash_volume_L


def cleaner_packs_n(cleaner_dose_kg: float, cleaner_pack_kg: float) -> float:
    """Return the whole packs to have at hand.

    Dose / pack, rounded up; within 1e-9 of a whole number counts as that number.

    Parameters
    ----------
    cleaner_dose_kg : float
        Cleaner for the whole wash [kg], 0 to 1e+09.
    cleaner_pack_kg : float
        Cleaner in one pack [kg], 1e-09 to 1e+09.

    Returns
    -------
    float
        Packs [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(cleaner_dose_kg=cleaner_dose_kg, cleaner_pack_kg=cleaner_pack_kg)
    quotient = cleaner_dose_kg / cleaner_pack_kg
    near = math.floor(quotient + 0.5)
    return float(near if abs(quotient - near) <= WHOLE else math.ceil(quotient))
