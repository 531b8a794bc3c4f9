"""Species model of the wash: alkali need at a pH, and pH of an alkali."""

import math
from functools import lru_cache

from scipy.optimize import brentq

from builder.reference.ranges import require, require_all
from builder.reference.water import activity_coefficient_n, log_kw_n

ZERO_DEGC_K = 273.15  # kelvin (definition)
# log10 K: constant, T, 1/T, log10 T, 1/T^2, phreeqc.dat 2024 (read)
LOG_K1 = (-356.3094, -0.06091964, 21834.37, 126.8339, -1684915.0)
LOG_K2 = (-107.8871, -0.03252849, 5151.79, 38.92561, -563713.9)
LOG_KS1 = (-302.3724, -0.050698, 15669.69, 108.18466, -1119669.0)
LOG_KS12 = (-294.0184, -0.07265, 11204.49, 108.18466, -1119669.0)
LOG_KY1 = (10.948, 1223.8)  # EDTA, one H+: at 298.15 K, slope on 1/T, minteq.v4.dat (read)
LOG_KY2 = (17.221, 2141.7)  # EDTA, two H+, same (read)
REFERENCE_K = 298.15  # temperature of the EDTA values, same (read)
BARE_CHARGES = (2, 2, 4)  # of CO3, H2SiO4 and EDTA without H+ (definition)
LOWEST_PH = -2.0  # search range of the solver (rule of this package)
HIGHEST_PH = 18.0  # same
CONVERGED = 1e-15  # change of ionic strength that ends the inner loop, mol/L (rule of this package)
PASSES = 500  # most passes of the inner loop (rule of this package)


def _log_k(factors: tuple[float, float, float, float, float], kelvin: float) -> float:
    a, b, c, d, e = factors
    return a + b * kelvin + (c + e / kelvin) / kelvin + d * math.log10(kelvin)


@lru_cache(maxsize=4096)
def _binding(temp_degC: float) -> tuple[tuple[float, ...], ...]:
    """Return log10 of the cumulative H+ binding of CO3, H2SiO4 and EDTA, from bare upwards."""
    kelvin = temp_degC + ZERO_DEGC_K
    k1, k2 = _log_k(LOG_K1, kelvin), _log_k(LOG_K2, kelvin)
    ks1, ks12 = _log_k(LOG_KS1, kelvin), _log_k(LOG_KS12, kelvin)
    lag = 1.0 / kelvin - 1.0 / REFERENCE_K
    edta = (0.0, LOG_KY1[0] + LOG_KY1[1] * lag, LOG_KY2[0] + LOG_KY2[1] * lag)
    return (0.0, -k2, -k1 - k2), (0.0, ks1 - ks12, -ks12), edta


@lru_cache(maxsize=4096)
def _log_kw(temp_degC: float) -> float:
    return log_kw_n(temp_degC)


def _species(
    pH: float, temp_degC: float, log_g: float, totals: tuple[float, ...]
) -> list[tuple[float, int]]:
    """Return (concentration, charge number) of every weak anion."""
    found = []
    for total, bare, binding in zip(totals, BARE_CHARGES, _binding(temp_degC), strict=True):
        charges = [bare - bound for bound in range(len(binding))]
        weights = [
            10.0 ** (beta - bound * pH + (bare**2 - charges[bound] ** 2) * log_g)
            for bound, beta in enumerate(binding)
        ]
        whole = sum(weights)
        found += [(total * w / whole, z) for w, z in zip(weights, charges, strict=True)]
    return found


def _need(pH: float, temp_degC: float, totals: tuple[float, ...], sodium: float) -> float:
    """Return the alkali need with the ionic strength converged."""
    strength = 0.0
    for _ in range(PASSES):
        g = activity_coefficient_n(strength, temp_degC)
        hydrogen = float(10.0**-pH) / g
        hydroxide = float(10.0 ** (_log_kw(temp_degC) + pH)) / g
        species = _species(pH, temp_degC, math.log10(g), totals)
        need = hydroxide - hydrogen + sum(c * z for c, z in species)
        strong = max(sodium, need) + max(0.0, sodium - need)  # cation, and anion of the acid
        new = 0.5 * (strong + hydrogen + hydroxide + sum(c * z * z for c, z in species))
        if abs(new - strength) <= CONVERGED * max(1.0, new):
            return need
        strength = new
    raise ArithmeticError("the ionic strength did not converge")


def need_eqpL(
    pH: float,
    temp_degC: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    sodium_eqpL: float,
) -> float:
    """Return the alkali that keeps a pH.

    OH - H + charge on the carbonate, silicate and EDTA species, ionic strength converged.

    Parameters
    ----------
    pH : float
        pH, minus log10 of the H+ activity [pH], -2 to 18.
    temp_degC : float
        Temperature [degC], 0 to 60.
    carbonate_molpL : float
        Total carbonate [molpL], 0 to 500.
    silicate_molpL : float
        Total silicate [molpL], 0 to 500.
    edta_molpL : float
        Total EDTA [molpL], 0 to 500.
    sodium_eqpL : float
        Sodium dosed [eqpL], 0 to 10000.

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
    Constants of phreeqc.dat 2024, EDTA of minteq.v4.dat (NIST46) (read).
    """
    require_all(pH=pH, temp_degC=temp_degC, sodium_eqpL=sodium_eqpL)
    require("carbonate_molpL", carbonate_molpL, "molpL", 0.0, 500.0)
    require("silicate_molpL", silicate_molpL, "molpL", 0.0, 500.0)
    require("edta_molpL", edta_molpL, "molpL", 0.0, 500.0)
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    return _need(pH, temp_degC, totals, sodium_eqpL)


def solve_pH(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    sodium_eqpL: float,
    temp_degC: float,
) -> float:
    """Return the pH of a solution of given alkali and totals.

    pH with need(pH) = alkali, by bracketing.

    Parameters
    ----------
    alkali_eqpL : float
        Strong-base charge as dosed [eqpL], -2 to 300.
    carbonate_molpL : float
        Total carbonate [molpL], 0 to 20.
    silicate_molpL : float
        Total silicate [molpL], 0 to 20.
    edta_molpL : float
        Total EDTA [molpL], 0 to 20.
    sodium_eqpL : float
        Sodium dosed [eqpL], 0 to 10000.
    temp_degC : float
        Temperature [degC], 0 to 60.

    Returns
    -------
    float
        pH [pH].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Constants of phreeqc.dat 2024, EDTA of minteq.v4.dat (NIST46) (read).
    """
    require_all(
        carbonate_molpL=carbonate_molpL,
        silicate_molpL=silicate_molpL,
        edta_molpL=edta_molpL,
        sodium_eqpL=sodium_eqpL,
        temp_degC=temp_degC,
    )
    require("alkali_eqpL", alkali_eqpL, "eqpL", -2.0, 300.0)
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)

    def surplus(pH: float) -> float:
        return _need(pH, temp_degC, totals, sodium_eqpL) - alkali_eqpL

    return float(brentq(surplus, LOWEST_PH, HIGHEST_PH, xtol=1e-14, rtol=1e-15))
