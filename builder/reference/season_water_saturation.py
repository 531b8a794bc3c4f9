"""Saturation index of calcite in the make-up water, by speciation."""

import math

from scipy.optimize import brentq

from builder.reference.equilibrium import _species
from builder.reference.ranges import require_all
from builder.reference.verdicts_entries import Verdict, _compared
from builder.reference.water import activity_coefficient_n, log_kw_n

ZERO_DEGC_K = 273.15  # kelvin (definition)
# log10 of the solubility product: constant, T, 1/T, log10 T, wateq4f.dat (Plummer & Busenberg
# 1982), read
LOG_CALCITE = (-171.9065, -0.077993, 2839.319, 71.595)
CALCIUM_CARBONATE_MGPEQ = 50043.5  # half the molar mass of CaCO3 (from memory)
STRENGTH_PER_TDS = 2.5e-5  # mol/L of ionic strength per mg/L, Standard Methods 2330 (from memory)
SATURATION_MOST_N = 0.3  # no scale expected within 0.3 of zero (from memory)
# where the index holds: carbonate complexes matter above pH 8.5 (own comparison with PHREEQC)
WATER_PH_LEAST, WATER_PH_MOST = 6.5, 8.5
WATER_LEAST_DEGC, WATER_MOST_DEGC = 2.0, 40.0
WATER_TDS_MOST_MGPL = 1000.0
CLOSE_MOLPL = 1e-25  # width at which the root search ends (rule of this package)
CLOSE_FRAC = 1e-15  # same, relative (rule of this package)


def _log_calcite(temp_degC: float) -> float:
    kelvin = temp_degC + ZERO_DEGC_K
    a, b, c, d = LOG_CALCITE
    return a + b * kelvin + c / kelvin + d * math.log10(kelvin)


def _carbonate_molpL(pH: float, temp_degC: float, g: float, alkalinity_eqpL: float) -> float:
    """Return the CO3 of the carbonate total that explains the alkalinity."""
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
    return float(_species(pH, temp_degC, math.log10(g), (total, 0.0, 0.0))[0][0])


def saturation_index_n(
    water_pH: float,
    water_temp_degC: float,
    water_tds_mgpL: float,
    calcium_mgpLCaCO3: float,
    alkalinity_mgpLCaCO3: float,
) -> float:
    """Return the saturation index of calcite.

    log10 of the ion activity product over the solubility product; equals pH - pHs.

    Parameters
    ----------
    water_pH : float
        pH of the water [pH], 0 to 14.
    water_temp_degC : float
        Temperature of the water [degC], 0 to 60.
    water_tds_mgpL : float
        Dissolved solids [mgpL], 0 to 20000.
    calcium_mgpLCaCO3 : float
        Calcium hardness, as CaCO3 [mgpLCaCO3], 1e-09 to 1e+06.
    alkalinity_mgpLCaCO3 : float
        Total alkalinity, as CaCO3 [mgpLCaCO3], 0 to 1e+06.

    Returns
    -------
    float
        Index [n].

    Raises
    ------
    ValueError
        A value lies outside its range, or no bicarbonate is left.

    References
    ----------
    Standard Methods 2330 B (from memory); constants of phreeqc.dat 2024 and wateq4f.dat (read).
    """
    require_all(
        water_pH=water_pH,
        water_temp_degC=water_temp_degC,
        water_tds_mgpL=water_tds_mgpL,
        calcium_mgpLCaCO3=calcium_mgpLCaCO3,
        alkalinity_mgpLCaCO3=alkalinity_mgpLCaCO3,
    )
    g = activity_coefficient_n(STRENGTH_PER_TDS * water_tds_mgpL, water_temp_degC)
    alkalinity_eqpL = alkalinity_mgpLCaCO3 / CALCIUM_CARBONATE_MGPEQ
    carbonate = _carbonate_molpL(water_pH, water_temp_degC, g, alkalinity_eqpL)
    calcium = calcium_mgpLCaCO3 / CALCIUM_CARBONATE_MGPEQ / 2.0
    bivalent = g**4
    product = math.log10(bivalent * calcium) + math.log10(bivalent * carbonate)
    return product - _log_calcite(water_temp_degC)


def saturation_ok(saturation_index_n: float) -> Verdict:
    """Return whether the water keeps its lime.

    Index <= 0.3, at 15 digits.

    Parameters
    ----------
    saturation_index_n : float
        Saturation index of calcite [n], -50 to 50.

    Returns
    -------
    str
        Verdict, ok or look [ok].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    No scale expected within 0.3 of zero (from memory).
    """
    require_all(saturation_index_n=saturation_index_n)
    return "ok" if _compared(saturation_index_n) <= SATURATION_MOST_N else "look"


def water_range_ok(water_pH: float, water_temp_degC: float, water_tds_mgpL: float) -> Verdict:
    """Return whether the water lies where the saturation index holds.

    6.5 <= pH <= 8.5, 2 to 40 degC, and TDS <= 1000 mg/L, at 15 digits.

    Parameters
    ----------
    water_pH : float
        pH of the water [pH], 0 to 14.
    water_temp_degC : float
        Temperature of the water [degC], 0 to 60.
    water_tds_mgpL : float
        Dissolved solids [mgpL], 0 to 20000.

    Returns
    -------
    str
        Verdict, ok or look [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Own comparison with PHREEQC 2024: range of the cases (definition of this project).
    """
    require_all(water_pH=water_pH, water_temp_degC=water_temp_degC, water_tds_mgpL=water_tds_mgpL)
    within = (
        WATER_PH_LEAST <= _compared(water_pH) <= WATER_PH_MOST
        and WATER_LEAST_DEGC <= _compared(water_temp_degC) <= WATER_MOST_DEGC
        and _compared(water_tds_mgpL) <= WATER_TDS_MOST_MGPL
    )
    return "ok" if within else "look"
