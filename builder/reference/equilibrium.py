"""Water and the weak anions in it: activities, ion product, alkali of a pH and pH of an alkali."""

import math
from functools import lru_cache

from scipy.optimize import brentq

ZERO_DEGC_K = 273.15  # definition
# density of water, kg/m3, ICUMSA SPS-4 at 0 Brix (second hand, two public source files)
DENSITY = (999.83952, 16.952577, -0.0079905127, -0.000046241757, 1.0584601e-7, -2.8103006e-10)
DENSITY_DIVISOR = 0.016887236  # same, per K
PERMITTIVITY = (87.74, -0.40008, 0.0009398, -0.00000141)  # Malmberg & Maryott 1956 (from memory)
DAVIES_FACTOR = 1824830.0  # Debye-Hueckel factor (from memory)
DAVIES_B = 0.3  # Davies 1962, linear term (from memory)
DAVIES_TOP_MOLPL = 0.5  # ionic strength up to which Davies holds; clamped here (from memory)
# log10 Kw: constant, T, 1/T, log10 T, T^2, phreeqc.dat 2024 (read)
LOG_KW = (293.29227, 0.1360833, -10576.913, -123.73158, -0.00006996455)
# log10 K: constant, T, 1/T, log10 T, 1/T^2, phreeqc.dat 2024 (read)
LOG_K1 = (-356.3094, -0.06091964, 21834.37, 126.8339, -1684915.0)
LOG_K2 = (-107.8871, -0.03252849, 5151.79, 38.92561, -563713.9)
LOG_KS1 = (-302.3724, -0.050698, 15669.69, 108.18466, -1119669.0)
LOG_KS12 = (-294.0184, -0.07265, 11204.49, 108.18466, -1119669.0)
LOG_KY1 = (10.948, 1223.8)  # EDTA, one H+: at 298.15 K, slope on 1/T, minteq.v4.dat (read)
LOG_KY2 = (17.221, 2141.7)  # EDTA, two H+, same
REFERENCE_K = 298.15  # temperature of the EDTA values, same
BARE_CHARGES = (2, 2, 4)  # of CO3, H2SiO4 and EDTA without H+
LOWEST_PH, HIGHEST_PH = -2.0, 20.0  # beyond any pH of the species model
SETTLED = 1e-14  # relative change of the ionic strength that ends its passes
PASSES = 500


def water_density_kgpL(temp_degC: float) -> float:
    """Return the density of water, a polynomial of degree 5 over 1 + b t (ICUMSA SPS-4)."""
    kgpm3 = sum(a * temp_degC**power for power, a in enumerate(DENSITY))
    return kgpm3 / (1.0 + DENSITY_DIVISOR * temp_degC) / 1000.0


@lru_cache(maxsize=4096)
def davies_slope_n(temp_degC: float) -> float:
    """Return the slope A of the Davies equation, base 10.

    A = 1824830 sqrt(rho) / (eps T)^1.5, Debye-Hueckel limiting law (from memory).
    """
    permittivity = sum(a * temp_degC**power for power, a in enumerate(PERMITTIVITY))
    thermal = permittivity * (temp_degC + ZERO_DEGC_K)
    return float(DAVIES_FACTOR * math.sqrt(water_density_kgpL(temp_degC)) / thermal**1.5)


def activity_coefficient_n(ionic_strength_molpL: float, temp_degC: float) -> float:
    """Return the activity coefficient of a monovalent ion.

    log10 g = -A (s/(1+s) - 0.3 I), s = sqrt(I), I not above 0.5, Davies 1962 (from memory).
    """
    strength = min(ionic_strength_molpL, DAVIES_TOP_MOLPL)
    root = math.sqrt(strength)
    exponent = -davies_slope_n(temp_degC) * (root / (1.0 + root) - DAVIES_B * strength)
    return float(10.0**exponent)


@lru_cache(maxsize=4096)
def log_kw_n(temp_degC: float) -> float:
    """Return log10 of the ion product of water.

    a + b T + c/T + d log10 T + e T^2, T in kelvin, phreeqc.dat 2024 (read).
    """
    kelvin = temp_degC + ZERO_DEGC_K
    a, b, c, d, e = LOG_KW
    return a + b * kelvin + c / kelvin + d * math.log10(kelvin) + e * kelvin**2


