"""Volume of the wash, dose of its cleaner and the alkali in it.

A function that names no source is a definition of this project.
"""

import math

from builder.reference.comparison import Verdict, round_compared

G_PER_KG = 1000.0
WHOLE_PCT = 100.0
NAOH_GPMOL = 39.997  # sum of atomic weights (from memory), as the next three
NA2CO3_GPMOL = 105.988
NA2SIO3_GPMOL = 122.063
NA4EDTA_GPMOL = 380.17
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


def naoh_molpL(cleaner_strength_gpL: float, cleaner_naoh_pct: float) -> float:
    """Return the NaOH in the wash, strength times mass share over molar mass."""
    return cleaner_strength_gpL * cleaner_naoh_pct / WHOLE_PCT / NAOH_GPMOL


def carbonate_molpL(cleaner_strength_gpL: float, cleaner_carbonate_pct: float) -> float:
    """Return the Na2CO3 in the wash, strength times mass share over molar mass."""
    return cleaner_strength_gpL * cleaner_carbonate_pct / WHOLE_PCT / NA2CO3_GPMOL


def silicate_molpL(cleaner_strength_gpL: float, cleaner_silicate_pct: float) -> float:
    """Return the Na2SiO3 in the wash, strength times mass share over molar mass."""
    return cleaner_strength_gpL * cleaner_silicate_pct / WHOLE_PCT / NA2SIO3_GPMOL


def edta_molpL(cleaner_strength_gpL: float, cleaner_edta_pct: float) -> float:
    """Return the Na4EDTA in the wash, strength times mass share over molar mass."""
    return cleaner_strength_gpL * cleaner_edta_pct / WHOLE_PCT / NA4EDTA_GPMOL


def alkali_eqpL(
    naoh_molpL: float, carbonate_molpL: float, silicate_molpL: float, edta_molpL: float
) -> float:
    """Return the strong-base charge of the wash, the sodium of its salts.

    NaOH + 2 Na2CO3 + 2 Na2SiO3 + 4 Na4EDTA (charge balance).
    """
    return naoh_molpL + 2.0 * carbonate_molpL + 2.0 * silicate_molpL + 4.0 * edta_molpL


def tank_ok(tank_short_L: float) -> Verdict:
    """Return whether the fill has room in its tank."""
    return "stop" if tank_short_L > 0.0 else "ok"


def solution_ok(wash_solution_L: float, holdup_adopted_L: float) -> Verdict:
    """Return whether the recipe's solution is more than the machine itself holds."""
    return "ok" if wash_solution_L > holdup_adopted_L else "look"


def composition_ok(
    cleaner_naoh_pct: float,
    cleaner_carbonate_pct: float,
    cleaner_silicate_pct: float,
    cleaner_edta_pct: float,
) -> Verdict:
    """Return whether the shares are those of one cleaner: together <= 100 % at 15 digits."""
    whole_pct = cleaner_naoh_pct + cleaner_carbonate_pct + cleaner_silicate_pct + cleaner_edta_pct
    return "ok" if round_compared(whole_pct) <= WHOLE_PCT else "stop"
