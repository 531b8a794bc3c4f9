"""Hardness of the make-up water: class, alkali and cleaner it costs, lime it can drop."""

from builder.reference.ranges import require, require_all
from builder.reference.verdicts_entries import _compared

# upper ends of soft, moderately hard and hard water (USGS, read in three of its pages)
SOFT_MOST_MGPLCACO3 = 60.0
MODERATE_MOST_MGPLCACO3 = 120.0
HARD_MOST_MGPLCACO3 = 180.0
CALCIUM_CARBONATE_MGPMEQ = 50.0435  # half the molar mass of CaCO3 (from memory)
PER_THOUSAND = 1000.0  # milli (definition)
ALKALI_LEAST_EQPL = 1e-12  # below this the wash has no alkali (rule of this package)


def hardness_class_n(hardness_mgpLCaCO3: float) -> float:
    """Return the hardness class.

    1 plus the number of the limits 60, 120 and 180 that are exceeded, at 15 digits.

    Parameters
    ----------
    hardness_mgpLCaCO3 : float
        Total hardness, as CaCO3 [mgpLCaCO3], 0 to 1e+06.

    Returns
    -------
    float
        Class, 1 soft to 4 very hard [n].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    USGS: 0 to 60, 61 to 120, 121 to 180, over 180 (read).
    """
    require_all(hardness_mgpLCaCO3=hardness_mgpLCaCO3)
    limits = (SOFT_MOST_MGPLCACO3, MODERATE_MOST_MGPLCACO3, HARD_MOST_MGPLCACO3)
    return 1.0 + sum(_compared(hardness_mgpLCaCO3) > limit for limit in limits)


def water_alkali_cost_eqpL(hardness_mgpLCaCO3: float, alkalinity_mgpLCaCO3: float) -> float:
    """Return the most alkali that the make-up water takes.

    Equivalents of hardness and of alkalinity, one of caustic for each.

    Parameters
    ----------
    hardness_mgpLCaCO3 : float
        Total hardness, as CaCO3 [mgpLCaCO3], 0 to 1e+06.
    alkalinity_mgpLCaCO3 : float
        Total alkalinity, as CaCO3 [mgpLCaCO3], 0 to 1e+06.

    Returns
    -------
    float
        Alkali [eqpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Bicarbonate takes caustic one to one, calcium and magnesium as much again (definition).
    """
    require_all(hardness_mgpLCaCO3=hardness_mgpLCaCO3, alkalinity_mgpLCaCO3=alkalinity_mgpLCaCO3)
    hardness_meqpL = hardness_mgpLCaCO3 / CALCIUM_CARBONATE_MGPMEQ
    alkalinity_meqpL = alkalinity_mgpLCaCO3 / CALCIUM_CARBONATE_MGPMEQ
    return hardness_meqpL / PER_THOUSAND + alkalinity_meqpL / PER_THOUSAND


def water_cleaner_kg(
    water_alkali_cost_eqpL: float,
    tank_fill_L: float,
    alkali_eqpL: float,
    cleaner_strength_gpL: float,
) -> float:
    """Return the cleaner that the make-up water takes.

    Wash that holds the alkali, in litres, times its strength.

    Parameters
    ----------
    water_alkali_cost_eqpL : float
        Alkali that the make-up water takes [eqpL], 0 to 100.
    tank_fill_L : float
        Water put into the wash tank [L], 0 to 1e+09.
    alkali_eqpL : float
        Alkali of the wash [eqpL], 1e-12 to 300.
    cleaner_strength_gpL : float
        Strength of the wash [gpL], 0 to 1e+06.

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
    Charge balance (definition).
    """
    require_all(
        water_alkali_cost_eqpL=water_alkali_cost_eqpL,
        tank_fill_L=tank_fill_L,
        cleaner_strength_gpL=cleaner_strength_gpL,
    )
    require("alkali_eqpL", alkali_eqpL, "eqpL", ALKALI_LEAST_EQPL, 300.0)
    wash_L = water_alkali_cost_eqpL * tank_fill_L / alkali_eqpL
    return wash_L * (cleaner_strength_gpL / PER_THOUSAND)


def scale_g(hardness_mgpLCaCO3: float, tank_fill_L: float) -> float:
    """Return the lime that drops if all hardness falls out.

    Hardness times water.

    Parameters
    ----------
    hardness_mgpLCaCO3 : float
        Total hardness, as CaCO3 [mgpLCaCO3], 0 to 1e+06.
    tank_fill_L : float
        Water put into the wash tank [L], 0 to 1e+09.

    Returns
    -------
    float
        Mass of CaCO3 [g].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Mass balance (definition).
    """
    require_all(hardness_mgpLCaCO3=hardness_mgpLCaCO3, tank_fill_L=tank_fill_L)
    return hardness_mgpLCaCO3 / PER_THOUSAND * tank_fill_L
