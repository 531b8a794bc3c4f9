"""Saturation of the water with calcite: does rinsing with it drop lime."""

import math

from scipy.optimize import brentq

from builder.reference.comparison import Verdict, round_compared
from builder.reference.equilibrium import activity_coefficient_n, log_kw_n

CALCIUM_CARBONATE_MGPEQ = 50043.5  # half the molar mass of CaCO3 (from memory)
# log10 of the solubility product: constant, T, 1/T, log10 T, wateq4f.dat (Plummer & Busenberg
# 1982), read
LOG_CALCITE = (-171.9065, -0.077993, 2839.319, 71.595)
# second dissociation of carbonic acid, same and 1/T^2, phreeqc.dat 2024 (read)
LOG_K2 = (-107.8871, -0.03252849, 5151.79, 38.92561, -563713.9)
STRENGTH_PER_TDS = 2.5e-5  # mol/L of ionic strength per mg/L, Standard Methods 2330 (from memory)
SATURATION_MOST_N = 0.3  # no scale expected within 0.3 of zero (from memory)
# where the index holds: carbonate complexes matter above pH 8.5 (own comparison with PHREEQC)
WATER_PH_LEAST, WATER_PH_MOST = 6.5, 8.5
WATER_LEAST_DEGC, WATER_MOST_DEGC = 2.0, 40.0
WATER_TDS_MOST_MGPL = 1000.0
LOWEST_PH, HIGHEST_PH = -20.0, 60.0  # wide enough for any trace of calcium (rule of this package)
ZERO_DEGC_K = 273.15  # kelvin (definition)


def water_calcium_molpL(calcium_mgpLCaCO3: float) -> float:
    """Return the calcium: hardness over the molar mass of CaCO3; none has no index (definition)."""
    if calcium_mgpLCaCO3 <= 0.0:
        raise ValueError("water without calcium has no saturation index")
    return calcium_mgpLCaCO3 / (2.0 * CALCIUM_CARBONATE_MGPEQ)


def _carbonate_ratio_n(pH: float, temp_degC: float, g: float) -> float:
    """Return CO3/HCO3 at a pH: K2/(aH g^3), as gammas are g for HCO3 and g^4 for CO3."""
    kelvin = temp_degC + ZERO_DEGC_K
    a, b, c, d, e = LOG_K2
    log_k2 = a + b * kelvin + c / kelvin + d * math.log10(kelvin) + e / kelvin**2
    return float(10.0 ** (log_k2 + pH) / g**3)


def _saturation_n(
    temp_degC: float, g: float, calcium_molpL: float, carbonate_molpL: float
) -> float:
    """Return log10 of ion activity product over solubility product; both gammas are g^4."""
    kelvin = temp_degC + ZERO_DEGC_K
    a, b, c, d = LOG_CALCITE
    log_ks = a + b * kelvin + c / kelvin + d * math.log10(kelvin)
    return math.log10(calcium_molpL) + math.log10(carbonate_molpL) + 8.0 * math.log10(g) - log_ks


def water_bicarbonate_molpL(
    water_pH: float, water_temp_degC: float, water_tds_mgpL: float, alkalinity_mgpLCaCO3: float
) -> float:
    """Return the bicarbonate of the water, where hydroxide leaves any.

    Alkalinity = HCO3 + 2 CO3 + OH - H (definition); constants of phreeqc.dat 2024 (read).
    """
    g = activity_coefficient_n(STRENGTH_PER_TDS * water_tds_mgpL, water_temp_degC)
    hydroxide_molpL = 10.0 ** (log_kw_n(water_temp_degC) + water_pH) / g
    hydrogen_molpL = 10.0**-water_pH / g
    alkalinity_eqpL = alkalinity_mgpLCaCO3 / CALCIUM_CARBONATE_MGPEQ
    carbonate_eqpL = float(alkalinity_eqpL - (hydroxide_molpL - hydrogen_molpL))
    if carbonate_eqpL <= 0.0:
        raise ValueError(f"alkalinity of {alkalinity_eqpL} eq/L leaves no bicarbonate")
    return carbonate_eqpL / (1.0 + 2.0 * _carbonate_ratio_n(water_pH, water_temp_degC, g))


def saturation_pH(
    water_temp_degC: float,
    water_tds_mgpL: float,
    water_calcium_molpL: float,
    water_bicarbonate_molpL: float,
) -> float:
    """Return the pH at which the water would be just saturated with calcite.

    Numerical root of log10(Ca CO3 g^8/Ks) = 0, where CO3 is what the pH makes of the HCO3:
    Standard Methods 2330 B (from memory); phreeqc.dat 2024 and wateq4f.dat (read).
    """
    g = activity_coefficient_n(STRENGTH_PER_TDS * water_tds_mgpL, water_temp_degC)

    def index_n(pH: float) -> float:
        carbonate_molpL = water_bicarbonate_molpL * _carbonate_ratio_n(pH, water_temp_degC, g)
        return _saturation_n(water_temp_degC, g, water_calcium_molpL, carbonate_molpL)

    return float(brentq(index_n, LOWEST_PH, HIGHEST_PH, xtol=1e-14, rtol=1e-15))


def saturation_index_n(
    water_pH: float,
    water_temp_degC: float,
    water_tds_mgpL: float,
    calcium_mgpLCaCO3: float,
    alkalinity_mgpLCaCO3: float,
) -> float:
    """Return the saturation index of calcite from the ions, without a saturation pH.

    log10(Ca CO3 g^8/Ks): Standard Methods 2330 B (from memory); constants as above (read).
    """
    water = water_pH, water_temp_degC, water_tds_mgpL
    g = activity_coefficient_n(STRENGTH_PER_TDS * water_tds_mgpL, water_temp_degC)
    bicarbonate_molpL = water_bicarbonate_molpL(*water, alkalinity_mgpLCaCO3)
    carbonate_molpL = bicarbonate_molpL * _carbonate_ratio_n(water_pH, water_temp_degC, g)
    calcium_molpL = water_calcium_molpL(calcium_mgpLCaCO3)
    return _saturation_n(water_temp_degC, g, calcium_molpL, carbonate_molpL)


def saturation_ok(saturation_index_n: float) -> Verdict:
    """Return ok up to an index of 0.3, else look: no scale expected so far (from memory)."""
    return "ok" if round_compared(saturation_index_n) <= SATURATION_MOST_N else "look"


def water_range_ok(water_pH: float, water_temp_degC: float, water_tds_mgpL: float) -> Verdict:
    """Return ok where the index holds, else look: pH 6.5 to 8.5, 2 to 40 degC, 1000 mg/L.

    Range of an own comparison with PHREEQC 2024 (definition of this project).
    """
    within = (
        WATER_PH_LEAST <= round_compared(water_pH) <= WATER_PH_MOST
        and WATER_LEAST_DEGC <= round_compared(water_temp_degC) <= WATER_MOST_DEGC
        and round_compared(water_tds_mgpL) <= WATER_TDS_MOST_MGPL
    )
    return "ok" if within else "look"
