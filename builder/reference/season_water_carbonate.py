"""Calcium, bicarbonate and saturation pH of the make-up water, by speciation."""

import math

from scipy.optimize import brentq

from builder.reference.equilibrium import _species
from builder.reference.ranges import require_all
from builder.reference.water import activity_coefficient_n, log_kw_n

ZERO_DEGC_K = 273.15  # kelvin (definition)
# log10 of the solubility product: constant, T, 1/T, log10 T, wateq4f.dat (Plummer & Busenberg
# 1982), read
LOG_CALCITE = (-171.9065, -0.077993, 2839.319, 71.595)
CALCIUM_CARBONATE_MGPEQ = 50043.5  # half the molar mass of CaCO3 (from memory)
STRENGTH_PER_TDS = 2.5e-5  # mol/L of ionic strength per mg/L, Standard Methods 2330 (from memory)
LOWEST_PH, HIGHEST_PH = -20.0, 60.0  # search range of the saturation pH (rule of this package)
CLOSE_PH = 1e-14  # width at which that search ends (rule of this package)
CLOSE_MOLPL = 1e-25  # width at which the root search ends (rule of this package)
CLOSE_FRAC = 1e-15  # same, relative (rule of this package)


def _log_calcite(temp_degC: float) -> float:
    kelvin = temp_degC + ZERO_DEGC_K
    a, b, c, d = LOG_CALCITE
    return a + b * kelvin + c / kelvin + d * math.log10(kelvin)


def _coefficient_n(tds_mgpL: float, temp_degC: float) -> float:
    return activity_coefficient_n(STRENGTH_PER_TDS * tds_mgpL, temp_degC)


def _log_product(calcium_molpL: float, carbonate_molpL: float, g: float) -> float:
    """Return log10 of the ion activity product; both ions are bivalent."""
    bivalent = g**4
    return math.log10(bivalent * calcium_molpL) + math.log10(bivalent * carbonate_molpL)


def _carbonates_molpL(
    pH: float, temp_degC: float, g: float, alkalinity_mgpLCaCO3: float
) -> tuple[float, float]:
    """Return CO3 and HCO3 of the carbonate total that explains the alkalinity."""
    alkalinity_eqpL = alkalinity_mgpLCaCO3 / CALCIUM_CARBONATE_MGPEQ
    water_eqpL = float(10.0 ** (log_kw_n(temp_degC) + pH) - 10.0**-pH) / g

    def missing(total_molpL: float) -> float:
        species = _species(pH, temp_degC, math.log10(g), (total_molpL, 0.0, 0.0))
        return alkalinity_eqpL - water_eqpL - math.fsum(c * z for c, z in species)

    if missing(0.0) <= 0.0:
        raise ValueError(f"alkalinity of {alkalinity_eqpL} eqpL leaves no bicarbonate at pH {pH}")
    most = alkalinity_eqpL - water_eqpL
    while missing(most) > 0.0:
        most *= 2.0
    total = float(brentq(missing, 0.0, most, xtol=CLOSE_MOLPL, rtol=CLOSE_FRAC))
    species = _species(pH, temp_degC, math.log10(g), (total, 0.0, 0.0))
    return float(species[0][0]), float(species[1][0])


def water_calcium_molpL(calcium_mgpLCaCO3: float) -> float:
    """Return the calcium of the water.

    Calcium hardness over the molar mass of CaCO3; above 0 only.

    Parameters
    ----------
    calcium_mgpLCaCO3 : float
        Calcium hardness, as CaCO3 [mgpLCaCO3], 1e-09 to 1e+06.

    Returns
    -------
    float
        Calcium [molpL].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    Unit of hardness (definition).
    """
    require_all(calcium_mgpLCaCO3=calcium_mgpLCaCO3)
    return calcium_mgpLCaCO3 / CALCIUM_CARBONATE_MGPEQ / 2.0


def water_bicarbonate_molpL(
    water_pH: float, water_temp_degC: float, water_tds_mgpL: float, alkalinity_mgpLCaCO3: float
) -> float:
    """Return the bicarbonate of the water.

    HCO3 of the carbonate total that explains the alkalinity, by bracketing; above 0 only.

    Parameters
    ----------
    water_pH : float
        pH of the water [pH], 0 to 14.
    water_temp_degC : float
        Temperature of the water [degC], 0 to 60.
    water_tds_mgpL : float
        Dissolved solids [mgpL], 0 to 20000.
    alkalinity_mgpLCaCO3 : float
        Total alkalinity, as CaCO3 [mgpLCaCO3], 0 to 1e+06.

    Returns
    -------
    float
        Bicarbonate [molpL].

    Raises
    ------
    ValueError
        A value lies outside its range, or no bicarbonate is left.

    References
    ----------
    Charge balance (definition); constants of phreeqc.dat 2024 (read).
    """
    require_all(
        water_pH=water_pH,
        water_temp_degC=water_temp_degC,
        water_tds_mgpL=water_tds_mgpL,
        alkalinity_mgpLCaCO3=alkalinity_mgpLCaCO3,
    )
    g = _coefficient_n(water_tds_mgpL, water_temp_degC)
    return _carbonates_molpL(water_pH, water_temp_degC, g, alkalinity_mgpLCaCO3)[1]


def saturation_pH(
    water_temp_degC: float,
    water_tds_mgpL: float,
    water_calcium_molpL: float,
    water_bicarbonate_molpL: float,
) -> float:
    """Return the pH at which the water would be just saturated with calcite.

    pH whose CO3, beside that HCO3, brings the ion activity product to the solubility product.

    Parameters
    ----------
    water_temp_degC : float
        Temperature of the water [degC], 0 to 60.
    water_tds_mgpL : float
        Dissolved solids [mgpL], 0 to 20000.
    water_calcium_molpL : float
        Calcium [molpL], 1e-20 to 100.
    water_bicarbonate_molpL : float
        Bicarbonate [molpL], 1e-20 to 100.

    Returns
    -------
    float
        pHs [pH].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Standard Methods 2330 B (from memory); constants of phreeqc.dat 2024 and wateq4f.dat (read).
    """
    require_all(
        water_temp_degC=water_temp_degC,
        water_tds_mgpL=water_tds_mgpL,
        water_calcium_molpL=water_calcium_molpL,
        water_bicarbonate_molpL=water_bicarbonate_molpL,
    )
    g = _coefficient_n(water_tds_mgpL, water_temp_degC)

    def excess(pH: float) -> float:
        carbonate, bicarbonate = _species(pH, water_temp_degC, math.log10(g), (1.0, 0.0, 0.0))[:2]
        beside = water_bicarbonate_molpL * (carbonate[0] / bicarbonate[0])
        return _log_product(water_calcium_molpL, beside, g) - _log_calcite(water_temp_degC)

    return float(brentq(excess, LOWEST_PH, HIGHEST_PH, xtol=CLOSE_PH, rtol=CLOSE_FRAC))
