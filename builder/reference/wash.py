"""Volume of the wash, dose of its cleaner.

A function that names no source is a definition of this project.
"""

import math

from builder.reference.comparison import Verdict

G_PER_KG = 1000.0
ROUNDING_N = 1e-9  # a quotient this little above a whole number counts as it


def recipe_volume_L(elements_n: float, recipe_water_L: float) -> float:
    """Return the water that the recipe asks for, N times that for one element."""
    return elements_n * recipe_water_L


def wash_solution_L(
    recipe_volume_L: float, recipe_water_means: str, holdup_adopted_L: float
) -> float:
    """Return the solution that the recipe means: its water, with "tank" the hold-up on top."""
    return recipe_volume_L + (holdup_adopted_L if recipe_water_means == "tank" else 0.0)


def wash_volume_L(wash_solution_L: float, holdup_adopted_L: float) -> float:
    """Return the solution that really circulates, never less than the machine itself holds."""
    return max(wash_solution_L, holdup_adopted_L)


def tank_fill_L(wash_solution_L: float, holdup_adopted_L: float) -> float:
    """Return what to put into the tank, machine full: solution less hold-up, not below 0."""
    return max(0.0, wash_solution_L - holdup_adopted_L)


def tank_short_L(tank_fill_L: float, wash_tank_L: float) -> float:
    """Return what does not fit into the wash tank: fill less capacity, not below 0."""
    return max(0.0, tank_fill_L - wash_tank_L)


def cleaner_dose_kg(
    elements_n: float, recipe_cleaner_kg: float, wash_volume_L: float, wash_solution_L: float
) -> float:
    """Return the cleaner for the wash: the recipe's strength in the volume that circulates.

    (N cleaner / solution) volume.
    """
    return elements_n * recipe_cleaner_kg / wash_solution_L * wash_volume_L


def cleaner_strength_gpL(cleaner_dose_kg: float, wash_volume_L: float) -> float:
    """Return the cleaner in the circulating solution, dose / volume."""
    return cleaner_dose_kg * G_PER_KG / wash_volume_L


def cleaner_packs_n(cleaner_dose_kg: float, cleaner_pack_kg: float) -> float:
    """Return the containers to have at hand, dose / pack rounded up."""
    return float(math.ceil(cleaner_dose_kg / cleaner_pack_kg - ROUNDING_N))


def dose_packs_whole_n(cleaner_dose_kg: float, cleaner_pack_kg: float) -> float:
    """Return the containers that the dose empties, dose / pack rounded down."""
    return float(math.floor(cleaner_dose_kg / cleaner_pack_kg + ROUNDING_N))


def dose_rest_kg(
    cleaner_dose_kg: float, dose_packs_whole_n: float, cleaner_pack_kg: float
) -> float:
    """Return what is left to weigh: dose less whole containers, not below 0."""
    return max(0.0, cleaner_dose_kg - dose_packs_whole_n * cleaner_pack_kg)


def tank_ok(tank_short_L: float) -> Verdict:
    """Return whether the fill has room in its tank."""
    return "stop" if tank_short_L > 0.0 else "ok"


def solution_ok(wash_solution_L: float, holdup_adopted_L: float) -> Verdict:
    """Return whether the recipe's solution is more than the machine itself holds."""
    return "ok" if wash_solution_L > holdup_adopted_L else "look"