def log_k_n(factors: tuple[float, float, float, float, float], temp_degC: float) -> float:
    """Return log10 of a constant, a + b T + c/T + d log10 T + e/T^2 (form of phreeqc.dat)."""
    kelvin = temp_degC + ZERO_DEGC_K
    a, b, c, d, e = factors
    return a + b * kelvin + c / kelvin + d * math.log10(kelvin) + e / kelvin**2


@lru_cache(maxsize=4096)
def list_bindings(temp_degC: float) -> tuple[tuple[float, ...], ...]:
    """Return log10 of the cumulative H+ binding of CO3, H2SiO4 and EDTA, from bare upwards.

    Carbonate and silicate of phreeqc.dat 2024; EDTA by van 't Hoff, minteq.v4.dat (read).
    """
    k1, k2, ks1, ks12 = (log_k_n(k, temp_degC) for k in (LOG_K1, LOG_K2, LOG_KS1, LOG_KS12))
    lag = 1.0 / (temp_degC + ZERO_DEGC_K) - 1.0 / REFERENCE_K
    edta = (0.0, LOG_KY1[0] + LOG_KY1[1] * lag, LOG_KY2[0] + LOG_KY2[1] * lag)
    return (0.0, -k2, -k1 - k2), (0.0, ks1 - ks12, -ks12), edta


def list_species(
    pH: float, temp_degC: float, log_g: float, totals: tuple[float, ...]
) -> list[tuple[float, int]]:
    """Return (mol/L, charge number) of every weak anion of total CO3, silicate and EDTA.

    Share of an anion with k H+ = 10^(log beta_k - k pH + (z0^2 - zk^2) log g), over their sum.
    """
    found = []
    for total, bare, binding in zip(totals, BARE_CHARGES, list_bindings(temp_degC), strict=True):
        charges = [bare - bound for bound in range(len(binding))]
        weights = [
            10.0 ** (beta - bound * pH + (bare**2 - charges[bound] ** 2) * log_g)
            for bound, beta in enumerate(binding)
        ]
        whole = sum(weights)
        found += [(total * w / whole, z) for w, z in zip(weights, charges, strict=True)]
    return found


def converge(
    pH: float, temp_degC: float, totals: tuple[float, ...], sodium_eqpL: float
) -> tuple[float, float]:
    """Return the alkali (eq/L) that keeps a pH, and the ionic strength (mol/L) that goes with it.

    need = OH - H + sum c z; I = 1/2 sum c z^2 with sodium, and the anion of an acid that has
    taken up the rest of the sodium's alkali. Passes go on until I stands still.
    """
    strength = 0.0
    for _ in range(PASSES):
        g = activity_coefficient_n(strength, temp_degC)
        hydrogen = 10.0**-pH / g
        hydroxide = 10.0 ** (log_kw_n(temp_degC) + pH) / g
        anions = list_species(pH, temp_degC, math.log10(g), totals)
        need = float(hydroxide - hydrogen + sum(c * z for c, z in anions))
        strong = max(sodium_eqpL, need) + max(0.0, sodium_eqpL - need)
        new = 0.5 * float(strong + hydrogen + hydroxide + sum(c * z * z for c, z in anions))
        if abs(new - strength) <= SETTLED * new:
            return need, new
        strength = new
    raise ArithmeticError("the ionic strength did not settle")


def need_eqpL(
    pH: float,
    temp_degC: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    sodium_eqpL: float,
) -> float:
    """Return the alkali that keeps a pH, by the charge balance at its own ionic strength."""
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    return converge(pH, temp_degC, totals, sodium_eqpL)[0]


def solve_pH(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    sodium_eqpL: float,
    temp_degC: float,
) -> float:
    """Return the pH of a solution, the root of need(pH) = alkali between two bounds (Brent)."""
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)

    def surplus(pH: float) -> float:
        return converge(pH, temp_degC, totals, sodium_eqpL)[0] - alkali_eqpL

    return float(brentq(surplus, LOWEST_PH, HIGHEST_PH, xtol=1e-14, rtol=1e-15))
